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
pub struct TerminalDraft {
    /// Part number, as printed.
    pub part: String,
    /// Cavity size it fits, as the shop names it: `0.64`, `2.8`.
    pub size: String,
    /// Pin or socket.
    pub gender: Gender,
    /// What its contact is plated with, in words; a new terminal keeps that of the old one.
    pub plating: String,
    /// Conductor areas its crimp takes, least and most, in mm².
    pub wire_mm2: (f64, f64),
    /// Insulation diameters its grip takes, least and most, in mm.
    pub insulation_mm: (f64, f64),
    /// How much insulation is stripped for its crimp, in mm; absent when its sheet does not say.
    pub strip_mm: Option<f64>,
    /// How much wire one new terminal uses up, in mm; absent when nobody knows.
    pub used_mm: Option<f64>,
    /// What holds it in its cavity.
    pub held_by: PrimaryLock,
    /// The face the release tool goes in at.
    pub released_from: AccessFace,
    /// Whether it is pushed in, or pulled in by its wire and so cannot be moved whole.
    pub seating: Seating,
    /// Heights its sheet gives, one for each wire; for another wire no height is known.
    pub crimps: Vec<CrimpDraft>,
}

/// A crimp height for one wire.
#[derive(Debug, Clone, PartialEq)]
pub struct CrimpDraft {
    /// Conductor area it holds for, in mm².
    pub wire_mm2: f64,
    /// Height of the conductor crimp to aim at, in mm.
    pub height_mm: f64,
    /// How far from it is still good, up or down, in mm.
    pub tolerance_mm: f64,
    /// Who says so: a sheet, a measured set-up.
    pub origin: String,
}

/// A seal on one wire.
#[derive(Debug, Clone, PartialEq)]
pub struct WireSealDraft {
    /// Part number, as printed.
    pub part: String,
    /// Size of the cavity it sits in.
    pub size: String,
    /// Insulation diameters it seals, least and most, in mm; the gauge does not tell.
    pub insulation_mm: (f64, f64),
    /// Its colour, in words.
    pub colour: String,
}

/// A blanking plug.
#[derive(Debug, Clone, PartialEq)]
pub struct PlugDraft {
    /// Part number, as printed.
    pub part: String,
    /// Size of the cavity it closes.
    pub size: String,
    /// Its colour, in words.
    pub colour: String,
    /// How many come in one pack; absent when they are sold one by one.
    pub pack: Option<u32>,
}

/// How a housing keeps water out.
#[derive(Debug, Clone, PartialEq)]
pub enum SealingDraft {
    /// A seal on every wire.
    Individual,
    /// One rubber block with a hole for each cavity; no seal on the wires.
    Mat {
        /// Insulation diameters its holes close on, least and most, in mm.
        hole_mm: (f64, f64),
    },
    /// Water is not kept out.
    Unsealed,
}

/// A housing.
#[derive(Debug, Clone, PartialEq)]
pub struct HousingDraft {
    /// The housing's id, unique over all families: a to z, 0 to 9 and -.
    pub id: String,
    /// Part number, as moulded.
    pub part: String,
    /// What people call it.
    pub title: String,
    /// Mould revision; absent when none is marked.
    pub revision: Option<String>,
    /// Whether its terminals are pins or sockets.
    pub gender: Gender,
    /// Its colour, in words; absent when nobody said.
    pub colour: Option<String>,
    /// Which form of coding key it has, as marked; absent when none is marked.
    pub key_code: Option<String>,
    /// How it keeps water out; decides which seals and plugs its family must have.
    pub sealing: SealingDraft,
    /// The face it is drawn from; the top of the drawing is up.
    pub drawn: Face,
    /// What tells the sides apart, and the side of the drawing it is on.
    pub features: Vec<(String, Side)>,
    /// Where its cavities sit, and the labels moulded beside them.
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
    /// Its secondary lock; absent when it has none.
    pub lock: Option<LockDraft>,
    /// The clip that proves the halves are latched; absent when it has none.
    pub assurance: Option<SmallPartDraft>,
    /// Parts taken off and put back: interface seal, retainer, cover, boot.
    pub small_parts: Vec<SmallPartDraft>,
    /// Other numberings of the same cavities: a name, then moulded label to other label.
    pub also: Vec<(String, Vec<(String, String)>)>,
    /// Older housings this one replaces: their id, then old label to label here.
    pub replaces: Vec<(String, Vec<(String, String)>)>,
}

/// A bridge or clip between cavities.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BridgeDraft {
    /// What it is, as people write it: `shorting clip`.
    pub name: String,
    /// Part number; absent when it is never ordered by itself.
    pub part: Option<String>,
    /// The cavities it sits in, at least one.
    pub at: Vec<String>,
}

/// A secondary lock.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LockDraft {
    /// Part number; absent when it is never ordered by itself.
    pub part: Option<String>,
    /// Its kind, in words: wedge, comb, slide, flap.
    pub kind: String,
    /// The state in which terminals go in and out: pre-set or out.
    pub open: LockState,
    /// The face it is released from.
    pub released_from: AccessFace,
    /// The state a new housing comes with it in; never broken.
    pub delivered: LockState,
    /// In the bag with the housing, or ordered by itself, which needs its part number.
    pub supplied: Supplied,
}

/// A small part of a housing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SmallPartDraft {
    /// What it is; unique within the housing.
    pub name: String,
    /// Part number; absent when it is never ordered by itself.
    pub part: Option<String>,
    /// In the bag with the housing, or ordered by itself, which needs its part number.
    pub supplied: Supplied,
}

/// A layout with its numbering.
#[derive(Debug, Clone, PartialEq)]
pub enum LayoutDraft {
    /// Rows and columns.
    Grid {
        /// How many rows, from the top of the drawing.
        rows: usize,
        /// How many places in a row, empty ones too.
        columns: usize,
        /// Which rows are pushed half a column to the right.
        staggered: RowStagger,
        /// Row and column from 1, of places without a cavity.
        left_out: Vec<(usize, usize)>,
        /// Distance of columns and rows in mm.
        pitch_mm: Option<(f64, f64)>,
        /// How labels run over the grid.
        numbering: NumberingDraft,
    },
    /// Cavities on one circle.
    Ring {
        /// Clockwise from twelve o'clock in the drawing, in the order of the labels.
        angles_deg: Vec<f64>,
        /// Radius of the circle in mm; absent, the drawing has no measure.
        radius_mm: Option<f64>,
        /// A cavity in the centre; it has the last label.
        centre: bool,
        /// How labels run along the ring.
        numbering: RingNumberingDraft,
    },
    /// Cavities wherever they are, each with its own label.
    Points {
        /// Label, to the right, downwards.
        at: Vec<(String, f64, f64)>,
        /// Whether the figures in `at` are mm; else they only keep the shape.
        in_mm: bool,
    },
    /// Several layouts in one housing; groups hold no groups.
    Groups {
        /// The groups, in the order of the numbering.
        groups: Vec<GroupDraft>,
    },
}

/// A group of a housing.
#[derive(Debug, Clone, PartialEq)]
pub struct GroupDraft {
    /// Put before every label of the group; may be empty.
    pub prefix: String,
    /// Where the group's first cavity (or centre) lies.
    pub at: (f64, f64),
    /// The group's own layout, with its own numbering.
    pub layout: LayoutDraft,
}

/// The numbering of a grid; left away, it counts 1, 2, 3 row by row from the top left.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NumberingDraft {
    /// The corner of the drawing with the first label.
    pub start: Corner,
    /// Whether counting runs along rows or along columns.
    pub along: Along,
    /// How counting goes on at the end of a row (or column).
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
pub struct RingNumberingDraft {
    /// The first label: a number or a letter; 1 when left away.
    pub first: Option<String>,
    /// Labels never given, such as `I` and `O`.
    pub left_out: Vec<String>,
    /// Put before every label; absent, nothing is.
    pub prefix: Option<String>,
    /// The labels themselves, in the order of the angles, the centre last, instead of all that.
    pub labels: Vec<String>,
}
