//! What each source of a map gives, and what is refused.

use crate::support;

use repin::job::MapSource;
use support::{Bench, demo_acts};

/// The superseded body module, recorded, nothing confirmed.
fn recorded() -> Bench {
    let mut bench = Bench::new("lh-24", "lh-24b");
    for act in demo_acts("lanternhill-module.acts") {
        if act.starts_with("MapConfirmed") {
            break;
        }
        bench.does(&act);
    }
    bench
}

fn sources(bench: &Bench) -> Vec<MapSource> {
    bench.job.state().map_proposals().iter().map(|p| p.source).collect()
}

#[test]
fn sources_that_agree_are_offered_once_and_those_that_leave_a_lead_out_not_at_all() {
    // Published and by position are the same map; the labels agree nowhere.
    assert_eq!(sources(&recorded()), [MapSource::Shop]);
    let bench = Bench::ready();
    assert_eq!(sources(&bench), [MapSource::SameLabels]);
    let said = recorded().impossible("MapConfirmed(source:SameLabels)");
    assert!(said.contains("old:1 has no place on the new side"), "{said}");
}

#[test]
fn f18_by_hand_nothing_goes_against_the_mating_half_without_a_document() {
    let mut bench = recorded();
    let said = bench.impossible(r#"Mapped(from:"old:1",to:"new:A1")"#);
    assert!(said.contains("terminal at new:A12 by the published map, not at new:A1"), "{said}");
    bench.does(r#"Mapped(from:"old:2",to:"new:A11")"#);
    bench.does(r#"Mapped(from:"old:1",to:"new:A1",document:"bulletin 9")"#);
    assert!(bench.impossible(r#"Mapped(from:"old:3",to:"new:A11")"#).contains("terminal at new:A10"));
    // 12 would have gone there: it has no place until it is mapped, too.
    let said = bench.impossible("MapConfirmed(source:Shop)");
    assert!(said.contains("old:12 has no place"), "{said}");
    assert_eq!(bench.job.state().nearest_map().1, ["old:12".parse().unwrap()]);
    bench.does(r#"Mapped(from:"old:12",to:"new:A12",document:"bulletin 9")"#);
    bench.does("MapConfirmed(source:Shop)");
    let target = bench.job.state().target();
    let to = |label: &str| {
        let lead = repin::job::ItemId::At(format!("old:{label}").parse().unwrap());
        target.of(&lead).unwrap().to_string()
    };
    assert_eq!([to("1"), to("12"), to("2")], ["new:A1", "new:A12", "new:A11"]);
}

#[test]
fn f21_a_wire_or_terminal_the_new_cavity_does_not_take_is_flagged_before_anything_moves() {
    let mut bench = Bench::new("as-18", "as-18p");
    for act in demo_acts("aurelia-bilge.acts").iter().take_while(|act| !act.starts_with("TakePlug")) {
        bench.does(&act.replace(r#"colour:"RD",gauge:"2.5")"#, r#"colour:"RD",gauge:"6")"#));
    }
    bench.flagged(repin::job::Code::WireMisfit);
}

#[test]
fn one_old_housing_into_two_new_ones_is_mapped_cavity_by_cavity() {
    let catalogue = repin::catalogue::Catalogue::built_in();
    let mut bench = Bench::from(&catalogue, "sk-10", "sk-10", repin::shop_rules::ShopRules::default());
    bench.houses("second", repin::job::JobSide::New, "dl-08");
    for label in 1..=10 {
        bench.does(&format!(
            r#"Recorded(side:Found,at:"old:{label}",holds:Wired(wires:[(colour:"RD",gauge:"0.75")]))"#
        ));
    }
    bench.does("RecordFinished(side:Found)");
    // Labels that stand on both new housings say nothing; 9 and 10 stand on one.
    let said = bench.impossible("MapConfirmed(source:SameLabels)");
    assert!(said.contains("old:1 has no place"), "{said}");
    for label in 1..=8 {
        bench.does(&format!(r#"Mapped(from:"old:{label}",to:"second:{label}")"#));
    }
    bench.does("MapConfirmed(source:SameLabels)");
    let map = &bench.job.state().mapping.map;
    assert_eq!(map[&"old:9".parse().unwrap()], Some("new:9".parse().unwrap()));
    assert_eq!(map[&"old:3".parse().unwrap()], Some("second:3".parse().unwrap()));
}

#[test]
fn what_should_be_may_be_written_in_new_labels_and_decides_where_a_wire_goes() {
    let mut bench = recorded();
    // The diagram of the new housing has the lamp wires the other way round: A12 and A10.
    let wired =
        |n: &str, colour: &str| format!(r#"Wired(wires:[(number:"{n}",colour:"{colour}",gauge:"0.5")])"#);
    bench.does(&format!(r#"Recorded(side:Should,at:"new:A12",holds:{})"#, wired("W203", "BU")));
    bench.does(&format!(r#"Recorded(side:Should,at:"new:A10",holds:{})"#, wired("W201", "RD")));
    bench.does(&format!(r#"Recorded(side:Should,at:"new:A11",holds:{})"#, wired("W202", "GY/BK")));
    assert_eq!(bench.job.state().differences(), [], "nothing is compared before the map is confirmed");
    bench.does("MapConfirmed(source:Shop)");
    let said: Vec<String> = bench.job.state().differences().iter().map(|d| d.sentence()).collect();
    assert_eq!(said, ["1 and 3 are swapped: W201 is in 1, W203 is in 3."]);
    bench.does(r#"Decided(at:"old:1",wins:Should,reason:"by the diagram of the new harness")"#);
    let target = bench.job.state().target();
    let lead = repin::job::ItemId::At("old:1".parse().unwrap());
    assert_eq!(target.of(&lead).unwrap().to_string(), "new:A10");
}

#[test]
fn every_new_cavity_nothing_comes_to_is_plugged_where_the_housing_is_sealed() {
    let mut bench = Bench::new("dl-08", "sk-10");
    for label in 1..=8 {
        bench.does(&format!(
            r#"Recorded(side:Found,at:"old:{label}",holds:Wired(wires:[(colour:"RD",gauge:"0.75")]))"#
        ));
    }
    bench.does("RecordFinished(side:Found)");
    bench.does("MapConfirmed(source:SameLabels)");
    let target = bench.job.state().target();
    for label in ["9", "10"] {
        let at = format!("new:{label}").parse().unwrap();
        assert_eq!(*target.expected(&at), repin::job::Expected::Plug(None), "{label}");
    }
    let state = bench.job.state();
    let [old, new] = [0, 1].map(|n| &state.housings.all[n].definition);
    let said: Vec<String> = old.differences_to(new).into_iter().map(|d| d.say).collect();
    assert!(said.iter().any(|say| say.contains("of the family Dewline sealed 8-way")), "{said:?}");
}

#[test]
fn f18_the_same_labels_in_other_holes_are_refused_and_the_holes_decide() {
    // A housing that was numbered from the other end at its last revision, with the same labels.
    let reversed = include_str!("../../connectors/skerry.ron")
        .replace("\"skerry\"", "\"skerry-r\"")
        .replace("sk-10", "sk-10r")
        .replace("SK-10\"", "SK-10R\"")
        .replace("pitch_mm: (4.0, 5.0))", "pitch_mm: (4.0, 5.0), numbering: (start: TopRight))");
    let catalogue =
        repin::catalogue::Catalogue::built_in().with_library(vec![("skerry-r.ron".to_owned(), reversed)]);
    let mut bench = Bench::from(&catalogue, "sk-10", "sk-10r", repin::shop_rules::ShopRules::default());
    for label in 1..=10 {
        bench.does(&format!(
            r#"Recorded(side:Found,at:"old:{label}",holds:Wired(wires:[(number:"W{label}",colour:"RD",gauge:"0.75")]))"#
        ));
    }
    bench.does("RecordFinished(side:Found)");
    assert_eq!(sources(&bench), [MapSource::Position]);
    let said = bench.impossible("MapConfirmed(source:SameLabels)");
    assert!(
        said.contains(
            "The same labels are other holes. By position 8 cavities differ, the first: old:1 to new:5"
        ),
        "{said}"
    );
    bench.does("MapConfirmed(source:Position)");
    let target = bench.job.state().target();
    let lead = repin::job::ItemId::At("old:1".parse().unwrap());
    assert_eq!(target.of(&lead).unwrap().to_string(), "new:5");
}
