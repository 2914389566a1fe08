//! Files a new job takes in: a record of one housing, and a map.

use serde::Deserialize;

use super::{
    mirror::read_field,
    problem::Problem,
    reader::{Source, expect_format},
    record::CavityContentForm,
};
use crate::{
    face::Label,
    record::{Address, CavityContent},
};

/// A record in a file: `(format: 1, cavities: [("1", Wired(…)), …])`.
#[derive(Deserialize)]
#[serde(rename = "record", deny_unknown_fields)]
struct RecordFileForm {
    format: u32,
    cavities: Vec<(String, CavityContentForm)>,
}

/// A map in a file: `(format: 1, map: [("12s:1", "new:8"), ("12s:2", None)])`.
#[derive(Deserialize)]
#[serde(rename = "map", deny_unknown_fields)]
struct MapFileForm {
    format: u32,
    #[serde(default)]
    document: Option<String>,
    map: Vec<(String, Option<String>)>,
}

/// A map as a file says it.
#[derive(Debug, Clone, PartialEq)]
pub struct MapFile {
    /// The document it rests on, where the mating half changes with it.
    pub document: Option<String>,
    /// From each old cavity to a new one, or to none.
    pub map: Vec<(Address, Option<Address>)>,
}

/// A map from the text of a file.
pub fn read_map(file: &str, text: &str) -> Result<MapFile, Problem> {
    Source::file(file, text).read_with(|form: MapFileForm| {
        expect_format(form.format)?;
        Ok(MapFile { document: form.document, map: read_field("map", form.map)? })
    })
}

/// What cavities hold, from the text of a file, in its order.
pub fn read_record(file: &str, text: &str) -> Result<Vec<(Label, CavityContent)>, Problem> {
    Source::file(file, text).read_with(|form: RecordFileForm| {
        expect_format(form.format)?;
        read_field("cavities", form.cavities)
    })
}
