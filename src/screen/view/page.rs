//! A page of lines and pictures, longer than the screen, shown from where it was scrolled to.

use ratatui::{
    buffer::Buffer,
    layout::Rect,
    style::Style,
    text::{Line, Span},
};

use super::text::{clean, painted, put, wrap};
use crate::{
    picture::Picture,
    screen::{state::Ui, theme::Theme},
};

/// Lines with their look, collected and then shown from the scroll on.
pub(super) struct Lines {
    theme: Theme,
    width: usize,
    lines: Vec<Line<'static>>,
}

impl Lines {
    /// An empty page for this area.
    pub(super) fn new(theme: Theme, area: Rect) -> Self {
        Self { theme, width: usize::from(area.width).saturating_sub(2), lines: Vec::new() }
    }

    /// Columns there are for text.
    pub(super) fn width(&self) -> usize {
        self.width
    }

    /// Adds a text; what is too long goes on in the next line, further in.
    pub(super) fn add(&mut self, text: &str, style: Style) {
        let text = clean(text, self.theme).into_owned();
        if text.chars().count() <= self.width {
            self.push(text, style);
            return;
        }
        let indent = text.len() - text.trim_start().len();
        let pad = " ".repeat(indent);
        let wrapped = wrap(text.trim_start(), self.width.saturating_sub(indent + 2).max(10));
        for (n, line) in wrapped.into_iter().enumerate() {
            let hang = if n == 0 { "" } else { "  " };
            self.push(format!("{pad}{hang}{line}"), style);
        }
    }

    fn push(&mut self, text: String, style: Style) {
        self.lines.push(Line::styled(format!(" {text}"), style));
    }

    /// Adds a picture.
    pub(super) fn picture(&mut self, picture: &Picture) {
        for row in picture.rows() {
            let mut line = painted(row, self.theme);
            line.spans.insert(0, Span::raw(" "));
            self.lines.push(line);
        }
    }

    /// Puts them on the screen; a line at either end says how many are out of sight.
    pub(super) fn show(self, ui: &Ui, area: Rect, buf: &mut Buffer) {
        let height = usize::from(area.height);
        let last = self.lines.len().saturating_sub(height);
        let first = ui.scroll.min(last);
        let below = self.lines.len().saturating_sub(first + height);
        for (row, line) in (0_u16..area.height).zip(self.lines.iter().skip(first)) {
            put(buf, area, row, line);
        }
        let mark =
            |text: String| Line::styled(format!(" {text:<width$}", width = self.width), self.theme.now());
        if first > 0 {
            put(buf, area, 0, &mark(format!("... {} more above (Up)", first + 1)));
        }
        if below > 0 {
            put(
                buf,
                area,
                area.height.saturating_sub(1),
                &mark(format!("... {} more below (Down)", below + 1)),
            );
        }
    }
}
