//! Journals of every version written so far open for ever, with the same places, counts and request
//! number. Beside each journal stands its account as the program that wrote it gave it; a flag that
//! a later program rightly adds or takes away is named, with the reason, in `<job>.differs`.

use crate::cli;

use std::{collections::BTreeSet, fmt::Write, fs, path::PathBuf};

use cli::Shop;
use repin::{
    job::{Entry, Job, Place},
    store::{Condition, line_of, read_journal},
};

fn kept(version: &str) -> Vec<PathBuf> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/journals").join(version);
    let files = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let mut journals: Vec<PathBuf> =
        files.filter(|path| path.to_string_lossy().ends_with(".job.ron")).collect();
    journals.sort();
    journals
}

fn id_of(path: &std::path::Path) -> String {
    path.file_name().unwrap().to_string_lossy().trim_end_matches(".job.ron").to_owned()
}

fn place(place: &Place) -> String {
    match place {
        Place::In(at) => at.to_string(),
        Place::Parked(tag) => format!("parked {tag}"),
        other => format!("{other:?}").to_lowercase(),
    }
}

/// Places, counts and request number, then the flags, one thing a line. No sentences: those may be
/// put better.
fn account_of(path: &std::path::Path) -> (String, BTreeSet<String>) {
    let journal = read_journal(&fs::read(path).unwrap());
    assert_eq!(journal.condition, Condition::Whole, "{}", path.display());
    let at = journal.entries.last().unwrap().at;
    let job = Job::replay(journal.entries);
    let account = job.account(at);
    let mut out = String::new();
    let shop = Shop::new();
    fs::copy(path, shop.path(path.file_name().unwrap().to_str().unwrap())).unwrap();
    let request = shop.json(&["request", &id_of(path)]);
    writeln!(out, "request {}", request["request"].as_str().unwrap()).unwrap();
    let (w, l, p, o, c) = (account.wires, account.leads, account.plugs, account.others, account.cavities);
    writeln!(
        out,
        "wires {} = {} {} {} {} {} {}",
        w.found, w.old, w.hand, w.parked, w.new, w.removed, w.unseen
    )
    .unwrap();
    let q = l.places;
    writeln!(
        out,
        "leads {} + {} = {} {} {} {} {} {} {}",
        q.found, l.made, q.old, q.hand, q.parked, q.new, q.removed, l.joined, q.unseen
    )
    .unwrap();
    writeln!(
        out,
        "plugs {} + {} + {} = {} {} {} {} {} {} {} {}",
        p.found,
        p.prefitted,
        p.new_stock,
        p.old,
        p.hand,
        p.tray,
        p.new,
        p.scrapped,
        p.lost,
        p.returned,
        p.unseen
    )
    .unwrap();
    writeln!(
        out,
        "others {} = {} {} {} {} {} {} {} {}",
        o.found, o.old, o.hand, o.parked, o.new, o.scrapped, o.returned, o.lost, o.unseen
    )
    .unwrap();
    writeln!(
        out,
        "cavities {} = {} {} {} {} {} {} {}",
        c.total, c.wired, c.plugged, c.open, c.empty, c.blocked, c.spare, c.bridge
    )
    .unwrap();
    let state = job.state();
    for lead in &state.items.leads {
        writeln!(out, "lead {} {} {:?} {:?}", lead.id, place(&lead.place), lead.seat, lead.seal).unwrap();
    }
    for plug in &state.items.plugs {
        writeln!(out, "plug {} {}", plug.id, place(&plug.place)).unwrap();
    }
    for other in &state.items.others {
        writeln!(out, "other {} {}", other.id, place(&other.place)).unwrap();
    }
    let mut flags: BTreeSet<String> = BTreeSet::new();
    flags.insert(format!("state {}", account.state.as_str()));
    for flag in &account.flags {
        let at = flag.at.as_ref().map_or(String::new(), |at| format!(" {at}"));
        let accepted = if flag.accepted.is_some() { " accepted" } else { "" };
        flags.insert(format!("flag {}{at}{accepted}", flag.code()));
    }
    (out, flags)
}

/// The flags as kept, with what stands in `<job>.differs` applied: `+ flag …: why`, `- flag …: why`.
fn with_differences(path: &std::path::Path, kept: &str) -> BTreeSet<String> {
    let mut flags: BTreeSet<String> = kept
        .lines()
        .filter(|l| l.starts_with("flag") || l.starts_with("state"))
        .map(ToOwned::to_owned)
        .collect();
    let differs = path.with_file_name(format!("{}.differs", id_of(path)));
    let Ok(text) = fs::read_to_string(differs) else { return flags };
    for line in text.lines().filter(|line| !line.trim().is_empty() && !line.starts_with("//")) {
        let (change, why) = line.split_once("  ").expect("two blanks, then the reason");
        assert!(!why.trim().is_empty(), "{line}: no reason");
        match change.split_at(2) {
            ("+ ", flag) => assert!(flags.insert(flag.to_owned()), "{line}: there already"),
            ("- ", flag) => assert!(flags.remove(flag), "{line}: was not there"),
            _ => panic!("{line}: + or - first"),
        }
    }
    flags
}

/// Holds every journal of a version against the account beside it.
#[track_caller]
fn keep_their_accounts(version: &str, journals: usize) {
    let kept_ones = kept(version);
    assert_eq!(kept_ones.len(), journals);
    let mut wrong = Vec::new();
    for path in kept_ones {
        let account = path.with_file_name(format!("{}.account", id_of(&path)));
        let (places, flags) = account_of(&path);
        if std::env::var_os("REPIN_KEEP_ACCOUNTS").is_some() {
            let lines: Vec<&str> = flags.iter().map(String::as_str).collect();
            fs::write(&account, format!("{places}{}\n", lines.join("\n"))).unwrap();
            continue;
        }
        let kept = fs::read_to_string(&account).unwrap();
        let kept_places: String = kept
            .lines()
            .filter(|l| !l.starts_with("flag") && !l.starts_with("state"))
            .map(|l| format!("{l}\n"))
            .collect();
        if kept_places != places {
            wrong.push(format!("{}: places differ:\n{places}", id_of(&path)));
        }
        let expected = with_differences(&path, &kept);
        for flag in flags.difference(&expected) {
            wrong.push(format!("{}: + {flag}", id_of(&path)));
        }
        for flag in expected.difference(&flags) {
            wrong.push(format!("{}: - {flag}", id_of(&path)));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn journals_of_version_1_keep_their_places_counts_and_numbers() {
    keep_their_accounts("v1", 25);
}

/// Version 2 is not released yet: until then these are written anew when it gains a field.
#[test]
fn journals_of_version_2_keep_their_places_counts_and_numbers() {
    if std::env::var_os("REPIN_KEEP_JOURNALS").is_some() {
        let journal = journal_of_every_act();
        fs::write(
            PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/journals/v2/every-act.job.ron"),
            journal,
        )
        .unwrap();
    }
    keep_their_accounts("v2", 5);
}

/// The example of every act, one after another, on the housings of the kept one.
fn journal_of_every_act() -> String {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/journals/v1/every-act.job.ron");
    let world = read_journal(&fs::read(path).unwrap()).entries;
    let at = world[0].at;
    let acts = repin::form::read_acts("acts", &repin::form::examples().unwrap()).unwrap();
    let mut job = Job::default();
    world.into_iter().take(4).for_each(|entry| job.apply(entry));
    acts.into_iter().for_each(|line| job.apply(Entry::new(at, "kt", line.act)));
    let mut text = String::new();
    let mut sum = String::new();
    for (n, entry) in (1..).zip(job.entries()) {
        let (line, next) = line_of(n, entry, &sum).unwrap();
        writeln!(text, "{line}").unwrap();
        sum = next;
    }
    text
}
