//! What a request asked for, in files.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::values::mirrored;
use crate::{
    job::{ItemId, RequestSaid, RequestedLine},
    supply::{Line, RequestHead, Urgency},
};

#[derive(Serialize, Deserialize)]
#[serde(remote = "RequestedLine", deny_unknown_fields)]
struct RequestedLineForm {
    line: u32,
    need: u32,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    leads: Vec<ItemId>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    length_mm: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "asked")]
    asked: Option<Box<Line>>,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "RequestSaid", deny_unknown_fields)]
struct RequestSaidForm {
    head: RequestHead,
    why: String,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    photos: Vec<String>,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "RequestHead", deny_unknown_fields)]
struct RequestHeadForm {
    asked_by: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    bench: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    deliver_to: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "crate::request::day")]
    needed_by: Option<Date>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "urgency")]
    urgency: Option<Urgency>,
}

/// Everything a line asked for, in the form of a request.
mod asked {
    use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error};

    use crate::{request::LineForm, supply::Line};

    pub(super) fn serialize<S: Serializer>(asked: &Option<Box<Line>>, to: S) -> Result<S::Ok, S::Error> {
        asked.as_deref().map(LineForm::kept).serialize(to)
    }

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Option<Box<Line>>, D::Error> {
        let line = Option::<LineForm>::deserialize(from)?.map(Line::try_from);
        Ok(line.transpose().map_err(D::Error::custom)?.map(Box::new))
    }
}

/// How urgent a request is, in its words.
mod urgency {
    use serde::{Deserialize, Deserializer, Serialize, Serializer};

    use crate::supply::Urgency;

    pub(super) fn serialize<S: Serializer>(urgency: &Option<Urgency>, to: S) -> Result<S::Ok, S::Error> {
        urgency.as_ref().map(Urgency::to_string).serialize(to)
    }

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Option<Urgency>, D::Error> {
        Ok(Option::<String>::deserialize(from)?.map(|text| Urgency::from(text.as_str())))
    }
}

mirrored!(RequestedLine as RequestedLineForm, RequestSaid as RequestSaidForm, RequestHead as RequestHeadForm,);
