//! Every cause of a flag and every alarm has its sentences: one example of each variant. A variant that is
//! forgotten here does not compile.

use repin::{
    face::Face,
    job::{
        Alarm, BundleCause, ClosingCause, Code, CrimpCause, CrimpFaults, DecidedCause, FitCause, Flag,
        FlagCause, GateKind, HousingCause, JobSide, LeadCause, LeftToDo, Misfit, NoPlan, Objection,
        OrderCause, OtherCause, OtherKind, OutFault, PlugCause, Question, ReadBack, ReadingCause,
        RecordCause, RowEnds, ShortLead, Sign, SpliceCause, SpliceNear, SpokenPlace, StartCause, ToolUsed,
        Undone, Unsound, WeakSample, WireMissing,
        refusal::{NotPlannable, OrderBarrier},
    },
    reckoning::{Finding, Height, LookFault},
    record::{Difference, DifferenceKind, WireKind},
    report::{alarm_words, flag_words},
    shop_rules::TestKind,
};

/// Examples of a type, a pattern and a value for each of its variants: what has no example does not compile.
macro_rules! examples {
    ($of:ty: $($pattern:pat => $example:expr,)*) => {{
        let is_given = |example: &$of| match example { $($pattern => (),)* };
        let examples: Vec<$of> = vec![$({
            let example: $of = $example;
            assert!(matches!(&example, $pattern), "{example:?} stands at another variant");
            example
        },)*];
        examples.iter().for_each(is_given);
        examples
    }};
}

/// A value of any type, as people write it.
fn v<T: std::str::FromStr<Err: std::fmt::Debug>>(text: &str) -> T {
    text.parse().unwrap()
}

fn text() -> String {
    "said so.".to_owned()
}

fn tool() -> ToolUsed {
    ToolUsed { tool: Some("T-9".to_owned()), position: None }
}

#[rustfmt::skip]
fn start() -> Vec<StartCause> {
    let sign = Sign::Circuit("airbag".to_owned());
    examples! { StartCause:
        StartCause::GateStops(_) => StartCause::GateStops(GateKind::Battery),
        StartCause::GateAbsent { .. } => StartCause::GateAbsent { gate: GateKind::Restraint, sign },
        StartCause::GateLapsed(_) => StartCause::GateLapsed(GateKind::Battery),
        StartCause::GateOpenAgain(_) => StartCause::GateOpenAgain(GateKind::Battery),
        StartCause::ViewUnset(_) => StartCause::ViewUnset(v("new")),
        StartCause::AnchorFailed { .. } => StartCause::AnchorFailed {
            housing: v("old"), side: JobSide::Old, place: SpokenPlace::Key, colour: None, mark: text(), fits: vec![],
        },
        StartCause::Interrupted { .. } => StartCause::Interrupted { why: "a pause".to_owned() },
    }
}

#[rustfmt::skip]
fn fit() -> Vec<FitCause> {
    examples! { FitCause:
        FitCause::Blocked { .. } => FitCause::Blocked { lead: text(), to: v("new:1") },
        FitCause::Unmapped { .. } => FitCause::Unmapped { lead: text(), from: v("old:1") },
        FitCause::Clash { .. } => FitCause::Clash { leads: vec![v("old:1"), v("old:2")], at: v("new:1") },
        FitCause::HousingDiffers(_) => FitCause::HousingDiffers(Question::Key),
        FitCause::ClipMissing(_) => FitCause::ClipMissing(text()),
        FitCause::PairSplit { .. } => FitCause::PairSplit { from: (v("1"), v("2")), to: (v("new:1"), v("new:5")) },
        FitCause::FoundOpen(_) => FitCause::FoundOpen(v("1")),
        FitCause::FoundEmpty(_) => FitCause::FoundEmpty(v("1")),
    }
}

#[rustfmt::skip]
fn records() -> Vec<RecordCause> {
    let kind = DifferenceKind::Extra { wire: text(), slot: 1 };
    examples! { RecordCause:
        RecordCause::Differs(_) => RecordCause::Differs(Difference { at: v("old:1"), kind }),
        RecordCause::LookAlike { .. } => RecordCause::LookAlike { at: vec![text(), text()], looks: text() },
        RecordCause::Unknown { .. } => RecordCause::Unknown { lead: text() },
        RecordCause::NoPhoto => RecordCause::NoPhoto,
        RecordCause::NoCause => RecordCause::NoCause,
    }
}

#[rustfmt::skip]
fn decided() -> Vec<DecidedCause> {
    let missing = |there| DecidedCause::WireMissing { wires: vec![text()], label: v("1"), there };
    examples! { DecidedCause:
        DecidedCause::Colour { .. } => DecidedCause::Colour { wire: text(), found: v("RD"), drawn: v("BK") },
        DecidedCause::Name { .. } => DecidedCause::Name { wire: text(), found: text(), drawn: text() },
        DecidedCause::Kind { .. } => DecidedCause::Kind { wire: text(), found: WireKind::Ordinary, drawn: WireKind::Restraint },
        DecidedCause::WireMissing { there: WireMissing::OtherLead, .. } => missing(WireMissing::OtherLead),
        DecidedCause::WireMissing { there: WireMissing::Parted(_), .. } => missing(WireMissing::Parted(text())),
        DecidedCause::WireMissing { there: WireMissing::NoLead, .. } => missing(WireMissing::NoLead),
        DecidedCause::OtherMissing { .. } => DecidedCause::OtherMissing { kind: OtherKind::Spare, at: v("new:1") },
    }
}

#[rustfmt::skip]
fn leads() -> Vec<LeadCause> {
    examples! { LeadCause:
        LeadCause::InHand => LeadCause::InHand,
        LeadCause::Parked(_) => LeadCause::Parked(v("T1")),
        LeadCause::Unseen => LeadCause::Unseen,
        LeadCause::WrongCavity { .. } => LeadCause::WrongCavity { at: v("new:1"), goes: None },
        LeadCause::NoClick(_) => LeadCause::NoClick(v("new:1")),
        LeadCause::NotTugged(_) => LeadCause::NotTugged(v("new:1")),
        LeadCause::ReformedTwice => LeadCause::ReformedTwice,
        LeadCause::NotCalledGood => LeadCause::NotCalledGood,
        LeadCause::ForcedOut => LeadCause::ForcedOut,
        LeadCause::LastTime(_) => LeadCause::LastTime(3.0),
    }
}

#[rustfmt::skip]
fn objections() -> Vec<Objection> {
    let unsound = examples! { Unsound:
        Unsound::Forced => Unsound::Forced,
        Unsound::Recorded(_) => Unsound::Recorded(None),
        Unsound::Damaged(_) => Unsound::Damaged(20.0),
        Unsound::SealMissing => Unsound::SealMissing,
        Unsound::Found(_) => Unsound::Found(Finding::Corroded),
        Unsound::NobodyElse(_) => Unsound::NobodyElse(vec![v("old:1"), v("old:2")]),
        Unsound::TriedWith(_) => Unsound::TriedWith(v("P-1")),
        Unsound::Parted => Unsound::Parted,
    };
    let undone = examples! { Undone:
        Undone::Parting(_) => Undone::Parting(vec![text()]),
        Undone::Thicker(_) => Undone::Thicker(1.5),
    };
    let misfits = examples! { Misfit:
        Misfit::TerminalSize { .. } => Misfit::TerminalSize { part: v("P-1"), size: v("1.5"), to: v("new:1"), takes: v("2.8") },
        Misfit::OtherFamily { .. } => Misfit::OtherFamily { part: v("P-1"), housing: v("H-1") },
        Misfit::NoTerminal { .. } => Misfit::NoTerminal { area_mm2: 6.0, to: v("new:1") },
        Misfit::NoSeal { .. } => Misfit::NoSeal { diameter: v("1.9 mm"), to: v("new:1") },
        Misfit::Part { .. } => Misfit::Part { part: v("P-1"), to: v("new:1") },
        Misfit::Plating { .. } => Misfit::Plating { part: v("P-1"), new: text(), old: text() },
        Misfit::OtherWire { .. } => Misfit::OtherWire { lead: text(), own: v("0.5"), claimed: v("1.5") },
    };
    let unsound = unsound.into_iter().map(|how| Objection::Unsound { lead: text(), how });
    let undone = undone.into_iter().map(|what| Objection::Undone { lead: text(), what });
    unsound.chain(undone).chain(misfits.into_iter().map(Objection::Misfit)).collect()
}

#[rustfmt::skip]
fn crimps() -> Vec<CrimpCause> {
    let faults = CrimpFaults { look: vec![LookFault::Cracked], strip: Some((v("5 mm"), 4.0)) };
    let weak = WeakSample { tool: tool(), force_n: 40.0, least_n: 60.0, source: "a table" };
    let sheet = Height { target_mm: 1.2, tolerance_mm: 0.05 };
    examples! { CrimpCause:
        CrimpCause::NoRecord => CrimpCause::NoRecord,
        CrimpCause::HeightOut { .. } => CrimpCause::HeightOut { height: v("1.4 mm"), sheet },
        CrimpCause::NotMeasured => CrimpCause::NotMeasured,
        CrimpCause::NoSheet => CrimpCause::NoSheet,
        CrimpCause::Faults(_) => CrimpCause::Faults(faults),
        CrimpCause::WeakSample(_) => CrimpCause::WeakSample(weak),
        CrimpCause::OtherSize { .. } => CrimpCause::OtherSize { made_for: v("0.5"), now: v("1.5") },
        CrimpCause::NotProved { .. } => CrimpCause::NotProved { tool: tool(), book: None },
    }
}

#[rustfmt::skip]
fn splices() -> Vec<SpliceCause> {
    let mut splices = examples! { SpliceCause:
        SpliceCause::SplicedBefore => SpliceCause::SplicedBefore,
        SpliceCause::Two => SpliceCause::Two,
        SpliceCause::NotRecorded => SpliceCause::NotRecorded,
        SpliceCause::Near(_) => SpliceCause::Near(SpliceNear::KeptFree { from_mm: 10.0, to_mm: 20.0 }),
        SpliceCause::TooShort(_) => SpliceCause::TooShort(ShortLead { start: v("90 mm"), cut_mm: 120.0, asked_mm: 100.0 }),
        SpliceCause::NotSound => SpliceCause::NotSound,
        SpliceCause::Soldered(_) => SpliceCause::Soldered(text()),
        SpliceCause::Untwisted(_) => SpliceCause::Untwisted(v("60 mm")),
        SpliceCause::UntwistedNotMeasured => SpliceCause::UntwistedNotMeasured,
    };
    let near = examples! { SpliceNear:
        SpliceNear::Housing { .. } => SpliceNear::Housing { start: v("20 mm"), clearance_mm: 40.0 },
        SpliceNear::Damage { .. } => SpliceNear::Damage { start: v("20 mm"), damage_mm: 10.0, margin_mm: 20.0 },
        SpliceNear::KeptFree { .. } => SpliceNear::KeptFree { from_mm: 10.0, to_mm: 20.0 },
        SpliceNear::Last { .. } => SpliceNear::Last { end_mm: 300.0, last_mm: 250.0 },
        SpliceNear::Splice { .. } => SpliceNear::Splice { gap_mm: 30.0, from_mm: 60.0, to_mm: 90.0 },
    };
    splices.extend(near.into_iter().map(SpliceCause::Near));
    splices
}

#[rustfmt::skip]
fn orders() -> Vec<OrderCause> {
    examples! { OrderCause:
        OrderCause::NotAllowed(_) => OrderCause::NotAllowed(NotPlannable::Barrier(OrderBarrier::NoSuchLoad)),
        OrderCause::UntwistedAsFound { .. } => OrderCause::UntwistedAsFound {
            length: v("60 mm"), limit_mm: 50.0, source: text(),
        },
        OrderCause::Stale { .. } => OrderCause::Stale { asked_mm: 100.0, needs_mm: 120.0 },
        OrderCause::Drop { .. } => OrderCause::Drop {
            drop_v: 1.0, percent: 8.0, limit_percent: 3.0, source: text(),
        },
        OrderCause::TerminalTakes { .. } => OrderCause::TerminalTakes {
            terminal: v("P-1"), gauge: v("4"), wire_mm2: (0.5, 1.0),
        },
        OrderCause::SharedHole => OrderCause::SharedHole,
    }
}

#[rustfmt::skip]
fn bundles() -> Vec<BundleCause> {
    let none = |why, room_mm| BundleCause::NoPlan { why, housing: v("old"), room_mm };
    examples! { BundleCause:
        BundleCause::NoPlan { why: NoPlan::TooMany(_), .. } => none(NoPlan::TooMany(13), None),
        BundleCause::NoPlan { why: NoPlan::NoPlace(_), room_mm: None, .. } => none(NoPlan::NoPlace(vec![text()]), None),
        BundleCause::NoPlan { why: NoPlan::NoPlace(_), room_mm: Some(_), .. } => {
            none(NoPlan::NoPlace(vec![text(), text()]), Some(12.0))
        },
        BundleCause::TooManySplices { .. } => BundleCause::TooManySplices { count: 7, most: 6, housing: v("old") },
        BundleCause::ManyLeads { .. } => BundleCause::ManyLeads { leads: 4, wires: 8, one_in: 3 },
    }
}

#[rustfmt::skip]
fn plugs() -> Vec<PlugCause> {
    examples! { PlugCause:
        PlugCause::InHand => PlugCause::InHand,
        PlugCause::InTray => PlugCause::InTray,
        PlugCause::Lost(_) => PlugCause::Lost(v("1")),
        PlugCause::Prefitted { of_use_in: Some(_), .. } => PlugCause::Prefitted { at: v("new:1"), of_use_in: Some(v("new:2")) },
        PlugCause::Prefitted { of_use_in: None, .. } => PlugCause::Prefitted { at: v("new:1"), of_use_in: None },
        PlugCause::WrongCavity(_) => PlugCause::WrongCavity(v("new:1")),
        PlugCause::Size { .. } => PlugCause::Size { at: v("new:1"), plug: v("1.5"), cavity: v("2.8") },
    }
}

#[rustfmt::skip]
fn others() -> Vec<OtherCause> {
    let kind = || OtherKind::Bridge("diode".to_owned());
    examples! { OtherCause:
        OtherCause::OutOfPlace { .. } => OtherCause::OutOfPlace { kind: kind(), at: v("new:1") },
        OtherCause::SetAside(_) => OtherCause::SetAside(OtherKind::Spare),
        OtherCause::Gone { .. } => OtherCause::Gone { kind: kind(), id: v("old:1") },
    }
}

#[rustfmt::skip]
fn housings() -> Vec<HousingCause> {
    examples! { HousingCause:
        HousingCause::LockForced(_) => HousingCause::LockForced(v("new")),
        HousingCause::LockWorn { .. } => HousingCause::LockWorn { housing: v("new"), openings: 5 },
        HousingCause::LeftBehind(_) => HousingCause::LeftBehind(v("old:1")),
        HousingCause::SealWorn { .. } => HousingCause::SealWorn { at: v("new:1"), fillings: 4 },
        HousingCause::MatingHalfDamaged(_) => HousingCause::MatingHalfDamaged(text()),
        HousingCause::AssuranceForced(_) => HousingCause::AssuranceForced(v("new")),
        HousingCause::WirePushedBack => HousingCause::WirePushedBack,
    }
}

#[rustfmt::skip]
fn readings() -> Vec<ReadingCause> {
    examples! { ReadingCause:
        ReadingCause::FaceNotSound { .. } => ReadingCause::FaceNotSound {
            housing: v("new"), face: Face::Wire, found: vec![],
        },
        ReadingCause::NeighboursNotLookedAt(_) => ReadingCause::NeighboursNotLookedAt(vec![v("1"), v("2")]),
        ReadingCause::TestFailed { .. } => ReadingCause::TestFailed {
            test: TestKind::Continuity, value: "open".to_owned(), limit: Some(("1 ohm".to_owned(), String::new())),
        },
        ReadingCause::RowReadIn { .. } => ReadingCause::RowReadIn { housing: v("old"), row: 1 },
        ReadingCause::RowDiffers { .. } => ReadingCause::RowDiffers { housing: v("new"), row: 1, ends: RowEnds::NoRow },
        ReadingCause::ReadElse { .. } => ReadingCause::ReadElse { at: v("new:1"), by: text() },
    }
}

#[rustfmt::skip]
fn closing() -> Vec<ClosingCause> {
    examples! { ClosingCause:
        ClosingCause::SmallPartOff { .. } => ClosingCause::SmallPartOff { part: text(), housing: v("new") },
        ClosingCause::NotLookedOver { .. } => ClosingCause::NotLookedOver { housing: v("new"), face: Face::Mating },
        ClosingCause::NotCounted { .. } => ClosingCause::NotCounted { housing: v("new"), row: 1 },
        ClosingCause::LockNotSet(_) => ClosingCause::LockNotSet(v("new")),
        ClosingCause::AssuranceOff(_) => ClosingCause::AssuranceOff(v("new")),
        ClosingCause::NotReRead => ClosingCause::NotReRead,
        ClosingCause::MatingHalfNotHere => ClosingCause::MatingHalfNotHere,
        ClosingCause::MatingHalfNotLookedAt => ClosingCause::MatingHalfNotLookedAt,
        ClosingCause::NotMated => ClosingCause::NotMated,
        ClosingCause::TestBeforeMove(_) => ClosingCause::TestBeforeMove(TestKind::Pair),
        ClosingCause::TestNotMade(_) => ClosingCause::TestNotMade(TestKind::Pair),
        ClosingCause::Unsigned => ClosingCause::Unsigned,
    }
}

fn lefts() -> Vec<LeftToDo> {
    examples! { LeftToDo:
        LeftToDo::Records(_) => LeftToDo::Records(2),
        LeftToDo::Moves { others: 0, .. } => LeftToDo::Moves { wires: 1, plugs: 0, others: 0 },
        LeftToDo::Moves { .. } => LeftToDo::Moves { wires: 1, plugs: 0, others: 1 },
        LeftToDo::Steps => LeftToDo::Steps,
    }
}

/// Every cause: the causes of a topic from its examples.
#[rustfmt::skip]
fn every_cause() -> Vec<FlagCause> {
    let topics: Vec<Vec<FlagCause>> = vec![
        start().into_iter().map(FlagCause::Start).collect(),
        fit().into_iter().map(FlagCause::Fit).collect(),
        records().into_iter().map(FlagCause::Record).collect(),
        decided().into_iter().map(FlagCause::Decided).collect(),
        leads().into_iter().map(|what| FlagCause::Lead { lead: text(), what }).collect(),
        objections().into_iter().map(FlagCause::Objection).collect(),
        crimps().into_iter().map(|what| FlagCause::Crimp { lead: text(), what }).collect(),
        splices().into_iter().map(|what| FlagCause::Splice { lead: text(), what }).collect(),
        orders().into_iter().map(|what| FlagCause::Order { lead: text(), what }).collect(),
        bundles().into_iter().map(FlagCause::Bundle).collect(),
        plugs().into_iter().map(FlagCause::Plug).collect(),
        others().into_iter().map(FlagCause::Other).collect(),
        housings().into_iter().map(FlagCause::Housing).collect(),
        readings().into_iter().map(FlagCause::Reading).collect(),
        closing().into_iter().map(FlagCause::Closing).collect(),
        lefts().into_iter().map(FlagCause::NotFinished).collect(),
        vec![
            FlagCause::Substitute { part: None, line: 1 },
            FlagCause::Passed { code: Code::LookAlike, by: text(), reason: text() },
            FlagCause::Temporary { due: v("2099-12-01"), reason: text() },
        ],
    ];
    for cause in topics.iter().flatten() {
        match cause {
            FlagCause::Start(_) | FlagCause::Record(_) | FlagCause::Decided(_) | FlagCause::Fit(_)
            | FlagCause::Lead { .. } | FlagCause::Objection(_) | FlagCause::Crimp { .. }
            | FlagCause::Splice { .. } | FlagCause::Order { .. } | FlagCause::Bundle(_)
            | FlagCause::Plug(_) | FlagCause::Other(_) | FlagCause::Housing(_) | FlagCause::Reading(_)
            | FlagCause::Closing(_) | FlagCause::NotFinished(_) | FlagCause::Substitute { .. }
            | FlagCause::Passed { .. } | FlagCause::Temporary { .. } => (),
        }
    }
    topics.into_iter().flatten().collect()
}

#[rustfmt::skip]
fn flag(cause: FlagCause) -> Flag {
    Flag { cause, side: None, housing: None, at: None, item: None, circuit: None, line: None, accepted: None }
}

/// A sentence ends with a full stop, or asks.
fn is_said(sentence: &str) -> bool {
    sentence.len() > 1 && sentence.ends_with(['.', '?']) && !sentence.contains("  ")
}

#[test]
fn every_cause_of_a_flag_has_a_code_and_two_sentences() {
    for cause in every_cause() {
        let flag = flag(cause);
        let words = flag_words(&flag);
        assert!(is_said(&words.say), "{flag:?}: {}", words.say);
        assert!(is_said(&words.instead), "{flag:?}: {}", words.instead);
        assert_eq!(flag.code().as_str().parse(), Ok(flag.code()));
    }
}

#[test]
fn no_two_causes_are_told_alike() {
    let told = |cause: &FlagCause| flag_words(&flag(cause.clone()));
    let causes = every_cause();
    for (n, one) in causes.iter().enumerate() {
        let alike = causes.iter().take(n).find(|other| told(other) == told(one) && *other != one);
        assert!(alike.is_none(), "{one:?} and {alike:?}");
    }
}

#[rustfmt::skip]
#[test]
fn every_alarm_has_its_sentence() {
    let faults = vec![OutFault::WithForce, OutFault::SealMissing];
    let alarms = examples! { Alarm:
        Alarm::ReadElse { .. } => Alarm::ReadElse { at: v("new:1"), saw: ReadBack::Plug },
        Alarm::RowDiffers { .. } => Alarm::RowDiffers { housing: v("new"), row: 1, ends: RowEnds::Only(v("1")) },
        Alarm::FaceNotSound { .. } => Alarm::FaceNotSound { housing: v("new"), face: Face::Wire },
        Alarm::CavitiesNotSound { .. } => Alarm::CavitiesNotSound { housing: v("old"), cavities: vec![v("1")] },
        Alarm::CameOut { .. } => Alarm::CameOut { from: v("old:1"), faults },
        Alarm::LockBroken(_) => Alarm::LockBroken(v("new")),
        Alarm::LockForced(_) => Alarm::LockForced(v("new")),
        Alarm::TestFailed(_) => Alarm::TestFailed(TestKind::Drop),
        Alarm::AnchorFailed { .. } => Alarm::AnchorFailed {
            housing: v("old"), place: v("row 1, 1 from left"), colour: Some(v("RD")), mark: text(),
        },
        Alarm::DidNotHold(_) => Alarm::DidNotHold(v("new:1")),
        Alarm::NoClick(_) => Alarm::NoClick(v("new:1")),
        Alarm::WirePushedBack => Alarm::WirePushedBack,
        Alarm::MatingHalfDamaged(_) => Alarm::MatingHalfDamaged(text()),
        Alarm::OfNoUse(_) => Alarm::OfNoUse(1),
        Alarm::Substitute(_) => Alarm::Substitute(1),
    };
    for alarm in alarms {
        assert!(is_said(&alarm_words(&alarm)), "{alarm:?}: {}", alarm_words(&alarm));
    }
}
