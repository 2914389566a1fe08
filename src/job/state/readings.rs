//! What was read back, counted, looked over and tested.

use std::collections::{BTreeMap, BTreeSet};

use crate::{
    face::Face,
    job::{LookSeen, ReReadSeen, TestSeen},
    record::{Address, HousingName},
};

/// What was read back, counted, looked over and tested.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Readings {
    /// Re-reads of new holes, the last of each.
    pub rereads: BTreeMap<Address, ReReadSeen>,
    /// New holes at which a re-read once did not agree: they are asked again at the end.
    pub misread: BTreeSet<Address>,
    /// Row counts of new housings, the last of each: whether it agreed.
    pub row_counts: BTreeMap<(HousingName, usize), bool>,
    /// Faces looked over, the last look at each.
    pub looked_over: BTreeMap<(HousingName, Face), LookSeen>,
    /// When something last moved on the new side, as a place in the journal: tests before that are made again.
    pub new_moved: Option<usize>,
    /// Old cavities looked at closely.
    pub looked_at: BTreeSet<Address>,
    /// Old cavities that were looked at together, of which one at least was not sound.
    pub one_not_sound: Vec<Vec<Address>>,
    /// Tests.
    pub tests: Vec<TestSeen>,
}

impl Readings {
    /// A test that failed, and was not passed since.
    pub fn failed_test(&self) -> Option<&super::TestSeen> {
        self.tests.iter().filter(|test| !test.passed).find(|failed| {
            let same = |test: &&super::TestSeen| test.test == failed.test && test.circuit == failed.circuit;
            self.tests.iter().rev().find(same).is_some_and(|last| !last.passed)
        })
    }
}
