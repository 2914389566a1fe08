//! The steps of a job in words: what each is about beside the places where it starts and ends.

use crate::{
    job::{State, Task},
    quantity::list_of,
};

use super::places::place_in_words;

/// What a step is about besides two addresses.
pub fn about(state: &State, what: &Task) -> String {
    match what {
        Task::Gate { gate } => gate.title().to_owned(),
        Task::View { housing }
        | Task::AssuranceOff { housing }
        | Task::AssuranceOn { housing }
        | Task::Unlock { housing, .. }
        | Task::Lock { housing } => housing.to_string(),
        Task::Anchor { housing, place } => {
            let words = state.housings.housing(housing).map(|h| place_in_words(h.seen().spoken(*place)));
            format!("{housing}, {}", words.unwrap_or_default())
        }
        Task::Compare { question } => question.words().to_owned(),
        Task::ConfirmMap => "map from old to new".to_owned(),
        Task::SmallPartOff { housing, part } | Task::SmallPartOn { housing, part } => {
            format!("{part} of {housing}")
        }
        Task::Look { housing, face } => format!("{face} face of {housing}"),
        Task::LookAt { cavities } => list_of(cavities),
        Task::LookMatingHalf => "mating half".to_owned(),
        Task::CountRow { housing, row } => format!("count row {row} of {housing}"),
        Task::Test { test } => test.to_string(),
        Task::Record { at: None } => "finish the record".to_owned(),
        Task::Record { at: Some(_) }
        | Task::Decide { .. }
        | Task::Photo
        | Task::Cause
        | Task::Tag { .. }
        | Task::TakePlug { .. }
        | Task::MoveWire { .. }
        | Task::MovePlug { .. }
        | Task::FitPlug { .. }
        | Task::MoveOther { .. }
        | Task::Repair { .. }
        | Task::ReRead { .. }
        | Task::Mate
        | Task::Sign => String::new(),
    }
}
