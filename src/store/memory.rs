//! A store in memory: for tests, and for whatever needs a job and no disk. What it keeps is gone with it.

use std::{
    cell::RefCell,
    collections::{BTreeMap, BTreeSet},
    io,
    rc::Rc,
};

use jiff::Timestamp;

use super::{
    files::ReadProblem,
    job_id::FileName,
    journal::Condition,
    port::{
        AppendProblem, Change, Claim, Cursor, EntryCount, Head, Listed, Seen, Store, StoreProblem, StreamId,
        StreamKind, StreamWriter, Stretch, Summarised, Summary, lines_after,
    },
};
use crate::{
    job::Entry,
    reckoning::{ToolBook, ToolPosition},
};

/// A store in memory. A clone is the same store.
#[derive(Debug, Clone, Default)]
pub struct MemoryStore(Rc<RefCell<Kept>>);

#[derive(Debug, Default)]
struct Kept {
    streams: BTreeMap<StreamId, Stream>,
    claimed: BTreeMap<StreamId, String>,
    exports: BTreeMap<String, String>,
    /// The tool book of each bench.
    books: BTreeMap<String, ToolBook>,
    /// How many changes there were.
    changes: u64,
}

#[derive(Debug)]
struct Stream {
    entries: Vec<Entry>,
    head: Head,
    /// The number of the change that touched it last.
    change: u64,
    touched: Timestamp,
    summary: Option<(Head, Summary)>,
}

/// The writer of a stream; it gives the claim back when it is dropped.
#[derive(Debug)]
struct MemoryWriter {
    store: MemoryStore,
    stream: StreamId,
}

impl Drop for MemoryWriter {
    fn drop(&mut self) {
        self.store.0.borrow_mut().claimed.remove(&self.stream);
    }
}

impl StreamWriter for MemoryWriter {
    fn read(&mut self) -> Result<Stretch, ReadProblem> {
        self.store.read(&self.stream, EntryCount::default())
    }

    fn append(&mut self, expected: &Head, entries: &[Entry]) -> Result<Head, AppendProblem> {
        let place = self.store.place(&self.stream);
        let mut kept = self.store.0.borrow_mut();
        let head = kept.streams.get(&self.stream).map(|stream| stream.head.clone()).unwrap_or_default();
        if head != *expected {
            return Err(AppendProblem::Conflict { place, how: Change::Written, head });
        }
        let after = lines_after(expected, entries);
        let (_, head) = after.map_err(|why| AppendProblem::Disk { place, why: why.to_string() })?;
        kept.changes += 1;
        let change = kept.changes;
        let touched = entries.last().map(|entry| entry.at).unwrap_or_default();
        let new = || Stream { entries: Vec::new(), head: Head::default(), change, touched, summary: None };
        let stream = kept.streams.entry(self.stream.clone()).or_insert_with(new);
        stream.entries.extend_from_slice(entries);
        (stream.head, stream.change, stream.touched) = (head.clone(), change, touched);
        Ok(head)
    }
}

impl Store for MemoryStore {
    fn claim(&self, stream: &StreamId, by: &str, now: Timestamp) -> Claim {
        let mut kept = self.0.borrow_mut();
        if let Some(who) = kept.claimed.get(stream) {
            return Claim::Theirs(who.clone());
        }
        kept.claimed.insert(stream.clone(), format!("{by} since {now}"));
        Claim::Ours(Box::new(MemoryWriter { store: self.clone(), stream: stream.clone() }))
    }

    fn read(&self, stream: &StreamId, from: EntryCount) -> Result<Stretch, ReadProblem> {
        let kept = self.0.borrow();
        let Some(found) = kept.streams.get(stream) else {
            return Err(ReadProblem::System {
                file: stream.to_string(),
                why: io::Error::from(io::ErrorKind::NotFound),
            });
        };
        Ok(Stretch {
            entries: found.entries.get(from.0..).unwrap_or_default().to_vec(),
            head: found.head.clone(),
            condition: Condition::Whole,
            trouble: None,
        })
    }

    fn holds(&self, stream: &StreamId) -> bool {
        self.0.borrow().streams.contains_key(stream)
    }

    fn prepare(&self) -> Result<(), StoreProblem> {
        Ok(())
    }

    fn list(&self, kind: StreamKind) -> Result<Vec<Listed>, StoreProblem> {
        let kept = self.0.borrow();
        let of_kind = kept.streams.iter().filter(|(id, _)| id.kind() == kind);
        let mut listed: Vec<(u64, Listed)> = of_kind
            .map(|(id, stream)| {
                let summary = stream.summary.clone().filter(|(head, _)| *head == stream.head);
                (stream.change, Listed { stream: id.clone(), touched: stream.touched, summary })
            })
            .collect();
        listed.sort_by_key(|(change, _)| std::cmp::Reverse(*change));
        Ok(listed.into_iter().map(|(_, listed)| listed).collect())
    }

    fn keep(&self, summaries: &[Summarised]) {
        let mut kept = self.0.borrow_mut();
        for Summarised { stream, head, summary } in summaries {
            if let Some(stream) = kept.streams.get_mut(stream) {
                stream.summary = Some((head.clone(), summary.clone()));
            }
        }
    }

    fn watch(&self, since: &Cursor) -> Result<(Vec<StreamId>, Cursor), StoreProblem> {
        let kept = self.0.borrow();
        let seen = match &since.0 {
            Seen::Changes(seen) => *seen,
            // A cursor of another store knows nothing of this one.
            Seen::Nothing | Seen::Files(_) => 0,
        };
        let changed: BTreeSet<StreamId> =
            kept.streams.iter().filter(|(_, s)| s.change > seen).map(|(id, _)| id.clone()).collect();
        Ok((changed.into_iter().collect(), Cursor(Seen::Changes(kept.changes))))
    }

    fn place(&self, stream: &StreamId) -> String {
        stream.to_string()
    }

    fn tool_book(&self) -> Result<ToolBook, StoreProblem> {
        let kept = self.0.borrow();
        let positions = kept.books.values().flat_map(|book| book.positions.iter().cloned()).collect();
        Ok(ToolBook { positions })
    }

    fn write_position(&self, bench: &str, position: &ToolPosition) -> Result<String, StoreProblem> {
        let mut kept = self.0.borrow_mut();
        let own = &mut kept.books.entry(bench.to_owned()).or_default().positions;
        own.retain(|old| !old.key.is_same(&position.key));
        own.push(position.clone());
        Ok(format!("tools/{bench}"))
    }

    fn export(&self, name: &FileName, text: &str) -> Result<String, StoreProblem> {
        self.0.borrow_mut().exports.insert(name.as_str().to_owned(), text.to_owned());
        Ok(self.export_place(name))
    }

    fn exported(&self, name: &FileName) -> Result<Option<String>, ReadProblem> {
        Ok(self.0.borrow().exports.get(name.as_str()).cloned())
    }

    fn export_place(&self, name: &FileName) -> String {
        name.as_str().to_owned()
    }
}
