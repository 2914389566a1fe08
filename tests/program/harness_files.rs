//! Open harness files (KBL, VDA 4964): every trap of the format is handled and said, and files that
//! mean harm are refused in bounded time.
//!
//! Source of the format: KBL schema 2.4 SR-1 and the class descriptions of 2.5 SR-1 (read); that plugs
//! stand at wired cavities, splices are written as connectors and codes are German: counted on public
//! sample files. The file used here is invented.

use crate::cli;

use std::time::{Duration, Instant};

use cli::{Shop, demo};
use serde_json::{Value, json};

fn panel(shop: &Shop, more: &[&str]) -> Value {
    let file = demo("aurelia-panel.kbl");
    shop.json(&[&["wiring", "read", file.to_str().unwrap()], more].concat())
}

fn row<'a>(list: &'a Value, cavity: &str) -> &'a Value {
    list["cavities"].as_array().unwrap().iter().find(|row| row["cavity"] == cavity).unwrap()
}

#[test]
fn connectors_and_configurations_are_listed_and_splices_are_not_connectors() {
    let listed = panel(&Shop::new(), &[]);
    assert_eq!(
        listed["connectors"],
        json!([{"id": "X31", "description": "bilge panel", "housing": "AS-18", "cavities": 18}])
    );
    let names: Vec<&str> =
        listed["configurations"].as_array().unwrap().iter().map(|c| c["name"].as_str().unwrap()).collect();
    assert_eq!(names, ["LONG", "BASIC", "SPARE"]);
    // And still they are the far ends of wires.
    let list = panel(&Shop::new(), &["--connector", "x31"]);
    assert_eq!(row(&list, "1")["far_ends"], json!(["SP7:1"]));
}

#[test]
fn wires_parts_and_plugs_come_with_what_they_are() {
    let list = panel(&Shop::new(), &["--connector", "X31", "--configuration", "LONG"]);
    assert_eq!(list["problems"], json!([]));
    let one = row(&list, "1");
    assert_eq!(
        [&one["wire"], &one["circuit"], &one["terminal"], &one["seal"]],
        ["W301", "PUMP 1", "AS-TRM-F28", "AS-SEAL-28"]
    );
    assert_eq!((&one["area_mm2"], &one["base"], &one["slot"]), (&json!(2.5), &json!("RD"), &json!("A")));
    // Base before stripe by the type of the colour; the raw text kept.
    let two = row(&list, "2");
    assert_eq!((&two["base"], &two["stripes"]), (&json!("RD"), &json!(["WH"])));
    assert!(two["note"].as_str().unwrap().contains("rt/ws"), "{two}");
    // A plug at a wired cavity is the one to fit once it is vacated; at a bare one it is fitted.
    assert_eq!(
        (&two["holds"], &two["plug"], &two["plug_if_vacated"]),
        (&json!("wired"), &Value::Null, &json!("AS-PLUG-28"))
    );
    assert_eq!(
        (&row(&list, "6")["holds"], &row(&list, "6")["plug"]),
        (&json!("plugged"), &json!("AS-PLUG-28"))
    );
    assert_eq!((&row(&list, "5")["holds"], &row(&list, "7")["holds"]), (&json!("open"), &json!("spare")));
    let assumed = list["assumed"].to_string();
    assert!(
        assumed.contains("1 plugs stand at cavities with a wire") && assumed.contains("German codes"),
        "{assumed}"
    );
    // One plug named at two cavities is one plug.
    assert!(row(&list, "12")["note"].as_str().unwrap().contains("same plug"), "{list}");
    assert_eq!(list["skipped"]["Accessory_occurrence"], 1);
}

#[test]
fn several_wires_on_one_contact_are_one_lead_and_cores_keep_their_pair() {
    let list = panel(&Shop::new(), &["--connector", "X31", "--configuration", "LONG"]);
    let doubled: Vec<&Value> =
        list["cavities"].as_array().unwrap().iter().filter(|row| row["cavity"] == "11").collect();
    assert_eq!(doubled.len(), 2);
    assert_eq!((&doubled[0]["lead"], &doubled[0]["wire"]), (&doubled[1]["lead"], &json!("W311a")));
    // Two cores of one colour: the pair and the wire numbers tell them apart.
    let (plus, minus) = (row(&list, "13"), row(&list, "14"));
    assert_eq!([&plus["base"], &minus["base"], &plus["pair"], &minus["pair"]], ["WH", "WH", "TP-9", "TP-9"]);
    assert_eq!([&plus["wire"], &minus["wire"]], ["201", "202"]);
    // A code nobody knows is never guessed at.
    let screen = row(&list, "16");
    assert_eq!(screen["base"], Value::Null);
    assert!(screen["note"].as_str().unwrap().contains("blk"), "{screen}");
}

#[test]
fn units_are_followed_and_a_wrong_one_is_not_taken_for_a_size() {
    let list = panel(&Shop::new(), &["--connector", "X31", "--configuration", "LONG"]);
    assert_eq!((&row(&list, "3")["area_mm2"], &row(&list, "3")["wire"]), (&Value::Null, &json!("W303")));
    assert!(row(&list, "3")["note"].as_str().unwrap().contains("16 in the unit ampere"), "{list}");
    assert_eq!(row(&list, "4")["gauge"], "18 AWG");
}

/// The area and the diameter of the 2.5 mm² wire in other units of the metre.
#[test]
fn areas_and_diameters_are_read_in_every_unit_of_the_metre() {
    let unit = "<Si_prefix>milli</Si_prefix><Si_dimension>square</Si_dimension></Unit>";
    let area = r#"<Value_component>2.5</Value_component></Cross_section_area><Cover_colour id="k1">"#;
    let shop = Shop::new();
    let text = std::fs::read_to_string(demo("aurelia-panel.kbl")).unwrap();
    for (prefix, value, diameter, read) in [
        ("milli", "2.5", "2.4", true),
        ("centi", "0.025", "0.24", true),
        ("micro", "2500000", "2400", true),
        ("deci", "0.00025", "0.024", false),
    ] {
        let units = format!(
            "<Si_prefix>{prefix}</Si_prefix><Si_dimension>square</Si_dimension></Unit><Unit id=\"u_len\"><Si_unit_name>metre</Si_unit_name><Si_prefix>{prefix}</Si_prefix></Unit>"
        );
        let thick = format!(
            r#"<Value_component>{value}</Value_component></Cross_section_area><Outside_diameter id="d1"><Unit_component>u_len</Unit_component><Value_component>{diameter}</Value_component></Outside_diameter><Cover_colour id="k1">"#
        );
        let changed = text.replace(unit, &units).replace(area, &thick);
        assert_ne!(changed, text);
        let path = shop.path(&format!("{prefix}.kbl"));
        std::fs::write(&path, changed).unwrap();
        let path = path.to_str().unwrap();
        let list = shop.json(&["wiring", "read", path, "--connector", "X31", "--configuration", "LONG"]);
        let area = list["cavities"]
            .as_array()
            .unwrap()
            .iter()
            .find_map(|row| row["area_mm2"].as_f64().filter(|area| (area - 2.5).abs() < 1e-9));
        assert_eq!(area.is_some(), read, "{prefix}: {list}");
        let run = shop.run(&[
            "new",
            prefix,
            "--old",
            "as-18",
            "--new",
            "as-18p",
            "--found",
            path,
            "--connector",
            "X31",
            "--configuration",
            "LONG",
        ]);
        if read {
            assert_eq!(run.code, 0, "{run:?}");
            let journal = std::fs::read_to_string(shop.path(&format!("{prefix}.job.ron"))).unwrap();
            assert!(journal.contains(r#"outside_diameter:"2.4 mm""#), "{prefix}");
        }
    }
}

#[test]
fn two_live_contacts_in_one_cavity_are_refused_with_what_settles_it() {
    let list = panel(&Shop::new(), &["--connector", "X31"]);
    let problems = list["problems"].as_array().unwrap();
    assert_eq!(problems.len(), 1);
    let say = problems[0]["say"].as_str().unwrap();
    assert!(say.contains("cavity 9 has 2 live contacts") && say.ends_with("LONG and SPARE"), "{say}");
    // In a configuration what no module of it controls is gone, and the rest is there.
    let basic = panel(&Shop::new(), &["--connector", "X31", "--configuration", "BASIC"]);
    let holds = |label| row(&basic, label)["holds"].clone();
    assert_eq!([holds("1"), holds("9"), holds("11"), holds("4")], ["wired", "open", "open", "wired"]);
    assert!(basic["assumed"].to_string().contains("maker's own code"), "{basic}");
    let spare = panel(&Shop::new(), &["--connector", "X31", "--configuration", "SPARE"]);
    assert_eq!(row(&spare, "9")["wire"], "W309b");
}

#[test]
fn a_job_takes_one_connector_in_one_configuration() {
    let shop = Shop::new();
    let file = demo("aurelia-panel.kbl");
    let base = ["new", "panel", "--old", "as-18", "--new", "as-18p", "--found", file.to_str().unwrap()];
    let run = shop.run(&base);
    assert!(run.code == 2 && run.err.contains("say which of its connectors"), "{run:?}");
    let run = shop.run(&[&base[..], &["--connector", "X31"]].concat());
    assert!(run.code == 2 && run.err.contains("2 live contacts"), "{run:?}");
    let run = shop.run(&[&base[..], &["--connector", "X31", "--configuration", "LONG"]].concat());
    assert!(run.code == 0 && run.out.contains("assumed: 1 plugs"), "{run:?}");
    let account = shop.json(&["check", "panel"]);
    assert_eq!(
        [&account["wires"]["found"], &account["leads"]["found"], &account["plugs"]["found"]],
        [10, 9, 3]
    );
}

#[test]
fn harmful_and_broken_files_are_clear_errors_in_bounded_time() {
    let shop = Shop::new();
    let good = std::fs::read_to_string(demo("aurelia-panel.kbl")).unwrap();
    let refuse = |name: &str, bytes: &[u8], part: &str| {
        let path = shop.path(name);
        std::fs::write(&path, bytes).unwrap();
        let started = Instant::now();
        let run = shop.run(&["wiring", "read", path.to_str().unwrap(), "--connector", "X31"]);
        assert!(started.elapsed() < Duration::from_secs(5), "{name}");
        assert!(run.code == 2 && run.out.is_empty(), "{name}: {run:?}");
        assert!(run.err.contains(name) && run.err.contains(part), "{name}: {}", run.err);
    };
    let bomb = r#"<?xml version="1.0"?><!DOCTYPE k [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">]><k>&b;</k>"#;
    refuse("bomb.kbl", bomb.as_bytes(), "document type");
    let deep = format!(
        "<KBL_container>{}{}</KBL_container>",
        "<a b=\"/>\">".repeat(200_000),
        "</a>".repeat(200_000)
    );
    refuse("deep.kbl", deep.as_bytes(), "deep in each other");
    refuse("open.kbl", "<a>".repeat(500_000).as_bytes(), "never closed");
    refuse("cut.kbl", &good.as_bytes()[..good.len() / 2], "line ");
    refuse("other.kbl", b"<svg/>", "outermost element is svg");
    let mut wrong = good.clone().into_bytes();
    let at = good.find("bilge panel").unwrap();
    wrong[at] = 0xe9;
    refuse("wrong.kbl", &wrong, "says it is UTF-8 and is not");
    let unknown = good.replace("UTF-8", "KLINGON");
    refuse("unknown.kbl", unknown.as_bytes(), "KLINGON");
    // Declared as what it is, it is read.
    let declared = good.replace("UTF-8", "ISO-8859-1").replace("bilge panel", "bilge panel \u{e9}");
    let latin: Vec<u8> = declared.chars().map(|c| u8::try_from(u32::from(c)).unwrap()).collect();
    let path = shop.path("latin.kbl");
    std::fs::write(&path, latin).unwrap();
    let listed = shop.json(&["wiring", "read", path.to_str().unwrap()]);
    assert_eq!(listed["connectors"][0]["description"], "bilge panel \u{e9}");
}

#[test]
fn no_cut_of_a_file_makes_the_reader_fail_otherwise_than_in_words() {
    let good = std::fs::read(demo("aurelia-panel.kbl")).unwrap();
    for at in (0..good.len()).step_by(97) {
        let Ok(file) = repin::exchange::KblFile::of(&good[..at]) else { continue };
        if let Err(why) = file.list("X31", None, &mut |_, _| {}) {
            assert!(!why.to_string().is_empty());
        }
    }
}

/// The panel with something in it changed, as `wiring read` sees connector X31.
fn changed(from: &str, to: &str, more: &[&str]) -> Value {
    let shop = Shop::new();
    let text = std::fs::read_to_string(demo("aurelia-panel.kbl")).unwrap();
    assert!(text.contains(from), "{from}");
    let path = shop.path("changed.kbl");
    std::fs::write(&path, text.replace(from, to)).unwrap();
    shop.json(&[&["wiring", "read", path.to_str().unwrap(), "--connector", "X31"], more].concat())
}

fn says(list: &Value) -> String {
    list["problems"].to_string()
}

#[test]
fn a_component_without_a_module_goes_with_its_assembly() {
    // W304 stands in no module that is read, but belongs to an assembly that MOD-3 controls.
    let wire = "<Part>wawg</Part><Wire_number>W304</Wire_number>";
    let within = "<Part>wawg</Part><Wire_number>W304</Wire_number><Related_assembly>o6</Related_assembly>";
    let basic = changed(wire, within, &["--configuration", "BASIC"]);
    assert_eq!(row(&basic, "4")["holds"], "open");
    let spare = changed(wire, within, &["--configuration", "SPARE"]);
    assert_eq!(row(&spare, "4")["wire"], "W304");
}

#[test]
fn a_contact_on_several_cavities_is_not_read_and_said() {
    let one = "<Contacted_cavity>v1</Contacted_cavity>";
    let list = changed(one, "<Contacted_cavity>v1 v5</Contacted_cavity>", &["--configuration", "LONG"]);
    assert!(says(&list).contains("X31-k1 touches 2 cavities"), "{}", says(&list));
}

#[test]
fn slots_that_number_alike_are_two_cavities_and_said() {
    let slot = "<Slots id=\"s0\"><Part>sl1</Part>";
    let two = "<Slots id=\"s00\"><Part>sl2</Part><Cavities id=\"w1\"><Part>cvs</Part></Cavities></Slots><Slots id=\"s0\"><Part>sl1</Part>";
    let list = changed(slot, two, &["--configuration", "LONG"]);
    assert!(says(&list).contains("cavity 1 stands in the slots S and A"), "{}", says(&list));
    let rows = list["cavities"].as_array().unwrap();
    assert_eq!(rows.iter().filter(|row| row["cavity"] == "1").count(), 2);
}

#[test]
fn a_housing_type_makes_a_splice_by_whole_words_only() {
    let plain = "<Description>18-way</Description>";
    let spring = "<Description>18-way</Description><Housing_type>spring lock</Housing_type>";
    assert_eq!(row(&changed(plain, spring, &["--configuration", "LONG"]), "1")["wire"], "W301");
    let shop = Shop::new();
    let path = shop.path("splice.kbl");
    let text = std::fs::read_to_string(demo("aurelia-panel.kbl")).unwrap();
    let splice = spring.replace("spring lock", "crimp splice");
    std::fs::write(&path, text.replace(plain, &splice)).unwrap();
    assert_eq!(shop.json(&["wiring", "read", path.to_str().unwrap()])["connectors"], json!([]));
}
