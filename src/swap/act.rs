//! The acts of a job. An act is what somebody did or saw at the bench; it is checked, appended to
//! disk and applied, and never changed afterwards.

use crate::{
    catalogue::{Definition, LockState, PartNumber},
    colour::Colour,
    face::{Face, PosePlace},
    house::{HouseRules, TestKind},
    quantity::{Length, Voltage},
    record::{Address, Holds, HousingName, Seal},
};

use super::{
    code::Code,
    item::{ItemId, Tag, WireId},
};

/// Which of the two records of the old side.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum RecordSide {
    /// What is physically there.
    Found,
    /// What belongs there.
    Should,
}

/// Which side of the swap a housing is on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum JobSide {
    /// A damaged housing.
    Old,
    /// A replacement.
    New,
}

/// The named person who goes on although a rule says no, and why. The road adds the codes of the
/// rules before the entry is kept.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Anyway {
    /// Who.
    pub by: String,
    /// Why.
    pub reason: String,
    /// The rules that said no.
    pub codes: Vec<Code>,
}

/// How a record that was keyed from the wrong point of view is put right.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Flip {
    /// It was read from the other face.
    Mirror,
    /// It was read upside down.
    Turn,
    /// Both.
    Both,
}

/// A safety question that stops the job.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs)]
pub enum GateKind {
    Restraint,
    HighVoltage,
    Interlock,
    Battery,
    StoredEnergy,
}

/// The answer to a gate.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GateAnswer {
    /// There is no such circuit here, by the document named.
    Absent,
    /// There is, and a named person released the work under the document named.
    Released,
    /// Stop.
    Stop,
    /// Not known: stops.
    DontKnow,
}

/// Zero volts measured, with the tester proved before and after.
#[derive(Debug, Clone, PartialEq)]
pub struct Measured {
    /// The reading.
    pub volts: Voltage,
    /// Between which two points.
    pub between: String,
    /// The tester was proved on a known source before and after.
    pub tester_proved: bool,
}

/// What is compared with the mating half in the hand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Question {
    /// The key code.
    Key,
    /// The side of the latch.
    Latch,
    /// Male or female.
    Gender,
    /// A shorting clip or bridge inside.
    Clip,
}

/// What the comparison found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fit {
    /// The new housing agrees with the old one and the mating half.
    Fits,
    /// It does not.
    Differs,
    /// Not known.
    DontKnow,
}

/// Where a map came from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MapSource {
    /// Same labels on both sides.
    SameLabels,
    /// Published, or the shop's own.
    Shop,
    /// By position.
    Position,
    /// By hand.
    Hand,
}

/// What a repair is, or what an inspection asks for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum RepairKind {
    /// The tang bent back to its height.
    Reform,
    /// A new terminal (with a new seal where it carries one).
    NewTerminal,
    /// A new seal.
    NewSeal,
    /// A new length of wire with its terminal.
    RepairLead,
    /// Anything else, told in words.
    Other,
}

/// What was seen of a lead in the hand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Inspected {
    /// Sound.
    Good,
    /// In need of this repair.
    Needs(RepairKind),
}

/// Where a plug that goes in comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum PlugSource {
    Hand,
    Tray,
    Stock,
}

/// Where a thing is seen, when it is not where the record has it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SeenAt {
    /// In a cavity.
    In(Address),
    /// In the hand.
    Hand,
    /// Tagged and set aside (leads and others), or in the tray (plugs).
    Parked(Tag),
    /// Nowhere to be seen.
    Unseen,
}

/// What a hole was seen to hold at a re-read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ReadBack {
    /// A wire of this colour.
    Wire(Colour),
    /// A plug.
    Plug,
    /// Nothing.
    Nothing,
}

/// A colour, `plug` or `nothing`.
impl std::fmt::Display for ReadBack {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Wire(colour) => colour.fmt(f),
            Self::Plug => f.write_str("plug"),
            Self::Nothing => f.write_str("nothing"),
        }
    }
}

impl std::str::FromStr for ReadBack {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        match text.trim().to_ascii_lowercase().as_str() {
            "plug" => Ok(Self::Plug),
            "nothing" => Ok(Self::Nothing),
            colour => colour.parse().map(Self::Wire).map_err(|why| format!("{why}; or key plug, or nothing")),
        }
    }
}

/// The state of the mating half.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum MatingVerdict {
    /// Looked at and sound.
    Sound,
    /// Looked at, with this to be said.
    Damaged(String),
}

/// A line of a request, as the job keeps it: what is waited for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RequestedLine {
    /// The line's number on the request.
    pub line: u32,
    /// How many the job needs.
    pub need: u32,
    /// The leads whose repair waits for it.
    pub leads: Vec<ItemId>,
}

/// What a note is about.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum About {
    /// The whole job.
    Job,
    /// One cavity or lead.
    At(Address),
}

/// An act.
#[derive(Debug, Clone, PartialEq)]
#[allow(missing_docs)]
pub enum Act {
    // The world the job carries.
    Ticket {
        asset: String,
        serial: String,
        connector: String,
        reason: String,
        seed: u64,
    },
    Housed {
        name: HousingName,
        side: JobSide,
        definition: Box<Definition>,
    },
    Rules {
        rules: Box<HouseRules>,
    },
    // Records and decisions.
    Recorded {
        side: RecordSide,
        at: Address,
        holds: Holds,
        from: Option<(String, u32)>,
    },
    RecordFinished {
        side: RecordSide,
    },
    RecordCorrected {
        at: Address,
        holds: Holds,
        reason: String,
    },
    RecordFlipped {
        housing: Option<HousingName>,
        how: Flip,
        reason: String,
    },
    Decided {
        at: Address,
        wins: RecordSide,
        reason: String,
    },
    Compared {
        question: Question,
        answer: Fit,
        mating_half: bool,
    },
    Mapped {
        from: Address,
        to: Option<Address>,
        document: Option<String>,
    },
    MapConfirmed {
        source: MapSource,
    },
    Cause {
        text: String,
    },
    Photo {
        number: String,
        shows: String,
    },
    // Safety and point of view.
    Gate {
        gate: GateKind,
        answer: GateAnswer,
        document: Option<String>,
        name: Option<String>,
        circuit: Option<String>,
        voltage: Option<Voltage>,
        sleeve: Option<String>,
        measured: Option<Measured>,
    },
    View {
        housing: HousingName,
        face: Face,
        up: String,
    },
    Anchor {
        housing: HousingName,
        place: PosePlace,
        colour: Option<Colour>,
        mark: String,
    },
    // Parts of the housings.
    Lock {
        housing: HousingName,
        to: LockState,
        finger: bool,
        why: Option<String>,
        anyway: Option<Anyway>,
    },
    Assurance {
        housing: HousingName,
        on: bool,
        anyway: Option<Anyway>,
    },
    SmallPart {
        housing: HousingName,
        part: String,
        on: bool,
    },
    MatingHalf {
        verdict: MatingVerdict,
    },
    // Leads.
    Tagged {
        lead: ItemId,
        tag: Tag,
    },
    Extract {
        from: Address,
        colour: Option<Colour>,
        freely: bool,
        seal: Seal,
        anyway: Option<Anyway>,
    },
    CutFree {
        from: Address,
        distance: Length,
        terminal_stayed: bool,
        circuit: Option<String>,
        anyway: Option<Anyway>,
    },
    Loose {
        leads: Vec<(Address, Tag)>,
    },
    Inspect {
        verdict: Inspected,
    },
    Insert {
        into: Address,
        click: bool,
        anyway: Option<Anyway>,
    },
    Tug {
        at: Address,
        held: bool,
    },
    PutBack,
    Park {
        tag: Tag,
        reason: String,
    },
    TakeUp {
        tag: Tag,
    },
    // Plugs and other contents.
    TakePlug {
        from: Address,
        anyway: Option<Anyway>,
    },
    FitPlug {
        into: Address,
        source: PlugSource,
        part: Option<PartNumber>,
        spare: Option<PartNumber>,
        anyway: Option<Anyway>,
    },
    LosePlug,
    ScrapPlug {
        reason: String,
    },
    ReturnPlug,
    LeftInOld {
        at: Address,
        reason: String,
    },
    MoveOther {
        from: Address,
        to: Address,
        anyway: Option<Anyway>,
    },
    // Repairs in their plain form.
    Planned {
        lead: ItemId,
        how: RepairKind,
        reason: String,
        part: Option<PartNumber>,
    },
    Repair {
        lead: ItemId,
        how: RepairKind,
        done: String,
        part: Option<PartNumber>,
        anyway: Option<Anyway>,
    },
    Removed {
        wire: WireId,
        document: String,
    },
    // What is so.
    Seen {
        item: ItemId,
        at: SeenAt,
        reason: String,
    },
    WrongKey,
    ReRead {
        at: Address,
        colour: ReadBack,
    },
    RowCounted {
        housing: HousingName,
        row: usize,
        wires: usize,
        plugs: usize,
        open: usize,
    },
    LookedOver {
        housing: HousingName,
        face: Face,
        cavities: Vec<crate::face::Label>,
        sound: bool,
    },
    Measure {
        circuit: Option<String>,
        test: TestKind,
        value: String,
        passed: bool,
    },
    // Parts, people, end.
    Requested {
        number: String,
        revision: u32,
        lines: Vec<RequestedLine>,
    },
    Arrived {
        line: u32,
        count: u32,
    },
    Accept {
        flag: Code,
        at: Option<Address>,
        by: Option<String>,
        reason: String,
        due: Option<String>,
    },
    Note {
        text: String,
        about: About,
    },
    HandOver {
        to: String,
    },
    Resume {
        power_off: bool,
        tags_read: bool,
    },
    Mate {
        level: bool,
        anyway: Option<Anyway>,
    },
    Sign {
        name: String,
        serial_end: String,
    },
    Stop {
        why: String,
    },
}

impl Act {
    /// Who goes on anyway, when the act says so.
    pub fn anyway(&self) -> Option<&Anyway> {
        match self {
            Self::Lock { anyway, .. }
            | Self::Assurance { anyway, .. }
            | Self::Extract { anyway, .. }
            | Self::CutFree { anyway, .. }
            | Self::Insert { anyway, .. }
            | Self::TakePlug { anyway, .. }
            | Self::FitPlug { anyway, .. }
            | Self::MoveOther { anyway, .. }
            | Self::Repair { anyway, .. }
            | Self::Mate { anyway, .. } => anyway.as_ref(),
            _ => None,
        }
    }

    /// The place for `anyway`, on the acts a named person may insist on.
    pub fn anyway_mut(&mut self) -> Option<&mut Option<Anyway>> {
        match self {
            Self::Lock { anyway, .. }
            | Self::Assurance { anyway, .. }
            | Self::Extract { anyway, .. }
            | Self::CutFree { anyway, .. }
            | Self::Insert { anyway, .. }
            | Self::TakePlug { anyway, .. }
            | Self::FitPlug { anyway, .. }
            | Self::MoveOther { anyway, .. }
            | Self::Repair { anyway, .. }
            | Self::Mate { anyway, .. } => Some(anyway),
            _ => None,
        }
    }

    /// The act's name, as journals spell it.
    pub fn name(&self) -> String {
        let text = format!("{self:?}");
        text.split(|c: char| !c.is_ascii_alphanumeric()).next().unwrap_or_default().to_owned()
    }

    /// The cavity the act is about, when it is about one.
    pub fn address(&self) -> Option<&Address> {
        match self {
            Self::Recorded { at, .. }
            | Self::RecordCorrected { at, .. }
            | Self::Decided { at, .. }
            | Self::Tug { at, .. }
            | Self::LeftInOld { at, .. }
            | Self::ReRead { at, .. } => Some(at),
            Self::Extract { from, .. }
            | Self::CutFree { from, .. }
            | Self::TakePlug { from, .. }
            | Self::MoveOther { from, .. }
            | Self::Mapped { from, .. } => Some(from),
            Self::Insert { into, .. } | Self::FitPlug { into, .. } => Some(into),
            _ => None,
        }
    }

    /// Whether the act changes anything at the bench. Such an act takes a signature back.
    pub fn is_physical(&self) -> bool {
        matches!(
            self,
            Self::Lock { .. }
                | Self::Assurance { .. }
                | Self::SmallPart { .. }
                | Self::Extract { .. }
                | Self::CutFree { .. }
                | Self::Loose { .. }
                | Self::Insert { .. }
                | Self::Tug { .. }
                | Self::PutBack
                | Self::Park { .. }
                | Self::TakeUp { .. }
                | Self::TakePlug { .. }
                | Self::FitPlug { .. }
                | Self::LosePlug
                | Self::ScrapPlug { .. }
                | Self::ReturnPlug
                | Self::MoveOther { .. }
                | Self::Repair { .. }
                | Self::Removed { .. }
                | Self::Seen { .. }
                | Self::Mate { .. }
        )
    }
}
