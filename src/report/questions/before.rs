//! The record, photos, gates, views, comparisons, decisions and tags, in words.

use crate::{
    catalogue::{HousingDifferenceKind, differences},
    job::{JobSide, Question as Comparison, RecordSide},
    procedure::{
        ENERGY, GateField, GateQuestion, IntakeQuestion, JobView, RecordQuestion, SetupQuestion,
        differences_at, last_said,
    },
    quantity::list_of,
    reckoning::DamageCause,
};

use super::moving::call_of;

pub(super) fn record(view: &JobView<'_>, asked: &RecordQuestion) -> String {
    match asked {
        RecordQuestion::Finish => "FINISH the record: every cavity has its answer.".to_owned(),
        RecordQuestion::Content { at, side: RecordSide::Found } => {
            format!("RECORD cavity {}{}: what is in it?", at.label, view.also(at))
        }
        RecordQuestion::Content { at, side: RecordSide::Should } => {
            format!("BY THE DIAGRAM, cavity {}{}: what belongs in it?", at.label, view.also(at))
        }
        RecordQuestion::Wires(at) => {
            format!("Wire in {}: colour gauge [number [circuit]], + adds a wire, ? is unknown", at.label)
        }
        RecordQuestion::Bridge(at) => format!("What bridges {}? (shorting clip, diode…)", at.label),
        RecordQuestion::PlugBehind(at) => {
            format!("Is there a plug behind the spare terminal in {}?", at.label)
        }
    }
}

pub(super) fn intake(asked: &IntakeQuestion) -> String {
    match asked {
        IntakeQuestion::PhotoAsFound => {
            "PHOTOGRAPH both faces as found. Number of the photo? (- none can be made)".to_owned()
        }
        IntakeQuestion::PhotoNumber => "PHOTO: its number?".to_owned(),
        IntakeQuestion::PhotoShows => "What does it show?".to_owned(),
        IntakeQuestion::Cause { or_unknown } => {
            let or_else = if *or_unknown { " (- not known)" } else { "" };
            let list = DamageCause::ALL.iter().zip(1..).map(|(cause, n)| format!("{n} {}", cause.words()));
            let list: Vec<String> = list.collect();
            format!("CAUSE of the damage? Key its number, 0 for another{or_else}: {}", list.join(", "))
        }
        IntakeQuestion::CauseKnown(Some(cause)) => {
            format!("LOOK ALSO AT: {}. What do you know of the cause?", cause.look_also())
        }
        IntakeQuestion::CauseKnown(None) => "What do you know of the cause?".to_owned(),
        IntakeQuestion::WithoutBy => "Who answers for going on without it?".to_owned(),
        IntakeQuestion::WithoutWhy => "Why?".to_owned(),
    }
}

pub(super) fn gate(view: &JobView<'_>, asked: &GateQuestion) -> String {
    let question = match &asked.field {
        GateField::Answer => return format!("GATE, {}: {}", asked.gate.title(), asked.gate.question()),
        GateField::TesterProved => {
            return "Was the tester proved on a known source before and after?".to_owned();
        }
        GateField::Circuit => "What does the diagram say these circuits are?".to_owned(),
        GateField::Voltage => {
            "Highest voltage the diagram shows here, DC or AC? (24 V DC, 230 V AC)".to_owned()
        }
        GateField::Sleeve => "Colours of sleeves and covers? (none, black, YE, OG…)".to_owned(),
        GateField::Document => "Which document does it rest on?".to_owned(),
        GateField::Name => "Name of the person who answers for it?".to_owned(),
        GateField::Energy => {
            let list = ENERGY.map(|(letter, kind)| format!("{letter} {}", kind.words()));
            format!("Which are on this machine? Letters together, - for none: {}", list.join(", "))
        }
        GateField::Reading => "Volts measured at the connector?".to_owned(),
        GateField::Points => "Between which two points? (1 and chassis)".to_owned(),
        GateField::State(kinds) => {
            let told: Vec<&str> = kinds.iter().map(|kind| kind.words()).collect();
            format!(
                "{}: gauge at zero, vented, lowered, blocked, relaxed? Say what was done",
                told.join(", ")
            )
        }
    };
    let again = last_said(view, &asked.field).map_or(String::new(), |last| format!(" (= {last})"));
    format!("{}: {question}{again}", asked.gate.title())
}

pub(super) fn setup(view: &JobView<'_>, asked: &SetupQuestion) -> String {
    match asked {
        SetupQuestion::Face(name) => {
            let part = view.housing(name).map_or(String::new(), |h| h.housing().part.to_string());
            format!("HOLD {name} ({part}) as you will work: which face?")
        }
        SetupQuestion::Up { housing, .. } => format!("Which side of {housing} is up?"),
        SetupQuestion::Compare(question) => format!(
            "COMPARE with the mating half in your hand: does the {} of the new housing agree?{}",
            question.words(),
            by_definition(view, *question)
        ),
        SetupQuestion::Decide(at) => {
            let here = differences_at(view, at);
            let said: Vec<String> = here.iter().map(|difference| difference.sentence()).collect();
            format!("DECIDE: {} Which is to be?", said.join(" "))
        }
        SetupQuestion::DecideWhy(_) => "Why? (factory variant, earlier repair, fault to correct…)".to_owned(),
        SetupQuestion::JoinedAt(_) => {
            "The wire is missing. Where can a new lead be joined? (a wire and place; - not known)".to_owned()
        }
        SetupQuestion::LookBeside(cavities) => {
            let labels: Vec<_> = cavities.iter().map(|at| &at.label).collect();
            format!("LOOK at {} beside the open hole: corrosion, moisture, dirt?", list_of(&labels))
        }
        SetupQuestion::NotSound(_) => {
            "Which of them, and what do you see? (as in: 7 green at the crimp)".to_owned()
        }
        SetupQuestion::Tag(lead) => {
            format!("TAG {} in {lead}: it looks like another here. What is on the tag?", call_of(view, lead))
        }
    }
}

/// What the definitions say about it, when they differ.
fn by_definition(view: &JobView<'_>, question: Comparison) -> String {
    let kind = match question {
        Comparison::Key => HousingDifferenceKind::KeyCode,
        Comparison::Latch => HousingDifferenceKind::FeatureSide,
        Comparison::Gender => HousingDifferenceKind::Gender,
        Comparison::Clip => HousingDifferenceKind::Bridge,
    };
    let state = view.state();
    let pairs = state
        .housings
        .side(JobSide::Old)
        .flat_map(|old| state.housings.side(JobSide::New).map(move |new| (old, new)));
    let said = pairs
        .flat_map(|(old, new)| differences(old.housing(), new.housing()))
        .filter(|difference| difference.kind == kind)
        .map(|difference| format!(" {}", difference.say));
    said.collect()
}
