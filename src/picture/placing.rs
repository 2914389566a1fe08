//! Where the cells of a face go in the character grid, so that none touches another.

use crate::face::SeenSpot;

/// Places nearer to each other than this, in mm or grid units, lie on one line to the eye.
const ONE_LINE: f64 = 0.15;
/// Columns that look as long as one row is high.
const ASPECT: f64 = 2.0;
/// How much a scale grows when rounding to characters made two cells touch, and how often.
const GROWTH: f64 = 1.04;
const GROWTHS: usize = 40;

/// Columns and rows.
pub(super) type TextSize = (usize, usize);

/// Cells in the character grid: the upper left corner of each, in the order of the spots.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Placing {
    pub at: Vec<(usize, usize)>,
    /// One cell.
    pub cell: TextSize,
    /// All of them together.
    pub whole: TextSize,
}

impl Placing {
    fn of(at: Vec<(usize, usize)>, cell: TextSize) -> Self {
        let far = |pick: fn(&(usize, usize)) -> usize| at.iter().map(pick).max().unwrap_or(0);
        let whole = (far(|p| p.0) + cell.0, far(|p| p.1) + cell.1);
        Self { at, cell, whole }
    }

    /// Whether it is no larger than this.
    pub fn fits(&self, room: TextSize) -> bool {
        self.whole.0 <= room.0 && self.whole.1 <= room.1
    }

    fn is_free_of_overlap(&self) -> bool {
        let mut sorted = self.at.clone();
        sorted.sort_unstable_by_key(|(x, y)| (*y, *x));
        let touches = |a: &(usize, usize), b: &(usize, usize)| {
            a.0.abs_diff(b.0) < self.cell.0 && a.1.abs_diff(b.1) < self.cell.1
        };
        sorted.iter().enumerate().all(|(i, one)| {
            let below = sorted.iter().skip(i + 1).take_while(|other| other.1 < one.1 + self.cell.1);
            !below.into_iter().any(|other| touches(one, other))
        })
    }
}

/// The ways to place cells of this size, the truest first. On rings and points only what fits the
/// room counts, since such a face is never cut.
pub(super) fn ways(spots: &[SeenSpot], cell: TextSize, room: TextSize) -> Vec<Placing> {
    match spots.iter().all(|spot| spot.row.is_some()) {
        true => {
            let close = pushed_together(spots, cell);
            let close = close.is_free_of_overlap().then_some(close);
            to_scale(spots, cell).into_iter().chain(close).collect()
        }
        false => [in_shape(spots, cell, room), stretched(spots, cell, room)]
            .into_iter()
            .flatten()
            .find(|placing| placing.fits(room))
            .into_iter()
            .collect(),
    }
}

/// A grid with its distances true in each direction: neighbours in a row just do not touch, nor do rows.
fn to_scale(spots: &[SeenSpot], cell: TextSize) -> Option<Placing> {
    let lines = lines(spots);
    let along = lines.iter().flat_map(|line| steps(line.iter().filter_map(|i| spots.get(*i)).map(|s| s.x)));
    let along = along.fold(f64::INFINITY, f64::min);
    let across = steps(lines.iter().filter_map(|line| spots.get(*line.first()?)).map(|spot| spot.y));
    let across = across.fold(f64::INFINITY, f64::min);
    let scale = |cells: usize, least: f64| if least.is_finite() { cells as f64 / least } else { 1.0 };
    scaled(spots, cell, (scale(cell.0, along), scale(cell.1, across)), Rounding::FromStart)
}

/// A grid without its gaps: what is left of, right of, above and below stays so.
fn pushed_together(spots: &[SeenSpot], cell: TextSize) -> Placing {
    let lines = lines(spots);
    let mut line_of = vec![0; spots.len()];
    for (n, i) in lines.iter().enumerate().flat_map(|(n, line)| line.iter().map(move |i| (n, *i))) {
        if let Some(line) = line_of.get_mut(i) {
            *line = n;
        }
    }
    let line_of = |i: &usize| line_of.get(*i).copied().unwrap_or(0);
    let x_of = |i: &usize| spots.get(*i).map_or(0.0, |spot| spot.x);
    let mut order: Vec<usize> = (0..spots.len()).collect();
    order.sort_by(|a, b| x_of(a).total_cmp(&x_of(b)));
    let mut at = vec![(0, 0); spots.len()];
    // The next free column of each line.
    let mut free = vec![0_usize; lines.len()];
    let mut next = 0;
    for upright in order.chunk_by(|a, b| x_of(b) - x_of(a) < ONE_LINE) {
        let column = upright.iter().filter_map(|i| free.get(line_of(i)).copied()).fold(next, usize::max);
        next = column + 1;
        for i in upright {
            let line = line_of(i);
            if let (Some(place), Some(free)) = (at.get_mut(*i), free.get_mut(line)) {
                *place = (column, line * cell.1);
                *free = column + cell.0;
            }
        }
    }
    Placing::of(at, cell)
}

/// Rings and points true to shape: the tightest pair just does not touch.
fn in_shape(spots: &[SeenSpot], cell: TextSize, room: TextSize) -> Option<Placing> {
    let rows = rows_apart(spots, cell).max(rows_in_line(spots));
    grown(spots, cell, (ASPECT * rows, rows), room)
}

/// Rows per unit at which what is lower to the eye stands on a line of its own.
fn rows_in_line(spots: &[SeenSpot]) -> f64 {
    let lines = lines(spots);
    let least = steps(lines.iter().filter_map(|line| spots.get(*line.first()?)).map(|spot| spot.y));
    let least = least.fold(f64::INFINITY, f64::min);
    if least.is_finite() { 1.0 / least } else { 0.0 }
}

/// Rows per unit at which the tightest pair just does not touch.
fn rows_apart(spots: &[SeenSpot], cell: TextSize) -> f64 {
    let apart = pairs(spots).map(|(dx, dy)| {
        let across = if dx > 0.0 { cell.0 as f64 / (ASPECT * dx) } else { f64::INFINITY };
        let down = if dy > 0.0 { cell.1 as f64 / dy } else { f64::INFINITY };
        across.min(down)
    });
    apart.fold(0.0, f64::max)
}

/// Rings and points as wide as there is room, and only as tall as needed.
fn stretched(spots: &[SeenSpot], cell: TextSize, room: TextSize) -> Option<Placing> {
    let span = |pick: fn(&SeenSpot) -> f64| {
        let places = || spots.iter().map(pick);
        places().fold(f64::NEG_INFINITY, f64::max) - places().fold(f64::INFINITY, f64::min)
    };
    let columns = room.0.checked_sub(cell.0)? as f64 / span(|spot| spot.x).max(f64::MIN_POSITIVE);
    let columns = if columns.is_finite() { columns } else { 1.0 };
    let needed =
        pairs(spots).filter(|(dx, _)| (dx * columns) < cell.0 as f64).map(|(_, dy)| match dy > 0.0 {
            true => cell.1 as f64 / dy,
            false => f64::INFINITY,
        });
    let rows = needed.fold(rows_in_line(spots), f64::max);
    grown(spots, cell, (columns, rows), room)
}

/// The scale, made a little larger until rounding makes nothing touch; none where it gets too large.
fn grown(spots: &[SeenSpot], cell: TextSize, mut scale: (f64, f64), room: TextSize) -> Option<Placing> {
    for _ in 0..GROWTHS {
        if let Some(placing) = scaled(spots, cell, scale, Rounding::FromMiddle) {
            return Some(placing);
        }
        scale = (scale.0, scale.1 * GROWTH + 0.01);
        if !scale.1.is_finite() || scale.1 > room.1 as f64 * 1e4 {
            return None;
        }
    }
    None
}

/// From where distances are rounded to whole characters.
#[derive(Clone, Copy)]
enum Rounding {
    /// From the upper left: equal steps stay equal.
    FromStart,
    /// From the middle: both sides stay alike.
    FromMiddle,
}

/// The cells at this scale, unless two of them touch or lines that are two to the eye become one. What is
/// one line to the eye stays one.
fn scaled(
    spots: &[SeenSpot],
    cell: TextSize,
    (columns, rows): (f64, f64),
    rounding: Rounding,
) -> Option<Placing> {
    /// More than any picture has.
    const FAR: f64 = 1e6;
    let rounded = |places: &[f64], scale: f64| -> Option<Vec<usize>> {
        let least = places.iter().copied().fold(f64::INFINITY, f64::min);
        let most = places.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let middle = match rounding {
            Rounding::FromStart => least,
            Rounding::FromMiddle => (least + most) / 2.0,
        };
        let cells = |place: f64| ((place - middle) * scale).round();
        let whole = |place: &f64| {
            let at = cells(*place) - cells(least);
            (at.is_finite() && at < FAR).then(|| at.max(0.0) as usize)
        };
        places.iter().map(whole).collect()
    };
    let lines = lines(spots);
    let line_y: Vec<f64> = lines.iter().filter_map(|line| Some(spots.get(*line.first()?)?.y)).collect();
    let line_rows = rounded(&line_y, rows)?;
    let are_apart = line_rows.iter().zip(line_rows.iter().skip(1)).all(|(one, next)| one < next);
    let xs: Vec<f64> = spots.iter().map(|spot| spot.x).collect();
    let mut at: Vec<(usize, usize)> = rounded(&xs, columns)?.into_iter().map(|x| (x, 0)).collect();
    for (line, row) in lines.iter().zip(&line_rows) {
        for i in line {
            if let Some(place) = at.get_mut(*i) {
                place.1 = *row;
            }
        }
    }
    let placing = Placing::of(at, cell);
    (are_apart && placing.is_free_of_overlap()).then_some(placing)
}

/// How far every two spots are from each other, across and down.
fn pairs(spots: &[SeenSpot]) -> impl Iterator<Item = (f64, f64)> {
    let pairs = spots.iter().enumerate().flat_map(|(i, a)| spots.iter().skip(i + 1).map(move |b| (a, b)));
    pairs.map(|(a, b)| ((a.x - b.x).abs(), (a.y - b.y).abs()))
}

/// The spots that lie on one line to the eye, top to bottom, each from left to right.
fn lines(spots: &[SeenSpot]) -> Vec<Vec<usize>> {
    let place = |i: &usize| spots.get(*i).map_or((0.0, 0.0), |spot| (spot.x, spot.y));
    let mut order: Vec<usize> = (0..spots.len()).collect();
    order.sort_by(|a, b| place(a).1.total_cmp(&place(b).1));
    let mut lines: Vec<Vec<usize>> =
        order.chunk_by(|a, b| place(b).1 - place(a).1 < ONE_LINE).map(<[usize]>::to_vec).collect();
    for line in &mut lines {
        line.sort_by(|a, b| place(a).0.total_cmp(&place(b).0));
    }
    lines
}

/// The distances between neighbours of a line.
fn steps(places: impl Iterator<Item = f64>) -> impl Iterator<Item = f64> {
    let places: Vec<f64> = places.collect();
    let steps: Vec<f64> = places.iter().zip(places.iter().skip(1)).map(|(a, b)| (b - a).abs()).collect();
    steps.into_iter()
}
