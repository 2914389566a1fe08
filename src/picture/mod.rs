//! Pictures as grids of marked text cells: no terminal, no I/O. Command line, printed sheet and
//! screen paint the same picture, each in its own way.

mod big;
mod face;
mod harness;
mod heights;

pub use big::big_text;
pub use face::{FaceOptions, Slot, draw_face};
pub use harness::{Harness, Ruler, Splicing, draw_outline, draw_splices};
pub use heights::draw_heights;

use crate::colour::{Code, Colour};

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
    /// A wire of this colour.
    Wire(Colour),
    /// One code of a wire's colour.
    Ground(Code),
    /// A plug.
    Plug,
    /// Something is missing or wrong here.
    Alarm,
    /// The cavity spoken of now: where something is taken from.
    From,
    /// The cavity spoken of now: where something is to go.
    To,
}

/// One character with its mark.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cell {
    /// The character.
    pub text: char,
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
        let cell = Cell { text: ' ', mark: Mark::Plain };
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
        for (cell, c) in row.iter_mut().skip(x).zip(text.chars()) {
            *cell = Cell { text: c, mark: mark.clone() };
        }
    }

    /// The part of the picture that shows `focus`, at most this large. Where it goes on, the edge
    /// says so.
    pub fn window(&self, focus: (usize, usize), width: usize, height: usize) -> Self {
        let start =
            |at: usize, all: usize, most: usize| at.saturating_sub(most / 2).min(all.saturating_sub(most));
        let (x, y) = (start(focus.0, self.width, width), start(focus.1, self.height(), height));
        let rows: Vec<Vec<Cell>> = self
            .rows
            .iter()
            .skip(y)
            .take(height)
            .map(|row| row.iter().skip(x).take(width).cloned().collect())
            .collect();
        let mut part = Self { width: self.width.min(width), rows };
        let (right, bottom) = (part.width.saturating_sub(1), part.height().saturating_sub(1));
        for row in 0..part.height() {
            if x > 0 {
                part.write(0, row, "<", &Mark::Faint);
            }
            if x + width < self.width {
                part.write(right, row, ">", &Mark::Faint);
            }
        }
        if y > 0 {
            part.write(0, 0, "^", &Mark::Label);
        }
        if y + height < self.height() {
            part.write(0, bottom, "v", &Mark::Label);
        }
        part
    }

    /// The text alone, lines trimmed at the right.
    pub fn lines(&self) -> Vec<String> {
        let text = |row: &Vec<Cell>| row.iter().map(|cell| cell.text).collect::<String>();
        self.rows.iter().map(|row| text(row).trim_end().to_owned()).collect()
    }
}
