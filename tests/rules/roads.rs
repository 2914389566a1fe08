//! What was said wrong becomes right by mending it and by looking again, never by another road: by putting
//! back, by saying it once more, by a later entry that covers it.

use repin::job::{Code, Verdict};

use crate::support::{Bench, demo_acts};

const OUT_5: &str = r#"Extract(from:"new:5",colour:"BU",freely:true,seal:On)"#;
const TUG_5: &str = r#"Tug(at:"new:5",held:true)"#;
const SIGN: &str = r#"Sign(name:"K. Tanner",serial_end:"72")"#;
const LOCK: &str = r#"Lock(housing:"new",to:FullSet,finger:true)"#;
const OPEN_LOCK: &str = r#"Lock(housing:"new",to:PreSet,finger:true,why:"look again")"#;

/// The closing of the class board, as far as it is allowed, without what `leaves_out` names.
fn closed_without(bench: &mut Bench, leaves_out: impl Fn(&str) -> bool) {
    let acts = demo_acts("spudrow-twin.acts");
    let closing = acts.iter().skip_while(|act| !act.starts_with(r#"SmallPart(housing:"new""#));
    for act in closing.filter(|act| !leaves_out(act)) {
        if bench.asks(act) == Verdict::Allowed {
            bench.does(act);
        }
    }
}

/// Everything done and signed.
fn signed() -> Bench {
    let mut bench = Bench::moved();
    closed_without(&mut bench, |_| false);
    assert_eq!((bench.state(), bench.flags()), ("closed", Vec::new()));
    bench
}

#[track_caller]
fn stays_open(bench: &Bench, code: Code, what: &str) {
    assert!(bench.state() != "closed", "{what}: closed");
    assert!(bench.flags().contains(&code), "{what}: no {code} among {:?}", bench.flags());
}

#[test]
fn a_lead_put_back_into_a_new_hole_is_looked_at_counted_and_read_like_any_other() {
    let mut bench = Bench::moved();
    bench.does_all(&[OUT_5, "PutBack", TUG_5]);
    closed_without(&mut bench, |_| false);
    stays_open(&bench, Code::CrimpSuspect, "nobody looked at it");
    // What was seen while it was out says nothing about the hole it is in again.
    let mut bench = Bench::moved();
    bench.does_all(&[
        OUT_5,
        r#"LookedOver(housing:"new",face:Wire)"#,
        r#"LookedOver(housing:"new",face:Mating)"#,
        r#"RowCounted(housing:"new",row:1,wires:7,plugs:0,open:1)"#,
        r#"ReRead(at:"new:5",colour:"nothing")"#,
        "Inspect(verdict:Good)",
        "PutBack",
        TUG_5,
    ]);
    for (acts, code) in
        [("LookedOver", Code::NotLookedOver), (r#"RowCounted(housing:"new",row:1"#, Code::RowCount)]
    {
        let mut bench = Bench { job: bench.job.clone(), now: bench.now, by: bench.by.clone() };
        closed_without(&mut bench, |act| act.starts_with(acts));
        stays_open(&bench, code, acts);
    }
    // Each time is a filling of the hole.
    let mut bench = Bench::moved();
    for _ in 0..3 {
        bench.does_all(&[OUT_5, "PutBack", TUG_5]);
    }
    bench.flagged(Code::SealWorn);
    // What was said of it in the hand goes in with it.
    let mut bench = Bench::moved();
    bench.does_all(&[&OUT_5.replace("seal:On", "seal:Missing"), "PutBack", TUG_5]);
    bench.flagged(Code::SealMissing);
    // Out by a tug, back into the hole it came from.
    let mut bench = Bench::moved();
    bench.does_all(&[r#"Tug(at:"new:5",held:false)"#, "PutBack"]);
    let at = "new:5".parse().unwrap();
    assert_eq!(bench.job.state().items.lead_at(&at).unwrap().id.to_string(), "old:5");
    bench.flagged(Code::NotTugged);
}

#[test]
fn a_lead_that_is_only_seen_in_its_new_hole_is_not_good_by_that() {
    let mut bench = Bench::ready();
    bench.does(r#"Seen(item:"old:5",at:In("new:5"),reason:"sits there")"#);
    bench.does(TUG_5);
    bench.flagged(Code::CrimpSuspect);
    bench.does_all(&[OUT_5, "PutBack", TUG_5]);
    bench.flagged(Code::CrimpSuspect);
    bench.does_all(&[OUT_5, "Inspect(verdict:Good)", r#"Insert(into:"new:5",click:true)"#, TUG_5]);
    bench.not_flagged(Code::CrimpSuspect);
}

#[test]
fn what_did_not_agree_stays_until_it_is_made_again() {
    // A hole that was read wrong is read again at the end, asked for or not.
    let wrong = r#"ReRead(at:"new:5",colour:"GN")"#;
    let again = [OUT_5, "Inspect(verdict:Good)", r#"Insert(into:"new:5",click:true)"#, TUG_5];
    let mut bench = Bench::moved();
    bench.does(wrong);
    bench.does_all(&again);
    closed_without(&mut bench, |act| act.starts_with(r#"ReRead(at:"new:5""#));
    stays_open(&bench, Code::WrongCavity, "read wrong once");
    let mut bench = Bench::moved();
    bench.does_all(&[wrong, r#"ReRead(at:"new:5",colour:"BU")"#]);
    bench.does_all(&again);
    let target = bench.job.state().target();
    assert!(target.rereads.contains(&"new:5".parse().unwrap()));
    closed_without(&mut bench, |act| act.starts_with(r#"ReRead(at:"new:5""#));
    stays_open(&bench, Code::NotReRead, "read right, then moved");
    // Counts and looks of the old housing, gone past by name.
    let out = r#"Extract(from:"old:1",colour:"RD",freely:true,seal:On)"#;
    for (bad, good, code) in [
        (
            r#"RowCounted(housing:"old",row:1,wires:7,plugs:0,open:1)"#,
            r#"RowCounted(housing:"old",row:1,wires:7,plugs:0,open:1)"#,
            Code::RowCount,
        ),
        (
            r#"LookedOver(housing:"old",face:Wire,sound:false,found:[WireSlanted])"#,
            r#"LookedOver(housing:"old",face:Wire)"#,
            Code::NotLookedOver,
        ),
    ] {
        let mut bench = Bench::ready();
        bench.does(bad);
        bench.flagged(code);
        assert_eq!(bench.insists(out), [code]);
        bench.flagged(code);
        // Now seven are there to be counted.
        bench.does(good);
        bench.not_flagged(code);
    }
}

#[test]
fn nothing_is_locked_or_mated_over_a_reading_that_does_not_agree() {
    for (bad, code) in [
        (r#"ReRead(at:"new:3",colour:"BK")"#, Code::WrongCavity),
        (r#"RowCounted(housing:"new",row:1,wires:7,plugs:0,open:1)"#, Code::RowCount),
        (r#"LookedOver(housing:"new",face:Wire,sound:false)"#, Code::NotLookedOver),
    ] {
        let mut bench = Bench::moved();
        bench.does(bad);
        assert!(bench.against(LOCK).contains(&code), "{bad}");
        let mut bench = Bench::moved();
        bench.does_all(&[LOCK, "MatingHalf(verdict:Good)", bad]);
        assert!(bench.against("Mate(level:true)").contains(&code), "{bad}");
    }
}

#[test]
fn the_same_key_said_again_mends_nothing() {
    // A wire that went back at mating is looked for before the next try.
    let mut bench = signed();
    bench.does("Mate(level:false)");
    assert!(bench.against("Mate(level:true)").contains(&Code::NotSeated));
    bench.flagged(Code::AssuranceOff);
    bench.does_all(&[r#"LookedOver(housing:"new",face:Wire)"#, "Mate(level:true)"]);
    bench.flagged(Code::NotLookedOver);
    // A damaged half does not get better by a look.
    let mut bench = signed();
    bench.does(r#"MatingHalf(verdict:Damaged("pin 3 bent"))"#);
    bench.flagged(Code::MatingHalf);
    assert!(bench.impossible("MatingHalf(verdict:Good)").contains("cleaned or replaced"));
    bench.does("MatingHalf(verdict:Cleaned)");
    // It was parted to be cleaned.
    stays_open(&bench, Code::NotMated, "cleaned");
    bench.flagged(Code::AssuranceOff);
    // A broken lock is a new lock.
    let mut bench = Bench::moved();
    bench.does(r#"Lock(housing:"new",to:Broken,finger:true)"#);
    assert!(bench.impossible(LOCK).contains("broken"));
    bench.does(r#"Lock(housing:"new",to:FullSet,finger:true,why:"new lock SP-LOCK-16 fitted")"#);
    // A lock that was forced is opened first.
    let mut bench = Bench::moved();
    bench.insists(r#"Lock(housing:"new",to:FullSet,finger:false)"#);
    assert!(bench.impossible(LOCK).contains("open it"));
    bench.flagged(Code::LockForced);
    bench.does_all(&[OPEN_LOCK, LOCK]);
    bench.not_flagged(Code::LockForced);
}

#[test]
fn what_parts_the_halves_is_mated_and_tested_again() {
    for acts in [
        vec![OPEN_LOCK, LOCK],
        vec![
            r#"SmallPart(housing:"new",part:"interface seal",on:false)"#,
            r#"SmallPart(housing:"new",part:"interface seal",on:true)"#,
        ],
        vec!["MatingHalf(verdict:Replaced)"],
    ] {
        let mut bench = signed();
        bench.does_all(&acts);
        for code in [Code::NotMated, Code::AssuranceOff, Code::TestMissing] {
            stays_open(&bench, code, acts[0]);
        }
    }
}

#[test]
fn a_record_corrected_later_is_held_against_what_was_read_accepted_and_signed() {
    let green = r#"RecordCorrected(at:"old:3",holds:Wired(wires:[(number:"S03",circuit:"seed pulse left",colour:"GN/YE",gauge:"0.5")]),reason:"looked again")"#;
    let mut bench = signed();
    bench.does(green);
    bench.does(r#"Decided(at:"old:3",wins:Found,reason:"as seen")"#);
    // It was read back in another colour.
    stays_open(&bench, Code::WrongCavity, "read back before");
    // The signature was under another record.
    let mut bench = signed();
    bench.does(r#"Recorded(side:Should,at:"old:16",holds:Plugged)"#);
    assert_eq!(bench.flags(), [Code::Unsigned]);
    // What was accepted was what stood there.
    let mut bench = Bench::ready();
    bench.does(green);
    bench.does(r#"Decided(at:"old:3",wins:Should,reason:"by the diagram")"#);
    bench.flagged(Code::ColourDiffers);
    bench.does(r#"Accept(flag:"colour-differs",at:"old:3",reason:"labelled at both ends")"#);
    bench.not_flagged(Code::ColourDiffers);
    bench.does(&green.replace("GN/YE", "OG/YE"));
    bench.does(r#"Decided(at:"old:3",wins:Should,reason:"by the diagram")"#);
    bench.flagged(Code::ColourDiffers);
}

#[test]
fn a_correction_brings_nothing_back_that_left_its_hole() {
    let out = [r#"TakePlug(from:"old:12")"#];
    for then in [
        vec![],
        vec![r#"ScrapPlug(reason:"cut")"#],
        vec!["LosePlug"],
        vec!["ReturnPlug"],
        vec![r#"FitPlug(into:"new:12",source:Hand)"#],
    ] {
        let mut bench = Bench::ready();
        bench.does_all(&out);
        bench.does_all(&then);
        let plugs = bench.job.account(bench.now).plugs;
        for holds in ["Plugged", "Empty", "Open", r#"Wired(wires:[(colour:"BK",gauge:"0.5")])"#, "Spare()"] {
            let act = format!(r#"RecordCorrected(at:"old:12",holds:{holds},reason:"seen")"#);
            assert!(bench.impossible(&act).contains("recorded in old:12"), "{then:?} {holds}");
        }
        assert_eq!(bench.job.account(bench.now).plugs, plugs);
    }
    // What sits there now is spoken of first.
    let mut bench = Bench::ready();
    bench.does(r#"TakePlug(from:"old:12")"#);
    bench.does(r#"Park(tag:"T1",reason:"later")"#);
    bench.does(r#"Seen(item:"old:14",at:In("old:12"),reason:"pushed in there")"#);
    let act = r#"RecordCorrected(at:"old:12",holds:Empty,reason:"seen")"#;
    assert!(matches!(bench.asks(act), Verdict::Impossible(_)));
    let mut bench = Bench::ready();
    bench.does(r#"RecordCorrected(at:"old:12",holds:Empty,reason:"no plug")"#);
    bench.does(r#"Decided(at:"old:12",wins:Found,reason:"as seen")"#);
    bench.does(r#"Seen(item:"old:14",at:In("old:12"),reason:"pushed in there")"#);
    let act = r#"RecordCorrected(at:"old:12",holds:Plugged,reason:"a plug")"#;
    assert!(bench.impossible(act).contains("sits in old:12"));
    // A spare terminal that was moved is not found anew.
    let mut bench = Bench::ready();
    bench.does(r#"RecordCorrected(at:"old:12",holds:Spare(),reason:"a terminal")"#);
    bench.does(r#"Decided(at:"old:12",wins:Found,reason:"as seen")"#);
    bench.does(r#"MoveOther(from:"old:12",to:"new:12")"#);
    let act = r#"RecordCorrected(at:"old:12",holds:Spare(),reason:"seen again")"#;
    assert!(bench.impossible(act).contains("recorded in old:12"));
    // Where everything is at home the record is corrected.
    Bench::ready().does(r#"RecordCorrected(at:"old:12",holds:Empty,reason:"seen")"#);
}

#[test]
fn a_reading_is_one_of_its_test_and_what_shows_a_fault_did_not_pass() {
    let bench = Bench::moved();
    for (test, value, rest, why) in [
        ("Continuity", "OL", "", "open circuit"),
        ("Continuity", "open", "", "open circuit"),
        ("Continuity", "24.3 V", "", "not a reading"),
        ("Continuity", "x", "", "needs its value"),
        ("Continuity", "24.3 V", r#",limit:"0.5 ohm",source:"manual""#, "not a reading"),
        ("Continuity", "0.1 ohm", r#",limit:"0.5 V",source:"manual""#, "cannot be held against"),
        ("Continuity", "0.9 ohm", r#",limit:"0.5 ohm",source:"manual""#, "past its limit"),
        ("Continuity", "0.1 ohm", r#",circuit:"W999""#, "No wire of this job"),
        ("Drop", "3 ohm", "", "not a reading"),
        ("Drop", "open", "", "open circuit"),
        ("Pair", "open", "", "open circuit"),
        ("Neighbours", "0.2 ohm", "", "is a short"),
        ("Neighbours", "99 ohm", "", "is a short"),
        ("Neighbours", "12 V", "", "not a reading"),
        ("Insulation", "0 ohm", "", "is a short"),
    ] {
        let said = bench.impossible(&format!(r#"Measure(test:{test},value:"{value}"{rest})"#));
        assert!(said.contains(why), "{test} {value} {rest}: {said}");
    }
    // A fault is recorded as one, and right readings are taken.
    for (test, value, rest) in [
        ("Continuity", "OL", ",passed:false"),
        ("Neighbours", "0.2 ohm", ",passed:false"),
        ("Continuity", "0.2 ohm", r#",circuit:"S01""#),
        ("Continuity", "0.2 ohm", r#",circuit:"Sensor Feed""#),
        ("Neighbours", "100 ohm", ""),
        ("Neighbours", "OL", ""),
        ("Neighbours", "open, all pairs", ""),
        ("Drop", "180 mV", ""),
        ("Drop", "2 %", ""),
        ("Insulation", "20 Mohm", ""),
        ("Function", "all rows sow", ""),
    ] {
        let act = format!(r#"Measure(test:{test},value:"{value}"{rest})"#);
        assert_eq!(bench.asks(&act), Verdict::Allowed, "{act}");
    }
}

#[test]
fn what_has_to_be_said_in_words_says_something() {
    let mut bench = Bench::ready();
    bench.does(r#"TakePlug(from:"old:12")"#);
    let says = |text: &str| {
        [
            format!(r#"HandOver(to:"{text}")"#),
            format!(r#"Stop(why:"{text}")"#),
            format!(r#"Cause(text:"{text}")"#),
            format!(r#"Photo(number:"{text}",shows:"wire side")"#),
            format!(r#"ScrapPlug(reason:"{text}")"#),
            format!(r#"Park(tag:"T9",reason:"{text}")"#),
            format!(r#"Park(tag:"{text}",reason:"later")"#),
            format!(r#"Tagged(lead:"old:1",tag:"{text}")"#),
            format!(r#"LeftInOld(at:"old:14",reason:"{text}")"#),
            format!(r#"Planned(lead:"old:1",how:NewTerminal,reason:"{text}")"#),
            format!(r#"Seen(item:"old:1",at:Unseen,reason:"{text}")"#),
            format!(r#"RecordCorrected(at:"old:16",holds:Plugged,reason:"{text}")"#),
            format!(r#"RecordFlipped(how:Mirror,reason:"{text}")"#),
            format!(r#"MatingHalf(verdict:Damaged("{text}"))"#),
            format!(r#"Loose(leads:[("old:1","{text}")])"#),
            format!(
                r#"Extract(from:"old:1",colour:"RD",freely:true,seal:On,anyway:(by:"K. Tanner",reason:"{text}"))"#
            ),
        ]
    };
    for nothing in ["x", "-", "=", "none", "?"] {
        for act in says(nothing) {
            assert!(matches!(bench.asks(&act), Verdict::Impossible(_)), "{act}: {:?}", bench.asks(&act));
        }
    }
    let refused = |act: &String| matches!(bench.asks(act), Verdict::Impossible(_));
    let told = says("said in words");
    // A record is not flipped and no second thing is taken while a plug is in the hand: for that alone.
    let still: Vec<&String> = told.iter().filter(|act| refused(act)).collect();
    assert!(
        still.iter().all(|act| act.starts_with("RecordFlipped") || act.starts_with("Extract")),
        "{still:?}"
    );
    // A day that is past is no day by which anything is put right.
    let accept = |due: &str| format!(r#"Accept(flag:"in-hand",reason:"later",due:"{due}")"#);
    assert!(bench.impossible(&accept("2026-11-24")).contains("is past"));
    assert_eq!(bench.asks(&accept("2026-11-25")), Verdict::Allowed);
}

#[test]
fn who_handed_over_works_no_more_under_the_old_name() {
    let mut bench = Bench::ready();
    bench.does(r#"HandOver(to:"J. Ode")"#);
    let gate = r#"Gate(gate:Restraint,answer:Absent,document:"diagram 7-14",name:"J. Ode",sleeve:"none")"#;
    assert!(bench.impossible(gate).contains("handed the job over to J. Ode"));
    assert!(bench.impossible(SIGN).contains("handed the job over"));
    // A look and a note are for everybody.
    bench.does(r#"Note(text:"the tags are in the tray")"#);
    bench.by = "jo".to_owned();
    bench.does(gate);
    // Who handed over may come back, as another person who goes on.
    bench.by = "kt".to_owned();
    assert_eq!(bench.asks(gate), Verdict::Allowed);
    bench.by = "jo".to_owned();
    // Whoever works on it now may hand it back.
    bench.does(r#"HandOver(to:"kt")"#);
    assert!(bench.impossible(gate).contains("handed the job over to kt"));
    bench.by = "kt".to_owned();
    bench.does(gate);
}

#[test]
fn while_a_gate_is_open_nothing_is_done_to_the_connector() {
    let work = [
        OUT_5,
        r#"TakePlug(from:"new:12")"#,
        LOCK,
        "Mate(level:true)",
        r#"Assurance(housing:"new",on:true)"#,
        r#"SmallPart(housing:"new",part:"interface seal",on:true)"#,
        r#"Measure(test:Continuity,value:"0.2 ohm")"#,
        r#"Tug(at:"new:5",held:true)"#,
    ];
    for answer in ["DontKnow", "Stop"] {
        for gate in ["Battery", "StoredEnergy", "Restraint", "HighVoltage", "Interlock"] {
            let mut bench = Bench::moved();
            bench.does(&format!("Gate(gate:{gate},answer:{answer})"));
            for act in work {
                assert!(bench.impossible(act).contains("gate"), "{gate} {answer}: {act}");
            }
            bench.flagged(Code::GateOpen);
        }
    }
    // The next day, signed or not, somebody else is asked them first.
    let mut bench = signed();
    bench.waits_h(24);
    bench.by = "jo".to_owned();
    assert!(bench.impossible(OPEN_LOCK).contains("gate"));
    // What hangs in the old housing is taken out as a move, and not by a tug.
    let mut bench = Bench::ready();
    assert!(bench.impossible(r#"Tug(at:"old:1",held:false)"#).contains("not tugged"));
    bench.does(r#"Loose(leads:[("old:1","T1")])"#);
}
