//! Two leads of different cavities become one under a document: a clash of the map until it is planned,
//! a joint of its own, one terminal, both wires counted.

use repin::{
    job::{Code, Verdict},
    record::Address,
};

use crate::{four, support::Bench};

pub const W1: &str = r#"(number:"W1",colour:"RD",gauge:"0.5",insulation_class:B,outside_diameter:"1.6 mm")"#;
pub const W4: &str = r#"(number:"W4",colour:"BU",gauge:"0.5",insulation_class:B,outside_diameter:"1.6 mm")"#;
pub const JOIN: &str = r#"Planned(lead:"old:4",how:Join,reason:"bulletin 12",part:"B4-T",with:"old:1",order:(gauge:"1.0",insulation_class:B))"#;
pub const OUT_1: &str = r#"Extract(from:"old:1",colour:"RD",freely:true,seal:On)"#;
pub const OUT_4: &str = r#"Extract(from:"old:4",colour:"BU",freely:true,seal:On)"#;

/// Four wires, set up without a confirmed map; then the fourth is mapped to the first cavity.
fn mapped(document: &str) -> Bench {
    let mut bench = four::ready_with(four::rules(), &[W1, four::WIRES[1], four::WIRES[2], W4]);
    bench.does(r#"Behind(housing:"old",behind:(last:"700 mm"))"#);
    bench.does(r#"Mapped(from:"old:1",to:"new:1",document:"bulletin 12")"#);
    bench.does(&format!(r#"Mapped(from:"old:4",to:"new:1"{document})"#));
    bench
}

pub fn clashing() -> Bench {
    mapped(r#",document:"bulletin 12""#)
}

#[test]
fn two_into_one_is_a_clash_until_it_is_planned_to_join_them() {
    let bench = four::ready_with(four::rules(), &[W1, four::WIRES[1], four::WIRES[2], W4]);
    let mut bench = bench;
    bench.does(r#"Mapped(from:"old:1",to:"new:1",document:"bulletin 12")"#);
    for nothing in ["", r#",document:"x""#, r#",document:"-""#] {
        let said = bench.impossible(&format!(r#"Mapped(from:"old:4",to:"new:1"{nothing})"#));
        assert!(said.contains("under a document: name it"), "{nothing}: {said}");
    }
    let mut bench = clashing();
    bench.flagged(Code::MapClash);
    assert!(bench.impossible("MapConfirmed(source:SameLabels)").contains("two leads would go to new:1"));
    assert!(bench.against(OUT_1).contains(&Code::MapClash));
    bench.does(JOIN);
    bench.not_flagged(Code::MapClash);
    bench.does("MapConfirmed(source:SameLabels)");
}

#[test]
fn what_may_not_be_joined_is_not_planned() {
    let plan = |rest: &str| format!(r#"Planned(lead:"old:4",how:Join,reason:"r",part:"B4-T"{rest})"#);
    let bench = clashing();
    for (rest, why) in [
        ("", "With which other lead"),
        (r#",with:"old:4""#, "With which other lead"),
        (r#",with:"old:9""#, "With which other lead"),
        (r#",with:"old:2""#, "not mapped to one new cavity"),
        (r#",with:"old:1",order:(gauge:"0.75")"#, "together"),
        (r#",with:"old:1",order:(gauge:"1.0",insulation_class:A)"#, "lower temperature class"),
    ] {
        let said = bench.impossible(&plan(rest));
        assert!(said.contains(why), "{rest}: {said}");
    }
    let mut bench = clashing();
    bench.does(JOIN);
    // Each lead takes one other.
    assert!(bench.impossible(&plan(r#",with:"old:2""#)).contains("not mapped"));
    let back = r#"Planned(lead:"old:1",how:Join,reason:"r",part:"B4-T",with:"old:4")"#;
    assert!(bench.impossible(back).contains("joined or to be joined already"));
    let forbidden = r#"(number:"W1",colour:"RD",gauge:"0.5",kind:FusibleLink)"#;
    let mut bench = four::ready_with(four::rules(), &[forbidden, four::WIRES[1], four::WIRES[2], W4]);
    bench.does(r#"Mapped(from:"old:1",to:"new:1",document:"bulletin 12")"#);
    bench.does(r#"Mapped(from:"old:4",to:"new:1",document:"bulletin 12")"#);
    assert!(bench.impossible(&plan(r#",with:"old:1""#)).contains("not cut and joined"));
}

#[test]
fn both_are_out_before_they_are_joined_and_one_terminal_goes_in_for_both() {
    let mut bench = clashing();
    bench.does_all(&[JOIN, "MapConfirmed(source:SameLabels)"]);
    let join = r#"Repair(lead:"old:4",how:Join,done:"joined",part:"B4-T",splice:(start:"45 mm",sleeve:"35 mm",sound:true))"#;
    bench.does(OUT_4);
    let said = bench.impossible(join);
    assert!(said.contains("W1 is not out"), "{said}");
    bench.does(r#"Park(tag:"T4",reason:"its partner is not out")"#);
    bench.does(OUT_1);
    // The other one does not go in alone.
    bench.does("Inspect(verdict:Good)");
    assert!(bench.against(r#"Insert(into:"new:1",click:true)"#).contains(&Code::MapClash));
    bench.does(r#"Park(tag:"T1",reason:"to be joined")"#);
    bench.does(r#"TakeUp(tag:"T4")"#);
    bench.does(join);
    let account = bench.job.account(bench.now);
    assert_eq!((account.leads.joined, account.wires.found, account.wires.hand), (1, 4, 2));
    let lead = bench.job.state().items.lead_in_hand().unwrap();
    assert_eq!(lead.id.to_string(), "old:1");
    assert_eq!(lead.repairs.iter().filter(|done| done.splice.is_some()).count(), 1);
    bench.does_all(&[
        "Inspect(verdict:Good)",
        r#"Insert(into:"new:1",click:true)"#,
        r#"Tug(at:"new:1",held:true)"#,
    ]);
    let account = bench.job.account(bench.now);
    assert_eq!((account.wires.new, account.leads.joined, account.leads.places.new), (2, 1, 1));
    // Nothing goes into the hole the second one would have had, and it is no lead to be moved.
    let hole: Address = "new:4".parse().unwrap();
    assert!(bench.job.state().items.occupant(&hole).is_none());
    let target = bench.job.state().target();
    let steps = bench.job.state().steps(&target);
    let moves = |lead: &str| {
        steps.iter().any(
            |step| matches!(&step.what, repin::job::Task::MoveWire { lead: id, .. } if id.to_string() == lead),
        )
    };
    assert!(moves("old:1") && !moves("old:4"));
    assert!(matches!(bench.asks(r#"Planned(lead:"old:4",how:NewSeal,reason:"r")"#), Verdict::Impossible(_)));
}
