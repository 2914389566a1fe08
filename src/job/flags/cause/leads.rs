//! What flags say of a lead: where it is, how it sits, what was seen of it.

use crate::{
    job::{Code, Tag},
    record::Address,
};

/// What is with a lead.
#[derive(Debug, Clone, PartialEq)]
pub enum LeadCause {
    /// It is in the hand.
    InHand,
    /// It is parked.
    Parked(Tag),
    /// Nobody sees it.
    Unseen,
    /// It is in a new cavity and belongs elsewhere.
    WrongCavity {
        /// Where it is.
        at: Address,
        /// Where it belongs, where that is known.
        goes: Option<Address>,
    },
    /// It did not click.
    NoClick(Address),
    /// It was not tugged.
    NotTugged(Address),
    /// Its tang was re-formed twice.
    ReformedTwice,
    /// It sits in a new hole, and nobody called it good since it was last out.
    NotCalledGood,
    /// It came out with force.
    ForcedOut,
    /// It has less slack left than one more terminal takes, in mm.
    LastTime(f64),
}

impl LeadCause {
    pub(super) fn code(&self) -> Code {
        match self {
            Self::InHand => Code::InHand,
            Self::Parked(_) => Code::Parked,
            Self::Unseen => Code::WireMissing,
            Self::WrongCavity { .. } => Code::WrongCavity,
            Self::NoClick(_) => Code::NotSeated,
            Self::NotTugged(_) => Code::NotTugged,
            Self::ReformedTwice => Code::ReformedTwice,
            Self::NotCalledGood => Code::CrimpSuspect,
            Self::ForcedOut => Code::ForcedOut,
            Self::LastTime(_) => Code::LastTime,
        }
    }
}
