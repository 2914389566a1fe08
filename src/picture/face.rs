//! A face of a housing with what its cavities hold: either face, any side up, from the same data.

use std::collections::BTreeMap;

use crate::{
    catalogue::Housing,
    face::{Label, Pose, SeenSpot, Side, seen_from},
};

use super::{Mark, Picture};

/// What is written under a cavity's label.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Slot {
    /// A few characters: a colour, `plug`, `open`.
    pub text: String,
    /// What it stands for.
    pub mark: Mark,
    /// How the label is marked when the cavity is spoken of.
    pub spoken_of: Option<Mark>,
}

/// How a face is drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct FaceOptions {
    /// Plain ASCII only.
    pub ascii: bool,
    /// The widest the picture may be; a part of it is shown when it does not fit.
    pub width: usize,
    /// The tallest it may be.
    pub height: usize,
    /// The cavity that must be in view.
    pub focus: Option<Label>,
    /// Whether the labels are covered, because one of them is asked.
    pub blind: bool,
}

/// What stands for a label that is asked.
const COVERED: &str = "?";

/// Widest text in a slot: `GN/WH`.
const SLOT_WIDTH: usize = 5;
/// Widest text where colours are broken at their stripe: `/WH`.
const BROKEN_WIDTH: usize = 3;

/// Places nearer than this are one place.
const SAME: f64 = 1e-6;

/// Where the cavities go in the character grid.
struct Scale {
    cell: usize,
    lines: usize,
    /// Columns of outline at each side: one, or none where that makes everything fit.
    sides: usize,
    min: (f64, f64),
    per_unit: (f64, f64),
    size: (usize, usize),
}

/// Draws the face of `housing` as it is seen in `pose`.
pub fn draw_face(
    housing: &Housing,
    pose: Pose,
    slot: &dyn Fn(&Label) -> Slot,
    options: &FaceOptions,
) -> Picture {
    let mut spots = seen_from(&housing.spots, housing.drawn, pose);
    let mut slots: Vec<Slot> = spots.iter().map(|spot| slot(&spot.label)).collect();
    let mut scale = Scale::choose(&spots, &slots, options);
    let groups = spots.iter().map(|spot| spot.group + 1).max().unwrap_or(1);
    let mut note = String::new();
    if groups > 1 && !scale.fits(options) {
        // What does not fit is shown group by group.
        let looked_at = spots.iter().find(|spot| options.focus.as_ref() == Some(&spot.label));
        let group = looked_at.map_or(0, |spot| spot.group);
        (spots, slots) = spots.into_iter().zip(slots).filter(|(spot, _)| spot.group == group).unzip();
        scale = Scale::choose(&spots, &slots, options);
        note = format!(" group {} of {groups} ", group + 1);
    }
    let mut picture = Picture::blank(scale.width(), scale.size.1 + 2);
    frame(&mut picture, housing, pose, options.ascii);
    let bottom = picture.height().saturating_sub(1);
    picture.write(2, bottom, &note, &Mark::Faint);
    let mut focus = (0, 0);
    for (spot, slot) in spots.iter().zip(&slots) {
        let (x, y) = scale.place(spot);
        if options.focus.as_ref() == Some(&spot.label) {
            focus = (x, y);
        }
        let label = if options.blind { COVERED } else { spot.label.as_str() };
        write_slot(&mut picture, (x, y), &scale, label, slot, options.ascii);
    }
    picture.window(focus, options.width, options.height)
}

fn write_slot(
    picture: &mut Picture,
    (x, y): (usize, usize),
    scale: &Scale,
    label: &str,
    slot: &Slot,
    ascii: bool,
) {
    let (mark, text) = match &slot.spoken_of {
        Some(mark) => {
            let (left, right) = if ascii { ('[', ']') } else { ('▐', '▌') };
            (mark.clone(), format!("{left}{label}{right}"))
        }
        None if scale.lines == 1 => (slot.mark.clone(), format!(" {label}{}", short(slot))),
        None => (Mark::Label, format!(" {label} ")),
    };
    picture.write(x, y, &text, &mark);
    match scale.lines {
        1 => {}
        2 => {
            let text: String = slot.text.chars().take(scale.cell - 1).collect();
            write_content(picture, (x + 1, y + 1), &text, &slot.mark);
        }
        _ => {
            // A colour breaks at its stripe; a word loses its vowel.
            let (head, tail) = match slot.text.find('/') {
                Some(stroke) => slot.text.split_at(stroke),
                None => (slot.text.as_str(), ""),
            };
            let head: String = match head.chars().count() > BROKEN_WIDTH {
                true => {
                    head.chars().filter(|c| !matches!(c, 'u' | 'a' | 'i' | 'E')).take(BROKEN_WIDTH).collect()
                }
                false => head.to_owned(),
            };
            let tail: String = tail.chars().take(BROKEN_WIDTH).collect();
            write_content(picture, (x + 1, y + 1), &head, &slot.mark);
            write_content(picture, (x + 1, y + 2), &tail, &slot.mark);
        }
    }
}

/// Writes a content; each code of a colour, parted by strokes, on a ground of its own.
fn write_content(picture: &mut Picture, (x, y): (usize, usize), text: &str, mark: &Mark) {
    let Mark::Wire(colour) = mark else { return picture.write(x, y, text, mark) };
    let codes: Vec<_> = std::iter::once(&colour.base()).chain(colour.stripes()).copied().collect();
    let mut code = 0;
    for (n, c) in text.chars().enumerate() {
        code += usize::from(c == '/');
        let ground = codes.get(code).map_or_else(|| mark.clone(), |code| Mark::Ground(*code));
        picture.write(x + n, y, c.encode_utf8(&mut [0; 4]), &ground);
    }
}

/// One character for a slot where there is no line for its text.
fn short(slot: &Slot) -> char {
    match slot.mark {
        Mark::Wire(_) => '*',
        Mark::Plug => 'p',
        Mark::Alarm => '!',
        _ => slot.text.chars().next().unwrap_or(' '),
    }
}

impl Scale {
    /// The roomiest scale that fits: a line for the content; else a broken line in narrower
    /// cells; else the label with one character.
    fn choose(spots: &[SeenSpot], slots: &[Slot], options: &FaceOptions) -> Self {
        let needed = slots.iter().map(|s| s.text.chars().count()).max().unwrap_or(0).min(SLOT_WIDTH);
        let label = spots.iter().map(|s| s.label.as_str().chars().count()).max().unwrap_or(1);
        let roomy = Self::of(spots, needed.max(label + 2) + 1, 2);
        if roomy.fits(options) {
            return roomy;
        }
        let broken = Self::of(spots, (BROKEN_WIDTH + 1).max(label + 2), 3);
        if broken.fits(options) {
            return broken;
        }
        let bare = Self::of(spots, label + 2, 1);
        let open = Self { sides: 0, ..bare };
        if bare.fits(options) {
            bare
        } else if open.fits(options) {
            open
        } else if roomy.size.1 + 2 <= options.height {
            roomy
        } else {
            bare
        }
    }

    /// Whether the picture and its outline fit.
    fn fits(&self, options: &FaceOptions) -> bool {
        self.width() <= options.width && self.size.1 + 2 <= options.height
    }

    fn width(&self) -> usize {
        self.size.0 + 2 * self.sides
    }

    fn of(spots: &[SeenSpot], cell: usize, lines: usize) -> Self {
        let min_of = |pick: fn(&SeenSpot) -> f64| spots.iter().map(pick).fold(f64::INFINITY, f64::min);
        let max_of = |pick: fn(&SeenSpot) -> f64| spots.iter().map(pick).fold(f64::NEG_INFINITY, f64::max);
        let min = (min_of(|s| s.x), min_of(|s| s.y));
        let max = (max_of(|s| s.x), max_of(|s| s.y));
        let pitch = pitches(spots);
        let per_unit = (cell as f64 / pitch.0, lines as f64 / pitch.1);
        let extent = |low: f64, high: f64, scale: f64| ((high - low).max(0.0) * scale).round() as usize;
        let size = (extent(min.0, max.0, per_unit.0) + cell, extent(min.1, max.1, per_unit.1) + lines);
        Self { cell, lines, sides: 1, min, per_unit, size }
    }

    fn place(&self, spot: &SeenSpot) -> (usize, usize) {
        let x = ((spot.x - self.min.0) * self.per_unit.0).round() as usize;
        let y = ((spot.y - self.min.1) * self.per_unit.1).round() as usize;
        (x + self.sides, y + 1)
    }
}

/// The distances that must stay apart: along a row and across rows on a grid, the smallest
/// distance both ways on rings and points.
fn pitches(spots: &[SeenSpot]) -> (f64, f64) {
    let usable = |d: f64| if d.is_finite() { d } else { 1.0 };
    if spots.iter().all(|s| s.row.is_some()) {
        let mut rows: BTreeMap<Option<usize>, Vec<(f64, f64)>> = BTreeMap::new();
        for spot in spots {
            rows.entry(spot.row).or_default().push((spot.x, spot.y));
        }
        let across = least_step(rows.values().flat_map(|row| row.first()).map(|(_, y)| *y));
        let along = rows.values().map(|row| least_step(row.iter().map(|(x, _)| *x)));
        let along = along.fold(f64::INFINITY, f64::min);
        return (usable(along), usable(across));
    }
    let pairs = spots.iter().enumerate().flat_map(|(i, a)| spots.iter().skip(i + 1).map(move |b| (a, b)));
    let apart = pairs.map(|(a, b)| (a.x - b.x).hypot(a.y - b.y)).filter(|d| *d > SAME);
    let apart = usable(apart.fold(f64::INFINITY, f64::min));
    (apart, apart)
}

/// The smallest distance between neighbours on a line.
fn least_step(places: impl Iterator<Item = f64>) -> f64 {
    let mut places: Vec<f64> = places.collect();
    places.sort_by(f64::total_cmp);
    let steps = places.iter().zip(places.iter().skip(1)).map(|(a, b)| b - a);
    steps.filter(|step| *step > SAME).fold(f64::INFINITY, f64::min)
}

/// Where a side of the housing lies in the picture.
fn shown_side(side: Side, mirrored: bool, up: Side) -> Side {
    const CLOCKWISE: [Side; 4] = [Side::Top, Side::Right, Side::Bottom, Side::Left];
    let index = |s: Side| CLOCKWISE.iter().position(|c| *c == s).unwrap_or(0);
    let turned = if mirrored { index(up) + 4 - index(side) } else { index(side) + 4 - index(up) };
    CLOCKWISE.get(turned % 4).copied().unwrap_or(Side::Top)
}

/// The outline, with the features of the upper and lower side written on it.
fn frame(picture: &mut Picture, housing: &Housing, pose: Pose, ascii: bool) {
    let (corner, across, down) =
        if ascii { (['+'; 4], "-", "|") } else { (['╭', '╮', '╰', '╯'], "─", "│") };
    let (right, bottom) = (picture.width().saturating_sub(1), picture.height().saturating_sub(1));
    for y in 1..bottom {
        picture.write(0, y, down, &Mark::Frame);
        picture.write(right, y, down, &Mark::Frame);
    }
    let edge = across.repeat(right.saturating_sub(1));
    for (y, left_corner, right_corner) in [(0, corner[0], corner[1]), (bottom, corner[2], corner[3])] {
        picture.write(0, y, &format!("{left_corner}{edge}{right_corner}"), &Mark::Frame);
    }
    let mirrored = pose.face != housing.drawn;
    for feature in &housing.features {
        let text = format!(" {} ", feature.name);
        let middle = (right + 1).saturating_sub(text.chars().count()) / 2;
        match shown_side(feature.side, mirrored, pose.up) {
            Side::Top => picture.write(middle, 0, &text, &Mark::Faint),
            Side::Bottom => picture.write(middle, bottom, &text, &Mark::Faint),
            Side::Left => picture.write(0, 1 + bottom / 3, first_letter(&feature.name), &Mark::Faint),
            Side::Right => picture.write(right, 1 + bottom / 3, first_letter(&feature.name), &Mark::Faint),
        }
    }
}

fn first_letter(name: &str) -> &str {
    name.char_indices().nth(1).map_or(name, |(end, _)| name.get(..end).unwrap_or(name))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_side_moves_the_way_the_housing_is_turned_and_mirrored() {
        assert_eq!(shown_side(Side::Right, false, Side::Top), Side::Right);
        assert_eq!(shown_side(Side::Right, true, Side::Top), Side::Left);
        assert_eq!(shown_side(Side::Top, false, Side::Bottom), Side::Bottom);
        assert_eq!(shown_side(Side::Right, false, Side::Bottom), Side::Left);
        assert_eq!(shown_side(Side::Right, true, Side::Bottom), Side::Right);
        assert_eq!(shown_side(Side::Top, false, Side::Right), Side::Left);
    }
}
