//! Whole jobs by the questions alone: a technician who makes no mistake answers from what is really in the
//! connectors of the demo, from the first gate to the signature.

use std::collections::{BTreeMap, BTreeSet};

use repin::{
    drill::{Technician, Truth, Walked, walk},
    form::read_acts,
    job::{Act, Entry, Job, Verdict},
    procedure::{Ask, Done, HaltQuestion, JobView, Reply, Stop, Topic, ask, topic_now},
    reckoning::{Finding, Height, PositionKey, ToolBook, ToolPosition},
    record::{Address, CavityContent},
    report::{alarm_words, flag_words},
    store::{line_of, read_journal},
};

use crate::{desk::Desk, support::Bench};

/// What is really in the connector of a demo file: its record as it stands in the end, and what was found on
/// the leads in the hand.
fn connector(file: &str, bench: &Bench) -> (BTreeMap<Address, CavityContent>, BTreeMap<Address, Finding>) {
    let path = format!("{}/demo-data/{file}", env!("CARGO_MANIFEST_DIR"));
    let lines = read_acts(file, &std::fs::read_to_string(path).unwrap()).unwrap();
    let (mut job, mut hurt, mut in_hand) = (bench.job.clone(), BTreeMap::new(), None);
    for line in lines {
        match &line.act {
            Act::Extract { from, .. } => in_hand = Some(from.clone()),
            Act::Inspect { found: Some(found), .. } => hurt.extend(in_hand.clone().map(|at| (at, *found))),
            _ => {}
        }
        job.apply(Entry::new(bench.now, "kt".to_owned(), line.act));
    }
    (job.state().records.found.clone(), hurt)
}

/// The job of a demo file with nothing done, and the technician before its connector.
pub fn before(file: &str, old: &str, new: &str) -> (Bench, Technician) {
    let bench = Bench::new(old, new);
    let truth = truth_of(file, &bench);
    (bench, Technician::before(truth))
}

fn truth_of(file: &str, bench: &Bench) -> Truth {
    let (holds, hurt) = connector(file, bench);
    Truth {
        holds,
        hurt,
        stiff: BTreeSet::new(),
        serial: bench.job.state().world.ticket.serial.clone(),
        name: "K. Tanner".to_owned(),
    }
}

/// Walks a job and looks at every question before it is answered.
pub fn by_hand(
    bench: Bench,
    technician: &mut Technician,
    mut look: impl FnMut(&JobView<'_>, &Topic, &[Reply], &Ask),
) {
    let mut desk = Desk::at(bench);
    loop {
        let acts = desk.with(|_, view| {
            let (topic, mut given) = (topic_now(view), Vec::new());
            loop {
                match ask(view, &topic, &given) {
                    Ok(Done::Acts(acts)) => return acts,
                    Err(Stop::Ask(asked)) if asked.question == HaltQuestion::NothingLeft.into() => {
                        return Vec::new();
                    }
                    Err(Stop::Ask(asked)) => {
                        look(view, &topic, &given, &asked);
                        given.push(technician.reply(view, &asked).unwrap());
                    }
                    other => panic!("{other:?}"),
                }
            }
        });
        if acts.is_empty() {
            return;
        }
        for act in acts {
            let entry = Entry::new(desk.bench.now, "kt".to_owned(), act);
            assert_eq!(desk.bench.job.check(&entry), Verdict::Allowed, "{entry:?}");
            desk.bench.job.apply(entry);
        }
    }
}

/// A tool that is proved for the terminal of the boom tip on both its wires.
fn tools() -> ToolBook {
    let proved = |position: &str, wire: &str, target_mm: f64, least_n: f64| ToolPosition {
        key: PositionKey {
            tool: "hand tool 0113".to_owned(),
            position: position.to_owned(),
            terminal: "FW-TRM-F15".parse().unwrap(),
            wire: wire.parse().unwrap(),
        },
        heights_mm: vec![target_mm; 5],
        pulls_n: [1.0, 2.0, 3.0, 4.0, 5.0].map(|more| least_n + more).to_vec(),
        minimum_n: Some((least_n, "IEC 60352-2 by mm², from memory".to_owned())),
        sheet: Some(Height { target_mm, tolerance_mm: 0.05 }),
        until: jiff::civil::date(2099, 3, 31),
        by: "K. Tanner".to_owned(),
        at: "2026-11-02T08:00:00Z".parse().unwrap(),
        withdrawn: None,
    };
    ToolBook { positions: vec![proved("C", "0.75", 1.24, 85.0), proved("B", "0.5", 1.12, 60.0)] }
}

#[track_caller]
fn closes(file: &str, old: &str, new: &str) -> Walked {
    let (bench, mut technician) = before(file, old, new);
    let walked = walk(bench.job, &tools(), "kt", bench.now, &mut technician);
    let walked = walked.unwrap_or_else(|stuck| panic!("{file}: {stuck}"));
    assert_eq!(walked.loud, [], "{file}");
    let account = walked.job.account(walked.now);
    let open: Vec<String> = account.open_flags().map(|flag| flag_words(flag).say).collect();
    assert_eq!((account.state.as_str(), open), ("closed", Vec::new()), "{file}");
    // What was entered is read back from its lines as it was.
    let entries = walked.job.entries();
    let (mut lines, mut last_sum) = (String::new(), String::new());
    for (n, entry) in (1..).zip(entries) {
        let (line, sum) = line_of(n, entry, &last_sum).unwrap();
        lines.push_str(&format!("{line}\n"));
        last_sum = sum;
    }
    let read = read_journal(lines.as_bytes());
    assert_eq!(Job::replay(read.entries).state(), walked.job.state(), "{file}");
    eprintln!(
        "{file}: {} questions, {} keys, {} entries",
        walked.questions,
        walked.keys,
        walked.job.entries().len()
    );
    walked
}

#[test]
fn whole_jobs_are_walked_by_the_questions_alone_to_the_signature() {
    for (file, old, new) in [
        ("spudrow-twin.acts", "sp-16", "sp-16"),
        ("skerry-pod.acts", "sk-10", "sk-10"),
        ("trailer-7-way.acts", "iso-1724", "iso-1724"),
        ("diagnostic-16-way.acts", "iso-15031-3-a", "iso-15031-3-a"),
        ("lanternhill-module.acts", "lh-24", "LH-24B"),
        ("fernwalker-boom-tip.acts", "fw-hsg-12a", "FW-HSG-12A"),
        ("quayline-door.acts", "ql-30", "ql-30"),
    ] {
        closes(file, old, new);
    }
}

#[test]
fn a_lead_that_does_not_click_is_pushed_again_and_the_job_closes_all_the_same() {
    let bench = Bench::new("sp-16", "sp-16");
    let mut truth = truth_of("spudrow-twin.acts", &bench);
    truth.stiff.insert("old:1".parse().unwrap());
    let technician = &mut Technician::before(truth);
    let walked = walk(bench.job, &tools(), "kt", bench.now, technician).unwrap();
    let pushed = |entry: &&Entry| matches!(entry.act, Act::Insert { again: true, .. });
    assert_eq!(walked.job.entries().iter().filter(pushed).count(), 1);
    assert_eq!(walked.loud.iter().map(alarm_words).collect::<Vec<_>>(), ["NO CLICK in new:1."]);
    assert_eq!(walked.job.account(walked.now).state.as_str(), "closed");
}

#[test]
fn a_question_without_an_answer_is_named() {
    let (bench, mut technician) = before("aurelia-bilge.acts", "as-18", "as-18p");
    let stuck = walk(bench.job, &tools(), "kt", bench.now, &mut technician).unwrap_err();
    assert!(stuck.to_string().contains("the technician has no answer: Splice("), "{stuck}");
}
