//! A job that is open: the one road of every act. Check, append to disk and sync, apply; the
//! screen never shows what the disk does not hold.

use std::{
    fs::{File, OpenOptions},
    io::{Read, Write},
    path::{Path, PathBuf},
};

use jiff::Timestamp;

use super::{
    journal::{Condition, Journal, line_of, read_journal},
    lock::{Held, Lock},
    tools::fill_in_book,
};
use crate::{
    quantity::harmless,
    swap::{Code, Entry, Job, Refusal, Verdict},
};

/// Why a job could not be opened at all.
#[derive(Debug, thiserror::Error)]
pub enum OpenProblem {
    /// The file cannot be read.
    #[error("{path}: {why}")]
    Unreadable {
        /// The file.
        path: String,
        /// What the system says.
        why: String,
    },
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
    /// The disk failed: nothing was entered.
    #[error("{path}: {why}. Nothing was entered; free the disk and enter it again")]
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
    path: PathBuf,
    job: Job,
    last_sum: String,
    length: u64,
    condition: Condition,
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
        // The lock first: nobody appends between reading and locking.
        let held = match path.exists() {
            true => Lock::take(&lock_path(path), by, now),
            false => Held::NoLocks,
        };
        let journal = read_file(path)?;
        let writer = match held {
            _ if !journal.condition.may_be_written() => {
                Writer::ReadOnly(journal.trouble(&shown(path)).unwrap_or_default())
            }
            Held::Ours(lock) => Writer::Ours { _lock: Some(lock) },
            Held::NoLocks => Writer::Ours { _lock: None },
            Held::Theirs(who) => Writer::ReadOnly(format!("{} is open at another bench: {who}", shown(path))),
        };
        Self::from_journal(path, journal, writer)
    }

    /// Reads a job without touching anything.
    pub fn look(path: &Path) -> Result<Self, OpenProblem> {
        let writer = Writer::ReadOnly("opened to be looked at".to_owned());
        Self::from_journal(path, read_file(path)?, writer)
    }

    fn from_journal(path: &Path, journal: Journal, writer: Writer) -> Result<Self, OpenProblem> {
        let trouble = journal.trouble(&shown(path));
        if journal.entries.is_empty() {
            let say =
                trouble.unwrap_or_else(|| format!("{}: the file is empty; it is not a job", shown(path)));
            return Err(OpenProblem::NotAJob(say));
        }
        let length = journal.whole_bytes as u64
            + match &journal.condition {
                Condition::Torn(bytes) => bytes.len() as u64,
                _ => 0,
            };
        Ok(Self {
            path: path.to_owned(),
            job: Job::replay(journal.entries),
            last_sum: journal.last_sum,
            length,
            condition: journal.condition,
            trouble,
            writer,
        })
    }

    /// Starts a job: the file must not exist, and all these entries go in or none.
    pub fn create(path: &Path, entries: Vec<Entry>, by: &str, now: Timestamp) -> Result<Self, EnterProblem> {
        let disk = |why: std::io::Error| EnterProblem::Disk { path: shown(path), why: why.to_string() };
        let mut job = Job::default();
        let mut text = String::new();
        let mut last_sum = String::new();
        for (n, entry) in entries.into_iter().enumerate() {
            refuse(job.check(&entry), &entry, n)?;
            let (line, sum) = line_of(n + 1, &entry, &last_sum)
                .map_err(|why| EnterProblem::Disk { path: shown(path), why: why.to_string() })?;
            text.push_str(&line);
            text.push('\n');
            last_sum = sum;
            job.apply(entry);
        }
        let lock = match Lock::take(&lock_path(path), by, now) {
            Held::Ours(lock) => Some(lock),
            Held::Theirs(_) | Held::NoLocks => None,
        };
        let mut file = OpenOptions::new().create_new(true).write(true).open(path).map_err(disk)?;
        let written = file.write_all(text.as_bytes()).and_then(|()| file.sync_all());
        if let Err(why) = written {
            // A job that is not whole is no job.
            let _ = std::fs::remove_file(path);
            return Err(disk(why));
        }
        Ok(Self {
            path: path.to_owned(),
            job,
            last_sum,
            length: text.len() as u64,
            condition: Condition::Whole,
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
        &self.path
    }

    /// What the job is called: its file's name without the ending.
    pub fn id(&self) -> String {
        let name = self.path.file_name().map(|n| n.to_string_lossy().into_owned()).unwrap_or_default();
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
        !self.condition.may_be_written()
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
        let jobs = self.path.parent().unwrap_or(Path::new(".")).to_owned();
        let disk = |why: String| EnterProblem::Disk { path: shown(&self.path), why };
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
            let (line, sum) = line_of(first + nth, &entry, &last_sum).map_err(|why| disk(why.to_string()))?;
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

    /// Appends lines and syncs; a torn tail is set aside first. When anything fails, the file is
    /// cut back to what it was.
    fn append(&mut self, lines: &str) -> Result<(), EnterProblem> {
        let path = self.path.clone();
        let disk = |why: std::io::Error| EnterProblem::Disk { path: shown(&path), why: why.to_string() };
        let mut file = OpenOptions::new().append(true).open(&path).map_err(disk)?;
        let length = file.metadata().map_err(disk)?.len();
        if length != self.length {
            return Err(EnterProblem::ReadOnly(format!(
                "{} was changed by another program since it was read; open it again",
                shown(&path)
            )));
        }
        let mut start = length;
        if let Condition::Torn(bytes) = &self.condition {
            set_aside(&path, bytes).map_err(disk)?;
            start -= bytes.len() as u64;
            file.set_len(start).map_err(disk)?;
        }
        let mut text = String::with_capacity(lines.len() + 1);
        if self.condition == Condition::NoLineEnd {
            text.push('\n');
        }
        text.push_str(lines);
        self.condition = Condition::Whole;
        self.length = start;
        if let Err(why) = file.write_all(text.as_bytes()).and_then(|()| file.sync_data()) {
            if file.set_len(start).and_then(|()| file.sync_data()).is_err() {
                self.writer =
                    Writer::ReadOnly(format!("{} could not be written nor cut back: {why}", shown(&path)));
            }
            return Err(disk(why));
        }
        self.length = start + text.len() as u64;
        Ok(())
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

/// Keeps torn bytes in a file beside the job, so that nothing is lost.
fn set_aside(path: &Path, bytes: &[u8]) -> std::io::Result<()> {
    for n in 1..1000 {
        let aside = sibling(path, &format!(".torn-{n}"));
        match OpenOptions::new().create_new(true).write(true).open(aside) {
            Ok(mut file) => return file.write_all(bytes).and_then(|()| file.sync_all()),
            Err(error) if error.kind() == std::io::ErrorKind::AlreadyExists => {}
            Err(error) => return Err(error),
        }
    }
    Err(std::io::Error::other("too many torn files lie beside it"))
}

fn read_file(path: &Path) -> Result<Journal, OpenProblem> {
    let unreadable =
        |why: std::io::Error| OpenProblem::Unreadable { path: shown(path), why: why.to_string() };
    let mut bytes = Vec::new();
    File::open(path).and_then(|mut file| file.read_to_end(&mut bytes)).map_err(unreadable)?;
    // A text editor may have put a mark at the start; it is not part of the first entry.
    let text = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(&bytes);
    Ok(read_journal(text))
}

fn lock_path(path: &Path) -> PathBuf {
    sibling(path, ".lock")
}

/// `sc1.job.ron` → `sc1` + ending, in the same folder.
fn sibling(path: &Path, ending: &str) -> PathBuf {
    let name = path.file_name().map(|n| n.to_string_lossy().into_owned()).unwrap_or_default();
    let stem = name.strip_suffix(".job.ron").unwrap_or(&name);
    path.with_file_name(format!("{stem}{ending}"))
}

fn shown(path: &Path) -> String {
    harmless(&path.to_string_lossy()).into_owned()
}
