//! A housing with its family, in a job's file: the form it was read from, whole.

use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error};

use crate::catalogue::{Definition, FamilyForm};

impl Serialize for Definition {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        self.form().serialize(to)
    }
}

impl<'de> Deserialize<'de> for Definition {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        Definition::from_form(FamilyForm::deserialize(from)?).map_err(D::Error::custom)
    }
}
