//! A decision that was taken is followed to the end: what is missing stays missing until it is made, what
//! was taken out is asked for by nobody, and what only looks alike is not taken for the same.

use repin::{
    job::{Code, Destination, Expected, ItemId, Place, Task, Verdict},
    report::flag_words,
};

use crate::{
    decisions::{EXTRA, asked_for, board, decides, expected, left},
    four,
    joining::{JOIN, OUT_1, OUT_4, clashing},
    support::Bench,
};

const S13: &str = r#"(number:"S13",circuit:"level",colour:"PK",gauge:"0.5",outside_diameter:"1.5 mm")"#;

fn out(label: &str, colour: &str) -> String {
    format!(r#"Extract(from:"old:{label}",colour:"{colour}",freely:true,seal:On)"#)
}

fn removed(wire: &str) -> String {
    format!(r#"Removed(wire:"{wire}",document:"diagram 7-14")"#)
}

fn wired(wires: &[&str]) -> String {
    format!("Wired(wires:[{}])", wires.join(","))
}

#[test]
fn an_extra_wire_and_a_missing_one_at_one_cavity_are_two_things() {
    let mut bench = board(&[("13", EXTRA)], &[]);
    decides(&mut bench, "13", "Should");
    bench.flagged(Code::WireMissing);
    // Nothing is made of the wire that has no place.
    let lead =
        r#"Planned(lead:"old:13",how:RepairLead,reason:"missing; joined at the branch",part:"SP-TRM-F15")"#;
    assert!(bench.impossible(lead).contains("has no place"));
    assert_eq!(expected(&bench, "13"), Expected::MissingWire);
    bench.does(&out("13", "GN/WH"));
    bench.does(&removed("old:13"));
    bench.flagged(Code::WireMissing);
    assert!(!asked_for(&bench, "13").contains(&"plug".to_owned()));
    // The one that is missing is ordered, and the one that went out keeps a name of its own.
    bench.does(lead);
    bench.not_flagged(Code::WireMissing);
    assert_eq!(asked_for(&bench, "13").iter().filter(|kind| *kind == "repair lead").count(), 1);
    let place = |id: &str| bench.job.state().items.place_of(&id.parse().unwrap());
    assert_eq!((place("old:13"), place("loose/1")), (Some(Place::NotMade), Some(Place::Removed)));
    let target = bench.job.state().target();
    assert_eq!(
        target.leads.get(&"old:13".parse().unwrap()),
        Some(&Destination::To("new:13".parse().unwrap()))
    );
    let wires = bench.job.account(bench.now).wires;
    assert_eq!((wires.found, wires.removed), (12, 1));
}

#[test]
fn what_was_accepted_of_a_wire_that_is_out_is_not_accepted_of_the_one_made_in_its_place() {
    let mut bench = board(&[("13", EXTRA)], &[]);
    decides(&mut bench, "13", "Should");
    bench.does(&out("13", "GN/WH").replace("freely:true", "freely:false"));
    bench.does(r#"Accept(flag:"forced-out",at:"old:13",by:"K. Tanner",reason:"it goes to scrap")"#);
    bench.does(&removed("old:13"));
    bench.does(
        r#"Planned(lead:"old:13",how:RepairLead,reason:"missing; joined at the branch",part:"SP-TRM-F15")"#,
    );
    let items: Vec<String> = bench
        .job
        .state()
        .course
        .accepted
        .iter()
        .filter_map(|told| told.item.as_ref().map(ToString::to_string))
        .collect();
    assert_eq!(items, ["loose/1"]);
}

#[test]
fn a_wire_cut_out_of_a_terminal_and_drawn_elsewhere_is_missing_there() {
    let s01 = r#"(number:"S01",circuit:"sensor feed",colour:"RD",gauge:"0.5",outside_diameter:"1.5 mm")"#;
    let s02 = r#"(number:"S02",circuit:"sensor return",colour:"BK",gauge:"0.5",outside_diameter:"1.5 mm")"#;
    let mut bench = board(&[("1", &wired(&[s01, s02])), ("2", "Open")], &[]);
    decides(&mut bench, "1", "Should");
    bench.flagged(Code::WireMissing);
    bench.does(r#"LookedOver(housing:"old",face:Wire,cavities:["1","3","10"])"#);
    bench.does(&out("1", "RD"));
    bench.does(&removed("old:1/2"));
    bench.flagged(Code::WireMissing);
    assert!(!asked_for(&bench, "2").contains(&"plug".to_owned()));
    bench.does(r#"Planned(lead:"old:2",how:RepairLead,reason:"cut out of 1; joined at the branch",part:"SP-TRM-F15")"#);
    bench.not_flagged(Code::WireMissing);
}

#[test]
fn the_wire_that_is_drawn_there_stays_whichever_is_named_first() {
    let s01 = r#"(number:"S01",circuit:"sensor feed",colour:"RD",gauge:"0.5",outside_diameter:"1.5 mm")"#;
    let s02 = r#"(number:"S02",circuit:"sensor return",colour:"BK",gauge:"0.5",outside_diameter:"1.5 mm")"#;
    for (found, goes) in [([s01, s02], 2), ([s02, s01], 1)] {
        let mut bench = board(&[("1", &wired(&found)), ("2", "Open")], &[]);
        decides(&mut bench, "1", "Should");
        let target = bench.job.state().target();
        let lead: ItemId = "old:1".parse().unwrap();
        assert_eq!(target.of(&lead), Some(&"new:1".parse().unwrap()));
        assert_eq!(target.by_decision.parting.get(&lead), Some(&vec![goes]));
    }
}

#[test]
fn a_wire_that_both_records_have_is_not_taken_out_unseen() {
    let mut bench = Bench::moved();
    bench.does(&removed("old:11"));
    bench.flagged(Code::WireMissing);
    assert_eq!(expected(&bench, "11"), Expected::MissingWire);
    assert!(!left(&bench).contains(&Task::FitPlug { at: "new:11".parse().unwrap() }));
    // By the document the diagram has a plug there: then it is out for good.
    bench.does(r#"Recorded(side:Should,at:"old:11",holds:Plugged)"#);
    decides(&mut bench, "11", "Should");
    bench.not_flagged(Code::WireMissing);
    assert!(left(&bench).contains(&Task::FitPlug { at: "new:11".parse().unwrap() }));
    // Or it was a slip.
    let mut bench = Bench::moved();
    bench.does(&removed("old:11"));
    bench.does(r#"Seen(item:"old:11",at:In("new:11"),reason:"a slip")"#);
    bench.not_flagged(Code::WireMissing);
}

#[test]
fn one_repair_lead_makes_up_for_no_second_wire() {
    let two = wired(&[
        r#"(number:"S01",circuit:"sensor feed",colour:"RD",gauge:"0.5",outside_diameter:"1.5 mm")"#,
        r#"(number:"S20",circuit:"lamp feed",colour:"RD/WH",gauge:"0.5",outside_diameter:"1.5 mm")"#,
    ]);
    let mut bench = board(&[], &[("1", &two)]);
    decides(&mut bench, "1", "Should");
    bench.flagged(Code::LeadParted);
    bench.does(r#"Behind(housing:"old",behind:(last:"900 mm"))"#);
    bench.does(r#"Planned(lead:"old:1",how:RepairLead,reason:"brittle",part:"SP-TRM-F15")"#);
    bench.flagged(Code::LeadParted);
}

#[test]
fn another_kind_or_circuit_than_drawn_is_not_settled_by_a_decision() {
    let s01 = |more: &str| {
        wired(&[&format!(r#"(number:"S01",colour:"RD",outside_diameter:"1.5 mm",gauge:"0.5",{more})"#)])
    };
    for kind in ["FusibleLink", "Drain", "BusPair", "Coaxial", "Thermocouple"] {
        let drawn = s01(&format!(r#"circuit:"sensor feed",kind:{kind}"#));
        let mut bench = board(&[], &[("1", &drawn)]);
        decides(&mut bench, "1", "Should");
        bench.flagged(Code::WireMisfit);
        let accept = r#"Accept(flag:"wire-misfit",at:"old:1",by:"K. Tanner",reason:"it has always worked")"#;
        assert!(bench.impossible(accept).contains("not one that a name can accept"), "{kind}");
    }
    let mut bench = board(&[], &[("1", &s01(r#"circuit:"brake lamp""#))]);
    decides(&mut bench, "1", "Should");
    bench.flagged(Code::UnknownValue);
    // Traced under one of its names, and passed.
    let test = |rest: &str| format!(r#"Measure(test:Continuity,value:"0.2 ohm"{rest})"#);
    for no_trace in ["", r#",circuit:"S02""#, r#",circuit:"brake lamp",passed:false"#] {
        bench.does(&test(no_trace));
        bench.flagged(Code::UnknownValue);
    }
    bench.does(&test(r#",circuit:"brake lamp""#));
    bench.not_flagged(Code::UnknownValue);
}

#[test]
fn a_slip_of_a_decision_is_decided_anew_while_its_things_are_in_their_holes() {
    let mut bench = board(&[("13", &wired(&[&S13.replace("PK", "TQ")]))], &[]);
    decides(&mut bench, "13", "Should");
    bench.moves("1", "RD");
    decides(&mut bench, "13", "Found");
    bench.not_flagged(Code::ColourDiffers);
    bench.does(&out("13", "TQ"));
    let again = r#"Decided(at:"old:13",wins:Should,reason:"by the diagram")"#;
    assert!(bench.impossible(again).contains("left its hole"));
    bench.does("PutBack");
    bench.does(again);
}

#[test]
fn each_wire_of_another_colour_in_one_terminal_has_its_own_flag() {
    let pair = |one: &str, two: &str| {
        wired(&[
            &format!(r#"(number:"S01",circuit:"sensor feed",colour:"{one}",gauge:"0.5")"#),
            &format!(r#"(number:"S20",circuit:"lamp feed",colour:"{two}",gauge:"0.5")"#),
        ])
    };
    let mut bench = board(&[("1", &pair("RD", "BU"))], &[("1", &pair("BU", "RD"))]);
    decides(&mut bench, "1", "Should");
    assert_eq!(bench.flags().iter().filter(|code| **code == Code::ColourDiffers).count(), 2);
}

#[test]
fn a_bridge_is_compared_by_what_it_is() {
    let mut bench = board(&[("12", r#"Bridge("diode")"#)], &[("12", r#"Bridge("shunt")"#)]);
    bench.does("Compared(question:Clip,answer:Fits,mating_half:true)");
    bench.flagged(Code::FoundDiffers);
    decides(&mut bench, "12", "Should");
    bench.flagged(Code::BridgeMissing);
    // The one that was found goes nowhere, not even by name.
    bench.insists(r#"MoveOther(from:"old:12",to:"new:12")"#);
    bench.flagged(Code::BridgeMissing);
}

#[test]
fn a_bridge_that_is_drawn_in_a_hole_nothing_is_mapped_to_is_asked_for() {
    for (drawn, code) in [(r#"Bridge("shunt")"#, Code::BridgeMissing), ("Spare()", Code::SpareMissing)] {
        let mut bench = Bench::new("lh-24", "lh-24b");
        bench.does(&format!(r#"Recorded(side:Should,at:"new:A2",holds:{drawn})"#));
        let names: Vec<String> = bench
            .job
            .state()
            .housings
            .side(repin::job::JobSide::Old)
            .flat_map(|old| {
                let housing = old.housing().cavities.iter();
                housing.map(|cavity| old.address(&cavity.label).to_string()).collect::<Vec<_>>()
            })
            .collect();
        for at in &names {
            bench.does(&format!(r#"Recorded(side:Found,at:"{at}",holds:Empty)"#));
        }
        bench.does("RecordFinished(side:Found)");
        let to_a2 = bench
            .job
            .state()
            .mapping
            .map
            .iter()
            .find(|(_, to)| to.as_ref().is_some_and(|to| to.to_string() == "new:A2"));
        let from = to_a2.map(|(from, _)| from.to_string()).unwrap();
        bench.does(&format!(r#"Mapped(from:"{from}",document:"bulletin 12")"#));
        bench.does("MapConfirmed(source:Shop)");
        bench.flagged(code);
        assert!(matches!(
            bench.job.state().target().expected(&"new:A2".parse().unwrap()),
            Expected::MissingOther(_)
        ));
    }
}

#[test]
fn a_finished_diagram_names_every_wire() {
    // Nobody drew a wire at 12, and one is there.
    let mut bench = Bench::new("sp-16", "sp-16");
    for act in crate::support::demo_acts("spudrow-twin.acts") {
        if act.starts_with("Anchor") {
            break;
        }
        match act.starts_with(r#"Recorded(side:Found,at:"old:12""#) {
            true => bench.does(&format!(r#"Recorded(side:Found,at:"old:12",holds:{EXTRA})"#)),
            false if act.starts_with(r#"Recorded(side:Should,at:"old:12""#) => {}
            false => bench.does(&act),
        }
    }
    bench.flagged(Code::FoundDiffers);
    decides(&mut bench, "12", "Should");
    assert_eq!(bench.job.state().target().leads.get(&"old:12".parse().unwrap()), Some(&Destination::Out));
}

#[test]
fn what_is_out_for_good_is_asked_for_by_nobody() {
    let mut bench = clashing();
    bench.does_all(&[JOIN, "MapConfirmed(source:SameLabels)", OUT_4]);
    bench.does(&removed("old:4"));
    for code in [Code::GaugeReduced, Code::MapClash] {
        bench.not_flagged(code);
    }
    assert!(bench.job.state().items.lead(&"old:4".parse().unwrap()).unwrap().order.is_none());
    // The other one goes in alone.
    bench.does(OUT_1);
    bench.does("Inspect(verdict:Good)");
    assert_eq!(bench.asks(r#"Insert(into:"new:1",click:true)"#), Verdict::Allowed);
    // The one it was to be joined with is out: it goes by itself.
    let mut bench = clashing();
    bench.does_all(&[JOIN, "MapConfirmed(source:SameLabels)", OUT_1]);
    bench.does(&removed("old:1"));
    let target = bench.job.state().target();
    assert_eq!(target.of(&"old:4".parse().unwrap()), Some(&"new:1".parse().unwrap()));
    // A plan for a wire that then goes out is over.
    let mut bench = board(&[("12", EXTRA)], &[]);
    bench.does(r#"Planned(lead:"old:12",how:NewTerminal,reason:"flat",part:"SP-TRM-F15")"#);
    decides(&mut bench, "12", "Should");
    bench.does(&out("12", "GN/WH"));
    bench.does(&removed("old:12"));
    assert_eq!(asked_for(&bench, "12"), ["plug"]);
}

#[test]
fn a_joined_wire_cut_out_again_parts_the_lead() {
    let mut bench = clashing();
    bench.does_all(&[
        JOIN,
        "MapConfirmed(source:SameLabels)",
        OUT_1,
        r#"Park(tag:"T1",reason:"to be joined")"#,
        OUT_4,
        r#"Repair(lead:"old:4",how:Join,done:"joined",part:"B4-T",splice:(start:"160 mm",sleeve:"35 mm",sound:true))"#,
        "Inspect(verdict:Good)",
        r#"Insert(into:"new:1",click:true)"#,
        r#"Tug(at:"new:1",held:true)"#,
    ]);
    bench.not_flagged(Code::LeadParted);
    // It is where the other one is, and that one does not leave without it.
    for at in ["Hand", "Unseen", r#"In("new:4")"#] {
        let seen = format!(r#"Seen(item:"old:4",at:{at},reason:"seen there")"#);
        assert!(bench.impossible(&seen).contains("joined with"), "{at}");
    }
    assert!(bench.impossible(&removed("old:1")).contains("is joined in the terminal"));
    bench.does(&removed("old:4"));
    bench.flagged(Code::LeadParted);
}

#[test]
fn a_plan_to_join_that_is_given_up_is_a_clash_again_and_the_map_parts_them() {
    let mut bench = clashing();
    bench.does_all(&[JOIN, "MapConfirmed(source:SameLabels)"]);
    bench.does(r#"Extract(from:"old:2",colour:"BK",freely:true,seal:On)"#);
    bench.does(r#"Park(tag:"T2",reason:"to be mended")"#);
    bench.does(r#"Planned(lead:"old:4",how:NewTerminal,reason:"not joined after all",part:"B4-T")"#);
    bench.flagged(Code::MapClash);
    for act in [OUT_1, OUT_4] {
        assert!(bench.against(act).contains(&Code::MapClash), "{act}");
    }
    // What has a place of its own stays where it is mapped.
    assert!(
        bench.impossible(r#"Mapped(from:"old:3",to:"new:4",document:"bulletin 12")"#).contains("has moved")
    );
    bench.does(r#"Mapped(from:"old:4",to:"new:4",document:"bulletin 13")"#);
    bench.not_flagged(Code::MapClash);
}

#[test]
fn a_new_spare_has_the_gender_of_its_housing() {
    let mut bench = four::ready();
    bench.does(r#"Recorded(side:Should,at:"old:4",holds:Spare())"#);
    decides(&mut bench, "4", "Should");
    let fits = |part: &str| format!(r#"MoveOther(from:"old:4",to:"new:4",part:"{part}")"#);
    assert!(bench.against(&fits("B4-M")).contains(&Code::TerminalMisfit));
    assert_eq!(bench.asks(&fits("B4-T")), Verdict::Allowed);
}

#[test]
fn a_lead_that_was_made_and_is_out_for_good_needs_nothing() {
    let mut bench = four::ordered_one();
    bench.does(&format!(
        r#"Planned(lead:"old:1",how:RepairLead,reason:"nicked",part:"B4-T",order:({},gauge:"0.5"))"#,
        four::ORDER
    ));
    let splice = four::spliced(&mut bench, 1, "RD", "45 mm");
    bench.does_all(&[&splice, "Inspect(verdict:Good)"]);
    bench.does(&removed("old:1"));
    for code in [Code::GaugeReduced, Code::UnknownValue, Code::ClassLowered] {
        let account = bench.job.account(bench.now);
        let about = |flag: &&repin::job::Flag| flag.code() == code && flag_words(flag).say.contains("W1 ");
        assert!(account.open_flags().find(about).is_none(), "{code}: {:?}", bench.flags());
    }
}

#[test]
fn what_stays_by_name_stays_flagged() {
    // A spare terminal that should not be there is moved by name, its plug behind it.
    let mut bench = board(&[("12", "Spare(plug_behind:true)")], &[]);
    decides(&mut bench, "12", "Should");
    assert_eq!(bench.insists(r#"MoveOther(from:"old:12",to:"new:12")"#), [Code::SpareMissing]);
    bench.flagged(Code::SpareMissing);
    bench.does(r#"Seen(item:"old:12",at:Unseen,reason:"taken out again")"#);
    bench.not_flagged(Code::SpareMissing);
    // A seal that was missing in the hand is not on by a later record of its old hole.
    let mut bench = Bench::ready();
    bench.does(&out("1", "RD").replace("seal:On", "seal:Missing"));
    bench.does(r#"RecordCorrected(at:"old:1",holds:Wired(wires:[(number:"S01",circuit:"sensor feed",colour:"RD",gauge:"0.5")],seal:On),reason:"looked again")"#);
    bench.flagged(Code::SealMissing);
    // One of two that were to be joined goes in alone, by name.
    let mut bench = clashing();
    bench.does_all(&[JOIN, "MapConfirmed(source:SameLabels)", OUT_1, "Inspect(verdict:Good)"]);
    assert!(bench.insists(r#"Insert(into:"new:1",click:true)"#).contains(&Code::MapClash));
    bench.flagged(Code::MapClash);
}

#[test]
fn the_plug_that_was_found_serves_where_the_house_wants_one() {
    let mut bench = board(&[], &[("12", "Empty")]);
    decides(&mut bench, "12", "Should");
    assert_eq!(expected(&bench, "12"), Expected::Plug(Some("old:12".parse().unwrap())));
    assert_eq!(asked_for(&bench, "12"), Vec::<String>::new());
}

#[test]
fn a_wire_taken_out_by_a_slip_in_the_hand_is_seen_there_again() {
    let two = wired(&[S13, r#"(number:"S20",circuit:"lamp feed",colour:"TQ",gauge:"0.5")"#]);
    let mut bench = board(&[("13", &two)], &[("13", &two)]);
    bench.does(&out("13", "PK"));
    let seen = r#"Seen(item:"old:13",at:Hand,reason:"both are in it")"#;
    assert!(bench.impossible(seen).contains("on record too"));
    bench.does(&removed("old:13/2"));
    bench.does(seen);
    let id: ItemId = "old:13".parse().unwrap();
    assert_eq!(bench.job.state().items.lead(&id).unwrap().wires_left(), 2);
}
