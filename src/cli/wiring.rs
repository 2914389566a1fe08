//! `repin wiring`: a wiring list, line by line, as it is understood.

use std::{collections::BTreeMap, path::PathBuf};

use anyhow::{Context, Result};
use clap::Subcommand;
use serde::Serialize;

use super::{
    common::{Common, Exit},
    print,
    records::{ListFile, harness_list, open_list, shown},
};
use crate::{
    exchange::{ConnectorEntry, KblFile, LineProblem, WiringList, WiringRow, read_table},
    quantity::{count_of, harmless, list_of},
};

#[derive(Debug, Subcommand)]
pub(super) enum WiringCommand {
    /// Read a list and say how each line is understood
    Read {
        /// A spreadsheet's export (CSV), or an open harness file (KBL)
        file: PathBuf,
        /// The connector, where the list has several
        #[arg(long, value_name = "NAME")]
        connector: Option<String>,
        /// The configuration, where a harness file holds variants
        #[arg(long, value_name = "NAME")]
        configuration: Option<String>,
    },
}

/// The list for other programs.
#[derive(Serialize)]
struct ListJson<'a> {
    cavities: Vec<RowJson<'a>>,
    problems: Vec<ProblemJson<'a>>,
    assumed: &'a [String],
    skipped: &'a BTreeMap<String, usize>,
}

#[derive(Serialize)]
struct ProblemJson<'a> {
    line: u32,
    say: &'a str,
}

#[derive(Serialize)]
struct RowJson<'a> {
    line: u32,
    cavity: &'a str,
    slot: Option<&'a str>,
    lead: Option<&'a str>,
    holds: &'static str,
    wire: Option<&'a str>,
    circuit: Option<&'a str>,
    gauge: Option<String>,
    area_mm2: Option<f64>,
    base: Option<String>,
    stripes: Vec<String>,
    pair: Option<&'a str>,
    terminal: Option<&'a str>,
    seal: Option<&'a str>,
    plug: Option<&'a str>,
    plug_if_vacated: Option<&'a str>,
    more_parts: &'a [String],
    far_ends: &'a [String],
    note: Option<&'a str>,
}

impl<'a> RowJson<'a> {
    fn of(row: &'a WiringRow) -> Self {
        let codes: Vec<String> = row
            .colour
            .iter()
            .flat_map(|c| c.to_string().split('/').map(ToOwned::to_owned).collect::<Vec<_>>())
            .collect();
        Self {
            line: row.line,
            cavity: row.cavity.as_str(),
            slot: row.slot.as_deref(),
            lead: row.lead.as_deref(),
            holds: row.holds.word(),
            wire: row.wire.as_deref(),
            circuit: row.circuit.as_deref(),
            gauge: row.gauge.as_ref().map(ToString::to_string),
            area_mm2: row.gauge.as_ref().map(crate::quantity::Gauge::area_mm2),
            base: codes.first().cloned(),
            stripes: codes.into_iter().skip(1).collect(),
            pair: row.pair.as_deref(),
            terminal: row.terminal.as_deref(),
            seal: row.seal.as_deref(),
            plug: row.plug.as_deref(),
            plug_if_vacated: row.plug_if_vacated.as_deref(),
            more_parts: &row.more_parts,
            far_ends: &row.far_ends,
            note: row.note.as_deref(),
        }
    }
}

impl<'a> From<&'a WiringList> for ListJson<'a> {
    fn from(list: &'a WiringList) -> Self {
        let problem = |p: &'a LineProblem| ProblemJson { line: p.line, say: &p.say };
        Self {
            cavities: list.rows.iter().map(RowJson::of).collect(),
            problems: list.problems.iter().map(problem).collect(),
            assumed: &list.assumed,
            skipped: &list.skipped,
        }
    }
}

/// Runs the command.
pub(super) fn run(common: &Common, command: &WiringCommand) -> Result<Exit> {
    let WiringCommand::Read { file, connector, configuration } = command;
    let list = match (open_list(file)?, connector) {
        (ListFile::Table(bytes), connector) => read_table(&bytes, connector.as_deref()),
        (ListFile::Harness(harness), Some(connector)) => {
            harness_list(&shown(file), &harness, connector, configuration.as_deref())?
        }
        (ListFile::Harness(harness), None) => return list_connectors(common, &shown(file), &harness),
    };
    match common.json {
        true => print::json(common, &ListJson::from(&list))?,
        false => print::text(common, &in_words(&list))?,
    }
    Ok(if list.problems.is_empty() { Exit::Fine } else { Exit::Problems })
}

/// A harness file without a connector chosen: which there are.
#[derive(Serialize)]
struct HarnessJson {
    connectors: Vec<ConnectorJson>,
    configurations: Vec<ConfigurationJson>,
    cavities: [(); 0],
    problems: [(); 0],
    assumed: [(); 0],
    skipped: BTreeMap<String, usize>,
}

#[derive(Serialize)]
struct ConnectorJson {
    id: String,
    description: Option<String>,
    housing: Option<String>,
    cavities: usize,
}

#[derive(Serialize)]
struct ConfigurationJson {
    name: String,
    modules: usize,
}

fn list_connectors(common: &Common, shown: &str, harness: &KblFile) -> Result<Exit> {
    let connectors = harness.connectors().with_context(|| shown.to_owned())?;
    let configurations = harness.configurations().with_context(|| shown.to_owned())?;
    if common.json {
        let connector = |c: ConnectorEntry| ConnectorJson {
            id: c.id,
            description: c.description,
            housing: c.housing,
            cavities: c.cavities,
        };
        print::json(
            common,
            &HarnessJson {
                connectors: connectors.into_iter().map(connector).collect(),
                configurations: configurations
                    .into_iter()
                    .map(|(name, modules)| ConfigurationJson { name, modules })
                    .collect(),
                cavities: [],
                problems: [],
                assumed: [],
                skipped: BTreeMap::new(),
            },
        )?;
        return Ok(Exit::Fine);
    }
    let mut out = String::new();
    for c in &connectors {
        let said =
            |text: &Option<String>| text.as_deref().map_or(String::new(), |t| harmless(t).into_owned());
        let cavities = count_of(c.cavities, "cavity");
        let (id, housing, about) = (harmless(&c.id), said(&c.housing), said(&c.description));
        out.push_str(&format!("{id:<16} {cavities:<14} {housing:<20} {about}\n"));
    }
    for (name, modules) in &configurations {
        out.push_str(&format!("configuration {} of {}\n", harmless(name), count_of(*modules, "module")));
    }
    out.push_str("next: name one with --connector\n");
    print::text(common, &out)?;
    Ok(Exit::Fine)
}

fn in_words(list: &WiringList) -> String {
    let mut out = String::new();
    for row in &list.rows {
        out.push_str(&format!("line {:>4}  {:<6} {}\n", row.line, row.cavity, row_in_words(row)));
    }
    if !list.columns.is_empty() {
        out.push_str(&format!("columns     {}\n", list_of(&list.columns)));
    }
    for problem in &list.problems {
        out.push_str(&format!("NOT UNDERSTOOD  {problem}\n"));
    }
    for assumed in &list.assumed {
        out.push_str(&format!("assumed     {}\n", harmless(assumed)));
    }
    for (what, n) in &list.skipped {
        out.push_str(&format!("left aside  {n} x {}\n", harmless(what)));
    }
    out.push_str(&format!(
        "{}, {} not understood\n",
        count_of(list.rows.len(), "row"),
        count_of(list.problems.len(), "line")
    ));
    out
}

fn row_in_words(row: &WiringRow) -> String {
    let mut said = vec![row.holds.word().to_owned()];
    said.extend(row.wire.iter().map(|wire| harmless(wire).into_owned()));
    said.extend(row.colour.iter().map(|colour| format!("{colour} ({})", colour.words())));
    said.extend(row.gauge.iter().map(crate::quantity::Gauge::both));
    said.extend(row.circuit.iter().map(|circuit| format!("\"{}\"", harmless(circuit))));
    let named = [
        ("lead", row.lead.as_deref()),
        ("pair", row.pair.as_deref()),
        ("terminal", row.terminal.as_deref()),
        ("seal", row.seal.as_deref()),
        ("plug", row.plug.as_deref()),
        ("plug if vacated", row.plug_if_vacated.as_deref()),
        ("note", row.note.as_deref()),
    ];
    said.extend(named.into_iter().filter_map(|(what, text)| Some(format!("{what} {}", harmless(text?)))));
    said.extend(row.more_parts.iter().map(|part| format!("and part {}", harmless(part))));
    said.extend(row.far_ends.iter().map(|end| format!("to {}", harmless(end))));
    said.join("  ")
}
