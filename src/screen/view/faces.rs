//! The old and the new housing side by side, both drawn from the same data, flipped and turned
//! together.

use std::collections::BTreeMap;

use ratatui::{buffer::Buffer, layout::Rect, text::Line};

use crate::{
    catalogue::Delivered,
    face::{Label, Pose, Side},
    picture::{FaceOptions, Mark, Slot, draw_face},
    record::{Address, Holds},
    screen::{sight::Sight, state::Ui, theme::Theme},
    swap::{Expected, Flip, JobHousing, JobSide, Lead, Occupant, flipped},
};

use super::text;

/// The cavities spoken of, where from and where to, and what is covered because it is asked.
#[derive(Debug, Clone, Default)]
pub(super) struct Spoken {
    pub from: Option<Address>,
    pub to: Option<Address>,
    pub covered: Covered,
    /// The pose the question speaks of, when it is not the one on record.
    pub pose: Option<Pose>,
}

/// What is covered: an answer that stands on the screen catches nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) enum Covered {
    #[default]
    Nothing,
    /// What the cavities spoken of hold.
    SpokenOf,
    /// What every cavity holds.
    Contents,
    /// Labels and contents.
    Everything,
}

/// Draws one housing with its heading; gives the rows used.
pub(super) fn housing(
    sight: &Sight<'_>,
    ui: &Ui,
    theme: Theme,
    side: JobSide,
    spoken: &Spoken,
    area: Rect,
    buf: &mut Buffer,
) -> u16 {
    let wanted = if side == JobSide::Old { &spoken.from } else { &spoken.to };
    let housings = || sight.state().side(side);
    let named = wanted.as_ref().and_then(|at| housings().find(|h| h.name == at.housing));
    let Some(shown) = named.or_else(|| housings().next()) else { return 0 };
    let asked_in = spoken.pose.filter(|_| named.is_some());
    let pose = asked_in.unwrap_or_else(|| pose_shown(shown, ui));
    let heading = format!("{} {} {}", shown.name, shown.housing().part, state_words(shown));
    text::put(buf, area, 0, &Line::styled(text::clean(&heading, theme).into_owned(), theme.now()));
    let words = crate::swap::pose_in_words(shown.housing(), pose);
    let odd = asked_in.is_none() && shown.view.as_ref().is_some_and(|(on_record, _)| *on_record != pose);
    let (line, style) = match odd {
        true => (format!("NOT as on record: {words}"), theme.alarm()),
        false => (words, theme.faint()),
    };
    // A gap stays between what is said of the two sides.
    let line: String =
        text::clean(&line, theme).chars().take(usize::from(area.width.saturating_sub(1))).collect();
    text::put(buf, area, 1, &Line::styled(line, style));
    let occupants = sight.state().occupants();
    let slot = |label: &Label| slot_of(sight, shown, label, &occupants, spoken);
    // A side nothing is said of shows the same labels as the other.
    let other = if side == JobSide::Old { &spoken.to } else { &spoken.from };
    let focus = named.and(wanted.as_ref()).or(other.as_ref()).map(|at| at.label.clone());
    let options = FaceOptions {
        ascii: theme.ascii,
        width: usize::from(area.width),
        height: usize::from(area.height.saturating_sub(2)),
        focus,
        blind: spoken.covered == Covered::Everything,
    };
    let picture = draw_face(shown.housing(), pose, &slot, &options);
    let below = Rect { y: area.y + 2, height: area.height.saturating_sub(2), ..area };
    text::paint(buf, below, &picture, theme);
    2 + u16::try_from(picture.height()).unwrap_or(u16::MAX)
}

/// The pose on record, or the one the viewer turned it to.
fn pose_shown(housing: &JobHousing, ui: &Ui) -> Pose {
    let base = if housing.view.is_some() {
        housing.pose()
    } else {
        Pose { face: housing.housing().drawn, up: Side::Top }
    };
    let base = if ui.flipped { flipped(base, Flip::Mirror) } else { base };
    if ui.turned { flipped(base, Flip::Turn) } else { base }
}

fn state_words(housing: &JobHousing) -> String {
    let lock = housing.lock.map(|lock| {
        let kind = housing.housing().lock.as_ref().map_or("lock", |l| l.kind.as_str());
        format!("{kind} {}", lock.words())
    });
    lock.map_or(String::new(), |words| format!("({words})"))
}

fn slot_of(
    sight: &Sight<'_>,
    housing: &JobHousing,
    label: &Label,
    occupants: &BTreeMap<&Address, Occupant<'_>>,
    spoken: &Spoken,
) -> Slot {
    let at = housing.address(label);
    let spoken_of = if spoken.from.as_ref() == Some(&at) {
        Some(Mark::From)
    } else if spoken.to.as_ref() == Some(&at) {
        Some(Mark::To)
    } else {
        None
    };
    let hidden = match spoken.covered {
        Covered::Nothing => false,
        Covered::SpokenOf => spoken_of.is_some() && matches!(occupants.get(&at), Some(Occupant::Lead(_))),
        Covered::Contents | Covered::Everything => true,
    };
    let (text, mark) = match occupants.get(&at) {
        _ if hidden => ("??".to_owned(), Mark::Faint),
        Some(Occupant::Lead(lead)) => wire_text(lead),
        Some(Occupant::Plug(_)) => ("plug".to_owned(), Mark::Plug),
        Some(Occupant::Other(_)) => ("part".to_owned(), Mark::Plain),
        None => bare_text(sight, housing, &at),
    };
    Slot { text, mark, spoken_of }
}

fn wire_text(lead: &Lead) -> (String, Mark) {
    let colour = lead.first_wire().and_then(|w| w.colour.known());
    match colour {
        Some(colour) => (colour.to_string(), Mark::Wire(colour.clone())),
        None => ("?".to_owned(), Mark::Plain),
    }
}

fn bare_text(sight: &Sight<'_>, housing: &JobHousing, at: &Address) -> (String, Mark) {
    let delivered = housing.housing().cavity(&at.label).map(|c| c.delivered);
    if delivered == Some(Delivered::Blocked) {
        return ("shut".to_owned(), Mark::Faint);
    }
    if housing.side == JobSide::Old {
        return match sight.state().found.get(at) {
            Some(Holds::Open) => ("OPEN".to_owned(), Mark::Alarm),
            Some(Holds::Empty) => ("empty".to_owned(), Mark::Faint),
            Some(Holds::Blocked) => ("shut".to_owned(), Mark::Faint),
            Some(_) => ("-".to_owned(), Mark::Faint),
            None => ("...".to_owned(), Mark::Faint),
        };
    }
    match sight.survey.target.expected(at) {
        Expected::Nothing => ("empty".to_owned(), Mark::Faint),
        Expected::Delivered => ("clip".to_owned(), Mark::Faint),
        _ => ("-".to_owned(), Mark::Faint),
    }
}
