//! A list of pairs written as a map, `{"1": "A12", "2": "A11"}`: the order and a key that stands
//! twice are kept, so that the check can point at it.

use std::fmt;

use serde::{
    Deserialize, Deserializer, Serialize, Serializer,
    de::{MapAccess, Visitor},
};

use super::mirror::FormOf;
use crate::catalogue::FieldFinding;

/// Pairs of labels as written.
pub(super) struct Pairs(Vec<(String, String)>);

impl FormOf<Vec<(String, String)>> for Pairs {
    fn write(value: &Vec<(String, String)>) -> Self {
        Self(value.clone())
    }

    fn read(self) -> Result<Vec<(String, String)>, FieldFinding> {
        Ok(self.0)
    }
}

impl Serialize for Pairs {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(self.0.iter().map(|(from, to)| (from, to)))
    }
}

impl<'de> Deserialize<'de> for Pairs {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_map(PairsReader)
    }
}

struct PairsReader;

impl<'de> Visitor<'de> for PairsReader {
    type Value = Pairs;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a map of labels, such as {\"1\": \"A12\"}")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Pairs, A::Error> {
        let mut pairs = Vec::new();
        while let Some(pair) = map.next_entry()? {
            pairs.push(pair);
        }
        Ok(Pairs(pairs))
    }
}
