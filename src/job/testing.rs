//! Which tests of the closed connector are still asked for.

use crate::shop_rules::TestKind;

use super::state::State;

impl State {
    /// The tests that are asked for and were not passed.
    pub fn tests_left(&self) -> Vec<TestKind> {
        // A test before the last move says nothing about what moved.
        let is_of_now = |test: &super::TestSeen| self.readings.new_moved.is_none_or(|moved| test.n > moved);
        let passed = |kind: &TestKind| {
            let last = self.readings.tests.iter().rev().find(|test| test.test == *kind);
            last.is_some_and(|test| test.passed && is_of_now(test))
        };
        self.world.rules.tests.value.iter().copied().filter(|kind| !passed(kind)).collect()
    }
}
