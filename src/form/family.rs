//! A family in files: the draft of it, field by field. Labels stand in lists; `"A3..A7"` stands for A3
//! to A7 as numbered.

use serde::{Deserialize, Serialize};

use super::{
    choices::{FaceForm, LockStateForm},
    layout::LayoutForm,
    mirror::{FormOf, form, read_field},
    pairs::Pairs,
    reader::expect_format,
};
use crate::{
    catalogue::{
        AccessFace, BridgeDraft, CrimpDraft, Definition, DefinitionProblem, FamilyDraft, FieldFinding,
        Gender, HousingDraft, LockDraft, PlugDraft, PrimaryLock, SealingDraft, Seating, SmallPartDraft,
        Source, Supplied, TerminalDraft, WireSealDraft,
    },
    face::Side,
};

/// A family file.
#[derive(Serialize, Deserialize)]
#[serde(rename = "family", deny_unknown_fields)]
pub(crate) struct FamilyForm {
    /// The file format: 1.
    format: u32,
    /// The family's id: a to z, 0 to 9 and -.
    id: String,
    /// What people call it.
    title: String,
    /// Where its figures come from.
    source: SourceForm,
    /// The terminals.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    terminals: Vec<TerminalForm>,
    /// The seals crimped on single wires.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    wire_seals: Vec<WireSealForm>,
    /// The blanking plugs.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    plugs: Vec<PlugForm>,
    /// The housings.
    housings: Vec<HousingForm>,
}

impl FormOf<FamilyDraft> for FamilyForm {
    fn write(draft: &FamilyDraft) -> Self {
        let FamilyDraft { id, title, source, terminals, wire_seals, plugs, housings } = draft;
        Self {
            format: 1,
            id: FormOf::write(id),
            title: FormOf::write(title),
            source: FormOf::write(source),
            terminals: FormOf::write(terminals),
            wire_seals: FormOf::write(wire_seals),
            plugs: FormOf::write(plugs),
            housings: FormOf::write(housings),
        }
    }

    fn read(self) -> Result<FamilyDraft, FieldFinding> {
        expect_format(self.format)?;
        Ok(FamilyDraft {
            id: read_field("id", self.id)?,
            title: read_field("title", self.title)?,
            source: read_field("source", self.source)?,
            terminals: read_field("terminals", self.terminals)?,
            wire_seals: read_field("wire_seals", self.wire_seals)?,
            plugs: read_field("plugs", self.plugs)?,
            housings: read_field("housings", self.housings)?,
        })
    }
}

/// A housing with its family, in a job's file: the draft it was checked from, whole.
impl FormOf<Definition> for FamilyForm {
    fn write(definition: &Definition) -> Self {
        Self::write(definition.draft())
    }

    fn read(self) -> Result<Definition, FieldFinding> {
        Definition::kept(self.read()?).map_err(found_in)
    }
}

/// Where in the form a definition is wrong.
pub(super) fn found_in(why: DefinitionProblem) -> FieldFinding {
    match why {
        DefinitionProblem::Wrong(finding) => finding,
        other => FieldFinding::of(other),
    }
}

form! {
    /// Where figures come from.
    pub(super) enum SourceForm of Source {
        Invented,
        Standard { standard: String, clause: String, read: String, from_memory: String, },
        Shop { how: String, },
    }
}

form! {
    /// Male or female.
    pub(super) enum GenderForm of Gender {
        Male,
        Female,
    }
}

form! {
    /// What holds a terminal.
    pub(super) enum HeldByForm of PrimaryLock {
        Tang,
        HousingFinger,
    }
}

form! {
    /// The face a tool or lock works from.
    pub(super) enum FromForm of AccessFace {
        Front,
        Rear,
    }
}

form! {
    /// How a terminal goes in.
    pub(super) enum SeatingForm of Seating {
        Push,
        Pull,
    }
}

form! {
    /// A terminal.
    #[serde(rename = "terminal")]
    pub(super) struct TerminalForm of TerminalDraft {
        part: String,
        size: String,
        gender: GenderForm,
        plating: String,
        wire_mm2: (f64, f64),
        insulation_mm: (f64, f64),
        #[serde(default, skip_serializing_if = "Option::is_none")]
        strip_mm: Option<f64>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        used_mm: Option<f64>,
        held_by: HeldByForm,
        released_from: FromForm,
        seating: SeatingForm,
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        crimps: Vec<CrimpHeightForm>,
    }
}

form! {
    /// A crimp height for one wire.
    #[serde(rename = "crimp")]
    pub(super) struct CrimpHeightForm of CrimpDraft {
        wire_mm2: f64,
        height_mm: f64,
        tolerance_mm: f64,
        origin: String,
    }
}

form! {
    /// A seal on one wire.
    #[serde(rename = "wire_seal")]
    pub(super) struct WireSealForm of WireSealDraft {
        part: String,
        size: String,
        insulation_mm: (f64, f64),
        colour: String,
    }
}

form! {
    /// A blanking plug.
    #[serde(rename = "plug")]
    pub(super) struct PlugForm of PlugDraft {
        part: String,
        size: String,
        colour: String,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pack: Option<u32>,
    }
}

form! {
    /// How a housing keeps water out.
    pub(super) enum SealingForm of SealingDraft {
        Individual,
        Mat { hole_mm: (f64, f64), },
        Unsealed,
    }
}

form! {
    /// A side of the drawing.
    pub(super) enum SideForm of Side {
        Top,
        Right,
        Bottom,
        Left,
    }
}

form! {
    /// Whether a part comes with the housing.
    pub(super) enum SuppliedForm of Supplied {
        With,
        Separate,
    }
}

form! {
    /// A housing.
    #[serde(rename = "housing")]
    pub(super) struct HousingForm of HousingDraft {
        id: String,
        part: String,
        title: String,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        revision: Option<String>,
        gender: GenderForm,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        colour: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        key_code: Option<String>,
        sealing: SealingForm,
        /// The face it is drawn from; the top of the drawing is up.
        drawn: FaceForm,
        /// What tells the sides apart, and the side of the drawing it is on.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        features: Vec<(String, SideForm)>,
        layout: LayoutForm,
        /// The size of every cavity not named in `sizes`.
        size: String,
        /// Other sizes. Wherever labels are listed, `"A3..A7"` stands for A3 to A7 as numbered.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        sizes: Vec<(String, Vec<String>)>,
        /// The side terminals point their tang to.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        tangs: Vec<(SideForm, Vec<String>)>,
        /// Cavities moulded shut.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        blocked: Vec<String>,
        /// Cavities delivered with a plug.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        plugged: Vec<String>,
        /// Bridges and shorting clips it is delivered with.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        bridges: Vec<BridgeForm>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        lock: Option<LockForm>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        assurance: Option<SmallPartForm>,
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        small_parts: Vec<SmallPartForm>,
        /// Other numberings of the same cavities: a name, then moulded label to other label.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        also: Vec<(String, Pairs)>,
        /// Older housings this one replaces: their id, then old label to label here.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        replaces: Vec<(String, Pairs)>,
    }
}

form! {
    /// A bridge or clip between cavities.
    #[serde(rename = "bridge")]
    pub(super) struct BridgeForm of BridgeDraft {
        name: String,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        part: Option<String>,
        at: Vec<String>,
    }
}

form! {
    /// A secondary lock.
    #[serde(rename = "lock")]
    pub(super) struct LockForm of LockDraft {
        #[serde(default, skip_serializing_if = "Option::is_none")]
        part: Option<String>,
        kind: String,
        open: LockStateForm,
        released_from: FromForm,
        delivered: LockStateForm,
        supplied: SuppliedForm,
    }
}

form! {
    /// A small part of a housing.
    #[serde(rename = "small_part")]
    pub(super) struct SmallPartForm of SmallPartDraft {
        name: String,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        part: Option<String>,
        supplied: SuppliedForm,
    }
}
