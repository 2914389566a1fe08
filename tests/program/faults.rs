//! Files that are odd, broken, too large or planted, disks that fail, and text that is meant to harm:
//! each is named in a short sentence, nothing hangs, and nothing that was entered is lost.

use crate::cli;

use std::{
    fs::{self, File},
    path::Path,
    process::{Command, Stdio},
    time::{Duration, Instant},
};

use cli::{Run, Shop, demo};
use repin::{
    job::{Act, Entry},
    service::{JobAt, OpenJob, Shop as Jobs, board, last_request, lost_request},
    store::{Condition, line_of, read_journal},
};

/// A shop with one job.
fn shop() -> Shop {
    let shop = Shop::new();
    shop.new_job("a", "sk-10", "sk-10", &[]);
    shop
}

/// Runs the program, and ends it where it waits for something.
#[track_caller]
fn quick(shop: &Shop, args: &[&str]) -> Run {
    let mut command = Command::new(env!("CARGO_BIN_EXE_repin"));
    command.args(args).env("REPIN_STORE", shop.folder.path()).env("REPIN_BY", "kt");
    let (out, err) = (shop.path(".out"), shop.path(".err"));
    command.stdin(Stdio::null());
    command.stdout(File::create(&out).unwrap()).stderr(File::create(&err).unwrap());
    let mut child = command.spawn().unwrap();
    let started = Instant::now();
    let code = loop {
        if let Some(status) = child.try_wait().unwrap() {
            break status.code().unwrap_or(-1);
        }
        if started.elapsed() > Duration::from_secs(20) {
            child.kill().unwrap();
            panic!("{args:?} waits for something");
        }
        std::thread::sleep(Duration::from_millis(5));
    };
    let text = |path: &Path| String::from_utf8_lossy(&fs::read(path).unwrap()).into_owned();
    Run { code, out: text(&out), err: text(&err) }
}

/// Not done: one short error that says this, nothing on stdout.
#[track_caller]
fn not_done(run: &Run, says: &[&str]) {
    assert_eq!((run.code, run.out.as_str()), (2, ""), "{run:?}");
    says.iter().for_each(|say| assert!(run.err.contains(say), "{say}: {run:?}"));
    assert!(run.err.len() < 4_000, "{} bytes of error", run.err.len());
}

/// A pipe, where the machine can make one.
fn pipe(path: &Path) -> bool {
    let made = Command::new("mkfifo").arg(path).status().is_ok_and(|status| status.success());
    if !made {
        eprintln!("skipped: there is no mkfifo on this machine");
    }
    made
}

/// A file that says it is this large and takes no room.
fn huge(path: &Path) {
    File::create(path).unwrap().set_len(65 << 20).unwrap();
}

/// What may lie where a file should, with what is said of it. All of them named `NAME<n>.ENDING`.
fn odd_files(shop: &Shop, ending: &str) -> Vec<(String, &'static str)> {
    let mut made = Vec::new();
    let mut name = |what| {
        let name = format!("odd{}{ending}", made.len());
        made.push((name.clone(), what));
        shop.path(&name)
    };
    fs::create_dir(name("this is a folder")).unwrap();
    huge(&name("larger than"));
    let there = shop.path("pipe");
    if pipe(&there) {
        fs::rename(&there, name("this is a pipe")).unwrap();
    }
    #[cfg(unix)]
    {
        std::os::unix::fs::symlink("/dev/zero", name("not a file")).unwrap();
        drop(std::os::unix::net::UnixListener::bind(name("this is a socket")).unwrap());
    }
    made
}

#[test]
fn odd_files_named_like_jobs_are_said_and_left_alone_and_the_others_are_shown() {
    let shop = shop();
    let mut odd = odd_files(&shop, ".job.ron");
    fs::write(shop.path("empty.job.ron"), "").unwrap();
    odd.push(("empty.job.ron".to_owned(), "the file is empty"));
    #[cfg(unix)]
    {
        std::os::unix::fs::symlink(shop.path("a.job.ron"), shop.path("linked.job.ron")).unwrap();
        odd.push(("linked.job.ron".to_owned(), "this is a link"));
    }
    for (file, what) in &odd {
        let id = file.strip_suffix(".job.ron").unwrap();
        for args in [vec!["check", id], vec!["steps", id], vec!["request", id], vec!["request", id, "--send"]]
        {
            not_done(&quick(&shop, &args), &[file, what]);
        }
        let acts = demo("skerry-pod.acts");
        not_done(&quick(&shop, &["enter", id, acts.to_str().unwrap()]), &[file, what]);
        let old_housing = ["new", "b", "--old", "sk-10", "--new", "sk-10", "--found"];
        not_done(&quick(&shop, &[&old_housing[..], &[file]].concat()), &[file]);
        let at = JobAt::file(&shop.path(file));
        let said = OpenJob::open(&at, "kt", "2026-11-25T07:00:00Z".parse().unwrap());
        assert!(said.unwrap_err().to_string().contains(what), "{file}");
    }
    // The board shows each with its sentence, and the job beside them.
    let store = Jobs::at(shop.folder.path().to_owned()).store();
    let jobs = board(&store, "2026-11-25T07:00:00Z".parse().unwrap()).unwrap();
    assert_eq!(jobs.len(), odd.len() + 1);
    for listed in jobs {
        let file = format!("{}.job.ron", listed.id);
        match odd.iter().find(|(odd, _)| *odd == file) {
            Some((_, what)) => assert!(listed.stands.unwrap_err().contains(what), "{file}"),
            None => assert!(listed.stands.is_ok(), "{file}"),
        }
    }
}

#[test]
fn whatever_is_read_is_a_file_and_not_too_large_or_is_named() {
    let shop = shop();
    fs::create_dir(shop.path("library")).unwrap();
    fs::create_dir(shop.path("tools")).unwrap();
    let new = ["new", "b", "--old", "sk-10", "--new", "sk-10"];
    for (file, what) in odd_files(&shop, ".ron") {
        let path = shop.path(&file);
        let path = path.to_str().unwrap();
        let says = [file.as_str(), what];
        not_done(&quick(&shop, &[&new[..], &["--rules", path]].concat()), &says);
        not_done(&quick(&shop, &[&new[..], &["--map", path]].concat()), &says);
        not_done(&quick(&shop, &[&new[..], &["--should", path]].concat()), &says);
        not_done(&quick(&shop, &["enter", "a", path]), &says);
        not_done(&quick(&shop, &["wiring", "read", path]), &says);
        not_done(&quick(&shop, &["housing", "check", path]), &says);
        let there = shop.path("library").join(&file);
        fs::rename(path, &there).unwrap();
        not_done(&quick(&shop, &["housing", "list"]), &says);
        fs::rename(there, path).unwrap();
        // Without the tool book parts are asked for all the same, and that it cannot be read is said.
        let there = shop.path("tools").join(&file);
        fs::rename(path, &there).unwrap();
        let asked = quick(&shop, &["request", "a"]);
        assert!(asked.code == 1 && asked.out.contains("PARTS REQUEST"), "{asked:?}");
        assert!(says.iter().all(|word| asked.err.contains(word)), "{asked:?}");
        fs::rename(there, path).unwrap();
        fs::rename(path, shop.path("house-rules.ron")).unwrap();
        not_done(&quick(&shop, &new), &["house-rules.ron", what]);
        fs::rename(shop.path("house-rules.ron"), path).unwrap();
    }
    let long = " ".repeat((4 << 20) + 1);
    not_done(&shop.run_with(&["calc", "drop"], &long, &[]), &["standard input", "larger than 4 MB"]);
    let long = " ".repeat((64 << 20) + 1);
    not_done(&shop.run_with(&["enter", "a"], &long, &[]), &["standard input", "larger than 64 MB"]);
}

#[test]
fn a_job_with_a_mark_at_its_start_is_read_and_written_and_keeps_it() {
    let shop = shop();
    let path = shop.path("a.job.ron");
    let bytes = fs::read(&path).unwrap();
    fs::write(&path, [b"\xef\xbb\xbf", &bytes[..]].concat()).unwrap();
    for note in ["Note(text:\"one\")", "Note(text:\"two\")"] {
        let run = shop.run_with(&["enter", "a"], note, &[]);
        assert_eq!(run.code, 0, "{run:?}");
    }
    let written = fs::read(&path).unwrap();
    let rest = written.strip_prefix(b"\xef\xbb\xbf").unwrap();
    assert!(rest.starts_with(&bytes));
    let (before, after) = (read_journal(&bytes), read_journal(rest));
    assert_eq!((after.entries.len(), after.condition), (before.entries.len() + 2, Condition::Whole));
}

/// Runs the program where a file can have a block at most; a program that writes more is killed, or,
/// where `told`, the disk says that it is full.
#[cfg(unix)]
fn on_a_full_disk(shop: &Shop, blocks: usize, told: bool, args: &[&str]) -> std::process::Output {
    let trap = if told { "trap '' XFSZ; " } else { "" };
    let mut command = Command::new("sh");
    command.arg("-c").arg(format!("{trap}ulimit -f {blocks}; exec \"$0\" \"$@\""));
    command.arg(env!("CARGO_BIN_EXE_repin")).args(args);
    command.env("REPIN_STORE", shop.folder.path()).env("REPIN_BY", "kt").stdin(Stdio::null());
    command.output().unwrap()
}

#[cfg(unix)]
#[test]
fn a_new_job_that_is_killed_while_it_is_written_is_not_there() {
    let shop = Shop::new();
    let new = ["new", "a", "--old", "sk-10", "--new", "sk-10"];
    let killed = on_a_full_disk(&shop, 1, false, &new);
    assert_ne!(killed.status.code(), Some(0), "{killed:?}");
    assert!(!shop.path("a.job.ron").exists(), "{:?}", shop.files());
    let refused = on_a_full_disk(&shop, 1, true, &new);
    assert_eq!(refused.status.code(), Some(2), "{refused:?}");
    assert!(!shop.path("a.job.ron").exists(), "{:?}", shop.files());
    assert_eq!(shop.run(&new).code, 0);
}

#[cfg(unix)]
#[test]
fn a_disk_that_fills_up_keeps_what_was_entered_and_takes_more_once_it_is_free() {
    let shop = shop();
    let path = shop.path("a.job.ron");
    let bytes = fs::read(&path).unwrap();
    // Without its last line end, as a text editor may leave it.
    fs::write(&path, &bytes[..bytes.len() - 1]).unwrap();
    let acts = shop.path("notes.acts");
    fs::write(&acts, format!("Note(text:\"{}\")\n", "x".repeat(400)).repeat(200)).unwrap();
    let full = on_a_full_disk(&shop, bytes.len() / 512 + 2, true, &["enter", "a", acts.to_str().unwrap()]);
    let said = String::from_utf8_lossy(&full.stderr);
    assert_eq!(full.status.code(), Some(2), "{said}");
    assert!(said.contains("a.job.ron") && said.contains("Nothing was entered"), "{said}");
    let journal = read_journal(&fs::read(&path).unwrap());
    assert_eq!(journal.trouble("a"), None);
    assert!(journal.entries.len() < 100, "the disk was not full");
    assert_eq!(shop.run_with(&["enter", "a"], "Note(text:\"free\")", &[]).code, 0);
    let after = read_journal(&fs::read(&path).unwrap());
    assert_eq!((after.entries.len(), after.condition), (journal.entries.len() + 1, Condition::Whole));
}

#[cfg(unix)]
#[test]
fn a_link_planted_as_a_lock_is_named_and_what_it_leads_to_stays_as_it_is() {
    let shop = shop();
    let precious = shop.path("precious");
    fs::write(&precious, "precious").unwrap();
    fs::remove_file(shop.path("a.lock")).unwrap();
    std::os::unix::fs::symlink(&precious, shop.path("a.lock")).unwrap();
    let before = fs::read(shop.path("a.job.ron")).unwrap();
    let run = shop.run_with(&["enter", "a"], "Note(text:\"x\")", &[]);
    not_done(&run, &["a.lock is a link, not a lock", "open the job again"]);
    // Looking needs no lock.
    assert_eq!(shop.run(&["steps", "a"]).code, 0);
    std::os::unix::fs::symlink(&precious, shop.path("b.lock")).unwrap();
    not_done(&shop.run(&["new", "b", "--old", "sk-10", "--new", "sk-10"]), &["b.lock is a link"]);
    assert_eq!(fs::read_to_string(&precious).unwrap(), "precious");
    assert_eq!(fs::read(shop.path("a.job.ron")).unwrap(), before);
    assert!(!shop.path("b.job.ron").exists());
}

/// A shop with a job that asks for parts, and the file of its request.
fn asking() -> (Shop, String) {
    let shop = shop();
    let sent = shop.json(&["request", "a", "--send"]);
    let file = format!("{}-1.request.ron", sent["request"].as_str().unwrap());
    assert!(shop.path(&file).is_file(), "{:?}", shop.files());
    (shop, file)
}

/// Puts something else in the place of a request's file, in every way it can be broken.
fn broken_requests<'a>(path: &'a Path, whole: &str) -> Vec<Box<dyn Fn() + 'a>> {
    let put = move |text: String| {
        Box::new(move || {
            let _ = fs::remove_dir(path);
            let _ = fs::remove_file(path);
            fs::write(path, &text).unwrap();
        }) as Box<dyn Fn() + 'a>
    };
    vec![
        put(String::new()),
        put(whole[..whole.len() / 2].to_owned()),
        put(whole.replace("revision:", "revised:")),
        put(format!("(format:9,{}", whole.trim_start_matches('('))),
        put("\u{0}\u{1b}[31m".to_owned()),
        put("[".repeat(3 << 20)),
        Box::new(move || {
            fs::remove_file(path).unwrap();
            huge(path);
        }),
        Box::new(move || {
            fs::remove_file(path).unwrap();
            fs::create_dir(path).unwrap();
        }),
    ]
}

#[test]
fn a_broken_request_file_keeps_nobody_from_the_job_which_holds_what_was_asked_for() {
    let (shop, file) = asking();
    let path = shop.path(&file);
    let whole = fs::read_to_string(&path).unwrap();
    for (n, spoil) in broken_requests(&path, &whole).iter().enumerate() {
        spoil();
        let open = OpenJob::look(&JobAt::file(&shop.path("a.job.ron"))).unwrap();
        assert!(last_request(&open).is_some(), "{n}");
        assert!(lost_request(&open).is_none(), "{n}");
        let run = shop.run_with(&["enter", "a"], "Note(text:\"x\")", &[]);
        assert_eq!(run.code, 0, "{n}: {run:?}");
        assert_eq!(shop.json(&["request", "a"])["changed"], false, "{n}");
        if path.is_file() {
            assert_eq!(shop.run(&["request", "a", "--send"]).code, 0, "{n}");
            assert_eq!(fs::read_to_string(&path).unwrap(), whole, "{n}");
        }
    }
}

/// A job as version 1 wrote it, whose entry does not hold what was asked for.
fn version_1(shop: &Shop) -> (OpenJob, std::path::PathBuf) {
    let kept = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/journals/v1/quayline.job.ron");
    let path = shop.path("quayline.job.ron");
    fs::copy(kept, &path).unwrap();
    let open = OpenJob::look(&JobAt::file(&path)).unwrap();
    let sent = open.job().state().supply.requested.clone().unwrap();
    let request = shop.path(&format!("{}-{}.request.ron", sent.number, sent.revision));
    (open, request)
}

#[test]
fn a_version_1_job_opens_without_its_request_file_and_says_what_cannot_be_compared() {
    let shop = Shop::new();
    let (open, path) = version_1(&shop);
    let last =
        open.job().state().supply.requested.as_ref().unwrap().lines.iter().map(|l| l.line).max().unwrap();
    let name = path.file_name().unwrap().to_str().unwrap();
    fs::write(&path, "x").unwrap();
    for (n, spoil) in broken_requests(&path, "(request:\"x\",revision:1)").iter().enumerate() {
        spoil();
        assert!(last_request(&open).is_none(), "{n}");
        let said = lost_request(&open).unwrap().to_string();
        assert!(
            said.contains("cannot be compared") && said.contains(name) && said.len() < 900,
            "{n}: {said}"
        );
        let run = quick(&shop, &["request", "quayline", "--json"]);
        assert_eq!((run.code, run.err.contains("cannot be compared")), (1, true), "{n}: {run:?}");
        // The numbers of its lines are known all the same, and never given again.
        let request: serde_json::Value = serde_json::from_str(&run.out).unwrap();
        let lines = request["lines"].as_array().unwrap();
        assert!(lines.iter().all(|line| line["line"].as_u64().unwrap() > u64::from(last)), "{request}");
        assert_eq!(quick(&shop, &["steps", "quayline"]).code, 0, "{n}");
    }
    // It cannot be written again from the job: that is said, and nothing is written.
    fs::remove_dir(&path).unwrap();
    let there = shop.path("there");
    let run = shop.run(&["request", "quayline", "--export", there.to_str().unwrap()]);
    not_done(&run, &["cannot be compared", name]);
    assert!(!there.exists());
}

#[test]
fn an_order_whose_file_cannot_be_written_is_recorded_and_the_file_can_be_written_again() {
    let (shop, file) = asking();
    let whole = fs::read_to_string(shop.path(&file)).unwrap();
    // The same job, before it asks; a folder stands where the file is to be.
    let shop = {
        let again = Shop::new();
        let text = fs::read_to_string(shop.path("a.job.ron")).unwrap();
        let lines: Vec<&str> = text.lines().collect();
        let before: String = lines[..lines.len() - 1].iter().map(|line| format!("{line}\n")).collect();
        fs::write(again.path("a.job.ron"), before).unwrap();
        again
    };
    let out = shop.path("out");
    let out = out.to_str().unwrap();
    let run = shop.run(&["request", "a", "--export", out]);
    assert_eq!((run.code, run.err.contains("nothing was sent yet")), (1, true), "{run:?}");
    assert!(!Path::new(out).exists());
    fs::create_dir(shop.path(&file)).unwrap();
    let run = shop.run(&["request", "a", "--send"]);
    not_done(&run, &["the order IS recorded", &file, "repin request a --export DIR"]);
    let open = OpenJob::look(&JobAt::file(&shop.path("a.job.ron"))).unwrap();
    assert_eq!(open.job().state().supply.requested.as_ref().unwrap().revision, 1);
    // Written again elsewhere, from the job alone.
    let run = shop.run(&["request", "a", "--export", out]);
    assert_eq!((run.code, run.out.contains(&file)), (0, true), "{run:?}");
    assert_eq!(fs::read_to_string(Path::new(out).join(&file)).unwrap(), whole);
    // A folder that cannot be made.
    let run = shop.run(&["request", "a", "--export", shop.path("a.job.ron").to_str().unwrap()]);
    not_done(&run, &["a.job.ron"]);
    // Sent again, the file is written again, and nothing is kept twice.
    fs::remove_dir(shop.path(&file)).unwrap();
    assert_eq!(shop.run(&["request", "a", "--send"]).code, 0);
    assert_eq!(fs::read_to_string(shop.path(&file)).unwrap(), whole);
    let after = OpenJob::look(&JobAt::file(&shop.path("a.job.ron"))).unwrap();
    assert_eq!(after.job().entries(), open.job().entries());
    let left: Vec<String> = shop.files().into_iter().filter(|name| name.starts_with(".repin")).collect();
    assert!(left.is_empty(), "{left:?}");
}

#[test]
fn twenty_senders_at_once_leave_one_whole_file() {
    let (shop, file) = asking();
    let whole = fs::read_to_string(shop.path(&file)).unwrap();
    #[cfg(unix)]
    let precious = {
        // Whoever can guess a temporary name could have planted it.
        fs::write(shop.path("precious"), "precious").unwrap();
        std::os::unix::fs::symlink(shop.path("precious"), shop.path(&format!(".{file}.new"))).unwrap();
        shop.path("precious")
    };
    let mut senders: Vec<_> = (0..20)
        .map(|_| {
            let mut command = Command::new(env!("CARGO_BIN_EXE_repin"));
            command.args(["request", "a", "--send"]).env("REPIN_STORE", shop.folder.path());
            command.stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap()
        })
        .collect();
    let codes: Vec<_> = senders.iter_mut().map(|sender| sender.wait().unwrap().code()).collect();
    assert_eq!(codes, vec![Some(0); 20]);
    assert_eq!(fs::read_to_string(shop.path(&file)).unwrap(), whole);
    #[cfg(unix)]
    assert_eq!(fs::read_to_string(precious).unwrap(), "precious");
    assert!(!shop.files().iter().any(|name| name.starts_with(".repin")), "{:?}", shop.files());
}

#[test]
fn a_number_that_is_a_path_is_refused_and_never_followed() {
    let shop = Shop::new();
    fs::create_dir(shop.path("jobs")).unwrap();
    let store = shop.path("jobs");
    let args = ["--store", store.to_str().unwrap()];
    let new = ["new", "a", "--old", "sk-10", "--new", "sk-10"];
    assert_eq!(shop.run(&[&new[..], &args].concat()).code, 0);
    let act = "Requested(number:\"../secret\",revision:1,lines:[])";
    let run = shop.run_with(&[&["enter", "a"][..], &args].concat(), act, &[]);
    assert_eq!(run.code, 1, "{run:?}");
    assert!(run.err.contains("\"../secret\" is not the number of a request"), "{run:?}");
    // A journal whose sums are right says so all the same: what it names is not read.
    fs::write(shop.path("secret-1.request.ron"), "(secret)").unwrap();
    let path = store.join("a.job.ron");
    let mut bytes = fs::read(&path).unwrap();
    let journal = read_journal(&bytes);
    let act = Act::Requested { number: "../secret".into(), revision: 1, lines: vec![], said: None };
    let entry = Entry::new("2026-11-25T07:00:00Z".parse().unwrap(), "kt", act);
    let (line, _) = line_of(journal.entries.len() + 1, &entry, &journal.last_sum).unwrap();
    bytes.extend(format!("{line}\n").bytes());
    fs::write(&path, bytes).unwrap();
    let open = OpenJob::look(&JobAt::file(&path)).unwrap();
    let said = lost_request(&open).unwrap().to_string();
    assert!(said.contains("\"../secret\" is not the number of a request"), "{said}");
    assert!(last_request(&open).is_none());
}

#[cfg(unix)]
#[test]
fn the_demo_has_a_folder_that_nobody_guesses_or_reads() {
    use std::os::unix::fs::PermissionsExt;
    let shop = Shop::new();
    let temporary = [("TMPDIR", shop.folder.path().to_str().unwrap())];
    for _ in 0..2 {
        let run = shop.run_with(&["demo"], "", &temporary);
        assert_eq!(run.code, 0, "{run:?}");
    }
    let folders = shop.files();
    assert_eq!(folders.len(), 2);
    for folder in folders {
        let mode = fs::metadata(shop.path(&folder)).unwrap().permissions().mode();
        assert_eq!(mode & 0o777, 0o700, "{folder}");
        let tail = folder.strip_prefix("repin-demo-").unwrap();
        assert!(!tail.chars().all(|c| c.is_ascii_digit() || c == '-'), "{folder} can be guessed");
    }
}

/// Whether nothing in an output acts on a terminal.
#[track_caller]
fn harmless(run: &Run) {
    for text in [&run.out, &run.err] {
        let harmful = text.chars().find(|c| *c != '\n' && repin::quantity::is_harmful(*c));
        assert_eq!(harmful, None, "{run:?}");
    }
}

#[test]
fn nothing_that_acts_on_a_terminal_is_sent_to_it() {
    let shop = shop();
    let list = shop.path("list.csv");
    fs::write(&list, "cavity,wire,colour,size,note\n1,W1\u{202e},RD,0.5,\u{9b}31m\n2,W2,RD,0.5\u{202e},\n")
        .unwrap();
    let run = shop.run(&["wiring", "read", list.to_str().unwrap(), "--json"]);
    harmless(&run);
    let read: serde_json::Value = serde_json::from_str(&run.out).unwrap();
    assert_eq!(read["cavities"][0]["wire"], "W1\u{202e}", "{read}");
    harmless(&shop.run(&["wiring", "read", list.to_str().unwrap()]));
    for args in [
        &["frob\u{1b}[31m"][..],
        &["check", "--frob\u{1b}[31m\u{202e}"],
        &["request", "a", "--format", "\u{1b}[31m"],
        &["check", "x\u{1b}[31m"],
        &["housing", "show", "x\u{1b}[31m"],
    ] {
        let run = shop.run(args);
        harmless(&run);
        not_done(&run, &["<U+001B>"]);
    }
    let folder = shop.path("x\u{1b}[31m\u{202e}");
    let folder = folder.to_str().unwrap();
    for args in [&["demo", folder][..], &["new", "b", "--old", "sk-10", "--new", "sk-10", "--store", folder]]
    {
        let run = shop.run(args);
        assert_eq!((run.code, run.out.contains("<U+001B>")), (0, true), "{run:?}");
        harmless(&run);
    }
    let ticket = ["--asset", "x\u{202e}y", "--serial", "＝1+1"];
    shop.new_job("c", "sk-10", "sk-10", &ticket);
    for format in ["text", "csv", "json", "ron"] {
        let run = shop.run(&["request", "c", "--format", format]);
        harmless(&run);
        assert!(format != "csv" || run.out.contains(",'＝1+1"), "{run:?}");
    }
}

#[test]
fn where_ascii_is_asked_for_every_output_is_ascii() {
    let shop = Shop::new();
    shop.new_job("a", "fw-hsg-12a", "fw-hsg-12a", &["--asset", "Größe ×"]);
    assert_ne!(shop.enter_demo("a", "fernwalker-boom-tip.acts").code, 2);
    let list = shop.path("list.csv");
    fs::write(&list, "cavity,wire,colour,size\n1,W1,RD,0.5×\n2,W2 ×,RD,0.5\n").unwrap();
    let list = list.to_str().unwrap();
    for args in [
        &["check", "a"][..],
        &["steps", "a"],
        &["steps", "a", "--json"],
        &["request", "a"],
        &["request", "a", "--json"],
        &["request", "a", "--format", "csv"],
        &["request", "a", "--format", "ron"],
        &["wiring", "read", list],
        &["wiring", "read", list, "--json"],
        &["housing", "list"],
        &["housing", "show", "fw-hsg-12a"],
        &["housing", "show", "×"],
        &["check", "×"],
        &["frob×"],
    ] {
        let run = shop.run(&[args, &["--ascii"]].concat());
        assert!(run.out.is_ascii() && run.err.is_ascii(), "{run:?}");
        assert!(!run.out.is_empty() || !run.err.is_empty());
    }
}

#[test]
fn however_long_what_is_wrong_an_error_is_short_and_says_where() {
    let shop = shop();
    let long = "x".repeat(1_000_000);
    let path = |name: &str| shop.path(name).to_str().unwrap().to_owned();
    let short = |run: &Run, says: &str| {
        assert_ne!(run.code, 0);
        let bytes = run.out.len() + run.err.len();
        assert!(bytes < 4_000, "{bytes} bytes: {}", &run.err[..2_000.min(run.err.len())]);
        assert!(run.err.contains(says) || run.out.contains(says), "{says}: {run:?}");
    };
    for act in [
        format!("Fly{long}"),
        format!("Fly(at:\"{long}\")"),
        format!("Note({long}:1)"),
        format!("Tug(at:\"{long}\",held:true)"),
        format!("Tug(at:\"new:{long}\",held:true)"),
        format!("Tagged(lead:\"old:1\",tag:\"{long}\")"),
        format!("Measure(circuit:\"{long}\",test:Continuity,value:\"1\")"),
        format!("Requested(number:\"{long}\",revision:1,lines:[])"),
        format!("Recorded(side:Found,at:\"old:1\",holds:Wired(wires:[(colour:\"{long}\",gauge:\"0.5\")]))"),
        format!("Recorded(side:Found,at:\"old:1\",holds:Wired(wires:[(colour:\"RD\",gauge:\"{long}\")]))"),
    ] {
        short(&shop.run_with(&["enter", "a"], &act, &[]), "standard input:1:");
    }
    let new = ["new", "b", "--old", "sk-10", "--new", "sk-10"];
    for (option, text) in [
        ("--rules", format!("(format: 1, {long}: (8, \"x\"))")),
        ("--map", format!("(format: 1, map: [(\"{long}\", None)])")),
        ("--should", format!("(format: 1, cavities: [(\"1\", {long})])")),
    ] {
        fs::write(path("long.ron"), text).unwrap();
        short(&shop.run(&[&new[..], &[option, &path("long.ron")]].concat()), "long.ron");
    }
    fs::write(path("long.ron"), format!("(format: 1, {long}: 1)")).unwrap();
    short(&shop.run(&["housing", "check", &path("long.ron")]), "long.ron");
    for line in [
        format!("{long},W1,RD,0.5"),
        format!("1,\"{long},RD,0.5\n"),
        format!("1,W1,{long},0.5"),
        format!("1,W1,RD,{}", "9".repeat(9_000)),
        format!("1,W1,RD,0.5{}", ",x".repeat(500_000)),
    ] {
        fs::write(path("long.csv"), format!("cavity,wire,colour,size\n{line}\n")).unwrap();
        short(&quick(&shop, &["wiring", "read", &path("long.csv")]), "line ");
        short(&quick(&shop, &["wiring", "read", &path("long.csv"), "--json"]), "\"line\": ");
    }
    let attributes: String = (0..100_000).map(|n| format!(" a{n}=\"x\"")).collect();
    for (text, says) in [
        (
            format!("<?xml version=\"1.0\"?>\n<!-- <a b=\"\"> -->\n<x{attributes}/>"),
            "line 3: an element has more than 200",
        ),
        (format!("<{long}/>"), "no KBL"),
        (format!("<a></{long}>"), "line 1"),
    ] {
        fs::write(path("long.kbl"), text).unwrap();
        let started = Instant::now();
        short(&quick(&shop, &["wiring", "read", &path("long.kbl")]), says);
        assert!(started.elapsed() < Duration::from_secs(5));
    }
    short(&shop.run_with(&["calc", "drop"], &format!("{{\"{long}\": 1}}"), &[]), "stdin");
    let argument = "x".repeat(100_000);
    for args in [
        &["check", &argument][..],
        &[&argument],
        &["request", "a", "--format", &argument],
        &["request", "a", "--needed-by", &argument],
        &["housing", "show", &argument],
        &["new", "b", "--old", &argument, "--new", "sk-10"],
        &["new", "b", "--old", "sk-10", "--new", "sk-10", "--found", &argument],
    ] {
        short(&shop.run(args), "xxx");
    }
}
