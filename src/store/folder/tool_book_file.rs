//! The shop's tool books on disk: `tools/<bench>.ron` beside the jobs, one file a bench, each written
//! by its own bench alone.

use std::path::Path;

use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use super::FolderStore;
use crate::{
    catalogue::PartNumber,
    quantity::{Gauge, brief, is_day, quoted},
    reckoning::{Height, PositionKey, ToolBook, ToolPosition},
    store::{
        files::{Links, TEXT_MOST, read_text, shown},
        form::ron_options,
        job_id::FileName,
        port::{Store, StoreProblem},
    },
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
    /// When it was said, as in a journal: 2026-11-02T08:00:00Z. Without it, before all others.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    at: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    withdrawn: Option<String>,
}

impl PositionForm {
    /// The position, or which field cannot be read.
    fn read(self) -> Result<ToolPosition, String> {
        if !is_day(&self.until) {
            return Err(format!("until: \"{}\" is no day: write it as 2027-03-31", quoted(&self.until)));
        }
        let at = match &self.at {
            None => Timestamp::UNIX_EPOCH,
            Some(at) => at.parse().map_err(|_| {
                format!("at: \"{}\" is no moment: write it as 2026-11-02T08:00:00Z", quoted(at))
            })?,
        };
        let Self { tool, position, terminal, wire, .. } = self;
        Ok(ToolPosition {
            key: PositionKey { tool, position, terminal, wire },
            heights_mm: self.heights_mm,
            pulls_n: self.pulls_n,
            minimum_n: self.minimum_n,
            sheet: self.sheet_mm.map(|(target_mm, tolerance_mm)| Height { target_mm, tolerance_mm }),
            until: self.until,
            by: self.by,
            at,
            withdrawn: self.withdrawn,
        })
    }
}

impl From<&ToolPosition> for PositionForm {
    fn from(position: &ToolPosition) -> Self {
        let ToolPosition { key, heights_mm, pulls_n, minimum_n, sheet, until, by, at, withdrawn } =
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
            at: Some(at.to_string()),
            withdrawn,
        }
    }
}

/// A book from the text of its file.
fn read_positions(file: &str, text: &str) -> Result<Vec<ToolPosition>, StoreProblem> {
    let spoilt = |say: String| StoreProblem::NotUnderstood(say);
    let form: BookForm = ron_options().from_str(text.trim_start_matches('\u{feff}')).map_err(|error| {
        spoilt(format!("{file}:{}: {}", error.span.start, brief(&error.code.to_string())))
    })?;
    if form.format != 1 {
        let say = format!("{file}: format {} is for a newer repin; this one reads format 1", form.format);
        return Err(spoilt(say));
    }
    let read = form.positions.into_iter().map(PositionForm::read).collect::<Result<_, _>>();
    read.map_err(|why: String| spoilt(format!("{file}: {why}")))
}

/// The books of every bench that works in the folder of these jobs.
pub(super) fn read_book(jobs: &Path) -> Result<ToolBook, StoreProblem> {
    let folder = jobs.join("tools");
    let not_listed = |why| StoreProblem::NotListed { folder: shown(&folder), why };
    let mut files = Vec::new();
    match std::fs::read_dir(&folder) {
        Ok(entries) => {
            for entry in entries {
                files.push(entry.map_err(not_listed)?.path());
            }
        }
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => return Ok(ToolBook::default()),
        Err(error) => return Err(not_listed(error)),
    }
    files.retain(|path| path.extension().is_some_and(|ending| ending == "ron"));
    files.sort();
    let mut book = ToolBook::default();
    for path in files {
        let text = read_text(&path, TEXT_MOST, Links::Refused)?;
        book.positions.extend(read_positions(&shown(&path), &text)?);
    }
    Ok(book)
}

/// Writes a position into the bench's own book; what the book said of the same position before is
/// replaced. Gives the file's name.
pub(super) fn write_position(
    jobs: &Path,
    bench: &str,
    position: &ToolPosition,
) -> Result<String, StoreProblem> {
    let name = file_of(bench);
    let tools = FolderStore::at(jobs.join("tools"));
    let mut positions = match tools.exported(&name)? {
        Some(text) => read_positions(name.as_str(), &text)?,
        None => Vec::new(),
    };
    positions.retain(|old| !old.key.is_same(&position.key));
    positions.push(position.clone());
    let form = BookForm { format: 1, positions: positions.iter().map(Into::into).collect() };
    let pretty = ron::ser::PrettyConfig::new().depth_limit(3);
    let text = ron_options()
        .to_string_pretty(&form, pretty)
        .map_err(|why| StoreProblem::NotWritten { file: name.as_str().to_owned(), why: why.to_string() })?;
    tools.export(&name, &format!("{text}\n"))?;
    Ok(format!("tools/{}", name.as_str()))
}

/// The file of a bench. Two names that look alike in a file's name get two files.
fn file_of(bench: &str) -> FileName {
    let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit();
    let slug: String =
        bench.chars().map(|c| c.to_ascii_lowercase()).map(|c| if plain(c) { c } else { '-' }).collect();
    if !slug.is_empty() && bench.chars().all(plain) {
        return FileName::of_book(&slug);
    }
    let sum = Sha256::digest(bench.as_bytes());
    let tail: String = sum.iter().take(4).map(|byte| format!("{byte:02x}")).collect();
    FileName::of_book(&format!("{}-{tail}", slug.chars().take(40).collect::<String>()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_book_reads_back_as_written_and_names_file_and_place_of_a_mistake() {
        let folder = tempfile::TempDir::new().unwrap();
        let text = r#"(format:1,positions:[(tool:"hand tool 0113",position:"B",terminal:"XX-T05",wire:"0.5",heights_mm:[1.1,1.12,1.13],pulls_n:[70],until:"2027-01-01",by:"kt",at:"2026-11-02T08:00:00Z")])"#;
        let position = read_positions("kt.ron", text).unwrap().remove(0);
        let file = write_position(folder.path(), "K. Tanner", &position).unwrap();
        assert!(file.starts_with("tools/k--tanner-") && file.ends_with(".ron"), "{file}");
        write_position(folder.path(), "K. Tanner", &position).unwrap();
        assert_eq!(read_book(folder.path()).unwrap().positions, [position]);
        let error = read_positions("kt.ron", "(format:1,\npositions:[(tool:3)])").unwrap_err().to_string();
        assert!(error.starts_with("kt.ron:2:"), "{error}");
    }

    #[test]
    fn benches_of_like_names_keep_a_book_each() {
        assert_eq!(file_of("kt").as_str(), "kt.ron");
        let names = ["K. Tanner", "K- Tanner", "k. tanner", "KT", "", "\u{e9}"];
        let files: std::collections::BTreeSet<String> =
            names.map(|name| file_of(name).as_str().to_owned()).into_iter().collect();
        assert_eq!(files.len(), names.len(), "{files:?}");
    }
}
