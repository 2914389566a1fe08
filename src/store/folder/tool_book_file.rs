//! The shop's tool books on disk: `tools/<bench>.ron` beside the jobs, one file a bench, each written
//! by its own bench alone.

use std::path::Path;

use sha2::{Digest, Sha256};

use super::exports;
use crate::{
    form::{read_positions, write_positions},
    reckoning::{ToolBook, ToolPosition},
    store::{
        files::{Links, TEXT_MOST, read_text, shown},
        job_id::FileName,
        port::StoreProblem,
    },
};

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
        book.positions.extend(positions_of(&shown(&path), &text)?);
    }
    Ok(book)
}

/// The positions of a file. It is said beside a job that goes on, where there is room for one line.
fn positions_of(file: &str, text: &str) -> Result<Vec<ToolPosition>, StoreProblem> {
    read_positions(file, text).map_err(|problem| StoreProblem::NotUnderstood(problem.in_one_line()))
}

/// Writes a position into the bench's own book; what the book said of the same position before is
/// replaced. Gives the file's name.
pub(super) fn write_position(
    jobs: &Path,
    bench: &str,
    position: &ToolPosition,
) -> Result<String, StoreProblem> {
    let name = file_of(bench);
    let tools = jobs.join("tools");
    let mut positions = match exports::read(&tools, &name)? {
        Some(text) => positions_of(name.as_str(), &text)?,
        None => Vec::new(),
    };
    positions.retain(|old| !old.key.is_same(&position.key));
    positions.push(position.clone());
    let text = write_positions(&positions)
        .map_err(|why| StoreProblem::NotWritten { file: name.as_str().to_owned(), why: why.to_string() })?;
    exports::write(&tools, &name, &format!("{text}\n"))?;
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
        let position = positions_of("kt.ron", text).unwrap().remove(0);
        let file = write_position(folder.path(), "K. Tanner", &position).unwrap();
        assert!(file.starts_with("tools/k--tanner-") && file.ends_with(".ron"), "{file}");
        write_position(folder.path(), "K. Tanner", &position).unwrap();
        assert_eq!(read_book(folder.path()).unwrap().positions, [position]);
        let error = positions_of("kt.ron", "(format:1,\npositions:[(tool:3)])").unwrap_err().to_string();
        assert!(error.starts_with("kt.ron:2:18 at positions[0].tool: "), "{error}");
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
