//! A record that is corrected under a repair: what was found, ordered and made stays with the wire, and
//! what no longer fits is said.

use crate::{four, support};

use four::{ORDER, QUALIFIED, WIRES, ordered_one, ready, ready_with, rules, spliced};
use repin::{
    job::{Act, Code, Lead},
    report::flag_words,
};
use support::Bench;

/// Corrects what is recorded of an old cavity.
fn corrects(bench: &mut Bench, label: u32, wire: &str) {
    bench.does(&format!(
        r#"RecordCorrected(at:"old:{label}",holds:Wired(wires:[{wire}],terminal:"B4-T"),reason:"read again")"#
    ));
}

fn lead(bench: &Bench, label: &str) -> Lead {
    bench.job.state().items.lead(&label.parse().unwrap()).unwrap().clone()
}

/// Whether a flag of this code says this.
fn says(bench: &Bench, code: Code, words: &str) -> bool {
    bench
        .job
        .account(bench.now)
        .open_flags()
        .any(|flag| flag.code() == code && flag_words(flag).say.contains(words))
}

/// A repair lead on the first wire, made where it was planned.
fn made() -> Bench {
    let mut bench = ordered_one();
    let act = spliced(&mut bench, 1, "RD", "45 mm");
    bench.does(&act);
    bench
}

#[test]
fn a_seal_that_did_not_come_with_the_wire_stays_missing() {
    let mut bench = ready();
    bench.does(r#"Extract(from:"old:1",colour:"RD",freely:true,seal:Missing)"#);
    corrects(&mut bench, 1, &WIRES[0].replace("W1", "W11"));
    assert_eq!(bench.insists("Inspect(verdict:Good)"), [Code::CrimpSuspect, Code::SealMissing]);
    assert!(bench.against(r#"Insert(into:"new:1",click:true)"#).contains(&Code::SealMissing));
}

#[test]
fn damage_found_beyond_a_splice_that_is_made_counts() {
    let mut bench = made();
    bench.not_flagged(Code::SpliceTooNear);
    corrects(&mut bench, 1, &WIRES[0].replace("30 mm", "400 mm"));
    assert!(says(&bench, Code::SpliceTooNear, "the damage reaches 400 mm"));
}

#[test]
fn a_flip_takes_tag_plan_and_order_along_with_the_wire() {
    let mut bench = ready();
    bench.does(r#"Tagged(lead:"old:1",tag:"T1")"#);
    bench.does(&format!(
        r#"Planned(lead:"old:1",how:RepairLead,reason:"nicked",part:"B4-T",order:({ORDER}))"#
    ));
    bench.does(r#"RecordFlipped(how:Mirror,reason:"read from the mating face")"#);
    assert!(lead(&bench, "old:1").planned.is_none() && lead(&bench, "old:1").tag.is_none());
    let moved = lead(&bench, "old:4");
    assert!(moved.planned.is_some() && moved.order.is_some() && moved.tag.is_some());
    assert_eq!(moved.call(), "W1");
}

#[test]
fn the_lead_to_come_is_held_against_its_own_line() {
    let mut bench = made();
    let sent = |revision: u32, lines: &str| {
        format!(r#"Requested(number:"ACDEFGHJ",revision:{revision},lines:[{lines}])"#)
    };
    let first = r#"(line:3,need:1,leads:["old:1"],length_mm:110)"#;
    bench.does(&sent(1, first));
    bench.does("Inspect(verdict:Needs(RepairLead),found:Burnt,damage:\"200 mm\")");
    bench
        .does(&format!(r#"Planned(lead:"old:1",how:RepairLead,reason:"burnt",part:"B4-T",order:({ORDER}))"#));
    bench.does(&sent(2, &format!(r#"{first},(line:4,need:1,leads:["old:1"],length_mm:280)"#)));
    assert!(!says(&bench, Code::WireMisfit, "asked for"));
    bench.does(
        r#"Repair(lead:"old:1",how:RepairLead,done:"joined",part:"B4-T",splice:(start:"215 mm",sleeve:"35 mm",sound:true))"#,
    );
    assert!(!says(&bench, Code::WireMisfit, "asked for"));
}

#[test]
fn an_order_that_was_given_up_says_nothing_about_the_lead_that_is_made() {
    let mut bench = ordered_one();
    bench.does(&format!(
        r#"Planned(lead:"old:1",how:RepairLead,reason:"nicked",part:"B4-T",order:({ORDER},spliced_before:true))"#
    ));
    let act = spliced(&mut bench, 1, "RD", "45 mm");
    bench.does(&act);
    bench.flagged(Code::SpliceSecond);
    bench.does(&format!(
        r#"Planned(lead:"old:1",how:RepairLead,reason:"again",part:"B4-T",order:({},gauge:"10"))"#,
        ORDER.replace("1.6 mm", "5.5 mm")
    ));
    bench.does(r#"Planned(lead:"old:1",how:Other,reason:"given up")"#);
    bench.does(r#"Repair(lead:"old:1",how:Other,done:"nothing to mend")"#);
    // What is made was spliced before, and nothing of 10 mm² is on it.
    bench.flagged(Code::SpliceSecond);
    assert!(!says(&bench, Code::WireMisfit, "10 mm²"));
}

#[test]
fn an_order_nobody_wants_any_more_bars_no_other_repair() {
    let mut bench = ordered_one();
    bench.does(r#"Planned(lead:"old:1",how:NewTerminal,reason:"loose",part:"B4-T")"#);
    corrects(&mut bench, 1, &WIRES[0].replace(r#"gauge:"0.5""#, r#"gauge:"0.75""#));
    bench.not_flagged(Code::GaugeReduced);
    bench.does(r#"Extract(from:"old:1",colour:"RD",freely:true,seal:On)"#);
    bench.does("Inspect(verdict:Needs(NewTerminal),found:FemaleLoose)");
    bench.does(r#"Repair(lead:"old:1",how:NewTerminal,done:"crimped",part:"B4-T")"#);
}

#[test]
fn a_plan_on_a_wire_that_proves_forbidden_holds_nobody_back() {
    let mut bench = ready();
    bench.does(r#"Planned(lead:"old:1",how:NewTerminal,reason:"loose",part:"B4-T")"#);
    corrects(&mut bench, 1, &WIRES[0].replace("slack", "kind:Coaxial,slack"));
    bench.flagged(Code::SpliceForbidden);
    bench.does(r#"Extract(from:"old:1",colour:"RD",freely:true,seal:On)"#);
    assert_eq!(bench.insists("Inspect(verdict:Good)"), [Code::CrimpSuspect]);
    bench.not_flagged(Code::SpliceForbidden);
    assert_eq!(lead(&bench, "old:1").planned, None);
}

#[test]
fn a_crimp_is_proved_for_the_wire_it_was_made_on_and_for_no_other() {
    let mut bench = ready();
    bench.does(r#"Extract(from:"old:1",colour:"RD",freely:true,seal:On)"#);
    bench.does("Inspect(verdict:Needs(NewTerminal),found:FemaleLoose)");
    bench.does(r#"Planned(lead:"old:1",how:NewTerminal,reason:"loose",part:"B4-T")"#);
    let crimp = |more: &str| {
        format!(
            r#"Repair(lead:"old:1",how:NewTerminal,done:"crimped",part:"B4-T",crimp:(tool:"hand tool 1",position:"B",height:"1.12 mm",{more}{QUALIFIED}))"#
        )
    };
    // A crimp cannot claim another wire than the one in the hand.
    assert_eq!(bench.against(&crimp(r#"wire:"0.75","#)), [Code::WireMisfit]);
    bench.does(&crimp(""));
    bench.not_flagged(Code::ToolNotQualified);
    corrects(&mut bench, 1, &WIRES[0].replace(r#"gauge:"0.5""#, r#"gauge:"0.75""#));
    assert!(says(&bench, Code::ToolNotQualified, "was made for 0.5 mm²"));
}

#[test]
fn a_larger_lead_is_ordered_with_its_own_diameter() {
    let bench = ready_with(rules(), &WIRES);
    let order = |said: &str| {
        Bench::parse(&format!(r#"Planned(lead:"old:1",how:RepairLead,reason:"seen so",order:({said}))"#))
    };
    let allowed = |act: Act| {
        let entry = repin::job::Entry::new(bench.now, bench.by.clone(), act);
        bench.job.check(&entry) == repin::job::Verdict::Allowed
    };
    // 4 mm² are 2.3 mm of copper: the 1.6 mm on record are those of the old wire.
    assert!(allowed(order(r#"gauge:"4""#)));
    assert!(!allowed(order(r#"gauge:"4",outside_diameter:"2 mm""#)));
    assert!(allowed(order(r#"gauge:"4",outside_diameter:"3.7 mm""#)));
}

#[test]
fn a_splice_made_in_this_job_and_said_once_more_is_one_splice() {
    let mut bench = made();
    bench.does(r#"Behind(housing:"old",behind:(last:"700 mm",splices:[("45 mm","80 mm")]))"#);
    bench.not_flagged(Code::SpliceTooNear);
    let state = bench.job.state();
    let plan = &state.splice_plans()[0];
    assert_eq!(state.splices_in(plan), 1);
}
