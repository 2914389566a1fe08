//! Whole jobs by the questions alone: a technician who makes no mistake answers from what is really in the
//! connectors of the demo, from the first gate to the signature.

use std::collections::{BTreeMap, BTreeSet};

use repin::{
    drill::{Technician, Truth, Walked, walk},
    job::{Entry, Job, Verdict},
    procedure::{Ask, Done, HaltQuestion, JobView, Reply, Stop, Topic, ask, topic_now},
    reckoning::ToolBook,
    record::{Address, CavityContent},
    store::{line_of, read_acts, read_journal},
};

use crate::{desk::Desk, support::Bench};

/// What is really in the connector of a demo file: its record as it stands in the end.
fn connector(file: &str, bench: &Bench) -> BTreeMap<Address, CavityContent> {
    let path = format!("{}/demo-data/{file}", env!("CARGO_MANIFEST_DIR"));
    let lines = read_acts(file, &std::fs::read_to_string(path).unwrap()).unwrap();
    let mut job = bench.job.clone();
    lines.into_iter().for_each(|line| job.apply(Entry::new(bench.now, "kt".to_owned(), line.act)));
    job.state().records.found.clone()
}

/// The job of a demo file with nothing done, and the technician before its connector.
pub fn before(file: &str, old: &str, new: &str) -> (Bench, Technician) {
    let bench = Bench::new(old, new);
    let truth = Truth {
        holds: connector(file, &bench),
        hurt: BTreeMap::new(),
        stiff: BTreeSet::new(),
        serial: bench.job.state().world.ticket.serial.clone(),
        name: "K. Tanner".to_owned(),
    };
    (bench, Technician::before(truth))
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

#[track_caller]
fn closes(file: &str, old: &str, new: &str) -> Walked {
    let (bench, mut technician) = before(file, old, new);
    let walked = walk(bench.job, &ToolBook::default(), "kt", bench.now, &mut technician);
    let walked = walked.unwrap_or_else(|stuck| panic!("{file}: {stuck}"));
    let account = walked.job.account(walked.now);
    let open: Vec<String> = account.open_flags().map(|flag| flag.say.clone()).collect();
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
        ("aurelia-bilge.acts", "as-18", "as-18p"),
        ("mulehaul-power.acts", "mh-06", "mh-06"),
        ("dewline-valves.acts", "dl-08", "dl-08r"),
    ] {
        closes(file, old, new);
    }
}
