//! What is said against repairs, and against the crimps and splices they make.

use crate::{
    job::{Code, ItemId, Place},
    quantity::Length,
    reckoning::Height,
    record::HousingName,
};

/// Why a repair cannot be, done or planned. Leads are given by what they are called.
#[derive(Debug, Clone, PartialEq)]
pub enum RepairBarrier {
    /// The job has no old housing of this name.
    NotOld(HousingName),
    /// The lead is not in the hand.
    NotInHand(ItemId),
    /// By the decision the lead has no place in the new housing.
    HasNoPlace(String),
    /// The lead is joined with another or taken out.
    Away(String, Place),
    /// This repair of the lead is not planned.
    NotPlanned(String),
    /// The other lead is not out yet.
    OtherNotOut(String),
    /// Only a repair lead has a splice.
    NoSpliceOnIt,
}

/// Why a wire is not taken out for good. Leads are given by what they are called.
#[derive(Debug, Clone, PartialEq)]
pub enum RemovalBarrier {
    /// No document is named.
    NoDocument,
    /// Another lead is joined in the terminal of the lead.
    JoinedInIt {
        /// The other one.
        other: String,
        /// The lead.
        lead: String,
    },
    /// The lead has no wire of this number.
    NoSuchWire(ItemId, usize),
    /// The lead is out already.
    OutAlready(String),
}

/// A rule against a repair, its crimp or its splice. Leads are given by what they are called.
#[derive(Debug, Clone, PartialEq)]
pub enum RepairRule {
    /// The tang was re-formed once already.
    ReformedBefore(String),
    /// The crimp is higher or lower than its sheet says.
    HeightOut {
        /// The lead.
        lead: String,
        /// What was measured.
        height: Length,
        /// What the sheet says.
        sheet: Height,
    },
}

impl RepairRule {
    /// Its code.
    pub fn code(&self) -> Code {
        match self {
            Self::ReformedBefore(_) => Code::ReformedTwice,
            Self::HeightOut { .. } => Code::HeightOut,
        }
    }
}

/// A rule against a splice that was made. Leads are given by what they are called.
#[derive(Debug, Clone, PartialEq)]
pub enum SpliceRule {
    /// One that was made before stays in the wire behind it.
    SecondInWire {
        /// The lead.
        lead: String,
        /// Where the one before starts, in mm.
        start_mm: f64,
        /// Where it ends.
        end_mm: f64,
    },
    /// It was not found sound.
    NotSound(String),
    /// The wire seal is behind it.
    SealBehind(String),
    /// It is soldered, against the house rule.
    Soldered(String),
    /// The pair is untwisted too far.
    Untwisted {
        /// The lead.
        lead: String,
        /// How far.
        over: Length,
        /// How far it may be, in mm.
        limit_mm: f64,
    },
}

impl SpliceRule {
    /// Its code.
    pub fn code(&self) -> Code {
        match self {
            Self::SecondInWire { .. } => Code::SpliceSecond,
            Self::NotSound(_) => Code::CrimpLook,
            Self::SealBehind(_) => Code::SealMissing,
            Self::Soldered(_) => Code::Soldered,
            Self::Untwisted { .. } => Code::Untwisted,
        }
    }
}
