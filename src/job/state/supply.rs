//! What was asked of the parts desk, and what came.

use std::collections::BTreeSet;

use crate::{
    job::{Arrival, ItemId, Lead, Place, RequestSeen, RequestedLine},
    record::Address,
    supply::{Amount, Counts},
};

/// What was asked of the parts desk, and what came.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Supply {
    /// The last request sent.
    pub requested: Option<RequestSeen>,
    /// What came for the lines of the request, in the order it came.
    pub arrivals: Vec<Arrival>,
    /// Leads for which everything asked for on a line of the request has come: a later revision that asks
    /// for more does not take it from them.
    pub supplied: BTreeSet<(u32, ItemId)>,
}

impl Supply {
    /// Where the first lead was recorded that waits for a line of the request.
    pub(in crate::job) fn waits_at(&self, line: u32) -> Option<Address> {
        let lines = self.requested.iter().flat_map(|request| &request.lines);
        let mut leads = lines.filter(|asked| asked.line == line).flat_map(|asked| &asked.leads);
        match leads.next() {
            Some(ItemId::At(at)) => Some(at.clone()),
            _ => None,
        }
    }

    /// Whether a parked lead waits for a part: its repair is planned, and the parts asked for it
    /// have not all come (or were not asked for yet).
    pub fn waits_for_part(&self, lead: &Lead) -> bool {
        let needs_part =
            lead.planned.is_some_and(|how| how == super::RepairKind::NewSeal || how.renews_terminal());
        if !needs_part || !matches!(lead.place, Place::Parked(_) | Place::NotMade) {
            return false;
        }
        let lines = self.requested.iter().flat_map(|request| &request.lines);
        let mut asked = lines.filter(|line| line.leads.contains(&lead.id)).peekable();
        let is_supplied = |line: u32| self.supplied.contains(&(line, lead.id.clone()));
        asked.peek().is_none() || asked.any(|line| !is_supplied(line.line) && !self.counts(line).has_come())
    }

    /// What came for a line of the request, held against what it asks for. What can be used is as asked
    /// for, or a substitute that was accepted.
    pub fn counts_of(&self, line: u32, asked: Amount) -> Counts {
        let mut counts = Counts::of(asked);
        for arrival in self.arrivals.iter().filter(|arrival| arrival.line == line) {
            match arrival.is_of_use() {
                true => counts.arrive(arrival.count),
                false => counts.arrive_unusable(arrival.count),
            }
        }
        counts
    }

    /// What came for a line that was sent. A journal of version 1 does not say how many spares were
    /// asked for.
    pub fn counts(&self, sent: &RequestedLine) -> Counts {
        self.counts_of(sent.line, sent.asked.as_ref().map_or(Amount::of(sent.need), |asked| asked.amount))
    }
}
