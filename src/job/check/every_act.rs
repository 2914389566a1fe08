//! What is asked of every act, whatever it is about: words that say something, the person who is at the
//! bench, no work after an interruption or past an open gate.

use super::rules::{barred, impossible};
use crate::{
    job::{
        Act, Entry, MatingVerdict, Refusal, Touches,
        refusal::{ActBarrier, ActRule, Saying},
        state::State,
    },
    quantity::says_something,
};

/// What a person has to say in an act says something.
pub(super) fn check_words(act: &Act) -> Result<(), Refusal> {
    let (what, text) = match act {
        Act::RecordCorrected { reason, .. } => (Saying::WhyCorrected, reason),
        Act::RecordFlipped { reason, .. } => (Saying::WhyFlipped, reason),
        Act::Decided { reason, .. } => (Saying::Decision, reason),
        Act::Planned { reason, .. } => (Saying::Finding, reason),
        Act::Seen { reason, .. } | Act::LeftInOld { reason, .. } => (Saying::Why, reason),
        Act::ScrapPlug { reason } => (Saying::WhyScrapped, reason),
        Act::Park { reason, .. } => (Saying::ParkedFor, reason),
        Act::Accept { reason, .. } => (Saying::WhyAccepted, reason),
        Act::Cause { text, .. } => (Saying::Cause, text),
        Act::Photo { number, .. } => (Saying::Photo, number),
        Act::HandOver { to } => (Saying::Successor, to),
        Act::Stop { why } => (Saying::WhyStopped, why),
        Act::MatingHalf { verdict: MatingVerdict::Damaged(what) } => (Saying::Damage, what),
        // Names, documents, values and tags are held by their own checks; the rest says nothing in words.
        Act::Ticket { .. }
        | Act::Rules { .. }
        | Act::Housed { .. }
        | Act::Recorded { .. }
        | Act::RecordFinished { .. }
        | Act::Compared { .. }
        | Act::Mapped { .. }
        | Act::MapConfirmed { .. }
        | Act::Behind { .. }
        | Act::Gate { .. }
        | Act::View { .. }
        | Act::Anchor { .. }
        | Act::Lock { .. }
        | Act::Assurance { .. }
        | Act::SmallPart { .. }
        | Act::MatingHalf { .. }
        | Act::Tagged { .. }
        | Act::Extract { .. }
        | Act::CutFree { .. }
        | Act::Loose { .. }
        | Act::Inspect { .. }
        | Act::Insert { .. }
        | Act::Tug { .. }
        | Act::PutBack
        | Act::TakeUp { .. }
        | Act::TakePlug { .. }
        | Act::FitPlug { .. }
        | Act::LosePlug
        | Act::ReturnPlug
        | Act::MoveOther { .. }
        | Act::Repair { .. }
        | Act::Removed { .. }
        | Act::WrongKey
        | Act::ReRead { .. }
        | Act::RowCounted { .. }
        | Act::LookedOver { .. }
        | Act::Measure { .. }
        | Act::Requested { .. }
        | Act::Arrived { .. }
        | Act::Note { .. }
        | Act::Resume { .. }
        | Act::Mate { .. }
        | Act::Sign { .. } => return Ok(()),
    };
    match says_something(text) {
        true => Ok(()),
        false => impossible(ActBarrier::SaysNothing(what, text.clone())),
    }
}

impl State {
    /// After an interruption only looking and saying what is seen is allowed.
    pub(super) fn check_resume(&self, act: &Act) -> Result<(), Refusal> {
        match &self.course.resume {
            Some(need) if !act.is_part_of_resume() => barred(ActRule::Interrupted(need.why.clone())),
            Some(_) | None => Ok(()),
        }
    }

    /// Who handed the job over works on it no more, until it is handed back.
    pub(super) fn check_bench(&self, entry: &Entry) -> Result<(), Refusal> {
        let is_work = entry.act.is_bench_work() || matches!(entry.act, Act::Sign { .. });
        match self.course.handed_over.as_ref().filter(|(by, _)| is_work && *by == entry.by) {
            Some((by, to)) => impossible(ActBarrier::HandedOver { by: by.clone(), to: to.clone() }),
            None => Ok(()),
        }
    }

    /// While a gate is open nothing is done to the connector: not after "stop" or "don't know", not when
    /// "off the machine" is over, not when it is asked again.
    pub(super) fn check_gates(&self, act: &Act) -> Result<(), Refusal> {
        match act.touches() {
            Touches::Connector | Touches::Circuit => {}
            // What is so, what is said and what makes safe is always taken.
            Touches::Place | Touches::Record | Touches::Nothing => return Ok(()),
        }
        if let Some(gate) = self.lapsed_gate() {
            return barred(ActRule::OnMachine(gate));
        }
        match self.next_gate() {
            Some(gate) => barred(ActRule::GateNotPassed(gate)),
            None => Ok(()),
        }
    }
}
