//! One row of a face on one line: what is shown of the housing that is not worked on, where both do
//! not fit beside each other.

use crate::{
    catalogue::Housing,
    face::{Label, Pose, SeenSpot, seen_from},
    quantity::wrap,
};

use super::{
    Mark, Picture, Piece, Slot,
    face::{FaceOptions, width_of, write_pieces},
};

/// Draws the row that holds the focus, else the first one: how it is held (in words) and which row it is,
/// then the row.
pub fn draw_strip(
    housing: &Housing,
    pose: Pose,
    held: &str,
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
        (Some(row), Some(rows)) if rows > 1 => format!("{held}: row {row} of {rows}, left to right"),
        (Some(_), _) => format!("{held}: left to right"),
        (None, _) => format!("{held}: clockwise from the top"),
    };
    if last - first < cells.len() {
        said.push_str(&format!(", {}-{last} of {}", first + 1, cells.len()));
    }
    let said = wrap(&said, options.width);
    let mut picture = Picture::blank(options.width, said.len() + 1);
    for (y, line) in said.iter().enumerate() {
        picture.write(0, y, line, &Mark::Faint);
    }
    let mut x = 0;
    for pieces in cells.get(first..last).unwrap_or_default() {
        write_pieces(&mut picture, (x, said.len()), pieces);
        x += width_of(pieces);
    }
    picture
}

fn cell(spot: &SeenSpot, slot: &Slot, options: &FaceOptions) -> Vec<Piece> {
    let gap = || Piece { text: " ".to_owned(), mark: Mark::Plain };
    let (named, held) = slot.written(&spot.label, options.covering);
    // No sign of the label touches what the cavity holds.
    let between = (slot.spoken_of.is_some() && !held.is_empty()).then(gap);
    [named].into_iter().chain(between).chain(held.iter().cloned()).chain([gap()]).collect()
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
