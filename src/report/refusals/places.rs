//! What is said where an act names what is not there, or the hand or the hole is full.

use crate::{
    job::refusal::{Held, PlaceBarrier},
    quantity::list_of,
    report::words::Words,
};

pub(super) fn barrier(barrier: &PlaceBarrier) -> Words {
    match barrier {
        PlaceBarrier::NoHousing { name, housings } => Words::new(
            format!("This job has no housing {name}."),
            format!("Its housings are {}.", list_of(housings)),
        ),
        PlaceBarrier::NoSuchHousing(name) => {
            Words::new(format!("This job has no housing {name}."), "Name one of its housings.")
        }
        PlaceBarrier::NoCavity { part, label } => {
            Words::new(format!("{part} has no cavity {label}."), "Read the label moulded beside the hole.")
        }
        PlaceBarrier::NoLead(lead) => {
            Words::new(format!("There is no lead {lead}."), "Name it by the cavity it was recorded in.")
        }
        PlaceBarrier::HandFull(held) => Words::new(
            format!("{} is in the hand.", in_words(held)),
            "One thing at a time: put it in, put it back, or tag and park it.",
        ),
        PlaceBarrier::Shut(at) => Words::new(format!("{at} is moulded shut."), "Read the label again."),
        PlaceBarrier::TakenByLead(at, lead) => Words::new(
            format!("{at} is taken: {lead} is in it."),
            "Read the label again; if it is bare, say where that wire is seen.",
        ),
        PlaceBarrier::TakenByPlug(at) => {
            Words::new(format!("{at} is taken: a plug is in it."), "Take the plug out first.")
        }
        PlaceBarrier::Taken(at) => Words::new(format!("{at} is taken."), "Read the label again."),
    }
}

fn in_words(held: &Held) -> String {
    match held {
        Held::Lead(lead) => lead.clone(),
        Held::Plug(plug) => format!("the plug {plug}"),
        Held::Other(other) => format!("the part {other}"),
    }
}
