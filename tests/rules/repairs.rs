//! The decision table of repairs in full, what may not be cut or spliced, and what a seal and a drain
//! need.

use repin::{
    catalogue::{Gender, Sealing},
    job::{Code, Verdict},
    reckoning::{Advice, Finding, InHandLead, advise},
    record::WireKind,
};

use crate::{four, support::Bench};

/// What the table proposes, by its name.
fn proposed(finding: Finding, lead: &InHandLead) -> &'static str {
    match advise(finding, lead) {
        Advice::Reform(_) => "re-form",
        Advice::NewTerminal(_) => "terminal",
        Advice::NewSeal(_) => "seal",
        Advice::RepairLead(_) => "lead",
        Advice::Sleeve(_) => "sleeve",
        Advice::Stop(_) => "stop",
    }
}

/// A sound lead of one ordinary wire in a sealed housing, with slack for two more terminals.
fn plain() -> InHandLead {
    InHandLead {
        forbidden: None,
        wires: 1,
        sealed: true,
        pull_to_seat: false,
        reformed: 0,
        slack_mm: Some((24.0, 12.0)),
        tool_qualified: true,
    }
}

/// Common practice, no source: the table of repairs, every finding by what else is so. Columns: sealed,
/// unsealed, pull-to-seat, no slack left, slack not known, two wires, a kind nobody repairs.
#[test]
fn every_finding_is_decided_by_the_table() {
    use Finding::*;
    let columns = [
        plain(),
        InHandLead { sealed: false, ..plain() },
        InHandLead { pull_to_seat: true, ..plain() },
        InHandLead { slack_mm: Some((11.9, 12.0)), ..plain() },
        InHandLead { slack_mm: None, ..plain() },
        InHandLead { wires: 2, ..plain() },
        InHandLead { forbidden: Some(WireKind::Coaxial), ..plain() },
    ];
    let t = "terminal";
    let table: [(Finding, [&str; 7]); 13] = [
        (TangFlat, ["re-form", "re-form", "re-form", "re-form", "re-form", "re-form", "stop"]),
        (FemaleLoose, [t, t, "lead", "lead", t, "lead", "stop"]),
        (MaleBent, [t, t, "lead", "lead", t, "lead", "stop"]),
        (Corroded, [t, t, "lead", "lead", t, "lead", "stop"]),
        (Burnt, ["lead", "lead", "lead", "lead", "lead", "lead", "stop"]),
        (CrimpBad, [t, t, "lead", "lead", t, "lead", "stop"]),
        (GripBad, [t, t, "lead", "lead", t, "lead", "stop"]),
        (SealBad, ["seal", "seal", "seal", "seal", "seal", "seal", "stop"]),
        (InsulationOutside, ["lead", "sleeve", "lead", "lead", "lead", "lead", "stop"]),
        (InsulationUnderSeal, [t, t, "lead", "lead", "lead", "lead", "stop"]),
        (TooShort, ["lead", "lead", "lead", "lead", "lead", "lead", "stop"]),
        (Doubled, ["lead", "lead", "lead", "lead", "lead", "lead", "stop"]),
        (DrainBare, ["sleeve", "sleeve", "sleeve", "sleeve", "sleeve", "sleeve", "stop"]),
    ];
    let listed: Vec<Finding> = table.iter().map(|(finding, _)| *finding).collect();
    assert_eq!(listed, Finding::ALL);
    for (finding, expected) in table {
        let found: Vec<&str> = columns.iter().map(|lead| proposed(finding, lead)).collect();
        assert_eq!(found, expected, "{finding:?}");
    }
    // A tang that was re-formed once is not bent again.
    let again = InHandLead { reformed: 1, ..plain() };
    assert_eq!(proposed(TangFlat, &again), "terminal");
    // Just enough slack is enough.
    let just = InHandLead { slack_mm: Some((12.0, 12.0)), ..plain() };
    assert_eq!(proposed(InsulationUnderSeal, &just), "terminal");
}

#[test]
fn a_new_terminal_is_first_proved_and_nothing_else_is() {
    let unproved = InHandLead { tool_qualified: false, ..plain() };
    assert!(advise(Finding::CrimpBad, &unproved).first(&unproved).contains("qualify one on samples"));
    assert_eq!(advise(Finding::CrimpBad, &plain()).first(&plain()), "");
    assert_eq!(advise(Finding::SealBad, &unproved).first(&unproved), "");
}

#[test]
fn only_what_can_be_found_is_offered() {
    let one = [WireKind::Ordinary];
    let two = [WireKind::Ordinary, WireKind::Ordinary];
    let drain = [WireKind::Drain];
    let mat = Sealing::Mat { hole_mm: (1.2, 1.9) };
    let rows = [
        (Finding::FemaleLoose, Gender::Female, &Sealing::Unsealed, &one[..], true),
        (Finding::FemaleLoose, Gender::Male, &Sealing::Unsealed, &one[..], false),
        (Finding::MaleBent, Gender::Male, &Sealing::Unsealed, &one[..], true),
        (Finding::MaleBent, Gender::Female, &Sealing::Unsealed, &one[..], false),
        (Finding::SealBad, Gender::Female, &Sealing::Individual, &one[..], true),
        (Finding::SealBad, Gender::Female, &mat, &one[..], false),
        (Finding::InsulationUnderSeal, Gender::Female, &mat, &one[..], true),
        (Finding::InsulationUnderSeal, Gender::Female, &Sealing::Unsealed, &one[..], false),
        (Finding::Doubled, Gender::Female, &mat, &two[..], true),
        (Finding::Doubled, Gender::Female, &mat, &one[..], false),
        (Finding::Doubled, Gender::Female, &Sealing::Unsealed, &two[..], false),
        (Finding::DrainBare, Gender::Female, &mat, &drain[..], true),
        (Finding::DrainBare, Gender::Female, &mat, &one[..], false),
        (Finding::Burnt, Gender::Male, &Sealing::Unsealed, &one[..], true),
    ];
    for (finding, gender, sealing, wires, can_be) in rows {
        assert_eq!(finding.can_be_on(gender, sealing, wires), can_be, "{finding:?} {gender:?} {wires:?}");
    }
}

const FORBIDDEN: [&str; 5] = ["FusibleLink", "Restraint", "HighVoltage", "Coaxial", "Thermocouple"];

/// Four leads of which the first is of a kind, as recorded or only as drawn, its gates released.
fn with_kind(side: &str, kind: &str) -> Bench {
    let wire = format!(r#"(number:"W1",colour:"RD",gauge:"0.5",kind:{kind})"#);
    let plain = r#"(number:"W1",colour:"RD",gauge:"0.5")"#;
    let first = if side == "recorded" { wire.as_str() } else { plain };
    let mut bench = four::ready_with(four::rules(), &[first, four::WIRES[1], four::WIRES[2], four::WIRES[3]]);
    if side == "drawn" {
        bench.does(&format!(r#"Recorded(side:Should,at:"old:1",holds:Wired(wires:[{wire}]))"#));
        bench.does(r#"Decided(at:"old:1",wins:Found,reason:"looked at")"#);
    }
    for gate in ["Restraint", "HighVoltage", "Interlock"] {
        bench.does(&format!(
            r#"Gate(gate:{gate},answer:Released,document:"d",name:"n",measured:(volts:"0 V",between:"1 and 2",tester_proved:true))"#
        ));
    }
    bench
}

#[test]
fn a_forbidden_kind_is_neither_cut_nor_repaired_recorded_or_drawn() {
    let cut = r#"CutFree(from:"old:1",distance_mm:50,terminal_stayed:true,circuit:"W1")"#;
    for side in ["recorded", "drawn"] {
        for kind in FORBIDDEN {
            let bench = with_kind(side, kind);
            let refusal = match bench.asks(cut) {
                Verdict::Impossible(refusal) => refusal,
                other => panic!("{side} {kind}: {other:?}"),
            };
            assert_eq!(refusal.code(), Some(Code::SpliceForbidden), "{side} {kind}: {refusal:?}");
            for how in ["RepairLead", "NewTerminal", "NewSeal", "Reform", "Other"] {
                let planned = format!(r#"Planned(lead:"old:1",how:{how},reason:"r")"#);
                assert!(bench.impossible(&planned).contains("not planned on it"), "{side} {kind} {how}");
            }
        }
    }
    for kind in ["Ordinary", "Drain", "BusPair", "Interlock"] {
        assert_eq!(with_kind("recorded", kind).asks(cut), Verdict::Allowed, "{kind}");
    }
}

#[test]
fn the_wire_is_read_before_it_is_cut() {
    let bench = with_kind("recorded", "Ordinary");
    let cut = |read: &str| {
        bench.asks(&format!(r#"CutFree(from:"old:1",distance_mm:50,terminal_stayed:true,circuit:"{read}")"#))
    };
    for good in ["W1", "w1", " W1 ", "1"] {
        assert_eq!(cut(good), Verdict::Allowed, "{good}");
    }
    for bad in ["", "W2", "2", "W", "W11"] {
        assert!(matches!(cut(bad), Verdict::Impossible(_)), "{bad}");
    }
    let unread = r#"CutFree(from:"old:1",distance_mm:50,terminal_stayed:true)"#;
    assert!(bench.impossible(unread).contains("not what is written"));
}

#[test]
fn f69_a_seal_on_the_wrong_side_of_its_splice_seals_nothing() {
    let mut bench = four::ordered_one();
    let joined = four::spliced(&mut bench, 1, "RD", "45 mm");
    let behind = joined.replace("sound:true", "sound:true,seal_behind:true");
    assert_eq!(bench.against(&behind), [Code::SealMissing]);
    bench.insists(&behind);
    bench.flagged(Code::SealMissing);
    assert!(bench.against("Inspect(verdict:Good)").contains(&Code::SealMissing));
    bench.insists("Inspect(verdict:Good)");
    assert!(bench.against(r#"Insert(into:"new:1",click:true)"#).contains(&Code::SealMissing));
    // Joined as it should be, it is sealed.
    let mut bench = four::ordered_one();
    let joined = four::spliced(&mut bench, 1, "RD", "45 mm");
    bench.does(&joined);
    bench.not_flagged(Code::SealMissing);
}

#[test]
fn a_splice_that_is_not_sound_too_near_or_soldered_is_against_a_rule() {
    let mut bench = four::ordered_one();
    let joined = four::spliced(&mut bench, 1, "RD", "45 mm");
    for (from, to, code) in [
        ("sound:true", "sound:false", Code::CrimpLook),
        ("sound:true", r#"sound:true,solder:"quick""#, Code::Soldered),
        (r#"untwisted:"20 mm""#, r#"untwisted:"51 mm""#, Code::Untwisted),
        (r#"start:"45 mm""#, r#"start:"39 mm""#, Code::SpliceTooNear),
    ] {
        let codes = bench.against(&joined.replace(from, to));
        assert!(codes.contains(&code), "{to}: {codes:?}");
        let mut by_name = four::ordered_one();
        let joined = four::spliced(&mut by_name, 1, "RD", "45 mm");
        by_name.insists(&joined.replace(from, to));
        by_name.flagged(code);
    }
    assert_eq!(bench.asks(&joined.replace(r#"untwisted:"20 mm""#, r#"untwisted:"50 mm""#)), Verdict::Allowed);
}

#[test]
fn f48_a_bare_drain_is_sleeved_before_it_goes_in() {
    let drain = r#"(number:"W1",colour:"?",gauge:"0.5",kind:Drain)"#;
    let mut bench = four::ready_with(four::rules(), &[drain, four::WIRES[1], four::WIRES[2], four::WIRES[3]]);
    // Turned over and back: its anchors are asked anew, of the wires that have one colour.
    bench.does(r#"View(housing:"old",face:Mating,up:"latch")"#);
    bench.does(r#"View(housing:"old",face:Wire,up:"latch")"#);
    bench.proves_the_views();
    bench.does(r#"Extract(from:"old:1",freely:true,seal:On)"#);
    bench.does("Inspect(verdict:Needs(Other),found:DrainBare)");
    assert_eq!(bench.against("Inspect(verdict:Good)"), [Code::DrainBare]);
    bench.insists("Inspect(verdict:Good)");
    bench.flagged(Code::DrainBare);
    let name = r#"Accept(flag:"drain-bare",at:"old:1",by:"K. Tanner",reason:"short")"#;
    assert!(bench.impossible(name).contains("not one that a name can accept"));
    bench.does_all(&[
        r#"Planned(lead:"old:1",how:Other,reason:"sleeve over the drain")"#,
        r#"Repair(lead:"old:1",how:Other,done:"sleeved to the terminal")"#,
        "Inspect(verdict:Good)",
    ]);
    bench.not_flagged(Code::DrainBare);
}

#[test]
fn f08_one_wire_of_two_taken_out_of_a_terminal_parts_the_lead() {
    let two = r#"(number:"W1",colour:"RD",gauge:"0.5"),(number:"W1b",colour:"VT",gauge:"0.35")"#;
    let mut bench = four::ready_with(four::rules(), &[two, four::WIRES[1], four::WIRES[2], four::WIRES[3]]);
    bench.not_flagged(Code::LeadParted);
    // Turned over and back: its anchors are asked anew, of the wires that have one colour.
    bench.does(r#"View(housing:"old",face:Mating,up:"latch")"#);
    bench.does(r#"View(housing:"old",face:Wire,up:"latch")"#);
    bench.proves_the_views();
    bench.does(r#"Extract(from:"old:1",colour:"RD",freely:true,seal:On)"#);
    bench.does(r#"Removed(wire:"old:1/2",document:"bulletin 12")"#);
    bench.flagged(Code::LeadParted);
    assert!(bench.impossible(r#"Removed(wire:"old:1/2",document:"bulletin 12")"#).contains("no wire 2"));
    assert!(bench.impossible(r#"Removed(wire:"old:1/3",document:"bulletin 12")"#).contains("no wire 3"));
    assert!(bench.impossible(r#"Removed(wire:"old:9",document:"bulletin 12")"#).contains("no lead"));
    // Going in so is refused, and put there by name it stays flagged.
    bench.insists("Inspect(verdict:Good)");
    assert!(bench.against(r#"Insert(into:"new:1",click:true)"#).contains(&Code::LeadParted));
    // Seen with both wires it was a slip.
    bench.does(r#"Seen(item:"old:1",at:Parked("T1"),reason:"both wires are in it")"#);
    bench.does(r#"Seen(item:"old:1",at:Parked("T1"),reason:"both wires are in it")"#);
    bench.not_flagged(Code::LeadParted);
    let wires = bench.job.account(bench.now).wires;
    assert_eq!((wires.found, wires.removed), (5, 0));
}

#[test]
fn two_wires_in_one_sealed_hole_are_flagged() {
    let two = r#"(number:"W1",colour:"RD",gauge:"0.5"),(number:"W1b",colour:"VT",gauge:"0.35")"#;
    let bench = four::ready_with(four::rules(), &[two, four::WIRES[1], four::WIRES[2], four::WIRES[3]]);
    bench.flagged(Code::TwoInOneHole);
    four::ready().not_flagged(Code::TwoInOneHole);
}
