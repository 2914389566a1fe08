//! The tool book of a bench as a file: which tool makes good crimps, and until when that is proved.

use jiff::Timestamp;
use serde::{Deserialize, Serialize};

use super::{
    act_file::read_time,
    mirror::{FormOf, read_field},
    problem::Problem,
    reader::{Source, expect_format, ron_options},
};
use crate::{
    catalogue::FieldFinding,
    reckoning::{Height, PositionKey, ToolPosition},
};

#[derive(Serialize, Deserialize)]
#[serde(rename = "tool_book", deny_unknown_fields)]
struct BookForm {
    /// The form of the file: 1.
    format: u32,
    positions: Vec<PositionForm>,
}

#[derive(Serialize, Deserialize)]
#[serde(rename = "position", deny_unknown_fields)]
struct PositionForm {
    tool: String,
    position: String,
    terminal: String,
    wire: String,
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

impl FormOf<ToolPosition> for PositionForm {
    fn write(position: &ToolPosition) -> Self {
        let ToolPosition { key, heights_mm, pulls_n, minimum_n, sheet, until, by, at, withdrawn } =
            position.clone();
        Self {
            tool: key.tool,
            position: key.position,
            terminal: FormOf::write(&key.terminal),
            wire: FormOf::write(&key.wire),
            heights_mm,
            pulls_n,
            minimum_n,
            sheet_mm: sheet.map(|sheet| (sheet.target_mm, sheet.tolerance_mm)),
            until: until.to_string(),
            by,
            at: Some(at.to_string()),
            withdrawn,
        }
    }

    fn read(self) -> Result<ToolPosition, FieldFinding> {
        let Self { tool, position, terminal, wire, .. } = self;
        let (terminal, wire) = (read_field("terminal", terminal)?, read_field("wire", wire)?);
        Ok(ToolPosition {
            key: PositionKey { tool, position, terminal, wire },
            heights_mm: self.heights_mm,
            pulls_n: self.pulls_n,
            minimum_n: self.minimum_n,
            sheet: self.sheet_mm.map(|(target_mm, tolerance_mm)| Height { target_mm, tolerance_mm }),
            until: read_field("until", self.until)?,
            by: self.by,
            at: self.at.as_deref().map_or(Ok(Timestamp::UNIX_EPOCH), read_time)?,
            withdrawn: self.withdrawn,
        })
    }
}

/// The positions of a book from the text of its file.
pub fn read_positions(file: &str, text: &str) -> Result<Vec<ToolPosition>, Box<Problem>> {
    Source::file(file, text).read_with(|form: BookForm| {
        expect_format(form.format)?;
        read_field("positions", form.positions)
    })
}

/// A book as the text of its file.
pub fn write_positions(positions: &[ToolPosition]) -> Result<String, ron::Error> {
    let form = BookForm { format: 1, positions: positions.iter().map(FormOf::write).collect() };
    ron_options().to_string_pretty(&form, ron::ser::PrettyConfig::new().depth_limit(3))
}

#[cfg(test)]
mod tests {
    use super::*;

    const BOOK: &str = "\u{feff}(format: 1,\r\n positions: [(tool: \"0113\", position: \"B\", terminal: \"XX-T05\", wire: \"0.5\", heights_mm: [1.1],\r\n pulls_n: [70], until: \"2027-01-01\", by: \"kt\", withdrawn: Some(\"worn\"))])\r\n";

    #[test]
    fn a_book_is_read_with_every_way_of_writing_that_is_allowed_and_read_back_as_written() {
        let read = read_positions("kt.ron", BOOK).unwrap();
        assert_eq!(read[0].withdrawn.as_deref(), Some("worn"));
        let again = read_positions("kt.ron", &write_positions(&read).unwrap()).unwrap();
        assert_eq!(again, read);
    }

    #[test]
    fn a_day_a_moment_and_a_format_that_are_none_are_shown_at_their_place() {
        let check = |good: &str, bad: &str, starts: &str, says: &str| {
            assert!(BOOK.contains(good), "{good}");
            let said = read_positions("kt.ron", &BOOK.replace(good, bad)).unwrap_err().to_string();
            assert!(said.starts_with(starts) && said.contains(says), "{said}");
        };
        check("2027-01-01", "soon", "--> kt.ron:3:24 at positions[0].until\n", "\"soon\" is no day");
        check(
            "by: \"kt\"",
            "by: \"kt\", at: \"noon\"",
            "--> kt.ron:3:52 at positions[0].at\n",
            "\"noon\" is no moment",
        );
        check("wire: \"0.5\"", "wire: \"thick\"", "--> kt.ron:2:70 at positions[0].wire\n", "thick");
        check("format: 1", "format: 2", "--> kt.ron:1:10 at format\n", "newer repin");
    }
}
