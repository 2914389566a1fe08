//! Small questions about the state that checks, flags and steps share.

use std::collections::BTreeSet;

use jiff::Timestamp;

use crate::{
    catalogue::Delivered,
    record::{Address, CavityContent, Difference, HousingName},
    shop_rules::TestKind,
};

use super::{
    Act, Arrival, ArrivedVerdict, Entry, Fit, JobSide, Question,
    state::{JobHousing, Occupant, State},
};

impl Act {
    /// Whether the act is work at the bench, so that another person doing it takes the job over.
    /// Reading back, looking, noting and accepting is what a second person is for.
    pub(super) fn is_bench_work(&self) -> bool {
        self.is_physical() || matches!(self, Self::Gate { .. } | Self::View { .. } | Self::Resume { .. })
    }
}

impl Arrival {
    /// Whether what waits for the line can go on with it.
    pub fn is_of_use(&self) -> bool {
        match self.verdict {
            ArrivedVerdict::AsAsked => true,
            ArrivedVerdict::Substitute => self.is_accepted,
            ArrivedVerdict::WrongPart | ArrivedVerdict::Damaged => false,
        }
    }
}

impl State {
    /// Why an entry made now would count as coming after an interruption.
    pub fn pause_before(&self, at: Timestamp, by: &str, act: &Act) -> Option<String> {
        self.pause_for(at, act.is_bench_work().then_some(by))
    }

    /// Why work now would come after an interruption; `by` is who works, when that is known.
    fn pause_for(&self, at: Timestamp, by: Option<&str>) -> Option<String> {
        let last = self.course.last_at?;
        if at < last {
            return Some("the clock ran backwards".to_owned());
        }
        let hours = at.since(last).map_or(0, |span| span.total(jiff::Unit::Hour).map_or(0, |h| h as i64));
        if hours >= i64::from(self.world.rules.pause_h.value) {
            return Some(format!("nothing was entered for {hours} hours"));
        }
        match (&self.course.bench, by) {
            (Some(bench), Some(by)) if bench != by => Some(format!("{by} goes on after {bench}")),
            _ => None,
        }
    }

    /// The state as the interruption before an entry leaves it, when there was one.
    pub(super) fn interrupted_by(&self, entry: &Entry) -> Option<Self> {
        let why = self.pause_before(entry.at, &entry.by, &entry.act)?;
        let mut state = self.clone();
        state.interrupt(&why);
        Some(state)
    }

    /// The state as an interruption leaves it, when work now would come after one.
    pub fn interrupted_at(&self, now: Timestamp, by: Option<&str>) -> Option<Self> {
        if self.course.resume.is_some() || self.course.stopped.is_some() || self.course.signed.is_some() {
            return None;
        }
        let why = self.pause_for(now, by)?;
        let mut state = self.clone();
        state.interrupt(&why);
        Some(state)
    }

    /// How many wires (leads), plugs and open holes a row holds now.
    pub fn count_row(&self, name: &HousingName, row: usize) -> Option<(usize, usize, usize)> {
        let housing = self.housings.housing(name)?;
        let rows = housing.rows();
        let row = rows.get(row.checked_sub(1)?)?;
        let mut counts = (0, 0, 0);
        for at in row {
            match self.items.occupant(at) {
                Some(Occupant::Lead(_)) => counts.0 += 1,
                Some(Occupant::Plug(_)) => counts.1 += 1,
                Some(Occupant::Other(_)) => counts.1 += usize::from(self.items.plug_at(at).is_some()),
                None if self.is_moulded_shut(at) => {}
                None => counts.2 += 1,
            }
        }
        Some(counts)
    }

    /// Whether a count is what the row holds. A bare hole that is empty by design may be counted as open
    /// or left out: by eye the two are the same.
    pub fn count_agrees(&self, name: &HousingName, row: usize, counted: (usize, usize, usize)) -> bool {
        let Some((wires, plugs, bare)) = self.count_row(name, row) else { return false };
        let by_design = self.empty_by_design(name, row);
        let open_agrees = counted.2 == bare || counted.2 + by_design == bare;
        // Of a doubled terminal one counts the terminal, another its wires.
        let wires_agree = counted.0 == wires || counted.0 == self.conductors_in_row(name, row);
        wires_agree && counted.1 == plugs && open_agrees
    }

    fn conductors_in_row(&self, name: &HousingName, row: usize) -> usize {
        let rows = self.housings.housing(name).map(JobHousing::rows).unwrap_or_default();
        let row = row.checked_sub(1).and_then(|n| rows.get(n));
        let leads = row.into_iter().flatten().filter_map(|at| self.items.lead_at(at));
        leads.map(|lead| self.items.wires_in_terminal(lead)).sum()
    }

    /// How many bare holes of a row nothing belongs in.
    fn empty_by_design(&self, name: &HousingName, row: usize) -> usize {
        let Some(housing) = self.housings.housing(name) else { return 0 };
        let rows = housing.rows();
        let row = row.checked_sub(1).and_then(|n| rows.get(n));
        let target = (housing.side == JobSide::New).then(|| self.target());
        let is_empty = |at: &&Address| match &target {
            Some(target) => *target.expected(at) == super::Expected::Nothing,
            None => self.records.found.get(*at) == Some(&CavityContent::Empty),
        };
        let bare = row
            .into_iter()
            .flatten()
            .filter(|at| self.items.occupant(at).is_none() && !self.is_moulded_shut(at));
        bare.filter(is_empty).count()
    }

    /// The rows of old housings whose record was read in and that nobody counted by eye yet.
    pub fn rows_to_count(&self) -> Vec<(HousingName, usize)> {
        let listed = self.housings.side(JobSide::Old).filter(|old| self.records.listed.contains(&old.name));
        let rows = listed.flat_map(|old| (1..=old.rows().len()).map(|row| (old.name.clone(), row)));
        rows.filter(|key| !self.records.counted.contains(key)).collect()
    }

    fn is_moulded_shut(&self, at: &Address) -> bool {
        let delivered = self.housings.cavity(at).map(|c| c.delivered);
        matches!(delivered, Some(Delivered::Blocked | Delivered::Bridge))
            || matches!(self.records.found.get(at), Some(CavityContent::Blocked))
    }

    /// Old cavities that are not on record yet, in the order of the numbering.
    pub fn unrecorded(&self) -> Vec<Address> {
        let all = self
            .housings
            .side(JobSide::Old)
            .flat_map(|h| h.housing().cavities.iter().map(|c| h.address(&c.label)));
        all.filter(|at| !self.records.found.contains_key(at)).collect()
    }

    /// Differences that nobody decided.
    pub fn undecided(&self) -> Vec<Difference> {
        let mut open = self.differences();
        open.retain(|d| !self.records.is_decided(d));
        open
    }

    /// The neighbours of the cavities open at intake that carry a wire: water may have reached
    /// their terminals.
    pub(super) fn neighbours_to_look_at(&self, differences: &[Difference]) -> Vec<Address> {
        let mut wanted = BTreeSet::new();
        for open in self.records.open_at_intake(differences) {
            let Some(housing) = self.housings.housing(&open.housing) else { continue };
            let spots = &housing.housing().spots;
            let Some(here) = spots.iter().find(|s| s.label == open.label) else { continue };
            let distance = |s: &crate::face::Spot| (s.x - here.x).hypot(s.y - here.y);
            let nearest = spots.iter().map(distance).filter(|d| *d > 1e-9).fold(f64::INFINITY, f64::min);
            // Next in the row and across the rows, not on the diagonal.
            for spot in spots.iter().filter(|s| s.label != open.label && distance(s) <= nearest * 1.25) {
                let at = housing.address(&spot.label);
                if self.records.found.get(&at).is_some_and(|h| h.lead().is_some()) {
                    wanted.insert(at);
                }
            }
        }
        wanted.into_iter().collect()
    }

    /// The questions to be answered with the mating half in the hand.
    pub fn questions(&self) -> Vec<Question> {
        let bridge = self.records.found.values().any(|h| matches!(h, CavityContent::Bridge(_)))
            || self.housings.all.iter().any(|h| !h.housing().bridges.is_empty());
        let mut questions = vec![Question::Key, Question::Latch, Question::Gender];
        questions.extend(bridge.then_some(Question::Clip));
        questions
    }

    /// The first question not yet answered.
    pub fn next_question(&self) -> Option<Question> {
        self.questions().into_iter().find(|q| !self.housings.compared.contains_key(q))
    }

    /// The question whose answer refuses the replacement, if one does.
    pub fn misfit(&self) -> Option<Question> {
        let refuses = |answer: &Fit| match answer {
            Fit::Fits => false,
            // Not knowing waits with everything else for the machine.
            Fit::DontKnow => !self.housings.waits_for_machine(),
            Fit::Differs => true,
        };
        self.questions()
            .into_iter()
            .find(|question| self.housings.compared.get(question).is_some_and(refuses))
    }

    /// The tests that are asked for and were not passed.
    pub fn tests_left(&self) -> Vec<TestKind> {
        // A test before the last move says nothing about what moved.
        let is_of_now = |test: &super::TestSeen| self.readings.new_moved.is_none_or(|moved| test.n > moved);
        let passed = |kind: &TestKind| {
            let last = self.readings.tests.iter().rev().find(|test| test.test == *kind);
            last.is_some_and(|test| test.passed && is_of_now(test))
        };
        self.world.rules.tests.value.iter().copied().filter(|kind| !passed(kind)).collect()
    }
}
