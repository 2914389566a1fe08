//! Flags on leads: where they are, how they sit, what was seen of them.

use crate::{job::LeadCause, report::Words};

pub(super) fn lead(lead: &str, what: &LeadCause) -> Words {
    match what {
        LeadCause::InHand => {
            Words::new(format!("{lead} is in the hand."), "Put it in, put it back, or tag and park it.")
        }
        LeadCause::Parked(tag) => {
            Words::new(format!("{lead} is parked, tag {tag}."), "Take it up by its tag when it can go on.")
        }
        LeadCause::Unseen => Words::new(format!("Nobody sees {lead}."), "Find it, and say where it is seen."),
        LeadCause::WrongCavity { at, goes } => {
            let goes = goes.as_ref().map_or("elsewhere".to_owned(), ToString::to_string);
            Words::new(
                format!("{lead} is in {at} and belongs in {goes}."),
                "Take it out and put it where it belongs.",
            )
        }
        LeadCause::NoClick(at) => Words::new(
            format!("{lead} in {at} did not click."),
            "Take it out, look at its tang, put it in again.",
        ),
        LeadCause::NotTugged(at) => {
            Words::new(format!("{lead} in {at} was not tugged."), "Tug it straight and gently.")
        }
        LeadCause::ReformedTwice => {
            Words::new(format!("The tang of {lead} was re-formed twice."), "Replace the terminal.")
        }
        LeadCause::NotCalledGood => Words::new(
            format!("Nobody called {lead} good since it was last out, and it sits in a new hole."),
            "Take it out and look at terminal and seal, or accept it by name.",
        ),
        LeadCause::ForcedOut => {
            Words::new(format!("{lead} came out with force."), "Look at crimp and tang closely.")
        }
        LeadCause::LastTime(left_mm) => Words::new(
            format!("{lead} has {left_mm} mm of slack left: less than one more terminal takes."),
            "Next time it needs a repair lead.",
        ),
    }
}
