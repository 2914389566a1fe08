//! What a line asks for: a part by its number, or a part by what is known of it.

use std::fmt;

use super::{LeadSpec, PartKind, UsePlace};
use crate::{
    catalogue::{FamilyId, Gender, PartNumber, SizeName},
    face::Label,
    record::{Address, HousingName},
};

/// What a line asks for.
#[derive(Debug, Clone, PartialEq)]
pub enum Wanted {
    /// A part whose number is known.
    Part {
        /// Its number.
        number: PartNumber,
        /// Where the number was read.
        read_from: ReadFrom,
        /// What it is.
        article: Article,
    },
    /// A part without a number: made to order, or to be identified.
    Described {
        /// What it is.
        article: Article,
        /// What it looks like; none once nothing asks for it any more.
        looks: Option<Looks>,
    },
    /// What a request of an earlier version keeps in words.
    Told(Box<ToldLine>),
}

/// Where a part number was read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ReadFrom {
    /// In the definition of a family.
    Definition(FamilyId),
    /// The bench named it; the family of the housing does not have it.
    Bench {
        /// The family.
        not_in: FamilyId,
    },
}

/// A line that is kept in words alone.
#[derive(Debug, Clone, PartialEq)]
pub struct ToldLine {
    /// What it is.
    pub kind: PartKind,
    /// Part number, when known.
    pub part: Option<PartNumber>,
    /// Where the number was read.
    pub read_from: Option<String>,
    /// What it is, in words.
    pub words: String,
    /// How it looks, when it has no number.
    pub looks: Option<Looks>,
    /// A repair lead: where its wire was recorded, and what it has to be.
    pub lead: Option<LeadWanted>,
}

/// What is asked for, of each kind what tells one from the other and what the desk is told.
#[derive(Debug, Clone, PartialEq)]
pub enum Article {
    /// A housing.
    Housing {
        /// What the job calls it.
        name: HousingName,
        /// What people call it.
        title: String,
        /// Mould revision, when marked.
        revision: Option<String>,
        /// The leads it has no cavity for: a question to the desk.
        shut_out: Vec<ShutOut>,
    },
    /// The part that locks all terminals of a housing.
    SecondaryLock(Companion),
    /// The clip that proves the halves are latched.
    Assurance(Companion),
    /// A seal, retainer, cover or the like of a housing.
    SmallPart(Companion),
    /// A bridge, diode or clip in a cavity.
    Bridge {
        /// What it is, as it was recorded.
        what: String,
        /// Its cavity.
        at: Address,
    },
    /// Blanking plugs.
    Plug {
        /// The housing they close.
        housing: HousingName,
        /// The size of its cavities.
        size: SizeName,
        /// Their colour, when known.
        colour: Option<String>,
    },
    /// Terminals.
    Terminal {
        /// The size of the cavity, when known.
        size: Option<SizeName>,
        /// Their plating, when known.
        plating: Option<String>,
        /// What for.
        used: TerminalUse,
    },
    /// Seals on single wires.
    WireSeal {
        /// The size of the cavity, when known.
        size: Option<SizeName>,
        /// Which insulation they seal, when known.
        range: Option<SealRange>,
        /// What for.
        used: SealUse,
    },
    /// A repair lead, made to order.
    Lead(LeadWanted),
    /// Splices with their sleeves.
    Splice(SpliceWanted),
}

/// A lead that has no cavity in a housing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ShutOut {
    /// What the lead is called.
    pub lead: String,
    /// The cavity that is moulded shut.
    pub cavity: Label,
}

/// A part that goes with a housing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Companion {
    /// What the job calls the housing.
    pub housing: HousingName,
    /// The part number of the housing.
    pub of: PartNumber,
    /// What it is: its kind, or the name it has in the definition.
    pub name: String,
}

/// What terminals are for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum TerminalUse {
    /// For a wire.
    Wire,
    /// To qualify the position of a tool on, before the first real crimp.
    Samples,
    /// For a cavity without a wire.
    Unwired,
}

/// What wire seals are for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum SealUse {
    /// For a wire whose seal is bad.
    Itself,
    /// For a wire that gets a new terminal.
    NewTerminal,
}

/// Which insulation a seal takes.
#[derive(Debug, Clone, PartialEq)]
pub struct SealRange {
    /// Least diameter in mm.
    pub least_mm: f64,
    /// Most diameter in mm.
    pub most_mm: f64,
    /// The seal's colour.
    pub colour: String,
}

/// Which repair lead is asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct LeadWanted {
    /// Where its wire was recorded: the same wire, the same line, however long the lead gets.
    pub home: UsePlace,
    /// What its circuit is called.
    pub circuit: String,
    /// How long, when its splice has a place.
    pub length_mm: Option<f64>,
    /// Its conductor in both systems, when it was said.
    pub gauge: Option<String>,
    /// Whether a seal is fitted on it.
    pub sealed: bool,
    /// What else it has to be; none once nothing asks for it any more.
    pub spec: Option<Box<LeadSpec>>,
}

/// Which splice is asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct SpliceWanted {
    /// What it is, as the bench said it.
    pub splice: String,
    /// The conductors it joins, in both systems.
    pub joins: String,
    /// Length of its sleeve in mm, when it was said.
    pub sleeve_mm: Option<f64>,
    /// What the sleeve goes over, in mm.
    pub sleeve_diameter_mm: Option<f64>,
}

/// What a part without a number looks like.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Looks {
    /// The cavity size it fits.
    pub size: Option<String>,
    /// Male or female.
    pub gender: Option<Gender>,
    /// Conductor sizes, in both systems.
    pub gauges: Vec<String>,
    /// Wire colours, codes and words.
    pub colours: Vec<String>,
    /// Insulation diameters, in both systems.
    pub diameters: Vec<String>,
    /// The housing it goes into.
    pub fits: String,
    /// How that housing is sealed.
    pub sealing: String,
    /// Where on the machine.
    pub place: String,
}

impl fmt::Display for ReadFrom {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Definition(family) => write!(f, "definition of family {family}"),
            Self::Bench { .. } => f.write_str("the bench"),
        }
    }
}

impl Article {
    /// What kind of part it is.
    pub fn kind(&self) -> PartKind {
        match self {
            Self::Housing { .. } => PartKind::Housing,
            Self::SecondaryLock(_) => PartKind::SecondaryLock,
            Self::Assurance(_) => PartKind::Assurance,
            Self::SmallPart(_) | Self::Bridge { .. } => PartKind::SmallPart,
            Self::Plug { .. } => PartKind::Plug,
            Self::Terminal { .. } => PartKind::Terminal,
            Self::WireSeal { .. } => PartKind::WireSeal,
            Self::Lead(_) => PartKind::Lead,
            Self::Splice(_) => PartKind::Splice,
        }
    }
}

impl Wanted {
    /// A part by the number its family's definition has for it, else by its looks.
    pub fn of(
        article: Article,
        number: Option<PartNumber>,
        family: &FamilyId,
        looks: impl FnOnce() -> Looks,
    ) -> Self {
        match number {
            Some(number) => Self::Part { number, read_from: ReadFrom::Definition(family.clone()), article },
            None => Self::Described { article, looks: Some(looks()) },
        }
    }

    /// What kind of part it is.
    pub fn kind(&self) -> PartKind {
        match self {
            Self::Part { article, .. } | Self::Described { article, .. } => article.kind(),
            Self::Told(told) => told.kind,
        }
    }

    /// The part number, where it is known.
    pub fn number(&self) -> Option<&PartNumber> {
        match self {
            Self::Part { number, .. } => Some(number),
            Self::Described { .. } => None,
            Self::Told(told) => told.part.as_ref(),
        }
    }

    /// What it looks like, where it has no number.
    pub fn looks(&self) -> Option<&Looks> {
        match self {
            Self::Part { .. } => None,
            Self::Described { looks, .. } => looks.as_ref(),
            Self::Told(told) => told.looks.as_ref(),
        }
    }

    /// Where the part number was read, where it is known.
    pub fn read_from(&self) -> Option<String> {
        match self {
            Self::Part { read_from, .. } => Some(read_from.to_string()),
            Self::Described { .. } => None,
            Self::Told(told) => told.read_from.clone(),
        }
    }

    /// The repair lead it is, where it is one.
    pub fn lead(&self) -> Option<&LeadWanted> {
        match self {
            Self::Part { article: Article::Lead(lead), .. }
            | Self::Described { article: Article::Lead(lead), .. } => Some(lead),
            Self::Told(told) => told.lead.as_ref(),
            Self::Part { .. } | Self::Described { .. } => None,
        }
    }

    /// What is left to say once nothing asks for it any more: which part it was.
    pub(super) fn gone(mut self) -> Self {
        match &mut self {
            Self::Described { article: Article::Lead(lead), looks } => {
                lead.spec = None;
                *looks = None;
            }
            Self::Described { looks, .. } => *looks = None,
            Self::Part { .. } => {}
            Self::Told(told) => {
                told.looks = None;
                told.lead = None;
            }
        }
        self
    }
}
