//! What flags say of the records, and of what a decision for the diagram asks for.

use crate::{
    colour::Colour,
    face::Label,
    job::{Code, OtherKind},
    record::{Address, Difference, WireKind},
};

/// What is with the records.
#[derive(Debug, Clone, PartialEq)]
pub enum RecordCause {
    /// Nobody decided a difference.
    Differs(Difference),
    /// Leads look alike, and one has no tag.
    LookAlike {
        /// Their cavities, as they are spoken of.
        at: Vec<String>,
        /// What they look like.
        looks: String,
    },
    /// A value of a lead is not known.
    Unknown {
        /// What it is called.
        lead: String,
    },
    /// There is no photo.
    NoPhoto,
    /// The cause of the damage is not recorded.
    NoCause,
}

impl RecordCause {
    pub(super) fn code(&self) -> Code {
        match self {
            Self::Differs(_) => Code::FoundDiffers,
            Self::LookAlike { .. } => Code::LookAlike,
            Self::Unknown { .. } => Code::UnknownValue,
            Self::NoPhoto => Code::PhotoMissing,
            Self::NoCause => Code::CauseUnknown,
        }
    }
}

/// What a decision for the diagram asks for and is not done.
#[derive(Debug, Clone, PartialEq)]
pub enum DecidedCause {
    /// A wire of another colour than drawn stays.
    Colour {
        /// What it is called.
        wire: String,
        /// As found.
        found: Colour,
        /// As drawn.
        drawn: Colour,
    },
    /// A wire goes by another name than drawn, and nobody traced it.
    Name {
        /// What it is called.
        wire: String,
        /// As found.
        found: String,
        /// As drawn.
        drawn: String,
    },
    /// A wire is of another kind than drawn.
    Kind {
        /// What it is called.
        wire: String,
        /// As found.
        found: WireKind,
        /// As drawn.
        drawn: WireKind,
    },
    /// Wires are drawn and found nowhere.
    WireMissing {
        /// What they are called.
        wires: Vec<String>,
        /// The cavity they belong in.
        label: Label,
        /// What is there instead.
        there: WireMissing,
    },
    /// A spare terminal, bridge, shunt, diode or clip is drawn and found nowhere.
    OtherMissing {
        /// What it is.
        kind: OtherKind,
        /// Where it belongs.
        at: Address,
    },
}

/// What is in the cavity that a missing wire belongs in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum WireMissing {
    /// A lead that does not belong there, or is out for good.
    OtherLead,
    /// The lead of this name, whose terminal it belongs in.
    Parted(String),
    /// No lead.
    NoLead,
}

impl DecidedCause {
    pub(super) fn code(&self) -> Code {
        match self {
            Self::Colour { .. } => Code::ColourDiffers,
            Self::Name { .. } => Code::UnknownValue,
            Self::Kind { .. } => Code::WireMisfit,
            Self::WireMissing { there: WireMissing::OtherLead | WireMissing::NoLead, .. } => {
                Code::WireMissing
            }
            Self::WireMissing { there: WireMissing::Parted(_), .. } => Code::LeadParted,
            Self::OtherMissing { kind, .. } => kind.code_out_of_place(),
        }
    }
}
