//! Acts in files: the mirror of every act, field by field. A file that names a field this mirror
//! does not have is refused: a new field or act raises [`RECORD_VERSION`].

use super::{
    choices::*, family::FamilyForm, mirror::form, record::*, repairs::*, requested::*, rules::*,
    values::Millimetres,
};
use crate::job::{Act, Anyway, Measured};

/// The version of entries written now. A newer one is read by a newer repin.
pub const RECORD_VERSION: u32 = 2;

form! {
    pub(crate) enum ActForm of Act {
        // The world the job carries.
        Ticket {
            #[serde(default, skip_serializing_if = "Option::is_none")]
            id: Option<String>,
            asset: String,
            serial: String,
            connector: String,
            reason: String,
            seed: u64,
        },
        Housed {
            name: String,
            side: JobSideForm,
            definition: Box<FamilyForm>,
        },
        Rules {
            rules: Box<RulesForm>,
        },
        // Records and decisions.
        Recorded {
            side: RecordSideForm,
            at: String,
            holds: CavityContentForm,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            from: Option<(String, u32)>,
        },
        RecordFinished {
            side: RecordSideForm,
        },
        RecordCorrected {
            at: String,
            holds: CavityContentForm,
            reason: String,
        },
        RecordFlipped {
            #[serde(default, skip_serializing_if = "Option::is_none")]
            housing: Option<String>,
            how: FlipForm,
            reason: String,
        },
        Decided {
            at: String,
            wins: RecordSideForm,
            reason: String,
        },
        Compared {
            question: QuestionForm,
            answer: FitForm,
            mating_half: bool,
        },
        Mapped {
            from: String,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            to: Option<String>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            document: Option<String>,
        },
        MapConfirmed {
            source: MapSourceForm,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            map: Option<Vec<(String, Option<String>)>>,
        },
        Cause {
            text: String,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            kind: Option<DamageCauseForm>,
        },
        Photo {
            number: String,
            shows: String,
        },
        // Safety and point of view.
        Gate {
            gate: GateKindForm,
            answer: GateAnswerForm,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            document: Option<String>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            name: Option<String>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            circuit: Option<String>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            voltage: Option<String>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            sleeve: Option<String>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            measured: Option<MeasuredForm>,
            #[serde(default, skip_serializing_if = "Vec::is_empty")]
            energy: Vec<EnergyKindForm>,
        },
        View {
            housing: String,
            face: FaceForm,
            up: String,
        },
        Anchor {
            housing: String,
            place: String,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            colour: Option<String>,
            mark: String,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            agrees: Option<bool>,
        },
        // Parts of the housings.
        Lock {
            housing: String,
            to: LockStateForm,
            finger: bool,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            why: Option<String>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            anyway: Option<AnywayForm>,
        },
        Assurance {
            housing: String,
            on: bool,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            anyway: Option<AnywayForm>,
        },
        SmallPart {
            housing: String,
            part: String,
            on: bool,
        },
        MatingHalf {
            verdict: MatingVerdictForm,
        },
        // Leads.
        Tagged {
            lead: String,
            tag: String,
        },
        Extract {
            from: String,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            colour: Option<String>,
            freely: bool,
            seal: SealForm,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            anyway: Option<AnywayForm>,
        },
        CutFree {
            from: String,
            #[serde(rename = "distance_mm")]
            distance: Millimetres,
            terminal_stayed: bool,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            circuit: Option<String>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            anyway: Option<AnywayForm>,
        },
        Loose {
            leads: Vec<(String, String)>,
        },
        Inspect {
            verdict: InspectedForm,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            found: Option<FindingForm>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            damage: Option<String>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            test_pin: Option<String>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            not_needed: Option<String>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            anyway: Option<AnywayForm>,
        },
        Insert {
            into: String,
            click: bool,
            #[serde(default, skip_serializing_if = "is_false")]
            again: bool,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            anyway: Option<AnywayForm>,
        },
        Tug {
            at: String,
            held: bool,
        },
        PutBack,
        Park {
            tag: String,
            reason: String,
        },
        TakeUp {
            tag: String,
        },
        // Plugs and other contents.
        TakePlug {
            from: String,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            anyway: Option<AnywayForm>,
        },
        FitPlug {
            into: String,
            source: PlugSourceForm,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            part: Option<String>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            spare: Option<String>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            anyway: Option<AnywayForm>,
        },
        LosePlug,
        ScrapPlug {
            reason: String,
        },
        ReturnPlug,
        LeftInOld {
            at: String,
            reason: String,
        },
        MoveOther {
            from: String,
            to: String,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            part: Option<String>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            anyway: Option<AnywayForm>,
        },
        // Repairs.
        Behind {
            housing: String,
            behind: BehindForm,
        },
        Planned {
            lead: String,
            how: RepairKindForm,
            reason: String,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            part: Option<String>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            order: Option<Box<LeadOrderForm>>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            with: Option<String>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            wires: Option<Vec<WireForm>>,
        },
        Repair {
            lead: String,
            how: RepairKindForm,
            done: String,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            part: Option<String>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            crimp: Option<Box<CrimpForm>>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            splice: Option<Box<SpliceForm>>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            made: Option<MadeLengthForm>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            anyway: Option<AnywayForm>,
        },
        Removed {
            wire: String,
            document: String,
        },
        // What is so.
        Seen {
            item: String,
            at: SeenAtForm,
            reason: String,
        },
        WrongKey,
        ReRead {
            at: String,
            colour: String,
        },
        RowCounted {
            housing: String,
            row: usize,
            wires: usize,
            plugs: usize,
            open: usize,
        },
        LookedOver {
            housing: String,
            face: FaceForm,
            #[serde(default, skip_serializing_if = "Vec::is_empty")]
            cavities: Vec<String>,
            #[serde(default = "yes", skip_serializing_if = "is_yes")]
            sound: bool,
            #[serde(default, skip_serializing_if = "Vec::is_empty")]
            found: Vec<FaceFaultForm>,
        },
        Measure {
            #[serde(default, skip_serializing_if = "Option::is_none")]
            circuit: Option<String>,
            test: TestKindForm,
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
            lines: Vec<RequestedLineForm>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            said: Option<Box<RequestSaidForm>>,
        },
        Arrived {
            line: u32,
            count: u32,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            part: Option<String>,
            #[serde(default = "as_asked", skip_serializing_if = "is_as_asked")]
            verdict: ArrivedVerdictForm,
        },
        Accept {
            flag: String,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            at: Option<String>,
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
            about: AboutForm,
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
            anyway: Option<AnywayForm>,
        },
        Sign {
            name: String,
            serial_end: String,
        },
        Stop {
            why: String,
        },
    }
}

fn yes() -> bool {
    true
}

fn is_yes(value: &bool) -> bool {
    *value
}

fn as_asked() -> ArrivedVerdictForm {
    ArrivedVerdictForm::AsAsked
}

fn is_as_asked(verdict: &ArrivedVerdictForm) -> bool {
    matches!(verdict, ArrivedVerdictForm::AsAsked)
}

fn the_job() -> AboutForm {
    AboutForm::Job
}

fn is_the_job(about: &AboutForm) -> bool {
    matches!(about, AboutForm::Job)
}

form! {
    pub(super) struct AnywayForm of Anyway {
        by: String,
        reason: String,
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        codes: Vec<String>,
    }
}

form! {
    pub(super) struct MeasuredForm of Measured {
        #[serde(default, skip_serializing_if = "Option::is_none")]
        volts: Option<String>,
        #[serde(default, skip_serializing_if = "String::is_empty")]
        between: String,
        #[serde(default, skip_serializing_if = "is_false")]
        tester_proved: bool,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        state: Option<String>,
    }
}
