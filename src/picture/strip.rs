//! One row of a face on one line: what is shown of the housing that is not worked on, where both do
//! not fit beside each other.

use unicode_width::UnicodeWidthStr;

use crate::{
    catalogue::Housing,
    face::{Label, Pose, SeenSpot, seen_from},
};

use super::{
    Mark, Picture, Piece, Slot,
    face::{Covering, FaceOptions, width_of, write_pieces},
};

/// Draws the row that holds the focus, else the first one: a line that says which, and the row.
pub fn draw_strip(
    housing: &Housing,
    pose: Pose,
    slot: &dyn Fn(&Label) -> Slot,
    options: &FaceOptions,
) -> Picture {
    let spots = seen_from(&housing.spots, housing.drawn, pose);
    let row = spots.iter().find(|spot| options.focus.as_ref() == Some(&spot.label)).map(|spot| spot.row);
    let row = row.unwrap_or_else(|| spots.iter().map(|spot| spot.row).min().flatten());
    let rows = spots.iter().filter_map(|spot| spot.row).max();
    let mut line: Vec<&SeenSpot> = spots.iter().filter(|spot| spot.row == row).collect();
    line.sort_by_key(|spot| (spot.column, spot.clockwise));
    let cells: Vec<Vec<Piece>> = line.iter().map(|spot| cell(spot, &slot(&spot.label), options)).collect();
    let focus = line.iter().position(|spot| options.focus.as_ref() == Some(&spot.label)).unwrap_or(0);
    let (first, last) = in_view(&cells, focus, options.width);
    let mut said = match (row, rows) {
        (Some(row), Some(rows)) if rows > 1 => format!("row {row} of {rows}, left to right"),
        (Some(_), _) => "left to right".to_owned(),
        (None, _) => "clockwise from the top".to_owned(),
    };
    if last - first < cells.len() {
        said.push_str(&format!(", {}-{last} of {}", first + 1, cells.len()));
    }
    let mut picture = Picture::blank(options.width.max(said.width()), 2);
    picture.write(0, 0, &said, &Mark::Faint);
    let mut x = 0;
    for pieces in cells.get(first..last).unwrap_or_default() {
        write_pieces(&mut picture, (x, 1), pieces);
        x += width_of(pieces);
    }
    picture
}

fn cell(spot: &SeenSpot, slot: &Slot, options: &FaceOptions) -> Vec<Piece> {
    let gap = || Piece { text: " ".to_owned(), mark: Mark::Plain };
    let named = match options.covering {
        Covering::LabelsToo => return vec![slot.hole(options.ascii)],
        Covering::Nothing | Covering::Contents => slot.label(&spot.label, options.ascii),
    };
    match options.covering {
        Covering::Nothing => [named].into_iter().chain(slot.pieces.iter().cloned()).chain([gap()]).collect(),
        Covering::Contents | Covering::LabelsToo => vec![named, gap()],
    }
}

/// The cells from the first to before the last that fit with the focus among them.
fn in_view(cells: &[Vec<Piece>], focus: usize, width: usize) -> (usize, usize) {
    let wide = |from: usize, to: usize| -> usize {
        cells.get(from..to).unwrap_or_default().iter().map(|cell| width_of(cell)).sum()
    };
    let (mut first, mut last) = (focus, (focus + 1).min(cells.len()));
    loop {
        let before = (first, last);
        if last < cells.len() && wide(first, last + 1) <= width {
            last += 1;
        }
        if first > 0 && wide(first - 1, last) <= width {
            first -= 1;
        }
        if (first, last) == before {
            return before;
        }
    }
}
