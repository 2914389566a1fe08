//! Why a layout does not add up.

use crate::{face::Label, quantity::TextProblem};

/// The most cavities one housing can have; no real one comes near.
pub const CAVITIES_MOST: usize = 1000;

/// Why a layout cannot be numbered.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum LayoutProblem {
    /// No cavity at all.
    #[error("the layout has no cavity")]
    NoCavity,
    /// More cavities than any housing has.
    #[error("the layout has {cavities} cavities: at most {CAVITIES_MOST} are allowed")]
    TooMany {
        /// How many.
        cavities: usize,
    },
    /// A length that cannot be.
    #[error("{what} is {value}: it has to be more than 0 and at most 1000 mm")]
    Size {
        /// Which length.
        what: &'static str,
        /// What it is.
        value: f64,
    },
    /// A place that is nowhere.
    #[error("x {x}, y {y} is no place: numbers from -10000 to 10000 are allowed")]
    Nowhere {
        /// To the right.
        x: f64,
        /// Downwards.
        y: f64,
    },
    /// A place left out that the grid does not have.
    #[error("row {row}, column {column} is left out, but the grid has {rows} rows of {columns}")]
    LeftOut {
        /// The row named.
        row: usize,
        /// The column named.
        column: usize,
        /// Rows of the grid.
        rows: usize,
        /// Columns of the grid.
        columns: usize,
    },
    /// A count that starts with neither a number nor a letter.
    #[error("counting cannot start at \"{first}\": it is a number or one letter")]
    First {
        /// What was given.
        first: String,
    },
    /// Letters are used up.
    #[error("{cavities} cavities, but only {letters} letters are left up to Z: list the labels")]
    LettersRunOut {
        /// Cavities to be labelled.
        cavities: usize,
        /// Letters there are.
        letters: usize,
    },
    /// Another number of labels than cavities.
    #[error("{labels} labels are listed for {cavities} cavities")]
    ListLength {
        /// Labels listed.
        labels: usize,
        /// Cavities there are.
        cavities: usize,
    },
    /// Another number of prefixes than lines.
    #[error("{prefixes} prefixes are given for {lines} rows or columns")]
    Prefixes {
        /// Prefixes given.
        prefixes: usize,
        /// Lines there are.
        lines: usize,
    },
    /// Prefixes per line where there are no lines.
    #[error("a prefix per row or column needs rows or columns: count straight or serpentine")]
    PrefixRound,
    /// Two cavities with one label.
    #[error("the label {label} is given to two cavities")]
    Twice {
        /// The label.
        label: Label,
    },
    /// Two cavities in one place.
    #[error("the cavities {one} and {other} lie on one another")]
    OnOneAnother {
        /// One of them.
        one: Label,
        /// The other.
        other: Label,
    },
    /// Groups within a group.
    #[error("a group cannot hold groups")]
    Nested,
    /// Some parts in mm and some not.
    #[error("some groups give their pitch in mm and some do not: give all or none")]
    MixedUnits,
    /// A label that cannot be one.
    #[error(transparent)]
    Label(#[from] TextProblem),
}
