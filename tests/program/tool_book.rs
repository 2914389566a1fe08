//! The shop's tool book beside the jobs: what it says is looked up when a crimp is entered, and kept
//! with it.

use crate::cli;

use cli::{Shop, demo};

/// The power connector with the lead of 3 in the hand, its new terminal planned.
fn in_hand(book: Option<&str>) -> Shop {
    let shop = Shop::new();
    if let Some(book) = book {
        std::fs::create_dir(shop.path("tools")).unwrap();
        std::fs::write(shop.path("tools").join("bench-1.ron"), book).unwrap();
    }
    let rules = demo("clearance-40.ron");
    shop.new_job("tug", "mh-06", "mh-06", &["--serial", "MT3-4006", "--rules", rules.to_str().unwrap()]);
    let text = std::fs::read_to_string(demo("mulehaul-power.acts")).unwrap();
    let (before, _) = text.split_once(r#"Repair(lead:"old:3""#).unwrap();
    assert_eq!(shop.run_with(&["enter", "tug"], before, &[]).code, 0);
    shop
}

fn demo_book() -> String {
    std::fs::read_to_string(demo("tools.ron")).unwrap()
}

const CRIMP: &str = r#"Repair(lead:"old:3",how:NewTerminal,done:"crimped",part:"MH-TRM-F63",crimp:(tool:"hand tool 0207",position:"6",strip:"8 mm",height:"2.76 mm"))"#;

#[test]
fn a_proved_position_is_looked_up_and_kept_with_the_crimp() {
    let shop = in_hand(Some(&demo_book()));
    let run = shop.run_with(&["enter", "tug"], CRIMP, &[]);
    assert_eq!(run.code, 0, "{run:?}");
    let journal = std::fs::read_to_string(shop.path("tug.job.ron")).unwrap();
    assert!(journal.contains("Qualified") && journal.contains("2099-05-31"), "{journal}");
    // Five sample terminals are asked for only where no position is proved.
    let request = shop.json(&["request", "tug"]);
    let terminals = request["lines"].as_array().unwrap().iter().filter(|l| l["kind"] == "terminal").count();
    assert_eq!(terminals, 1, "{request}");
}

#[test]
fn a_position_of_another_terminal_or_of_a_past_day_is_refused_without_a_name() {
    for (book, told) in [
        (None, "never qualified"),
        (Some(demo_book().replace("2099-05-31", "2020-01-01")), "due: it was good until 2020-01-01"),
        (
            Some(demo_book().replace("380, 391, 377, 402, 388", "380, 391, 359, 402, 388")),
            "the lowest sample came off at 359 N",
        ),
        (
            Some(
                demo_book()
                    .replace(r#"until: "2099-05-31","#, r#"until: "2099-05-31", withdrawn: "dropped","#),
            ),
            "withdrawn: dropped",
        ),
    ] {
        let shop = in_hand(book.as_deref());
        let run = shop.run_with(&["enter", "tug"], CRIMP, &[]);
        assert!(run.code == 1 && run.err.contains("tool-not-qualified") && run.err.contains(told), "{run:?}");
        let named = CRIMP.replace("))", r#"),anyway:(by:"K. Tanner",reason:"only tool on the island"))"#);
        let run = shop.run_with(&["enter", "tug"], &named, &[]);
        assert_eq!(run.code, 0, "{run:?}");
        let account = shop.json(&["check", "tug"]);
        let flags = account["flags"].as_array().unwrap();
        assert!(flags.iter().any(|f| f["code"] == "tool-not-qualified"), "{account}");
    }
}

#[test]
fn a_book_that_cannot_be_read_costs_no_crimp_and_is_named() {
    let shop = in_hand(Some("(format: 1,\n positions: [(tool: 3)])"));
    let run = shop.run_with(&["enter", "tug"], CRIMP, &[]);
    assert!(run.code == 1 && run.err.contains("the tool book cannot be read"), "{run:?}");
    assert!(run.err.contains("bench-1.ron:2:"), "{run:?}");
}
