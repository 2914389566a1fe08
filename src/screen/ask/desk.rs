//! What goes to the parts desk and what comes from it.

use crate::{
    quantity::is_day,
    request::RequestHead,
    swap::{Act, ArrivedVerdict},
};

use super::{Answer, Asked, field, picks, texts};
use crate::screen::{keys::Pick, sight::Sight};

/// What the desk would phone back about, asked before the first revision; later ones keep it.
pub(super) fn send(sight: &Sight<'_>, answers: &[Answer]) -> Asked {
    let (head, answers) = match (sight.last_request, answers) {
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
        Some(Answer::Pick(pick)) => Some(pick.text().to_owned()),
        _ => None,
    };
    match (typed.len(), &urgency) {
        _ if head == Some(true) => {}
        (0, _) => return field("SEND the request. Which bench asks? (- leaves it open)"),
        (1, _) => return field("Deliver to whom, where? (- leaves it open)"),
        (2, _) => return field("Needed by which day? (2026-12-01; - leaves it open)"),
        (_, None) if said(2).is_some_and(|day| !is_day(&day)) => {
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
        asked_by: sight.by.to_owned(),
        bench: said(0),
        deliver_to: said(1),
        needed_by: said(2),
        urgency,
    })
}

/// A part that came.
pub(super) fn arrived(typed: &[&str]) -> Asked {
    match typed {
        [] => field("ARRIVED: which line of the request?"),
        [_] => field("How many came?"),
        [line, count, ..] => match (line.parse(), count.parse()) {
            (Ok(line), Ok(count)) => {
                Asked::Ready(vec![Act::Arrived { line, count, part: None, verdict: ArrivedVerdict::AsAsked }])
            }
            _ => Asked::Wrong("Key two whole numbers.".to_owned()),
        },
    }
}
