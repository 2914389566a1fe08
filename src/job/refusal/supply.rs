//! What is said against requests, against what came for them, and against accepting a flag.

use crate::{catalogue::PartNumber, job::Code, record::Address, supply::RequestNumberProblem};

/// Why a request cannot be.
#[derive(Debug, Clone, PartialEq)]
pub enum RequestBarrier {
    /// The next revision is this one.
    NextRevision(u32),
    /// The number cannot be read.
    NoNumber(RequestNumberProblem),
    /// The job's request has this number.
    OtherNumber(String),
}

/// Why nothing came so.
#[derive(Debug, Clone, PartialEq)]
pub enum ArrivalBarrier {
    /// No request was sent.
    NoRequest,
    /// The request has no such line.
    NoLine {
        /// The number of the request.
        request: String,
        /// The line.
        line: u32,
    },
    /// Nothing came.
    NothingCame,
    /// Another part came, and nobody said which.
    WhichPart,
    /// The part is the one the line asked for.
    SamePart(PartNumber, u32),
    /// The part is not the one the line asked for.
    OtherPart {
        /// What came.
        part: PartNumber,
        /// The line.
        line: u32,
        /// What it asked for.
        asked: PartNumber,
    },
    /// More came than was asked for.
    TooMany {
        /// The line.
        line: u32,
        /// How many it asked for, spares with it.
        most: u32,
        /// How many came before.
        came: u32,
        /// How many came now.
        now: u32,
    },
}

/// Why a flag is not accepted.
#[derive(Debug, Clone, PartialEq)]
pub enum AcceptBarrier {
    /// This is no name of the person who accepts it.
    Unnamed(String),
    /// It is not one that a name can accept.
    NotByName(Code),
    /// It is not open there, but at these cavities.
    NotOpenThere(Code, Vec<Address>),
    /// It stands there for each of these lines of the request.
    SeveralLines(Code, Vec<u32>),
}
