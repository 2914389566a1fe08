//! Acts in files: the mirror of every act, field by field. A file that names a field this mirror
//! does not have is refused: a new field or act raises [`RECORD_VERSION`].

use serde::{Deserialize, Serialize};

use super::{record::is_false, values::mirrored};
use crate::{
    catalogue::{Definition, LockState, PartNumber},
    colour::Colour,
    face::{Face, PosePlace},
    job::{
        About, Act, Anyway, ArrivedVerdict, Behind, Code, Crimp, EnergyKind, FaceFault, Fit, Flip,
        GateAnswer, GateKind, Inspected, ItemId, JobSide, LeadOrder, MapSource, MatingVerdict, Measured,
        PlugSource, Question, ReadBack, RecordSide, RepairKind, RequestSaid, RequestedLine, SeenAt, Splice,
        Tag, TicketId, WireId,
    },
    quantity::{Length, Voltage},
    reckoning::{DamageCause, Finding},
    record::{Address, CavityContent, HousingName, Seal},
    shop_rules::{ShopRules, TestKind},
};

/// The version of entries written now. A newer one is read by a newer repin.
pub const RECORD_VERSION: u32 = 2;

#[derive(Serialize, Deserialize)]
#[serde(remote = "Act", deny_unknown_fields)]
enum ActMirror {
    // The world the job carries.
    Ticket {
        #[serde(default, skip_serializing_if = "Option::is_none")]
        id: Option<TicketId>,
        asset: String,
        serial: String,
        connector: String,
        reason: String,
        seed: u64,
    },
    Housed {
        name: HousingName,
        side: JobSide,
        definition: Box<Definition>,
    },
    Rules {
        rules: Box<ShopRules>,
    },
    // Records and decisions.
    Recorded {
        side: RecordSide,
        at: Address,
        holds: CavityContent,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        from: Option<(String, u32)>,
    },
    RecordFinished {
        side: RecordSide,
    },
    RecordCorrected {
        at: Address,
        holds: CavityContent,
        reason: String,
    },
    RecordFlipped {
        #[serde(default, skip_serializing_if = "Option::is_none")]
        housing: Option<HousingName>,
        how: Flip,
        reason: String,
    },
    Decided {
        at: Address,
        wins: RecordSide,
        reason: String,
    },
    Compared {
        question: Question,
        answer: Fit,
        mating_half: bool,
    },
    Mapped {
        from: Address,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        to: Option<Address>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        document: Option<String>,
    },
    MapConfirmed {
        source: MapSource,
    },
    Cause {
        text: String,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        kind: Option<DamageCause>,
    },
    Photo {
        number: String,
        shows: String,
    },
    // Safety and point of view.
    Gate {
        gate: GateKind,
        answer: GateAnswer,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        document: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        name: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        circuit: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        voltage: Option<Voltage>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        sleeve: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        measured: Option<Measured>,
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        energy: Vec<EnergyKind>,
    },
    View {
        housing: HousingName,
        face: Face,
        up: String,
    },
    Anchor {
        housing: HousingName,
        place: PosePlace,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        colour: Option<Colour>,
        mark: String,
    },
    // Parts of the housings.
    Lock {
        housing: HousingName,
        to: LockState,
        finger: bool,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        why: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        anyway: Option<Anyway>,
    },
    Assurance {
        housing: HousingName,
        on: bool,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        anyway: Option<Anyway>,
    },
    SmallPart {
        housing: HousingName,
        part: String,
        on: bool,
    },
    MatingHalf {
        verdict: MatingVerdict,
    },
    // Leads.
    Tagged {
        lead: ItemId,
        tag: Tag,
    },
    Extract {
        from: Address,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        colour: Option<Colour>,
        freely: bool,
        seal: Seal,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        anyway: Option<Anyway>,
    },
    CutFree {
        from: Address,
        #[serde(rename = "distance_mm", with = "millimetres")]
        distance: Length,
        terminal_stayed: bool,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        circuit: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        anyway: Option<Anyway>,
    },
    Loose {
        leads: Vec<(Address, Tag)>,
    },
    Inspect {
        verdict: Inspected,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        found: Option<Finding>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        damage: Option<Length>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        test_pin: Option<PartNumber>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        not_needed: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        anyway: Option<Anyway>,
    },
    Insert {
        into: Address,
        click: bool,
        #[serde(default, skip_serializing_if = "is_false")]
        again: bool,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        anyway: Option<Anyway>,
    },
    Tug {
        at: Address,
        held: bool,
    },
    PutBack,
    Park {
        tag: Tag,
        reason: String,
    },
    TakeUp {
        tag: Tag,
    },
    // Plugs and other contents.
    TakePlug {
        from: Address,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        anyway: Option<Anyway>,
    },
    FitPlug {
        into: Address,
        source: PlugSource,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        part: Option<PartNumber>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        spare: Option<PartNumber>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        anyway: Option<Anyway>,
    },
    LosePlug,
    ScrapPlug {
        reason: String,
    },
    ReturnPlug,
    LeftInOld {
        at: Address,
        reason: String,
    },
    MoveOther {
        from: Address,
        to: Address,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        part: Option<PartNumber>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        anyway: Option<Anyway>,
    },
    // Repairs.
    Behind {
        housing: HousingName,
        behind: Behind,
    },
    Planned {
        lead: ItemId,
        how: RepairKind,
        reason: String,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        part: Option<PartNumber>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        order: Option<Box<LeadOrder>>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        with: Option<ItemId>,
    },
    Repair {
        lead: ItemId,
        how: RepairKind,
        done: String,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        part: Option<PartNumber>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        crimp: Option<Box<Crimp>>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        splice: Option<Box<Splice>>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        anyway: Option<Anyway>,
    },
    Removed {
        wire: WireId,
        document: String,
    },
    // What is so.
    Seen {
        item: ItemId,
        at: SeenAt,
        reason: String,
    },
    WrongKey,
    ReRead {
        at: Address,
        colour: ReadBack,
    },
    RowCounted {
        housing: HousingName,
        row: usize,
        wires: usize,
        plugs: usize,
        open: usize,
    },
    LookedOver {
        housing: HousingName,
        face: Face,
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        cavities: Vec<crate::face::Label>,
        #[serde(default = "yes", skip_serializing_if = "is_yes")]
        sound: bool,
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        found: Vec<FaceFault>,
    },
    Measure {
        #[serde(default, skip_serializing_if = "Option::is_none")]
        circuit: Option<String>,
        test: TestKind,
        value: String,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        limit: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        source: Option<String>,
        #[serde(default = "yes", skip_serializing_if = "is_yes")]
        passed: bool,
    },
    // Parts, people, end.
    Requested {
        number: String,
        revision: u32,
        lines: Vec<RequestedLine>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        said: Option<Box<RequestSaid>>,
    },
    Arrived {
        line: u32,
        count: u32,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        part: Option<PartNumber>,
        #[serde(default = "as_asked", skip_serializing_if = "is_as_asked")]
        verdict: ArrivedVerdict,
    },
    Accept {
        flag: Code,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        at: Option<Address>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        by: Option<String>,
        reason: String,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        due: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        line: Option<u32>,
    },
    Note {
        text: String,
        #[serde(default = "the_job", skip_serializing_if = "is_the_job")]
        about: About,
    },
    HandOver {
        to: String,
    },
    Resume {
        power_off: bool,
        tags_read: bool,
    },
    Mate {
        #[serde(default = "yes", skip_serializing_if = "is_yes")]
        level: bool,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        anyway: Option<Anyway>,
    },
    Sign {
        name: String,
        serial_end: String,
    },
    Stop {
        why: String,
    },
}

fn yes() -> bool {
    true
}

fn is_yes(value: &bool) -> bool {
    *value
}

fn as_asked() -> ArrivedVerdict {
    ArrivedVerdict::AsAsked
}

fn is_as_asked(verdict: &ArrivedVerdict) -> bool {
    *verdict == ArrivedVerdict::AsAsked
}

fn the_job() -> About {
    About::Job
}

fn is_the_job(about: &About) -> bool {
    *about == About::Job
}

/// A length as a number of millimetres.
mod millimetres {
    use serde::{Deserialize, Deserializer, Serializer, de::Error};

    use crate::quantity::Length;

    pub(super) fn serialize<S: Serializer>(length: &Length, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_f64(length.mm())
    }

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Length, D::Error> {
        let mm = f64::deserialize(from)?;
        mm.to_string().parse().map_err(D::Error::custom)
    }
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "Anyway", deny_unknown_fields)]
struct AnywayForm {
    by: String,
    reason: String,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    codes: Vec<Code>,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "Measured", deny_unknown_fields)]
struct MeasuredForm {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    volts: Option<Voltage>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    between: String,
    #[serde(default, skip_serializing_if = "is_false")]
    tester_proved: bool,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    state: Option<String>,
}

mirrored!(Act as ActMirror, Anyway as AnywayForm, Measured as MeasuredForm,);
