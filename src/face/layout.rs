//! Layouts of cavities: grids (staggered too), rings, points, and groups of these.

use super::{Label, numbering::Numbering};

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
    pub cell: Option<Cell>,
}

/// A place in the lattice of a grid.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cell {
    /// Row from 0 at the top of the drawing.
    pub row: i32,
    /// Column in half steps from 0 at the left of the drawing, so that staggered rows stay whole.
    pub half_column: i32,
}

/// A layout with its numbering, as a definition describes it.
#[derive(Debug, Clone, PartialEq)]
#[allow(missing_docs)]
pub enum Layout {
    Grid { numbering: Numbering },
}

/// Why a layout cannot be numbered.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum LayoutProblem {}
