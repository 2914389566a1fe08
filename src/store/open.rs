//! A job that is open: the one road of every act. Check, append to disk and sync, apply; the
//! screen never shows what the disk does not hold.

use std::path::{Path, PathBuf};

use jiff::Timestamp;

use super::{
    files::{Links, ReadProblem, odd, shown},
    job_file::{AppendProblem, JobFile, sibling},
    journal::{Journal, line_of},
    lock::{Held, Lock},
    tool_book_file::fill_in_book,
};
use crate::job::{Code, Entry, Job, Refusal, Verdict};

/// Why a job could not be opened at all.
#[derive(Debug, thiserror::Error)]
pub enum OpenProblem {
    /// The file cannot be read.
    #[error(transparent)]
    Unreadable(#[from] ReadProblem),
    /// The file holds no whole entry.
    #[error("{0}")]
    NotAJob(String),
}

/// Why an act was not entered.
#[derive(Debug, thiserror::Error)]
pub enum EnterProblem {
    /// The job refuses it.
    #[error("{}", refusals.iter().map(Refusal::to_string).collect::<Vec<_>>().join(" "))]
    Refused {
        /// What it says.
        refusals: Vec<Refusal>,
        /// Whether a named person may go on anyway.
        can_go_on: bool,
        /// Which entry of the key press it is, from 0; none of the press was entered.
        nth: usize,
    },
    /// Nothing can be entered: why.
    #[error("{0}")]
    ReadOnly(String),
    /// A job cannot be started over another.
    #[error("{0}: there is a job of this name already")]
    AlreadyThere(String),
    /// The disk failed and does not tell what it kept.
    #[error(
        "{path}: {why}. The entry may stand in the file or not: free the disk, open the job again and look before you go on"
    )]
    InDoubt {
        /// The file.
        path: String,
        /// What the system says.
        why: String,
    },
    /// The disk failed: nothing was entered.
    #[error("{path}: {why}. Nothing was entered; put that right (is the disk full?) and enter it again")]
    Disk {
        /// The file.
        path: String,
        /// What the system says.
        why: String,
    },
}

/// An act that is on disk and applied.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Entered {
    /// Its number in the journal, from 1.
    pub n: usize,
}

/// An open job.
#[derive(Debug)]
pub struct OpenJob {
    file: JobFile,
    job: Job,
    last_sum: String,
    is_cut_short: bool,
    trouble: Option<String>,
    writer: Writer,
}

#[derive(Debug)]
enum Writer {
    /// Entries may be added; the lock is held where the folder gives locks.
    Ours { _lock: Option<Lock> },
    /// They may not: why.
    ReadOnly(String),
}

impl OpenJob {
    /// Opens a job to be worked on; where another has it, or its journal is damaged or newer, it is
    /// opened read-only and says so.
    pub fn open(path: &Path, by: &str, now: Timestamp) -> Result<Self, OpenProblem> {
        // The lock first: nobody appends between reading and locking. What is no file gets none.
        let held = match path.exists() && odd(path, Links::Refused).is_none() {
            true => Lock::take(&lock_path(path), by, now),
            false => Held::NoLocks,
        };
        let (file, journal) = JobFile::read(path)?;
        let writer = match held {
            _ if !journal.condition.may_be_written() => {
                Writer::ReadOnly(journal.trouble(&shown(path)).unwrap_or_default())
            }
            Held::Ours(lock) => Writer::Ours { _lock: Some(lock) },
            Held::NoLocks => Writer::Ours { _lock: None },
            Held::Theirs(who) => Writer::ReadOnly(format!("{} is open at another bench: {who}", shown(path))),
            Held::Odd(say) => Writer::ReadOnly(say),
        };
        Self::from_journal(file, journal, writer)
    }

    /// Reads a job without touching anything.
    pub fn look(path: &Path) -> Result<Self, OpenProblem> {
        let writer = Writer::ReadOnly("opened to be looked at".to_owned());
        let (file, journal) = JobFile::read(path)?;
        Self::from_journal(file, journal, writer)
    }

    fn from_journal(file: JobFile, journal: Journal, writer: Writer) -> Result<Self, OpenProblem> {
        let path = shown(file.path());
        let trouble = journal.trouble(&path);
        if journal.entries.is_empty() {
            let say = trouble.unwrap_or_else(|| format!("{path}: the file is empty; it is not a job"));
            return Err(OpenProblem::NotAJob(say));
        }
        Ok(Self {
            file,
            job: Job::replay(journal.entries),
            last_sum: journal.last_sum,
            is_cut_short: !journal.condition.may_be_written(),
            trouble,
            writer,
        })
    }

    /// Starts a job: the file must not exist, and all these entries go in or none.
    pub fn create(path: &Path, entries: Vec<Entry>, by: &str, now: Timestamp) -> Result<Self, EnterProblem> {
        let disk = |why: String| EnterProblem::Disk { path: shown(path), why };
        let mut job = Job::default();
        let mut text = String::new();
        let mut last_sum = String::new();
        for (n, entry) in entries.into_iter().enumerate() {
            refuse(job.check(&entry), &entry, n)?;
            let (line, sum) = line_of(n + 1, &entry, &last_sum).map_err(|why| disk(why.to_string()))?;
            text.push_str(&line);
            text.push('\n');
            last_sum = sum;
            job.apply(entry);
        }
        let lock = match Lock::take(&lock_path(path), by, now) {
            Held::Ours(lock) => Some(lock),
            Held::NoLocks => None,
            Held::Theirs(who) => {
                let say = format!("{} is being started at another bench: {who}", shown(path));
                return Err(EnterProblem::ReadOnly(say));
            }
            Held::Odd(say) => return Err(EnterProblem::ReadOnly(say)),
        };
        let file = JobFile::write_new(path, &text).map_err(|why| match why.kind() {
            std::io::ErrorKind::AlreadyExists => EnterProblem::AlreadyThere(shown(path)),
            _ => disk(why.to_string()),
        })?;
        Ok(Self {
            file,
            job,
            last_sum,
            is_cut_short: false,
            trouble: None,
            writer: Writer::Ours { _lock: lock },
        })
    }

    /// The job as the disk holds it.
    pub fn job(&self) -> &Job {
        &self.job
    }

    /// The file.
    pub fn path(&self) -> &Path {
        self.file.path()
    }

    /// What the job is called: its file's name without the ending.
    pub fn id(&self) -> String {
        let name = self.path().file_name().map(|n| n.to_string_lossy().into_owned()).unwrap_or_default();
        name.strip_suffix(".job.ron").unwrap_or(&name).to_owned()
    }

    /// Why nothing can be entered, when that is so.
    pub fn read_only(&self) -> Option<&str> {
        match &self.writer {
            Writer::Ours { .. } => None,
            Writer::ReadOnly(why) => Some(why),
        }
    }

    /// What was wrong with the file when it was read, when something was.
    pub fn trouble(&self) -> Option<&str> {
        self.trouble.as_deref()
    }

    /// Whether the journal is damaged or newer, so that this is not the whole job.
    pub fn is_cut_short(&self) -> bool {
        self.is_cut_short
    }

    /// The number and the check sum of the last entry, as the printed sheet carries them.
    pub fn last(&self) -> (usize, &str) {
        (self.job.entries().len(), &self.last_sum)
    }

    /// The one road: check, append and sync, apply.
    pub fn enter(&mut self, entry: Entry) -> Result<Entered, EnterProblem> {
        self.enter_press(vec![entry])
    }

    /// The same for the entries of one key press: all go in together or none, and a wrong key takes
    /// them back together.
    pub fn enter_press(&mut self, press: Vec<Entry>) -> Result<Entered, EnterProblem> {
        if let Writer::ReadOnly(why) = &self.writer {
            return Err(EnterProblem::ReadOnly(why.clone()));
        }
        let jobs = self.path().parent().unwrap_or(Path::new(".")).to_owned();
        let first = self.job.entries().len() + 1;
        // What later entries of the press are held against: the job as the ones before leave it.
        let mut ahead = (press.len() > 1).then(|| self.job.clone());
        let (mut text, mut last_sum) = (String::new(), self.last_sum.clone());
        let mut taken = Vec::with_capacity(press.len());
        for (nth, mut entry) in press.into_iter().enumerate() {
            let job = ahead.as_ref().unwrap_or(&self.job);
            entry.with = (nth > 0).then_some(first);
            fill_in_book(&mut entry.act, job.state(), &jobs, entry.at);
            let codes = refuse(job.check(&entry), &entry, nth)?;
            if let Some(Some(anyway)) = entry.act.anyway_mut() {
                anyway.codes = codes;
            }
            let (line, sum) = line_of(first + nth, &entry, &last_sum).map_err(|why| self.disk(why))?;
            text.push_str(&line);
            text.push('\n');
            last_sum = sum;
            match &mut ahead {
                Some(ahead) => ahead.apply(entry),
                None => taken.push(entry),
            }
        }
        self.append(&text)?;
        self.last_sum = last_sum;
        match ahead {
            Some(ahead) => self.job = ahead,
            None => taken.into_iter().for_each(|entry| self.job.apply(entry)),
        }
        Ok(Entered { n: self.job.entries().len() })
    }

    /// Puts lines on disk.
    fn append(&mut self, lines: &str) -> Result<(), EnterProblem> {
        self.file.append(lines).map_err(|problem| match problem {
            AppendProblem::Refused(say) => EnterProblem::ReadOnly(say),
            AppendProblem::Disk(why) => self.disk(why),
            AppendProblem::NotCutBack(why) => {
                EnterProblem::InDoubt { path: shown(self.path()), why: why.to_string() }
            }
        })
    }

    fn disk(&self, why: impl std::fmt::Display) -> EnterProblem {
        EnterProblem::Disk { path: shown(self.path()), why: why.to_string() }
    }
}

/// Turns a verdict into a refusal, or into the codes of the rules a named person goes past.
fn refuse(verdict: Verdict, entry: &Entry, nth: usize) -> Result<Vec<Code>, EnterProblem> {
    match verdict {
        Verdict::Allowed => Ok(Vec::new()),
        Verdict::Impossible(refusal) => {
            Err(EnterProblem::Refused { refusals: vec![refusal], can_go_on: false, nth })
        }
        Verdict::Against(refusals) if entry.act.anyway().is_some() => {
            Ok(refusals.iter().filter_map(|r| r.code).collect())
        }
        Verdict::Against(refusals) => {
            let can_go_on = entry.act.takes_anyway();
            Err(EnterProblem::Refused { refusals, can_go_on, nth })
        }
    }
}

fn lock_path(path: &Path) -> PathBuf {
    sibling(path, ".lock")
}

#[cfg(test)]
mod tests {
    use std::fs;

    use tempfile::TempDir;

    use super::*;
    use crate::{
        form::{Catalogue, read_acts},
        job::{About, Act, JobSide},
        store::{Condition, job_file::failing::Faults, read_journal},
    };

    const NOW: Timestamp = Timestamp::UNIX_EPOCH;

    /// A job of the demo with nothing but its world, and the acts that are still to be entered.
    fn demo() -> (TempDir, OpenJob, Vec<Entry>) {
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
        let open = OpenJob::create(&folder.path().join("skerry.job.ron"), world, "kt", NOW).unwrap();
        let acts = read_acts("acts", include_str!("../../demo-data/skerry-pod.acts")).unwrap();
        let entries = acts.into_iter().map(|line| Entry::new(line.at.unwrap_or(NOW), "kt", line.act));
        (folder, open, entries.collect())
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
    fn holds_the_job(open: &OpenJob) {
        let journal = read_journal(&fs::read(open.path()).unwrap());
        assert_eq!(journal.condition, Condition::Whole);
        assert_eq!(journal.entries, open.job().entries());
        assert_eq!((journal.entries.len(), journal.last_sum.as_str()), open.last());
    }

    /// Each append fails, each time in another way: the job in memory is never ahead of the disk, and the
    /// next append gives a journal with a good chain.
    #[test]
    fn a_disk_that_fails_at_every_append_of_a_job_leaves_it_readable() {
        let (_folder, mut open, entries) = demo();
        let disk = open.file.can_fail();
        let faults = faults();
        assert!(entries.len() > 2 * faults.len());
        for (n, entry) in entries.into_iter().enumerate() {
            disk.set(faults[n % faults.len()]);
            let (before, bytes) = (open.job().clone(), fs::read(open.path()).unwrap());
            let said = open.enter(entry.clone()).unwrap_err().to_string();
            let fault = faults[n % faults.len()];
            let is_back = !fault.cut && !fault.sync;
            let end = if is_back { "Nothing was entered" } else { "may stand in the file or not" };
            assert!(said.contains("the disk is full") && said.contains(end), "{said}");
            assert!(open.job() == &before);
            let left = fs::read(open.path()).unwrap();
            assert!(left.starts_with(&bytes), "entry {n}");
            assert!(left == bytes || faults[n % faults.len()].cut, "entry {n} left bytes behind");
            disk.set(Faults::default());
            open.enter(entry).unwrap();
            holds_the_job(&open);
        }
    }

    /// The same for a job as it may be found: without its last line end, torn, with a mark at its start.
    #[test]
    fn a_failed_append_to_a_job_that_is_not_quite_whole_loses_nothing() {
        let torn = "(n:9,at:\"2026-11-25T07:00:00Z\",by:\"kt\",v:2,act:Note(te";
        for fault in faults().into_iter().chain([Faults { set_aside: true, ..Faults::default() }]) {
            for (mark, cut, more) in [("", 1, ""), ("", 0, torn), ("\u{feff}", 0, ""), ("\u{feff}", 1, "")] {
                let (folder, open, _) = demo();
                let path = open.path().to_owned();
                drop(open);
                let bytes = fs::read(&path).unwrap();
                let found = [mark.as_bytes(), &bytes[..bytes.len() - cut], more.as_bytes()].concat();
                fs::write(&path, &found).unwrap();
                let mut open = OpenJob::open(&path, "kt", NOW).unwrap();
                let before = open.job().clone();
                let disk = open.file.can_fail();
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
        let (folder, mut open, _) = demo();
        let path = open.path().to_owned();
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
        let mut open = OpenJob::look(&path).unwrap();
        open.writer = Writer::Ours { _lock: None };
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
        let (_folder, mut open, _) = demo();
        let large = "x".repeat(usize::try_from(crate::store::JOB_MOST).unwrap());
        let before = fs::read(open.path()).unwrap();
        let said = open.enter(note(&large)).unwrap_err().to_string();
        assert!(said.contains("would be larger than 64 MB"), "{said}");
        assert!(fs::read(open.path()).unwrap() == before);
        open.enter(note("kept")).unwrap();
        holds_the_job(&open);
    }

    #[test]
    fn a_new_job_is_whole_or_not_there_and_never_takes_the_place_of_a_file() {
        let (folder, open, _) = demo();
        let world = open.job().entries().to_vec();
        let path = folder.path().join("b.job.ron");
        fs::write(&path, "precious").unwrap();
        let said = OpenJob::create(&path, world.clone(), "kt", NOW).unwrap_err().to_string();
        assert!(said.contains("b.job.ron: there is a job of this name already"), "{said}");
        assert_eq!(fs::read_to_string(&path).unwrap(), "precious");
        let nowhere = folder.path().join("nowhere").join("c.job.ron");
        assert!(OpenJob::create(&nowhere, world, "kt", NOW).is_err());
        let mut names: Vec<_> =
            fs::read_dir(folder.path()).unwrap().map(|e| e.unwrap().file_name()).collect();
        names.sort();
        assert_eq!(names, ["b.job.ron", "b.lock", "skerry.job.ron", "skerry.lock"]);
    }
}
