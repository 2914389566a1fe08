//! Flags on plugs, spare terminals, bridges, shunts, diodes and clips, and on parts that came in place of
//! others.

use crate::{
    catalogue::PartNumber,
    job::{OtherCause, OtherKind, PlugCause},
    report::Words,
};

/// What another content is called.
pub(super) fn called(kind: &OtherKind) -> &str {
    match kind {
        OtherKind::Spare => "spare terminal",
        OtherKind::Bridge(what) => what,
    }
}

pub(super) fn plug(cause: &PlugCause) -> Words {
    match cause {
        PlugCause::InHand => {
            Words::new("A plug is in the hand.", "Fit it, put it back, or lay it in the tray.")
        }
        PlugCause::InTray => Words::new("A plug lies in the tray.", "Fit it, scrap it or return it."),
        PlugCause::Lost(label) => Words::new(
            format!("The plug of {label} is lost."),
            "Search floor, tray, mating half and harness cover; then fit a new one.",
        ),
        PlugCause::Prefitted { at, of_use_in } => {
            let instead = match of_use_in {
                Some(to) => format!(
                    "Take the plug out first; {to} needs one of its size: use it there, if it is undamaged."
                ),
                None => "Take the plug out first, and return it.".to_owned(),
            };
            Words::new(format!("{at} is delivered with a plug, and something else goes there."), instead)
        }
        PlugCause::WrongCavity(at) => Words::new(
            format!("The plug in {at} does not belong there."),
            "Take it out: something else goes there, or nothing.",
        ),
        PlugCause::Size { at, plug, cavity } => Words::new(
            format!("The plug in {at} is size {plug}, and the cavity is size {cavity}."),
            "Fit a plug of the cavity's size.",
        ),
    }
}

pub(super) fn other(cause: &OtherCause) -> Words {
    match cause {
        OtherCause::OutOfPlace { kind, at } => Words::new(
            format!("The {} in {at} does not belong there.", called(kind)),
            "Move it to the cavity it is mapped to.",
        ),
        OtherCause::SetAside(kind) => {
            Words::new(format!("A {} is set aside.", called(kind)), "Put it where it belongs.")
        }
        OtherCause::Gone { kind, id } => {
            Words::new(format!("The {} {id} is gone.", called(kind)), "Find it, or fit one like it.")
        }
    }
}

/// A part that came in place of the one asked for.
pub(super) fn substitute(part: Option<&PartNumber>, line: u32) -> Words {
    let part = part.map_or("another part".to_owned(), ToString::to_string);
    Words::new(
        format!("{part} came for line {line} of the request."),
        "Hold it against the definition; accept it by name, or send it back.",
    )
}
