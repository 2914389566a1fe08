//! Failures of the trade's list of eighty (common practice, no source) that come with splices and
//! the leads they join. Each is committed on purpose and seen caught.

use crate::{four, support};

use four::{ORDER, WIRES, into_its_hole, ordered, ordered_one, ready, ready_with, rules, spliced};
use repin::{
    job::{Code, Verdict},
    report::flag_words,
    shop_rules::{Rule, ShopRules, Solder},
};
use support::Bench;

#[test]
fn f61_splices_side_by_side_are_refused() {
    let mut bench = ordered(r#"last:"700 mm""#);
    let first = spliced(&mut bench, 1, "RD", "45 mm");
    bench.does(&first);
    into_its_hole(&mut bench, 1);
    // The pair keeps 65 mm: 45 + 35 + 65 is the least, 144 comes too near.
    let second = spliced(&mut bench, 2, "BK", "144 mm");
    assert_eq!(bench.against(&second), [Code::SpliceTooNear]);
    bench.does(&second.replace("144 mm", "145 mm"));
    bench.not_flagged(Code::SpliceTooNear);
    // An ordinary wire keeps the pair's distance from the pair, too.
    let mut bench = ordered(r#"last:"700 mm""#);
    let pair = spliced(&mut bench, 2, "BK", "45 mm");
    bench.does(&pair);
    into_its_hole(&mut bench, 2);
    assert_eq!(bench.job.state().ordered(&"old:1".parse().unwrap()).unwrap().place.unwrap().start_mm, 145.0);
    let ordinary = spliced(&mut bench, 1, "RD", "144 mm");
    assert_eq!(bench.against(&ordinary), [Code::SpliceTooNear]);
}

#[test]
fn f61_earlier_splices_keep_their_gap_and_count() {
    let bench = ordered(r#"last:"900 mm",splices:[("45 mm","80 mm")]"#);
    let plan = &bench.job.state().splice_plans()[0];
    let starts: Vec<f64> = plan.leads.iter().filter_map(|lead| lead.place).map(|p| p.start_mm).collect();
    assert_eq!(starts.len(), 3);
    assert!(starts.iter().all(|start| *start >= 120.0), "{starts:?}");
    let six = ordered(
        r#"last:"2000 mm",splices:[("45 mm","60 mm"),("100 mm","110 mm"),("150 mm","160 mm"),("200 mm","210 mm")]"#,
    );
    six.flagged(Code::SpliceTooMany);
    let mut bench = ready();
    bench.does(&format!(
        r#"Planned(lead:"old:1",how:RepairLead,reason:"seen so",order:({ORDER},spliced_before:true))"#
    ));
    bench.flagged(Code::SpliceSecond);
}

#[test]
fn f62_a_splice_too_near_the_housing_a_branch_or_a_clamp_is_refused() {
    let behind = r#"branches:["500 mm"],keep_out:[("150 mm","200 mm")],last:"700 mm""#;
    // Further out the lead, ordered for 45 mm, does not reach either.
    let near = [Code::SpliceTooNear];
    let near_and_short = [Code::SpliceTooNear, Code::WireMisfit];
    for (start, codes) in [
        ("39 mm", &near[..]),
        ("120 mm", &near_and_short),
        ("190 mm", &near_and_short),
        ("440 mm", &near_and_short),
    ] {
        let mut bench = ordered(behind);
        let act = spliced(&mut bench, 1, "RD", start);
        assert_eq!(bench.against(&act), codes, "{start}");
    }
    let mut bench = ordered(behind);
    let act = spliced(&mut bench, 1, "RD", "45 mm");
    assert_eq!(bench.asks(&act), Verdict::Allowed);
}

#[test]
fn f62_leads_that_have_no_room_together_are_named_with_what_settles_it() {
    let bench = ordered(r#"last:"150 mm""#);
    let account = bench.job.account(bench.now);
    let flag = account.open_flags().find(|flag| flag.code() == Code::SpliceTooNear).unwrap();
    let words = flag_words(flag);
    assert!(words.say.contains("cannot all be spliced"), "{}", words.say);
    assert!(words.instead.contains("mm more all would fit"), "{}", words.instead);
}

#[test]
fn a_splice_in_damaged_wire_stays_flagged_and_one_without_a_record_is() {
    let mut bench = ordered(r#"last:"700 mm""#);
    // Damage measured in the hand counts, whatever the order said before.
    bench.does(r#"Extract(from:"old:1",colour:"RD",freely:true,seal:On)"#);
    bench.does(r#"Inspect(verdict:Needs(RepairLead),found:Burnt,damage:"300 mm")"#);
    let act = r#"Repair(lead:"old:1",how:RepairLead,done:"joined",part:"B4-T",splice:(start:"160 mm",sleeve:"35 mm",sound:true))"#;
    assert_eq!(bench.insists(act), [Code::SpliceTooNear]);
    bench.flagged(Code::SpliceTooNear);
    let mut bench = ordered(r#"last:"700 mm""#);
    spliced(&mut bench, 1, "RD", "45 mm");
    bench.does(r#"Repair(lead:"old:1",how:RepairLead,done:"joined",part:"B4-T")"#);
    bench.flagged(Code::UnknownValue);
}

#[test]
fn a_pair_is_made_where_it_was_planned_and_the_other_keeps_its_place() {
    let mut bench = ordered(r#"last:"900 mm""#);
    let start = |bench: &Bench, lead: &str| {
        bench.job.state().ordered(&lead.parse().unwrap()).unwrap().place.unwrap().start_mm
    };
    let before = ["old:1", "old:2", "old:3"].map(|lead| start(&bench, lead));
    let act = spliced(&mut bench, 2, "BK", &format!("{} mm", before[1]));
    bench.does(&act);
    assert_eq!(["old:1", "old:2", "old:3"].map(|lead| start(&bench, lead)), before);
}

#[test]
fn f64_a_soldered_splice_is_refused_or_takes_its_reason() {
    let solder = |bench: &mut Bench| {
        spliced(bench, 1, "RD", "45 mm").replace("sound:true", r#"sound:true,solder:"no crimp tool there""#)
    };
    let mut bench = ordered(r#"last:"700 mm""#);
    let act = solder(&mut bench);
    assert_eq!(bench.against(&act), [Code::Soldered]);
    let allowed = ShopRules { solder: Rule::new(Solder::WithReason, "old manual"), ..rules() };
    let mut bench = ready_with(allowed, &WIRES);
    bench.does(&format!(
        r#"Planned(lead:"old:1",how:RepairLead,reason:"nicked",part:"B4-T",order:({ORDER}))"#
    ));
    let act = solder(&mut bench);
    bench.does(&act);
    bench.flagged(Code::Soldered);
}

#[test]
fn f63_f69_a_splice_that_was_not_looked_at_or_a_pair_left_untwisted_is_caught() {
    let mut bench = ordered(r#"last:"700 mm""#);
    let act = spliced(&mut bench, 2, "BK", "45 mm");
    assert_eq!(bench.against(&act.replace("sound:true", "sound:false")), [Code::CrimpLook]);
    assert_eq!(bench.against(&act.replace("20 mm", "60 mm")), [Code::Untwisted]);
    bench.does(&act.replace(r#",untwisted:"20 mm""#, ""));
    bench.flagged(Code::UnknownValue);
}

#[test]
fn more_than_one_wire_in_three_asks_whether_the_branch_is_replaced() {
    ready().not_flagged(Code::LeadsMany);
    ordered(r#"last:"700 mm""#).flagged(Code::LeadsMany);
}

#[test]
fn a_lead_that_was_asked_for_and_is_too_short_by_now_is_flagged() {
    let mut bench = ordered_one();
    let sent =
        r#"Requested(number:"ACDEFGHJ",revision:1,lines:[(line:1,need:1,leads:["old:1"],length_mm:110)])"#;
    bench.does(sent);
    let too_short = |bench: &Bench| {
        let account = bench.job.account(bench.now);
        let flags = account.open_flags().filter(|flag| flag.code() == Code::WireMisfit);
        flags.map(|flag| flag_words(flag).say).find(|say| say.contains("asked for"))
    };
    assert_eq!(too_short(&bench), None);
    bench.does(r#"Extract(from:"old:1",colour:"RD",freely:true,seal:On)"#);
    bench.does(r#"Inspect(verdict:Needs(RepairLead),found:Burnt,damage:"90 mm")"#);
    let said = too_short(&bench).unwrap();
    assert!(said.contains("110 mm") && said.contains("170 mm now"), "{said}");
}

#[test]
fn a_lead_made_stays_as_it_was_ordered_whatever_is_planned_next() {
    let mut bench = ordered(r#"last:"700 mm""#);
    let length = |bench: &Bench| {
        let ordered = bench.job.state().ordered(&"old:1".parse().unwrap()).unwrap();
        ordered.length.unwrap().order_mm
    };
    let before = length(&bench);
    let act = spliced(&mut bench, 1, "RD", "47 mm");
    bench.does(&act);
    assert_eq!(length(&bench), before);
    bench.does(r#"Behind(housing:"old",behind:(last:"700 mm",keep_out:[("40 mm","100 mm")]))"#);
    assert_eq!(length(&bench), before);
}

/// The first lead spliced from 100 to 135 mm, and another lead planned for it.
fn planned_again() -> (Bench, String) {
    let mut bench = ordered_one();
    bench.does(r#"Behind(housing:"old",behind:(last:"700 mm",keep_out:[("40 mm","100 mm")]))"#);
    let first = spliced(&mut bench, 1, "RD", "100 mm");
    bench.does(&first);
    bench.does(r#"Behind(housing:"old",behind:(last:"700 mm"))"#);
    bench.does("Inspect(verdict:Needs(RepairLead),found:InsulationUnderSeal)");
    bench
        .does(&format!(r#"Planned(lead:"old:1",how:RepairLead,reason:"again",part:"B4-T",order:({ORDER}))"#));
    (bench, first)
}

#[test]
fn f61_a_second_lead_takes_the_first_splice_away_or_is_flagged() {
    let (mut bench, first) = planned_again();
    // The plan lies behind the old splice, which goes with the old lead.
    let place = bench.job.state().ordered(&"old:1".parse().unwrap()).unwrap().place.unwrap();
    assert_eq!(place.start_mm, 135.0);
    let before_it = first.replace("100 mm", "45 mm");
    assert_eq!(bench.against(&before_it), [Code::SpliceSecond]);
    bench.does(&first.replace("100 mm", "135 mm"));
    bench.not_flagged(Code::SpliceSecond);
    let (mut bench, _) = planned_again();
    bench.insists(&before_it);
    bench.flagged(Code::SpliceSecond);
}

#[test]
fn a_lead_does_not_reach_further_than_it_was_ordered() {
    let mut bench = ordered_one();
    let far = spliced(&mut bench, 1, "RD", "60 mm");
    // Ordered with 110 mm: 18 inside, 25 slack, 67 to the middle of the sleeve.
    assert_eq!(bench.against(&far), [Code::WireMisfit]);
    bench.does(&far.replace("60 mm", "49.5 mm"));
}

#[test]
fn the_room_that_is_missing_is_the_least_that_settles_it() {
    use repin::reckoning::{Stagger, room_needed_mm, stagger};
    let bench = ordered(r#"last:"150 mm""#);
    let plan = &bench.job.state().splice_plans()[0];
    let more = room_needed_mm(&plan.ask).unwrap();
    assert_eq!(plan.room_needed_mm(), Some(more));
    for (mm, fits) in [(more, true), (more - 1.0, false)] {
        let mut ask = plan.ask.clone();
        ask.leads.iter_mut().for_each(|lead| lead.last_mm += mm);
        assert_eq!(matches!(stagger(&ask), Stagger::Plan { .. }), fits, "{mm}");
    }
}

#[test]
fn a_loose_lead_is_spliced_by_the_rules_of_the_only_bundle() {
    let mut bench = ready();
    bench.does(r#"Behind(housing:"old",behind:(last:"700 mm"))"#);
    bench.does(r#"Seen(item:"loose/1",at:Hand,reason:"lay in the loom")"#);
    bench.does(&format!(
        r#"Planned(lead:"loose/1",how:RepairLead,reason:"cut",part:"B4-T",order:({ORDER},gauge:"0.5",colour:"WH"))"#
    ));
    bench.does("Inspect(verdict:Needs(RepairLead),found:TooShort)");
    let near = r#"Repair(lead:"loose/1",how:RepairLead,done:"joined",part:"B4-T",splice:(start:"20 mm",sleeve:"35 mm",sound:true))"#;
    assert!(bench.against(near).contains(&Code::SpliceTooNear));
}
