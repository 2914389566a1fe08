//! Files of acts, one a line: an act, or `(by:"kt", at:"…Z", act:…)`. Number, version, key press and sum of
//! a pasted journal line are ignored; `//` lines and blank lines are skipped. A file is understood
//! whole or not at all.

use jiff::Timestamp;
use serde::Deserialize;

use crate::{
    form::ron_options,
    job::Act,
    quantity::{brief, harmless},
};

/// An act of a file, with what was said about it.
#[derive(Debug, Clone, PartialEq)]
pub struct ActLine {
    /// The line it stands in, from 1.
    pub line: usize,
    /// Who, when the line says.
    pub by: Option<String>,
    /// When, when the line says.
    pub at: Option<Timestamp>,
    /// The act.
    pub act: Act,
}

/// A line that is not understood, shown with the place.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{file}:{line}:{column}{}: {say}\n  {source_line}\n  {}^", at_path(.path), caret_pad(.source_line, *.column))]
pub struct ActProblem {
    file: String,
    line: usize,
    column: usize,
    path: String,
    say: String,
    source_line: String,
}

fn at_path(path: &str) -> String {
    if path.is_empty() || path == "." { String::new() } else { format!(" at {path}") }
}

fn caret_pad(source_line: &str, column: usize) -> String {
    " ".repeat(column.saturating_sub(1).min(source_line.chars().count()))
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct EnvelopeForm {
    #[serde(default, rename = "n")]
    _n: Option<u64>,
    #[serde(default)]
    at: Option<String>,
    #[serde(default)]
    by: Option<String>,
    #[serde(default, rename = "v")]
    _v: Option<u32>,
    #[serde(default, rename = "with")]
    _with: Option<usize>,
    act: Act,
    #[serde(default, rename = "sum")]
    _sum: Option<String>,
}

/// Longest line read: a definition with a thousand cavities is far below.
const LINE_MOST: usize = 1 << 20;
/// Longest source line shown with an error.
const SHOWN_MOST: usize = 160;

/// Every act of a file, or every line that is not understood.
pub fn read_acts(file: &str, text: &str) -> Result<Vec<ActLine>, Vec<ActProblem>> {
    let text = text.trim_start_matches('\u{feff}');
    let mut acts = Vec::new();
    let mut problems = Vec::new();
    for (n, line) in text.lines().enumerate() {
        let bare = line.trim();
        if bare.is_empty() || bare.starts_with("//") {
            continue;
        }
        match read_line(bare) {
            Ok((by, at, act)) => acts.push(ActLine { line: n + 1, by, at, act }),
            Err((column, path, say)) => problems.push(ActProblem {
                file: harmless(file).into_owned(),
                line: n + 1,
                column,
                path: brief(&path).into_owned(),
                say: brief(&say).into_owned(),
                source_line: harmless(&bare.chars().take(SHOWN_MOST).collect::<String>()).into_owned(),
            }),
        }
    }
    if problems.is_empty() { Ok(acts) } else { Err(problems) }
}

type Parsed = (Option<String>, Option<Timestamp>, Act);

fn read_line(line: &str) -> Result<Parsed, (usize, String, String)> {
    if line.len() > LINE_MOST {
        return Err((1, String::new(), "this line is longer than any act".to_owned()));
    }
    if !line.starts_with('(') {
        return parse::<Act>(line).map(|act| (None, None, act));
    }
    let form: EnvelopeForm = parse(line)?;
    let at = match form.at.as_deref().map(str::parse::<Timestamp>) {
        Some(Err(_)) => {
            let say = "the time is not one like 2026-11-25T07:12:00Z".to_owned();
            return Err((1, "at".to_owned(), say));
        }
        Some(Ok(at)) => Some(at),
        None => None,
    };
    Ok((form.by, at, form.act))
}

fn parse<'de, T: Deserialize<'de>>(line: &'de str) -> Result<T, (usize, String, String)> {
    let mut reader = ron::Deserializer::from_str_with_options(line, &ron_options())
        .map_err(|e| (e.span.start.col, String::new(), e.code.to_string()))?;
    let value: Result<T, _> = serde_path_to_error::deserialize(&mut reader);
    let value = value.map_err(|error| {
        let path = error.path().to_string();
        let error = reader.span_error(error.into_inner());
        (error.span.start.col, path, error.code.to_string())
    })?;
    reader.end().map_err(|e| {
        let error = reader.span_error(e);
        (error.span.start.col, String::new(), error.code.to_string())
    })?;
    Ok(value)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn acts_and_envelopes_are_read_and_comments_skipped() {
        let text = "\u{feff}// a comment\r\n\r\nPutBack\r\n(n:4,at:\"2026-11-25T07:12:00Z\",by:\"kt\",v:1,act:Tug(at:\"new:3\",held:true),sum:\"0\")\r\n";
        let acts = read_acts("x.acts", text).unwrap();
        assert_eq!(acts.len(), 2);
        assert_eq!(acts.first().unwrap().act, Act::PutBack);
        assert_eq!(acts.last().unwrap().by.as_deref(), Some("kt"));
    }

    #[test]
    fn every_line_that_is_not_understood_is_named_with_its_place() {
        let problems =
            read_acts("x.acts", "PutBack\nTug(at:\"new3\",held:true)\nFly\nTug(at:\"new:3\",hold:true)")
                .unwrap_err();
        let lines: Vec<usize> = problems.iter().map(|p| p.line).collect();
        assert_eq!(lines, [2, 3, 4]);
        let shown = problems.first().unwrap().to_string();
        assert!(shown.starts_with("x.acts:2:"), "{shown}");
        assert!(shown.contains("Tug(at:\"new3\""), "{shown}");
    }
}
