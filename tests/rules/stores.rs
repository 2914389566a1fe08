//! What a job is known by: its random id, never the name of its file or how that was typed.

use repin::{
    service::{JobAt, OpenJob},
    store::read_journal,
};

use crate::{
    cli::{Shop, demo},
    support::Bench,
};

fn ticket_of(shop: &Shop, job: &str) -> (String, u64) {
    let journal = read_journal(&std::fs::read(shop.path(&format!("{job}.job.ron"))).unwrap());
    match &journal.entries.first().unwrap().act {
        repin::job::Act::Ticket { id, seed, .. } => (id.as_ref().unwrap().to_string(), *seed),
        other => panic!("{other:?}"),
    }
}

fn number_of(shop: &Shop, job: &str) -> String {
    shop.json(&["request", job])["request"].as_str().unwrap().to_owned()
}

#[test]
fn two_stores_with_a_job_of_one_name_give_two_numbers() {
    let (one, other) = (Shop::new(), Shop::new());
    for shop in [&one, &other] {
        shop.new_job("sc1", "sp-16", "sp-16", &[]);
    }
    assert_ne!(ticket_of(&one, "sc1"), ticket_of(&other, "sc1"));
    assert_ne!(number_of(&one, "sc1"), number_of(&other, "sc1"));
}

#[test]
fn the_codes_on_disk_are_those_of_the_program() {
    let folder = tempfile::TempDir::new().unwrap();
    let path = folder.path().join("board.job.ron");
    let bench = Bench::ready();
    let mut open =
        OpenJob::start(&JobAt::file(&path), bench.job.entries().to_vec(), "kt", bench.now).unwrap();
    let entry = |act: &str| repin::job::Entry::new(bench.now, "kt", Bench::parse(act));
    open.enter_press(vec![entry(r#"Extract(from:"old:1",colour:"RD",freely:true,seal:On)"#)]).unwrap();
    open.enter_press(vec![entry("Inspect(verdict:Good)")]).unwrap();
    let claimed =
        r#"Insert(into:"new:2",click:true,anyway:(by:"K. Tanner",reason:"hurry",codes:["look-alike"]))"#;
    open.enter_press(vec![entry(claimed)]).unwrap();
    let text = std::fs::read_to_string(&path).unwrap();
    let last = text.lines().last().unwrap();
    assert!(last.contains(r#"codes:["wrong-cavity"]"#) && !last.contains("look-alike"), "{last}");
    // The entries of one press name the first, on disk, too.
    let press = [r#"Note(text:"one")"#, r#"Note(text:"two")"#].map(entry).to_vec();
    open.enter_press(press).unwrap();
    let text = std::fs::read_to_string(&path).unwrap();
    let mut last = text.lines().rev();
    let first = format!(",with:{},", text.lines().count() - 1);
    assert!(last.next().unwrap().contains(&first) && !last.next().unwrap().contains(",with:"), "{text}");
}

#[test]
fn a_job_that_is_renamed_keeps_its_number_sent_or_not() {
    let shop = Shop::new();
    shop.new_job("before", "sp-16", "sp-16", &[]);
    let number = number_of(&shop, "before");
    std::fs::rename(shop.path("before.job.ron"), shop.path("after.job.ron")).unwrap();
    assert_eq!(number_of(&shop, "after"), number);
    let sent = shop.run(&["request", "after", "--send"]);
    assert!(sent.code <= 1, "{sent:?}");
    std::fs::rename(shop.path("after.job.ron"), shop.path("again.job.ron")).unwrap();
    assert_eq!(number_of(&shop, "again"), number);
}

#[test]
fn the_seed_follows_the_id_and_not_how_the_name_was_typed() {
    let shop = Shop::new();
    shop.new_job("board", "sp-16", "sp-16", &[]);
    let path = shop.path("path.job.ron");
    shop.new_job(path.to_str().unwrap(), "sp-16", "sp-16", &[]);
    for job in ["board", "path"] {
        let (id, seed) = ticket_of(&shop, job);
        assert_eq!(id.len(), 32, "{id}");
        assert!(seed != 0);
        // By path or by name it is one job with one order of questions.
        let by_path = shop.path(&format!("{job}.job.ron"));
        let run = |name: &str| shop.json(&["steps", name])["steps"].clone();
        assert_eq!(run(job), run(by_path.to_str().unwrap()));
    }
    shop.new_job("seeded", "sp-16", "sp-16", &["--seed", "4072"]);
    assert_eq!(ticket_of(&shop, "seeded").1, 4072);
}

#[test]
fn the_lock_says_who_has_the_job_and_since_when() {
    let shop = Shop::new();
    shop.new_job("board", "sp-16", "sp-16", &[]);
    let now = "2026-11-25T07:00:00Z".parse().unwrap();
    let path = shop.path("board.job.ron");
    let _open = OpenJob::open(&JobAt::file(&path), "K. Tanner", now).unwrap();
    let run = shop.run_with(&["enter", "board"], "RecordFinished(side:Should)", &[]);
    assert_eq!(run.code, 2, "{run:?}");
    assert!(run.err.contains("K. Tanner on ") && run.err.contains("since 2026-11-25T07:00:00Z"), "{run:?}");
    // Entered by the command line, the lock's text is of today, too.
    drop(_open);
    assert_eq!(shop.run_with(&["enter", "board"], "RecordFinished(side:Should)", &[]).code, 0);
    let text = std::fs::read_to_string(shop.path("board.lock")).unwrap();
    assert!(text.starts_with("kt on ") && !text.contains("1970"), "{text}");
}

#[test]
fn what_was_asked_for_stands_in_the_journal_without_its_file() {
    let shop = Shop::new();
    shop.new_job(
        "fernwalker",
        "fw-hsg-12a",
        "fw-hsg-12a",
        &["--serial", "FW8-20731", "--reason", "latch broken"],
    );
    let text = std::fs::read_to_string(demo("fernwalker-boom-tip.acts")).unwrap();
    let (before, _) = text.split_once("// Opening").unwrap();
    assert_eq!(shop.run_with(&["enter", "fernwalker"], before, &[]).code, 0);
    let sent = shop.run(&["request", "fernwalker", "--send"]);
    assert!(sent.code <= 1, "{sent:?}");
    let file = shop.files().into_iter().find(|name| name.ends_with(".request.ron")).unwrap();
    let first = shop.json(&["request", "fernwalker"]);
    std::fs::remove_file(shop.path(&file)).unwrap();
    // The next revision is held against the entry, which says all that the file said.
    assert_eq!(shop.json(&["request", "fernwalker"]), first);
    assert_eq!((&first["revision"], &first["changed"]), (&serde_json::json!(1), &serde_json::json!(false)));
    let plan = r#"Planned(lead:"old:3",how:NewTerminal,reason:"bent",part:"FW-TRM-F15")"#;
    assert_eq!(shop.run_with(&["enter", "fernwalker"], plan, &[]).code, 0);
    let second = shop.json(&["request", "fernwalker"]);
    assert_eq!((&second["revision"], &second["changed"]), (&serde_json::json!(2), &serde_json::json!(true)));
    let numbers = |request: &serde_json::Value| {
        let lines = request["lines"].as_array().unwrap().iter();
        lines.map(|line| (line["kind"].clone(), line["line"].clone())).collect::<Vec<_>>()
    };
    assert!(numbers(&first).iter().all(|line| numbers(&second).contains(line)), "{second}");
}

#[test]
fn the_demo_has_its_own_numbers_for_ever() {
    let shops = [Shop::new(), Shop::new()];
    let numbers = shops.each_ref().map(|shop| {
        let folder = shop.path("demo");
        let run = shop.run(&["demo", folder.to_str().unwrap()]);
        assert_eq!(run.code, 0, "{run:?}");
        let job = folder.join("fernwalker.job.ron");
        number_of_path(shop, job.to_str().unwrap())
    });
    assert_eq!(numbers[0], numbers[1]);
}

fn number_of_path(shop: &Shop, path: &str) -> String {
    shop.json(&["request", path])["request"].as_str().unwrap().to_owned()
}
