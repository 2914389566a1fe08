//! What stands between a connector with everything in it and its signature, each left out in turn; and
//! what a wire that moves again opens.

use repin::{
    job::{Code, Verdict},
    shop_rules::{Rule, ShopRules, TestKind},
};

use crate::support::{Bench, demo_acts};

const SIGN: &str = r#"Sign(name:"K. Tanner",serial_end:"72")"#;

/// The acts that close the class board, signature left out, and the rule each satisfies.
fn closing() -> Vec<(String, Code)> {
    let acts = demo_acts("spudrow-twin.acts");
    let first = acts.iter().position(|act| act.starts_with(r#"SmallPart(housing:"new""#)).unwrap();
    let mut closing: Vec<(String, Code)> = Vec::new();
    for act in &acts[first..acts.len() - 1] {
        let code = match act.split('(').next().unwrap() {
            "SmallPart" => Code::SmallPart,
            "LookedOver" => Code::NotLookedOver,
            "RowCounted" => Code::RowCount,
            "ReRead" => Code::NotReRead,
            "Lock" => Code::LockNotSet,
            "MatingHalf" => Code::MatingHalf,
            "Mate" => Code::NotMated,
            "Assurance" => Code::AssuranceOff,
            "Measure" => Code::TestMissing,
            other => panic!("{other} closes nothing"),
        };
        closing.push((act.clone(), code));
    }
    closing
}

/// The re-reads that are asked of this board; its act file reads every hole.
fn is_asked(bench: &Bench, act: &str) -> bool {
    let asked = bench.job.state().target().rereads;
    !act.starts_with("ReRead") || asked.iter().any(|at| act.contains(&format!("\"{at}\"")))
}

#[test]
fn each_closing_act_left_out_keeps_the_signature_away() {
    let mut left_out = 0;
    for (missing, code) in closing() {
        let mut bench = Bench::moved();
        if !is_asked(&bench, &missing) {
            continue;
        }
        left_out += 1;
        for (act, _) in closing().iter().filter(|(act, _)| *act != missing) {
            match bench.asks(act) {
                Verdict::Allowed => bench.does(act),
                // What needs the missing one before it is insisted on, and its flag stays, too.
                Verdict::Against(_) => {
                    bench.insists(act);
                }
                Verdict::Impossible(refusal) => panic!("{missing} left out: {act}: {refusal:?}"),
            }
        }
        assert!(bench.flags().contains(&code), "{missing}: no {code} among {:?}", bench.flags());
        assert!(bench.impossible(SIGN).contains("open"), "{missing}");
        assert_ne!(bench.state(), "closed", "{missing}");
    }
    assert!(left_out >= 14, "{left_out} closing acts");
}

fn closed() -> Bench {
    let mut bench = Bench::moved();
    for (act, _) in closing() {
        bench.does(&act);
    }
    bench.does(SIGN);
    assert_eq!((bench.state(), bench.flags()), ("closed", Vec::new()));
    bench
}

#[test]
fn a_wire_that_moves_after_the_closing_opens_everything_that_closed_over_it() {
    let mut bench = closed();
    let again = [
        Code::Unsigned,
        Code::NotMated,
        Code::NotLookedOver,
        Code::NotReRead,
        Code::RowCount,
        Code::TestMissing,
        Code::AssuranceOff,
        Code::LockNotSet,
    ];
    bench.does_all(&[
        r#"Lock(housing:"new",to:PreSet,finger:true,why:"wire 1 looked at again")"#,
        r#"Extract(from:"new:1",freely:true,seal:On)"#,
        "Inspect(verdict:Good)",
        r#"Insert(into:"new:1",click:true)"#,
        r#"Tug(at:"new:1",held:true)"#,
    ]);
    for code in again {
        bench.flagged(code);
    }
    assert!(bench.impossible(SIGN).contains("open"));
    // What was not touched stays: the other row, and the holes that nothing left.
    let rows: Vec<_> = bench.job.state().readings.row_counts.keys().map(|(_, row)| *row).collect();
    assert_eq!(rows, [2]);
    // Done again, it can be signed again.
    for (act, _) in
        closing().iter().filter(|(act, _)| !act.starts_with("MatingHalf") && !act.starts_with("SmallPart"))
    {
        bench.does(act);
    }
    bench.does(SIGN);
    assert_eq!(bench.state(), "closed");
}

#[test]
fn a_signature_does_not_outlive_any_act_at_the_bench() {
    for act in [
        r#"Lock(housing:"new",to:PreSet,finger:true,why:"look")"#,
        r#"Assurance(housing:"new",on:false)"#,
        r#"SmallPart(housing:"new",part:"interface seal",on:false)"#,
        r#"Seen(item:"old:3",at:Unseen,reason:"gone")"#,
        r#"Tug(at:"new:3",held:true)"#,
        "Mate(level:true)",
    ] {
        let mut bench = closed();
        bench.does(act);
        assert_eq!(bench.job.state().course.signed, None, "{act}");
        assert_ne!(bench.state(), "closed", "{act}");
    }
}

#[test]
fn closed_never_stands_beside_an_open_flag() {
    let bad = [
        r#"ReRead(at:"new:1",colour:"BK")"#,
        r#"Measure(test:Continuity,value:"open",passed:false)"#,
        r#"RowCounted(housing:"new",row:2,wires:4,plugs:3,open:1)"#,
        r#"LookedOver(housing:"new",face:Wire,sound:false)"#,
        r#"MatingHalf(verdict:Damaged("bent"))"#,
        "Mate(level:false)",
    ];
    for act in bad {
        let mut bench = closed();
        bench.does(act);
        assert!(!bench.flags().is_empty() && bench.state() != "closed", "{act}: {}", bench.state());
    }
    let mut bench = closed();
    bench.does("Gate(gate:Restraint,answer:DontKnow)");
    assert!(bench.state() != "closed" || bench.flags().is_empty(), "{}: {:?}", bench.state(), bench.flags());
}

#[test]
fn a_test_counts_for_what_it_tested_and_only_when_it_passed_last() {
    let tests = Rule::new(vec![TestKind::Continuity, TestKind::Drop, TestKind::Function], "test");
    let rules = ShopRules { tests, ..ShopRules::default() };
    let mut bench = Bench::with_rules("sp-16", "sp-16", rules);
    for act in demo_acts("spudrow-twin.acts") {
        if act.starts_with(r#"SmallPart(housing:"new""#) {
            break;
        }
        bench.does(&act);
    }
    let missing = |bench: &Bench| bench.flags().iter().filter(|code| **code == Code::TestMissing).count();
    assert_eq!(missing(&bench), 3);
    bench.does(r#"Measure(test:Continuity,value:"0.2 ohm")"#);
    assert_eq!(missing(&bench), 2);
    // A test of one circuit is none of all; a test nobody asked for stands for no other.
    bench.does(r#"Measure(test:Neighbours,value:"open")"#);
    assert_eq!(missing(&bench), 2);
    bench.does(r#"Measure(test:Drop,value:"0.1 V",limit:"0.3 V")"#);
    bench.does(r#"Measure(test:Function,value:"all work")"#);
    assert_eq!(missing(&bench), 0);
    bench.does(r#"Measure(test:Function,value:"lamp dark",passed:false)"#);
    bench.flagged(Code::TestFailed);
    // It is a step again, until it passes.
    assert_eq!(bench.job.state().tests_left(), [TestKind::Function]);
    bench.does(r#"Measure(test:Function,value:"all work")"#);
    bench.not_flagged(Code::TestFailed);
    // A circuit that failed is not mended by another that passed.
    bench.does(r#"Measure(circuit:"lamp",test:Drop,value:"2 V",passed:false)"#);
    bench.does(r#"Measure(circuit:"level",test:Drop,value:"0.1 V")"#);
    bench.flagged(Code::TestFailed);
    bench.does(r#"Measure(circuit:"lamp",test:Drop,value:"0.1 V")"#);
    bench.not_flagged(Code::TestFailed);
}

#[test]
fn a_value_past_its_limit_did_not_pass_whoever_says_so() {
    let bench = Bench::moved();
    let measure = |test: &str, value: &str, limit: &str| {
        format!(r#"Measure(test:{test},value:"{value}",limit:"{limit}",source:"manual")"#)
    };
    for (test, good, bad, limit) in [
        ("Continuity", "0.5 ohm", "0.51 ohm", "0.5 ohm"),
        ("Drop", "300 mV", "301 mV", "0.3 V"),
        ("Pair", "60 ohm", "61 ohm", "60 ohm"),
        ("Neighbours", "1 Mohm", "999 kohm", "1 Mohm"),
        ("Insulation", "10 Mohm", "9.9 Mohm", "10 Mohm"),
    ] {
        assert_eq!(bench.asks(&measure(test, good, limit)), Verdict::Allowed, "{test} {good}");
        assert!(bench.impossible(&measure(test, bad, limit)).contains("did not pass"), "{test} {bad}");
        let failed = measure(test, bad, limit).replace(")", ",passed:false)");
        assert_eq!(bench.asks(&failed), Verdict::Allowed, "{test}");
    }
    assert!(bench.impossible(r#"Measure(test:Continuity,value:" ")"#).contains("value"));
}

#[test]
fn the_lock_goes_home_over_nothing_that_is_not_seated_and_tugged() {
    let full_set = r#"Lock(housing:"new",to:FullSet,finger:true)"#;
    let mut bench = Bench::moved();
    assert_eq!(bench.asks(full_set), Verdict::Allowed);
    bench.does_all(&[r#"Extract(from:"new:5",freely:true,seal:On)"#, "Inspect(verdict:Good)"]);
    bench.does(r#"Insert(into:"new:5",click:false)"#);
    assert_eq!(bench.against(full_set), [Code::NotSeated]);
    bench.does(r#"Insert(into:"new:5",click:true,again:true)"#);
    assert_eq!(bench.against(full_set), [Code::NotTugged]);
    bench.does(r#"Tug(at:"new:5",held:true)"#);
    assert_eq!(bench.asks(full_set), Verdict::Allowed);
    assert_eq!(bench.against(&full_set.replace("finger:true", "finger:false")), [Code::LockForced]);
    // Forced, its flag stays until it went home with a finger.
    bench.insists(&full_set.replace("finger:true", "finger:false"));
    bench.flagged(Code::LockForced);
    bench.does(r#"Lock(housing:"new",to:PreSet,finger:true,why:"look for the one that stands out")"#);
    bench.does(full_set);
    bench.not_flagged(Code::LockForced);
}

#[test]
fn mating_waits_for_the_lock_the_moves_and_a_sound_half() {
    let mut bench = Bench::moved();
    assert_eq!(bench.against("Mate(level:true)"), [Code::LockNotSet]);
    bench.does(r#"Lock(housing:"new",to:FullSet,finger:true)"#);
    for (verdict, is_barred) in [
        (r#"Damaged("pin 3 bent")"#, true),
        ("Cleaned", false),
        (r#"Damaged("pin 3 bent")"#, true),
        ("Replaced", false),
        ("Good", false),
    ] {
        bench.does(&format!("MatingHalf(verdict:{verdict})"));
        match is_barred {
            true => assert!(bench.impossible("Mate(level:true)").contains("not sound"), "{verdict}"),
            false => assert_eq!(bench.asks("Mate(level:true)"), Verdict::Allowed, "{verdict}"),
        }
    }
    bench.does("MatingHalf(verdict:NotHere)");
    assert!(bench.impossible("Mate(level:true)").contains("not here"));
    let mut bench = Bench::ready();
    bench.moves("1", "RD");
    bench.does(r#"Lock(housing:"new",to:FullSet,finger:true)"#);
    assert_eq!(bench.against("Mate(level:true)"), [Code::NotMated]);
    bench.does(r#"Lock(housing:"new",to:PreSet,finger:true,why:"more to move")"#);
    bench.does(r#"Extract(from:"old:2",colour:"BK",freely:true,seal:On)"#);
    assert!(bench.impossible("Mate(level:true)").contains("hand"));
}

#[test]
fn a_harness_on_the_bench_waits_for_its_machine_and_says_so() {
    let mut bench = Bench::moved();
    bench.does("MatingHalf(verdict:NotHere)");
    for (act, _) in closing() {
        let needs_machine = ["MatingHalf", "Mate", "Assurance"];
        if !needs_machine.iter().any(|word| act.starts_with(word)) {
            bench.does(&act);
        }
    }
    assert_eq!(bench.state(), "waiting");
    assert!(bench.impossible(SIGN).contains("open"));
    assert!(bench.impossible("Compared(question:Key,answer:Fits,mating_half:true)").contains("not here"));
    bench.does("MatingHalf(verdict:Good)");
    assert_eq!(bench.state(), "ready-to-close");
}

#[test]
fn not_knowing_waits_for_the_machine_too() {
    let mut bench = Bench::ready();
    bench.does("Compared(question:Key,answer:DontKnow,mating_half:true)");
    let out = r#"Extract(from:"old:1",colour:"RD",freely:true,seal:On)"#;
    assert!(bench.against(out).contains(&Code::PartMisfit));
    bench.does("MatingHalf(verdict:NotHere)");
    assert_eq!(bench.asks(out), Verdict::Allowed);
    // At the machine it is asked again, and what differs stops it there as here.
    bench.does("MatingHalf(verdict:Good)");
    assert!(bench.against(out).contains(&Code::PartMisfit));
    let mut bench = Bench::ready();
    bench.does("Compared(question:Key,answer:Differs,mating_half:true)");
    bench.does("MatingHalf(verdict:NotHere)");
    assert!(bench.against(out).contains(&Code::PartMisfit));
}

#[test]
fn who_signs_has_a_name_and_reads_the_serial_number_on_the_machine() {
    let mut bench = Bench::moved();
    closing().iter().for_each(|(act, _)| bench.does(act));
    for end in ["", "2", "71", "4072x", "27"] {
        let sign = format!(r#"Sign(name:"K. Tanner",serial_end:"{end}")"#);
        assert!(bench.impossible(&sign).contains("serial number"), "{end}");
    }
    for name in ["", " ", "x", "-"] {
        let sign = format!(r#"Sign(name:"{name}",serial_end:"72")"#);
        assert!(bench.impossible(&sign).contains("needs a name"), "{name}");
    }
    for end in ["72", "4072", "spd-4072"] {
        assert_eq!(bench.asks(&format!(r#"Sign(name:"K. Tanner",serial_end:"{end}")"#)), Verdict::Allowed);
    }
}
