//! What flags are about, as data: a file a topic. Sentences are made of it in `report/flags`.

mod closing;
mod housings;
mod items;
mod leads;
mod readings;
mod records;
mod repairs;
mod start;

pub use closing::{ClosingCause, LeftToDo};
pub use housings::HousingCause;
pub use items::{OtherCause, PlugCause};
pub use leads::LeadCause;
pub use readings::ReadingCause;
pub use records::{DecidedCause, RecordCause, WireMissing};
pub use repairs::{BundleCause, CrimpCause, NoPlan, OrderCause, SpliceCause};
pub use start::{FitCause, StartCause};

use jiff::civil::Date;

use crate::{
    catalogue::PartNumber,
    job::{Code, Objection},
};

/// What a flag is about.
#[derive(Debug, Clone, PartialEq)]
pub enum FlagCause {
    /// Gates, how housings are held, and interruptions: what comes before any move.
    Start(StartCause),
    /// The records.
    Record(RecordCause),
    /// What a decision for the diagram asks for.
    Decided(DecidedCause),
    /// Whether the new side can take what comes.
    Fit(FitCause),
    /// A lead.
    Lead {
        /// What it is called.
        lead: String,
        /// What is with it.
        what: LeadCause,
    },
    /// What stands against a lead, as the rules say it.
    Objection(Objection),
    /// The crimp on a lead.
    Crimp {
        /// What the lead is called.
        lead: String,
        /// What is with it.
        what: CrimpCause,
    },
    /// The splice of a lead.
    Splice {
        /// What the lead is called.
        lead: String,
        /// What is with it.
        what: SpliceCause,
    },
    /// What is planned or ordered for a lead.
    Order {
        /// What the lead is called.
        lead: String,
        /// What is with it.
        what: OrderCause,
    },
    /// The splices of one bundle together.
    Bundle(BundleCause),
    /// A plug.
    Plug(PlugCause),
    /// A spare terminal, bridge, shunt, diode or clip.
    Other(OtherCause),
    /// A housing, its lock, its seals, or the mating half.
    Housing(HousingCause),
    /// What was looked at, counted, read back or tested and did not agree.
    Reading(ReadingCause),
    /// What stands between a connector with everything in it and its signature.
    Closing(ClosingCause),
    /// A part came in place of the one asked for.
    Substitute {
        /// The part, where it was said.
        part: Option<PartNumber>,
        /// The line it came for.
        line: u32,
    },
    /// A named person went past a rule.
    Passed {
        /// The rule.
        code: Code,
        /// Who.
        by: String,
        /// Why.
        reason: String,
    },
    /// Another flag was accepted as a temporary measure.
    Temporary {
        /// Until when.
        due: Date,
        /// Why.
        reason: String,
    },
    /// What ordinary steps will still do.
    NotFinished(LeftToDo),
}

impl FlagCause {
    /// The code of a flag about it.
    pub fn code(&self) -> Code {
        match self {
            Self::Start(cause) => cause.code(),
            Self::Record(cause) => cause.code(),
            Self::Decided(cause) => cause.code(),
            Self::Fit(cause) => cause.code(),
            Self::Lead { what, .. } => what.code(),
            Self::Objection(objection) => objection.code(),
            Self::Crimp { what, .. } => what.code(),
            Self::Splice { what, .. } => what.code(),
            Self::Order { what, .. } => what.code(),
            Self::Bundle(cause) => cause.code(),
            Self::Plug(cause) => cause.code(),
            Self::Other(cause) => cause.code(),
            Self::Housing(cause) => cause.code(),
            Self::Reading(cause) => cause.code(),
            Self::Closing(cause) => cause.code(),
            Self::Substitute { .. } => Code::Substitute,
            Self::Passed { code, .. } => *code,
            Self::Temporary { .. } => Code::TemporaryMeasure,
            Self::NotFinished(_) => Code::NotFinished,
        }
    }
}
