//! Every answer that says something bad raises its flag and is said loudly where it is heard, and the
//! signature waits for it.

use repin::{
    job::{Act, Code, Verdict},
    report::alarm_words,
};

use crate::{four, support::Bench};

const OUT_1: &str = r#"Extract(from:"old:1",colour:"RD",freely:true,seal:On)"#;
const GOOD: &str = "Inspect(verdict:Good)";
const IN_1: &str = r#"Insert(into:"new:1",click:true)"#;
const TUG_1: &str = r#"Tug(at:"new:1",held:true)"#;
const LOCK: &str = r#"Lock(housing:"new",to:FullSet,finger:true)"#;
const HALF: &str = "MatingHalf(verdict:Good)";

/// From where a row starts.
#[derive(Clone, Copy)]
enum Start {
    /// Set up, nothing moved.
    Ready,
    /// Everything moved, nothing closed.
    Moved,
}

struct Row {
    from: Start,
    /// What is done before, allowed.
    before: &'static [&'static str],
    /// What is said.
    bad: &'static str,
    code: Code,
    /// What puts it right.
    mend: &'static [&'static str],
}

fn rows() -> Vec<Row> {
    use Start::{Moved, Ready};
    let row = |from, before, bad, code, mend| Row { from, before, bad, code, mend };
    vec![
        row(
            Ready,
            &[],
            r#"Extract(from:"old:1",colour:"RD",freely:false,seal:On)"#,
            Code::ForcedOut,
            &[
                r#"Planned(lead:"old:1",how:NewTerminal,reason:"forced",part:"SP-TRM-F15")"#,
                r#"Repair(lead:"old:1",how:NewTerminal,done:"crimped",part:"SP-TRM-F15")"#,
            ],
        ),
        row(
            Ready,
            &[],
            r#"Extract(from:"old:1",colour:"RD",freely:true,seal:Missing)"#,
            Code::SealMissing,
            &[
                r#"Planned(lead:"old:1",how:NewSeal,reason:"missing",part:"SP-SEAL-Y")"#,
                r#"Repair(lead:"old:1",how:NewSeal,done:"new seal",part:"SP-SEAL-Y")"#,
            ],
        ),
        row(
            Ready,
            &[OUT_1, GOOD],
            r#"Insert(into:"new:1",click:false)"#,
            Code::NotSeated,
            &[r#"Insert(into:"new:1",click:true,again:true)"#, TUG_1],
        ),
        row(Ready, &[OUT_1, GOOD], IN_1, Code::NotTugged, &[TUG_1]),
        row(Ready, &[OUT_1, GOOD, IN_1], r#"Tug(at:"new:1",held:false)"#, Code::InHand, &[GOOD, IN_1]),
        row(Ready, &[OUT_1], r#"Park(tag:"T9",reason:"later")"#, Code::Parked, &[r#"TakeUp(tag:"T9")"#]),
        row(
            Ready,
            &[OUT_1, GOOD, IN_1, TUG_1],
            r#"ReRead(at:"new:1",colour:"BK")"#,
            Code::WrongCavity,
            &[r#"ReRead(at:"new:1",colour:"RD")"#],
        ),
        row(
            Ready,
            &[OUT_1, GOOD, IN_1, TUG_1],
            r#"ReRead(at:"new:1",colour:"plug")"#,
            Code::WrongCavity,
            &[r#"ReRead(at:"new:1",colour:"RD")"#],
        ),
        row(
            Ready,
            &[],
            r#"Seen(item:"old:1",at:Unseen,reason:"not in its hole")"#,
            Code::WireMissing,
            &[r#"Seen(item:"old:1",at:In("old:1"),reason:"there after all")"#],
        ),
        row(
            Ready,
            &[],
            r#"Compared(question:Key,answer:Differs,mating_half:true)"#,
            Code::PartMisfit,
            &["Compared(question:Key,answer:Fits,mating_half:true)"],
        ),
        row(
            Ready,
            &[],
            r#"Compared(question:Gender,answer:DontKnow,mating_half:true)"#,
            Code::PartMisfit,
            &["Compared(question:Gender,answer:Fits,mating_half:true)"],
        ),
        row(
            Ready,
            &[r#"TakePlug(from:"old:12")"#],
            "LosePlug",
            Code::PlugMissing,
            &[r#"FitPlug(into:"new:12",source:Stock)"#],
        ),
        row(
            Ready,
            &[r#"TakePlug(from:"old:12")"#],
            r#"Park(tag:"P",reason:"into the tray")"#,
            Code::Parked,
            &[r#"FitPlug(into:"new:12",source:Tray)"#],
        ),
        row(
            Moved,
            &[],
            r#"RowCounted(housing:"new",row:1,wires:7,plugs:0,open:1)"#,
            Code::RowCount,
            &[
                r#"RowCounted(housing:"new",row:1,wires:8,plugs:0,open:0)"#,
                r#"RowCounted(housing:"new",row:2,wires:4,plugs:4,open:0)"#,
            ],
        ),
        row(
            Moved,
            &[],
            r#"LookedOver(housing:"new",face:Mating,sound:false)"#,
            Code::NotLookedOver,
            &[r#"LookedOver(housing:"new",face:Mating)"#, r#"LookedOver(housing:"new",face:Wire)"#],
        ),
        row(
            Moved,
            &[],
            r#"LookedOver(housing:"new",face:Mating,sound:false,found:[TerminalTurned])"#,
            Code::NotLookedOver,
            &[r#"LookedOver(housing:"new",face:Mating)"#, r#"LookedOver(housing:"new",face:Wire)"#],
        ),
        row(
            Moved,
            &[],
            r#"LookedOver(housing:"new",face:Wire,cavities:["3"],sound:false)"#,
            Code::NotLookedOver,
            &[
                r#"LookedOver(housing:"new",face:Wire,cavities:["3"])"#,
                r#"LookedOver(housing:"new",face:Mating)"#,
                r#"LookedOver(housing:"new",face:Wire)"#,
            ],
        ),
        row(
            Moved,
            &[],
            r#"MatingHalf(verdict:Damaged("pin 3 green"))"#,
            Code::MatingHalf,
            &["MatingHalf(verdict:Cleaned)"],
        ),
        row(
            Moved,
            &[],
            r#"MatingHalf(verdict:Damaged("pin 3 bent"))"#,
            Code::MatingHalf,
            &["MatingHalf(verdict:Replaced)"],
        ),
        row(Moved, &[], "MatingHalf(verdict:NotHere)", Code::MatingHalf, &[HALF]),
        row(
            Moved,
            &[],
            r#"Measure(test:Continuity,value:"open",passed:false)"#,
            Code::TestFailed,
            &[r#"Measure(test:Continuity,value:"0.2 ohm")"#],
        ),
        row(
            Moved,
            &[LOCK, HALF],
            "Mate(level:false)",
            Code::NotMated,
            &[r#"LookedOver(housing:"new",face:Wire)"#, "Mate(level:true)"],
        ),
        row(
            Moved,
            &[],
            r#"SmallPart(housing:"new",part:"interface seal",on:false)"#,
            Code::SmallPart,
            &[r#"SmallPart(housing:"new",part:"interface seal",on:true)"#],
        ),
        row(
            Moved,
            &[LOCK],
            r#"Lock(housing:"new",to:Broken,finger:true,why:"its finger broke off")"#,
            Code::LockNotSet,
            &[],
        ),
        row(
            Moved,
            &[],
            r#"Extract(from:"new:1",freely:true,seal:Missing)"#,
            Code::SealMissing,
            &[
                r#"Planned(lead:"old:1",how:NewSeal,reason:"missing",part:"SP-SEAL-Y")"#,
                r#"Repair(lead:"old:1",how:NewSeal,done:"new seal",part:"SP-SEAL-Y")"#,
            ],
        ),
        row(
            Moved,
            &[LOCK, HALF, "Mate(level:true)"],
            r#"Assurance(housing:"new",on:false)"#,
            Code::AssuranceOff,
            &[r#"Assurance(housing:"new",on:true)"#],
        ),
    ]
}

#[test]
fn a_bad_answer_raises_its_flag_until_it_is_put_right() {
    for Row { from, before, bad, code, mend } in rows() {
        let mut bench = match from {
            Start::Ready => Bench::ready(),
            Start::Moved => Bench::moved(),
        };
        bench.does_all(before);
        bench.does(bad);
        assert!(bench.flags().contains(&code), "{bad}: no {code} among {:?}", bench.flags());
        let sign = bench.impossible(r#"Sign(name:"K. Tanner",serial_end:"72")"#);
        assert!(sign.contains("open"), "{bad}: {sign}");
        for act in mend {
            bench.does(act);
        }
        let is_left = bench.flags().contains(&code);
        assert_eq!(is_left, mend.is_empty(), "{bad}: {code} after {mend:?}: {:?}", bench.flags());
    }
}

#[test]
fn a_fault_is_one_of_its_face_and_no_sound_face_has_one() {
    let look = |face: &str, sound: bool, fault: &str| {
        format!(r#"LookedOver(housing:"new",face:{face},sound:{sound},found:[{fault}])"#)
    };
    let bench = Bench::moved();
    for (face, fault, is_seen) in [
        ("Wire", "LipUneven", true),
        ("Mating", "LipUneven", false),
        ("Wire", "WireSlanted", true),
        ("Mating", "WireSlanted", false),
        ("Wire", "HoleDirty", true),
        ("Mating", "HoleDirty", true),
        ("Wire", "TerminalLow", false),
        ("Mating", "TerminalLow", true),
        ("Wire", "TerminalTurned", false),
        ("Mating", "TerminalTurned", true),
    ] {
        let said = bench.asks(&look(face, false, fault));
        assert_eq!(said == Verdict::Allowed, is_seen, "{face} {fault}: {said:?}");
        assert!(bench.impossible(&look(face, true, fault)).contains("face"), "{face} {fault}");
    }
}

/// What a person with gloves on must not miss.
#[test]
fn what_does_not_agree_is_said_at_once_and_what_agrees_is_not() {
    let loud = [
        (r#"Insert(into:"new:1",click:false)"#, "NO CLICK"),
        (r#"Tug(at:"new:1",held:false)"#, "DID NOT HOLD"),
        (r#"ReRead(at:"new:1",colour:"BK")"#, "DOES NOT AGREE"),
        (r#"RowCounted(housing:"new",row:1,wires:7,plugs:0,open:1)"#, "DOES NOT AGREE"),
        (r#"LookedOver(housing:"new",face:Wire,sound:false)"#, "NOT SOUND"),
        (r#"Measure(test:Continuity,value:"9 ohm",passed:false)"#, "FAILED"),
        (r#"MatingHalf(verdict:Damaged("bent"))"#, "NOT SOUND"),
        (r#"Mate(level:false)"#, "PUSHED BACK"),
        (r#"Extract(from:"new:1",freely:false,seal:On)"#, "WITH FORCE"),
        (r#"Extract(from:"new:1",freely:true,seal:Missing)"#, "SEAL IS MISSING"),
        (r#"Lock(housing:"new",to:Broken,finger:true)"#, "BROKEN"),
        (r#"LookedOver(housing:"old",face:Wire,cavities:["7"],sound:false)"#, "NOT SOUND"),
        (r#"Anchor(housing:"old",place:"row 1, 1 from left",colour:"BK",mark:"1")"#, "DOES NOT AGREE"),
        (r#"Anchor(housing:"old",place:"row 1, 1 from left",colour:"RD",mark:"9")"#, "DOES NOT AGREE"),
    ];
    let quiet = [
        r#"Extract(from:"new:1",freely:true,seal:On)"#,
        LOCK,
        r#"LookedOver(housing:"old",face:Wire,cavities:["7"])"#,
        r#"ReRead(at:"new:1",colour:"RD")"#,
        r#"RowCounted(housing:"new",row:1,wires:8,plugs:0,open:0)"#,
        r#"LookedOver(housing:"new",face:Wire)"#,
        r#"Measure(test:Continuity,value:"0.1 ohm")"#,
        HALF,
        r#"Anchor(housing:"old",place:"row 1, 1 from left",colour:"RD",mark:"1")"#,
    ];
    let said = |act: &str| {
        let mut bench = Bench::moved();
        match Bench::parse(act) {
            Act::Insert { .. } => {
                bench.does_all(&[r#"Extract(from:"new:1",freely:true,seal:On)"#, GOOD]);
            }
            Act::Mate { .. } => bench.does_all(&[LOCK, HALF]),
            _ => {}
        }
        bench.does(act);
        bench.job.state().alarm(&Bench::parse(act)).map(|alarm| alarm_words(&alarm))
    };
    for (act, word) in loud {
        assert!(said(act).is_some_and(|said| said.contains(word)), "{act}: {:?}", said(act));
    }
    for act in quiet {
        assert_eq!(said(act), None, "{act}");
    }
}

/// The first wire is out and in; then something does not agree.
#[test]
fn what_does_not_agree_stops_the_next_move_and_nothing_that_puts_it_right() {
    let rows = [
        (r#"ReRead(at:"new:1",colour:"BK")"#, Code::WrongCavity),
        (r#"RowCounted(housing:"new",row:1,wires:5,plugs:1,open:2)"#, Code::RowCount),
        (r#"LookedOver(housing:"new",face:Wire,sound:false)"#, Code::NotLookedOver),
        (r#"Measure(test:Continuity,value:"9 ohm",passed:false)"#, Code::TestFailed),
    ];
    for (bad, code) in rows {
        let mut bench = Bench::ready();
        bench.moves("1", "RD");
        bench.does(bad);
        for next in [
            r#"Extract(from:"old:2",colour:"BK",freely:true,seal:On)"#,
            r#"CutFree(from:"old:2",distance_mm:50,terminal_stayed:true,circuit:"S02")"#,
            r#"TakePlug(from:"old:12")"#,
        ] {
            assert_eq!(bench.against(next), [code], "{bad}: {next}");
        }
        // The way back stays open.
        bench.does(r#"Extract(from:"new:1",freely:true,seal:On)"#);
    }
}

/// "Good" against what is known of the lead.
#[test]
fn good_is_against_a_rule_while_something_stands_against_it() {
    let condition = |text: &str| {
        format!(
            r#"(number:"S01",circuit:"sensor feed",colour:"RD",gauge:"0.5",outside_diameter:"1.5 mm")],condition:"{text}""#
        )
    };
    for (text, is_bad) in [
        ("burnt", true),
        ("green corrosion", true),
        ("not good", true),
        ("brittle", true),
        ("good", false),
        ("OK", false),
        ("sound.", false),
        ("", false),
    ] {
        let mut bench = Bench::ready();
        let holds = condition(text);
        bench.does(&format!(r#"RecordCorrected(at:"old:1",holds:Wired(wires:[{holds}),reason:"seen")"#));
        bench.does(OUT_1);
        match is_bad {
            true => assert_eq!(bench.against(GOOD), [Code::CrimpSuspect], "{text}"),
            false => bench.does(GOOD),
        }
    }
}

#[test]
fn what_was_not_sound_beside_an_open_hole_is_not_good_in_the_hand() {
    let look = |sound: bool| format!(r#"LookedOver(housing:"old",face:Wire,cavities:["1"],sound:{sound})"#);
    for sound in [true, false] {
        let mut bench = Bench::ready();
        bench.does(&look(sound));
        bench.does(OUT_1);
        match sound {
            true => bench.does(GOOD),
            false => assert_eq!(bench.against(GOOD), [Code::CrimpSuspect]),
        }
    }
    // Looked at again and found sound, or mended, it is.
    let mut bench = Bench::ready();
    bench.does_all(&[&look(false), &look(true), OUT_1, GOOD]);
    let mut bench = Bench::ready();
    bench.does_all(&[
        &look(false),
        OUT_1,
        r#"Planned(lead:"old:1",how:NewTerminal,reason:"green",part:"SP-TRM-F15")"#,
        r#"Repair(lead:"old:1",how:NewTerminal,done:"crimped",part:"SP-TRM-F15")"#,
        GOOD,
    ]);
}

#[test]
fn what_was_found_stays_found_until_it_is_mended() {
    let findings = [
        ("TangFlat", Code::CrimpSuspect),
        ("FemaleLoose", Code::CrimpSuspect),
        ("MaleBent", Code::CrimpSuspect),
        ("Corroded", Code::CrimpSuspect),
        ("Burnt", Code::CrimpSuspect),
        ("CrimpBad", Code::CrimpSuspect),
        ("GripBad", Code::CrimpSuspect),
        ("SealBad", Code::SealMissing),
        ("InsulationOutside", Code::CrimpSuspect),
        ("InsulationUnderSeal", Code::CrimpSuspect),
        ("TooShort", Code::CrimpSuspect),
        ("Doubled", Code::CrimpSuspect),
        ("DrainBare", Code::DrainBare),
    ];
    assert_eq!(findings.len(), repin::reckoning::Finding::ALL.len());
    for (finding, code) in findings {
        let mut bench = Bench::ready();
        bench.does(OUT_1);
        let at_once = format!("Inspect(verdict:Good,found:{finding})");
        assert_eq!(bench.against(&at_once), [code], "{finding}");
        bench.does(&format!("Inspect(verdict:Needs(NewTerminal),found:{finding})"));
        assert_eq!(bench.against(GOOD), [code], "{finding}: and good after all");
        bench.insists(GOOD);
        bench.flagged(code);
        bench.does_all(&[
            r#"Planned(lead:"old:1",how:NewTerminal,reason:"found",part:"SP-TRM-F15")"#,
            r#"Repair(lead:"old:1",how:NewTerminal,done:"crimped",part:"SP-TRM-F15")"#,
            GOOD,
        ]);
        bench.not_flagged(code);
    }
}

#[test]
fn each_finding_is_mended_by_its_own_repair() {
    for finding in repin::reckoning::Finding::ALL {
        let name = format!("{finding:?}");
        for (how, part, mends) in [
            ("NewSeal", r#",part:"SP-SEAL-Y""#, vec!["SealBad"]),
            ("Reform", "", vec!["TangFlat"]),
            ("Other", "", vec!["InsulationOutside", "DrainBare"]),
        ] {
            let mut bench = Bench::ready();
            bench.does(OUT_1);
            bench.does(&format!("Inspect(verdict:Needs({how}),found:{name})"));
            bench.does(&format!(r#"Planned(lead:"old:1",how:{how},reason:"as found"{part})"#));
            bench.does(&format!(r#"Repair(lead:"old:1",how:{how},done:"done"{part})"#));
            let is_good = bench.asks(GOOD) == Verdict::Allowed;
            assert_eq!(is_good, mends.contains(&name.as_str()), "{name} after {how}");
        }
    }
}

#[test]
fn a_test_that_failed_is_passed_on_its_own_circuit() {
    let mut bench = Bench::ready();
    bench.moves("2", "BK");
    bench.does(r#"Measure(circuit:"lamp",test:Drop,value:"2 V",passed:false)"#);
    bench.does(r#"Measure(circuit:"level",test:Drop,value:"0.1 V")"#);
    assert_eq!(bench.against(OUT_1), [Code::TestFailed]);
    bench.does(r#"Measure(circuit:"lamp",test:Drop,value:"0.1 V")"#);
    bench.does(OUT_1);
}

#[test]
fn a_repair_that_does_not_touch_it_mends_nothing() {
    let mut bench = four::ready();
    bench.does(r#"Extract(from:"old:1",colour:"RD",freely:false,seal:On)"#);
    bench.does_all(&[
        r#"Planned(lead:"old:1",how:NewSeal,reason:"rolled",part:"B4-S")"#,
        r#"Repair(lead:"old:1",how:NewSeal,done:"renewed",part:"B4-S")"#,
    ]);
    // A new seal does not make a torn terminal sound, nor damaged wire.
    assert!(bench.against(GOOD).contains(&Code::CrimpSuspect));
}
