//! Wiring lists as people have them: every line is understood, and how is said, or it is not, and
//! why is said.

use crate::cli;

use cli::Shop;
use proptest::prelude::*;
use serde_json::{Value, json};

/// What `wiring read` makes of a file.
#[track_caller]
fn read(bytes: &[u8]) -> Value {
    let shop = Shop::new();
    let path = shop.path("list.csv");
    std::fs::write(&path, bytes).unwrap();
    let run = shop.run(&["wiring", "read", path.to_str().unwrap(), "--json"]);
    let list: Value = serde_json::from_str(&run.out).unwrap_or_else(|e| panic!("{e}: {run:?}"));
    let has_problems = !list["problems"].as_array().unwrap().is_empty();
    assert_eq!(run.code, i32::from(has_problems), "{run:?}");
    list
}

/// Cavity, content, wire, colour and area of every row.
fn rows(list: &Value) -> Vec<String> {
    let text = |v: &Value| v.as_str().unwrap_or("-").to_owned();
    let row = |r: &Value| {
        let mut colour = vec![text(&r["base"])];
        colour.extend(r["stripes"].as_array().unwrap().iter().map(text));
        let area = r["area_mm2"].as_f64().map_or("-".to_owned(), |a| format!("{a:.3}"));
        format!(
            "{} {} {} {} {area}",
            text(&r["cavity"]),
            text(&r["holds"]),
            text(&r["wire"]),
            colour.join("/")
        )
    };
    list["cavities"].as_array().unwrap().iter().map(row).collect()
}

fn problems(list: &Value) -> Vec<String> {
    let problem = |p: &Value| format!("{}: {}", p["line"], p["say"].as_str().unwrap());
    list["problems"].as_array().unwrap().iter().map(problem).collect()
}

#[track_caller]
fn one_problem(list: &Value, line: u32, part: &str) {
    let found = problems(list);
    let [only] = found.as_slice() else { panic!("{found:?}") };
    assert!(only.starts_with(&format!("{line}: ")) && only.contains(part), "{only}");
}

const READ: [&str; 3] = ["1 wired W1 RD/WH 0.750", "2 plugged - - -", "3 wired W3 BU 0.500"];

#[test]
fn comma_semicolon_and_tab_marks_and_encodings_give_the_same_list() {
    let comma = "Cavity,Wire no.,Wire colour,Size (mm²)\n1,W1,RD/WH,0.75\n2,plug,,\n3,W3,blue,0.5\n";
    let semicolon = "\u{feff}Farbe;Kammer-Nr.;Querschnitt mm²;Leitung\r\nrt ws;1;0,75;W1\r\nBlindstopfen;2;;\r\nbl;3;0,5;W3\r\n";
    let tab = "N° de fil\tCouleur\tSection (mm²)\tAlvéole\nW1\trouge-blanc\t0,75\t1\n\tbouchon\t\t2\nW3\tbleu\t0,5\t3\n";
    let spanish = "Posición;Hilo;Color;Sección mm2\n1;W1;rojo con blanco;0,75\n2;;tapón;\n3;W3;azul;0,5\n";
    let quoted = "\"Pin\",\"Wire\",\"Base colour\",\"Stripe\",\"Size mm2\"\n1,W1,\"red\",\"white\",\"0,75\"\n2,,,,\n3,W3,BU,,\"0,5\"\n";
    for text in [comma, semicolon, tab, spanish] {
        let list = read(text.as_bytes());
        assert_eq!(rows(&list), READ, "{text}: {list}");
        assert_eq!(problems(&list), Vec::<String>::new());
    }
    let list = read(quoted.as_bytes());
    assert_eq!(rows(&list), [READ[0], READ[2]]);
    one_problem(&list, 3, "nothing is said of cavity 2");
    let latin: Vec<u8> = "Kavität;Leitung;Farbe;Querschnitt mm²\n1;W1;weiß/grün;0,75\n"
        .chars()
        .map(|c| u8::try_from(u32::from(c)).unwrap())
        .collect();
    let list = read(&latin);
    assert_eq!(rows(&list), ["1 wired W1 WH/GN 0.750"]);
    assert!(list["assumed"][0].as_str().unwrap().contains("Windows-1252"), "{list}");
}

/// ASTM B258 (formula as in the checks of sizes): 18 AWG is 0.823 mm².
#[test]
fn sizes_are_read_in_both_systems_and_never_guessed() {
    let list = read(b"pin,colour,gauge\n1,RD,18 AWG\n2,BK,18ga\n3,BU,AWG 20\n");
    assert_eq!(rows(&list), ["1 wired - RD 0.823", "2 wired - BK 0.823", "3 wired - BU 0.518"]);
    let list = read(b"pin,colour,AWG\n1,RD,18\n");
    assert_eq!(rows(&list), ["1 wired - RD 0.823"]);
    let list = read(b"pin,colour,gauge\n1,RD,18\n2,BK,16\n");
    assert_eq!(rows(&list), Vec::<String>::new());
    assert!(problems(&list)[0].contains("18 mm\u{b2} or 18 AWG"), "{list}");
}

#[test]
fn two_wires_in_one_terminal_share_a_lead_and_a_cavity_met_twice_is_named() {
    let list = read(b"pin;wire;colour;mm2\n11;W311a + W311b;BN + BN;0,75\n12;W1;RD;0,5\n12;W2;BK;0,5\n");
    assert_eq!(list["cavities"][0]["lead"], list["cavities"][1]["lead"]);
    assert_eq!((&list["cavities"][0]["lead"], &list["cavities"][2]["lead"]), (&json!("11"), &Value::Null));
    assert_eq!(rows(&list).len(), 4, "both rows of the cavity met twice are given");
    one_problem(&list, 4, "cavity 12 stands in line 3 already");
    let list = read(b"pin;wire;colour\n1;W1;RD + BK\n");
    one_problem(&list, 2, "one wire number and 2 wires");
}

#[test]
fn codes_that_mean_two_colours_are_decided_by_the_file_or_refused() {
    let list = read("Pin;Farbe\n1;bl\n2;gr\n3;br/rt\n".as_bytes());
    assert_eq!(rows(&list), ["1 wired - BU -", "2 wired - GY -", "3 wired - BN/RD -"]);
    assert!(list["assumed"].to_string().contains("German codes"), "{list}");
    let list = read(b"pin;colour\n1;bl\n2;RD\n");
    one_problem(&list, 2, "blue or black");
}

/// Source: DIN 47100 (withdrawn 1998), colour code of pairs 1 to 44, read in a public encyclopaedia;
/// base first, so that 13 is WH/GN and 34 YE/RD, against the table order of IEC 60757.
#[test]
fn the_colours_of_din_47100_keep_their_order() {
    const CODES: [&str; 44] = [
        "WH", "BN", "GN", "YE", "GY", "PK", "BU", "RD", "BK", "VT", "GYPK", "RDBU", "WHGN", "BNGN", "WHYE",
        "YEBN", "WHGY", "GYBN", "WHPK", "PKBN", "WHBU", "BNBU", "WHRD", "BNRD", "WHBK", "BNBK", "GYGN",
        "YEGY", "PKGN", "YEPK", "GNBU", "YEBU", "GNRD", "YERD", "GNBK", "YEBK", "GYBU", "PKBU", "GYRD",
        "PKRD", "GYBK", "PKBK", "BUBK", "RDBK",
    ];
    let mut text = "contact,colour\n".to_owned();
    for (n, code) in (1..).zip(CODES) {
        text.push_str(&format!("{n},{code}\n"));
    }
    let list = read(text.as_bytes());
    assert_eq!(problems(&list), Vec::<String>::new());
    let seen: Vec<String> = list["cavities"]
        .as_array()
        .unwrap()
        .iter()
        .map(|row| {
            let stripes = row["stripes"].as_array().unwrap().iter().map(|s| s.as_str().unwrap());
            format!("{}{}", row["base"].as_str().unwrap(), stripes.collect::<String>())
        })
        .collect();
    assert_eq!(seen, CODES);
}

#[test]
fn ten_spoilt_spreadsheets_are_read_or_refused_line_by_line() {
    // A delimiter inside quotes.
    let list = read(b"pin;wire;colour;note\n1;W1;RD;\"see A; then B\"\n2;\"W2;a\";BK;\n");
    assert_eq!(rows(&list), ["1 wired W1 RD -", "2 wired W2;a BK -"]);
    assert_eq!(list["cavities"][0]["note"], "see A; then B");
    // Two heading rows.
    let list = read(b"Connector X14;;;\nWire;Wire;Wire;Cavity\nnumber;colour;size mm2;\nW1;RD;0,5;1\n");
    assert_eq!(rows(&list), ["1 wired W1 RD 0.500"]);
    assert!(list["assumed"].to_string().contains("heading is line"), "{list}");
    // Merged cells come out as blanks.
    let list = read(b"pin,wire,colour\n1,W1,RD\n,W2,BK\n3,W3,BU\n");
    assert_eq!(rows(&list).len(), 2);
    one_problem(&list, 3, "no cavity is named");
    // A footer, and a total that could pass for a cavity.
    let list = read(b"pin,wire,size mm2\n1,W1,0.5\n2,W2,0.5\nTotal,,19\ndrawn in the workshop,,\n");
    one_problem(&list, 4, "unlike the other labels");
    assert!(list["assumed"].to_string().contains("drawn in the workshop"), "{list}");
    // Formulas and errors.
    let list = read(b"pin,wire,colour\n1,=B7,RD\n2,W2,#REF!\n3,W3,BU\n");
    assert_eq!(rows(&list), ["3 wired W3 BU -"]);
    assert!(problems(&list)[0].contains("formula") && problems(&list)[1].contains("error"), "{list}");
    // Emoji.
    let list = read("pin,colour,circuit\n1,🔴,lamp\n2,RD,💡 lamp\n".as_bytes());
    assert_eq!(rows(&list), ["2 wired - RD -"]);
    one_problem(&list, 2, "is not a colour");
    // A column of dates where 1-2 was a cavity.
    let list = read(b"pin;colour\n1-1;RD\n01.Feb;BK\n2026-03-01;BU\n1-4;GN\n");
    assert_eq!(rows(&list), ["1-1 wired - RD -", "1-4 wired - GN -"]);
    assert!(problems(&list).iter().all(|p| p.contains("looks like a date")), "{list}");
    // No heading at all.
    let list = read(b"1;RD;0,75\n2;BK;0,75\n3;plug;\n");
    assert_eq!(rows(&list), ["1 wired - RD 0.750", "2 wired - BK 0.750", "3 plugged - - -"]);
    assert!(list["assumed"].to_string().contains("there is no heading"), "{list}");
    let list = read(b"lamp left;somewhere\nlamp right;elsewhere\n");
    one_problem(&list, 1, "write a heading");
    // A decimal comma that parts a cell.
    let list = read(b"pin,wire,size mm2\n1,W1,0,75\n2,W2,0.75\n");
    assert_eq!(rows(&list), ["2 wired W2 - 0.750"]);
    one_problem(&list, 2, "decimal comma");
    // A quotation mark that is never closed.
    let mut text = "pin,wire,colour\n1,W1,RD\n2,\"W2,BK\n".to_owned();
    (3..40).for_each(|n| text.push_str(&format!("{n},W{n},BU\n")));
    let list = read(text.as_bytes());
    assert_eq!(rows(&list), ["1 wired W1 RD -"]);
    one_problem(&list, 3, "quotation mark");
}

#[test]
fn a_hundred_thousand_lines_are_read_whole() {
    let mut text = "cavity;wire;colour;mm2\n".to_owned();
    (0..100_000).for_each(|n| text.push_str(&format!("K{n};W{n};RD/WH;0,75\n")));
    text.push_str("K7;W;RD;1\n");
    let list = read(text.as_bytes());
    assert_eq!(list["cavities"].as_array().unwrap().len(), 100_001);
    one_problem(&list, 100_002, "cavity K7 stands in line 9 already");
}

#[test]
fn one_connector_of_several_is_chosen_by_name() {
    let text = b"Connector,Pin,Colour\nX1,1,RD\n,2,BK\nX2,1,BU\n";
    one_problem(&read(text), 1, "the connectors X1 and X2");
    let shop = Shop::new();
    let path = shop.path("list.csv");
    std::fs::write(&path, text).unwrap();
    let list = shop.json(&["wiring", "read", path.to_str().unwrap(), "--connector", "x1"]);
    assert_eq!(rows(&list), ["1 wired - RD -", "2 wired - BK -"]);
    assert_eq!(list["skipped"]["line of another connector"], 1);
    assert!(list["assumed"].to_string().contains("1 lines name no connector"), "{list}");
}

#[test]
fn a_new_job_takes_a_list_whole_or_not_at_all() {
    let shop = Shop::new();
    let path = shop.path("found.csv");
    let file = path.to_str().unwrap();
    let new = |text: &str| {
        std::fs::write(&path, text).unwrap();
        shop.run(&["new", "job", "--old", "sp-16", "--new", "sp-16", "--found", file])
    };
    let run = new("pin;colour;twisted with\n1;RD;2\n2;BK;1\n3;hellblau;\n3;BU;\n");
    assert_eq!(run.code, 2);
    assert!(run.err.contains("found.csv:4: \"hellblau\""), "{run:?}");
    let run = new("pin;colour\n1;RD\n17;BK\n");
    assert!(run.code == 2 && run.err.contains("found.csv:3: SP-16 has no cavity 17"), "{run:?}");
    assert_eq!(shop.files(), ["found.csv"]);
    let run = new("pin;colour;pair\n1;RD;P1\n2;BK;P1\n3;plug;\n");
    assert!(run.code == 0 && run.out.contains("found.csv: 3 cavities"), "{run:?}");
    let journal = std::fs::read_to_string(shop.path("job.job.ron")).unwrap();
    assert!(journal.contains("twisted_with:\"2\"") && journal.contains("found.csv\",3)"), "{journal}");
}

#[test]
fn a_file_that_is_no_text_is_a_clear_error() {
    let shop = Shop::new();
    let path = shop.path("book.xlsx");
    std::fs::write(&path, b"PK\x03\x04\0\0").unwrap();
    let run = shop.run(&["wiring", "read", path.to_str().unwrap()]);
    assert!(run.code == 2 && run.err.contains("export the spreadsheet as CSV"), "{run:?}");
    let run = shop.run(&["wiring", "read", shop.path("none.csv").to_str().unwrap()]);
    assert!(run.code == 2 && run.err.contains("none.csv"), "{run:?}");
}

#[test]
fn every_mistake_of_a_spoilt_list_is_named_with_its_line() {
    let spoilt = std::fs::read(cli::demo("spoilt-list.csv")).unwrap();
    let list = read(&spoilt);
    let named = [
        (6, "decimal comma"),
        (7, "blak"),
        (8, "nothing is said of cavity 5"),
        (10, "kg"),
        (11, "formula"),
        (12, "no cavity is named"),
        (13, "plugged, and a wire is described"),
        (15, "cavity 11 stands in line 14 already"),
        (16, "looks like a date"),
        (17, "is not the label of a cavity"),
        (19, "partner \"13\" of cavity 14 is nowhere"),
        (20, "W316"),
        (21, "unlike the other labels"),
    ];
    let found = problems(&list);
    assert_eq!(found.len(), named.len(), "{found:#?}");
    for ((line, part), problem) in named.into_iter().zip(&found) {
        assert!(problem.starts_with(&format!("{line}: ")) && problem.contains(part), "{problem}");
    }
    // What was understood is right, and the rest of the file is accounted for.
    assert_eq!(list["cavities"].as_array().unwrap().len(), 7);
    assert!(list["assumed"].to_string().contains("Drawn in the workshop"), "{list}");
    assert!(list["skipped"]["cell of column 7 \"Length\""].as_u64().unwrap() > 5, "{list}");
}

proptest! {
    #[test]
    fn no_line_is_dropped_in_silence(
        lines in prop::collection::vec(
            prop::collection::vec(
                prop::sample::select(vec![
                    "", "1", "12", "A7", "plug", "leer", "RD", "rt/ws", "bl", "0.75", "0,75", "18", "18 AWG", "W1", "W1 + W2",
                    "=B2", "#REF!", "1-Feb", "-", "?", "Total", "two words", "\u{202e}x", "🔴", "\"open", "a\"b", ";", "\t",
                ]),
                0..6,
            ),
            0..12,
        ),
        delimiter in prop::sample::select(vec![",", ";", "\t"]),
    ) {
        let mut text = ["pin", "wire", "colour", "size mm2"].join(delimiter) + "\n";
        for line in &lines {
            text.push_str(&(line.join(delimiter) + "\n"));
        }
        let list = repin::exchange::read_table(text.as_bytes(), None);
        let swallowed = text.matches('"').count() > 0;
        let told = |n: u32| {
            list.rows.iter().any(|row| row.line == n)
                || list.problems.iter().any(|problem| problem.line == n)
                || list.assumed.iter().any(|said| said.contains(&format!("line {n} ")))
        };
        for (n, line) in (2..).zip(&lines) {
            let blank = line.iter().all(|cell| cell.trim().is_empty() || matches!(*cell, ";" | "\t"));
            // Cells of other delimiters and quotation marks may run lines together; then the first one tells.
            prop_assert!(blank || swallowed || told(n), "line {n} of {text:?}: {list:?}");
        }
        for problem in &list.problems {
            prop_assert!(!problem.to_string().chars().any(repin::quantity::is_harmful));
        }
    }
}
