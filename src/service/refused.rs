//! Why an act is not entered, and what a verdict of the job makes of it.

use crate::{
    job::{Code, Entry, Refusal, Verdict},
    report::refusals::in_one_line,
    store::{AppendProblem, StoreProblem},
};

/// Why an act was not entered.
#[derive(Debug, thiserror::Error)]
pub enum EnterProblem {
    /// The job refuses it.
    #[error("{}", in_one_line(refusals))]
    Refused {
        /// What it says.
        refusals: Vec<Refusal>,
        /// Whether a named person may go on anyway.
        can_go_on: bool,
        /// Which entry of the key press it is, from 0; none of the press was entered.
        nth: usize,
    },
    /// Nothing can be entered: why.
    #[error("{0}")]
    ReadOnly(String),
    /// A job cannot be started over another.
    #[error("{0}: there is a job of this name already")]
    AlreadyThere(String),
    /// There is no place for a new job.
    #[error(transparent)]
    NoRoom(StoreProblem),
    /// The disk failed and does not tell what it kept.
    #[error(
        "{place}: {why}. The entry may stand in the file or not: free the disk, open the job again and look before you go on"
    )]
    InDoubt {
        /// The job.
        place: String,
        /// What the system says.
        why: String,
    },
    /// The disk failed: nothing was entered.
    #[error("{place}: {why}. Nothing was entered; put that right (is the disk full?) and enter it again")]
    Disk {
        /// The job.
        place: String,
        /// What the system says.
        why: String,
    },
}

impl From<AppendProblem> for EnterProblem {
    fn from(problem: AppendProblem) -> Self {
        match problem {
            AppendProblem::Conflict { .. } | AppendProblem::Full { .. } => {
                Self::ReadOnly(problem.to_string())
            }
            AppendProblem::Disk { place, why } => Self::Disk { place, why },
            AppendProblem::InDoubt { place, why } => Self::InDoubt { place, why },
        }
    }
}

/// Turns a verdict into a refusal, or into the codes of the rules a named person goes past.
pub(super) fn refuse(verdict: Verdict, entry: &Entry, nth: usize) -> Result<Vec<Code>, EnterProblem> {
    match verdict {
        Verdict::Allowed => Ok(Vec::new()),
        Verdict::Impossible(refusal) => {
            Err(EnterProblem::Refused { refusals: vec![refusal], can_go_on: false, nth })
        }
        Verdict::Against(refusals) if entry.act.anyway().is_some() => {
            Ok(refusals.iter().filter_map(Refusal::code).collect())
        }
        Verdict::Against(refusals) => {
            let can_go_on = entry.act.takes_anyway();
            Err(EnterProblem::Refused { refusals, can_go_on, nth })
        }
    }
}
