//! What is asked of every act, whatever it is about: words that say something, the person who is at the
//! bench, no work after an interruption or past an open gate.

use super::rules::{barred, impossible};
use crate::{
    job::{Act, Code, Entry, MatingVerdict, Refusal, Touches, state::State},
    quantity::{harmless, quoted, says_something},
};

/// What a person has to say in an act says something.
pub(super) fn check_words(act: &Act) -> Result<(), Refusal> {
    let (what, text) = match act {
        Act::RecordCorrected { reason, .. } => ("why the record is corrected", reason),
        Act::RecordFlipped { reason, .. } => ("why the record is flipped", reason),
        Act::Decided { reason, .. } => ("the reason of the decision", reason),
        Act::Planned { reason, .. } => ("what was found", reason),
        Act::Seen { reason, .. } | Act::LeftInOld { reason, .. } => ("why", reason),
        Act::ScrapPlug { reason } => ("why the plug is scrapped", reason),
        Act::Park { reason, .. } => ("what it is parked for", reason),
        Act::Accept { reason, .. } => ("why it is accepted", reason),
        Act::Cause { text, .. } => ("the cause", text),
        Act::Photo { number, .. } => ("the number of the photo", number),
        Act::HandOver { to } => ("who takes over", to),
        Act::Stop { why } => ("why the job is stopped", why),
        Act::MatingHalf { verdict: MatingVerdict::Damaged(what) } => ("what is wrong with it", what),
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
        false => impossible(
            format!("\"{}\" does not say {what}.", quoted(text)),
            "Key it in words: somebody reads it later.",
        ),
    }
}

impl State {
    /// After an interruption only looking and saying what is seen is allowed.
    pub(super) fn check_resume(&self, act: &Act) -> Result<(), Refusal> {
        match &self.course.resume {
            Some(need) if !act.is_part_of_resume() => barred(
                Code::ResumeUnchecked,
                format!("The work was interrupted: {}. DO NOT POWER.", need.why),
                "Answer the gates, say the views, read three holes back, count the rows, read the tags; then resume.",
            ),
            Some(_) | None => Ok(()),
        }
    }

    /// Who handed the job over works on it no more, until it is handed back.
    pub(super) fn check_bench(&self, entry: &Entry) -> Result<(), Refusal> {
        let is_work = entry.act.is_bench_work() || matches!(entry.act, Act::Sign { .. });
        match self.course.handed_over.as_ref().filter(|(by, _)| is_work && *by == entry.by) {
            Some((by, to)) => impossible(
                format!("{} handed the job over to {}.", harmless(by), harmless(to)),
                "Say who is at the bench now: the name stands in every entry.",
            ),
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
            return barred(
                Code::GateOpen,
                format!("The harness is on the machine: the gate on {} is open.", gate.title()),
                "Make it safe and answer the gate before the next step.",
            );
        }
        match self.next_gate() {
            Some(gate) => barred(
                Code::GateOpen,
                format!("The gate on {} is not passed.", gate.title()),
                "Answer it with a name and a document, or stop the job.",
            ),
            None => Ok(()),
        }
    }
}
