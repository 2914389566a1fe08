//! A lead goes into a hole only when it was looked at, fits, belongs there and the lock is open.

use repin::job::{Code, Verdict};

use crate::{four, support::Bench};

const OUT_1: &str = r#"Extract(from:"old:1",colour:"RD",freely:true,seal:On)"#;
const IN_1: &str = r#"Insert(into:"new:1",click:true)"#;
const GOOD: &str = "Inspect(verdict:Good)";

#[test]
fn what_was_not_looked_at_or_needs_a_repair_does_not_go_in() {
    let mut bench = Bench::ready();
    assert!(bench.impossible(IN_1).contains("nothing in the hand"));
    bench.does(OUT_1);
    assert!(bench.impossible(IN_1).contains("Nobody looked"));
    bench.does("Inspect(verdict:Needs(NewTerminal),found:TangFlat)");
    assert!(bench.impossible(IN_1).contains("needs a repair"));
    bench.insists(GOOD);
    assert_eq!(bench.asks(IN_1), Verdict::Allowed);
    // Out again it is looked at again.
    bench.does_all(&[IN_1, r#"Tug(at:"new:1",held:false)"#]);
    assert!(bench.impossible(IN_1).contains("Nobody looked"));
}

#[test]
fn a_planned_repair_is_done_or_decided_otherwise_before_it_is_good() {
    let mut bench = Bench::ready();
    bench.does(r#"Planned(lead:"old:1",how:NewTerminal,reason:"brittle at intake",part:"SP-TRM-F15")"#);
    bench.does(OUT_1);
    assert!(bench.impossible(GOOD).contains("waits for a new terminal (brittle at intake)"));
    bench.does(r#"Planned(lead:"old:1",how:Reform,reason:"only its tang is flat")"#);
    assert!(bench.impossible(GOOD).contains("tang re-formed"));
    bench.does(r#"Repair(lead:"old:1",how:Reform,done:"bent up")"#);
    bench.does(GOOD);
}

#[test]
fn the_lock_of_the_new_housing_is_open() {
    let mut bench = Bench::ready();
    bench.does_all(&[OUT_1, GOOD, r#"Lock(housing:"new",to:FullSet,finger:true)"#]);
    assert_eq!(bench.against(IN_1), [Code::LockNotReleased]);
}

#[test]
fn a_hole_that_is_taken_or_on_the_old_side_is_none() {
    let mut bench = Bench::ready();
    bench.moves("1", "RD");
    bench.does_all(&[r#"Extract(from:"old:2",colour:"BK",freely:true,seal:On)"#, GOOD]);
    let said = bench.impossible(IN_1);
    assert!(said.contains("taken") && said.contains("Put it into 2"), "{said}");
    assert!(bench.impossible(r#"Insert(into:"old:2",click:true)"#).contains("old side"));
    assert!(bench.impossible(r#"Insert(into:"new:17",click:true)"#).contains("17"));
    assert!(bench.impossible(r#"Insert(into:"old:1",click:true)"#).contains("old side"));
}

#[test]
fn what_is_put_into_the_wrong_hole_is_recordable_and_must_come_out() {
    let mut bench = Bench::ready();
    bench.does_all(&[OUT_1, GOOD]);
    assert_eq!(bench.against(r#"Insert(into:"new:3",click:true)"#), [Code::WrongCavity]);
    bench.insists(r#"Insert(into:"new:3",click:true)"#);
    bench.does(r#"Tug(at:"new:3",held:true)"#);
    bench.flagged(Code::WrongCavity);
    bench.does(r#"Extract(from:"new:3",freely:true,seal:On)"#);
    bench.does_all(&[GOOD, IN_1, r#"Tug(at:"new:1",held:true)"#]);
    bench.not_flagged(Code::WrongCavity);
}

#[test]
fn a_wire_or_terminal_that_does_not_fit_is_against_a_rule() {
    let with = |wire: &str| {
        let wires = [wire, four::WIRES[1], four::WIRES[2], r#"(number:"W4",colour:"BU",gauge:"0.5")"#];
        let mut bench = four::ready_with(four::rules(), &wires);
        bench.does_all(&[OUT_1, GOOD]);
        bench
    };
    let rows = [
        (r#"(number:"W1",colour:"RD",gauge:"0.5",outside_diameter:"1.6 mm")"#, None),
        // The edges of the wire range and of the seal.
        (r#"(number:"W1",colour:"RD",gauge:"1.0",outside_diameter:"2.1 mm")"#, None),
        (r#"(number:"W1",colour:"RD",gauge:"0.5",outside_diameter:"1.4 mm")"#, None),
        (r#"(number:"W1",colour:"RD",gauge:"1.1",outside_diameter:"1.6 mm")"#, Some(Code::WireMisfit)),
        (r#"(number:"W1",colour:"RD",gauge:"0.4",outside_diameter:"1.6 mm")"#, Some(Code::WireMisfit)),
        (r#"(number:"W1",colour:"RD",gauge:"0.5",outside_diameter:"2.2 mm")"#, Some(Code::SealRange)),
        (r#"(number:"W1",colour:"RD",gauge:"0.5",outside_diameter:"1.3 mm")"#, Some(Code::SealRange)),
    ];
    for (wire, code) in rows {
        let bench = with(wire);
        match code {
            None => assert_eq!(bench.asks(IN_1), Verdict::Allowed, "{wire}"),
            Some(code) => assert!(bench.against(IN_1).contains(&code), "{wire}: {:?}", bench.against(IN_1)),
        }
    }
}

#[test]
fn f32_something_that_stayed_in_a_new_hole_is_taken_out_before_it_is_filled_again() {
    let mut bench = Bench::moved();
    bench.does(r#"Extract(from:"new:1",freely:true,seal:Missing)"#);
    bench.flagged(Code::NotLookedOver);
    bench.does_all(&[
        r#"Planned(lead:"old:1",how:NewSeal,reason:"stayed in the hole",part:"SP-SEAL-Y")"#,
        r#"Repair(lead:"old:1",how:NewSeal,done:"renewed",part:"SP-SEAL-Y")"#,
        GOOD,
    ]);
    assert_eq!(bench.against(IN_1), [Code::NotLookedOver]);
    // Another hole that is clear says nothing of this one; nor does one that is not clear.
    bench.does(r#"LookedOver(housing:"new",face:Wire,cavities:["2"])"#);
    bench.does(r#"LookedOver(housing:"new",face:Wire,cavities:["1"],sound:false)"#);
    assert_eq!(bench.against(IN_1), [Code::NotLookedOver]);
    bench.does(r#"LookedOver(housing:"new",face:Wire,cavities:["1"])"#);
    assert_eq!(bench.asks(IN_1), Verdict::Allowed);
    // From an old housing that goes away nothing needs to come out.
    let mut bench = Bench::ready();
    bench.does(r#"Extract(from:"old:1",colour:"RD",freely:true,seal:Missing)"#);
    bench.not_flagged(Code::NotLookedOver);
}

#[test]
fn a_terminal_that_stayed_in_a_new_hole_when_its_wire_was_cut_is_taken_out() {
    for (stayed, is_flagged) in [(true, true), (false, false)] {
        let mut bench = four::ready();
        bench.does_all(&[OUT_1]);
        bench.insists(GOOD);
        bench.does_all(&[IN_1, r#"Tug(at:"new:1",held:true)"#]);
        bench.does(&format!(r#"CutFree(from:"new:1",distance_mm:50,terminal_stayed:{stayed},circuit:"W1")"#));
        assert_eq!(bench.flags().contains(&Code::NotLookedOver), is_flagged);
        bench.does(r#"Park(tag:"T1",reason:"cut")"#);
        let plug = bench.against(r#"FitPlug(into:"new:1",source:Stock)"#);
        assert_eq!(plug.contains(&Code::NotLookedOver), is_flagged);
    }
}

#[test]
fn pushed_again_is_no_second_filling_and_only_for_what_did_not_click() {
    let mut bench = Bench::ready();
    bench.does_all(&[OUT_1, GOOD, r#"Insert(into:"new:1",click:false)"#]);
    for _ in 0..4 {
        bench.does(r#"Insert(into:"new:1",click:false,again:true)"#);
        bench.flagged(Code::NotSeated);
    }
    bench.does(r#"Insert(into:"new:1",click:true,again:true)"#);
    bench.not_flagged(Code::NotSeated);
    bench.not_flagged(Code::SealWorn);
    bench.flagged(Code::NotTugged);
    let again = r#"Insert(into:"new:1",click:true,again:true)"#;
    assert!(bench.impossible(again).contains("did click"));
    assert!(bench.impossible(r#"Insert(into:"new:2",click:true,again:true)"#).contains("no lead"));
    let counts = bench.job.state().items.insertions.values().copied().collect::<Vec<_>>();
    assert_eq!(counts, [1]);
}

#[test]
fn the_third_filling_of_a_sealed_cavity_wears_its_seal() {
    let mut bench = Bench::ready();
    bench.does_all(&[OUT_1, GOOD, IN_1]);
    for filled in 2..=3 {
        bench.not_flagged(Code::SealWorn);
        bench.does_all(&[r#"Extract(from:"new:1",freely:true,seal:On)"#, GOOD, IN_1]);
        assert_eq!(bench.flags().contains(&Code::SealWorn), filled == 3);
    }
}

#[test]
fn f67_a_female_is_tried_with_the_pin_of_its_own_family() {
    let mut bench = four::ready();
    bench.does(r#"RecordCorrected(at:"old:4",holds:Wired(wires:[(number:"W4",colour:"BU",gauge:"0.5")],terminal:"B4-T"),reason:"no damage")"#);
    bench.does(r#"Extract(from:"old:4",colour:"BU",freely:true,seal:On)"#);
    let with = |pin: &str| format!(r#"Inspect(verdict:Good,test_pin:"{pin}")"#);
    // A pin of another family, and a female.
    for wrong in ["KW-TRM-M15", "B4-T", "probe 2 mm"] {
        assert_eq!(bench.against(&with(wrong)), [Code::TerminalMisfit], "{wrong}");
    }
    bench.insists(&with("KW-TRM-M15"));
    bench.flagged(Code::TerminalMisfit);
    // Said again without a pin it is not undone; tried with its own pin, or replaced, it is.
    assert_eq!(bench.against(GOOD), [Code::TerminalMisfit]);
    bench.does(&with("B4-M"));
    bench.not_flagged(Code::TerminalMisfit);
}
