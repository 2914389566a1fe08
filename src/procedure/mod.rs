//! What is asked now and what may answer it, as data: a pure function of the job, the topic and the replies so
//! far. When everything is known it gives what is to be done; nothing here is remembered between replies but
//! the replies themselves, and nothing here knows a key or a sentence.
//!
//! A dialogue is a function that reads its replies in order. What was not said yet is its early exit:
//! `let tag = replies.text(SetupQuestion::Tag(lead), Kind::Tag)?.parse_or_wrong()?;`.

mod accident;
mod anchors;
mod anyway;
mod ask;
mod behind;
mod choice;
mod closing;
mod consequence;
mod covered;
mod crimp;
mod decide;
mod define;
mod desk;
mod gate;
mod intake;
mod job_view;
mod jump;
mod lead_order;
mod map;
mod moves;
mod other;
mod park;
mod plugs;
mod question;
mod record;
mod repair;
mod replies;
mod setup;
mod splice;
mod testing;
mod tool;
mod topic;
mod typed;
mod warning;
mod wire_line;

use crate::job::{Act, Code, Status, Step, Task};

pub use anchors::{WhatFits, fits};
pub use ask::{Ask, Asked, Barred, Done, Kind, Prompt, Stop, Takes, Wrong};
pub use choice::Choice;
pub use closing::REREAD_POSE;
pub use consequence::names_of_wires;
pub use covered::Covered;
pub use crimp::Crimping;
pub use decide::{looked_at, proposal};
pub use define::describe;
pub use gate::{ENERGY, last_said};
pub use job_view::JobView;
pub use other::{handed_to, makes_sense};
pub use plugs::other_in;
pub use question::{
    AccidentQuestion, AnchorQuestion, BehindQuestion, ClosingQuestion, ConsequenceQuestion, CrimpOf,
    CrimpQuestion, DefineQuestion, DeskQuestion, GateField, GateQuestion, HaltQuestion, InHandQuestion,
    IntakeQuestion, MapQuestion, MoveQuestion, OrderField, OrderQuestion, OtherQuestion, PlugQuestion,
    Question, RecordQuestion, RepairQuestion, SetupQuestion, SpliceQuestion, SpliceStep, TestField,
    TestQuestion, ToolQuestion,
};
pub use repair::{named_part, parked_leads};
pub use replies::{Replies, Reply};
pub use setup::{UpSide, differences_at, up_side};
pub use splice::{SAME_SLEEVE_MM, is_sealed};
pub use testing::example;
pub use tool::{crimped_with, in_hand, least_force, sheet_of};
pub use topic::{OtherThing, Press, Topic, Wanted, refusing, topic_now};
pub use typed::Typed;
pub use warning::Warning;
pub use wire_line::EXTRAS;

use ask::{Acts, warned};

/// What is asked about a topic after these replies, or what is to be done.
pub fn ask(view: &JobView<'_>, topic: &Topic, replies: &[Reply]) -> Asked {
    let replies = &mut Replies::of(replies);
    let covered_now = || covers(&ask(view, &topic_now(view), &[]));
    match topic {
        Topic::Step(step) => Ok(Done::Acts(ask_step(view, step, replies)?)),
        Topic::FailedAnchor(housing) => Ok(Done::Acts(anchors::failed(view, housing, replies)?)),
        Topic::Resume => Ok(Done::Acts(closing::resume(replies)?)),
        Topic::PlugInHand => Ok(Done::Acts(plugs::plug_in_hand(view, replies)?)),
        Topic::Anyway(press) => Ok(Done::Acts(anyway::anyway(press, replies)?)),
        Topic::Other(thing) => other::ask_other(view, *thing, &covered_now, replies),
        Topic::Jump => jump::jump(view, &covered_now, replies),
        Topic::Next(wanted, after) => jump::next(view, *wanted, after.as_ref()),
        Topic::NotStartable => not_startable(view, replies),
        Topic::Waiting => Ok(Done::Acts(repair::waiting(view, replies)?)),
        Topic::WaitingForMachine => Ok(Done::Acts(closing::at_the_machine(view, replies)?)),
        Topic::Stopped => Ok(Done::Acts(stopped(replies)?)),
        Topic::WhoWorks => other::who_works(view, replies),
        Topic::Nothing => Ok(Done::Acts(nothing_left(replies)?)),
    }
}

/// What must not be shown while this is asked.
pub fn covers(asked: &Asked) -> Covered {
    match asked {
        Err(Stop::Ask(ask)) => ask.covers.clone(),
        Err(Stop::Wrong(_) | Stop::Barred(_)) | Ok(_) => Covered::Nothing,
    }
}

/// The job was stopped: only a slip is taken back, as the next key press.
fn stopped(replies: &mut Replies<'_>) -> Acts {
    replies.choice(HaltQuestion::Stopped, &[Choice::TakeBack])?;
    Ok(vec![Act::WrongKey])
}

fn nothing_left(replies: &mut Replies<'_>) -> Acts {
    replies.choice(HaltQuestion::NothingLeft, &[]).map(|_| Vec::new())
}

/// The replacement is refused: what to do about it.
fn not_startable(view: &JobView<'_>, replies: &mut Replies<'_>) -> Asked {
    let flag = refusing(view).ok_or_else(|| Stop::wrong("Nothing stands in the way."))?;
    let mut offered = vec![Choice::Send];
    offered.extend((flag.code() == Code::BlockedUnderWire).then_some(Choice::MapOne));
    match replies.choice(HaltQuestion::NotStartable(flag.code()), &offered)? {
        Choice::MapOne => Ok(Done::Acts(map::by_hand(view, replies)?)),
        Choice::Send => desk::send(view, replies),
        _ => Err(replies::not_offered()),
    }
}

/// What a step asks; the first one that opens anything reminds of what to lay out.
fn ask_step(view: &JobView<'_>, step: &Task, replies: &mut Replies<'_>) -> Acts {
    let is_first = replies.is_empty() && starts_the_work(view, step);
    ask_of_step(view, step, replies).map_err(|stop| if is_first { stop.laid_out_first() } else { stop })
}

fn starts_the_work(view: &JobView<'_>, step: &Task) -> bool {
    let is_begun = |step: &Step| step.status == Status::Done && step.what.opens_or_moves();
    step.opens_or_moves() && !view.assessment.steps.iter().any(is_begun)
}

fn ask_of_step(view: &JobView<'_>, step: &Task, replies: &mut Replies<'_>) -> Acts {
    match step {
        Task::Record { at } => record::record(view, at.as_ref(), replies),
        Task::Gate { gate } => gate::gate(view, *gate, replies),
        Task::View { housing } => setup::point_of_view(view, housing, replies),
        Task::Anchor { housing, place } => anchors::anchor(view, housing, *place, replies),
        Task::Compare { question } => setup::compare(*question, replies),
        Task::Decide { at } => setup::decide(view, at, replies),
        Task::Photo => intake::photo_as_found(replies),
        Task::Cause => intake::cause(true, replies),
        Task::ConfirmMap => map::confirm(view, replies),
        Task::LookAt { cavities } => setup::look_at(view, cavities, replies),
        Task::Tag { lead } => setup::tag(lead, replies),
        Task::AssuranceOff { housing } => closing::assurance(housing, false, replies),
        Task::AssuranceOn { housing } => closing::assurance(housing, true, replies),
        Task::Unlock { housing, to } => closing::unlock(housing, *to, replies),
        Task::SmallPartOff { housing, part } => closing::small_part(housing, part, false, replies),
        Task::SmallPartOn { housing, part } => closing::small_part(housing, part, true, replies),
        Task::TakePlug { at } => plugs::take_plug(at, replies),
        Task::MoveWire { lead, .. } | Task::Repair { lead, .. } => moves::wire(view, lead, replies),
        Task::MovePlug { from, .. } => plugs::plug(view, from, replies),
        Task::FitPlug { at } => plugs::fit_plug(view, at, replies),
        Task::MoveOther { from, to } => plugs::other(view, from, to.as_ref(), replies),
        Task::Look { housing, face } => closing::look(view, housing, *face, replies),
        Task::LookMatingHalf => closing::mating_half(view, replies),
        Task::CountRow { housing, row } => closing::count_row(view, housing, *row, replies),
        Task::ReRead { at } => closing::reread(view, at, replies),
        Task::Lock { housing } => closing::lock(view, housing, replies),
        Task::Mate => closing::mate(replies),
        Task::Test { test } => testing::test(*test, replies),
        Task::Sign => closing::sign(view, replies),
    }
}
