//! Family files of a bench's own, written once and then a person's to edit.

use std::{
    fs,
    io::Write,
    path::{Path, PathBuf},
};

use anyhow::{Context, Result, bail};

use crate::catalogue::{FamilyForm, ron_options};

/// Writes a family to a new file of its id in this folder; an old file is never overwritten.
pub fn write_family(folder: &Path, form: &FamilyForm) -> Result<PathBuf> {
    fs::create_dir_all(folder)
        .with_context(|| format!("{}: the folder for families cannot be made", folder.display()))?;
    let path = folder.join(format!("{}.ron", form.id));
    if path.exists() {
        bail!(
            "{}: there is a family of this name already: give the housing another part number",
            path.display()
        );
    }
    let pretty = ron::ser::PrettyConfig::new().struct_names(false);
    let text = ron_options().to_string_pretty(form, pretty).context("the family cannot be written down")?;
    let head = "// Described at the bench. Terminals, seals, plugs and sizes are still to be added.\n";
    let temporary = folder.join(format!(".{}.new", form.id));
    let written = fs::File::create(&temporary)
        .and_then(|mut file| {
            file.write_all(head.as_bytes())?;
            file.write_all(text.as_bytes())?;
            file.write_all(b"\n")?;
            file.sync_all()
        })
        .and_then(|()| fs::rename(&temporary, &path));
    written.with_context(|| format!("{}: cannot be written", path.display()))?;
    Ok(path)
}
