//! What stands over a page: help, and the menu of other things.

use ratatui::{
    buffer::Buffer,
    layout::Rect,
    style::Style,
    text::{Line, Span},
    widgets::{Clear, Widget},
};

use crate::{
    job::CAUTIONS,
    procedure::{EXTRAS, JobView},
    screen::{
        keys::{CHOICES, COMMON},
        state::Ui,
        theme::Theme,
    },
};

use crate::screen::menu::{OTHERS, group_of};

use super::text::{clean, put, wrap};

/// A box in the middle with a border of blanks; gives its inside.
fn panel(area: Rect, width: u16, height: u16, theme: Theme, title: &str, buf: &mut Buffer) -> Rect {
    let (width, height) = (width.min(area.width), height.min(area.height));
    let outer =
        Rect { x: area.x + (area.width - width) / 2, y: area.y + (area.height - height) / 2, width, height };
    Widget::render(Clear, outer, buf);
    let bar = if theme.ascii { "=" } else { "═" };
    let line = bar.repeat(usize::from(width));
    put(buf, outer, 0, &Line::styled(line.clone(), theme.faint()));
    put(buf, outer, 0, &Line::styled(format!("{bar}{bar} {title} "), theme.now()));
    put(buf, outer, height.saturating_sub(1), &Line::styled(line, theme.faint()));
    Rect { x: outer.x + 1, y: outer.y + 1, width: width.saturating_sub(2), height: height.saturating_sub(2) }
}

/// Columns of the menu.
const MENU: u16 = 80;

/// One line of the menu: a heading, or an entry with its place among them.
enum HelpLine {
    Heading(&'static str),
    Thing(usize, char, &'static str),
}

/// The other things that make sense now: two columns under headings, and at the end what must never be
/// out of sight.
pub(super) fn menu(view: &JobView<'_>, ui: &Ui, marked: usize, theme: Theme, area: Rect, buf: &mut Buffer) {
    let things = ui.things(view);
    let (mut entries, mut always) = (Vec::new(), Vec::new());
    let mut group = None;
    for (n, (thing, key, text)) in OTHERS.iter().filter(|(thing, ..)| things.contains(thing)).enumerate() {
        match group_of(*thing) {
            None => always.push(HelpLine::Thing(n, *key, text)),
            Some(heading) => {
                if group.replace(heading) != Some(heading) {
                    entries.push(HelpLine::Heading(heading));
                }
                entries.push(HelpLine::Thing(n, *key, text));
            }
        }
    }
    let is_heading = |entry: &HelpLine| matches!(entry, HelpLine::Heading(_));
    // The second column starts with a heading.
    let half = entries.len().div_ceil(2);
    let turn = (half..entries.len()).find(|n| entries.get(*n).is_some_and(is_heading)).unwrap_or(half);
    let right = entries.split_off(turn.min(entries.len()));
    let rows = entries.len().max(right.len());
    let height = u16::try_from(rows + 4).unwrap_or(area.height);
    let inside = panel(area, MENU, height, theme, "other actions (Esc closes)", buf);
    let wide = inside.width / 2;
    let last = inside.height.saturating_sub(1);
    let columns = [(0, 0, &entries), (wide, 0, &right)];
    for (x, y, entries) in columns {
        let column = Rect { x: inside.x + x, width: wide, height: last, ..inside };
        for (row, entry) in (y..).zip(entries) {
            put(buf, column, row, &entry.line(marked, theme));
        }
    }
    for (entry, x) in always.iter().zip([0, wide]) {
        let column = Rect { x: inside.x + x, width: wide, ..inside };
        put(buf, column, last, &entry.line(marked, theme));
    }
}

impl HelpLine {
    fn line(&self, marked: usize, theme: Theme) -> Line<'static> {
        match self {
            Self::Heading(text) => Line::styled(*text, theme.faint()),
            Self::Thing(n, key, text) => {
                let style = if *n == marked { theme.title() } else { Style::new() };
                let key = Span::styled(format!("[{key}]"), theme.key());
                Line::from(vec![key, Span::raw(format!(" {text}"))]).style(style)
            }
        }
    }
}

/// Every key, what may be typed, and the cautions.
pub(super) fn help(ui: &Ui, theme: Theme, area: Rect, buf: &mut Buffer) {
    let inside = panel(area, area.width, area.height, theme, "help (Esc closes, arrows scroll)", buf);
    let width = usize::from(inside.width);
    let mut lines: Vec<(String, Style)> = vec![("KEYS".to_owned(), theme.now())];
    for key in &COMMON {
        let where_ = if key.in_field { "" } else { " (not while you type)" };
        lines.push((format!("{:<10} {}{where_}", key.name, key.text), Style::new()));
    }
    lines.push((String::new(), Style::new()));
    lines.push(("A WIRE ON ONE LINE".to_owned(), theme.now()));
    lines.push((
        "YE/BU 0.75 W104 saw valve B   (colour gauge number circuit; + adds a wire)".to_owned(),
        Style::new(),
    ));
    lines.extend(wrap(&format!("also {EXTRAS}"), width).into_iter().map(|l| (l, Style::new())));
    lines.push((String::new(), Style::new()));
    lines.push(("WHAT A FACE SAYS".to_owned(), theme.now()));
    let legend = [
        "[3] where from, >3< where to, ?? asked before it comes out, ... not recorded yet",
        "OPEN: something is missing; empty: nothing belongs there; shut: no hole; - : taken out, or to come",
    ];
    lines.extend(legend.iter().flat_map(|text| wrap(text, width)).map(|line| (line, Style::new())));
    lines.push((String::new(), Style::new()));
    lines.push(("CAUTIONS".to_owned(), theme.now()));
    for (_, caution) in &CAUTIONS {
        lines.extend(wrap(caution, width).into_iter().map(|l| (l, Style::new())));
    }
    lines.push((String::new(), Style::new()));
    lines.push(("ONE-KEY ANSWERS (only those asked for work)".to_owned(), theme.now()));
    for (_, key, text) in CHOICES.iter().filter(|(_, _, text)| !text.is_empty()) {
        lines.push((format!("{key}  {text}"), Style::new()));
    }
    let last = lines.len().saturating_sub(usize::from(inside.height));
    for (row, (line, style)) in (0_u16..).zip(lines.into_iter().skip(ui.scroll.min(last))) {
        put(buf, inside, row, &Line::styled(clean(&line, theme).into_owned(), style));
    }
}
