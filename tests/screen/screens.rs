//! The screens, drawn without a terminal: a few pictures to review, sizes from nothing to huge,
//! the key table, and the budget of key presses.

use crate::{desk, support};

use crossterm::event::{KeyCode, KeyEvent, KeyModifiers};
use desk::{Desk, lines};
use ratatui::{buffer::Buffer, layout::Rect};
use repin::procedure::{Kind, Takes};
use repin::screen::{
    Effect, Palette, Theme,
    board::{Board, BoardLine, view_board},
    keys::{CHOICES, COMMON, CommonKey},
    menu::OTHERS,
    state::PAGES,
};
use support::{Bench, demo_acts};

const PLAIN: Theme = Theme { palette: Palette::None, ascii: true };

#[test]
fn the_move_shows_both_faces_the_move_in_big_and_one_thing_to_do() {
    let mut desk = Desk::at(Bench::ready());
    insta::assert_snapshot!("the_first_move", desk.picture(80, 24, PLAIN));
}

#[test]
fn what_is_in_the_hand_is_said_and_the_label_is_typed() {
    let mut desk = Desk::at(Bench::ready());
    desk.keys("o");
    // F67: the wrong test pin ruins the terminal it tests.
    assert!(desk.picture(80, 24, PLAIN).contains("Test pin only of the"));
    desk.keys("g2");
    let picture = desk.picture(80, 24, PLAIN);
    assert!(picture.contains("hand 1") && picture.contains("1 IN NO HOUSING"), "{picture}");
    assert!(picture.contains("SEAT S01") && picture.contains("> 2_"), "{picture}");
}

#[test]
fn a_flawless_wire_takes_four_keys_and_its_label_and_a_plug_two_and_its_label() {
    let bench = Bench::ready();
    let asked = bench.job.state().target().colours_asked;
    let mut desk = Desk::at(bench);
    let (mut wires, mut plugs, mut rereads) = (0, 0, 0);
    for n in 1..=16_usize {
        let label = n.to_string();
        rereads += u32::from(desk.rereads());
        let before = desk.presses;
        let holds = desk.bench.job.state().records.found[&format!("old:{n}").parse().unwrap()].clone();
        // The label and the Enter that ends it.
        let typing = label.len() + 1;
        match holds.lead() {
            Some(lead) => {
                let id = format!("old:{n}").parse().unwrap();
                let mut budget = 4 + typing;
                if asked.contains(&id) {
                    let colour = lead.wires[0].colour.to_string();
                    desk.typed(&colour);
                    budget += colour.len() + 1;
                }
                desk.keys("og");
                desk.typed(&label);
                desk.keys("ct");
                assert_eq!(desk.presses - before, budget, "wire {n}");
                wires += 1;
            }
            None => {
                desk.keys("o");
                desk.typed(&label);
                desk.keys("c");
                assert_eq!(desk.presses - before, 2 + typing, "plug {n}");
                plugs += 1;
            }
        }
    }
    let account = desk.bench.job.account(desk.bench.now);
    // One re-read after ten moves: with the colours asked they stay under one in five.
    assert_eq!((wires, plugs, rereads), (12, 4, 1));
    assert_eq!((account.wires.new, account.plugs.new), (12, 4));
}

#[test]
fn a_held_key_confirms_nothing_twice() {
    let mut desk = Desk::at(Bench::ready());
    desk.keys("oooooo");
    assert_eq!(desk.bench.job.account(desk.bench.now).wires.hand, 1);
    assert!(desk.asks_for_a_key());
    let mut repeated = KeyEvent::new(KeyCode::Char('g'), KeyModifiers::NONE);
    repeated.kind = crossterm::event::KeyEventKind::Repeat;
    assert_eq!(desk.with(|ui, sight| ui.update(sight, repeated)), Effect::None);
}

#[test]
fn a_wrong_label_is_refused_with_the_right_one_and_a_named_person_can_go_on() {
    let mut desk = Desk::at(Bench::ready());
    desk.keys("og");
    desk.typed("2");
    // Said before the hand pushes it in.
    let picture = desk.picture(80, 24, PLAIN);
    assert!(picture.contains("S01 goes to new:1, not to new:2"), "{picture}");
    assert!(!picture.contains("PUSH"), "{picture}");
    desk.keys("!y");
    desk.typed("K. Tanner");
    desk.typed("it does sit there");
    // Whether it clicked is asked, not taken for granted.
    assert!(desk.bench.job.state().items.lead_in_hand().is_some());
    desk.keys("n");
    for code in [repin::job::Code::NotSeated, repin::job::Code::WrongCavity] {
        desk.bench.flagged(code);
    }
    // Out again it can come with force, too.
    desk.keys("x");
    assert!(desk.picture(80, 24, PLAIN).contains("how did it come?"));
    desk.keys("r");
    assert!(desk.picture(80, 24, PLAIN).contains("And its seal?"));
    desk.keys("m");
    let lead = desk.bench.job.state().items.lead_in_hand().unwrap();
    assert!(lead.forced && lead.seal == repin::record::Seal::Missing);
    assert!(desk.picture(80, 24, PLAIN).contains("WITH FORCE"));
}

#[test]
fn gates_are_never_passed_with_enter() {
    let mut desk = Desk::at(Bench::new("sp-16", "sp-16"));
    assert!(desk.picture(80, 24, PLAIN).contains("Restraint circuit: no meter, no lamp, no repair."));
    for _ in 0..50 {
        desk.press(KeyCode::Enter);
    }
    assert!(desk.bench.job.state().course.gates.is_empty());
    desk.keys("n");
    for _ in 0..50 {
        desk.press(KeyCode::Enter);
    }
    assert!(desk.bench.job.state().course.gates.is_empty());
}

#[test]
fn an_asked_colour_is_hidden_until_it_is_keyed() {
    let mut bench = Bench::ready();
    let asked = bench.job.state().target().colours_asked;
    let id = asked.first().unwrap().to_string();
    let label = id.trim_start_matches("old:").to_owned();
    let colour =
        bench.job.state().items.lead(asked.first().unwrap()).unwrap().seen.wires[0].colour.to_string();
    bench.by = "kt".into();
    let mut desk = Desk::at(bench);
    desk.keys("/");
    desk.typed(&label);
    let picture = desk.picture(80, 24, PLAIN);
    assert!(picture.contains("??") && picture.contains("what colour is it?"), "{picture}");
    assert!(!picture.contains(&colour), "{colour} shows: {picture}");
}

#[test]
fn a_re_read_shows_neither_label_nor_colour() {
    let mut desk = Desk::at(Bench::moved());
    // The small part, and both looks.
    desk.keys("feh");
    desk.typed("8 0 0");
    desk.typed("4 4 0");
    let (prompt, takes) = desk.question();
    assert_eq!(takes, Takes::Text(Kind::Content));
    assert!(prompt.starts_with("RE-READ new, mating face towards you, latch up:"), "{prompt}");
    assert!(!prompt.contains("RD") && !prompt.contains("S01"), "{prompt}");
    // Nor do the faces: the new one is drawn as it is held to be read.
    let picture = desk.picture(80, 24, PLAIN);
    assert!(holes(&picture).chars().all(|c| " o[?]|".contains(c)), "{picture}");
    assert!(picture.contains("mating face towards you"), "{picture}");
    desk.typed("SR");
    let picture = desk.picture(80, 24, PLAIN);
    assert!(picture.contains("!! NO MATCH"), "{picture}");
    assert!(holes(&picture).chars().all(|c| " o[?]|".contains(c)), "{picture}");
}

/// The rows of the faces in a picture.
fn holes(picture: &str) -> String {
    let rows: String = picture.lines().filter(|line| line.starts_with('|')).collect();
    assert!(!rows.is_empty(), "{picture}");
    rows
}

#[test]
fn an_anchor_and_a_row_count_cover_what_they_ask() {
    let mut bench = Bench::ready();
    bench.does(r#"View(housing:"old",face:Mating,up:"latch")"#);
    let picture = Desk::at(bench).picture(80, 24, PLAIN);
    assert!(picture.contains("ANCHOR old"), "{picture}");
    assert!(holes(&picture).chars().all(|c| " o[?]|".contains(c)), "{picture}");
    let mut desk = Desk::at(Bench::moved());
    desk.keys("feh");
    let picture = desk.picture(80, 24, PLAIN);
    assert!(picture.contains("COUNT the row 1 to 8"), "{picture}");
    assert!(!holes(&picture).contains(|c: char| c.is_ascii_alphabetic()), "{picture}");
}

#[test]
fn a_colour_that_differs_is_settled_before_the_wire_is_pulled() {
    let bench = Bench::ready();
    let asked = bench.job.state().target().colours_asked;
    let label = asked.first().unwrap().to_string().trim_start_matches("old:").to_owned();
    let mut desk = Desk::at(bench);
    desk.keys("/");
    desk.typed(&label);
    desk.typed("SR");
    let picture = desk.picture(80, 24, PLAIN);
    assert!(picture.contains("You see SR") && !picture.contains("[o] out"), "{picture}");
}

#[test]
fn a_line_with_a_mistake_stays_to_be_mended() {
    let mut desk = Desk::at(Bench::new("sp-16", "sp-16"));
    desk.keys("!c");
    desk.typed("1");
    desk.keys("w");
    desk.typed("RX 0.5 W1");
    let picture = desk.picture(80, 24, PLAIN);
    assert!(picture.contains("is not a colour code") && picture.contains("> RX 0.5 W1"), "{picture}");
}

#[test]
fn with_every_move_waiting_the_screen_says_what_for_and_closes_nothing() {
    let mut bench = Bench::moved();
    let mut desk = {
        bench.does(r#"Extract(from:"new:1",freely:true,seal:On)"#);
        bench.does("Inspect(verdict:Needs(NewTerminal))");
        bench.does(r#"Planned(lead:"old:1",how:NewTerminal,reason:"tang broken")"#);
        bench.does(r#"Park(tag:"1",reason:"waits")"#);
        Desk::at(bench)
    };
    let picture = desk.picture(80, 24, PLAIN);
    assert!(picture.contains("WAITING for parts: S01 (tag 1). Send the request"), "{picture}");
    assert!(picture.contains("waiting"), "{picture}");
    desk.keys("t");
    assert!(desk.picture(80, 24, PLAIN).contains("S01 needs a new terminal"));
}

#[test]
fn a_request_asks_what_the_desk_would_phone_back_about() {
    let mut desk = Desk::at(Bench::ready());
    desk.keys("!d");
    for said in ["3", "-", "2026-12-01"] {
        desk.typed(said);
    }
    let key = KeyEvent::new(KeyCode::Char('m'), KeyModifiers::NONE);
    let Effect::SendRequest(head) = desk.with(|ui, sight| ui.update(sight, key)) else {
        panic!("nothing is sent")
    };
    assert_eq!((head.bench.as_deref(), head.deliver_to), (Some("3"), None));
    assert_eq!(head.needed_by, Some("2026-12-01".parse().unwrap()));
    assert_eq!(head.urgency, Some(repin::supply::Urgency::MachineStopped));
    assert_eq!(head.urgency.unwrap().to_string(), "the machine stands still");
}

#[test]
fn a_tall_terminal_lists_the_moves_ahead_and_keeps_asked_colours_covered() {
    let mut desk = Desk::at(Bench::ready());
    let picture = desk.picture(120, 40, PLAIN);
    assert!(picture.contains("AHEAD, 15 moves left"), "{picture}");
    // The colour of 2 is asked before it comes out.
    assert!(picture.contains("2 > 2     ??     S02"), "{picture}");
    // Nothing is listed beside a question about what sits where.
    let mut desk = Desk::at(Bench::moved());
    desk.keys("feh");
    assert!(!desk.picture(120, 40, PLAIN).contains("AHEAD"));
}

#[test]
fn an_interruption_is_the_first_thing_on_the_screen() {
    let mut bench = Bench::ready();
    bench.moves("1", "RD");
    bench.does(r#"Extract(from:"old:2",colour:"BK",freely:true,seal:On)"#);
    bench.waits_h(24 * 6);
    let mut desk = Desk::at(bench);
    let picture = desk.picture(80, 24, PLAIN);
    let second = picture.lines().nth(1).unwrap();
    assert!(second.contains("DO NOT POWER: 1 thing is not in a housing"), "{picture}");
    assert!(picture.contains("GATE, restraint systems"), "{picture}");
}

#[test]
fn a_whole_record_is_typed_cavity_by_cavity_with_repeat_and_jump() {
    let mut desk = Desk::at(Bench::new("sk-10", "sk-10"));
    for act in demo_acts("skerry-pod.acts").iter().take(7) {
        desk.bench.does(act);
    }
    desk.keys("w");
    desk.typed("rd 0,75 - supply");
    desk.keys("p");
    desk.keys("r"); // repeat: a plug
    desk.keys("/");
    desk.typed("10");
    desk.keys("o");
    let words: Vec<&str> = desk.bench.job.state().records.found.values().map(|h| h.word()).collect();
    assert_eq!(words, ["wired", "plugged", "plugged", "open"]);
    // Nothing is skipped: the next question is about the first cavity without an answer.
    let (prompt, _) = desk.question();
    assert!(desk.asks_for_a_key());
    assert!(prompt.contains("cavity 4"), "{prompt}");
}

#[test]
fn everything_is_said_in_ascii_and_without_colour() {
    let mut desk = Desk::at(Bench::ready());
    for (_, page) in PAGES {
        let picture = desk.picture(80, 24, PLAIN);
        assert!(picture.is_ascii(), "page {page}: {picture}");
        desk.press(KeyCode::Tab);
    }
    desk.keys("?");
    assert!(desk.picture(80, 24, PLAIN).is_ascii());
}

#[test]
fn every_page_draws_at_every_size_without_a_panic() {
    let mut desk = Desk::at(Bench::ready());
    for _ in PAGES {
        for (width, height) in [(0, 0), (1, 1), (5, 2), (79, 23), (80, 24), (81, 25), (120, 40), (200, 60)] {
            desk.picture(width, height, Theme { palette: Palette::True, ascii: false });
        }
        desk.press(KeyCode::Tab);
        desk.keys("!");
        desk.picture(80, 24, PLAIN);
        desk.press(KeyCode::Esc);
    }
}

#[test]
fn a_big_connector_jumps_by_label_and_stays_in_view() {
    let mut bench = Bench::new("cm-206", "cm-206");
    let acts = demo_acts("cormorant-bulkhead.acts");
    acts.iter().filter(|a| !a.contains("side:Should")).for_each(|act| bench.does(act));
    let mut desk = Desk::at(bench);
    // An anchor is asked, so the label is jumped to by the menu.
    desk.keys("!j");
    desk.typed("a135");
    let picture = desk.picture(80, 24, PLAIN);
    // The anchor comes all the same: where the holes are is shown, and nothing of what is in them.
    assert!(picture.contains("[?]") && picture.contains("group 1 of 3"), "{picture}");
    assert!(picture.contains("EXTRACT the lead from A135"), "{picture}");
}

#[test]
fn the_board_says_where_each_job_stands() {
    let line = |id: &str, state: &str, about: &str| BoardLine {
        id: id.into(),
        asset: "Fernwalker 8".into(),
        connector: "boom \u{1b}tip".into(),
        state: state.into(),
        about: about.into(),
        touched: "2026-11-25 07:12".into(),
        opens: true,
    };
    let mut board = Board::of(vec![
        line("a", "moving", "3 of 9 steps done"),
        line("b", "waiting", "waits for parts: W614"),
    ]);
    board.update(KeyEvent::new(KeyCode::Down, KeyModifiers::NONE));
    let area = Rect::new(0, 0, 80, 24);
    let mut buffer = Buffer::empty(area);
    view_board(&board, PLAIN, area, &mut buffer);
    insta::assert_snapshot!("the_board", lines(&buffer));
    view_board(&board, PLAIN, Rect::new(0, 0, 3, 3), &mut buffer);
}

#[test]
fn keys_stand_once_and_no_two_common_keys_share_one() {
    for (n, key) in COMMON.iter().enumerate() {
        let chord = |key: &CommonKey| (key.code, key.with);
        assert!(COMMON.iter().skip(n + 1).all(|other| chord(other) != chord(key)), "{}", key.name);
    }
    let global: Vec<char> = COMMON
        .iter()
        .filter_map(|k| match k.code {
            KeyCode::Char(c) if k.with.is_empty() => Some(c),
            _ => None,
        })
        .collect();
    for (n, (pick, key, _)) in CHOICES.iter().enumerate() {
        assert!(!global.contains(key), "{pick:?} hides a common key");
        assert!(CHOICES.iter().skip(n + 1).all(|(other, ..)| other != pick), "{pick:?} stands twice");
    }
    for (n, (thing, key, _)) in OTHERS.iter().enumerate() {
        assert!(!global.contains(key), "{thing:?}");
        assert!(OTHERS.iter().skip(n + 1).all(|(_, other, _)| other != key), "{thing:?} shares its key");
    }
}

#[test]
fn the_map_stands_on_its_page_both_ways_and_says_whether_it_is_confirmed() {
    let mut bench = Bench::new("lh-24", "lh-24b");
    for act in demo_acts("lanternhill-module.acts").iter().take_while(|act| !act.starts_with("MapConfirmed"))
    {
        bench.does(act);
    }
    let mut desk = Desk::at(bench);
    let asked = desk.picture(80, 24, PLAIN);
    assert!(asked.contains("by the published map: the numbers run the other way"), "{asked}");
    (0..3).for_each(|_| desk.press(KeyCode::Tab));
    let page = desk.picture(80, 60, PLAIN);
    for line in ["NOT confirmed yet", "old:9        to new:A4", "new:B1       from old:24"] {
        assert!(page.contains(line), "{line}: {page}");
    }
}

#[test]
fn a_wire_over_a_blocked_cavity_stops_the_job_before_it_is_opened() {
    let mut bench = Bench::new("dl-08", "dl-08r");
    for act in demo_acts("dewline-valves.acts").iter().take_while(|act| !act.starts_with("Mapped")) {
        bench.does(act);
    }
    let mut desk = Desk::at(bench);
    let asked = desk.picture(80, 24, PLAIN);
    assert!(
        asked.contains("DO NOT START. W506 has no place") && asked.contains("map one cavity by hand"),
        "{asked}"
    );
}
