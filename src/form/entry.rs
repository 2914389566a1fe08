//! The line of an entry in a journal: number, time, person, version, act and check sum.

use serde::Deserialize;

use super::{
    act_file::read_time,
    acts::{ActForm, RECORD_VERSION},
    mirror::{FormOf, read_field},
    problem::Problem,
    reader::{Source, ron_options},
};
use crate::{
    catalogue::{FieldFinding, FieldPath},
    job::Entry,
};

#[derive(Deserialize)]
#[serde(rename = "entry", deny_unknown_fields)]
struct EntryForm {
    n: usize,
    at: String,
    by: String,
    v: u32,
    #[serde(default)]
    with: Option<usize>,
    act: ActForm,
    #[serde(rename = "sum")]
    _sum: String,
}

/// Enough of a line to tell an entry, of whatever version, from what is none.
#[derive(Deserialize)]
struct VersionForm {
    v: u32,
}

/// Why a line is no entry that can be used.
#[derive(Debug, Clone, PartialEq)]
pub enum EntryProblem {
    /// It was written by a newer repin.
    Newer {
        /// Its version.
        version: u32,
    },
    /// It is an entry, and a value in it is not one that is known.
    NotAccepted(Box<Problem>),
    /// It is another entry than the one that stands here.
    Numbered(usize),
    /// It is none.
    NotAnEntry(Box<Problem>),
}

/// An entry as it stands in its line, without brackets and check sum.
pub fn write_entry(n: usize, entry: &Entry) -> Result<String, ron::Error> {
    let options = ron_options();
    let with = entry.with.map_or(String::new(), |first| format!("with:{first},"));
    Ok(format!(
        "n:{n},at:\"{}\",by:{},v:{RECORD_VERSION},{with}act:{}",
        entry.at,
        options.to_string(&entry.by)?,
        options.to_string(&ActForm::write(&entry.act))?
    ))
}

/// The entry that stands in this line (from 1) of a journal. Whether its check sum is good is not asked
/// here.
pub fn read_entry(line: usize, text: &str) -> Result<Entry, EntryProblem> {
    let source = Source::line("", line, text);
    let form: EntryForm = match source.form() {
        Ok(form) => form,
        Err(problem) => {
            return Err(match source.form::<VersionForm>() {
                Ok(VersionForm { v }) if v > RECORD_VERSION => EntryProblem::Newer { version: v },
                Ok(_) => EntryProblem::NotAccepted(problem),
                Err(_) => EntryProblem::NotAnEntry(problem),
            });
        }
    };
    if form.v > RECORD_VERSION {
        return Err(EntryProblem::Newer { version: form.v });
    }
    if form.n != line {
        return Err(EntryProblem::Numbered(form.n));
    }
    let read = || {
        let at = read_time(&form.at)?;
        if form.with.is_some_and(|first| first == 0 || first >= line) {
            let say = "it belongs to a key press that does not come before it".to_owned();
            return Err(FieldFinding { path: FieldPath::default().field("with"), say, hint: None });
        }
        Ok(Entry { at, by: form.by, with: form.with, act: read_field("act", form.act)? })
    };
    read().map_err(|found| EntryProblem::NotAccepted(Box::new(source.found(found).1)))
}
