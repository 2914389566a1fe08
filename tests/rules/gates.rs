//! The gates: what passes, what does not, what closes one again.

use repin::{
    job::{Code, GateKind},
    shop_rules::{ShopRules, TestKind},
};

use crate::support::Bench;

fn empty() -> Bench {
    Bench::new("sp-16", "sp-16")
}

/// A gate with document and name, and what else is said.
fn gate(gate: &str, answer: &str, rest: &str) -> String {
    let rest = if rest.is_empty() { String::new() } else { format!(",{rest}") };
    format!(r#"Gate(gate:{gate},answer:{answer},document:"manual 3-12",name:"K. Tanner"{rest})"#)
}

/// A measurement between two points with a proved tester.
fn volts(reading: &str) -> String {
    format!(r#"measured:(volts:"{reading}",between:"1 and chassis",tester_proved:true)"#)
}

#[test]
fn what_does_not_pass_a_gate() {
    let bench = empty();
    let measured = |volts: &str, between: &str, proved: bool| {
        format!(r#"measured:(volts:"{volts}",between:"{between}",tester_proved:{proved})"#)
    };
    let state = |state: &str| format!(r#"measured:(state:"{state}")"#);
    let refused: Vec<(String, &str)> = vec![
        // Energy is never absent.
        (gate("Battery", "Absent", ""), "never absent"),
        (gate("StoredEnergy", "Absent", ""), "never absent"),
        // A release without what its kind asks is none.
        (gate("Battery", "Released", ""), "zero volts must be measured"),
        (gate("Battery", "Released", &state("main switch off")), "zero volts must be measured"),
        (gate("HighVoltage", "Released", ""), "zero volts must be measured"),
        (gate("HighVoltage", "Released", &state("plug pulled")), "zero volts must be measured"),
        (gate("StoredEnergy", "Released", ""), "measured or done"),
        (gate("StoredEnergy", "Released", "energy:[Capacitors]"), "(capacitors)"),
        (gate("StoredEnergy", "Released", "energy:[SecondBattery]"), "(a second battery or charger)"),
        (gate("StoredEnergy", "Released", "energy:[Fluid]"), "(hydraulic or air pressure)"),
        (gate("StoredEnergy", "Released", "energy:[Load]"), "(raised loads)"),
        (gate("StoredEnergy", "Released", "energy:[Spring]"), "(springs)"),
        // Volts say nothing of a load, and a load nothing of a capacitor.
        (gate("StoredEnergy", "Released", &format!("energy:[Load],{}", volts("0 V"))), "(raised loads)"),
        (
            gate("StoredEnergy", "Released", &format!("energy:[Load,Capacitors],{}", state("on stands"))),
            "(capacitors)",
        ),
        // A state says of each kind that it is safe, and nothing that says otherwise.
        (
            gate("StoredEnergy", "Released", &format!("energy:[Fluid],{}", state("high, 200 bar"))),
            "(hydraulic",
        ),
        (
            gate("StoredEnergy", "Released", &format!("energy:[Fluid],{}", state("vented to 20 bar"))),
            "(hydraulic",
        ),
        (gate("StoredEnergy", "Released", &format!("energy:[Fluid],{}", state("not vented"))), "(hydraulic"),
        (
            gate("StoredEnergy", "Released", &format!("energy:[Fluid],{}", state("still under pressure"))),
            "(hydraulic",
        ),
        (
            gate("StoredEnergy", "Released", &format!("energy:[Load],{}", state("not lowered"))),
            "(raised loads)",
        ),
        (
            gate("StoredEnergy", "Released", &format!("energy:[Load],{}", state("as before"))),
            "(raised loads)",
        ),
        (
            gate("StoredEnergy", "Released", &format!("energy:[Load,Spring],{}", state("lowered"))),
            "(springs)",
        ),
        (
            gate("StoredEnergy", "Released", &format!("energy:[Load,Fluid],{}", state("vented"))),
            "(raised loads)",
        ),
        (gate("StoredEnergy", "Released", &state("as usual")), "never by a word alone"),
        (gate("StoredEnergy", "Released", &state("x")), "no state"),
        (gate("StoredEnergy", "Released", &state("-")), "no state"),
        // Dead, between two points, by a tester that was proved.
        (gate("Battery", "Released", &volts("6 V")), "is not dead"),
        (gate("Battery", "Released", &volts("-6 V")), "is not dead"),
        (gate("Battery", "Released", &volts("0.5 V")), "is not dead"),
        (gate("HighVoltage", "Released", &volts("0.6 V")), "is not dead"),
        (gate("StoredEnergy", "Released", &volts("24 V")), "is not dead"),
        (gate("Battery", "Released", &measured("0 V", "1", true)), "not two points"),
        (gate("Battery", "Released", &measured("0 V", "1 and", true)), "not two points"),
        (gate("Battery", "Released", &measured("0 V", "1 and 1", true)), "not two points"),
        (gate("Battery", "Released", &measured("0 V", "", true)), "not two points"),
        (gate("Battery", "Released", &measured("0 V", "n/a", true)), "not two points"),
        (gate("Battery", "Released", &measured("0 V", "x and y", true)), "not two points"),
        (gate("Battery", "Released", &measured("0 V", "1 and 01", true)), "not two points"),
        (gate("Battery", "Released", &measured("0 V", "1 and old:1", true)), "not two points"),
        (gate("Battery", "Released", &measured("0 V", "- and chassis", true)), "not two points"),
        (gate("Battery", "Released", &measured("0 V", "1 and 2", false)), "not proved"),
        (gate("StoredEnergy", "Released", &measured("0 V", "1 and 2", false)), "not proved"),
        // A sleeve speaks in codes and in four languages.
        (gate("Restraint", "Absent", r#"sleeve:"YE""#), "restraint systems cannot be answered as absent"),
        (gate("Restraint", "Absent", r#"sleeve:"RD/YE""#), "cannot be answered as absent"),
        (gate("Restraint", "Absent", r#"sleeve:"gelb""#), "cannot be answered as absent"),
        (gate("Restraint", "Absent", r#"sleeve:"gaine jaune""#), "cannot be answered as absent"),
        (gate("Restraint", "Absent", r#"sleeve:"amarillo""#), "cannot be answered as absent"),
        (gate("HighVoltage", "Absent", r#"sleeve:"OG""#), "cannot be answered as absent"),
        (gate("HighVoltage", "Absent", r#"sleeve:"naranja""#), "cannot be answered as absent"),
        (gate("Restraint", "Absent", r#"sleeve:"schwarzgelb""#), "cannot be answered as absent"),
        (gate("HighVoltage", "Absent", r#"sleeve:"negro y anaranjado""#), "cannot be answered as absent"),
        (gate("HighVoltage", "Absent", r#"sleeve:"BLK/OR""#), "cannot be answered as absent"),
        // A word that nobody here reads can be a colour.
        (gate("Restraint", "Absent", r#"sleeve:"black/yelow""#), "names no colour"),
        (gate("HighVoltage", "Absent", r#"sleeve:"BK/ORN""#), "names no colour"),
        // So does a circuit.
        (gate("Restraint", "Absent", r#"circuit:"Airbag squib 1""#), "restraint systems cannot be answered"),
        (gate("Restraint", "Absent", r#"circuit:"belt-tensioner left""#), "cannot be answered as absent"),
        (
            gate("HighVoltage", "Absent", r#"circuit:"High voltage interconnect""#),
            "cannot be answered as absent",
        ),
        (gate("Interlock", "Absent", r#"circuit:"interlock loop""#), "cannot be answered as absent"),
        (gate("HighVoltage", "Absent", r#"sleeve:"x""#), "names no colour"),
        (gate("HighVoltage", "Released", &format!(r#"sleeve:"-",{}"#, volts("0 V"))), "names no colour"),
        // DC or AC is said between their limits (from memory of UN R100: 60 V DC, 30 V AC rms).
        (gate("HighVoltage", "Absent", r#"voltage:"50 V""#), "DC or AC"),
        (gate("HighVoltage", "Absent", r#"voltage:"50V""#), "DC or AC"),
        (gate("HighVoltage", "Absent", r#"voltage:"60 V""#), "DC or AC"),
        (gate("HighVoltage", "Absent", r#"voltage:"50 V AC""#), "cannot be answered as absent"),
        (gate("HighVoltage", "Absent", r#"voltage:"30.1 V AC""#), "cannot be answered as absent"),
        (gate("HighVoltage", "Absent", r#"voltage:"60.1 V DC""#), "cannot be answered as absent"),
        (gate("HighVoltage", "Absent", r#"voltage:"-400 V DC""#), "cannot be answered as absent"),
        (gate("HighVoltage", "Absent", r#"voltage:"61 V""#), "cannot be answered as absent"),
        // Off the machine says nothing of circuits.
        (gate("Restraint", "OffMachine", ""), "can still carry"),
        (gate("HighVoltage", "OffMachine", ""), "can still carry"),
        (gate("Interlock", "OffMachine", ""), "can still carry"),
        ("Gate(gate:Battery,answer:OffMachine)".to_owned(), "connected to nothing"),
        (r#"Gate(gate:Battery,answer:OffMachine,name:"x")"#.to_owned(), "connected to nothing"),
    ];
    for (act, why) in refused {
        let said = bench.impossible(&act);
        assert!(said.contains(why), "{act}: {said}");
    }
}

#[test]
fn a_name_and_a_document_are_words() {
    let bench = empty();
    for nothing in ["", " ", "x", "X", "xx", "-", "--", "none", "=", "?", "n/a", "na", "nil", "."] {
        for said in [
            format!(r#"Gate(gate:Restraint,answer:Absent,document:"{nothing}",name:"K. Tanner")"#),
            format!(r#"Gate(gate:Restraint,answer:Absent,document:"manual 3-12",name:"{nothing}")"#),
        ] {
            assert!(bench.impossible(&said).contains("needs the name"), "{said}");
        }
    }
    for missing in ["", r#",document:"d""#, r#",name:"K. Tanner""#] {
        let said = format!("Gate(gate:Interlock,answer:Absent{missing})");
        assert!(bench.impossible(&said).contains("needs the name"), "{said}");
    }
}

#[test]
fn what_passes_a_gate() {
    let energy = |kinds: &str, measured: &str| {
        gate("StoredEnergy", "Released", &format!("energy:[{kinds}],measured:({measured})"))
    };
    let proved = r#"volts:"0.4 V",between:"C1+ / C1-",tester_proved:true"#;
    let passing = [
        gate("Restraint", "Absent", ""),
        gate("Restraint", "Absent", r#"sleeve:"none""#),
        gate("Restraint", "Absent", r#"sleeve:"OG""#),
        gate("Restraint", "Released", r#"sleeve:"yellow""#),
        gate("HighVoltage", "Absent", r#"voltage:"60 V DC""#),
        gate("HighVoltage", "Absent", r#"voltage:"30 V""#),
        gate("HighVoltage", "Absent", r#"voltage:"30 V AC",sleeve:"YE""#),
        gate("HighVoltage", "Released", &format!(r#"voltage:"400 V DC",{}"#, volts("0 V"))),
        gate("Interlock", "Released", ""),
        gate("Battery", "Released", &volts("0.4 V")),
        gate("Battery", "Released", &volts("-0.4 V")),
        energy("Capacitors", proved),
        energy("SecondBattery", proved),
        energy("Fluid", r#"state:"gauge at zero""#),
        energy("Load", r#"state:"boom on stands""#),
        energy("Spring", r#"state:"relaxed""#),
        energy("Load,Capacitors", &format!(r#"{proved},state:"on stands""#)),
        energy("", r#"state:"none on this machine""#),
        r#"Gate(gate:Battery,answer:OffMachine,name:"K. Tanner")"#.to_owned(),
        r#"Gate(gate:StoredEnergy,answer:OffMachine,name:"K. Tanner")"#.to_owned(),
    ];
    for act in passing {
        let mut bench = empty();
        bench.does(&act);
        let gates: Vec<GateKind> = bench.job.state().course.gates.keys().copied().collect();
        assert!(gates.iter().all(|gate| bench.job.state().gate_is_open(*gate)), "{act}");
    }
}

#[test]
fn a_slip_is_answered_anew_and_the_last_answer_counts() {
    for stop in ["Stop", "DontKnow"] {
        let mut bench = empty();
        bench.passes_the_gates();
        bench.not_flagged(Code::GateOpen);
        bench.does(&format!("Gate(gate:Battery,answer:{stop})"));
        bench.flagged(Code::GateOpen);
        assert_eq!(bench.state(), "not-startable");
        bench.does(&gate("Battery", "Released", &volts("0 V")));
        bench.not_flagged(Code::GateOpen);
        assert_eq!(bench.state(), "not-started");
    }
}

#[test]
fn what_is_told_at_one_gate_is_held_against_every_gate() {
    let mut bench = empty();
    bench.does(&gate("Restraint", "Absent", r#"sleeve:"orange",voltage:"400 V DC""#));
    assert!(bench.impossible(&gate("HighVoltage", "Absent", "")).contains("orange"));
    let mut bench = empty();
    bench.does(&gate("HighVoltage", "Absent", r#"sleeve:"black, yellow tape""#));
    assert!(bench.impossible(&gate("Restraint", "Absent", "")).contains("yellow tape"));
    let mut bench = empty();
    bench.does(&gate("HighVoltage", "Absent", r#"circuit:"air bag supply""#));
    assert!(bench.impossible(&gate("Restraint", "Absent", "")).contains("air bag supply"));
    // It is not forgotten when the gate is answered anew without it.
    for (first, colour) in [("HighVoltage", "orange"), ("Restraint", "yellow")] {
        for told in [
            format!(r#"sleeve:"{colour}""#),
            r#"voltage:"400 V DC",circuit:"air bag, high voltage""#.to_owned(),
        ] {
            let mut bench = empty();
            bench.does(&format!("Gate(gate:{first},answer:DontKnow,{told})"));
            let said = bench.impossible(&gate(first, "Absent", ""));
            assert!(said.contains("cannot be answered as absent"), "{first} {told}: {said}");
            // Told anew it is what is told now.
            bench.does(&gate(first, "Absent", r#"circuit:"as listed",sleeve:"black",voltage:"24 V DC""#));
        }
    }
    let mut bench = empty();
    bench.does(&gate("Interlock", "Absent", r#"circuit:"air bag supply""#));
    bench.does(&gate("Interlock", "Absent", ""));
    assert!(bench.impossible(&gate("Restraint", "Absent", "")).contains("air bag"));
    let mut bench = empty();
    bench.does(&gate("Interlock", "Absent", r#"voltage:"400 V DC""#));
    bench.does(&gate("Interlock", "Absent", ""));
    assert!(bench.impossible(&gate("HighVoltage", "Absent", "")).contains("400 V"));
    let mut bench = empty();
    bench.does(r#"Gate(gate:HighVoltage,answer:DontKnow,voltage:"400 V DC")"#);
    assert!(bench.impossible(&gate("HighVoltage", "Absent", "")).contains("400 V"));
    bench.does(&gate("HighVoltage", "Absent", r#"voltage:"24 V DC""#));
    let mut bench = empty();
    bench.does(&gate("Interlock", "Absent", r#"sleeve:"yellow""#));
    bench.does(&gate("Interlock", "Absent", ""));
    assert!(bench.impossible(&gate("Restraint", "Absent", "")).contains("yellow"));
    // A gate that was passed before closes when another is told of its colour.
    let mut bench = empty();
    bench.passes_the_gates();
    bench.does(&gate("Interlock", "Absent", r#"sleeve:"GE""#));
    bench.flagged(Code::GateOpen);
    let closed = bench.job.state().next_gate();
    assert_eq!(closed, Some(GateKind::Restraint));
}

#[test]
fn a_shorting_clip_on_record_closes_the_interlock_gate() {
    for (clip, is_open) in [("shorting clip", false), ("Shorting-clip, 2 poles", false), ("diode", true)] {
        for side in ["Found", "Should"] {
            let mut bench = empty();
            bench.passes_the_gates();
            bench.does(&format!(r#"Recorded(side:{side},at:"old:12",holds:Bridge("{clip}"))"#));
            assert_eq!(bench.job.state().gate_is_open(GateKind::Interlock), is_open, "{side} {clip}");
        }
    }
}

/// The two-wire seed sensor with one wire of a kind, on one of the records.
fn with_kind(side: &str, kind: &str) -> Bench {
    let mut bench = Bench::ready();
    let wire =
        format!(r#"Wired(wires:[(number:"S01",circuit:"sensor feed",colour:"RD",gauge:"0.5",kind:{kind})])"#);
    match side {
        "Found" => bench.does(&format!(r#"RecordCorrected(at:"old:1",holds:{wire},reason:"seen")"#)),
        _ => bench.does(&format!(r#"Recorded(side:Should,at:"old:1",holds:{wire})"#)),
    }
    bench
}

const OUT_2: &str = r#"Extract(from:"old:2",colour:"BK",freely:true,seal:On)"#;

#[test]
fn a_wire_recorded_or_drawn_as_dangerous_closes_its_gate_again() {
    let kinds = [
        ("Restraint", GateKind::Restraint),
        ("HighVoltage", GateKind::HighVoltage),
        ("Interlock", GateKind::Interlock),
    ];
    for (kind, closed) in kinds {
        for side in ["Found", "Should"] {
            let bench = with_kind(side, kind);
            assert!(!bench.job.state().gate_is_open(closed), "{side} {kind}");
            bench.flagged(Code::GateOpen);
            let said = bench.impossible(OUT_2);
            assert!(said.contains(closed.title()), "{side} {kind}: {said}");
            // It is absent by no name, and passes when it is released.
            let absent = gate(kind, "Absent", "");
            assert!(bench.impossible(&absent).contains("cannot be answered as absent"), "{side} {kind}");
            let mut bench = bench;
            bench.does(&gate(kind, "Released", &volts("0 V")));
            assert!(bench.job.state().gate_is_open(closed), "{side} {kind}");
        }
    }
}

#[test]
fn an_ordinary_kind_closes_no_gate() {
    for kind in ["Ordinary", "FusibleLink", "Coaxial", "Thermocouple", "Drain", "BusPair"] {
        with_kind("Found", kind).not_flagged(Code::GateOpen);
    }
}

#[test]
fn a_kind_that_only_the_diagram_has_is_a_difference() {
    let mut bench = with_kind("Should", "Restraint");
    bench.flagged(Code::FoundDiffers);
    bench.does(&gate("Restraint", "Released", ""));
    bench.flagged(Code::FoundDiffers);
    bench.does(r#"Decided(at:"old:1",wins:Found,reason:"drawn for another machine")"#);
    bench.not_flagged(Code::FoundDiffers);
}

fn off_the_machine() -> Bench {
    let mut bench = Bench::moved();
    for gate in ["Battery", "StoredEnergy"] {
        bench.does(&format!(r#"Gate(gate:{gate},answer:OffMachine,name:"K. Tanner")"#));
    }
    bench
}

#[test]
fn off_the_machine_settles_battery_and_energy_until_it_is_mated() {
    let mut bench = off_the_machine();
    bench.not_flagged(Code::GateOpen);
    bench.does_all(&[
        r#"SmallPart(housing:"new",part:"interface seal",on:true)"#,
        r#"LookedOver(housing:"new",face:Wire)"#,
        r#"LookedOver(housing:"new",face:Mating)"#,
        r#"Lock(housing:"new",to:FullSet,finger:true)"#,
        "MatingHalf(verdict:Good)",
        "Mate(level:true)",
    ]);
    bench.flagged(Code::GateOpen);
    let tug = r#"Measure(test:Continuity,value:"0.2 ohm")"#;
    let said = bench.impossible(tug);
    assert!(said.contains("on the machine") && said.contains("battery"), "{said}");
    let again = r#"Gate(gate:Battery,answer:OffMachine,name:"K. Tanner")"#;
    assert!(bench.impossible(again).contains("mated"));
    bench.does(&gate("Battery", "Released", &volts("0 V")));
    assert!(bench.impossible(tug).contains("stored energy"));
    bench.does(&gate("StoredEnergy", "Released", r#"measured:(state:"on stands")"#));
    bench.does(tug);
}

#[test]
fn off_the_machine_lapses_at_a_hand_over_and_when_somebody_says_it_is_back() {
    let mut bench = off_the_machine();
    bench.does(r#"HandOver(to:"J. Ode")"#);
    bench.flagged(Code::GateOpen);
    let mut bench = off_the_machine();
    bench.does(&gate("Battery", "Released", &volts("0 V")));
    let energy = bench.job.state().gate_is_open(GateKind::StoredEnergy);
    assert!(!energy, "the harness is back, and its other energy was never asked");
}

#[test]
fn gates_are_asked_again_after_eight_hours_and_not_before() {
    let rules = ShopRules::default();
    assert!(rules.tests.value.contains(&TestKind::Continuity));
    let mut bench = Bench::ready();
    bench.waits_h(7);
    bench.does(OUT_2);
    let mut bench = Bench::ready();
    bench.waits_h(9);
    assert!(bench.impossible(OUT_2).contains("gate"), "{}", bench.impossible(OUT_2));
    // A clock that runs backwards counts as a pause.
    let mut bench = Bench::ready();
    bench.waits_h(-1);
    assert!(bench.impossible(OUT_2).contains("gate"));
}

#[test]
fn nobody_goes_past_a_gate_by_name() {
    let mut bench = empty();
    bench.does("Gate(gate:Restraint,answer:DontKnow)");
    let insists =
        r#"Extract(from:"old:2",colour:"BK",freely:true,seal:On,anyway:(by:"K. Tanner",reason:"hurry"))"#;
    assert!(matches!(bench.asks(insists), repin::job::Verdict::Impossible(_)));
}
