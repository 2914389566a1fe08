//! Questions, their answers and what is wrong before them, in words: each question has its sentence here, and
//! what it needs to know is looked up in the job it is asked about.

mod anchors;
mod before;
mod beside;
mod defining;
mod ending;
mod mending;
mod moving;
mod ordering;
mod warnings;

use crate::{
    face::Pose,
    procedure::{
        Ask, Choice, ClosingQuestion, CrimpQuestion, JobView, MoveQuestion, PlugQuestion, Question,
        SetupQuestion, UpSide, Wrong, up_side,
    },
    report::refusals::in_one_line,
};

pub use defining::define_prompt;

/// A question, as it is put to a person.
pub fn prompt(view: &JobView<'_>, ask: &Ask) -> String {
    let first = match ask.is_laid_out_first {
        true => "LAY OUT first what the page of that name lists. ",
        false => "",
    };
    format!("{first}{}", sentence(view, &ask.question))
}

/// What is wrong before a question, all in one.
pub fn warning(ask: &Ask) -> Option<String> {
    let said: Vec<String> = ask.warnings.iter().map(warnings::sentence).collect();
    (!said.is_empty()).then(|| said.join(" "))
}

/// Why a reply cannot be.
pub fn wrong(why: &Wrong) -> String {
    match why {
        Wrong::NoAnswer(why) => why.clone(),
        Wrong::Refused(refusals) => in_one_line(refusals),
    }
}

fn sentence(view: &JobView<'_>, question: &Question) -> String {
    match question {
        Question::Halt(asked) => beside::halt(view, asked),
        Question::Record(asked) => before::record(view, asked),
        Question::Intake(asked) => before::intake(asked),
        Question::Gate(asked) => before::gate(view, asked),
        Question::Setup(asked) => before::setup(view, asked),
        Question::Anchor(asked) => anchors::anchor(view, asked),
        Question::Map(asked) => anchors::map(view, asked),
        Question::Move(asked) => moving::wire(view, asked),
        Question::Plug(asked) => moving::plug(view, asked),
        Question::InHand(asked) => moving::in_hand(view, asked),
        Question::Consequence(asked) => moving::consequence(view, asked),
        Question::Repair(asked) => mending::repair(view, asked),
        Question::Crimp(asked) => mending::crimp(view, asked),
        Question::Splice(asked) => mending::splice(view, asked),
        Question::Order(asked) => ordering::order(view, asked),
        Question::Behind(asked) => ordering::behind(view, asked),
        Question::Tool(asked) => ordering::tool(view, asked),
        Question::Desk(asked) => beside::desk(view, asked),
        Question::Closing(asked) => ending::closing(view, asked),
        Question::Test(asked) => ending::test(view, asked),
        Question::Accident(asked) => beside::accident(asked),
        Question::Other(asked) => beside::other(view, asked),
        Question::Define(asked) => define_prompt(*asked).to_owned(),
    }
}

/// What an answer says to this question, where it says something else than everywhere.
pub fn answer_words(view: &JobView<'_>, question: &Question, choice: Choice) -> Option<String> {
    match (question, choice) {
        (Question::Closing(ClosingQuestion::Unlock(_, to)), Choice::Unlocked) => {
            Some(format!("{}, moved freely", to.words()))
        }
        // Only where each wire has a seal of its own can it come along.
        (Question::Move(MoveQuestion::Extract { has_seal: false, .. }), Choice::Out) => {
            Some("out, freely".to_owned())
        }
        (Question::Plug(PlugQuestion::Out(_)), Choice::Out) => Some("out".to_owned()),
        (Question::Plug(PlugQuestion::InHand { .. }), Choice::InPlace) => Some("fit it".to_owned()),
        (Question::Crimp(crimp), Choice::Held) if crimp.what == CrimpQuestion::Tug => {
            Some("it stays".to_owned())
        }
        (Question::Setup(SetupQuestion::Up { housing, face }), side) => {
            let up = up_side(view, housing, side)?;
            Some(match up {
                UpSide::Feature(name) => format!("{name} up"),
                UpSide::Drawn(up) => view.housing(housing)?.housing().up_in_words(Pose { face: *face, up }),
            })
        }
        _ => None,
    }
}
