//! What stands over a page: help, and the menu of other things.

use ratatui::{
    buffer::Buffer,
    layout::Rect,
    style::Style,
    text::{Line, Span},
    widgets::{Clear, Widget},
};

use crate::{
    screen::{
        ask::{EXTRAS, OTHERS},
        keys::{COMMON, PICKS},
        sight::Sight,
        state::Ui,
        theme::Theme,
    },
    swap::CAUTIONS,
};

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

/// The other things that make sense now.
pub(super) fn menu(sight: &Sight<'_>, ui: &Ui, marked: usize, theme: Theme, area: Rect, buf: &mut Buffer) {
    let things = ui.things(sight);
    let height = u16::try_from(things.len() + 2).unwrap_or(area.height);
    let inside = panel(area, 66, height, theme, "other things one can do here", buf);
    let listed = OTHERS.iter().filter(|(thing, ..)| things.contains(thing)).enumerate();
    // A menu taller than the window keeps the marked entry in view.
    let first = (marked + 1).saturating_sub(usize::from(inside.height));
    for (row, (n, (_, key, text))) in (0_u16..inside.height).zip(listed.skip(first)) {
        let style = if n == marked { theme.title() } else { Style::new() };
        let line =
            Line::from(vec![Span::styled(format!("[{key}]"), theme.key()), Span::raw(format!(" {text}"))]);
        put(buf, inside, row, &line.style(style));
    }
}

/// Every key, what may be typed, and the cautions.
pub(super) fn help(ui: &Ui, theme: Theme, area: Rect, buf: &mut Buffer) {
    let inside = panel(area, area.width, area.height, theme, "help (any key closes, arrows scroll)", buf);
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
    lines.push(("A FACE DRAWN SMALL".to_owned(), theme.now()));
    lines.push((
        "9* a wire, 9p a plug, 9! open, 9s moulded shut, 9e empty, 9- nothing yet".to_owned(),
        Style::new(),
    ));
    lines.push((String::new(), Style::new()));
    lines.push(("CAUTIONS".to_owned(), theme.now()));
    for (_, caution) in &CAUTIONS {
        lines.extend(wrap(caution, width).into_iter().map(|l| (l, Style::new())));
    }
    lines.push((String::new(), Style::new()));
    lines.push(("ONE-KEY ANSWERS (only those asked for work)".to_owned(), theme.now()));
    for (_, key, text) in PICKS.iter().filter(|(_, _, text)| !text.is_empty()) {
        lines.push((format!("{key}  {text}"), Style::new()));
    }
    let last = lines.len().saturating_sub(usize::from(inside.height));
    for (row, (line, style)) in (0_u16..).zip(lines.into_iter().skip(ui.scroll.min(last))) {
        put(buf, inside, row, &Line::styled(clean(&line, theme).into_owned(), style));
    }
}
