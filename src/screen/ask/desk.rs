//! What goes to the parts desk and what comes from it.

use crate::{
    job::{Act, ArrivedVerdict},
    quantity::day,
    report::part_or_description,
    supply::{RequestHead, Urgency},
};

use super::{Answer, Asked, field, picks, texts};
use crate::screen::{job_view::JobView, keys::Pick};

/// What the desk would phone back about, asked before the first revision; later ones keep it.
pub(super) fn send(view: &JobView<'_>, answers: &[Answer]) -> Asked {
    let (head, answers) = match (view.last_request, answers) {
        (None, answers) => (None, answers),
        (Some(_), []) => {
            return picks(
                "SEND the request anew, to the same place by the same day as before?",
                &[Pick::Yes, Pick::No],
            );
        }
        (Some(_), [first, rest @ ..]) => (Some(*first == Answer::Pick(Pick::Yes)), rest),
    };
    let typed = texts(answers);
    let said = |n: usize| typed.get(n).filter(|text| **text != "-").map(|text| (*text).to_owned());
    let urgency = match answers.last() {
        Some(Answer::Pick(pick)) => Some(Urgency::from(pick.text())),
        _ => None,
    };
    let needed_by = said(2).map(|text| day(&text)).transpose();
    match (typed.len(), &urgency) {
        _ if head == Some(true) => {}
        (0, _) => return field("SEND the request. Which bench asks? (- leaves it open)"),
        (1, _) => return field("Deliver to whom, where? (- leaves it open)"),
        (2, _) => return field("Needed by which day? (2026-12-01; - leaves it open)"),
        (_, None) if needed_by.is_err() => {
            return Asked::Wrong("Key the day as 2026-12-01.".to_owned());
        }
        (_, None) => {
            // Without a day nothing can be needed by it.
            let by_the_day = said(2).is_some().then_some(Pick::ByTheDay);
            let offered = [Pick::MachineStopped].into_iter().chain(by_the_day).chain([Pick::WhenConvenient]);
            return picks("How urgent is it?", &offered.collect::<Vec<_>>());
        }
        (_, Some(_)) => {}
    }
    Asked::Send(RequestHead {
        asked_by: view.by.to_owned(),
        bench: said(0),
        deliver_to: said(1),
        needed_by: needed_by.unwrap_or_default(),
        urgency,
    })
}

/// What came for a line of the request, held against what was asked for.
pub(super) fn arrived(view: &JobView<'_>, answers: &[Answer]) -> Asked {
    let typed = texts(answers);
    let verdict = answers.iter().find_map(|answer| match answer {
        Answer::Pick(Pick::AsAsked) => Some(ArrivedVerdict::AsAsked),
        Answer::Pick(Pick::WrongPart) => Some(ArrivedVerdict::WrongPart),
        Answer::Pick(Pick::CameDamaged) => Some(ArrivedVerdict::Damaged),
        Answer::Pick(Pick::Substitute) => Some(ArrivedVerdict::Substitute),
        Answer::Pick(_) | Answer::Text(_) => None,
    });
    let number =
        |text: &str| text.trim().parse::<u32>().map_err(|_| format!("\"{text}\" is no whole number."));
    let Some(line) = typed.first() else { return field("ARRIVED: which line of the request?") };
    let line = match number(line).and_then(|line| is_asked(view, line).map(|()| line)) {
        Ok(line) => line,
        Err(why) => return Asked::Wrong(why),
    };
    let Some(count) = typed.get(1) else { return field("How many came?") };
    let count = match number(count) {
        Ok(count) => count,
        Err(why) => return Asked::Wrong(why),
    };
    let act = |verdict, part| Act::Arrived { line, count, part, verdict };
    match verdict {
        None => super::unless_barred(view, act(ArrivedVerdict::AsAsked, None), || {
            let asked = view.last_request.and_then(|request| request.line(line));
            let part = asked.map_or("what was asked for".to_owned(), part_or_description);
            picks(
                format!("HOLD it against the request: {part}. What came?"),
                &[Pick::AsAsked, Pick::WrongPart, Pick::CameDamaged, Pick::Substitute],
            )
        }),
        Some(verdict @ (ArrivedVerdict::AsAsked | ArrivedVerdict::Damaged)) => {
            Asked::Ready(vec![act(verdict, None)])
        }
        Some(verdict @ (ArrivedVerdict::WrongPart | ArrivedVerdict::Substitute)) => match typed.get(2) {
            None => field("Which part number is on it?"),
            Some(part) => match part.parse() {
                Ok(part) => Asked::Ready(vec![act(verdict, Some(part))]),
                Err(why) => Asked::Wrong(format!("{why}")),
            },
        },
    }
}

fn is_asked(view: &JobView<'_>, line: u32) -> Result<(), String> {
    let request = view.job.state().supply.requested.as_ref();
    let is_there = request.is_some_and(|request| request.lines.iter().any(|asked| asked.line == line));
    match is_there {
        true => Ok(()),
        false => Err(format!("The request has no line {line}: read its number on the paper.")),
    }
}
