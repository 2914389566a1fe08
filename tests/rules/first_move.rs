//! What has to be settled before anything leaves its hole, and what may not change afterwards.

use repin::job::{Code, Verdict};

use crate::support::{Bench, demo_acts};

const OUT_2: &str = r#"Extract(from:"old:2",colour:"BK",freely:true,seal:On)"#;

/// The class board set up, with the acts left out that `drops` names.
fn without(drops: impl Fn(&str) -> bool) -> Bench {
    let mut bench = Bench::new("sp-16", "sp-16");
    for act in demo_acts("spudrow-twin.acts") {
        if act.starts_with("Extract") {
            break;
        }
        if !drops(&act) {
            bench.does(&act);
        }
    }
    bench
}

#[test]
fn the_board_may_start_when_nothing_is_left_out() {
    assert_eq!(without(|_| false).asks(OUT_2), Verdict::Allowed);
}

#[test]
fn each_part_of_the_setting_up_left_out_refuses_the_first_move() {
    let rows: [(&str, Code); 10] = [
        (r#"View(housing:"old""#, Code::ViewUnset),
        (r#"View(housing:"new""#, Code::ViewUnset),
        (r#"Anchor(housing:"old",place:"row 1"#, Code::AnchorFailed),
        (r#"Anchor(housing:"old",place:"row 2"#, Code::AnchorFailed),
        (r#"Anchor(housing:"new""#, Code::AnchorFailed),
        ("Compared(question:Key", Code::PartMisfit),
        ("Compared(question:Latch", Code::PartMisfit),
        ("Compared(question:Gender", Code::PartMisfit),
        ("MapConfirmed", Code::MapClash),
        (r#"Lock(housing:"old""#, Code::LockNotReleased),
    ];
    for (dropped, code) in rows {
        // Without a view nothing is anchored.
        let housing = dropped.strip_prefix("View").map(|rest| format!("Anchor{rest}"));
        let bench = without(|act| {
            act.starts_with(dropped) || housing.as_ref().is_some_and(|anchor| act.starts_with(anchor))
        });
        match bench.asks(OUT_2) {
            Verdict::Against(refusals) => {
                let codes: Vec<_> = refusals.iter().filter_map(|refusal| refusal.code()).collect();
                assert!(codes.contains(&code), "{dropped}: {codes:?}");
            }
            other => panic!("{dropped}: {other:?}"),
        }
    }
    for gate in ["Restraint", "HighVoltage", "Interlock", "Battery", "StoredEnergy"] {
        let dropped = format!("Gate(gate:{gate}");
        let works = ["Lock", "Assurance", "SmallPart"];
        let bench =
            without(|act| act.starts_with(&dropped) || works.iter().any(|work| act.starts_with(work)));
        assert!(bench.impossible(OUT_2).contains("gate"), "{gate}");
        // Not even the lock is touched.
        let unlock = r#"Lock(housing:"old",to:PreSet,finger:true)"#;
        assert!(bench.impossible(unlock).contains("gate"), "{gate}");
    }
}

#[test]
fn a_record_that_is_not_finished_refuses_the_first_move() {
    let bench = without(|act| {
        act == "RecordFinished(side:Found)" || act.starts_with("MapConfirmed") || act.starts_with("Anchor")
    });
    assert!(bench.impossible(OUT_2).contains("is not finished"));
    // Nobody goes past that by name.
    let by_name = OUT_2.replace(')', r#",anyway:(by:"K. Tanner",reason:"hurry"))"#);
    assert!(bench.impossible(&by_name).contains("is not finished"));
}

#[test]
fn a_wrong_mark_colour_or_key_at_an_anchor_refuses_the_first_move() {
    let rows = [
        (r#"Anchor(housing:"old",place:"row 1, 1 from left",colour:"RD",mark:"8")"#, "mark of the old"),
        (r#"Anchor(housing:"old",place:"row 1, 1 from left",colour:"VT",mark:"1")"#, "colour of the old"),
        (r#"Anchor(housing:"new",place:"row 2, 1 from left",mark:"16")"#, "mark of the new"),
    ];
    for (wrong, what) in rows {
        let mut bench = without(|_| false);
        bench.does(wrong);
        assert_eq!(bench.against(OUT_2), [Code::AnchorFailed], "{what}");
        bench.flagged(Code::AnchorFailed);
    }
    // A single row asks where the key or latch sits.
    let one_row = |mark: &str| {
        let mut bench = crate::four::ready();
        bench.does(&format!(r#"Anchor(housing:"old",place:"key",mark:"{mark}")"#));
        bench
    };
    let out = r#"Extract(from:"old:1",colour:"RD",freely:true,seal:On)"#;
    assert_eq!(one_row("latch").asks(out), Verdict::Allowed);
    assert_eq!(one_row("none").against(out), [Code::AnchorFailed]);
    assert_eq!(one_row("key").against(out), [Code::AnchorFailed]);
}

#[test]
fn an_undecided_difference_refuses_the_first_move_and_names_its_cavity() {
    let mut bench = without(|_| false);
    bench.does(r#"RecordCorrected(at:"old:12",holds:Open,reason:"bare")"#);
    assert!(bench.against(OUT_2).contains(&Code::FoundDiffers));
    bench.flagged(Code::FoundDiffers);
    // A decision at another cavity decides nothing here.
    assert!(
        bench.impossible(r#"Decided(at:"old:14",wins:Should,reason:"seen so")"#).contains("no difference")
    );
    bench.does(r#"Decided(at:"old:12",wins:Should,reason:"plug lost")"#);
    bench.does(r#"LookedOver(housing:"old",face:Wire,cavities:["4","11","13"])"#);
    assert_eq!(bench.asks(OUT_2), Verdict::Allowed);
    // A difference of another kind that shows up at a cavity that was decided is decided anew.
    bench.does(
        r#"RecordCorrected(at:"old:12",holds:Wired(wires:[(number:"S99",colour:"BK",gauge:"0.5")]),reason:"a wire after all")"#,
    );
    bench.flagged(Code::FoundDiffers);
}

#[test]
fn an_untagged_look_alike_is_refused_and_only_that_one() {
    let twin = r#"(number:"S02",circuit:"sensor return",colour:"RD",gauge:"0.5",outside_diameter:"1.5 mm")"#;
    let mut bench = without(|_| false);
    bench.does(&format!(r#"RecordCorrected(at:"old:2",holds:Wired(wires:[{twin}]),reason:"faded")"#));
    bench.does(r#"Decided(at:"old:2",wins:Found,reason:"faded")"#);
    bench.proves_the_views();
    let out_1 = r#"Extract(from:"old:1",colour:"RD",freely:true,seal:On)"#;
    assert_eq!(bench.against(out_1), [Code::LookAlike]);
    bench.does(r#"Tagged(lead:"old:2",tag:"T2")"#);
    assert_eq!(bench.against(out_1), [Code::LookAlike], "the other one's tag");
    let other = r#"Extract(from:"old:3",colour:"GY/RD",freely:true,seal:On)"#;
    assert_eq!(bench.asks(other), Verdict::Allowed);
    bench.does(r#"Tagged(lead:"old:1",tag:"T1")"#);
    assert_eq!(bench.asks(out_1), Verdict::Allowed);
}

#[test]
fn a_housing_that_needs_its_clip_is_refused_without_it() {
    let mut bench = Bench::new("kw-16", "kw-16n");
    bench.flagged(Code::BridgeMissing);
    bench.passes_the_gates();
    assert_eq!(bench.state(), "not-startable");
}

#[test]
fn neighbours_of_an_open_hole_are_looked_at_before_the_first_move_counts() {
    let mut bench = Bench::new("fw-hsg-12a", "fw-hsg-12a");
    for act in demo_acts("fernwalker-boom-tip.acts") {
        if act.starts_with("Extract") {
            break;
        }
        if !act.starts_with("LookedOver") {
            bench.does(&act);
        }
    }
    let mut some = bench.job.clone();
    bench.moves("1", "RD");
    bench.flagged(Code::NotLookedOver);
    // Two of three are not all three.
    for (cavities, is_enough) in [(r#"["2","7"]"#, false), (r#"["2","7","9"]"#, true)] {
        let look = format!(r#"LookedOver(housing:"old",face:Wire,cavities:{cavities})"#);
        let entry = repin::job::Entry::new(bench.now, "kt", Bench::parse(&look));
        some.apply(entry);
        let open = some.state().target().look_closely;
        let done = open.iter().all(|at| some.state().readings.looked_at.contains(at));
        assert_eq!(done, is_enough, "{cavities}");
    }
}

/// What the work rests on does not change under it.
#[test]
fn the_map_the_record_and_the_housings_stay_once_something_has_moved() {
    let mut bench = Bench::ready();
    bench.moves("1", "RD");
    for act in [
        r#"Mapped(from:"old:2",to:"new:3",document:"bulletin 9")"#,
        "MapConfirmed(source:SameLabels)",
        r#"RecordFlipped(how:Mirror,reason:"read from the mating face")"#,
        r#"RecordFlipped(how:Turn,reason:"upside down")"#,
        r#"RecordFlipped(how:Both,reason:"both")"#,
        r#"Recorded(side:Found,at:"old:2",holds:Empty)"#,
    ] {
        let said = bench.impossible(act);
        assert!(!said.is_empty(), "{act}");
    }
}

#[test]
fn a_flip_never_brings_a_plug_back_that_was_scrapped_lost_or_returned() {
    for end in ["ScrapPlug(reason:\"torn\")", "LosePlug", "ReturnPlug"] {
        let mut bench = Bench::ready();
        bench.does(r#"TakePlug(from:"old:12")"#);
        bench.does(end);
        let said = bench.impossible(r#"RecordFlipped(how:Turn,reason:"upside down")"#);
        assert!(said.contains("moved") || said.contains("left"), "{end}: {said}");
    }
}
