//! What is asked before the first move: the record, photos, gates, views, anchors, the map.

use crate::{
    face::{Face, PosePlace},
    job::{EnergyKind, GateKind, ItemId, Question as Comparison, RecordSide, Refusal},
    reckoning::DamageCause,
    record::{Address, HousingName},
};

/// What is asked about a record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum RecordQuestion {
    /// Is the record finished?
    Finish,
    /// What is in this cavity, or by the diagram belongs in it?
    Content {
        /// The cavity.
        at: Address,
        /// As found, or by the diagram.
        side: RecordSide,
    },
    /// Which wires are in this cavity?
    Wires(Address),
    /// What bridges this cavity?
    Bridge(Address),
    /// Is there a plug behind the spare terminal?
    PlugBehind(Address),
}

/// What is asked about photos and the cause.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum IntakeQuestion {
    /// The number of the photo of both faces, as found.
    PhotoAsFound,
    /// The number of a photo.
    PhotoNumber,
    /// What does it show?
    PhotoShows,
    /// What broke the housing?
    Cause {
        /// Whether it may stay unknown.
        or_unknown: bool,
    },
    /// What is known of this cause?
    CauseKnown(Option<DamageCause>),
    /// Who answers for going on without it?
    WithoutBy,
    /// Why?
    WithoutWhy,
}

/// What is asked at a gate.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct GateQuestion {
    /// The gate.
    pub gate: GateKind,
    /// What of it.
    pub field: GateField,
}

/// What is asked of a gate.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum GateField {
    /// Is it absent, made safe, off the machine, or does it stop the job?
    Answer,
    /// What does the diagram say the circuits are?
    Circuit,
    /// The highest voltage the diagram shows.
    Voltage,
    /// The colours of sleeves and covers.
    Sleeve,
    /// The document it rests on.
    Document,
    /// Who answers for it.
    Name,
    /// Which kinds of stored energy are on the machine.
    Energy,
    /// What was measured.
    Reading,
    /// Between which points.
    Points,
    /// What was done about these kinds, which have no volts.
    State(Vec<EnergyKind>),
    /// Was the tester proved before and after?
    TesterProved,
}

/// What is asked before the first move.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SetupQuestion {
    /// Which face of this housing is towards the eye?
    Face(HousingName),
    /// Which side of it is up?
    Up {
        /// The housing.
        housing: HousingName,
        /// The face that was said.
        face: Face,
    },
    /// Does this of the new housing agree with the mating half?
    Compare(Comparison),
    /// Which is to be, as found or as drawn?
    Decide(Address),
    /// Why?
    DecideWhy(Address),
    /// Where can a new lead be joined for the wire that is missing?
    JoinedAt(Address),
    /// How are these cavities beside an open one?
    LookBeside(Vec<Address>),
    /// Which of them is not sound, and how?
    NotSound(Vec<Address>),
    /// What is on the tag of this lead?
    Tag(ItemId),
}

/// What is asked to prove a point of view.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum AnchorQuestion {
    /// Which colour goes in at this place?
    Colour {
        /// The housing.
        housing: HousingName,
        /// The place, in the pose of the view.
        place: PosePlace,
    },
    /// Which mark is moulded at this place?
    Mark {
        /// The housing.
        housing: HousingName,
        /// The place, in the pose of the view.
        place: PosePlace,
    },
    /// Which feature is on the upper side?
    Feature(HousingName),
    /// An anchor of this housing failed: what is done about it?
    Failed(HousingName),
}

/// What is asked about the map.
#[derive(Debug, Clone, PartialEq)]
pub enum MapQuestion {
    /// Which source does it come from?
    Confirm,
    /// Which old cavity is mapped?
    From,
    /// To which new cavity does it go?
    To(Address),
    /// Under which document, against what is said?
    Document(Vec<Refusal>),
}
