//! The choices acts are made of, in files: every enum mirrored, variant by variant.

use serde::{Deserialize, Serialize};

use super::values::mirrored;
use crate::{
    catalogue::LockState,
    face::Face,
    job::{
        About, ArrivedVerdict, EnergyKind, FaceFault, Fit, Flip, GateAnswer, GateKind, Inspected, JobSide,
        MapSource, MatingVerdict, PlugSource, Question, RecordSide, RepairKind, SeenAt, Tag,
    },
    record::Address,
};

#[derive(Serialize, Deserialize)]
#[serde(remote = "RecordSide")]
enum RecordSideForm {
    Found,
    Should,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "JobSide")]
enum JobSideForm {
    Old,
    New,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "Flip")]
enum FlipForm {
    Mirror,
    Turn,
    Both,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "GateKind")]
enum GateKindForm {
    Restraint,
    HighVoltage,
    Interlock,
    Battery,
    StoredEnergy,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "GateAnswer")]
enum GateAnswerForm {
    Absent,
    Released,
    Stop,
    DontKnow,
    OffMachine,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "EnergyKind")]
enum EnergyKindForm {
    Capacitors,
    SecondBattery,
    Fluid,
    Load,
    Spring,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "FaceFault")]
enum FaceFaultForm {
    LipUneven,
    WireSlanted,
    HoleDirty,
    TerminalLow,
    TerminalTurned,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "Question")]
enum QuestionForm {
    Key,
    Latch,
    Gender,
    Clip,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "Fit")]
enum FitForm {
    Fits,
    Differs,
    DontKnow,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "MapSource")]
enum MapSourceForm {
    SameLabels,
    Shop,
    Position,
    Hand,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "RepairKind")]
enum RepairKindForm {
    Reform,
    NewTerminal,
    NewSeal,
    RepairLead,
    Join,
    Other,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "Inspected")]
enum InspectedForm {
    Good,
    Needs(RepairKind),
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "PlugSource")]
enum PlugSourceForm {
    Hand,
    Tray,
    Stock,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "SeenAt")]
enum SeenAtForm {
    In(Address),
    Hand,
    Parked(Tag),
    Unseen,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "MatingVerdict")]
enum MatingVerdictForm {
    /// Version 1 wrote `Sound`.
    #[serde(alias = "Sound")]
    Good,
    Cleaned,
    Replaced,
    Damaged(String),
    NotHere,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "ArrivedVerdict")]
enum ArrivedVerdictForm {
    AsAsked,
    WrongPart,
    Damaged,
    Substitute,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "About")]
enum AboutForm {
    Job,
    At(Address),
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "LockState")]
enum LockStateForm {
    FullSet,
    PreSet,
    Out,
    Broken,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "Face")]
enum FaceForm {
    Mating,
    Wire,
}

mirrored!(
    RecordSide as RecordSideForm,
    JobSide as JobSideForm,
    Flip as FlipForm,
    GateKind as GateKindForm,
    GateAnswer as GateAnswerForm,
    EnergyKind as EnergyKindForm,
    FaceFault as FaceFaultForm,
    Question as QuestionForm,
    Fit as FitForm,
    MapSource as MapSourceForm,
    RepairKind as RepairKindForm,
    Inspected as InspectedForm,
    PlugSource as PlugSourceForm,
    SeenAt as SeenAtForm,
    MatingVerdict as MatingVerdictForm,
    ArrivedVerdict as ArrivedVerdictForm,
    About as AboutForm,
    LockState as LockStateForm,
    Face as FaceForm,
);
