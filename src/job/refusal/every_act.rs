//! What is said against an act whatever it is about.

use jiff::civil::Date;

use crate::job::{Code, GateKind};

/// Why an entry cannot be, whatever its act is about.
#[derive(Debug, Clone, PartialEq)]
pub enum ActBarrier {
    /// The job was stopped, for this reason.
    Stopped(String),
    /// The job has no housings yet.
    NoHousings,
    /// This is no name of the person who goes on anyway.
    AnywayUnnamed(String),
    /// Nobody said why the rule is passed.
    AnywayWithoutReason,
    /// The day is past.
    DayPast(Date),
    /// What has to be said, and what was keyed for it, which says nothing.
    SaysNothing(Saying, String),
    /// Who works on it handed the job over.
    HandedOver {
        /// Who.
        by: String,
        /// To whom.
        to: String,
    },
}

/// What a person has to say in words.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Saying {
    /// Why the record is corrected.
    WhyCorrected,
    /// Why the record is flipped.
    WhyFlipped,
    /// The reason of a decision.
    Decision,
    /// What was found on a lead.
    Finding,
    /// Why it is so.
    Why,
    /// Why a plug is scrapped.
    WhyScrapped,
    /// What a thing is parked for.
    ParkedFor,
    /// Why a flag is accepted.
    WhyAccepted,
    /// The cause of the damage.
    Cause,
    /// The number of a photo.
    Photo,
    /// Who takes over.
    Successor,
    /// Why the job is stopped.
    WhyStopped,
    /// What is wrong with the mating half.
    Damage,
}

/// Why the last entry is not taken back.
#[derive(Debug, Clone, PartialEq)]
pub enum TakeBackBarrier {
    /// There is none.
    Nothing,
    /// Others rely on it.
    OthersRelyOnIt,
    /// It is this other person's.
    EntryOf(String),
    /// It was made before this sitting.
    BeforeThisSitting,
}

/// A rule that holds work back, whatever it is.
#[derive(Debug, Clone, PartialEq)]
pub enum ActRule {
    /// The work was interrupted, by this.
    Interrupted(String),
    /// The harness is on the machine again, and this gate is open.
    OnMachine(GateKind),
    /// This gate is not passed.
    GateNotPassed(GateKind),
}

impl ActRule {
    /// Its code.
    pub fn code(&self) -> Code {
        match self {
            Self::Interrupted(_) => Code::ResumeUnchecked,
            Self::OnMachine(_) | Self::GateNotPassed(_) => Code::GateOpen,
        }
    }
}
