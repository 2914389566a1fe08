//! Would a test notice? Every change of `changes.ron` is made in a copy of the tree, behind one
//! switch, so that one build serves them all; the tests run once for each, and a change that no test
//! notices is named. Not part of the usual run: it takes some seconds a change, and minutes for one
//! that nothing notices.
//!
//! `cargo test --test changed_rules` tries all, `-- 12 40` these. Ends with exit 1 when fewer than 95 in
//! a hundred are noticed.

use std::{
    collections::{BTreeMap, BTreeSet},
    fs,
    path::{Path, PathBuf},
    process::{Command, Stdio},
    sync::{
        Mutex,
        atomic::{AtomicUsize, Ordering},
    },
    time::{Duration, Instant},
};

use serde::Deserialize;

const LIST: &str = include_str!("changes.ron");

/// The variable that says which change is made.
const SWITCH: &str = "REPIN_CHANGE";

/// The theme that looks at the source, and would see the switch itself.
const LEFT_OUT: &str = "tidy";

/// A test that takes longer than this hangs: that is noticed.
const PATIENCE: Duration = Duration::from_secs(300);

/// One change: in a file, what stands between the marks « and », and what it becomes. A statement that
/// becomes nothing is left out.
#[derive(Debug, Deserialize)]
struct Change(String, String, String);

fn main() {
    let changes: Vec<Change> = ron::from_str(LIST).unwrap_or_else(|why| panic!("changes.ron: {why}"));
    let asked: Vec<usize> = std::env::args().filter_map(|arg| arg.parse().ok()).collect();
    let root = PathBuf::from(env!("CARGO_MANIFEST_DIR"));
    let tree = root.join("target/changed-rules/tree");
    copy_tree(&root, &tree);
    for (file, text) in changed_files(&root, &changes) {
        write_if_other(&tree.join(file), &text);
    }
    let tests = build(&tree);
    let numbers: Vec<usize> = (1..=changes.len()).filter(|n| asked.is_empty() || asked.contains(n)).collect();
    let found = run_all(&tree, &tests, &numbers, &|n, by| println!("{}", said(n, &changes[n - 1], by)));
    println!("not noticed:");
    let unnoticed: Vec<&usize> = found.iter().filter(|(_, by)| by.is_none()).map(|(n, _)| n).collect();
    for n in &unnoticed {
        println!("{}", said(**n, &changes[**n - 1], None));
    }
    let unnoticed = unnoticed.len();
    let share = 100.0 * (found.len() - unnoticed) as f64 / found.len().max(1) as f64;
    println!("{} changes, {unnoticed} not noticed: {share:.1} % noticed", found.len());
    if share < 95.0 {
        std::process::exit(1);
    }
}

fn said(n: usize, Change(file, from, to): &Change, by: Option<&str>) -> String {
    match by {
        Some(by) => format!("{n:4}  noticed by {by}"),
        None => format!("{n:4}  NOT NOTICED  {file}\n      {}\n      -> {to}", squeezed(from)),
    }
}

fn squeezed(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Copies what a build needs; files that are the same are left as they are, so that little is built anew.
fn copy_tree(root: &Path, tree: &Path) {
    for name in ["Cargo.toml", "Cargo.lock", "README.md", "DEVELOPERS.md", "LICENSE"] {
        write_if_other(&tree.join(name), &fs::read(root.join(name)).unwrap());
    }
    for folder in ["src", "tests", "benches", "connectors", "demo-data"] {
        copy_folder(&root.join(folder), &tree.join(folder));
    }
}

fn copy_folder(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap() {
        let path = entry.unwrap().path();
        let there = to.join(path.file_name().unwrap());
        match path.is_dir() {
            true => copy_folder(&path, &there),
            false => write_if_other(&there, &fs::read(&path).unwrap()),
        }
    }
}

fn write_if_other(path: &Path, bytes: impl AsRef<[u8]>) {
    if fs::read(path).ok().as_deref() != Some(bytes.as_ref()) {
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, bytes).unwrap();
    }
}

/// The files with every change in them, each behind the switch.
fn changed_files(root: &Path, changes: &[Change]) -> BTreeMap<String, String> {
    let mut places: BTreeMap<&str, BTreeMap<(usize, usize), Vec<(usize, &str)>>> = BTreeMap::new();
    let mut texts: BTreeMap<&str, String> = BTreeMap::new();
    for (n, Change(file, from, to)) in (1..).zip(changes) {
        let text = texts.entry(file).or_insert_with(|| fs::read_to_string(root.join(file)).unwrap());
        let (start, end) = place_of(text, from).unwrap_or_else(|why| panic!("change {n}, {file}: {why}"));
        places.entry(file).or_default().entry((start, end)).or_default().push((n, to));
    }
    let mut changed: BTreeMap<String, String> = BTreeMap::new();
    for (file, places) in places {
        let text = &texts[file];
        let (mut out, mut at) = (String::new(), 0);
        for ((start, end), ways) in places {
            assert!(start >= at, "{file}: two changes overlap at \"{}\"", &text[start..end]);
            out.push_str(&text[at..start]);
            out.push_str(&switched(&text[start..end], &ways));
            at = end;
        }
        out.push_str(&text[at..]);
        changed.insert(file.to_owned(), out);
    }
    let lib = changed.entry("src/lib.rs".to_owned());
    let lib = lib.or_insert_with(|| fs::read_to_string(root.join("src/lib.rs")).unwrap());
    lib.push_str(&format!(
        "\n/// Whether this change is made.\n#[inline(never)]\npub fn changed(n: u32) -> bool {{\n    static NOW: std::sync::OnceLock<Option<u32>> = std::sync::OnceLock::new();\n    *NOW.get_or_init(|| std::env::var(\"{SWITCH}\").ok()?.parse().ok()) == Some(n)\n}}\n"
    ));
    changed
}

/// Where the marked part of a pattern stands, which has to stand there once.
fn place_of(text: &str, pattern: &str) -> Result<(usize, usize), String> {
    let (before, rest) = pattern.split_once('«').ok_or("there is no « in it")?;
    let (marked, after) = rest.split_once('»').ok_or("there is no » in it")?;
    let whole = format!("{before}{marked}{after}");
    let mut found = text.match_indices(&whole).map(|(at, _)| at);
    let at = found.next().ok_or_else(|| format!("\"{whole}\" is not there"))?;
    if found.next().is_some() {
        return Err(format!("\"{whole}\" stands there more than once"));
    }
    Ok((at + before.len(), at + before.len() + marked.len()))
}

/// The old text and its changes, one of them in force.
fn switched(old: &str, ways: &[(usize, &str)]) -> String {
    let is_statement = old.trim_end().ends_with([';', '}']) && ways.iter().all(|(_, to)| to.is_empty());
    if is_statement {
        let not: Vec<String> = ways.iter().map(|(n, _)| format!("!crate::changed({n})")).collect();
        return format!("if {} {{ {old} }}", not.join(" && "));
    }
    let tried = ways.iter().map(|(n, to)| format!("if crate::changed({n}) {{ {to} }} else "));
    format!("({}{{ {old} }})", tried.collect::<String>())
}

/// The tests of one theme: a module of a test program.
struct Theme {
    program: PathBuf,
    /// The name of the program, then the module.
    name: String,
    module: String,
}

/// Builds the tests once; gives their themes, the quick ones first.
fn build(tree: &Path) -> Vec<Theme> {
    let mut cargo = Command::new(env!("CARGO"));
    cargo.args(["test", "--no-run", "--locked", "--message-format", "json"]).current_dir(tree);
    cargo
        .env("CARGO_TARGET_DIR", tree.join("../build"))
        .env("RUSTFLAGS", "-Awarnings")
        .env("CARGO_PROFILE_TEST_DEBUG", "0")
        .stderr(Stdio::inherit());
    let output = cargo.output().unwrap();
    let text = String::from_utf8_lossy(&output.stdout);
    let messages = text.lines().filter_map(|line| serde_json::from_str::<serde_json::Value>(line).ok());
    let mut tests = Vec::new();
    for message in messages {
        if message["reason"] == "compiler-message" && message["message"]["level"] == "error" {
            eprintln!("{}", message["message"]["rendered"].as_str().unwrap_or_default());
        }
        let name = message["target"]["name"].as_str().unwrap_or_default().to_owned();
        if let Some(program) = message["executable"].as_str()
            && message["profile"]["test"] == true
        {
            tests.extend(themes_of(tree, &name, Path::new(program)));
        }
    }
    assert!(output.status.success(), "the changed tree does not build");
    let mut timed: Vec<(Duration, Theme)> = Vec::new();
    for theme in tests {
        let start = Instant::now();
        let failed = run(tree, &theme, 0);
        assert_eq!(failed, None, "{} fails without any change", theme.name);
        timed.push((start.elapsed(), theme));
    }
    // The rules' own tables are the most likely to notice, but for those that take long.
    timed.sort_by_key(|(took, theme)| {
        (!theme.name.starts_with("rules ") || *took > Duration::from_secs(2), *took)
    });
    timed.into_iter().map(|(_, theme)| theme).collect()
}

/// The themes of a test program, as it lists them.
fn themes_of(tree: &Path, name: &str, program: &Path) -> Vec<Theme> {
    let list = Command::new(program).arg("--list").current_dir(tree).output().unwrap();
    let text = String::from_utf8_lossy(&list.stdout);
    let tests = text.lines().filter_map(|line| line.strip_suffix(": test"));
    let modules: BTreeSet<&str> = tests.filter_map(|test| Some(test.split_once("::")?.0)).collect();
    let themes = modules.into_iter().filter(|module| *module != LEFT_OUT).map(|module| Theme {
        program: program.to_owned(),
        name: format!("{name} {module}"),
        module: format!("{module}::"),
    });
    themes.collect()
}

/// Tries changes two at a time, and tells each result as it comes: a run that is stopped was not for nothing.
fn run_all(
    tree: &Path,
    tests: &[Theme],
    numbers: &[usize],
    tell: &(impl Fn(usize, Option<&str>) + Sync),
) -> BTreeMap<usize, Option<String>> {
    let (next, found) = (AtomicUsize::new(0), Mutex::new(BTreeMap::new()));
    std::thread::scope(|scope| {
        for _ in 0..2 {
            scope.spawn(|| {
                while let Some(n) = numbers.get(next.fetch_add(1, Ordering::Relaxed)) {
                    let by = noticed_by(tree, tests, *n);
                    tell(*n, by.as_deref());
                    found.lock().unwrap().insert(*n, by);
                }
            });
        }
    });
    found.into_inner().unwrap()
}

/// The first test that fails under a change.
fn noticed_by(tree: &Path, tests: &[Theme], n: usize) -> Option<String> {
    tests.iter().find_map(|theme| Some(format!("{}: {}", theme.name, run(tree, theme, n)?)))
}

/// Runs one theme under a change; the name of what failed.
fn run(tree: &Path, theme: &Theme, n: usize) -> Option<String> {
    let mut test = Command::new(&theme.program);
    test.arg(&theme.module);
    test.current_dir(tree).env(SWITCH, n.to_string()).env("INSTA_UPDATE", "no").env("RUST_BACKTRACE", "0");
    test.env("INSTA_WORKSPACE_ROOT", tree).env("PROPTEST_CASES", "64");
    let out = tempfile::NamedTempFile::new().unwrap();
    test.stdin(Stdio::null()).stdout(out.reopen().unwrap()).stderr(Stdio::null());
    let mut child = test.spawn().unwrap();
    let start = Instant::now();
    let status = loop {
        if let Some(status) = child.try_wait().unwrap() {
            break status;
        }
        if start.elapsed() > PATIENCE {
            let _ = child.kill();
            let _ = child.wait();
            return Some("hangs".to_owned());
        }
        std::thread::sleep(Duration::from_millis(5));
    };
    if status.success() {
        return None;
    }
    let text = fs::read_to_string(out.path()).unwrap_or_default();
    let failed = text.lines().find_map(|line| line.strip_prefix("test ")?.strip_suffix(" ... FAILED"));
    Some(failed.unwrap_or("ended otherwise").to_owned())
}
