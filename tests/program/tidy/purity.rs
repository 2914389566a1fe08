//! Below the store nothing reads a clock, a file, the environment or chance; outside the screen
//! nothing knows the terminal.

use super::{
    finding::Target,
    order::is_left_of,
    reading::{House, How},
};

/// What the core never uses, and all below it. Where the last two segments stand in a path, it is
/// that too, whatever crate it came through.
const BANNED: &[&str] = &[
    "std::env",
    "std::fs",
    "std::io",
    "std::net",
    "std::os",
    "std::process",
    "std::thread",
    "std::thread_local",
    "std::time::Instant",
    "std::time::SystemTime",
    "std::time::UNIX_EPOCH",
    "std::hash::RandomState",
    "std::print",
    "std::println",
    "std::eprint",
    "std::eprintln",
    "std::dbg",
    "jiff::Timestamp::now",
    "jiff::Zoned::now",
    "jiff::tz::TimeZone::system",
    "jiff::tz::TimeZone::try_system",
    "crossterm",
    "dirs",
    "gethostname",
    "getrandom",
    "rustix",
    "signal_hook",
    "tempfile",
];

/// Macros that every file has without naming them.
const MACROS: &[&str] = &["print", "println", "eprint", "eprintln", "dbg", "thread_local"];

/// The modules that work with the world.
const SHELL: &[&str] = &["store", "cli", "main"];

/// The files of the screen that do.
const SHELL_OF_SCREEN: &[&str] = &["screen/shell.rs", "screen/terminal.rs", "screen/backend.rs"];

/// What else of the screen may be named there: keys as values, not the terminal they come from.
const KEYS: &[&str] = &[
    "crossterm::event::KeyCode",
    "crossterm::event::KeyEvent",
    "crossterm::event::KeyEventKind",
    "crossterm::event::KeyModifiers",
];

/// What only the screen knows.
const OF_THE_TERMINAL: &[&str] = &["ratatui", "crossterm"];

/// How a path that is named meets one of a list.
fn meets(path: &[String], how: &How, list: &[&'static str]) -> Option<&'static str> {
    list.iter().copied().find(|banned| {
        let banned: Vec<&str> = banned.split("::").collect();
        let start = banned.len().min(path.len());
        let agree = path.iter().zip(&banned).all(|(a, b)| a == b);
        // A glob over what holds it takes it in.
        let is_below = agree && (start == banned.len() || matches!(how, How::Glob { .. }));
        let tail = banned.get(banned.len().saturating_sub(2)..).filter(|_| banned[0] == "jiff");
        is_below || tail.is_some_and(|tail| path.windows(tail.len()).any(|part| part == tail))
    })
}

/// Every use of something in a list by a file that is not allowed to.
fn uses(
    house: &House,
    list: &[&'static str],
    macros: &[&'static str],
    may: impl Fn(&str, &str, &[String]) -> bool,
) -> Vec<String> {
    let mut wrong = Vec::new();
    for (here, module, seen, roots) in house.paths() {
        let own = here.get(1).map_or("lib", String::as_str);
        for root in roots {
            for target in house.follow(&root) {
                let Target::Outside(path) = target else { continue };
                // A lone word that is no import may be a variable.
                let is_named = path.len() > 1 || seen.rooted || !matches!(seen.how, How::Plain | How::Macro);
                let plain_macro = (seen.how == How::Macro && path.len() == 1)
                    .then(|| macros.iter().copied().find(|word| path[0] == *word))
                    .flatten();
                let met = is_named.then(|| meets(&path, &seen.how, list)).flatten().or(plain_macro);
                if let Some(met) = met
                    && !may(own, &module.file, &path)
                {
                    wrong.push(format!("{}:{}: uses {met}", module.file, seen.line));
                }
            }
        }
    }
    wrong.sort();
    wrong.dedup();
    wrong
}

fn touches_the_world(house: &House) -> Vec<String> {
    uses(house, BANNED, MACROS, |module, file, path| {
        let is_key = module == "screen" && meets(path, &How::Plain, KEYS).is_some();
        SHELL.contains(&module) || SHELL_OF_SCREEN.contains(&file) || is_key
    })
}

fn knows_the_terminal(house: &House) -> Vec<String> {
    uses(house, OF_THE_TERMINAL, &[], |module, _, _| module == "screen")
}

#[test]
fn below_the_store_nothing_touches_the_world() {
    assert!(SHELL.iter().all(|module| !is_left_of(module, "store")));
    let wrong = touches_the_world(super::house());
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn outside_the_screen_nothing_knows_the_terminal() {
    let wrong = knows_the_terminal(super::house());
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_file_that_may_touch_the_world_is_there() {
    for file in SHELL_OF_SCREEN {
        assert!(super::house().modules.values().any(|module| module.file == *file), "{file} is gone");
    }
}

#[test]
fn every_spelling_of_a_use_of_the_world_is_caught() {
    for text in [
        "use std::fs;",
        "use std::fs as disk;",
        "use std::fs::File;",
        "use ::std::fs;",
        "use std::{fmt, fs};",
        "use std::{collections::BTreeMap, io::{self, Write as W}};",
        "use std::{self as s}; fn f() { s::fs::read(p) }",
        "use std as s; fn f() { s::env::var(p) }",
        "extern crate std as s; fn f() { s::env::var(p) }",
        "use std::*;",
        "use std::time::*;",
        "use std::{time::{Duration, Instant}};",
        "use std::time; fn f() { time::Instant::now() }",
        "use std::time as t; fn f(at: t::SystemTime) {}",
        "const T: std::time::SystemTime = std::time::UNIX_EPOCH;",
        "fn f() { std::env::var(\"X\") }",
        "fn f() { ::std::thread::spawn(g) }",
        "fn f() -> std::io::Result<()> { g() }",
        "fn f(e: Box<dyn From<std::io::Error>>) {}",
        "fn f() { <std::fs::File>::open(p) }",
        "fn f() { format!(\"{:?}\", std::process::id()) }",
        "fn f() { vec![std::net::TcpStream::connect(a)] }",
        "fn f() { use std::thread; }",
        "mod inner { use std::io; }",
        "use jiff::Timestamp; fn f() { Timestamp::now() }",
        "use jiff::Timestamp as T; fn f() { T::now() }",
        "use jiff::{Timestamp as T}; fn f() { <T>::now() }",
        "use jiff::{Timestamp}; fn f() { g.unwrap_or_else(Timestamp::now) }",
        "type T = jiff::Timestamp; fn f() { T::now() }",
        "use jiff::*;",
        "fn f() { jiff::Zoned::now() }",
        "fn f() { format!(\"{}\", jiff::Timestamp::now()) }",
        "use other::Timestamp; fn f() { Timestamp::now() }",
        "fn f() { println!() }",
        "fn f() { eprintln!(\"{x}\") }",
        "fn f() { dbg!(x) }",
        "fn f() { std::println!() }",
        "use std::println as say; fn f() { say!() }",
        "fn f() { vec![dbg!(x)] }",
        "macro_rules! m { () => { print!(\"x\") } }",
        "macro_rules! m { () => { use std::{fmt, fs}; } }",
        "thread_local! { static X: u8 = 1 }",
        "use getrandom;",
        "fn f() { getrandom::fill(b) }",
        "use tempfile::NamedTempFile;",
        "fn f() { dirs::data_dir() }",
        "fn f() { gethostname::gethostname() }",
        "use crossterm::event::KeyEvent;",
        "use rustix::{fs::open};",
        "use signal_hook as hook;",
        "#[serde(with = \"std::env\")] struct S;",
        "use super::doors::disk; fn f() { disk::read(p) }",
        "use super::doors::*; fn f() { disk::read(p) }",
    ] {
        let files = [
            ("swap/mod.rs", ""),
            ("swap/x.rs", text),
            ("swap/doors.rs", "#[cfg(unix)] pub use std::fs as disk;"),
        ];
        let wrong = touches_the_world(&House::read(files));
        assert!(
            wrong.iter().any(|wrong| wrong.starts_with("swap/x.rs:1: ")),
            "not caught: {text}: {wrong:?}"
        );
    }
}

#[test]
fn what_is_a_value_alone_is_free() {
    for text in [
        "use std::{fmt, str::FromStr, time::Duration};",
        "use std::time; fn f(d: time::Duration) {}",
        "use jiff::Timestamp; fn f(now: Timestamp) -> Timestamp { Timestamp::UNIX_EPOCH }",
        "fn f(dirs: u8, io: u8) -> u8 { dirs + io }",
        "fn f() { fs::read(p) } mod fs { pub fn read(_: u8) {} }",
        "fn f() { x.now(); x.println() }",
        "// std::fs and println!\n/// [`std::fs`]\nstruct S;",
        "const S: &str = \"std::fs println!\";",
        "fn f() { write!(out, \"{}\", env) }",
        "fn f() { assert!(a != b, \"{}\", print != c) }",
        "#[cfg(test)] mod tests { use std::fs; fn f() { println!() } }",
        "fn f() { include_str!(\"x\"); env!(\"CARGO_PKG_VERSION\") }",
    ] {
        assert_eq!(touches_the_world(&House::read([("swap/x.rs", text)])), [""; 0], "{text}");
    }
}

#[test]
fn the_shell_may_and_the_rest_of_the_screen_may_only_name_keys() {
    let of = |file, text| touches_the_world(&House::read([(file, text)]));
    for file in
        ["store/x.rs", "cli/x.rs", "main.rs", "screen/shell.rs", "screen/terminal.rs", "screen/backend.rs"]
    {
        assert_eq!(of(file, "use std::fs; use crossterm::terminal;"), [""; 0], "{file}");
    }
    assert_eq!(of("screen/x.rs", "use crossterm::event::{KeyCode, KeyEvent as E};"), [""; 0]);
    for text in
        ["use crossterm::event;", "use crossterm::event::*;", "use crossterm::event::{KeyCode, read};"]
    {
        assert!(!of("screen/x.rs", text).is_empty(), "{text}");
    }
    assert!(!of("screen/ask/shell.rs", "use std::fs;").is_empty());
    assert!(!of("lib.rs", "use std::fs;").is_empty());
}

#[test]
fn a_use_of_the_terminal_outside_the_screen_is_caught() {
    for file in ["cli/x.rs", "store/mod.rs", "main.rs", "lib.rs"] {
        for text in ["use ratatui::text::Line;", "use ::crossterm as c;", "fn f() { vec![ratatui::init()] }"]
        {
            assert!(!knows_the_terminal(&House::read([(file, text)])).is_empty(), "{file}: {text}");
        }
    }
    assert_eq!(knows_the_terminal(&House::read([("screen/x.rs", "use ratatui::text::Line;")])), [""; 0]);
}
