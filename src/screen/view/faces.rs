//! The faces of the housings: both sides beside each other where they fit whole, else one under the
//! other, else the side in work whole and of the other one row. All drawn from the same data, flipped
//! and turned together.

use std::collections::BTreeMap;

use ratatui::{buffer::Buffer, layout::Rect, style::Style, text::Line};

use crate::{
    catalogue::Delivered,
    face::{Label, Pose, Side},
    job::{Expected, Flip, JobHousing, JobSide, Lead, Occupant, OtherKind, flipped, pose_in_words},
    picture::{Covering, DrawnFace, FaceOptions, Mark, Slot, draw_face, draw_strip},
    procedure::{Covered, JobView},
    quantity::wrap,
    record::{Address, CavityContent, HousingName},
    screen::{state::Ui, theme::Theme},
};

use super::text;

/// What of the faces is covered.
fn covering_of(covered: &Covered) -> Covering {
    match covered {
        Covered::Nothing | Covered::ColoursOf(_) => Covering::Nothing,
        Covered::Contents => Covering::Contents,
        Covered::LabelsToo => Covering::LabelsToo,
    }
}

/// What the question speaks of.
#[derive(Debug, Clone)]
pub(super) struct Spoken {
    /// Where something comes from.
    pub from: Option<Address>,
    /// Where it goes.
    pub to: Option<Address>,
    /// The pose the question speaks of, when it is not the one on record.
    pub pose: Option<Pose>,
    /// The housing it is about, where it is about one.
    pub about: Option<HousingName>,
    /// The side the hands are at.
    pub work: JobSide,
    /// A safety question is about the machine: no face distracts from it.
    pub is_about_no_face: bool,
}

impl Spoken {
    /// Of nothing yet, with the hands at this side.
    pub fn at(work: JobSide) -> Self {
        Self { from: None, to: None, pose: None, about: None, work, is_about_no_face: false }
    }

    fn address(&self, side: JobSide) -> Option<&Address> {
        match side {
            JobSide::Old => self.from.as_ref(),
            JobSide::New => self.to.as_ref(),
        }
    }
}

/// What the faces are drawn from.
pub(super) struct Faces<'a> {
    pub view: &'a JobView<'a>,
    pub ui: &'a Ui,
    pub theme: Theme,
    pub spoken: &'a Spoken,
    pub covered: &'a Covered,
    /// Whether the next step is a move, or wires moved already.
    pub is_moving: bool,
}

/// One side with the housing of it that is shown.
struct Shown<'a> {
    housing: &'a JobHousing,
    side: JobSide,
    pose: Pose,
    /// Whether the pose is one the viewer turned it to.
    is_turned: bool,
    /// Whether the question is about another one of its side.
    is_another: bool,
    /// Which of how many, from 1.
    nth: (usize, usize),
    focus: Option<Label>,
    occupants: &'a BTreeMap<&'a Address, Occupant<'a>>,
}

/// Rows below which a part of the side in work goes before the other side's row.
const LEAST: usize = 10;
/// Rows below which no face is drawn: heading, two lines of holes between edges, and what is said of it.
const SMALLEST: u16 = 6;

impl Faces<'_> {
    /// Draws them; gives the rows used.
    pub fn draw(&self, area: Rect, buf: &mut Buffer) -> u16 {
        if self.spoken.is_about_no_face {
            return 0;
        }
        let occupants = self.view.state().items.occupants();
        let shown = |side| self.shown(side, &occupants);
        let (Some(old), Some(new)) = (shown(JobSide::Old), shown(JobSide::New)) else { return 0 };
        if area.height < SMALLEST {
            let say = "(no room for the faces: answer this, or make the window taller)";
            text::put(buf, area, 0, &Line::styled(say, self.theme.faint()));
            return 1;
        }
        let room = (usize::from(area.width), usize::from(area.height));
        let beside = self.beside(&old, &new, room);
        if let Some(blocks) = beside.or_else(|| self.under(&old, &new, room)) {
            return put_blocks(&blocks, area, self.theme, buf);
        }
        let (work, other) = match self.spoken.work {
            JobSide::Old => (&old, &new),
            JobSide::New => (&new, &old),
        };
        // A row of holes beside the holes that are asked tells nothing.
        if *self.covered == Covered::LabelsToo {
            return put_blocks(&[self.block(work, room)], area, self.theme, buf);
        }
        let strip = self.strip(other, room.0);
        let block = self.block(work, (room.0, room.1.saturating_sub(strip.rows())));
        if !block.is_whole && room.1 < LEAST {
            return put_blocks(&[self.block(work, room)], area, self.theme, buf);
        }
        let at = block.rows();
        put_blocks(&[block, strip.moved(0, at)], area, self.theme, buf)
    }

    /// Both whole, beside each other with a gap between.
    fn beside(&self, old: &Shown<'_>, new: &Shown<'_>, room: (usize, usize)) -> Option<[Block; 2]> {
        let half = room.0 / 2;
        let left = self.block(old, (half.saturating_sub(1), room.1));
        if !left.is_whole {
            return None;
        }
        let right = self.block(new, (room.0 - half, room.1));
        right.is_whole.then(|| [left, right.moved(half, 0)])
    }

    /// Both whole, one under the other.
    fn under(&self, old: &Shown<'_>, new: &Shown<'_>, room: (usize, usize)) -> Option<[Block; 2]> {
        let above = self.block(old, room);
        let left = room.1.checked_sub(above.rows() + 1).filter(|_| above.is_whole)?;
        let below = self.block(new, (room.0, left));
        let at = above.rows() + 1;
        below.is_whole.then(|| [above, below.moved(0, at)])
    }

    fn shown<'a>(
        &'a self,
        side: JobSide,
        occupants: &'a BTreeMap<&'a Address, Occupant<'a>>,
    ) -> Option<Shown<'a>> {
        let housings: Vec<&JobHousing> = self.view.state().housings.side(side).collect();
        let named = self.spoken.address(side).map(|at| &at.housing).or(self.spoken.about.as_ref());
        let first = named.and_then(|name| housings.iter().position(|h| h.name == *name));
        let further = self.ui.further[usize::from(side == JobSide::New)];
        let nth = (first.unwrap_or(0) + further) % housings.len().max(1);
        let housing = *housings.get(nth)?;
        let is_spoken_of = first.is_some_and(|first| first == nth);
        let asked_in = self.spoken.pose.filter(|_| is_spoken_of);
        let pose = asked_in.unwrap_or_else(|| pose_shown(housing, self.ui));
        let on_record = housing.view.as_ref().map(|(pose, _)| *pose);
        // A side nothing is said of shows the same labels as the other.
        let own = self.spoken.address(side).filter(|at| at.housing == housing.name);
        let other = self.spoken.from.as_ref().or(self.spoken.to.as_ref());
        Some(Shown {
            housing,
            side,
            pose,
            is_turned: asked_in.is_none() && on_record.is_some_and(|record| record != pose),
            is_another: first.is_some() && !is_spoken_of,
            nth: (nth + 1, housings.len()),
            focus: own.or(other).map(|at| at.label.clone()),
            occupants,
        })
    }

    /// Heading and face.
    fn block(&self, shown: &Shown<'_>, (width, height): (usize, usize)) -> Block {
        let lines = self.heading(shown, width);
        let room = (width, height.saturating_sub(lines.len()));
        let slot = |label: &Label| self.slot(shown, label);
        let DrawnFace { picture, is_whole } =
            draw_face(shown.housing.housing(), shown.pose, &slot, &self.options(shown, room));
        let is_whole = is_whole && lines.len() + picture.height() <= height;
        Block { at: (0, 0), lines, picture, is_whole }
    }

    /// Heading and the one row that matters.
    fn strip(&self, shown: &Shown<'_>, width: usize) -> Block {
        // Always as on record: there is no room to say of a turned one that it is.
        let pose = shown.housing.pose();
        let held = pose_in_words(shown.housing.housing(), pose);
        let who = text::clean(&who(shown), self.theme).into_owned();
        let lines = wrap(&who, width).into_iter().map(|line| (line, self.theme.now())).collect();
        let slot = |label: &Label| self.slot(shown, label);
        let options = self.options(shown, (width, 1));
        let picture = draw_strip(shown.housing.housing(), pose, &held, &slot, &options);
        Block { at: (0, 0), lines, picture, is_whole: false }
    }

    fn options(&self, shown: &Shown<'_>, (width, height): (usize, usize)) -> FaceOptions {
        let covering = covering_of(self.covered);
        FaceOptions { ascii: self.theme.ascii, width, height, focus: shown.focus.clone(), covering }
    }

    /// Which housing it is, and how it is held: on one line where that fits.
    fn heading(&self, shown: &Shown<'_>, width: usize) -> Vec<(String, Style)> {
        let job = shown.housing;
        let housing = job.housing();
        let who = who(shown);
        let held = pose_in_words(housing, shown.pose);
        let mut lines = Vec::new();
        let mut put = |text: &str, style: Style| {
            let text = text::clean(text, self.theme);
            lines.extend(wrap(&text, width).into_iter().map(|line| (line, style)));
        };
        if shown.is_another {
            put("!! NOT the housing that is asked about. Esc: back", self.theme.alarm());
        }
        if shown.is_turned {
            put(&who, self.theme.now());
            put(&format!("!! PICTURE TURNED: {held}."), self.theme.alarm());
            let record = pose_in_words(housing, job.pose());
            put(&format!("Your housing: {record}. Esc: back"), self.theme.alarm());
            return lines;
        }
        let both = format!("{who}  {held}");
        match both.chars().count() <= width {
            true => put(&both, self.theme.now()),
            false => {
                put(&who, self.theme.now());
                put(&held, self.theme.faint());
            }
        }
        lines
    }

    fn slot(&self, shown: &Shown<'_>, label: &Label) -> Slot {
        let at = shown.housing.address(label);
        let spoken_of = match &at {
            at if self.spoken.from.as_ref() == Some(at) => Some(Mark::From),
            at if self.spoken.to.as_ref() == Some(at) => Some(Mark::To),
            _ => None,
        };
        let slot = match shown.occupants.get(&at) {
            Some(Occupant::Lead(lead)) => self.lead_slot(lead),
            Some(Occupant::Plug(_)) => Slot::word("plug", Mark::Plug),
            Some(Occupant::Other(other)) => match other.kind {
                OtherKind::Spare => Slot::word("spare", Mark::Plain),
                OtherKind::Bridge(_) => Slot::word("clip", Mark::Plain),
            },
            None => self.bare_slot(shown.housing, &at),
        };
        slot.spoken_of(spoken_of)
    }

    fn lead_slot(&self, lead: &Lead) -> Slot {
        // Once wires move, a colour that will be asked stays covered until it is.
        let will_be_asked = self.is_moving && self.view.will_ask_colour(&lead.id);
        match self.covered.hides(&lead.id) || will_be_asked {
            true => Slot::word("??", Mark::Plain),
            false => Slot::wires(lead.wires_in().map(|wire| wire.colour.known())),
        }
    }

    /// What is written where nothing sits.
    fn bare_slot(&self, housing: &JobHousing, at: &Address) -> Slot {
        let state = self.view.state();
        if housing.housing().cavity(&at.label).is_some_and(|c| c.delivered == Delivered::Blocked) {
            return Slot::word("shut", Mark::Faint);
        }
        let (text, mark) = match housing.side {
            JobSide::Old => match state.records.found.get(at) {
                Some(CavityContent::Open) => ("OPEN", Mark::Alarm),
                Some(CavityContent::Empty) => ("empty", Mark::Faint),
                Some(CavityContent::Blocked) => ("shut", Mark::Faint),
                Some(
                    CavityContent::Wired(_)
                    | CavityContent::Plugged
                    | CavityContent::Spare(_)
                    | CavityContent::Bridge(_),
                ) => ("-", Mark::Faint),
                None => ("...", Mark::Faint),
            },
            // Before the record is whole nobody knows what belongs in there.
            JobSide::New if !state.records.records_finished() => ("...", Mark::Faint),
            JobSide::New => match self.view.assessment.target.expected(at) {
                Expected::Nothing => ("empty", Mark::Faint),
                Expected::Delivered => ("clip", Mark::Faint),
                _ => ("-", Mark::Faint),
            },
        };
        Slot::word(text, mark)
    }
}

/// Which housing it is: side, name where it has one of its own, part, lock, and which of several.
fn who(shown: &Shown<'_>) -> String {
    let job = shown.housing;
    let (side, key) = match shown.side {
        JobSide::Old => ("old", "Left"),
        JobSide::New => ("new", "Right"),
    };
    let name = if job.name.as_str() == side { String::new() } else { format!(" {}", job.name) };
    let lock = job.lock.map_or(String::new(), |lock| {
        let kind = job.housing().lock.as_ref().map_or("lock", |lock| lock.kind.as_str());
        format!(" ({kind} {})", lock.words())
    });
    let nth = match shown.nth {
        (nth, all) if all > 1 => format!(" {nth} of {all}, {key}: the next"),
        _ => String::new(),
    };
    format!("{}{name} {}{lock}{nth}", side.to_uppercase(), job.housing().part)
}

/// The pose on record, or the one the viewer turned it to.
fn pose_shown(housing: &JobHousing, ui: &Ui) -> Pose {
    let base = match housing.view.is_some() {
        true => housing.pose(),
        false => Pose { face: housing.housing().drawn, up: Side::Top },
    };
    let base = if ui.flipped { flipped(base, Flip::Mirror) } else { base };
    if ui.turned { flipped(base, Flip::Turn) } else { base }
}

/// Lines and a picture under them, somewhere in the area.
struct Block {
    at: (usize, usize),
    lines: Vec<(String, Style)>,
    picture: crate::picture::Picture,
    is_whole: bool,
}

impl Block {
    fn rows(&self) -> usize {
        self.lines.len() + self.picture.height()
    }

    fn moved(self, x: usize, y: usize) -> Self {
        Self { at: (x, y), ..self }
    }
}

/// Puts blocks on the screen; gives the rows used.
fn put_blocks(blocks: &[Block], area: Rect, theme: Theme, buf: &mut Buffer) -> u16 {
    let cells = |n: usize| u16::try_from(n).unwrap_or(u16::MAX);
    for block in blocks {
        let (x, y) = (cells(block.at.0), cells(block.at.1));
        let (width, height) = (area.width.saturating_sub(x), area.height.saturating_sub(y));
        let place = Rect { x: area.x + x, y: area.y + y.min(area.height), width, height };
        for (row, (line, style)) in (0_u16..).zip(&block.lines) {
            text::put(buf, place, row, &Line::styled(line.clone(), *style));
        }
        let down = cells(block.lines.len()).min(place.height);
        let below = Rect { y: place.y + down, height: place.height - down, ..place };
        text::paint(buf, below, &block.picture, theme);
    }
    cells(blocks.iter().map(|block| block.at.1 + block.rows()).max().unwrap_or(0))
}
