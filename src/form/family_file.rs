//! From the bytes of a family file to a checked family, with every problem at its place.

use super::{
    family::FamilyForm,
    mirror::FormOf,
    problem::Problem,
    reader::{Source, ron_options},
};
use crate::catalogue::{Family, FamilyDraft, check_family};

/// The largest family file that is read; the largest real one is far below.
pub const FILE_BYTES_MOST: usize = 4 * 1024 * 1024;

/// A family read from a file.
#[derive(Debug, Clone, PartialEq)]
pub struct FamilyFile {
    /// The file's name.
    pub file: String,
    /// As written.
    pub draft: FamilyDraft,
    /// As checked.
    pub family: Family,
}

/// The text of a file from its bytes: not too long, and text at all.
pub fn text_of(file: &str, bytes: Vec<u8>) -> Result<String, Box<Problem>> {
    if bytes.len() > FILE_BYTES_MOST {
        return Err(Box::new(too_long(Source::file(file, ""))));
    }
    String::from_utf8(bytes).map_err(|problem| {
        let byte = problem.utf8_error().valid_up_to() + 1;
        let hint = "a family is written in RON, as UTF-8 text";
        let say = format!("byte {byte} is not text: this does not look like a family file");
        Box::new(Source::file(file, "").whole(&say, hint))
    })
}

fn too_long(source: Source<'_>) -> Problem {
    source.whole("the file is longer than 4 MB", "a family file is a few kilobytes: is this the right file?")
}

/// Reads and checks a family; every problem found, in the order of the file.
pub fn read_family(file: &str, text: &str) -> Result<FamilyFile, Vec<Problem>> {
    let source = Source::file(file, text);
    if text.len() > FILE_BYTES_MOST {
        return Err(vec![too_long(source)]);
    }
    if text.trim_start_matches('\u{feff}').trim().is_empty() {
        let hint = "a family starts with (format: 1, id: \"…\", title: \"…\", source: …";
        return Err(vec![source.whole("the file is empty", hint)]);
    }
    let draft: FamilyDraft = source.read::<FamilyForm, _>().map_err(|problem| vec![*problem])?;
    match check_family(&draft) {
        Ok(family) => Ok(FamilyFile { file: file.to_owned(), draft, family }),
        Err(findings) => {
            let mut problems: Vec<(usize, Problem)> =
                findings.into_iter().map(|finding| source.found(finding)).collect();
            problems.sort_by_key(|(byte, _)| *byte);
            Err(problems.into_iter().map(|(_, problem)| problem).collect())
        }
    }
}

/// A family as the text of a file that a person goes on with.
pub fn write_family(draft: &FamilyDraft) -> Result<String, ron::Error> {
    ron_options()
        .to_string_pretty(&FamilyForm::write(draft), ron::ser::PrettyConfig::new().struct_names(false))
}
