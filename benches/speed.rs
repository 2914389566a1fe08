//! The speed that was promised: waiting keys, a frame, replay, start. Plain timing, no harness:
//! the figures are printed, and a figure over its bound ends with exit 1.

use std::time::{Duration, Instant};

use crossterm::event::{KeyCode, KeyEvent, KeyModifiers};
use ratatui::{buffer::Buffer, layout::Rect};
use repin::{
    form::Catalogue,
    form::read_acts,
    job::{About, Act, Entry, Job, JobSide},
    procedure::JobView,
    reckoning::{LeadAsk, StaggerRequest, ToolBook, bundle_of, stagger},
    screen::{Palette, Theme, Ui, view},
    service::{Shop, board},
    store::{line_of, read_journal},
};

/// The 206-way bulkhead, recorded.
fn bulkhead() -> Job {
    let mut job = Job::default();
    let at = "2026-11-25T07:00:00Z".parse().unwrap();
    let mut take = |act: Act| job.apply(Entry::new(at, "kt", act));
    let text = String::new;
    take(Act::Ticket { id: None, asset: text(), serial: text(), connector: text(), reason: text(), seed: 1 });
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

/// Splices and bundles.
fn repairs() -> bool {
    let lead = |n: u32| LeadAsk {
        circuit: format!("W{n}"),
        damage_mm: f64::from(n * 37 % 120),
        sleeve_mm: 25.0 + f64::from(n * 7 % 23),
        last_mm: 2500.0 - f64::from(n * 53 % 400),
        gap_mm: n.is_multiple_of(4).then_some(65.0),
    };
    let ask = StaggerRequest {
        clearance_mm: 40.0,
        gap_mm: 40.0,
        margin_mm: 15.0,
        keep_out_mm: vec![(130.0, 180.0), (400.0, 470.0), (610.0, 700.0), (1100.0, 1130.0)],
        existing_mm: Vec::new(),
        made_mm: Vec::new(),
        leads: (0..12).map(lead).collect(),
    };
    let plan = best(10, || drop(stagger(&ask)));
    let mut good = say("splices of 12 unlike leads and 4 keep-outs", plan, Duration::from_millis(5));
    let thirty = best(5, || drop(bundle_of(&[2.0; 30])));
    good &= say("a bundle of 30 equal wires", thirty, Duration::from_millis(20));
    let mixed: Vec<f64> = (0..100).map(|n| 1.0 + 0.14 * f64::from(n * 37 % 23)).collect();
    let hundred = best(5, || drop(bundle_of(&mixed)));
    good & say("a bundle of 100 mixed wires", hundred, Duration::from_millis(50))
}

/// A folder with 1,000 jobs of 60 to 400 entries.
fn thousand_jobs(folder: &std::path::Path) {
    let at = "2026-11-25T07:00:00Z".parse().unwrap();
    let acts = read_acts("demo", include_str!("../demo-data/fernwalker-boom-tip.acts")).unwrap();
    let housed = |name: &str, side| Act::Housed {
        name: name.parse().unwrap(),
        side,
        definition: Box::new(Catalogue::built_in().find("fw-hsg-12a").unwrap()),
    };
    let text = String::new;
    let ticket =
        Act::Ticket { id: None, asset: text(), serial: text(), connector: text(), reason: text(), seed: 1 };
    let world = [ticket, housed("old", JobSide::Old), housed("new", JobSide::New)];
    let note = || Act::Note { text: "harness rubs at the boom tip, see photo 104".into(), about: About::Job };
    let acts = world.into_iter().chain(acts.into_iter().map(|line| line.act)).chain((0..400).map(|_| note()));
    let (mut sum, mut text) = (String::new(), String::new());
    let mut ends = Vec::new();
    for (n, act) in (1..=400).zip(acts) {
        let (line, next) = line_of(n, &Entry::new(at, "kt", act), &sum).unwrap();
        text.push_str(&line);
        text.push('\n');
        ends.push(text.len());
        sum = next;
    }
    for n in 0..1_000 {
        let end = ends[59 + n * 340 / 999];
        std::fs::write(folder.join(format!("j{n:04}.job.ron")), &text[..end]).unwrap();
    }
}

/// The board of 1,000 jobs: read one by one, and from its summaries.
fn board_of_a_thousand() -> bool {
    let folder = tempfile::TempDir::new().unwrap();
    thousand_jobs(folder.path());
    let shop = Shop::at(folder.path().to_owned());
    let list = || drop(board(&shop.store(), jiff::Timestamp::now()).unwrap());
    let first = best(1, list);
    println!("{:<60} {first:>12.3?}", "board of 1,000 jobs, read one by one");
    // The times of files are coarse: what was written this moment is read again.
    std::thread::sleep(Duration::from_secs(2));
    list();
    let good = say("board of 1,000 jobs", best(5, list), Duration::from_millis(100));
    good & peak_memory("memory, at its most, of both", 20)
}

/// The most memory this program had so far, where the system says so.
fn peak_memory(what: &str, bound_mb: u64) -> bool {
    let Ok(status) = std::fs::read_to_string("/proc/self/status") else { return true };
    let peak = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    let Some(kb) = peak.and_then(|peak| peak.split_whitespace().next()?.parse::<u64>().ok()) else {
        return true;
    };
    let verdict = if kb <= bound_mb << 10 { "ok" } else { "TOO MUCH" };
    println!("{what:<60} {:>9} kB  of {bound_mb} MB  {verdict}", kb);
    kb <= bound_mb << 10
}

fn main() {
    // First, for what it takes of memory is measured on the whole program.
    let mut good = board_of_a_thousand();
    let job = bulkhead();
    let now = "2026-11-25T07:00:00Z".parse().unwrap();
    let assessment = job.assess(now, None);
    let tools = ToolBook::default();
    let sight = JobView {
        id: "bench",
        job: &job,
        assessment: &assessment,
        last_request: None,
        tools: &tools,
        by: "kt",
        read_only: None,
    };
    let theme = Theme { palette: Palette::True, ascii: false };
    let area = Rect::new(0, 0, 120, 40);
    let mut buffer = Buffer::empty(area);
    let key = KeyEvent::new(KeyCode::Char('v'), KeyModifiers::NONE);
    let mut ui = Ui::default();

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

    let assessment = best(20, || drop(job.assess(now, None)));
    good &= say("account, steps and flags of 206 cavities", assessment, Duration::from_millis(2));

    good &= repairs();

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
        let (line, next) = line_of(n, &Entry::new(now, "kt", act), &sum).unwrap();
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
