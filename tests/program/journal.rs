//! The journal on disk: cut anywhere, flipped anywhere, opened twice, newer, on a bad disk.

use crate::cli;

use cli::Shop;
use repin::{
    job::Job,
    service::{JobAt, OpenJob},
    store::{Condition, line_of, read_journal},
};

/// The bytes of a real job with at least `entries` entries.
fn bytes_of(id: &str, housing: &str, file: &str) -> (Shop, Vec<u8>) {
    let shop = Shop::new();
    shop.new_job(id, housing, housing, &["--serial", "SK9-0084"]);
    assert_eq!(shop.enter_demo(id, file).code, 0);
    let bytes = std::fs::read(shop.path(&format!("{id}.job.ron"))).unwrap();
    (shop, bytes)
}

/// How many lines end before a cut.
fn whole_lines(bytes: &[u8], cut: usize) -> usize {
    bytes[..cut].iter().filter(|b| **b == b'\n').count()
}

#[test]
fn a_job_cut_at_every_byte_keeps_everything_before_the_cut_and_says_so() {
    let (_shop, bytes) = bytes_of("skerry", "sk-10", "skerry-pod.acts");
    for cut in 1..bytes.len() {
        let journal = read_journal(&bytes[..cut]);
        let lines = whole_lines(&bytes, cut);
        if bytes[cut - 1] == b'\n' {
            // A cut at a line end cannot be told from a job that stopped there.
            assert_eq!((journal.entries.len(), &journal.condition), (lines, &Condition::Whole), "cut {cut}");
        } else if bytes[cut] == b'\n' {
            assert_eq!(
                (journal.entries.len(), &journal.condition),
                (lines + 1, &Condition::NoLineEnd),
                "cut {cut}"
            );
        } else {
            assert_eq!(journal.entries.len(), lines, "cut {cut}");
            assert!(matches!(journal.condition, Condition::Torn(_)), "cut {cut}: {:?}", journal.condition);
            assert!(journal.trouble("x").unwrap().contains("was cut"), "cut {cut}");
        }
    }
}

#[test]
fn any_flipped_byte_is_found_and_its_line_is_named() {
    let (_shop, bytes) = bytes_of("skerry", "sk-10", "skerry-pod.acts");
    // Every byte of the last sixty entries; the definitions before them in steps.
    let start = bytes.len() - bytes.rsplit(|b| *b == b'\n').take(61).map(|l| l.len() + 1).sum::<usize>() + 1;
    let places = (0..start).step_by(97).chain(start..bytes.len());
    for at in places {
        let mut spoilt = bytes.clone();
        spoilt[at] ^= 0x01;
        let journal = read_journal(&spoilt);
        let line = whole_lines(&bytes, at) + 1;
        assert!(journal.entries.len() < line, "byte {at}: line {line} was believed");
        let trouble = journal.trouble("x").unwrap_or_else(|| panic!("byte {at} went unnoticed"));
        assert!(trouble.starts_with(&format!("x:{line}:")), "byte {at}: {trouble}");
    }
}

#[test]
fn a_line_that_is_missing_or_doubled_is_found() {
    let (_shop, bytes) = bytes_of("skerry", "sk-10", "skerry-pod.acts");
    let lines: Vec<&[u8]> = bytes.split_inclusive(|b| *b == b'\n').collect();
    let missing: Vec<u8> =
        lines.iter().enumerate().filter(|(n, _)| *n != 20).flat_map(|(_, l)| l.to_vec()).collect();
    assert_eq!(read_journal(&missing).entries.len(), 20);
    let mut doubled: Vec<&[u8]> = lines.clone();
    doubled.insert(20, lines[20]);
    assert!(read_journal(&doubled.concat()).entries.len() <= 21);
}

#[test]
fn a_torn_tail_is_said_set_aside_at_the_next_entry_and_nothing_is_lost() {
    let (shop, bytes) = bytes_of("skerry", "sk-10", "skerry-pod.acts");
    let path = shop.path("skerry.job.ron");
    std::fs::write(&path, &bytes[..bytes.len() - 9]).unwrap();
    let check = shop.run(&["check", "skerry", "--json"]);
    assert_eq!(check.code, 1);
    assert!(check.out.contains("was cut"), "{check:?}");
    // Readers never repair.
    assert_eq!(std::fs::read(&path).unwrap().len(), bytes.len() - 9);
    let run = shop.run_with(&["enter", "skerry"], r#"Note(text:"power cut")"#, &[]);
    assert_eq!((run.code, run.err.contains("was cut")), (1, true), "{run:?}");
    assert!(shop.files().contains(&"skerry.torn-1".to_owned()), "{:?}", shop.files());
    assert_eq!(shop.json(&["check", "skerry"])["damage"], serde_json::json!([]));
}

#[test]
fn damage_inside_stops_loading_with_the_file_and_line() {
    let (shop, mut bytes) = bytes_of("skerry", "sk-10", "skerry-pod.acts");
    let middle = bytes.len() / 2;
    bytes[middle] ^= 0x04;
    std::fs::write(shop.path("skerry.job.ron"), &bytes).unwrap();
    let line = whole_lines(&bytes, middle) + 1;
    for args in [["check", "skerry"], ["steps", "skerry"], ["request", "skerry"]] {
        let run = shop.run(&args);
        assert_eq!((run.code, run.out.as_str()), (2, ""), "{run:?}");
        assert!(run.err.contains(&format!("skerry.job.ron:{line}:")), "{run:?}");
    }
    let run = shop.run_with(&["enter", "skerry"], "PutBack", &[]);
    assert_eq!(run.code, 2, "{run:?}");
    // Everything before it can be shown.
    let open = OpenJob::look(&JobAt::file(&shop.path("skerry.job.ron"))).unwrap();
    assert_eq!(open.job().entries().len(), line - 1);
}

#[test]
fn a_newer_line_is_read_up_to_there_and_kept_byte_for_byte() {
    use repin::store::form::RECORD_VERSION;
    use sha2::{Digest, Sha256};
    let (shop, mut bytes) = bytes_of("skerry", "sk-10", "skerry-pod.acts");
    let journal = read_journal(&bytes);
    let n = journal.entries.len() + 1;
    let body = format!(
        "n:{n},at:\"2026-11-25T07:00:00Z\",by:\"kt\",v:{},act:Weld(at:\"old:1\")",
        RECORD_VERSION + 1
    );
    let digest = Sha256::new().chain_update(&journal.last_sum).chain_update(&body).finalize();
    let sum: String = digest.iter().take(8).map(|b| format!("{b:02x}")).collect();
    bytes.extend(format!("({body},sum:\"{sum}\")\n").bytes());
    let path = shop.path("skerry.job.ron");
    std::fs::write(&path, &bytes).unwrap();
    let mut open = OpenJob::open(&JobAt::file(&path), "kt", "2026-11-25T07:00:00Z".parse().unwrap()).unwrap();
    assert_eq!(open.job().entries().len(), n - 1);
    assert!(open.read_only().unwrap().contains("newer repin"));
    let entry = journal.entries.last().unwrap().clone();
    assert!(open.enter(entry).is_err());
    assert_eq!(std::fs::read(&path).unwrap(), bytes);
}

#[test]
fn a_second_opener_gets_it_read_only_and_is_told_who_has_it() {
    let (shop, _) = bytes_of("skerry", "sk-10", "skerry-pod.acts");
    let path = shop.path("skerry.job.ron");
    let now = "2026-11-25T07:00:00Z".parse().unwrap();
    let _first = OpenJob::open(&JobAt::file(&path), "K. Tanner", now).unwrap();
    let second = OpenJob::open(&JobAt::file(&path), "jo", now).unwrap();
    assert!(second.read_only().unwrap().contains("K. Tanner on "), "{:?}", second.read_only());
    let run = shop.run_with(&["enter", "skerry"], "PutBack", &[]);
    assert_eq!((run.code, run.err.contains("K. Tanner")), (2, true), "{run:?}");
    // Looking is always allowed.
    assert_eq!(shop.run(&["steps", "skerry"]).code, 0);
}

#[test]
fn a_file_changed_by_another_program_is_not_written_over() {
    let (shop, _) = bytes_of("skerry", "sk-10", "skerry-pod.acts");
    let path = shop.path("skerry.job.ron");
    let mut open = OpenJob::open(&JobAt::file(&path), "kt", "2026-11-25T07:00:00Z".parse().unwrap()).unwrap();
    let mut bytes = std::fs::read(&path).unwrap();
    bytes.extend(b"x");
    std::fs::write(&path, &bytes).unwrap();
    let entry = open.job().entries().last().unwrap().clone();
    let note = repin::job::Entry {
        act: repin::job::Act::Note { text: "x".into(), about: repin::job::About::Job },
        ..entry
    };
    let before = open.job().clone();
    assert!(open.enter(note).unwrap_err().to_string().contains("changed by another program"));
    assert_eq!((open.job(), std::fs::read(&path).unwrap()), (&before, bytes));
}

/// The disk fails: the job file is gone and a folder stands in its place.
#[test]
fn a_disk_that_fails_is_a_clear_error_and_the_job_does_not_run_ahead_of_it() {
    let (shop, _) = bytes_of("skerry", "sk-10", "skerry-pod.acts");
    let path = shop.path("skerry.job.ron");
    let mut open = OpenJob::open(&JobAt::file(&path), "kt", "2026-11-25T07:00:00Z".parse().unwrap()).unwrap();
    std::fs::remove_file(&path).unwrap();
    std::fs::create_dir(&path).unwrap();
    let entry = open.job().entries().last().unwrap().clone();
    let note = repin::job::Entry {
        act: repin::job::Act::Note { text: "x".into(), about: repin::job::About::Job },
        ..entry
    };
    let before = open.job().clone();
    let error = open.enter(note).unwrap_err().to_string();
    assert!(error.contains("skerry.job.ron") && error.contains("Nothing was entered"), "{error}");
    assert_eq!(open.job(), &before);
}

/// As many entries as the longest job will ever have, and more.
const MANY: usize = 100_000;

#[test]
fn a_hundred_thousand_entries_chain_and_replay() {
    let (_shop, bytes) = bytes_of("skerry", "sk-10", "skerry-pod.acts");
    let mut journal = read_journal(&bytes);
    let note = repin::job::Entry {
        act: repin::job::Act::Note { text: "n".into(), about: repin::job::About::Job },
        ..journal.entries.last().unwrap().clone()
    };
    let mut text = bytes.clone();
    while journal.entries.len() < MANY {
        let (line, sum) = line_of(journal.entries.len() + 1, &note, &journal.last_sum).unwrap();
        text.extend(line.bytes().chain([b'\n']));
        journal.entries.push(note.clone());
        journal.last_sum = sum;
    }
    let again = read_journal(&text);
    assert_eq!(again.entries.len(), MANY);
    assert_eq!(
        Job::replay(again.entries).state().course.notes.len(),
        MANY - read_journal(&bytes).entries.len()
    );
}

/// The name of the variant, as its debug text begins.
fn variant(act: &repin::job::Act) -> String {
    let text = format!("{act:?}");
    text.split(|c: char| !c.is_ascii_alphanumeric()).next().unwrap_or_default().to_owned()
}

#[test]
fn an_example_of_every_act_reads_back_and_none_is_left_out() {
    let shop = Shop::new();
    let run = shop.run(&["enter", "--acts"]);
    assert_eq!(run.code, 0);
    let acts = repin::store::read_acts("acts", &run.out).unwrap();
    let mut names: Vec<String> = acts.iter().map(|line| variant(&line.act)).collect();
    names.sort();
    names.dedup();
    // Ticket, Housed and Rules are written by `repin new` alone.
    assert_eq!(names, variants_of_act());
    for line in &acts {
        let entry = repin::job::Entry::new(
            "2026-11-25T07:00:00Z".parse().unwrap(),
            "kt \"x\" \u{e9}\n",
            line.act.clone(),
        );
        let (text, _) = line_of(1, &entry, "").unwrap();
        let journal = read_journal(format!("{text}\n").as_bytes());
        assert_eq!(journal.entries, [entry], "{text}");
    }
}

/// The names of all acts that people enter, from the enum itself.
fn variants_of_act() -> Vec<String> {
    let source = include_str!("../../src/job/act/mod.rs");
    let (_, body) = source.split_once("pub enum Act {").unwrap();
    let (body, _) = body.split_once("\n}").unwrap();
    let starts = body.lines().filter_map(|line| line.strip_prefix("    "));
    let names = starts.filter(|line| line.starts_with(|c: char| c.is_ascii_uppercase()));
    let mut names: Vec<String> =
        names.map(|line| line.split(|c: char| !c.is_alphanumeric()).next().unwrap().to_owned()).collect();
    names.retain(|name| !["Ticket", "Housed", "Rules"].contains(&name.as_str()));
    names.sort();
    names
}
