//! What a request asked for, in files.

use super::{mirror::form, request::LineForm};
use crate::{
    job::{RequestSaid, RequestedLine},
    supply::RequestHead,
};

form! {
    pub(super) struct RequestedLineForm of RequestedLine {
        line: u32,
        need: u32,
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        leads: Vec<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        length_mm: Option<f64>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        asked: Option<Box<LineForm>>,
    }
}

form! {
    pub(super) struct RequestSaidForm of RequestSaid {
        head: RequestHeadForm,
        why: String,
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        photos: Vec<String>,
    }
}

form! {
    pub(super) struct RequestHeadForm of RequestHead {
        asked_by: String,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        bench: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        deliver_to: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        needed_by: Option<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        urgency: Option<String>,
    }
}
