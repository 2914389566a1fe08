//! Files of acts, one a line: an act, or `(by:"kt", at:"…Z", act:…)`. Number, version, key press and sum of
//! a pasted journal line are ignored; `//` lines and blank lines are skipped. A file is understood
//! whole or not at all.

use jiff::Timestamp;
use serde::Deserialize;

use super::{
    acts::ActForm,
    family::found_in,
    mirror::{FormOf, read_field},
    problem::Problem,
    reader::Source,
};
use crate::{
    catalogue::{FieldFinding, PathStep},
    job::Act,
    quantity::quoted,
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

#[derive(Deserialize)]
#[serde(rename = "line", deny_unknown_fields)]
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
    act: ActForm,
    #[serde(default, rename = "sum")]
    _sum: Option<String>,
}

/// Longest line read: a definition with a thousand cavities is far below.
const LINE_MOST: usize = 1 << 20;
/// Every act of a file, or every line that is not understood.
pub fn read_acts(file: &str, text: &str) -> Result<Vec<ActLine>, Vec<Problem>> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut acts = Vec::new();
    let mut problems = Vec::new();
    for (line, text) in (1..).zip(text.lines()) {
        let bare = text.trim();
        if bare.is_empty() || bare.starts_with("//") {
            continue;
        }
        match read_line(Source::line(file, line, text), bare) {
            Ok((by, at, act)) => acts.push(ActLine { line, by, at, act }),
            Err(problem) => problems.push(*problem),
        }
    }
    if problems.is_empty() { Ok(acts) } else { Err(problems) }
}

type Said = (Option<String>, Option<Timestamp>, Act);

fn read_line(source: Source<'_>, bare: &str) -> Result<Said, Box<Problem>> {
    if bare.len() > LINE_MOST {
        return Err(Box::new(source.whole("this line is longer than any act", "one act a line")));
    }
    if !bare.starts_with('(') {
        return source.read_with(|form: ActForm| Ok((None, None, checked(form.read()?)?)));
    }
    source.read_with(|form: EnvelopeForm| {
        let at = form.at.as_deref().map(read_time).transpose()?;
        let act = read_field("act", form.act)?;
        Ok((form.by, at, checked(act).map_err(|found| found.under(PathStep::Field("act")))?))
    })
}

/// A definition from a file of acts is held against every rule, as one from a library is.
fn checked(act: Act) -> Result<Act, FieldFinding> {
    if let Act::Housed { definition, .. } = &act {
        let wrong = |why| found_in(why).under(PathStep::Field("definition"));
        definition.check().map_err(wrong)?;
    }
    Ok(act)
}

/// A moment as people write it.
pub(super) fn read_time(text: &str) -> Result<Timestamp, FieldFinding> {
    text.parse().map_err(|_| {
        let found = FieldFinding::of(format!("\"{}\" is no moment", quoted(text)));
        let hint = Some("such as 2026-11-25T07:12:00Z".to_owned());
        FieldFinding { hint, ..found }.under(PathStep::Field("at"))
    })
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
        let lines: Vec<usize> = problems.iter().map(|p| p.place.as_ref().unwrap().line).collect();
        assert_eq!(lines, [2, 3, 4]);
        let shown = problems.first().unwrap().to_string();
        assert!(shown.starts_with("--> x.acts:2:8 at at\n"), "{shown}");
        assert!(shown.contains("Tug(at:\"new3\""), "{shown}");
    }
}
