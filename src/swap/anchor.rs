//! Anchors: questions that prove the point of view. They are asked by the pose of the housing in
//! the hand, never by label, at places where a mirrored, turned or doubly wrong reading would put
//! something else.

use std::collections::BTreeMap;

use crate::{
    colour::Colour,
    face::{Label, PosePlace},
};

use super::{
    Flip, JobSide,
    state::{AnchorSeen, JobHousing, State},
    view::{Seen, flipped},
};

const FLIPS: [Flip; 3] = [Flip::Mirror, Flip::Turn, Flip::Both];

/// A housing as it is held, and as each wrong reading would have it.
struct Readings {
    right: Seen,
    wrong: [Seen; 3],
}

impl Readings {
    fn of(housing: &JobHousing) -> Self {
        let wrong = FLIPS.map(|how| Seen::of(housing.housing(), flipped(housing.pose(), how)));
        Self { right: housing.seen(), wrong }
    }
}

/// How many anchors prove a view: two, in different rows where there are two.
const NEEDED: usize = 2;

impl State {
    /// The colour recorded at a cavity of an old housing, when it holds one wire of known colour.
    fn colour_at(&self, housing: &JobHousing, label: &Label) -> Option<&Colour> {
        let lead = self.found.get(&housing.address(label))?.lead()?;
        match lead.wires.as_slice() {
            [only] => only.colour.known(),
            _ => None,
        }
    }

    /// Whether an answer at this place tells the right reading from the three wrong ones.
    fn tells(&self, housing: &JobHousing, readings: &Readings, place: PosePlace) -> bool {
        let Some(label) = readings.right.label_at(place) else { return false };
        let mut others = readings.wrong.iter().map(|reading| reading.label_at(place));
        match housing.side {
            JobSide::New => others.all(|other| other != Some(label)),
            JobSide::Old => match self.colour_at(housing, label) {
                None => false,
                Some(colour) => others.all(|other| {
                    other.and_then(|l| self.colour_at(housing, l)) != Some(colour) && other != Some(label)
                }),
            },
        }
    }

    /// How often each colour is on the record of a housing.
    fn colours_of(&self, housing: &JobHousing) -> BTreeMap<&Colour, usize> {
        let mine = self.found.iter().filter(|(at, _)| at.housing == housing.name);
        let wires = mine.filter_map(|(_, holds)| holds.lead()).flat_map(|lead| &lead.wires);
        let mut counts = BTreeMap::new();
        for colour in wires.filter_map(|wire| wire.colour.known()) {
            *counts.entry(colour).or_default() += 1;
        }
        counts
    }

    /// The places to ask about, the next one first. Empty when the view is proved.
    pub fn anchors_left(&self, housing: &JobHousing) -> Vec<PosePlace> {
        let told: Vec<PosePlace> =
            housing.anchors.iter().filter(|a| a.agrees && a.tells).map(|a| a.place).collect();
        if told.len() >= NEEDED {
            return Vec::new();
        }
        let mut chosen = self.anchor_places(housing);
        let left = chosen.len().saturating_sub(told.len());
        chosen.retain(|place| !told.contains(place));
        chosen.truncate(left);
        chosen
    }

    /// Whether the view of a housing is set and proved.
    pub fn view_is_proved(&self, housing: &JobHousing) -> bool {
        housing.view.is_some()
            && self.failed_anchor(housing).is_none()
            && self.anchors_left(housing).is_empty()
    }

    /// The anchor that failed since the view was last set, if one did.
    pub fn failed_anchor<'a>(&self, housing: &'a JobHousing) -> Option<&'a AnchorSeen> {
        housing.anchors.iter().find(|a| !a.agrees)
    }

    /// Two places in different rows where there are two, as far from the middle as can be; on a
    /// single row the second question is where the key or latch sits.
    fn anchor_places(&self, housing: &JobHousing) -> Vec<PosePlace> {
        let readings = Readings::of(housing);
        let seen = &readings.right;
        let rows = seen.rows();
        let colours = self.colours_of(housing);
        let mut candidates: Vec<(bool, usize, usize, PosePlace)> = Vec::new();
        for (r, row) in rows.iter().enumerate() {
            for (c, spot) in row.iter().enumerate() {
                let Some(place) = spot.place() else { continue };
                let colour = self.colour_at(housing, &spot.label);
                let unique = colour.is_none_or(|colour| colours.get(colour) == Some(&1));
                // Distance from the nearer end of the row: ends are found fastest by eye.
                candidates.push((!unique, c.min(row.len() - 1 - c), r, place));
            }
        }
        candidates.sort();
        let mut chosen: Vec<(usize, PosePlace)> = Vec::new();
        for (_, _, r, place) in candidates {
            if chosen.len() == NEEDED {
                break;
            }
            let other_row = rows.len() < NEEDED || chosen.iter().all(|(row, _)| *row != r);
            if other_row && self.tells(housing, &readings, place) {
                chosen.push((r, place));
            }
        }
        chosen.sort();
        let mut places: Vec<PosePlace> = chosen.into_iter().map(|(_, place)| place).collect();
        if rows.len() == 1 && seen.label_at(PosePlace::Clockwise(1)).is_none() {
            places.truncate(1);
        }
        if places.len() < NEEDED && !housing.housing().features.is_empty() {
            places.push(PosePlace::Key);
        }
        places
    }

    /// What an answer to an anchor amounts to.
    pub(super) fn judge_anchor(
        &self,
        housing: &JobHousing,
        place: PosePlace,
        colour: Option<&Colour>,
        mark: &str,
    ) -> AnchorSeen {
        let readings = Readings::of(housing);
        let (agrees, tells) = match readings.right.label_at(place) {
            Some(label) => {
                let mark_agrees = label.as_str() == mark.trim();
                let colour_agrees = match (housing.side, colour) {
                    (JobSide::New, _) => true,
                    (JobSide::Old, Some(colour)) => self.colour_at(housing, label) == Some(colour),
                    (JobSide::Old, None) => false,
                };
                (mark_agrees && colour_agrees, self.tells(housing, &readings, place))
            }
            None => {
                let side = housing.housing().side_of(mark);
                (place == PosePlace::Key && side == Some(housing.pose().up) && side.is_some(), true)
            }
        };
        AnchorSeen { place, colour: colour.cloned(), mark: mark.trim().to_owned(), agrees, tells }
    }

    /// The wrong readings that fit everything seen at the anchors of a housing, when the reading on
    /// record does not: by the colours of the record on an old one, by the moulded marks on a new
    /// one. One: it can be named, and an old record flipped. Several: nothing can be said.
    pub fn readings_that_fit(&self, housing: &JobHousing) -> Vec<Flip> {
        if self.failed_anchor(housing).is_none() {
            return Vec::new();
        }
        let fits = |how: &Flip| {
            let reading = Seen::of(housing.housing(), flipped(housing.pose(), *how));
            let mut anchors = housing.anchors.iter().filter(|a| a.place != PosePlace::Key);
            anchors.all(|anchor| match (reading.label_at(anchor.place), housing.side) {
                (None, _) => false,
                (Some(label), JobSide::New) => label.as_str() == anchor.mark,
                (Some(label), JobSide::Old) => {
                    let recorded = self.colour_at(housing, label);
                    recorded.is_some() && recorded == anchor.colour.as_ref()
                }
            })
        };
        FLIPS.into_iter().filter(fits).collect()
    }
}

impl Flip {
    /// How the record was read, in words.
    pub fn in_words(self) -> &'static str {
        match self {
            Self::Mirror => "read from the other face",
            Self::Turn => "read upside down",
            Self::Both => "read from the other face and upside down",
        }
    }
}
