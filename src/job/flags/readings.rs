//! Flags on what was looked at, counted, read back and tested, and did not agree.

use super::{
    Flag, Flags,
    cause::{FlagCause, ReadingCause},
};
use crate::{
    face::{Face, Label},
    job::{JobHousing, JobSide, LookSeen, Readings, state::State, target::Target},
    record::HousingName,
};

impl State {
    /// Faces of old housings that were looked over and not found sound.
    pub(super) fn flag_old_faces(&self, flags: &mut Flags) {
        for old in self.housings.side(JobSide::Old) {
            let looks =
                self.readings.looked_over.iter().filter(|((name, _), look)| *name == old.name && !look.sound);
            flags.extend(looks.map(|((_, face), look)| not_sound(old, *face, look)));
        }
    }

    /// Holes that were re-read, and rows that were counted, and did not agree.
    pub(super) fn flag_read_back(&self, flags: &mut Flags) {
        for (at, reread) in self.readings.rereads.iter().filter(|(_, r)| !r.agrees) {
            let cause = ReadingCause::ReadElse { at: at.clone(), by: reread.by.clone() };
            flags.push(reading(cause).at(self, at));
        }
        for ((name, row), _) in self.readings.row_counts.iter().filter(|(_, agrees)| !**agrees) {
            let ends = self.housings.row_ends(name, *row);
            let flag = reading(ReadingCause::RowDiffers { housing: name.clone(), row: *row, ends });
            let side = self.housings.housing(name).map(|h| h.side);
            flags.push(Flag { housing: Some(name.clone()), side, ..flag });
        }
    }

    /// Tests that failed and were not made again since.
    pub(super) fn flag_failed_tests(&self, flags: &mut Flags) {
        for test in self.readings.tests.iter().filter(|t| !t.passed) {
            let later =
                self.readings.tests.iter().rev().find(|t| t.test == test.test && t.circuit == test.circuit);
            if later.is_some_and(|t| t.n == test.n) {
                let cause = ReadingCause::TestFailed {
                    test: test.test,
                    value: test.value.clone(),
                    limit: test.limit.clone(),
                };
                flags.push(reading(cause).circuit(test.circuit.as_deref()));
            }
        }
    }

    /// Rows that were read in from a list and not counted by eye.
    pub(super) fn flag_rows_read_in(&self, flags: &mut Flags) {
        for (housing, row) in self.rows_to_count() {
            let flag = reading(ReadingCause::RowReadIn { housing: housing.clone(), row });
            flags.push(Flag { housing: Some(housing), side: Some(JobSide::Old), ..flag });
        }
    }

    /// Terminals beside an open cavity that nobody looked at.
    pub(super) fn flag_neighbours(&self, target: &Target, flags: &mut Flags) {
        let neighbours = &target.look_closely;
        if self.has_moved() && neighbours.iter().any(|at| !self.readings.looked_at.contains(at)) {
            let labels: Vec<Label> = neighbours.iter().map(|at| at.label.clone()).collect();
            flags.push(reading(ReadingCause::NeighboursNotLookedAt(labels)));
        }
    }
}

/// A face that was looked over and not found sound.
pub(super) fn not_sound(housing: &JobHousing, face: Face, look: &LookSeen) -> Flag {
    let (name, found) = (housing.name.clone(), look.found.clone());
    reading(ReadingCause::FaceNotSound { housing: name, face, found }).of(housing)
}

fn reading(cause: ReadingCause) -> Flag {
    Flag::job(FlagCause::Reading(cause))
}

impl Readings {
    /// Whether a face was looked over and found sound.
    pub(in crate::job) fn is_found_sound(&self, name: &HousingName, face: Face) -> bool {
        self.looked_over.get(&(name.clone(), face)).is_some_and(|look| look.sound)
    }
}
