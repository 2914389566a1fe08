//! Re-reads: holes of the new housing named by their place on the mating face, read back without
//! colour or label on the screen. Drawn from the seed, so that the same job asks the same holes.

use crate::{
    job::Items,
    record::{Address, Known},
};
use std::collections::BTreeSet;

use super::{
    ItemId, JobSide, ReadBack, Status, Step, Task,
    state::{Occupant, State},
    target::{Expected, Target},
};

/// How many holes are drawn besides the ones that are always asked.
const DRAWN: usize = 3;

/// A small mixing function (the finaliser of a common 64-bit generator): the same numbers on every
/// machine, no dependency on a library's version.
pub fn mix(seed: u64, n: u64) -> u64 {
    let mut z = seed.wrapping_add((n + 1).wrapping_mul(0x9E37_79B9_7F4A_7C15));
    z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    z ^ (z >> 31)
}

/// Draws up to `count` of `from`, in the order drawn.
pub fn draw<T: Clone>(seed: u64, from: &[T], count: usize) -> Vec<T> {
    let mut pool: Vec<T> = from.to_vec();
    let mut drawn = Vec::new();
    for n in 0..count {
        if pool.is_empty() {
            break;
        }
        let at = usize::try_from(mix(seed, n as u64) % pool.len() as u64).unwrap_or(0);
        drawn.push(pool.swap_remove(at));
    }
    drawn
}

impl State {
    /// Every hole that is re-read before the connector is closed, in reading order.
    pub(super) fn rereads_asked(&self, target: &Target) -> Vec<Address> {
        let mut asked: BTreeSet<Address> = BTreeSet::new();
        let mut rest: Vec<Address> = Vec::new();
        for new in self.housings.side(JobSide::New) {
            for row in new.rows() {
                let filled: Vec<&Address> = row.iter().filter(|at| is_filled(target.expected(at))).collect();
                asked.extend(filled.first().map(|at| (*at).clone()));
                asked.extend(filled.last().map(|at| (*at).clone()));
                rest.extend(filled.into_iter().cloned());
            }
        }
        for at in &rest {
            let Expected::Leads(leads) = target.expected(at) else { continue };
            if leads.iter().any(|lead| target.look_alikes.contains(lead) || self.items.is_leg_of_pair(lead)) {
                asked.insert(at.clone());
            }
        }
        asked.extend(self.readings.misread.iter().cloned());
        rest.retain(|at| !asked.contains(at));
        asked.extend(draw(self.world.ticket.seed, &rest, DRAWN));
        asked.into_iter().collect()
    }

    /// The re-read that is due between moves, by its place among the steps: one for every so many
    /// moves, so that a row shifted by one is found after ten wires and not after a hundred.
    pub(super) fn reread_due(&self, steps: &[Step]) -> Option<usize> {
        let every = usize::try_from(self.world.rules.reread_every_moves.value).unwrap_or(usize::MAX);
        let moving = steps.iter().any(|step| step.status == Status::Left && !step.what.is_closing());
        let is_early = self.items.moves.checked_div(every)? <= self.readings.rereads.len();
        if is_early || !moving || self.items.in_hand().is_some() {
            return None;
        }
        let filled = self.items.occupants();
        let is_due = |step: &Step| match &step.what {
            Task::ReRead { at } => step.status == Status::Left && filled.contains_key(at),
            _ => false,
        };
        steps.iter().position(is_due)
    }

    /// The holes that a resume check asks for: three drawn among those already filled.
    pub fn resume_rereads(&self) -> Vec<Address> {
        let filled: Vec<Address> = self
            .items
            .occupants()
            .into_keys()
            .filter(|at| self.housings.side_of(at) == Some(JobSide::New))
            .cloned()
            .collect();
        draw(self.world.ticket.seed ^ self.items.moves as u64, &filled, DRAWN)
    }

    /// Whether what was seen in a hole agrees with what is recorded to sit there.
    pub fn agrees_with(&self, at: &Address, saw: &ReadBack) -> bool {
        match (self.items.occupant(at), saw) {
            (Some(Occupant::Lead(lead)), ReadBack::Wire(colour)) => lead.seen.wires.iter().any(|wire| {
                // A wire whose colour nobody knew cannot be told from what is seen.
                wire.colour == Known::Unknown || wire.colour.known() == Some(colour)
            }),
            (Some(Occupant::Plug(_)), ReadBack::Plug) => true,
            (Some(Occupant::Other(_)), ReadBack::Plug) => self.items.plug_at(at).is_some(),
            (Some(Occupant::Other(_)), ReadBack::Nothing) => self.items.plug_at(at).is_none(),
            (None, ReadBack::Nothing) => true,
            (Some(Occupant::Lead(_)), ReadBack::Plug | ReadBack::Nothing)
            | (Some(Occupant::Plug(_)), ReadBack::Wire(_) | ReadBack::Nothing)
            | (Some(Occupant::Other(_)) | None, ReadBack::Wire(_))
            | (None, ReadBack::Plug) => false,
        }
    }

    /// The leads whose colour is asked before they are taken out: every look-alike, and at most one
    /// in five of the others, drawn by the seed.
    pub(super) fn colours_asked(&self) -> BTreeSet<ItemId> {
        self.colours_asked_of(&self.records.look_alike_leads())
    }

    /// The same, the look-alikes being known.
    pub(super) fn colours_asked_of(&self, look_alikes: &BTreeSet<ItemId>) -> BTreeSet<ItemId> {
        let has_colour = |lead: &&super::Lead| lead.first_wire().is_some_and(|w| w.colour.known().is_some());
        let others: Vec<ItemId> = self
            .items
            .leads
            .iter()
            .filter(has_colour)
            .map(|lead| lead.id.clone())
            .filter(|id| !look_alikes.contains(id))
            .collect();
        let drawn = draw(self.world.ticket.seed, &others, others.len() / 5);
        look_alikes.iter().cloned().chain(drawn).collect()
    }
}

fn is_filled(expected: &Expected) -> bool {
    !matches!(expected, Expected::Nothing | Expected::Blocked | Expected::Delivered)
}

impl Items {
    fn is_leg_of_pair(&self, lead: &ItemId) -> bool {
        self.lead(lead).is_some_and(|l| l.seen.wires.iter().any(|w| w.twisted_with.is_some()))
    }
}
