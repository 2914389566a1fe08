//! What cavities hold, in files.

use serde::{Deserialize, Serialize};

use super::values::mirrored;
use crate::{
    catalogue::PartNumber,
    colour::Colour,
    face::Label,
    quantity::{Gauge, Length},
    record::{CavityContent, InsulationClass, Known, LeadSeen, Seal, SpareSeen, Wire, WireKind},
};

/// Written flat: `Wired(wires:[…])`, `Plugged`, `Bridge("clip")`.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
enum HoldsForm {
    Wired {
        wires: Vec<Wire>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        terminal: Option<PartNumber>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        seal: Option<Seal>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        condition: Option<String>,
    },
    Plugged,
    Open,
    Empty,
    Blocked,
    Spare {
        #[serde(default, skip_serializing_if = "Option::is_none")]
        terminal: Option<PartNumber>,
        #[serde(default, skip_serializing_if = "is_false")]
        plug_behind: bool,
    },
    Bridge(String),
}

pub(super) fn is_false(value: &bool) -> bool {
    !value
}

impl serde::Serialize for CavityContent {
    fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        let form = match self.clone() {
            Self::Wired(LeadSeen { wires, terminal, seal, condition }) => {
                HoldsForm::Wired { wires, terminal, seal, condition }
            }
            Self::Plugged => HoldsForm::Plugged,
            Self::Open => HoldsForm::Open,
            Self::Empty => HoldsForm::Empty,
            Self::Blocked => HoldsForm::Blocked,
            Self::Spare(SpareSeen { terminal, plug_behind }) => HoldsForm::Spare { terminal, plug_behind },
            Self::Bridge(what) => HoldsForm::Bridge(what),
        };
        form.serialize(to)
    }
}

impl<'de> serde::Deserialize<'de> for CavityContent {
    fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        Ok(match HoldsForm::deserialize(from)? {
            HoldsForm::Wired { wires, terminal, seal, condition } => {
                Self::Wired(LeadSeen { wires, terminal, seal, condition })
            }
            HoldsForm::Plugged => Self::Plugged,
            HoldsForm::Open => Self::Open,
            HoldsForm::Empty => Self::Empty,
            HoldsForm::Blocked => Self::Blocked,
            HoldsForm::Spare { terminal, plug_behind } => Self::Spare(SpareSeen { terminal, plug_behind }),
            HoldsForm::Bridge(what) => Self::Bridge(what),
        })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "Wire", deny_unknown_fields)]
struct WireForm {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    number: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    circuit: Option<String>,
    colour: Known<Colour>,
    gauge: Known<Gauge>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    outside_diameter: Option<Known<Length>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    insulation_class: Option<InsulationClass>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    twisted_with: Option<Label>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    untwisted: Option<Length>,
    #[serde(default, skip_serializing_if = "is_false")]
    shielded: bool,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    damage: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    slack: Option<Length>,
    #[serde(default = "ordinary", skip_serializing_if = "is_ordinary")]
    kind: WireKind,
}

fn ordinary() -> WireKind {
    WireKind::Ordinary
}

fn is_ordinary(kind: &WireKind) -> bool {
    *kind == WireKind::Ordinary
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "Seal")]
enum SealForm {
    None,
    On,
    Renewed,
    Missing,
    Unknown,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "WireKind")]
enum WireKindForm {
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

#[derive(Serialize, Deserialize)]
#[serde(remote = "InsulationClass")]
enum InsulationClassForm {
    A,
    B,
    C,
    D,
    E,
    F,
}

mirrored!(
    Wire as WireForm,
    Seal as SealForm,
    WireKind as WireKindForm,
    InsulationClass as InsulationClassForm
);
