//! What is seen of a face in a pose: where every cavity appears, in which row, and which cavity is
//! taken for which when somebody reads the housing from the wrong face or upside down.

use std::collections::BTreeMap;

use super::{Face, Label, Pose, PosePlace, Side, Spot, smallest_distance};

/// Rows nearer to each other than this, in mm or grid units, are one row to the eye.
const ONE_ROW: f64 = 0.15;

/// A cavity as it appears in a pose: x to the right, y down, row and column counted from 1 at the
/// top left of what is seen (none on rings and points).
#[derive(Debug, Clone, PartialEq)]
pub struct SeenSpot {
    /// The label moulded there.
    pub label: Label,
    /// To the right, in mm or grid units.
    pub x: f64,
    /// Downwards, in mm or grid units.
    pub y: f64,
    /// Row from the top, from 1.
    pub row: Option<usize>,
    /// Place within the row from the left, from 1.
    pub column: Option<usize>,
    /// On rings and points: counted clockwise from twelve o'clock, from 1, the middle one last.
    pub clockwise: Option<usize>,
    /// The group it belongs to, from 0.
    pub group: usize,
}

impl SeenSpot {
    /// The place as the eye finds it.
    pub fn place(&self) -> Option<PosePlace> {
        match (self.row, self.column, self.clockwise) {
            (Some(row), Some(column), _) => Some(PosePlace::Cell { row, column }),
            (_, _, Some(n)) => Some(PosePlace::Clockwise(n)),
            _ => None,
        }
    }
}

/// The cavities as seen in `pose` when the definition draws them from the face `drawn`, in the
/// order of the numbering.
pub fn seen_from(spots: &[Spot], drawn: Face, pose: Pose) -> Vec<SeenSpot> {
    let moved = |(x, y)| moved((x, y), drawn, pose);
    let mut seen: Vec<SeenSpot> = spots
        .iter()
        .map(|spot| {
            let (x, y) = moved((spot.x, spot.y));
            let label = spot.label.clone();
            SeenSpot { label, x, y, row: None, column: None, clockwise: None, group: spot.group }
        })
        .collect();
    if spots.iter().all(|spot| spot.cell.is_some()) {
        let sideways = matches!(pose.up, Side::Left | Side::Right) && is_staggered(spots);
        count_lines(&mut seen, sideways);
    } else if let Some(first) = spots.first() {
        count_clockwise(&mut seen, moved(first.middle));
    }
    seen
}

/// The other face is the mirror about the vertical axis; then the picture is turned until the side
/// asked for is on top. A side keeps its name in the drawing of the definition, so on the other
/// face the side named right appears at the left.
fn moved((x, y): (f64, f64), drawn: Face, pose: Pose) -> (f64, f64) {
    let mirrored = pose.face != drawn;
    let x = if mirrored { -x } else { x };
    let up = match (pose.up, mirrored) {
        (Side::Left, true) => Side::Right,
        (Side::Right, true) => Side::Left,
        (side, _) => side,
    };
    let (x, y) = match up {
        Side::Top => (x, y),
        Side::Right => (y, -x),
        Side::Bottom => (-x, -y),
        Side::Left => (-y, x),
    };
    (x + 0.0, y + 0.0)
}

/// Whether rows of one group are pushed sideways against each other: such rows turned by a quarter
/// are columns still, and never rows.
fn is_staggered(spots: &[Spot]) -> bool {
    let parity = |spot: &Spot| spot.cell.map(|cell| cell.half_column.rem_euclid(2));
    let first_of = |group| spots.iter().find(|spot| spot.group == group).and_then(parity);
    spots.iter().any(|spot| parity(spot) != first_of(spot.group))
}

/// Gives every cavity its row and its place in it; with `sideways`, its column and its place in it.
fn count_lines(seen: &mut [SeenSpot], sideways: bool) {
    let across = |spot: &SeenSpot| if sideways { spot.x } else { spot.y };
    let along = |spot: &SeenSpot| if sideways { spot.y } else { spot.x };
    let mut order: Vec<&mut SeenSpot> = seen.iter_mut().collect();
    order.sort_by(|a, b| across(a).total_cmp(&across(b)));
    let mut lines: Vec<Vec<&mut SeenSpot>> = Vec::new();
    let mut line_at = f64::NEG_INFINITY;
    for spot in order {
        let here = across(spot);
        match lines.last_mut() {
            Some(line) if here - line_at < ONE_ROW => line.push(spot),
            _ => {
                line_at = here;
                lines.push(vec![spot]);
            }
        }
    }
    for (line_number, line) in (1..).zip(&mut lines) {
        line.sort_by(|a, b| along(a).total_cmp(&along(b)));
        for (place, spot) in (1..).zip(line) {
            let (row, column) = if sideways { (place, line_number) } else { (line_number, place) };
            (spot.row, spot.column) = (Some(row), Some(column));
        }
    }
}

/// Gives every cavity its number clockwise from twelve o'clock; one in the middle comes last.
fn count_clockwise(seen: &mut [SeenSpot], (middle_x, middle_y): (f64, f64)) {
    let key = |spot: &SeenSpot| {
        let (dx, dy) = (spot.x - middle_x, spot.y - middle_y);
        let radius = dx.hypot(dy);
        let angle = dx.atan2(-dy).to_degrees().rem_euclid(360.0);
        // Rounded, so that the order does not hang on the last bits of an angle.
        (radius < 1e-6, (angle * 1e4).round() as i64 % 3_600_000, (radius * 1e4).round() as i64)
    };
    let mut order: Vec<&mut SeenSpot> = seen.iter_mut().collect();
    order.sort_by_key(|spot| key(spot));
    for (n, spot) in (1..).zip(order) {
        spot.clockwise = Some(n);
    }
}

/// How a face may be misread.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Misreading {
    /// From the other face, the right way up.
    Mirror,
    /// From the right face, upside down.
    Turn,
    /// From the other face, upside down.
    Both,
}

/// Which cavity is taken for which when a face that is held in `pose` is misread: the label of each
/// cavity, and the label at the place it is taken for. In rows the eye goes by row and place, on rings
/// and points by where the holes are: the nearest within half the smallest distance of two. None when
/// some cavity has no counterpart, so that nobody would misread it in this way.
pub fn misread(spots: &[Spot], drawn: Face, pose: Pose, how: Misreading) -> Option<BTreeMap<Label, Label>> {
    let pairs = match spots.iter().all(|spot| spot.cell.is_some()) {
        true => by_rows(spots, drawn, pose, how),
        false => by_place(spots, drawn, pose, how),
    }?;
    // Two cavities taken for one are no reading of the whole.
    let mut taken: Vec<&Label> = pairs.values().collect();
    taken.sort();
    taken.dedup();
    (taken.len() == spots.len()).then_some(pairs)
}

fn by_rows(spots: &[Spot], drawn: Face, pose: Pose, how: Misreading) -> Option<BTreeMap<Label, Label>> {
    let wrong = match how {
        Misreading::Mirror => Pose { face: pose.face.other(), up: pose.up },
        Misreading::Turn => Pose { face: pose.face, up: pose.up.opposite() },
        Misreading::Both => Pose { face: pose.face.other(), up: pose.up.opposite() },
    };
    let there: BTreeMap<PosePlace, Label> = seen_from(spots, drawn, wrong)
        .into_iter()
        .filter_map(|spot| Some((spot.place()?, spot.label)))
        .collect();
    let here = seen_from(spots, drawn, pose).into_iter();
    here.map(|spot| Some((spot.label.clone(), there.get(&spot.place()?)?.clone()))).collect()
}

fn by_place(spots: &[Spot], drawn: Face, pose: Pose, how: Misreading) -> Option<BTreeMap<Label, Label>> {
    let (middle_x, middle_y) = moved(spots.first()?.middle, drawn, pose);
    let seen = seen_from(spots, drawn, pose);
    let near = smallest_distance(spots) / 2.0;
    let taken_for = |spot: &SeenSpot| {
        let (dx, dy) = (spot.x - middle_x, spot.y - middle_y);
        let (dx, dy) = match how {
            Misreading::Mirror => (-dx, dy),
            Misreading::Turn => (-dx, -dy),
            Misreading::Both => (dx, -dy),
        };
        let away = |other: &&SeenSpot| (other.x - middle_x - dx).hypot(other.y - middle_y - dy);
        let nearest = seen.iter().min_by(|a, b| away(a).total_cmp(&away(b)))?;
        (away(&nearest) < near || seen.len() == 1).then(|| nearest.label.clone())
    };
    seen.iter().map(|spot| Some((spot.label.clone(), taken_for(spot)?))).collect()
}

/// The rows of a face as drawn, from the top, each in the order of its numbering; all in one where
/// there are no rows.
pub fn rows(spots: &[Spot], drawn: Face) -> Vec<Vec<Label>> {
    let mut rows: BTreeMap<Option<usize>, Vec<Label>> = BTreeMap::new();
    for seen in seen_from(spots, drawn, Pose { face: drawn, up: Side::Top }) {
        rows.entry(seen.row).or_default().push(seen.label);
    }
    rows.into_values().collect()
}
