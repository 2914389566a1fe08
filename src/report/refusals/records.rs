//! What is said against records, and against decisions on them.

use super::moves::place_in_words;
use crate::{
    job::refusal::{DecisionBarrier, RecordBarrier, Recorded, WorldBarrier},
    quantity::count_of,
    report::words::Words,
};

pub(super) fn world(barrier: &WorldBarrier) -> Words {
    match barrier {
        WorldBarrier::TicketWritten => {
            Words::new("The ticket is written.", "Key a note for what should be added.")
        }
        WorldBarrier::NameTaken(name) => {
            Words::new(format!("There is a housing {name} already."), "Give each housing its own name.")
        }
        WorldBarrier::Moved => Words::new(
            "Something has moved already.",
            "Stop this job and start a new one from what was left.",
        ),
        WorldBarrier::RecordFinished => {
            Words::new("The record of what is found is finished.", "Correct the cavity, with the reason.")
        }
        WorldBarrier::NotRecorded(left, first) => Words::new(
            format!("{} not recorded yet, the first is {first}.", count_of(*left, "cavity")),
            "\"Nothing there\" is not an answer: key open, empty or blocked.",
        ),
        WorldBarrier::FlippedUnder(what) => Words::new(
            format!("{} has left its hole; a whole record is not flipped under it.", first(what)),
            "Correct single cavities, or put everything back first.",
        ),
        WorldBarrier::NotOneOld => {
            Words::new("Only the record of one old housing can be flipped.", "Name an old housing.")
        }
        WorldBarrier::NotFlipped(housing, how) => Words::new(
            format!("{housing} cannot have been {}: its holes have no counterparts.", how.in_words()),
            "Correct the cavities one by one.",
        ),
    }
}

pub(super) fn record(barrier: &RecordBarrier) -> Words {
    const RECORD_STAYS: &str = "Say where it is seen; the record of its hole stays.";
    match barrier {
        RecordBarrier::OfNewSide(at) => Words::new(
            format!("{at} is on the new side."),
            "Records are of the old side; the new side follows from the moves.",
        ),
        RecordBarrier::LeadElsewhere(lead) => Words::new(
            format!("{lead} was recorded there and is elsewhere now."),
            "Say where it is seen instead.",
        ),
        RecordBarrier::PlugElsewhere(at, place) => {
            Words::new(format!("The plug recorded in {at} is {} now.", place_in_words(place)), RECORD_STAYS)
        }
        RecordBarrier::PartElsewhere(at, place) => {
            Words::new(format!("The part recorded in {at} is {} now.", place_in_words(place)), RECORD_STAYS)
        }
        RecordBarrier::SitsThere(what, at) => Words::new(
            format!("On record {} sits in {at} now.", inside(what)),
            "Say first where that is seen.",
        ),
        RecordBarrier::NoWire(at) => {
            Words::new(format!("The lead in {at} has no wire."), "Record a terminal without wire as spare.")
        }
        RecordBarrier::TwistedWithItself(at) => Words::new(
            format!("The wire in {at} cannot be twisted with itself."),
            "Name the cavity of its partner.",
        ),
        RecordBarrier::DefinedShut(at) => Words::new(
            format!("By its definition {at} is moulded shut."),
            "Check the housing's part and revision, and the label.",
        ),
    }
}

pub(super) fn decision(barrier: &DecisionBarrier) -> Words {
    match barrier {
        DecisionBarrier::HasLeft(what) => Words::new(
            format!("{} has left its hole already.", first(what)),
            "Put it back where it came from, then decide anew.",
        ),
        DecisionBarrier::NoDifference(at) => {
            Words::new(format!("There is no difference at {at}."), "`repin check` lists them.")
        }
    }
}

/// A thing at the head of a sentence.
fn first(what: &Recorded) -> String {
    match what {
        Recorded::Lead(lead) => lead.clone(),
        Recorded::Plug(plug) => format!("The plug of {plug}"),
        Recorded::Other(other) => format!("What was in {other}"),
    }
}

/// A thing inside a sentence.
fn inside(what: &Recorded) -> String {
    match what {
        Recorded::Lead(lead) => lead.clone(),
        Recorded::Plug(plug) => format!("the plug of {plug}"),
        Recorded::Other(other) => format!("what was in {other}"),
    }
}
