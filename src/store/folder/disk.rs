//! The disk under the jobs, and the seam at which tests let it fail.

use std::{
    fmt,
    fs::{File, Metadata, OpenOptions},
    io::{self, Read, Seek, SeekFrom, Write},
    path::{Path, PathBuf},
};

use crate::store::files::{self, Links, careful, odd};

/// What tells a file from another of the same name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Identity {
    #[cfg(unix)]
    device_and_node: (u64, u64),
    #[cfg(not(unix))]
    created: Option<std::time::SystemTime>,
}

impl Identity {
    pub(super) fn of(found: &Metadata) -> Self {
        #[cfg(unix)]
        {
            use std::os::unix::fs::MetadataExt;
            Self { device_and_node: (found.dev(), found.ino()) }
        }
        #[cfg(not(unix))]
        Self { created: found.created().ok() }
    }
}

/// Where jobs lie: the seam at which tests let a disk fail.
pub(super) trait Disk: fmt::Debug {
    /// The file, to be added to.
    fn open(&self, path: &Path) -> io::Result<Box<dyn Medium>>;
    /// Keeps bytes in a new file beside a job.
    fn set_aside(&self, path: &Path, bytes: &[u8]) -> io::Result<()>;
}

/// A file that is added to.
pub(super) trait Medium {
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
pub(super) struct RealDisk;

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
pub(crate) mod failing {
    use std::{cell::Cell, rc::Rc};

    use super::*;
    use crate::store::FolderStore;

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

    impl FolderStore {
        /// The same store on a disk that can be told to fail.
        pub(crate) fn that_can_fail(self) -> (Self, FailingDisk) {
            let disk = FailingDisk::default();
            (Self { disk: Rc::new(disk.clone()), ..self }, disk)
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
