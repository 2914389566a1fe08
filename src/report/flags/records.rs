//! Flags about the records and about what a decision for the diagram asks for.

use crate::{
    job::{DecidedCause, RecordCause, WireMissing},
    quantity::list_of,
    report::Words,
};

use super::items::called;

pub(super) fn record(cause: &RecordCause) -> Words {
    match cause {
        RecordCause::Differs(difference) => {
            Words::new(difference.sentence(), "Decide which record wins, with the reason.")
        }
        RecordCause::LookAlike { at, looks } => Words::new(
            format!("{} look alike: {looks}.", list_of(at)),
            "Tie a tag to each before it is taken out.",
        ),
        RecordCause::Unknown { lead } => Words::new(
            format!("Something about {lead} is not known."),
            "Measure it and correct the record, or accept it by name.",
        ),
        RecordCause::NoPhoto => Words::new(
            "There is no photo of the connector as found.",
            "Photograph both faces and key the photo's number.",
        ),
        RecordCause::NoCause => Words::new(
            "The cause of the damage is not recorded.",
            "Find out what broke the housing: the next one fails the same way.",
        ),
    }
}

pub(super) fn decided(cause: &DecidedCause) -> Words {
    match cause {
        DecidedCause::Colour { wire, found, drawn } => Words::new(
            format!("{wire} is {found} and drawn {drawn}; the wire stays."),
            "Label it at both ends, and accept it by name.",
        ),
        DecidedCause::Name { wire, found, drawn } => Words::new(
            format!("{wire} is drawn as {drawn} and was found as {found}: nobody traced it."),
            "Measure it through to its far end and key that with its circuit, or accept it by name.",
        ),
        DecidedCause::Kind { wire, found, drawn } => Words::new(
            format!("{wire} is found as {} and drawn as {}.", found.words(), drawn.words()),
            "Ask for the document of this machine; correct the record with what the wire is.",
        ),
        DecidedCause::WireMissing { wires, label, there } => {
            let name = wires.join(" and ");
            match there {
                WireMissing::OtherLead => Words::new(
                    format!("{name} belongs in {label} and is not there."),
                    "Find it and say where it is seen, plan a repair lead for it, or key what should be by the document.",
                ),
                WireMissing::Parted(lead) => Words::new(
                    format!("{name} belongs in the terminal of {lead} and is found nowhere."),
                    "Find it, or join it behind the housing to one new lead; then correct the record of this cavity.",
                ),
                WireMissing::NoLead => Words::new(
                    format!("{name} belongs in {label} and is found nowhere."),
                    "Find it, or plan a repair lead for it.",
                ),
            }
        }
        DecidedCause::OtherMissing { kind, at } => Words::new(
            format!("A {} belongs in {at} and is found nowhere.", called(kind)),
            "Order one like it and fit it.",
        ),
    }
}
