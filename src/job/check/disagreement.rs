//! What was read back, counted, looked at or tested and did not agree: it is settled before anything
//! more leaves the old housing.

use super::Rules;
use crate::job::{Code, state::State};

impl State {
    pub(super) fn check_agreement(&self, rules: &mut Rules) {
        self.check_readings(rules);
        if let Some(test) = self.readings.failed_test() {
            let say = format!("A test failed: {} ({}).", test.test, crate::quantity::harmless(&test.value));
            rules.add(Code::TestFailed, say, "Find the fault and test again.");
        }
    }

    /// What was read back, counted or looked at: nothing is locked or mated over it.
    pub(super) fn check_readings(&self, rules: &mut Rules) {
        if let Some((at, _)) = self.readings.rereads.iter().find(|(_, read)| !read.agrees) {
            let say = format!("The read-back of {at} did not agree with the record.");
            rules.add(Code::WrongCavity, say, "Look at both faces, put it right, and read it again.");
        }
        if let Some(((housing, row), _)) = self.readings.row_counts.iter().find(|(_, agrees)| !**agrees) {
            let holes = self.housings.row_ends(housing, *row);
            let say = format!("The count of row {row} of {housing} ({holes}) did not agree.");
            rules.add(Code::RowCount, say, "Find the hole that differs, put it right, and count again.");
        }
        if let Some(((housing, face), _)) = self.readings.looked_over.iter().find(|(_, look)| !look.sound) {
            let say = format!("The {face} face of {housing} was not found sound.");
            rules.add(Code::NotLookedOver, say, "Put right what you saw, and look at it again.");
        }
    }
}
