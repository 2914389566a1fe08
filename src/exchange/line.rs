//! One line of a table: the cavity, what it holds, and its wires; or why it is not understood.

use std::collections::BTreeSet;

use crate::{
    face::Label,
    quantity::{plain_words, quoted},
    record::WireKind,
};

use super::{
    cells::{content, content_cell, spoilt},
    grid::GridRow,
    headings::{Column, GaugeUnit},
    table::Table,
    wiring::{ListedHolds, WiringRow},
};

impl Table<'_> {
    /// The rows a line makes: one, or one for each wire parted by `+`.
    pub(super) fn understand(&self, row: &GridRow) -> Result<Vec<WiringRow>, String> {
        for (n, cell) in row.cells.iter().enumerate() {
            if self.heading.columns.get(n).copied().flatten().is_some_and(|c| c != Column::Note)
                && let Some(why) = spoilt(cell)
            {
                return Err(why);
            }
        }
        self.check_decimals(row)?;
        let cavity = self.cavity_of(row)?;
        let holds = self.holds_of(row, &cavity)?;
        let text = |column| Some(self.cell(row, column)).filter(|t| !t.is_empty()).map(ToOwned::to_owned);
        let base = WiringRow {
            pair: text(Column::Pair),
            terminal: text(Column::Terminal),
            seal: text(Column::Seal),
            plug: text(Column::Plug),
            far_ends: text(Column::FarEnd).into_iter().collect(),
            note: text(Column::Note),
            ..WiringRow::new(row.line, cavity, holds)
        };
        if holds != ListedHolds::Wired {
            return Ok(vec![WiringRow { note: self.other_words(row).or(base.note.clone()), ..base }]);
        }
        self.wires_of(row, base)
    }

    /// A size without decimals beside a bare number, where others have decimals, is one size in two
    /// cells.
    fn check_decimals(&self, row: &GridRow) -> Result<(), String> {
        let is_count = |cell: &str| !cell.is_empty() && cell.chars().all(|c| c.is_ascii_digit());
        let Some(at) = self.heading.at(|c| matches!(c, Column::Gauge(_))) else { return Ok(()) };
        let (size, beside) = (row.cell(at), row.cell(at + 1));
        if self.commas_part && is_count(size) && is_count(beside) {
            return Err(format!(
                "{size} and {beside} stand side by side: does a decimal comma part {size},{beside}?"
            ));
        }
        Ok(())
    }

    fn cavity_of(&self, row: &GridRow) -> Result<Label, String> {
        let cavity = self.cell(row, Column::Cavity);
        if cavity.is_empty() {
            return Err(
                "no cavity is named: where cells were merged, write the label in every line".to_owned()
            );
        }
        if cavity.contains(char::is_whitespace) {
            return Err(format!("\"{}\" is not the label of a cavity", quoted(cavity)));
        }
        let is_word = cavity.chars().count() > 3 && !cavity.chars().any(|c| c.is_ascii_digit());
        if self.numbered && is_word {
            return Err(format!("\"{}\" is unlike the other labels, which hold numbers", quoted(cavity)));
        }
        cavity.parse().map_err(|why: crate::quantity::TextProblem| why.to_string())
    }

    /// What the cavity holds: said in its own column, said in the place of a wire, or shown by what
    /// is said of a wire.
    fn holds_of(&self, row: &GridRow, cavity: &Label) -> Result<ListedHolds, String> {
        let about_wires = [
            Column::Wire,
            Column::Circuit,
            Column::Colour,
            Column::BaseColour,
            Column::Gauge(GaugeUnit::NotSaid),
        ];
        let cells: Vec<&str> =
            about_wires.iter().map(|c| self.cell(row, *c)).filter(|c| !c.is_empty()).collect();
        let instead: BTreeSet<&'static str> =
            cells.iter().filter_map(|c| content(c)).map(ListedHolds::word).collect();
        let said = self.cell(row, Column::Content);
        let listed = match said {
            "" => cells.iter().find_map(|cell| content(cell)),
            said => Some(content_cell(said).ok_or_else(|| {
                format!("\"{}\" does not say what cavity {cavity} holds: wired, plugged, open, empty, blocked, spare or bridge", quoted(said))
            })?),
        };
        let wires = cells.iter().filter(|cell| content(cell).is_none() && !is_dash(cell)).count();
        match listed {
            Some(ListedHolds::Wired) => Ok(ListedHolds::Wired),
            Some(holds) if instead.len() > 1 || instead.iter().any(|word| *word != holds.word()) => {
                Err(format!("cavity {cavity} is said to be {} and something else", holds.word()))
            }
            Some(holds)
                if wires > 0
                    && matches!(holds, ListedHolds::Plugged | ListedHolds::Empty | ListedHolds::Blocked)
                    && self.says_wire(row) =>
            {
                Err(format!(
                    "cavity {cavity} is said to be {}, and a wire is described: which is it?",
                    holds.word()
                ))
            }
            Some(holds) => Ok(holds),
            None if wires > 0 => Ok(ListedHolds::Wired),
            None if !self.cell(row, Column::Plug).is_empty() => Ok(ListedHolds::Plugged),
            None => Err(format!(
                "nothing is said of cavity {cavity}: is it wired, plugged, open, empty or blocked?"
            )),
        }
    }

    /// Whether a colour or a size is given, which only a wire has.
    fn says_wire(&self, row: &GridRow) -> bool {
        let colour = self.cell(row, Column::Colour);
        let gauge = self.cell(row, Column::Gauge(GaugeUnit::NotSaid));
        self.colours.read(colour).is_ok() || self.gauge.read(gauge).is_ok()
    }

    /// What is written in the place of a circuit where there is no wire.
    fn other_words(&self, row: &GridRow) -> Option<String> {
        let circuit = self.cell(row, Column::Circuit);
        (!circuit.is_empty() && content(circuit).is_none()).then(|| circuit.to_owned())
    }

    fn wires_of(&self, row: &GridRow, base: WiringRow) -> Result<Vec<WiringRow>, String> {
        let colour = match self.cell(row, Column::Colour) {
            "" => {
                let stripe = self.cell(row, Column::Stripe);
                let base = self.cell(row, Column::BaseColour);
                if stripe.is_empty() { base.to_owned() } else { format!("{base}/{stripe}") }
            }
            colour => colour.to_owned(),
        };
        let split = |text: &str| -> Vec<String> {
            let parts = text.split('+').map(|part| part.trim().to_owned());
            parts.map(|part| if is_dash(&part) { String::new() } else { part }).collect()
        };
        let [numbers, circuits, colours, gauges] = [
            self.cell(row, Column::Wire),
            self.cell(row, Column::Circuit),
            &colour,
            self.cell(row, Column::Gauge(GaugeUnit::NotSaid)),
        ]
        .map(split);
        let count = [&numbers, &circuits, &colours, &gauges].map(Vec::len).into_iter().max().unwrap_or(1);
        let one_number = count > 1 && numbers.len() == 1 && numbers.iter().any(|n| !n.is_empty());
        if one_number {
            return Err(format!(
                "there is one wire number and {count} wires: name each, with + between them"
            ));
        }
        let nth = |parts: &[String], n: usize| -> Result<Option<String>, String> {
            let part = match parts {
                [only] => only,
                parts => parts
                    .get(n)
                    .ok_or_else(|| format!("there are {count} wires, and not all is said {count} times"))?,
            };
            Ok(Some(part.clone()).filter(|part| !part.is_empty()))
        };
        let lead = (count > 1).then(|| base.cavity.to_string());
        (0..count)
            .map(|n| {
                let known = |text: Option<String>| text.filter(|text| text != "?");
                let colour = known(nth(&colours, n)?).map(|text| self.colours.read(&text)).transpose()?;
                let gauge = known(nth(&gauges, n)?).map(|text| self.gauge.read(&text)).transpose()?;
                let diameter =
                    Some(self.cell(row, Column::OutsideDiameter)).filter(|d| !d.is_empty() && *d != "?");
                let diameter = diameter.map(|d| d.parse().map_err(|why| format!("{why}"))).transpose()?;
                let circuit = nth(&circuits, n)?;
                let kind = kind_of(circuit.as_deref().unwrap_or_default());
                Ok(WiringRow {
                    lead: lead.clone(),
                    wire: nth(&numbers, n)?,
                    circuit,
                    colour,
                    gauge,
                    outside_diameter: diameter,
                    kind,
                    ..base.clone()
                })
            })
            .collect()
    }
}

/// Drains are told by name; other kinds are asked about at the bench.
fn kind_of(circuit: &str) -> WireKind {
    let words = plain_words(circuit);
    let drain = words.split(' ').any(|word| matches!(word, "drain" | "beilauflitze" | "drenaje"));
    if drain { WireKind::Drain } else { WireKind::Ordinary }
}

fn is_dash(text: &str) -> bool {
    matches!(text, "-" | "–" | "—" | "/")
}
