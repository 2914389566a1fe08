//! What is said against a crimp and against where a splice lies: the flags after the act say the same.

use crate::{
    job::{Code, CrimpFaults, ShortLead, SpliceNear, ToolUsed, WeakSample},
    reckoning::Standing,
};

/// A rule against a crimp.
#[derive(Debug, Clone, PartialEq)]
pub enum CrimpRule {
    /// The eye found something wrong with that of the lead of this name.
    Faults(String, CrimpFaults),
    /// Its position is not proved for its terminal and wire, by the tool book.
    NotProved(ToolUsed, Standing),
    /// A sample made with it came off too early.
    WeakSample(WeakSample),
}

/// A rule against where the splice of a lead lies. Leads are given by what they are called.
#[derive(Debug, Clone, PartialEq)]
pub enum ReachRule {
    /// It lies too near to something.
    Near(String, SpliceNear),
    /// The lead does not reach it.
    TooShort(String, ShortLead),
}

impl CrimpRule {
    /// Its code.
    pub fn code(&self) -> Code {
        match self {
            Self::Faults(..) => Code::CrimpLook,
            Self::NotProved(..) | Self::WeakSample(_) => Code::ToolNotQualified,
        }
    }
}

impl ReachRule {
    /// Its code.
    pub fn code(&self) -> Code {
        match self {
            Self::Near(..) => Code::SpliceTooNear,
            Self::TooShort(..) => Code::WireMisfit,
        }
    }
}
