//! The acts of a job. An act is what somebody did or saw at the bench; it is checked, appended to
//! disk and applied, and never changed afterwards.

use jiff::civil::Date;

use crate::{
    catalogue::{Definition, LockState, PartNumber},
    colour::Colour,
    face::{Face, PosePlace},
    quantity::{Length, Voltage},
    reckoning::{DamageCause, Finding},
    record::{Address, CavityContent, HousingName, Seal, Wire},
    shop_rules::{ShopRules, TestKind},
};

mod table;

pub use table::Touches;

use super::{
    cavity_map::CavityMap,
    code::Code,
    face_fault::FaceFault,
    item_id::{ItemId, Tag, WireId},
    repairs::{Behind, Crimp, LeadOrder, MadeLength, Splice},
    term::{
        About, Anyway, ArrivedVerdict, EnergyKind, Fit, Flip, GateAnswer, GateKind, Inspected, JobSide,
        MapSource, MatingVerdict, Measured, PlugSource, Question, ReadBack, RecordSide, RepairKind,
        RequestSaid, RequestedLine, SeenAt, TicketId,
    },
};

/// An act.
#[derive(Debug, Clone, PartialEq)]
#[allow(missing_docs)]
pub enum Act {
    // The world the job carries.
    Ticket {
        /// None in a journal of version 1.
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
        to: Option<Address>,
        document: Option<String>,
    },
    MapConfirmed {
        source: MapSource,
        /// The whole map as its source gave it: a fact, see `facts`.
        map: Option<CavityMap>,
    },
    Cause {
        text: String,
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
        document: Option<String>,
        name: Option<String>,
        circuit: Option<String>,
        voltage: Option<Voltage>,
        sleeve: Option<String>,
        measured: Option<Measured>,
        /// The kinds of stored energy on this machine.
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
        colour: Option<Colour>,
        mark: String,
        /// Whether both agreed with the record and the definition: a fact, see `facts`.
        agrees: Option<bool>,
    },
    // Parts of the housings.
    Lock {
        housing: HousingName,
        to: LockState,
        finger: bool,
        why: Option<String>,
        anyway: Option<Anyway>,
    },
    Assurance {
        housing: HousingName,
        on: bool,
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
        colour: Option<Colour>,
        freely: bool,
        seal: Seal,
        anyway: Option<Anyway>,
    },
    CutFree {
        from: Address,
        distance: Length,
        terminal_stayed: bool,
        circuit: Option<String>,
        anyway: Option<Anyway>,
    },
    Loose {
        leads: Vec<(Address, Tag)>,
    },
    Inspect {
        verdict: Inspected,
        found: Option<Finding>,
        damage: Option<Length>,
        /// The pin a female was tried with.
        test_pin: Option<PartNumber>,
        /// Why the repair that was planned is not needed after all.
        not_needed: Option<String>,
        anyway: Option<Anyway>,
    },
    Insert {
        into: Address,
        click: bool,
        /// It sat there already and was pushed once more.
        again: bool,
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
        anyway: Option<Anyway>,
    },
    FitPlug {
        into: Address,
        source: PlugSource,
        part: Option<PartNumber>,
        spare: Option<PartNumber>,
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
        /// A new one of this part, where the old one is missing.
        part: Option<PartNumber>,
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
        part: Option<PartNumber>,
        order: Option<Box<LeadOrder>>,
        /// The lead it is joined with.
        with: Option<ItemId>,
        /// The wires of a lead that is to be made for what is found nowhere: a fact, see `facts`.
        wires: Option<Vec<Wire>>,
    },
    Repair {
        lead: ItemId,
        how: RepairKind,
        done: String,
        part: Option<PartNumber>,
        crimp: Option<Box<Crimp>>,
        splice: Option<Box<Splice>>,
        /// How long a lead was made, by plan and by request: a fact, see `facts`.
        made: Option<MadeLength>,
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
        cavities: Vec<crate::face::Label>,
        sound: bool,
        /// What is not sound, where that was said.
        found: Vec<FaceFault>,
    },
    Measure {
        circuit: Option<String>,
        test: TestKind,
        value: String,
        limit: Option<String>,
        source: Option<String>,
        passed: bool,
    },
    // Parts, people, end.
    Requested {
        number: String,
        revision: u32,
        lines: Vec<RequestedLine>,
        /// None in a journal of version 1.
        said: Option<Box<RequestSaid>>,
    },
    Arrived {
        line: u32,
        count: u32,
        part: Option<PartNumber>,
        verdict: ArrivedVerdict,
    },
    Accept {
        flag: Code,
        at: Option<Address>,
        by: Option<String>,
        reason: String,
        due: Option<Date>,
        line: Option<u32>,
    },
    Note {
        text: String,
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
        level: bool,
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
