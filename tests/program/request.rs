//! The parts request, as the desk reads it.

use crate::cli;

use std::path::Path;

use cli::{Shop, demo};
use repin::{
    service::{JobAt, OpenJob, last_request, request_of},
    supply::{Line, PartKind, RequestHead},
};
use serde_json::Value;

/// The boom tip up to its planned repairs.
fn planned() -> Shop {
    let shop = Shop::new();
    let ticket = [
        "--asset",
        "Fernwalker 8",
        "--serial",
        "FW8-20731",
        "--connector",
        "boom tip",
        "--reason",
        "latch broken",
    ];
    shop.new_job("fernwalker", "fw-hsg-12a", "fw-hsg-12a", &ticket);
    let text = std::fs::read_to_string(demo("fernwalker-boom-tip.acts")).unwrap();
    let (before, _) = text.split_once("// Opening").unwrap();
    assert_eq!(shop.run_with(&["enter", "fernwalker"], before, &[]).code, 0);
    shop
}

/// The same with the old housing open.
fn opened() -> Shop {
    let shop = planned();
    let text = std::fs::read_to_string(demo("fernwalker-boom-tip.acts")).unwrap();
    let (_, opening) = text.split_once("// Opening\n").unwrap();
    let (opening, _) = opening.split_once("Extract(").unwrap();
    assert_eq!(shop.run_with(&["enter", "fernwalker"], opening, &[]).code, 0);
    shop
}

fn line<'a>(request: &'a Value, kind: &str) -> &'a Value {
    request["lines"].as_array().unwrap().iter().find(|l| l["kind"] == kind).unwrap()
}

#[test]
fn need_and_spare_stand_apart_and_companions_are_added() {
    let request = planned().json(&["request", "fernwalker"]);
    let amounts: Vec<(String, u64, u64)> = request["lines"]
        .as_array()
        .unwrap()
        .iter()
        .map(|l| {
            (
                l["kind"].as_str().unwrap().to_owned(),
                l["need"].as_u64().unwrap(),
                l["spare"].as_u64().unwrap(),
            )
        })
        .collect();
    let expected = [
        ("housing", 1, 0),
        ("secondary lock", 1, 0),
        ("connector position assurance", 1, 0),
        ("small part", 1, 0),
        ("plug", 1, 2),
        ("terminal", 2, 2),
        // Five samples, because no tool position is known to be qualified.
        ("terminal", 5, 0),
        ("wire seal", 2, 2),
    ];
    let expected: Vec<(String, u64, u64)> = expected.map(|(k, n, s)| (k.to_owned(), n, s)).to_vec();
    assert_eq!(amounts, expected);
    assert_eq!(line(&request, "secondary lock")["supplied_with"], "FW-HSG-12A");
    assert!(line(&request, "wire seal")["description"].as_str().unwrap().contains("added"));
    assert_eq!(line(&request, "plug")["for"], serde_json::json!(["new:8"]));
    assert_eq!(request["photos"], serde_json::json!(["104", "105"]));
    assert!(request["bench"].is_null() && request["needed_by"].is_null());
}

#[test]
fn an_unidentified_part_is_described_and_not_dropped() {
    let shop = planned();
    let act = r#"Planned(lead:"old:3",how:RepairLead,reason:"burnt")"#;
    assert_eq!(shop.run_with(&["enter", "fernwalker"], act, &[]).code, 0);
    let request = shop.json(&["request", "fernwalker"]);
    let lead = line(&request, "repair lead");
    assert_eq!((&lead["identified"], &lead["part"]), (&Value::Bool(false), &Value::Null));
    let looks = lead["describe"].to_string();
    assert!(looks.contains("YE/BK") && looks.contains("0.75 mm²") && looks.contains("FW-HSG-12A"), "{looks}");
    assert_eq!(shop.run(&["request", "fernwalker"]).code, 1);
}

#[test]
fn a_named_part_of_another_family_is_asked_for_as_named() {
    let shop = planned();
    let act = r#"Planned(lead:"old:3",how:NewTerminal,reason:"bent",part:"FW-ODD-1")"#;
    assert_eq!(shop.run_with(&["enter", "fernwalker"], act, &[]).code, 0);
    let request = shop.json(&["request", "fernwalker"]);
    let named = request["lines"].as_array().unwrap().iter().find(|l| l["part"] == "FW-ODD-1").unwrap();
    assert_eq!((&named["need"], &named["for"]), (&1.into(), &serde_json::json!(["new:3"])));
    assert!(named["description"].as_str().unwrap().contains("not in family"), "{named}");
    assert_eq!(named["substitute"], "ask me first");
}

#[test]
fn a_part_named_for_one_repair_is_not_asked_for_by_another() {
    let shop = opened();
    let acts = [
        r#"Extract(from:"old:3",colour:"YE/BK",freely:true,seal:On)"#,
        r#"Planned(lead:"old:3",how:NewSeal,reason:"torn",part:"FW-SEAL-G")"#,
        r#"Repair(lead:"old:3",how:NewSeal,done:"seal on",part:"FW-SEAL-G")"#,
        r#"Planned(lead:"old:3",how:NewTerminal,reason:"bent",part:"FW-TRM-F15")"#,
    ];
    let run = shop.run_with(&["enter", "fernwalker"], &acts.join("\n"), &[]);
    assert_eq!(run.code, 0, "{}", run.err);
    let request = shop.json(&["request", "fernwalker"]);
    let of_kind = |kind: &str, part: &str| {
        let lines = request["lines"].as_array().unwrap();
        lines.iter().any(|l| l["kind"] == kind && l["part"] == part)
    };
    assert!(of_kind("wire seal", "FW-SEAL-G") && of_kind("terminal", "FW-TRM-F15"), "{request}");
    assert!(!of_kind("wire seal", "FW-TRM-F15"), "{request}");
}

#[test]
fn a_lead_without_a_place_is_asked_for_by_the_cavity_it_came_from() {
    let shop = planned();
    let acts = "Planned(lead:\"old:3\",how:NewTerminal,reason:\"bent\")\nMapped(from:\"old:3\",document:\"bulletin 4\")";
    assert_eq!(shop.run_with(&["enter", "fernwalker"], acts, &[]).code, 0);
    let request = shop.json(&["request", "fernwalker"]);
    let terminals = line(&request, "terminal");
    assert_eq!(terminals["for"], serde_json::json!(["old:3", "new:7", "new:9"]));
    assert_eq!(terminals["need"], 3);
}

#[test]
fn a_plug_borrowed_for_another_hole_is_asked_for_where_it_is_missing() {
    let shop = opened();
    let borrow = "TakePlug(from:\"old:10\")\nFitPlug(into:\"new:8\",source:Hand)";
    assert_eq!(shop.run_with(&["enter", "fernwalker"], borrow, &[]).code, 0);
    let request = shop.json(&["request", "fernwalker"]);
    assert_eq!(line(&request, "plug")["for"], serde_json::json!(["new:10"]));
    assert_eq!(line(&request, "plug")["need"], 1);
}

#[test]
fn sending_keeps_one_number_counts_revisions_and_never_uses_a_line_number_again() {
    let shop = planned();
    let sent = shop.json(&["request", "fernwalker", "--send"]);
    let number = sent["request"].as_str().unwrap().to_owned();
    assert!(shop.files().contains(&format!("{number}-1.request.ron")));
    // Sent again unchanged, it is the same revision.
    let again = shop.json(&["request", "fernwalker", "--send"]);
    assert_eq!((&again["revision"], &again["changed"]), (&1.into(), &Value::Bool(false)));
    // What the desk is told beside the lines is a revision, too, and stays until it is told anew.
    let told = shop.json(&["request", "fernwalker", "--send", "--deliver-to", "bench 3"]);
    assert_eq!((&told["revision"], told["deliver_to"].as_str()), (&2.into(), Some("bench 3")));
    let act = r#"Planned(lead:"old:3",how:NewTerminal,reason:"bent",part:"FW-TRM-F15")"#;
    assert_eq!(shop.run_with(&["enter", "fernwalker"], act, &[]).code, 0);
    let next = shop.json(&["request", "fernwalker", "--send"]);
    assert_eq!((&next["revision"], next["request"].as_str()), (&3.into(), Some(number.as_str())));
    assert_eq!(next["deliver_to"], "bench 3");
    assert_eq!(line(&next, "terminal")["line"], line(&sent, "terminal")["line"]);
    assert_eq!(line(&next, "terminal")["need"], 3);
    // The plug is found again: its line stays, with need 0.
    let act = r#"RecordCorrected(at:"old:8",holds:Plugged,reason:"black plug under dirt")"#;
    assert_eq!(shop.run_with(&["enter", "fernwalker"], act, &[]).code, 0);
    let last = shop.json(&["request", "fernwalker", "--send"]);
    let plug = line(&last, "plug");
    assert_eq!(
        (&plug["line"], &plug["need"], &plug["spare"]),
        (&line(&sent, "plug")["line"], &0.into(), &0.into())
    );
}

#[test]
fn the_paper_is_one_page_wide_and_the_table_keeps_part_numbers_as_text() {
    let shop = planned();
    let paper = shop.run(&["request", "fernwalker", "--ascii"]);
    assert!(paper.out.is_ascii());
    assert!(paper.out.lines().all(|line| line.len() <= 80), "{}", paper.out);
    assert!(paper.out.lines().count() <= 60, "more than one page");
    for word in ["Fernwalker 8", "FW8-20731", "boom tip", "latch broken", "[ ]  1", "(1 pack of 10)"] {
        assert!(paper.out.contains(word), "{word}: {}", paper.out);
    }
    let table = shop.run(&["request", "fernwalker", "--format", "csv"]);
    let mut rows = csv::Reader::from_reader(table.out.as_bytes());
    let rows: Vec<csv::StringRecord> = rows.records().map(Result::unwrap).collect();
    assert_eq!(rows.len(), 8);
    assert!(rows.iter().all(|row| row.iter().all(|cell| !cell.starts_with(['=', '+', '@']))));
}

#[test]
fn a_lead_that_was_asked_for_stays_its_line_when_its_splice_is_made_elsewhere() {
    let shop = two_leads();
    let text = std::fs::read_to_string(demo("mulehaul-power.acts")).unwrap();
    let (_, moves) = text.split_once("// The moves").unwrap();
    let sent = shop.json(&["request", "mulehaul", "--send", "--bench", "3"]);
    let made = moves.split_once("Inspect(verdict:Good)").unwrap().0.replace("105 mm", "111 mm");
    let run = shop.run_with(&["enter", "mulehaul"], &format!("// {made}"), &[]);
    assert_eq!(run.code, 0, "{run:?}");
    let now = shop.json(&["request", "mulehaul"]);
    let leads = |request: &Value| -> Vec<(Value, Value)> {
        let lines = request["lines"].as_array().unwrap().iter().filter(|l| l["kind"] == "repair lead");
        lines.map(|l| (l["line"].clone(), l["need"].clone())).collect()
    };
    assert_eq!(leads(&now), leads(&sent));
    // What was asked for is done: nothing the desk has to know.
    assert_eq!(now["changed"], Value::Bool(false), "{now}");
    assert_eq!(leads(&now).len(), 2);
}

/// The power connector with its two leads ordered.
fn two_leads() -> Shop {
    let shop = Shop::new();
    let rules = demo("clearance-40.ron");
    let ticket = ["--serial", "MT3-4006", "--reason", "melted", "--rules", rules.to_str().unwrap()];
    shop.new_job("mulehaul", "mh-06", "mh-06", &ticket);
    let text = std::fs::read_to_string(demo("mulehaul-power.acts")).unwrap();
    let (before, _) = text.split_once("// The moves").unwrap();
    assert_eq!(shop.run_with(&["enter", "mulehaul"], before, &[]).code, 0);
    shop
}

#[test]
fn a_lead_order_says_on_paper_and_in_the_table_what_its_splice_joins_and_how_large_its_sleeve_is() {
    let shop = two_leads();
    let paper = shop.run(&["request", "mulehaul", "--bench", "Bench 3"]).out;
    let plain = paper.split_whitespace().collect::<Vec<_>>().join(" ");
    for words in [
        "joins 6 mm² (charts: 8 AWG) to 6 mm² (charts: 8 AWG), sleeve 45 mm (1.77 in) long, 8 mm (0.31 in) over it",
        "length 190 mm (7.48 in) -0/+10 mm",
        "why melted; cause: ",
        "asked by kt, bench 3",
        "MADE TO ORDER need 1 + spare 0",
        "terminal MH-TRM-F63, fits cavity new:1 of MH-06 (not sealed: no seal on the wire)",
    ] {
        assert!(plain.contains(words), "{words}: {paper}");
    }
    let table = shop.run(&["request", "mulehaul", "--format", "csv"]).out;
    let mut rows = csv::Reader::from_reader(table.as_bytes());
    let last = rows.headers().unwrap().iter().position(|heading| heading == "repair lead").unwrap();
    let rows: Vec<csv::StringRecord> = rows.records().map(Result::unwrap).collect();
    let leads: Vec<&str> = rows.iter().filter(|row| &row[3] == "repair lead").map(|row| &row[last]).collect();
    assert_eq!(leads.len(), 2);
    assert!(
        leads.iter().all(|lead| lead.contains("insulation cross-linked") && lead.contains("label at both"))
    );
}

#[test]
fn a_new_revision_says_what_it_replaces_and_what_changed() {
    let shop = two_leads();
    assert_eq!(shop.run(&["request", "mulehaul", "--send", "--bench", "3"]).code, 0);
    let first = shop.run(&["request", "mulehaul"]).out;
    assert!(!first.contains("REPLACES") && !first.contains("CHANGED"), "{first}");
    // Whoever prints it, it was asked by who sent it.
    let printed = shop.run_with(&["request", "mulehaul"], "", &[("REPIN_BY", "clerk")]).out;
    assert!(printed.contains("asked by   kt, bench 3"), "{printed}");
    // Damage that reaches further moves the first splice, and with it the length.
    let act = r#"RecordCorrected(at:"old:1",holds:Wired(wires:[(number:"W401",circuit:"drive feed",colour:"RD",gauge:"6.0",damage:"100 mm")],terminal:"MH-TRM-F63"),reason:"brittle further in")"#;
    assert_eq!(shop.run_with(&["enter", "mulehaul"], act, &[]).code, 0);
    let account = shop.json(&["check", "mulehaul"]);
    let flags = account["flags"].as_array().unwrap();
    let stale = flags.iter().find(|f| f["say"].as_str().unwrap().contains("was asked for with 190 mm"));
    assert_eq!(stale.map(|flag| &flag["code"]), Some(&"wire-misfit".into()), "{account}");
    let second = shop.run(&["request", "mulehaul"]).out;
    let plain = second.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(plain.contains("REPLACES revision 1 and all before it"), "{second}");
    assert!(plain.contains("CHANGED: length was 190 mm"), "{second}");
    // Once the desk knows, nothing is stale.
    assert_eq!(shop.run(&["request", "mulehaul", "--send"]).code, 0);
    let account = shop.json(&["check", "mulehaul"]);
    assert!(!account.to_string().contains("was asked for with"), "{account}");
}

#[test]
fn a_splice_that_does_not_come_with_its_lead_is_a_line_with_one_to_spare() {
    let shop = two_leads();
    let request = shop.json(&["request", "mulehaul"]);
    // A large terminal has one to spare, not two.
    assert_eq!(
        (&line(&request, "terminal")["need"], &line(&request, "terminal")["spare"]),
        (&1.into(), &1.into())
    );
    assert!(request["lines"].as_array().unwrap().iter().all(|line| line["kind"] != "splice"));
    let text = std::fs::read_to_string(demo("mulehaul-power.acts")).unwrap();
    for lead in ["old:1", "old:2"] {
        let start = format!(r#"Planned(lead:"{lead}",how:RepairLead"#);
        let order = text.lines().find(|act| act.starts_with(&start)).unwrap();
        let order = order.replace("splice_included:true", "splice_included:false");
        assert_eq!(shop.run_with(&["enter", "mulehaul"], &order, &[]).code, 0);
    }
    let request = shop.json(&["request", "mulehaul"]);
    let lines = request["lines"].as_array().unwrap();
    let splices: Vec<&Value> = lines.iter().filter(|line| line["kind"] == "splice").collect();
    // 6 mm² and 4 mm² do not take the same barrel.
    assert_eq!(splices.len(), 2);
    assert!(splices.iter().all(|splice| splice["need"] == 1 && splice["spare"] == 1), "{splices:?}");
    assert_eq!(splices[0]["for"].as_array().unwrap().len(), 1);
}

/// A job as version 1 wrote it, up to a line.
fn kept(job: &str, lines: usize) -> Shop {
    let file = format!("{job}.job.ron");
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/journals/v1").join(&file);
    let text = std::fs::read_to_string(path).unwrap();
    let shop = Shop::new();
    let cut: Vec<&str> = text.lines().take(lines).collect();
    std::fs::write(shop.path(&file), format!("{}\n", cut.join("\n"))).unwrap();
    shop
}

#[test]
fn every_format_of_a_request_stays_as_it_is_to_the_byte() {
    for (job, lines) in [("fernwalker-boom-tip", 65), ("mulehaul-power", 56), ("skerry-pod", 38)] {
        let shop = kept(job, lines);
        for format in ["text", "csv", "json", "ron"] {
            let run =
                shop.run(&["request", job, "--format", format, "--bench", "3", "--needed-by", "2099-12-01"]);
            assert!(run.code < 2, "{run:?}");
            // The day it is put together.
            let lines = run.out.lines().map(|line| match line.split_once(", put together ") {
                Some((job, _)) => format!("{job}, put together DAY"),
                None => line.to_owned(),
            });
            let out: Vec<String> = lines.collect();
            insta::assert_snapshot!(format!("{job}_{format}"), out.join("\n"));
        }
    }
}

/// What the job asks for now, and what its last entry kept of it.
fn now_and_kept(shop: &Shop, job: &str) -> (Vec<Line>, Vec<Line>) {
    let open = OpenJob::look(&JobAt::file(&shop.path(&format!("{job}.job.ron")))).unwrap();
    let now = request_of(&open, RequestHead::default(), "2026-12-01T08:00:00Z".parse().unwrap());
    let kept = last_request(&open).unwrap().lines;
    (now.lines.into_iter().map(|line| line.asked).collect(), kept)
}

#[test]
fn what_was_sent_is_kept_as_data_and_comes_back_as_it_was() {
    let shop = two_leads();
    let text = std::fs::read_to_string(demo("mulehaul-power.acts")).unwrap();
    let order = text.lines().find(|act| act.starts_with(r#"Planned(lead:"old:1",how:RepairLead"#)).unwrap();
    let order = order.replace("splice_included:true", "splice_included:false");
    assert_eq!(shop.run_with(&["enter", "mulehaul"], &order, &[]).code, 0);
    // Sent, and its splice is still to be identified.
    assert_eq!(shop.run(&["request", "mulehaul", "--send", "--urgency", "before the harvest"]).code, 1);
    let (now, kept) = now_and_kept(&shop, "mulehaul");
    assert!(now.iter().any(|line| line.kind() == PartKind::Splice));
    assert_eq!(kept, now);
    // A line that is gone comes back, too: the lead is mended otherwise.
    let other = r#"Planned(lead:"old:1",how:Other,reason:"nothing to mend")"#;
    assert_eq!(shop.run_with(&["enter", "mulehaul"], other, &[]).code, 0);
    let sent = shop.json(&["request", "mulehaul", "--send"]);
    assert_eq!(sent["urgency"], "before the harvest");
    let (now, kept) = now_and_kept(&shop, "mulehaul");
    assert!(now.iter().any(|line| line.kind() == PartKind::Lead && line.is_gone()));
    assert_eq!(kept, now);
    // Needed again it is the same line.
    assert_eq!(shop.run_with(&["enter", "mulehaul"], &order, &[]).code, 0);
    let (again, _) = now_and_kept(&shop, "mulehaul");
    let lead = |lines: &[Line]| {
        let at = |line: &&Line| line.wanted.lead().is_some_and(|lead| lead.home.to_string() == "old:1");
        lines.iter().find(at).map(|line| line.line)
    };
    assert_eq!(lead(&again), lead(&now));
    let shop = planned();
    assert_eq!(shop.run(&["request", "fernwalker", "--send"]).code, 0);
    let (now, kept) = now_and_kept(&shop, "fernwalker");
    assert_eq!(kept, now);
}

#[test]
fn a_request_file_of_version_1_holds_the_line_numbers_by_what_it_kept() {
    let shop = kept("quayline", 113);
    let request = shop.json(&["request", "quayline"]);
    let ron = shop.run(&["request", "quayline", "--format", "ron"]).out;
    let number = request["request"].as_str().unwrap();
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/journals/v1/quayline.job.ron");
    let whole: Vec<String> = std::fs::read_to_string(path).unwrap().lines().map(str::to_owned).collect();
    std::fs::write(shop.path("quayline.job.ron"), format!("{}\n", whole[..114].join("\n"))).unwrap();
    let file = shop.path(&format!("{number}-1.request.ron"));
    std::fs::write(&file, &ron).unwrap();
    let again = shop.json(&["request", "quayline"]);
    assert_eq!(again["changed"], Value::Bool(false), "{again}");
    assert_eq!(again["lines"], request["lines"]);
    // What the file says of the day must be a day, else nothing is compared and that is said.
    let spoilt = ron.replace("needed_by: None", "needed_by: \"soon\"");
    assert_ne!(spoilt, ron);
    std::fs::write(&file, spoilt).unwrap();
    let run = shop.run(&["request", "quayline"]);
    assert_eq!(run.code, 1);
    assert!(run.err.contains("\"soon\" is no day") && run.err.contains("cannot be compared"), "{run:?}");
}

#[test]
fn what_is_no_day_is_said_where_it_is_keyed() {
    let shop = planned();
    for day in ["soon", "1.12.2026", "2026-02-30", "20261201", "2026-12-01T08:00"] {
        let run = shop.run(&["request", "fernwalker", "--needed-by", day]);
        assert_eq!(run.code, 2, "{run:?}");
        assert!(run.err.contains("key the day as 2026-12-01"), "{run:?}");
        let act = format!(
            r#"Requested(number:"ACDEFGHJ",revision:1,lines:[],said:(head:(asked_by:"kt",needed_by:"{day}"),why:""))"#
        );
        let run = shop.run_with(&["enter", "fernwalker"], &act, &[]);
        assert_eq!(run.code, 2, "{run:?}");
        assert!(run.err.contains("is no day"), "{run:?}");
    }
    assert_eq!(shop.json(&["request", "fernwalker", "--needed-by", "2099-12-01"])["needed_by"], "2099-12-01");
}
