//! Bad input: a clear error that names file and place, the exit code, nothing written, nothing
//! lost.

use crate::cli;

use cli::Shop;
use repin::service::{JobAt, OpenJob};

/// A shop with one job.
fn shop() -> Shop {
    let shop = Shop::new();
    shop.new_job("a", "sk-10", "sk-10", &[]);
    shop
}

/// The acts are not understood: exit 2, nothing written, and the error says this.
#[track_caller]
fn not_understood(acts: &str, says: &[&str]) {
    let shop = shop();
    let before = std::fs::read(shop.path("a.job.ron")).unwrap();
    let run = shop.run_with(&["enter", "a"], acts, &[]);
    assert_eq!((run.code, run.out.as_str()), (2, ""), "{run:?}");
    says.iter().for_each(|say| assert!(run.err.contains(say), "{say}: {}", run.err));
    assert!(!run.err.contains(['\u{1b}', '\u{202e}']), "raw control character: {run:?}");
    assert_eq!(std::fs::read(shop.path("a.job.ron")).unwrap(), before);
}

#[test]
fn acts_that_are_not_understood_are_named_with_line_column_field_and_caret() {
    not_understood("PutBack\nTug(at:\"new:1\",hold:true)\n", &["standard input:2:", "hold", "^"]);
    not_understood("Fly(at:\"new:1\")\n", &["standard input:1:", "Fly"]);
    not_understood("Recorded(side:Found,at:\"old1\",holds:Plugged)\n", &[":1:", "full address"]);
    not_understood(
        "Recorded(side:Found,at:\"old:1\u{202e}\",holds:Plugged)\n",
        &["cannot be printed", "<U+202E>"],
    );
    not_understood("Tagged(lead:\"old:1\",tag:\"\\u{1b}[31m\")\n", &["cannot be printed"]);
    not_understood(&format!("{}\n", "[".repeat(100_000)), &[":1:"]);
    not_understood("\u{0}\u{1}\u{2}PutBack", &[":1:"]);
    not_understood(
        "Recorded(side:Found,at:\"old:1\",holds:Wired(wires:[(colour:\"XX\",gauge:\"0.5\")]))",
        &["holds", "XX", "not a colour code"],
    );
    not_understood(
        "Recorded(side:Found,at:\"old:1\",holds:Wired(wires:[(colour:\"RD\",gauge:\"thick\")]))",
        &["thick", "0.75"],
    );
}

/// The act is understood and refused: exit 1, the line is named.
#[track_caller]
fn refused(acts: &str, says: &[&str]) {
    let shop = shop();
    let run = shop.run_with(&["enter", "a"], acts, &[]);
    assert_eq!(run.code, 1, "{run:?}");
    says.iter().for_each(|say| assert!(run.err.contains(say), "{say}: {}", run.err));
}

#[test]
fn acts_that_cannot_be_are_refused_with_what_to_do_instead() {
    refused("Recorded(side:Found,at:\"old:99\",holds:Plugged)", &[":1:", "no cavity 99", "moulded"]);
    refused("Recorded(side:Found,at:\"left:1\",holds:Plugged)", &["no housing left", "old and new"]);
    refused("// a comment\n\nNote(text:\"x\")\nPutBack", &["standard input:4:", "nothing in the hand"]);
    refused("Recorded(side:Found,at:\"old:1\",holds:Wired(wires:[]))", &["no wire", "spare"]);
    let more: String =
        (1..=11).map(|n| format!("Recorded(side:Found,at:\"old:{n}\",holds:Plugged)\n")).collect();
    refused(&more, &[":11:", "no cavity 11"]);
}

#[test]
fn acts_before_a_refusal_stay() {
    let shop = shop();
    let run = shop.run_with(&["enter", "a"], "Note(text:\"one\")\nPutBack\nNote(text:\"two\")", &[]);
    assert_eq!(run.code, 1);
    let text = std::fs::read_to_string(shop.path("a.job.ron")).unwrap();
    assert!(text.contains("\"one\"") && !text.contains("\"two\""));
}

#[test]
fn bom_and_crlf_are_accepted_and_harmful_text_in_notes_is_shown_not_sent() {
    let shop = shop();
    let run = shop.run_with(
        &["enter", "a"],
        "\u{feff}Note(text:\"a \\u{1b}[31m \u{202e}b\")\r\nPhoto(number:\"1\",shows:\"x\")\r\n",
        &[],
    );
    assert_eq!(run.code, 0, "{run:?}");
    let ticket = ["--asset", "x\u{1b}[2J\u{202e}y"];
    shop.new_job("b", "sk-10", "sk-10", &ticket);
    let run = shop.run(&["check", "b"]);
    assert!(run.out.contains("<U+001B>") && run.out.contains("<U+202E>"), "{run:?}");
    assert!(!run.out.contains(['\u{1b}', '\u{202e}']));
}

#[test]
fn files_that_are_no_jobs_are_said_so() {
    let shop = Shop::new();
    std::fs::write(shop.path("empty.job.ron"), "").unwrap();
    std::fs::write(shop.path("binary.job.ron"), [0u8, 159, 146, 150, 10, 255]).unwrap();
    let brackets = vec![b'['; 100 << 20];
    std::fs::write(shop.path("brackets.job.ron"), brackets).unwrap();
    for (job, code) in [("empty", 2), ("binary", 2), ("brackets", 2), ("absent", 2)] {
        let run = shop.run(&["check", job]);
        assert_eq!((run.code, run.out.as_str()), (code, ""), "{run:?}");
        assert!(run.err.contains(&format!("{job}.job.ron")), "{run:?}");
    }
}

#[test]
fn names_that_lead_out_of_the_folder_are_refused() {
    let shop = Shop::new();
    for id in ["..", "a b", "a\u{7}", ".hidden", ""] {
        let run = shop.run(&["new", id, "--old", "sk-10", "--new", "sk-10"]);
        assert_eq!(run.code, 2, "{id:?}: {run:?}");
    }
    assert!(shop.files().is_empty());
    let run = shop.run(&["check", "../x"]);
    assert_eq!(run.code, 2);
}

#[test]
fn a_store_that_is_a_file_and_no_home_folder_are_clear_errors() {
    let shop = Shop::new();
    let file = shop.path("file");
    std::fs::write(&file, "x").unwrap();
    let file = file.to_str().unwrap();
    for args in [
        vec!["new", "a", "--old", "sk-10", "--new", "sk-10", "--store", file],
        vec!["check", "a", "--store", file],
    ] {
        let run = shop.run(&args);
        assert_eq!((run.code, run.out.as_str()), (2, ""), "{run:?}");
        assert!(run.err.contains("file"), "{run:?}");
    }
    let run = shop.run_with(&["check", "a"], "", &[("REPIN_STORE", ""), ("HOME", ""), ("XDG_DATA_HOME", "")]);
    assert_eq!(run.code, 2, "{run:?}");
}

#[test]
fn house_rules_that_cannot_be_read_stop_a_new_job_and_nothing_is_written() {
    let shop = Shop::new();
    for (text, says) in
        [("", ":1:"), ("(format: 1, pauze_h: (8, \"x\"))", "pauze_h"), ("(format: 9)", "newer")]
    {
        std::fs::write(shop.path("house-rules.ron"), text).unwrap();
        let run = shop.run(&["new", "a", "--old", "sk-10", "--new", "sk-10"]);
        assert_eq!(run.code, 2, "{run:?}");
        assert!(run.err.contains("house-rules.ron") && run.err.contains(says), "{run:?}");
    }
    std::fs::remove_file(shop.path("house-rules.ron")).unwrap();
    std::fs::create_dir(shop.path("house-rules.ron")).unwrap();
    assert_eq!(shop.run(&["new", "a", "--old", "sk-10", "--new", "sk-10"]).code, 2);
    assert_eq!(shop.files(), ["house-rules.ron"]);
}

#[test]
fn a_job_is_never_started_over_another_and_unknown_housings_are_said() {
    let shop = shop();
    let before = std::fs::read(shop.path("a.job.ron")).unwrap();
    let run = shop.run(&["new", "a", "--old", "sk-10", "--new", "sk-10"]);
    assert_eq!((run.code, run.err.contains("already")), (2, true), "{run:?}");
    assert_eq!(std::fs::read(shop.path("a.job.ron")).unwrap(), before);
    let run = shop.run(&["new", "b", "--old", "sk-99", "--new", "sk-10"]);
    assert_eq!((run.code, run.err.contains("sk-99")), (2, true), "{run:?}");
    let run = shop.run(&["new", "b", "--old", "sk-10", "--old", "sk-10", "--new", "sk-10"]);
    assert_eq!(run.code, 2, "{run:?}");
    assert!(!shop.files().contains(&"b.job.ron".to_owned()));
}

#[test]
fn a_clock_that_runs_backwards_counts_as_a_pause() {
    let shop = shop();
    let acts = "(at:\"2030-01-01T00:00:00Z\",act:Note(text:\"late\"))\n(at:\"2026-01-01T00:00:00Z\",act:Note(text:\"early\"))";
    assert_eq!(shop.run_with(&["enter", "a"], acts, &[]).code, 0);
    let open = OpenJob::look(&JobAt::file(&shop.path("a.job.ron"))).unwrap();
    assert_eq!(open.job().state().course.notes.len(), 2);
}

#[test]
fn record_files_with_a_cavity_twice_or_a_spoilt_line_are_refused_whole() {
    let shop = Shop::new();
    for (text, says) in [
        ("(format: 1, cavities: [(\"1\", Plugged), (\"1\", Open)])", "stands twice"),
        ("(format: 1, cavities: [(\"1\", Pluged)])", "cavities"),
        ("(format: 1, cavitys: [])", "cavitys"),
        ("", "found.ron"),
    ] {
        let path = shop.path("found.ron");
        std::fs::write(&path, text).unwrap();
        let run =
            shop.run(&["new", "a", "--old", "sk-10", "--new", "sk-10", "--found", path.to_str().unwrap()]);
        assert_eq!((run.code, run.err.contains(says)), (2, true), "{run:?}");
    }
    assert_eq!(shop.files(), ["found.ron"]);
    std::fs::write(
        shop.path("found.ron"),
        "\u{feff}(format: 1,\r\n cavities: [(\"1\", Plugged), (\"2\", Open)])\r\n",
    )
    .unwrap();
    let path = shop.path("found.ron");
    shop.new_job("a", "sk-10", "sk-10", &["--found", path.to_str().unwrap()]);
    assert_eq!(shop.json(&["check", "a"])["plugs"]["found"], 1);
}

#[test]
fn a_screen_without_a_terminal_is_refused_and_wrong_usage_is_told() {
    let shop = shop();
    for args in [vec!["open", "a"], vec![]] {
        let run = shop.run(&args);
        assert_eq!((run.code, run.err.contains("needs a terminal")), (2, true), "{run:?}");
    }
    for args in [vec!["frobnicate"], vec!["check"], vec!["new", "x"], vec!["enter"]] {
        assert_eq!(shop.run(&args).code, 2);
    }
    assert_eq!(shop.run(&["--help"]).code, 0);
}
