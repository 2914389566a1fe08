//! What lies around the holes of a face: the outline, what is moulded on its edges, and what is said of
//! a part.

use unicode_width::UnicodeWidthStr;

use crate::{
    catalogue::Housing,
    face::{Pose, Side},
};

use super::{Mark, Picture, placing::TextSize};

/// Columns and rows of the cells' area that are shown: from, to.
pub(super) type ShownPart = ((usize, usize), (usize, usize));

/// What is moulded around the face: named on the upper and lower edge, else in words.
#[derive(Default, Clone)]
pub(super) struct Around {
    top: Vec<String>,
    bottom: Vec<String>,
    sides: Vec<String>,
}

impl Around {
    pub fn of(housing: &Housing, pose: Pose) -> Self {
        let mut around = Self::default();
        for feature in &housing.features {
            match pose.shows(feature.side, housing.drawn) {
                Side::Top => around.top.push(feature.name.clone()),
                Side::Bottom => around.bottom.push(feature.name.clone()),
                Side::Left => around.sides.push(format!("{} at the left", feature.name)),
                Side::Right => around.sides.push(format!("{} at the right", feature.name)),
            }
        }
        around
    }

    /// Columns that the names on the edges need.
    pub fn width(&self) -> usize {
        let wide = |names: &Vec<String>| edge_text(names).width();
        wide(&self.top).max(wide(&self.bottom))
    }

    /// Names of an edge that is not the part's own go into words.
    pub fn tell_edges(&mut self, top: bool, bottom: bool) {
        if top {
            self.sides.extend(self.top.drain(..).map(|name| format!("{name} further up")));
        }
        if bottom {
            self.sides.extend(self.bottom.drain(..).map(|name| format!("{name} further down")));
        }
    }

    /// What stands on no edge, and which part is shown.
    pub fn said(&self, part: &[String]) -> String {
        let said: Vec<&str> = self.sides.iter().chain(part).map(String::as_str).collect();
        said.join(", ")
    }

    /// The most that may have to be said, where a part is shown.
    pub fn said_of_part(&self, longest: &str) -> String {
        let mut cut = self.clone();
        cut.tell_edges(true, true);
        cut.said(&[longest.to_owned()])
    }

    /// The outline; an edge behind which the face goes on says so.
    pub fn frame(&self, picture: &mut Picture, shown: ShownPart, whole: TextSize, ascii: bool) {
        let (corner, across, down) =
            if ascii { (['+'; 4], "-", "|") } else { (['╭', '╮', '╰', '╯'], "─", "│") };
        let (right, bottom) = (picture.width().saturating_sub(1), picture.height().saturating_sub(1));
        let ((x_from, x_to), (y_from, y_to)) = shown;
        let cut_right = x_to < whole.0;
        let cut_bottom = y_to < whole.1;
        for y in 1..bottom {
            picture.write(0, y, if x_from > 0 { "<" } else { down }, &Mark::Frame);
            picture.write(right, y, if cut_right { ">" } else { down }, &Mark::Frame);
        }
        let edges = [
            (0, corner[0], corner[1], y_from > 0, '^', &self.top),
            (bottom, corner[2], corner[3], cut_bottom, 'v', &self.bottom),
        ];
        for (y, left_corner, right_corner, is_cut, sign, names) in edges {
            let line: String = match is_cut {
                true => (0..right.saturating_sub(1)).map(|x| if x % 4 == 1 { sign } else { ' ' }).collect(),
                false => across.repeat(right.saturating_sub(1)),
            };
            picture.write(0, y, &format!("{left_corner}{line}{right_corner}"), &Mark::Frame);
            let text = edge_text(names);
            if !is_cut && text.width() < right {
                picture.write((right + 1 - text.width()) / 2, y, &text, &Mark::Faint);
            }
        }
    }
}

fn edge_text(names: &[String]) -> String {
    if names.is_empty() { String::new() } else { format!(" {} ", names.join(", ")) }
}
