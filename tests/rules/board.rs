//! The board shows of every job what its journal bears out, however old, damaged or planted the
//! summaries beside it are.

use std::{fs, path::Path, time::Duration};

use jiff::{SignedDuration, Timestamp};
use repin::service::{BoardJob, Shop, Stands, board};

use crate::cli::Shop as Bench;

const INDEX: &str = ".board";

fn now() -> Timestamp {
    "2026-11-25T09:00:00Z".parse().unwrap()
}

fn listed_at(bench: &Bench, now: Timestamp) -> Vec<BoardJob> {
    board(&Shop::at(bench.folder.path().to_owned()).store(), now).unwrap()
}

/// The board without any summary.
fn reckoned_at(bench: &Bench, now: Timestamp) -> Vec<BoardJob> {
    let other = Bench::new();
    for file in bench.files().iter().filter(|file| file.ends_with(".job.ron")) {
        fs::copy(bench.path(file), other.path(file)).unwrap();
    }
    listed_at(&other, now)
}

fn stands(jobs: &[BoardJob]) -> Vec<(String, Result<Stands, String>)> {
    let mut jobs: Vec<_> = jobs.iter().map(|job| (job.id.clone(), job.stands.clone())).collect();
    // A sentence about a file names its folder.
    jobs.iter_mut().for_each(|(_, stands)| {
        if let Ok(stands) = stands
            && let Some((_, rest)) = stands.about.split_once(".job.ron:")
        {
            stands.about = rest.to_owned();
        }
    });
    jobs.sort_by(|a, b| a.0.cmp(&b.0));
    jobs
}

#[track_caller]
fn is_borne_out(bench: &Bench) {
    for hours in [-24, 0, 7, 8, 24 * 400] {
        let now = now() + SignedDuration::from_hours(hours);
        assert_eq!(stands(&listed_at(bench, now)), stands(&reckoned_at(bench, now)), "{hours} h");
    }
}

/// The demo jobs, with an index that counts.
fn bench() -> Bench {
    let bench = Bench::new();
    let folder = bench.folder.path().to_str().unwrap();
    assert_eq!(bench.run(&["demo", folder]).code, 0);
    listed_at(&bench, now());
    assert!(counts(&bench, Duration::from_secs(60)));
    bench
}

/// Whether the index counts when it was written so long after the jobs: one that says something else of a
/// job is believed. It is left as it was, and that old.
fn counts(bench: &Bench, after: Duration) -> bool {
    let path = bench.path(INDEX);
    let kept = fs::read_to_string(&path).unwrap();
    let newest =
        jobs(bench).iter().map(|job| fs::metadata(bench.path(job)).unwrap().modified().unwrap()).max();
    let write = |text: &str| {
        fs::write(&path, text).unwrap();
        fs::File::options().write(true).open(&path).unwrap().set_modified(newest.unwrap() + after).unwrap();
    };
    let lie = kept.split_once('\n').unwrap().1.replace("steps done", "STEPS DONE");
    write(&format!("{}\n{lie}", head_of(&lie, env!("CARGO_PKG_VERSION"))));
    let believed = format!("{:?}", listed_at(bench, now())).contains("STEPS DONE");
    write(&kept);
    believed
}

fn head_of(rest: &str, version: &str) -> String {
    use sha2::{Digest, Sha256};
    let sum: String = Sha256::digest(rest).iter().take(8).map(|byte| format!("{byte:02x}")).collect();
    format!("{{\"program\":\"repin {version}\",\"sum\":\"{sum}\"}}")
}

fn jobs(bench: &Bench) -> Vec<String> {
    bench.files().into_iter().filter(|file| file.ends_with(".job.ron")).collect()
}

fn change(path: &Path, how: impl FnOnce(&mut Vec<u8>)) {
    let mut bytes = fs::read(path).unwrap();
    how(&mut bytes);
    fs::write(path, bytes).unwrap();
}

#[test]
fn the_board_says_the_same_with_and_without_summaries_at_any_time() {
    let bench = bench();
    assert!(jobs(&bench).len() >= 5);
    is_borne_out(&bench);
    fs::remove_file(bench.path(INDEX)).unwrap();
    is_borne_out(&bench);
}

#[test]
fn a_journal_that_is_changed_behind_the_index_is_read_again() {
    let bench = bench();
    let files = jobs(&bench);
    let path = bench.path(&files[0]);
    // A byte in the middle: length and last sum stay.
    let times = fs::metadata(&path).unwrap().modified().unwrap();
    change(&path, |bytes| {
        let middle = bytes.len() / 2;
        bytes[middle] ^= 1;
    });
    // Even where somebody sets its time back.
    fs::File::options().write(true).open(&path).unwrap().set_modified(times).unwrap();
    let listed = listed_at(&bench, now());
    let id = files[0].strip_suffix(".job.ron").unwrap();
    let said = listed.iter().find(|job| job.id == id).unwrap().stands.clone().unwrap();
    assert!(said.about.contains("this line is damaged"), "{said:?}");
    is_borne_out(&bench);
    // Cut at the end of a line, and within one.
    let path = bench.path(&files[1]);
    change(&path, |bytes| {
        let end = bytes[..bytes.len() - 1].iter().rposition(|byte| *byte == b'\n').unwrap();
        bytes.truncate(end + 1);
    });
    is_borne_out(&bench);
    change(&path, |bytes| bytes.truncate(bytes.len() - 9));
    is_borne_out(&bench);
    // One more entry by the program itself.
    let id = files[2].strip_suffix(".job.ron").unwrap();
    assert_eq!(bench.run_with(&["enter", id], "Stop(why:\"scrapped\")", &[]).code, 0);
    is_borne_out(&bench);
    let listed = listed_at(&bench, now());
    assert_eq!(listed.iter().find(|job| job.id == id).unwrap().stands.as_ref().unwrap().state, "stopped");
}

#[test]
fn two_jobs_that_change_their_names_change_what_is_said_of_them() {
    let bench = bench();
    let files = jobs(&bench);
    let [one, other, away] = [&files[0], &files[1], &"away".to_owned()].map(|file| bench.path(file));
    fs::rename(&one, &away).unwrap();
    fs::rename(&other, &one).unwrap();
    fs::rename(&away, &other).unwrap();
    is_borne_out(&bench);
    // A copy, too, and what is gone is not shown.
    fs::copy(&one, &other).unwrap();
    fs::remove_file(bench.path(&files[2])).unwrap();
    is_borne_out(&bench);
}

#[test]
fn an_index_that_is_damaged_or_of_another_program_or_no_file_is_worth_nothing() {
    let bench = bench();
    let path = bench.path(INDEX);
    let whole = fs::read_to_string(&path).unwrap();
    let lie = whole.split_once('\n').unwrap().1.replace("steps done", "STEPS DONE");
    let spoilt = [
        String::new(),
        whole[..whole.len() / 2].to_owned(),
        whole.replace("steps done", "STEPS DONE"),
        format!("{}\n{lie}", head_of(&lie, "0.0.1")),
        format!("{}\n{lie}{{}}\n", head_of(&format!("{lie}{{}}\n"), env!("CARGO_PKG_VERSION"))),
        "\u{0}[[[[".to_owned(),
    ];
    for (n, text) in spoilt.iter().enumerate() {
        fs::write(&path, text).unwrap();
        let listed = listed_at(&bench, now());
        assert_eq!(stands(&listed), stands(&reckoned_at(&bench, now())), "{n}");
        // It was written anew.
        let text = fs::read_to_string(&path).unwrap();
        assert!(
            text.lines().count() == 1 + jobs(&bench).len() && !text.contains("STEPS DONE"),
            "{n}: {text}"
        );
    }
    fs::remove_file(&path).unwrap();
    fs::create_dir(&path).unwrap();
    is_borne_out(&bench);
    fs::remove_dir(&path).unwrap();
    #[cfg(unix)]
    {
        fs::write(bench.path("precious"), "precious").unwrap();
        std::os::unix::fs::symlink(bench.path("precious"), &path).unwrap();
        is_borne_out(&bench);
        assert_eq!(fs::read_to_string(bench.path("precious")).unwrap(), "precious");
        assert!(fs::symlink_metadata(&path).unwrap().is_symlink());
    }
}

#[test]
fn a_summary_of_a_file_that_was_written_this_moment_does_not_count() {
    let bench = Bench::new();
    bench.new_job("a", "sk-10", "sk-10", &[]);
    listed_at(&bench, now());
    assert!(!counts(&bench, Duration::from_secs(1)));
    assert!(counts(&bench, Duration::from_secs(60)));
}

#[cfg(unix)]
#[test]
fn a_folder_that_cannot_be_written_is_listed_all_the_same() {
    use std::os::unix::fs::PermissionsExt;
    let bench = Bench::new();
    bench.new_job("a", "sk-10", "sk-10", &[]);
    let folder = bench.folder.path();
    fs::set_permissions(folder, fs::Permissions::from_mode(0o555)).unwrap();
    let listed = listed_at(&bench, now());
    let wrote = bench.path(INDEX).exists();
    fs::set_permissions(folder, fs::Permissions::from_mode(0o755)).unwrap();
    assert_eq!(listed.len(), 1);
    assert_eq!(listed[0].stands.as_ref().unwrap().state, "not-started");
    // Whoever may do everything writes it nevertheless.
    assert!(!wrote || is_root());
}

#[cfg(unix)]
fn is_root() -> bool {
    let run = std::process::Command::new("id").arg("-u").output().unwrap();
    String::from_utf8_lossy(&run.stdout).trim() == "0"
}
