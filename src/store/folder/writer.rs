//! The writer of a job's journal in a folder: the lock, and what is known of the file.

use std::{io, path::PathBuf, rc::Rc};

use super::{
    disk::Disk,
    job_file::{JobFile, NotAdded},
    lock::Lock,
    stretch,
};
use crate::{
    job::Entry,
    store::{
        files::{JOB_MOST, ReadProblem, shown},
        port::{AppendProblem, Change, EntryCount, Head, StreamWriter, Stretch, lines_after},
    },
};

/// The one who may write a job's file.
#[derive(Debug)]
pub(super) struct FolderWriter {
    path: PathBuf,
    disk: Rc<dyn Disk>,
    /// The file as it was read or written last, and the head it ends in.
    known: Option<(JobFile, Head)>,
    /// Held where the folder gives locks.
    _lock: Option<Lock>,
}

impl FolderWriter {
    pub fn new(path: PathBuf, disk: Rc<dyn Disk>, lock: Option<Lock>) -> Self {
        Self { path, disk, known: None, _lock: lock }
    }

    /// A new file with these lines.
    fn start(&mut self, text: &str, head: Head) -> Result<Head, AppendProblem> {
        match JobFile::write_new(&self.path, text, self.disk.clone()) {
            Ok(file) => {
                self.known = Some((file, head.clone()));
                Ok(head)
            }
            Err(why) if why.kind() == io::ErrorKind::AlreadyExists => Err(self.conflict(Change::Written)),
            Err(why) => Err(AppendProblem::Disk { place: shown(&self.path), why: why.to_string() }),
        }
    }

    fn conflict(&self, how: Change) -> AppendProblem {
        // What is no journal ends nowhere.
        let found = JobFile::read(&self.path, self.disk.clone());
        let head = found.map(|(_, journal)| stretch(journal, EntryCount::default(), "").head);
        AppendProblem::Conflict { place: shown(&self.path), how, head: head.unwrap_or_default() }
    }
}

impl StreamWriter for FolderWriter {
    fn read(&mut self) -> Result<Stretch, ReadProblem> {
        let (file, journal) = JobFile::read(&self.path, self.disk.clone())?;
        let read = stretch(journal, EntryCount::default(), &shown(&self.path));
        self.known = Some((file, read.head.clone()));
        Ok(read)
    }

    fn append(&mut self, expected: &Head, entries: &[Entry]) -> Result<Head, AppendProblem> {
        let place = || shown(&self.path);
        let (text, head) = lines_after(expected, entries)
            .map_err(|why| AppendProblem::Disk { place: place(), why: why.to_string() })?;
        if self.known.is_none() && *expected == Head::default() {
            return self.start(&text, head);
        }
        if self.known.is_none() {
            self.read()
                .map_err(|why| AppendProblem::Disk { place: shown(&self.path), why: why.to_string() })?;
        }
        let added = match &mut self.known {
            Some((file, known)) if known == expected => file.append(&text),
            _ => Err(NotAdded::Changed(Change::Written)),
        };
        let place = shown(&self.path);
        match added {
            Ok(()) => {
                if let Some((_, known)) = &mut self.known {
                    *known = head.clone();
                }
                Ok(head)
            }
            Err(NotAdded::Changed(how)) => Err(self.conflict(how)),
            Err(NotAdded::Full) => Err(AppendProblem::Full { place, most_mb: JOB_MOST >> 20 }),
            Err(NotAdded::Disk(why)) => Err(AppendProblem::Disk { place, why: why.to_string() }),
            Err(NotAdded::NotCutBack(why)) => Err(AppendProblem::InDoubt { place, why: why.to_string() }),
        }
    }
}
