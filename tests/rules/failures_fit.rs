//! Failures of the trade's list of eighty (common practice, no source) that come from a
//! replacement or a part that does not fit, each committed on purpose and seen caught.

use crate::support;

use repin::{catalogue::Catalogue, job::Code, shop_rules::ShopRules};
use support::Bench;

/// Six cavities in a row: five of one size and one of another; replacements with a cavity moulded
/// shut and with a plug in it; and a housing whose terminals are pulled to their seat.
const FAMILY: &str = r#"(
    format: 1, id: "bench-six", title: "Bench six", source: Invented,
    terminals: [
        (part: "B6-T15", size: "1.5", gender: Female, plating: "tin", wire_mm2: (0.5, 1.0),
         insulation_mm: (1.4, 2.1), strip_mm: 4.5, used_mm: 12, held_by: Tang, released_from: Rear, seating: Push),
        (part: "B6-T28", size: "2.8", gender: Female, plating: "tin", wire_mm2: (1.5, 2.5),
         insulation_mm: (2.0, 3.0), strip_mm: 5, held_by: Tang, released_from: Rear, seating: Push),
        (part: "B6-TP", size: "pull", gender: Female, plating: "tin", wire_mm2: (0.5, 1.0),
         insulation_mm: (1.4, 2.1), strip_mm: 4.5, held_by: Tang, released_from: Front, seating: Pull),
    ],
    wire_seals: [
        (part: "B6-S", size: "1.5", insulation_mm: (1.4, 2.1), colour: "green"),
        (part: "B6-S28", size: "2.8", insulation_mm: (2.0, 3.0), colour: "red"),
        (part: "B6-SP", size: "pull", insulation_mm: (1.4, 2.1), colour: "blue"),
    ],
    plugs: [
        (part: "B6-P15", size: "1.5", colour: "white"), (part: "B6-P28", size: "2.8", colour: "red"),
        (part: "B6-PP", size: "pull", colour: "blue"),
    ],
    housings: [
        (id: "b6", part: "B6", title: "six", gender: Female, sealing: Individual, drawn: Wire,
         features: [("latch", Top)], layout: Grid(rows: 1, columns: 6, pitch_mm: (5, 5)),
         size: "1.5", sizes: [("2.8", ["6"])], tangs: [(Top, ["1..6"])]),
        (id: "b6-shut", part: "B6-SHUT", title: "six, 2 shut", gender: Female, sealing: Individual, drawn: Wire,
         features: [("latch", Top)], layout: Grid(rows: 1, columns: 6, pitch_mm: (5, 5)),
         size: "1.5", sizes: [("2.8", ["6"])], blocked: ["2"]),
        (id: "b6-plugged", part: "B6-PLG", title: "six, 2 plugged", gender: Female, sealing: Individual,
         drawn: Wire, features: [("latch", Top)], layout: Grid(rows: 1, columns: 6, pitch_mm: (5, 5)),
         size: "1.5", sizes: [("2.8", ["6"])], plugged: ["2"]),
        (id: "b6-pull", part: "B6-PULL", title: "six, pulled", gender: Female, sealing: Individual, drawn: Wire,
         features: [("latch", Top)], layout: Grid(rows: 1, columns: 6, pitch_mm: (5, 5)), size: "pull"),
    ],
)"#;

/// The wires of 1 to 4, twisted 1 with 2; plugs in 5 and 6.
const RECORD: [&str; 7] = [
    r#"Recorded(side:Found,at:"old:1",holds:Wired(wires:[(number:"W1",colour:"RD",gauge:"0.5",twisted_with:"2",slack:"20 mm")]))"#,
    r#"Recorded(side:Found,at:"old:2",holds:Wired(wires:[(number:"W2",colour:"BK",gauge:"0.5",twisted_with:"1")]))"#,
    r#"Recorded(side:Found,at:"old:3",holds:Wired(wires:[(number:"W3",colour:"GN",gauge:"0.5")]))"#,
    r#"Recorded(side:Found,at:"old:4",holds:Wired(wires:[(number:"W4",colour:"BU",gauge:"0.5")]))"#,
    r#"Recorded(side:Found,at:"old:5",holds:Plugged)"#,
    r#"Recorded(side:Found,at:"old:6",holds:Plugged)"#,
    "RecordFinished(side:Found)",
];

/// Set up on these housings as far as the record and the gates.
fn recorded(old: &str, new: &str) -> Bench {
    let library = vec![("bench-six.ron".to_owned(), FAMILY.to_owned())];
    let catalogue = Catalogue::built_in().with_library(library);
    let mut bench = Bench::from(&catalogue, old, new, ShopRules::default());
    bench.passes_the_gates();
    bench.does_all(&[
        r#"View(housing:"old",face:Wire,up:"latch")"#,
        r#"View(housing:"new",face:Wire,up:"latch")"#,
    ]);
    bench.does_all(&RECORD);
    bench
}

/// The same with the views proved and everything compared.
fn ready(old: &str, new: &str, map: &[&str]) -> Bench {
    let mut bench = recorded(old, new);
    bench.proves_and_compares();
    bench.does_all(map);
    bench.does("MapConfirmed(source:SameLabels)");
    bench
}

#[test]
fn f13_a_pair_that_the_map_would_split_is_flagged() {
    let swapped = [
        r#"Mapped(from:"old:2",to:"new:4",document:"bulletin 9")"#,
        r#"Mapped(from:"old:4",to:"new:2",document:"bulletin 9")"#,
    ];
    ready("b6", "b6", &swapped).flagged(Code::PairSplit);
    ready("b6", "b6", &[]).not_flagged(Code::PairSplit);
}

#[test]
fn f19_a_wire_over_a_blocked_cavity_makes_the_job_not_startable() {
    let bench = ready("b6", "b6-shut", &[]);
    bench.flagged(Code::BlockedUnderWire);
    assert_eq!(bench.state(), "not-startable");
}

#[test]
fn f20_a_delivered_plug_where_a_wire_goes_is_taken_out_first() {
    let mut bench = ready("b6", "b6-plugged", &[]);
    bench.flagged(Code::PrefittedPlug);
    bench.does(r#"Extract(from:"old:1",colour:"RD",freely:true,seal:On)"#);
    bench.does_all(&["Inspect(verdict:Good)", r#"Insert(into:"new:1",click:true)"#]);
    bench.does(r#"Tug(at:"new:1",held:true)"#);
    bench.does(r#"Extract(from:"old:2",colour:"BK",freely:true,seal:On)"#);
    bench.does("Inspect(verdict:Good)");
    assert!(bench.impossible(r#"Insert(into:"new:2",click:true)"#).contains("is taken"));
    bench.does(r#"Park(tag:"1",reason:"its hole is plugged")"#);
    bench.does(r#"TakePlug(from:"new:2")"#);
    bench.does("ReturnPlug");
    bench.not_flagged(Code::PrefittedPlug);
    let counts = bench.job.account(bench.now).plugs;
    assert_eq!((counts.prefitted, counts.returned), (1, 1));
}

#[test]
fn f25_a_pulled_terminal_is_not_taken_out_whole() {
    let mut bench = ready("b6-pull", "b6-pull", &[]);
    let told = bench.impossible(r#"Extract(from:"old:1",colour:"RD",freely:true,seal:On)"#);
    assert!(told.contains("pull-to-seat") && told.contains("Cut it free"), "{told}");
    bench.does(r#"CutFree(from:"old:1",distance_mm:40,terminal_stayed:true,circuit:"W1")"#);
}

#[test]
fn f41_a_plug_of_another_size_is_refused() {
    let mut bench = ready("b6", "b6", &[]);
    bench.does(r#"TakePlug(from:"old:5")"#);
    assert!(bench.against(r#"FitPlug(into:"new:6",source:Hand)"#).contains(&Code::PlugSize));
    bench.insists(r#"FitPlug(into:"new:6",source:Hand)"#);
    bench.flagged(Code::PlugSize);
}

#[test]
fn f70_the_length_used_up_is_summed_and_the_last_time_is_said() {
    let mut bench = ready("b6", "b6", &[]);
    bench.not_flagged(Code::LastTime);
    bench.does(r#"Extract(from:"old:1",colour:"RD",freely:true,seal:On)"#);
    bench.does("Inspect(verdict:Needs(NewTerminal))");
    bench.does(r#"Planned(lead:"old:1",how:NewTerminal,reason:"tang broken",part:"B6-T15")"#);
    bench.does(r#"Repair(lead:"old:1",how:NewTerminal,done:"crimped",part:"B6-T15")"#);
    // 20 mm of slack, 12 used: 8 are left, and one more takes 12.
    bench.flagged(Code::LastTime);
}

#[test]
fn f71_a_repair_is_planned_before_it_is_done_so_that_its_parts_are_known() {
    let mut bench = ready("b6", "b6", &[]);
    bench.does(r#"Extract(from:"old:1",colour:"RD",freely:true,seal:On)"#);
    bench.does("Inspect(verdict:Needs(NewTerminal))");
    let told = bench.impossible(r#"Repair(lead:"old:1",how:NewTerminal,done:"crimped")"#);
    assert!(told.to_lowercase().contains("plan"), "{told}");
}
