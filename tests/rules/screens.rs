//! What is asked at the bench: a bad answer has a key of its own, a wrong value is said when it is
//! keyed, and what was said can be said anew.

use repin::{
    job::{Act, ArrivedVerdict, Code, GateKind, MatingVerdict},
    report::flag_words,
    screen::{Palette, Theme},
};

use crate::{
    desk::Desk,
    four,
    support::{Bench, demo_acts},
};

const PLAIN: Theme = Theme { palette: Palette::None, ascii: true };

/// The picture without its line breaks, so that a sentence reads on.
fn picture(desk: &mut Desk) -> String {
    let picture = desk.picture(120, 40, PLAIN);
    picture.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[track_caller]
fn shows(desk: &mut Desk, text: &str) {
    let picture = picture(desk);
    assert!(picture.contains(text), "\"{text}\" is not on:\n{picture}");
}

fn last(desk: &Desk) -> &Act {
    &desk.bench.job.entries().last().unwrap().act
}

/// A job of which these gates are passed.
fn gates_passed(passed: &[&str]) -> Desk {
    let mut bench = Bench::new("sp-16", "sp-16");
    for act in demo_acts("spudrow-twin.acts") {
        if passed.iter().any(|gate| act.starts_with(&format!("Gate(gate:{gate},"))) {
            bench.does(&act);
        }
    }
    Desk::at(bench)
}

const CIRCUITS: [&str; 3] = ["Restraint", "HighVoltage", "Interlock"];

#[test]
fn battery_and_energy_have_no_key_that_says_absent() {
    let mut desk = gates_passed(&CIRCUITS);
    shows(&mut desk, "GATE, battery");
    let before = desk.bench.job.entries().len();
    desk.keys("n");
    assert_eq!(desk.bench.job.entries().len(), before);
    desk.keys("r");
    for nothing in ["x", "-", "none", ""] {
        desk.typed(nothing);
        shows(&mut desk, "battery: Which document");
        assert_eq!(desk.bench.job.entries().len(), before, "{nothing}");
        clear(&mut desk);
    }
}

/// Clears the field of what was refused.
fn clear(desk: &mut Desk) {
    for _ in 0..40 {
        desk.press(crossterm::event::KeyCode::Backspace);
    }
}

#[test]
fn each_answer_of_a_gate_is_read_before_the_next_question() {
    let mut desk = gates_passed(&CIRCUITS);
    desk.keys("r");
    for (wrong, right, next) in [
        ("x", "manual 3-12", "Name of the person"),
        ("-", "K. Tanner", "Volts measured"),
        ("24.3 V", "0 V", "Between which two points"),
        ("1", "1 and chassis", "tester proved"),
    ] {
        desk.typed(wrong);
        let still = picture(&mut desk);
        assert!(!still.contains(next), "{wrong} went through:\n{still}");
        clear(&mut desk);
        desk.typed(right);
        shows(&mut desk, next);
    }
    desk.keys("y");
    assert!(desk.bench.job.state().gate_is_open(GateKind::Battery));
    // There is nothing to repeat for another person.
    desk.bench.by = "jo".into();
    shows(&mut desk, "GATE, restraint systems");
    desk.keys("r");
    for repeated in ["circuits are?", "Colours of sleeves", "Which document"] {
        shows(&mut desk, repeated);
        desk.typed("=");
    }
    shows(&mut desk, "Name of the person");
    desk.typed("=");
    shows(&mut desk, "There is nothing to repeat");
}

#[test]
fn a_yellow_sleeve_keyed_as_a_code_is_said_at_once() {
    for sleeve in ["YE", "RD/YE", "gelb", "jaune"] {
        let mut desk = gates_passed(&[]);
        desk.keys("n");
        desk.typed("sensor");
        desk.typed(sleeve);
        shows(&mut desk, "cannot be answered as absent");
        assert!(desk.bench.job.state().course.gates.is_empty(), "{sleeve}");
    }
}

#[test]
fn stored_energy_is_asked_by_kind() {
    let mut desk = gates_passed(&[CIRCUITS[0], CIRCUITS[1], CIRCUITS[2], "Battery"]);
    shows(&mut desk, "GATE, stored energy");
    desk.keys("r");
    desk.typed("manual 3-12");
    desk.typed("K. Tanner");
    desk.typed("z");
    shows(&mut desk, "is none of c, b, p, l, s");
    clear(&mut desk);
    desk.typed("cl");
    shows(&mut desk, "Volts measured");
    desk.typed("0 V");
    desk.typed("C1+ / C1-");
    shows(&mut desk, "raised loads");
    desk.typed("x");
    shows(&mut desk, "is no state");
    clear(&mut desk);
    desk.typed("boom on stands");
    desk.keys("y");
    assert!(desk.bench.job.state().gate_is_open(GateKind::StoredEnergy));
}

#[test]
fn a_gate_is_answered_anew_from_the_menu() {
    let mut desk = Desk::at(Bench::ready());
    desk.keys("!7");
    shows(&mut desk, "ANSWER which safety question anew?");
    desk.typed("6");
    shows(&mut desk, "Key a number from 1 to 5");
    clear(&mut desk);
    desk.typed("1");
    shows(&mut desk, "GATE, restraint systems");
    desk.keys("d");
    assert_eq!(desk.bench.state(), "not-startable");
    shows(&mut desk, "GATE, restraint systems");
}

#[test]
fn what_should_be_is_keyed_from_the_menu_and_a_wrong_label_is_said() {
    let mut desk = Desk::at(Bench::ready());
    desk.keys("!8");
    desk.typed("99");
    shows(&mut desk, "99");
    let before = desk.bench.job.state().records.should.clone();
    clear(&mut desk);
    desk.typed("12");
    desk.keys("e");
    assert_ne!(desk.bench.job.state().records.should, before);
    shows(&mut desk, "DECIDE:");
}

/// The board with one more wire than drawn at 12.
fn extra_wire() -> Desk {
    let extra = r#"RecordCorrected(at:"old:12",holds:Wired(wires:[(number:"S99",circuit:"added lamp",colour:"GN/WH",gauge:"0.5",outside_diameter:"1.5 mm")]),reason:"a wire")"#;
    let mut bench = Bench::ready();
    bench.does(extra);
    Desk::at(bench)
}

#[test]
fn a_decision_shows_what_it_is_about_and_takes_a_reason() {
    let mut desk = extra_wire();
    shows(&mut desk, "DECIDE:");
    shows(&mut desk, "S99");
    desk.keys("s");
    shows(&mut desk, "Why?");
    desk.typed("added by somebody");
    desk.bench.not_flagged(Code::FoundDiffers);
    desk.bench.does(r#"Extract(from:"old:12",colour:"GN/WH",freely:true,seal:On)"#);
    shows(&mut desk, "By the decision S99 has no place");
    desk.keys("x");
    desk.typed("x");
    shows(&mut desk, "only under a document");
    clear(&mut desk);
    desk.typed("diagram 7-14");
    assert!(matches!(last(&desk), Act::Removed { .. }), "{:?}", last(&desk));
}

#[test]
fn an_extra_wire_is_tied_back_with_tag_day_and_name() {
    let mut desk = extra_wire();
    desk.keys("s");
    desk.typed("added by somebody");
    desk.bench.does(r#"Extract(from:"old:12",colour:"GN/WH",freely:true,seal:On)"#);
    desk.keys("k");
    desk.typed("T12");
    desk.typed("soon");
    shows(&mut desk, "Key the day as");
    clear(&mut desk);
    desk.typed("2026-12-20");
    desk.typed("K. Tanner");
    desk.bench.flagged(Code::TemporaryMeasure);
    assert!(desk.bench.job.state().items.lead_in_hand().is_none());
    // One key press: taken back together.
    desk.bench.does("WrongKey");
    assert!(desk.bench.job.state().items.lead_in_hand().is_some());
    desk.bench.not_flagged(Code::TemporaryMeasure);
}

#[test]
fn a_missing_wire_is_asked_where_it_can_be_joined() {
    for (place, is_planned) in [("at the branch, 300 mm", true), ("-", false)] {
        let mut bench = Bench::ready();
        bench.does(r#"RecordCorrected(at:"old:13",holds:Open,reason:"bare")"#);
        bench.proves_the_views();
        let mut desk = Desk::at(bench);
        shows(&mut desk, "DECIDE:");
        desk.keys("s");
        desk.typed("torn out");
        shows(&mut desk, "Where can a new lead be joined?");
        desk.typed(place);
        assert_eq!(!desk.bench.flags().contains(&Code::WireMissing), is_planned, "{place}");
    }
}

#[test]
fn pushed_again_has_its_own_key_and_is_no_second_filling() {
    let mut desk = Desk::at(Bench::ready());
    desk.keys("og");
    desk.typed("1");
    desk.keys("n");
    shows(&mut desk, "NO CLICK");
    shows(&mut desk, "PUSH it once more");
    desk.keys("a");
    assert!(matches!(last(&desk), Act::Insert { again: true, click: true, .. }));
    shows(&mut desk, "TUG S01");
    desk.keys("n");
    shows(&mut desk, "DID NOT HOLD");
}

#[test]
fn the_mating_half_is_good_put_right_or_not_here() {
    let compared = || {
        let mut bench = Bench::new("sp-16", "sp-16");
        for act in demo_acts("spudrow-twin.acts") {
            if act.starts_with("Compared") {
                break;
            }
            bench.does(&act);
        }
        Desk::at(bench)
    };
    let mut desk = compared();
    shows(&mut desk, "COMPARE with the mating half");
    desk.keys("m");
    assert_eq!(desk.bench.job.state().housings.mating_half, Some(MatingVerdict::NotHere));
    let picture = picture(&mut desk);
    assert!(!picture.contains("COMPARE with"), "{picture}");
    // Differs, and not known: both stop the start.
    for key in ["n", "d"] {
        let mut desk = compared();
        desk.keys(key);
        assert_eq!(desk.bench.state(), "not-startable", "{key}");
        desk.bench.flagged(Code::PartMisfit);
    }
}

#[test]
fn a_damaged_mating_half_is_put_right_before_it_is_mated() {
    let mut bench = Bench::moved();
    bench.does(r#"MatingHalf(verdict:Damaged("pin 3 bent"))"#);
    for act in demo_acts("spudrow-twin.acts") {
        let closes = [
            "SmallPart(housing:\"new\"",
            "LookedOver",
            "RowCounted",
            "ReRead",
            "Lock(housing:\"new\",to:Full",
        ];
        if closes.iter().any(|start| act.starts_with(start)) {
            bench.does(&act);
        }
    }
    let mut desk = Desk::at(bench);
    shows(&mut desk, "NOT SOUND: pin 3 bent");
    desk.keys("r");
    assert_eq!(desk.bench.job.state().housings.mating_half, Some(MatingVerdict::Replaced));
    shows(&mut desk, "MATE the halves");
    desk.keys("n");
    desk.bench.flagged(Code::NotMated);
    shows(&mut desk, "A WIRE WAS PUSHED BACK");
}

#[test]
fn after_a_hand_over_the_new_name_stands_in_every_entry() {
    let mut desk = Desk::at(Bench::ready());
    desk.keys("!h");
    desk.typed("J. Ode");
    shows(&mut desk, "HANDED OVER. Who works here now?");
    for nobody in ["x", "-"] {
        desk.typed(nobody);
        shows(&mut desk, "is no name");
        clear(&mut desk);
    }
    desk.typed("=");
    assert_eq!(desk.bench.by, "J. Ode");
    shows(&mut desk, "GATE, restraint systems");
    desk.keys("s");
    assert_eq!(desk.bench.job.entries().last().unwrap().by, "J. Ode");
}

#[test]
fn a_stop_by_a_slip_is_taken_back_with_one_key() {
    let mut desk = Desk::at(Bench::ready());
    let before = desk.bench.job.state().clone();
    desk.keys("!t");
    desk.typed("wrong key");
    shows(&mut desk, "STOPPED: wrong key");
    desk.keys("w");
    assert_eq!(desk.bench.job.state(), &before);
}

#[test]
fn f35_f39_f46_f53_a_face_that_is_not_sound_says_what_it_is_and_what_puts_it_right() {
    let rows = [
        ("wire", "l", "seal lip is not even", "renew it"),
        ("wire", "w", "wire is crossed", "slack"),
        ("wire", "h", "hole is not clean", "clean the hole"),
        ("mating", "i", "stand as high", "until it clicks"),
        ("mating", "t", "wrong way up", "turn it"),
        ("mating", "o", "is not sound.", "look again"),
    ];
    for (face, key, flag, remedy) in rows {
        let mut bench = Bench::moved();
        bench.does(r#"SmallPart(housing:"new",part:"interface seal",on:true)"#);
        if face == "mating" {
            bench.does(r#"LookedOver(housing:"new",face:Wire)"#);
        }
        let mut desk = Desk::at(bench);
        shows(&mut desk, &format!("LOOK OVER the {face} face"));
        desk.keys("x");
        shows(&mut desk, "NOT SOUND: what is it");
        desk.keys(key);
        shows(&mut desk, "IT WAS NOT SOUND");
        let account = desk.bench.job.account(desk.bench.now);
        let raised = account.open_flags().filter(|open| open.code() == Code::NotLookedOver);
        let told =
            raised.map(flag_words).map(|open| format!("{} {}", open.say, open.instead)).collect::<String>();
        assert!(told.contains(flag) && told.contains(remedy), "{face} {key}: {told}");
        desk.keys(if face == "wire" { "e" } else { "h" });
        assert!(desk.bench.job.state().readings.looked_over.values().all(|look| look.sound));
    }
}

#[test]
fn what_stayed_in_a_new_hole_is_asked_for_before_anything_else() {
    let mut bench = Bench::moved();
    bench.does(r#"Extract(from:"new:1",freely:true,seal:Missing)"#);
    let mut desk = Desk::at(bench);
    shows(&mut desk, "TAKE OUT what stayed in new:1");
    desk.keys("y");
    desk.bench.not_flagged(Code::NotLookedOver);
    shows(&mut desk, "LOOK at the terminal of S01");
}

#[test]
fn a_look_beside_an_open_hole_names_the_cavity_that_is_not_sound() {
    let mut bench = Bench::new("fw-hsg-12a", "fw-hsg-12a");
    for act in demo_acts("fernwalker-boom-tip.acts") {
        if act.starts_with("LookedOver") {
            break;
        }
        bench.does(&act);
    }
    let mut desk = Desk::at(bench);
    shows(&mut desk, "LOOK at 2, 7 and 9 beside the open hole");
    desk.keys("x");
    desk.typed("green at the crimp");
    shows(&mut desk, "Key one of 2, 7 and 9 first");
    clear(&mut desk);
    desk.typed("7 green at the crimp");
    let state = desk.bench.job.state();
    let groups: Vec<String> =
        state.readings.one_not_sound.iter().flatten().map(ToString::to_string).collect();
    assert_eq!((groups, state.readings.looked_at.len()), (vec!["old:7".to_owned()], 3));
}

#[test]
fn a_drain_is_looked_at_for_its_sleeve() {
    let drain = r#"(number:"W1",colour:"RD",gauge:"0.5",kind:Drain)"#;
    let mut bench = four::ready_with(four::rules(), &[drain, four::WIRES[1], four::WIRES[2], four::WIRES[3]]);
    bench.does(r#"Extract(from:"old:1",colour:"RD",freely:true,seal:On)"#);
    let mut desk = Desk::at(bench);
    shows(&mut desk, "a sleeve on the drain down to the terminal");
    shows(&mut desk, "Test pin: only B4-M");
    desk.keys("ra");
    shows(&mut desk, "PROPOSED for W1: a sleeve over it");
    desk.keys("y");
    let lead = desk.bench.job.state().items.lead_in_hand().unwrap();
    assert_eq!(lead.finding, Some(repin::reckoning::Finding::DrainBare));
}

#[test]
fn a_wrong_test_pin_is_said_when_it_is_keyed() {
    let mut bench = four::ready();
    bench.does(r#"Extract(from:"old:1",colour:"RD",freely:true,seal:On)"#);
    let mut desk = Desk::at(bench);
    desk.keys("rf");
    shows(&mut desk, "With which test pin was it tried?");
    desk.typed("KW-TRM-M15");
    desk.keys("y");
    let lead = desk.bench.job.state().items.lead_in_hand().unwrap();
    assert_eq!(lead.tried_with.as_ref().map(ToString::to_string).as_deref(), Some("KW-TRM-M15"));
}

#[test]
fn a_part_that_is_not_the_one_asked_for_has_its_own_keys() {
    for (key, verdict) in [
        ("a", ArrivedVerdict::AsAsked),
        ("w", ArrivedVerdict::WrongPart),
        ("d", ArrivedVerdict::Damaged),
        ("s", ArrivedVerdict::Substitute),
    ] {
        let mut bench = Bench::ready();
        bench.does(r#"Requested(number:"ACDEFGHJ",revision:1,lines:[(line:1,need:2)])"#);
        let mut desk = Desk::at(bench);
        desk.keys("!i");
        for (wrong, right) in [("7", "1"), ("two", "1")] {
            desk.typed(wrong);
            clear(&mut desk);
            desk.typed(right);
        }
        shows(&mut desk, "What came?");
        desk.keys(key);
        if matches!(verdict, ArrivedVerdict::WrongPart | ArrivedVerdict::Substitute) {
            shows(&mut desk, "Which part number is on it?");
            desk.typed("B4-TG");
        }
        assert!(matches!(last(&desk), Act::Arrived { verdict: said, .. } if *said == verdict), "{key}");
    }
}

#[test]
fn what_does_not_exist_is_said_when_it_is_keyed() {
    let mut desk = Desk::at(Bench::ready());
    let before = desk.bench.job.entries().len();
    for (keys, typed, said) in [
        ("!s", "old:99", "99"),
        ("!x", "old:99", "no lead"),
        ("!4", "99", "99"),
        ("!9", "12", "No lead was recorded in old:12"),
        ("!m", "99", "99"),
    ] {
        desk.keys(keys);
        desk.typed(typed);
        shows(&mut desk, said);
        desk.press(crossterm::event::KeyCode::Esc);
        desk.press(crossterm::event::KeyCode::Esc);
        desk.press(crossterm::event::KeyCode::Esc);
    }
    assert_eq!(desk.bench.job.entries().len(), before);
}
