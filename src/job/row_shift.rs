//! A row of a record that is one hole off from some cavity on: one mistake. Where it can start, where
//! to look to pin that down, and the row put right.

use crate::{
    face::{Label, PosePlace},
    record::{Address, CavityContent},
};

use super::{
    JobSide,
    reading::{Beside, Readings, RowShift, row_of},
    seen::AnchorSeen,
    state::{JobHousing, State},
    view::Seen,
};

/// A row in the order of its numbering, as seen.
struct ShiftedRow {
    seen: Seen,
    labels: Vec<Label>,
}

impl ShiftedRow {
    fn of(housing: &JobHousing, row: usize) -> Self {
        let seen = housing.seen();
        let in_row = |label: &Label| seen.place_of(label).is_some_and(|place| row_of(place) == row);
        let all = housing.housing().cavities.iter().map(|cavity| &cavity.label);
        let labels = all.filter(|label| in_row(label)).cloned().collect();
        Self { seen, labels }
    }

    fn nth(&self, place: PosePlace) -> Option<usize> {
        let label = self.seen.label_at(place)?;
        self.labels.iter().position(|in_row| in_row == label)
    }

    /// The cavity a hole's content was written at, when the row is off from cavity number `start` on.
    /// None: nobody wrote it down.
    fn written_at(&self, n: usize, start: usize, written: Beside) -> Option<&Label> {
        let beside = written.of(self.seen.place_of(self.labels.get(n)?)?)?;
        let there = self.nth(beside)?;
        self.labels.get(there).filter(|_| there >= start)
    }
}

impl State {
    /// The rows that would explain every anchor by being one hole off from some cavity on.
    pub(super) fn shifts_that_fit(&self, housing: &JobHousing, readings: &Readings) -> Vec<RowShift> {
        let failed: Vec<&AnchorSeen> = housing.anchors.iter().filter(|a| !a.agrees).collect();
        let Some(row) = failed.first().map(|a| row_of(a.place)) else { return Vec::new() };
        let one_row = failed.iter().all(|a| row_of(a.place) == row && a.place != PosePlace::Key);
        let marks_agree = failed
            .iter()
            .all(|a| readings.right.label_at(a.place).is_some_and(|label| label.as_str() == a.mark));
        if housing.side == JobSide::New || !one_row || !marks_agree {
            return Vec::new();
        }
        let in_order = ShiftedRow::of(housing, row);
        // It starts after the last hole that is right and not after the first that is wrong.
        let right = housing.anchors.iter().filter(|a| a.agrees && row_of(a.place) == row);
        let least = right.filter_map(|a| in_order.nth(a.place)).map(|n| n + 1).max().unwrap_or(0);
        let most = failed.iter().filter_map(|a| in_order.nth(a.place)).min().unwrap_or(0);
        let shift = |written: Beside| {
            let fits = |start: &usize| {
                failed.iter().all(|a| {
                    let n = in_order.nth(a.place).unwrap_or(0);
                    match in_order.written_at(n, *start, written) {
                        Some(label) => self.is_seen(housing, Some(label), a),
                        // What nobody wrote down can be anything.
                        None => n == *start,
                    }
                })
            };
            let starts: Vec<usize> = (least..=most).filter(fits).collect();
            let (first, latest) = (starts.first().copied()?, starts.last().copied()?);
            // One hole that could hold anything is no row.
            let shown = failed.iter().any(|a| {
                let n = in_order.nth(a.place).unwrap_or(0);
                in_order.written_at(n, first, written).is_some()
            });
            let label = |n: usize| in_order.labels.get(n).cloned();
            shown.then(|| Some(RowShift { row, first: label(first)?, latest: label(latest)?, written }))?
        };
        Beside::BOTH.into_iter().filter_map(shift).collect()
    }

    /// A hole between where the row was right and where it is wrong, in the middle of them, that tells
    /// on which side of it the mistake starts. None: nothing is left to tell.
    pub(super) fn place_that_pins(&self, housing: &JobHousing, shift: &RowShift) -> Option<PosePlace> {
        let row = ShiftedRow::of(housing, shift.row);
        let position = |label: &Label| row.labels.iter().position(|in_row| in_row == label);
        let (first, latest) = (position(&shift.first)?, position(&shift.latest)?);
        let content = |label: &Label| self.records.found.get(&housing.address(label));
        let tells = |n: &usize| {
            let there = row.written_at(*n, first, shift.written).or_else(|| row.labels.get(n + 1));
            let here = row.labels.get(*n);
            here.and_then(content) != there.and_then(content)
        };
        let answered = |place: PosePlace| housing.anchors.iter().any(|a| a.place == place);
        let free = |n: &usize| {
            let place = row.labels.get(*n).and_then(|label| row.seen.place_of(label));
            place.is_some_and(|place| !answered(place))
        };
        let mut between: Vec<usize> = (first..latest).filter(|n| free(n) && tells(n)).collect();
        let middle = (first + latest) / 2;
        between.sort_by_key(|n| n.abs_diff(middle));
        row.labels.get(*between.first()?).and_then(|label| row.seen.place_of(label))
    }

    /// A row that is one hole off put right: what each cavity from the first wrong one holds, and the
    /// cavity whose content nobody wrote down.
    pub fn row_put_right(
        &self,
        housing: &JobHousing,
        shift: &RowShift,
    ) -> Option<(Vec<(Address, CavityContent)>, Address)> {
        let row = ShiftedRow::of(housing, shift.row);
        let start = row.labels.iter().position(|label| *label == shift.first)?;
        let mut holds = Vec::new();
        let mut unknown = None;
        for (n, label) in row.labels.iter().enumerate().skip(start) {
            let written = row.written_at(n, start, shift.written);
            match written.and_then(|there| self.records.found.get(&housing.address(there))) {
                Some(content) => holds.push((housing.address(label), content.clone())),
                None => unknown = Some(housing.address(label)),
            }
        }
        Some((holds, unknown?))
    }
}
