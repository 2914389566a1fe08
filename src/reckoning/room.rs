//! The room a bundle leaves for splices, in whole nanometres: where each may start, what must lie
//! between two, and which leads cannot all be placed.

use super::StaggerRequest;

/// A lead in whole nanometres.
#[derive(Debug)]
pub(super) struct Want {
    /// The first start.
    pub first: i64,
    /// The last end.
    pub last: i64,
    /// Length of the sleeve.
    pub sleeve: i64,
    /// Which of the gaps it asks for.
    pub kind: usize,
    /// Starts it may not have: open stretches, sorted and joined.
    barred: Vec<(i64, i64)>,
    /// The lead before it that asks for just the same: those two keep their order.
    twin: Option<usize>,
}

/// The room of a plan.
#[derive(Debug)]
pub(super) struct Room {
    pub leads: Vec<Want>,
    /// The gaps asked for, smallest first.
    pub gaps: Vec<i64>,
    /// Leads by their sleeves, shortest first.
    by_sleeve: Vec<usize>,
    /// Where the first sleeve may start.
    lowest: i64,
}

/// Whether all leads can be placed.
pub(super) enum Feasible {
    Yes,
    /// A smallest set that cannot.
    No(Vec<usize>),
}

fn nm(mm: f64) -> i64 {
    (mm * 1e6).round() as i64
}

impl Room {
    pub fn of(ask: &StaggerRequest) -> Self {
        let gap_of = |own: Option<f64>| nm(own.unwrap_or(ask.gap_mm).max(ask.gap_mm));
        let mut gaps: Vec<i64> = ask.leads.iter().map(|lead| gap_of(lead.gap_mm)).collect();
        gaps.sort_unstable();
        gaps.dedup();
        if gaps.is_empty() {
            gaps.push(nm(ask.gap_mm));
        }
        let mut leads: Vec<Want> = Vec::new();
        for lead in &ask.leads {
            let (sleeve, gap) = (nm(lead.sleeve_mm), gap_of(lead.gap_mm));
            let keep_out = ask.keep_out_mm.iter().map(|(from, to)| (nm(*from) - sleeve, nm(*to)));
            let existing = ask.existing_mm.iter();
            let existing = existing.map(|(from, to)| (nm(*from) - gap - sleeve, nm(*to) + gap));
            let made = ask.made_mm.iter().map(|(from, to, own)| {
                let gap = gap.max(nm(*own));
                (nm(*from) - gap - sleeve, nm(*to) + gap)
            });
            let mut want = Want {
                first: nm(ask.clearance_mm.max(lead.damage_mm + ask.margin_mm)),
                last: nm(lead.last_mm),
                sleeve,
                kind: gaps.iter().position(|g| *g == gap).unwrap_or(0),
                barred: joined(keep_out.chain(existing).chain(made).collect()),
                twin: None,
            };
            let same = |other: &Want| {
                (other.first, other.last, other.sleeve, other.kind)
                    == (want.first, want.last, want.sleeve, want.kind)
            };
            want.twin = leads.iter().rposition(same);
            leads.push(want);
        }
        let mut by_sleeve: Vec<usize> = (0..leads.len()).collect();
        by_sleeve.sort_by_key(|lead| leads.get(*lead).map_or(0, |l| l.sleeve));
        let lowest = leads.iter().map(|lead| lead.first).min().unwrap_or(0);
        Self { leads, gaps, by_sleeve, lowest }
    }

    /// The gap between a sleeve that asks for one of the gaps and the one of a lead.
    pub fn gap_between(&self, kind: usize, lead: usize) -> i64 {
        let own = self.leads.get(lead).map_or(0, |l| l.kind);
        self.gaps.get(kind.max(own)).copied().unwrap_or(0)
    }

    /// Whether a lead may come next: it is not set yet, and its twin before it is.
    pub fn may_follow(&self, set: usize, lead: usize) -> bool {
        let twin = self.leads.get(lead).and_then(|l| l.twin);
        set & (1 << lead) == 0 && twin.is_none_or(|twin| set & (1 << twin) != 0)
    }

    /// The earliest start of a lead from a place on; none when its end would lie too far.
    pub fn earliest(&self, lead: usize, from: i64) -> Option<i64> {
        let want = self.leads.get(lead)?;
        let mut start = want.first.max(from);
        for (barred_from, barred_to) in &want.barred {
            // Touching an edge is allowed.
            if start > *barred_from && start < *barred_to {
                start = *barred_to;
            }
        }
        (start + want.sleeve <= want.last).then_some(start)
    }

    /// Less than this no completion can sum up to: the leads left, shortest sleeve first, with the
    /// smallest gap and nothing in their way; or each as if it were alone. None fits where one of
    /// them would end too far.
    pub fn least_sum(&self, set: usize, end: i64, sum: i64, kind: usize) -> i64 {
        let small = self.gaps.first().copied().unwrap_or(0);
        let from = end + self.gaps.get(kind).copied().unwrap_or(0);
        let (mut in_row, mut alone, mut at) = (sum, sum, from.max(self.lowest));
        for (lead, want) in self.by_sleeve.iter().filter_map(|lead| Some((*lead, self.leads.get(*lead)?))) {
            if set & (1 << lead) != 0 {
                continue;
            }
            in_row += 2 * at + want.sleeve;
            at += want.sleeve + small;
            let start = from.max(want.first);
            if start + want.sleeve > want.last {
                return i64::MAX;
            }
            alone += 2 * start + want.sleeve;
        }
        in_row.max(alone)
    }

    /// Whether all leads can be placed, else a smallest set that cannot, the first by the order
    /// given.
    pub fn smallest_misfit(&self) -> Feasible {
        let (count, kinds) = (self.leads.len(), self.gaps.len());
        let sets = 1_usize << count;
        // For each set: how early its last sleeve can end, by the gap that one asks for.
        let mut ends: Vec<Option<i64>> = vec![None; sets * kinds];
        let mut misfit: Option<usize> = None;
        for set in 1..sets {
            for lead in (0..count).filter(|lead| set & (1 << lead) != 0) {
                let Some(want) = self.leads.get(lead) else { continue };
                let before = set & !(1 << lead);
                let froms = (0..kinds).filter_map(|kind| match before {
                    0 => (kind == 0).then_some(i64::MIN / 4),
                    _ => Some(ends.get(before * kinds + kind).copied()?? + self.gap_between(kind, lead)),
                });
                let start = froms.filter_map(|from| self.earliest(lead, from)).min();
                let Some(end) = start.map(|start| start + want.sleeve) else { continue };
                if let Some(slot) = ends.get_mut(set * kinds + want.kind) {
                    *slot = Some(slot.map_or(end, |now: i64| now.min(end)));
                }
            }
            let fits = ends.iter().skip(set * kinds).take(kinds).any(Option::is_some);
            let smaller = |than: usize| (set.count_ones(), members(set)) < (than.count_ones(), members(than));
            if !fits && misfit.is_none_or(smaller) {
                misfit = Some(set);
            }
        }
        misfit.map_or(Feasible::Yes, |set| Feasible::No(members(set)))
    }
}

fn members(set: usize) -> Vec<usize> {
    (0..usize::BITS as usize).filter(|lead| set >> lead & 1 == 1).collect()
}

/// Open stretches sorted, with those that overlap joined.
fn joined(mut stretches: Vec<(i64, i64)>) -> Vec<(i64, i64)> {
    stretches.retain(|(from, to)| from < to);
    stretches.sort_unstable();
    let mut out: Vec<(i64, i64)> = Vec::new();
    for (from, to) in stretches {
        match out.last_mut() {
            Some(last) if from < last.1 => last.1 = last.1.max(to),
            _ => out.push((from, to)),
        }
    }
    out
}
