//! The choices acts are made of, in files: every enum mirrored, variant by variant.

use super::mirror::form;
use crate::{
    catalogue::LockState,
    face::Face,
    job::{
        About, ArrivedVerdict, EnergyKind, FaceFault, Fit, Flip, GateAnswer, GateKind, Inspected, JobSide,
        MapSource, MatingVerdict, PlugSource, Question, RecordSide, RepairKind, SeenAt,
    },
};

form! {
    pub(super) enum RecordSideForm of RecordSide {
        Found,
        Should,
    }
}

form! {
    pub(super) enum JobSideForm of JobSide {
        Old,
        New,
    }
}

form! {
    pub(super) enum FlipForm of Flip {
        Mirror,
        Turn,
        Both,
    }
}

form! {
    pub(super) enum GateKindForm of GateKind {
        Restraint,
        HighVoltage,
        Interlock,
        Battery,
        StoredEnergy,
    }
}

form! {
    pub(super) enum GateAnswerForm of GateAnswer {
        Absent,
        Released,
        Stop,
        DontKnow,
        OffMachine,
    }
}

form! {
    pub(super) enum EnergyKindForm of EnergyKind {
        Capacitors,
        SecondBattery,
        Fluid,
        Load,
        Spring,
    }
}

form! {
    pub(super) enum FaceFaultForm of FaceFault {
        LipUneven,
        WireSlanted,
        HoleDirty,
        TerminalLow,
        TerminalTurned,
    }
}

form! {
    pub(super) enum QuestionForm of Question {
        Key,
        Latch,
        Gender,
        Clip,
    }
}

form! {
    pub(super) enum FitForm of Fit {
        Fits,
        Differs,
        DontKnow,
    }
}

form! {
    pub(super) enum MapSourceForm of MapSource {
        SameLabels,
        Shop,
        Position,
        Hand,
    }
}

form! {
    pub(super) enum RepairKindForm of RepairKind {
        Reform,
        NewTerminal,
        NewSeal,
        RepairLead,
        Join,
        Other,
    }
}

form! {
    pub(super) enum InspectedForm of Inspected {
        Good,
        Needs(of: RepairKindForm),
    }
}

form! {
    pub(super) enum PlugSourceForm of PlugSource {
        Hand,
        Tray,
        Stock,
    }
}

form! {
    pub(super) enum SeenAtForm of SeenAt {
        In(of: String),
        Hand,
        Parked(of: String),
        Unseen,
    }
}

form! {
    pub(super) enum MatingVerdictForm of MatingVerdict {
        /// Version 1 wrote `Sound`.
        #[serde(alias = "Sound")]
        Good,
        Cleaned,
        Replaced,
        Damaged(of: String),
        NotHere,
    }
}

form! {
    pub(super) enum ArrivedVerdictForm of ArrivedVerdict {
        AsAsked,
        WrongPart,
        Damaged,
        Substitute,
    }
}

form! {
    pub(super) enum AboutForm of About {
        Job,
        At(of: String),
    }
}

form! {
    pub(super) enum LockStateForm of LockState {
        FullSet,
        PreSet,
        Out,
        Broken,
    }
}

form! {
    pub(super) enum FaceForm of Face {
        Mating,
        Wire,
    }
}
