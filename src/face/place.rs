//! A place on a face named by the pose of the housing in the hand, never by its label: "top row,
//! far left". Written `row 1, 2 from left` on grids, `2 clockwise` on rings and points.

use std::{fmt, str::FromStr};

/// A place as the eye finds it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PosePlace {
    /// Row from the top and place from the left, both from 1, in the pose of the view.
    Cell {
        /// Row from the top.
        row: usize,
        /// Place from the left.
        column: usize,
    },
    /// On a ring or among points: counted clockwise from twelve o'clock, from 1, in the pose of
    /// the view.
    Clockwise(usize),
    /// Where the key or latch sits (asked when one row leaves no second place to ask about).
    Key,
}

impl fmt::Display for PosePlace {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Cell { row, column } => write!(f, "row {row}, {column} from left"),
            Self::Clockwise(n) => write!(f, "{n} clockwise"),
            Self::Key => f.write_str("key"),
        }
    }
}

impl FromStr for PosePlace {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let numbers: Vec<usize> = text
            .split(|c: char| !c.is_ascii_digit())
            .filter(|digits| !digits.is_empty())
            .filter_map(|digits| digits.parse().ok())
            .collect();
        match (text.trim(), numbers.as_slice()) {
            ("key", _) => Ok(Self::Key),
            (t, [row, column]) if t.starts_with("row") && *row > 0 && *column > 0 => {
                Ok(Self::Cell { row: *row, column: *column })
            }
            (t, [n]) if t.ends_with("clockwise") && *n > 0 => Ok(Self::Clockwise(*n)),
            _ => Err(format!(
                "\"{}\" is not a place: write \"row 1, 2 from left\", \"3 clockwise\" or \"key\"",
                crate::quantity::quoted(text)
            )),
        }
    }
}
