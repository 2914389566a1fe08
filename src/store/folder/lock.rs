//! One writer per job: an OS lock on a file beside it, whose text says who holds it. What lies there
//! and is no lock of ours is named and left alone.

use std::{
    fs::{File, OpenOptions, TryLockError},
    io::{self, Read, Seek, Write},
    path::Path,
};

use jiff::Timestamp;

use crate::{
    quantity::quoted,
    store::files::{Links, careful, odd, shown},
};

/// What is read of a lock's text: more than a name, a host and a time take.
const TEXT_MOST: u64 = 200;

/// The longest file that can be a lock.
const LOCK_MOST: u64 = 4096;

/// A lock that is held until it is dropped.
#[derive(Debug)]
pub(super) struct Lock {
    _file: File,
}

/// How an attempt to lock ended.
#[derive(Debug)]
pub(super) enum Held {
    /// It is ours.
    Ours(Lock),
    /// Somebody else has it: who, as the lock's text says.
    Theirs(String),
    /// This folder gives no locks; appends compare the file instead.
    NoLocks,
    /// Something else lies where the lock should: what, and what to do.
    Odd(String),
}

impl Lock {
    /// Tries to lock, and writes who holds it.
    pub fn take(path: &Path, by: &str, now: Timestamp) -> Held {
        let is_odd = |what: &str| {
            Held::Odd(format!(
                "{} is {what}, not a lock: nothing is written. Look at it, move it away and open the job again",
                shown(path)
            ))
        };
        if let Some(what) = odd(path, Links::Refused) {
            return is_odd(what);
        }
        let mut options = OpenOptions::new();
        options.create(true).read(true).write(true).truncate(false);
        let mut file = match careful(&mut options, Links::Refused).open(path) {
            Ok(file) => file,
            // Another user's file: it locks all the same, and its text stays as it is.
            Err(why) if why.kind() == io::ErrorKind::PermissionDenied && path.exists() => {
                match careful(OpenOptions::new().read(true), Links::Refused).open(path) {
                    Ok(file) => file,
                    Err(_) => return is_odd("a lock of another user"),
                }
            }
            // A link may have been put there since it was looked at.
            Err(_) => return odd(path, Links::Refused).map_or(Held::NoLocks, is_odd),
        };
        let Ok(found) = file.metadata() else { return Held::NoLocks };
        if !found.is_file() {
            return is_odd("no file");
        }
        if has_other_names(&found) {
            return is_odd("a file that has another name, too");
        }
        match file.try_lock() {
            Ok(()) if found.len() > LOCK_MOST => is_odd("a file with something in it"),
            Ok(()) => {
                let host = gethostname::gethostname();
                let text = format!("{} on {} since {now}\n", quoted(by), quoted(&host.to_string_lossy()));
                // The text is for people: the lock holds without it.
                let _ = file
                    .set_len(0)
                    .and_then(|()| file.rewind())
                    .and_then(|()| file.write_all(text.as_bytes()));
                Held::Ours(Self { _file: file })
            }
            Err(TryLockError::WouldBlock) => {
                let mut text = Vec::new();
                // Whatever cannot be read is not shown.
                let _ = (&mut file).take(TEXT_MOST).read_to_end(&mut text);
                let text = String::from_utf8_lossy(&text);
                let who: String = text.lines().next().unwrap_or_default().trim().to_owned();
                Held::Theirs(match who.is_empty() {
                    true => "another program".to_owned(),
                    false => crate::quantity::harmless(&who).into_owned(),
                })
            }
            Err(TryLockError::Error(_)) => Held::NoLocks,
        }
    }
}

/// Whether the same file lies elsewhere, too: emptying it would empty that.
fn has_other_names(found: &std::fs::Metadata) -> bool {
    #[cfg(unix)]
    return std::os::unix::fs::MetadataExt::nlink(found) > 1;
    #[cfg(not(unix))]
    {
        let _ = found;
        false
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn take(path: &Path) -> Held {
        Lock::take(path, "K. Tanner", Timestamp::UNIX_EPOCH)
    }

    #[test]
    fn a_lock_says_who_holds_it_and_no_more_of_its_text_is_read_than_that_takes() {
        let folder = tempfile::TempDir::new().unwrap();
        let path = folder.path().join("x.lock");
        let Held::Ours(held) = take(&path) else { panic!("not ours") };
        let Held::Theirs(who) = take(&path) else { panic!("locked twice") };
        assert!(who.starts_with("K. Tanner on ") && who.ends_with("since 1970-01-01T00:00:00Z"), "{who}");
        // Another program wrote into it.
        std::fs::write(&path, format!("\u{1b}[31m{}", "x".repeat(50_000_000))).unwrap();
        let Held::Theirs(who) = take(&path) else { panic!("locked twice") };
        assert!(who.starts_with("<U+001B>[31mx") && who.len() < 250, "{} bytes", who.len());
        drop(held);
        assert!(matches!(take(&path), Held::Odd(say) if say.contains("something in it")));
        assert_eq!(std::fs::metadata(&path).unwrap().len(), 50_000_005, "it was not ours to empty");
    }

    #[cfg(unix)]
    #[test]
    fn a_planted_link_is_named_and_its_target_keeps_what_it_holds() {
        let folder = tempfile::TempDir::new().unwrap();
        let (path, target) = (folder.path().join("x.lock"), folder.path().join("target"));
        std::fs::write(&target, "precious").unwrap();
        std::os::unix::fs::symlink(&target, &path).unwrap();
        assert!(matches!(take(&path), Held::Odd(say) if say.contains("x.lock is a link")));
        std::fs::remove_file(&path).unwrap();
        std::fs::hard_link(&target, &path).unwrap();
        assert!(matches!(take(&path), Held::Odd(say) if say.contains("another name")));
        std::fs::remove_file(&path).unwrap();
        std::fs::create_dir(&path).unwrap();
        assert!(matches!(take(&path), Held::Odd(say) if say.contains("is a folder")));
        assert_eq!(std::fs::read_to_string(&target).unwrap(), "precious");
    }
}
