//! Housings found by what can be seen of them, and housings nobody has a file of, described on the
//! screen.

use crate::cli;

use cli::Shop;
use crossterm::event::{KeyCode, KeyEvent, KeyModifiers};
use ratatui::{buffer::Buffer, layout::Rect};
use repin::{
    catalogue::{Catalogue, FamilyForm},
    screen::{
        Palette, Theme,
        define::{Define, DefineEffect, view_define},
    },
    store::write_family,
};

fn press(define: &mut Define, keys: &str) -> DefineEffect {
    let mut effect = DefineEffect::None;
    for c in keys.chars() {
        let code = match c {
            '\n' => KeyCode::Enter,
            '<' => KeyCode::Esc,
            c => KeyCode::Char(c),
        };
        effect = define.update(KeyEvent::new(code, KeyModifiers::NONE));
    }
    effect
}

fn shown(define: &Define, width: u16, height: u16, theme: Theme) -> String {
    let area = Rect::new(0, 0, width, height);
    let mut buffer = Buffer::empty(area);
    view_define(define, theme, area, &mut buffer);
    let rows = (0..height).map(|y| {
        let row: String = (0..width).map(|x| buffer[(x, y)].symbol()).collect();
        format!("{}\n", row.trim_end())
    });
    rows.collect()
}

const PLAIN: Theme = Theme { palette: Palette::None, ascii: true };

/// A 2 x 12 with rows A and B, counted from the right: every answer in the order asked.
const ANSWERS: &str = "KX-24\n2\n12\nwlatch\n2rA1\nysep-\n-\n1.5\n";

fn described() -> FamilyForm {
    let mut define = Define::new("described at the bench by kt, 2026-11-25".to_owned());
    assert_eq!(press(&mut define, ANSWERS), DefineEffect::None);
    match press(&mut define, "s") {
        DefineEffect::Save(form) => *form,
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_housing_is_drawn_while_it_is_typed() {
    let mut define = Define::new("x".to_owned());
    press(&mut define, "KX-24\n2\n1");
    let one = shown(&define, 80, 24, PLAIN);
    press(&mut define, "2");
    let twelve = shown(&define, 80, 24, PLAIN);
    assert!(one.contains("2 cavities") && twelve.contains("24 cavities"), "{one}\n{twelve}");
    press(&mut define, "\nwlatch\n2rA1\ny");
    insta::assert_snapshot!("defining", shown(&define, 80, 24, PLAIN));
    // Narrower than anything, wider than needed: nothing breaks.
    for (width, height) in [(3, 3), (80, 24), (200, 60)] {
        shown(&define, width, height, Theme { palette: Palette::True, ascii: false });
    }
}

#[test]
fn what_cannot_be_is_said_at_once_and_one_key_goes_back() {
    let mut define = Define::new("x".to_owned());
    press(&mut define, "KX-4\nmany\n");
    assert!(shown(&define, 80, 24, PLAIN).contains("Key a whole number from 1 to 40."));
    press(&mut define, "<2\n2\nw-\n1r1\nsn27\n");
    let said = shown(&define, 80, 24, PLAIN);
    assert!(said.contains("there is no cavity 7"), "{said}");
    press(&mut define, "<3\n-\n-\n");
    assert!(matches!(press(&mut define, "s"), DefineEffect::Save(_)));
    // Back to the start, and out.
    let mut define = Define::new("x".to_owned());
    press(&mut define, "KX-4\n2\n");
    assert_eq!(press(&mut define, "<<<"), DefineEffect::Leave);
}

#[test]
fn a_described_housing_is_a_family_file_that_a_job_can_use_and_is_never_overwritten() {
    let shop = Shop::new();
    let library = shop.path("library");
    let path = write_family(&library, &described()).unwrap();
    let again = write_family(&library, &described()).unwrap_err();
    assert!(again.to_string().contains("there is a family of this name already"), "{again}");
    let run = shop.run(&["housing", "check", path.to_str().unwrap()]);
    assert_eq!(run.code, 0, "{run:?}");
    // The store's own library is found without being named.
    let face = shop.json(&["housing", "show", "kx-24"]);
    assert_eq!(face["cavities"][0]["label"], "A1");
    assert_eq!(face["cavities"][0]["column"], 12);
    shop.new_job("job", "kx-24", "lh-24b", &[]);
    let text = std::fs::read_to_string(&path).unwrap();
    assert!(text.starts_with("// Described at the bench.") && text.contains("line_prefixes"), "{text}");
    let texts = vec![("kx.ron".to_owned(), text)];
    assert!(Catalogue::built_in().with_library(texts).find("KX-24").is_ok());
}

#[test]
fn defining_needs_a_terminal() {
    let run = Shop::new().run(&["housing", "define"]);
    assert!(run.code == 2 && run.err.contains("terminal") && run.out.is_empty(), "{run:?}");
}

#[test]
fn a_housing_is_found_by_what_can_be_seen_of_it() {
    let shop = Shop::new();
    let found = |words: &[&str]| -> Vec<String> {
        let list = shop.json(&[&["housing", "find"], words].concat());
        list.as_array().unwrap().iter().map(|h| h["id"].as_str().unwrap().to_owned()).collect()
    };
    assert_eq!(found(&["24", "2-row", "sealed"]), ["lh-24", "lh-24b"]);
    assert_eq!(found(&["3x6", "black", "2.8", "latch"]), ["as-18", "as-18p"]);
    assert_eq!(found(&["1-row", "C", "sockets", "sealed"]), ["dl-08r"]);
    assert_eq!(found(&["9", "male"]), ["de-9-pin"]);
    assert_eq!(found(&["9", "sockets", "unsealed"]), ["de-9-socket"]);
    assert_eq!(found(&["FW-HSG-12A"]), ["fw-hsg-12a"]);
}
