//! The ways in which a whole record, or a row of it, can have been read wrongly, and what each
//! would put where. What tells them apart is asked as anchors.

use std::collections::BTreeMap;

use crate::{
    catalogue::Housing,
    face::{Label, Misreading, Pose, PosePlace},
};

use super::{Flip, view::Seen};

/// A neighbour in a row, as seen in the pose of the view (on a ring: against the clock, or with
/// it).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Beside {
    /// One place to the left; on a ring, one against the clock.
    Left,
    /// One place to the right; on a ring, one with the clock.
    Right,
}

impl Beside {
    /// Either side.
    pub const BOTH: [Self; 2] = [Self::Left, Self::Right];

    /// The place beside this one.
    pub fn of(self, place: PosePlace) -> Option<PosePlace> {
        let step = |n: usize| match self {
            Self::Left => n.checked_sub(1),
            Self::Right => Some(n + 1),
        };
        match place {
            PosePlace::Cell { row, column } => Some(PosePlace::Cell { row, column: step(column)? }),
            PosePlace::Clockwise(n) => step(n).map(PosePlace::Clockwise),
            PosePlace::Key => None,
        }
    }
}

/// A wrong reading that an anchor can tell from the right one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Wrong {
    /// The whole housing from another point of view.
    Flip(Flip),
    /// Every row recorded one hole off.
    EveryRow(Beside),
    /// This row recorded one hole off.
    Row(usize, Beside),
}

pub(super) const FLIPS: [Flip; 3] = [Flip::Mirror, Flip::Turn, Flip::Both];

/// A row of a record that is one hole off, as one mistake.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RowShift {
    /// The row, from 1, as seen in the pose of the view.
    pub row: usize,
    /// The first wrong cavity, in the order of the numbering: the earliest it can be.
    pub first: Label,
    /// The latest it can be, by what was seen so far.
    pub latest: Label,
    /// On which side of a hole its content was written.
    pub written: Beside,
}

/// What a record fits when it does not fit as it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Misread {
    /// Read from another point of view.
    Flip(Flip),
    /// A row is one hole off.
    Shift(RowShift),
}

impl Misread {
    /// How the record was read, in words: "if it was ...".
    pub fn in_words(&self) -> String {
        match self {
            Self::Flip(how) => how.in_words().to_owned(),
            Self::Shift(RowShift { row, first, latest, .. }) if first == latest => {
                format!("written one hole off in row {row} from cavity {first} on")
            }
            Self::Shift(RowShift { row, first, latest, .. }) => {
                format!("written one hole off in row {row}, from a cavity between {first} and {latest} on")
            }
        }
    }
}

impl Misread {
    /// What it would put where.
    pub(super) fn wrong(&self) -> Wrong {
        match self {
            Self::Flip(how) => Wrong::Flip(*how),
            Self::Shift(shift) => Wrong::Row(shift.row, shift.written),
        }
    }
}

impl Flip {
    /// The same, of a face.
    pub(super) fn misreading(self) -> Misreading {
        match self {
            Self::Mirror => Misreading::Mirror,
            Self::Turn => Misreading::Turn,
            Self::Both => Misreading::Both,
        }
    }

    /// How the record was read, in words.
    pub fn in_words(self) -> &'static str {
        match self {
            Self::Mirror => "read from the other face",
            Self::Turn => "read upside down",
            Self::Both => "read from the other face and upside down",
        }
    }
}

/// A housing as it is held, and which cavity is taken for which where the whole of it is read wrongly;
/// none for a reading nobody could make of it.
pub(super) struct Readings {
    pub right: Seen,
    flips: [Option<BTreeMap<Label, Label>>; 3],
}

impl Readings {
    pub fn of(housing: &Housing, pose: Pose) -> Self {
        let flips = FLIPS.map(|how| housing.misread(pose, how.misreading()));
        Self { right: Seen::of(housing, pose), flips }
    }

    /// The flips of the whole housing that somebody could make.
    pub fn flips(&self) -> impl Iterator<Item = Flip> {
        FLIPS.into_iter().zip(&self.flips).filter(|(_, pairs)| pairs.is_some()).map(|(how, _)| how)
    }

    /// Besides the flips: all rows one hole off, or the first or the last row alone, where counting
    /// starts and where it ends. The rows between are left to the row counts and re-reads.
    pub fn shifts(&self) -> Vec<Wrong> {
        let last = self.right.rows().len();
        let rows = if last > 1 { vec![1, last] } else { Vec::new() };
        let single = rows.iter().flat_map(|row| Beside::BOTH.map(|side| Wrong::Row(*row, side)));
        Beside::BOTH.map(Wrong::EveryRow).into_iter().chain(single).collect()
    }

    /// Whether two flips have the same cavity at every place.
    pub fn same(&self, one: Flip, other: Flip) -> bool {
        let rows = self.right.rows();
        let mut places = rows.iter().flatten().filter_map(|spot| spot.place());
        places.all(|p| self.label_at(Wrong::Flip(one), p) == self.label_at(Wrong::Flip(other), p))
    }

    /// The cavity whose content a wrong reading has at a place.
    pub fn label_at(&self, wrong: Wrong, place: PosePlace) -> Option<&Label> {
        match wrong {
            Wrong::Flip(how) => {
                let at = FLIPS.iter().position(|flip| *flip == how)?;
                self.flips.get(at)?.as_ref()?.get(self.right.label_at(place)?)
            }
            Wrong::Row(row, _) if row_of(place) != row => self.right.label_at(place),
            Wrong::Row(_, side) | Wrong::EveryRow(side) => self.right.label_at(side.of(place)?),
        }
    }
}

/// The row of a place, from 1; a ring is one row.
pub(super) fn row_of(place: PosePlace) -> usize {
    match place {
        PosePlace::Cell { row, .. } => row,
        PosePlace::Clockwise(_) | PosePlace::Key => 1,
    }
}

/// The fewest of these places whose masks together hold every bit of `needed`; of several such sets
/// the first, in the order given. Bits that no place holds are left out.
pub(super) fn fewest<P: Copy>(places: &[(P, u32)], needed: u32) -> Vec<P> {
    let needed = needed & places.iter().fold(0, |all, (_, mask)| all | mask);
    if needed == 0 {
        return Vec::new();
    }
    let useful: Vec<(P, u32)> =
        places.iter().map(|(p, mask)| (*p, mask & needed)).filter(|(_, mask)| *mask != 0).collect();
    (1..=useful.len()).find_map(|size| choose(&useful, needed, size)).unwrap_or_default()
}

/// The first `size` of these places that hold every bit.
fn choose<P: Copy>(places: &[(P, u32)], needed: u32, size: usize) -> Option<Vec<P>> {
    if size == 1 {
        return places.iter().find(|(_, mask)| mask & needed == needed).map(|(place, _)| vec![*place]);
    }
    let mut tried: Vec<u32> = Vec::new();
    for (n, (place, mask)) in places.iter().enumerate() {
        // A place that tells nothing more than one tried before leads nowhere new.
        let mask = mask & needed;
        if tried.iter().any(|before| before | mask == *before) {
            continue;
        }
        tried.push(mask);
        let rest = places.get(n + 1..).unwrap_or_default();
        if let Some(mut found) = choose(rest, needed & !mask, size - 1) {
            found.insert(0, *place);
            return Some(found);
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn no_smaller_set_tells_all_readings_apart(masks in prop::collection::vec(0_u32..512, 0..12)) {
            let places: Vec<(usize, u32)> = masks.iter().copied().enumerate().collect();
            let all = masks.iter().fold(0, |all, mask| all | mask);
            let chosen = fewest(&places, 511);
            let told = |set: &[usize]| set.iter().fold(0, |told, n| told | masks[*n]);
            prop_assert_eq!(told(&chosen), all);
            for set in 0_u32..1 << masks.len() {
                let set: Vec<usize> = (0..masks.len()).filter(|n| set >> n & 1 == 1).collect();
                prop_assert!(set.len() >= chosen.len() || told(&set) != all);
            }
        }
    }
}
