//! The acts of a job. An act is what somebody did or saw at the bench; it is checked, appended to
//! disk and applied, and never changed afterwards.

use jiff::civil::Date;

use crate::{
    catalogue::{Definition, LockState, PartNumber},
    colour::Colour,
    face::{Face, PosePlace},
    quantity::{Length, Voltage},
    reckoning::{DamageCause, Finding},
    record::{Address, CavityContent, HousingName, Seal},
    shop_rules::{ShopRules, TestKind},
};

mod table;

pub use table::Touches;

use super::{
    code::Code,
    face_fault::FaceFault,
    item_id::{ItemId, Tag, WireId},
    repairs::{Behind, Crimp, LeadOrder, Splice},
    term::{
        About, Anyway, ArrivedVerdict, EnergyKind, Fit, Flip, GateAnswer, GateKind, Inspected, JobSide,
        MapSource, MatingVerdict, Measured, PlugSource, Question, ReadBack, RecordSide, RepairKind,
        RequestSaid, RequestedLine, SeenAt, TicketId,
    },
};

/// Makes an enum whose fields each stand in one line with what they tell.
macro_rules! acts {
    (
        $(#[$about:meta])*
        pub enum $name:ident {
            $($(#[$doc:meta])* $act:ident $({ $($field:ident: $type:ty => $tells:literal,)* })?,)*
        }
    ) => {
        $(#[$about])*
        pub enum $name {
            $($(#[$doc])* $act $({ $(#[doc = $tells] $field: $type,)* })?,)*
        }
    };
}

acts! {
/// An act.
#[derive(Debug, Clone, PartialEq)]
pub enum Act {
    // The world the job carries.
    /// Opens the journal: which machine and connector, and why.
    Ticket {
        id: Option<TicketId> => "None in a journal of version 1.",
        asset: String => "The machine, as the shop calls it.",
        serial: String => "Its serial number; the end of it is read on the machine before signing.",
        connector: String => "The connector's name on the diagram.",
        reason: String => "Why the housing is replaced.",
        seed: u64 => "What is drawn is drawn from this: the same job asks the same holes.",
    },
    /// A housing is taken into the job, with its whole family.
    Housed {
        name: HousingName => "What the job calls it, unique over both sides.",
        side: JobSide => "Whether it is damaged or a replacement.",
        definition: Box<Definition> => "As it was that day: a job needs no library later.",
    },
    /// The shop's limits are taken into the job, as they were that day.
    Rules {
        rules: Box<ShopRules> => "All of them, each with its source.",
    },
    // Records and decisions.
    /// Somebody says what an old cavity holds, or what belongs in it.
    Recorded {
        side: RecordSide => "In which of the two records it is entered.",
        at: Address => "The old cavity; for `Should` it may be a new one.",
        holds: CavityContent => "What it holds, or should hold.",
        from: Option<(String, u32)>
            => "File and line of the list it was read from; absent when it was keyed.",
    },
    /// A record is whole: what was found is only corrected after this.
    RecordFinished {
        side: RecordSide => "Which of the two.",
    },
    /// What was recorded as found in a cavity was wrong. Nothing is moved.
    RecordCorrected {
        at: Address => "The old cavity.",
        holds: CavityContent => "What was really found in it.",
        reason: String => "Why the record was wrong.",
    },
    /// Everything found in a housing is put where it was really seen.
    RecordFlipped {
        housing: Option<HousingName> => "The old housing; may be absent where there is one only.",
        how: Flip => "How the record had been read.",
        reason: String => "What showed it.",
    },
    /// A difference between found and should is settled.
    Decided {
        at: Address => "The old cavity it shows at.",
        wins: RecordSide => "The record the new housing is to follow there.",
        reason: String => "Why that one.",
    },
    /// The new housing was held against the old one and the mating half.
    Compared {
        question: Question => "What of them was compared.",
        answer: Fit => "Whether they agree.",
        mating_half: bool => "Whether the mating half was in the hand: else it proves nothing.",
    },
    /// An old cavity gets its new one by hand; the map is then to be confirmed anew.
    Mapped {
        from: Address => "The old cavity.",
        to: Option<Address> => "The new cavity; absent when what was in the old one has no place.",
        document: Option<String> => "Needed for no place, for two into one, and against a known map.",
    },
    /// A person takes the whole map from old to new as right.
    MapConfirmed {
        source: MapSource => "Where the map came from.",
    },
    /// What damaged the connector, as far as it can be told.
    Cause {
        text: String => "The cause, in words.",
        kind: Option<DamageCause> => "Which known cause it is, with more to look at; absent when none.",
    },
    /// A photo was taken; the picture itself is kept elsewhere.
    Photo {
        number: String => "What it is found by.",
        shows: String => "What is on it, in words.",
    },
    // Safety and point of view.
    /// A safety question was answered; the last answer counts.
    Gate {
        gate: GateKind => "Which question.",
        answer: GateAnswer => "Whether the way is free: stop and don't know stop the job.",
        document: Option<String>
            => "What the answer rests on; absent only for stop, don't know, off the machine.",
        name: Option<String> => "Who answers for it; absent only for stop and don't know.",
        circuit: Option<String> => "What the diagram says runs here; absent, what was told before stands.",
        voltage: Option<Voltage> => "The highest on the diagram; absent, what was told before stands.",
        sleeve: Option<String> => "Colours of sleeves and covers, not of thin wires; absent, as told before.",
        measured: Option<Measured> => "How it is known that no energy is left.",
        energy: Vec<EnergyKind> => "The kinds of stored energy on this machine.",
    },
    /// Somebody says how a housing is held; anchors are asked by it.
    View {
        housing: HousingName => "The housing in the hand, old or new.",
        face: Face => "The face towards the eye.",
        up: String => "What is at the top: a side of the drawing, or a feature such as the latch.",
    },
    /// What was seen at one place of a housing, to prove how it is held.
    Anchor {
        housing: HousingName => "The housing in the hand, old or new.",
        place: PosePlace => "The place in the pose of the view; no label names it.",
        colour: Option<Colour> => "Of the wire there, old side only; absent where no wire goes in.",
        mark: String => "The label moulded there; at the key, what is up.",
    },
    // Parts of the housings.
    /// A secondary lock was released, set, replaced or found broken.
    Lock {
        housing: HousingName => "The housing, old or new.",
        to: LockState => "The state it is in now.",
        finger: bool => "Whether it went home with a finger; counts for full-set alone.",
        why: Option<String> => "Why a new one is opened again, or what replaces a broken one; else absent.",
        anyway: Option<Anyway> => "Who goes on although a rule says no; absent when none does.",
    },
    /// The clip that proves the latch was pushed in or pulled.
    Assurance {
        housing: HousingName => "The housing, old or new.",
        on: bool => "Whether it is in now.",
        anyway: Option<Anyway> => "Who goes on although a rule says no; absent when none does.",
    },
    /// A seal, cover or other small part was taken off or put on.
    SmallPart {
        housing: HousingName => "The housing, old or new.",
        part: String => "Its name in the housing's definition.",
        on: bool => "Whether it is on now.",
    },
    /// The other half of the connector was looked at, mended or not here.
    MatingHalf {
        verdict: MatingVerdict => "What is true of it now.",
    },
    // Leads.
    /// A tag was tied to a lead, which stays where it is.
    Tagged {
        lead: ItemId => "The lead.",
        tag: Tag => "What is written on the tag; no two leads have the same.",
    },
    /// A lead was released and drawn out; it is in the hand.
    Extract {
        from: Address => "The cavity it came out of, old or new.",
        colour: Option<Colour> => "The colour the technician saw on the wire, when it was asked.",
        freely: bool => "Whether it came without force; else its crimp is suspect.",
        seal: Seal => "Whether its seal came with it; a missing one may be in the hole.",
        anyway: Option<Anyway> => "Who goes on although a rule says no; absent when none does.",
    },
    /// A lead was cut off behind its housing; it is in the hand, without terminal.
    CutFree {
        from: Address => "The cavity it was in.",
        distance: Length => "From the rear face to the cut.",
        terminal_stayed: bool => "Whether the terminal is still in the cavity.",
        circuit: Option<String> => "What was read on the wire before the cut: number, circuit or cavity.",
        anyway: Option<Anyway> => "Who goes on although a rule says no; absent when none does.",
    },
    /// Leads fell out by accident; they are tagged and set aside at once.
    Loose {
        leads: Vec<(Address, Tag)> => "The cavity each was in, and the tag it has now.",
    },
    /// Somebody looked at terminal and seal of the lead in the hand.
    Inspect {
        verdict: Inspected => "Good, or which repair it needs.",
        found: Option<Finding> => "What was found; absent, what was found before stands until mended.",
        damage: Option<Length> => "How far behind the housing it is damaged; absent, as found before.",
        test_pin: Option<PartNumber> => "The pin a female was tried with.",
        not_needed: Option<String> => "Why the repair that was planned is not needed after all.",
        anyway: Option<Anyway> => "Who calls it good although a rule says no; absent when none does.",
    },
    /// The lead in the hand was pushed into a new cavity.
    Insert {
        into: Address => "The new cavity, by the label read on the housing.",
        click: bool => "Whether it clicked.",
        again: bool => "It sat there already and was pushed once more.",
        anyway: Option<Anyway> => "Who goes on although a rule says no; absent when none does.",
    },
    /// A lead in a new cavity was pulled at, straight and gently.
    Tug {
        at: Address => "The new cavity.",
        held: bool => "Whether it stayed; else it is in the hand.",
    },
    /// What is in the hand went back into the cavity it came from.
    PutBack,
    /// What is in the hand was tagged and set aside; a plug went into the tray.
    Park {
        tag: Tag => "What is written on the tag.",
        reason: String => "What it waits for.",
    },
    /// A lead or other part that was set aside is in the hand again.
    TakeUp {
        tag: Tag => "The tag that was read on it.",
    },
    // Plugs and other contents.
    /// A plug was taken out of its cavity; it is in the hand.
    TakePlug {
        from: Address => "The cavity it was in, old or new.",
        anyway: Option<Anyway> => "Who goes on although a rule says no; absent when none does.",
    },
    /// A plug was pushed into a new cavity.
    FitPlug {
        into: Address => "The new cavity.",
        source: PlugSource => "Where the plug was before.",
        part: Option<PartNumber> => "Its part number; absent when nobody read it.",
        spare: Option<PartNumber> => "The new spare terminal put in before it; absent for a plug alone.",
        anyway: Option<Anyway> => "Who goes on although a rule says no; absent when none does.",
    },
    /// The plug in the hand, else the last one in the tray, cannot be found.
    LosePlug,
    /// The plug in the hand, else the last one in the tray, was thrown away.
    ScrapPlug {
        reason: String => "What is wrong with it.",
    },
    /// The plug in the hand, else the last one in the tray, was given back.
    ReturnPlug,
    /// A plug or other part stays in the old housing; a lead never does.
    LeftInOld {
        at: Address => "The old cavity.",
        reason: String => "Why it stays.",
    },
    /// A spare terminal, bridge or clip was put into a new cavity, its plug with it.
    MoveOther {
        from: Address => "The old cavity it was in; of a new one, that it is drawn for.",
        to: Address => "The new cavity.",
        part: Option<PartNumber> => "A new one of this part, where the old one is missing.",
        anyway: Option<Anyway> => "Who goes on although a rule says no; absent when none does.",
    },
    // Repairs.
    /// The bundle behind an old housing was measured.
    Behind {
        housing: HousingName => "The old housing.",
        behind: Behind => "All that was measured; what was said before no longer counts.",
    },
    /// A repair is to be done; its parts are asked for. Nothing is done yet.
    Planned {
        lead: ItemId => "The lead; for a wire found nowhere, the old cavity it is drawn in.",
        how: RepairKind => "Which repair.",
        reason: String => "What was found.",
        part: Option<PartNumber> => "The part to use; absent, one that fits is looked for.",
        order: Option<Box<LeadOrder>> => "What the repair lead has to be; absent, an earlier order stands.",
        with: Option<ItemId> => "The lead it is joined with.",
    },
    /// A planned repair was done, or tried: a crimp to be made again mends nothing.
    Repair {
        lead: ItemId => "The lead in the hand, or the one that is made now.",
        how: RepairKind => "Which repair: the one that was planned.",
        done: String => "What was done, in words.",
        part: Option<PartNumber> => "The part that was used; absent when none was, or none was read.",
        crimp: Option<Box<Crimp>>
            => "The crimp's record; without it the height of a new terminal is not verified.",
        splice: Option<Box<Splice>> => "How it was spliced; only of a repair lead.",
        anyway: Option<Anyway> => "Who goes on although a rule says no; absent when none does.",
    },
    /// A wire was taken out for good: no housing of this job has a place for it.
    Removed {
        wire: WireId => "The wire, or a whole lead.",
        document: String => "What says that it may.",
    },
    // What is so.
    /// A thing is elsewhere than on record, and counts as being there from now on.
    Seen {
        item: ItemId => "Lead, plug or other; `loose/1` and on are leads nobody recorded.",
        at: SeenAt => "Where it is seen, or that nobody sees it.",
        reason: String => "How that came about, or came to be known.",
    },
    /// The last key press did not happen at the bench: all it entered is taken back.
    WrongKey,
    /// A hole of a new housing was read back, asked by its place alone.
    ReRead {
        at: Address => "The new cavity at that place.",
        colour: ReadBack => "What was seen there.",
    },
    /// A row was counted by eye.
    RowCounted {
        housing: HousingName => "The housing, old or new.",
        row: usize => "The row, from 1 at the top of the drawing.",
        wires: usize => "Terminals with wires, or all their single wires: both agree.",
        plugs: usize => "Plugs, those behind spare terminals too.",
        open: usize => "Bare holes, with or without those that are meant to be empty.",
    },
    /// A face of a housing, or single cavities of it, were looked at closely.
    LookedOver {
        housing: HousingName => "The housing, old or new.",
        face: Face => "The face towards the eye.",
        cavities: Vec<crate::face::Label> => "The cavities looked at; empty for the whole face.",
        sound: bool => "Whether all of it was as it should be.",
        found: Vec<FaceFault> => "What is not sound, where that was said.",
    },
    /// A test was made; the last one of its kind and circuit counts.
    Measure {
        circuit: Option<String> => "Wire number or circuit; absent when it is said of all.",
        test: TestKind => "Which test.",
        value: String => "What the instrument showed, with its unit; or told in words.",
        limit: Option<String> => "What it was held against; absent when nothing was named.",
        source: Option<String> => "Whose limit that is; absent when nobody said.",
        passed: bool => "Whether it passed; a value past its limit did not.",
    },
    // Parts, people, end.
    /// A parts request went to the desk.
    Requested {
        number: String => "The request's number, one for the whole job.",
        revision: u32 => "From 1, one more each time it is sent.",
        lines: Vec<RequestedLine> => "What the job waits for.",
        said: Option<Box<RequestSaid>> => "None in a journal of version 1.",
    },
    /// Parts came for a line of the request.
    Arrived {
        line: u32 => "The line's number on the request.",
        count: u32 => "How many came this time.",
        part: Option<PartNumber> => "The number on what came; absent when nobody read it.",
        verdict: ArrivedVerdict => "Whether they are what was asked for.",
    },
    /// A named person takes a flag as a deviation; it stays on record.
    Accept {
        flag: Code => "The code of the flag.",
        at: Option<Address> => "Where it shows; absent, the only flag of that code is meant.",
        by: Option<String> => "Who answers for it; absent, whoever made the entry.",
        reason: String => "Why it may stay.",
        due: Option<Date> => "When it is put right; absent when it is to stay.",
        line: Option<u32> => "The line of the request, where several show at one place.",
    },
    /// Something worth keeping was said; it changes nothing.
    Note {
        text: String => "What was said.",
        about: About => "What it is about.",
    },
    /// Another person takes the job over; all gates are asked again.
    HandOver {
        to: String => "Who takes over.",
    },
    /// The work goes on after an interruption: what had to be checked was.
    Resume {
        power_off: bool => "Whether the machine is off; it has to be.",
        tags_read: bool => "Whether every tag was read against the record; it has to be.",
    },
    /// The halves were put together, the wires at the rear watched.
    Mate {
        level: bool => "Whether they stayed level; else a terminal was pushed back.",
        anyway: Option<Anyway> => "Who goes on although a rule says no; absent when none does.",
    },
    /// A person signs that the connector is right.
    Sign {
        name: String => "Who signs.",
        serial_end: String => "The end of the serial number, read on the machine.",
    },
    /// The job ends here, unfinished; only notes and taking back come after.
    Stop {
        why: String => "Why it is stopped.",
    },
}
}
