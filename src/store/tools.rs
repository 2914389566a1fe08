//! The shop's tool books on disk: `tools/<bench>.ron` beside the jobs, one file a bench, each written
//! by its own bench alone.

use std::path::Path;

use anyhow::{Context, Result, bail};
use jiff::Timestamp;
use serde::{Deserialize, Serialize};

use super::{folder::Store, form::ron_options};
use crate::{
    catalogue::PartNumber,
    quantity::Gauge,
    repair::{Height, PositionKey, Standing, ToolBook, ToolPosition},
    swap::{Act, State, day_of},
};

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct BookForm {
    /// The form of the file: 1.
    format: u32,
    positions: Vec<PositionForm>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct PositionForm {
    tool: String,
    position: String,
    terminal: PartNumber,
    wire: Gauge,
    heights_mm: Vec<f64>,
    pulls_n: Vec<f64>,
    /// The least force, and who says so.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    minimum_n: Option<(f64, String)>,
    /// Target and tolerance of the height, in mm.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    sheet_mm: Option<(f64, f64)>,
    until: String,
    by: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    withdrawn: Option<String>,
}

impl From<PositionForm> for ToolPosition {
    fn from(form: PositionForm) -> Self {
        Self {
            key: PositionKey {
                tool: form.tool,
                position: form.position,
                terminal: form.terminal,
                wire: form.wire,
            },
            heights_mm: form.heights_mm,
            pulls_n: form.pulls_n,
            minimum_n: form.minimum_n,
            sheet: form.sheet_mm.map(|(target_mm, tolerance_mm)| Height { target_mm, tolerance_mm }),
            until: form.until,
            by: form.by,
            withdrawn: form.withdrawn,
        }
    }
}

impl From<&ToolPosition> for PositionForm {
    fn from(position: &ToolPosition) -> Self {
        let ToolPosition { key, heights_mm, pulls_n, minimum_n, sheet, until, by, withdrawn } =
            position.clone();
        Self {
            tool: key.tool,
            position: key.position,
            terminal: key.terminal,
            wire: key.wire,
            heights_mm,
            pulls_n,
            minimum_n,
            sheet_mm: sheet.map(|sheet| (sheet.target_mm, sheet.tolerance_mm)),
            until,
            by,
            withdrawn,
        }
    }
}

/// A book from the text of its file.
fn read_positions(file: &str, text: &str) -> Result<Vec<ToolPosition>> {
    let form: BookForm = ron_options()
        .from_str(text.trim_start_matches('\u{feff}'))
        .map_err(|error| anyhow::anyhow!("{file}:{}: {}", error.span.start, error.code))?;
    if form.format != 1 {
        bail!("{file}: format {} is for a newer repin; this one reads format 1", form.format);
    }
    let is_day = |until: &str| until.parse::<jiff::civil::Date>().is_ok_and(|day| day.to_string() == until);
    if let Some(odd) = form.positions.iter().find(|position| !is_day(&position.until)) {
        bail!("{file}: until: \"{}\" is no day: write it as 2027-03-31", odd.until.escape_default());
    }
    Ok(form.positions.into_iter().map(Into::into).collect())
}

/// The books of every bench that works in the folder of these jobs.
pub fn read_book(jobs: &Path) -> Result<ToolBook> {
    let folder = jobs.join("tools");
    let mut files = Vec::new();
    match std::fs::read_dir(&folder) {
        Ok(entries) => {
            for entry in entries {
                files.push(entry.with_context(|| folder.display().to_string())?.path());
            }
        }
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => return Ok(ToolBook::default()),
        Err(error) => return Err(error).context(folder.display().to_string()),
    }
    files.retain(|path| path.extension().is_some_and(|ending| ending == "ron"));
    files.sort();
    let mut book = ToolBook::default();
    for path in files {
        let shown = path.display().to_string();
        let text = std::fs::read_to_string(&path).with_context(|| shown.clone())?;
        book.positions.extend(read_positions(&shown, &text)?);
    }
    Ok(book)
}

/// Writes a position into the bench's own book; what the book said of the same position before is
/// replaced. Gives the file's name.
pub fn write_position(jobs: &Path, bench: &str, position: &ToolPosition) -> Result<String> {
    let letters = bench.chars().map(|c| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { '-' });
    let name = format!("{}.ron", letters.collect::<String>());
    let store = Store::at(jobs.join("tools"));
    store.make()?;
    let mut positions = match store.read(&name)? {
        Some(text) => read_positions(&name, &text)?,
        None => Vec::new(),
    };
    positions.retain(|old| !old.key.is_same(&position.key));
    positions.push(position.clone());
    let form = BookForm { format: 1, positions: positions.iter().map(Into::into).collect() };
    let pretty = ron::ser::PrettyConfig::new().depth_limit(3);
    let text = ron_options().to_string_pretty(&form, pretty).context("the tool book cannot be written")?;
    store.write_whole(&name, &format!("{text}\n"))?;
    Ok(format!("tools/{name}"))
}

/// Writes into the record of a crimp what the tool book says of its position that day, where the act
/// does not say it itself.
pub(super) fn fill_in_book(act: &mut Act, state: &State, jobs: &Path, at: Timestamp) {
    let Act::Repair { lead, part, crimp: Some(crimp), .. } = act else { return };
    let Some(lead) = state.lead(lead).filter(|_| crimp.book.is_none()) else { return };
    let terminal = part.as_ref().or_else(|| state.terminal_of(lead));
    let wire = crimp.wire.as_ref().or_else(|| lead.first_wire()?.gauge.known());
    let key = terminal.zip(wire).and_then(|(terminal, wire)| crimp.key(terminal, wire));
    let today = day_of(at);
    crimp.book = Some(match key {
        Some(key) => match read_book(jobs) {
            Ok(book) => book.standing(&key, &today),
            // The crimp was made; what proves its tool can be mended later.
            Err(why) => Standing::Due(format!("the tool book cannot be read: {why:#}")),
        },
        None => Standing::Never,
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_book_reads_back_as_written_and_names_file_and_place_of_a_mistake() {
        let folder = tempfile::TempDir::new().unwrap();
        let text = r#"(format:1,positions:[(tool:"hand tool 0113",position:"B",terminal:"XX-T05",wire:"0.5",heights_mm:[1.1,1.12,1.13],pulls_n:[70],until:"2027-01-01",by:"kt")])"#;
        let position = read_positions("kt.ron", text).unwrap().remove(0);
        assert_eq!(write_position(folder.path(), "K. Tanner", &position).unwrap(), "tools/k--tanner.ron");
        write_position(folder.path(), "K. Tanner", &position).unwrap();
        assert_eq!(read_book(folder.path()).unwrap().positions, [position]);
        let error = read_positions("kt.ron", "(format:1,\npositions:[(tool:3)])").unwrap_err().to_string();
        assert!(error.starts_with("kt.ron:2:"), "{error}");
    }
}
