//! What one cavity holds. "Nothing there" is not an answer: a hole is open, empty or blocked, and
//! these are three different things.

use std::fmt;

use crate::{
    catalogue::PartNumber,
    colour::Colour,
    quantity::{Gauge, Length, plain_words},
};

/// One of the seven things a cavity can hold.
#[derive(Debug, Clone, PartialEq)]
pub enum CavityContent {
    /// A lead: a terminal with one wire or several.
    Wired(LeadSeen),
    /// A blanking plug.
    Plugged,
    /// Nothing, and something belongs here.
    Open,
    /// Nothing, and nothing belongs here.
    Empty,
    /// Moulded shut.
    Blocked,
    /// A terminal without wire.
    Spare(SpareSeen),
    /// A shunt, diode or shorting clip, in words.
    Bridge(String),
}

impl CavityContent {
    /// The word for the kind of content.
    pub fn word(&self) -> &'static str {
        match self {
            Self::Wired(_) => "wired",
            Self::Plugged => "plugged",
            Self::Open => "open",
            Self::Empty => "empty",
            Self::Blocked => "blocked",
            Self::Spare(_) => "spare",
            Self::Bridge(_) => "bridge",
        }
    }

    /// Whether both are the same kind of content; of bridges, shunts, diodes and clips also which.
    pub fn is_like(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Bridge(one), Self::Bridge(other)) => plain_words(one) == plain_words(other),
            _ => self.word() == other.word(),
        }
    }

    /// What it holds, in words.
    pub fn in_words(&self) -> String {
        match self {
            Self::Bridge(what) => format!("bridge ({what})"),
            _ => self.word().to_owned(),
        }
    }

    /// The lead, if a lead is what it holds.
    pub fn lead(&self) -> Option<&LeadSeen> {
        match self {
            Self::Wired(lead) => Some(lead),
            _ => None,
        }
    }
}

/// A value that is told, or said to be unknown. "?" is allowed and is a flag, never a guess.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Known<T> {
    /// Keyed as "?".
    Unknown,
    /// Told.
    Is(T),
}

impl<T> Known<T> {
    /// The value, if it was told.
    pub fn known(&self) -> Option<&T> {
        match self {
            Self::Unknown => None,
            Self::Is(value) => Some(value),
        }
    }
}

impl<T: fmt::Display> fmt::Display for Known<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unknown => f.write_str("?"),
            Self::Is(value) => value.fmt(f),
        }
    }
}

/// Whether the seal is on the lead.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Seal {
    /// None belongs on it.
    None,
    /// On, as it should be.
    On,
    /// A new one was put on.
    Renewed,
    /// One belongs on it and is not there.
    Missing,
    /// Not looked at.
    Unknown,
}

/// One end that moves: a terminal and the conductors in it.
#[derive(Debug, Clone, PartialEq)]
pub struct LeadSeen {
    /// The conductors, at least one.
    pub wires: Vec<Wire>,
    /// The terminal's part number, when known.
    pub terminal: Option<PartNumber>,
    /// The seal.
    pub seal: Option<Seal>,
    /// What is wrong with it, in words: `green corrosion`.
    pub condition: Option<String>,
}

/// A terminal without wire.
#[derive(Debug, Clone, PartialEq)]
pub struct SpareSeen {
    /// The terminal's part number, when known.
    pub terminal: Option<PartNumber>,
    /// Whether a plug closes the hole behind it.
    pub plug_behind: bool,
}

/// What a wire is, where that changes what may be done with it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum WireKind {
    /// Nothing special.
    Ordinary,
    /// A wire made to burn through: never spliced.
    FusibleLink,
    /// Of an air bag or belt tensioner: never spliced; with one on record its gate cannot be absent.
    Restraint,
    /// Above 60 V DC or 30 V AC: never spliced; with one on record its gate cannot be absent.
    HighVoltage,
    /// One conductor inside another: never spliced.
    Coaxial,
    /// Of the metal that measures heat: never spliced, for copper in it would falsify it.
    Thermocouple,
    /// The bare wire of a shield.
    Drain,
    /// One of a twisted pair that carries data.
    BusPair,
    /// Tells a system that it is closed; with one on record its gate cannot be absent.
    Interlock,
}

impl WireKind {
    /// Whether no repair lead may be spliced into such a wire.
    pub fn forbids_splice(self) -> bool {
        matches!(
            self,
            Self::FusibleLink | Self::Restraint | Self::HighVoltage | Self::Coaxial | Self::Thermocouple
        )
    }

    /// The words for it.
    pub fn words(self) -> &'static str {
        match self {
            Self::Ordinary => "ordinary wire",
            Self::FusibleLink => "fusible link",
            Self::Restraint => "restraint wire",
            Self::HighVoltage => "high-voltage wire",
            Self::Coaxial => "coaxial wire",
            Self::Thermocouple => "thermocouple wire",
            Self::Drain => "drain wire",
            Self::BusPair => "wire of a bus pair",
            Self::Interlock => "interlock wire",
        }
    }
}

/// Temperature class of the insulation (from memory of the ISO 19642 series: A 85, B 100, C 125,
/// D 150, E 175, F 200 °C).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum InsulationClass {
    /// Up to 85 °C.
    A,
    /// Up to 100 °C.
    B,
    /// Up to 125 °C.
    C,
    /// Up to 150 °C.
    D,
    /// Up to 175 °C.
    E,
    /// Up to 200 °C.
    F,
}

/// One conductor.
#[derive(Debug, Clone, PartialEq)]
pub struct Wire {
    /// Wire number, as printed.
    pub number: Option<String>,
    /// Its signal on the diagram.
    pub circuit: Option<String>,
    /// Colour of the insulation and stripes.
    pub colour: Known<Colour>,
    /// Conductor size.
    pub gauge: Known<Gauge>,
    /// Outside diameter over the insulation.
    pub outside_diameter: Option<Known<Length>>,
    /// Temperature class of the insulation.
    pub insulation_class: Option<InsulationClass>,
    /// The cavity of the wire it is twisted with, on the same housing.
    pub twisted_with: Option<crate::face::Label>,
    /// How far it is untwisted behind the housing, where it is one of a pair.
    pub untwisted: Option<Length>,
    /// Whether it runs in a shield.
    pub shielded: bool,
    /// Distance of damage behind the housing.
    pub damage: Option<Length>,
    /// Wire that can be cut away before it is too short.
    pub slack: Option<Length>,
    /// What it is.
    pub kind: WireKind,
}

impl Wire {
    /// An ordinary wire of which only colour and gauge were said.
    pub fn new(colour: Known<Colour>, gauge: Known<Gauge>) -> Self {
        Self {
            number: None,
            circuit: None,
            colour,
            gauge,
            outside_diameter: None,
            insulation_class: None,
            twisted_with: None,
            untwisted: None,
            shielded: false,
            damage: None,
            slack: None,
            kind: WireKind::Ordinary,
        }
    }

    /// What the wire is called: its number, else its circuit.
    pub fn name(&self) -> Option<&str> {
        self.number.as_deref().or(self.circuit.as_deref())
    }
}
