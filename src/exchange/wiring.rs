//! A wiring list as understood: one row per wire, one for each cavity without a wire. The middle
//! form every reader of lists fills, and the record it makes.

use std::collections::BTreeMap;

use crate::{
    catalogue::PartNumber,
    colour::Colour,
    face::Label,
    quantity::{Gauge, Length, brief, harmless, quoted},
    record::{CavityContent, Known, LeadSeen, SpareSeen, Wire, WireKind},
};

/// What a list says a cavity holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ListedHolds {
    /// A wire, or several in one terminal.
    Wired,
    /// A blanking plug.
    Plugged,
    /// Nothing, and something belongs there.
    Open,
    /// Nothing, and nothing belongs there.
    Empty,
    /// Moulded shut.
    Blocked,
    /// A terminal without wire; a plug named beside it sits behind it.
    Spare,
    /// A shunt, diode or clip; which one is what the note says.
    Bridge,
}

impl ListedHolds {
    /// The word for it, as everywhere.
    pub fn word(self) -> &'static str {
        match self {
            Self::Wired => "wired",
            Self::Plugged => "plugged",
            Self::Open => "open",
            Self::Empty => "empty",
            Self::Blocked => "blocked",
            Self::Spare => "spare",
            Self::Bridge => "bridge",
        }
    }
}

/// One wire of a list, or one cavity without a wire.
#[derive(Debug, Clone, PartialEq)]
pub struct WiringRow {
    /// The line of the file it was read from, from 1.
    pub line: u32,
    /// The cavity, as written.
    pub cavity: Label,
    /// The part of the housing that numbers its cavities by itself, where the file has such.
    pub slot: Option<String>,
    /// Rows with the same mark are wires in one terminal.
    pub lead: Option<String>,
    /// What the cavity holds.
    pub holds: ListedHolds,
    /// The wire number.
    pub wire: Option<String>,
    /// The circuit.
    pub circuit: Option<String>,
    /// The conductor size.
    pub gauge: Option<Gauge>,
    /// The colour.
    pub colour: Option<Colour>,
    /// The outside diameter.
    pub outside_diameter: Option<Length>,
    /// The cavity of its partner, or the name of its pair.
    pub pair: Option<String>,
    /// What kind of wire it is.
    pub kind: WireKind,
    /// The terminal's part number.
    pub terminal: Option<String>,
    /// The seal's part number.
    pub seal: Option<String>,
    /// The part number of the plug fitted.
    pub plug: Option<String>,
    /// The part number of the plug to fit once the cavity is vacated.
    pub plug_if_vacated: Option<String>,
    /// Further parts in the cavity.
    pub more_parts: Vec<String>,
    /// Where the wire goes.
    pub far_ends: Vec<String>,
    /// Whatever else was written.
    pub note: Option<String>,
}

impl WiringRow {
    /// A row of which only place and content are known.
    pub fn new(line: u32, cavity: Label, holds: ListedHolds) -> Self {
        Self {
            line,
            cavity,
            slot: None,
            lead: None,
            holds,
            wire: None,
            circuit: None,
            gauge: None,
            colour: None,
            outside_diameter: None,
            pair: None,
            kind: WireKind::Ordinary,
            terminal: None,
            seal: None,
            plug: None,
            plug_if_vacated: None,
            more_parts: Vec::new(),
            far_ends: Vec::new(),
            note: None,
        }
    }
}

/// A line that was not understood, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LineProblem {
    /// The line, from 1.
    pub line: u32,
    /// What is wrong and what to do.
    pub say: String,
}

/// A list as read.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct WiringList {
    /// The rows, in the order of the file.
    pub rows: Vec<WiringRow>,
    /// What each column was read as.
    pub columns: Vec<String>,
    /// What was not understood.
    pub problems: Vec<LineProblem>,
    /// What was taken for granted.
    pub assumed: Vec<String>,
    /// What was left aside, with how many of it.
    pub skipped: BTreeMap<String, usize>,
}

impl WiringList {
    /// Says why a line was not understood.
    pub(super) fn problem(&mut self, line: u32, say: impl Into<String>) {
        // What is quoted in it may be a whole file.
        self.problems.push(LineProblem { line, say: brief(&say.into()).into_owned() });
    }

    /// Counts something left aside.
    pub(super) fn skip(&mut self, what: impl Into<String>) {
        *self.skipped.entry(what.into()).or_default() += 1;
    }

    /// Names every cavity that stands twice without being one terminal.
    pub(super) fn name_duplicates(&mut self) {
        let mut first: BTreeMap<(Option<&str>, &Label), &WiringRow> = BTreeMap::new();
        let mut twice = Vec::new();
        for row in &self.rows {
            let key = (row.slot.as_deref(), &row.cavity);
            match first.get(&key) {
                Some(before) if before.lead.is_some() && before.lead == row.lead => {}
                Some(before) => twice.push(LineProblem {
                    line: row.line,
                    say: format!(
                        "cavity {} stands in line {} already: two wires in one terminal are written in one line, with + between them",
                        row.cavity, before.line
                    ),
                }),
                None => {
                    first.insert(key, row);
                }
            }
        }
        self.problems.extend(twice);
    }

    /// Names every wire whose partner is nowhere in the list.
    pub(super) fn name_lost_partners(&mut self) {
        let partners = Partners::of(&self.rows);
        let lost = self.rows.iter().filter(|row| row.pair.is_some() && partners.of_row(row).is_none());
        let problems: Vec<LineProblem> = lost
            .map(|row| LineProblem {
                line: row.line,
                say: format!(
                    "the partner \"{}\" of cavity {} is nowhere in the list",
                    quoted(row.pair.as_deref().unwrap_or_default()),
                    row.cavity
                ),
            })
            .collect();
        self.problems.extend(problems);
    }

    /// The list as the record of one housing, each cavity with its line; only a list without a
    /// problem makes one.
    pub fn record(&self) -> Result<Vec<(Label, CavityContent, u32)>, &[LineProblem]> {
        if !self.problems.is_empty() {
            return Err(&self.problems);
        }
        let partners = Partners::of(&self.rows);
        let mut record: Vec<(Label, CavityContent, u32)> = Vec::new();
        for row in &self.rows {
            let wire = wire_of(row, partners.of_row(row));
            match record.last_mut() {
                // The next wire of the same terminal.
                Some((label, CavityContent::Wired(lead), _)) if *label == row.cavity => lead.wires.push(wire),
                _ => record.push((row.cavity.clone(), holds_of(row, wire), row.line)),
            }
        }
        Ok(record)
    }
}

/// Who is twisted with whom.
struct Partners<'a> {
    cavities: BTreeMap<&'a str, &'a Label>,
    pairs: BTreeMap<&'a str, Vec<&'a Label>>,
}

impl<'a> Partners<'a> {
    fn of(rows: &'a [WiringRow]) -> Self {
        let mut pairs: BTreeMap<&str, Vec<&Label>> = BTreeMap::new();
        for row in rows {
            if let Some(pair) = &row.pair {
                pairs.entry(pair).or_default().push(&row.cavity);
            }
        }
        Self { cavities: rows.iter().map(|row| (row.cavity.as_str(), &row.cavity)).collect(), pairs }
    }

    /// The cavity of a wire's partner: named itself, or the other one of the pair.
    fn of_row(&self, row: &WiringRow) -> Option<Label> {
        let pair = row.pair.as_deref()?;
        let named = self.cavities.get(pair).copied();
        let other = || self.pairs.get(pair)?.iter().copied().find(|cavity| **cavity != row.cavity);
        named.or_else(other).cloned()
    }
}

fn wire_of(row: &WiringRow, twisted_with: Option<Label>) -> Wire {
    let colour = row.colour.clone().map_or(Known::Unknown, Known::Is);
    let gauge = row.gauge.clone().map_or(Known::Unknown, Known::Is);
    Wire {
        number: row.wire.clone(),
        circuit: row.circuit.clone(),
        outside_diameter: row.outside_diameter.clone().map(Known::Is),
        twisted_with,
        kind: row.kind,
        ..Wire::new(colour, gauge)
    }
}

fn holds_of(row: &WiringRow, wire: Wire) -> CavityContent {
    let terminal: Option<PartNumber> = row.terminal.as_ref().and_then(|part| part.parse().ok());
    match row.holds {
        ListedHolds::Wired => {
            CavityContent::Wired(LeadSeen { wires: vec![wire], terminal, seal: None, condition: None })
        }
        ListedHolds::Plugged => CavityContent::Plugged,
        ListedHolds::Open => CavityContent::Open,
        ListedHolds::Empty => CavityContent::Empty,
        ListedHolds::Blocked => CavityContent::Blocked,
        ListedHolds::Spare => CavityContent::Spare(SpareSeen { terminal, plug_behind: row.plug.is_some() }),
        ListedHolds::Bridge => CavityContent::Bridge(row.note.clone().unwrap_or_else(|| "bridge".to_owned())),
    }
}

/// One sentence, with the line.
impl std::fmt::Display for LineProblem {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "line {}: {}", self.line, harmless(&self.say))
    }
}
