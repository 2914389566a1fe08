//! What is asked about now: the next step, or what stands before it.

use crate::{
    job::{Act, Code, Flag, Place, ResumeNeed, Status, Task},
    record::HousingName,
};

use super::JobView;

/// What is asked about.
#[derive(Debug, Clone, PartialEq)]
pub enum Topic {
    /// A step of the job.
    Step(Task),
    /// An anchor of this housing failed: flip, answer again, or say the view again.
    FailedAnchor(HousingName),
    /// The resume check is complete but for the last question.
    Resume,
    /// A plug lies in the hand and has no step of its own.
    PlugInHand,
    /// A rule said no: who goes on, and why.
    Anyway(Press),
    /// Another thing one can do here.
    Other(OtherThing),
    /// Jump to a cavity.
    Jump,
    /// Go to the next place of this kind, after this step.
    Next(Wanted, Option<Task>),
    /// The replacement cannot take what is here: nothing is opened.
    NotStartable,
    /// Every move that is left waits for a part.
    Waiting,
    /// What is left waits for the machine.
    WaitingForMachine,
    /// The job was stopped.
    Stopped,
    /// It was handed over, and nobody said yet who works now.
    WhoWorks,
    /// Nothing is left to do.
    Nothing,
}

/// A kind of place to go to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wanted {
    /// Where something is not done.
    Undone,
    /// An open cavity.
    Open,
}

/// The acts of one answer, and which of them was refused.
#[derive(Debug, Clone, PartialEq)]
pub struct Press {
    /// All of them, in order.
    pub acts: Vec<Act>,
    /// Which one, from 0.
    pub nth: usize,
}

impl Press {
    /// A press of one act.
    pub fn of(act: Act) -> Self {
        Self { acts: vec![act], nth: 0 }
    }
}

/// Another thing one can do here.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OtherThing {
    /// Go on against a rule, by name and reason.
    GoOn,
    /// Go to a cavity, a wire or a colour.
    Jump,
    /// Go to the next place that is not done.
    NextUndone,
    /// Go to the next open cavity.
    NextOpen,
    /// Map a cavity by hand.
    Map,
    /// Take back the last press: it did not happen at the bench.
    WrongKey,
    /// Put back what is in the hand.
    PutBack,
    /// Tag and park what is in the hand.
    Park,
    /// Say that a thing is elsewhere.
    Seen,
    /// Correct the record of a cavity.
    Correct,
    /// Write a note.
    Note,
    /// Say the number of a photo.
    Photo,
    /// Say what broke the housing.
    Cause,
    /// Describe what lies behind a housing.
    Behind,
    /// Say what a repair lead has to be.
    OrderLead,
    /// Prove a position of a tool.
    ProveTool,
    /// Take a tool out of use.
    WithdrawTool,
    /// Cut a wire off.
    CutFree,
    /// Say that several leads came out together.
    Loose,
    /// Say what became of a plug.
    PlugGone,
    /// Leave something in the old housing.
    LeftInOld,
    /// Open the new lock again.
    ReopenLock,
    /// Accept a flag by name.
    Accept,
    /// Send the parts request.
    SendRequest,
    /// Say that a part arrived.
    Arrived,
    /// Take out a wire for good.
    Removed,
    /// Answer a gate again.
    GateAgain,
    /// Key what should be in a cavity.
    KeyShould,
    /// Join two leads.
    Join,
    /// Hand over to another person.
    HandOver,
    /// Stop the job.
    Stop,
}

/// The topic of the moment, when nobody chose another.
pub fn topic_now(view: &JobView<'_>) -> Topic {
    let state = view.state();
    if view.by.trim().is_empty() {
        return Topic::WhoWorks;
    }
    if state.course.stopped.is_some() {
        return Topic::Stopped;
    }
    if let Some(need) = &state.course.resume {
        return resume_topic(view, need);
    }
    for housing in &state.housings.all {
        if state.failed_anchor(housing).is_some() && !state.has_moved() {
            return Topic::FailedAnchor(housing.name.clone());
        }
    }
    let next = view.assessment.steps.iter().find(|s| s.status == Status::Next).map(|s| s.what.clone());
    let plug_in_hand = state.items.plugs.iter().any(|p| p.place == Place::Hand);
    match next {
        Some(Task::MovePlug { from, to }) if plug_in_hand => Topic::Step(Task::MovePlug { from, to }),
        _ if plug_in_hand => Topic::PlugInHand,
        Some(step) if step.opens_or_moves() && refusing(view).is_some() => Topic::NotStartable,
        Some(step) => Topic::Step(step),
        None if state.items.leads.iter().any(|lead| state.supply.waits_for_part(lead)) => Topic::Waiting,
        None if view.assessment.steps.iter().any(|s| s.status == Status::Waiting) => Topic::WaitingForMachine,
        None => Topic::Nothing,
    }
}

/// Why the replacement is refused, while nothing has moved.
pub fn refusing<'a>(view: &JobView<'a>) -> Option<&'a Flag> {
    let refuses = |code| matches!(code, Code::BlockedUnderWire | Code::BridgeMissing | Code::PartMisfit);
    let mut flags = view.assessment.account.open_flags();
    flags.find(|flag| refuses(flag.code())).filter(|_| !view.state().has_moved())
}

/// After an interruption: gates, views, three re-reads, the rows, and the last question.
fn resume_topic(view: &JobView<'_>, need: &ResumeNeed) -> Topic {
    let state = view.state();
    if let Some(gate) = state.next_gate() {
        return Topic::Step(Task::Gate { gate });
    }
    if let Some(housing) = state.housings.all.iter().find(|h| !need.views.contains(&h.name)) {
        return Topic::Step(Task::View { housing: housing.name.clone() });
    }
    if let Some(at) = state.resume_rereads().into_iter().find(|at| !need.reread.contains(at)) {
        return Topic::Step(Task::ReRead { at });
    }
    let rows = state.housings.all.iter().flat_map(|h| (1..=h.rows().len()).map(|row| (h.name.clone(), row)));
    if let Some((housing, row)) = rows.into_iter().find(|key| !need.rows.contains(key)) {
        return Topic::Step(Task::CountRow { housing, row });
    }
    Topic::Resume
}
