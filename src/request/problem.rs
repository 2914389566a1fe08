//! Why a line or a request in a file is none.

use crate::{quantity::TextProblem, record::AddressProblem, supply::RequestNumberProblem};

/// Why a line or a request in a file is none.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum RequestProblem {
    /// A number or name that cannot be one.
    #[error("line {line}: {why}")]
    Text {
        /// The line.
        line: u32,
        /// Why.
        why: TextProblem,
    },
    /// A cavity that cannot be one.
    #[error("line {line}: {why}")]
    Address {
        /// The line.
        line: u32,
        /// Why.
        why: AddressProblem,
    },
    /// Not the number of a request.
    #[error(transparent)]
    Number(#[from] RequestNumberProblem),
    /// A part number without where it was read, or the other way round.
    #[error("line {line}: a part number, and where it was read, go together")]
    Unread {
        /// The line.
        line: u32,
    },
    /// Neither male nor female.
    #[error("line {line}: \"{shown}\" is neither male nor female")]
    Gender {
        /// The line.
        line: u32,
        /// What stands there.
        shown: String,
    },
}
