//! A module uses only what stands left of it.

use super::reading::{House, How};

/// The order of the modules.
const ORDER: &[&str] = &[
    "quantity",
    "colour",
    "face",
    "shop_rules",
    "catalogue",
    "record",
    "reckoning",
    "supply",
    "job",
    "procedure",
    "picture",
    "drill",
    "report",
    "exchange",
    "form",
    "store",
    "service",
    "screen",
    "cli",
];

/// Whether a module is one of those that stand left of another.
pub fn is_left_of(module: &str, other: &str) -> bool {
    let place = |name: &str| ORDER.iter().position(|module| *module == name);
    place(module) < place(other) && place(module).is_some()
}

/// Every use of what stands to the right.
fn reaches_up(house: &House, order: &[&str]) -> Vec<String> {
    let mut wrong = Vec::new();
    for (here, module, seen, roots) in house.paths() {
        let Some(own) = here.get(1).filter(|own| *own != "main") else { continue };
        let Some(place) = order.iter().position(|module| module == own) else {
            wrong.push(format!("{}: {own} has no place in the order of modules", module.file));
            continue;
        };
        for root in roots.iter().filter(|root| root.first().is_some_and(|first| first == "crate")) {
            let name = root.get(1).map(String::as_str);
            // What the root itself gives on is taken from where it stands.
            let is_module =
                |name: &str| house.modules.contains_key(&["crate".to_owned(), name.to_owned()][..]);
            let why = match name {
                None if matches!(seen.how, How::Glob { .. }) => "takes in everything".to_owned(),
                None => continue,
                Some(name) => match order.iter().position(|module| *module == name) {
                    Some(there) if there <= place => continue,
                    Some(_) => format!("reaches up to {name}"),
                    None if is_module(name) => format!("uses {name}, which has no place in the order"),
                    None => format!("takes {name} from the root: name the module it stands in"),
                },
            };
            wrong.push(format!("{}:{}: {own} {why}", module.file, seen.line));
        }
    }
    wrong.sort();
    wrong.dedup();
    wrong
}

#[test]
fn a_module_uses_only_what_stands_left_of_it() {
    let wrong = reaches_up(super::house(), ORDER);
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_program_read_from_right_to_left_is_wrong() {
    let reversed: Vec<&str> = ORDER.iter().rev().copied().collect();
    assert!(reaches_up(super::house(), &reversed).len() > ORDER.len());
}

/// What is wrong in modules `left`, `mid` and `right`, of which one has a file more.
fn wrong_in(file: &str, text: &str) -> Vec<String> {
    let files = [
        ("lib.rs", "pub mod left; pub mod mid; pub mod right;"),
        ("right/mod.rs", "pub mod deep; pub struct R;"),
    ];
    reaches_up(&House::read(files.into_iter().chain([(file, text)])), &["left", "mid", "right"])
}

#[test]
fn every_spelling_of_a_use_of_the_right_is_caught() {
    for text in [
        "use crate::right;",
        "use crate::right::R;",
        "pub use crate::right::R;",
        "pub(crate) use crate::right::R as L;",
        "use crate::{left::L, right::R};",
        "use crate::{\n    left::{A, b::{C, D as E}},\n    right::{deep::{X, Y as Z}},\n};",
        "use crate::{self as root}; fn f() { root::right::g() }",
        "use crate as root; use root::right::R;",
        "use crate::right::*;",
        "use crate::*;",
        "use super::right::R;",
        "use super::{left, right as other};",
        "use self::super::right::R;",
        "fn f() { use crate::right::R; }",
        "fn f() -> u8 { crate::right::g() }",
        "fn f() -> u8 { <crate::right::R>::g() }",
        "fn f() -> u8 { <u8 as crate::right::R>::g() }",
        "fn f(r: &[Option<crate::right::R>]) {}",
        "fn f<T: crate::right::R>() {}",
        "impl crate::right::R for u8 {}",
        "fn f(x: u8) -> bool { match x { crate::right::R => true, _ => false } }",
        "fn f(x: S) { let crate::right::R { y } = x; }",
        "const N: u8 = super::right::N;",
        "#[derive(crate::right::R)] struct S;",
        "struct S { #[serde(with = \"crate::right\")] f: u8 }",
        "struct S { #[serde(with = \"crate::right::deep\", default)] f: u8 }",
        "struct S { #[serde(bound = \"T: crate::right::R\")] f: u8 }",
        "#[cfg_attr(unix, serde(remote = \"super::right::R\"))] struct S;",
        "#[serde(crate::right::R)] struct S;",
        "fn f() { crate::right::shout!() }",
        "fn f() { format!(\"{}\", crate::right::g()) }",
        "fn f() { format!(\"{}\", [1, (super::right::g)()]) }",
        "fn f() { vec![vec![<crate::right::R>::g()]] }",
        "macro_rules! m { ($x:ident) => { $crate::right::g($x) } }",
        "macro_rules! m { () => { use $crate::{left::L, right::{R}}; } }",
        "macro_rules! m { ($x:ident) => { use crate::{right::$x}; } }",
        "m! { use crate::{left, right::*}; }",
        "m! { use crate as root; root::right::g() }",
        "mod inner { use super::super::right::R; }",
        "mod inner { mod inmost { fn f() { super::super::super::right::g() } } }",
        "mod inner { use super::*; fn f() { right::g() } } use crate::right;",
        "#[cfg(unix)] use crate::right::R;",
        "#[cfg(any(test, unix))] use crate::right::R;",
        "#[cfg(not(test))] use crate::right::R;",
        "type T = crate::right::R;",
        "fn f() { let g = || async { crate::right::g() }; }",
        "fn f() { crate::right::g::<u8>() }",
        "use crate::{left::L, r#right::R};",
    ] {
        assert!(!wrong_in("mid.rs", text).is_empty(), "not caught: {text}");
    }
    for (file, text) in [
        ("mid/deep/mod.rs", "use super::super::right::R;"),
        ("mid/deep/file.rs", "use super::super::super::right::R;"),
        ("mid/deep/file.rs", "fn f() { vec![super::super::super::right::R] }"),
        ("mid/deep/file.rs", "use super::super::super::{left, right::{R as L}};"),
    ] {
        assert!(!wrong_in(file, text).is_empty(), "not caught: {text}");
    }
}

#[test]
fn what_stands_left_is_free_and_so_is_what_is_only_said_or_tested() {
    for text in [
        "use crate::left::L;",
        "use crate::{left::{A, b::*}, mid::M};",
        "use super::left; use self::own::O;",
        "pub(crate) fn f() {} pub(in crate::mid) fn g() {}",
        "/// See [`crate::right::R`].\nstruct S;",
        "// crate::right::R",
        "#[cfg(test)] use crate::right::R;",
        "#[cfg(all(test, unix))] mod tests { use crate::right::R; }",
        "#[cfg(test)]\nmod tests { fn f() { crate::right::g() } }",
        "struct S { #[cfg(test)] f: crate::right::R }",
        "impl S { #[cfg(test)] fn f() { crate::right::g() } }",
        "#[test] fn f() { crate::right::g() }",
        "const S: &str = \"crate::right::R\";",
        "fn f(right: u8) -> u8 { right }",
        "fn f() { println!(\"crate::right::R\") }",
        "fn f() { right::g() } mod right { pub fn g() {} }",
        "fn f() { Side::right(x.right) } enum Side {}",
        "use other::right::R; fn f() { ::right::g() }",
    ] {
        assert_eq!(wrong_in("mid.rs", text), [""; 0], "{text}");
    }
    assert_eq!(wrong_in("mid/deep/file.rs", "use super::right::R; use super::super::right::R;"), [""; 0]);
}

#[test]
fn a_file_of_tests_alone_is_left_out_with_all_below_it() {
    let files = [
        ("mid/mod.rs", "#[cfg(test)] mod trials; mod real;"),
        ("mid/trials.rs", "use crate::right::R;"),
        ("mid/trials/more.rs", "use crate::right::R;"),
        ("mid/real.rs", "use crate::right::R;"),
    ];
    let house = House::read(files);
    assert_eq!(reaches_up(&house, &["mid", "right"]), ["mid/real.rs:1: mid reaches up to right"]);
    assert!(house.is_of_tests_alone("mid/trials/more.rs"));
    assert!(!house.is_of_tests_alone("mid/real.rs"));
}

#[test]
fn a_module_without_a_place_is_told_and_so_is_the_line_of_a_fault() {
    assert_eq!(
        wrong_in("new.rs", "use crate::left::L;"),
        ["new.rs: new has no place in the order of modules"]
    );
    assert_eq!(
        wrong_in("mid.rs", "use crate::{\n    left,\n    right,\n};\nuse crate::lost::L;"),
        [
            "mid.rs:3: mid reaches up to right",
            "mid.rs:5: mid takes lost from the root: name the module it stands in"
        ]
    );
}
