//! Anchors: questions that prove the point of view. They are asked by the pose of the housing in
//! the hand, never by label: the fewest places that tell the record, or the moulded marks, from
//! every wrong reading that can be told at all.

use std::collections::HashMap;

use crate::{
    colour::Colour,
    face::{Label, PosePlace},
};

use super::{
    Flip, JobSide,
    reading::{Misread, Readings, Wrong, fewest},
    seen::AnchorSeen,
    state::{JobHousing, State},
};

impl State {
    /// The colour recorded at a cavity of an old housing, when it holds one wire of known colour.
    pub(super) fn colour_at(&self, housing: &JobHousing, label: &Label) -> Option<&Colour> {
        let lead = self.records.found.get(&housing.address(label))?.lead()?;
        match lead.wires.as_slice() {
            [only] => only.colour.known(),
            _ => None,
        }
    }

    /// Every colour of an old housing that an anchor can ask for, by cavity.
    fn colours_by_label<'a>(&'a self, housing: &'a JobHousing) -> HashMap<&'a Label, &'a Colour> {
        let cavities = housing.housing().cavities.iter();
        cavities.filter_map(|c| Some((&c.label, self.colour_at(housing, &c.label)?))).collect()
    }

    /// The readings to be told apart: a moulded mark is never a hole off, a record may be.
    fn wrong_readings(housing: &JobHousing, readings: &Readings) -> Vec<Wrong> {
        let shifts = if housing.side == JobSide::Old { readings.shifts() } else { Vec::new() };
        readings.flips().map(Wrong::Flip).chain(shifts).collect()
    }

    /// The places to ask about, the next one first. Empty when the view is proved.
    pub fn anchors_left(&self, housing: &JobHousing) -> Vec<PosePlace> {
        let readings = Readings::of(housing.housing(), housing.pose());
        let wrong = Self::wrong_readings(housing, &readings);
        let colours = self.colours_by_label(housing);
        // Whether an answer at a place tells the right reading from a wrong one.
        let tells = |place: PosePlace, wrong: &Wrong| {
            let Some(label) = readings.right.label_at(place) else { return false };
            let other = readings.label_at(*wrong, place);
            match (housing.side, colours.get(label)) {
                (JobSide::New, _) => other != Some(label),
                (JobSide::Old, None) => false,
                (JobSide::Old, colour) => other.and_then(|other| colours.get(other)) != colour,
            }
        };
        let told_at = |place: PosePlace| {
            let bits = wrong.iter().enumerate().filter(|(_, wrong)| tells(place, wrong));
            bits.fold(0_u32, |mask, (bit, _)| mask | 1 << bit)
        };
        let places: Vec<(PosePlace, u32)> = places_by_worth(housing, &readings, &colours)
            .into_iter()
            .map(|place| (place, told_at(place)))
            .collect();
        let answered = |place: &PosePlace| housing.anchors.iter().any(|a| a.agrees && a.place == *place);
        let told = places.iter().filter(|(p, _)| answered(p)).fold(0, |told, (_, mask)| told | mask);
        let all = (0..wrong.len()).fold(0, |all, bit| all | 1 << bit);
        let mut left = fewest(&places, all & !told);
        left.sort();
        // A flip that no place can show is told by where the key or latch sits.
        let flips = (0..readings.flips().count()).fold(0, |flips, bit| flips | 1 << bit);
        let tellable = places.iter().fold(0, |told, (_, mask)| told | mask);
        if flips & !tellable != 0 && !housing.housing().features.is_empty() && !answered(&PosePlace::Key) {
            left.push(PosePlace::Key);
        }
        left
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

    /// Whether an answer to an anchor agrees with the record and the definition.
    pub(super) fn anchor_agrees(
        &self,
        housing: &JobHousing,
        place: PosePlace,
        colour: Option<&Colour>,
        mark: &str,
    ) -> bool {
        match housing.seen().label_at(place) {
            Some(label) => {
                let colour_agrees = housing.side == JobSide::New || self.looks_like(housing, label, colour);
                label.as_str() == mark.trim() && colour_agrees
            }
            None => place == PosePlace::Key && housing.housing().side_of(mark) == Some(housing.pose().up),
        }
    }

    /// The anchors of an old housing judged again, after its record was corrected.
    pub(super) fn judged_again(&self, housing: &JobHousing) -> Vec<AnchorSeen> {
        let again = |a: &AnchorSeen| AnchorSeen {
            agrees: self.anchor_agrees(housing, a.place, a.colour.as_ref(), &a.mark),
            ..a.clone()
        };
        housing.anchors.iter().map(again).collect()
    }

    /// The wrong readings that fit everything seen at the anchors of a housing, when the reading on
    /// record does not: by the colours of the record on an old one, by the moulded marks on a new
    /// one. One: it can be named, and an old record put right. Several: nothing can be said.
    pub fn readings_that_fit(&self, housing: &JobHousing) -> Vec<Misread> {
        if self.failed_anchor(housing).is_none() {
            return Vec::new();
        }
        let readings = Readings::of(housing.housing(), housing.pose());
        let fits = |how: &Flip| {
            let mut anchors = housing.anchors.iter().filter(|a| a.place != PosePlace::Key);
            anchors.all(|a| self.is_seen(housing, readings.label_at(Wrong::Flip(*how), a.place), a))
        };
        let mut flips: Vec<Flip> = Vec::new();
        for how in readings.flips().filter(fits) {
            // A single row mirrored is the same row turned: one reading, not two.
            if flips.iter().all(|other| !readings.same(*other, how)) {
                flips.push(how);
            }
        }
        let shifts = self.shifts_that_fit(housing, &readings).into_iter().map(Misread::Shift);
        flips.into_iter().map(Misread::Flip).chain(shifts).collect()
    }

    /// A place not answered yet where each of these readings has a colour, or mark, of its own: what to
    /// ask when several fit what was seen. Of one row that is off: where to look for its start.
    pub fn anchor_between(&self, housing: &JobHousing, fits: &[Misread]) -> Option<PosePlace> {
        if let [Misread::Shift(shift)] = fits {
            return self.place_that_pins(housing, shift);
        }
        let readings = Readings::of(housing.housing(), housing.pose());
        let wrong: Vec<Wrong> = fits.iter().map(Misread::wrong).collect();
        let shown = |label: Option<&Label>| match housing.side {
            JobSide::New => label.map(ToString::to_string),
            JobSide::Old => label.and_then(|l| self.colour_at(housing, l)).map(ToString::to_string),
        };
        let tells = |place: &PosePlace| {
            let shown: Vec<Option<String>> =
                wrong.iter().map(|w| shown(readings.label_at(*w, *place))).collect();
            let apart = shown.iter().enumerate().all(|(n, one)| !shown.iter().skip(n + 1).any(|o| o == one));
            apart && shown.iter().all(Option::is_some)
        };
        if wrong.len() < 2 {
            return None;
        }
        let answered = |place: &PosePlace| housing.anchors.iter().any(|a| a.place == *place);
        places_by_worth(housing, &readings, &self.colours_by_label(housing))
            .into_iter()
            .find(|place| !answered(place) && tells(place))
    }

    /// Whether the record has this colour in a cavity of an old housing; none: no wire.
    fn looks_like(&self, housing: &JobHousing, label: &Label, colour: Option<&Colour>) -> bool {
        match (self.colour_at(housing, label), colour) {
            (Some(recorded), Some(seen)) => recorded == seen,
            (None, None) => {
                self.records.found.get(&housing.address(label)).is_some_and(|h| h.lead().is_none())
            }
            (Some(_), None) | (None, Some(_)) => false,
        }
    }

    /// Whether what was seen at an anchor is what this cavity has: its colour on the record of an old
    /// housing, its label on a new one.
    pub(super) fn is_seen(&self, housing: &JobHousing, label: Option<&Label>, seen: &AnchorSeen) -> bool {
        match (label, housing.side) {
            (None, _) => false,
            (Some(label), JobSide::New) => label.as_str() == seen.mark,
            (Some(label), JobSide::Old) => self.looks_like(housing, label, seen.colour.as_ref()),
        }
    }
}

/// Every place, the best to ask about first: a colour that stands once on the record, then, on an old
/// housing, the end of a row in the order of its numbering, where everything written one hole off
/// before it shows; on a new one either end, which the eye finds first.
fn places_by_worth(
    housing: &JobHousing,
    readings: &Readings,
    colours: &HashMap<&Label, &Colour>,
) -> Vec<PosePlace> {
    let mut counts: HashMap<&Colour, usize> = HashMap::new();
    for colour in colours.values() {
        *counts.entry(colour).or_default() += 1;
    }
    let cavities = housing.housing().cavities.iter().enumerate();
    let rank: HashMap<&Label, usize> = cavities.map(|(n, cavity)| (&cavity.label, n)).collect();
    let mut places: Vec<(bool, usize, usize, PosePlace)> = Vec::new();
    for (r, row) in readings.right.rows().iter().enumerate() {
        let mut counted: Vec<Option<&usize>> = row.iter().map(|spot| rank.get(&spot.label)).collect();
        counted.sort();
        for (c, spot) in row.iter().enumerate() {
            let Some(place) = spot.place() else { continue };
            let repeats = colours.get(&spot.label).is_some_and(|colour| counts.get(colour) != Some(&1));
            let here = rank.get(&spot.label);
            let from_end = match housing.side {
                JobSide::Old => row.len() - counted.partition_point(|other| *other <= here),
                JobSide::New => c.min(row.len() - 1 - c),
            };
            places.push((repeats, from_end, r, place));
        }
    }
    places.sort();
    places.into_iter().map(|(.., place)| place).collect()
}
