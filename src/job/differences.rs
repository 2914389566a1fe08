//! Where found and should differ, what nobody decided or recorded yet, and whose neighbours are looked at.

use std::{
    borrow::Cow,
    collections::{BTreeMap, BTreeSet},
};

use crate::record::{Address, Difference, Record, compare, join_shifts};

use super::{
    JobSide, RecordSide,
    state::{JobHousing, State},
};

impl State {
    /// The differences between found and should that stand to be decided, decided ones included.
    pub fn differences(&self) -> Vec<Difference> {
        let differences = compare(&self.records.found, &self.should_in_old_labels());
        if differences.len() < 2 {
            return differences;
        }
        let rows: Vec<Vec<Address>> = self.housings.side(JobSide::Old).flat_map(JobHousing::rows).collect();
        join_shifts(differences, &rows)
    }

    /// Differences that nobody decided.
    pub fn undecided(&self) -> Vec<Difference> {
        let mut open = self.differences();
        open.retain(|d| !self.records.is_decided(d));
        open
    }

    /// Old cavities that are not on record yet, in the order of the numbering.
    pub fn unrecorded(&self) -> Vec<Address> {
        let all = self
            .housings
            .side(JobSide::Old)
            .flat_map(|h| h.housing().cavities.iter().map(|c| h.address(&c.label)));
        all.filter(|at| !self.records.found.contains_key(at)).collect()
    }

    /// What should be, in labels of the old side. What is written in new labels is taken back through
    /// the map once that is confirmed; a new cavity nothing is mapped to keeps its own.
    pub fn should_in_old_labels(&self) -> Cow<'_, Record> {
        if !self.should_is_in_new_labels() {
            return match self.records.finished.contains(&RecordSide::Should) {
                true => Cow::Owned(self.records.with_unnamed_holes_empty()),
                false => Cow::Borrowed(&self.records.should),
            };
        }
        let back: BTreeMap<&Address, &Address> = match self.mapping.confirmed {
            Some(_) => self.mapping.map.iter().filter_map(|(from, to)| Some((to.as_ref()?, from))).collect(),
            None => BTreeMap::new(),
        };
        let old = |at: &Address| self.housings.side_of(at) == Some(JobSide::Old);
        let comparable =
            self.records.should.iter().filter(|(at, _)| self.mapping.confirmed.is_some() || old(at));
        let taken_back = comparable.map(|(at, holds)| {
            let from = if old(at) { at } else { back.get(at).copied().unwrap_or(at) };
            (from.clone(), holds.clone())
        });
        Cow::Owned(taken_back.collect())
    }

    /// Whether what should be is written in labels of the new side, so that the map comes before the
    /// comparison.
    pub fn should_is_in_new_labels(&self) -> bool {
        self.records.should.keys().any(|at| self.housings.side_of(at) == Some(JobSide::New))
    }

    /// The neighbours of the cavities open at intake that carry a wire: water may have reached
    /// their terminals.
    pub(super) fn neighbours_to_look_at(&self, differences: &[Difference]) -> Vec<Address> {
        let mut wanted = BTreeSet::new();
        for open in self.records.open_at_intake(differences) {
            let Some(housing) = self.housings.housing(&open.housing) else { continue };
            let spots = &housing.housing().spots;
            let Some(here) = spots.iter().find(|s| s.label == open.label) else { continue };
            let distance = |s: &crate::face::Spot| (s.x - here.x).hypot(s.y - here.y);
            let nearest = spots.iter().map(distance).filter(|d| *d > 1e-9).fold(f64::INFINITY, f64::min);
            // Next in the row and across the rows, not on the diagonal.
            for spot in spots.iter().filter(|s| s.label != open.label && distance(s) <= nearest * 1.25) {
                let at = housing.address(&spot.label);
                if self.records.found.get(&at).is_some_and(|h| h.lead().is_some()) {
                    wanted.insert(at);
                }
            }
        }
        wanted.into_iter().collect()
    }
}
