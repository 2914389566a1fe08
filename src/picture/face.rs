//! A face of a housing with what its cavities hold: either face, any side up, from the same data.
//!
//! A face never lies. No cell lies on another, no label and no colour code is cut; where the whole
//! does not fit, whole cells are left out and the line under the picture says which part is shown;
//! where no drawing fits, the face is a list.

use unicode_width::UnicodeWidthStr;

use crate::{
    catalogue::Housing,
    face::{Label, Pose, SeenSpot, seen_from},
    quantity::wrap,
};

use super::{
    Covering, Mark, Picture, Piece, Slot,
    around::{Around, ShownPart},
    placing::{Placing, TextSize, ways},
};

/// How a face is drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct FaceOptions {
    /// Plain ASCII only.
    pub ascii: bool,
    /// The widest the picture may be.
    pub width: usize,
    /// The tallest it may be.
    pub height: usize,
    /// The cavity that must be in view.
    pub focus: Option<Label>,
    /// What is covered.
    pub covering: Covering,
}

/// The most that is said of a part.
const LONGEST: &str = "group 10 of 10, columns 100-199 of 200, rows 10-19 of 20";
/// The most that is said of a list.
const LONGEST_LIST: &str = "group 10 of 10, no room for a drawing: a list, cavities 100-199 of 1000";

/// How one cavity is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Form {
    /// The label over what it holds.
    Stacked,
    /// The label and what it holds on one line.
    Inline,
    /// The label alone.
    Bare,
    /// A hole.
    Hole,
}

/// The cavities to be drawn with what is written there.
struct Cells<'a> {
    spots: Vec<SeenSpot>,
    slots: Vec<Slot>,
    options: &'a FaceOptions,
}

/// A face as laid out: where the cells go and which of them are shown.
struct LaidOut {
    form: Form,
    placing: Placing,
    /// Columns and rows of the cells' area that are shown: from, to.
    shown: ShownPart,
    /// What is said of a part that is not the whole.
    part: Vec<String>,
}

/// A face as it was drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct DrawnFace {
    /// The picture.
    pub picture: Picture,
    /// Whether it is a drawing of the whole face.
    pub is_whole: bool,
}

/// Draws the face of `housing` as it is seen in `pose`; no larger than asked, whole cells only.
pub fn draw_face(
    housing: &Housing,
    pose: Pose,
    slot: &dyn Fn(&Label) -> Slot,
    options: &FaceOptions,
) -> DrawnFace {
    let spots = seen_from(&housing.spots, housing.drawn, pose);
    let slots = spots.iter().map(|spot| slot(&spot.label)).collect();
    let cells = Cells { spots, slots, options };
    let mut around = Around::of(housing, pose);
    if let Some(laid_out) = cells.whole(&around, false) {
        return DrawnFace { picture: cells.draw(&laid_out, &around), is_whole: true };
    }
    let groups = cells.spots.iter().map(|spot| spot.group + 1).max().unwrap_or(1);
    let (cells, said) = match groups > 1 {
        // What does not fit is shown group by group.
        true => cells.group_in_focus(groups, &mut around),
        false => (cells, Vec::new()),
    };
    let of_group = || cells.whole(&around, true).filter(|_| !said.is_empty());
    let picture = match of_group().or_else(|| cells.cut(&around)) {
        Some(mut laid_out) => {
            laid_out.part.splice(0..0, said);
            let (_, (top, bottom)) = laid_out.shown;
            around.tell_edges(top > 0, bottom < laid_out.placing.whole.1);
            cells.draw(&laid_out, &around)
        }
        None => cells.list(said),
    };
    DrawnFace { picture, is_whole: false }
}

impl Cells<'_> {
    fn forms(&self) -> &'static [Form] {
        match self.options.covering {
            Covering::Nothing if self.slots.iter().all(|slot| slot.pieces.is_empty()) => &[Form::Bare],
            Covering::Nothing if self.has_rows() => &[Form::Stacked, Form::Inline],
            // A ring has room beside a hole sooner than under it.
            Covering::Nothing => &[Form::Inline, Form::Stacked],
            Covering::Contents => &[Form::Bare],
            Covering::LabelsToo => &[Form::Hole],
        }
    }

    fn has_rows(&self) -> bool {
        self.spots.iter().all(|spot| spot.row.is_some())
    }

    /// Columns and rows of one cell.
    fn cell(&self, form: Form) -> TextSize {
        let label = self.spots.iter().map(|spot| spot.label.as_str().width()).max().unwrap_or(1) + 2;
        let content = self.slots.iter().map(Slot::width).max().unwrap_or(0);
        match form {
            Form::Stacked => (label.max(content + 1), 2),
            Form::Inline => (label + content + 1, 1),
            Form::Bare => (label, 1),
            Form::Hole => (3, 1),
        }
    }

    /// Room for cells inside the outline, with what is said of a part under it: nothing, or as much as can be.
    fn room(&self, around: &Around, is_part: bool) -> TextSize {
        let said = match is_part {
            true => wrap(&around.said_of_part(LONGEST), self.options.width),
            false => wrap(&around.said(&[]), self.options.width),
        };
        let height = self.options.height.saturating_sub(2 + said.len());
        (self.options.width.saturating_sub(2), height)
    }

    /// The whole of it, in the first form that fits.
    fn whole(&self, around: &Around, is_part: bool) -> Option<LaidOut> {
        let room = self.room(around, is_part);
        self.forms().iter().find_map(|form| {
            let placing = ways(&self.spots, self.cell(*form), room).into_iter().find(|p| p.fits(room))?;
            let shown = ((0, placing.whole.0), (0, placing.whole.1));
            Some(LaidOut { form: *form, placing, shown, part: Vec::new() })
        })
    }

    /// The cells of the group that holds the focus; an edge of the housing that is not its own is told in words.
    fn group_in_focus(self, groups: usize, around: &mut Around) -> (Self, Vec<String>) {
        let focus = self.focus().and_then(|i| self.spots.get(i));
        let group = focus.map_or(0, |spot| spot.group);
        let (top, bottom) = extent(&self.spots);
        let pairs = self.spots.into_iter().zip(self.slots).filter(|(spot, _)| spot.group == group);
        let (spots, slots): (Vec<SeenSpot>, Vec<Slot>) = pairs.unzip();
        let own = extent(&spots);
        around.tell_edges(own.0 > top, own.1 < bottom);
        (Self { spots, slots, options: self.options }, vec![format!("group {} of {groups}", group + 1)])
    }

    fn focus(&self) -> Option<usize> {
        let focus = self.options.focus.as_ref()?;
        self.spots.iter().position(|spot| spot.label == *focus)
    }

    /// As many whole columns and rows around the focus as fit, in the form that shows the most.
    fn cut(&self, around: &Around) -> Option<LaidOut> {
        if !self.has_rows() {
            return None;
        }
        let room = self.room(around, true);
        let candidates = self.forms().iter().filter_map(|form| {
            let cell = self.cell(*form);
            let placing = ways(&self.spots, cell, room).pop()?;
            let (x, y) = self.focus().and_then(|i| placing.at.get(i).copied()).unwrap_or((0, 0));
            let columns = Window::of(placing.at.iter().map(|p| p.0), cell.0, room.0, x)?;
            let rows = Window::of(placing.at.iter().map(|p| p.1), cell.1, room.1, y)?;
            let shown = (columns.range, rows.range);
            let part = [columns.said("columns"), rows.said("rows")].into_iter().flatten().collect();
            Some(LaidOut { form: *form, placing, shown, part })
        });
        candidates.max_by_key(LaidOut::cells_shown)
    }

    fn draw(&self, laid_out: &LaidOut, around: &Around) -> Picture {
        let ((left, right), (top, bottom)) = laid_out.shown;
        let area = (right - left, bottom - top);
        let most = self.options.width.saturating_sub(2);
        let wide = area.0.max(around.width().min(most));
        let mut picture = Picture::blank(wide + 2, area.1 + 2);
        let inset = (wide - area.0) / 2;
        around.frame(&mut picture, laid_out.shown, laid_out.placing.whole, self.options.ascii);
        for ((spot, slot), (x, y)) in self.spots.iter().zip(&self.slots).zip(&laid_out.placing.at) {
            if laid_out.shows((*x, *y)) {
                let place = (1 + inset + x - left, 1 + y - top);
                self.write_cell(&mut picture, place, laid_out, &spot.label, slot);
            }
        }
        picture.add_text(&around.said(&laid_out.part), self.options.width, &Mark::Faint);
        picture
    }

    fn write_cell(
        &self,
        picture: &mut Picture,
        (x, y): (usize, usize),
        laid_out: &LaidOut,
        label: &Label,
        slot: &Slot,
    ) {
        let (named, pieces) = slot.written(label, self.options.covering);
        picture.write(x, y, &named.text, &named.mark);
        match laid_out.form {
            Form::Stacked => write_pieces(picture, (x + 1, y + 1), pieces),
            Form::Inline => {
                // No sign of the label touches what the cavity holds.
                let gap = usize::from(slot.spoken_of.is_some());
                write_pieces(picture, (x + named.text.width() + gap, y), pieces);
            }
            Form::Bare | Form::Hole => {}
        }
    }

    /// The face as a list, where no drawing fits: as many cavities around the focus as there is room.
    fn list(&self, mut said: Vec<String>) -> Picture {
        let entries: Vec<Vec<Vec<Piece>>> =
            (0..self.spots.len()).map(|i| self.entry(i, self.options.width)).collect();
        let wide = |entry: &Vec<Vec<Piece>>| entry.iter().map(|line| width_of(line)).max().unwrap_or(0);
        let column = entries.iter().map(wide).max().unwrap_or(0) + 2;
        let tall = entries.iter().map(Vec::len).max().unwrap_or(1).max(1);
        let abreast = (self.options.width.saturating_add(2) / column.max(1)).max(1);
        let room = self.options.height.saturating_sub(wrap(LONGEST_LIST, self.options.width).len()).max(tall);
        let most = (room / tall).max(1) * abreast;
        let first = match entries.len() > most {
            true => self.focus().unwrap_or(0).saturating_sub(most / 2).min(entries.len() - most),
            false => 0,
        };
        let shown = entries.get(first..entries.len().min(first + most)).unwrap_or_default();
        let rows = shown.len().div_ceil(abreast) * tall;
        let mut picture = Picture::blank(self.options.width.min(column * abreast), rows);
        for (n, entry) in shown.iter().enumerate() {
            for (line, pieces) in entry.iter().enumerate() {
                write_pieces(&mut picture, (n % abreast * column, n / abreast * tall + line), pieces);
            }
        }
        said.push("no room for a drawing: a list".to_owned());
        if shown.len() < entries.len() {
            said.push(format!("cavities {}-{} of {}", first + 1, first + shown.len(), entries.len()));
        }
        picture.add_text(&said.join(", "), self.options.width, &Mark::Faint);
        picture
    }

    /// A cavity of the list: label and content, broken between pieces where it is wider than there is room.
    fn entry(&self, i: usize, width: usize) -> Vec<Vec<Piece>> {
        let (Some(spot), Some(slot)) = (self.spots.get(i), self.slots.get(i)) else { return Vec::new() };
        let (named, pieces) = slot.written(&spot.label, self.options.covering);
        let mut lines = vec![vec![named]];
        for piece in pieces {
            let used = lines.last().map_or(0, |line| width_of(line));
            match lines.last_mut() {
                Some(line) if used + piece.text.width() <= width => line.push(piece.clone()),
                _ => lines.push(vec![Piece { text: "  ".to_owned(), mark: Mark::Plain }, piece.clone()]),
            }
        }
        lines
    }
}

pub(super) fn width_of(pieces: &[Piece]) -> usize {
    pieces.iter().map(|piece| piece.text.width()).sum()
}

pub(super) fn write_pieces(picture: &mut Picture, (mut x, y): (usize, usize), pieces: &[Piece]) {
    for piece in pieces {
        picture.write(x, y, &piece.text, &piece.mark);
        x += piece.text.width();
    }
}

impl LaidOut {
    fn shows(&self, (x, y): (usize, usize)) -> bool {
        let ((left, right), (top, bottom)) = self.shown;
        let (wide, tall) = self.placing.cell;
        x >= left && x + wide <= right && y >= top && y + tall <= bottom
    }

    fn cells_shown(&self) -> usize {
        self.placing.at.iter().filter(|place| self.shows(**place)).count()
    }
}

/// The part of a direction that is shown: from a cell's edge to a cell's edge.
struct Window {
    range: (usize, usize),
    /// First and last line of cells that is shown, of how many.
    lines: (usize, usize, usize),
}

impl Window {
    /// As many whole cells as fit, around the focus; none where not even one does.
    fn of(starts: impl Iterator<Item = usize>, cell: usize, room: usize, focus: usize) -> Option<Self> {
        let mut starts: Vec<usize> = starts.collect();
        starts.sort_unstable();
        starts.dedup();
        if cell > room {
            return None;
        }
        let whole = starts.last()? + cell;
        let wanted = (focus + cell / 2).saturating_sub(room / 2).min(whole.saturating_sub(room));
        let from = *starts.iter().find(|start| **start >= wanted.min(focus))?;
        let inside = |start: &&usize| **start >= from && **start + cell <= from.saturating_add(room);
        let last = *starts.iter().rev().find(inside)?;
        let nth = |at: usize| starts.iter().position(|start| *start == at).unwrap_or(0) + 1;
        Some(Self { range: (from, last + cell), lines: (nth(from), nth(last), starts.len()) })
    }

    fn said(&self, what: &str) -> Option<String> {
        let (first, last, all) = self.lines;
        (last - first + 1 < all).then(|| format!("{what} {first}-{last} of {all}"))
    }
}

/// The highest and the lowest place.
fn extent(spots: &[SeenSpot]) -> (f64, f64) {
    let ys = || spots.iter().map(|spot| spot.y);
    (ys().fold(f64::INFINITY, f64::min), ys().fold(f64::NEG_INFINITY, f64::max))
}
