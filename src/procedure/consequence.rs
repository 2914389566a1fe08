//! What a decision for the diagram, or a joining, asks at the bench: a wire without a place, a wire that
//! leaves its terminal, two leads that become one.

use crate::{
    job::{Act, Code, Destination, Inspected, ItemId, JobSide, Lead, RepairKind, WireId},
    quantity::is_day,
};

use super::{Asked, Choice, JobView, Reply, field, picks, repair, texts};

/// What is asked of a lead in the hand before it is looked at; none where nothing is.
pub(super) fn in_hand(view: &JobView<'_>, lead: &Lead, call: &str, answers: &[Reply]) -> Option<Asked> {
    let target = &view.assessment.target;
    if target.leads.get(&lead.id) == Some(&Destination::Out) {
        return Some(without_place(lead, call, answers));
    }
    if let Some(slots) = target.by_decision.parting.get(&lead.id) {
        return Some(leaves_terminal(lead, call, slots, answers));
    }
    let state = view.state();
    let other = state.items.leads.iter().find(|other| state.waits_to_join(other, lead))?;
    Some(match answers {
        [] => picks(
            format!("{call} is to be joined with {}: tag and park it until both are out.", other.call()),
            &[Choice::Tagged],
        ),
        [_, rest @ ..] => repair::park(view, Some(RepairKind::Join), rest),
    })
}

/// A wire that is not on the diagram: out for good under a document, or tied back with a day.
fn without_place(lead: &Lead, call: &str, answers: &[Reply]) -> Asked {
    let typed = texts(answers);
    match (answers.first(), typed.as_slice()) {
        (None, _) => picks(
            format!(
                "By the decision {call} has no place. Take it out for good, or insulate it and tie it back?"
            ),
            &[Choice::ForGood, Choice::TieBack],
        ),
        (Some(Reply::Choice(Choice::TieBack)), typed) => tie_back(lead, typed),
        (Some(_), []) => field("OUT for good: under which document?"),
        (Some(_), [document, ..]) => Asked::Ready(vec![Act::Removed {
            wire: WireId { lead: lead.id.clone(), wire: None },
            document: (*document).to_owned(),
        }]),
    }
}

fn tie_back(lead: &Lead, typed: &[&str]) -> Asked {
    match typed {
        [] => field("INSULATE its end, tie it back. What is on its tag?"),
        [_] => field("By which day is it put right? (2026-12-01)"),
        [_, day] if !is_day(day) => Asked::Wrong("Key the day as 2026-12-01.".to_owned()),
        [_, _] => field("Who answers for it?"),
        [tag, day, by, ..] => match tag.parse() {
            Err(why) => Asked::Wrong(format!("{why}")),
            Ok(tag) => Asked::Ready(vec![
                Act::Park { tag, reason: "insulated and tied back".to_owned() },
                Act::Accept {
                    flag: Code::Parked,
                    at: match &lead.id {
                        ItemId::At(at) => Some(at.clone()),
                        _ => None,
                    },
                    by: Some((*by).to_owned()),
                    reason: "not on the diagram; insulated and tied back".to_owned(),
                    due: Some((*day).to_owned()),
                    line: None,
                },
            ]),
        },
    }
}

/// A wire that does not belong in this terminal is cut; the one that stays gets a new terminal.
fn leaves_terminal(lead: &Lead, call: &str, slots: &[usize], answers: &[Reply]) -> Asked {
    let name = |slot: &usize| {
        let wire = slot.checked_sub(1).and_then(|n| lead.seen.wires.get(n));
        wire.and_then(|wire| wire.name()).map_or_else(|| format!("wire {slot}"), ToOwned::to_owned)
    };
    let names: Vec<String> = slots.iter().map(name).collect();
    let Some(document) = texts(answers).first().copied() else {
        return field(format!(
            "{} does not belong in the terminal of {call}: CUT it, insulate it, tie it back. Under which document?",
            names.join(" and ")
        ));
    };
    let cut = slots.iter().map(|slot| Act::Removed {
        wire: WireId { lead: lead.id.clone(), wire: Some(*slot) },
        document: document.to_owned(),
    });
    let needs = RepairKind::NewTerminal;
    let renew = [
        Act::Inspect {
            verdict: Inspected::Needs(needs),
            found: None,
            damage: None,
            test_pin: None,
            not_needed: None,
            anyway: None,
        },
        Act::Planned {
            lead: lead.id.clone(),
            how: needs,
            reason: format!("{} cut out of its terminal", names.join(" and ")),
            part: None,
            order: None,
            with: None,
        },
    ];
    Asked::Ready(cut.chain(renew).collect())
}

/// Two leads that are mapped to one cavity are planned to be joined.
pub(super) fn join(view: &JobView<'_>, typed: &[&str]) -> Asked {
    let lead = |label: &str| -> Result<&Lead, String> {
        let at = view.resolve(JobSide::Old, label)?;
        let lead = view.state().items.lead(&ItemId::At(at.clone()));
        lead.ok_or_else(|| format!("No lead was recorded in {at}."))
    };
    let planned = |lead: &Lead, with: &Lead, reason: &str| Act::Planned {
        lead: lead.id.clone(),
        how: RepairKind::Join,
        reason: reason.to_owned(),
        part: None,
        order: None,
        with: Some(with.id.clone()),
    };
    match typed {
        [] => field("JOIN two leads: the first, by its old cavity?"),
        [one] => match lead(one) {
            Ok(one) => field(format!("{} goes into the terminal of which other lead?", one.call())),
            Err(why) => Asked::Wrong(why),
        },
        [one, other, rest @ ..] => match (lead(one), lead(other)) {
            (Ok(one), Ok(other)) => match rest.first() {
                // What speaks against it is said before a reason is asked.
                None => super::unless_barred(view, planned(one, other, "joined"), || {
                    field("Why, and under which document?")
                }),
                Some(reason) => Asked::Ready(vec![planned(one, other, reason)]),
            },
            (Err(why), _) | (_, Err(why)) => Asked::Wrong(why),
        },
    }
}
