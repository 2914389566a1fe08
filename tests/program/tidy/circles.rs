//! Files of a module that use each other in a circle.

use std::collections::{BTreeMap, BTreeSet};

use super::{
    finding::Target,
    reading::{House, How, ModulePath, Seen},
};

/// The circles there are. The list is to become empty: who mends one takes it out.
const KNOWN_CIRCLES: &[&[&str]] = &[];

/// How many uses of one file by another are told.
const SHOWN: usize = 3;

/// Arrows from a file to those it uses, each with the places where it does.
type Arrows = BTreeMap<String, BTreeMap<String, BTreeSet<String>>>;

fn top(file: &str) -> &str {
    file.split('/').next().unwrap_or_default().trim_end_matches(".rs")
}

/// The files a path leads to from here. Who gives on what a file below it has does not use it, and
/// who takes something through a folder uses the file that defines it.
fn files_of(house: &House, here: &ModulePath, seen: &Seen, root: &[String]) -> Vec<String> {
    let is_below = root.len() > here.len() && root.starts_with(here);
    match seen.how {
        How::Import { public: true, .. } | How::Glob { public: true } if is_below => return Vec::new(),
        How::Import { .. } | How::Glob { .. } | How::TypeAlias { .. } | How::Macro | How::Plain => {}
    }
    let file = |target| match target {
        Target::File(file) => Some(file),
        // Of what is above, the names that are used say where they come from.
        Target::Module(path) if matches!(seen.how, How::Glob { .. }) && !here.starts_with(&path) => {
            house.modules.get(&path).map(|module| module.file.clone())
        }
        Target::Module(_) | Target::Outside(_) => None,
    };
    house.follow(root).into_iter().filter_map(file).collect()
}

fn arrows(house: &House) -> Arrows {
    let mut arrows = Arrows::new();
    for (here, module, seen, roots) in house.paths() {
        for file in roots.iter().flat_map(|root| files_of(house, here, seen, root)) {
            if file != module.file && top(&file) == top(&module.file) {
                let place = format!("{} (line {})", seen.path.join("::"), seen.line);
                arrows.entry(module.file.clone()).or_default().entry(file).or_default().insert(place);
            }
        }
    }
    arrows
}

/// Everything that can be come to from a file.
fn reached<'a>(arrows: &'a Arrows, from: &str) -> BTreeSet<&'a str> {
    let mut reached = BTreeSet::new();
    let mut open: Vec<&str> = vec![from];
    while let Some(file) = open.pop() {
        let next = arrows.get(file).into_iter().flat_map(BTreeMap::keys);
        open.extend(next.map(String::as_str).filter(|file| reached.insert(*file)).collect::<Vec<_>>());
    }
    reached
}

/// The largest sets of files in which each can be come to from each.
fn circles(arrows: &Arrows) -> BTreeSet<BTreeSet<&str>> {
    let reach: BTreeMap<&str, _> = arrows.keys().map(|file| (file.as_str(), reached(arrows, file))).collect();
    let circle = |file: &str| {
        let back = |other: &&str| reach.get(other).is_some_and(|reached| reached.contains(file));
        reach.get(file).into_iter().flatten().copied().filter(back).collect::<BTreeSet<_>>()
    };
    reach.keys().map(|file| circle(file)).filter(|circle| !circle.is_empty()).collect()
}

/// A circle with the arrows in it, to read.
fn drawn(circle: &BTreeSet<&str>, arrows: &Arrows) -> String {
    let mut out = format!("{circle:?}\n");
    for (from, to) in arrows.iter().filter(|(from, _)| circle.contains(from.as_str())) {
        for (to, places) in to.iter().filter(|(to, _)| circle.contains(to.as_str())) {
            let places: Vec<&str> = places.iter().map(String::as_str).take(SHOWN).collect();
            out += &format!("    {from} -> {to}: {}\n", places.join(", "));
        }
    }
    out
}

#[test]
fn no_files_of_a_module_use_each_other_in_a_circle_that_is_not_known() {
    let arrows = arrows(super::house());
    let found = circles(&arrows);
    let known: BTreeSet<BTreeSet<&str>> =
        KNOWN_CIRCLES.iter().map(|circle| circle.iter().copied().collect()).collect();
    let new: String = found.difference(&known).map(|circle| drawn(circle, &arrows)).collect();
    let gone: Vec<_> = known.difference(&found).collect();
    assert!(new.is_empty() && gone.is_empty(), "new circles:\n{new}\nknown, but no longer there: {gone:?}");
}

/// The circles of invented files, each as a line.
fn circles_in(files: &[(&str, &str)]) -> Vec<String> {
    let house = House::read(files.iter().copied());
    let arrows = arrows(&house);
    let circles = circles(&arrows);
    circles.iter().map(|circle| circle.iter().copied().collect::<Vec<_>>().join(" ")).collect()
}

#[test]
fn every_spelling_of_a_circle_of_two_files_is_caught() {
    for back in [
        "use super::a;  fn f() { a::A }",
        "use super::a::A;",
        "use super::{b, a::A as Other};",
        "use super::A;",
        "use super::*; fn f(a: A) {}",
        "use super::a::*;",
        "use crate::m::A;",
        "use crate::m::a::A;",
        "use crate::{m::{a::A}};",
        "use crate::m as here; fn f() { here::a::A }",
        "fn f() { super::A }",
        "fn f() -> super::a::A { g() }",
        "fn f() { vec![super::a::A] }",
        "use super::*; fn f() { vec![A] }",
        "impl super::A { fn f() {} }",
        "struct S { #[serde(with = \"super::a\")] f: u8, g: super::A }",
        "mod inner { use super::super::A; }",
        "mod inner { use super::*; } use super::A;",
        "pub use super::a::A;",
        "use super::Renamed;",
    ] {
        let files = [
            ("m/mod.rs", "mod a; mod b; pub use a::{A, A as Renamed}; pub use b::B;"),
            ("m/a.rs", "use super::b::B; pub struct A;"),
            ("m/b.rs", &format!("pub struct B; {back}")),
        ];
        assert_eq!(circles_in(&files), ["m/a.rs m/b.rs"], "{back}");
    }
}

#[test]
fn what_a_module_gives_on_makes_no_circle() {
    let given_on = [
        ("m/mod.rs", "mod a; mod b; pub use a::A; pub(crate) use b::{B, make};"),
        ("m/a.rs", "use super::B; pub struct A;"),
        ("m/b.rs", "pub struct B; pub fn make() {} #[cfg(test)] mod tests { use super::super::A; }"),
    ];
    assert_eq!(circles_in(&given_on), [""; 0]);
    let methods_alone = [
        ("m/mod.rs", "mod a; mod b;"),
        ("m/a.rs", "use super::b::B; pub struct A; fn f(b: B) { b.g() }"),
        ("m/b.rs", "pub struct B; impl B { fn h(a: u8) { a.f() } }"),
    ];
    assert_eq!(circles_in(&methods_alone), [""; 0]);
    let modules_of_others = [
        ("m/mod.rs", "pub mod a;"),
        ("n/mod.rs", "pub mod b;"),
        ("m/a.rs", "use crate::n::b::B;"),
        ("n/b.rs", "use crate::m::a::A;"),
    ];
    assert_eq!(circles_in(&modules_of_others), [""; 0]);
}

#[test]
fn what_a_folder_defines_and_its_children_use_makes_a_circle_where_it_uses_them() {
    let child = ("m/a.rs", "use super::M; pub struct A;");
    for text in [
        "mod a; pub struct M; use a::A;",
        "mod a; pub struct M; pub use a::A; fn f(a: A) {}",
        "mod a; pub struct M; fn f() { a::A }",
        "mod a; pub struct M; fn f() { vec![self::a::A] }",
    ] {
        assert_eq!(circles_in(&[("m/mod.rs", text), child]), ["m/a.rs m/mod.rs"], "{text}");
        assert_eq!(circles_in(&[("m.rs", text), child]), ["m.rs m/a.rs"], "{text}");
    }
    assert_eq!(circles_in(&[("m/mod.rs", "mod a; pub struct M; pub use a::A;"), child]), [""; 0]);
    assert_eq!(circles_in(&[("m/mod.rs", "mod a; use a::A;"), ("m/a.rs", "pub struct A;")]), [""; 0]);
}

#[test]
fn circles_are_found_through_folders_and_over_many_files() {
    let files = [
        ("m/mod.rs", "mod a; mod d; pub use d::{D, deep}; pub use a::A;"),
        ("m/a.rs", "use super::D; pub struct A;"),
        ("m/d/mod.rs", "mod e; mod f; pub use e::D; pub fn deep() {}"),
        ("m/d/e.rs", "use super::f::F; pub struct D;"),
        ("m/d/f.rs", "use super::super::A; pub struct F;"),
        ("m/d/g.rs", "use super::{super::A, e::D}; pub struct G;"),
    ];
    assert_eq!(circles_in(&files), ["m/a.rs m/d/e.rs m/d/f.rs"]);
    let two = [
        ("m/mod.rs", "mod a; mod b; mod c; mod d;"),
        ("m/a.rs", "use super::b::B;"),
        ("m/b.rs", "use super::{a::A, c::C};"),
        ("m/c.rs", "use super::d::D;"),
        ("m/d.rs", "use super::c::C;"),
    ];
    assert_eq!(circles_in(&two), ["m/a.rs m/b.rs", "m/c.rs m/d.rs"]);
}
