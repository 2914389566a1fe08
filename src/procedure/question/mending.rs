//! What is asked about repairs: parts, crimps, joints, leads that are ordered, tools.

use crate::{
    catalogue::PartNumber,
    job::{ItemId, LeadOrder, RepairKind, Splice},
    quantity::{Gauge, Length},
    record::HousingName,
};

/// What is asked about a repair.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum RepairQuestion {
    /// Every move left waits for a part: is one taken up, or did one come?
    Waiting,
    /// Which tag is taken up?
    TakeUpTag,
    /// What is on the tag of what is parked?
    ParkTag,
    /// Why is it parked?
    ParkWhy,
    /// Is the repair of this lead done?
    Done {
        /// The lead.
        lead: ItemId,
        /// The repair.
        kind: RepairKind,
    },
    /// What was done?
    WhatWasDone,
    /// Which part is the new one?
    Part {
        /// The lead.
        lead: ItemId,
        /// The repair.
        kind: RepairKind,
    },
}

/// A question about a crimp, and the lead it is on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CrimpOf {
    /// The lead.
    pub lead: ItemId,
    /// What is asked.
    pub what: CrimpQuestion,
}

/// What is asked about one crimp of a lead.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum CrimpQuestion {
    /// How much wire went with the old terminal?
    CutBack,
    /// Which tool and position, for which terminal?
    Tool(Option<PartNumber>),
    /// How long is it stripped?
    Strip(Option<PartNumber>),
    /// How high is the conductor crimp?
    Height(Option<PartNumber>),
    /// Does it look as it should?
    Look,
    /// What does not?
    Faults,
    /// What did the sample show?
    Sample,
    /// Does it stay when it is tugged?
    Tug,
}

/// What is asked about one joint.
#[derive(Debug, Clone, PartialEq)]
pub struct SpliceQuestion {
    /// The lead.
    pub lead: ItemId,
    /// What of its joint.
    pub step: SpliceStep,
}

/// A step of a joint.
#[derive(Debug, Clone, PartialEq)]
pub enum SpliceStep {
    /// Is it the lead that was ordered?
    RightLead,
    /// Where does the sleeve start; as planned?
    Mark(Option<Length>),
    /// How long is the sleeve; as ordered?
    SleeveLength(Option<Length>),
    /// Is the sleeve on the wire, for this joint?
    SleeveOn(Box<Splice>),
    /// How much of the pair is left untwisted?
    Untwisted,
    /// Is the joint sound?
    Sound {
        /// Whether the steps of joining were said with the question before.
        is_joined: bool,
    },
}

/// What is asked about a lead that is ordered.
#[derive(Debug, Clone, PartialEq)]
pub enum OrderQuestion {
    /// For which old cavity, or which wire?
    Which,
    /// What of this lead, which is ordered so far as this?
    Field {
        /// The lead.
        lead: ItemId,
        /// What of it.
        field: OrderField,
        /// What was said already.
        so_far: Box<LeadOrder>,
    },
}

/// What is asked of the order.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OrderField {
    /// The size of the wire.
    Size,
    /// Its colour.
    Colour,
    /// Whether another colour will do.
    OtherColour,
    /// Conductor, insulation, class, wall, outside diameter.
    Insulation,
    /// How far the damage reaches.
    Damage,
    /// Inside the housing, slack, longer way.
    Lengths,
    /// Length and diameter of the sleeve.
    Sleeve,
    /// Which splice and sleeve.
    Splice,
    /// Whether they come with the lead.
    Included,
    /// The lay of the twist.
    Twist,
    /// The other end.
    OtherEnd,
    /// Whether the record of its crimp comes with it.
    CrimpRecord,
    /// Whether the wire is spliced already.
    Spliced,
    /// What the circuit carries.
    Load,
}

/// What is asked about the bundle behind a housing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum BehindQuestion {
    /// Behind which old housing?
    Which,
    /// Where does the bundle branch?
    Branches(HousingName),
    /// Where may no splice lie?
    KeepOut(HousingName),
    /// Which splices are there already?
    Splices(HousingName),
    /// How far may splices go?
    Last(HousingName),
    /// May splices lie beyond a branch, and why?
    Beyond(HousingName),
}

/// What is asked about a tool.
#[derive(Debug, Clone, PartialEq)]
pub enum ToolQuestion {
    /// Which tool and position is proved?
    Which,
    /// On which terminal?
    Terminal,
    /// On which wire?
    Wire,
    /// The heights of the samples.
    Heights {
        /// The terminal.
        terminal: PartNumber,
        /// The wire.
        wire: Gauge,
    },
    /// The forces at which they came off this wire.
    Pulls(Gauge),
    /// How long is it good?
    Until,
    /// Which tool is withdrawn?
    Withdraw,
    /// Why is this one?
    WithdrawWhy(String),
}
