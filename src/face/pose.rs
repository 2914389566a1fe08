//! A pose: which face is towards the eye and which side is up. Seen from the other face the
//! picture is mirrored, not turned; with another side up it is turned, not mirrored.

use std::{fmt, str::FromStr};

/// One of the two faces of a housing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Face {
    /// The face that meets the other half.
    Mating,
    /// The face the wires leave from.
    Wire,
}

impl Face {
    /// The face on the other side.
    pub fn other(self) -> Self {
        match self {
            Self::Mating => Self::Wire,
            Self::Wire => Self::Mating,
        }
    }
}

impl fmt::Display for Face {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Mating => "mating",
            Self::Wire => "wire",
        })
    }
}

impl FromStr for Face {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        match text.to_ascii_lowercase().as_str() {
            "mating" => Ok(Self::Mating),
            "wire" => Ok(Self::Wire),
            _ => Err(format!("\"{text}\" is not a face: it is mating or wire")),
        }
    }
}

/// A side of the housing, named as it lies in the drawing of its definition.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Side {
    /// The upper side of the drawing, wherever it points now.
    Top,
    /// The right side of the drawing.
    Right,
    /// The lower side of the drawing.
    Bottom,
    /// The left side of the drawing.
    Left,
}

impl fmt::Display for Side {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Top => "top",
            Self::Right => "right",
            Self::Bottom => "bottom",
            Self::Left => "left",
        })
    }
}

impl FromStr for Side {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        match text.to_ascii_lowercase().as_str() {
            "top" => Ok(Self::Top),
            "right" => Ok(Self::Right),
            "bottom" => Ok(Self::Bottom),
            "left" => Ok(Self::Left),
            _ => Err(format!("\"{text}\" is not a side: it is top, right, bottom or left")),
        }
    }
}

impl Side {
    /// The side across.
    pub fn opposite(self) -> Self {
        match self {
            Self::Top => Self::Bottom,
            Self::Right => Self::Left,
            Self::Bottom => Self::Top,
            Self::Left => Self::Right,
        }
    }
}

/// How a housing is held: the face towards the eye, and the side (as named in the drawing of the
/// definition) that is up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Pose {
    /// The face towards the eye.
    pub face: Face,
    /// The side that is up.
    pub up: Side,
}

impl Pose {
    /// Where a side of the housing lies in the picture, when the definition draws it from `drawn`.
    pub fn shows(self, side: Side, drawn: Face) -> Side {
        const CLOCKWISE: [Side; 4] = [Side::Top, Side::Right, Side::Bottom, Side::Left];
        let index = |s: Side| CLOCKWISE.iter().position(|c| *c == s).unwrap_or(0);
        let turned = match self.face == drawn {
            true => index(side) + 4 - index(self.up),
            false => index(self.up) + 4 - index(side),
        };
        CLOCKWISE.get(turned % 4).copied().unwrap_or(Side::Top)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_side_moves_the_way_the_housing_is_turned_and_mirrored() {
        let shown = |side, face, up| Pose { face, up }.shows(side, Face::Wire);
        assert_eq!(shown(Side::Right, Face::Wire, Side::Top), Side::Right);
        assert_eq!(shown(Side::Right, Face::Mating, Side::Top), Side::Left);
        assert_eq!(shown(Side::Top, Face::Wire, Side::Bottom), Side::Bottom);
        assert_eq!(shown(Side::Right, Face::Wire, Side::Bottom), Side::Left);
        assert_eq!(shown(Side::Right, Face::Mating, Side::Bottom), Side::Right);
        assert_eq!(shown(Side::Top, Face::Wire, Side::Right), Side::Left);
    }
}
