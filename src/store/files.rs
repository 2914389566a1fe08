//! Files as such: read within a bound and only where they are files, written whole or not at all.
//! Whatever reads a file goes through here: a pipe never hangs the program, a huge file never fills the
//! memory, and half a file is never seen.

use std::{
    fs::{self, File, OpenOptions},
    io::{self, Read, Write},
    path::{Path, PathBuf},
};

use crate::quantity::harmless;

/// A job: 100,000 entries, more than the longest will ever have, are about 20 MB.
pub const JOB_MOST: u64 = 64 << 20;
/// A wiring list, a harness file, a file of acts: the largest that are passed around are half of it.
pub const LIST_MOST: u64 = 64 << 20;
/// House rules, records, maps, families, requests, tool books, questions on the standard input: a
/// person edits them, and a few hundred kilobytes are a lot.
pub const TEXT_MOST: u64 = 4 << 20;

/// Why a file was not read.
#[derive(Debug, thiserror::Error)]
pub enum ReadProblem {
    /// The system refuses.
    #[error("{file} cannot be read: {why}")]
    System {
        /// The file.
        file: String,
        /// What the system says.
        why: io::Error,
    },
    /// It is something else than a file.
    #[error("{file}: this is {what}, not a file; it is left alone")]
    Odd {
        /// The file.
        file: String,
        /// What it is.
        what: &'static str,
    },
    /// It is larger than any such file.
    #[error("{file}: it is larger than {} MB, the most that is read; is it the right file?", .most >> 20)]
    TooLarge {
        /// The file.
        file: String,
        /// The bound, in bytes.
        most: u64,
    },
    /// It is not text.
    #[error("{file}: byte {byte} is not text; save the file as UTF-8")]
    NotText {
        /// The file.
        file: String,
        /// The first byte that is none, from 1.
        byte: usize,
    },
}

impl ReadProblem {
    /// Whether there is no such file.
    pub fn is_missing(&self) -> bool {
        matches!(self, Self::System { why, .. } if why.kind() == io::ErrorKind::NotFound)
    }
}

/// Whether a link to a file is as good as the file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Links {
    /// Yes: a person named the file, or keeps it.
    Followed,
    /// No: it is a file of the program, where a link was planted.
    Refused,
}

/// The bytes of a file, at most so many.
pub fn read_bytes(path: &Path, most: u64, links: Links) -> Result<Vec<u8>, ReadProblem> {
    let mut file = open_to_read(path, links)?;
    // Read by the handle, not by the length: a file may grow while it is read.
    whole_of(&mut file, &shown(path), most)
}

/// The text of a file, at most so many bytes, without the mark an editor may have put at its start.
pub fn read_text(path: &Path, most: u64, links: Links) -> Result<String, ReadProblem> {
    text_of(read_bytes(path, most, links)?, &shown(path))
}

/// The text of the standard input, at most so many bytes.
pub fn read_stdin(most: u64) -> Result<String, ReadProblem> {
    let name = "standard input";
    text_of(bounded(&mut io::stdin().lock(), name, most)?, name)
}

/// A file opened to be read, that is one; opening never waits for the other end of a pipe.
pub(super) fn open_to_read(path: &Path, links: Links) -> Result<File, ReadProblem> {
    if let Some(what) = odd(path, links) {
        return Err(ReadProblem::Odd { file: shown(path), what });
    }
    let system = |why| ReadProblem::System { file: shown(path), why };
    let file = careful(OpenOptions::new().read(true), links).open(path).map_err(system)?;
    // What was opened may not be what was looked at.
    match odd_kind(&file.metadata().map_err(system)?.file_type()) {
        Some(what) => Err(ReadProblem::Odd { file: shown(path), what }),
        None => Ok(file),
    }
}

/// What lies there instead of a file, when something does.
pub(super) fn odd(path: &Path, links: Links) -> Option<&'static str> {
    let found = match links {
        Links::Followed => fs::metadata(path),
        Links::Refused => fs::symlink_metadata(path),
    };
    odd_kind(&found.ok()?.file_type())
}

/// What a thing is that is no file.
fn odd_kind(kind: &fs::FileType) -> Option<&'static str> {
    if kind.is_file() {
        return None;
    }
    if kind.is_dir() {
        return Some("a folder");
    }
    if kind.is_symlink() {
        return Some("a link");
    }
    #[cfg(unix)]
    {
        use std::os::unix::fs::FileTypeExt;
        if kind.is_fifo() {
            return Some("a pipe");
        }
        if kind.is_socket() {
            return Some("a socket");
        }
    }
    Some("a device")
}

/// Options that wait for nobody, and follow no link where none is to be followed.
pub(super) fn careful(options: &mut OpenOptions, links: Links) -> &mut OpenOptions {
    #[cfg(unix)]
    {
        use rustix::fs::OFlags;
        use std::os::unix::fs::OpenOptionsExt;
        let follow = if links == Links::Refused { OFlags::NOFOLLOW } else { OFlags::empty() };
        options.custom_flags((OFlags::NONBLOCK | follow).bits().cast_signed());
    }
    // Elsewhere what was looked at before has to do.
    #[cfg(not(unix))]
    let _ = links;
    options
}

/// The bytes of an open file; one that is too large costs nothing but the look at it.
pub(super) fn whole_of(file: &mut File, name: &str, most: u64) -> Result<Vec<u8>, ReadProblem> {
    match file.metadata() {
        Ok(found) if found.len() > most => Err(ReadProblem::TooLarge { file: name.to_owned(), most }),
        Ok(_) => bounded(file, name, most),
        Err(why) => Err(ReadProblem::System { file: name.to_owned(), why }),
    }
}

fn bounded(from: &mut dyn Read, name: &str, most: u64) -> Result<Vec<u8>, ReadProblem> {
    let mut bytes = Vec::new();
    let read = from.take(most.saturating_add(1)).read_to_end(&mut bytes);
    read.map_err(|why| ReadProblem::System { file: name.to_owned(), why })?;
    if bytes.len() as u64 > most {
        return Err(ReadProblem::TooLarge { file: name.to_owned(), most });
    }
    Ok(bytes)
}

fn text_of(bytes: Vec<u8>, name: &str) -> Result<String, ReadProblem> {
    let text = String::from_utf8(bytes).map_err(|why| ReadProblem::NotText {
        file: name.to_owned(),
        byte: why.utf8_error().valid_up_to() + 1,
    })?;
    Ok(match text.strip_prefix('\u{feff}') {
        Some(rest) => rest.to_owned(),
        None => text,
    })
}

/// Writes a whole file, in the place of the one that is there.
pub(super) fn write_whole(path: &Path, bytes: &[u8]) -> io::Result<()> {
    written_beside(path, bytes)?.persist(path).map_err(|refused| refused.error)?;
    sync_folder(path)
}

/// Writes a new file whole; one that is there stays, and that is an error.
pub(super) fn write_new(path: &Path, bytes: &[u8]) -> io::Result<()> {
    written_beside(path, bytes)?.persist_noclobber(path).map_err(|refused| refused.error)?;
    sync_folder(path).inspect_err(|_| {
        // What is said not to be done is not there either.
        let _ = fs::remove_file(path);
    })
}

/// A synced file of a random name beside the one that is meant; it goes when it is dropped.
fn written_beside(path: &Path, bytes: &[u8]) -> io::Result<tempfile::NamedTempFile> {
    let mut builder = tempfile::Builder::new();
    builder.prefix(".repin-").suffix(".new");
    // Who may read it is for the folder and the user's own mask to say, as of any other file.
    #[cfg(unix)]
    builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
    let mut file = builder.tempfile_in(folder_of(path))?;
    file.write_all(bytes)?;
    file.as_file().sync_all()?;
    Ok(file)
}

/// Puts the names in a file's folder on disk.
fn sync_folder(path: &Path) -> io::Result<()> {
    if !cfg!(unix) {
        return Ok(());
    }
    match File::open(folder_of(path)).and_then(|folder| folder.sync_all()) {
        // Some file systems keep their folders without being asked, and folders can be written that
        // cannot be read.
        Err(why)
            if matches!(
                why.kind(),
                io::ErrorKind::InvalidInput | io::ErrorKind::Unsupported | io::ErrorKind::PermissionDenied
            ) =>
        {
            Ok(())
        }
        done => done,
    }
}

/// A fresh folder under the system's temporary one, which nobody can guess and only its owner can
/// open; it stays.
pub fn private_folder(prefix: &str) -> io::Result<PathBuf> {
    let mut builder = tempfile::Builder::new();
    builder.prefix(prefix);
    #[cfg(unix)]
    builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o700));
    Ok(builder.tempdir()?.keep())
}

/// The folder a file lies in.
pub(super) fn folder_of(path: &Path) -> &Path {
    path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

/// A path as it is shown.
pub(super) fn shown(path: &Path) -> String {
    harmless(&path.to_string_lossy()).into_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_read_within_its_bound_and_a_larger_one_is_named_with_it() {
        let folder = tempfile::TempDir::new().unwrap();
        let path = folder.path().join("x");
        fs::write(&path, "\u{feff}abc").unwrap();
        assert_eq!(read_text(&path, 6, Links::Refused).unwrap(), "abc");
        let say = read_text(&path, 5, Links::Refused).unwrap_err().to_string();
        assert!(say.contains("x: it is larger than"), "{say}");
        fs::write(&path, b"ab\xff").unwrap();
        let say = read_text(&path, 9, Links::Refused).unwrap_err().to_string();
        assert!(say.contains("byte 3 is not text"), "{say}");
        assert!(read_bytes(&folder.path().join("y"), 9, Links::Refused).unwrap_err().is_missing());
        // A huge file costs nothing but the look at it.
        File::create(&path).unwrap().set_len(200 << 30).unwrap();
        let say = read_bytes(&path, 1 << 20, Links::Refused).unwrap_err().to_string();
        assert!(say.contains("larger than 1 MB"), "{say}");
    }

    #[test]
    fn a_folder_is_not_read_and_a_link_only_where_a_person_may_have_set_it() {
        let folder = tempfile::TempDir::new().unwrap();
        let say = read_bytes(folder.path(), 9, Links::Followed).unwrap_err().to_string();
        assert!(say.contains("this is a folder"), "{say}");
        #[cfg(unix)]
        {
            let (path, link) = (folder.path().join("x"), folder.path().join("l"));
            fs::write(&path, "abc").unwrap();
            std::os::unix::fs::symlink(&path, &link).unwrap();
            assert_eq!(read_text(&link, 9, Links::Followed).unwrap(), "abc");
            let say = read_text(&link, 9, Links::Refused).unwrap_err().to_string();
            assert!(say.contains("this is a link"), "{say}");
        }
    }

    #[test]
    fn a_new_file_never_takes_the_place_of_one_and_nothing_is_left_beside_it() {
        let folder = tempfile::TempDir::new().unwrap();
        let path = folder.path().join("x");
        write_new(&path, b"one").unwrap();
        assert_eq!(write_new(&path, b"two").unwrap_err().kind(), io::ErrorKind::AlreadyExists);
        assert_eq!(fs::read(&path).unwrap(), b"one");
        write_whole(&path, b"three").unwrap();
        assert_eq!(fs::read(&path).unwrap(), b"three");
        // A folder is in the way: what was written beside it goes again.
        fs::create_dir(folder.path().join("in the way")).unwrap();
        assert!(write_whole(&folder.path().join("in the way"), b"x").is_err());
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 2);
    }
}
