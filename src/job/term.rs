//! The terms acts are made of: what is asked, what is answered, what is seen.

use std::{fmt, str::FromStr};

use crate::{
    colour::Colour,
    quantity::{TextProblem, Voltage, plain_text},
    record::Address,
    supply::{Line, RequestHead},
};

use super::{
    code::Code,
    item_id::{ItemId, Tag},
};

/// The random id of a ticket: what a job is known by for ever, whatever its file is called.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct TicketId(String);

impl TicketId {
    /// The id as text.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl FromStr for TicketId {
    type Err = TextProblem;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let text = plain_text("ticket id", text, 64)?;
        let is_plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
        match text.chars().all(is_plain) {
            true => Ok(Self(text)),
            false => Err(TextProblem::NotAllowed {
                what: "ticket id",
                shown: text,
                allowed: "small letters, digits and -",
            }),
        }
    }
}

impl fmt::Display for TicketId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.0)
    }
}

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
pub enum GateKind {
    /// Air bags, belt tensioners and the like.
    Restraint,
    /// More than 60 V DC or 30 V AC.
    HighVoltage,
    /// Loops and clips that tell a system it is closed; steering, brake, lifting, fire, life-saving.
    Interlock,
    /// Batteries and chargers, off and measured dead; a machine is never without.
    Battery,
    /// Charge, pressure, weight and springs that stay when the battery is off.
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
    /// The harness is off the machine, connected to nothing at any end: settles battery and stored
    /// energy until it lapses.
    OffMachine,
}

/// That there is no energy left: zero volts with the tester proved before and after, or the state of
/// what is not measured in volts.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Measured {
    /// The reading.
    pub volts: Option<Voltage>,
    /// Between which two points.
    pub between: String,
    /// The tester was proved on a known source before and after.
    pub tester_proved: bool,
    /// The state of pressure, loads and springs, in words: `lowered on stands`.
    pub state: Option<String>,
}

/// A kind of stored energy.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum EnergyKind {
    /// Capacitors.
    Capacitors,
    /// A second battery, or a charger.
    SecondBattery,
    /// Hydraulic or pneumatic pressure.
    Fluid,
    /// Raised loads.
    Load,
    /// Springs under tension.
    Spring,
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
    /// Joined with another lead behind the housing: one new lead with one terminal for both.
    Join,
    /// Anything else, told in words.
    Other,
}

impl RepairKind {
    /// Whether a new length of wire with its terminal is put on.
    pub fn is_new_lead(self) -> bool {
        match self {
            Self::RepairLead | Self::Join => true,
            Self::Reform | Self::NewTerminal | Self::NewSeal | Self::Other => false,
        }
    }

    /// Whether another terminal is on the lead afterwards.
    pub fn renews_terminal(self) -> bool {
        self == Self::NewTerminal || self.is_new_lead()
    }
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
pub enum PlugSource {
    /// The one in the hand.
    Hand,
    /// One that was laid aside before.
    Tray,
    /// A new one; it belongs to the job from now on.
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
    Good,
    /// Cleaned, and sound now.
    Cleaned,
    /// Replaced by a sound one.
    Replaced,
    /// Looked at, with this to be said.
    Damaged(String),
    /// Not at this bench: what needs it waits.
    NotHere,
}

/// What came for a line of the request.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ArrivedVerdict {
    /// What was asked for.
    AsAsked,
    /// Another part.
    WrongPart,
    /// The part, and it cannot be used.
    Damaged,
    /// Another part that may do: a named person has to say so.
    Substitute,
}

/// A line of a request, as the job keeps it: what is waited for.
#[derive(Debug, Clone, PartialEq)]
pub struct RequestedLine {
    /// The line's number on the request.
    pub line: u32,
    /// How many the job needs.
    pub need: u32,
    /// The leads whose repair waits for it.
    pub leads: Vec<ItemId>,
    /// How long a repair lead was asked for.
    pub length_mm: Option<f64>,
    /// Everything the line asked for; none in a journal of version 1.
    pub asked: Option<Box<Line>>,
}

/// What a request said beside its lines.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct RequestSaid {
    /// Who asked, for which bench, by when.
    pub head: RequestHead,
    /// Why it was asked for.
    pub why: String,
    /// Numbers of photos.
    pub photos: Vec<String>,
}

/// What a note is about.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum About {
    /// The whole job.
    Job,
    /// One cavity or lead.
    At(Address),
}
