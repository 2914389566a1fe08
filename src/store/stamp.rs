//! By what a file is known to be the one that was looked at, without reading it.

use std::{fs::Metadata, time::SystemTime};

use jiff::Timestamp;
use serde::{Deserialize, Serialize};

/// What a file's folder says of it: a change of the file changes it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Stamp {
    node: u64,
    length: u64,
    /// When it was written last, in nanoseconds.
    written: i64,
    /// When it, its name or its rights were changed last.
    changed: i64,
}

impl Stamp {
    pub(super) fn of(found: &Metadata) -> Self {
        let written = found.modified().map(nanoseconds).unwrap_or_default();
        #[cfg(unix)]
        let (node, changed) = {
            use std::os::unix::fs::MetadataExt;
            let changed = found.ctime().saturating_mul(1_000_000_000).saturating_add(found.ctime_nsec());
            (found.ino(), changed)
        };
        #[cfg(not(unix))]
        let (node, changed) = (0, found.created().map(nanoseconds).unwrap_or_default());
        Self { node, length: found.len(), written, changed }
    }

    /// When the file was written last, in nanoseconds.
    pub(super) fn written(&self) -> i64 {
        self.written
    }

    /// When anything of it was changed last, in nanoseconds.
    pub(super) fn last_change(&self) -> i64 {
        self.written.max(self.changed)
    }

    /// When the file was written last.
    pub(super) fn touched(&self) -> Timestamp {
        Timestamp::from_nanosecond(i128::from(self.written)).unwrap_or_default()
    }
}

fn nanoseconds(at: SystemTime) -> i64 {
    let since = at.duration_since(SystemTime::UNIX_EPOCH).unwrap_or_default();
    i64::try_from(since.as_nanos()).unwrap_or(i64::MAX)
}
