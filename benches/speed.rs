//! The speed that was promised: waiting keys, a frame, replay, start. Plain timing, no harness:
//! the figures are printed, and a figure over its bound ends with exit 1.

use std::time::{Duration, Instant};

use crossterm::event::{KeyCode, KeyEvent, KeyModifiers};
use ratatui::{buffer::Buffer, layout::Rect};
use repin::{
    catalogue::Catalogue,
    screen::{Sight, Theme, Ui, view},
    store::{line_of, read_acts, read_journal},
    swap::{About, Act, Entry, Job, JobSide},
};

/// The 206-way bulkhead, recorded.
fn bulkhead() -> Job {
    let mut job = Job::default();
    let at = "2026-11-25T07:00:00Z".parse().unwrap();
    let mut take = |act: Act| job.apply(Entry { at, by: "kt".into(), act });
    let text = String::new;
    take(Act::Ticket { asset: text(), serial: text(), connector: text(), reason: text(), seed: 1 });
    for (name, side) in [("old", JobSide::Old), ("new", JobSide::New)] {
        let definition = Box::new(Catalogue::built_in().find("cm-206").unwrap());
        take(Act::Housed { name: name.parse().unwrap(), side, definition });
    }
    let acts = read_acts("demo", include_str!("../demo-data/cormorant-bulkhead.acts")).unwrap();
    acts.into_iter().for_each(|line| take(line.act));
    job
}

/// The best of `times` runs.
fn best(times: usize, mut work: impl FnMut()) -> Duration {
    let run = |work: &mut dyn FnMut()| {
        let start = Instant::now();
        work();
        start.elapsed()
    };
    (0..times).map(|_| run(&mut work)).min().unwrap_or_default()
}

fn say(what: &str, took: Duration, bound: Duration) -> bool {
    let verdict = if took <= bound { "ok" } else { "TOO SLOW" };
    println!("{what:<60} {took:>12.3?}  of {bound:?}  {verdict}");
    took <= bound
}

fn main() {
    let job = bulkhead();
    let now = "2026-11-25T07:00:00Z".parse().unwrap();
    let survey = job.survey(now, None);
    let sight =
        Sight { id: "bench", job: &job, survey: &survey, last_request: None, by: "kt", read_only: None };
    let theme = Theme { colour: true, ascii: false };
    let area = Rect::new(0, 0, 120, 40);
    let mut buffer = Buffer::empty(area);
    let key = KeyEvent::new(KeyCode::Char('v'), KeyModifiers::NONE);
    let mut ui = Ui::default();
    let mut good = true;

    let frame = best(50, || {
        ui.update(&sight, key);
        view(&sight, &ui, theme, area, &mut buffer);
    });
    good &= say("a key to its frame, 120x40, 206 cavities", frame, Duration::from_millis(1));

    let keys = best(20, || {
        for _ in 0..200 {
            ui.update(&sight, key);
        }
        view(&sight, &ui, theme, area, &mut buffer);
    });
    good &= say("200 waiting keys handled and drawn", keys, Duration::from_millis(5));

    let survey = best(20, || drop(job.survey(now, None)));
    good &= say("account, steps and flags of 206 cavities", survey, Duration::from_millis(2));

    let mut list = "cavity;wire;colour;mm2\n".to_owned();
    (0..100_000).for_each(|n| list.push_str(&format!("K{n};W{n};RD/WH;0,75\n")));
    let read = best(3, || drop(repin::exchange::read_table(list.as_bytes(), None)));
    good &= say("a wiring list of 100,000 lines", read, Duration::from_secs(1));

    let mut text = String::new();
    let mut sum = String::new();
    for n in 1..=100_000 {
        let act = match job.entries().get(n - 1) {
            Some(entry) => entry.act.clone(),
            None => {
                Act::Note { text: "harness rubs at the boom tip, see photo 104".into(), about: About::Job }
            }
        };
        let (line, next) = line_of(n, &Entry { at: now, by: "kt".into(), act }, &sum).unwrap();
        text.push_str(&line);
        text.push('\n');
        sum = next;
    }
    let replay = best(3, || drop(Job::replay(read_journal(text.as_bytes()).entries)));
    good &= say("replay of 100,000 entries", replay, Duration::from_millis(600));
    if !good {
        std::process::exit(1);
    }
}
