//! What flags say of repairs: crimps, splices, orders, and what their plans would do to the bundle.

use crate::{
    catalogue::PartNumber,
    job::{Code, CrimpFaults, ShortLead, SpliceNear, ToolUsed, WeakSample, refusal::NotPlannable},
    quantity::{Gauge, Length},
    reckoning::{Height, Standing},
    record::HousingName,
};

/// What is with the crimp on a lead.
#[derive(Debug, Clone, PartialEq)]
pub enum CrimpCause {
    /// It has no record.
    NoRecord,
    /// Its height is not the one of its sheet.
    HeightOut {
        /// The height.
        height: Length,
        /// What the sheet says.
        sheet: Height,
    },
    /// It was not measured.
    NotMeasured,
    /// No sheet gives a height for its terminal and wire.
    NoSheet,
    /// The eye found something wrong.
    Faults(CrimpFaults),
    /// A sample made with it came off too early.
    WeakSample(WeakSample),
    /// It was made for a wire of another size than the one there now.
    OtherSize {
        /// The wire it was made for.
        made_for: Gauge,
        /// The wire now.
        now: Gauge,
    },
    /// The position it was made in is not proved.
    NotProved {
        /// What it was made with.
        tool: ToolUsed,
        /// What the tool book said; none where nobody looked.
        book: Option<Standing>,
    },
}

impl CrimpCause {
    pub(super) fn code(&self) -> Code {
        match self {
            Self::NoRecord | Self::NotMeasured | Self::NoSheet => Code::HeightNotVerified,
            Self::HeightOut { .. } => Code::HeightOut,
            Self::Faults(_) => Code::CrimpLook,
            Self::WeakSample(_) | Self::OtherSize { .. } | Self::NotProved { .. } => Code::ToolNotQualified,
        }
    }
}

/// What is with the splice of a lead.
#[derive(Debug, Clone, PartialEq)]
pub enum SpliceCause {
    /// The wire is spliced already before the next branch.
    SplicedBefore,
    /// The new lead left the splice made before in the wire.
    Two,
    /// Nobody recorded where it sits and whether it is sound.
    NotRecorded,
    /// It lies too near to something.
    Near(SpliceNear),
    /// The lead does not reach it.
    TooShort(ShortLead),
    /// It was not found sound.
    NotSound,
    /// It is soldered: why.
    Soldered(String),
    /// The pair is untwisted too far at it.
    Untwisted(Length),
    /// Nobody measured how far the pair is untwisted at it.
    UntwistedNotMeasured,
}

impl SpliceCause {
    pub(super) fn code(&self) -> Code {
        match self {
            Self::SplicedBefore | Self::Two => Code::SpliceSecond,
            Self::NotRecorded | Self::UntwistedNotMeasured => Code::UnknownValue,
            Self::Near(_) => Code::SpliceTooNear,
            Self::TooShort(_) => Code::WireMisfit,
            Self::NotSound => Code::CrimpLook,
            Self::Soldered(_) => Code::Soldered,
            Self::Untwisted(_) => Code::Untwisted,
        }
    }
}

/// What is with what is planned or ordered for a lead.
#[derive(Debug, Clone, PartialEq)]
pub enum OrderCause {
    /// What is planned may not be, since the record was corrected.
    NotAllowed(NotPlannable),
    /// Its pair was found untwisted too far.
    UntwistedAsFound {
        /// How far.
        length: Length,
        /// What the house lets pass, in mm.
        limit_mm: f64,
        /// Whose limit that is.
        source: String,
    },
    /// The lead that was asked for is too short since the plan moved.
    Stale {
        /// How long it was asked for.
        asked_mm: f64,
        /// How long it has to be now.
        needs_mm: f64,
    },
    /// Its circuit loses more with its repair lead than the house lets pass.
    Drop {
        /// Voltage lost.
        drop_v: f64,
        /// The same, in per cent.
        percent: f64,
        /// What the house lets pass, in per cent.
        limit_percent: f64,
        /// Whose limit that is.
        source: String,
    },
    /// The terminal does not take the wire that was ordered.
    TerminalTakes {
        /// The terminal.
        terminal: PartNumber,
        /// The wire.
        gauge: Gauge,
        /// The least and the most that its sheet says, in mm².
        wire_mm2: (f64, f64),
    },
    /// Its wires share one sealed hole.
    SharedHole,
}

impl OrderCause {
    pub(super) fn code(&self) -> Code {
        match self {
            Self::NotAllowed(why) => why.code().unwrap_or(Code::UnknownValue),
            Self::UntwistedAsFound { .. } => Code::Untwisted,
            Self::Stale { .. } | Self::Drop { .. } | Self::TerminalTakes { .. } => Code::WireMisfit,
            Self::SharedHole => Code::TwoInOneHole,
        }
    }
}

/// What is with the splices of one bundle.
#[derive(Debug, Clone, PartialEq)]
pub enum BundleCause {
    /// There is no plan for them.
    NoPlan {
        /// Why.
        why: NoPlan,
        /// The housing the bundle starts at.
        housing: HousingName,
        /// How much more room would settle it, in mm; none where none would.
        room_mm: Option<f64>,
    },
    /// More wires are spliced than may be.
    TooManySplices {
        /// How many.
        count: usize,
        /// How many may be.
        most: u32,
        /// The housing the bundle starts at.
        housing: HousingName,
    },
    /// More wires get a repair lead than one in so many.
    ManyLeads {
        /// How many get one.
        leads: usize,
        /// Of how many.
        wires: usize,
        /// One in so many may.
        one_in: u32,
    },
}

/// Why there is no plan for the splices of a bundle.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NoPlan {
    /// There are so many, more than one plan takes.
    TooMany(usize),
    /// These leads, by what they are called, have no place together.
    NoPlace(Vec<String>),
}

impl BundleCause {
    pub(super) fn code(&self) -> Code {
        match self {
            Self::NoPlan { .. } => Code::SpliceTooNear,
            Self::TooManySplices { .. } => Code::SpliceTooMany,
            Self::ManyLeads { .. } => Code::LeadsMany,
        }
    }
}
