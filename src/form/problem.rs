//! A problem in a file, and the one way it is shown: where, which field, the line with
//! a caret under the place, what is wrong, what is allowed.

use std::fmt;

use unicode_width::UnicodeWidthStr;

use crate::quantity::{brief, harmless};

/// How much of a long line is shown, in characters.
const LINE_SHOWN: usize = 100;

/// A problem in a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// The file's name.
    pub file: String,
    /// The place in it; none when the file as a whole is wrong.
    pub place: Option<Box<TextPlace>>,
    /// The field, such as `housings[0].plugged[1]`; may be empty.
    pub path: String,
    /// What is wrong.
    pub say: String,
    /// What is allowed, or what to do.
    pub hint: Option<String>,
}

/// Problems one under another, with a blank line between them.
pub fn problems_in_words(problems: &[Problem]) -> String {
    problems.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n\n")
}

/// A place in a text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TextPlace {
    /// Line from 1.
    pub line: usize,
    /// Column from 1, in characters.
    pub column: usize,
    /// The whole line.
    pub source: String,
}

impl TextPlace {
    /// The place of a line and column, both from 1.
    pub(super) fn of_line(text: &str, line: usize, column: usize) -> Self {
        let source = text.split('\n').nth(line.saturating_sub(1)).unwrap_or("").trim_end_matches('\r');
        Self { line, column, source: source.to_owned() }
    }

    /// The byte of a line and column, both from 1.
    pub(super) fn byte_of(text: &str, line: usize, column: usize) -> usize {
        let start: usize = text.split_inclusive('\n').take(line.saturating_sub(1)).map(str::len).sum();
        let rest = text.get(start..).unwrap_or("");
        start + rest.chars().take(column.saturating_sub(1)).map(char::len_utf8).sum::<usize>()
    }

    /// The place of a byte.
    pub(super) fn of_byte(text: &str, byte: usize) -> Self {
        let before = text.get(..byte).unwrap_or(text);
        let line = before.matches('\n').count() + 1;
        let column = before.rsplit('\n').next().unwrap_or("").chars().count() + 1;
        Self::of_line(text, line, column)
    }

    /// The part of the line that is shown, and how far to the right the place is in it.
    fn shown(&self) -> (String, usize) {
        let characters: Vec<char> = self.source.replace('\t', " ").chars().collect();
        let at = self.column.saturating_sub(1).min(characters.len());
        let from = if characters.len() > LINE_SHOWN { at.saturating_sub(LINE_SHOWN / 2) } else { 0 };
        let text = |characters: &[char]| harmless(&characters.iter().collect::<String>()).into_owned();
        let before = text(characters.get(from..at).unwrap_or(&[]));
        let end = characters.len().min(from + LINE_SHOWN).max(at);
        let after = text(characters.get(at..end).unwrap_or(&[]));
        (format!("{before}{after}"), before.width())
    }
}

impl Problem {
    /// The same where there is room for one line only.
    pub fn in_one_line(&self) -> String {
        let mut line = harmless(&self.file).into_owned();
        if let Some(place) = &self.place {
            line.push_str(&format!(":{}:{}", place.line, place.column));
        }
        if !self.path.is_empty() {
            line.push_str(&format!(" at {}", brief(&self.path)));
        }
        line.push_str(&format!(": {}", brief(&self.say)));
        match &self.hint {
            Some(hint) => format!("{line} ({})", brief(hint)),
            None => line,
        }
    }
}

impl std::error::Error for Problem {}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "--> {}", harmless(&self.file))?;
        if let Some(place) = &self.place {
            write!(f, ":{}:{}", place.line, place.column)?;
        }
        if !self.path.is_empty() {
            write!(f, " at {}", brief(&self.path))?;
        }
        if let Some(place) = &self.place {
            let (line, indent) = place.shown();
            let number = place.line.to_string();
            write!(f, "\n  {number} | {line}")?;
            write!(f, "\n  {:width$} | {:indent$}^", "", "", width = number.len())?;
        }
        write!(f, "\n  {}", brief(&self.say))?;
        match &self.hint {
            Some(hint) => write!(f, "\n  ({})", brief(hint)),
            None => Ok(()),
        }
    }
}
