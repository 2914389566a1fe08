//! What the screens show, with their colours: every page and every kind of step of the demo jobs, what is
//! covered while it is asked, and what is said of the sides of a housing as it is held.

use crate::{cli, desk, support};

use std::collections::BTreeSet;

use cli::Shop;
use crossterm::event::KeyCode;
use desk::{Desk, lines};
use ratatui::{buffer::Buffer, layout::Rect, style::Color};
use repin::{
    job::{Entry, Job, JobSide},
    procedure::Topic,
    screen::{Palette, Theme, state::PAGES, view},
    store::read_journal,
};
use support::{Bench, demo_acts};

const PLAIN: Theme = Theme { palette: Palette::None, ascii: true };
const COLOURED: Theme = Theme { palette: Palette::True, ascii: false };

/// A screen as text, then every run of cells with a ground: row, columns, text, colour.
fn coloured(desk: &mut Desk) -> String {
    let area = Rect::new(0, 0, 80, 24);
    let mut buffer = Buffer::empty(area);
    desk.with(|ui, sight| view(sight, ui, COLOURED, area, &mut buffer));
    let mut grounds = String::new();
    for y in 0..area.height {
        let cells: Vec<_> = (0..area.width).map(|x| &buffer[(x, y)]).collect();
        for run in cells.chunk_by(|a, b| a.bg == b.bg).filter(|run| run[0].bg != Color::Reset) {
            let text: String = run.iter().map(|cell| cell.symbol()).collect();
            let ground = match run[0].bg {
                Color::Rgb(r, g, b) => format!("{r} {g} {b}"),
                other => format!("{other:?}"),
            };
            grounds.push_str(&format!("{:>2} \"{}\" on {ground}\n", y + 1, text.trim_end()));
        }
    }
    format!("{}\n--\n{grounds}", lines(&buffer))
}

fn journals() -> Vec<(String, Vec<Entry>)> {
    let shop = Shop::new();
    assert_eq!(shop.run(&["demo", shop.path("jobs").to_str().unwrap()]).code, 0);
    let mut files: Vec<_> =
        std::fs::read_dir(shop.path("jobs")).unwrap().map(|f| f.unwrap().path()).collect();
    files.sort();
    let jobs = files.iter().filter_map(|file| {
        let name = file.file_name()?.to_str()?.strip_suffix(".job.ron")?.to_owned();
        let mut entries = read_journal(&std::fs::read(file).unwrap()).entries;
        // Made just now; a picture keeps its day.
        entries.iter_mut().for_each(|entry| entry.at = "2026-11-25T07:00:00Z".parse().unwrap());
        Some((name, entries))
    });
    jobs.collect()
}

fn desk_of(job: &Job) -> Desk {
    let now = job.entries().last().unwrap().at;
    Desk::at(Bench { job: job.clone(), now, by: "kt".to_owned() })
}

#[test]
fn every_kind_of_step_of_the_demo_jobs() {
    let mut seen = BTreeSet::new();
    let mut look = |desk: &mut Desk, name: &str| {
        let topic = desk.with(|ui, sight| ui.topic(sight));
        let kind = match &topic {
            Topic::Step(step) => format!("{step:?}"),
            other => format!("{other:?}"),
        };
        let kind: String = kind.chars().take_while(|c| c.is_ascii_alphanumeric()).collect();
        if seen.insert(kind.clone()) {
            insta::assert_snapshot!(format!("step_{}", kind.to_lowercase()), coloured(desk), name);
        }
    };
    // One job from its first entry to its signature, then what only the others have.
    let mut bench = Bench::new("sp-16", "sp-16");
    for act in demo_acts("spudrow-twin.acts") {
        bench.does(&act);
        let mut desk = Desk::at(bench);
        look(&mut desk, "spudrow-twin");
        bench = desk.bench;
    }
    for (name, entries) in journals() {
        let stride = if entries.len() > 300 { 40 } else { 1 };
        let mut job = Job::default();
        for (n, entry) in entries.into_iter().enumerate() {
            job.apply(entry);
            if n % stride == 0 {
                look(&mut desk_of(&job), &name);
            }
        }
    }
    assert!(seen.len() >= 20, "{seen:?}");
}

#[test]
fn every_page_of_a_job_half_done() {
    let (_, entries) = journals().into_iter().find(|(name, _)| name == "fernwalker").unwrap();
    let mut desk = desk_of(&Job::replay(entries));
    for (_, title) in PAGES {
        insta::assert_snapshot!(format!("page_{}", title.replace(' ', "_")), coloured(&mut desk));
        desk.press(KeyCode::Tab);
    }
}

/// While a colour, a hole or a row is asked, no page tells it, nor does what was chosen meanwhile.
#[test]
fn what_is_asked_is_covered_on_every_page_and_by_whatever_is_chosen_meanwhile() {
    let asks_colour = || {
        let bench = Bench::ready();
        let asked = bench.job.state().target().colours_asked;
        let at = asked.first().unwrap().to_string();
        let lead = bench.job.state().items.lead(&at.parse().unwrap()).unwrap();
        let colour = lead.first_wire().unwrap().colour.known().unwrap().to_string();
        let mut desk = Desk::at(bench);
        desk.keys("/");
        desk.typed(at.trim_start_matches("old:"));
        (desk, colour)
    };
    let (mut desk, colour) = asks_colour();
    for _ in PAGES {
        let picture = desk.picture(120, 50, PLAIN);
        assert!(!picture.split_whitespace().any(|word| word == colour), "{colour}: {picture}");
        desk.press(KeyCode::Tab);
    }
    let asks_hole = || {
        let mut desk = Desk::at(Bench::moved());
        desk.keys("feh");
        desk.typed("8 0 0");
        desk.typed("4 4 0");
        desk
    };
    // Before an answer, after a wrong one, after two, and with another action chosen.
    for meanwhile in ["", "SR\n", "SR\nSR\n", "!n", "!s", "!c", "!w", "!t"] {
        let mut desk = asks_hole();
        for c in meanwhile.chars() {
            desk.press(if c == '\n' { KeyCode::Enter } else { KeyCode::Char(c) });
        }
        for (_, title) in PAGES {
            let picture = desk.picture(120, 50, PLAIN);
            let told = ["RD", "GY/RD", "GN", "S01", "sensor feed"];
            let tells = |word: &str| told.contains(&word);
            assert!(!picture.split_whitespace().any(tells), "{meanwhile:?} {title}: {picture}");
            desk.press(KeyCode::Tab);
        }
    }
    // Nor is it told by looking for a colour or a wire.
    let mut desk = asks_hole();
    for looked_for in ["RD", "S01", "sensor feed"] {
        desk.keys("!j");
        desk.typed(looked_for);
        let picture = desk.picture(120, 50, PLAIN);
        assert!(picture.contains("is asked now") && !picture.contains("old:1"), "{picture}");
        desk.press(KeyCode::Esc);
    }
    let mut desk = Desk::at(Bench::moved());
    desk.keys("feh");
    desk.press(KeyCode::Tab);
    assert!(desk.picture(80, 24, PLAIN).contains("COVERED"));
    desk.press(KeyCode::Esc);
    assert!(desk.picture(80, 24, PLAIN).contains("COUNT the row"));
}

#[test]
fn a_tang_is_told_as_the_housing_is_held() {
    for (up, says) in [("latch", "tang UP"), ("bottom", "tang DOWN"), ("right", "tang to the LEFT")] {
        let mut bench = Bench::new("fw-hsg-12a", "fw-hsg-12a");
        bench.does(&format!(r#"View(housing:"old",face:Wire,up:"{up}")"#));
        let mut desk = Desk::at(bench);
        let told = desk.with(|_, sight| {
            let housing = sight.state().housings.side(JobSide::Old).next().unwrap();
            let cavity = &housing.housing().cavities[0];
            housing.tang_in_words(cavity.tang.unwrap())
        });
        assert!(told.to_lowercase().contains(&says.to_lowercase()), "{up}: {told}");
    }
}

#[test]
fn a_new_housing_before_its_record_is_not_called_empty() {
    let mut bench = Bench::new("sp-16", "sp-16");
    bench.passes_the_gates();
    let mut desk = Desk::at(bench);
    let picture = desk.picture(130, 40, PLAIN);
    assert!(picture.contains("...") && !picture.contains("empty "), "{picture}");
}

#[test]
fn every_housing_of_a_side_can_be_seen_and_says_which_it_is() {
    let mut bench = Bench::new("iso-1724", "iso-11446");
    bench.houses("12s", JobSide::Old, "iso-3732");
    bench.passes_the_gates();
    let mut desk = Desk::at(bench);
    let first = desk.picture(80, 24, PLAIN);
    assert!(first.contains("1 of 2, Left: the next") && !first.contains("12s"), "{first}");
    desk.press(KeyCode::Left);
    let second = desk.picture(80, 24, PLAIN);
    assert!(second.contains("OLD 12s") && second.contains("2 of 2"), "{second}");
    desk.press(KeyCode::Left);
    assert_eq!(desk.picture(80, 24, PLAIN), first);
}

/// The sums under a housing of one row are what its count asks.
#[test]
fn a_row_count_covers_the_sums_too() {
    let mut desk = Desk::at(Bench::moved());
    desk.keys("feh");
    let picture = desk.picture(80, 24, PLAIN);
    assert!(picture.contains("COUNT the row") && !picture.contains("new 12"), "{picture}");
    desk.typed("8 0 0");
    desk.typed("4 4 0");
    assert!(desk.picture(80, 24, PLAIN).contains("new 12"));
}

#[test]
fn a_colour_that_is_none_is_said_when_it_is_keyed() {
    let mut bench = Bench::ready();
    bench.does(r#"View(housing:"old",face:Mating,up:"latch")"#);
    let mut desk = Desk::at(bench);
    desk.typed("xyz");
    let picture = desk.picture(130, 40, PLAIN);
    assert!(picture.contains("is not a colour code") && picture.contains("Which colour goes"), "{picture}");
    desk.typed("VT");
    assert!(desk.picture(130, 40, PLAIN).contains("Which mark is moulded"));
}

#[test]
fn a_list_says_what_is_out_of_sight_at_either_end() {
    let (_, entries) = journals().into_iter().find(|(name, _)| name == "fernwalker").unwrap();
    let mut desk = desk_of(&Job::replay(entries));
    for _ in 0..3 {
        desk.press(KeyCode::Tab);
    }
    let picture = desk.picture(80, 24, PLAIN);
    assert!(picture.contains("more below (Down)") && !picture.contains("more above"), "{picture}");
    desk.press(KeyCode::Down);
    assert!(desk.picture(80, 24, PLAIN).contains("more above (Up)"));
}
