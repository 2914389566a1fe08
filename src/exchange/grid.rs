//! A text to rows of cells: comma, semicolon or tab, with quoted cells; every row with its line.

use std::collections::BTreeMap;

/// The marks people part cells with.
pub(super) const DELIMITERS: [char; 3] = [';', '\t', ','];

/// A quoted cell that runs over more lines than this was opened by mistake.
const LINES_MOST: u64 = 12;

/// The longest cell that is read, in bytes: a page of notes.
const CELL_MOST: usize = 10_000;

/// The most cells of a row that are read.
const CELLS_MOST: usize = 1_000;

/// One row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct GridRow {
    /// The line it starts on, from 1.
    pub line: u32,
    /// The line it ends on.
    pub last_line: u32,
    /// Its cells, trimmed; empty where one is too long to be read.
    pub cells: Vec<String>,
    /// Why not all of it was read, when that is so.
    pub too_large: Option<String>,
}

impl GridRow {
    /// A cell; empty where the row is short.
    pub fn cell(&self, column: usize) -> &str {
        self.cells.get(column).map_or("", String::as_str)
    }

    /// Whether nothing is written in it.
    pub fn is_blank(&self) -> bool {
        self.cells.iter().all(String::is_empty)
    }

    /// Whether a quotation mark swallowed lines.
    pub fn runs_on(&self) -> bool {
        u64::from(self.last_line - self.line) > LINES_MOST
    }
}

/// The delimiter a first line such as `sep=;` names, and the rest of the text with how many lines
/// stand before it.
pub(super) fn named_delimiter(text: &str) -> (Option<char>, &str, u32) {
    let (first, rest) = text.split_once('\n').unwrap_or((text, ""));
    match first.trim().strip_prefix("sep=").and_then(|named| named.chars().next()) {
        Some(named) => (Some(named), rest, 1),
        None => (None, text, 0),
    }
}

/// The rows of a text, with this delimiter, counted on from `before`.
pub(super) fn rows(text: &str, delimiter: char, before: u32) -> Vec<GridRow> {
    let Ok(delimiter) = u8::try_from(delimiter) else { return Vec::new() };
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(delimiter)
        .has_headers(false)
        .flexible(true)
        .from_reader(text.as_bytes());
    let mut rows: Vec<GridRow> = Vec::new();
    let number = |line: usize| u32::try_from(line).unwrap_or(u32::MAX).saturating_add(before);
    let mut record = csv::StringRecord::new();
    let (mut counted_to, mut line) = (0, 1);
    // Text is UTF-8 here and the form flexible: nothing is left that could fail.
    while let Ok(true) = reader.read_record(&mut record) {
        // A record's place is where the one before it ended: blank lines between are stepped over.
        let at = record.position().and_then(|p| usize::try_from(p.byte()).ok()).unwrap_or(counted_to);
        let blank =
            text.get(at..).unwrap_or_default().bytes().take_while(|b| matches!(b, b'\r' | b'\n')).count();
        line += breaks(text, counted_to, at + blank);
        counted_to = at + blank;
        let inside: usize = record.iter().map(|cell| cell.matches('\n').count()).sum();
        let bounded = |cell: &str| if cell.len() > CELL_MOST { String::new() } else { cell.to_owned() };
        let cells = record.iter().take(CELLS_MOST).map(|cell| bounded(cell.trim())).collect();
        let too_large = too_large(&record);
        rows.push(GridRow { line: number(line), last_line: number(line + inside), cells, too_large });
    }
    rows
}

/// What of a row is too large to be read.
fn too_large(record: &csv::StringRecord) -> Option<String> {
    if record.len() > CELLS_MOST {
        return Some(format!("there are {} cells, and at most {CELLS_MOST} are read", record.len()));
    }
    let (n, cell) = record.iter().enumerate().find(|(_, cell)| cell.trim().len() > CELL_MOST)?;
    Some(format!(
        "cell {} is {} bytes long, and at most {CELL_MOST} are read: is a quotation mark not closed?",
        n + 1,
        cell.len()
    ))
}

/// The line ends between two places of a text.
fn breaks(text: &str, from: usize, to: usize) -> usize {
    text.get(from..to).map_or(0, |part| part.replace("\r\n", "\n").matches(['\n', '\r']).count())
}

/// How many of the first rows have the most common number of cells, when that is more than one.
pub(super) fn evenness(rows: &[GridRow]) -> usize {
    let mut counts: BTreeMap<usize, usize> = BTreeMap::new();
    for row in rows.iter().take(200).filter(|row| !row.is_blank()) {
        *counts.entry(row.cells.len()).or_default() += 1;
    }
    counts.into_iter().filter(|(cells, _)| *cells > 1).map(|(_, rows)| rows).max().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cell_or_a_row_without_end_is_not_read_and_said() {
        let rows = rows(&format!("a;{}\nb;c\n{}", "x".repeat(20_000), "d;".repeat(5_000)), ';', 0);
        assert_eq!(rows[0].cells, ["a", ""]);
        assert!(rows[0].too_large.as_ref().unwrap().starts_with("cell 2 is 20000 bytes long"));
        assert_eq!((rows[1].cells.len(), &rows[1].too_large), (2, &None));
        assert_eq!(rows[2].cells.len(), 1_000);
        assert!(rows[2].too_large.as_ref().unwrap().starts_with("there are 5001 cells"));
    }

    #[test]
    fn quoted_cells_keep_delimiters_and_lines_are_counted() {
        let rows = rows("a;b\n\"RD;WH\";\"two\nlines\"\n\r\n\n3;x\n", ';', 0);
        assert_eq!(rows.iter().map(|r| r.line).collect::<Vec<_>>(), [1, 2, 6]);
        assert_eq!(rows[1].cells, ["RD;WH", "two\nlines"]);
        assert_eq!(named_delimiter("sep=;\r\nx").0, Some(';'));
    }
}
