//! Layouts of cavities: grids (staggered too), rings, points, and groups of these.

use super::{Label, LayoutProblem, Naming, numbering::Numbering};
use crate::face::CAVITIES_MOST;

/// A cavity's place in the drawing of the definition: x to the right, y down.
#[derive(Debug, Clone, PartialEq)]
pub struct Spot {
    /// The label moulded there.
    pub label: Label,
    /// To the right, in mm where the layout has a pitch, else in grid units.
    pub x: f64,
    /// Downwards.
    pub y: f64,
    /// For a cavity of a grid: row and column of the lattice from 0, and how far the row is pushed
    /// sideways, in half columns.
    pub cell: Option<LatticeCell>,
    /// The group it belongs to, from 0.
    pub group: usize,
    /// The middle of the face: the centre of a ring, else the middle of the cavities' extent.
    pub middle: (f64, f64),
}

/// A place in the lattice of a grid.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LatticeCell {
    /// Row from 0 at the top of the drawing.
    pub row: i32,
    /// Column in half steps from 0 at the left of the drawing, so that staggered rows stay whole.
    pub half_column: i32,
}

/// A layout with its numbering, as a definition describes it.
#[derive(Debug, Clone, PartialEq)]
pub enum Layout {
    /// Rows and columns.
    Grid(Grid),
    /// A circle.
    Ring(Ring),
    /// Cavities wherever they are, each with its own label.
    Points(Points),
    /// Several layouts in one housing.
    Groups(Vec<Group>),
}

/// Rows and columns.
#[derive(Debug, Clone, PartialEq)]
pub struct Grid {
    /// How many rows.
    pub rows: usize,
    /// How many columns.
    pub columns: usize,
    /// Which rows are pushed half a column to the right.
    pub staggered: RowStagger,
    /// Places of the lattice without a cavity: row and column from 1, top left.
    pub left_out: Vec<(usize, usize)>,
    /// Distance of columns and of rows in mm.
    pub pitch_mm: Option<(f64, f64)>,
    /// How it is numbered.
    pub numbering: Numbering,
}

/// Which rows of a grid are pushed half a column to the right.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RowStagger {
    /// None.
    No,
    /// The first, third, fifth.
    OddRows,
    /// The second, fourth, sixth.
    EvenRows,
}

/// Cavities on a circle.
#[derive(Debug, Clone, PartialEq)]
pub struct Ring {
    /// Angles in degrees, clockwise from twelve o'clock in the drawing, in the order of the labels.
    pub angles_deg: Vec<f64>,
    /// The circle's radius in mm; without it the radius is one unit.
    pub radius_mm: Option<f64>,
    /// Whether there is a cavity in the centre; it has the last label.
    pub centre: bool,
    /// The labels.
    pub naming: Naming,
}

/// Cavities wherever they are.
#[derive(Debug, Clone, PartialEq)]
pub struct Points {
    /// Label, to the right, downwards.
    pub points: Vec<(Label, f64, f64)>,
    /// Whether x and y are in mm.
    pub in_mm: bool,
}

/// One layout among several in a housing.
#[derive(Debug, Clone, PartialEq)]
pub struct Group {
    /// Put before every label of the group.
    pub prefix: String,
    /// Where the group's origin lies in the housing.
    pub at: (f64, f64),
    /// Its layout; groups are not nested.
    pub layout: Layout,
}

impl Layout {
    /// Where the cavities sit, in the order of the numbering.
    pub fn spots(&self) -> Result<Vec<Spot>, LayoutProblem> {
        self.in_mm()?;
        let mut spots = match self {
            Self::Groups(groups) => group_spots(groups)?,
            single => single.single_spots()?,
        };
        set_middle(self, &mut spots);
        check_apart(&spots)?;
        Ok(spots)
    }

    /// The distance between neighbours in mm, when the layout gives lengths in mm.
    pub fn pitch_mm(&self, spots: &[Spot]) -> Option<f64> {
        match self {
            Self::Grid(grid) => grid.pitch_mm.map(|(x, y)| x.min(y)),
            layout => layout.in_mm().ok().filter(|in_mm| *in_mm).map(|_| smallest_distance(spots)),
        }
    }

    /// Whether x and y are in mm.
    fn in_mm(&self) -> Result<bool, LayoutProblem> {
        match self {
            Self::Grid(grid) => Ok(grid.pitch_mm.is_some()),
            Self::Ring(ring) => Ok(ring.radius_mm.is_some()),
            Self::Points(points) => Ok(points.in_mm),
            Self::Groups(groups) => {
                let units: Vec<bool> = groups.iter().map(|g| g.layout.in_mm()).collect::<Result<_, _>>()?;
                match (units.contains(&true), units.contains(&false)) {
                    (true, true) => Err(LayoutProblem::MixedUnits),
                    (in_mm, _) => Ok(in_mm),
                }
            }
        }
    }

    fn single_spots(&self) -> Result<Vec<Spot>, LayoutProblem> {
        match self {
            Self::Grid(grid) => grid.spots(),
            Self::Ring(ring) => ring.spots(),
            Self::Points(points) => points.spots(),
            Self::Groups(_) => Err(LayoutProblem::Nested),
        }
    }
}

/// A spot before its group and the middle of the face are known.
fn spot(label: Label, x: f64, y: f64, cell: Option<LatticeCell>) -> Spot {
    // Adding zero turns -0 into 0, which would otherwise be printed with its sign.
    Spot { label, x: x + 0.0, y: y + 0.0, cell, group: 0, middle: (0.0, 0.0) }
}

impl Grid {
    fn spots(&self) -> Result<Vec<Spot>, LayoutProblem> {
        let cavities = self.rows.saturating_mul(self.columns);
        if cavities == 0 {
            return Err(LayoutProblem::NoCavity);
        }
        if cavities > CAVITIES_MOST {
            return Err(LayoutProblem::TooMany { cavities });
        }
        let (rows, columns) = (self.rows, self.columns);
        for (row, column) in self.left_out.iter().copied() {
            if !(1..=rows).contains(&row) || !(1..=columns).contains(&column) {
                return Err(LayoutProblem::LeftOut { row, column, rows, columns });
            }
        }
        let (pitch_x, pitch_y) = self.pitch_mm.unwrap_or((1.0, 1.0));
        positive("the pitch of the columns", pitch_x)?;
        positive("the pitch of the rows", pitch_y)?;
        let holds = |(row, column)| !self.left_out.contains(&(row + 1, column + 1));
        let lines = self.numbering.lines((rows, columns), holds);
        let labels = self.numbering.labels(&lines)?;
        let cells: Vec<LatticeCell> = lines.iter().flatten().map(|place| self.cell(*place)).collect();
        let Some(first) = cells.first().copied() else { return Err(LayoutProblem::NoCavity) };
        let spots = labels.into_iter().zip(cells).map(|(label, cell)| {
            let x = f64::from(cell.half_column - first.half_column) * pitch_x / 2.0;
            spot(label, x, f64::from(cell.row - first.row) * pitch_y, Some(cell))
        });
        Ok(spots.collect())
    }

    fn cell(&self, (row, column): (usize, usize)) -> LatticeCell {
        let pushed = match self.staggered {
            RowStagger::No => false,
            RowStagger::OddRows => row % 2 == 0,
            RowStagger::EvenRows => row % 2 == 1,
        };
        // Both fit: a grid has at most CAVITIES_MOST places.
        LatticeCell { row: row as i32, half_column: column as i32 * 2 + i32::from(pushed) }
    }
}

impl Ring {
    fn spots(&self) -> Result<Vec<Spot>, LayoutProblem> {
        let cavities = self.angles_deg.len() + usize::from(self.centre);
        if cavities > CAVITIES_MOST {
            return Err(LayoutProblem::TooMany { cavities });
        }
        let radius = self.radius_mm.unwrap_or(1.0);
        positive("the radius", radius)?;
        let mut places = Vec::new();
        for angle in &self.angles_deg {
            let (x, y) = (radius * angle.to_radians().sin(), -radius * angle.to_radians().cos());
            places.push(somewhere(tidy(x), tidy(y))?);
        }
        places.extend(self.centre.then_some((0.0, 0.0)));
        let labels = self.naming.labels(cavities)?;
        Ok(labels.into_iter().zip(places).map(|(label, (x, y))| spot(label, x, y, None)).collect())
    }
}

/// Sines and cosines of quarter turns come out a hair beside zero.
fn tidy(value: f64) -> f64 {
    if value.abs() < 1e-9 { 0.0 } else { value }
}

impl Points {
    fn spots(&self) -> Result<Vec<Spot>, LayoutProblem> {
        if self.points.len() > CAVITIES_MOST {
            return Err(LayoutProblem::TooMany { cavities: self.points.len() });
        }
        self.points
            .iter()
            .map(|(label, x, y)| somewhere(*x, *y).map(|(x, y)| spot(label.clone(), x, y, None)))
            .collect()
    }
}

fn group_spots(groups: &[Group]) -> Result<Vec<Spot>, LayoutProblem> {
    let mut spots = Vec::new();
    for (index, group) in groups.iter().enumerate() {
        let (dx, dy) = somewhere(group.at.0, group.at.1)?;
        for inner in group.layout.single_spots()? {
            spots.push(Spot {
                label: format!("{}{}", group.prefix, inner.label).parse()?,
                x: inner.x + dx,
                y: inner.y + dy,
                group: index,
                ..inner
            });
        }
    }
    // Rows are counted over the whole picture, so a ring among the groups leaves none to count.
    if spots.iter().any(|spot| spot.cell.is_none()) {
        spots.iter_mut().for_each(|spot| spot.cell = None);
    }
    Ok(spots)
}

fn positive(what: &'static str, value: f64) -> Result<(), LayoutProblem> {
    let fits = value > 0.0 && value <= 1000.0;
    if fits { Ok(()) } else { Err(LayoutProblem::Size { what, value }) }
}

fn somewhere(x: f64, y: f64) -> Result<(f64, f64), LayoutProblem> {
    let fits = |v: f64| (-10_000.0..=10_000.0).contains(&v);
    if fits(x) && fits(y) { Ok((x, y)) } else { Err(LayoutProblem::Nowhere { x, y }) }
}

/// Tells every spot the middle of the face.
fn set_middle(layout: &Layout, spots: &mut [Spot]) {
    let half = |values: &dyn Fn(&Spot) -> f64| {
        let low = spots.iter().map(values).fold(f64::INFINITY, f64::min);
        let high = spots.iter().map(values).fold(f64::NEG_INFINITY, f64::max);
        (low + high) / 2.0
    };
    let middle = match layout {
        Layout::Ring(_) => (0.0, 0.0),
        _ => (half(&|s| s.x), half(&|s| s.y)),
    };
    spots.iter_mut().for_each(|spot| spot.middle = middle);
}

/// At least one cavity, no label twice, no two cavities in one place, not too many.
fn check_apart(spots: &[Spot]) -> Result<(), LayoutProblem> {
    if spots.is_empty() {
        return Err(LayoutProblem::NoCavity);
    }
    if spots.len() > CAVITIES_MOST {
        return Err(LayoutProblem::TooMany { cavities: spots.len() });
    }
    for (i, one) in spots.iter().enumerate() {
        for other in spots.iter().skip(i + 1) {
            if one.label == other.label {
                return Err(LayoutProblem::Twice { label: one.label.clone() });
            }
            if distance(one, other) < 1e-3 {
                let (one, other) = (one.label.clone(), other.label.clone());
                return Err(LayoutProblem::OnOneAnother { one, other });
            }
        }
    }
    Ok(())
}

/// How far two cavities are from one another, in mm or grid units.
pub fn distance(one: &Spot, other: &Spot) -> f64 {
    (one.x - other.x).hypot(one.y - other.y)
}

/// The smallest distance between two cavities: the smallest pitch of the housing.
pub fn smallest_distance(spots: &[Spot]) -> f64 {
    let pairs = spots.iter().enumerate().flat_map(|(i, one)| spots.iter().skip(i + 1).map(move |o| (one, o)));
    // Squares compare as the distances do, and a housing of 200 cavities has 20,000 pairs.
    let squares = pairs.map(|(one, other)| (one.x - other.x).powi(2) + (one.y - other.y).powi(2));
    squares.fold(f64::INFINITY, f64::min).sqrt()
}
