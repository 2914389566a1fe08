//! What is answered the same way at every bench: an ordinary machine, a crimp made as its sheet says, tests
//! that pass.

use crate::{
    procedure::{
        Choice, CrimpOf, CrimpQuestion, Crimping, IntakeQuestion, JobView, SetupQuestion, TestField, example,
    },
    reckoning::Finding,
    shop_rules::TestKind,
};

pub(super) fn said_at_intake(asked: &IntakeQuestion) -> String {
    let said = match asked {
        IntakeQuestion::PhotoAsFound | IntakeQuestion::PhotoNumber => "101",
        IntakeQuestion::PhotoShows => "both faces as found",
        IntakeQuestion::Cause { .. } => "0",
        IntakeQuestion::CauseKnown(_) => "struck by a stone",
        IntakeQuestion::WithoutBy => "nobody",
        IntakeQuestion::WithoutWhy => "no reason",
    };
    said.to_owned()
}

pub(super) fn set_up(asked: &SetupQuestion, offered: &[Choice]) -> Choice {
    let first = offered.first().copied().unwrap_or(Choice::No);
    match asked {
        // Wires towards the eye, its first feature up, it agrees, as found, sound: each is offered first.
        SetupQuestion::Face(_)
        | SetupQuestion::Up { .. }
        | SetupQuestion::Compare(_)
        | SetupQuestion::Decide(_)
        | SetupQuestion::DecideWhy(_)
        | SetupQuestion::JoinedAt(_)
        | SetupQuestion::LookBeside(_)
        | SetupQuestion::NotSound(_)
        | SetupQuestion::Tag(_) => first,
    }
}

/// A crimp made as its sheet says.
pub(super) fn crimped(view: &JobView<'_>, asked: &CrimpOf) -> Option<String> {
    let lead = view.state().items.lead(&asked.lead)?;
    Some(match &asked.what {
        CrimpQuestion::CutBack => "0 mm".to_owned(),
        CrimpQuestion::Tool(terminal) => {
            let proved = Crimping::of(view, lead, terminal.as_ref()).proved();
            if proved.is_some() { "=" } else { "hand tool 1, B" }.to_owned()
        }
        CrimpQuestion::Strip(terminal) => {
            let sheet_mm = Crimping::of(view, lead, terminal.as_ref()).sheet().and_then(|t| t.strip_mm);
            format!("{} mm", sheet_mm.unwrap_or(5.0))
        }
        CrimpQuestion::Height(terminal) => {
            let sheet = Crimping::of(view, lead, terminal.as_ref()).sheet_height();
            sheet.map_or("-".to_owned(), |sheet| format!("{} mm", sheet.target_mm))
        }
        CrimpQuestion::Sample => "500 N at the crimp".to_owned(),
        CrimpQuestion::Look | CrimpQuestion::Faults | CrimpQuestion::Tug => return None,
    })
}

pub(super) fn measured(test: TestKind, field: TestField) -> String {
    let (value, limit) = example(test);
    match (field, test) {
        (TestField::Value, TestKind::Function | TestKind::Pair) => "works as it should".to_owned(),
        (TestField::Limit { .. }, TestKind::Function | TestKind::Pair) => "-".to_owned(),
        (TestField::Limit { .. }, _) => format!("{limit}, service manual"),
        (TestField::Value | TestField::Passed | TestField::NoConnection, _) => value.to_owned(),
    }
}

pub(super) fn choice_of(found: Finding) -> Choice {
    match found {
        Finding::TangFlat => Choice::FoundTang,
        Finding::FemaleLoose => Choice::FoundLoose,
        Finding::MaleBent => Choice::FoundBent,
        Finding::Corroded => Choice::FoundGreen,
        Finding::Burnt => Choice::FoundBurnt,
        Finding::CrimpBad => Choice::FoundCrimp,
        Finding::GripBad => Choice::FoundGrip,
        Finding::SealBad => Choice::FoundSeal,
        Finding::InsulationOutside => Choice::FoundNick,
        Finding::InsulationUnderSeal => Choice::FoundUnderSeal,
        Finding::TooShort => Choice::FoundShort,
        Finding::Doubled => Choice::FoundDouble,
        Finding::DrainBare => Choice::FoundDrain,
    }
}
