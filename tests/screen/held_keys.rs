//! Keys that cannot run away: a key that is held does one thing, text that arrives at once where one key
//! answers is not taken, and a value takes every key.

use crate::{cli, desk, support};

use cli::Shop;
use crossterm::event::{KeyCode, KeyEvent, KeyModifiers};
use desk::Desk;
use repin::{
    job::{Act, Assessment, Entry, Job, Verdict},
    reckoning::ToolBook,
    screen::{
        Burst, Effect, JobView, Outcome, Palette, Press, Theme, Ui,
        ask::{Asked, OTHERS},
        define::Define,
        keys::Pick,
        state::Message,
    },
    store::read_journal,
};
use support::Bench;

const HELD: usize = 12;
const BY: &str = "kt";

fn press(code: KeyCode) -> KeyEvent {
    KeyEvent::new(code, KeyModifiers::NONE)
}

/// Every key a hand can rest on.
fn keys() -> Vec<KeyCode> {
    let printable = (' '..='~').map(KeyCode::Char);
    let others = [KeyCode::Enter, KeyCode::Esc, KeyCode::Tab, KeyCode::BackTab, KeyCode::Backspace];
    let arrows = [KeyCode::Up, KeyCode::Down, KeyCode::Left, KeyCode::Right];
    printable.chain(others).chain(arrows).collect()
}

/// A key that is held down before a job; gives what it entered, press by press.
fn hold(job: &Job, assessment: &Assessment, key: KeyCode) -> Vec<Vec<Act>> {
    let (mut ui, mut entered) = (Ui::default(), Vec::new());
    let mut later: Option<(Job, Assessment)> = None;
    let tools = ToolBook::default();
    for _ in 0..HELD {
        let before = ui.clone();
        let (job, assessment) =
            later.as_ref().map_or((job, assessment), |(job, assessment)| (job, assessment));
        let now = job.entries().last().unwrap().at;
        let sight = JobView {
            id: "held",
            job,
            assessment,
            last_request: None,
            tools: &tools,
            by: BY,
            read_only: None,
        };
        match ui.update(&sight, press(key)) {
            Effect::None if ui == before => break,
            Effect::None => {}
            Effect::Enter(acts) => match enter(job, now, &acts) {
                Ok(after) => {
                    let assessment = after.assess(now, Some(BY));
                    later = Some((after, assessment));
                    ui.finish(Outcome::Entered(String::new()));
                    entered.push(acts);
                }
                Err(outcome) => ui.finish(outcome),
            },
            Effect::SendRequest(_) | Effect::Book(_) | Effect::Works(_) => {
                entered.push(Vec::new());
                ui.finish(Outcome::Entered(String::new()));
            }
            Effect::Leave => break,
        }
    }
    entered
}

fn enter(job: &Job, now: jiff::Timestamp, acts: &[Act]) -> Result<Job, Outcome> {
    let mut after = job.clone();
    for (nth, act) in acts.iter().enumerate() {
        let entry = Entry::new(now, BY.to_owned(), act.clone());
        let refusals = match after.check(&entry) {
            Verdict::Allowed => {
                after.apply(entry);
                continue;
            }
            Verdict::Impossible(refusal) => vec![refusal],
            Verdict::Against(refusals) => refusals,
        };
        let press = Press { acts: acts.to_vec(), nth };
        return Err(Outcome::Refused { press, refusals, can_go_on: false });
    }
    Ok(after)
}

/// Every key held at every prefix of every demo job: it enters one thing or nothing.
#[test]
fn a_key_that_is_held_enters_one_thing_at_every_prefix_of_every_demo_job() {
    let shop = Shop::new();
    assert_eq!(shop.run(&["demo", shop.path("jobs").to_str().unwrap()]).code, 0);
    let (mut prefixes, mut one) = (0, 0);
    let mut files: Vec<_> =
        std::fs::read_dir(shop.path("jobs")).unwrap().map(|f| f.unwrap().path()).collect();
    files.sort();
    for file in files.iter().filter(|file| file.to_string_lossy().ends_with(".job.ron")) {
        let entries = read_journal(&std::fs::read(file).unwrap()).entries;
        // The big one asks the same over and over while it is recorded.
        let stride = if entries.len() > 300 { 24 } else { 1 };
        let mut job = Job::default();
        for (n, entry) in entries.into_iter().enumerate() {
            job.apply(entry);
            if n % stride != 0 {
                continue;
            }
            prefixes += 1;
            let assessment = job.assess(job.entries().last().unwrap().at, Some(BY));
            for key in keys() {
                let entered = hold(&job, &assessment, key);
                assert!(
                    entered.len() <= 1,
                    "{} after {}: {key:?} held enters {entered:?}",
                    file.display(),
                    n + 1
                );
                one += entered.len();
            }
        }
    }
    assert!(prefixes > 300 && one > 100, "{prefixes} prefixes, {one} of them enter something");
}

/// Keys that come at once, as the shell hands them on.
fn at_once(desk: &mut Desk, text: &str) {
    let code = |c| if c == '\n' { KeyCode::Enter } else { KeyCode::Char(c) };
    let keys: Vec<KeyEvent> = text.chars().map(|c| press(code(c))).collect();
    let mut burst = Burst::of(&keys);
    while let Some(key) = desk.with(|ui, sight| ui.next_key(sight, &mut burst)) {
        desk.press(key.code);
    }
}

#[test]
fn a_pasted_line_goes_into_the_field_whole_and_answers_nothing_after_it() {
    let mut desk = Desk::at(Bench::ready());
    let entries = desk.bench.job.entries().len();
    desk.keys("!n");
    desk.typed("-");
    at_once(&mut desk, "it rubs! torn, why?\no");
    assert_eq!(desk.bench.job.entries().len(), entries + 1);
    let last = &desk.bench.job.entries().last().unwrap().act;
    assert!(matches!(last, Act::Note { text, .. } if text == "it rubs! torn, why?"), "{last:?}");
    // A short value and its Enter may be followed by the next keys.
    desk.keys("og");
    at_once(&mut desk, "1\nct");
    assert_eq!(desk.bench.job.account(desk.bench.now).wires.new, 1);
}

fn asks_for_a_key(desk: &mut Desk) -> bool {
    matches!(desk.with(|ui, sight| ui.asked(sight)), Asked::Picks { .. })
}

#[test]
fn text_that_comes_at_once_where_one_key_answers_is_said_and_not_taken() {
    let mut desk = Desk::at(Bench::ready());
    let entries = desk.bench.job.entries().len();
    assert!(asks_for_a_key(&mut desk));
    at_once(&mut desk, "heat marks on it");
    assert_eq!(desk.bench.job.entries().len(), entries);
    assert!(
        matches!(&desk.ui.message, Some(Message::Refused(say)) if say.contains("nothing of it was taken"))
    );
    // Three keys of a quick hand are taken: out, good, and the label's first figure.
    at_once(&mut desk, "og1");
    assert_eq!((desk.bench.job.entries().len(), desk.ui.field.as_str()), (entries + 2, "1"));
    // Where a value is typed everything goes in, as fast as it comes.
    at_once(&mut desk, "2 and the rest of a long line?");
    assert_eq!(desk.ui.field, "12 and the rest of a long line?");
    // Nor does the list of other actions take it.
    let mut desk = Desk::at(Bench::ready());
    desk.keys("!");
    at_once(&mut desk, "stop it now");
    assert_eq!(desk.bench.job.entries().len(), entries);
    assert!(desk.ui.chosen.is_none());
}

#[test]
fn a_question_mark_goes_into_the_field_and_help_has_a_key_of_its_own_there() {
    let mut desk = Desk::at(Bench::new("sp-16", "sp-16"));
    desk.keys("/");
    desk.typed("9");
    desk.keys("w");
    desk.keys("YE ?");
    assert_eq!(desk.ui.field, "YE ?");
    desk.press(KeyCode::F(1));
    let plain = Theme { palette: Palette::None, ascii: true };
    assert!(desk.picture(80, 24, plain).contains("help (Esc closes"));
    // What is typed meant the question under it: nothing happens, and help stays.
    desk.keys("x");
    assert!(desk.picture(80, 24, plain).contains("help (Esc closes"));
    desk.press(KeyCode::Esc);
    desk.press(KeyCode::Enter);
    assert!(desk.bench.job.state().records.found.contains_key(&"old:9".parse().unwrap()));
    // Where one key answers, ? is help.
    desk.keys("?");
    assert!(desk.picture(80, 24, plain).contains("help (Esc closes"));
}

#[test]
fn the_way_out_empties_what_is_typed_before_it_leaves() {
    let mut desk = Desk::at(Bench::ready());
    desk.keys("/ab");
    let out = KeyEvent::new(KeyCode::Char('c'), KeyModifiers::CONTROL);
    assert_eq!(desk.with(|ui, sight| ui.update(sight, out)), Effect::None);
    assert_eq!(desk.ui.field, "");
    assert_eq!(desk.with(|ui, sight| ui.update(sight, out)), Effect::Leave);
}

#[test]
fn the_list_of_other_actions_always_shows_hand_over_and_stop() {
    let plain = Theme { palette: Palette::None, ascii: true };
    for bench in [Bench::new("sp-16", "sp-16"), Bench::ready(), Bench::moved()] {
        let mut desk = Desk::at(bench);
        desk.keys("!");
        let things = desk.with(|ui, sight| ui.things(sight));
        let picture = desk.picture(80, 24, plain);
        for (thing, key, text) in OTHERS.iter().filter(|(thing, ..)| things.contains(thing)) {
            assert!(picture.contains(&format!("[{key}] {text}")), "{thing:?}: {picture}");
        }
        assert!(picture.contains("[h] hand over") && picture.contains("[t] STOP"), "{picture}");
    }
}

#[test]
fn each_thing_that_follows_another_has_a_key_of_its_own() {
    let key = |pick: Pick| pick.key();
    let series: [&[Pick]; 3] = [
        &[Pick::AssuranceOff, Pick::PartOff, Pick::Unlocked, Pick::Out],
        &[Pick::KeyFits, Pick::LatchFits, Pick::GenderFits, Pick::ClipFits],
        &[Pick::PartOn, Pick::LooksEven, Pick::LooksHigh],
    ];
    for picks in series {
        let mut keys: Vec<char> = picks.iter().map(|pick| key(*pick)).collect();
        keys.sort_unstable();
        keys.dedup();
        assert_eq!(keys.len(), picks.len(), "{picks:?}");
    }
}

#[test]
fn describing_a_housing_takes_no_paste_for_an_answer_and_no_held_key_twice() {
    let mut define = Define::new("test".to_owned());
    let mut types = |text: &str| {
        for c in text.chars() {
            let code = if c == '\n' { KeyCode::Enter } else { KeyCode::Char(c) };
            define.update(press(code));
        }
        define.clone()
    };
    let asks_face = types("KX-4\n2\n2\n");
    let pasted: Vec<KeyEvent> = "wire face".chars().map(|c| press(KeyCode::Char(c))).collect();
    assert!(asks_face.clone().refuses_paste(&pasted));
    // Not sealed and no lock share a key: held, it answers the first.
    let sealed = types("wlatch\n1r1\np");
    let held = types("nnnn");
    assert_ne!(sealed, held);
    let mut once = sealed.clone();
    once.update(press(KeyCode::Char('n')));
    assert_eq!(once, held);
}

/// Two cavities with the same content: the second takes the key that is shown for it.
#[test]
fn where_the_key_that_answered_would_answer_again_another_one_is_shown_and_works() {
    let mut bench = Bench::new("sp-16", "sp-16");
    bench.passes_the_gates();
    for housing in ["old", "new"] {
        bench.does(&format!(r#"View(housing:"{housing}",face:Wire,up:"latch")"#));
    }
    let mut desk = Desk::at(bench);
    let plain = Theme { palette: Palette::None, ascii: true };
    desk.keys("/");
    desk.typed("1");
    desk.keys("ppp");
    let recorded = |desk: &Desk| desk.bench.job.state().records.found.len();
    assert_eq!(recorded(&desk), 1);
    let picture = desk.picture(80, 24, plain);
    assert!(picture.contains("[2] plug (not p twice)"), "{picture}");
    desk.keys("2");
    assert_eq!(recorded(&desk), 2);
    desk.keys("222p");
    assert_eq!(recorded(&desk), 3);
    // Any other key frees the one that was used.
    desk.keys("zp");
    assert_eq!(recorded(&desk), 4);
}
