//! What is seen of a housing as it is held: places, labels and rows in a pose.

use std::collections::BTreeMap;

use crate::{
    catalogue::Housing,
    face::{Face, Label, Pose, PosePlace, SeenSpot, Side, seen_from},
    record::Address,
};

use super::{Flip, state::JobHousing};

/// The cavities of a housing as seen in one pose.
#[derive(Debug, Clone, PartialEq)]
pub struct Seen {
    spots: Vec<SeenSpot>,
    places: BTreeMap<PosePlace, usize>,
}

impl Seen {
    /// The picture of `housing` in `pose`.
    pub fn of(housing: &Housing, pose: Pose) -> Self {
        let spots = seen_from(&housing.spots, housing.drawn, pose);
        let places = spots.iter().enumerate().filter_map(|(i, spot)| Some((spot.place()?, i))).collect();
        Self { spots, places }
    }

    /// The place of a cavity.
    pub fn place_of(&self, label: &Label) -> Option<PosePlace> {
        self.spots.iter().find(|s| s.label == *label)?.place()
    }

    /// The cavity at a place.
    pub fn label_at(&self, place: PosePlace) -> Option<&Label> {
        self.spots.get(*self.places.get(&place)?).map(|s| &s.label)
    }

    /// The rows, top to bottom, each left to right; one row when there are none.
    pub fn rows(&self) -> Vec<Vec<&SeenSpot>> {
        let mut rows: Vec<(Option<usize>, Vec<&SeenSpot>)> = Vec::new();
        for spot in &self.spots {
            match rows.iter_mut().find(|(row, _)| *row == spot.row) {
                Some((_, spots)) => spots.push(spot),
                None => rows.push((spot.row, vec![spot])),
            }
        }
        rows.sort_by_key(|(row, _)| *row);
        rows.into_iter()
            .map(|(_, mut spots)| {
                spots.sort_by_key(|s| s.column);
                spots
            })
            .collect()
    }
}

/// The pose a record was keyed in, when it was keyed wrongly in this way.
pub fn flipped(pose: Pose, how: Flip) -> Pose {
    let opposite = pose.up.opposite();
    match how {
        Flip::Mirror => Pose { face: pose.face.other(), up: pose.up },
        Flip::Turn => Pose { face: pose.face, up: opposite },
        Flip::Both => Pose { face: pose.face.other(), up: opposite },
    }
}

/// A place as it is spoken of: with how many rows there are, and how many places in its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SpokenPlace {
    /// In a row.
    Cell {
        /// The row from the top, from 1.
        row: usize,
        /// How many rows there are.
        rows: usize,
        /// The place from the left, from 1.
        column: usize,
        /// How many places the row has.
        columns: usize,
    },
    /// Counted clockwise from twelve o'clock, from 1.
    Clockwise(usize),
    /// The key or latch.
    Key,
}

impl Seen {
    /// A place as it is spoken of.
    pub fn spoken(&self, place: PosePlace) -> SpokenPlace {
        match place {
            PosePlace::Cell { row, column } => {
                let rows = self.rows();
                let columns = rows.get(row.saturating_sub(1)).map_or(column, Vec::len);
                SpokenPlace::Cell { row, rows: rows.len(), column, columns }
            }
            PosePlace::Clockwise(n) => SpokenPlace::Clockwise(n),
            PosePlace::Key => SpokenPlace::Key,
        }
    }
}

/// How a housing is held, in words: `wires towards you, latch up`.
pub fn pose_in_words(housing: &Housing, pose: Pose) -> String {
    let face = match pose.face {
        Face::Wire => "wires towards you",
        Face::Mating => "mating face towards you",
    };
    format!("{face}, {}", housing.up_in_words(pose))
}

impl JobHousing {
    /// Where a tang that points to this side of the drawing is as the housing is held, and what is moulded
    /// on that side.
    pub fn tang_in_words(&self, side: Side) -> String {
        let whither = match self.pose().shows(side, self.housing().drawn) {
            Side::Top => "up",
            Side::Bottom => "DOWN",
            Side::Left => "to the LEFT",
            Side::Right => "to the RIGHT",
        };
        match self.housing().feature_on(side) {
            Some(feature) => format!("tang {whither}, on the {feature} side"),
            None => format!("tang {whither}"),
        }
    }

    /// The picture of it as it is held.
    pub fn seen(&self) -> Seen {
        Seen::of(self.housing(), self.pose())
    }

    /// Its rows as addresses, in the drawing's pose: what row counts and re-reads go by.
    pub fn rows(&self) -> Vec<Vec<Address>> {
        let seen = Seen::of(self.housing(), self.housing().drawn_pose());
        seen.rows()
            .into_iter()
            .map(|row| row.into_iter().map(|spot| self.address(&spot.label)).collect())
            .collect()
    }
}
