//! Family files of a bench's own, written once and then a person's to edit.

use std::{
    fs, io,
    path::{Path, PathBuf},
};

use anyhow::{Context, Result, bail};

use super::files::{shown, write_new};
use crate::{catalogue::FamilyDraft, form};

/// Writes a family to a new file of its id in this folder; an old file is never overwritten.
pub fn write_family(folder: &Path, family: &FamilyDraft) -> Result<PathBuf> {
    fs::create_dir_all(folder)
        .with_context(|| format!("{}: the folder for families cannot be made", shown(folder)))?;
    let path = folder.join(format!("{}.ron", family.id));
    let text = form::write_family(family).context("the family cannot be written down")?;
    let head = "// Described at the bench. Terminals, seals, plugs and sizes are still to be added.\n";
    match write_new(&path, format!("{head}{text}\n").as_bytes()) {
        Err(why) if why.kind() == io::ErrorKind::AlreadyExists => bail!(
            "{}: there is a family of this name already: give the housing another part number",
            shown(&path)
        ),
        done => done.with_context(|| format!("{}: cannot be written", shown(&path)))?,
    }
    Ok(path)
}
