//! What goes to the parts desk and what comes from it.

use crate::{
    job::{Act, ArrivedVerdict},
    supply::{RequestHead, Urgency},
};

use super::{Acts, Asked, Choice, DeskQuestion, Done, JobView, Kind, Replies, Stop, Typed};

/// What the desk would phone back about, asked before the first revision; later ones may keep it.
pub(super) fn send(view: &JobView<'_>, replies: &mut Replies<'_>) -> Asked {
    let asked_by = view.by.to_owned();
    if view.last_request.is_some() && replies.yes(DeskQuestion::AsBefore)? {
        return Ok(Done::Send(RequestHead { asked_by, ..RequestHead::default() }));
    }
    let bench = replies.text(DeskQuestion::Bench, Kind::Words)?.unless_dash();
    let deliver_to = replies.text(DeskQuestion::DeliverTo, Kind::Words)?.unless_dash();
    let needed_by = replies.text(DeskQuestion::NeededBy, Kind::Day)?.unless_dash();
    let needed_by = needed_by.map(Typed::day).transpose()?;
    // Without a day nothing can be needed by it.
    let mut offered = vec![(Choice::MachineStopped, Urgency::MachineStopped)];
    offered.extend(needed_by.as_ref().map(|_| (Choice::ByTheDay, Urgency::ByTheDay)));
    offered.push((Choice::WhenConvenient, Urgency::WhenConvenient));
    let urgency = replies.one_of(DeskQuestion::Urgency, &offered)?;
    Ok(Done::Send(RequestHead {
        asked_by,
        bench: bench.map(Typed::words),
        deliver_to: deliver_to.map(Typed::words),
        needed_by,
        urgency: Some(urgency),
    }))
}

/// What came for a line of the request, held against what was asked for.
pub(super) fn arrived(view: &JobView<'_>, replies: &mut Replies<'_>) -> Acts {
    let line = number(replies.text(DeskQuestion::ArrivedLine, Kind::Number)?)?;
    is_asked(view, line)?;
    let count = number(replies.text(DeskQuestion::ArrivedCount(line), Kind::Number)?)?;
    let act = |verdict, part| Act::Arrived { line, count, part, verdict };
    replies.unless_barred(view, || act(ArrivedVerdict::AsAsked, None))?;
    let offered = [
        (Choice::AsAsked, ArrivedVerdict::AsAsked),
        (Choice::WrongPart, ArrivedVerdict::WrongPart),
        (Choice::CameDamaged, ArrivedVerdict::Damaged),
        (Choice::Substitute, ArrivedVerdict::Substitute),
    ];
    let verdict = replies.one_of(DeskQuestion::ArrivedWhat(line), &offered)?;
    let part = match verdict {
        ArrivedVerdict::AsAsked | ArrivedVerdict::Damaged => None,
        ArrivedVerdict::WrongPart | ArrivedVerdict::Substitute => {
            Some(replies.text(DeskQuestion::ArrivedPart(line), Kind::Part)?.parse_or_wrong()?)
        }
    };
    Ok(vec![act(verdict, part)])
}

fn number(typed: Typed<'_>) -> Result<u32, Stop> {
    let text = typed.as_str();
    text.parse().map_err(|_| Stop::wrong(format!("\"{text}\" is no whole number.")))
}

fn is_asked(view: &JobView<'_>, line: u32) -> Result<(), Stop> {
    let request = view.job.state().supply.requested.as_ref();
    let is_there = request.is_some_and(|request| request.lines.iter().any(|asked| asked.line == line));
    match is_there {
        true => Ok(()),
        false => Err(Stop::wrong(format!("The request has no line {line}: read its number on the paper."))),
    }
}
