//! A family as it is described: plain text and numbers, nothing checked. Files hold it, and jobs carry
//! it whole, so that a job can be read without any library.

use super::family::{AccessFace, Gender, LockState, PrimaryLock, Seating, Source, Supplied};
use crate::face::{Along, Corner, Face, Path, RowStagger, Side};

/// A family.
#[derive(Debug, Clone, PartialEq)]
pub struct FamilyDraft {
    /// The family's id: a to z, 0 to 9 and -.
    pub id: String,
    /// What people call it.
    pub title: String,
    /// Where its figures come from.
    pub source: Source,
    /// The terminals.
    pub terminals: Vec<TerminalDraft>,
    /// The seals crimped on single wires.
    pub wire_seals: Vec<WireSealDraft>,
    /// The blanking plugs.
    pub plugs: Vec<PlugDraft>,
    /// The housings.
    pub housings: Vec<HousingDraft>,
}

/// A terminal.
#[derive(Debug, Clone, PartialEq)]
#[allow(missing_docs)]
pub struct TerminalDraft {
    pub part: String,
    pub size: String,
    pub gender: Gender,
    pub plating: String,
    pub wire_mm2: (f64, f64),
    pub insulation_mm: (f64, f64),
    pub strip_mm: Option<f64>,
    pub used_mm: Option<f64>,
    pub held_by: PrimaryLock,
    pub released_from: AccessFace,
    pub seating: Seating,
    pub crimps: Vec<CrimpDraft>,
}

/// A crimp height for one wire.
#[derive(Debug, Clone, PartialEq)]
#[allow(missing_docs)]
pub struct CrimpDraft {
    pub wire_mm2: f64,
    pub height_mm: f64,
    pub tolerance_mm: f64,
    pub origin: String,
}

/// A seal on one wire.
#[derive(Debug, Clone, PartialEq)]
#[allow(missing_docs)]
pub struct WireSealDraft {
    pub part: String,
    pub size: String,
    pub insulation_mm: (f64, f64),
    pub colour: String,
}

/// A blanking plug.
#[derive(Debug, Clone, PartialEq)]
#[allow(missing_docs)]
pub struct PlugDraft {
    pub part: String,
    pub size: String,
    pub colour: String,
    pub pack: Option<u32>,
}

/// How a housing keeps water out.
#[derive(Debug, Clone, PartialEq)]
#[allow(missing_docs)]
pub enum SealingDraft {
    Individual,
    Mat { hole_mm: (f64, f64) },
    Unsealed,
}

/// A housing.
#[derive(Debug, Clone, PartialEq)]
#[allow(missing_docs)]
pub struct HousingDraft {
    pub id: String,
    pub part: String,
    pub title: String,
    pub revision: Option<String>,
    pub gender: Gender,
    pub colour: Option<String>,
    pub key_code: Option<String>,
    pub sealing: SealingDraft,
    /// The face it is drawn from; the top of the drawing is up.
    pub drawn: Face,
    /// What tells the sides apart, and the side of the drawing it is on.
    pub features: Vec<(String, Side)>,
    pub layout: LayoutDraft,
    /// The size of every cavity not named in `sizes`.
    pub size: String,
    /// Other sizes. Wherever labels are listed, `"A3..A7"` stands for A3 to A7 as numbered.
    pub sizes: Vec<(String, Vec<String>)>,
    /// The side terminals point their tang to.
    pub tangs: Vec<(Side, Vec<String>)>,
    /// Cavities moulded shut.
    pub blocked: Vec<String>,
    /// Cavities delivered with a plug.
    pub plugged: Vec<String>,
    /// Bridges and shorting clips it is delivered with.
    pub bridges: Vec<BridgeDraft>,
    pub lock: Option<LockDraft>,
    pub assurance: Option<SmallPartDraft>,
    pub small_parts: Vec<SmallPartDraft>,
    /// Other numberings of the same cavities: a name, then moulded label to other label.
    pub also: Vec<(String, Vec<(String, String)>)>,
    /// Older housings this one replaces: their id, then old label to label here.
    pub replaces: Vec<(String, Vec<(String, String)>)>,
}

/// A bridge or clip between cavities.
#[derive(Debug, Clone, PartialEq, Eq)]
#[allow(missing_docs)]
pub struct BridgeDraft {
    pub name: String,
    pub part: Option<String>,
    pub at: Vec<String>,
}

/// A secondary lock.
#[derive(Debug, Clone, PartialEq, Eq)]
#[allow(missing_docs)]
pub struct LockDraft {
    pub part: Option<String>,
    pub kind: String,
    pub open: LockState,
    pub released_from: AccessFace,
    pub delivered: LockState,
    pub supplied: Supplied,
}

/// A small part of a housing.
#[derive(Debug, Clone, PartialEq, Eq)]
#[allow(missing_docs)]
pub struct SmallPartDraft {
    pub name: String,
    pub part: Option<String>,
    pub supplied: Supplied,
}

/// A layout with its numbering.
#[derive(Debug, Clone, PartialEq)]
#[allow(missing_docs)]
pub enum LayoutDraft {
    Grid {
        rows: usize,
        columns: usize,
        staggered: RowStagger,
        /// Row and column from 1, of places without a cavity.
        left_out: Vec<(usize, usize)>,
        /// Distance of columns and rows in mm.
        pitch_mm: Option<(f64, f64)>,
        numbering: NumberingDraft,
    },
    Ring {
        /// Clockwise from twelve o'clock in the drawing, in the order of the labels.
        angles_deg: Vec<f64>,
        radius_mm: Option<f64>,
        /// A cavity in the centre; it has the last label.
        centre: bool,
        numbering: RingNumberingDraft,
    },
    Points {
        /// Label, to the right, downwards.
        at: Vec<(String, f64, f64)>,
        in_mm: bool,
    },
    Groups {
        groups: Vec<GroupDraft>,
    },
}

/// A group of a housing.
#[derive(Debug, Clone, PartialEq)]
#[allow(missing_docs)]
pub struct GroupDraft {
    pub prefix: String,
    /// Where the group's first cavity (or centre) lies.
    pub at: (f64, f64),
    pub layout: LayoutDraft,
}

/// The numbering of a grid; left away, it counts 1, 2, 3 row by row from the top left.
#[derive(Debug, Clone, PartialEq, Eq)]
#[allow(missing_docs)]
pub struct NumberingDraft {
    pub start: Corner,
    pub along: Along,
    pub path: Path,
    /// The first label: a number or a letter; 1 when left away.
    pub first: Option<String>,
    /// Labels never given.
    pub left_out: Vec<String>,
    /// Put before every label.
    pub prefix: Option<String>,
    /// A prefix for every row (or column); counting starts anew in each.
    pub line_prefixes: Vec<String>,
    /// The labels themselves, instead of all that.
    pub labels: Vec<String>,
}

/// The numbering of a ring; left away, it counts 1, 2, 3 in the order of the angles.
#[derive(Debug, Clone, PartialEq, Eq)]
#[allow(missing_docs)]
pub struct RingNumberingDraft {
    pub first: Option<String>,
    pub left_out: Vec<String>,
    pub prefix: Option<String>,
    pub labels: Vec<String>,
}
