//! A grid of marked text cells to draw on. Drawing outside it is cut off.

use unicode_width::UnicodeWidthStr;

use crate::{colour::Code, quantity::harmless};

/// What a cell shows; whoever paints it decides how that looks, never by colour alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mark {
    /// Nothing.
    Space,
    /// The outline of a housing.
    Frame,
    /// The name of a side's feature in the outline.
    Feature,
    /// A cavity's label.
    Label,
    /// Plain text.
    Text,
    /// A wire's colour: its base, and its first stripe.
    Wire {
        /// The colour of the insulation.
        base: Code,
        /// The first stripe.
        stripe: Option<Code>,
    },
    /// A plug.
    Plug,
    /// Open: should be filled and is not.
    Open,
    /// Empty by design.
    Empty,
    /// Moulded shut.
    Blocked,
    /// A terminal without a wire.
    Spare,
    /// A bridge or clip.
    Bridge,
    /// A value that is asked and therefore not shown.
    Hidden,
}

/// One character and what it means.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct MarkedCell {
    /// The character; the second cell of a wide character holds a space that is not printed.
    pub character: char,
    /// What it shows.
    pub mark: Mark,
    /// Whether it belongs to the cavity the eye is to go to.
    pub selected: bool,
}

const SPACE: MarkedCell = MarkedCell { character: ' ', mark: Mark::Space, selected: false };

/// Rows of cells, all of one width.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Picture {
    rows: Vec<Vec<MarkedCell>>,
    width: usize,
}

impl Picture {
    /// An empty picture.
    pub fn new(width: usize, height: usize) -> Self {
        Self { rows: vec![vec![SPACE; width]; height], width }
    }

    /// The rows, top to bottom.
    pub fn rows(&self) -> &[Vec<MarkedCell>] {
        &self.rows
    }

    /// Its width in columns.
    pub fn width(&self) -> usize {
        self.width
    }

    /// Its height in rows.
    pub fn height(&self) -> usize {
        self.rows.len()
    }

    /// Puts one character.
    pub fn put(&mut self, x: usize, y: usize, character: char, mark: Mark, selected: bool) {
        if let Some(cell) = self.rows.get_mut(y).and_then(|row| row.get_mut(x)) {
            *cell = MarkedCell { character, mark, selected };
        }
    }

    /// Writes a text, made harmless, one column a character.
    pub fn write(&mut self, x: usize, y: usize, text: &str, mark: Mark, selected: bool) {
        for (n, character) in harmless(text).chars().enumerate() {
            self.put(x + n, y, character, mark, selected);
        }
    }

    /// Puts another picture in, its top left corner at (x, y).
    pub fn paste(&mut self, x: usize, y: usize, other: &Picture) {
        for (dy, row) in other.rows.iter().enumerate() {
            for (dx, cell) in row.iter().enumerate() {
                self.put(x + dx, y + dy, cell.character, cell.mark, cell.selected);
            }
        }
    }

    /// The characters alone, without blanks at the ends of lines.
    pub fn text(&self) -> String {
        let line = |row: &Vec<MarkedCell>| {
            let line: String = row.iter().map(|cell| cell.character).collect();
            line.trim_end().to_owned() + "\n"
        };
        self.rows.iter().map(line).collect()
    }
}

/// Columns a text takes when it is written.
pub(super) fn columns(text: &str) -> usize {
    harmless(text).width()
}
