//! Cells to a terminal, by crossterm's commands.
//!
//! The backend that comes with ratatui builds crossterm with its reader of pastes; that reader waits
//! for the end of a paste for ever, and a start without an end would swallow every key. Built without
//! it a paste is what it is: many keys at once.

use std::io::{self, Write};

use crossterm::{
    QueueableCommand,
    cursor::{Hide, MoveTo, Show},
    style::{Attribute, Color as Ink, ResetColor, SetAttribute, SetBackgroundColor, SetForegroundColor},
    terminal::{Clear, ClearType as Part},
};
use ratatui::{
    backend::{Backend, ClearType, WindowSize},
    buffer::Cell,
    layout::{Position, Size},
    style::{Color, Modifier},
};

/// A terminal to write to.
#[derive(Debug)]
pub struct Output<W: Write> {
    to: W,
    cursor: Position,
}

impl<W: Write> Output<W> {
    /// Cells go here.
    pub fn new(to: W) -> Self {
        Self { to, cursor: Position::ORIGIN }
    }
}

/// What is asked of a cell, and how crossterm calls it.
const ATTRIBUTES: [(Modifier, Attribute); 4] = [
    (Modifier::BOLD, Attribute::Bold),
    (Modifier::DIM, Attribute::Dim),
    (Modifier::UNDERLINED, Attribute::Underlined),
    (Modifier::REVERSED, Attribute::Reverse),
];

impl<W: Write> Backend for Output<W> {
    type Error = io::Error;

    fn draw<'a, I>(&mut self, content: I) -> io::Result<()>
    where
        I: Iterator<Item = (u16, u16, &'a Cell)>,
    {
        let plain = (Color::Reset, Color::Reset, Modifier::empty());
        let mut look = plain;
        let mut next = None;
        for (x, y, cell) in content {
            if next != Some((x, y)) {
                self.to.queue(MoveTo(x, y))?;
            }
            next = x.checked_add(1).map(|x| (x, y));
            let wanted = (cell.fg, cell.bg, cell.modifier);
            if wanted != look {
                self.to.queue(SetAttribute(Attribute::Reset))?;
                let asked = ATTRIBUTES.iter().filter(|(modifier, _)| cell.modifier.contains(*modifier));
                for (_, attribute) in asked {
                    self.to.queue(SetAttribute(*attribute))?;
                }
                if cell.fg != Color::Reset {
                    self.to.queue(SetForegroundColor(ink(cell.fg)))?;
                }
                if cell.bg != Color::Reset {
                    self.to.queue(SetBackgroundColor(ink(cell.bg)))?;
                }
                look = wanted;
            }
            self.to.write_all(cell.symbol().as_bytes())?;
        }
        if look != plain {
            self.to.queue(ResetColor)?.queue(SetAttribute(Attribute::Reset))?;
        }
        Ok(())
    }

    fn hide_cursor(&mut self) -> io::Result<()> {
        self.to.queue(Hide).map(|_| ())
    }

    fn show_cursor(&mut self) -> io::Result<()> {
        self.to.queue(Show).map(|_| ())
    }

    fn get_cursor_position(&mut self) -> io::Result<Position> {
        // Where we put it: a terminal that does not answer is not asked.
        Ok(self.cursor)
    }

    fn set_cursor_position<P: Into<Position>>(&mut self, position: P) -> io::Result<()> {
        self.cursor = position.into();
        self.to.queue(MoveTo(self.cursor.x, self.cursor.y)).map(|_| ())
    }

    fn clear(&mut self) -> io::Result<()> {
        self.clear_region(ClearType::All)
    }

    fn clear_region(&mut self, part: ClearType) -> io::Result<()> {
        let part = match part {
            ClearType::All => Part::All,
            ClearType::AfterCursor => Part::FromCursorDown,
            ClearType::BeforeCursor => Part::FromCursorUp,
            ClearType::CurrentLine => Part::CurrentLine,
            ClearType::UntilNewLine => Part::UntilNewLine,
        };
        self.to.queue(Clear(part))?.flush()
    }

    fn size(&self) -> io::Result<Size> {
        crossterm::terminal::size().map(Size::from)
    }

    fn window_size(&mut self) -> io::Result<WindowSize> {
        // Nothing here is drawn in pixels.
        Ok(WindowSize { columns_rows: self.size()?, pixels: Size::ZERO })
    }

    fn flush(&mut self) -> io::Result<()> {
        self.to.flush()
    }
}

/// The colours a theme uses, in crossterm's names.
fn ink(color: Color) -> Ink {
    match color {
        Color::Rgb(r, g, b) => Ink::Rgb { r, g, b },
        Color::Indexed(n) => Ink::AnsiValue(n),
        Color::Reset => Ink::Reset,
        Color::Black => Ink::Black,
        Color::Red => Ink::DarkRed,
        Color::Green => Ink::DarkGreen,
        Color::Yellow => Ink::DarkYellow,
        Color::Blue => Ink::DarkBlue,
        Color::Magenta => Ink::DarkMagenta,
        Color::Cyan => Ink::DarkCyan,
        Color::Gray => Ink::Grey,
        Color::DarkGray => Ink::DarkGrey,
        Color::LightRed => Ink::Red,
        Color::LightGreen => Ink::Green,
        Color::LightYellow => Ink::Yellow,
        Color::LightBlue => Ink::Blue,
        Color::LightMagenta => Ink::Magenta,
        Color::LightCyan => Ink::Cyan,
        Color::White => Ink::White,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use ratatui::style::Style;

    #[test]
    fn neighbours_go_out_in_one_run_and_the_look_is_put_back() {
        let mut plain = Cell::new("a");
        let mut loud = Cell::new("b");
        loud.set_style(Style::new().bg(Color::Yellow).add_modifier(Modifier::BOLD));
        plain.set_style(Style::new());
        let mut output = Output::new(Vec::new());
        output.draw([(3, 1, &plain), (4, 1, &loud), (9, 1, &plain)].into_iter()).unwrap();
        let sent = String::from_utf8(output.to).unwrap();
        assert_eq!(sent, "\u{1b}[2;4Ha\u{1b}[0m\u{1b}[1m\u{1b}[48;5;3mb\u{1b}[2;10H\u{1b}[0ma");
    }
}
