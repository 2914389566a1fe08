//! What is said before anything leaves an old housing or enters a new one.

use crate::{
    job::refusal::{StartBarrier, StartRule},
    quantity::count_of,
    report::words::Words,
};

pub(super) fn barrier(barrier: &StartBarrier) -> Words {
    let say = match barrier {
        StartBarrier::RecordUnfinished(0) => "The record of what is found is not finished.".to_owned(),
        StartBarrier::RecordUnfinished(left) => {
            format!("The record of what is found is not finished: {} left.", count_of(*left, "cavity"))
        }
    };
    Words::new(say, "Finish it before anything is moved.")
}

pub(super) fn rule(rule: &StartRule) -> Words {
    match rule {
        StartRule::NoPlace(lead) => Words::new(
            format!("{lead} has no place: its new cavity is moulded shut."),
            "Ask the desk for an earlier revision, or map it under a document.",
        ),
        StartRule::ClipMissing(clip) => Words::new(
            format!("The new housing comes without the {clip} of the old one."),
            "Do not start: ask the desk for the housing with it.",
        ),
        StartRule::ViewUnset(housing) => Words::new(
            format!("Nobody said how {housing} is held."),
            "Say which face is towards you and which side is up.",
        ),
        StartRule::ViewNotProved(housing) => {
            Words::new(format!("The view of {housing} is not proved."), "Answer its anchors first.")
        }
        StartRule::Undecided(difference) => {
            Words::new(difference.sentence(), "Decide it first, with the reason.")
        }
        StartRule::MapNotConfirmed => {
            Words::new("The map from old to new is not confirmed.", "Confirm it first.")
        }
        StartRule::RowNotCounted { housing, row } => Words::new(
            format!("The record of {housing} was read in, and row {row} was not counted by eye."),
            "Count its wires, plugs and open holes; the list is what somebody says.",
        ),
        StartRule::TwoLeads(to) => Words::new(
            format!("Two leads are mapped to {to}, and it is not planned to join them."),
            "Plan to join them under the document, or map one of them elsewhere.",
        ),
        StartRule::NotCompared(question) => Words::new(
            format!("The {} was not found to agree with the mating half.", question.words()),
            "Compare it with the mating half in your hand.",
        ),
    }
}
