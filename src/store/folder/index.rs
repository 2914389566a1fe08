//! `.board`: the summaries of a folder's jobs, so that listing a thousand does not mean reading a
//! thousand. A line counts only where the job's file is still the one it was made from: its node, length
//! and times, and the check sum it ends in. The file may be thrown away at any time.

use std::{collections::BTreeMap, fs::Metadata, path::Path, time::SystemTime};

use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use crate::store::{
    files::{Links, odd, read_text, write_whole},
    job_id::JobId,
    port::{EntryCount, Head, StreamId, Summarised, Summary},
};

/// Its name.
const NAME: &str = ".board";
/// The most of it that is read: 1,000 jobs take a third of a megabyte.
const MOST: u64 = 64 << 20;
/// Bytes looked at where a job ends: its last check sum, and what stands around it.
pub(super) const END_SEEN: u64 = 32;
/// A file that was changed so short a time before its summary was kept may have been changed again
/// without its times showing it: the coarsest file systems count in two seconds.
const COARSEST_NS: i64 = 2_000_000_000;

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

    /// When the file was written last.
    pub(super) fn touched(&self) -> Timestamp {
        Timestamp::from_nanosecond(i128::from(self.written)).unwrap_or_default()
    }
}

fn nanoseconds(at: SystemTime) -> i64 {
    let since = at.duration_since(SystemTime::UNIX_EPOCH).unwrap_or_default();
    i64::try_from(since.as_nanos()).unwrap_or(i64::MAX)
}

/// The first line: of which program the rest is, and its check sum.
#[derive(Serialize, Deserialize)]
struct HeadForm {
    program: String,
    sum: String,
}

#[derive(Serialize, Deserialize)]
struct LineForm {
    job: String,
    stamp: Stamp,
    n: usize,
    sum: String,
    summary: String,
}

/// The files of streams as they were, and what was said of them.
type Lines = BTreeMap<StreamId, (Stamp, Option<(Head, Summary)>)>;

/// The summaries of a folder.
#[derive(Debug, Clone, Default)]
pub(super) struct Index {
    lines: Lines,
    /// When it was written, as the file system counts.
    written: i64,
}

impl Index {
    /// The index of a folder; one that is missing, damaged or of another program holds nothing.
    pub fn read(folder: &Path) -> Self {
        let path = folder.join(NAME);
        // Its time first: a newer file may take its place while it is read.
        let written = std::fs::symlink_metadata(&path).map(|found| Stamp::of(&found).written);
        let read = read_text(&path, MOST, Links::Refused);
        let (Ok(written), Ok(text)) = (written, read) else { return Self::default() };
        Self { lines: lines_of(&text).unwrap_or_default(), written }
    }

    /// The summary kept of a stream, where the stream's file bears it out.
    pub fn summary_of(
        &self,
        stream: &StreamId,
        stamp: &Stamp,
        end: impl FnOnce() -> Option<Vec<u8>>,
    ) -> Option<(Head, Summary)> {
        let (kept, summary) = self.lines.get(stream)?;
        let (head, summary) = summary.as_ref()?;
        let is_settled = stamp.written.max(stamp.changed).saturating_add(COARSEST_NS) <= self.written;
        let is_borne_out = || {
            let end = end()?;
            let end = end.strip_suffix(b"\n").unwrap_or(&end);
            Some(end.ends_with(format!(",sum:\"{}\")", head.sum.as_str()).as_bytes()))
        };
        (kept == stamp && is_settled && is_borne_out() == Some(true)).then(|| (head.clone(), summary.clone()))
    }

    /// Notes a file as a listing finds it.
    pub fn note(&mut self, stream: StreamId, stamp: Stamp, summary: Option<(Head, Summary)>) {
        self.lines.insert(stream, (stamp, summary));
    }

    /// Puts in a summary that was made of the file as it was noted, or of a later one: then the note is no
    /// longer true of the file, and the summary does not count.
    pub fn put(&mut self, summarised: &Summarised) {
        if let Some((_, summary)) = self.lines.get_mut(&summarised.stream) {
            *summary = Some((summarised.head.clone(), summarised.summary.clone()));
        }
    }

    /// Writes it, where that can be done: a folder that cannot be written is listed all the same.
    pub fn write(&self, folder: &Path) {
        let path = folder.join(NAME);
        if odd(&path, Links::Refused).is_none()
            && let Some(text) = self.text()
        {
            let _ = write_whole(&path, text.as_bytes());
        }
    }

    fn text(&self) -> Option<String> {
        let mut rest = String::new();
        for (stream, (stamp, summary)) in &self.lines {
            let Some((head, summary)) = summary else { continue };
            let line = LineForm {
                job: stream.name().to_owned(),
                stamp: *stamp,
                n: head.n.0,
                sum: head.sum.as_str().to_owned(),
                summary: summary.0.clone(),
            };
            rest.push_str(&serde_json::to_string(&line).ok()?);
            rest.push('\n');
        }
        let head = HeadForm { program: program(), sum: sum_of(&rest) };
        Some(format!("{}\n{rest}", serde_json::to_string(&head).ok()?))
    }
}

/// Another program may reckon otherwise.
fn program() -> String {
    format!("repin {}", env!("CARGO_PKG_VERSION"))
}

fn sum_of(text: &str) -> String {
    Sha256::digest(text).iter().take(8).map(|byte| format!("{byte:02x}")).collect()
}

fn lines_of(text: &str) -> Option<Lines> {
    let (head, rest) = text.split_once('\n')?;
    let head: HeadForm = serde_json::from_str(head).ok()?;
    if head.program != program() || head.sum != sum_of(rest) {
        return None;
    }
    let mut lines = Lines::new();
    for line in rest.lines() {
        let LineForm { job, stamp, n, sum, summary } = serde_json::from_str(line).ok()?;
        let head = Head { n: EntryCount(n), sum: sum.into() };
        let id: JobId = job.parse().ok()?;
        lines.insert(StreamId::Job(id), (stamp, Some((head, Summary(summary)))));
    }
    Some(lines)
}
