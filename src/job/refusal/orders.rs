//! What is said against what is ordered: lengths, loads, stretches, copper and class, and joining two leads.

use crate::{
    job::{Code, ItemId, RepairKind},
    quantity::{Gauge, Length},
    record::{Address, WireKind},
};

/// Why what was measured for an order cannot be.
#[derive(Debug, Clone, PartialEq)]
pub enum OrderBarrier {
    /// A sleeve or a lay so short.
    TooShort(Length),
    /// An end stripped so far, and the longest end a splice takes, in mm.
    Stripped(Length, f64),
    /// A wire that is thinner than its copper.
    ThinnerThanCopper {
        /// How thick the copper is, in mm.
        copper_mm: f64,
        /// The wire.
        diameter: Length,
    },
    /// A sleeve that does not go over the wire.
    SleeveTooNarrow {
        /// The sleeve.
        sleeve: Length,
        /// The wire.
        diameter: Length,
    },
    /// A lay no such wire is twisted with.
    Lay {
        /// The wire.
        diameter: Length,
        /// The lay.
        lay: Length,
    },
    /// A current the wire does not carry, in A.
    TooMuchCurrent(Gauge, f64),
    /// A load no circuit carries.
    NoSuchLoad,
    /// Splices beyond a branch, without a reason.
    BeyondWithoutReason,
    /// A stretch that ends before it starts.
    EndsBeforeStart(Length, Length),
}

/// A rule against an order. Leads are given by what they are called.
#[derive(Debug, Clone, PartialEq)]
pub enum OrderRule {
    /// Nothing is planned on a wire of this kind.
    Forbidden {
        /// The lead.
        lead: String,
        /// The kind of its wire.
        kind: WireKind,
        /// The repair.
        how: RepairKind,
    },
    /// There is less copper than in the lead.
    LessCopper {
        /// The wire ordered.
        new: Gauge,
        /// The lead.
        lead: String,
        /// Its copper, in mm².
        old_mm2: f64,
        /// By how much that changes, in percent.
        percent: f64,
    },
    /// The insulation is of a lower class than that of the lead.
    LowerClass(String),
    /// A lead is of a kind that is not cut and joined.
    NotJoined(String, WireKind),
    /// There is less copper than in both leads.
    LessThanBoth {
        /// The wire ordered.
        new: Gauge,
        /// The other lead.
        other: String,
        /// The lead.
        lead: String,
        /// The copper of both, in mm².
        both_mm2: f64,
        /// By how much that changes, in percent.
        percent: f64,
    },
}

impl OrderRule {
    /// Its code.
    pub fn code(&self) -> Code {
        match self {
            Self::Forbidden { .. } | Self::NotJoined(..) => Code::SpliceForbidden,
            Self::LessCopper { .. } | Self::LessThanBoth { .. } => Code::GaugeReduced,
            Self::LowerClass(_) => Code::ClassLowered,
        }
    }
}

/// Why a lead is not made new, or two are not joined. Leads are given by what they are called.
#[derive(Debug, Clone, PartialEq)]
pub enum JoinBarrier {
    /// The wire is found nowhere: only a new lead can be planned for it.
    OnlyNewLead(ItemId),
    /// The other lead is not named.
    WithWhich(String),
    /// One of them was not recorded.
    NotRecorded,
    /// Their cavities are not mapped to one.
    NotToOne(Address, Address),
    /// No document says that the lead and the other one are joined.
    NoDocument(String, String),
    /// The other lead is joined or to be joined already.
    JoinedAlready(String),
}
