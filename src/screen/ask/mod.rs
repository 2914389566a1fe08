//! What the line at the bottom asks: a pure function of the job, the topic and the answers so far.
//! When everything is known it gives the acts; nothing here is remembered between key presses but
//! the answers themselves.

mod accident;
mod behind;
mod closing;
mod consequence;
mod covered;
mod crimp;
mod decide;
mod desk;
mod gate;
mod intake;
mod jump;
mod lead_order;
mod map;
mod moves;
mod other;
mod record;
mod repair;
mod setup;
mod splice;
mod tool;
mod wire_line;

use crate::{
    job::{Act, Code, Flag, Place, Refusal, Status, Step, Task, Verdict},
    quantity::says_something,
    reckoning::ToolPosition,
    record::HousingName,
    supply::RequestHead,
};

use super::{job_view::JobView, keys::Pick, state::Press};

pub use closing::REREAD_POSE;
pub use covered::Covered;
pub use other::{OTHERS, OtherThing, makes_sense};
pub use wire_line::EXTRAS;

/// One answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Answer {
    /// A key.
    Pick(Pick),
    /// Something typed.
    Text(String),
}

/// What the line is about.
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

/// What is asked.
#[derive(Debug, Clone, PartialEq)]
pub enum Asked {
    /// Type it and end with Enter.
    Field {
        /// What is wrong, said before the question on lines of its own.
        loud: Option<String>,
        /// The question.
        prompt: String,
    },
    /// Press one key.
    Picks {
        /// What is wrong, said before the question on lines of its own.
        loud: Option<String>,
        /// The question.
        prompt: String,
        /// The answers, with what they say here when that differs from the table.
        picks: Vec<(Pick, String)>,
    },
    /// Everything is known.
    Ready(Vec<Act>),
    /// Positions of a tool were proved or withdrawn: into the tool book with them.
    Book(Vec<ToolPosition>),
    /// The request can go out, with this said beside it.
    Send(RequestHead),
    /// The last answer cannot be: why.
    Wrong(String),
    /// What the last answer leads to would be refused: said before the hand does it.
    Barred {
        /// The act.
        act: Box<Act>,
        /// Why not.
        refusals: Vec<Refusal>,
        /// Whether it is a rule a named person may go past.
        can_go_on: bool,
    },
    /// Go to this step.
    Go(Task),
    /// This person works here from now on.
    Works(String),
}

impl Asked {
    /// The question with something said before it.
    fn after(mut self, said: &str) -> Self {
        if let Self::Field { prompt, .. } | Self::Picks { prompt, .. } = &mut self {
            prompt.insert_str(0, said);
        }
        self
    }

    /// The question with what is wrong, when something is.
    fn loudly(mut self, wrong: impl Into<String>) -> Self {
        let wrong = wrong.into();
        if let Self::Field { loud, .. } | Self::Picks { loud, .. } = &mut self
            && !wrong.is_empty()
        {
            *loud = Some(match loud.take() {
                Some(said) => format!("{wrong} {said}"),
                None => wrong,
            });
        }
        self
    }
}

/// A question that is typed.
impl From<String> for Asked {
    fn from(prompt: String) -> Self {
        field(prompt)
    }
}

/// A question with one-key answers, each in the words of the table.
pub(super) fn picks(prompt: impl Into<String>, picks: &[Pick]) -> Asked {
    offer(prompt, picks.iter().map(|pick| (*pick, pick.text().to_owned())).collect())
}

/// A question with one-key answers, each with what it says here.
pub(super) fn offer(prompt: impl Into<String>, picks: Vec<(Pick, String)>) -> Asked {
    Asked::Picks { loud: None, prompt: prompt.into(), picks }
}

/// The question that follows a label, unless the act it leads to would be refused.
pub(super) fn unless_barred(view: &JobView<'_>, act: Act, then: impl FnOnce() -> Asked) -> Asked {
    let can_go_on = act.takes_anyway();
    match view.preview(&act) {
        Verdict::Allowed => then(),
        Verdict::Impossible(refusal) => {
            Asked::Barred { act: Box::new(act), refusals: vec![refusal], can_go_on: false }
        }
        Verdict::Against(refusals) => Asked::Barred { act: Box::new(act), refusals, can_go_on },
    }
}

/// A typed value.
pub(super) fn field(prompt: impl Into<String>) -> Asked {
    Asked::Field { loud: None, prompt: prompt.into() }
}

/// The texts among the answers, in order.
pub(super) fn texts(answers: &[Answer]) -> Vec<&str> {
    answers
        .iter()
        .filter_map(|answer| match answer {
            Answer::Text(text) => Some(text.as_str()),
            Answer::Pick(_) => None,
        })
        .collect()
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
fn refusing<'a>(view: &JobView<'a>) -> Option<&'a Flag> {
    let refuses = |code| matches!(code, Code::BlockedUnderWire | Code::BridgeMissing | Code::PartMisfit);
    let mut flags = view.assessment.account.open_flags();
    flags.find(|flag| refuses(flag.code)).filter(|_| !view.state().has_moved())
}

/// The job was stopped: only a slip is taken back, as the next key press.
fn stopped(view: &JobView<'_>, answers: &[Answer]) -> Asked {
    let why = view.state().course.stopped.as_deref().unwrap_or_default();
    match answers.first() {
        None => picks(
            format!("STOPPED: {why}. Start a new job from what was left; or was that a slip of the keys?"),
            &[Pick::TakeBack],
        ),
        Some(_) => Asked::Ready(vec![Act::WrongKey]),
    }
}

/// The replacement is refused: what to do about it.
fn not_startable(view: &JobView<'_>, answers: &[Answer]) -> Asked {
    let Some(flag) = refusing(view) else { return Asked::Wrong("Nothing stands in the way.".to_owned()) };
    let rest = answers.get(1..).unwrap_or_default();
    match (answers.first(), flag.code) {
        (None, Code::BlockedUnderWire) => {
            picks(format!("DO NOT START. {} {}", flag.say, flag.instead), &[Pick::Send, Pick::MapOne])
        }
        (None, _) => picks(format!("DO NOT START. {} {}", flag.say, flag.instead), &[Pick::Send]),
        (Some(Answer::Pick(Pick::MapOne)), _) => map::by_hand(view, rest),
        (Some(_), _) => other::ask_other(view, OtherThing::SendRequest, rest),
    }
}

/// After an interruption: gates, views, three re-reads, the rows, and the last question.
fn resume_topic(view: &JobView<'_>, need: &crate::job::ResumeNeed) -> Topic {
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

/// What is asked about a topic after these answers.
pub fn ask(view: &JobView<'_>, topic: &Topic, answers: &[Answer]) -> Asked {
    match topic {
        Topic::Step(step) => ask_step(view, step, answers),
        Topic::FailedAnchor(housing) => setup::failed_anchor(view, housing, answers),
        Topic::Resume => closing::resume(answers),
        Topic::PlugInHand => moves::plug_in_hand(view, answers),
        Topic::Anyway(press) => anyway(press, answers),
        Topic::Other(thing) => other::ask_other(view, *thing, answers),
        Topic::Jump => jump::jump(view, answers),
        Topic::Next(wanted, after) => jump::next(view, *wanted, after.as_ref()),
        Topic::NotStartable => not_startable(view, answers),
        Topic::Waiting => repair::waiting(view, answers),
        Topic::WaitingForMachine => closing::at_the_machine(view, answers),
        Topic::Stopped => stopped(view, answers),
        Topic::WhoWorks => other::who_works(view, answers),
        Topic::Nothing => picks("Nothing is left to do.", &[]),
    }
}

/// What a step asks; the first one that opens anything reminds of what to lay out.
fn ask_step(view: &JobView<'_>, step: &Task, answers: &[Answer]) -> Asked {
    let asked = ask_of_step(view, step, answers);
    match asked {
        Asked::Picks { .. } if answers.is_empty() && starts_the_work(view, step) => {
            asked.after("LAY OUT first what the page of that name lists. ")
        }
        asked => asked,
    }
}

fn starts_the_work(view: &JobView<'_>, step: &Task) -> bool {
    let is_begun = |step: &Step| step.status == Status::Done && step.what.opens_or_moves();
    step.opens_or_moves() && !view.assessment.steps.iter().any(is_begun)
}

fn ask_of_step(view: &JobView<'_>, step: &Task, answers: &[Answer]) -> Asked {
    match step {
        Task::Record { at } => record::record(view, at.as_ref(), answers),
        Task::Gate { gate } => gate::gate(view, *gate, answers),
        Task::View { housing } => setup::point_of_view(view, housing, answers),
        Task::Anchor { housing, place } => setup::anchor(view, housing, *place, answers),
        Task::Compare { question } => setup::compare(view, *question, answers),
        Task::Decide { at } => setup::decide(view, at, answers),
        Task::Photo => intake::photo(answers),
        Task::Cause => intake::cause_step(answers),
        Task::ConfirmMap => map::confirm(view, answers),
        Task::LookAt { cavities } => setup::look_at(view, cavities, answers),
        Task::Tag { lead } => setup::tag(view, lead, answers),
        Task::AssuranceOff { housing } => closing::assurance(housing, false, answers),
        Task::AssuranceOn { housing } => closing::assurance(housing, true, answers),
        Task::Unlock { housing, to } => closing::unlock(view, housing, *to, answers),
        Task::SmallPartOff { housing, part } => closing::small_part(housing, part, false, answers),
        Task::SmallPartOn { housing, part } => closing::small_part(housing, part, true, answers),
        Task::TakePlug { at } => moves::take_plug(view, at, answers),
        Task::MoveWire { lead, .. } | Task::Repair { lead, .. } => moves::wire(view, lead, answers),
        Task::MovePlug { from, .. } => moves::plug(view, from, answers),
        Task::FitPlug { at } => moves::fit_plug(view, at, answers),
        Task::MoveOther { from, to } => moves::other(view, from, to.as_ref(), answers),
        Task::Look { housing, face } => closing::look(view, housing, *face, answers),
        Task::LookMatingHalf => closing::mating_half(view, answers),
        Task::CountRow { housing, row } => closing::count_row(view, housing, *row, answers),
        Task::ReRead { at } => closing::reread(view, at, answers),
        Task::Lock { housing } => closing::lock(view, housing, answers),
        Task::Mate => closing::mate(answers),
        Task::Test { test } => closing::test(view, *test, answers),
        Task::Sign => closing::sign(view, answers),
    }
}

/// What was done against the rule is asked like any other move: whether it came freely and with its seal,
/// whether it clicked. Gives the question; puts the answers into the act.
fn how_it_went(act: &mut Act, answers: &[Answer]) -> Option<Asked> {
    let said: Vec<Answer> = answers.iter().filter(|a| matches!(a, Answer::Pick(_))).cloned().collect();
    match act {
        Act::Insert { into, click, again: false, .. } => match said.first() {
            None => {
                let prompt = format!("PUSH it straight into {} until it clicks.", into.label);
                return Some(picks(prompt, &[Pick::Clicked, Pick::NoClick]));
            }
            Some(pick) => *click = *pick == Answer::Pick(Pick::Clicked),
        },
        Act::Extract { from, freely, seal, .. } => match moves::how_it_came(from, *seal, &said) {
            Ok(came) => (*freely, *seal) = came,
            Err(question) => return Some(question),
        },
        // Nothing more is asked of other acts.
        _ => {}
    }
    None
}

/// A named person goes on although a rule says no, with the whole key press.
fn anyway(press: &Press, answers: &[Answer]) -> Asked {
    match texts(answers).as_slice() {
        [] => field("GO ON ANYWAY. Who answers for it? Key the name (Esc: no)."),
        [by] if !says_something(by) => Asked::Wrong(format!("\"{by}\" is no name: key it.")),
        [_] => field("Why?"),
        [_, reason] if !says_something(reason) => Asked::Wrong("Say why: key it in words.".to_owned()),
        [by, reason, ..] => {
            let mut acts = press.acts.clone();
            if let Some(act) = acts.get_mut(press.nth)
                && let Some(question) = how_it_went(act, answers)
            {
                return question;
            }
            match acts.get_mut(press.nth).and_then(Act::anyway_mut) {
                Some(anyway) => {
                    *anyway = Some(crate::job::Anyway {
                        by: (*by).to_owned(),
                        reason: (*reason).to_owned(),
                        codes: Vec::new(),
                    });
                    Asked::Ready(acts)
                }
                None => Asked::Wrong("Nobody can go past this rule.".to_owned()),
            }
        }
    }
}
