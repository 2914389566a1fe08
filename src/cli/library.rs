//! Family files read from disk; only commands that look for a housing call this.

use std::{fs, path::Path};

use anyhow::{Context, bail};

use crate::{
    form::{Catalogue, Problem, problems_in_words, text_of},
    store::{Links, TEXT_MOST, read_bytes},
};

/// The built-in families with those of the library folder, when one is given.
pub(crate) fn catalogue(library: Option<&Path>) -> anyhow::Result<Catalogue> {
    let Some(folder) = library else { return Ok(Catalogue::built_in()) };
    let mut texts = Vec::new();
    let mut problems = Vec::new();
    let entries = fs::read_dir(folder)
        .with_context(|| format!("the library folder {} cannot be read", folder.display()))?;
    let mut paths = Vec::new();
    for entry in entries {
        let path = entry.with_context(|| format!("{} cannot be read", folder.display()))?.path();
        if path.extension().is_some_and(|extension| extension == "ron") {
            paths.push(path);
        }
    }
    paths.sort();
    for path in paths {
        match read_text(&path)? {
            Ok(text) => texts.push((path.display().to_string(), text)),
            Err(problem) => problems.push(*problem),
        }
    }
    if !problems.is_empty() {
        bail!(problems_in_words(&problems));
    }
    Ok(Catalogue::built_in().with_library(texts))
}

/// The text of a file, never more than a family file can be; or the problem it has as such.
pub(crate) fn read_text(path: &Path) -> anyhow::Result<Result<String, Box<Problem>>> {
    let bytes = read_bytes(path, TEXT_MOST, Links::Followed)?;
    Ok(text_of(&path.display().to_string(), bytes))
}
