//! What is said as long as something that was read back, counted, looked at or tested does not agree.

use crate::{job::refusal::DisagreementRule, quantity::harmless, report::words::Words};

pub(super) fn rule(rule: &DisagreementRule) -> Words {
    match rule {
        DisagreementRule::TestFailed(test, value) => Words::new(
            format!("A test failed: {test} ({}).", harmless(value)),
            "Find the fault and test again.",
        ),
        DisagreementRule::ReadBack(at) => Words::new(
            format!("The read-back of {at} did not agree with the record."),
            "Look at both faces, put it right, and read it again.",
        ),
        DisagreementRule::RowCount { housing, row, ends } => Words::new(
            format!("The count of row {row} of {housing} ({ends}) did not agree."),
            "Find the hole that differs, put it right, and count again.",
        ),
        DisagreementRule::NotSound(face, housing) => Words::new(
            format!("The {face} face of {housing} was not found sound."),
            "Put right what you saw, and look at it again.",
        ),
    }
}
