//! Where the splices of a bundle sit: the exact optimum. Least sum of the middles, then the least
//! largest middle, then the smallest starts, compared lead by lead in the order given.
//!
//! Reckoned in whole nanometres, so that ties are ties. For one order of the leads along the
//! harness, setting each as early as it may be makes every start the smallest it can be; what is
//! searched is the order, over sets of leads already set, keeping for each set only what nothing
//! else beats.

use super::room::{Feasible, Room};
use crate::reckoning::StaggerRequest;

/// How many leads are planned in one call.
pub const MOST_LEADS: usize = 12;

const NM_PER_MM: f64 = 1e6;

/// Where a splice sits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SplicePlace {
    /// Where its sleeve starts.
    pub start_mm: f64,
    /// Its middle.
    pub centre_mm: f64,
    /// Where its sleeve ends.
    pub end_mm: f64,
}

/// The outcome.
#[derive(Debug, Clone, PartialEq)]
pub enum Stagger {
    /// A place for every lead, in the order asked.
    Plan {
        /// The places.
        places: Vec<SplicePlace>,
        /// The sum of the middles.
        sum_centre_mm: f64,
    },
    /// A smallest set of leads that cannot all be placed, by their numbers from 0.
    Cannot(Vec<usize>),
    /// More leads than one call takes.
    TooMany,
}

/// A set of leads already set, and how. Leads stand in it in the order in which they were asked.
#[derive(Debug, Clone)]
struct Partial {
    /// Where the last sleeve ends, in nm.
    end: i64,
    /// Twice the sum of the middles, in nm.
    sum: i64,
    /// Twice the last middle.
    largest: i64,
    starts: [i64; MOST_LEADS],
}

impl Partial {
    /// Whether everything this one leads to is at least as good as what the other leads to.
    fn beats(&self, other: &Self) -> bool {
        self.end <= other.end
            && (self.sum < other.sum || (self.sum == other.sum && self.starts <= other.starts))
    }
}

/// Plans the splices.
pub fn stagger(ask: &StaggerRequest) -> Stagger {
    if ask.leads.len() > MOST_LEADS {
        return Stagger::TooMany;
    }
    let room = Room::of(ask);
    // A plan that is good already spares the question whether there is one.
    let guess = first_guess(&room);
    if guess.is_none()
        && let Feasible::No(set) = room.smallest_misfit()
    {
        return Stagger::Cannot(set);
    }
    match best(&room, guess) {
        Some(label) => plan(&room, &label),
        None => Stagger::Cannot((0..ask.leads.len()).collect()),
    }
}

/// How much further, in whole millimetres, the last end of every lead would have to be for all to fit;
/// none when that would not help.
pub fn room_needed_mm(ask: &StaggerRequest) -> Option<f64> {
    if ask.leads.len() > MOST_LEADS {
        return None;
    }
    let fits_with = |more_mm: u32| {
        let mut wide = ask.clone();
        wide.leads.iter_mut().for_each(|lead| lead.last_mm += f64::from(more_mm));
        let room = Room::of(&wide);
        first_guess(&room).is_some() || matches!(room.smallest_misfit(), Feasible::Yes)
    };
    // More room never makes a plan worse, so the least that does is found by halving.
    let (mut too_little, mut enough) = (0, MOST_ROOM_MM);
    if !fits_with(enough) {
        return None;
    }
    while enough - too_little > 1 {
        let middle = u32::midpoint(too_little, enough);
        match fits_with(middle) {
            true => enough = middle,
            false => too_little = middle,
        }
    }
    Some(f64::from(enough))
}

/// More room than this is no bundle's.
const MOST_ROOM_MM: u32 = 1 << 14;

fn plan(room: &Room, label: &Partial) -> Stagger {
    let mm = |nm: i64| nm as f64 / NM_PER_MM;
    let place = |(start, sleeve): (&i64, i64)| SplicePlace {
        start_mm: mm(*start),
        centre_mm: (2 * start + sleeve) as f64 / (2.0 * NM_PER_MM),
        end_mm: mm(start + sleeve),
    };
    let places = label.starts.iter().zip(room.leads.iter().map(|lead| lead.sleeve)).map(place).collect();
    Stagger::Plan { places, sum_centre_mm: label.sum as f64 / (2.0 * NM_PER_MM) }
}

/// The best way to set all leads; no worse than the guess.
fn best(room: &Room, guess: Option<Partial>) -> Option<Partial> {
    let count = room.leads.len();
    let all = (1_usize << count) - 1;
    let kinds = room.gaps.len();
    let empty = Partial { end: i64::MIN / 4, sum: 0, largest: 0, starts: [0; MOST_LEADS] };
    // Labels by the set already set and the gap the last one of it asks for.
    let mut labels: Vec<Vec<Partial>> = vec![Vec::new(); (all + 1) * kinds];
    labels.first_mut()?.push(empty);
    let mut bound = guess.map_or(i64::MAX, |label| label.sum);
    for set in 0..all {
        for kind in 0..kinds {
            let here = std::mem::take(labels.get_mut(set * kinds + kind)?);
            for label in here {
                if room.least_sum(set, label.end, label.sum, kind) > bound {
                    continue;
                }
                for lead in (0..count).filter(|lead| room.may_follow(set, *lead)) {
                    let Some(next) = extend(room, &label, set == 0, kind, lead) else { continue };
                    if set | (1 << lead) == all {
                        bound = bound.min(next.sum);
                    }
                    let slot = (set | (1 << lead)) * kinds + room.leads.get(lead)?.kind;
                    keep(labels.get_mut(slot)?, next);
                }
            }
        }
    }
    let finished = labels.into_iter().skip(all * kinds).flatten();
    finished.min_by(|a, b| (a.sum, a.largest, a.starts).cmp(&(b.sum, b.largest, b.starts)))
}

fn extend(room: &Room, label: &Partial, is_first: bool, kind: usize, lead: usize) -> Option<Partial> {
    let from = if is_first { i64::MIN / 4 } else { label.end + room.gap_between(kind, lead) };
    let start = room.earliest(lead, from)?;
    let sleeve = room.leads.get(lead)?.sleeve;
    let mut next = label.clone();
    *next.starts.get_mut(lead)? = start;
    next.end = start + sleeve;
    next.largest = 2 * start + sleeve;
    next.sum += next.largest;
    Some(next)
}

fn keep(labels: &mut Vec<Partial>, fresh: Partial) {
    if labels.iter().any(|label| label.beats(&fresh)) {
        return;
    }
    labels.retain(|label| !fresh.beats(label));
    labels.push(fresh);
}

/// A plan that is good without search: short sleeves first, or the first end first, then leads
/// changed about while that helps.
fn first_guess(room: &Room) -> Option<Partial> {
    let of = |lead: usize| room.leads.get(lead).map_or((0, 0, 0), |l| (l.first, l.sleeve, l.last));
    let keys: [&dyn Fn(usize) -> (i64, i64); 4] = [
        &|lead| (of(lead).1, of(lead).0),
        &|lead| (of(lead).0, of(lead).1),
        &|lead| (of(lead).2, of(lead).1),
        &|lead| (of(lead).0 + of(lead).1, of(lead).1),
    ];
    let orders = keys.map(|key| {
        let mut order: Vec<usize> = (0..room.leads.len()).collect();
        order.sort_by_key(|lead| key(*lead));
        order
    });
    let set = orders.into_iter().filter_map(|order| Some((in_order(room, &order)?, order)));
    let (mut label, mut order) = set.min_by_key(|(label, _)| label.sum)?;
    loop {
        let mut best: Option<(Partial, Vec<usize>)> = None;
        for (a, b) in (0..order.len()).flat_map(|a| (0..a).map(move |b| (a, b))) {
            let mut changed = order.clone();
            changed.swap(a, b);
            if let Some(fresh) = in_order(room, &changed)
                && fresh.sum < best.as_ref().map_or(label.sum, |(best, _)| best.sum)
            {
                best = Some((fresh, changed));
            }
        }
        match best {
            Some(better) => (label, order) = better,
            None => return Some(label),
        }
    }
}

/// The leads set one after the other, each as early as it may be.
fn in_order(room: &Room, order: &[usize]) -> Option<Partial> {
    let mut label = Partial { end: 0, sum: 0, largest: 0, starts: [0; MOST_LEADS] };
    let mut kind = 0;
    for (n, lead) in order.iter().enumerate() {
        label = extend(room, &label, n == 0, kind, *lead)?;
        kind = room.leads.get(*lead)?.kind;
    }
    Some(label)
}
