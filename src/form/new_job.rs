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
pub fn read_map(file: &str, text: &str) -> Result<MapFile, Box<Problem>> {
    Source::file(file, text).read_with(|form: MapFileForm| {
        expect_format(form.format)?;
        Ok(MapFile { document: form.document, map: read_field("map", form.map)? })
    })
}

/// What cavities hold, from the text of a file, in its order.
pub fn read_record(file: &str, text: &str) -> Result<Vec<(Label, CavityContent)>, Box<Problem>> {
    Source::file(file, text).read_with(|form: RecordFileForm| {
        expect_format(form.format)?;
        read_field("cavities", form.cavities)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_map_is_read_with_every_way_of_writing_that_is_allowed() {
        let text = "\u{feff}(format: 1,\r\n document: Some(\"bulletin 7\"),\r\n map: [(\"old:1\", \"new:2\"), (\"old:2\", None)])\r\n";
        let read = read_map("m.ron", text).unwrap();
        assert_eq!(read.document.as_deref(), Some("bulletin 7"));
        assert_eq!(read.map[0], ("old:1".parse().unwrap(), Some("new:2".parse().unwrap())));
        assert_eq!(read.map[1].1, None);
    }

    #[test]
    fn a_spoilt_map_or_record_is_shown_at_its_place() {
        let said = read_map("m.ron", "(format: 1, map: [\n(\"old:1\", \"new\")])").unwrap_err().to_string();
        assert!(said.starts_with("--> m.ron:2:11 at map[0][1]\n"), "{said}");
        assert!(read_map("m.ron", "(format: 3, map: [])").unwrap_err().to_string().contains("newer repin"));
        let said = read_record("f.ron", "(format: 1, cavities: [(\"1\", Pluged)])").unwrap_err().to_string();
        assert!(said.starts_with("--> f.ron:1:30 at cavities[0][1]\n"), "{said}");
        let wire = "(format: 1, cavities: [(\"1\", Wired(wires: [(colour: \"RD\", gauge: \"thick\")]))])";
        let said = read_record("f.ron", wire).unwrap_err().to_string();
        assert!(said.starts_with("--> f.ron:1:66 at cavities[0][1].wires[0].gauge\n"), "{said}");
        assert!(read_record("f.ron", "(format: 2, cavities: [])").unwrap_err().to_string().contains("newer"));
    }
}
