//! Printing: JSON documents, text that may have to be ASCII, and jobs opened to be looked at.

use std::{
    io::{IsTerminal, Write},
    time::{Duration, Instant},
};

use anyhow::{Context, Result, bail};

use super::common::Common;
use crate::{
    quantity::{brief, harmless, is_harmful},
    service::OpenJob,
};

/// Prints one JSON document. Characters that act on a terminal are written as their codes, which is the
/// same document.
pub(super) fn json(common: &Common, value: &impl serde::Serialize) -> Result<()> {
    let text = serde_json::to_string_pretty(value).context("the JSON could not be made")?;
    out(&format!("{}\n", json_escaped(&text, common.ascii)))
}

fn json_escaped(text: &str, ascii: bool) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        // A line end stands between values only: inside of them it is escaped already.
        if (is_harmful(c) && c != '\n') || (ascii && !c.is_ascii()) {
            let mut units = [0; 2];
            for unit in c.encode_utf16(&mut units) {
                out.push_str(&format!("\\u{unit:04x}"));
            }
        } else {
            out.push(c);
        }
    }
    out
}

/// Prints RON, with the same characters as their codes.
pub(super) fn ron(common: &Common, text: &str) -> Result<()> {
    let escaped = |c: char| (is_harmful(c) && c != '\n') || (common.ascii && !c.is_ascii());
    let text = text.chars().map(|c| match escaped(c) {
        true => c.escape_unicode().to_string(),
        false => c.to_string(),
    });
    out(&format!("{}\n", text.collect::<String>()))
}

/// Prints text as it is.
pub(super) fn out(text: &str) -> Result<()> {
    let mut to = std::io::stdout().lock();
    to.write_all(text.as_bytes())?;
    to.flush()?;
    Ok(())
}

/// Prints text: harmless whatever it says, and in ASCII where that was asked.
pub(super) fn text(common: &Common, text: &str) -> Result<()> {
    out(&shown(text, common.ascii))
}

/// Says something beside the result.
pub(super) fn aside(common: &Common, say: &str) {
    to_stderr(say, common.ascii);
}

/// The most lines of an error that are shown.
const LINES_MOST: usize = 400;

/// Says what went wrong, or what is to be said beside a result.
pub(super) fn to_stderr(say: &str, ascii: bool) {
    let mut lines: Vec<String> = say.lines().take(LINES_MOST).map(|line| brief(line).into_owned()).collect();
    if let Some(more @ 1..) = say.lines().count().checked_sub(LINES_MOST) {
        lines.push(format!("and {more} lines more"));
    }
    // A closed stderr is nobody's problem.
    let _ = writeln!(std::io::stderr(), "repin: {}", shown(&lines.join("\n"), ascii));
}

/// Text with its line ends, harmless, and in ASCII where that was asked.
fn shown(text: &str, ascii: bool) -> String {
    let lines: Vec<_> = text.split('\n').map(harmless).collect();
    let text = lines.join("\n");
    if ascii { crate::screen::to_ascii(&text) } else { text }
}

/// Opens a job to be looked at; damage inside it is an error that names the line.
pub(super) fn look(common: &Common, job: &str) -> Result<OpenJob> {
    let open = OpenJob::look(&common.shop()?.job(job)?)?;
    if open.is_cut_short() {
        bail!("{}", open.trouble().unwrap_or("the journal is damaged"));
    }
    Ok(open)
}

/// How far a long reading is, on a terminal, once it has taken a second.
pub(super) struct Bar {
    started: Instant,
    shown: Option<usize>,
}

impl Bar {
    /// Cells of the bar.
    const WIDTH: usize = 40;

    /// A bar that shows nothing yet.
    pub fn new() -> Self {
        Self { started: Instant::now(), shown: None }
    }

    /// Draws it anew where it has grown.
    pub fn show(&mut self, done: usize, all: usize) {
        let cells = done * Self::WIDTH / all.max(1);
        let late = self.started.elapsed() > Duration::from_secs(1);
        if late && self.shown != Some(cells) && std::io::stderr().is_terminal() {
            self.shown = Some(cells);
            let bar = "#".repeat(cells);
            let _ =
                write!(std::io::stderr(), "\rreading {bar:.<width$} {done} of {all}", width = Self::WIDTH);
        }
    }

    /// Takes it off the line again.
    pub fn clear(&mut self) {
        if self.shown.take().is_some() {
            let _ = write!(std::io::stderr(), "\r{:80}\r", "");
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_acts_on_a_terminal_is_a_code_in_json_and_the_document_stays_the_same() {
        let value = serde_json::json!({ "a": "x\u{202e}y\u{9b}\n²\u{e0041}" });
        let text = serde_json::to_string_pretty(&value).unwrap();
        let shown = json_escaped(&text, false);
        assert!(shown.contains("x\\u202ey\\u009b\\n²\\udb40\\udc41"), "{shown}");
        assert!(json_escaped(&text, true).is_ascii());
        for ascii in [false, true] {
            let back: serde_json::Value = serde_json::from_str(&json_escaped(&text, ascii)).unwrap();
            assert_eq!(back, value);
        }
    }
}
