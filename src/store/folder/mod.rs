//! The store in a folder: a journal a job (`<job>.job.ron`), a lock beside it, tool books and exports.

mod disk;
mod index;
mod job_file;
mod lock;
mod own;
mod tool_book_file;
mod writer;

use std::{
    cell::RefCell,
    collections::BTreeMap,
    fs, io,
    path::{Path, PathBuf},
    rc::Rc,
};

use jiff::Timestamp;

pub use index::Stamp;

use self::{
    disk::{Disk, RealDisk, sibling},
    index::Index,
    job_file::JobFile,
    lock::{Held, Lock},
    writer::FolderWriter,
};
use super::{
    files::{self, Links, ReadProblem, TEXT_MOST, folder_of, odd, read_text, shown},
    job_id::{FileName, JobId},
    journal::Journal,
    port::{
        Claim, Cursor, EntryCount, Head, Listed, Seen, Store, StoreProblem, StreamId, StreamKind, Stretch,
        Summarised,
    },
};
use crate::reckoning::{ToolBook, ToolPosition};

/// The ending of a job's file.
const ENDING: &str = ".job.ron";

/// A folder with jobs.
#[derive(Debug, Clone)]
pub struct FolderStore {
    folder: PathBuf,
    /// The one file that a person named by its path, whatever it is called.
    named: Option<(StreamId, PathBuf)>,
    disk: Rc<dyn Disk>,
    /// What the last listing found, for the summaries that are made of it.
    listed: RefCell<Index>,
}

impl FolderStore {
    /// The folder named, else the one the environment names, else the user's data folder.
    pub fn find(named: Option<PathBuf>) -> Result<Self, StoreProblem> {
        let environment = || std::env::var_os("REPIN_STORE").filter(|v| !v.is_empty()).map(PathBuf::from);
        let home = || dirs::data_dir().map(|dir| dir.join("repin"));
        let folder = named.or_else(environment).or_else(home).ok_or(StoreProblem::NoHome)?;
        Ok(Self::at(folder))
    }

    /// The store in this folder.
    pub fn at(folder: PathBuf) -> Self {
        Self { folder, named: None, disk: Rc::new(RealDisk), listed: RefCell::default() }
    }

    /// The store around a file that a person named by its path, and the stream in that file.
    pub fn of_file(path: &Path) -> (Self, StreamId) {
        let stream = StreamId::Job(JobId::of_named(path));
        let named = Some((stream.clone(), path.to_owned()));
        (Self { named, ..Self::at(folder_of(path).to_owned()) }, stream)
    }

    fn path_of(&self, stream: &StreamId) -> PathBuf {
        match &self.named {
            Some((named, path)) if named == stream => path.clone(),
            _ => match stream {
                StreamId::Job(id) => self.folder.join(format!("{id}{ENDING}")),
            },
        }
    }

    /// The files of a kind's streams; a folder that is not there has none.
    fn files(&self, kind: StreamKind) -> Result<Vec<(StreamId, Stamp)>, StoreProblem> {
        let not_listed = |why| StoreProblem::NotListed { folder: shown(&self.folder), why };
        let entries = match fs::read_dir(&self.folder) {
            Ok(entries) => entries,
            Err(why) if why.kind() == io::ErrorKind::NotFound => return Ok(Vec::new()),
            Err(why) => return Err(not_listed(why)),
        };
        let mut found = Vec::new();
        for entry in entries {
            let entry = entry.map_err(not_listed)?;
            let name = entry.file_name().to_string_lossy().into_owned();
            let stream = match kind {
                StreamKind::Job => {
                    name.strip_suffix(ENDING).and_then(|id| id.parse().ok()).map(StreamId::Job)
                }
            };
            if let Some(stream) = stream {
                let stamp = entry.metadata().map(|found| Stamp::of(&found)).unwrap_or_default();
                found.push((stream, stamp));
            }
        }
        Ok(found)
    }
}

/// What was read of a journal, from an entry on.
fn stretch(journal: Journal, from: EntryCount, place: &str) -> Stretch {
    let trouble = journal.trouble(place);
    let head = Head { n: EntryCount(journal.entries.len()), sum: journal.last_sum.into() };
    let mut entries = journal.entries;
    entries.drain(..from.0.min(entries.len()));
    Stretch { entries, head, condition: journal.condition, trouble }
}

impl Store for FolderStore {
    fn claim(&self, stream: &StreamId, by: &str, now: Timestamp) -> Claim {
        let path = self.path_of(stream);
        // What is no file gets no lock.
        let held = match odd(&path, Links::Refused) {
            None => Lock::take(&sibling(&path, ".lock"), by, now),
            Some(_) => Held::NoLocks,
        };
        let lock = match held {
            Held::Ours(lock) => Some(lock),
            Held::NoLocks => None,
            Held::Theirs(who) => return Claim::Theirs(who),
            Held::Odd(say) => return Claim::Odd(say),
        };
        Claim::Ours(Box::new(FolderWriter::new(path, self.disk.clone(), lock)))
    }

    fn read(&self, stream: &StreamId, from: EntryCount) -> Result<Stretch, ReadProblem> {
        let path = self.path_of(stream);
        let (_, journal) = JobFile::read(&path, self.disk.clone())?;
        Ok(stretch(journal, from, &shown(&path)))
    }

    fn holds(&self, stream: &StreamId) -> bool {
        self.path_of(stream).exists()
    }

    fn prepare(&self) -> Result<(), StoreProblem> {
        match self.named {
            // Where a person names a file, its folder is there or the name is wrong.
            Some(_) => Ok(()),
            None => self.make(),
        }
    }

    fn list(&self, kind: StreamKind) -> Result<Vec<Listed>, StoreProblem> {
        let kept = Index::read(&self.folder);
        let mut found = Index::default();
        let mut listed = Vec::new();
        for (stream, stamp) in self.files(kind)? {
            let summary = kept.summary_of(&stream, &stamp, || self.disk_end(&stream));
            listed.push(Listed {
                touched: stamp.touched(),
                stream: stream.clone(),
                summary: summary.clone(),
            });
            found.note(stream, stamp, summary);
        }
        self.listed.replace(found);
        listed.sort_by(|a, b| b.touched.cmp(&a.touched).then_with(|| a.stream.cmp(&b.stream)));
        Ok(listed)
    }

    fn keep(&self, summaries: &[Summarised]) {
        let mut index = self.listed.borrow_mut();
        summaries.iter().for_each(|summarised| index.put(summarised));
        index.write(&self.folder);
    }

    fn watch(&self, since: &Cursor) -> Result<(Vec<StreamId>, Cursor), StoreProblem> {
        let before = match &since.0 {
            Seen::Files(before) => before.clone(),
            // A cursor of another store knows nothing of this one.
            Seen::Nothing | Seen::Changes(_) => BTreeMap::new(),
        };
        let after: BTreeMap<StreamId, Stamp> = self.files(StreamKind::Job)?.into_iter().collect();
        let new = after.iter().filter(|(stream, stamp)| before.get(*stream) != Some(stamp));
        let gone = before.keys().filter(|stream| !after.contains_key(*stream));
        let changed = new.map(|(stream, _)| stream).chain(gone).cloned().collect();
        Ok((changed, Cursor(Seen::Files(after))))
    }

    fn place(&self, stream: &StreamId) -> String {
        shown(&self.path_of(stream))
    }

    fn tool_book(&self) -> Result<ToolBook, StoreProblem> {
        tool_book_file::read_book(&self.folder)
    }

    fn write_position(&self, bench: &str, position: &ToolPosition) -> Result<String, StoreProblem> {
        tool_book_file::write_position(&self.folder, bench, position)
    }

    fn export(&self, name: &FileName, text: &str) -> Result<String, StoreProblem> {
        self.make()?;
        let path = self.folder.join(name.as_str());
        files::write_whole(&path, text.as_bytes())
            .map_err(|why| StoreProblem::NotWritten { file: shown(&path), why: why.to_string() })?;
        Ok(shown(&path))
    }

    fn exported(&self, name: &FileName) -> Result<Option<String>, ReadProblem> {
        match read_text(&self.folder.join(name.as_str()), TEXT_MOST, Links::Refused) {
            Ok(text) => Ok(Some(text)),
            Err(problem) if problem.is_missing() => Ok(None),
            Err(problem) => Err(problem),
        }
    }

    fn export_place(&self, name: &FileName) -> String {
        shown(&self.folder.join(name.as_str()))
    }
}

#[cfg(test)]
pub(crate) use disk::failing;
