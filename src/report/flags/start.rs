//! Flags about gates, how housings are held, interruptions, and whether the new side can take what comes.

use crate::{
    job::{FitCause, JobSide, Misread, StartCause},
    quantity::list_of,
    report::{Words, places::place_in_words},
};

/// What is to be done while a gate is open.
const ANSWER_IT: &str = "Do not touch the connector: answer it with a name and a document, or stop the job.";

pub(super) fn start(cause: &StartCause) -> Words {
    match cause {
        StartCause::GateStops(gate) => {
            Words::new(format!("The gate on {} says stop.", gate.title()), ANSWER_IT)
        }
        StartCause::GateAbsent { gate, sign } => {
            Words::new(format!("{sign} The gate on {} was answered as absent.", gate.title()), ANSWER_IT)
        }
        StartCause::GateLapsed(gate) => Words::new(
            format!("\"Off the machine\" is over: the gate on {} is open.", gate.title()),
            ANSWER_IT,
        ),
        StartCause::GateOpenAgain(gate) => {
            Words::new(format!("The gate on {} is open again.", gate.title()), ANSWER_IT)
        }
        StartCause::ViewUnset(housing) => Words::new(
            format!("Nobody said how {housing} is held."),
            "Say which face is towards you and which side is up.",
        ),
        StartCause::AnchorFailed { housing, side, place, colour, mark, fits } => {
            let seen = colour.as_ref().map_or_else(|| format!("\"{mark}\""), ToString::to_string);
            let say = format!(
                "At {} of {housing} you see {seen}, and the record says otherwise.",
                place_in_words(*place)
            );
            Words::new(say, what_fits(*side, fits))
        }
        StartCause::Interrupted { why } => Words::new(
            format!("The work was interrupted: {why}."),
            "DO NOT POWER. Make the resume check before anything is moved.",
        ),
    }
}

fn what_fits(side: JobSide, fits: &[Misread]) -> String {
    match fits {
        [one] if side == JobSide::New => {
            format!("The marks fit a housing {}: say again how it is held.", one.in_words())
        }
        [one @ Misread::Flip(_)] => format!("The record fits if it was {}: flip it.", one.in_words()),
        [one] => format!("The record fits if it was {}: put the row right.", one.in_words()),
        [] => "Look again, say again how it is held, or correct the record.".to_owned(),
        _ => "Several readings fit: answer another anchor before anything is flipped.".to_owned(),
    }
}

pub(super) fn fit(cause: &FitCause) -> Words {
    match cause {
        FitCause::Blocked { lead, to } => Words::new(
            format!("{lead} has no place: {to} is moulded shut."),
            "Ask the desk for an earlier revision, or map it elsewhere under a document.",
        ),
        FitCause::Unmapped { lead, from } => Words::new(
            format!("{lead} belongs in {from}, which is not mapped to the new side."),
            "Map it, or say under which document it has no place.",
        ),
        FitCause::Clash { leads, at } => Words::new(
            format!("{} are mapped to {at}.", list_of(leads)),
            "Only one can go there: map the others elsewhere.",
        ),
        FitCause::HousingDiffers(question) => Words::new(
            format!("The {} of the new housing does not agree with the mating half.", question.words()),
            "Do not start: ask the desk for the right housing.",
        ),
        FitCause::ClipMissing(clip) => Words::new(
            format!("The new housing comes without the {clip} of the old one."),
            "Do not start: ask the desk for the housing with it.",
        ),
        FitCause::PairSplit { from: (one, other), to: (there, away) } => Words::new(
            format!("The pair {one} and {other} would be split between {there} and {away}."),
            "Keep the legs of a pair side by side.",
        ),
        FitCause::FoundOpen(label) => Words::new(
            format!("{label} is open: its plug is missing as found."),
            "Look at its neighbours for corrosion, and fit a new plug.",
        ),
        FitCause::FoundEmpty(label) => Words::new(
            format!("{label} is neither wired nor plugged."),
            "The house rule fills every cavity: fit a plug.",
        ),
    }
}
