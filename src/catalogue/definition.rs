//! One housing with the parts of its family, as a job carries it: the draft is what is written into
//! the job's file, so that the job can be read without any library.

use super::{
    check::{check_family, kept_family},
    draft::FamilyDraft,
    family::{Family, Housing},
    finding::FieldFinding,
    part::PartNumber,
};

/// One housing and its family.
#[derive(Debug, Clone, PartialEq)]
pub struct Definition {
    draft: FamilyDraft,
    family: Family,
    housing: Housing,
}

/// Why a draft is no definition of one housing.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum DefinitionProblem {
    /// No such housing in the family.
    #[error("the family {family} has no housing {housing}")]
    NoSuchHousing {
        /// The family's id.
        family: String,
        /// The housing looked for.
        housing: String,
    },
    /// The draft holds several housings or none.
    #[error("a definition holds one housing, and this one of the family {family} holds {housings}")]
    NotOne {
        /// The family's id.
        family: String,
        /// How many it holds.
        housings: usize,
    },
    /// The draft does not hold together.
    #[error("{} at {}", .0.say, .0.path)]
    Wrong(FieldFinding),
}

impl Definition {
    /// The housing with this id or part number (compared without case), taken out of its family.
    pub fn of_housing(draft: &FamilyDraft, id_or_part: &str) -> Result<Self, DefinitionProblem> {
        let word = id_or_part.trim();
        let housing = draft
            .housings
            .iter()
            .find(|h| h.id.eq_ignore_ascii_case(word) || PartNumber::is_same_text(&h.part, word));
        let Some(housing) = housing else {
            let (family, housing) = (draft.id.clone(), word.to_owned());
            return Err(DefinitionProblem::NoSuchHousing { family, housing });
        };
        let definition = Self::kept(FamilyDraft { housings: vec![housing.clone()], ..draft.clone() })?;
        definition.check()?;
        Ok(definition)
    }

    /// A definition as it was written into a job. It was checked then, and is not held against the rules of
    /// today: a job that was begun can always be opened.
    pub fn kept(draft: FamilyDraft) -> Result<Self, DefinitionProblem> {
        let family = kept_family(&draft).map_err(DefinitionProblem::Wrong)?;
        let not_one = |draft: FamilyDraft, housings| DefinitionProblem::NotOne { family: draft.id, housings };
        let Some(family) = family else { return Err(not_one(draft, 0)) };
        match family.housings.as_slice() {
            [housing] => Ok(Self { housing: housing.clone(), draft, family }),
            housings => Err(not_one(draft, housings.len())),
        }
    }

    /// Whether it holds together by the rules of today.
    pub fn check(&self) -> Result<(), DefinitionProblem> {
        let findings = check_family(&self.draft).err().and_then(|findings| findings.into_iter().next());
        findings.map_or(Ok(()), |first| Err(DefinitionProblem::Wrong(first)))
    }

    /// The draft, to be written into a job's file.
    pub fn draft(&self) -> &FamilyDraft {
        &self.draft
    }

    /// The family, with this one housing.
    pub fn family(&self) -> &Family {
        &self.family
    }

    /// The housing.
    pub fn housing(&self) -> &Housing {
        &self.housing
    }
}
