//! Flags on what was looked at, counted, read back and tested, and did not agree.

use crate::{
    job::{FaceFault, ReadingCause},
    quantity::list_of,
    report::Words,
};

pub(super) fn reading(cause: &ReadingCause) -> Words {
    match cause {
        ReadingCause::FaceNotSound { housing, face, found } => {
            let words: Vec<&str> = found.iter().map(|fault| fault.words()).collect();
            let told = if words.is_empty() { String::new() } else { format!(": {}", list_of(&words)) };
            let remedy = found.first().copied().map_or("Put it right, and look again.", FaceFault::remedy);
            Words::new(format!("The {face} face of {housing} is not sound{told}."), remedy)
        }
        ReadingCause::NeighboursNotLookedAt(labels) => Words::new(
            format!("{} were beside an open cavity and nobody looked at them.", list_of(labels)),
            "Look for corrosion on each terminal and up its wire.",
        ),
        ReadingCause::TestFailed { test, value, limit } => {
            let limit = limit.as_ref().map_or(String::new(), |(limit, source)| {
                let source = if source.is_empty() { "source not named" } else { source };
                format!("; limit {limit}, {source}")
            });
            Words::new(format!("The test failed: {test} ({value}{limit})."), "Find the fault and test again.")
        }
        ReadingCause::RowReadIn { housing, row } => Words::new(
            format!("Row {row} of {housing} was read in and not counted by eye."),
            "Count its wires, plugs and open holes: the list is what somebody says.",
        ),
        ReadingCause::RowDiffers { housing, row, ends } => Words::new(
            format!("The count of row {row} of {housing} ({ends}) did not agree."),
            "Find the hole that differs, put it right, count again.",
        ),
        ReadingCause::ReadElse { at, by } => Words::new(
            format!("At a re-read {at} did not show what is recorded there (read by {by})."),
            "Look at both faces, put it right, and read it again.",
        ),
    }
}
