//! Small things every page writes with: lines that clip, text made harmless, plain ASCII.

use std::borrow::Cow;

use ratatui::{
    buffer::Buffer,
    layout::Rect,
    style::Style,
    text::{Line, Span},
    widgets::Widget,
};
use unicode_width::UnicodeWidthStr;

use crate::{
    picture::{Cell, Picture},
    quantity::harmless,
    screen::theme::Theme,
};

pub use crate::quantity::wrap;

/// Writes one line at a row of an area; what does not fit is cut off.
pub fn put(buf: &mut Buffer, area: Rect, row: u16, line: &Line<'_>) {
    if row < area.height {
        let at = Rect { y: area.y + row, height: 1, ..area };
        Widget::render(line, at, buf);
    }
}

/// Text from a file or a person: harmless, and in ASCII where that is asked.
pub fn clean(text: &str, theme: Theme) -> Cow<'_, str> {
    let text = harmless(text);
    if theme.ascii && !text.is_ascii() { Cow::Owned(to_ascii(&text)) } else { text }
}

/// The nearest plain spelling of what the program itself writes; `?` for anything else.
pub fn to_ascii(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '×' => out.push('x'),
            '²' => out.push('2'),
            '±' => out.push_str("+/-"),
            '·' | '–' | '—' | '−' | '─' => out.push('-'),
            '≈' => out.push('~'),
            '°' => out.push_str("deg"),
            'Ω' => out.push_str("ohm"),
            '…' => out.push_str("..."),
            '→' | '▶' => out.push('>'),
            '█' | '▌' | '▐' => out.push('#'),
            c if c.is_ascii() => out.push(c),
            _ => out.push('?'),
        }
    }
    out
}

/// A line with something at both ends, filled in between.
pub fn two_ends(buf: &mut Buffer, area: Rect, row: u16, left: &str, right: &str, style: Style) {
    let width = usize::from(area.width);
    let gap = width.saturating_sub(left.width() + right.width());
    let text = if gap == 0 { left.to_owned() } else { format!("{left}{}{right}", " ".repeat(gap)) };
    put(buf, area, row, &Line::styled(text, style));
}

/// The end of a text that is typed, where the cursor is; what does not fit is left out in front.
pub(super) fn end_of(text: &str, width: usize) -> String {
    if text.width() <= width {
        return text.to_owned();
    }
    let end = as_many(text.chars().rev(), width.saturating_sub(3));
    format!("...{}", end.chars().rev().collect::<String>())
}

/// The start of a text; what does not fit is left out behind.
pub(super) fn start_of(text: &str, width: usize) -> String {
    match text.width() <= width {
        true => text.to_owned(),
        false => format!("{}...", as_many(text.chars(), width.saturating_sub(3)).trim_end()),
    }
}

/// As many characters as fit into so many columns.
fn as_many(chars: impl Iterator<Item = char>, mut left: usize) -> String {
    let fits = |c: &char| {
        let own = c.to_string().width();
        let does = own <= left;
        left = left.saturating_sub(own);
        does
    };
    chars.take_while(fits).collect()
}

/// Paints a picture with its upper left corner at the area's.
pub fn paint(buf: &mut Buffer, area: Rect, picture: &Picture, theme: Theme) {
    for (y, row) in (0_u16..).zip(picture.rows()) {
        put(buf, area, y, &painted(row, theme));
    }
}

/// A row of a picture with its look.
pub(super) fn painted(row: &[Cell], theme: Theme) -> Line<'static> {
    let shown = |c: char| match theme.ascii && !c.is_ascii() {
        true => to_ascii(c.encode_utf8(&mut [0; 4])).chars().next().unwrap_or('?'),
        false => c,
    };
    let spans = row
        .iter()
        .filter_map(|cell| cell.text.map(|c| Span::styled(shown(c).to_string(), theme.mark(&cell.mark))));
    spans.collect()
}
