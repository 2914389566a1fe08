//! What a decision for the diagram, or a joining, asks at the bench: a wire without a place, a wire that
//! leaves its terminal, two leads that become one.

use crate::job::{Act, Code, Destination, Inspected, ItemId, JobSide, Lead, RepairKind, WireId};

use super::{Acts, Choice, ConsequenceQuestion, JobView, Kind, Replies, Stop, Typed, park};

/// What is asked of a lead in the hand before it is looked at; none where nothing is.
pub(super) fn in_hand(view: &JobView<'_>, lead: &Lead, replies: &mut Replies<'_>) -> Option<Acts> {
    let target = &view.assessment.target;
    if target.leads.get(&lead.id) == Some(&Destination::Out) {
        return Some(without_place(lead, replies));
    }
    if let Some(slots) = target.by_decision.parting.get(&lead.id) {
        return Some(leaves_terminal(lead, slots, replies));
    }
    let state = view.state();
    let other = state.items.leads.iter().find(|other| state.waits_to_join(other, lead))?;
    Some(waits_to_join(view, lead, other, replies))
}

fn waits_to_join(view: &JobView<'_>, lead: &Lead, other: &Lead, replies: &mut Replies<'_>) -> Acts {
    let question = ConsequenceQuestion::JoinWaits { lead: lead.id.clone(), with: other.id.clone() };
    replies.choice(question, &[Choice::Tagged])?;
    park::park(view, Some(RepairKind::Join), replies)
}

/// A wire that is not on the diagram: out for good under a document, or tied back with a day.
fn without_place(lead: &Lead, replies: &mut Replies<'_>) -> Acts {
    let question = ConsequenceQuestion::NoPlace(lead.id.clone());
    match replies.one_of(question, &[(Choice::ForGood, false), (Choice::TieBack, true)])? {
        true => tie_back(lead, replies),
        false => Ok(vec![Act::Removed {
            wire: WireId { lead: lead.id.clone(), wire: None },
            document: replies.text(ConsequenceQuestion::OutDocument, Kind::Document)?.words(),
        }]),
    }
}

fn tie_back(lead: &Lead, replies: &mut Replies<'_>) -> Acts {
    let tag = replies.text(ConsequenceQuestion::TieBackTag, Kind::Tag)?.parse_or_wrong()?;
    let due = replies.text(ConsequenceQuestion::TieBackDay, Kind::Day)?.day()?;
    let by = replies.text(ConsequenceQuestion::TieBackBy, Kind::Name)?.words();
    Ok(vec![
        Act::Park { tag, reason: "insulated and tied back".to_owned() },
        Act::Accept {
            flag: Code::Parked,
            at: match &lead.id {
                ItemId::At(at) => Some(at.clone()),
                ItemId::PlugBehind(_) | ItemId::Loose(_) | ItemId::Stock(_) => None,
            },
            by: Some(by),
            reason: "not on the diagram; insulated and tied back".to_owned(),
            due: Some(due),
            line: None,
        },
    ])
}

/// Wires of a lead by their names, else by their places in it.
pub fn names_of_wires(lead: &Lead, slots: &[usize]) -> Vec<String> {
    let name = |slot: &usize| {
        let wire = slot.checked_sub(1).and_then(|n| lead.seen.wires.get(n));
        wire.and_then(|wire| wire.name()).map_or_else(|| format!("wire {slot}"), ToOwned::to_owned)
    };
    slots.iter().map(name).collect()
}

/// A wire that does not belong in this terminal is cut; the one that stays gets a new terminal.
fn leaves_terminal(lead: &Lead, slots: &[usize], replies: &mut Replies<'_>) -> Acts {
    let question = ConsequenceQuestion::CutOut { lead: lead.id.clone(), slots: slots.to_vec() };
    let document = replies.text(question, Kind::Document)?;
    let cut = slots.iter().map(|slot| Act::Removed {
        wire: WireId { lead: lead.id.clone(), wire: Some(*slot) },
        document: document.words(),
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
            wires: None,
            lead: lead.id.clone(),
            how: needs,
            reason: format!("{} cut out of its terminal", names_of_wires(lead, slots).join(" and ")),
            part: None,
            order: None,
            with: None,
        },
    ];
    Ok(cut.chain(renew).collect())
}

/// Two leads that are mapped to one cavity are planned to be joined.
pub(super) fn join(view: &JobView<'_>, replies: &mut Replies<'_>) -> Acts {
    let one = lead_of(view, replies.text(ConsequenceQuestion::JoinFirst, Kind::Label)?)?;
    let question = ConsequenceQuestion::JoinOther(one.id.clone());
    let other = lead_of(view, replies.text(question, Kind::Label)?)?;
    let planned = |reason: &str| Act::Planned {
        wires: None,
        lead: one.id.clone(),
        how: RepairKind::Join,
        reason: reason.to_owned(),
        part: None,
        order: None,
        with: Some(other.id.clone()),
    };
    // What speaks against it is said before a reason is asked.
    replies.unless_barred(view, || planned("joined"))?;
    let why = replies.text(ConsequenceQuestion::JoinWhy, Kind::Words)?;
    Ok(vec![planned(why.as_str())])
}

fn lead_of<'a>(view: &JobView<'a>, typed: Typed<'_>) -> Result<&'a Lead, Stop> {
    let at = view.cavity(JobSide::Old, typed)?;
    let lead = view.state().items.lead(&ItemId::At(at.clone()));
    lead.ok_or_else(|| Stop::wrong(format!("No lead was recorded in {at}.")))
}
