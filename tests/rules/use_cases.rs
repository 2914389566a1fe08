//! The use cases on a store in memory: what is entered, sent and written beside a job needs no disk.

use std::rc::Rc;

use repin::{
    service::{
        EnterProblem, JobAt, OpenJob, SendProblem, board, export_request, last_request, lost_request,
        send_request,
    },
    store::{EntryCount, FileName, MemoryStore, Store, StreamId},
    supply::RequestHead,
};

use crate::support::Bench;

/// A store with the job of this bench, open.
fn started(bench: &Bench) -> (Rc<MemoryStore>, JobAt, OpenJob) {
    let store = Rc::new(MemoryStore::default());
    let at = JobAt::new(store.clone(), StreamId::Job("board".parse().unwrap()));
    let open = OpenJob::start(&at, bench.job.entries().to_vec(), "kt", bench.now).unwrap();
    (store, at, open)
}

fn entry(bench: &Bench, act: &str) -> repin::job::Entry {
    repin::job::Entry::new(bench.now, "kt", Bench::parse(act))
}

#[test]
fn a_job_is_started_once_and_opened_by_one_at_a_time() {
    let bench = Bench::ready();
    let (_, at, first) = started(&bench);
    let mut second = OpenJob::open(&at, "jo", bench.now).unwrap();
    assert!(second.read_only().unwrap().contains("open at another bench: kt"), "{:?}", second.read_only());
    let said = second.enter(entry(&bench, r#"Note(text:"x")"#)).unwrap_err();
    assert!(matches!(said, EnterProblem::ReadOnly(_)), "{said:?}");
    let again = OpenJob::start(&at, bench.job.entries().to_vec(), "kt", bench.now).unwrap_err();
    assert!(again.to_string().contains("being started at another bench"), "{again}");
    drop((first, second));
    let again = OpenJob::start(&at, bench.job.entries().to_vec(), "kt", bench.now).unwrap_err();
    assert!(matches!(again, EnterProblem::AlreadyThere(_)), "{again:?}");
    let mut open = OpenJob::open(&at, "jo", bench.now).unwrap();
    open.enter(entry(&bench, r#"Note(text:"x")"#)).unwrap();
    assert_eq!(open.last().0, bench.job.entries().len() + 1);
    assert_eq!(OpenJob::look(&at).unwrap().job().entries(), open.job().entries());
}

#[test]
fn what_is_refused_is_not_kept() {
    let bench = Bench::ready();
    let (store, _, mut open) = started(&bench);
    let said = open.enter(entry(&bench, r#"Tug(at:"new:9",held:true)"#)).unwrap_err();
    assert!(matches!(said, EnterProblem::Refused { .. }), "{said:?}");
    let kept = store.read(&StreamId::Job("board".parse().unwrap()), EntryCount::default()).unwrap();
    assert_eq!(kept.entries, bench.job.entries());
    let refused = OpenJob::start(
        &JobAt::new(store.clone(), StreamId::Job("other".parse().unwrap())),
        vec![entry(&bench, "PutBack")],
        "kt",
        bench.now,
    );
    assert!(matches!(refused, Err(EnterProblem::Refused { nth: 0, .. })), "{refused:?}");
    assert!(!store.holds(&StreamId::Job("other".parse().unwrap())));
}

#[test]
fn a_request_that_is_sent_is_an_entry_and_a_text_beside_the_job() {
    let bench = Bench::ready();
    let (store, _, mut open) = started(&bench);
    let head = |by: &str| RequestHead { asked_by: by.to_owned(), ..RequestHead::default() };
    assert!(last_request(&open).is_none() && lost_request(&open).is_none());
    let elsewhere = tempfile::TempDir::new().unwrap();
    assert_eq!(export_request(&open, elsewhere.path()).unwrap(), None);
    let before = open.job().entries().len();
    let request = match send_request(&mut open, head("kt"), bench.now) {
        Ok(request) => request,
        Err(why @ (SendProblem::Incomplete(_) | SendProblem::NotEntered(_) | SendProblem::NoFile { .. })) => {
            panic!("{why}")
        }
    };
    assert_eq!(open.job().entries().len(), before + 1);
    let name = FileName::of_request(&request.number, request.revision);
    let text = store.exported(&name).unwrap().unwrap();
    assert!(text.contains(&request.number.to_string()), "{text}");
    // Sent again unchanged, nothing is kept twice; exported again, it says the same.
    send_request(&mut open, head("kt"), bench.now).unwrap();
    assert_eq!(open.job().entries().len(), before + 1);
    let file = export_request(&open, elsewhere.path()).unwrap().unwrap();
    assert_eq!(std::fs::read_to_string(file).unwrap(), text);
}

#[test]
fn the_board_lists_a_store_in_memory_and_follows_what_is_entered() {
    let bench = Bench::ready();
    let (store, _, mut open) = started(&bench);
    let store: Rc<dyn Store> = store;
    for _ in 0..2 {
        let jobs = board(&store, bench.now).unwrap();
        assert_eq!((jobs.len(), jobs[0].id.as_str()), (1, "board"));
        assert_eq!(jobs[0].stands.as_ref().unwrap().state, "not-started");
    }
    open.enter(entry(&bench, r#"Stop(why:"harness ordered")"#)).unwrap();
    let stands = board(&store, bench.now).unwrap().remove(0).stands.unwrap();
    assert_eq!((stands.state.as_str(), stands.about.as_str()), ("stopped", "harness ordered"));
}
