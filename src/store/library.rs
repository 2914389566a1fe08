//! Family files of a bench's own, written once and then a person's to edit.

use std::{
    fs, io,
    path::{Path, PathBuf},
};

use super::{
    files::{shown, write_new},
    port::StoreProblem,
};
use crate::catalogue::{FamilyForm, ron_options};

/// Writes a family to a new file of its id in this folder; an old file is never overwritten.
pub fn write_family(folder: &Path, form: &FamilyForm) -> Result<PathBuf, StoreProblem> {
    fs::create_dir_all(folder).map_err(|why| StoreProblem::NoFolder {
        folder: shown(folder),
        what: "families",
        why,
    })?;
    let path = folder.join(format!("{}.ron", form.id));
    let not_written = |why: String| StoreProblem::NotWritten { file: shown(&path), why };
    let pretty = ron::ser::PrettyConfig::new().struct_names(false);
    let text = ron_options().to_string_pretty(form, pretty).map_err(|why| not_written(why.to_string()))?;
    let head = "// Described at the bench. Terminals, seals, plugs and sizes are still to be added.\n";
    match write_new(&path, format!("{head}{text}\n").as_bytes()) {
        Ok(()) => Ok(path),
        Err(why) if why.kind() == io::ErrorKind::AlreadyExists => {
            Err(StoreProblem::FamilyThere { file: shown(&path) })
        }
        Err(why) => Err(not_written(why.to_string())),
    }
}
