//! After a pause, a hand-over or another person: nothing moves until the work was looked over again.

use repin::job::{Code, Verdict};

use crate::support::{Bench, demo_acts};

const OUT_2: &str = r#"Extract(from:"old:2",colour:"BK",freely:true,seal:On)"#;
const RESUME: &str = "Resume(power_off:true,tags_read:true)";

/// One wire moved, handed over to another person.
fn handed_over() -> Bench {
    let mut bench = Bench::ready();
    bench.moves("1", "RD");
    bench.does(r#"HandOver(to:"J. Ode")"#);
    bench.by = "jo".into();
    bench
}

/// What the resume check asks for, in order.
fn check() -> Vec<String> {
    let twin = demo_acts("spudrow-twin.acts");
    let setup = twin.iter().filter(|act| act.starts_with("Gate") || act.starts_with("View")).cloned();
    let counted = [
        r#"ReRead(at:"new:1",colour:"RD")"#,
        r#"RowCounted(housing:"old",row:1,wires:7,plugs:0,open:1)"#,
        r#"RowCounted(housing:"old",row:2,wires:4,plugs:4,open:0)"#,
        r#"RowCounted(housing:"new",row:1,wires:1,plugs:0,open:7)"#,
        r#"RowCounted(housing:"new",row:2,wires:0,plugs:0,open:8)"#,
    ];
    setup.chain(counted.map(str::to_owned)).collect()
}

#[test]
fn with_everything_done_the_work_goes_on() {
    let mut bench = handed_over();
    check().iter().for_each(|act| bench.does(act));
    bench.flagged(Code::ResumeUnchecked);
    bench.does(RESUME);
    bench.not_flagged(Code::ResumeUnchecked);
    assert_eq!(bench.asks(OUT_2), Verdict::Allowed);
}

#[test]
fn each_part_of_the_check_left_out_holds_the_work() {
    for missing in check() {
        let mut bench = handed_over();
        check().iter().filter(|act| **act != missing).for_each(|act| bench.does(act));
        let said = bench.impossible(RESUME);
        assert!(!said.is_empty(), "{missing}");
        bench.flagged(Code::ResumeUnchecked);
        assert!(matches!(bench.asks(OUT_2), Verdict::Impossible(_)), "{missing}");
    }
}

#[test]
fn each_part_answered_wrong_holds_the_work() {
    let wrong = [
        (r#"ReRead(at:"new:1""#, r#"ReRead(at:"new:1",colour:"BK")"#),
        (r#"ReRead(at:"new:1""#, r#"ReRead(at:"new:1",colour:"nothing")"#),
        (r#"RowCounted(housing:"old",row:1"#, r#"RowCounted(housing:"old",row:1,wires:8,plugs:0,open:0)"#),
        (r#"RowCounted(housing:"old",row:2"#, r#"RowCounted(housing:"old",row:2,wires:4,plugs:3,open:1)"#),
        (r#"RowCounted(housing:"new",row:1"#, r#"RowCounted(housing:"new",row:1,wires:0,plugs:1,open:7)"#),
        (r#"RowCounted(housing:"new",row:2"#, r#"RowCounted(housing:"new",row:2,wires:1,plugs:0,open:7)"#),
        ("Gate(gate:Battery", "Gate(gate:Battery,answer:DontKnow)"),
        ("Gate(gate:Restraint", "Gate(gate:Restraint,answer:Stop)"),
    ];
    for (right, said) in wrong {
        let mut bench = handed_over();
        for act in check() {
            bench.does(if act.starts_with(right) { said } else { &act });
        }
        assert!(!bench.impossible(RESUME).is_empty(), "{said}");
        bench.flagged(Code::ResumeUnchecked);
    }
    let mut bench = handed_over();
    check().iter().for_each(|act| bench.does(act));
    for half in ["Resume(power_off:false,tags_read:true)", "Resume(power_off:true,tags_read:false)"] {
        assert!(bench.impossible(half).contains("off, and every tag"), "{half}");
    }
}

#[test]
fn until_then_only_what_is_so_is_said() {
    let bench = handed_over();
    for act in [
        OUT_2,
        r#"TakePlug(from:"old:12")"#,
        r#"Extract(from:"new:1",freely:true,seal:On)"#,
        r#"Lock(housing:"new",to:FullSet,finger:true)"#,
        "Mate(level:true)",
        r#"FitPlug(into:"new:12",source:Stock)"#,
    ] {
        assert!(matches!(bench.asks(act), Verdict::Impossible(_)), "{act}");
    }
    for act in [r#"Note(text:"found as left")"#, r#"Seen(item:"old:2",at:Unseen,reason:"gone")"#] {
        assert_eq!(bench.asks(act), Verdict::Allowed, "{act}");
    }
}

#[test]
fn a_pause_or_another_person_asks_for_it_too_and_nothing_moved_asks_for_nothing() {
    let mut bench = Bench::ready();
    bench.moves("1", "RD");
    bench.waits_h(9);
    bench.does(r#"Note(text:"back")"#);
    bench.flagged(Code::ResumeUnchecked);
    let mut bench = Bench::ready();
    bench.moves("1", "RD");
    bench.waits_h(7);
    bench.does(OUT_2);
    let mut bench = Bench::ready();
    bench.moves("1", "RD");
    bench.by = "jo".into();
    assert!(matches!(bench.asks(OUT_2), Verdict::Impossible(_)));
    let mut bench = Bench::ready();
    bench.does(r#"HandOver(to:"J. Ode")"#);
    bench.not_flagged(Code::ResumeUnchecked);
}

#[test]
fn nobody_resumes_what_was_not_interrupted() {
    assert!(Bench::moved().impossible(RESUME).contains("No resume check"));
}
