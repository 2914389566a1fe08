//! The other things one can do: what is not the next step and may be needed any moment.

use crate::{
    catalogue::LockState,
    job::{About, Act, GATES, ItemId, JobSide, Place, RecordSide, SeenAt},
    quantity::{is_day, says_something},
};

use super::{
    Asked, Choice, JobView, Reply, Wanted, accident, closing::side_words, desk, field, picks, record, repair,
    texts,
};

/// Another thing one can do here.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum OtherThing {
    GoOn,
    Jump,
    NextUndone,
    NextOpen,
    Map,
    WrongKey,
    PutBack,
    Park,
    Seen,
    Correct,
    Note,
    Photo,
    Cause,
    Behind,
    OrderLead,
    ProveTool,
    WithdrawTool,
    CutFree,
    Loose,
    PlugGone,
    LeftInOld,
    ReopenLock,
    Accept,
    SendRequest,
    Arrived,
    Removed,
    GateAgain,
    KeyShould,
    Join,
    HandOver,
    Stop,
}

/// A safety question answered before is answered anew: the last answer counts.
fn gate_again(view: &JobView<'_>, answers: &[Reply]) -> Asked {
    let list = GATES.iter().zip(1..).map(|(gate, n)| format!("{n} {}", gate.title()));
    let Some((Reply::Text(number), rest)) = answers.split_first() else {
        return field(format!("ANSWER which safety question anew? {}", list.collect::<Vec<_>>().join(", ")));
    };
    let gate = number.parse::<usize>().ok().and_then(|n| GATES.get(n.checked_sub(1)?));
    match gate {
        Some(gate) => super::gate::gate(view, *gate, rest),
        None => Asked::Wrong(format!("Key a number from 1 to {}.", GATES.len())),
    }
}

/// What should be in a cavity, keyed from the diagram.
fn key_should(view: &JobView<'_>, answers: &[Reply]) -> Asked {
    let side = match view.state().should_is_in_new_labels() {
        true => JobSide::New,
        false => JobSide::Old,
    };
    let Some((Reply::Text(label), rest)) = answers.split_first() else {
        return field(format!("BY THE DIAGRAM: what should be in which {} cavity?", side_words(side)));
    };
    match view.resolve(side, label) {
        Ok(at) => record::content(view, &at, RecordSide::Should, rest),
        Err(why) => Asked::Wrong(why),
    }
}

/// Who works here after a hand-over: the name stands in every entry from now on.
pub(super) fn who_works(view: &JobView<'_>, answers: &[Reply]) -> Asked {
    let to = view.job.entries_in_force().rev().find_map(|entry| match &entry.act {
        Act::HandOver { to } => Some(to.as_str()),
        _ => None,
    });
    match (texts(answers).first(), to) {
        (None, to) => {
            let offer = to.map_or(String::new(), |to| format!(" (= {to})"));
            field(format!("HANDED OVER. Who works here now? Key your name{offer}"))
        }
        (Some(&"="), Some(to)) => Asked::Works(to.to_owned()),
        (Some(name), _) if says_something(name) => Asked::Works((*name).to_owned()),
        (Some(name), _) => Asked::Wrong(format!("\"{name}\" is no name.")),
    }
}

/// What is asked about another thing.
pub(super) fn ask_other(view: &JobView<'_>, thing: OtherThing, answers: &[Reply]) -> Asked {
    let typed = texts(answers);
    match thing {
        OtherThing::Jump => super::jump::jump(view, answers),
        OtherThing::NextUndone => super::jump::next(view, Wanted::Undone, None),
        OtherThing::NextOpen => super::jump::next(view, Wanted::Open, None),
        OtherThing::Map => super::map::by_hand(view, answers),
        // Taken over by its own topic, which carries the act.
        OtherThing::GoOn => Asked::Wrong("Nothing was refused.".to_owned()),
        OtherThing::WrongKey => confirm(answers, wrong_key_prompt(view), Act::WrongKey),
        OtherThing::PutBack => Asked::Ready(vec![Act::PutBack]),
        OtherThing::Park => {
            repair::park(view, view.state().items.lead_in_hand().and_then(|lead| lead.planned), answers)
        }
        OtherThing::Seen => seen(view, &typed),
        OtherThing::Correct => correct(view, answers),
        OtherThing::Note => note(view, &typed),
        OtherThing::Photo => match typed.as_slice() {
            [] => field("PHOTO: its number?"),
            [_] => field("What does it show?"),
            [number, shows, ..] => {
                Asked::Ready(vec![Act::Photo { number: (*number).to_owned(), shows: (*shows).to_owned() }])
            }
        },
        OtherThing::Cause => super::intake::cause(&typed, ""),
        OtherThing::Behind => super::behind::behind(view, answers),
        OtherThing::OrderLead => super::lead_order::by_label(view, answers),
        OtherThing::ProveTool => super::tool::prove(view, answers),
        OtherThing::WithdrawTool => super::tool::withdraw(view, answers),
        OtherThing::CutFree => accident::cut_free(view, answers),
        OtherThing::Loose => accident::loose(view, &typed),
        OtherThing::PlugGone => accident::plug_gone(answers),
        OtherThing::LeftInOld => {
            accident::at_with_reason(view, &typed, "LEAVE what is in which old cavity?", |at, reason| {
                Act::LeftInOld { at, reason }
            })
        }
        OtherThing::ReopenLock => accident::reopen(view, &typed),
        OtherThing::Accept => accept(view, &typed),
        OtherThing::SendRequest => desk::send(view, answers),
        OtherThing::Arrived => desk::arrived(view, answers),
        OtherThing::Removed => match typed.as_slice() {
            [] => field("TAKE OUT for good: which wire? (old:11, or old:11/2 for one of several)"),
            [wire, more @ ..] => match wire.parse() {
                Err(why) => Asked::Wrong(why),
                Ok(wire) => {
                    let removed = |document: &str| Act::Removed { wire, document: document.to_owned() };
                    match more.first() {
                        None => super::unless_barred(view, removed("a document"), || {
                            field("Under which document?")
                        }),
                        Some(document) => Asked::Ready(vec![removed(document)]),
                    }
                }
            },
        },
        OtherThing::GateAgain => gate_again(view, answers),
        OtherThing::KeyShould => key_should(view, answers),
        OtherThing::Join => super::consequence::join(view, &typed),
        OtherThing::HandOver => match typed.first() {
            None => field("HAND OVER to whom?"),
            Some(to) => Asked::Ready(vec![Act::HandOver { to: (*to).to_owned() }]),
        },
        OtherThing::Stop => match typed.first() {
            None => field("STOP the job for good: why? (Esc: no)"),
            Some(why) => Asked::Ready(vec![Act::Stop { why: (*why).to_owned() }]),
        },
    }
}

fn confirm(answers: &[Reply], prompt: String, act: Act) -> Asked {
    match answers.first() {
        None => picks(prompt, &[Choice::Yes]),
        Some(_) => Asked::Ready(vec![act]),
    }
}

fn wrong_key_prompt(view: &JobView<'_>) -> String {
    match view.job.last_in_force() {
        Some((n, entry)) => {
            let press: Vec<String> = view.job.last_press().map(|(_, entry)| entry.act.told()).collect();
            match press.len() {
                0 | 1 => format!(
                    "TAKE BACK entry {}, {}: it did not happen at the bench?",
                    n + 1,
                    entry.act.told()
                ),
                _ => format!(
                    "TAKE BACK the last key press, {}: it did not happen at the bench?",
                    press.join("; ")
                ),
            }
        }
        None => "There is nothing to take back.".to_owned(),
    }
}

fn seen(view: &JobView<'_>, typed: &[&str]) -> Asked {
    match typed {
        [] => field("SEEN: which lead or plug? (the old label it was recorded in, new:4, loose/1)"),
        [item] => match known_item(view, item) {
            Ok(_) => field("Where do you see it? (hand, unseen, a new label, old:3, or tag T1)"),
            Err(why) => Asked::Wrong(why),
        },
        [item, place, more @ ..] => {
            let item = match known_item(view, item) {
                Ok(item) => item,
                Err(why) => return Asked::Wrong(why),
            };
            let at = match place.trim().to_ascii_lowercase().as_str() {
                "hand" => SeenAt::Hand,
                "unseen" | "nowhere" => SeenAt::Unseen,
                tag if tag.starts_with("tag ") => match place.trim().get(4..).unwrap_or("").parse() {
                    Ok(tag) => SeenAt::Parked(tag),
                    Err(why) => return Asked::Wrong(format!("{why}")),
                },
                _ => match view.resolve(JobSide::New, place) {
                    Ok(at) => SeenAt::In(at),
                    Err(why) => return Asked::Wrong(why),
                },
            };
            let seen = |reason: &str| Act::Seen { item, at, reason: reason.to_owned() };
            match more.first() {
                None => super::unless_barred(view, seen("seen"), || field("What happened?")),
                Some(reason) => Asked::Ready(vec![seen(reason)]),
            }
        }
    }
}

/// A thing of this job by what was typed; a lead nobody recorded is loose/1 and so on.
fn known_item(view: &JobView<'_>, typed: &str) -> Result<ItemId, String> {
    let item = item_id(view, typed)?;
    let is_known = view.state().items.place_of(&item).is_some() || matches!(item, ItemId::Loose(_));
    match is_known {
        true => Ok(item),
        false => Err(format!("Nothing was recorded as {item}. A lead nobody recorded is loose/1, loose/2.")),
    }
}

fn item_id(view: &JobView<'_>, typed: &str) -> Result<ItemId, String> {
    if typed.contains('/') {
        return typed.parse();
    }
    view.resolve(JobSide::Old, typed).map(ItemId::At)
}

fn correct(view: &JobView<'_>, answers: &[Reply]) -> Asked {
    let Some((Reply::Text(label), rest)) = answers.split_first() else {
        return field("CORRECT the record of which old cavity?");
    };
    let at = match view.resolve(JobSide::Old, label) {
        Ok(at) => at,
        Err(why) => return Asked::Wrong(why),
    };
    // The last text is the reason; the ones before belong to the content.
    match record::record(view, Some(&at), rest) {
        Asked::Ready(acts) => {
            let wants =
                usize::from(matches!(rest.first(), Some(Reply::Choice(Choice::Wired | Choice::Bridge))));
            match (texts(rest).get(wants), acts.into_iter().next()) {
                (None, _) => field("What do you see that differs?"),
                (Some(reason), Some(Act::Recorded { holds, .. })) => {
                    Asked::Ready(vec![Act::RecordCorrected { at, holds, reason: (*reason).to_owned() }])
                }
                _ => Asked::Wrong("Say what it holds.".to_owned()),
            }
        }
        asked => asked,
    }
}

fn note(view: &JobView<'_>, typed: &[&str]) -> Asked {
    match typed {
        [] => field("NOTE about what? (a label, or - for the whole job)"),
        [_] => field("The note?"),
        [about, text, ..] => {
            let about = match *about {
                "-" => About::Job,
                label => {
                    let old = view.resolve(JobSide::Old, label);
                    match old.or_else(|_| view.resolve(JobSide::New, label)) {
                        Ok(at) => About::At(at),
                        Err(why) => return Asked::Wrong(why),
                    }
                }
            };
            Asked::Ready(vec![Act::Note { text: (*text).to_owned(), about }])
        }
    }
}

/// A flag accepted by name; what cannot be accepted is said when its number is keyed.
fn accept(view: &JobView<'_>, typed: &[&str]) -> Asked {
    let open: Vec<_> = view.assessment.account.open_flags().collect();
    let Some(number) = typed.first() else {
        return field("ACCEPT which flag? Key its number on the account page");
    };
    let flag = number.parse::<usize>().ok().and_then(|n| open.get(n.checked_sub(1)?).copied());
    let Some(flag) = flag else { return Asked::Wrong(format!("Key a number from 1 to {}.", open.len())) };
    let accepted = |by: &str, reason: &str, due: Option<&str>| Act::Accept {
        flag: flag.code,
        at: flag.at.clone(),
        by: Some(by.to_owned()),
        reason: reason.to_owned(),
        due: due.map(ToOwned::to_owned),
        line: flag.line,
    };
    match typed {
        [_] => {
            let verdict = view.preview(&accepted("somebody", "a reason", None));
            let only = match verdict.refusals() {
                [] => "",
                _ => " No name can accept it; as a temporary measure with its date it waits.",
            };
            field(format!("ACCEPT: {}{only} Who answers for it?", flag.say))
        }
        [_, _] => field("Why?"),
        [_, _, _] => field("Until when, if it is a temporary measure? (2026-12-01, or -)"),
        [_, _, _, due, ..] if *due != "-" && !is_day(due) => {
            Asked::Wrong("Key the day as 2026-12-01, or -.".to_owned())
        }
        [_, by, reason, due, ..] => {
            Asked::Ready(vec![accepted(by, reason, Some(*due).filter(|due| *due != "-"))])
        }
        [] => Asked::Wrong("Key its number.".to_owned()),
    }
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
        _ => true,
    }
}
