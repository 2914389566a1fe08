//! What was read back, counted, looked at or tested and did not agree: it is settled before anything
//! more leaves the old housing.

use super::Rules;
use crate::job::{refusal::DisagreementRule, state::State};

impl State {
    pub(super) fn check_agreement(&self, rules: &mut Rules) {
        self.check_readings(rules);
        if let Some(test) = self.readings.failed_test() {
            rules.add(DisagreementRule::TestFailed(test.test, test.value.clone()));
        }
    }

    /// What was read back, counted or looked at: nothing is locked or mated over it.
    pub(super) fn check_readings(&self, rules: &mut Rules) {
        if let Some((at, _)) = self.readings.rereads.iter().find(|(_, read)| !read.agrees) {
            rules.add(DisagreementRule::ReadBack(at.clone()));
        }
        if let Some(((housing, row), _)) = self.readings.row_counts.iter().find(|(_, agrees)| !**agrees) {
            let ends = self.housings.row_ends(housing, *row);
            rules.add(DisagreementRule::RowCount { housing: housing.clone(), row: *row, ends });
        }
        if let Some(((housing, face), _)) = self.readings.looked_over.iter().find(|(_, look)| !look.sound) {
            rules.add(DisagreementRule::NotSound(*face, housing.clone()));
        }
    }
}
