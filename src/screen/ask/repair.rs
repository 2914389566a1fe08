//! Repairs in their plain form, and the waiting for their parts.

use crate::{
    catalogue::PartNumber,
    quantity::list_of,
    swap::{Act, Lead, RepairKind, Tag},
};

use super::{Answer, Asked, field, moves, other, picks, texts};
use crate::screen::{keys::Pick, sight::Sight};

/// Every move that is left waits for a part: what for, and what may come.
pub(super) fn waiting(sight: &Sight<'_>, answers: &[Answer]) -> Asked {
    let state = sight.state();
    let leads: Vec<(&Lead, &Tag)> =
        state.parked().filter_map(|(tag, id)| Some((state.lead(id)?, tag))).collect();
    match answers {
        [] => {
            let calls: Vec<String> =
                leads.iter().map(|(lead, tag)| format!("{} (tag {tag})", state.call(lead))).collect();
            let next = match state.requested {
                Some(_) => match still_to_come(sight).as_slice() {
                    [] => String::new(),
                    lines => format!(" Still to come: {}.", list_of(lines)),
                },
                None => " Send the request: Tab to its page.".to_owned(),
            };
            let prompt = format!("WAITING for parts: {}.{next}", list_of(&calls));
            picks(prompt, &[Pick::TakeUp, Pick::PartArrived])
        }
        [Answer::Pick(Pick::PartArrived), rest @ ..] => other::arrived(&texts(rest)),
        [_, rest @ ..] => match (leads.as_slice(), texts(rest).first().map(|tag| tag.parse())) {
            ([(_, tag)], _) => Asked::Ready(vec![Act::TakeUp { tag: (*tag).clone() }]),
            (_, None) => field("TAKE UP which tag?"),
            (_, Some(Ok(tag))) => Asked::Ready(vec![Act::TakeUp { tag }]),
            (_, Some(Err(why))) => Asked::Wrong(format!("{why}")),
        },
    }
}

/// The lines of the request that leads wait for and that have not all come.
fn still_to_come(sight: &Sight<'_>) -> Vec<String> {
    let state = sight.state();
    let lines = state.requested.iter().flat_map(|request| &request.lines);
    let here = |line: u32| state.arrived.get(&line).copied().unwrap_or(0);
    lines
        .filter(|line| !line.leads.is_empty() && here(line.line) < line.need)
        .map(|line| {
            let part = sight.last_request.and_then(|request| request.part_of(line.line)).unwrap_or("");
            format!("line {} {part} ({})", line.line, line.need - here(line.line))
        })
        .collect()
}

/// Tag and park what is in the hand. Why is asked only where no planned repair says it.
pub(super) fn park(planned: Option<RepairKind>, answers: &[Answer]) -> Asked {
    let waits = planned.map(|how| format!("waits for {}", how.words()));
    let typed = texts(answers);
    let reason = waits.or_else(|| typed.get(1).map(|reason| (*reason).to_owned()));
    match (typed.first().map(|tag| tag.parse()), reason) {
        (None, _) => field("PARK it: what is on the tag?"),
        (Some(Err(why)), _) => Asked::Wrong(format!("{why}")),
        (Some(Ok(_)), None) => field("Why is it parked?"),
        (Some(Ok(tag)), Some(reason)) => Asked::Ready(vec![Act::Park { tag, reason }]),
    }
}

/// A lead in the hand that needs a repair.
pub(super) fn repair(
    sight: &Sight<'_>,
    lead: &Lead,
    call: &str,
    kind: RepairKind,
    answers: &[Answer],
) -> Asked {
    let prompt = format!("{call} needs {}. Done, or park it until its part is here?", kind.words());
    match answers {
        [] => picks(prompt, &[Pick::RepairDone, Pick::Tagged, Pick::Answer]),
        [Answer::Pick(Pick::Tagged), ..] => park(Some(kind), answers.get(1..).unwrap_or_default()),
        [Answer::Pick(Pick::Answer), ..] => moves::inspect(lead, call, answers.get(1..).unwrap_or_default()),
        _ => match texts(answers).as_slice() {
            [] => field(
                "What was done? (seal on first, strip, crimp, look, finger tug; seal on the terminal side)",
            ),
            [_] => match asked_for(sight, lead) {
                Some(part) => field(format!("Part number of the new part? (= {part}; - for none)")),
                None => field("Part number of the new part? (- for none)"),
            },
            [done, part, ..] => {
                let typed = match *part {
                    "-" => None,
                    "=" => asked_for(sight, lead),
                    typed => Some(typed),
                };
                let part: Option<PartNumber> = match typed.map(str::parse).transpose() {
                    Ok(part) => part,
                    Err(why) => return Asked::Wrong(format!("{why}")),
                };
                let mut acts = Vec::new();
                if lead.planned != Some(kind) {
                    acts.push(Act::Planned {
                        lead: lead.id.clone(),
                        how: kind,
                        reason: "found in the hand".to_owned(),
                        part: part.clone(),
                    });
                }
                acts.push(Act::Repair {
                    lead: lead.id.clone(),
                    how: kind,
                    done: (*done).to_owned(),
                    part,
                    anyway: None,
                });
                Asked::Ready(acts)
            }
        },
    }
}

/// The part the request asks for on behalf of a lead: its terminal before what goes with it.
fn asked_for<'a>(sight: &Sight<'a>, lead: &Lead) -> Option<&'a str> {
    let request = sight.job.state().requested.as_ref()?;
    let line = request.lines.iter().find(|line| line.leads.contains(&lead.id))?;
    sight.last_request?.part_of(line.line)
}
