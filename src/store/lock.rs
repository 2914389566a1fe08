//! One writer per job: an OS lock on a file beside it, whose text says who holds it.

use std::{
    fs::{File, OpenOptions, TryLockError},
    io::{Read, Seek, Write},
    path::Path,
};

use jiff::Timestamp;

/// A lock that is held until it is dropped.
#[derive(Debug)]
pub struct Lock {
    _file: File,
}

/// How an attempt to lock ended.
#[derive(Debug)]
pub enum Held {
    /// It is ours.
    Ours(Lock),
    /// Somebody else has it: who, as the lock's text says.
    Theirs(String),
    /// This folder gives no locks; appends compare the file instead.
    NoLocks,
}

impl Lock {
    /// Tries to lock, and writes who holds it.
    pub fn take(path: &Path, by: &str, now: Timestamp) -> Held {
        let Ok(mut file) = OpenOptions::new().create(true).read(true).write(true).truncate(false).open(path)
        else {
            return Held::NoLocks;
        };
        match file.try_lock() {
            Ok(()) => {
                let host = gethostname::gethostname();
                let text = format!("{by} on {} since {now}\n", host.to_string_lossy());
                // The text is for people: the lock holds without it.
                let _ = file
                    .set_len(0)
                    .and_then(|()| file.rewind())
                    .and_then(|()| file.write_all(text.as_bytes()));
                Held::Ours(Self { _file: file })
            }
            Err(TryLockError::WouldBlock) => {
                let mut text = String::new();
                let read = file.read_to_string(&mut text);
                let who = text.trim();
                Held::Theirs(if read.is_ok() && !who.is_empty() {
                    who.to_owned()
                } else {
                    "another program".to_owned()
                })
            }
            Err(TryLockError::Error(_)) => Held::NoLocks,
        }
    }
}
