//! What a person is to reach stands in the table that leads there: a page that Tab never comes to, or a
//! thing that is in no menu, compiles and is never seen.

use std::path::Path;

/// The variants of an enum of the program.
fn variants(file: &str, name: &str) -> Vec<String> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("src").join(file);
    let parsed = syn::parse_file(&std::fs::read_to_string(path).unwrap()).unwrap();
    let found = parsed.items.iter().find_map(|item| match item {
        syn::Item::Enum(item) if item.ident == name => Some(item),
        _ => None,
    });
    let variants = &found.unwrap_or_else(|| panic!("{file} has no enum {name}")).variants;
    variants.iter().map(|variant| variant.ident.to_string()).collect()
}

/// What of `variants` a table does not name.
#[track_caller]
fn check_each_is_in(variants: &[String], table: &[String]) {
    assert!(!variants.is_empty());
    let missing: Vec<_> = variants.iter().filter(|variant| !table.contains(variant)).collect();
    assert!(missing.is_empty(), "in no table: {missing:?}");
}

#[test]
fn every_page_is_reached_by_tab() {
    let pages: Vec<String> =
        repin::screen::state::PAGES.iter().map(|(page, _)| format!("{page:?}")).collect();
    check_each_is_in(&variants("screen/state.rs", "Page"), &pages);
}

#[test]
fn every_other_thing_stands_in_the_menu() {
    let things: Vec<String> =
        repin::screen::menu::OTHERS.iter().map(|(thing, ..)| format!("{thing:?}")).collect();
    check_each_is_in(&variants("procedure/topic.rs", "OtherThing"), &things);
}
