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
pub enum Act {
    // The world the job carries.
    /// Opens the journal: which machine and connector, and why.
    Ticket {
        /// None in a journal of version 1.
        id: Option<TicketId>,
        /// The machine, as the shop calls it.
        asset: String,
        /// Its serial number; the end of it is read on the machine before signing.
        serial: String,
        /// The connector's name on the diagram.
        connector: String,
        /// Why the housing is replaced.
        reason: String,
        /// What is drawn is drawn from this: the same job asks the same holes.
        seed: u64,
    },
    /// A housing is taken into the job, with its whole family.
    Housed {
        /// What the job calls it, unique over both sides.
        name: HousingName,
        /// Whether it is damaged or a replacement.
        side: JobSide,
        /// As it was that day: a job needs no library later.
        definition: Box<Definition>,
    },
    /// The shop's limits are taken into the job, as they were that day.
    Rules {
        /// All of them, each with its source.
        rules: Box<ShopRules>,
    },
    // Records and decisions.
    /// Somebody says what an old cavity holds, or what belongs in it.
    Recorded {
        /// In which of the two records it is entered.
        side: RecordSide,
        /// The old cavity; for `Should` it may be a new one.
        at: Address,
        /// What it holds, or should hold.
        holds: CavityContent,
        /// File and line of the list it was read from; absent when it was keyed.
        from: Option<(String, u32)>,
    },
    /// A record is whole: what was found is only corrected after this.
    RecordFinished {
        /// Which of the two.
        side: RecordSide,
    },
    /// What was recorded as found in a cavity was wrong. Nothing is moved.
    RecordCorrected {
        /// The old cavity.
        at: Address,
        /// What was really found in it.
        holds: CavityContent,
        /// Why the record was wrong.
        reason: String,
    },
    /// Everything found in a housing is put where it was really seen.
    RecordFlipped {
        /// The old housing; may be absent where there is one only.
        housing: Option<HousingName>,
        /// How the record had been read.
        how: Flip,
        /// What showed it.
        reason: String,
    },
    /// A difference between found and should is settled.
    Decided {
        /// The old cavity it shows at.
        at: Address,
        /// The record the new housing is to follow there.
        wins: RecordSide,
        /// Why that one.
        reason: String,
    },
    /// The new housing was held against the old one and the mating half.
    Compared {
        /// What of them was compared.
        question: Question,
        /// Whether they agree.
        answer: Fit,
        /// Whether the mating half was in the hand: else it proves nothing.
        mating_half: bool,
    },
    /// An old cavity gets its new one by hand; the map is then to be confirmed anew.
    Mapped {
        /// The old cavity.
        from: Address,
        /// The new cavity; absent when what was in the old one has no place.
        to: Option<Address>,
        /// Needed for no place, for two into one, and against a known map.
        document: Option<String>,
    },
    /// A person takes the whole map from old to new as right.
    MapConfirmed {
        /// Where the map came from.
        source: MapSource,
        /// The whole map as its source gave it: a fact the program writes, see `facts`.
        map: Option<CavityMap>,
    },
    /// What damaged the connector, as far as it can be told.
    Cause {
        /// The cause, in words.
        text: String,
        /// Which known cause it is, with more to look at; absent when none.
        kind: Option<DamageCause>,
    },
    /// A photo was taken; the picture itself is kept elsewhere.
    Photo {
        /// What it is found by.
        number: String,
        /// What is on it, in words.
        shows: String,
    },
    // Safety and point of view.
    /// A safety question was answered; the last answer counts.
    Gate {
        /// Which question.
        gate: GateKind,
        /// Whether the way is free: stop and don't know stop the job.
        answer: GateAnswer,
        /// What the answer rests on; absent only for stop, don't know, off the machine.
        document: Option<String>,
        /// Who answers for it; absent only for stop and don't know.
        name: Option<String>,
        /// What the diagram says runs here; absent, what was told before stands.
        circuit: Option<String>,
        /// The highest on the diagram; absent, what was told before stands.
        voltage: Option<Voltage>,
        /// Colours of sleeves and covers, not of thin wires; absent, as told before.
        sleeve: Option<String>,
        /// How it is known that no energy is left.
        measured: Option<Measured>,
        /// The kinds of stored energy on this machine.
        energy: Vec<EnergyKind>,
    },
    /// Somebody says how a housing is held; anchors are asked by it.
    View {
        /// The housing in the hand, old or new.
        housing: HousingName,
        /// The face towards the eye.
        face: Face,
        /// What is at the top: a side of the drawing, or a feature such as the latch.
        up: String,
    },
    /// What was seen at one place of a housing, to prove how it is held.
    Anchor {
        /// The housing in the hand, old or new.
        housing: HousingName,
        /// The place in the pose of the view; no label names it.
        place: PosePlace,
        /// Of the wire there, old side only; absent where no wire goes in.
        colour: Option<Colour>,
        /// The label moulded there; at the key, what is up.
        mark: String,
        /// Whether both agreed with the record and the definition: a fact the program writes.
        agrees: Option<bool>,
    },
    // Parts of the housings.
    /// A secondary lock was released, set, replaced or found broken.
    Lock {
        /// The housing, old or new.
        housing: HousingName,
        /// The state it is in now.
        to: LockState,
        /// Whether it went home with a finger; counts for full-set alone.
        finger: bool,
        /// Why a new one is opened again, or what replaces a broken one; else absent.
        why: Option<String>,
        /// Who goes on although a rule says no; absent when none does.
        anyway: Option<Anyway>,
    },
    /// The clip that proves the latch was pushed in or pulled.
    Assurance {
        /// The housing, old or new.
        housing: HousingName,
        /// Whether it is in now.
        on: bool,
        /// Who goes on although a rule says no; absent when none does.
        anyway: Option<Anyway>,
    },
    /// A seal, cover or other small part was taken off or put on.
    SmallPart {
        /// The housing, old or new.
        housing: HousingName,
        /// Its name in the housing's definition.
        part: String,
        /// Whether it is on now.
        on: bool,
    },
    /// The other half of the connector was looked at, mended or not here.
    MatingHalf {
        /// What is true of it now.
        verdict: MatingVerdict,
    },
    // Leads.
    /// A tag was tied to a lead, which stays where it is.
    Tagged {
        /// The lead.
        lead: ItemId,
        /// What is written on the tag; no two leads have the same.
        tag: Tag,
    },
    /// A lead was released and drawn out; it is in the hand.
    Extract {
        /// The cavity it came out of, old or new.
        from: Address,
        /// The colour the technician saw on the wire, when it was asked.
        colour: Option<Colour>,
        /// Whether it came without force; else its crimp is suspect.
        freely: bool,
        /// Whether its seal came with it; a missing one may be in the hole.
        seal: Seal,
        /// Who goes on although a rule says no; absent when none does.
        anyway: Option<Anyway>,
    },
    /// A lead was cut off behind its housing; it is in the hand, without terminal.
    CutFree {
        /// The cavity it was in.
        from: Address,
        /// From the rear face to the cut.
        distance: Length,
        /// Whether the terminal is still in the cavity.
        terminal_stayed: bool,
        /// What was read on the wire before the cut: number, circuit or cavity.
        circuit: Option<String>,
        /// Who goes on although a rule says no; absent when none does.
        anyway: Option<Anyway>,
    },
    /// Leads fell out by accident; they are tagged and set aside at once.
    Loose {
        /// The cavity each was in, and the tag it has now.
        leads: Vec<(Address, Tag)>,
    },
    /// Somebody looked at terminal and seal of the lead in the hand.
    Inspect {
        /// Good, or which repair it needs.
        verdict: Inspected,
        /// What was found; absent, what was found before stands until mended.
        found: Option<Finding>,
        /// How far behind the housing it is damaged; absent, as found before.
        damage: Option<Length>,
        /// The pin a female was tried with.
        test_pin: Option<PartNumber>,
        /// Why the repair that was planned is not needed after all.
        not_needed: Option<String>,
        /// Who calls it good although a rule says no; absent when none does.
        anyway: Option<Anyway>,
    },
    /// The lead in the hand was pushed into a new cavity.
    Insert {
        /// The new cavity, by the label read on the housing.
        into: Address,
        /// Whether it clicked.
        click: bool,
        /// It sat there already and was pushed once more.
        again: bool,
        /// Who goes on although a rule says no; absent when none does.
        anyway: Option<Anyway>,
    },
    /// A lead in a new cavity was pulled at, straight and gently.
    Tug {
        /// The new cavity.
        at: Address,
        /// Whether it stayed; else it is in the hand.
        held: bool,
    },
    /// What is in the hand went back into the cavity it came from.
    PutBack,
    /// What is in the hand was tagged and set aside; a plug went into the tray.
    Park {
        /// What is written on the tag.
        tag: Tag,
        /// What it waits for.
        reason: String,
    },
    /// A lead or other part that was set aside is in the hand again.
    TakeUp {
        /// The tag that was read on it.
        tag: Tag,
    },
    // Plugs and other contents.
    /// A plug was taken out of its cavity; it is in the hand.
    TakePlug {
        /// The cavity it was in, old or new.
        from: Address,
        /// Who goes on although a rule says no; absent when none does.
        anyway: Option<Anyway>,
    },
    /// A plug was pushed into a new cavity.
    FitPlug {
        /// The new cavity.
        into: Address,
        /// Where the plug was before.
        source: PlugSource,
        /// Its part number; absent when nobody read it.
        part: Option<PartNumber>,
        /// The new spare terminal put in before it; absent for a plug alone.
        spare: Option<PartNumber>,
        /// Who goes on although a rule says no; absent when none does.
        anyway: Option<Anyway>,
    },
    /// The plug in the hand, else the last one in the tray, cannot be found.
    LosePlug,
    /// The plug in the hand, else the last one in the tray, was thrown away.
    ScrapPlug {
        /// What is wrong with it.
        reason: String,
    },
    /// The plug in the hand, else the last one in the tray, was given back.
    ReturnPlug,
    /// A plug or other part stays in the old housing; a lead never does.
    LeftInOld {
        /// The old cavity.
        at: Address,
        /// Why it stays.
        reason: String,
    },
    /// A spare terminal, bridge or clip was put into a new cavity, its plug with it.
    MoveOther {
        /// The old cavity it was in; of a new one, that it is drawn for.
        from: Address,
        /// The new cavity.
        to: Address,
        /// A new one of this part, where the old one is missing.
        part: Option<PartNumber>,
        /// Who goes on although a rule says no; absent when none does.
        anyway: Option<Anyway>,
    },
    // Repairs.
    /// The bundle behind an old housing was measured.
    Behind {
        /// The old housing.
        housing: HousingName,
        /// All that was measured; what was said before no longer counts.
        behind: Behind,
    },
    /// A repair is to be done; its parts are asked for. Nothing is done yet.
    Planned {
        /// The lead; for a wire found nowhere, the old cavity it is drawn in.
        lead: ItemId,
        /// Which repair.
        how: RepairKind,
        /// What was found.
        reason: String,
        /// The part to use; absent, one that fits is looked for.
        part: Option<PartNumber>,
        /// What the repair lead has to be; absent, an earlier order stands.
        order: Option<Box<LeadOrder>>,
        /// The lead it is joined with.
        with: Option<ItemId>,
        /// The wires of a lead that is to be made for what is found nowhere, none for any other: a fact the
        /// program writes.
        wires: Option<Vec<Wire>>,
    },
    /// A planned repair was done, or tried: a crimp to be made again mends nothing.
    Repair {
        /// The lead in the hand, or the one that is made now.
        lead: ItemId,
        /// Which repair: the one that was planned.
        how: RepairKind,
        /// What was done, in words.
        done: String,
        /// The part that was used; absent when none was, or none was read.
        part: Option<PartNumber>,
        /// The crimp's record; without it the height of a new terminal is not verified.
        crimp: Option<Box<Crimp>>,
        /// How it was spliced; only of a repair lead.
        splice: Option<Box<Splice>>,
        /// How long a new lead was made, by plan and by request: a fact the program writes.
        made: Option<MadeLength>,
        /// Who goes on although a rule says no; absent when none does.
        anyway: Option<Anyway>,
    },
    /// A wire was taken out for good: no housing of this job has a place for it.
    Removed {
        /// The wire, or a whole lead.
        wire: WireId,
        /// What says that it may.
        document: String,
    },
    // What is so.
    /// A thing is elsewhere than on record, and counts as being there from now on.
    Seen {
        /// Lead, plug or other; `loose/1` and on are leads nobody recorded.
        item: ItemId,
        /// Where it is seen, or that nobody sees it.
        at: SeenAt,
        /// How that came about, or came to be known.
        reason: String,
    },
    /// The last key press did not happen at the bench: all it entered is taken back.
    WrongKey,
    /// A hole of a new housing was read back, asked by its place alone.
    ReRead {
        /// The new cavity at that place.
        at: Address,
        /// What was seen there.
        colour: ReadBack,
    },
    /// A row was counted by eye.
    RowCounted {
        /// The housing, old or new.
        housing: HousingName,
        /// The row, from 1 at the top of the drawing.
        row: usize,
        /// Terminals with wires, or all their single wires: both agree.
        wires: usize,
        /// Plugs, those behind spare terminals too.
        plugs: usize,
        /// Bare holes, with or without those that are meant to be empty.
        open: usize,
    },
    /// A face of a housing, or single cavities of it, were looked at closely.
    LookedOver {
        /// The housing, old or new.
        housing: HousingName,
        /// The face towards the eye.
        face: Face,
        /// The cavities looked at; empty for the whole face.
        cavities: Vec<crate::face::Label>,
        /// Whether all of it was as it should be.
        sound: bool,
        /// What is not sound, where that was said.
        found: Vec<FaceFault>,
    },
    /// A test was made; the last one of its kind and circuit counts.
    Measure {
        /// Wire number or circuit; absent when it is said of all.
        circuit: Option<String>,
        /// Which test.
        test: TestKind,
        /// What the instrument showed, with its unit; or told in words.
        value: String,
        /// What it was held against; absent when nothing was named.
        limit: Option<String>,
        /// Whose limit that is; absent when nobody said.
        source: Option<String>,
        /// Whether it passed; a value past its limit did not.
        passed: bool,
    },
    // Parts, people, end.
    /// A parts request went to the desk.
    Requested {
        /// The request's number, one for the whole job.
        number: String,
        /// From 1, one more each time it is sent.
        revision: u32,
        /// What the job waits for.
        lines: Vec<RequestedLine>,
        /// None in a journal of version 1.
        said: Option<Box<RequestSaid>>,
    },
    /// Parts came for a line of the request.
    Arrived {
        /// The line's number on the request.
        line: u32,
        /// How many came this time.
        count: u32,
        /// The number on what came; absent when nobody read it.
        part: Option<PartNumber>,
        /// Whether they are what was asked for.
        verdict: ArrivedVerdict,
    },
    /// A named person takes a flag as a deviation; it stays on record.
    Accept {
        /// The code of the flag.
        flag: Code,
        /// Where it shows; absent, the only flag of that code is meant.
        at: Option<Address>,
        /// Who answers for it; absent, whoever made the entry.
        by: Option<String>,
        /// Why it may stay.
        reason: String,
        /// When it is put right; absent when it is to stay.
        due: Option<Date>,
        /// The line of the request, where several show at one place.
        line: Option<u32>,
    },
    /// Something worth keeping was said; it changes nothing.
    Note {
        /// What was said.
        text: String,
        /// What it is about.
        about: About,
    },
    /// Another person takes the job over; all gates are asked again.
    HandOver {
        /// Who takes over.
        to: String,
    },
    /// The work goes on after an interruption: what had to be checked was.
    Resume {
        /// Whether the machine is off; it has to be.
        power_off: bool,
        /// Whether every tag was read against the record; it has to be.
        tags_read: bool,
    },
    /// The halves were put together, the wires at the rear watched.
    Mate {
        /// Whether they stayed level; else a terminal was pushed back.
        level: bool,
        /// Who goes on although a rule says no; absent when none does.
        anyway: Option<Anyway>,
    },
    /// A person signs that the connector is right.
    Sign {
        /// Who signs.
        name: String,
        /// The end of the serial number, read on the machine.
        serial_end: String,
    },
    /// The job ends here, unfinished; only notes and taking back come after.
    Stop {
        /// Why it is stopped.
        why: String,
    },
}
