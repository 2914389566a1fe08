//! The journal of a job: one entry a line, each chained to the one before by a check sum. Reading
//! never repairs; what is wrong is said, and everything before it can be shown.

use sha2::{Digest, Sha256};

use crate::{
    form::{EntryProblem, Problem, read_entry, write_entry},
    job::Entry,
    quantity::{brief, count_of},
};

/// `,sum:"` + 16 hexadecimal digits + `")`.
const SUM_TAIL: usize = 24;

/// A journal as read.
#[derive(Debug, Clone, PartialEq)]
pub struct Journal {
    /// The entries that can be trusted.
    pub entries: Vec<Entry>,
    /// The check sum of the last of them.
    pub last_sum: String,
    /// Bytes of the file they take, torn tail excluded.
    pub whole_bytes: usize,
    /// Whether that is all.
    pub condition: Condition,
}

/// What was wrong with a journal.
#[derive(Debug, Clone, PartialEq)]
pub enum Condition {
    /// Nothing.
    Whole,
    /// The last line has a good sum and no line end: the entry counts, the line end is still due.
    NoLineEnd,
    /// The last line was cut while it was written; these bytes of it are left.
    Torn(Vec<u8>),
    /// This line (from 1) is not what was written.
    Damaged {
        /// The line.
        line: usize,
        /// What is wrong with it.
        say: String,
    },
    /// This line (from 1) is what was written, and holds a value that is not known.
    NotAccepted {
        /// The line.
        line: usize,
        /// Where in it, and what.
        problem: Box<Problem>,
    },
    /// This line (from 1) was written by a newer repin.
    Newer {
        /// The line.
        line: usize,
        /// Its version.
        version: u32,
    },
}

impl Condition {
    /// Whether entries may be added.
    pub fn may_be_written(&self) -> bool {
        matches!(self, Self::Whole | Self::NoLineEnd | Self::Torn(_))
    }
}

/// The line of an entry, without its line end, and its check sum.
pub fn line_of(n: usize, entry: &Entry, last_sum: &str) -> Result<(String, String), ron::Error> {
    let body = write_entry(n, entry)?;
    let sum = sum_of(last_sum, body.as_bytes());
    Ok((format!("({body},sum:\"{sum}\")"), sum))
}

/// The first eight bytes of SHA-256 over the previous sum and the text, in hexadecimal.
fn sum_of(last_sum: &str, body: &[u8]) -> String {
    let digest = Sha256::new().chain_update(last_sum).chain_update(body).finalize();
    digest.iter().take(8).map(|byte| format!("{byte:02x}")).collect()
}

/// Reads the bytes of a journal.
pub fn read_journal(bytes: &[u8]) -> Journal {
    let mut journal =
        Journal { entries: Vec::new(), last_sum: String::new(), whole_bytes: 0, condition: Condition::Whole };
    let mut rest = bytes;
    while !rest.is_empty() {
        let end = rest.iter().position(|b| *b == b'\n');
        let (line, after) = match end {
            Some(end) => rest.split_at(end),
            None => (rest, &rest[rest.len()..]),
        };
        match read_line(line, &journal) {
            Ok((entry, sum)) => {
                journal.entries.push(entry);
                journal.last_sum = sum;
                journal.whole_bytes += line.len() + usize::from(end.is_some());
                if end.is_none() {
                    journal.condition = Condition::NoLineEnd;
                }
            }
            // What has a good sum was not cut.
            Err(Condition::Damaged { .. }) if end.is_none() => {
                journal.condition = Condition::Torn(line.to_vec());
                return journal;
            }
            Err(condition) => {
                journal.condition = condition;
                return journal;
            }
        }
        rest = after.get(1..).unwrap_or_default();
    }
    journal
}

/// One line, checked against the sum of the line before.
fn read_line(line: &[u8], before: &Journal) -> Result<(Entry, String), Condition> {
    let number = before.entries.len() + 1;
    let damaged = |say: &str| Condition::Damaged { line: number, say: say.to_owned() };
    let body_end = line.len().checked_sub(SUM_TAIL).ok_or_else(|| damaged("it is too short for an entry"))?;
    let (head, tail) = line.split_at(body_end);
    let body = head.strip_prefix(b"(").ok_or_else(|| damaged("it does not start like an entry"))?;
    let sum = tail
        .strip_prefix(b",sum:\"")
        .and_then(|tail| tail.strip_suffix(b"\")"))
        .ok_or_else(|| damaged("it does not end in a check sum"))?;
    let expected = sum_of(&before.last_sum, body);
    if sum != expected.as_bytes() {
        return Err(damaged("its check sum does not agree: it was changed or a line before it is missing"));
    }
    let text = std::str::from_utf8(line).map_err(|_| damaged("it is not text"))?;
    match read_entry(number, text) {
        Ok(entry) => Ok((entry, expected)),
        Err(EntryProblem::Newer { version }) => Err(Condition::Newer { line: number, version }),
        Err(EntryProblem::NotAccepted(problem)) => Err(Condition::NotAccepted { line: number, problem }),
        Err(EntryProblem::Numbered(n)) => Err(damaged(&format!("it is numbered {n}"))),
        Err(EntryProblem::NotAnEntry(problem)) => {
            Err(damaged(&format!("its entry is not understood: {}", brief(&problem.say))))
        }
    }
}

impl Journal {
    /// What is wrong, in one sentence, when something is.
    pub fn trouble(&self, file: &str) -> Option<String> {
        let next = self.entries.len() + 1;
        match &self.condition {
            Condition::Whole | Condition::NoLineEnd => None,
            Condition::Torn(_) => Some(format!(
                "{file}:{next}: the last line was cut while it was written; the {} before it are whole",
                count_of(self.entries.len(), "entry")
            )),
            Condition::Damaged { line, say } => {
                Some(format!("{file}:{line}: this line is damaged: {say}; the lines before it are whole"))
            }
            Condition::NotAccepted { problem, .. } => Some(format!(
                "{file}{}; the line is as it was written, but this repin does not take it: it can only be read up to there",
                problem.in_one_line()
            )),
            Condition::Newer { line, version } => Some(format!(
                "{file}:{line}: this line is of version {version}, written by a newer repin; it can only be read up to there"
            )),
        }
    }
}
