//! The tool book at the bench: samples that prove a position, and a tool taken out of use.

use jiff::civil::Date;

use super::{Answer, Asked, field, texts};
use crate::{
    catalogue::PartNumber,
    quantity::Gauge,
    repair::{Height, PositionKey, ToolPosition, pull_minimum_n},
    screen::sight::Sight,
};

/// Samples that prove a tool's position.
pub(super) fn prove(sight: &Sight<'_>, answers: &[Answer]) -> Asked {
    match texts(answers).as_slice() {
        [] => field("PROVE a tool's position: tool with serial, comma, position?"),
        [_] => field("On which terminal? (its part number)"),
        [_, _] => field("On which wire? (mm² or AWG)"),
        [_, _, _] => field("Conductor crimp heights of 3 samples or more, in mm, blanks between?"),
        [_, _, _, _] => {
            field("Forces at which 5 samples or more came off, insulation grip open, in N, blanks between?")
        }
        [_, _, _, _, _] => field("Good until which day? (2027-03-31)"),
        [tool, terminal, wire, heights, pulls, until, ..] => {
            let key = match key_of(tool, terminal, wire) {
                Ok(key) => key,
                Err(why) => return Asked::Wrong(why),
            };
            match position(sight, key, heights, pulls, until) {
                Ok(position) => Asked::Book(vec![position]),
                Err(why) => Asked::Wrong(why),
            }
        }
    }
}

fn key_of(tool: &str, terminal: &str, wire: &str) -> Result<PositionKey, String> {
    let (tool, position) = tool_and_position(tool)?;
    let terminal: PartNumber = terminal.parse().map_err(|why| format!("{why}"))?;
    let wire: Gauge = wire.parse().map_err(|why| format!("{why}"))?;
    Ok(PositionKey { tool, position, terminal, wire })
}

/// The tool and its position, as they are keyed with a comma between.
pub(super) fn tool_and_position(typed: &str) -> Result<(String, String), String> {
    let (tool, position) = typed.rsplit_once(',').ok_or("Key the tool, a comma, its position.")?;
    Ok((tool.trim().to_owned(), position.trim().to_owned()))
}

/// The position with its samples, the sheet of its terminal and the least force of the house.
fn position(
    sight: &Sight<'_>,
    key: PositionKey,
    heights: &str,
    pulls: &str,
    until: &str,
) -> Result<ToolPosition, String> {
    let state = sight.state();
    let area = key.wire.area_mm2();
    let mut terminals = state.housings.iter().flat_map(|h| &h.definition.family().terminals);
    let sheet = terminals.find(|t| t.part == key.terminal).and_then(|t| t.height_for(area));
    let standard = state.rules.pull_standard.value;
    let until: Date = until.parse().map_err(|_| "Key the day as 2027-03-31.".to_owned())?;
    Ok(ToolPosition {
        heights_mm: readings(heights)?,
        pulls_n: readings(pulls)?,
        minimum_n: pull_minimum_n(standard, area).map(|newton| (newton, standard.source().to_owned())),
        sheet: sheet.map(|(target_mm, tolerance_mm)| Height { target_mm, tolerance_mm }),
        until: until.to_string(),
        by: sight.by.to_owned(),
        at: sight.survey.now,
        withdrawn: None,
        key,
    })
}

/// Readings with blanks between them, each more than nothing.
fn readings(text: &str) -> Result<Vec<f64>, String> {
    let reading = |typed: &str| {
        let number = typed.replace(',', ".").parse::<f64>().ok();
        number.filter(|n| n.is_finite() && *n > 0.0).ok_or(format!("\"{typed}\" is no reading."))
    };
    text.split_whitespace().map(reading).collect()
}

/// A tool that was dropped, is worn, or whose nest was changed: one position of it, or all.
pub(super) fn withdraw(sight: &Sight<'_>, answers: &[Answer]) -> Asked {
    let typed = texts(answers);
    let Some(tool) = typed.first() else {
        return field("WITHDRAW which tool? With serial, and comma, position, where only that one goes");
    };
    // A comma may part the tool from a position, or belong to its name.
    let is_it = |position: &&ToolPosition| {
        let key = &position.key;
        let whole = format!("{}, {}", key.tool, key.position);
        key.tool.eq_ignore_ascii_case(tool.trim()) || whole.eq_ignore_ascii_case(tool.trim())
    };
    let today = sight.today();
    let known: Vec<&ToolPosition> = sight.tools.in_force(&today).filter(is_it).collect();
    match (known.as_slice(), typed.get(1)) {
        ([], _) => Asked::Wrong(format!("{tool} is not in the tool book.")),
        (_, None) => field("Why? It counts for nothing until it is proved anew"),
        (known, Some(why)) => Asked::Book(
            known
                .iter()
                .map(|position| ToolPosition {
                    withdrawn: Some((*why).to_owned()),
                    by: sight.by.to_owned(),
                    at: sight.survey.now,
                    ..(*position).clone()
                })
                .collect(),
        ),
    }
}
