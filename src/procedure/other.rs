//! The other things one can do: what is not the next step and may be needed any moment.

use jiff::civil::Date;

use crate::{
    catalogue::LockState,
    job::{About, Act, Flag, GATES, ItemId, JobSide, Place, RecordSide, SeenAt, WireId},
    quantity::says_something,
};

use super::{
    Acts, Asked, Choice, Covered, Done, JobView, Kind, OtherQuestion, OtherThing, Replies, Stop, Typed,
    Wanted, accident, behind, consequence, desk, intake, jump, lead_order, map, park, record, tool,
};

/// What is asked about another thing.
pub(super) fn ask_other(
    view: &JobView<'_>,
    thing: OtherThing,
    covered_now: &dyn Fn() -> Covered,
    replies: &mut Replies<'_>,
) -> Asked {
    match thing {
        OtherThing::Jump => jump::jump(view, covered_now, replies),
        OtherThing::NextUndone => jump::next(view, Wanted::Undone, None),
        OtherThing::NextOpen => jump::next(view, Wanted::Open, None),
        OtherThing::ProveTool => tool::prove(view, replies),
        OtherThing::WithdrawTool => tool::withdraw(view, replies),
        OtherThing::SendRequest => desk::send(view, replies),
        // Taken over by its own topic, which carries the act.
        OtherThing::GoOn => Err(Stop::wrong("Nothing was refused.")),
        OtherThing::Map => Ok(Done::Acts(map::by_hand(view, replies)?)),
        OtherThing::WrongKey => Ok(Done::Acts(take_back(replies)?)),
        OtherThing::PutBack => Ok(Done::Acts(vec![Act::PutBack])),
        OtherThing::Park => {
            let planned = view.state().items.lead_in_hand().and_then(|lead| lead.planned);
            Ok(Done::Acts(park::park(view, planned, replies)?))
        }
        OtherThing::Seen => Ok(Done::Acts(seen(view, replies)?)),
        OtherThing::Correct => Ok(Done::Acts(correct(view, replies)?)),
        OtherThing::Note => Ok(Done::Acts(note(view, replies)?)),
        OtherThing::Photo => Ok(Done::Acts(intake::photo(replies)?)),
        OtherThing::Cause => Ok(Done::Acts(intake::cause(false, replies)?)),
        OtherThing::Behind => Ok(Done::Acts(behind::behind(view, replies)?)),
        OtherThing::OrderLead => Ok(Done::Acts(lead_order::by_label(view, covered_now, replies)?)),
        OtherThing::CutFree => Ok(Done::Acts(accident::cut_free(view, replies)?)),
        OtherThing::Loose => Ok(Done::Acts(accident::loose(view, replies)?)),
        OtherThing::PlugGone => Ok(Done::Acts(accident::plug_gone(replies)?)),
        OtherThing::LeftInOld => Ok(Done::Acts(accident::left_in_old(view, replies)?)),
        OtherThing::ReopenLock => Ok(Done::Acts(accident::reopen(view, replies)?)),
        OtherThing::Accept => Ok(Done::Acts(accept(view, replies)?)),
        OtherThing::Arrived => Ok(Done::Acts(desk::arrived(view, replies)?)),
        OtherThing::Removed => Ok(Done::Acts(removed(view, replies)?)),
        OtherThing::GateAgain => Ok(Done::Acts(gate_again(view, replies)?)),
        OtherThing::KeyShould => Ok(Done::Acts(key_should(view, replies)?)),
        OtherThing::Join => Ok(Done::Acts(consequence::join(view, replies)?)),
        OtherThing::HandOver => {
            let to = replies.text(OtherQuestion::HandOverTo, Kind::Name)?.words();
            Ok(Done::Acts(vec![Act::HandOver { to }]))
        }
        OtherThing::Stop => {
            let why = replies.text(OtherQuestion::StopWhy, Kind::Words)?.words();
            Ok(Done::Acts(vec![Act::Stop { why }]))
        }
    }
}

/// A safety question answered before is answered anew: the last answer counts.
fn gate_again(view: &JobView<'_>, replies: &mut Replies<'_>) -> Acts {
    let number = replies.text(OtherQuestion::WhichGate, Kind::Number)?;
    let gate = number.of_list(&GATES);
    let gate = gate.ok_or_else(|| Stop::wrong(format!("Key a number from 1 to {}.", GATES.len())))?;
    super::gate::gate(view, *gate, replies)
}

/// What should be in a cavity, keyed from the diagram.
fn key_should(view: &JobView<'_>, replies: &mut Replies<'_>) -> Acts {
    let side = match view.state().should_is_in_new_labels() {
        true => JobSide::New,
        false => JobSide::Old,
    };
    let at = view.cavity(side, replies.text(OtherQuestion::ShouldAt(side), Kind::Label)?)?;
    let holds = record::content(view, &at, RecordSide::Should, replies)?;
    Ok(vec![Act::Recorded { side: RecordSide::Should, at, holds, from: None }])
}

/// To whom the job was handed over last.
pub fn handed_to<'a>(view: &JobView<'a>) -> Option<&'a str> {
    view.job.entries_in_force().rev().find_map(|entry| match &entry.act {
        Act::HandOver { to } => Some(to.as_str()),
        _ => None,
    })
}

/// Who works here after a hand-over: the name stands in every entry from now on.
pub(super) fn who_works(view: &JobView<'_>, replies: &mut Replies<'_>) -> Asked {
    let name = replies.text(OtherQuestion::WhoWorks, Kind::Name)?;
    match handed_to(view).filter(|_| name.is_same()) {
        Some(to) => Ok(Done::Works(to.to_owned())),
        None if says_something(name.as_str()) => Ok(Done::Works(name.words())),
        None => Err(Stop::wrong(format!("\"{}\" is no name.", name.as_str()))),
    }
}

fn take_back(replies: &mut Replies<'_>) -> Acts {
    replies.choice(OtherQuestion::TakeBack, &[Choice::Yes])?;
    Ok(vec![Act::WrongKey])
}

fn removed(view: &JobView<'_>, replies: &mut Replies<'_>) -> Acts {
    let wire: WireId = replies.text(OtherQuestion::RemovedWhich, Kind::Item)?.parse_or_wrong()?;
    let removed = |document: &str| Act::Removed { wire: wire.clone(), document: document.to_owned() };
    replies.unless_barred(view, || removed("a document"))?;
    let document = replies.text(OtherQuestion::RemovedDocument, Kind::Document)?;
    Ok(vec![removed(document.as_str())])
}

fn seen(view: &JobView<'_>, replies: &mut Replies<'_>) -> Acts {
    let item = known_item(view, replies.text(OtherQuestion::SeenWhat, Kind::Item)?)?;
    let place = replies.text(OtherQuestion::SeenWhere, Kind::Label)?;
    let at = match place.as_str().to_ascii_lowercase().as_str() {
        "hand" => SeenAt::Hand,
        "unseen" | "nowhere" => SeenAt::Unseen,
        tag if tag.starts_with("tag ") => {
            SeenAt::Parked(Typed(place.as_str().get(4..).unwrap_or("")).parse_or_wrong()?)
        }
        _ => SeenAt::In(view.cavity(JobSide::New, place)?),
    };
    let seen = |reason: &str| Act::Seen { item: item.clone(), at: at.clone(), reason: reason.to_owned() };
    replies.unless_barred(view, || seen("seen"))?;
    let why = replies.text(OtherQuestion::SeenWhy, Kind::Words)?;
    Ok(vec![seen(why.as_str())])
}

/// A thing of this job by what was typed; a lead nobody recorded is loose/1 and so on.
fn known_item(view: &JobView<'_>, typed: Typed<'_>) -> Result<ItemId, Stop> {
    let item = match typed.as_str().contains('/') {
        true => typed.parse_or_wrong()?,
        false => ItemId::At(view.cavity(JobSide::Old, typed)?),
    };
    let is_known = view.state().items.place_of(&item).is_some() || matches!(item, ItemId::Loose(_));
    match is_known {
        true => Ok(item),
        false => Err(Stop::wrong(format!(
            "Nothing was recorded as {item}. A lead nobody recorded is loose/1, loose/2."
        ))),
    }
}

fn correct(view: &JobView<'_>, replies: &mut Replies<'_>) -> Acts {
    let at = view.cavity(JobSide::Old, replies.text(OtherQuestion::CorrectAt, Kind::Label)?)?;
    let holds = record::content(view, &at, RecordSide::Found, replies)?;
    let reason = replies.text(OtherQuestion::CorrectWhy, Kind::Words)?.words();
    Ok(vec![Act::RecordCorrected { at, holds, reason }])
}

fn note(view: &JobView<'_>, replies: &mut Replies<'_>) -> Acts {
    let about = match replies.text(OtherQuestion::NoteAbout, Kind::Label)?.unless_dash() {
        None => About::Job,
        Some(label) => {
            let old = view.cavity(JobSide::Old, label);
            About::At(old.or_else(|_| view.cavity(JobSide::New, label))?)
        }
    };
    let text = replies.text(OtherQuestion::NoteText, Kind::Words)?.words();
    Ok(vec![Act::Note { text, about }])
}

/// A flag accepted by name; what cannot be accepted is said when its number is keyed.
fn accept(view: &JobView<'_>, replies: &mut Replies<'_>) -> Acts {
    let open: Vec<&Flag> = view.assessment.account.open_flags().collect();
    let number = replies.text(OtherQuestion::AcceptWhich, Kind::Number)?;
    let flag = number.of_list(&open).copied();
    let flag = flag.ok_or_else(|| Stop::wrong(format!("Key a number from 1 to {}.", open.len())))?;
    let accepted = |by: String, reason: String, due: Option<Date>| Act::Accept {
        flag: flag.code(),
        at: flag.at.clone(),
        by: Some(by),
        reason,
        due,
        line: flag.line,
    };
    let verdict = view.preview(&accepted("somebody".to_owned(), "a reason".to_owned(), None));
    let only_until = !verdict.refusals().is_empty();
    let by = replies
        .text(OtherQuestion::AcceptBy { flag: Box::new(flag.clone()), only_until }, Kind::Name)?
        .words();
    let reason = replies.text(OtherQuestion::AcceptWhy, Kind::Words)?.words();
    let due = replies.text(OtherQuestion::AcceptUntil, Kind::Day)?.unless_dash();
    let due = due.map(Typed::day).transpose().map_err(|_| Stop::wrong("Key the day as 2026-12-01, or -."))?;
    Ok(vec![accepted(by, reason, due)])
}

/// Whether a thing makes sense now, so that the menu shows only what works.
pub fn makes_sense(view: &JobView<'_>, thing: OtherThing) -> bool {
    let state = view.state();
    let plug_about = || state.items.plugs.iter().any(|p| matches!(p.place, Place::Hand | Place::Tray));
    match thing {
        OtherThing::PutBack | OtherThing::Park => state.items.in_hand().is_some(),
        OtherThing::PlugGone => plug_about(),
        OtherThing::Behind | OtherThing::OrderLead => state.records.records_finished(),
        OtherThing::Map => state.records.records_finished() && !state.has_moved(),
        OtherThing::ReopenLock => {
            state.housings.side(JobSide::New).any(|h| h.lock == Some(LockState::FullSet))
        }
        OtherThing::Arrived => state.supply.requested.is_some(),
        OtherThing::Accept => view.assessment.account.open_flags().next().is_some(),
        OtherThing::CutFree | OtherThing::Loose | OtherThing::LeftInOld | OtherThing::Removed => {
            state.records.records_finished()
        }
        OtherThing::GoOn
        | OtherThing::Jump
        | OtherThing::NextUndone
        | OtherThing::NextOpen
        | OtherThing::WrongKey
        | OtherThing::Seen
        | OtherThing::Correct
        | OtherThing::Note
        | OtherThing::Photo
        | OtherThing::Cause
        | OtherThing::ProveTool
        | OtherThing::WithdrawTool
        | OtherThing::SendRequest
        | OtherThing::GateAgain
        | OtherThing::KeyShould
        | OtherThing::Join
        | OtherThing::HandOver
        | OtherThing::Stop => true,
    }
}
