//! The one way RON is read: a text with a name becomes a form, and the form what it stands for. Whatever
//! is wrong is said in one shape, at its place. Every form is made for one reader only, so that the
//! program holds the code for it once.

use ron::{Options, error::SpannedError, extensions::Extensions};
use serde::de::DeserializeOwned;

use super::{
    locate::{Nearest, locate, path_at},
    mirror::FormOf,
    problem::{Problem, TextPlace},
    wording::in_words,
};
use crate::catalogue::{FieldFinding, FieldPath};

/// The format of every file that says its format.
const FORMAT: u32 = 1;

/// How RON is read and written: `Some(x)` may be written `x`.
pub fn ron_options() -> Options {
    Options::default().with_default_extension(Extensions::IMPLICIT_SOME)
}

/// A text that RON is read from: a file, or a line of one.
#[derive(Debug, Clone, Copy)]
pub(super) struct Source<'a> {
    name: &'a str,
    text: &'a str,
    /// The line of the file the text starts in, from 1.
    line: usize,
}

impl<'a> Source<'a> {
    /// A whole file. The mark that some editors put at its start is no part of the text.
    pub fn file(name: &'a str, text: &'a str) -> Self {
        Self { name, text: text.strip_prefix('\u{feff}').unwrap_or(text), line: 1 }
    }

    /// One line of a file.
    pub fn line(name: &'a str, line: usize, text: &'a str) -> Self {
        Self { name, text, line }
    }

    /// What its form stands for.
    pub fn read<F: DeserializeOwned + FormOf<T>, T>(&self) -> Result<T, Problem> {
        self.read_with(F::read)
    }

    /// What a form stands for that is read and never written.
    pub fn read_with<F: DeserializeOwned, T>(
        &self,
        read: impl FnOnce(F) -> Result<T, FieldFinding>,
    ) -> Result<T, Problem> {
        read(self.form()?).map_err(|finding| self.found(finding).1)
    }

    /// The form as written, nothing checked.
    pub fn form<F: DeserializeOwned>(&self) -> Result<F, Problem> {
        ron_options().from_str(self.text).map_err(|spoilt| self.spoilt(&spoilt))
    }

    /// What a check found in a form, with the byte of the text where it stands.
    pub fn found(&self, finding: FieldFinding) -> (usize, Problem) {
        let byte = locate(self.text, &finding.path);
        let place = TextPlace::of_byte(self.text, byte);
        let FieldFinding { path, say, hint } = finding;
        (byte, self.problem(Some(place), path.to_string(), say, hint))
    }

    /// A problem of the text as a whole.
    pub fn whole(&self, say: &str, hint: &str) -> Problem {
        self.problem(None, String::new(), say.to_owned(), Some(hint.to_owned()))
    }

    /// What the reader of RON says.
    fn spoilt(&self, spoilt: &SpannedError) -> Problem {
        let (say, hint) = in_words(&spoilt.code);
        let (start, end) = (&spoilt.span.start, &spoilt.span.end);
        let place = TextPlace::of_line(self.text, start.line, start.col);
        // What is missing is missing in the bracket, not in the value before it.
        let nearest = match spoilt.code {
            ron::Error::ExpectedComma | ron::Error::MissingStructField { .. } => Nearest::Around,
            _ => Nearest::Value,
        };
        let path = path_at(self.text, TextPlace::byte_of(self.text, end.line, end.col), nearest);
        self.problem(Some(place), path, say, hint)
    }

    fn problem(&self, place: Option<TextPlace>, path: String, say: String, hint: Option<String>) -> Problem {
        let place = place.map(|place| Box::new(TextPlace { line: place.line + self.line - 1, ..place }));
        Problem { file: self.name.to_owned(), place, path, say, hint }
    }
}

/// Whether a file is of the format that is read.
pub(super) fn expect_format(format: u32) -> Result<(), FieldFinding> {
    match format {
        FORMAT => Ok(()),
        other => Err(FieldFinding {
            path: FieldPath::default().field("format"),
            say: format!("format {other} is not known"),
            hint: Some(format!("format {FORMAT} is read; this file is for a newer repin")),
        }),
    }
}
