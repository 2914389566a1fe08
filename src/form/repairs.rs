//! What is said about repairs, in files: lead orders, crimps, splices, what lies behind a housing.

use serde::{Deserialize, Serialize};

use super::{record::is_false, values::mirrored};
use crate::{
    colour::Colour,
    job::{
        Behind, Crimp, CrimpVerdict, Lay, LeadOrder, Load, OtherEnd, SamplePull, Splice, TwistAsked, Wall,
    },
    quantity::{Gauge, Length},
    reckoning::{DamageCause, Finding, LookFault, Standing},
    record::InsulationClass,
};

#[derive(Serialize, Deserialize)]
#[serde(remote = "Wall")]
enum WallForm {
    Thick,
    Thin,
    UltraThin,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "Lay")]
enum LayForm {
    Left,
    Right,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "TwistAsked", deny_unknown_fields)]
struct TwistAskedForm {
    lay: Length,
    hand: Lay,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "OtherEnd")]
enum OtherEndForm {
    Stripped(Length),
    CutSquare,
    SpliceFitted,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "Load", deny_unknown_fields)]
struct LoadForm {
    current_a: f64,
    supply_v: f64,
    circuit_mm: f64,
    conductor_c: f64,
    #[serde(default, skip_serializing_if = "is_false")]
    critical: bool,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "LeadOrder", deny_unknown_fields)]
struct LeadOrderForm {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    gauge: Option<Gauge>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    colour: Option<Colour>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    other_colour: Option<bool>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    strands: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    insulation: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    insulation_class: Option<InsulationClass>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    wall: Option<Wall>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    outside_diameter: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    twist: Option<TwistAsked>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    damage: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    inside: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    slack: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    route: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    sleeve: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    sleeve_diameter: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    last: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    splice: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    splice_included: Option<bool>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    other_end: Option<OtherEnd>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    label: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    crimp_record: Option<bool>,
    #[serde(default, skip_serializing_if = "is_false")]
    spliced_before: bool,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    load: Option<Load>,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "SamplePull", deny_unknown_fields)]
struct SamplePullForm {
    force_n: f64,
    broke_at: String,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "CrimpVerdict")]
enum CrimpVerdictForm {
    Accepted,
    Redo,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "Standing")]
enum StandingForm {
    Qualified { mean_mm: f64, samples: usize, until: String },
    Due(String),
    Never,
    Withdrawn(String),
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "Crimp", deny_unknown_fields)]
struct CrimpForm {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    wire: Option<Gauge>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    lot: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    tool: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    position: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    cut_back: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    strip: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    height: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    width: Option<Length>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    look: Vec<LookFault>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    sample_pull: Option<SamplePull>,
    #[serde(default = "accepted", skip_serializing_if = "is_accepted")]
    verdict: CrimpVerdict,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    book: Option<Standing>,
}

fn accepted() -> CrimpVerdict {
    CrimpVerdict::Accepted
}

fn is_accepted(verdict: &CrimpVerdict) -> bool {
    *verdict == CrimpVerdict::Accepted
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "Splice", deny_unknown_fields)]
struct SpliceForm {
    start: Length,
    sleeve: Length,
    sound: bool,
    #[serde(default, skip_serializing_if = "is_false")]
    seal_behind: bool,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    untwisted: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    solder: Option<String>,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "Behind", deny_unknown_fields)]
struct BehindForm {
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    branches: Vec<Length>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    keep_out: Vec<(Length, Length)>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    splices: Vec<(Length, Length)>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    last: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    beyond: Option<String>,
}

/// Mirrors an enum of plain names.
macro_rules! named {
    ($($name:ident as $form:ident literal $text:literal { $($variant:ident,)* })*) => {
        $(
            #[derive(Serialize, Deserialize)]
            #[serde(remote = $text)]
            enum $form { $($variant,)* }
        )*
    };
}

named! {
    Finding as FindingForm literal "Finding" {
        TangFlat, FemaleLoose, MaleBent, Corroded, Burnt, CrimpBad, GripBad, SealBad, InsulationOutside,
        InsulationUnderSeal, TooShort, Doubled, DrainBare,
    }
    DamageCause as DamageCauseForm literal "DamageCause" {
        OutsideHeat, Overload, Chafing, Rodent, Crash, Water, EarlierRepair, Pulled, Vibration,
    }
    LookFault as LookFaultForm literal "LookFault" {
        InsulationInCrimp, GapTooBig, StrandsCut, StrandsOut, TinnedEnd, NoBellmouth, NoBrush, Cracked, Bent,
        InsulationLoose, SealLoose, TabTooLong,
    }
}

mirrored!(
    Wall as WallForm,
    Lay as LayForm,
    TwistAsked as TwistAskedForm,
    OtherEnd as OtherEndForm,
    Load as LoadForm,
    LeadOrder as LeadOrderForm,
    SamplePull as SamplePullForm,
    CrimpVerdict as CrimpVerdictForm,
    Standing as StandingForm,
    Crimp as CrimpForm,
    Splice as SpliceForm,
    Behind as BehindForm,
    Finding as FindingForm,
    DamageCause as DamageCauseForm,
    LookFault as LookFaultForm,
);
