//! How the cavities of a layout are numbered: as data, never as code for one housing.

/// Where counting starts, in the drawing of the definition.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Corner {
    TopLeft,
    TopRight,
    BottomLeft,
    BottomRight,
}

/// How counting goes on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Path {
    /// Every row (or column) in the same direction.
    Straight,
    /// Every second row (or column) backwards.
    Serpentine,
    /// Down one side and up the other.
    Round,
}

/// A numbering rule.
#[derive(Debug, Clone, PartialEq)]
pub struct Numbering {}
