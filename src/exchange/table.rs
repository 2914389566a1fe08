//! A spreadsheet's export to a wiring list: what is decided for the whole file, then line by line.

use std::collections::BTreeSet;

use crate::quantity::{list_of, plain_words, quoted};

use super::{
    colours::CodeSet,
    decode::decode,
    grid::GridRow,
    headings::{Column, GaugeUnit, column_of},
    shape::{Heading, parted, same_kind},
    wiring::{ListedHolds, WiringList, WiringRow},
};

/// Reads a list. With `connector`, only the lines of that connector, where the list names any.
pub fn read_table(bytes: &[u8], connector: Option<&str>) -> WiringList {
    let (text, assumed) = decode(bytes);
    let mut list = WiringList::default();
    list.assumed.extend(assumed);
    let (rows, heading) = match parted(&text) {
        Some(found) => found,
        None => {
            list.problem(1, "no column can be told from another: write a heading such as cavity, wire, circuit, colour, size");
            return list;
        }
    };
    let table = Table::new(&rows, heading, &mut list);
    table.read(connector, &mut list);
    list.name_duplicates();
    list.name_lost_partners();
    list.problems.sort_by_key(|problem| problem.line);
    list
}

/// A table with everything that is decided for the whole file.
pub(super) struct Table<'a> {
    rows: &'a [GridRow],
    pub heading: Heading,
    /// The codes colours are written in.
    pub colours: CodeSet,
    /// The unit of sizes that name none.
    pub gauge: GaugeUnit,
    /// Whether most labels hold a number, so that a word among them is something else.
    pub numbered: bool,
    /// Whether commas part the cells and points the decimals, so that a decimal comma is a mistake.
    pub commas_part: bool,
}

impl<'a> Table<'a> {
    fn new(rows: &'a [GridRow], mut heading: Heading, list: &mut WiringList) -> Self {
        let named = heading.columns.iter().zip(&heading.names);
        list.columns = named
            .filter_map(|(column, name)| Some(format!("{} is the {}", quoted(name), (*column)?.words())))
            .collect();
        if let Some(first) = heading.data_from.checked_sub(1).and_then(|n| rows.get(n)) {
            let before = rows.iter().take(heading.data_from - 1).filter(|row| !row.is_blank()).count();
            if before > 0 {
                list.assumed
                    .push(format!("the heading is line {}; what stands before it is left aside", first.line));
                list.skipped.insert("line before the heading".to_owned(), before);
            }
        } else {
            list.assumed.push(format!("there is no heading: {}", list_of(&list.columns)));
        }
        let is_unit = |cell: &String| {
            cell.is_empty() || matches!(plain_words(cell).as_str(), "mm2" | "mm" | "awg" | "qmm" | "sqmm")
        };
        if let Some(units) =
            rows.get(heading.data_from).filter(|row| !row.is_blank() && row.cells.iter().all(is_unit))
        {
            for (column, unit) in heading.columns.iter_mut().zip(&units.cells) {
                if let (Some(Column::Gauge(said)), Some(Column::Gauge(unit))) = (column, column_of(unit)) {
                    *said = unit;
                }
            }
            heading.data_from += 1;
        }
        let data = rows.get(heading.data_from..).unwrap_or_default();
        let cells = |wanted: &dyn Fn(Column) -> bool| {
            let columns: Vec<usize> = (0..heading.columns.len())
                .filter(|c| heading.columns.get(*c).copied().flatten().is_some_and(wanted))
                .collect();
            data.iter().flat_map(move |row| columns.clone().into_iter().map(|c| row.cell(c)))
        };
        let colours =
            CodeSet::decide(cells(&|c| matches!(c, Column::Colour | Column::BaseColour | Column::Stripe)));
        list.assumed.extend(colours.assumed().map(ToOwned::to_owned));
        let said = heading.columns.iter().flatten().find_map(|column| match column {
            Column::Gauge(unit) => Some(*unit),
            _ => None,
        });
        let gauge = said.unwrap_or(GaugeUnit::NotSaid).decide(cells(&|c| matches!(c, Column::Gauge(_))));
        if said == Some(GaugeUnit::NotSaid) && gauge != GaugeUnit::NotSaid {
            let unit = if gauge == GaugeUnit::Awg { "AWG" } else { "mm²" };
            list.assumed.push(format!("sizes without a unit are {unit}, as the others in their column"));
        }
        let with_points = cells(&|c| matches!(c, Column::Gauge(_))).any(|cell| cell.contains('.'));
        let labels: Vec<&str> = cells(&|c| c == Column::Cavity).filter(|cell| !cell.is_empty()).collect();
        let with_number = labels.iter().filter(|label| label.chars().any(|c| c.is_ascii_digit())).count();
        let numbered = with_number * 2 >= labels.len();
        let commas_part = heading.by_comma && with_points;
        Self { rows: data, heading, colours, gauge, numbered, commas_part }
    }

    /// The cell of this kind of column.
    pub fn cell<'r>(&self, row: &'r GridRow, column: Column) -> &'r str {
        let at = self.heading.at(|c| same_kind(c, column));
        at.map_or("", |at| row.cell(at))
    }

    fn read(&self, connector: Option<&str>, list: &mut WiringList) {
        let Some(keep) = self.lines_of(connector, list) else { return };
        for (row, kept) in self.rows.iter().zip(keep) {
            match (kept, row.is_blank()) {
                (_, true) => list.skip("blank line"),
                (false, _) => list.skip("line of another connector"),
                (true, false) => self.read_row(row, list),
            }
        }
    }

    /// Which lines belong to the connector asked for; none when there are several and none is named.
    fn lines_of(&self, wanted: Option<&str>, list: &mut WiringList) -> Option<Vec<bool>> {
        let all = Some(vec![true; self.rows.len()]);
        if self.heading.at(|c| c == Column::Connector).is_none() {
            if let Some(wanted) = wanted {
                list.assumed
                    .push(format!("the list names no connector; all of it is taken as {}", quoted(wanted)));
            }
            return all;
        }
        let mut last = String::new();
        let mut carried = 0;
        let mut names: Vec<String> = Vec::new();
        for row in self.rows {
            let name = self.cell(row, Column::Connector);
            if !name.is_empty() {
                last = name.to_owned();
            } else if !last.is_empty() && !row.is_blank() {
                carried += 1;
            }
            names.push(last.clone());
        }
        if carried > 0 {
            list.assumed
                .push(format!("{carried} lines name no connector and are taken to belong to the one above"));
        }
        let different: BTreeSet<&String> = names.iter().filter(|name| !name.is_empty()).collect();
        match wanted {
            Some(wanted) => {
                let keep: Vec<bool> = names.iter().map(|name| name.eq_ignore_ascii_case(wanted)).collect();
                if !keep.contains(&true) {
                    list.problem(
                        1,
                        format!(
                            "no line is about the connector {}: there are {}",
                            quoted(wanted),
                            list_of(&different.into_iter().collect::<Vec<_>>())
                        ),
                    );
                    return None;
                }
                Some(keep)
            }
            None if different.len() > 1 => {
                let names: Vec<&&String> = different.iter().collect();
                list.problem(
                    1,
                    format!("the list holds the connectors {}: name one with --connector", list_of(&names)),
                );
                None
            }
            None => all,
        }
    }

    fn read_row(&self, row: &GridRow, list: &mut WiringList) {
        if row.runs_on() {
            list.problem(
                row.line,
                format!(
                    "a quotation mark is opened here and closed in line {}: nothing between was read",
                    row.last_line
                ),
            );
            return;
        }
        if let Some(why) = &row.too_large {
            list.problem(row.line, why.clone());
            return;
        }
        let filled: Vec<&String> = row.cells.iter().filter(|cell| !cell.is_empty()).collect();
        if let [only] = filled.as_slice()
            && only.contains(' ')
        {
            list.assumed.push(format!("line {} is left aside: \"{}\"", row.line, quoted(only)));
            list.skip("line of text beside the table");
            return;
        }
        for (n, cell) in row.cells.iter().enumerate().filter(|(_, cell)| !cell.is_empty()) {
            match self.heading.columns.get(n) {
                Some(Some(_)) => {}
                Some(None) => {
                    let name = self.heading.names.get(n).map_or("", String::as_str);
                    list.skip(format!("cell of column {} \"{}\"", n + 1, quoted(name)));
                }
                None => {
                    list.problem(
                        row.line,
                        format!(
                            "there are {} cells and {} headings, the first without one is \"{}\": does a decimal comma part a cell?",
                            row.cells.len(),
                            self.heading.columns.len(),
                            quoted(cell)
                        ),
                    );
                    return;
                }
            }
        }
        match self.understand(row) {
            Ok(rows) => {
                for row in &rows {
                    note_gaps(row, list);
                }
                list.rows.extend(rows);
            }
            Err(why) => list.problem(row.line, why),
        }
    }
}

/// What a wire row leaves open, said once for the line.
fn note_gaps(row: &WiringRow, list: &mut WiringList) {
    if row.holds != ListedHolds::Wired {
        return;
    }
    let missing: Vec<&str> = [("colour", row.colour.is_none()), ("size", row.gauge.is_none())]
        .into_iter()
        .filter_map(|(what, missing)| missing.then_some(what))
        .collect();
    if !missing.is_empty() {
        list.assumed.push(format!(
            "line {}: no {} is given for {}: unknown",
            row.line,
            list_of(&missing),
            row.cavity
        ));
    }
}
