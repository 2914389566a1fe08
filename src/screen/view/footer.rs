//! The footer: only the keys that work now.

use ratatui::{
    buffer::Buffer,
    layout::Rect,
    text::{Line, Span},
};
use unicode_width::UnicodeWidthStr;

use crate::screen::{
    keys::{COMMON, CommonKey, SharedKey},
    state::{Overlay, Page, Ui},
    theme::Theme,
};

use super::text::put;
use crate::job::JobSide;
use crate::procedure::JobView;

/// Draws the footer.
pub(super) fn draw(view: &JobView<'_>, ui: &Ui, typing: bool, theme: Theme, area: Rect, buf: &mut Buffer) {
    let works_now = |key: &&CommonKey| {
        // F1 stands there only where ? does not help.
        let is_it = if key.in_field { typing || key.does != SharedKey::Help } else { !typing };
        is_it && works(view, ui, key.does, typing)
    };
    let mut keys: Vec<&CommonKey> = COMMON.iter().filter(works_now).collect();
    let long = |keys: &[&CommonKey]| -> usize {
        keys.iter().map(|key| key.name.width() + short(key.does).width() + 3).sum()
    };
    // What everybody knows, or finds in the help, goes first where there is no room.
    for least in
        [SharedKey::Erase, SharedKey::Up, SharedKey::Down, SharedKey::Turn, SharedKey::Flip, SharedKey::Jump]
    {
        if long(&keys) > usize::from(area.width) {
            keys.retain(|key| key.does != least);
        }
    }
    let mut spans = Vec::new();
    for key in keys {
        spans.push(Span::styled(format!(" {}", key.name), theme.key()));
        spans.push(Span::styled(format!(" {} ", short(key.does)), theme.faint()));
    }
    put(buf, area, 0, &Line::from(spans));
}

/// A word or two: the help page says more.
fn short(does: SharedKey) -> &'static str {
    match does {
        SharedKey::Enter => "done",
        SharedKey::Back => "back",
        SharedKey::Erase => "erase",
        SharedKey::NextPage => "page",
        SharedKey::LastPage => "page before",
        SharedKey::Up => "up",
        SharedKey::Down => "down",
        SharedKey::Other => "other",
        SharedKey::Help => "help",
        SharedKey::Jump => "jump",
        SharedKey::Flip => "other face",
        SharedKey::Turn => "turn",
        SharedKey::NextOld => "next old",
        SharedKey::NextNew => "next new",
        SharedKey::Leave | SharedKey::GetOut => "leave",
    }
}

fn works(view: &JobView<'_>, ui: &Ui, does: SharedKey, typing: bool) -> bool {
    if ui.overlay != Overlay::None {
        return matches!(does, SharedKey::Back);
    }
    match does {
        SharedKey::Enter | SharedKey::Erase => typing,
        SharedKey::Back => typing || !ui.answers.is_empty() || ui.chosen.is_some() || ui.page != Page::Bench,
        SharedKey::NextPage => true,
        // One of its two keys works: the footer shows that one.
        SharedKey::Help => true,
        SharedKey::LastPage => false,
        SharedKey::NextOld => ui.page == Page::Bench && view.state().housings.side(JobSide::Old).count() > 1,
        SharedKey::NextNew => ui.page == Page::Bench && view.state().housings.side(JobSide::New).count() > 1,
        SharedKey::GetOut => typing && ui.field.is_empty(),
        SharedKey::Up | SharedKey::Down => ui.page != Page::Bench,
        SharedKey::Other => view.read_only.is_none() && !view.by.trim().is_empty(),
        SharedKey::Jump if view.read_only.is_some() => false,
        SharedKey::Jump | SharedKey::Flip | SharedKey::Turn => !typing && ui.page == Page::Bench,
        SharedKey::Leave => !typing,
    }
}
