//! Family files that are not as they should be: every problem of every file, each at its place.

use std::{
    fs,
    path::Path,
    process::{Command, Output},
    time::{Duration, Instant},
};

use tempfile::TempDir;

/// A good family, one field a line, to be spoilt.
const GOOD: &str = r#"(
    format: 1,
    id: "test",
    title: "Test family",
    source: Invented,
    terminals: [
        (
            part: "T-1", size: "1.5", gender: Female, plating: "tin", wire_mm2: (0.5, 1.0),
            insulation_mm: (1.2, 2.1), held_by: Tang, released_from: Front, seating: Push,
        ),
    ],
    plugs: [(part: "T-2", size: "1.5", colour: "white")],
    housings: [
        (
            id: "t-4", part: "T-4", title: "4-way", gender: Female, sealing: Unsealed,
            drawn: Wire, features: [("latch", Top)],
            layout: Grid(rows: 2, columns: 2),
            size: "1.5",
            blocked: ["4"],
        ),
    ],
)
"#;

fn check(folder: &Path, files: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_repin"))
        .args(["housing", "check"])
        .args(files)
        .current_dir(folder)
        .output()
        .unwrap()
}

fn folder(files: &[(&str, &[u8])]) -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    for (name, bytes) in files {
        fs::write(folder.path().join(name), bytes).unwrap();
    }
    folder
}

/// Checks one file and gives what was said on stderr.
#[track_caller]
fn refused(bytes: &[u8]) -> String {
    let folder = folder(&[("f.ron", bytes)]);
    let out = check(folder.path(), &["f.ron"]);
    assert_eq!((out.status.code(), out.stdout.len()), (Some(2), 0), "exit 2 and nothing on stdout");
    String::from_utf8(out.stderr).unwrap()
}

/// A good family with one text replaced.
#[track_caller]
fn spoilt(good: &str, bad: &str) -> String {
    assert_eq!(GOOD.matches(good).count(), 1, "{good}");
    GOOD.replace(good, bad)
}

#[track_caller]
fn check_refused(good: &str, bad: &str, expected: &str) {
    assert_eq!(refused(spoilt(good, bad).as_bytes()), format!("repin: 1 problem\n\n{expected}\n"));
}

#[test]
fn a_good_file_is_called_good_with_byte_order_mark_and_windows_line_ends_too() {
    let windows = format!("\u{feff}{}", GOOD.replace('\n', "\r\n"));
    let folder = folder(&[("unix.ron", GOOD.as_bytes()), ("windows.ron", windows.as_bytes())]);
    let out = check(folder.path(), &["unix.ron", "windows.ron"]);
    assert_eq!(out.status.code(), Some(0));
    assert_eq!(
        String::from_utf8(out.stdout).unwrap(),
        "unix.ron: good, 1 housing\nwindows.ron: good, 1 housing\n"
    );
}

#[test]
fn some_written_out_is_as_good_as_the_bare_value() {
    let folder = folder(&[(
        "f.ron",
        spoilt("size: \"1.5\", colour", "pack: Some(10), size: \"1.5\", colour").as_bytes(),
    )]);
    assert!(check(folder.path(), &["f.ron"]).status.success());
}

#[test]
fn an_unknown_field_is_named_with_the_fields_there_are() {
    check_refused(
        "colour: \"white\"",
        "coulour: \"white\"",
        r#"--> f.ron:12:40 at plugs[0].coulour
  12 |     plugs: [(part: "T-2", size: "1.5", coulour: "white")],
     |                                        ^
  a plug has no field "coulour"
  (fields: part, size, colour, pack; or this file is for a newer repin)"#,
    );
}

#[test]
fn a_missing_field_a_missing_comma_and_an_unknown_word_are_said_in_words() {
    check_refused(
        "(part: \"T-2\", size: \"1.5\", colour: \"white\")",
        "(part: \"T-2\", size: \"1.5\")",
        r#"--> f.ron:12:38 at plugs[0]
  12 |     plugs: [(part: "T-2", size: "1.5")],
     |                                      ^
  a plug needs the field "colour""#,
    );
    check_refused(
        "id: \"test\",",
        "id: \"test\"",
        r#"--> f.ron:4:5
  4 |     title: "Test family",
    |     ^
  a comma is missing before this
  (after the value above)"#,
    );
    check_refused(
        "gender: Female, sealing",
        "gender: Femal, sealing",
        r#"--> f.ron:15:61 at housings[0].gender
  15 |             id: "t-4", part: "T-4", title: "4-way", gender: Femal, sealing: Unsealed,
     |                                                             ^
  "Femal" is not known here
  (allowed: Male, Female; or this file is for a newer repin)"#,
    );
}

#[test]
fn a_label_given_twice_and_a_label_that_is_not_there_are_found() {
    check_refused(
        "Grid(rows: 2, columns: 2)",
        "Grid(rows: 2, columns: 2, numbering: (labels: [\"1\", \"2\", \"2\", \"4\"]))",
        r#"--> f.ron:17:21 at housings[0].layout
  17 |             layout: Grid(rows: 2, columns: 2, numbering: (labels: ["1", "2", "2", "4"])),
     |                     ^
  the label 2 is given to two cavities"#,
    );
    check_refused(
        "blocked: [\"4\"]",
        "blocked: [\"4\", \"5\"]",
        r#"--> f.ron:19:28 at housings[0].blocked[1]
  19 |             blocked: ["4", "5"],
     |                            ^
  there is no cavity 5
  (cavities: 1 to 4, 4 in all)"#,
    );
}

#[test]
fn a_size_without_a_terminal_is_found_where_it_is_written() {
    check_refused(
        "            size: \"1.5\",",
        "            size: \"2.8\",",
        r#"--> f.ron:18:19 at housings[0].size
  18 |             size: "2.8",
     |                   ^
  no terminal of this gender in the family has the size 2.8
  (sizes: 1.5)"#,
    );
}

#[test]
fn control_and_direction_characters_are_refused_and_never_sent_to_the_terminal() {
    check_refused(
        "part: \"T-4\"",
        "part: \"T\u{202e}4\"",
        r#"--> f.ron:15:30 at housings[0].part
  15 |             id: "t-4", part: "T<U+202E>4", title: "4-way", gender: Female, sealing: Unsealed,
     |                              ^
  the part number "T<U+202E>4" holds a character that cannot be printed: type it without"#,
    );
    let label = refused(
        spoilt(
            "Grid(rows: 2, columns: 2)",
            "Grid(rows: 2, columns: 2, numbering: (labels: [\"1\", \"\u{1b}[31m\", \"3\", \"4\"]))",
        )
        .as_bytes(),
    );
    assert!(label.contains("cavity label") && !label.contains('\u{1b}'), "{label}");
}

#[test]
fn all_problems_of_one_file_are_told_in_the_order_of_the_file() {
    let bad = GOOD
        .replace("id: \"test\"", "id: \"Test\"")
        .replace("wire_mm2: (0.5, 1.0)", "wire_mm2: (1.0, 0.5)")
        .replace("(\"latch\", Top)", "(\"top\", Top)");
    assert_eq!(
        refused(bad.as_bytes()),
        r#"repin: 3 problems

--> f.ron:3:9 at id
  3 |     id: "Test",
    |         ^
  the family id "Test" may hold only a to z, 0 to 9 and -

--> f.ron:8:81 at terminals[0].wire_mm2
  8 |             part: "T-1", size: "1.5", gender: Female, plating: "tin", wire_mm2: (1.0, 0.5),
    |                                                                                 ^
  1 to 0.5 is no range
  (two numbers above 0, the lower one first)

--> f.ron:16:37 at housings[0].features[0]
  16 |             drawn: Wire, features: [("top", Top)],
     |                                     ^
  top is a side, not a feature
  (such as latch, key or lock)
"#
    );
}

#[test]
fn problems_of_all_files_are_told_at_once() {
    let folder = folder(&[
        ("a.ron", b""),
        ("b.ron", &[0xff, 0xfe, 0x00, 0x01]),
        ("c.ron", spoilt("format: 1", "format: 2").as_bytes()),
        ("good.ron", GOOD.as_bytes()),
    ]);
    let out = check(folder.path(), &["a.ron", "b.ron", "c.ron", "gone.ron", "good.ron"]);
    assert_eq!((out.status.code(), out.stdout.len()), (Some(2), 0));
    assert_eq!(
        String::from_utf8(out.stderr).unwrap(),
        r#"repin: 4 problems

--> a.ron
  the file is empty
  (a family starts with (format: 1, id: "…", title: "…", source: …)

--> b.ron
  byte 1 is not text: this does not look like a family file
  (a family is written in RON, as UTF-8 text)

--> c.ron:2:13 at format
  2 |     format: 2,
    |             ^
  format 2 is not known
  (format 1 is read; this file is for a newer repin)

--> gone.ron
  gone.ron cannot be read: No such file or directory (os error 2)
"#
    );
}

#[test]
fn brackets_without_end_are_refused_in_a_moment_whatever_their_number() {
    for count in [1_000, 3_000_000, 100_000_000] {
        let started = Instant::now();
        let said = refused(&vec![b'['; count]);
        assert!(said.starts_with("repin: 1 problem\n\n--> f.ron") && said.len() < 2_000, "{said}");
        assert!(started.elapsed() < Duration::from_secs(5), "{count} brackets took {:?}", started.elapsed());
    }
    let nested = format!("(format: 1, id: {}", "(".repeat(1_000_000));
    assert!(refused(nested.as_bytes()).len() < 2_000);
}

#[test]
fn a_housing_with_a_problem_cannot_be_shown_and_other_files_do_not_stand_in_the_way() {
    let folder = folder(&[
        ("good.ron", GOOD.as_bytes()),
        (
            "bad.ron",
            GOOD.replace("t-4", "u-4").replace("T-", "U-").replace("\"test\"", "\"Other\"").as_bytes(),
        ),
    ]);
    let show = |word: &str| {
        let mut command = Command::new(env!("CARGO_BIN_EXE_repin"));
        command.args(["housing", "show", word, "--library"]).arg(folder.path());
        command.output().unwrap()
    };
    assert_eq!(show("T-4").status.code(), Some(0));
    let bad = show("u-4");
    assert_eq!((bad.status.code(), bad.stdout.len()), (Some(2), 0));
    assert!(String::from_utf8_lossy(&bad.stderr).contains("bad.ron:3:9 at id"));
}
