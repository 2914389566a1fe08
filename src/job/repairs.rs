//! What is said about repairs: the order of a lead, the record of a crimp, the splice as it was
//! made, and what lies behind a housing.

use crate::{
    catalogue::PartNumber,
    colour::Colour,
    quantity::{Gauge, Length},
    reckoning::{LeadLength, LookFault, PositionKey, Standing},
    record::InsulationClass,
};

use super::term::RepairKind;

/// Thickness of the insulation: it decides the outside diameter, and so the seal.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wall {
    /// As ordinary wires have it; the largest outside diameter.
    Thick,
    /// Thinner insulation: another seal for the same copper.
    Thin,
    /// The thinnest there is.
    UltraThin,
}

impl Wall {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Thick => "thick wall",
            Self::Thin => "thin wall",
            Self::UltraThin => "ultra-thin wall",
        }
    }
}

/// The way a pair is twisted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lay {
    /// Against the clock, going away along the wire.
    Left,
    /// With the clock, going away along the wire.
    Right,
}

/// How a member of a pair is twisted.
#[derive(Debug, Clone, PartialEq)]
pub struct TwistAsked {
    /// Length of one full turn.
    pub lay: Length,
    /// Which way.
    pub hand: Lay,
}

/// The end of a lead that is spliced.
#[derive(Debug, Clone, PartialEq)]
pub enum OtherEnd {
    /// Stripped to this length.
    Stripped(Length),
    /// Cut square.
    CutSquare,
    /// Its splice fitted.
    SpliceFitted,
}

/// What the circuit carries, for the drop.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Load {
    /// The current.
    pub current_a: f64,
    /// The supply.
    pub supply_v: f64,
    /// Length of the whole circuit, there and back, with the lead in it.
    pub circuit_mm: f64,
    /// Temperature of the conductor.
    pub conductor_c: f64,
    /// Whether the circuit must not fail.
    pub critical: bool,
}

/// What a repair lead has to be. What is left out stays as it is on the wire it stands in for, where
/// that is on record; what is known nowhere is missing from the order.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct LeadOrder {
    /// Conductor size, held against all the copper it stands in for.
    pub gauge: Option<Gauge>,
    /// Colour of the new wire, base and stripes.
    pub colour: Option<Colour>,
    /// Whether another colour will do, with a label at both ends.
    pub other_colour: Option<bool>,
    /// Conductor and strands, in words.
    pub strands: Option<String>,
    /// Kind of insulation, in words.
    pub insulation: Option<String>,
    /// Temperature class of its insulation; never below that of the old wire.
    pub insulation_class: Option<InsulationClass>,
    /// How thick its insulation is; no record has this, so it is always asked.
    pub wall: Option<Wall>,
    /// Diameter over its insulation, which decides the seal.
    pub outside_diameter: Option<Length>,
    /// How it is twisted with its partner; asked only of a wire of a pair.
    pub twist: Option<TwistAsked>,
    /// How far behind the housing the damage reaches, where the record does not say.
    pub damage: Option<Length>,
    /// Wire inside the housing, rear face to crimp.
    pub inside: Option<Length>,
    /// Slack for one more terminal.
    pub slack: Option<Length>,
    /// What the way is longer with the new housing.
    pub route: Option<Length>,
    /// Length of the splice's sleeve.
    pub sleeve: Option<Length>,
    /// Diameter over the sleeve in its place; more than that of the wire.
    pub sleeve_diameter: Option<Length>,
    /// What the sleeve's far end may not pass.
    pub last: Option<Length>,
    /// The splice and its sleeve, in words.
    pub splice: Option<String>,
    /// Whether they come with the lead.
    pub splice_included: Option<bool>,
    /// How the end without terminal comes.
    pub other_end: Option<OtherEnd>,
    /// The text of the label at both ends; else circuit and cavity.
    pub label: Option<String>,
    /// Whether the crimp's record is to come with it.
    pub crimp_record: Option<bool>,
    /// The wire is spliced already between here and the next branch.
    pub spliced_before: bool,
    /// What its circuit carries; absent, the voltage drop is not reckoned.
    pub load: Option<Load>,
}

/// How the sample of a crimp was pulled.
#[derive(Debug, Clone, PartialEq)]
pub struct SamplePull {
    /// The force at which it came off.
    pub force_n: f64,
    /// Where it broke, in words.
    pub broke_at: String,
}

/// Whether a crimp stays.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CrimpVerdict {
    /// It goes into the machine.
    Accepted,
    /// Cut off and made again.
    Redo,
}

/// Stripped this much off its sheet, a wire has insulation in its crimp or bare copper behind it
/// (common practice, no source).
pub const STRIP_OFF_MM: f64 = 1.0;

/// The record of one crimp.
#[derive(Debug, Clone, PartialEq)]
pub struct Crimp {
    /// The wire crimped; else the lead's own.
    pub wire: Option<Gauge>,
    /// The terminal's lot.
    pub lot: Option<String>,
    /// The tool with its serial number.
    pub tool: Option<String>,
    /// Its position or nest.
    pub position: Option<String>,
    /// How much wire was cut off beyond the old terminal, back to bright copper.
    pub cut_back: Option<Length>,
    /// Length stripped.
    pub strip: Option<Length>,
    /// Conductor crimp height.
    pub height: Option<Length>,
    /// Conductor crimp width, where the sheet gives one.
    pub width: Option<Length>,
    /// What the eye found wrong; empty when nothing.
    pub look: Vec<LookFault>,
    /// The pull of a sample made with it; the crimp itself is never pulled off.
    pub sample_pull: Option<SamplePull>,
    /// Whether it stays.
    pub verdict: CrimpVerdict,
    /// What the tool book said that day; the road fills it in where it is not said.
    pub book: Option<Standing>,
}

impl Crimp {
    /// What the tool book is asked for.
    pub fn key(&self, terminal: &PartNumber, wire: &Gauge) -> Option<PositionKey> {
        Some(PositionKey {
            tool: self.tool.clone()?,
            position: self.position.clone()?,
            terminal: terminal.clone(),
            wire: wire.clone(),
        })
    }
}

/// A splice as it was made.
#[derive(Debug, Clone, PartialEq)]
pub struct Splice {
    /// From the rear face to where its sleeve starts.
    pub start: Length,
    /// Length of the sleeve.
    pub sleeve: Length,
    /// Copper seen in the window at both sides, adhesive out at both ends, tugged.
    pub sound: bool,
    /// The wire seal ended up behind the splice, away from its terminal.
    pub seal_behind: bool,
    /// Untwisted length of a pair at the splice.
    pub untwisted: Option<Length>,
    /// Why it was soldered, when it was.
    pub solder: Option<String>,
}

/// What lies behind a housing along its bundle, from the rear face.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Behind {
    /// Where the bundle branches.
    pub branches: Vec<Length>,
    /// Clamps, grommets, bends, hot places: where no splice may lie.
    pub keep_out: Vec<(Length, Length)>,
    /// Splices already there.
    pub splices: Vec<(Length, Length)>,
    /// As far as splices may go.
    pub last: Option<Length>,
    /// Why splices may lie beyond the first branch, when they may.
    pub beyond: Option<String>,
}

/// A repair that was done.
#[derive(Debug, Clone, PartialEq)]
pub struct RepairDone {
    /// Its place in the journal, from 0.
    pub n: usize,
    /// Which.
    pub kind: RepairKind,
    /// The part used.
    pub part: Option<PartNumber>,
    /// The crimp, where one was made.
    pub crimp: Option<Crimp>,
    /// The wire that was crimped, as far as it was known then: what the tool book was asked about.
    pub crimped_on: Option<Gauge>,
    /// How many wires were in the terminal then.
    pub wires: usize,
    /// The splice, where one was made.
    pub splice: Option<Splice>,
    /// How far the damage reached that it mends.
    pub damage_mm: f64,
    /// Who let it pass against a rule, when somebody did.
    pub deviation_by: Option<String>,
    /// The repair lead, as it was ordered and as long as it was then to be.
    pub made: Option<MadeLead>,
}

/// A repair lead that was made: what is planned later does not change it.
#[derive(Debug, Clone, PartialEq)]
pub struct MadeLead {
    /// As ordered.
    pub order: LeadOrder,
    /// How long.
    pub length: MadeLength,
}

/// How long a lead was made.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct MadeLength {
    /// As long as its plan had it.
    pub planned: Option<LeadLength>,
    /// As long as the desk was asked for, where it was.
    pub asked_mm: Option<f64>,
}

impl RepairDone {
    /// Whether it counts: a crimp cut off again uses up wire and nothing else.
    pub fn stands(&self) -> bool {
        self.crimp.as_ref().is_none_or(|crimp| crimp.verdict == CrimpVerdict::Accepted)
    }
}

impl RepairKind {
    /// The repair in words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Reform => "its tang re-formed",
            Self::NewTerminal => "a new terminal",
            Self::NewSeal => "a new seal",
            Self::RepairLead => "a repair lead",
            Self::Join => "joined with another lead",
            Self::Other => "another repair",
        }
    }
}
