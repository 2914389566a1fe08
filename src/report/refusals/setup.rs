//! What is said against what is set up before the first move: the mating half, views, anchors, the map.

use crate::{
    job::refusal::{MapBarrier, MappingBarrier, SightBarrier},
    quantity::{list_of, quoted},
    report::{map_words::map_difference, words::Words},
};

pub(super) fn sight(barrier: &SightBarrier) -> Words {
    match barrier {
        SightBarrier::WithoutMatingHalf => Words::new(
            "Compared without the mating half in the hand, this proves nothing.",
            "Fetch the mating half, then answer.",
        ),
        SightBarrier::MatingHalfAway => Words::new(
            "The mating half is not here, by what was said.",
            "Say first that it is here, and how it looks.",
        ),
        SightBarrier::StillDamaged => Words::new(
            "The mating half was said to be damaged; by a look alone it does not get better.",
            "Say that it was cleaned or replaced. A slip is taken back as a wrong key.",
        ),
        SightBarrier::NoFeature { part, up, features } => {
            let others: String = features.iter().map(|name| format!(" or {name}")).collect();
            Words::new(
                format!("{part} has no \"{}\".", quoted(up)),
                format!("Up is top, right, bottom, left{others}."),
            )
        }
        SightBarrier::ViewFirst(housing) => Words::new(
            format!("Nobody said how {housing} is held."),
            "Say the view first: an anchor is asked by it.",
        ),
        SightBarrier::NoCavityAt(place) => Words::new(
            format!("There is no cavity at {place}."),
            "Count rows from the top, places from the left.",
        ),
        SightBarrier::NoSmallPart { part, named, small_parts } => Words::new(
            format!("{part} has no small part \"{}\".", quoted(named)),
            format!("It has {}.", list_of(small_parts)),
        ),
    }
}

pub(super) fn mapping(barrier: &MappingBarrier) -> Words {
    const FROM_OLD: &str = "A map goes from old to new.";
    match barrier {
        MappingBarrier::Moved => {
            Words::new("Something has moved already.", "Put it back, or stop this job and start a new one.")
        }
        MappingBarrier::FromNew(from) => Words::new(format!("{from} is on the new side."), FROM_OLD),
        MappingBarrier::ToOld(to) => Words::new(format!("{to} is on the old side."), FROM_OLD),
        MappingBarrier::WithoutPlace(from) => {
            Words::new(format!("{from} would have no place."), "Name the document that says so.")
        }
        MappingBarrier::MadeOtherwise { made, by, to } => Words::new(
            format!("The mating half has its terminal at {made} by {}, not at {to}.", by.words()),
            "Both halves must change, under a document: name it.",
        ),
        MappingBarrier::Shut(to) => {
            Words::new(format!("{to} is moulded shut."), "Map it to a cavity that can take it.")
        }
        MappingBarrier::MappedAlready { other, to } => Words::new(
            format!("{other} is mapped to {to} already."),
            "One cavity takes one: map one of them elsewhere, or name the document under which both are joined.",
        ),
    }
}

pub(super) fn map(barrier: &MapBarrier) -> Words {
    match barrier {
        MapBarrier::Moved => {
            Words::new("Something has moved already.", "The map is confirmed before the first move.")
        }
        MapBarrier::RecordUnfinished => {
            Words::new("The record of what is found is not finished.", "Finish it first: the map follows it.")
        }
        MapBarrier::WithoutPlace(source, at) => Words::new(
            format!("By {} {at} has no place on the new side.", source.words()),
            "Map it, or say under which document it has no place.",
        ),
        MapBarrier::TwoLeads(source, to) => Words::new(
            format!("By {} two leads would go to {to}.", source.words()),
            "One cavity takes one: map one of them elsewhere, or plan to join them under a document.",
        ),
        MapBarrier::LabelsMislead(by, differs) => Words::new(
            format!("The same labels are other holes. By {} {}", by.words(), map_difference(differs)),
            format!("Confirm the map by {}, or map by hand under a document.", by.words()),
        ),
    }
}
