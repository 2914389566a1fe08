//! Repairs of the lead in the hand, and the waiting for their parts.

use crate::{
    catalogue::PartNumber,
    job::{Act, Code, Lead, Place, RepairKind, Tag},
};

use super::{
    Acts, Choice, JobView, Kind, RepairQuestion, Replies, Stop, Typed, Warning, crimp, decide, desk,
    lead_order, park, replies::not_offered, splice,
};

/// The leads that are parked, and their tags.
pub fn parked_leads<'a>(view: &JobView<'a>) -> Vec<(&'a Lead, &'a Tag)> {
    let state = view.state();
    state.items.parked().filter_map(|(tag, id)| Some((state.items.lead(id)?, tag))).collect()
}

/// Every move that is left waits for a part: what for, and what may come.
pub(super) fn waiting(view: &JobView<'_>, replies: &mut Replies<'_>) -> Acts {
    match replies.one_of(RepairQuestion::Waiting, &[(Choice::TakeUp, false), (Choice::PartArrived, true)])? {
        true => desk::arrived(view, replies),
        false => {
            let tag = match parked_leads(view).as_slice() {
                [(_, tag)] => (*tag).clone(),
                _ => replies.text(RepairQuestion::TakeUpTag, Kind::Tag)?.parse_or_wrong()?,
            };
            Ok(vec![Act::TakeUp { tag }])
        }
    }
}

/// A lead in the hand that needs a repair.
pub(super) fn repair(view: &JobView<'_>, lead: &Lead, kind: RepairKind, replies: &mut Replies<'_>) -> Acts {
    let mut offered = match lead.place {
        Place::NotMade => vec![Choice::RepairDone],
        _ => vec![Choice::RepairDone, Choice::Tagged, Choice::Answer],
    };
    offered.extend(kind.is_new_lead().then_some(Choice::OrderLead));
    match replies.choice(RepairQuestion::Done { lead: lead.id.clone(), kind }, &offered)? {
        Choice::Tagged => park::park(view, Some(kind), replies),
        Choice::Answer => decide::inspect(view, lead, replies),
        Choice::OrderLead => lead_order::order(view, lead, replies),
        Choice::RepairDone if lead.planned != Some(kind) => Ok(vec![Act::Planned {
            wires: None,
            lead: lead.id.clone(),
            how: kind,
            reason: "found in the hand".to_owned(),
            part: None,
            order: None,
            with: None,
        }]),
        Choice::RepairDone => done(view, lead, kind, replies),
        _ => Err(not_offered()),
    }
}

/// The repair is done: with which part, and how.
fn done(view: &JobView<'_>, lead: &Lead, kind: RepairKind, replies: &mut Replies<'_>) -> Acts {
    if kind != RepairKind::NewSeal && !kind.renews_terminal() {
        let done = replies.text(RepairQuestion::WhatWasDone, Kind::Words)?;
        return Ok(vec![plain(lead, kind, done.as_str(), None)]);
    }
    let typed = replies.text(RepairQuestion::Part { lead: lead.id.clone(), kind }, Kind::Part)?;
    let (part, lot) = match typed.as_str().split_once(" lot ") {
        Some((part, lot)) if kind == RepairKind::NewTerminal => {
            (Typed(part.trim()), Some(lot.trim().to_owned()))
        }
        _ => (typed, None),
    };
    let part: Option<PartNumber> = match part {
        Typed("-") => None,
        Typed("=") => {
            let none = || Stop::wrong("No part was named: key its number, or - for none.");
            Some(Typed(&named_part(view, lead).ok_or_else(none)?).parse_or_wrong()?)
        }
        typed => Some(typed.parse_or_wrong()?),
    };
    let misfit = replies.before_asking(|| misfit(view, lead, kind, part.clone()));
    let acts = match kind {
        RepairKind::NewTerminal => crimp::new_terminal(view, lead, part, lot, replies),
        RepairKind::RepairLead | RepairKind::Join => splice::splice(view, lead, kind, part, replies),
        RepairKind::NewSeal | RepairKind::Reform | RepairKind::Other => {
            Ok(vec![plain(lead, kind, "new seal on", part)])
        }
    };
    acts.map_err(|stop| stop.warned_first(misfit))
}

/// That a part does not belong there, said before it is fitted.
fn misfit(view: &JobView<'_>, lead: &Lead, kind: RepairKind, part: Option<PartNumber>) -> Option<Warning> {
    let verdict = view.preview(&plain(lead, kind, "looked at", part));
    let misfits = verdict.refusals().iter().filter(|refusal| refusal.code() == Some(Code::TerminalMisfit));
    let misfits: Vec<_> = misfits.cloned().collect();
    (!misfits.is_empty()).then_some(Warning::WrongPart(misfits))
}

fn plain(lead: &Lead, how: RepairKind, done: &str, part: Option<PartNumber>) -> Act {
    Act::Repair {
        made: None,
        lead: lead.id.clone(),
        how,
        done: done.to_owned(),
        part,
        crimp: None,
        splice: None,
        anyway: None,
    }
}

/// The part named in the plan, else the one that was asked for, else the only terminal that fits.
pub fn named_part(view: &JobView<'_>, lead: &Lead) -> Option<String> {
    let planned = lead.planned_part.as_ref().map(ToString::to_string);
    let asked = || asked_for(view, lead).map(str::to_owned);
    let bears_it = lead.planned.is_some_and(RepairKind::renews_terminal);
    let only = || view.state().terminal_for(lead).filter(|_| bears_it).map(|t| t.part.to_string());
    planned.or_else(asked).or_else(only)
}

/// The part the request asks for on behalf of a lead: its terminal before what goes with it.
fn asked_for<'a>(view: &JobView<'a>, lead: &Lead) -> Option<&'a str> {
    let request = view.job.state().supply.requested.as_ref()?;
    let line = request.lines.iter().find(|line| line.leads.contains(&lead.id))?;
    view.last_request?.line(line.line)?.wanted.number().map(PartNumber::as_str)
}
