//! Tidiness that a reader relies on: the order of the modules, file heads, sizes, no panics in the
//! program, nothing of the file form in the core.

use std::path::{Path, PathBuf};

fn sources() -> Vec<(PathBuf, String)> {
    fn walk(folder: &Path, out: &mut Vec<(PathBuf, String)>) {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                walk(&path, out);
            } else if path.extension().is_some_and(|e| e == "rs") {
                out.push((path.clone(), std::fs::read_to_string(&path).unwrap()));
            }
        }
    }
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut out = Vec::new();
    walk(&root, &mut out);
    // Files of unit tests alone are tests.
    out.retain(|(path, _)| !path.ends_with("properties.rs"));
    out.into_iter().map(|(path, text)| (path.strip_prefix(&root).unwrap().to_owned(), text)).collect()
}

/// The part of a file that is the program: its unit tests are left out.
fn program(text: &str) -> &str {
    text.split("#[cfg(test)]").next().unwrap()
}

/// A module uses only what stands left of it; the last two stand side by side.
const ORDER: [&str; 16] = [
    "quantity",
    "colour",
    "face",
    "shop_rules",
    "catalogue",
    "record",
    "reckoning",
    "supply",
    "job",
    "picture",
    "report",
    "request",
    "exchange",
    "store",
    "screen",
    "cli",
];

fn module_of(path: &Path) -> String {
    let first = path.components().next().unwrap().as_os_str().to_string_lossy().into_owned();
    first.trim_end_matches(".rs").to_owned()
}

#[test]
fn a_module_uses_only_what_stands_left_of_it() {
    let place = |name: &str| ORDER.iter().position(|m| *m == name);
    for (path, text) in sources() {
        let Some(here) = place(&module_of(&path)) else { continue };
        for (n, line) in program(&text).lines().enumerate() {
            if line.trim_start().starts_with("//") {
                continue;
            }
            let mut used: Vec<&str> = line.split("crate::").skip(1).collect();
            // Inside `use crate::{ … }` the modules stand at the start of their lines.
            if line.starts_with("    ") && line.contains("::") && !line.trim_start().starts_with("crate") {
                let word = line.trim_start().split("::").next().unwrap_or_default();
                if line.len() - line.trim_start().len() == 4
                    && text[..].contains("use crate::{")
                    && place(word).is_some()
                {
                    used.push(word);
                }
            }
            for module in used {
                let module = module.split(|c: char| !c.is_alphanumeric() && c != '_').next().unwrap();
                if let Some(there) = place(module) {
                    assert!(
                        there <= here,
                        "{}:{}: {} reaches up to {module}",
                        path.display(),
                        n + 1,
                        ORDER[here]
                    );
                }
            }
        }
    }
}

#[test]
fn below_the_store_nothing_reads_a_clock_a_file_or_the_environment() {
    let banned = [
        "std::fs",
        "std::env",
        "std::io",
        "Timestamp::now",
        "SystemTime",
        "Instant::now",
        "println!",
        "thread",
    ];
    for (path, text) in sources() {
        let module = module_of(&path);
        let shell = ["store", "cli", "main", "lib"].contains(&module.as_str())
            || ["screen/shell.rs", "screen/terminal.rs", "screen/backend.rs"]
                .iter()
                .any(|p| path.ends_with(p));
        if shell {
            continue;
        }
        for word in banned {
            assert!(!program(&text).contains(word), "{} holds {word}", path.display());
        }
    }
}

#[test]
fn core_types_do_not_know_how_they_are_written() {
    for (path, text) in sources() {
        if [
            "job",
            "reckoning",
            "supply",
            "report",
            "record",
            "face",
            "shop_rules",
            "colour",
            "quantity",
            "picture",
        ]
        .contains(&module_of(&path).as_str())
        {
            assert!(!program(&text).contains("serde"), "{} derives a file form", path.display());
        }
    }
}

#[test]
fn every_file_says_what_it_is_for_and_stays_small() {
    for (path, text) in sources() {
        assert!(text.starts_with("//! "), "{} does not open with what it is for", path.display());
        let lines = program(&text).lines().count();
        assert!(lines <= 450, "{} has {lines} lines", path.display());
        let spoilt = text.lines().position(|line| line.contains('\t') || line.ends_with(' '));
        assert_eq!(spoilt, None, "{}: tab or trailing blank", path.display());
    }
}

#[test]
fn the_program_has_no_panic_on_input() {
    for (path, text) in sources() {
        for word in
            [".unwrap()", ".expect(", "panic!(", "todo!(", "unimplemented!(", "unreachable!(", "unsafe "]
        {
            assert!(!program(&text).contains(word), "{} holds {word}", path.display());
        }
    }
}

/// A day in the demo that passes would fail the tests, and the demo, on that day.
#[test]
fn no_day_in_the_demo_runs_out() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-data");
    for file in std::fs::read_dir(folder).unwrap() {
        let path = file.unwrap().path();
        let text = std::fs::read_to_string(&path).unwrap();
        for (_, rest) in text.match_indices("until").map(|(at, _)| text.split_at(at)) {
            let day = rest.split('"').nth(1).unwrap_or_default();
            let year: Option<u32> = day.get(..4).and_then(|year| year.parse().ok());
            assert!(year.is_none_or(|year| year >= 2090), "{}: until {day}", path.display());
        }
    }
}
