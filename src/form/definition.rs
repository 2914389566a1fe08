//! A housing with its family, in a job's file: the form it was read from, whole.

use super::mirror::FormOf;
use crate::catalogue::{Definition, DefinitionProblem, FamilyForm, FieldFinding};

impl FormOf<Definition> for FamilyForm {
    fn write(value: &Definition) -> Self {
        value.form().clone()
    }

    fn read(self) -> Result<Definition, FieldFinding> {
        Definition::from_form(self).map_err(|why| match why {
            DefinitionProblem::Wrong(finding) => finding,
            other => FieldFinding::of(other),
        })
    }
}
