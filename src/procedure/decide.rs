//! What is found on the lead in the hand, what the decision table proposes, and what is decided.

use crate::{
    catalogue::{Gender, Sealing, Seating},
    job::{Act, Inspected, JobSide, Lead, RepairKind},
    quantity::Length,
    reckoning::{Advice, Finding, InHandLead, advise},
    record::WireKind,
};

use super::{Asked, Choice, JobView, Reply, field, picks, repair, texts};

const REPAIRS: [(Choice, RepairKind); 5] = [
    (Choice::Reform, RepairKind::Reform),
    (Choice::Terminal, RepairKind::NewTerminal),
    (Choice::Seal, RepairKind::NewSeal),
    (Choice::RepairLead, RepairKind::RepairLead),
    (Choice::Other, RepairKind::Other),
];

const FINDINGS: [(Choice, Finding); 13] = [
    (Choice::FoundTang, Finding::TangFlat),
    (Choice::FoundLoose, Finding::FemaleLoose),
    (Choice::FoundBent, Finding::MaleBent),
    (Choice::FoundGreen, Finding::Corroded),
    (Choice::FoundBurnt, Finding::Burnt),
    (Choice::FoundCrimp, Finding::CrimpBad),
    (Choice::FoundGrip, Finding::GripBad),
    (Choice::FoundSeal, Finding::SealBad),
    (Choice::FoundNick, Finding::InsulationOutside),
    (Choice::FoundUnderSeal, Finding::InsulationUnderSeal),
    (Choice::FoundShort, Finding::TooShort),
    (Choice::FoundDouble, Finding::Doubled),
    (Choice::FoundDrain, Finding::DrainBare),
];

/// The lead in the hand is looked at.
pub(super) fn inspect(view: &JobView<'_>, lead: &Lead, call: &str, answers: &[Reply]) -> Asked {
    let rest = answers.get(1..).unwrap_or_default();
    match answers {
        [] => picks(
            look_prompt(view, lead, call),
            &[Choice::Good, Choice::RepairNeeded, Choice::PutBack, Choice::Tagged],
        ),
        [Reply::Choice(Choice::Good), ..] if lead.planned.is_some() => good_after_all(lead, call, rest),
        [Reply::Choice(Choice::Good), ..] => Asked::Ready(vec![good(None)]),
        [Reply::Choice(Choice::PutBack), ..] => Asked::Ready(vec![Act::PutBack]),
        [Reply::Choice(Choice::Tagged), ..] => repair::park(view, lead.planned, rest),
        [_] => picks(format!("{call}: what do you find?"), &can_be_found(view, lead)),
        [_, found, more @ ..] => {
            let finding = FINDINGS.iter().find(|(pick, _)| *found == Reply::Choice(*pick)).map(|(_, f)| *f);
            match finding {
                Some(finding) => decide(view, lead, call, finding, more),
                None => Asked::Wrong("Choose what you find.".to_owned()),
            }
        }
    }
}

fn good(not_needed: Option<String>) -> Act {
    Act::Inspect {
        verdict: Inspected::Good,
        found: None,
        damage: None,
        test_pin: None,
        not_needed,
        anyway: None,
    }
}

/// What to look at on this terminal, and what was planned for it.
fn look_prompt(view: &JobView<'_>, lead: &Lead, call: &str) -> String {
    let housing = view.goes_into(lead).or_else(|| view.state().housings.side(JobSide::Old).next());
    let contact = match housing.map(|h| h.housing().gender) {
        Some(Gender::Male) => "pin",
        _ => "spring",
    };
    let is_sealed = housing.is_some_and(|h| h.housing().sealing == Sealing::Individual);
    let seal = if is_sealed { ", seal" } else { "" };
    let is_drain = lead.wires_in().any(|wire| wire.kind == WireKind::Drain);
    let sleeve = if is_drain { ", a sleeve on the drain down to the terminal" } else { "" };
    let before = lead.planned.filter(|_| lead.inspected.is_none());
    let planned = before.map_or(String::new(), |how| {
        let why = lead.planned_why.as_deref().unwrap_or("no reason said");
        format!("PLANNED for it: {} ({why}). ", how.words())
    });
    format!(
        "{planned}LOOK at the terminal of {call}: tang, {contact}, crimp{seal}{sleeve}. {}",
        test_pin_words(view, lead)
    )
}

/// What a female may be tried with.
fn test_pin_words(view: &JobView<'_>, lead: &Lead) -> String {
    let pins = view.state().housings.test_pins_for(lead);
    let parts: Vec<String> = pins.iter().map(|pin| pin.part.to_string()).collect();
    match parts.is_empty() {
        true => "Test pin only of the same family.".to_owned(),
        false => format!("Test pin: only {}.", parts.join(" or ")),
    }
}

/// The findings that can be on this lead.
fn can_be_found(view: &JobView<'_>, lead: &Lead) -> Vec<Choice> {
    let housing = view.goes_into(lead).or_else(|| view.state().housings.side(JobSide::New).next());
    let kinds: Vec<WireKind> = lead.wires_in().map(|wire| wire.kind).collect();
    let fits = |finding: Finding| {
        housing.is_none_or(|h| {
            let housing = h.housing();
            finding.can_be_on(housing.gender, &housing.sealing, &kinds)
        })
    };
    FINDINGS.iter().filter(|(_, finding)| fits(*finding)).map(|(pick, _)| *pick).collect()
}

/// A repair was planned, and the bench sees that none is needed: with the reason.
fn good_after_all(lead: &Lead, call: &str, answers: &[Reply]) -> Asked {
    let planned = lead.planned.map_or("", RepairKind::words);
    match texts(answers).first() {
        None => field(format!("{call} waits for {planned}. Why is it not needed after all? (Esc: it is)")),
        Some(why) => Asked::Ready(vec![good(Some((*why).to_owned()))]),
    }
}

/// The distance of damage, where there is one, then the proposal.
fn decide(view: &JobView<'_>, lead: &Lead, call: &str, finding: Finding, answers: &[Reply]) -> Asked {
    let (test_pin, answers) = match (finding, answers) {
        (Finding::FemaleLoose, []) => {
            return field("With which test pin was it tried? Key its part number (- : with no pin)");
        }
        (Finding::FemaleLoose, [first, rest @ ..]) => {
            match texts(std::slice::from_ref(first)).first().filter(|pin| **pin != "-").map(|pin| pin.parse())
            {
                Some(Ok(pin)) => (Some(pin), rest),
                Some(Err(why)) => return Asked::Wrong(format!("{why}")),
                None => (None, rest),
            }
        }
        (_, rest) => (None, rest),
    };
    let asks_distance = matches!(finding, Finding::Burnt | Finding::InsulationOutside);
    let (damage, rest) = match (asks_distance, answers) {
        (false, rest) => (None, rest),
        (true, []) => {
            return field(
                "How far behind the rear face does the damage reach, until insulation bends without cracking? (mm or in)",
            );
        }
        (true, [first, rest @ ..]) => {
            match texts(std::slice::from_ref(first)).first().map(|t| t.parse::<Length>()) {
                Some(Ok(length)) => (Some(length), rest),
                Some(Err(why)) => return Asked::Wrong(why.to_string()),
                None => return Asked::Wrong("Key the distance.".to_owned()),
            }
        }
    };
    let seen = looked_at(view, lead);
    let advice = advise(finding, &seen);
    let proposed = match advice {
        Advice::Reform(_) => RepairKind::Reform,
        Advice::NewTerminal(_) => RepairKind::NewTerminal,
        Advice::NewSeal(_) => RepairKind::NewSeal,
        Advice::RepairLead(_) => RepairKind::RepairLead,
        Advice::Sleeve(_) => RepairKind::Other,
        Advice::Stop(why) => return stop(view, call, why, rest),
    };
    let act = |how, reason: String| {
        // A plan made at intake keeps the part it named.
        let part = lead.planned_part.clone().filter(|_| lead.planned == Some(how));
        Asked::Ready(vec![
            Act::Inspect {
                verdict: Inspected::Needs(how),
                found: Some(finding),
                damage: damage.clone(),
                test_pin: test_pin.clone(),
                not_needed: None,
                anyway: None,
            },
            Act::Planned { lead: lead.id.clone(), how, reason, part, order: None, with: None },
        ])
    };
    let rest_texts = texts(rest);
    match rest {
        [] => picks(
            format!(
                "PROPOSED for {call}: {}; {}. {}",
                proposed_words(advice, proposed),
                advice.why(),
                advice.first(&seen)
            ),
            &[Choice::DoIt, Choice::Otherwise],
        ),
        [Reply::Choice(Choice::DoIt), ..] => act(proposed, format!("{}: {}", finding.words(), advice.why())),
        [_] => picks(format!("{call}: which repair instead?"), &REPAIRS.map(|(pick, _)| pick)),
        [_, which, ..] => {
            let kind = REPAIRS.iter().find(|(pick, _)| *which == Reply::Choice(*pick)).map(|(_, kind)| *kind);
            match (kind, rest_texts.first()) {
                (None, _) => Asked::Wrong("Choose a repair.".to_owned()),
                (Some(_), None) => field("Why not as proposed?"),
                (Some(how), Some(why)) => act(how, format!("{}; decided otherwise: {why}", finding.words())),
            }
        }
    }
}

fn proposed_words(advice: Advice, proposed: RepairKind) -> &'static str {
    match advice {
        Advice::Sleeve(_) => "a sleeve over it",
        _ => proposed.words(),
    }
}

fn stop(view: &JobView<'_>, call: &str, why: &str, rest: &[Reply]) -> Asked {
    match rest {
        [] => picks(format!("STOP with {call}: {why}."), &[Choice::PutBack, Choice::Tagged]),
        [Reply::Choice(Choice::Tagged), more @ ..] => repair::park(view, None, more),
        _ => Asked::Ready(vec![Act::PutBack]),
    }
}

/// What the table looks at beside the finding.
fn looked_at(view: &JobView<'_>, lead: &Lead) -> InHandLead {
    let state = view.state();
    let housing = view.goes_into(lead);
    let terminal = state.terminal_for(lead);
    let wire = lead.wire_to_crimp();
    let today = view.today();
    let proved = terminal
        .zip(wire)
        .is_some_and(|(terminal, wire)| view.tools.proved(&terminal.part, wire, &today).is_some());
    InHandLead {
        forbidden: state.forbidden_kind(lead),
        wires: lead.wires_left(),
        sealed: housing.is_some_and(|h| h.housing().sealing.is_sealed()),
        pull_to_seat: terminal.is_some_and(|terminal| terminal.seating == Seating::Pull),
        reformed: lead.reforms(),
        slack_mm: state.slack_left(lead),
        tool_qualified: proved,
    }
}
