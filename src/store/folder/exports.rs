//! Texts for people in a folder: requests, tool books. Each is written whole, and can be written again.

use std::{fs, path::Path};

use crate::store::{
    files::{Links, ReadProblem, TEXT_MOST, read_text, shown, write_whole},
    job_id::FileName,
    port::StoreProblem,
};

/// Makes a folder for jobs and what lies beside them, when it is not there yet.
pub(super) fn make(folder: &Path) -> Result<(), StoreProblem> {
    let named = |why| StoreProblem::NoFolder { folder: shown(folder), what: "jobs", why };
    fs::create_dir_all(folder).map_err(named)
}

/// Writes a text, in the place of one that is there; gives the file.
pub(super) fn write(folder: &Path, name: &FileName, text: &str) -> Result<String, StoreProblem> {
    make(folder)?;
    let path = folder.join(name.as_str());
    write_whole(&path, text.as_bytes())
        .map_err(|why| StoreProblem::NotWritten { file: shown(&path), why: why.to_string() })?;
    Ok(shown(&path))
}

/// A text, when it is there.
pub(super) fn read(folder: &Path, name: &FileName) -> Result<Option<String>, ReadProblem> {
    match read_text(&folder.join(name.as_str()), TEXT_MOST, Links::Refused) {
        Ok(text) => Ok(Some(text)),
        Err(problem) if problem.is_missing() => Ok(None),
        Err(problem) => Err(problem),
    }
}
