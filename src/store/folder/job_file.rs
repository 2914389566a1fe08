//! The file of an open job: what of it is known, and the one way bytes are added to it. Whatever
//! fails, what is kept here agrees with the file, so that the next entry lands on a line of its own.

use std::{
    io,
    path::{Path, PathBuf},
    rc::Rc,
};

use super::disk::{Disk, Identity, Medium};
use crate::store::{
    files::{self, JOB_MOST, Links, ReadProblem, open_to_read, shown, whole_of},
    journal::{Condition, Journal, read_journal},
    port::Change,
};

/// The mark a text editor may put at the start of a file; it is not part of the first entry.
const MARK: &[u8] = b"\xef\xbb\xbf";

/// Bytes compared at the end of what is known: the check sum of the last entry and its line end.
const END_KEPT: usize = 32;

/// Why lines were not added.
#[derive(Debug)]
pub(super) enum NotAdded {
    /// The file is not the one that was read.
    Changed(Change),
    /// It would be larger than what is read.
    Full,
    /// The disk failed, and the file is what it was.
    Disk(io::Error),
    /// The disk failed, and what it took of the lines could not be taken away again.
    NotCutBack(io::Error),
}

impl From<io::Error> for NotAdded {
    fn from(why: io::Error) -> Self {
        Self::Disk(why)
    }
}

/// A job's file as it was read or written last.
#[derive(Debug)]
pub(super) struct JobFile {
    path: PathBuf,
    disk: Rc<dyn Disk>,
    identity: Identity,
    /// How many bytes from the start hold whole entries.
    good: u64,
    /// The last of them.
    end: Vec<u8>,
    /// What stands after them.
    rest: Rest,
    /// Whether the last entry lacks its line end.
    line_end_due: bool,
}

/// What stands after the whole entries.
#[derive(Debug, PartialEq)]
enum Rest {
    Nothing,
    /// A line that was cut while it was written: it is kept in a file of its own before it goes.
    Torn(Vec<u8>),
    /// These bytes, as many of them as the disk took before it failed: they go before the next entry.
    Failed(Vec<u8>),
}

impl JobFile {
    /// Reads a job's file without touching it.
    pub fn read(path: &Path, disk: Rc<dyn Disk>) -> Result<(Self, Journal), ReadProblem> {
        let system = |why| ReadProblem::System { file: shown(path), why };
        let mut file = open_to_read(path, Links::Refused)?;
        let identity = Identity::of(&file.metadata().map_err(system)?);
        let bytes = whole_of(&mut file, &shown(path), JOB_MOST)?;
        let text = bytes.strip_prefix(MARK).unwrap_or(&bytes);
        let journal = read_journal(text);
        let good = bytes.len() - text.len() + journal.whole_bytes;
        let rest = match &journal.condition {
            Condition::Torn(torn) => Rest::Torn(torn.clone()),
            _ => Rest::Nothing,
        };
        let known = Self {
            path: path.to_owned(),
            disk,
            identity,
            good: good as u64,
            end: end_of(bytes.get(..good).unwrap_or(&bytes)),
            rest,
            line_end_due: journal.condition == Condition::NoLineEnd,
        };
        Ok((known, journal))
    }

    /// Writes a new file whole, or leaves nothing.
    pub fn write_new(path: &Path, text: &str, disk: Rc<dyn Disk>) -> io::Result<Self> {
        files::write_new(path, text.as_bytes())?;
        Ok(Self {
            path: path.to_owned(),
            disk,
            identity: Identity::of(&std::fs::symlink_metadata(path)?),
            good: text.len() as u64,
            end: end_of(text.as_bytes()),
            rest: Rest::Nothing,
            line_end_due: false,
        })
    }

    /// Adds lines and syncs. What stands after the last whole entry goes first; when anything fails, the
    /// file is cut back to that entry, at once or before the next lines.
    pub fn append(&mut self, lines: &str) -> Result<(), NotAdded> {
        let mut file = self.disk.open(&self.path)?;
        self.compare(&mut *file)?;
        self.clear(&mut *file)?;
        // What could not be read again is not written.
        if self.good + lines.len() as u64 >= JOB_MOST {
            return Err(NotAdded::Full);
        }
        let text = if self.line_end_due { format!("\n{lines}") } else { lines.to_owned() };
        if let Err(why) = file.write(text.as_bytes()).and_then(|()| file.sync()) {
            let is_back = file.cut(self.good).and_then(|()| file.sync()).is_ok();
            if is_back {
                self.rest = Rest::Nothing;
                return Err(why.into());
            }
            self.rest = Rest::Failed(text.into_bytes());
            return Err(NotAdded::NotCutBack(why));
        }
        self.good += text.len() as u64;
        self.end = end_of(text.as_bytes());
        self.line_end_due = false;
        Ok(())
    }

    /// Compares the file with what was read or written last: which file it is, how long, and the check
    /// sum it ends in.
    fn compare(&self, file: &mut dyn Medium) -> Result<(), NotAdded> {
        let changed = |how| Err(NotAdded::Changed(how));
        let (identity, length) = file.look()?;
        if identity != self.identity {
            return changed(Change::Replaced);
        }
        let after = length.checked_sub(self.good).and_then(|after| usize::try_from(after).ok());
        let left = after.and_then(|after| match &self.rest {
            Rest::Nothing => (after == 0).then_some(&[][..]),
            Rest::Torn(bytes) => (after == bytes.len()).then_some(bytes.as_slice()),
            Rest::Failed(bytes) => bytes.get(..after),
        });
        let Some(left) = left else { return changed(Change::Written) };
        let from = self.good - self.end.len() as u64;
        let found = file.bytes_from(from, self.end.len() + left.len())?;
        match found.strip_prefix(self.end.as_slice()) == Some(left) {
            true => Ok(()),
            false => changed(Change::Written),
        }
    }

    /// Takes away what stands after the last whole entry; what was torn is kept beside the job.
    fn clear(&mut self, file: &mut dyn Medium) -> io::Result<()> {
        if let Rest::Torn(bytes) = &self.rest {
            self.disk.set_aside(&self.path, bytes)?;
            self.rest = Rest::Failed(bytes.clone());
        }
        if self.rest != Rest::Nothing {
            file.cut(self.good)?;
            self.rest = Rest::Nothing;
        }
        Ok(())
    }
}

fn end_of(bytes: &[u8]) -> Vec<u8> {
    bytes.get(bytes.len().saturating_sub(END_KEPT)..).unwrap_or(bytes).to_vec()
}
