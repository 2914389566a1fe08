//! Drawing: from what is looked at and what is remembered to cells. Pure, and never more than is
//! in view.

mod ahead;
mod bench;
mod faces;
mod footer;
mod lists;
mod overlay;
mod page;
mod repairs;
mod spoken;
mod text;

use ratatui::{buffer::Buffer, layout::Rect, text::Line};

use crate::{
    job::{Occasion, caution},
    procedure::JobView,
};

use super::{
    state::{Overlay, PAGES, Page, Ui},
    theme::Theme,
};

pub use text::{clean, paint, put, to_ascii, two_ends, wrap};

/// The smallest terminal a job is shown on.
pub const SMALLEST: (u16, u16) = (80, 24);

/// Draws a job.
pub fn view(view: &JobView<'_>, ui: &Ui, theme: Theme, area: Rect, buf: &mut Buffer) {
    if area.width < SMALLEST.0 || area.height < SMALLEST.1 {
        let say = format!("Make the window at least {} x {}.", SMALLEST.0, SMALLEST.1);
        for (row, line) in (0_u16..).zip(wrap(&say, usize::from(area.width))) {
            put(buf, area, row, &Line::from(line));
        }
        return;
    }
    let head = title(view, ui, theme, area, buf);
    let body = Rect { y: area.y + head, height: area.height - head - 1, ..area };
    let asking = ui.asking(view);
    match ui.page {
        Page::Bench => bench::draw(view, ui, &asking, theme, body, buf),
        _ if !asking.covered.is_nothing() => lists::covered(ui, theme, body, buf),
        Page::Account => lists::account(view, ui, theme, body, buf),
        Page::Differences => lists::differences(view, ui, theme, body, buf),
        Page::Map => lists::map(view, ui, theme, body, buf),
        Page::Repairs => repairs::repairs(view, ui, theme, body, buf),
        Page::LayOut => repairs::lay_out_page(view, ui, theme, body, buf),
        Page::Request => lists::request(view, ui, theme, body, buf),
        Page::Notes => lists::notes(view, ui, theme, body, buf),
    }
    footer::draw(view, ui, asking.is_typing, theme, Rect { y: area.bottom() - 1, height: 1, ..area }, buf);
    match ui.overlay {
        Overlay::None => {}
        Overlay::Help => overlay::help(ui, theme, area, buf),
        Overlay::Menu(marked) => overlay::menu(view, ui, marked, theme, area, buf),
    }
}

/// Machine, connector and page, then the loud lines; gives the rows used.
fn title(view: &JobView<'_>, ui: &Ui, theme: Theme, area: Rect, buf: &mut Buffer) -> u16 {
    let ticket = &view.state().world.ticket;
    let page = PAGES.iter().find(|(page, _)| *page == ui.page).map_or("", |(_, title)| title);
    let about = [&ticket.asset, &ticket.connector].map(|said| text::clean(said, theme));
    let about: Vec<&str> = about.iter().map(AsRef::as_ref).filter(|said| !said.is_empty()).collect();
    let left = format!(
        " {}  {} {}",
        text::clean(view.id, theme),
        about.join(if theme.ascii { " - " } else { " · " }),
        if page == "bench" { String::new() } else { format!("[{page}]") },
    );
    let right = format!("{} ", view.assessment.account.state.as_str());
    text::two_ends(buf, area, 0, &left, &right, theme.title());
    let mut used = 1;
    let out = view.assessment.account.not_in_a_housing();
    let interrupted = view.state().course.resume.is_some();
    let mut loud = Vec::new();
    if let Some(why) = view.read_only {
        loud.push(format!("READ ONLY: {why}"));
    }
    if interrupted {
        loud.push(match out {
            0 => "DO NOT POWER: the work was interrupted.".to_owned(),
            out => caution(Occasion::Interrupted)
                .replace("wires are", &format!("{} is", crate::quantity::count_of(out, "thing"))),
        });
    }
    let width = usize::from(area.width).saturating_sub(2);
    let lines = loud.iter().flat_map(|text| wrap(&text::clean(text, theme), width));
    for line in lines {
        put(buf, area, used, &Line::styled(format!(" {line}"), theme.alarm()));
        used += 1;
    }
    used
}
