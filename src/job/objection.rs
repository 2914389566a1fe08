//! What stands against a lead, a part on it, its crimp or its splice, as data: the rules that hold an act
//! back and the flags after it say the same of it.

use crate::{
    catalogue::{PartNumber, SizeName},
    quantity::{Gauge, Length},
    reckoning::{Finding, LookFault},
    record::Address,
};

use super::Code;

/// Something that stands against a lead.
#[derive(Debug, Clone, PartialEq)]
pub enum Objection {
    /// It is not good.
    Unsound {
        /// What the lead is called.
        lead: String,
        /// What is wrong with it.
        how: Unsound,
    },
    /// The decision for the diagram asks something of it that is not done.
    Undone {
        /// What the lead is called.
        lead: String,
        /// What is asked.
        what: Undone,
    },
    /// It does not fit where it goes, or what is put on it does not.
    Misfit(Misfit),
}

/// Why a lead is not good.
#[derive(Debug, Clone, PartialEq)]
pub enum Unsound {
    /// It came out with force.
    Forced,
    /// Its record says so, in these words where it has some.
    Recorded(Option<String>),
    /// Its wire is damaged up to so far behind the housing, in mm.
    Damaged(f64),
    /// Its seal is missing.
    SealMissing,
    /// This was found on it in the hand.
    Found(Finding),
    /// One of these was not sound when they were looked at together, and all others were called good.
    NobodyElse(Vec<Address>),
    /// Its female was tried with this, which is no test pin for it.
    TriedWith(PartNumber),
    /// A wire was cut out of its terminal.
    Parted,
}

/// What the decision for the diagram asks of a lead.
#[derive(Debug, Clone, PartialEq)]
pub enum Undone {
    /// These wires, by what they are called, leave its terminal.
    Parting(Vec<String>),
    /// It is to have as much copper as this, in mm².
    Thicker(f64),
}

/// What does not fit.
#[derive(Debug, Clone, PartialEq)]
pub enum Misfit {
    /// The terminal is of another size than the cavity.
    TerminalSize {
        /// The terminal.
        part: PartNumber,
        /// Its size.
        size: SizeName,
        /// The cavity.
        to: Address,
        /// The size it takes.
        takes: SizeName,
    },
    /// The terminal is not of the family of the housing.
    OtherFamily {
        /// The terminal.
        part: PartNumber,
        /// The housing.
        housing: PartNumber,
    },
    /// No terminal for the cavity takes this much copper.
    NoTerminal {
        /// The copper, in mm².
        area_mm2: f64,
        /// The cavity.
        to: Address,
    },
    /// No seal of the family holds this wire.
    NoSeal {
        /// Its outside diameter.
        diameter: Length,
        /// The cavity.
        to: Address,
    },
    /// A part that is put on is not one for the cavity.
    Part {
        /// The part.
        part: PartNumber,
        /// The cavity.
        to: Address,
    },
    /// A new terminal has another plating than the one it replaces.
    Plating {
        /// The new terminal.
        part: PartNumber,
        /// Its plating.
        new: String,
        /// That of the old one.
        old: String,
    },
    /// A crimp is said to be on another wire than the one in its lead.
    OtherWire {
        /// What the lead is called.
        lead: String,
        /// The wire in it.
        own: Gauge,
        /// The wire the crimp is said to be on.
        claimed: Gauge,
    },
}

impl Objection {
    /// The rule it is against.
    pub fn code(&self) -> Code {
        match self {
            Self::Unsound { how, .. } => how.code(),
            Self::Undone { what: Undone::Parting(_), .. } => Code::FoundDiffers,
            Self::Undone { what: Undone::Thicker(_), .. } => Code::GaugeReduced,
            Self::Misfit(misfit) => misfit.code(),
        }
    }
}

impl Unsound {
    fn code(&self) -> Code {
        match self {
            Self::Forced | Self::Recorded(_) | Self::Damaged(_) | Self::NobodyElse(_) => Code::CrimpSuspect,
            Self::SealMissing => Code::SealMissing,
            Self::Found(finding) => suspected(*finding),
            Self::TriedWith(_) => Code::TerminalMisfit,
            Self::Parted => Code::LeadParted,
        }
    }
}

impl Misfit {
    fn code(&self) -> Code {
        match self {
            Self::TerminalSize { .. }
            | Self::OtherFamily { .. }
            | Self::Part { .. }
            | Self::Plating { .. } => Code::TerminalMisfit,
            Self::NoTerminal { .. } | Self::OtherWire { .. } => Code::WireMisfit,
            Self::NoSeal { .. } => Code::SealRange,
        }
    }
}

/// The rule for what was found on a lead.
fn suspected(finding: Finding) -> Code {
    match finding {
        Finding::DrainBare => Code::DrainBare,
        Finding::SealBad => Code::SealMissing,
        Finding::TangFlat
        | Finding::FemaleLoose
        | Finding::MaleBent
        | Finding::Corroded
        | Finding::Burnt
        | Finding::CrimpBad
        | Finding::GripBad
        | Finding::InsulationOutside
        | Finding::InsulationUnderSeal
        | Finding::TooShort
        | Finding::Doubled => Code::CrimpSuspect,
    }
}

/// What is wrong with a crimp to the eye.
#[derive(Debug, Clone, PartialEq)]
pub struct CrimpFaults {
    /// What the eye found.
    pub look: Vec<LookFault>,
    /// The length stripped, and the one of the sheet in mm, where they differ.
    pub strip: Option<(Length, f64)>,
}

/// A sample that came off too early.
#[derive(Debug, Clone, PartialEq)]
pub struct WeakSample {
    /// What it was made with.
    pub tool: ToolUsed,
    /// The force it came off at.
    pub force_n: f64,
    /// The least force for its wire.
    pub least_n: f64,
    /// Whose that is.
    pub source: &'static str,
}

/// A tool and its position, as far as they were named.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ToolUsed {
    /// The tool.
    pub tool: Option<String>,
    /// Its position or nest.
    pub position: Option<String>,
}

/// What is too near to a splice; all of it behind the housing, in mm where no other system was keyed.
#[derive(Debug, Clone, PartialEq)]
pub enum SpliceNear {
    /// The housing.
    Housing {
        /// Where the splice starts.
        start: Length,
        /// How much must lie between.
        clearance_mm: f64,
    },
    /// The damage of the wire.
    Damage {
        /// Where the splice starts.
        start: Length,
        /// How far the damage reaches.
        damage_mm: f64,
        /// How much sound wire comes first.
        margin_mm: f64,
    },
    /// A stretch where no splice may lie.
    KeptFree {
        /// From here.
        from_mm: f64,
        /// To here.
        to_mm: f64,
    },
    /// The last place where a sleeve may end.
    Last {
        /// Where this one ends.
        end_mm: f64,
        /// Where it may.
        last_mm: f64,
    },
    /// Another splice.
    Splice {
        /// How far it has to be.
        gap_mm: f64,
        /// It lies from here.
        from_mm: f64,
        /// To here.
        to_mm: f64,
    },
}

/// A lead that does not reach its splice.
#[derive(Debug, Clone, PartialEq)]
pub struct ShortLead {
    /// Where the splice starts.
    pub start: Length,
    /// How long the lead has to be.
    pub cut_mm: f64,
    /// How long it was asked for.
    pub asked_mm: f64,
}
