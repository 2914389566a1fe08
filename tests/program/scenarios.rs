//! Whole jobs from files of acts, by the same road as a key press, to their expected outcome.

use crate::{cli, walk};

use cli::{Shop, demo};
use serde_json::{Value, json};

fn codes(account: &Value) -> Vec<&str> {
    account["flags"].as_array().unwrap().iter().map(|f| f["code"].as_str().unwrap()).collect()
}

#[test]
fn an_open_cavity_found_at_intake_is_plugged_and_two_terminals_are_renewed() {
    let shop = Shop::new();
    shop.proves();
    shop.new_job("fernwalker", "fw-hsg-12a", "FW-HSG-12A", &["--serial", "FW8-20731", "--seed", "12"]);
    // Up to the record: the hole is flagged at once, on the old side.
    let text = std::fs::read_to_string(demo("fernwalker-boom-tip.acts")).unwrap();
    let (before, after) = text.split_once("// Comparisons and decisions").unwrap();
    let run = shop.run_with(&["enter", "fernwalker"], before, &[]);
    assert_eq!(run.code, 0, "{run:?}");
    let account = shop.json(&["check", "fernwalker"]);
    let open: Vec<&Value> =
        account["flags"].as_array().unwrap().iter().filter(|f| f["code"] == "open-cavity").collect();
    assert_eq!((open.len(), &open[0]["side"], &open[0]["cavity"]), (1, &json!("old"), &json!("8")));
    assert_eq!(account["state"], "not-started");
    let run = shop.run_with(&["enter", "fernwalker"], after, &[]);
    assert_eq!(run.code, 0, "{run:?}");
    let account = shop.json(&["check", "fernwalker"]);
    assert_eq!((&account["state"], codes(&account)), (&json!("closed"), vec![]));
    assert_eq!(account["cavities"]["wired"], 9);
    assert_eq!(account["cavities"]["plugged"], 3);
    assert_eq!(account["plugs"]["new_stock"], 1);
    assert_eq!(shop.run(&["check", "fernwalker"]).code, 0);
}

#[test]
fn an_interrupted_job_is_taken_over_after_six_days_and_finished() {
    let shop = Shop::new();
    shop.proves();
    shop.new_job("quayline", "ql-30", "ql-30", &["--serial", "QD-30517"]);
    let text = std::fs::read_to_string(demo("quayline-door.acts")).unwrap();
    let (first, second) = text.split_once("// Six days later").unwrap();
    assert_eq!(shop.run_with(&["enter", "quayline"], first, &[]).code, 0);
    let account = shop.json(&["check", "quayline"]);
    let (wires, plugs) = (&account["wires"], &account["plugs"]);
    assert_eq!([&wires["old"], &wires["new"], &wires["parked"]], [10, 11, 1]);
    assert_eq!([&plugs["old"], &plugs["new"], &plugs["scrapped"]], [3, 4, 1]);
    for code in ["parked", "resume-unchecked", "gate-open"] {
        assert!(codes(&account).contains(&code), "{code}: {:?}", codes(&account));
    }
    // Going on without the resume check is refused.
    let act = r#"(by:"jo",at:"2026-11-22T07:00:00Z",act:Extract(from:"old:15",colour:"BU/WH",freely:true,seal:On))"#;
    let run = shop.run_with(&["enter", "quayline"], act, &[]);
    assert_eq!(run.code, 1);
    assert!(run.err.contains("DO NOT POWER") && run.err.contains("resume-unchecked"), "{run:?}");
    let rest = format!("// {second}");
    let run = shop.run_with(&["enter", "quayline"], &rest, &[]);
    assert_eq!(run.code, 0, "{run:?}");
    assert_eq!(shop.json(&["check", "quayline"])["state"], "closed");
}

#[test]
fn a_restraint_circuit_and_a_missing_clip_stop_the_job() {
    let shop = Shop::new();
    shop.new_job("kerbwhisper", "kw-16", "kw-16n", &["--serial", "KWE-1190"]);
    assert_eq!(shop.enter_demo("kerbwhisper", "kerbwhisper-seat.acts").code, 0);
    let account = shop.json(&["check", "kerbwhisper"]);
    assert_eq!(account["state"], "not-startable");
    assert!(codes(&account).contains(&"gate-open") && codes(&account).contains(&"bridge-missing"));
    // No lead is planned on the restraint pair, and no name goes past a gate.
    let lead = shop.run_with(
        &["enter", "kerbwhisper"],
        r#"Planned(lead:"old:1",how:RepairLead,reason:"seen so")"#,
        &[],
    );
    assert_eq!((lead.code, lead.err.contains("splice-forbidden")), (1, true), "{lead:?}");
    let out = r#"Extract(from:"old:5",colour:"RD",freely:true,seal:On,anyway:(by:"boss",reason:"hurry"))"#;
    let run = shop.run_with(&["enter", "kerbwhisper"], out, &[]);
    assert_eq!((run.code, run.err.contains("gate-open")), (1, true), "{run:?}");
}

#[test]
fn a_record_read_from_the_mating_face_is_flipped_and_the_job_closes() {
    let shop = Shop::new();
    shop.new_job("skerry", "sk-10", "sk-10", &["--serial", "SK9-0084"]);
    let text = std::fs::read_to_string(demo("skerry-pod.acts")).unwrap();
    let (before, after) = text.split_once("RecordFlipped").unwrap();
    assert_eq!(shop.run_with(&["enter", "skerry"], before, &[]).code, 0);
    let account = shop.json(&["check", "skerry"]);
    let anchor = account["flags"].as_array().unwrap().iter().find(|f| f["code"] == "anchor-failed").unwrap();
    assert!(anchor["do"].as_str().unwrap().contains("read from the other face: flip"), "{anchor}");
    let rest = format!("RecordFlipped{after}");
    let run = shop.run_with(&["enter", "skerry"], &rest, &[]);
    assert_eq!(run.code, 0, "{run:?}");
    assert_eq!(shop.json(&["check", "skerry"])["state"], "closed");
}

#[test]
fn a_superseded_housing_that_numbers_the_other_way_is_mapped_and_the_job_closes() {
    let shop = Shop::new();
    let run = shop.run(&[
        "new",
        "lanternhill",
        "--old",
        "lh-24",
        "--new",
        "LH-24B",
        "--serial",
        "LH300-0100",
        "--seed",
        "24",
    ]);
    assert!(
        run.out.contains("numbers run the other way: where the old housing has 1, the new one has A12"),
        "{run:?}"
    );
    let text = std::fs::read_to_string(demo("lanternhill-module.acts")).unwrap();
    let (before, after) = text.split_once(r#"Insert(into:"new:A12""#).unwrap();
    assert_eq!(shop.run_with(&["enter", "lanternhill"], before, &[]).code, 0);
    let steps = shop.json(&["steps", "lanternhill"]);
    let to = |from: &str| {
        let mut steps = steps["steps"].as_array().unwrap().iter();
        steps
            .find(|s| s["from"] == from && !s["to"].is_null())
            .map(|s| s["to"].as_str().unwrap().to_owned())
            .unwrap()
    };
    for (from, there) in [
        ("12", "A1"),
        ("9", "A4"),
        ("21", "B4"),
        ("24", "B1"),
        ("6", "A7"),
        ("11", "A2"),
        ("17", "B8"),
        ("20", "B5"),
        ("23", "B2"),
    ] {
        assert_eq!(to(&format!("old:{from}")), format!("new:{there}"));
    }
    // The pair stays side by side, and the label that looks right is refused with the reason.
    assert!(!codes(&shop.json(&["check", "lanternhill"])).contains(&"pair-split"));
    let run = shop.run_with(&["enter", "lanternhill"], r#"Insert(into:"new:A1",click:true)"#, &[]);
    assert_eq!(run.code, 1);
    assert!(run.err.contains("goes to new:A12, not to new:A1: the numbers run the other way"), "{run:?}");
    let rest = format!(r#"Insert(into:"new:A12"{after}"#);
    assert_eq!(shop.run_with(&["enter", "lanternhill"], &rest, &[]).code, 0);
    let account = shop.json(&["check", "lanternhill"]);
    assert_eq!((&account["state"], codes(&account)), (&json!("closed"), vec![]));
    assert_eq!([&account["cavities"]["wired"], &account["cavities"]["plugged"]], [19, 5]);
}

#[test]
fn totals_that_agree_hide_a_plug_where_a_wire_goes_and_none_where_one_is_needed() {
    let shop = Shop::new();
    shop.new_job(
        "aurelia",
        "as-18",
        "as-18p",
        &["--serial", "AS-0018", "--seed", "18", "--rules", &demo("clearance-40.ron").to_string_lossy()],
    );
    let text = std::fs::read_to_string(demo("aurelia-bilge.acts")).unwrap();
    let (before, after) = text.split_once("// The plug in the way").unwrap();
    assert_eq!(shop.run_with(&["enter", "aurelia"], before, &[]).code, 0);
    // Two wires in one hole of the mat: one lead of their summed area, joined 40 mm behind.
    let request = shop.json(&["request", "aurelia"]);
    assert_eq!(leads_of(&request), [("W311a + W311b".to_owned(), 110.0)]);
    let account = shop.json(&["check", "aurelia"]);
    let plugs = &account["plugs"];
    assert_eq!(
        [&plugs["found"], &plugs["prefitted"], &account["wires"]["found"], &account["leads"]["found"]],
        [6, 6, 13, 12]
    );
    let flag = account["flags"].as_array().unwrap().iter().find(|f| f["code"] == "prefitted-plug").unwrap();
    assert_eq!(flag["cavity"], "9");
    assert!(flag["do"].as_str().unwrap().contains("new:10 needs one of its size: use it there"), "{flag}");
    let steps = shop.json(&["steps", "aurelia"]);
    let next = steps["steps"].as_array().unwrap().iter().find(|s| s["status"] == "next").unwrap();
    assert_eq!([&next["do"], &next["from"], &next["to"]], ["move-plug", "new:9", "new:10"]);
    // A wire does not go in over the plug, and a taken hole is not emptied for a wire that goes elsewhere.
    let taken = r#"Extract(from:"old:1",colour:"RD",freely:true,seal:None)
Inspect(verdict:Good)
Insert(into:"new:6",click:true)"#;
    let run = shop.run_with(&["enter", "aurelia"], taken, &[]);
    assert!(run.err.contains("goes to new:1, not to new:6. new:6 is taken. Put it into 1."), "{run:?}");
    assert_eq!(shop.run_with(&["enter", "aurelia"], "PutBack", &[]).code, 0);
    let over = r#"Extract(from:"old:9",colour:"GY/GN",freely:true,seal:None)
Inspect(verdict:Good)
Insert(into:"new:9",click:true)
WrongKey
PutBack"#;
    let run = shop.run_with(&["enter", "aurelia"], over, &[]);
    assert!(run.code == 1 && run.err.contains("new:9"), "{run:?}");
    assert_eq!(shop.run_with(&["enter", "aurelia"], "PutBack", &[]).code, 0);
    let rest = format!("// {after}");
    let run = shop.run_with(&["enter", "aurelia"], &rest, &[]);
    assert_eq!(run.code, 0, "{run:?}");
    let account = shop.json(&["check", "aurelia"]);
    assert_eq!((&account["state"], codes(&account)), (&json!("closed"), vec![]));
    let plugs = &account["plugs"];
    assert_eq!([&plugs["old"], &plugs["new"], &plugs["returned"], &plugs["scrapped"]], [0, 6, 5, 1]);
    assert_eq!([&account["cavities"]["wired"], &account["cavities"]["plugged"]], [12, 6]);
}

/// The repair leads asked for: circuit and length.
fn leads_of(request: &Value) -> Vec<(String, f64)> {
    let lines = request["lines"].as_array().unwrap().iter().filter(|l| l["kind"] == "repair lead");
    let lead = |l: &Value| {
        (l["lead"]["circuit"].as_str().unwrap().to_owned(), l["lead"]["length_mm"].as_f64().unwrap_or(0.0))
    };
    lines.map(lead).collect()
}

#[test]
fn one_place_for_two_splices_is_shown_decided_and_ordered_to_length() {
    let shop = Shop::new();
    let rules = demo("clearance-40.ron");
    shop.new_job("mulehaul", "mh-06", "mh-06", &["--serial", "MT3-4006", "--rules", rules.to_str().unwrap()]);
    let text = std::fs::read_to_string(demo("mulehaul-power.acts")).unwrap();
    let (before, after) = text.split_once("// The repairs, planned").unwrap();
    assert_eq!(shop.run_with(&["enter", "mulehaul"], before, &[]).code, 0);
    // Less copper is refused, and a thicker wire asks whether the terminal takes it.
    let order = |lead: &str, gauge: &str| {
        format!(r#"Planned(lead:"{lead}",how:RepairLead,reason:"brittle",order:(gauge:"{gauge}"))"#)
    };
    for (gauge, lost) in [("4.0", "-33.3 %"), ("10 AWG", "-12.3 %")] {
        let run = shop.run_with(&["enter", "mulehaul"], &order("old:1", gauge), &[]);
        assert!(run.code == 1 && run.err.contains("gauge-reduced") && run.err.contains(lost), "{run:?}");
    }
    assert_eq!(shop.run_with(&["enter", "mulehaul"], &order("old:1", "8 AWG"), &[]).code, 0);
    let account = shop.json(&["check", "mulehaul"]);
    let asked = account["flags"].as_array().unwrap().iter().find(|f| f["code"] == "wire-misfit").unwrap();
    assert!(asked["say"].as_str().unwrap().starts_with("Does terminal MH-TRM-F63 take 8 AWG"), "{asked}");
    // Both planned: there is one place before the branch.
    let (both, beyond) =
        after.split_once(r#"Behind(housing:"old",behind:(branches:["260 mm"],last:"800 mm",beyond"#).unwrap();
    let run = shop.run_with(&["enter", "mulehaul"], &format!("// {both}"), &[]);
    assert_eq!(run.code, 0, "{run:?}");
    let account = shop.json(&["check", "mulehaul"]);
    assert!(codes(&account).contains(&"leads-many"));
    let short = account["flags"].as_array().unwrap().iter().find(|f| f["code"] == "splice-too-near").unwrap();
    assert_eq!(short["say"], "W401 and W402 cannot all be spliced behind old.");
    assert!(short["do"].as_str().unwrap().contains("15 mm more all would fit"), "{short}");
    // Such an order has no length, and is not sent.
    let run = shop.run(&["request", "mulehaul", "--send", "--bench", "3", "--needed-by", "2026-12-01"]);
    assert_eq!(run.code, 1, "{run:?}");
    assert!(run.err.contains("length"), "{run:?}");
    let rest = format!(r#"Behind(housing:"old",behind:(branches:["260 mm"],last:"800 mm",beyond{beyond}"#);
    let (decided, moves) = rest.split_once("// The moves").unwrap();
    assert_eq!(shop.run_with(&["enter", "mulehaul"], decided, &[]).code, 0);
    let request = shop.json(&["request", "mulehaul"]);
    assert_eq!(leads_of(&request), [("W401".to_owned(), 190.0), ("W402".to_owned(), 380.0)]);
    // The third is a new terminal, its tool position proved nowhere here: five samples besides.
    let lines = request["lines"].as_array().unwrap();
    let needs: Vec<u64> =
        lines.iter().filter(|l| l["kind"] == "terminal").map(|l| l["need"].as_u64().unwrap()).collect();
    assert_eq!(needs, [1, 5]);
    // The sixth cavity is empty by design in an unsealed housing: no plug.
    assert!(lines.iter().all(|l| l["kind"] != "plug"), "{request}");
    shop.proves();
    let run = shop.run_with(&["enter", "mulehaul"], &format!("// {moves}"), &[]);
    assert_eq!(run.code, 0, "{run:?}");
    let account = shop.json(&["check", "mulehaul"]);
    assert_eq!((&account["state"], codes(&account)), (&json!("closed"), vec!["leads-many"]));
    assert_eq!(account["flags"][0]["accepted"]["by"], "K. Tanner", "{account}");
    // What was made stays what was asked for.
    assert_eq!(leads_of(&shop.json(&["request", "mulehaul"]))[0].1, 190.0);
}

#[test]
fn thirteen_splices_in_one_bundle_are_more_than_a_plan_takes() {
    let shop = Shop::new();
    shop.new_job("quayline", "ql-30", "ql-30", &["--serial", "QD-30517"]);
    let text = std::fs::read_to_string(demo("quayline-door.acts")).unwrap();
    let mut acts = text.split_once("// Anchors").unwrap().0.to_owned();
    for n in (1..=8).chain(11..=15) {
        acts.push_str(&format!(
            "(by:\"kt\",at:\"2026-11-16T07:13:00Z\",act:Planned(lead:\"old:{n}\",how:RepairLead,reason:\"seen so\",order:(sleeve:\"35\")))\n"
        ));
    }
    assert_eq!(shop.run_with(&["enter", "quayline"], &acts, &[]).code, 0);
    let account = shop.json(&["check", "quayline"]);
    let flag = account["flags"].as_array().unwrap().iter().find(|f| f["code"] == "splice-too-near").unwrap();
    assert_eq!(flag["say"], "13 splices behind old are more than one plan takes (12).");
    assert_eq!(flag["do"], "Replace the branch.");
}

#[test]
fn six_inches_behind_the_housing_make_the_leads_longer() {
    // The house rule built in, 152.4 mm: 228.9 mm are cut for the first lead, 212.9 mm for the joined pair.
    for (id, old, new, file, circuit, length) in [
        ("mulehaul", "mh-06", "mh-06", "mulehaul-power.acts", "W401", 230.0),
        ("aurelia", "as-18", "as-18p", "aurelia-bilge.acts", "W311a + W311b", 220.0),
    ] {
        let shop = Shop::new();
        shop.new_job(id, old, new, &["--serial", "X-0001"]);
        let text = std::fs::read_to_string(demo(file)).unwrap();
        let orders =
            text.lines().take_while(|line| !line.starts_with("// Opening") && *line != "// The moves");
        let orders = orders.filter(|line| !line.starts_with("Accept") && !line.contains(r#"lead:"old:2""#));
        let orders: Vec<&str> = orders.collect();
        assert_eq!(shop.run_with(&["enter", id], &orders.join("\n"), &[]).code, 0);
        let leads = leads_of(&shop.json(&["request", id]));
        assert_eq!(leads, [(circuit.to_owned(), length)]);
    }
}

#[test]
fn a_wire_over_a_blocked_cavity_stops_the_job_until_a_document_moves_it() {
    let shop = Shop::new();
    shop.new_job("dewline", "dl-08", "dl-08r", &["--serial", "DL40-0040"]);
    let text = std::fs::read_to_string(demo("dewline-valves.acts")).unwrap();
    let (before, after) = text.split_once("// The job does not start").unwrap();
    assert_eq!(shop.run_with(&["enter", "dewline"], before, &[]).code, 0);
    let account = shop.json(&["check", "dewline"]);
    assert_eq!(account["state"], "not-startable");
    let flag =
        account["flags"].as_array().unwrap().iter().find(|f| f["code"] == "blocked-under-wire").unwrap();
    assert!(flag["say"].as_str().unwrap().contains("W506 has no place: new:6 is moulded shut"), "{flag}");
    let out = r#"Extract(from:"old:1",colour:"RD",freely:true,seal:On,anyway:(by:"boss",reason:"hurry"))"#;
    assert_eq!(shop.run_with(&["enter", "dewline"], out, &[]).code, 1);
    let request = shop.json(&["request", "dewline"]);
    let asked = request["lines"][0]["description"].as_str().unwrap();
    assert!(asked.contains("cavity 6 is moulded shut. Is there an earlier revision"), "{asked}");
    // Nothing goes into 6, and not into 7 without a document: the mating half has its terminal at 6.
    let run = shop.run_with(&["enter", "dewline"], r#"Mapped(from:"old:6",to:"new:7")"#, &[]);
    assert!(
        run.err.contains("mating half has its terminal at new:6 by position, not at new:7")
            && run.err.contains("Both halves must change, under a document"),
        "{run:?}"
    );
    let rest = format!("// {after}");
    let run = shop.run_with(&["enter", "dewline"], &rest, &[]);
    assert_eq!(run.code, 0, "{run:?}");
    let account = shop.json(&["check", "dewline"]);
    assert_eq!((&account["state"], codes(&account)), (&json!("closed"), vec![]));
    let cavities = &account["cavities"];
    assert_eq!([&cavities["wired"], &cavities["plugged"], &cavities["blocked"]], [6, 1, 1]);
    assert_eq!(account["plugs"]["returned"], 1);
    let text = shop.run(&["check", "dewline"]).out;
    assert!(text.contains("deviation  old:6 goes to new:7, under service bulletin"), "{text}");
}

/// The other wrong reading of the same pod: from the right face, with the latch down.
#[test]
fn a_record_read_upside_down_is_named_and_flipped() {
    let shop = Shop::new();
    shop.new_job("skerry", "sk-10", "sk-10", &["--serial", "SK9-0084"]);
    let text = std::fs::read_to_string(demo("skerry-pod.acts")).unwrap();
    let (before, after) = text.split_once("RecordFlipped(how:Mirror").unwrap();
    // Mirrored is the truth read from the other face; upside down it stands at 11 - n of the truth, which
    // is where the mirrored row stands in the other row.
    let turned: String = before
        .lines()
        .map(|line| match line.split_once("at:\"old:").filter(|_| line.starts_with("Recorded")) {
            Some((head, rest)) => {
                let (label, tail) = rest.split_once('"').unwrap();
                let n: usize = label.parse().unwrap();
                let there = if n <= 5 { n + 5 } else { n - 5 };
                format!("{head}at:\"old:{there}\"{tail}\n")
            }
            None => format!("{line}\n"),
        })
        .collect();
    assert_eq!(shop.run_with(&["enter", "skerry"], &turned, &[]).code, 0);
    let account = shop.json(&["check", "skerry"]);
    let anchor = account["flags"].as_array().unwrap().iter().find(|f| f["code"] == "anchor-failed").unwrap();
    assert!(anchor["do"].as_str().unwrap().contains("read upside down: flip"), "{anchor}");
    let rest = format!("RecordFlipped(how:Turn{after}");
    let run = shop.run_with(&["enter", "skerry"], &rest, &[]);
    assert_eq!(run.code, 0, "{run:?}");
    assert_eq!(shop.json(&["check", "skerry"])["state"], "closed");
}

#[test]
fn the_twin_without_a_fault_closes_without_a_flag() {
    let shop = Shop::new();
    shop.new_job("spudrow", "sp-16", "sp-16", &["--serial", "SPD-4072", "--seed", "4072"]);
    assert_eq!(shop.enter_demo("spudrow", "spudrow-twin.acts").code, 0);
    let account = shop.json(&["check", "spudrow"]);
    assert_eq!((&account["state"], codes(&account)), (&json!("closed"), vec![]));
}

#[test]
fn one_wire_one_hole_off_among_206_cavities_is_one_difference() {
    let shop = Shop::new();
    shop.new_job("cormorant", "cm-206", "cm-206", &["--serial", "CM90-0206"]);
    assert_eq!(shop.enter_demo("cormorant", "cormorant-bulkhead.acts").code, 0);
    let account = shop.json(&["check", "cormorant"]);
    assert_eq!([&account["wires"]["found"], &account["plugs"]["found"]], [173, 26]);
    assert_eq!([&account["cavities"]["total"], &account["cavities"]["blocked"]], [206, 6]);
    assert_eq!(codes(&account).iter().filter(|c| **c == "found-differs").count(), 1);
    let differs = account["flags"].as_array().unwrap().iter().find(|f| f["code"] == "found-differs").unwrap();
    assert!(
        differs["say"].as_str().unwrap().contains("A133")
            && differs["say"].as_str().unwrap().contains("A134")
    );
    // Before anything is confirmed nobody is asked for a plug too many.
    let plugs = |request: &Value| {
        let lines = request["lines"].as_array().unwrap().iter();
        let of_size = lines
            .filter(|l| l["part"] == "CM-PLUG-06")
            .map(|l| (l["need"].clone(), l["spare"].clone(), l["for"].clone()));
        of_size.collect::<Vec<_>>()
    };
    assert_eq!(plugs(&shop.json(&["request", "cormorant"])), []);
    // The plug of A49 is torn; the wire in A133 belongs in A134, and A133 gets its plug.
    // The pair that was found untwisted is flagged at both its wires until it is twisted again.
    assert_eq!(codes(&account).iter().filter(|c| **c == "untwisted").count(), 2);
    let acts = r#"RecordCorrected(at:"old:A15",holds:Wired(wires:[(number:"WA15",colour:"GN/BN",gauge:"0.5",twisted_with:"A16",untwisted:"30 mm")]),reason:"twisted again")
RecordCorrected(at:"old:A16",holds:Wired(wires:[(number:"WA16",colour:"BU/BN",gauge:"0.5",twisted_with:"A15",untwisted:"30 mm")]),reason:"twisted again")
RecordCorrected(at:"old:A49",holds:Open,reason:"plug torn, taken out")
Decided(at:"old:A133",wins:Should,reason:"one hole off since the last repair")
MapConfirmed(source:SameLabels)"#;
    let run = shop.run_with(&["enter", "cormorant"], acts, &[]);
    assert_eq!(run.code, 0, "{run:?}");
    let request = shop.json(&["request", "cormorant"]);
    assert_eq!(plugs(&request), [(json!(2), json!(2), json!(["new:A49", "new:A133"]))]);
    let alike = codes(&shop.json(&["check", "cormorant"])).iter().filter(|c| **c == "look-alike").count();
    assert_eq!(alike, 36, "36 colour pairs stand twice");
    // And every one of them is moved, to the end.
    walk::walk(&shop, "cormorant");
    let account = shop.json(&["check", "cormorant"]);
    assert_eq!((&account["state"], codes(&account)), (&json!("closed"), vec![]));
    let cavities = &account["cavities"];
    assert_eq!([&cavities["wired"], &cavities["plugged"], &cavities["blocked"]], [173, 27, 6]);
    assert_eq!([&account["plugs"]["new_stock"], &account["plugs"]["old"]], [2, 0]);
}

/// Source: ISO 1724 (12N), functions, colours and cross-sections as published in public summaries
/// (read); the ring order is from memory.
#[test]
fn a_seven_way_trailer_connector_is_swapped_like_for_like() {
    let shop = Shop::new();
    shop.new_job("trailer", "iso-1724", "iso-1724", &["--serial", "TRL-7007"]);
    assert_eq!(shop.enter_demo("trailer", "trailer-7-way.acts").code, 0);
    let account = shop.json(&["check", "trailer"]);
    assert_eq!((&account["state"], &account["cavities"]["wired"]), (&json!("closed"), &json!(7)));
    let steps = shop.json(&["steps", "trailer"]);
    let published =
        [("1", "YE"), ("2", "BU"), ("3", "WH"), ("4", "GN"), ("5", "BN"), ("6", "RD"), ("7", "BK")];
    for (contact, colour) in published {
        let to = format!("new:{contact}");
        let step = steps["steps"].as_array().unwrap().iter().find(|s| s["to"] == to.as_str()).unwrap();
        assert_eq!((&step["do"], &step["colour"]), (&json!("move-wire"), &json!(colour)));
    }
}

/// Source: FAA AC 43.13-1B par. 11-234 (read): every cavity is filled with a wired or an unwired
/// contact, the unwired ones sealed. Under a house rule that follows it, a 16-way connector to
/// ISO 15031-3 with only 4, 5, 6, 14 and 16 wired needs eleven plugs.
#[test]
fn eleven_cavities_empty_by_design_become_eleven_missing_plugs_under_the_house_rule() {
    let shop = Shop::new();
    let rules = demo("every-cavity-filled.ron");
    shop.new_job(
        "diagnostic",
        "iso-15031-3-a",
        "iso-15031-3-a",
        &["--serial", "DGN-1616", "--rules", rules.to_str().unwrap()],
    );
    let text = std::fs::read_to_string(demo("diagnostic-16-way.acts")).unwrap();
    let (before, after) = text.split_once("// The moves").unwrap();
    assert_eq!(shop.run_with(&["enter", "diagnostic"], before, &[]).code, 0);
    let account = shop.json(&["check", "diagnostic"]);
    assert_eq!(codes(&account).iter().filter(|c| **c == "plug-missing").count(), 11);
    let request = shop.json(&["request", "diagnostic"]);
    let plugs = request["lines"].as_array().unwrap().iter().find(|l| l["kind"] == "plug").unwrap();
    assert_eq!(plugs["need"], 11);
    let rest = format!("// {after}");
    assert_eq!(shop.run_with(&["enter", "diagnostic"], &rest, &[]).code, 0);
    let account = shop.json(&["check", "diagnostic"]);
    assert_eq!((&account["state"], &account["cavities"]["plugged"]), (&json!("closed"), &json!(11)));
}

/// Source: as above; ISO 11446 with contact 12 without a core (read) needs exactly one.
#[test]
fn a_thirteen_way_trailer_connector_with_twelve_empty_needs_one_plug() {
    let shop = Shop::new();
    let rules = demo("every-cavity-filled.ron");
    shop.new_job("thirteen", "iso-11446", "iso-11446", &["--rules", rules.to_str().unwrap()]);
    let mut acts = String::new();
    for contact in 1..=13 {
        let holds = if contact == 12 { "Empty" } else { r#"Wired(wires:[(colour:"?",gauge:"1.5")])"# };
        acts.push_str(&format!("Recorded(side:Found,at:\"old:{contact}\",holds:{holds})\n"));
    }
    acts.push_str("RecordFinished(side:Found)\nMapConfirmed(source:SameLabels)\n");
    assert_eq!(shop.run_with(&["enter", "thirteen"], &acts, &[]).code, 0);
    let account = shop.json(&["check", "thirteen"]);
    assert_eq!(codes(&account).iter().filter(|c| **c == "plug-missing").count(), 1);
    // Without the house rule an unsealed housing is left as it is.
    shop.new_job("plain", "iso-11446", "iso-11446", &[]);
    assert_eq!(shop.run_with(&["enter", "plain"], &acts, &[]).code, 0);
    assert!(!codes(&shop.json(&["check", "plain"])).contains(&"plug-missing"));
}

#[test]
fn the_demo_makes_its_jobs_and_says_what_to_run_next() {
    let shop = Shop::new();
    let folder = shop.path("demo");
    let run = shop.run(&["demo", folder.to_str().unwrap()]);
    assert_eq!(run.code, 0, "{run:?}");
    assert!(run.out.contains("next: repin --store"), "{run:?}");
    let jobs = [
        "fernwalker",
        "quayline",
        "spudrow",
        "kerbwhisper",
        "cormorant",
        "lanternhill",
        "aurelia",
        "dewline",
        "skerry",
    ];
    let states: Vec<String> = jobs
        .iter()
        .map(|id| {
            let account = shop.json(&["check", id, "--store", folder.to_str().unwrap()]);
            account["state"].as_str().unwrap().to_owned()
        })
        .collect();
    assert_eq!(
        states,
        [
            "moving",
            "moving",
            "waiting",
            "not-startable",
            "not-started",
            "not-started",
            "not-started",
            "not-startable",
            "not-started"
        ]
    );
}

#[test]
fn another_job_starts_from_what_a_job_left() {
    let shop = Shop::new();
    shop.new_job("first", "sp-16", "sp-16", &["--serial", "SPD-4072", "--seed", "4072"]);
    assert_eq!(shop.enter_demo("first", "spudrow-twin.acts").code, 0);
    shop.new_job("second", "sp-16", "sp-16", &["--found", "first"]);
    let account = shop.json(&["check", "second"]);
    assert_eq!([&account["wires"]["found"], &account["plugs"]["found"]], [12, 4]);
}
