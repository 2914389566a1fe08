//! Pictures as grids of marked text cells: no terminal, no I/O. Command line, printed sheet and
//! screen paint the same picture, each in its own way.

mod around;
mod big;
mod covering;
mod face;
mod harness;
mod heights;
mod placing;
mod slot;
mod strip;

pub use big::big_text;
pub use covering::Covering;
pub use face::{DrawnFace, FaceOptions, draw_face};
pub use harness::{Harness, Ruler, Splicing, draw_outline, draw_splices};
pub use heights::draw_heights;
pub use slot::{Piece, Slot};
pub use strip::draw_strip;

use unicode_width::{UnicodeWidthChar, UnicodeWidthStr};

use crate::{colour::ColourCode, quantity::wrap};

/// What a cell stands for. Meaning is never in colour alone: the text carries it, the mark helps.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Mark {
    /// Nothing special.
    Plain,
    /// The outline of a housing.
    Frame,
    /// Less important.
    Faint,
    /// A cavity's label.
    Label,
    /// One code of a wire's colour.
    Ground(ColourCode),
    /// A plug.
    Plug,
    /// Something is missing or wrong here.
    Alarm,
    /// The cavity spoken of now: where something is taken from.
    From,
    /// The cavity spoken of now: where something is to go.
    To,
}

/// One column with its mark.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cell {
    /// The character; none where the one before it takes two columns.
    pub text: Option<char>,
    /// What it stands for.
    pub mark: Mark,
}

/// A grid of marked cells; every row has the same width.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Picture {
    width: usize,
    rows: Vec<Vec<Cell>>,
}

impl Picture {
    /// An empty picture.
    pub fn blank(width: usize, height: usize) -> Self {
        let cell = Cell { text: Some(' '), mark: Mark::Plain };
        Self { width, rows: vec![vec![cell; width]; height] }
    }

    /// Columns.
    pub fn width(&self) -> usize {
        self.width
    }

    /// Rows.
    pub fn height(&self) -> usize {
        self.rows.len()
    }

    /// The rows.
    pub fn rows(&self) -> &[Vec<Cell>] {
        &self.rows
    }

    /// Writes text from a place on; what falls outside is dropped.
    pub fn write(&mut self, x: usize, y: usize, text: &str, mark: &Mark) {
        let Some(row) = self.rows.get_mut(y) else { return };
        let mut columns = row.iter_mut().skip(x);
        for c in text.chars() {
            let wide = c.width().unwrap_or(0);
            for (n, cell) in columns.by_ref().take(wide).enumerate() {
                *cell = Cell { text: (n == 0).then_some(c), mark: mark.clone() };
            }
        }
    }

    /// Puts text under the picture, broken to this width; the picture gets as wide as its lines.
    pub fn add_text(&mut self, text: &str, width: usize, mark: &Mark) {
        let blank = Cell { text: Some(' '), mark: Mark::Plain };
        for line in wrap(text, width) {
            self.width = self.width.max(line.width());
            self.rows.push(Vec::new());
            self.rows.iter_mut().for_each(|row| row.resize(self.width, blank.clone()));
            self.write(0, self.rows.len() - 1, &line, mark);
        }
    }

    /// The text alone, lines trimmed at the right.
    pub fn lines(&self) -> Vec<String> {
        let text = |row: &Vec<Cell>| row.iter().filter_map(|cell| cell.text).collect::<String>();
        self.rows.iter().map(|row| text(row).trim_end().to_owned()).collect()
    }
}
