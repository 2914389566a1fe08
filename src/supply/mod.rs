//! Parts that are asked for: kinds, lines, what a part without a number looks like, what a repair
//! lead has to be. Knows no job.

mod number;

pub use number::{RequestNumber, RequestNumberProblem};

use crate::catalogue::Gender;

/// What the bench says beside what the job knows.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct RequestHead {
    /// Who asks.
    pub asked_by: String,
    /// Which bench.
    pub bench: Option<String>,
    /// Where to deliver.
    pub deliver_to: Option<String>,
    /// By when, as YYYY-MM-DD.
    pub needed_by: Option<String>,
    /// How urgent, in words.
    pub urgency: Option<String>,
}

/// The kinds of part a desk knows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs)]
pub enum PartKind {
    Housing,
    SecondaryLock,
    Assurance,
    SmallPart,
    Plug,
    Terminal,
    WireSeal,
    Lead,
    Splice,
}

impl PartKind {
    /// Every kind.
    pub const ALL: [Self; 9] = [
        Self::Housing,
        Self::SecondaryLock,
        Self::Assurance,
        Self::SmallPart,
        Self::Plug,
        Self::Terminal,
        Self::WireSeal,
        Self::Lead,
        Self::Splice,
    ];

    /// The word for it.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::Housing => "housing",
            Self::SecondaryLock => "secondary lock",
            Self::Assurance => "connector position assurance",
            Self::SmallPart => "small part",
            Self::Plug => "plug",
            Self::Terminal => "terminal",
            Self::WireSeal => "wire seal",
            Self::Lead => "repair lead",
            Self::Splice => "splice",
        }
    }
}

/// What may be given instead of a part.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Substitute {
    /// Nothing.
    None,
    /// The bench is asked first.
    AskFirst,
}

impl Substitute {
    /// The words for it.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::None => "none",
            Self::AskFirst => "ask me first",
        }
    }
}

/// What a part without a number looks like.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Describe {
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

/// A line.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// Its number, never used again for another part.
    pub line: u32,
    /// What it is.
    pub kind: PartKind,
    /// Part number, when known.
    pub part: Option<String>,
    /// Where the number was read.
    pub read_from: Option<String>,
    /// In words.
    pub description: String,
    /// How it looks, when it has no number.
    pub describe: Option<Describe>,
    /// How many this repair needs.
    pub need: u32,
    /// How many beyond that.
    pub spare: u32,
    /// How many are in a pack, when it is sold in packs.
    pub pack: Option<u32>,
    /// For which cavities.
    pub for_cavities: Vec<String>,
    /// Whether the job stops without it.
    pub essential: bool,
    /// What may be given instead.
    pub substitute: Substitute,
    /// The part it comes with, when it does.
    pub supplied_with: Option<String>,
    /// What it has to be, when it is a repair lead.
    pub lead: Option<LeadSpec>,
}

/// What a repair lead has to be.
#[derive(Debug, Clone, PartialEq)]
#[allow(missing_docs)]
pub struct LeadSpec {
    /// Asked for.
    pub length_mm: Option<f64>,
    /// As reckoned, before it is rounded up.
    pub cut_mm: Option<f64>,
    pub tolerance: String,
    /// From where to where the length is measured.
    pub measured: String,
    /// In both systems.
    pub gauge: Option<String>,
    pub area_mm2: Option<f64>,
    /// How much less copper that is than before, and who lets it pass; none where it is not less.
    pub less_copper: Option<String>,
    pub strands: Option<String>,
    pub colour: Option<String>,
    pub colour_words: Option<String>,
    pub other_colour: Option<bool>,
    pub insulation: Option<String>,
    pub class: Option<String>,
    pub wall: Option<String>,
    pub outside_diameter_mm: Option<f64>,
    pub twisted_with: Option<String>,
    pub lay_mm: Option<f64>,
    pub hand: Option<String>,
    pub shielded: bool,
    pub terminal: Option<String>,
    /// The cavity and the housing it goes into.
    pub fits: String,
    pub seal: Option<String>,
    pub seal_fitted: bool,
    pub other_end: Option<String>,
    pub splice: Option<String>,
    /// The wires it joins.
    pub joins: String,
    pub sleeve_mm: Option<f64>,
    pub sleeve_diameter_mm: Option<f64>,
    pub splice_included: Option<bool>,
    /// At both ends.
    pub label: String,
    pub crimp_record: Option<bool>,
    pub circuit: String,
    /// Where the wire was recorded.
    pub cavity: String,
    /// What it does not state yet.
    pub missing: Vec<String>,
}

impl Line {
    /// Packs to take: need and spare added first, then rounded up.
    pub fn packs(&self) -> Option<u32> {
        self.pack.filter(|pack| *pack > 0).map(|pack| (self.need + self.spare).div_ceil(pack))
    }
}
