//! All families there are: those built in and those of a library. Nothing is read before somebody
//! looks for a housing, and then only the files that name it, so that a large library costs
//! nothing at the start.

use std::borrow::Cow;

use super::{
    family_file::{FamilyFile, read_family},
    problem::{Problem, problems_in_words},
};
use crate::{
    catalogue::{Definition, DefinitionProblem, Housing},
    quantity::list_of,
};

macro_rules! built_in {
    ($($file:literal),+ $(,)?) => {
        [$(($file, include_str!(concat!("../../connectors/", $file)))),+]
    };
}

/// The families compiled into the program.
const BUILT_IN: [(&str, &str); 21] = built_in![
    "aurelia.ron",
    "box-header.ron",
    "cormorant.ron",
    "d-sub.ron",
    "dewline.ron",
    "din-5-180.ron",
    "dip.ron",
    "fernwalker.ron",
    "iec-60603-7.ron",
    "iso-10487.ron",
    "iso-11446.ron",
    "iso-15031-3.ron",
    "iso-1724.ron",
    "iso-3732.ron",
    "kerbwhisper.ron",
    "lanternhill.ron",
    "m12-a5.ron",
    "mulehaul.ron",
    "quayline.ron",
    "skerry.ron",
    "spudrow.ron",
];

/// All families there are.
#[derive(Debug, Clone)]
pub struct Catalogue {
    texts: Vec<FamilyText>,
}

#[derive(Debug, Clone)]
struct FamilyText {
    file: String,
    text: Cow<'static, str>,
}

/// Why a housing was not found.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum FindProblem {
    /// No family has it.
    #[error("there is no housing \"{word}\": type its id or part number; `repin housing list` shows all")]
    Unknown {
        /// What was looked for.
        word: String,
    },
    /// Several families have it.
    #[error("\"{word}\" could be {}: use the id, or rename one of them", list_of(.found))]
    Several {
        /// What was looked for.
        word: String,
        /// Each housing with its family and file.
        found: Vec<String>,
    },
    /// A file that may hold it has problems.
    #[error("{}", problems_in_words(.0))]
    Unreadable(Vec<Problem>),
    /// The family holds together, but not with this housing alone.
    #[error(transparent)]
    Definition(#[from] DefinitionProblem),
}

impl Catalogue {
    /// The families built in.
    pub fn built_in() -> Self {
        let texts = BUILT_IN
            .iter()
            .map(|(file, text)| FamilyText { file: format!("built in: {file}"), text: Cow::Borrowed(*text) });
        Self { texts: texts.collect() }
    }

    /// With the files of a library beside them: name and text.
    pub fn with_library(mut self, texts: Vec<(String, String)>) -> Self {
        let texts = texts.into_iter().map(|(file, text)| FamilyText { file, text: Cow::Owned(text) });
        self.texts.extend(texts);
        self
    }

    /// The housing with this id or part number, compared without case.
    pub fn find(&self, id_or_part: &str) -> Result<Definition, FindProblem> {
        let word = id_or_part.trim();
        let may_name = |text: &&FamilyText| names(&text.text, word);
        let families = read_all(self.texts.iter().filter(may_name)).map_err(FindProblem::Unreadable)?;
        let is_meant = |h: &&Housing| h.id.as_str().eq_ignore_ascii_case(word) || h.part.is_same(word);
        let found: Vec<(&FamilyFile, &Housing)> = families
            .iter()
            .flat_map(|file| file.family.housings.iter().filter(is_meant).map(move |housing| (file, housing)))
            .collect();
        match found.as_slice() {
            [] => Err(FindProblem::Unknown { word: word.to_owned() }),
            [(file, housing)] => Ok(Definition::of_housing(&file.draft, housing.id.as_str())?),
            several => {
                let say = |(file, housing): &(&FamilyFile, &Housing)| {
                    format!("{} of the family {} ({})", housing.id, file.family.id, file.file)
                };
                Err(FindProblem::Several { word: word.to_owned(), found: several.iter().map(say).collect() })
            }
        }
    }

    /// Every family, read now; or every problem of every file.
    pub fn families(&self) -> Result<Vec<FamilyFile>, Vec<Problem>> {
        read_all(self.texts.iter())
    }
}

/// Whether a text can name a housing: a text with escapes is looked into anyway.
fn names(text: &str, word: &str) -> bool {
    let (text, word) = (text.as_bytes(), word.as_bytes());
    let Some(first) = word.first() else { return false };
    text.contains(&b'\\')
        || text.iter().enumerate().any(|(at, byte)| {
            byte.eq_ignore_ascii_case(first)
                && text.get(at..at + word.len()).is_some_and(|there| there.eq_ignore_ascii_case(word))
        })
}

fn read_all<'a>(texts: impl Iterator<Item = &'a FamilyText>) -> Result<Vec<FamilyFile>, Vec<Problem>> {
    let mut families = Vec::new();
    let mut problems = Vec::new();
    for text in texts {
        match read_family(&text.file, &text.text) {
            Ok(family) => families.push(family),
            Err(found) => problems.extend(found),
        }
    }
    if problems.is_empty() { Ok(families) } else { Err(problems) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::write_family;

    #[test]
    fn every_built_in_family_is_without_problems_and_its_draft_survives_writing() {
        let families = Catalogue::built_in().families();
        let families = families.unwrap_or_else(|problems| panic!("{}", problems_in_words(&problems)));
        assert_eq!(families.len(), BUILT_IN.len());
        for file in families {
            let written = write_family(&file.draft).unwrap();
            let read = read_family("written", &written).unwrap();
            assert_eq!(read.draft, file.draft, "{}", file.file);
            for housing in &file.family.housings {
                let definition = Catalogue::built_in().find(housing.part.as_str()).unwrap();
                assert_eq!(definition.housing(), housing);
            }
        }
    }

    #[test]
    fn a_part_number_in_two_families_is_a_question_that_names_both() {
        let copy =
            BUILT_IN[7].1.replace("id: \"fernwalker\"", "id: \"copy\"").replace("fw-hsg-12a", "fw-copy");
        let catalogue = Catalogue::built_in().with_library(vec![("copy.ron".to_owned(), copy)]);
        let say = catalogue.find("fw-HSG-12a").unwrap_err().to_string();
        assert!(say.contains("fernwalker") && say.contains("fw-copy of the family copy (copy.ron)"), "{say}");
        assert_eq!(catalogue.find("fw-copy").unwrap().housing().id.as_str(), "fw-copy");
    }

    #[test]
    fn a_broken_file_that_does_not_name_the_housing_is_not_read() {
        let catalogue = Catalogue::built_in().with_library(vec![("bad.ron".to_owned(), "(".to_owned())]);
        assert!(catalogue.find("ql-30").is_ok());
        assert!(catalogue.families().is_err());
    }
}
