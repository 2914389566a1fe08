//! What every store does alike, in a folder and in memory: entries go in after the head they follow or
//! not at all, one writer a stream, and a summary holds for the head it was made of alone.

use jiff::Timestamp;
use repin::{
    job::{About, Act, Entry},
    store::{
        AppendProblem, Claim, Cursor, EntryCount, FolderStore, Head, MemoryStore, Store, StreamId,
        StreamKind, StreamWriter, Summarised, Summary,
    },
};
use tempfile::TempDir;

const NOW: Timestamp = Timestamp::UNIX_EPOCH;

fn note(text: &str) -> Entry {
    Entry::new(NOW, "kt", Act::Note { text: text.to_owned(), about: About::Job })
}

fn job(id: &str) -> StreamId {
    StreamId::Job(id.parse().unwrap())
}

#[track_caller]
fn writer(store: &dyn Store, stream: &StreamId) -> Box<dyn StreamWriter> {
    match store.claim(stream, "kt", NOW) {
        Claim::Ours(writer) => writer,
        other => panic!("{other:?}"),
    }
}

/// Holds a rule against every backend.
fn every_store(rule: impl Fn(&dyn Store)) {
    rule(&MemoryStore::default());
    let folder = TempDir::new().unwrap();
    rule(&FolderStore::at(folder.path().to_owned()));
}

#[test]
fn entries_are_read_as_they_were_appended_and_from_any_place_on() {
    every_store(|store| {
        let mut writer = writer(store, &job("a"));
        let first = writer.append(&Head::default(), &[note("one"), note("two")]).unwrap();
        let second = writer.append(&first, &[note("three")]).unwrap();
        assert_eq!(second.n, EntryCount(3));
        let all = store.read(&job("a"), EntryCount::default()).unwrap();
        assert_eq!(all.entries, [note("one"), note("two"), note("three")]);
        assert_eq!((&all.head, &all.trouble), (&second, &None));
        assert_eq!(store.read(&job("a"), EntryCount(2)).unwrap().entries, [note("three")]);
        assert!(store.read(&job("a"), EntryCount(9)).unwrap().entries.is_empty());
        assert!(store.holds(&job("a")) && !store.holds(&job("b")));
        assert!(store.read(&job("b"), EntryCount::default()).unwrap_err().is_missing());
    });
}

#[test]
fn the_same_entries_have_one_head_in_every_store() {
    let heads = std::cell::RefCell::new(Vec::new());
    every_store(|store| {
        let head = writer(store, &job("a")).append(&Head::default(), &[note("one"), note("two")]).unwrap();
        heads.borrow_mut().push(head);
    });
    assert_eq!(heads.borrow()[0], heads.borrow()[1]);
}

#[test]
fn entries_that_follow_another_head_are_refused_with_the_head_there_is() {
    every_store(|store| {
        let mut writer = writer(store, &job("a"));
        let first = writer.append(&Head::default(), &[note("one")]).unwrap();
        let second = writer.append(&first, &[note("two")]).unwrap();
        for stale in [&Head::default(), &first] {
            match writer.append(stale, &[note("lost")]) {
                Err(AppendProblem::Conflict { head, .. }) => assert_eq!(head, second),
                other => panic!("{other:?}"),
            }
        }
        assert_eq!(store.read(&job("a"), EntryCount::default()).unwrap().entries.len(), 2);
        // A stream is not started over another.
        drop(writer);
        let mut again = self::writer(store, &job("a"));
        match again.append(&Head::default(), &[note("lost")]) {
            Err(AppendProblem::Conflict { head, .. }) => assert_eq!(head, second),
            other => panic!("{other:?}"),
        }
        again.read().unwrap();
        assert_eq!(again.append(&second, &[note("three")]).unwrap().n, EntryCount(3));
    });
}

#[test]
fn a_stream_has_one_writer_and_the_second_is_told_who() {
    every_store(|store| {
        let mut first = writer(store, &job("a"));
        first.append(&Head::default(), &[note("one")]).unwrap();
        match store.claim(&job("a"), "jo", NOW) {
            Claim::Theirs(who) => assert!(who.starts_with("kt") && who.contains("since 1970"), "{who}"),
            other => panic!("{other:?}"),
        }
        // Another stream is free, and reading needs no claim.
        drop(writer(store, &job("b")));
        assert_eq!(store.read(&job("a"), EntryCount::default()).unwrap().entries.len(), 1);
        drop(first);
        drop(writer(store, &job("a")));
    });
}

#[test]
fn what_changed_since_a_look_is_told_and_nothing_else() {
    every_store(|store| {
        let (none, start) = store.watch(&Cursor::default()).unwrap();
        assert!(none.is_empty());
        let mut a = writer(store, &job("a"));
        let head = a.append(&Head::default(), &[note("one")]).unwrap();
        drop(writer(store, &job("b")).append(&Head::default(), &[note("one")]).unwrap());
        let (changed, both) = store.watch(&start).unwrap();
        assert_eq!(changed, [job("a"), job("b")]);
        assert!(store.watch(&both).unwrap().0.is_empty());
        a.append(&head, &[note("two")]).unwrap();
        assert_eq!(store.watch(&both).unwrap().0, [job("a")]);
        assert_eq!(store.watch(&Cursor::default()).unwrap().0, [job("a"), job("b")]);
    });
}

#[test]
fn a_summary_is_listed_for_the_head_it_was_made_of_and_no_longer() {
    every_store(|store| {
        let mut writer = writer(store, &job("a"));
        let head = writer.append(&Head::default(), &[note("one")]).unwrap();
        let listed = store.list(StreamKind::Job).unwrap();
        assert_eq!((listed.len(), &listed[0].stream, &listed[0].summary), (1, &job("a"), &None));
        let summary = Summary("one note".to_owned());
        settle(|| {
            store.list(StreamKind::Job).unwrap();
            store.keep(&[Summarised { stream: job("a"), head: head.clone(), summary: summary.clone() }]);
            store.list(StreamKind::Job).unwrap()[0].summary == Some((head.clone(), summary.clone()))
        });
        writer.append(&head, &[note("two")]).unwrap();
        assert_eq!(store.list(StreamKind::Job).unwrap()[0].summary, None);
    });
}

/// A summary of a file that was changed this moment does not count yet: the times of files are coarse.
fn settle(mut is_so: impl FnMut() -> bool) {
    for _ in 0..60 {
        if is_so() {
            return;
        }
        std::thread::sleep(std::time::Duration::from_millis(100));
    }
    panic!("no summary is kept");
}
