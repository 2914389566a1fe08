//! The shape of a table: which mark parts its cells, where its heading is, what each column holds.

use std::collections::BTreeSet;

use crate::face::Label;

use super::{
    cells::content,
    colours::CodeSet,
    grid::{DELIMITERS, GridRow, evenness, named_delimiter, rows},
    headings::{Column, GaugeUnit, column_of},
};

/// How far down a heading is looked for.
const HEADING_WITHIN: usize = 30;

/// Where the heading is and what the columns hold.
pub(super) struct Heading {
    /// The first row after it.
    pub data_from: usize,
    /// What each column holds, where that is known.
    pub columns: Vec<Option<Column>>,
    /// What is written above each.
    pub names: Vec<String>,
    /// Whether commas part the cells.
    pub by_comma: bool,
}

impl Heading {
    fn score(&self) -> usize {
        let known: BTreeSet<Column> = self.columns.iter().flatten().copied().collect();
        if known.contains(&Column::Cavity) && known.len() > 1 { known.len() } else { 0 }
    }

    /// The first column of this kind.
    pub fn at(&self, wanted: impl Fn(Column) -> bool) -> Option<usize> {
        self.columns.iter().position(|column| column.is_some_and(&wanted))
    }
}

/// The rows by the delimiter under which a heading shows best, else under which the rows are most
/// even.
pub(super) fn parted(text: &str) -> Option<(Vec<GridRow>, Heading)> {
    let (named, rest, before) = named_delimiter(text);
    let candidates = named.map_or(DELIMITERS.to_vec(), |named| vec![named]);
    let mut best_score = None;
    let (mut best_rows, mut best_heading, mut by_comma) = (Vec::new(), None, false);
    for delimiter in candidates {
        let rows = rows(rest, delimiter, before);
        let heading = find_heading(&rows);
        let score = Some((heading.as_ref().map_or(0, Heading::score), evenness(&rows)));
        if score > best_score {
            (best_score, best_rows, best_heading, by_comma) = (score, rows, heading, delimiter == ',');
        }
    }
    let heading = best_heading.or_else(|| infer(&best_rows))?;
    Some((best_rows, Heading { by_comma, ..heading }))
}

fn is_number(cell: &str) -> bool {
    !cell.is_empty() && cell.replace(',', ".").parse::<f64>().is_ok()
}

/// The row, or two rows read together, that names the most columns and holds no number.
fn find_heading(rows: &[GridRow]) -> Option<Heading> {
    let wordy = |row: &&GridRow| !row.cells.iter().any(|cell| is_number(cell));
    // A size or the word for a plug under a heading is a line of the list already.
    let says = |cell: &String| content(cell).is_some() || GaugeUnit::Mm2.read(cell).is_ok();
    let goes_on = |row: &&GridRow| wordy(row) && !row.cells.iter().any(says);
    let mut best: Option<Heading> = None;
    for (n, row) in rows.iter().enumerate().take(HEADING_WITHIN).filter(|(_, row)| wordy(row)) {
        let one = heading_of(n + 1, row.cells.clone());
        let two = rows.get(n + 1).filter(goes_on).map(|below| {
            let width = row.cells.len().max(below.cells.len());
            let both = (0..width).map(|c| format!("{} {}", row.cell(c), below.cell(c)).trim().to_owned());
            heading_of(n + 2, both.collect())
        });
        for heading in [Some(one), two].into_iter().flatten() {
            if heading.score() > best.as_ref().map_or(0, Heading::score) {
                best = Some(heading);
            }
        }
    }
    best
}

fn heading_of(data_from: usize, names: Vec<String>) -> Heading {
    let mut columns: Vec<Option<Column>> = names.iter().map(|name| column_of(name)).collect();
    // Of two columns of one kind the first counts; the other is named among what is left aside.
    for n in 0..columns.len() {
        let (before, after) = columns.split_at_mut(n);
        if let Some(column) = after.first_mut()
            && column.is_some_and(|c| before.iter().flatten().any(|b| same_kind(*b, c)))
        {
            *column = None;
        }
    }
    Heading { data_from, columns, names, by_comma: false }
}

/// Whether two columns are of one kind, whatever their unit.
pub(super) fn same_kind(one: Column, other: Column) -> bool {
    one == other || matches!((one, other), (Column::Gauge(_), Column::Gauge(_)))
}

/// Without a heading: the first column as the cavity when it can be one, and what the others show
/// by themselves. None when that is not plain.
fn infer(rows: &[GridRow]) -> Option<Heading> {
    let filled: Vec<&GridRow> = rows.iter().filter(|row| !row.is_blank()).collect();
    let width = filled.iter().map(|row| row.cells.len()).max()?;
    let most = |column: usize, is: &dyn Fn(&str) -> bool| {
        let cells: Vec<&str> = filled.iter().map(|row| row.cell(column)).filter(|c| !c.is_empty()).collect();
        !cells.is_empty() && cells.iter().filter(|cell| is(cell)).count() * 10 >= cells.len() * 8
    };
    let labels: BTreeSet<&str> = filled.iter().map(|row| row.cell(0)).collect();
    let is_label =
        |cell: &str| cell.parse::<Label>().is_ok() && !cell.contains(' ') && column_of(cell).is_none();
    if labels.len() * 10 < filled.len() * 9 || !most(0, &is_label) {
        return None;
    }
    let set = CodeSet::decide(filled.iter().flat_map(|row| row.cells.iter().map(String::as_str)));
    let mut columns = vec![Some(Column::Cavity)];
    for c in 1..width {
        let is_colour = |cell: &str| set.read(cell).is_ok() || content(cell).is_some();
        let is_gauge = |cell: &str| GaugeUnit::Mm2.read(cell).is_ok();
        let is_wire =
            |cell: &str| cell.chars().any(|c| c.is_ascii_digit()) && cell.len() <= 8 && !cell.contains(' ');
        let guess = [
            (Column::Colour, most(c, &is_colour)),
            (Column::Gauge(GaugeUnit::NotSaid), most(c, &is_gauge)),
            (Column::Wire, most(c, &is_wire)),
        ];
        let guess = guess.into_iter().find(|(column, fits)| *fits && !columns.contains(&Some(*column)));
        columns.push(guess.map(|(column, _)| column));
    }
    let names = (1..=width).map(|n| format!("column {n}")).collect();
    columns.contains(&Some(Column::Colour)).then_some(Heading {
        data_from: 0,
        columns,
        names,
        by_comma: false,
    })
}
