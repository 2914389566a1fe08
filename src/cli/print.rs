//! Printing: JSON documents, text that may have to be ASCII, and jobs opened to be looked at.

use std::{
    io::{IsTerminal, Write},
    time::{Duration, Instant},
};

use anyhow::{Context, Result, bail};

use super::Common;
use crate::store::OpenJob;

/// Prints one JSON document.
pub(super) fn json(value: &impl serde::Serialize) -> Result<()> {
    let text = serde_json::to_string_pretty(value).context("the JSON could not be made")?;
    out(&format!("{text}\n"))
}

/// Prints text.
pub(super) fn out(text: &str) -> Result<()> {
    let mut to = std::io::stdout().lock();
    to.write_all(text.as_bytes())?;
    to.flush()?;
    Ok(())
}

/// Prints text, in ASCII where that was asked.
pub(super) fn text(common: &Common, text: &str) -> Result<()> {
    match common.ascii {
        true => out(&crate::screen::to_ascii(text)),
        false => out(text),
    }
}

/// Says something beside the result.
pub(super) fn aside(say: &str) {
    // A closed stderr is nobody's problem.
    let _ = writeln!(std::io::stderr(), "repin: {}", crate::quantity::harmless(say));
}

/// Opens a job to be looked at; damage inside it is an error that names the line.
pub(super) fn look(common: &Common, job: &str) -> Result<OpenJob> {
    let path = common.store()?.path_of(job)?;
    let open = OpenJob::look(&path)?;
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
