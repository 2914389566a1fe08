//! Parts that are asked for: what a line asks for as data, which line of a request goes on which of
//! the revision before, what changed, how many are asked for and how many came. Knows no job, and
//! makes no sentences.

mod article;
mod change;
mod counts;
mod identity;
mod kind;
mod lead;
mod line;
mod number;
#[cfg(test)]
mod properties;
mod request;
mod revision;
mod use_place;

pub use article::{
    Article, Companion, LeadWanted, Looks, ReadFrom, SealRange, SealUse, ShutOut, SpliceWanted, TerminalUse,
    ToldLine, Wanted,
};
pub use change::{Change, Fact};
pub use counts::{Amount, Counts};
pub use kind::{PartKind, Substitute, Urgency};
pub use lead::LeadSpec;
pub use line::Line;
pub use number::{RequestNumber, RequestNumberProblem};
pub use request::{Request, RequestHead};
pub use revision::{Revised, Revision, revise};
pub use use_place::UsePlace;
