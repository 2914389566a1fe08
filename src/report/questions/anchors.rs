//! Anchors and the map, in words.

use crate::{
    face::PosePlace,
    job::{MapProposal, Misread, pose_in_words},
    procedure::{AnchorQuestion, JobView, MapQuestion, WhatFits, fits},
    quantity::list_of,
    record::{Address, HousingName},
    report::{
        map_words::{map_difference, relabelled},
        places::place_in_words,
        refusals::in_one_line,
    },
};

pub(super) fn anchor(view: &JobView<'_>, asked: &AnchorQuestion) -> String {
    match asked {
        AnchorQuestion::Colour { housing, place } => {
            format!("{} Which colour goes in there?", at_place(view, housing, Some(*place)))
        }
        AnchorQuestion::Mark { housing, place } => {
            format!("{} Which mark is moulded there?", at_place(view, housing, Some(*place)))
        }
        AnchorQuestion::Feature(housing) => {
            format!("{} which feature do you see on the upper side?", at_place(view, housing, None))
        }
        AnchorQuestion::Failed(housing) => failed(view, housing),
    }
}

/// How a housing is held, and a place on it.
fn at_place(view: &JobView<'_>, name: &HousingName, place: Option<PosePlace>) -> String {
    let Some(housing) = view.housing(name) else { return format!("ANCHOR {name}:") };
    let pose = pose_in_words(housing.housing(), housing.pose());
    match place {
        Some(place) => format!("ANCHOR {name}, {pose}: {}.", place_in_words(housing.seen().spoken(place))),
        None => format!("ANCHOR {name}, {pose}:"),
    }
}

/// What the anchors say of the record.
fn failed(view: &JobView<'_>, name: &HousingName) -> String {
    let shifted = |shift| Misread::Shift(shift).in_words();
    match view.housing(name).map_or(WhatFits::Nothing, |housing| fits(view, housing)) {
        WhatFits::Flipped(how) => format!(
            "The list fits the connector if it was {}: flip the whole list?",
            Misread::Flip(how).in_words()
        ),
        WhatFits::PerhapsShifted(shift) => {
            format!("One mistake would explain it: the list was {}. One more look:", shifted(shift))
        }
        WhatFits::Shifted(shift) => {
            format!("One mistake would explain it: the list was {}. Put the row right?", shifted(shift))
        }
        WhatFits::HeldOtherwise(one) => {
            format!("The marks fit a housing {}, not held as you said. Look again:", one.in_words())
        }
        WhatFits::Nothing => {
            "What you see fits no reading of the record. Look again, or correct the record (!):".to_owned()
        }
        WhatFits::Several(several) => {
            let named: Vec<String> = several.iter().map(Misread::in_words).collect();
            format!(
                "Several readings fit, so nothing is flipped: {}. One more look tells:",
                named.join("; or ")
            )
        }
    }
}

pub(super) fn map(view: &JobView<'_>, asked: &MapQuestion) -> String {
    match asked {
        MapQuestion::Confirm => confirm(view),
        MapQuestion::From => "MAP which old cavity?".to_owned(),
        MapQuestion::To(from) => {
            format!("{from} goes to which new cavity? (none: it has no place there)")
        }
        MapQuestion::Document(refusals) => {
            format!("{} Under which document? (Esc: no)", in_one_line(refusals))
        }
    }
}

fn confirm(view: &JobView<'_>) -> String {
    let state = view.state();
    match state.map_proposals().as_slice() {
        [] => no_source(view),
        [only] => {
            let mut pairs = only.map.iter().filter_map(|(from, to)| Some((from, to.as_ref()?)));
            let why = pairs.find_map(|(from, to)| state.housings.why_labels_differ(from, to));
            let why = why.map_or(String::new(), |why| format!(": {}", relabelled(why)));
            format!("CONFIRM the map by {}{why}. {}.", only.source.words(), state.map_in_words(&only.map))
        }
        [first, second, ..] => choose(view, first, second),
    }
}

fn choose(view: &JobView<'_>, first: &MapProposal, second: &MapProposal) -> String {
    let differs = view.state().housings.map_differs(&first.map, &second.map);
    let differs = differs.as_ref().map(map_difference).unwrap_or_default();
    format!(
        "CHOOSE the map (Tab: both ways). Between {} and {}, {differs} Which does the mating half follow?",
        first.source.words(),
        second.source.words()
    )
}

/// No source gives a whole map.
fn no_source(view: &JobView<'_>) -> String {
    let (source, without) = view.state().nearest_map();
    let first: Vec<&Address> = without.iter().take(6).collect();
    let more = if without.len() > first.len() { " and more" } else { "" };
    let held = view.state().items.leads.len();
    match without.len() < held {
        true => format!(
            "MAP: with {} for the rest, still without a place: {}{more}. Map by hand.",
            source.words(),
            list_of(&first)
        ),
        false => {
            "MAP: no source knows these housings. Map each cavity by hand, or start the job with a map file."
                .to_owned()
        }
    }
}
