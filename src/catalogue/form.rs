//! The file form of a family, as people write it in RON: plain text and numbers, nothing checked.
//! The same form is copied into job files, so that a job can be read without any library.

use serde::{Deserialize, Serialize};

use super::pairs::Pairs;

/// A family file.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename = "family", deny_unknown_fields)]
pub struct FamilyForm {
    /// The file format: 1.
    pub format: u32,
    /// The family's id: a to z, 0 to 9 and -.
    pub id: String,
    /// What people call it.
    pub title: String,
    /// Where its figures come from.
    pub source: SourceForm,
    /// The terminals.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub terminals: Vec<TerminalForm>,
    /// The seals crimped on single wires.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub wire_seals: Vec<WireSealForm>,
    /// The blanking plugs.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub plugs: Vec<PlugForm>,
    /// The housings.
    pub housings: Vec<HousingForm>,
}

/// Where figures come from.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs)]
pub enum SourceForm {
    Invented,
    Standard { standard: String, clause: String, read: String, from_memory: String },
    Shop { how: String },
}

/// Male or female.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[allow(missing_docs)]
pub enum GenderForm {
    Male,
    Female,
}

/// What holds a terminal.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[allow(missing_docs)]
pub enum HeldByForm {
    Tang,
    HousingFinger,
}

/// The face a tool or lock works from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[allow(missing_docs)]
pub enum FromForm {
    Front,
    Rear,
}

/// How a terminal goes in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[allow(missing_docs)]
pub enum SeatingForm {
    Push,
    Pull,
}

/// A terminal.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename = "terminal", deny_unknown_fields)]
#[allow(missing_docs)]
pub struct TerminalForm {
    pub part: String,
    pub size: String,
    pub gender: GenderForm,
    pub plating: String,
    pub wire_mm2: (f64, f64),
    pub insulation_mm: (f64, f64),
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub strip_mm: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub used_mm: Option<f64>,
    pub held_by: HeldByForm,
    pub released_from: FromForm,
    pub seating: SeatingForm,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub crimps: Vec<CrimpForm>,
}

/// A crimp height for one wire.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename = "crimp", deny_unknown_fields)]
#[allow(missing_docs)]
pub struct CrimpForm {
    pub wire_mm2: f64,
    pub height_mm: f64,
    pub tolerance_mm: f64,
    pub origin: String,
}

/// A seal on one wire.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename = "wire_seal", deny_unknown_fields)]
#[allow(missing_docs)]
pub struct WireSealForm {
    pub part: String,
    pub size: String,
    pub insulation_mm: (f64, f64),
    pub colour: String,
}

/// A blanking plug.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename = "plug", deny_unknown_fields)]
#[allow(missing_docs)]
pub struct PlugForm {
    pub part: String,
    pub size: String,
    pub colour: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pack: Option<u32>,
}

/// How a housing keeps water out.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs)]
pub enum SealingForm {
    Individual,
    Mat { hole_mm: (f64, f64) },
    Unsealed,
}

/// A face.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[allow(missing_docs)]
pub enum FaceForm {
    Mating,
    Wire,
}

/// A side of the drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[allow(missing_docs)]
pub enum SideForm {
    Top,
    Right,
    Bottom,
    Left,
}

/// States of a secondary lock.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[allow(missing_docs)]
pub enum LockStateForm {
    FullSet,
    PreSet,
    Out,
    Broken,
}

/// Whether a part comes with the housing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[allow(missing_docs)]
pub enum SuppliedForm {
    With,
    Separate,
}

/// A housing.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename = "housing", deny_unknown_fields)]
#[allow(missing_docs)]
pub struct HousingForm {
    pub id: String,
    pub part: String,
    pub title: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub revision: Option<String>,
    pub gender: GenderForm,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub colour: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub key_code: Option<String>,
    pub sealing: SealingForm,
    /// The face it is drawn from; the top of the drawing is up.
    pub drawn: FaceForm,
    /// What tells the sides apart, and the side of the drawing it is on.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub features: Vec<(String, SideForm)>,
    pub layout: LayoutForm,
    /// The size of every cavity not named in `sizes`.
    pub size: String,
    /// Other sizes. Wherever labels are listed, `"A3..A7"` stands for A3 to A7 as numbered.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub sizes: Vec<(String, Vec<String>)>,
    /// The side terminals point their tang to.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub tangs: Vec<(SideForm, Vec<String>)>,
    /// Cavities moulded shut.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub blocked: Vec<String>,
    /// Cavities delivered with a plug.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub plugged: Vec<String>,
    /// Bridges and shorting clips it is delivered with.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub bridges: Vec<BridgeForm>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lock: Option<LockForm>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub assurance: Option<SmallPartForm>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub small_parts: Vec<SmallPartForm>,
    /// Other numberings of the same cavities: a name, then moulded label to other label.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub also: Vec<(String, Pairs)>,
    /// Older housings this one replaces: their id, then old label to label here.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub replaces: Vec<(String, Pairs)>,
}

/// A bridge or clip between cavities.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename = "bridge", deny_unknown_fields)]
#[allow(missing_docs)]
pub struct BridgeForm {
    pub name: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub part: Option<String>,
    pub at: Vec<String>,
}

/// A secondary lock.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename = "lock", deny_unknown_fields)]
#[allow(missing_docs)]
pub struct LockForm {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub part: Option<String>,
    pub kind: String,
    pub open: LockStateForm,
    pub released_from: FromForm,
    pub delivered: LockStateForm,
    pub supplied: SuppliedForm,
}

/// A small part of a housing.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename = "small_part", deny_unknown_fields)]
#[allow(missing_docs)]
pub struct SmallPartForm {
    pub name: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub part: Option<String>,
    pub supplied: SuppliedForm,
}

/// A layout with its numbering.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs)]
pub enum LayoutForm {
    Grid {
        rows: usize,
        columns: usize,
        #[serde(default, skip_serializing_if = "StaggerForm::is_no")]
        staggered: StaggerForm,
        /// Row and column from 1, of places without a cavity.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        left_out: Vec<(usize, usize)>,
        /// Distance of columns and rows in mm.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pitch_mm: Option<(f64, f64)>,
        #[serde(default)]
        numbering: NumberingForm,
    },
    Ring {
        /// Clockwise from twelve o'clock in the drawing, in the order of the labels.
        angles_deg: Vec<f64>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        radius_mm: Option<f64>,
        /// A cavity in the centre; it has the last label.
        #[serde(default)]
        centre: bool,
        #[serde(default)]
        numbering: RingNumberingForm,
    },
    Points {
        /// Label, to the right, downwards.
        at: Vec<(String, f64, f64)>,
        #[serde(default)]
        in_mm: bool,
    },
    Groups {
        groups: Vec<GroupForm>,
    },
}

/// Which rows are pushed half a column to the right.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[allow(missing_docs)]
pub enum StaggerForm {
    #[default]
    No,
    OddRows,
    EvenRows,
}

impl StaggerForm {
    fn is_no(&self) -> bool {
        *self == Self::No
    }
}

/// A group of a housing.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename = "group", deny_unknown_fields)]
#[allow(missing_docs)]
pub struct GroupForm {
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub prefix: String,
    /// Where the group's first cavity (or centre) lies.
    pub at: (f64, f64),
    pub layout: LayoutForm,
}

/// A corner of the drawing.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[allow(missing_docs)]
pub enum CornerForm {
    #[default]
    TopLeft,
    TopRight,
    BottomLeft,
    BottomRight,
}

/// Along which lines counting runs.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[allow(missing_docs)]
pub enum AlongForm {
    #[default]
    Rows,
    Columns,
}

/// How counting goes on.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[allow(missing_docs)]
pub enum PathForm {
    #[default]
    Straight,
    Serpentine,
    Round,
}

/// The numbering of a grid; left away, it counts 1, 2, 3 row by row from the top left.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename = "numbering", default, deny_unknown_fields)]
#[allow(missing_docs)]
pub struct NumberingForm {
    pub start: CornerForm,
    pub along: AlongForm,
    pub path: PathForm,
    /// The first label: a number or a letter; 1 when left away.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub first: Option<String>,
    /// Labels never given.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub left_out: Vec<String>,
    /// Put before every label.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub prefix: Option<String>,
    /// A prefix for every row (or column); counting starts anew in each.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub line_prefixes: Vec<String>,
    /// The labels themselves, instead of all that.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub labels: Vec<String>,
}

/// The numbering of a ring; left away, it counts 1, 2, 3 in the order of the angles.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename = "numbering", default, deny_unknown_fields)]
#[allow(missing_docs)]
pub struct RingNumberingForm {
    #[serde(skip_serializing_if = "Option::is_none")]
    pub first: Option<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub left_out: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub prefix: Option<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub labels: Vec<String>,
}
