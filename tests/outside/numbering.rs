//! Numbering rules against published ones, with the housings built in and with definitions written
//! here.

use crate::show;

use std::fs;

use show::{assert_at, face, rows};
use tempfile::TempDir;

/// A library with one housing `t` of the layout given.
fn library(layout: &str) -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    let text = format!(
        "(format: 1, id: \"test\", title: \"Test\", source: Invented,
        terminals: [(part: \"T-1\", size: \"1\", gender: Male, plating: \"tin\", wire_mm2: (0.5, 1.0),
            insulation_mm: (1.2, 2.1), held_by: Tang, released_from: Front, seating: Push)],
        housings: [(id: \"t\", part: \"T\", title: \"Test\", gender: Male, sealing: Unsealed, drawn: Mating,
            layout: {layout}, size: \"1\")])"
    );
    fs::write(folder.path().join("test.ron"), text).unwrap();
    folder
}

fn shown(layout: &str, more: &[&str]) -> show::Face {
    let folder = library(layout);
    face(&[&["--library", folder.path().to_str().unwrap(), "t"], more].concat())
}

#[track_caller]
fn check_rows(layout: &str, expected: &[&str]) {
    let face = shown(layout, &[]);
    let found: Vec<String> = rows(&face).iter().map(|row| row.join(" ")).collect();
    assert_eq!(found, expected, "{layout}");
}

/// Source: ISO 15031-3 / SAE J1962 (rows from memory, partly read: "top row, left to right").
#[test]
fn j1962_counts_1_to_8_over_9_to_16_on_the_mating_face_and_backwards_from_behind() {
    let mating = face(&["iso-15031-3-a", "--face", "mating", "--up", "wide"]);
    assert_eq!(rows(&mating)[0].join(" "), "1 2 3 4 5 6 7 8");
    assert_eq!(rows(&mating)[1].join(" "), "9 10 11 12 13 14 15 16");
    let wire = face(&["iso-15031-3-a", "--face", "wire", "--up", "wide"]);
    assert_eq!(rows(&wire)[0].join(" "), "8 7 6 5 4 3 2 1");
    for n in 1..=8 {
        let (upper, lower) = (&mating[&n.to_string()], &mating[&(n + 8).to_string()]);
        assert_eq!(upper.column, lower.column, "{n} and {} are one column", n + 8);
    }
}

/// Source: kicad-footprints 6.0.11 (Debian), DIP-16_W7.62mm (read); dummies.com, "Integrated
/// Circuit (IC) Pinouts" (read): down the left side, up the right.
#[test]
fn dual_in_line_counts_down_one_side_and_up_the_other() {
    let face = face(&["dip-16-outline"]);
    for n in 1..=8_i32 {
        assert_at(&face, &n.to_string(), 0.0, 2.54 * f64::from(n - 1));
        assert_at(&face, &(17 - n).to_string(), 7.62, 2.54 * f64::from(n - 1));
    }
}

/// Source: kicad-footprints 6.0.11 (Debian), IDC-Header_2x08_P2.54mm_Vertical (read).
#[test]
fn a_box_header_has_odd_numbers_in_one_column_and_even_numbers_in_the_other() {
    let face = face(&["box-header-16"]);
    for n in (1..=15_i32).step_by(2) {
        assert_at(&face, &n.to_string(), 0.0, 1.27 * f64::from(n - 1));
        assert_at(&face, &(n + 1).to_string(), 2.54, 1.27 * f64::from(n - 1));
    }
}

/// Source: SCSI-2 draft, table 4, contact set 1, set 2 and cable conductor of the 50-way connector
/// (read for conductors 1 to 38; 40 to 50 computed by the same rule).
#[test]
fn odd_even_and_row_by_row_numbering_meet_as_in_the_scsi_2_table() {
    let zigzag = shown("Grid(rows: 2, columns: 25, numbering: (along: Columns))", &[]);
    let by_row = shown("Grid(rows: 2, columns: 25)", &[]);
    let same_place = |label: u32| {
        let spot = &zigzag[&label.to_string()];
        by_row.iter().find(|(_, s)| (s.x, s.y) == (spot.x, spot.y)).unwrap().0.parse::<u32>().unwrap()
    };
    let table =
        [(1, 1), (2, 26), (3, 2), (4, 27), (25, 13), (26, 38), (30, 40), (40, 45), (49, 25), (50, 50)];
    for (conductor, contact) in table {
        assert_eq!(same_place(conductor), contact, "conductor {conductor}");
    }
    for k in 1..=25 {
        assert_eq!((same_place(2 * k - 1), same_place(2 * k)), (k, 25 + k));
    }
}

/// Source: ISO 10487 (rows from memory): odd numbers in one row, even numbers in the other.
#[test]
fn radio_connectors_pair_odd_and_even_in_one_column() {
    for (housing, letter) in [("iso-10487-a", "A"), ("iso-10487-b", "B")] {
        let face = face(&[housing]);
        for n in [1, 3, 5, 7] {
            let (odd, even) = (&face[&format!("{letter}{n}")], &face[&format!("{letter}{}", n + 1)]);
            assert_eq!((odd.column, odd.row == even.row), (even.column, false), "{letter}{n}");
        }
    }
}

/// Source: ISO 1724, ISO 3732 (six on a ring and the seventh in the centre, from memory), ISO 11446
/// (thirteen contacts, read).
#[test]
fn trailer_sockets_have_their_contacts_and_the_seventh_in_the_centre() {
    for housing in ["iso-1724", "iso-3732"] {
        let face = face(&[housing]);
        assert_eq!(face.len(), 7);
        assert_at(&face, "7", 0.0, 0.0);
    }
    let labels: Vec<String> = face(&["iso-11446"]).into_keys().collect();
    assert_eq!(labels.len(), 13);
    assert!(labels.contains(&"12".to_owned()) && labels.contains(&"13".to_owned()));
}

/// Source: SAE J1939-13, 9-way, A to J without I (from memory).
#[test]
fn letters_can_leave_out_the_letter_i() {
    let layout = "Ring(angles_deg: [0, 45, 90, 135, 180, 225, 270, 315], centre: true, numbering: (first: \"A\", left_out: [\"I\"]))";
    let labels: String = shown(layout, &[]).into_keys().collect();
    assert_eq!(labels, "ABCDEFGHJ");
}

/// Source: common practice, no source.
#[test]
fn rows_may_run_backwards_in_turns_with_letters_round_the_outside_and_be_of_different_length() {
    check_rows("Grid(rows: 2, columns: 3, numbering: (path: Serpentine))", &["1 2 3", "6 5 4"]);
    check_rows("Grid(rows: 3, columns: 3, numbering: (path: Round))", &["1 2 3", "8 9 4", "7 6 5"]);
    check_rows("Grid(rows: 2, columns: 3, numbering: (start: BottomRight))", &["6 5 4", "3 2 1"]);
    check_rows("Grid(rows: 2, columns: 3, left_out: [(2, 3)])", &["1 2 3", "4 5"]);
    check_rows(
        "Grid(rows: 2, columns: 3, numbering: (start: TopRight, line_prefixes: [\"A\", \"B\"]))",
        &["A3 A2 A1", "B3 B2 B1"],
    );
    check_rows("Grid(rows: 1, columns: 3, numbering: (labels: [\"x\", \"7\", \"B2\"]))", &["x 7 B2"]);
    check_rows("Grid(rows: 1, columns: 4, numbering: (first: \"5\", left_out: [\"7\"]))", &["5 6 8 9"]);
    check_rows(
        "Groups(groups: [(prefix: \"A\", at: (0, 0), layout: Grid(rows: 1, columns: 2)),
            (prefix: \"B\", at: (0, 3), layout: Grid(rows: 1, columns: 3))])",
        &["A1 A2", "B1 B2 B3"],
    );
}

/// Source: computed: a quarter turn of a face.
#[test]
fn a_staggered_face_turned_by_a_quarter_has_columns_where_it_had_rows() {
    let turned = face(&["de-9-pin", "--up", "left"]);
    let column = |n: u64| {
        let mut labels: Vec<(u64, &str)> = turned
            .iter()
            .filter(|(_, s)| s.column == Some(n))
            .map(|(label, s)| (s.row.unwrap(), label.as_str()))
            .collect();
        labels.sort_unstable();
        labels.into_iter().map(|(_, label)| label).collect::<String>()
    };
    assert_eq!([column(1), column(2)], ["6789", "12345"]);
}
