//! Flags, in words: for each what is wrong and what to do, a file a topic.

mod closing;
mod housings;
mod items;
mod leads;
mod readings;
mod records;
mod repairs;
mod splices;
mod start;

pub use splices::no_plan;

use crate::{
    job::{Flag, FlagCause},
    report::Words,
};

use super::objections::objection;

/// What is wrong, and what to do.
pub fn flag_words(flag: &Flag) -> Words {
    match &flag.cause {
        FlagCause::Start(cause) => start::start(cause),
        FlagCause::Record(cause) => records::record(cause),
        FlagCause::Decided(cause) => records::decided(cause),
        FlagCause::Fit(cause) => start::fit(cause),
        FlagCause::Lead { lead, what } => leads::lead(lead, what),
        FlagCause::Objection(what) => objection(what),
        FlagCause::Crimp { lead, what } => repairs::crimp(lead, what),
        FlagCause::Splice { lead, what } => splices::splice(lead, what),
        FlagCause::Order { lead, what } => repairs::order(lead, what),
        FlagCause::Bundle(cause) => splices::bundle(cause),
        FlagCause::Plug(cause) => items::plug(cause),
        FlagCause::Other(cause) => items::other(cause),
        FlagCause::Housing(cause) => housings::housing(cause),
        FlagCause::Reading(cause) => readings::reading(cause),
        FlagCause::Closing(cause) => closing::closing(cause),
        FlagCause::Substitute { part, line } => items::substitute(part.as_ref(), *line),
        FlagCause::Passed { code, by, reason } => Words::new(
            format!("{by} went past {code}: {reason}"),
            "Inspect what was done to it, and put it right.",
        ),
        FlagCause::Temporary { due, reason } => Words::new(
            format!("A temporary measure stands until {due}: {reason}"),
            "Put it right by then, and say so here.",
        ),
        FlagCause::NotFinished(left) => closing::not_finished(*left),
    }
}
