//! The one road of every act: check, append to the store and sync, apply. The screen never shows what
//! the disk does not hold.

use jiff::Timestamp;

use super::{
    open::{OpenJob, Writer},
    refused::{EnterProblem, refuse},
};
use crate::{
    job::{Act, Entry, State, day_of},
    reckoning::{Standing, ToolBook},
    store::StoreProblem,
};

/// An act that is on disk and applied.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Entered {
    /// Its number in the journal, from 1.
    pub n: usize,
}

impl OpenJob {
    /// Enters one entry.
    pub fn enter(&mut self, entry: Entry) -> Result<Entered, EnterProblem> {
        self.enter_press(vec![entry])
    }

    /// The same for the entries of one key press: all go in together or none, and a wrong key takes
    /// them back together.
    pub fn enter_press(&mut self, press: Vec<Entry>) -> Result<Entered, EnterProblem> {
        let Self { at, job, head, writer, .. } = self;
        let writer = match writer {
            Writer::Ours(writer) => writer,
            Writer::ReadOnly(why) => return Err(EnterProblem::ReadOnly(why.clone())),
        };
        let first = job.entries().len() + 1;
        // What later entries of the press are held against: the job as the ones before leave it.
        let mut ahead = (press.len() > 1).then(|| job.clone());
        let mut taken = Vec::with_capacity(press.len());
        for (nth, mut entry) in press.into_iter().enumerate() {
            let before = ahead.as_ref().unwrap_or(job);
            entry.with = (nth > 0).then_some(first);
            before.state().fill_in(&mut entry.act);
            fill_in_book(&mut entry.act, before.state(), || at.store.tool_book(), entry.at);
            let codes = refuse(before.check(&entry), &entry, nth)?;
            if let Some(Some(anyway)) = entry.act.anyway_mut() {
                anyway.codes = codes;
            }
            if let Some(ahead) = &mut ahead {
                ahead.apply(entry.clone());
            }
            taken.push(entry);
        }
        *head = writer.append(head, &taken)?;
        match ahead {
            Some(ahead) => *job = ahead,
            None => taken.into_iter().for_each(|entry| job.apply(entry)),
        }
        Ok(Entered { n: job.entries().len() })
    }
}

/// Writes into the record of a crimp what the tool book says of its position that day. Only the book
/// can say that: what an act from a file claims does not count.
fn fill_in_book(
    act: &mut Act,
    state: &State,
    book: impl FnOnce() -> Result<ToolBook, StoreProblem>,
    at: Timestamp,
) {
    let today = day_of(at);
    state.book_crimp(act, |key| match book() {
        Ok(book) => book.standing(key, today),
        // The crimp was made; what proves its tool can be mended later.
        Err(why) => Standing::Due(format!("the tool book cannot be read: {why}")),
    });
}

#[cfg(test)]
mod tests {
    use std::{
        fs,
        path::{Path, PathBuf},
        rc::Rc,
    };

    use tempfile::TempDir;

    use super::*;
    use crate::{
        form::{Catalogue, read_acts},
        job::{About, Act, JobSide},
        service::JobAt,
        store::{
            Condition, FolderStore,
            failing::{FailingDisk, Faults},
            read_journal,
        },
    };

    const NOW: Timestamp = Timestamp::UNIX_EPOCH;

    fn path_in(folder: &TempDir) -> PathBuf {
        folder.path().join("skerry.job.ron")
    }

    /// The job in a file, on a disk that can be told to fail.
    fn on_a_disk(path: &Path) -> (JobAt, FailingDisk) {
        let (store, stream) = FolderStore::of_file(path);
        let (store, disk) = store.that_can_fail();
        (JobAt::new(Rc::new(store), stream), disk)
    }

    /// A job of the demo with nothing but its world, and the acts that are still to be entered.
    fn demo() -> (TempDir, OpenJob, FailingDisk, Vec<Entry>) {
        let folder = TempDir::new().unwrap();
        let housed = |name: &str, side| Act::Housed {
            name: name.parse().unwrap(),
            side,
            definition: Box::new(Catalogue::built_in().find("sk-10").unwrap()),
        };
        let ticket = Act::Ticket {
            id: None,
            asset: "Skerry 9".to_owned(),
            serial: "SK9-0084".to_owned(),
            connector: String::new(),
            reason: "corroded".to_owned(),
            seed: 9,
        };
        let world = [
            ticket,
            Act::Rules { rules: Box::default() },
            housed("old", JobSide::Old),
            housed("new", JobSide::New),
        ];
        let world = world.map(|act| Entry::new(NOW, "kt", act)).to_vec();
        let (at, disk) = on_a_disk(&path_in(&folder));
        let open = OpenJob::start(&at, world, "kt", NOW).unwrap();
        let acts = read_acts("acts", include_str!("../../demo-data/skerry-pod.acts")).unwrap();
        let entries = acts.into_iter().map(|line| Entry::new(line.at.unwrap_or(NOW), "kt", line.act));
        (folder, open, disk, entries.collect())
    }

    fn note(text: &str) -> Entry {
        Entry::new(NOW, "kt", Act::Note { text: text.to_owned(), about: About::Job })
    }

    /// Every way an append can fail: a line of which nothing, a part or all was taken, a disk that does
    /// not sync, each with and without the file being cut back.
    fn faults() -> Vec<Faults> {
        let takes = [0, 1, 40, 90, 1_000_000].map(|n| Faults { write_takes: Some(n), ..Faults::default() });
        let sync = Faults { sync: true, ..Faults::default() };
        let not_cut = |faults: Faults| Faults { cut: true, ..faults };
        let all = takes.into_iter().chain([sync]);
        all.flat_map(|faults| [faults, not_cut(faults)]).collect()
    }

    #[track_caller]
    fn holds_the_job(open: &OpenJob, path: &Path) {
        let journal = read_journal(&fs::read(path).unwrap());
        assert_eq!(journal.condition, Condition::Whole);
        assert_eq!(journal.entries, open.job().entries());
        assert_eq!((journal.entries.len(), journal.last_sum.as_str()), open.last());
    }

    /// Each append fails, each time in another way: the job in memory is never ahead of the disk, and the
    /// next append gives a journal with a good chain.
    #[test]
    fn a_disk_that_fails_at_every_append_of_a_job_leaves_it_readable() {
        let (folder, mut open, disk, entries) = demo();
        let path = path_in(&folder);
        let faults = faults();
        assert!(entries.len() > 2 * faults.len());
        for (n, entry) in entries.into_iter().enumerate() {
            disk.set(faults[n % faults.len()]);
            let (before, bytes) = (open.job().clone(), fs::read(&path).unwrap());
            let said = open.enter(entry.clone()).unwrap_err().to_string();
            let fault = faults[n % faults.len()];
            let is_back = !fault.cut && !fault.sync;
            let end = if is_back { "Nothing was entered" } else { "may stand in the file or not" };
            assert!(said.contains("the disk is full") && said.contains(end), "{said}");
            assert!(open.job() == &before);
            let left = fs::read(&path).unwrap();
            assert!(left.starts_with(&bytes), "entry {n}");
            assert!(left == bytes || faults[n % faults.len()].cut, "entry {n} left bytes behind");
            disk.set(Faults::default());
            open.enter(entry).unwrap();
            holds_the_job(&open, &path);
        }
    }

    /// The same for a job as it may be found: without its last line end, torn, with a mark at its start.
    #[test]
    fn a_failed_append_to_a_job_that_is_not_quite_whole_loses_nothing() {
        let torn = "(n:9,at:\"2026-11-25T07:00:00Z\",by:\"kt\",v:2,act:Note(te";
        for fault in faults().into_iter().chain([Faults { set_aside: true, ..Faults::default() }]) {
            for (mark, cut, more) in [("", 1, ""), ("", 0, torn), ("\u{feff}", 0, ""), ("\u{feff}", 1, "")] {
                let (folder, open, ..) = demo();
                let path = path_in(&folder);
                drop(open);
                let bytes = fs::read(&path).unwrap();
                let found = [mark.as_bytes(), &bytes[..bytes.len() - cut], more.as_bytes()].concat();
                fs::write(&path, &found).unwrap();
                let (at, disk) = on_a_disk(&path);
                let mut open = OpenJob::open(&at, "kt", NOW).unwrap();
                let before = open.job().clone();
                disk.set(fault);
                let case = format!("{fault:?}, mark {mark:?}, cut {cut}, more {more:?}");
                for _ in 0..2 {
                    match open.enter(note("lost")) {
                        Err(EnterProblem::Disk { .. }) => {}
                        Err(EnterProblem::InDoubt { .. }) if fault.cut || fault.sync => {}
                        other => assert!(fault.set_aside && more.is_empty(), "{case}: {other:?}"),
                    }
                }
                if fault.set_aside && more.is_empty() {
                    continue;
                }
                assert!(open.job() == &before, "{case}");
                disk.set(Faults::default());
                open.enter(note("kept")).unwrap();
                open.enter(note("and again")).unwrap();
                let text = String::from_utf8(fs::read(&path).unwrap()).unwrap();
                let journal = read_journal(text.strip_prefix(mark).unwrap().as_bytes());
                assert_eq!(journal.condition, Condition::Whole, "{case}");
                assert_eq!(journal.entries, open.job().entries(), "{case}");
                assert_eq!(journal.entries.len(), before.entries().len() + 2, "{case}");
                let aside = folder.path().join("skerry.torn-1");
                assert_eq!(fs::read_to_string(aside).unwrap_or_default(), more, "{case}");
                assert!(!folder.path().join("skerry.torn-2").exists(), "{case}");
            }
        }
    }

    #[test]
    fn another_file_of_the_same_length_is_noticed_and_left_as_it_is() {
        let (folder, mut open, ..) = demo();
        let path = path_in(&folder);
        let bytes = fs::read(&path).unwrap();
        // Another file takes its name.
        let other = folder.path().join("other");
        fs::write(&other, &bytes).unwrap();
        fs::rename(&path, folder.path().join("moved")).unwrap();
        fs::rename(&other, &path).unwrap();
        let before = open.job().clone();
        let said = open.enter(note("x")).unwrap_err();
        assert!(matches!(&said, EnterProblem::ReadOnly(_)), "{said:?}");
        #[cfg(unix)]
        assert!(said.to_string().contains("skerry.job.ron was replaced by another file"), "{said}");
        assert!(open.job() == &before && fs::read(&path).unwrap() == bytes);
        // The same file, written over with a job of the same length.
        drop(open);
        let mut open = OpenJob::open(&JobAt::file(&path), "kt", NOW).unwrap();
        let before = open.job().clone();
        let mut bytes = fs::read(&path).unwrap();
        let end = bytes.len() - 5;
        bytes[end] ^= 1;
        fs::write(&path, &bytes).unwrap();
        let said = open.enter(note("x")).unwrap_err().to_string();
        assert!(said.contains("was changed by another program since it was read"), "{said}");
        assert!(open.job() == &before && fs::read(&path).unwrap() == bytes);
    }

    #[test]
    fn a_job_never_grows_beyond_what_is_read() {
        let (folder, mut open, ..) = demo();
        let path = path_in(&folder);
        let large = "x".repeat(usize::try_from(crate::store::JOB_MOST).unwrap());
        let before = fs::read(&path).unwrap();
        let said = open.enter(note(&large)).unwrap_err().to_string();
        assert!(said.contains("would be larger than 64 MB"), "{said}");
        assert!(fs::read(&path).unwrap() == before);
        open.enter(note("kept")).unwrap();
        holds_the_job(&open, &path);
    }

    #[test]
    fn a_new_job_is_whole_or_not_there_and_never_takes_the_place_of_a_file() {
        let (folder, open, ..) = demo();
        let world = open.job().entries().to_vec();
        let path = folder.path().join("b.job.ron");
        fs::write(&path, "precious").unwrap();
        let said = OpenJob::start(&JobAt::file(&path), world.clone(), "kt", NOW).unwrap_err().to_string();
        assert!(said.contains("b.job.ron: there is a job of this name already"), "{said}");
        assert_eq!(fs::read_to_string(&path).unwrap(), "precious");
        let nowhere = folder.path().join("nowhere").join("c.job.ron");
        assert!(OpenJob::start(&JobAt::file(&nowhere), world, "kt", NOW).is_err());
        let mut names: Vec<_> =
            fs::read_dir(folder.path()).unwrap().map(|e| e.unwrap().file_name()).collect();
        names.sort();
        assert_eq!(names, ["b.job.ron", "b.lock", "skerry.job.ron", "skerry.lock"]);
    }
}
