//! What is said against repairs, and against the splices they make.

use super::moves::place_in_words;
use crate::{
    job::refusal::{RemovalBarrier, RepairBarrier, RepairRule, SpliceRule},
    report::words::Words,
};

pub(super) fn repair(barrier: &RepairBarrier) -> Words {
    match barrier {
        RepairBarrier::NotOld(housing) => Words::new(
            format!("This job has no old housing {housing}."),
            "The bundle is measured behind the old housing.",
        ),
        RepairBarrier::NotInHand(lead) => {
            Words::new(format!("{lead} is not in the hand."), "Take it up before it is repaired.")
        }
        RepairBarrier::HasNoPlace(lead) => Words::new(
            format!("By the decision {lead} has no place in the new housing."),
            "Take it out for good under a document, or tie it back; nothing is made for it.",
        ),
        RepairBarrier::Away(lead, place) => {
            Words::new(format!("{lead} is {}.", place_in_words(place)), "Nothing is planned on it any more.")
        }
        RepairBarrier::NotPlanned(lead) => Words::new(
            format!("This repair of {lead} is not planned."),
            "Plan it first, so that its parts are asked for.",
        ),
        RepairBarrier::OtherNotOut(other) => Words::new(
            format!("{other} is not out: both wires are cut and joined."),
            "Put this one back or park it, take the other one out and park it, then join them.",
        ),
        RepairBarrier::NoSpliceOnIt => {
            Words::new("Only a repair lead has a splice.", "Plan the repair lead first.")
        }
    }
}

pub(super) fn removal(barrier: &RemovalBarrier) -> Words {
    match barrier {
        RemovalBarrier::NoDocument => {
            Words::new("A wire is taken out for good only under a document.", "Name it.")
        }
        RemovalBarrier::JoinedInIt { other, lead } => Words::new(
            format!("{other} is joined in the terminal of {lead}."),
            "Say first that this one was cut out.",
        ),
        RemovalBarrier::NoSuchWire(lead, wire) => {
            Words::new(format!("{lead} has no wire {wire}."), "Count the wires in its terminal.")
        }
        RemovalBarrier::OutAlready(lead) => Words::new(format!("{lead} is out already."), "Nothing to do."),
    }
}

pub(super) fn rule(rule: &RepairRule) -> Words {
    match rule {
        RepairRule::ReformedBefore(lead) => {
            Words::new(format!("The tang of {lead} was re-formed once already."), "Replace the terminal.")
        }
        RepairRule::HeightOut { lead, height, sheet } => Words::new(
            format!("The crimp on {lead} measures {}; its sheet says {sheet}.", height.both()),
            "Cut it off and crimp again, in the position for this terminal.",
        ),
    }
}

pub(super) fn splice(rule: &SpliceRule) -> Words {
    match rule {
        SpliceRule::SecondInWire { lead, start_mm, end_mm } => Words::new(
            format!(
                "The splice of {lead} made before, at {start_mm} to {end_mm} mm, stays in the wire behind this one."
            ),
            "Cut it out: replace the wire from the old splice on.",
        ),
        SpliceRule::NotSound(lead) => Words::new(
            format!("The splice of {lead} was not found sound."),
            "Copper at both sides of the window, adhesive out at both ends, and it holds a tug.",
        ),
        SpliceRule::SealBehind(lead) => Words::new(
            format!("The wire seal of {lead} is behind its splice: nothing seals the hole."),
            "Cut the splice out and join it again, the seal on the terminal side.",
        ),
        SpliceRule::Soldered(lead) => Words::new(
            format!("The splice of {lead} is soldered, and the house rule says no."),
            "Crimp it: solder wicks up the wire and breaks at its edge.",
        ),
        SpliceRule::Untwisted { lead, over, limit_mm } => Words::new(
            format!("{lead} is untwisted over {}, more than {limit_mm} mm.", over.both()),
            "Twist the pair again over its splices.",
        ),
    }
}
