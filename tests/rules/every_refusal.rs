//! Every refusal has its two sentences: one example of each variant of each topic. A variant that is
//! forgotten here does not compile.

use repin::{
    catalogue::LockState,
    face::Face,
    job::{
        Code, EnergyKind, FaceFault, Flip, GateKind, MapDifference, MapSource, OtherKind, Place, Question,
        Refusal, Relabelled, RepairKind, RowEnds, ShortLead, Sign, SpliceNear, ToolUsed, WeakSample,
        refusal::*,
    },
    quantity::Length,
    reckoning::{Height, Standing},
    record::{Difference, DifferenceKind, WireKind},
    report::{Words, refusals::words},
    shop_rules::TestKind,
};

use crate::support::Bench;

/// One refusal of each variant of a topic: a variant without an example does not compile.
macro_rules! each {
    ($of:ident: $($variant:ident $(($($value:expr),*))? $({$($field:ident: $given:expr),*})?;)*) => {{
        let _is_complete = |it: &$of| match it { $($of::$variant { .. } => (),)* };
        vec![$(Refusal::from($of::$variant $(($($value),*))? $({$($field: $given),*})?),)*]
    }};
}

/// A value of any type, as people write it.
fn v<T: std::str::FromStr<Err: std::fmt::Debug>>(text: &str) -> T {
    text.parse().unwrap()
}

/// What a lead is called, or what somebody keyed.
fn s() -> String {
    "W1".to_owned()
}

#[rustfmt::skip]
fn of_acts_and_places() -> Vec<Refusal> {
    let ends = RowEnds::Only(v("1"));
    let differs = Difference { at: v("old:1"), kind: DifferenceKind::Elsewhere { wire: s(), slot: 1, should_at: v("old:2") } };
    let unmeasured = Bench::new("sp-16", "sp-16").job.account("2026-11-25T07:00:00Z".parse().unwrap());
    let flag = Box::new(unmeasured.open_flags().next().expect("a new job has open flags").clone());
    [
        each! { ActBarrier: Stopped(s()); NoHousings; AnywayUnnamed(s()); AnywayWithoutReason; DayPast(v("2026-01-01")); SaysNothing(Saying::Why, s()); HandedOver { by: s(), to: s() }; },
        each! { TakeBackBarrier: Nothing; OthersRelyOnIt; EntryOf(s()); BeforeThisSitting; },
        each! { ActRule: Interrupted(s()); OnMachine(GateKind::Battery); GateNotPassed(GateKind::Battery); },
        each! { PlaceBarrier: NoHousing { name: v("x"), housings: vec![v("old")] }; NoSuchHousing(v("x")); NoCavity { part: v("P-1"), label: v("9") }; NoLead(v("old:1")); HandFull(Held::Lead(s())); Shut(v("new:1")); TakenByLead(v("new:1"), s()); TakenByPlug(v("new:1")); Taken(v("new:1")); },
        each! { StartBarrier: RecordUnfinished(2); },
        each! { StartRule: NoPlace(s()); ClipMissing(s()); ViewUnset(v("old")); ViewNotProved(v("old")); Undecided(Box::new(differs)); MapNotConfirmed; RowNotCounted { housing: v("old"), row: 1 }; TwoLeads(v("new:1")); NotCompared(Question::Key); },
        each! { DisagreementRule: TestFailed(TestKind::Drop, s()); ReadBack(v("new:1")); RowCount { housing: v("new"), row: 1, ends: ends }; NotSound(Face::Wire, v("new")); },
        each! { ReadingBarrier: ReReadInOld(v("old:1")); NoRow(v("old"), 9); NotOnFace(fault(), Face::Wire); SoundAndFaulty(fault()); },
        each! { ResumeBarrier: NotDue; OffAndTags; GateOpen(GateKind::Battery); ViewUnset(v("old")); NotReRead(v("new:1")); NotCounted(1, v("new")); },
        each! { SignBarrier: OtherMachine(s()); NoName; FlagsOpen(1, flag); },
        each! { MeasureBarrier: NoValue; NoCircuit(s()); OtherKind { test: TestKind::Drop, value: s(), wanted: ReadingKind::Drop }; OpenCircuit(TestKind::Drop, s()); Short(TestKind::Neighbours, s()); LimitOfOtherKind { test: TestKind::Drop, value: s(), limit: s() }; PastLimit { test: TestKind::Drop, value: s(), limit: s() }; },
    ].concat()
}

fn fault() -> FaceFault {
    FaceFault::ALL[0]
}

#[rustfmt::skip]
fn of_moves_and_records() -> Vec<Refusal> {
    let goes = Elsewhere { lead: s(), to: v("new:2"), into: v("new:1"), why: Some(Relabelled::OtherWay) };
    let differs = MapDifference { cavities: 1, from: v("old:1"), to: Some(v("new:1")), there: None };
    let other = OtherKind::Spare;
    [
        each! { LookBarrier: NoLeadInHand; WaitsForRepair { lead: s(), how: RepairKind::NewSeal, why: None }; NothingToTug(v("new:1")); TugInOld(v("old:1")); DidNotClick(s(), v("new:1")); DidClick(s(), v("new:1")); NothingToPush(v("new:1")); },
        each! { TakeOutBarrier: IsPlug(v("old:1")); IsOther(v("old:1")); Bare(v("old:1")); LeftBare { at: v("old:1"), lead: s(), place: Place::Hand }; ColourAsked(v("old:1")); OtherColour(v("old:1"), v("RD")); PullToSeat(v("old:1")); NotOnWire(v("old:1"), s()); NoLeadNamed; },
        each! { PutInBarrier: NotAWire; NothingInHand; IntoOld(v("old:1")); TakenElsewhere(goes.clone()); NoTerminal(s()); NotLookedAt(s()); NeedsRepair(s()); },
        each! { AsideBarrier: NothingToPutBack; WasCut; OriginUnknown; HoleTaken(v("old:1")); NothingToPark; NothingParked(v("T1")); NoTag(v("T1")); TagUsed(v("T1")); TagUsedForLead(v("T1")); TagOn(v("T1"), s()); },
        each! { MoveRule: LooksAlike(s()); LockShut { housing: v("old"), kind: None, lock: Some(LockState::FullSet) }; NotCut(s(), WireKind::Restraint); Elsewhere(goes); HasNoPlace(s(), v("new:1")); Unplaced(s(), v("new:1")); NoSeal(s()); ToBeJoined { other: s(), lead: s() }; LeftBehind(v("new:1")); },
        each! { PlugBarrier: NoPlugOut; LeftInNew(v("new:1")); LeadLeft(s()); NothingLeft(v("old:1")); HoldsLead(v("old:1"), s()); BelongsToOther(v("old:1")); NoPlugIn(v("old:1")); PlugIntoOld(v("old:1")); NoPlugInHand; NoPlugInTray; },
        each! { OtherBarrier: IntoOld(v("old:1")); NotWanted(v("new:1")); NoPart(v("P-1")); NoneIn(v("old:1")); },
        each! { SeenBarrier: NoItem(v("old:1")); Joined(s()); InHandAlready; ThereAlready; TakenOnRecord(v("new:1")); },
        each! { PlugRule: OtherSize { plug: None, into: v("new:1"), size: v("1.5") }; TakesWire(v("new:1")); TakesNoPlug(v("new:1")); SpareFirst(v("new:1")); NotThePart { part: v("P-1"), wanted: other, to: v("new:1") }; SpareElsewhere(v("old:1"), v("new:1")); BridgeElsewhere(v("old:1"), v("new:1")); },
        each! { WorldBarrier: TicketWritten; NameTaken(v("old")); Moved; RecordFinished; NotRecorded(2, v("old:1")); FlippedUnder(Recorded::Lead(s())); NotOneOld; NotFlipped(v("old"), Flip::Turn); },
        each! { RecordBarrier: OfNewSide(v("new:1")); LeadElsewhere(s()); PlugElsewhere(v("old:1"), Place::Tray); PartElsewhere(v("old:1"), Place::Lost); SitsThere(Recorded::Plug(v("old:1")), v("old:2")); NoWire(v("old:1")); TwistedWithItself(v("old:1")); DefinedShut(v("old:1")); },
        each! { DecisionBarrier: HasLeft(Recorded::Other(v("old:1"))); NoDifference(v("old:1")); },
        each! { SightBarrier: WithoutMatingHalf; MatingHalfAway; StillDamaged; NoFeature { part: v("P-1"), up: s(), features: vec![s()] }; ViewFirst(v("old")); NoCavityAt(v("row 1, 1 from left")); NoSmallPart { part: v("P-1"), named: s(), small_parts: vec![s()] }; },
        each! { MappingBarrier: Moved; FromNew(v("new:1")); ToOld(v("old:1")); WithoutPlace(v("old:1")); MadeOtherwise { made: v("new:1"), by: MapSource::Shop, to: v("new:2") }; Shut(v("new:1")); MappedAlready { other: v("old:1"), to: v("new:1") }; },
        each! { MapBarrier: Moved; RecordUnfinished; WithoutPlace(MapSource::Shop, v("old:1")); TwoLeads(MapSource::Shop, v("new:1")); LabelsMislead(MapSource::Shop, differs); },
        each! { HalvesBarrier: NoLock(v("P-1")); LockedSo(v("new"), LockState::PreSet); ForcedSo(v("new"), LockState::FullSet); LockBroken(v("new")); ReopenedWithoutReason(v("new")); NoAssurance(v("P-1")); MatingHalfAway; },
        each! { HalvesRule: DidNotClick(s(), v("new:1")); NotTugged(s(), v("new:1")); LockForced(v("new")); NotMatedYet; MatingHalfDamaged(s()); WireStoodBack; LockNotSet(v("new")); StepsLeft(2); },
    ].concat()
}

#[rustfmt::skip]
fn of_repairs_supply_and_gates() -> Vec<Refusal> {
    let mm = || v::<Length>("12 mm");
    let tool = || ToolUsed { tool: None, position: None };
    let weak = WeakSample { tool: tool(), force_n: 40.0, least_n: 50.0, source: "the sheet" };
    let faults = repin::job::CrimpFaults { look: Vec::new(), strip: Some((mm(), 5.0)) };
    let short = ShortLead { start: mm(), cut_mm: 90.0, asked_mm: 80.0 };
    let bad_number = "?".parse::<repin::supply::RequestNumber>().unwrap_err();
    let sheet = Height { target_mm: 1.0, tolerance_mm: 0.1 };
    [
        each! { RepairBarrier: NotOld(v("x")); NotInHand(v("old:1")); HasNoPlace(s()); Away(s(), Place::Removed); NotPlanned(s()); OtherNotOut(s()); NoSpliceOnIt; },
        each! { RemovalBarrier: NoDocument; JoinedInIt { other: s(), lead: s() }; NoSuchWire(v("old:1"), 3); OutAlready(s()); },
        each! { RepairRule: ReformedBefore(s()); HeightOut { lead: s(), height: mm(), sheet: sheet }; },
        each! { SpliceRule: SecondInWire { lead: s(), start_mm: 10.0, end_mm: 20.0 }; NotSound(s()); SealBehind(s()); Soldered(s()); Untwisted { lead: s(), over: mm(), limit_mm: 5.0 }; },
        each! { CrimpRule: Faults(s(), faults); NotProved(tool(), Standing::Never); WeakSample(weak); },
        each! { ReachRule: Near(s(), SpliceNear::Last { end_mm: 20.0, last_mm: 10.0 }); TooShort(s(), short); },
        each! { OrderBarrier: TooShort(mm()); Stripped(mm(), 40.0); ThinnerThanCopper { copper_mm: 1.0, diameter: mm() }; SleeveTooNarrow { sleeve: mm(), diameter: mm() }; Lay { diameter: mm(), lay: mm() }; TooMuchCurrent(v("0.5 mm2"), 99.0); NoSuchLoad; BeyondWithoutReason; EndsBeforeStart(mm(), mm()); },
        each! { OrderRule: Forbidden { lead: s(), kind: WireKind::Restraint, how: RepairKind::NewTerminal }; LessCopper { new: v("0.5 mm2"), lead: s(), old_mm2: 1.0, percent: -50.0 }; LowerClass(s()); NotJoined(s(), WireKind::Restraint); LessThanBoth { new: v("0.5 mm2"), other: s(), lead: s(), both_mm2: 1.0, percent: -50.0 }; },
        each! { JoinBarrier: OnlyNewLead(v("old:1")); WithWhich(s()); NotRecorded; NotToOne(v("old:1"), v("old:2")); NoDocument(s(), s()); JoinedAlready(s()); },
        each! { RequestBarrier: NextRevision(2); NoNumber(bad_number); OtherNumber(s()); },
        each! { ArrivalBarrier: NoRequest; NoLine { request: s(), line: 9 }; NothingCame; WhichPart; SamePart(v("P-1"), 1); OtherPart { part: v("P-1"), line: 1, asked: v("P-2") }; TooMany { line: 1, most: 2, came: 1, now: 2 }; },
        each! { AcceptBarrier: Unnamed(s()); NotByName(Code::InHand); NotOpenThere(Code::InHand, vec![v("old:1")]); SeveralLines(Code::Substitute, vec![1, 2]); },
        each! { GateRule: OffMachineCarries(GateKind::Restraint); HalvesMated; WhoSaysOff; NeverAbsent(GateKind::Battery); NameAndDocument(GateKind::Battery); NoSleeveColour(s()); DirectOrAlternating(v("48 V")); Speaks(GateKind::Restraint, Sign::Circuit("airbag".to_owned())); },
        each! { ReleaseRule: NoState(s()); ZeroVolts(GateKind::Battery, None); WordAlone(GateKind::StoredEnergy, Some(EnergyKind::Load)); NotDead { gate: GateKind::Battery, volts: v("12 V"), between: s() }; NotTwoPoints(s()); TesterNotProved(GateKind::Battery); },
    ].concat()
}

#[test]
fn every_refusal_has_two_sentences() {
    let all = [of_acts_and_places(), of_moves_and_records(), of_repairs_supply_and_gates()].concat();
    for refusal in &all {
        let Words { say, instead } = words(refusal);
        for sentence in [say, instead] {
            assert!(sentence.len() > 3 && !sentence.contains("{"), "{refusal:?}: {sentence}");
            // Why a job was stopped is told in the words of who stopped it.
            let is_quoted = *refusal == Refusal::from(ActBarrier::Stopped(s()));
            assert!(sentence.ends_with(['.', '?']) || is_quoted, "{refusal:?}: {sentence}");
        }
    }
}
