//! What flags say before anything moves: gates, how housings are held, interruptions, and whether the
//! new side can take what comes.

use crate::{
    colour::Colour,
    face::Label,
    job::{Code, GateKind, ItemId, JobSide, Misread, Question, Sign, SpokenPlace},
    record::{Address, HousingName},
};

/// What is open before or between moves.
#[derive(Debug, Clone, PartialEq)]
pub enum StartCause {
    /// A gate says stop.
    GateStops(GateKind),
    /// A gate was answered as absent, and something speaks of its subject.
    GateAbsent {
        /// The gate.
        gate: GateKind,
        /// What speaks of it.
        sign: Sign,
    },
    /// "Off the machine" is over.
    GateLapsed(GateKind),
    /// A gate is open again.
    GateOpenAgain(GateKind),
    /// Nobody said how a housing is held.
    ViewUnset(HousingName),
    /// What is seen at an anchor is not what the record or the definition has there.
    AnchorFailed {
        /// The housing.
        housing: HousingName,
        /// Its side.
        side: JobSide,
        /// Where.
        place: SpokenPlace,
        /// The colour that was seen.
        colour: Option<Colour>,
        /// The mark that was read.
        mark: String,
        /// The readings that would explain every anchor.
        fits: Vec<Misread>,
    },
    /// The work was interrupted, and nobody made the resume check.
    Interrupted {
        /// By what.
        why: String,
    },
}

impl StartCause {
    pub(super) fn code(&self) -> Code {
        match self {
            Self::GateStops(_) | Self::GateAbsent { .. } | Self::GateLapsed(_) | Self::GateOpenAgain(_) => {
                Code::GateOpen
            }
            Self::ViewUnset(_) => Code::ViewUnset,
            Self::AnchorFailed { .. } => Code::AnchorFailed,
            Self::Interrupted { .. } => Code::ResumeUnchecked,
        }
    }
}

/// What the new side cannot take.
#[derive(Debug, Clone, PartialEq)]
pub enum FitCause {
    /// A lead goes to a cavity that is moulded shut.
    Blocked {
        /// What it is called.
        lead: String,
        /// The cavity.
        to: Address,
    },
    /// The cavity a lead belongs in is not mapped.
    Unmapped {
        /// What it is called.
        lead: String,
        /// The cavity.
        from: Address,
    },
    /// Several leads are mapped to one cavity.
    Clash {
        /// The leads.
        leads: Vec<ItemId>,
        /// The cavity.
        at: Address,
    },
    /// The new housing does not agree with the mating half.
    HousingDiffers(Question),
    /// The new housing lacks a clip or bridge of the old one.
    ClipMissing(String),
    /// The legs of a pair would not be neighbours any more.
    PairSplit {
        /// Where they are.
        from: (Label, Label),
        /// Where they go.
        to: (Address, Address),
    },
    /// A cavity of a sealed housing was open as found.
    FoundOpen(Label),
    /// A cavity of an unsealed housing was neither wired nor plugged.
    FoundEmpty(Label),
}

impl FitCause {
    pub(super) fn code(&self) -> Code {
        match self {
            Self::Blocked { .. } => Code::BlockedUnderWire,
            Self::Unmapped { .. } | Self::Clash { .. } => Code::MapClash,
            Self::HousingDiffers(_) => Code::PartMisfit,
            Self::ClipMissing(_) => Code::BridgeMissing,
            Self::PairSplit { .. } => Code::PairSplit,
            Self::FoundOpen(_) => Code::OpenCavity,
            Self::FoundEmpty(_) => Code::PlugMissing,
        }
    }
}
