//! What `repin housing show --json` says, for tests that hold it against published drawings.

use std::{collections::BTreeMap, process::Command};

use serde_json::Value;

/// A cavity as shown.
#[derive(Debug, Clone, PartialEq)]
pub struct Shown {
    pub row: Option<u64>,
    pub column: Option<u64>,
    pub x: f64,
    pub y: f64,
}

/// The cavities by label.
pub type Face = BTreeMap<String, Shown>;

/// The document `housing show` prints.
pub fn document(arguments: &[&str]) -> Value {
    let out = Command::new(env!("CARGO_BIN_EXE_repin"))
        .args(["housing", "show", "--json"])
        .args(arguments)
        .output()
        .unwrap();
    assert!(out.status.success(), "{}", String::from_utf8_lossy(&out.stderr));
    serde_json::from_slice(&out.stdout).unwrap()
}

/// The cavities of a housing as shown.
pub fn face(arguments: &[&str]) -> Face {
    let document = document(arguments);
    let cavity = |c: &Value| {
        let shown = Shown {
            row: c["row"].as_u64(),
            column: c["column"].as_u64(),
            x: c["x_mm"].as_f64().unwrap(),
            y: c["y_mm"].as_f64().unwrap(),
        };
        (c["label"].as_str().unwrap().to_owned(), shown)
    };
    document["cavities"].as_array().unwrap().iter().map(cavity).collect()
}

/// The rows of a face, top to bottom, each from left to right.
pub fn rows(face: &Face) -> Vec<Vec<&str>> {
    let mut rows: BTreeMap<u64, BTreeMap<u64, &str>> = BTreeMap::new();
    for (label, shown) in face {
        rows.entry(shown.row.unwrap()).or_default().insert(shown.column.unwrap(), label);
    }
    rows.into_values().map(|row| row.into_values().collect()).collect()
}

/// Fails unless a cavity is where it should be, within a thousandth of a millimetre.
#[track_caller]
pub fn assert_at(face: &Face, label: &str, x: f64, y: f64) {
    let shown = &face[label];
    assert!(
        (shown.x - x).abs() < 1e-3 && (shown.y - y).abs() < 1e-3,
        "{label} is at {}, {} and should be at {x}, {y}",
        shown.x,
        shown.y
    );
}
