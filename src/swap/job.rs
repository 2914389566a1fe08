//! The job: what the entries in force add up to.

use super::{Entry, Verdict};

/// A job.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Job {
    entries: Vec<Entry>,
}

impl Job {
    /// The job that these entries, in the order of the journal, add up to.
    pub fn replay(entries: Vec<Entry>) -> Self {
        Self { entries }
    }

    /// What the job says to an entry that is about to be kept.
    pub fn check(&self, _entry: &Entry) -> Verdict {
        Verdict::Allowed
    }

    /// Takes in an entry that is on disk.
    pub fn apply(&mut self, entry: Entry) {
        self.entries.push(entry);
    }
}
