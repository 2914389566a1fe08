//! No function is longer than a screen.

use std::collections::BTreeSet;

use super::reading::House;

/// The most lines of a function, from its first to its last.
const MOST: usize = 60;

/// Tables: one match with a short arm for every variant. Parting one would hide the variant that is missing.
const TABLES: &[&str] = &[
    "job/act/table.rs row",
    "job/alarm.rs alarm",
    "job/apply/mod.rs fold",
    "job/check/every_act.rs check_words",
    "job/check/mod.rs check",
    "job/flags/passed.rs mended_by",
    "report/acts.rs told_plainly",
];

/// The functions that are longer. The list is to become empty: who mends one takes it out.
const KNOWN_LONG: &[&str] = &["job/steps.rs add_moves"];

/// Functions that are too long, with their lines.
fn long(house: &House) -> Vec<(String, usize)> {
    let of_file = house.modules.values().flat_map(|module| {
        let too_long = module.functions.iter().filter(|function| function.lines > MOST);
        too_long.map(|function| (format!("{} {}", module.file, function.name), function.lines))
    });
    of_file.collect()
}

#[test]
fn no_function_that_is_not_known_is_over_sixty_lines() {
    let long = long(super::house());
    let found: BTreeSet<&str> = long.iter().map(|(function, _)| function.as_str()).collect();
    let known: BTreeSet<&str> = KNOWN_LONG.iter().chain(TABLES).copied().collect();
    let new: Vec<_> = long.iter().filter(|(function, _)| !known.contains(function.as_str())).collect();
    let gone: Vec<_> = known.difference(&found).collect();
    assert!(new.is_empty() && gone.is_empty(), "too long: {new:?}\nknown, but no longer there: {gone:?}");
}

#[test]
fn a_long_function_is_caught_wherever_it_stands() {
    let body = "    x();\n".repeat(59);
    for text in [
        format!("fn f() {{\n{body}}}"),
        format!("/// Why.\n#[inline]\npub fn f(\n    x: u8) {{\n{body}}}"),
        format!("impl S {{\n    pub(super) const fn f() {{\n{body}    }}\n}}"),
        format!("trait T {{\n    fn f() {{\n{body}    }}\n}}"),
        format!("mod inner {{\n    fn f() {{\n{body}    }}\n}}"),
        format!("fn g() {{ fn f() {{\n{body} }} }}"),
        format!("macro_rules! m {{ () => {{ fn f() -> [u8; 2] {{\n{body} }} }} }}"),
    ] {
        let found = long(&House::read([("m.rs", text.as_str())]));
        assert!(found.iter().any(|(name, lines)| name == "m.rs f" && *lines > 60), "{found:?}: {text}");
    }
}

#[test]
fn a_function_of_sixty_lines_and_one_for_tests_are_free() {
    let body = "    x();\n".repeat(58);
    let long_body = "    x();\n".repeat(70);
    for text in [
        format!("/// Why.\n#[inline]\nfn f() {{\n{body}}}"),
        format!("#[cfg(test)]\nfn f() {{\n{long_body}}}"),
        format!("#[test]\nfn f() {{\n{long_body}}}"),
        format!("#[cfg(test)]\nmod tests {{\nfn f() {{\n{long_body}}}\n}}"),
        format!("impl S {{\n    #[cfg(test)]\n    fn f() {{\n{long_body}}}\n}}"),
        format!("const S: &str = \"{long_body}\";"),
    ] {
        assert_eq!(long(&House::read([("m.rs", text.as_str())])), [], "{text}");
    }
}
