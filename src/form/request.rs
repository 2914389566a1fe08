//! The file of a request, as it is written for the desk.

use super::{
    problem::Problem,
    reader::{Source, ron_options},
};
use crate::request::RequestForm;

/// A request from the text of its file.
pub fn read_request(file: &str, text: &str) -> Result<RequestForm, Box<Problem>> {
    Source::file(file, text).form()
}

/// A request as the text of its file.
pub fn write_request(form: &RequestForm) -> Result<String, ron::Error> {
    ron_options().to_string_pretty(form, ron::ser::PrettyConfig::new().depth_limit(2))
}
