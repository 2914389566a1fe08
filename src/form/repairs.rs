//! What is said about repairs, in files: lead orders, crimps, splices, what lies behind a housing.

use super::{
    mirror::form,
    record::{InsulationClassForm, is_false},
};
use crate::{
    job::{
        Behind, Crimp, CrimpVerdict, Lay, LeadOrder, Load, MadeLength, OtherEnd, SamplePull, Splice,
        TwistAsked, Wall,
    },
    reckoning::{DamageCause, Finding, LeadLength, LookFault, Standing},
};

form! {
    pub(super) enum WallForm of Wall {
        Thick,
        Thin,
        UltraThin,
    }
}

form! {
    pub(super) enum LayForm of Lay {
        Left,
        Right,
    }
}

form! {
    pub(super) struct TwistAskedForm of TwistAsked {
        lay: String,
        hand: LayForm,
    }
}

form! {
    pub(super) enum OtherEndForm of OtherEnd {
        Stripped(of: String),
        CutSquare,
        SpliceFitted,
    }
}

form! {
    pub(super) struct LoadForm of Load {
        current_a: f64,
        supply_v: f64,
        circuit_mm: f64,
        conductor_c: f64,
        #[serde(default, skip_serializing_if = "is_false")]
        critical: bool,
    }
}

form! {
    pub(super) struct LeadOrderForm of LeadOrder {
        #[serde(default, skip_serializing_if = "Option::is_none")]
        gauge: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        colour: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        other_colour: Option<bool>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        strands: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        insulation: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        insulation_class: Option<InsulationClassForm>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        wall: Option<WallForm>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        outside_diameter: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        twist: Option<TwistAskedForm>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        damage: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        inside: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        slack: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        route: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        sleeve: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        sleeve_diameter: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        last: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        splice: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        splice_included: Option<bool>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        other_end: Option<OtherEndForm>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        label: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        crimp_record: Option<bool>,
        #[serde(default, skip_serializing_if = "is_false")]
        spliced_before: bool,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        load: Option<LoadForm>,
    }
}

form! {
    pub(super) struct SamplePullForm of SamplePull {
        force_n: f64,
        broke_at: String,
    }
}

form! {
    pub(super) enum CrimpVerdictForm of CrimpVerdict {
        Accepted,
        Redo,
    }
}

form! {
    pub(super) enum StandingForm of Standing {
        Qualified { mean_mm: f64, samples: usize, until: String, },
        Due(of: String),
        Never,
        Withdrawn(of: String),
    }
}

form! {
    pub(super) struct MadeLengthForm of MadeLength {
        #[serde(default, skip_serializing_if = "Option::is_none")]
        planned: Option<LeadLengthForm>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        asked_mm: Option<f64>,
    }
}

form! {
    pub(super) struct LeadLengthForm of LeadLength {
        cut_mm: f64,
        order_mm: f64,
    }
}

form! {
    pub(super) struct CrimpForm of Crimp {
        #[serde(default, skip_serializing_if = "Option::is_none")]
        wire: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        lot: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        tool: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        position: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        cut_back: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        strip: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        height: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        width: Option<String>,
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        look: Vec<LookFaultForm>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        sample_pull: Option<SamplePullForm>,
        #[serde(default = "accepted", skip_serializing_if = "is_accepted")]
        verdict: CrimpVerdictForm,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        book: Option<StandingForm>,
    }
}

fn accepted() -> CrimpVerdictForm {
    CrimpVerdictForm::Accepted
}

fn is_accepted(verdict: &CrimpVerdictForm) -> bool {
    matches!(verdict, CrimpVerdictForm::Accepted)
}

form! {
    pub(super) struct SpliceForm of Splice {
        start: String,
        sleeve: String,
        sound: bool,
        #[serde(default, skip_serializing_if = "is_false")]
        seal_behind: bool,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        untwisted: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        solder: Option<String>,
    }
}

form! {
    pub(super) struct BehindForm of Behind {
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        branches: Vec<String>,
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        keep_out: Vec<(String, String)>,
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        splices: Vec<(String, String)>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        last: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        beyond: Option<String>,
    }
}

form! {
    pub(super) enum FindingForm of Finding {
        TangFlat, FemaleLoose, MaleBent, Corroded, Burnt, CrimpBad, GripBad, SealBad, InsulationOutside,
        InsulationUnderSeal, TooShort, Doubled, DrainBare,
    }
}

form! {
    pub(super) enum DamageCauseForm of DamageCause {
        OutsideHeat, Overload, Chafing, Rodent, Crash, Water, EarlierRepair, Pulled, Vibration,
    }
}

form! {
    pub(super) enum LookFaultForm of LookFault {
        InsulationInCrimp, GapTooBig, StrandsCut, StrandsOut, TinnedEnd, NoBellmouth, NoBrush, Cracked, Bent,
        InsulationLoose, SealLoose, TabTooLong,
    }
}
