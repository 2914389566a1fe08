//! The moves ahead, where a tall terminal leaves room for them.

use ratatui::{buffer::Buffer, layout::Rect, text::Line};

use crate::{
    job::{ItemId, Status, Step, Task},
    procedure::JobView,
    record::Address,
    screen::theme::Theme,
};

use super::text::{clean, put};

/// A heading and two moves: less is not worth the look.
const LEAST_ROWS: u16 = 3;

/// Lists the moves that are left after the one under way, as many as there is room for.
pub(super) fn draw(view: &JobView<'_>, now: Option<&Address>, theme: Theme, area: Rect, buf: &mut Buffer) {
    if area.height < LEAST_ROWS {
        return;
    }
    let is_ahead = |step: &&Step| {
        matches!(step.status, Status::Left | Status::Waiting) && (now.is_none() || step.what.ends().0 != now)
    };
    let moves = || view.assessment.steps.iter().filter(is_ahead).filter(|step| step.what.is_move());
    let count = moves().count();
    if count == 0 {
        return;
    }
    let heading = format!("  AHEAD, {} left", crate::quantity::count_of(count, "move"));
    put(buf, area, 0, &Line::styled(heading, theme.faint()));
    // The last line says what does not fit.
    let fits = usize::from(area.height - 1);
    let shown = if count > fits { fits - 1 } else { count };
    if shown < count {
        let more = format!("  ... {} more", count - shown);
        put(buf, area, area.height - 1, &Line::styled(more, theme.faint()));
    }
    for (row, step) in (1..area.height).zip(moves().take(shown)) {
        let waits = if step.status == Status::Waiting { "  waits for a part" } else { "" };
        let text = told(view, &step.what);
        put(buf, area, row, &Line::styled(format!("  {}{waits}", clean(&text, theme)), theme.faint()));
    }
}

/// One move in a line.
fn told(view: &JobView<'_>, what: &Task) -> String {
    let (from, to) = what.ends();
    let label =
        |at: Option<&Address>, none: &str| at.map_or(none.to_owned(), |at| view.state().housings.short(at));
    let (to, what) = match what {
        Task::MoveWire { lead, .. } => (label(to, "?"), wire_told(view, lead)),
        Task::FitPlug { .. } => (label(to, "?"), "new plug".to_owned()),
        Task::TakePlug { .. } => (String::new(), "plug, out".to_owned()),
        Task::MoveOther { .. } => (label(to, "?"), "part".to_owned()),
        _ => (label(to, "?"), "plug".to_owned()),
    };
    format!("{:>5} > {to:<5} {what}", label(from, ""))
}

/// Colour and name of a lead; a colour that will be asked stays covered.
fn wire_told(view: &JobView<'_>, id: &ItemId) -> String {
    let Some(lead) = view.state().items.lead(id) else { return String::new() };
    let colour = lead.first_wire().and_then(|wire| wire.colour.known());
    let colour = match colour {
        _ if view.will_ask_colour(id) => "??".to_owned(),
        Some(colour) => colour.to_string(),
        None => "?".to_owned(),
    };
    format!("{colour:<6} {}", lead.call())
}
