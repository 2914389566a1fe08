//! From one revision of a request to the next: a line that goes on keeps its number, a new one gets a
//! number that was never used, one that is gone stays with nothing needed.

use super::{Change, Fact, Line};

/// The lines of a revision, and whether it says anything the one before did not.
#[derive(Debug, Clone, PartialEq)]
pub struct Revision {
    /// The lines that are asked for, in the order they were given.
    pub lines: Vec<Revised>,
    /// The lines that nothing asks for any more.
    pub gone: Vec<Revised>,
    /// Whether the desk has to know.
    pub changed: bool,
}

/// A line with its number, and what is not as it was.
#[derive(Debug, Clone, PartialEq)]
pub struct Revised {
    /// The line.
    pub line: Line,
    /// What changed.
    pub changes: Vec<Change>,
}

/// The next revision: what is asked for now, numbered on from the lines of the revision before.
pub fn revise(before: &[Line], now: Vec<Line>) -> Revision {
    let goes_on = matched(before, &now);
    let mut next = before.iter().map(|line| line.line).max().unwrap_or(0);
    let lines: Vec<Revised> = now
        .into_iter()
        .zip(&goes_on)
        .map(|(line, goes_on)| match goes_on {
            Some(old) => {
                let changes = old.changes_to(&line);
                Revised { line: Line { line: old.line, ..line }, changes }
            }
            None => {
                next = next.saturating_add(1);
                Revised { line: Line { line: next, ..line }, changes: vec![Change::NewLine] }
            }
        })
        .collect();
    let is_kept = |old: &Line| goes_on.iter().flatten().any(|kept| kept.line == old.line);
    let left: Vec<&Line> = before.iter().filter(|old| !is_kept(old)).collect();
    let changed = lines.iter().any(|line| !line.changes.is_empty())
        || left.iter().any(|old| old.amount.need > 0 || old.amount.spare > 0);
    let gone = left.into_iter().map(|old| {
        let was = (old.amount.need > 0).then(|| Change::Was("need", Fact::from(old.amount.need)));
        Revised { line: old.clone().gone(), changes: was.into_iter().collect() }
    });
    Revision { gone: gone.collect(), lines, changed }
}

/// The line of the revision before that each line goes on, none twice: first what is the same, then what
/// got its number since.
fn matched<'a>(before: &'a [Line], now: &[Line]) -> Vec<Option<&'a Line>> {
    let mut taken: Vec<u32> = Vec::new();
    let mut found: Vec<Option<&Line>> = now.iter().map(|_| None).collect();
    for is_it in [Line::is_same, Line::is_identified_by] {
        for (line, found) in now.iter().zip(&mut found).filter(|(_, found)| found.is_none()) {
            *found = before.iter().find(|old| !taken.contains(&old.line) && is_it(old, line));
            taken.extend(found.map(|old| old.line));
        }
    }
    found
}
