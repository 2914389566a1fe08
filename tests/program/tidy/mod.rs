//! Tidiness that a reader relies on: the order of the modules (`order`), what touches the world
//! (`purity`), files in a circle (`circles`), long functions (`functions`), what no table leads to
//! (`reached`), file heads, sizes, no panics in the program, nothing of the file form in the core.

use std::{
    path::{Path, PathBuf},
    sync::LazyLock,
};

use self::reading::House;

mod circles;
mod finding;
mod functions;
mod order;
mod purity;
mod reached;
mod reading;
mod tokens;

/// One enum, every field of which says what it tells: it cannot be parted.
const ONE_ENUM: &str = "job/act/mod.rs";

/// Every file below `src`.
fn files() -> Vec<(PathBuf, String)> {
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
    out.into_iter().map(|(path, text)| (path.strip_prefix(&root).unwrap().to_owned(), text)).collect()
}

/// A path as it is named in tests.
fn shown(path: &Path) -> String {
    path.to_string_lossy().replace('\\', "/")
}

/// The program as a parser sees it.
fn house() -> &'static House {
    static HOUSE: LazyLock<House> = LazyLock::new(|| {
        let files: Vec<_> = files().into_iter().map(|(path, text)| (shown(&path), text)).collect();
        House::read(files.iter().map(|(path, text)| (path.as_str(), text.as_str())))
    });
    &HOUSE
}

/// Every file of the program; files of tests alone are left out.
fn sources() -> Vec<(PathBuf, String)> {
    files().into_iter().filter(|(path, _)| !house().is_of_tests_alone(&shown(path))).collect()
}

/// The part of a file that is the program: its unit tests are left out.
fn program(text: &str) -> &str {
    text.split("#[cfg(test)]").next().unwrap()
}

fn module_of(path: &Path) -> String {
    let first = path.components().next().unwrap().as_os_str().to_string_lossy().into_owned();
    first.trim_end_matches(".rs").to_owned()
}

#[test]
fn core_types_do_not_know_how_they_are_written() {
    for (path, text) in sources() {
        // Beside the forms, what is printed as JSON or kept only to be quick says how it is written.
        if ["form", "cli", "store", "service"].contains(&module_of(&path).as_str()) {
            continue;
        }
        assert!(!program(&text).contains("serde"), "{} derives a file form", path.display());
    }
}

#[test]
fn every_file_says_what_it_is_for_and_stays_small() {
    for (path, text) in sources() {
        assert!(text.starts_with("//! "), "{} does not open with what it is for", path.display());
        let lines = program(&text).lines().count();
        assert!(lines <= 450 || shown(&path) == ONE_ENUM, "{} has {lines} lines", path.display());
        let spoilt = text.lines().position(|line| line.contains('\t') || line.ends_with(' '));
        assert_eq!(spoilt, None, "{}: tab or trailing blank", path.display());
    }
}

#[test]
fn the_middle_file_is_at_most_160_lines_long() {
    let mut lines: Vec<usize> = sources().iter().map(|(_, text)| program(text).lines().count()).collect();
    lines.sort_unstable();
    let middle = lines[lines.len() / 2];
    assert!(middle <= 160, "the middle one of {} files has {middle} lines", lines.len());
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
