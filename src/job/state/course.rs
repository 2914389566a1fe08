//! How the work goes: safety, people, pauses, what a person answers for, the end.

use std::collections::BTreeMap;

use jiff::Timestamp;

use crate::{
    job::{Accepted, Deviation, GateKind, GateSeen, ResumeNeed},
    record::Address,
};

/// How the work goes: safety, people, pauses, what a person answers for, the end.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Course {
    /// The gates.
    pub gates: BTreeMap<GateKind, GateSeen>,
    /// Rules a named person went past.
    pub deviations: Vec<Deviation>,
    /// Flags accepted.
    pub accepted: Vec<Accepted>,
    /// Photos: number and what it shows.
    pub photos: Vec<(String, String)>,
    /// Notes: place in the journal, about what, text.
    pub notes: Vec<(usize, Option<Address>, String)>,
    /// Who signed.
    pub signed: Option<String>,
    /// Why it was stopped.
    pub stopped: Option<String>,
    /// The entry that is being taken in, or was last: its place in the journal.
    pub entry: usize,
    /// The resume check that is due.
    pub resume: Option<ResumeNeed>,
    /// When the last entry was made.
    pub last_at: Option<Timestamp>,
    /// Who works at the bench.
    pub bench: Option<String>,
    /// Who handed the job over, and to whom, until another person works on it.
    pub handed_over: Option<(String, String)>,
}
