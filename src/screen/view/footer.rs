//! The footer: only the keys that work now.

use ratatui::{
    buffer::Buffer,
    layout::Rect,
    text::{Line, Span},
};
use unicode_width::UnicodeWidthStr;

use crate::screen::{
    keys::{COMMON, Common, CommonKey},
    sight::Sight,
    state::{Overlay, Page, Ui},
    theme::Theme,
};

use super::text::put;
use crate::swap::JobSide;

/// Draws the footer.
pub(super) fn draw(sight: &Sight<'_>, ui: &Ui, theme: Theme, area: Rect, buf: &mut Buffer) {
    let typing = ui.is_typing(sight);
    let works_now = |key: &&CommonKey| {
        // F1 stands there only where ? does not help.
        let is_it = if key.in_field { typing || key.does != Common::Help } else { !typing };
        is_it && works(sight, ui, key.does, typing)
    };
    let mut keys: Vec<&CommonKey> = COMMON.iter().filter(works_now).collect();
    let long = |keys: &[&CommonKey]| -> usize {
        keys.iter().map(|key| key.name.width() + short(key.does).width() + 3).sum()
    };
    // What everybody knows, or finds in the help, goes first where there is no room.
    for least in [Common::Erase, Common::Up, Common::Down, Common::Turn, Common::Flip, Common::Jump] {
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
fn short(does: Common) -> &'static str {
    match does {
        Common::Enter => "done",
        Common::Back => "back",
        Common::Erase => "erase",
        Common::NextPage => "page",
        Common::LastPage => "page before",
        Common::Up => "up",
        Common::Down => "down",
        Common::Other => "other",
        Common::Help => "help",
        Common::Jump => "jump",
        Common::Flip => "other face",
        Common::Turn => "turn",
        Common::NextOld => "next old",
        Common::NextNew => "next new",
        Common::Leave | Common::GetOut => "leave",
    }
}

fn works(sight: &Sight<'_>, ui: &Ui, does: Common, typing: bool) -> bool {
    if ui.overlay != Overlay::None {
        return matches!(does, Common::Back);
    }
    match does {
        Common::Enter | Common::Erase => typing,
        Common::Back => typing || !ui.answers.is_empty() || ui.chosen.is_some() || ui.page != Page::Bench,
        Common::NextPage => true,
        // One of its two keys works: the footer shows that one.
        Common::Help => true,
        Common::LastPage => false,
        Common::NextOld => ui.page == Page::Bench && sight.state().side(JobSide::Old).count() > 1,
        Common::NextNew => ui.page == Page::Bench && sight.state().side(JobSide::New).count() > 1,
        Common::GetOut => typing && ui.field.is_empty(),
        Common::Up | Common::Down => ui.page != Page::Bench,
        Common::Other => sight.read_only.is_none() && !sight.by.trim().is_empty(),
        Common::Jump if sight.read_only.is_some() => false,
        Common::Jump | Common::Flip | Common::Turn => !typing && ui.page == Page::Bench,
        Common::Leave => !typing,
    }
}
