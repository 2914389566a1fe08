//! One housing with the parts of its family, as a job carries it: the form is what is written into
//! the job's file, so that the job can be read without any library.

use super::{
    check::check_family,
    family::{Family, Housing},
    finding::FieldFinding,
    form::FamilyForm,
    part::PartNumber,
};

/// One housing and its family.
#[derive(Debug, Clone, PartialEq)]
pub struct Definition {
    form: FamilyForm,
    family: Family,
    housing: Housing,
}

/// Why a form is no definition of one housing.
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
    /// The form holds several housings or none.
    #[error("a definition holds one housing, and this one of the family {family} holds {housings}")]
    NotOne {
        /// The family's id.
        family: String,
        /// How many it holds.
        housings: usize,
    },
    /// The form does not hold together.
    #[error("{} at {}", .0.say, .0.path)]
    Wrong(FieldFinding),
}

impl Definition {
    /// The housing with this id or part number (compared without case), taken out of its family.
    pub fn of_housing(form: &FamilyForm, id_or_part: &str) -> Result<Self, DefinitionProblem> {
        let word = id_or_part.trim();
        let housing = form
            .housings
            .iter()
            .find(|h| h.id.eq_ignore_ascii_case(word) || PartNumber::is_same_text(&h.part, word));
        let Some(housing) = housing else {
            let (family, housing) = (form.id.clone(), word.to_owned());
            return Err(DefinitionProblem::NoSuchHousing { family, housing });
        };
        Self::from_form(FamilyForm { housings: vec![housing.clone()], ..form.clone() })
    }

    /// A definition as it was written into a job.
    pub fn from_form(form: FamilyForm) -> Result<Self, DefinitionProblem> {
        let family = check_family(&form).map_err(|findings| match findings.into_iter().next() {
            Some(first) => DefinitionProblem::Wrong(first),
            None => DefinitionProblem::NotOne { family: form.id.clone(), housings: 0 },
        })?;
        match family.housings.as_slice() {
            [housing] => Ok(Self { housing: housing.clone(), form, family }),
            housings => Err(DefinitionProblem::NotOne { family: form.id.clone(), housings: housings.len() }),
        }
    }

    /// The form, to be written into a job's file.
    pub fn form(&self) -> &FamilyForm {
        &self.form
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
