//! Repairs of the lead in the hand, and the waiting for their parts.

use crate::{
    catalogue::PartNumber,
    job::{Act, Code, Lead, Place, RepairKind, Tag},
    quantity::list_of,
    report::part_or_description,
};

use super::{Answer, Asked, crimp, decide, desk, field, lead_order, picks, splice, texts};
use crate::screen::{job_view::JobView, keys::Pick};

/// Every move that is left waits for a part: what for, and what may come.
pub(super) fn waiting(view: &JobView<'_>, answers: &[Answer]) -> Asked {
    let state = view.state();
    let leads: Vec<(&Lead, &Tag)> =
        state.items.parked().filter_map(|(tag, id)| Some((state.items.lead(id)?, tag))).collect();
    match answers {
        [] => {
            let calls: Vec<String> =
                leads.iter().map(|(lead, tag)| format!("{} (tag {tag})", lead.call())).collect();
            let next = match state.supply.requested {
                Some(_) => match still_to_come(view).as_slice() {
                    [] => String::new(),
                    lines => format!(" Still to come: {}.", list_of(lines)),
                },
                None => " Send the request: Tab to its page.".to_owned(),
            };
            let prompt = format!("WAITING for parts: {}.{next}", list_of(&calls));
            picks(prompt, &[Pick::TakeUp, Pick::PartArrived])
        }
        [Answer::Pick(Pick::PartArrived), rest @ ..] => desk::arrived(view, rest),
        [_, rest @ ..] => match (leads.as_slice(), texts(rest).first().map(|tag| tag.parse())) {
            ([(_, tag)], _) => Asked::Ready(vec![Act::TakeUp { tag: (*tag).clone() }]),
            (_, None) => field("TAKE UP which tag?"),
            (_, Some(Ok(tag))) => Asked::Ready(vec![Act::TakeUp { tag }]),
            (_, Some(Err(why))) => Asked::Wrong(format!("{why}")),
        },
    }
}

/// The lines of the request that leads wait for and that have not all come.
fn still_to_come(view: &JobView<'_>) -> Vec<String> {
    let state = view.state();
    let lines = state.supply.requested.iter().flat_map(|request| &request.lines);
    lines
        .filter(|line| !line.leads.is_empty())
        .map(|line| (line.line, state.supply.counts(line)))
        .filter(|(_, counts)| !counts.has_come())
        .map(|(line, counts)| {
            let asked = view.last_request.and_then(|request| request.line(line));
            let part = asked.map(part_or_description).unwrap_or_default();
            format!("line {line} {part} ({})", counts.still_wanted())
        })
        .collect()
}

/// Tag and park what is in the hand. Why is asked only where no planned repair says it.
pub(super) fn park(view: &JobView<'_>, planned: Option<RepairKind>, answers: &[Answer]) -> Asked {
    let waits = planned.map(|how| format!("waits for {}", how.words()));
    let typed = texts(answers);
    let reason = waits.or_else(|| typed.get(1).map(|reason| (*reason).to_owned()));
    match (typed.first().map(|tag| tag.parse()), reason) {
        (None, _) => field("PARK it: what is on the tag?"),
        (Some(Err(why)), _) => Asked::Wrong(format!("{why}")),
        (Some(Ok(tag)), None) => {
            // A tag that is used already is said before the reason is asked.
            let parked = Act::Park { tag, reason: "parked".to_owned() };
            super::unless_barred(view, parked, || field("Why is it parked?"))
        }
        (Some(Ok(tag)), Some(reason)) => Asked::Ready(vec![Act::Park { tag, reason }]),
    }
}

/// A lead in the hand that needs a repair.
pub(super) fn repair(
    view: &JobView<'_>,
    lead: &Lead,
    call: &str,
    kind: RepairKind,
    answers: &[Answer],
) -> Asked {
    let rest = answers.get(1..).unwrap_or_default();
    match answers {
        [] => {
            let prompt = format!("{call} needs {}. Done, or park it until its part is here?", kind.words());
            let mut offered = match lead.place {
                Place::NotMade => vec![Pick::RepairDone],
                _ => vec![Pick::RepairDone, Pick::Tagged, Pick::Answer],
            };
            offered.extend(kind.is_new_lead().then_some(Pick::OrderLead));
            picks(prompt, &offered)
        }
        [Answer::Pick(Pick::Tagged), ..] => park(view, Some(kind), rest),
        [Answer::Pick(Pick::Answer), ..] => decide::inspect(view, lead, call, rest),
        [Answer::Pick(Pick::OrderLead), ..] => lead_order::order(view, lead, rest),
        _ if lead.planned != Some(kind) => Asked::Ready(vec![Act::Planned {
            lead: lead.id.clone(),
            how: kind,
            reason: "found in the hand".to_owned(),
            part: None,
            order: None,
            with: None,
        }]),
        _ => done(view, lead, kind, rest),
    }
}

/// The repair is done: with which part, and how.
fn done(view: &JobView<'_>, lead: &Lead, kind: RepairKind, answers: &[Answer]) -> Asked {
    let takes_part = kind == RepairKind::NewSeal || kind.renews_terminal();
    if !takes_part {
        return match texts(answers).first() {
            None => field("What was done?"),
            Some(done) => Asked::Ready(vec![plain(lead, kind, done, None)]),
        };
    }
    let Some((Answer::Text(part), rest)) = answers.split_first() else {
        let asked = named_part(view, lead).map_or(String::new(), |part| format!("= {part}; "));
        let lot = if kind == RepairKind::NewTerminal { "; with its lot: = lot 4711" } else { "" };
        return field(format!("Part number of the new part? ({asked}- for none{lot})"));
    };
    let (part, lot) = match part.split_once(" lot ") {
        Some((part, lot)) if kind == RepairKind::NewTerminal => (part.trim(), Some(lot.trim().to_owned())),
        _ => (part.as_str(), None),
    };
    let part = match part {
        "-" => None,
        "=" => match named_part(view, lead) {
            None => return Asked::Wrong("No part was named: key its number, or - for none.".to_owned()),
            named => named,
        },
        typed => Some(typed.to_owned()),
    };
    let part = part.as_deref();
    let parsed: Option<PartNumber> = match part.map(str::parse).transpose() {
        Ok(part) => part,
        Err(why) => return Asked::Wrong(format!("{why}")),
    };
    let misfit = misfit(view, lead, kind, parsed.clone());
    let asked = match kind {
        RepairKind::NewTerminal => crimp::new_terminal(view, lead, parsed, lot, rest),
        RepairKind::RepairLead | RepairKind::Join => splice::splice(view, lead, kind, parsed, rest),
        RepairKind::NewSeal | RepairKind::Reform | RepairKind::Other => {
            Asked::Ready(vec![plain(lead, kind, "new seal on", parsed)])
        }
    };
    if rest.is_empty() { asked.loudly(misfit) } else { asked }
}

/// That a part does not belong there, said before it is fitted; empty where it does.
fn misfit(view: &JobView<'_>, lead: &Lead, kind: RepairKind, part: Option<PartNumber>) -> String {
    let verdict = view.preview(&plain(lead, kind, "looked at", part));
    let misfits = verdict.refusals().iter().filter(|refusal| refusal.code == Some(Code::TerminalMisfit));
    let said: Vec<String> =
        misfits.map(|refusal| format!("WRONG PART? {refusal} Esc keys it anew.")).collect();
    said.join(" ")
}

fn plain(lead: &Lead, how: RepairKind, done: &str, part: Option<PartNumber>) -> Act {
    Act::Repair {
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
fn named_part(view: &JobView<'_>, lead: &Lead) -> Option<String> {
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
