//! What cavities hold, in files.

use serde::{Deserialize, Serialize};

use super::mirror::{FormOf, form, read_field};
use crate::{
    catalogue::FieldFinding,
    record::{CavityContent, InsulationClass, LeadSeen, Seal, SpareSeen, Wire, WireKind},
};

/// Written flat: `Wired(wires:[…])`, `Plugged`, `Bridge("clip")`.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) enum CavityContentForm {
    Wired {
        wires: Vec<WireForm>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        terminal: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        seal: Option<SealForm>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        condition: Option<String>,
    },
    Plugged,
    Open,
    Empty,
    Blocked,
    Spare {
        #[serde(default, skip_serializing_if = "Option::is_none")]
        terminal: Option<String>,
        #[serde(default, skip_serializing_if = "is_false")]
        plug_behind: bool,
    },
    Bridge(String),
}

pub(super) fn is_false(value: &bool) -> bool {
    !value
}

impl FormOf<CavityContent> for CavityContentForm {
    fn write(value: &CavityContent) -> Self {
        match value {
            CavityContent::Wired(LeadSeen { wires, terminal, seal, condition }) => Self::Wired {
                wires: FormOf::write(wires),
                terminal: FormOf::write(terminal),
                seal: FormOf::write(seal),
                condition: condition.clone(),
            },
            CavityContent::Plugged => Self::Plugged,
            CavityContent::Open => Self::Open,
            CavityContent::Empty => Self::Empty,
            CavityContent::Blocked => Self::Blocked,
            CavityContent::Spare(SpareSeen { terminal, plug_behind }) => {
                Self::Spare { terminal: FormOf::write(terminal), plug_behind: *plug_behind }
            }
            CavityContent::Bridge(what) => Self::Bridge(what.clone()),
        }
    }

    fn read(self) -> Result<CavityContent, FieldFinding> {
        Ok(match self {
            Self::Wired { wires, terminal, seal, condition } => CavityContent::Wired(LeadSeen {
                wires: read_field("wires", wires)?,
                terminal: read_field("terminal", terminal)?,
                seal: read_field("seal", seal)?,
                condition,
            }),
            Self::Plugged => CavityContent::Plugged,
            Self::Open => CavityContent::Open,
            Self::Empty => CavityContent::Empty,
            Self::Blocked => CavityContent::Blocked,
            Self::Spare { terminal, plug_behind } => {
                CavityContent::Spare(SpareSeen { terminal: read_field("terminal", terminal)?, plug_behind })
            }
            Self::Bridge(what) => CavityContent::Bridge(what),
        })
    }
}

form! {
    pub(super) struct WireForm of Wire {
        #[serde(default, skip_serializing_if = "Option::is_none")]
        number: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        circuit: Option<String>,
        colour: String,
        gauge: String,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        outside_diameter: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        insulation_class: Option<InsulationClassForm>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        twisted_with: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        untwisted: Option<String>,
        #[serde(default, skip_serializing_if = "is_false")]
        shielded: bool,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        damage: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        slack: Option<String>,
        #[serde(default = "ordinary", skip_serializing_if = "is_ordinary")]
        kind: WireKindForm,
    }
}

fn ordinary() -> WireKindForm {
    WireKindForm::Ordinary
}

fn is_ordinary(kind: &WireKindForm) -> bool {
    matches!(kind, WireKindForm::Ordinary)
}

form! {
    pub(super) enum SealForm of Seal {
        None,
        On,
        Renewed,
        Missing,
        Unknown,
    }
}

form! {
    pub(super) enum WireKindForm of WireKind {
        Ordinary,
        FusibleLink,
        Restraint,
        HighVoltage,
        Coaxial,
        Thermocouple,
        Drain,
        BusPair,
        Interlock,
    }
}

form! {
    pub(super) enum InsulationClassForm of InsulationClass {
        A,
        B,
        C,
        D,
        E,
        F,
    }
}
