//! The file of an open job: what of it is known, and the one way bytes are added to it. Whatever
//! fails, what is kept here agrees with the file, so that the next entry lands on a line of its own.

use std::{
    fmt,
    fs::{File, Metadata, OpenOptions},
    io::{self, Read, Seek, SeekFrom, Write},
    path::{Path, PathBuf},
};

use super::{
    files::{self, JOB_MOST, Links, ReadProblem, careful, odd, open_to_read, shown, whole_of},
    journal::{Condition, Journal, read_journal},
};

/// The mark a text editor may put at the start of a file; it is not part of the first entry.
const MARK: &[u8] = b"\xef\xbb\xbf";

/// Bytes compared at the end of what is known: the check sum of the last entry and its line end.
const END_KEPT: usize = 32;

/// Why lines were not added.
#[derive(Debug)]
pub(super) enum AppendProblem {
    /// The file is not the one that was read, or cannot take more.
    Refused(String),
    /// The disk failed, and the file is what it was.
    Disk(io::Error),
    /// The disk failed, and what it took of the lines could not be taken away again.
    NotCutBack(io::Error),
}

impl From<io::Error> for AppendProblem {
    fn from(why: io::Error) -> Self {
        Self::Disk(why)
    }
}

/// A job's file as it was read or written last.
#[derive(Debug)]
pub(super) struct JobFile {
    path: PathBuf,
    disk: Box<dyn Disk>,
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

/// What tells a file from another of the same name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Identity {
    #[cfg(unix)]
    device_and_node: (u64, u64),
    #[cfg(not(unix))]
    created: Option<std::time::SystemTime>,
}

impl Identity {
    fn of(found: &Metadata) -> Self {
        #[cfg(unix)]
        {
            use std::os::unix::fs::MetadataExt;
            Self { device_and_node: (found.dev(), found.ino()) }
        }
        #[cfg(not(unix))]
        Self { created: found.created().ok() }
    }
}

impl JobFile {
    /// Reads a job's file without touching it.
    pub fn read(path: &Path) -> Result<(Self, Journal), ReadProblem> {
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
            disk: Box::new(RealDisk),
            identity,
            good: good as u64,
            end: end_of(bytes.get(..good).unwrap_or(&bytes)),
            rest,
            line_end_due: journal.condition == Condition::NoLineEnd,
        };
        Ok((known, journal))
    }

    /// Writes a new file whole, or leaves nothing.
    pub fn write_new(path: &Path, text: &str) -> io::Result<Self> {
        files::write_new(path, text.as_bytes())?;
        Ok(Self {
            path: path.to_owned(),
            disk: Box::new(RealDisk),
            identity: Identity::of(&std::fs::symlink_metadata(path)?),
            good: text.len() as u64,
            end: end_of(text.as_bytes()),
            rest: Rest::Nothing,
            line_end_due: false,
        })
    }

    /// Where it is.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Adds lines and syncs. What stands after the last whole entry goes first; when anything fails, the
    /// file is cut back to that entry, at once or before the next lines.
    pub fn append(&mut self, lines: &str) -> Result<(), AppendProblem> {
        let mut file = self.disk.open(&self.path)?;
        self.compare(&mut *file)?;
        self.clear(&mut *file)?;
        // What could not be read again is not written.
        if self.good + lines.len() as u64 >= JOB_MOST {
            let (file, most) = (shown(&self.path), JOB_MOST >> 20);
            return Err(AppendProblem::Refused(format!(
                "{file} would be larger than {most} MB: start a new job"
            )));
        }
        let text = if self.line_end_due { format!("\n{lines}") } else { lines.to_owned() };
        if let Err(why) = file.write(text.as_bytes()).and_then(|()| file.sync()) {
            let is_back = file.cut(self.good).and_then(|()| file.sync()).is_ok();
            if is_back {
                self.rest = Rest::Nothing;
                return Err(why.into());
            }
            self.rest = Rest::Failed(text.into_bytes());
            return Err(AppendProblem::NotCutBack(why));
        }
        self.good += text.len() as u64;
        self.end = end_of(text.as_bytes());
        self.line_end_due = false;
        Ok(())
    }

    /// Compares the file with what was read or written last: which file it is, how long, and the check
    /// sum it ends in.
    fn compare(&self, file: &mut dyn Medium) -> Result<(), AppendProblem> {
        let changed = |how: &str| {
            Err(AppendProblem::Refused(format!(
                "{} {how} since it was read: nothing is written into it; open it again",
                shown(&self.path)
            )))
        };
        let (identity, length) = file.look()?;
        if identity != self.identity {
            return changed("was replaced by another file");
        }
        let after = length.checked_sub(self.good).and_then(|after| usize::try_from(after).ok());
        let left = after.and_then(|after| match &self.rest {
            Rest::Nothing => (after == 0).then_some(&[][..]),
            Rest::Torn(bytes) => (after == bytes.len()).then_some(bytes.as_slice()),
            Rest::Failed(bytes) => bytes.get(..after),
        });
        let Some(left) = left else { return changed("was changed by another program") };
        let from = self.good - self.end.len() as u64;
        let found = file.bytes_from(from, self.end.len() + left.len())?;
        match found.strip_prefix(self.end.as_slice()) == Some(left) {
            true => Ok(()),
            false => changed("was changed by another program"),
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

/// Where jobs lie: the seam at which tests let a disk fail.
trait Disk: fmt::Debug {
    /// The file, to be added to.
    fn open(&self, path: &Path) -> io::Result<Box<dyn Medium>>;
    /// Keeps bytes in a new file beside a job.
    fn set_aside(&self, path: &Path, bytes: &[u8]) -> io::Result<()>;
}

/// A file that is added to.
trait Medium {
    /// Which file it is, and its length.
    fn look(&self) -> io::Result<(Identity, u64)>;
    /// So many bytes from a place on.
    fn bytes_from(&mut self, from: u64, most: usize) -> io::Result<Vec<u8>>;
    /// Cuts it to a length.
    fn cut(&mut self, length: u64) -> io::Result<()>;
    /// Adds bytes at the end.
    fn write(&mut self, bytes: &[u8]) -> io::Result<()>;
    /// Waits until the disk has all of it.
    fn sync(&mut self) -> io::Result<()>;
}

#[derive(Debug)]
struct RealDisk;

impl Disk for RealDisk {
    fn open(&self, path: &Path) -> io::Result<Box<dyn Medium>> {
        if let Some(what) = odd(path, Links::Refused) {
            return Err(io::Error::other(format!("this is {what}, not a file")));
        }
        let mut options = OpenOptions::new();
        // Not for appending alone: some systems cut no file that was opened so.
        options.read(true).write(true);
        Ok(Box::new(careful(&mut options, Links::Refused).open(path)?))
    }

    fn set_aside(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        for n in 1..1000 {
            match files::write_new(&sibling(path, &format!(".torn-{n}")), bytes) {
                Err(why) if why.kind() == io::ErrorKind::AlreadyExists => {}
                done => return done,
            }
        }
        Err(io::Error::other("too many torn files lie beside it"))
    }
}

impl Medium for File {
    fn look(&self) -> io::Result<(Identity, u64)> {
        let found = self.metadata()?;
        Ok((Identity::of(&found), found.len()))
    }

    fn bytes_from(&mut self, from: u64, most: usize) -> io::Result<Vec<u8>> {
        self.seek(SeekFrom::Start(from))?;
        let mut bytes = Vec::with_capacity(most);
        self.take(most as u64).read_to_end(&mut bytes)?;
        Ok(bytes)
    }

    fn cut(&mut self, length: u64) -> io::Result<()> {
        self.set_len(length)
    }

    fn write(&mut self, bytes: &[u8]) -> io::Result<()> {
        self.seek(SeekFrom::End(0))?;
        self.write_all(bytes)
    }

    fn sync(&mut self) -> io::Result<()> {
        self.sync_data()
    }
}

/// `sc1.job.ron` → `sc1` + ending, in the same folder.
pub(super) fn sibling(path: &Path, ending: &str) -> PathBuf {
    let name = path.file_name().map(|n| n.to_string_lossy().into_owned()).unwrap_or_default();
    let stem = name.strip_suffix(".job.ron").unwrap_or(&name);
    path.with_file_name(format!("{stem}{ending}"))
}

/// A disk that fails as it is told to.
#[cfg(test)]
pub(super) mod failing {
    use std::{cell::Cell, rc::Rc};

    use super::*;

    /// What fails from now on.
    #[derive(Debug, Clone, Copy, Default)]
    pub struct Faults {
        /// As many bytes as a write takes before it fails.
        pub write_takes: Option<usize>,
        pub sync: bool,
        pub cut: bool,
        pub set_aside: bool,
    }

    #[derive(Debug, Clone, Default)]
    pub struct FailingDisk(Rc<Cell<Faults>>);

    impl FailingDisk {
        pub fn set(&self, faults: Faults) {
            self.0.set(faults);
        }
    }

    impl JobFile {
        /// The same file on a disk that can be told to fail.
        pub fn can_fail(&mut self) -> FailingDisk {
            let disk = FailingDisk::default();
            self.disk = Box::new(disk.clone());
            disk
        }
    }

    fn full(fails: bool) -> io::Result<()> {
        if fails { Err(io::Error::other("the disk is full")) } else { Ok(()) }
    }

    impl Disk for FailingDisk {
        fn open(&self, path: &Path) -> io::Result<Box<dyn Medium>> {
            Ok(Box::new(FailingFile { file: RealDisk.open(path)?, faults: self.0.clone() }))
        }

        fn set_aside(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
            full(self.0.get().set_aside)?;
            RealDisk.set_aside(path, bytes)
        }
    }

    struct FailingFile {
        file: Box<dyn Medium>,
        faults: Rc<Cell<Faults>>,
    }

    impl Medium for FailingFile {
        fn look(&self) -> io::Result<(Identity, u64)> {
            self.file.look()
        }

        fn bytes_from(&mut self, from: u64, most: usize) -> io::Result<Vec<u8>> {
            self.file.bytes_from(from, most)
        }

        fn cut(&mut self, length: u64) -> io::Result<()> {
            full(self.faults.get().cut)?;
            self.file.cut(length)
        }

        fn write(&mut self, bytes: &[u8]) -> io::Result<()> {
            let takes = self.faults.get().write_takes;
            self.file.write(&bytes[..takes.unwrap_or(bytes.len()).min(bytes.len())])?;
            full(takes.is_some())
        }

        fn sync(&mut self) -> io::Result<()> {
            full(self.faults.get().sync)?;
            self.file.sync()
        }
    }
}
