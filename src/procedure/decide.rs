//! What is found on the lead in the hand, what the decision table proposes, and what is decided.

use crate::{
    catalogue::{PartNumber, Seating},
    job::{Act, Inspected, JobSide, Lead, RepairKind},
    quantity::Length,
    reckoning::{Advice, Finding, InHandLead, advise},
    record::WireKind,
};

use super::{Acts, Choice, InHandQuestion, JobView, Kind, Replies, Typed, park, replies::not_offered};

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
pub(super) fn inspect(view: &JobView<'_>, lead: &Lead, replies: &mut Replies<'_>) -> Acts {
    let offered = [Choice::Good, Choice::RepairNeeded, Choice::PutBack, Choice::Tagged];
    match replies.choice(InHandQuestion::Verdict(lead.id.clone()), &offered)? {
        Choice::Good if lead.planned.is_some() => {
            let why = replies.text(InHandQuestion::WhyGood(lead.id.clone()), Kind::Words)?;
            Ok(vec![good(Some(why.words()))])
        }
        Choice::Good => Ok(vec![good(None)]),
        Choice::PutBack => Ok(vec![Act::PutBack]),
        Choice::Tagged => park::park(view, lead.planned, replies),
        Choice::RepairNeeded => found(view, lead, replies),
        _ => Err(not_offered()),
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

/// The findings that can be on this lead.
fn can_be_found(view: &JobView<'_>, lead: &Lead) -> Vec<(Choice, Finding)> {
    let housing = view.goes_into(lead).or_else(|| view.state().housings.side(JobSide::New).next());
    let kinds: Vec<WireKind> = lead.wires_in().map(|wire| wire.kind).collect();
    let fits = |finding: Finding| {
        housing.is_none_or(|h| {
            let housing = h.housing();
            finding.can_be_on(housing.gender, &housing.sealing, &kinds)
        })
    };
    FINDINGS.into_iter().filter(|(_, finding)| fits(*finding)).collect()
}

/// What was found, as far as it was measured.
struct Looked {
    finding: Finding,
    test_pin: Option<PartNumber>,
    damage: Option<Length>,
}

/// What is found, how far it reaches, and what is done about it.
fn found(view: &JobView<'_>, lead: &Lead, replies: &mut Replies<'_>) -> Acts {
    let finding = replies.one_of(InHandQuestion::Found(lead.id.clone()), &can_be_found(view, lead))?;
    let test_pin = match finding {
        Finding::FemaleLoose => {
            let pin = replies.text(InHandQuestion::TestPin(lead.id.clone()), Kind::Part)?;
            pin.unless_dash().map(Typed::parse_or_wrong).transpose()?
        }
        _ => None,
    };
    let damage = match finding {
        Finding::Burnt | Finding::InsulationOutside => {
            let reach = replies.text(InHandQuestion::DamageReach(lead.id.clone()), Kind::Length)?;
            Some(reach.parse_or_wrong()?)
        }
        _ => None,
    };
    let looked = Looked { finding, test_pin, damage };
    match proposal(advise(finding, &looked_at(view, lead))) {
        Some(proposed) => decided(view, lead, looked, proposed, replies),
        None => stopped(view, lead, finding, replies),
    }
}

/// The repair the decision table proposes; none where it says to stop.
pub fn proposal(advice: Advice) -> Option<RepairKind> {
    match advice {
        Advice::Reform(_) => Some(RepairKind::Reform),
        Advice::NewTerminal(_) => Some(RepairKind::NewTerminal),
        Advice::NewSeal(_) => Some(RepairKind::NewSeal),
        Advice::RepairLead(_) => Some(RepairKind::RepairLead),
        Advice::Sleeve(_) => Some(RepairKind::Other),
        Advice::Stop(_) => None,
    }
}

/// As proposed, or another repair with its reason.
fn decided(
    view: &JobView<'_>,
    lead: &Lead,
    looked: Looked,
    proposed: RepairKind,
    replies: &mut Replies<'_>,
) -> Acts {
    let Looked { finding, test_pin, damage } = looked;
    let question = InHandQuestion::Proposed { lead: lead.id.clone(), found: finding };
    let (how, reason) = match replies.one_of(question, &[(Choice::DoIt, true), (Choice::Otherwise, false)])? {
        true => {
            let why = advise(finding, &looked_at(view, lead)).why();
            (proposed, format!("{}: {why}", finding.words()))
        }
        false => {
            let how = replies.one_of(InHandQuestion::WhichRepair(lead.id.clone()), &REPAIRS)?;
            let why = replies.text(InHandQuestion::WhyOtherwise, Kind::Words)?;
            (how, format!("{}; decided otherwise: {}", finding.words(), why.as_str()))
        }
    };
    // A plan made at intake keeps the part it named.
    let part = lead.planned_part.clone().filter(|_| lead.planned == Some(how));
    Ok(vec![
        Act::Inspect {
            verdict: Inspected::Needs(how),
            found: Some(finding),
            damage,
            test_pin,
            not_needed: None,
            anyway: None,
        },
        Act::Planned { wires: None, lead: lead.id.clone(), how, reason, part, order: None, with: None },
    ])
}

fn stopped(view: &JobView<'_>, lead: &Lead, found: Finding, replies: &mut Replies<'_>) -> Acts {
    let question = InHandQuestion::StopWith { lead: lead.id.clone(), found };
    match replies.one_of(question, &[(Choice::PutBack, true), (Choice::Tagged, false)])? {
        true => Ok(vec![Act::PutBack]),
        false => park::park(view, None, replies),
    }
}

/// What the table looks at beside the finding.
pub fn looked_at(view: &JobView<'_>, lead: &Lead) -> InHandLead {
    let state = view.state();
    let housing = view.goes_into(lead);
    let terminal = state.terminal_for(lead);
    let wire = lead.wire_to_crimp();
    let today = view.today();
    let proved = terminal
        .zip(wire)
        .is_some_and(|(terminal, wire)| view.tools.proved(&terminal.part, wire, today).is_some());
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
