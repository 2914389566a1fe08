//! What was found, what should be, and what was decided between the two.

use std::collections::{BTreeMap, BTreeSet};

use crate::{
    job::{Decision, ItemId, RecordSide},
    reckoning::DamageCause,
    record::{Address, CavityContent, Difference, DifferenceKind, HousingName, Record},
};

/// What was found, what should be, and what was decided between the two.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Records {
    /// What is physically in the old housings.
    pub found: Record,
    /// What belongs there.
    pub should: Record,
    /// Which records are finished.
    pub finished: BTreeSet<RecordSide>,
    /// Decisions on differences between the records.
    pub decisions: BTreeMap<Address, Decision>,
    /// Old housings whose record was read in from a list: what somebody says until their rows are counted.
    pub listed: BTreeSet<HousingName>,
    /// Rows of old housings that were counted by eye and agreed with the record.
    pub counted: BTreeSet<(HousingName, usize)>,
    /// The cause of the damage.
    pub cause: Option<String>,
    /// Which of the known causes it is.
    pub cause_kind: Option<DamageCause>,
}

impl Records {
    /// Whether somebody decided a difference: this one, not another that stood there before.
    pub fn is_decided(&self, difference: &Difference) -> bool {
        self.decided_for(difference).is_some()
    }

    /// Which record wins a difference, once somebody decided it.
    pub fn decided_for(&self, difference: &Difference) -> Option<RecordSide> {
        let decision = self.decisions.get(&difference.at)?;
        decision.about.contains(&difference.kind).then_some(decision.wins)
    }

    /// Cavities that were open at intake: something belongs there and is not there.
    pub(in crate::job) fn open_at_intake(&self, differences: &[Difference]) -> Vec<Address> {
        let explained: BTreeSet<&Address> = differences
            .iter()
            .flat_map(|d| match &d.kind {
                DifferenceKind::Elsewhere { should_at, .. } => vec![should_at],
                DifferenceKind::Shifted { moves } => moves.iter().map(|(.., there)| there).collect(),
                DifferenceKind::Swapped { .. }
                | DifferenceKind::Missing { .. }
                | DifferenceKind::Extra { .. }
                | DifferenceKind::Described { .. }
                | DifferenceKind::Content { .. } => Vec::new(),
            })
            .collect();
        let open = self.found.iter().filter(|(at, h)| **h == CavityContent::Open && !explained.contains(at));
        open.map(|(at, _)| at.clone()).collect()
    }

    /// Whether both records that are kept are finished.
    pub fn records_finished(&self) -> bool {
        self.finished.contains(&RecordSide::Found)
    }

    /// A list of what should be that is finished names every wire: where it names none, none belongs.
    pub(in crate::job) fn with_unnamed_holes_empty(&self) -> Record {
        let mut should = self.should.clone();
        let wired = self.found.iter().filter(|(_, holds)| holds.lead().is_some());
        for (at, _) in wired {
            should.entry(at.clone()).or_insert(CavityContent::Empty);
        }
        should
    }

    /// Cavities a wire may yet belong in: by a difference that nobody decided.
    pub(in crate::job) fn waiting_for_wires(&self, differences: &[Difference]) -> BTreeSet<Address> {
        let open = differences.iter().filter(|difference| !self.is_decided(difference));
        open.flat_map(|difference| match &difference.kind {
            DifferenceKind::Elsewhere { should_at, .. } => vec![should_at.clone()],
            DifferenceKind::Shifted { moves } => moves.iter().map(|(.., there)| there.clone()).collect(),
            DifferenceKind::Missing { .. } => vec![difference.at.clone()],
            DifferenceKind::Swapped { .. }
            | DifferenceKind::Extra { .. }
            | DifferenceKind::Described { .. }
            | DifferenceKind::Content { .. } => Vec::new(),
        })
        .collect()
    }

    pub(in crate::job) fn was_plugged(&self, at: &Address) -> bool {
        self.found.get(at) == Some(&CavityContent::Plugged)
    }

    /// The leads that look alike, by the found record: each with the group it belongs to.
    pub fn look_alike_leads(&self) -> BTreeSet<ItemId> {
        let groups = crate::record::look_alikes(&self.found);
        groups.into_iter().flat_map(|group| group.at.into_iter().map(ItemId::At)).collect()
    }
}
