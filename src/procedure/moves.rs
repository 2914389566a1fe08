//! The moves: out, good, label, in and clicked, tugged. A flawless wire takes four keys and its
//! label, a flawless plug two and its label.

use crate::{
    colour::Colour,
    job::{Act, ItemId, JobSide, Lead, Place, RepairKind, Seat, SeenAt},
    record::{Address, Seal},
};

use super::{
    Acts, Choice, JobView, Kind, MoveQuestion, Replies, Stop, Warning, consequence, decide, repair,
    replies::not_offered, warned,
};

/// The next question about a lead, wherever it is.
pub(super) fn wire(view: &JobView<'_>, id: &ItemId, replies: &mut Replies<'_>) -> Acts {
    let state = view.state();
    let lead = state.items.lead(id).ok_or_else(|| Stop::wrong(format!("There is no lead {id}.")))?;
    match &lead.place {
        Place::In(at) if state.housings.side_of(at) == Some(JobSide::Old) => {
            take_out(view, lead, at, replies)
        }
        Place::In(at) => in_new(view, lead, at, replies),
        Place::Hand => in_hand(view, lead, replies),
        Place::NotMade => repair::repair(view, lead, RepairKind::RepairLead, replies),
        Place::Parked(tag) => {
            let question = MoveQuestion::TakeUp { lead: id.clone(), tag: tag.clone() };
            replies.choice(question, &[Choice::TakeUp])?;
            Ok(vec![Act::TakeUp { tag: tag.clone() }])
        }
        _ => {
            replies.choice(MoveQuestion::Found(id.clone()), &[Choice::Yes])?;
            Ok(vec![Act::Seen { item: id.clone(), at: SeenAt::Hand, reason: "found again".to_owned() }])
        }
    }
}

/// Out of the old housing: the colour is keyed before it is pulled where it may be taken for another.
fn take_out(view: &JobView<'_>, lead: &Lead, at: &Address, replies: &mut Replies<'_>) -> Acts {
    let is_colour_asked = view.assessment.target.colours_asked.contains(&lead.id);
    // What would be refused whatever the colour is said before anything else.
    let known = lead.first_wire().and_then(|wire| wire.colour.known()).cloned();
    let not_yet = || {
        let verdict = view.preview(&taken_out(at, known, true, Seal::On));
        let first = verdict.refusals().first().cloned();
        first.map(|refusal| Warning::First(Box::new(refusal)))
    };
    let first = replies.before_asking(not_yet);
    let colour: Option<Colour> = match is_colour_asked {
        true => {
            let question = MoveQuestion::ColourAt { at: at.clone(), lead: lead.id.clone() };
            Some(replies.text(warned(question, first.clone()), Kind::Colour)?.parse_or_wrong()?)
        }
        false => None,
    };
    // Only where each wire has a seal of its own can it come along.
    let has_seal = is_individually_sealed(view, at);
    let with_seal = if has_seal { Seal::On } else { Seal::None };
    if is_colour_asked {
        // A colour that differs is settled before the wire leaves its hole.
        replies.unless_barred(view, || taken_out(at, colour.clone(), true, with_seal))?;
    }
    let question = MoveQuestion::Extract { at: at.clone(), lead: lead.id.clone(), has_seal };
    let as_shown = replies.one_of(warned(question, first), &[(Choice::Out, true), (Choice::NotSo, false)])?;
    let (freely, seal) = match as_shown {
        true => (true, with_seal),
        false => how_it_came(at, with_seal, replies)?,
    };
    Ok(vec![taken_out(at, colour, freely, seal)])
}

/// Whether a lead came freely, and its seal with it.
pub(super) fn how_it_came(
    at: &Address,
    with_seal: Seal,
    replies: &mut Replies<'_>,
) -> Result<(bool, Seal), Stop> {
    let how = [(Choice::Freely, true), (Choice::Forced, false)];
    let freely = replies.one_of(MoveQuestion::HowItCame(at.clone()), &how)?;
    let seal = match with_seal {
        Seal::None => Seal::None,
        Seal::On | Seal::Renewed | Seal::Missing | Seal::Unknown => {
            let came = [(Choice::SealWith, Seal::On), (Choice::Missing, Seal::Missing)];
            replies.one_of(MoveQuestion::SealCame(at.clone()), &came)?
        }
    };
    Ok((freely, seal))
}

fn taken_out(from: &Address, colour: Option<Colour>, freely: bool, seal: Seal) -> Act {
    Act::Extract { from: from.clone(), colour, freely, seal, anyway: None }
}

fn is_individually_sealed(view: &JobView<'_>, at: &Address) -> bool {
    let sealing = view.housing(&at.housing).map(|h| &h.housing().sealing);
    matches!(sealing, Some(crate::catalogue::Sealing::Individual))
}

fn in_hand(view: &JobView<'_>, lead: &Lead, replies: &mut Replies<'_>) -> Acts {
    if let Some(acts) = consequence::in_hand(view, lead, replies) {
        return acts;
    }
    if lead.planned == Some(RepairKind::Join) {
        return repair::repair(view, lead, RepairKind::Join, replies);
    }
    match lead.inspected {
        None => decide::inspect(view, lead, replies),
        Some(Some(kind)) => repair::repair(view, lead, kind, replies),
        Some(None) => insert(view, lead, replies),
    }
}

/// The label is read and keyed; whether it belongs there is said before it is pushed in.
fn insert(view: &JobView<'_>, lead: &Lead, replies: &mut Replies<'_>) -> Acts {
    let put = |into, click| Act::Insert { into, click, again: false, anyway: None };
    let label = replies.text(MoveQuestion::LabelFor(lead.id.clone()), Kind::Label)?;
    let into = view.cavity(JobSide::New, label)?;
    replies.unless_barred(view, || put(into.clone(), true))?;
    let question = MoveQuestion::Clicked { into: into.clone(), lead: Some(lead.id.clone()) };
    let clicked = replies.one_of(question, &[(Choice::Clicked, true), (Choice::NoClick, false)])?;
    Ok(vec![put(into, clicked)])
}

/// A lead that sits in a new hole: tugged, or taken out again.
fn in_new(view: &JobView<'_>, lead: &Lead, at: &Address, replies: &mut Replies<'_>) -> Acts {
    let is_wrong_hole = view.assessment.target.of(&lead.id) != Some(at);
    let (at, id) = (at.clone(), lead.id.clone());
    let choice = match lead.seat {
        Seat::Clicked => {
            let question = MoveQuestion::TugHeld { at: at.clone(), lead: id };
            let held = replies.one_of(question, &[(Choice::Held, true), (Choice::NotHeld, false)])?;
            return Ok(vec![Act::Tug { at, held }]);
        }
        Seat::NoClick if !is_wrong_hole => {
            let offered = [Choice::PushedAgain, Choice::Out, Choice::NotSo];
            replies.choice(MoveQuestion::PushedAgain { at: at.clone(), lead: id }, &offered)?
        }
        Seat::NoClick | Seat::Held | Seat::Away => {
            let question = MoveQuestion::OutAgain { at: at.clone(), lead: id, is_wrong_hole };
            replies.choice(question, &[Choice::Out, Choice::NotSo])?
        }
    };
    match choice {
        Choice::PushedAgain => Ok(vec![Act::Insert { into: at, click: true, again: true, anyway: None }]),
        Choice::Out => Ok(vec![taken_out(&at, None, true, lead.seal)]),
        Choice::NotSo => {
            let (freely, seal) = how_it_came(&at, lead.seal, replies)?;
            Ok(vec![taken_out(&at, None, freely, seal)])
        }
        _ => Err(not_offered()),
    }
}
