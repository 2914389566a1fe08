//! Small questions about the state that checks, flags and steps share.

use std::collections::BTreeSet;

use jiff::Timestamp;

use crate::{
    catalogue::{Cavity, Delivered, LockState, SizeName},
    record::{Address, CavityContent, Difference, DifferenceKind, HousingName},
    shop_rules::TestKind,
};

use super::{
    Act, Arrival, ArrivedVerdict, Entry, Fit, ItemId, JobSide, Lead, Place, Question, RecordSide,
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
        let last = self.last_at?;
        if at < last {
            return Some("the clock ran backwards".to_owned());
        }
        let hours = at.since(last).map_or(0, |span| span.total(jiff::Unit::Hour).map_or(0, |h| h as i64));
        if hours >= i64::from(self.rules.pause_h.value) {
            return Some(format!("nothing was entered for {hours} hours"));
        }
        match (&self.bench, by) {
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
        if self.resume.is_some() || self.stopped.is_some() || self.signed.is_some() {
            return None;
        }
        let why = self.pause_for(now, by)?;
        let mut state = self.clone();
        state.interrupt(&why);
        Some(state)
    }

    /// The old housing a flip is about: the one named, else the only one.
    pub fn flipped_housing(&self, name: Option<&HousingName>) -> Option<HousingName> {
        match name {
            Some(name) => self.side(JobSide::Old).find(|h| h.name == *name).map(|h| h.name.clone()),
            None => self.only_old().cloned(),
        }
    }

    /// Old cavities as they are spoken of: by label alone where there is one old housing.
    pub fn spoken(&self, at: &[Address]) -> Vec<String> {
        at.iter().map(|at| self.short(at)).collect()
    }

    /// An address as short as it is clear: the label, with its housing where its side has several.
    pub fn short(&self, at: &Address) -> String {
        match self.side_of(at).is_some_and(|side| self.side(side).count() > 1) {
            true => at.to_string(),
            false => at.label.to_string(),
        }
    }

    /// The lead that sits in a cavity.
    pub fn lead_at(&self, at: &Address) -> Option<&Lead> {
        self.leads.iter().find(|l| matches!(&l.place, Place::In(a) if a == at))
    }

    /// Where an item is.
    pub fn place_of(&self, id: &ItemId) -> Option<Place> {
        let lead = self.leads.iter().find(|l| l.id == *id).map(|l| &l.place);
        let plug = || self.plugs.iter().find(|p| p.id == *id).map(|p| &p.place);
        let other = || self.others.iter().find(|o| o.id == *id).map(|o| &o.place);
        lead.or_else(plug).or_else(other).cloned()
    }

    /// The definition of a cavity of the job.
    pub fn cavity(&self, at: &Address) -> Option<&Cavity> {
        self.housing(&at.housing)?.housing().cavity(&at.label)
    }

    /// The size of a cavity of the job.
    pub fn cavity_size(&self, at: &Address) -> Option<SizeName> {
        self.cavity(at).map(|cavity| cavity.size.clone())
    }

    /// The row of a cavity, from 1, in its housing's drawing.
    pub fn row_of(&self, at: &Address) -> Option<usize> {
        let rows = self.housing(&at.housing)?.rows();
        rows.iter().position(|row| row.contains(at)).map(|i| i + 1)
    }

    /// How many wires (leads), plugs and open holes a row holds now.
    pub fn count_row(&self, name: &HousingName, row: usize) -> Option<(usize, usize, usize)> {
        let housing = self.housing(name)?;
        let rows = housing.rows();
        let row = rows.get(row.checked_sub(1)?)?;
        let mut counts = (0, 0, 0);
        for at in row {
            match self.occupant(at) {
                Some(Occupant::Lead(_)) => counts.0 += 1,
                Some(Occupant::Plug(_)) => counts.1 += 1,
                Some(Occupant::Other(_)) => counts.1 += usize::from(self.plug_at(at).is_some()),
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

    /// A row by the holes at its ends: `1 to 6`. However the housing is held, they are the same.
    pub fn row_in_words(&self, name: &HousingName, row: usize) -> String {
        let rows = self.housing(name).map(JobHousing::rows).unwrap_or_default();
        let row = row.checked_sub(1).and_then(|n| rows.get(n));
        match row.map(|row| (row.first(), row.last())) {
            Some((Some(first), Some(last))) if first != last => format!("{} to {}", first.label, last.label),
            Some((Some(only), _)) => only.label.to_string(),
            _ => "?".to_owned(),
        }
    }

    fn conductors_in_row(&self, name: &HousingName, row: usize) -> usize {
        let rows = self.housing(name).map(JobHousing::rows).unwrap_or_default();
        let row = row.checked_sub(1).and_then(|n| rows.get(n));
        let leads = row.into_iter().flatten().filter_map(|at| self.lead_at(at));
        leads.map(|lead| self.wires_in_terminal(lead)).sum()
    }

    /// How many bare holes of a row nothing belongs in.
    fn empty_by_design(&self, name: &HousingName, row: usize) -> usize {
        let Some(housing) = self.housing(name) else { return 0 };
        let rows = housing.rows();
        let row = row.checked_sub(1).and_then(|n| rows.get(n));
        let target = (housing.side == JobSide::New).then(|| self.target());
        let is_empty = |at: &&Address| match &target {
            Some(target) => *target.expected(at) == super::Expected::Nothing,
            None => self.found.get(*at) == Some(&CavityContent::Empty),
        };
        let bare =
            row.into_iter().flatten().filter(|at| self.occupant(at).is_none() && !self.is_moulded_shut(at));
        bare.filter(is_empty).count()
    }

    /// The rows of old housings whose record was read in and that nobody counted by eye yet.
    pub fn rows_to_count(&self) -> Vec<(HousingName, usize)> {
        let listed = self.side(JobSide::Old).filter(|old| self.listed.contains(&old.name));
        let rows = listed.flat_map(|old| (1..=old.rows().len()).map(|row| (old.name.clone(), row)));
        rows.filter(|key| !self.counted.contains(key)).collect()
    }

    /// The lead, plug or other that an address speaks of: what sits there, else what was recorded there.
    pub(super) fn item_spoken_of(&self, at: &Address) -> Option<ItemId> {
        let id = ItemId::At(at.clone());
        let here = self.lead_at(at).map(|lead| lead.id.clone());
        here.or_else(|| self.lead(&id).map(|lead| lead.id.clone()))
    }

    /// Where the first lead was recorded that waits for a line of the request.
    pub(super) fn waits_at(&self, line: u32) -> Option<Address> {
        let lines = self.requested.iter().flat_map(|request| &request.lines);
        let mut leads = lines.filter(|asked| asked.line == line).flat_map(|asked| &asked.leads);
        match leads.next() {
            Some(ItemId::At(at)) => Some(at.clone()),
            _ => None,
        }
    }

    /// Whether the mating half is away, so that what needs the machine waits for it.
    pub fn waits_for_machine(&self) -> bool {
        self.mating_half == Some(super::MatingVerdict::NotHere)
    }

    fn is_moulded_shut(&self, at: &Address) -> bool {
        let delivered = self.cavity(at).map(|c| c.delivered);
        matches!(delivered, Some(Delivered::Blocked | Delivered::Bridge))
            || matches!(self.found.get(at), Some(CavityContent::Blocked))
    }

    /// Old cavities that are not on record yet, in the order of the numbering.
    pub fn unrecorded(&self) -> Vec<Address> {
        let all =
            self.side(JobSide::Old).flat_map(|h| h.housing().cavities.iter().map(|c| h.address(&c.label)));
        all.filter(|at| !self.found.contains_key(at)).collect()
    }

    /// Differences that nobody decided.
    pub fn undecided(&self) -> Vec<Difference> {
        let mut open = self.differences();
        open.retain(|d| !self.is_decided(d));
        open
    }

    /// Whether somebody decided a difference: this one, not another that stood there before.
    pub fn is_decided(&self, difference: &Difference) -> bool {
        self.decided_for(difference).is_some()
    }

    /// Which record wins a difference, once somebody decided it.
    pub fn decided_for(&self, difference: &Difference) -> Option<RecordSide> {
        let decision = self.decisions.get(&difference.at)?;
        decision.about.contains(&difference.kind).then_some(decision.wins)
    }

    /// Cavities that were open at intake: something belongs there and is not there.
    fn open_at_intake(&self, differences: &[Difference]) -> Vec<Address> {
        let explained: BTreeSet<&Address> = differences
            .iter()
            .flat_map(|d| match &d.kind {
                DifferenceKind::Elsewhere { should_at, .. } => vec![should_at],
                DifferenceKind::Shifted { moves } => moves.iter().map(|(.., there)| there).collect(),
                _ => Vec::new(),
            })
            .collect();
        let open = self.found.iter().filter(|(at, h)| **h == CavityContent::Open && !explained.contains(at));
        open.map(|(at, _)| at.clone()).collect()
    }

    /// The neighbours of the cavities open at intake that carry a wire: water may have reached
    /// their terminals.
    pub(super) fn neighbours_to_look_at(&self, differences: &[Difference]) -> Vec<Address> {
        let mut wanted = BTreeSet::new();
        for open in self.open_at_intake(differences) {
            let Some(housing) = self.housing(&open.housing) else { continue };
            let spots = &housing.housing().spots;
            let Some(here) = spots.iter().find(|s| s.label == open.label) else { continue };
            let distance = |s: &crate::face::Spot| (s.x - here.x).hypot(s.y - here.y);
            let nearest = spots.iter().map(distance).filter(|d| *d > 1e-9).fold(f64::INFINITY, f64::min);
            // Next in the row and across the rows, not on the diagonal.
            for spot in spots.iter().filter(|s| s.label != open.label && distance(s) <= nearest * 1.25) {
                let at = housing.address(&spot.label);
                if self.found.get(&at).is_some_and(|h| h.lead().is_some()) {
                    wanted.insert(at);
                }
            }
        }
        wanted.into_iter().collect()
    }

    /// Whether terminals can leave and enter a housing: its lock is open, broken or not there.
    pub fn lock_is_open(&self, housing: &JobHousing) -> bool {
        match (&housing.housing().lock, housing.lock) {
            (None, _) | (_, None | Some(LockState::Broken | LockState::Out)) => true,
            (Some(lock), Some(now)) => now == lock.open_state,
        }
    }

    /// The questions to be answered with the mating half in the hand.
    pub fn questions(&self) -> Vec<Question> {
        let bridge = self.found.values().any(|h| matches!(h, CavityContent::Bridge(_)))
            || self.housings.iter().any(|h| !h.housing().bridges.is_empty());
        let mut questions = vec![Question::Key, Question::Latch, Question::Gender];
        questions.extend(bridge.then_some(Question::Clip));
        questions
    }

    /// A clip or bridge of the old housings that the new ones come without.
    pub fn clip_missing(&self) -> Option<&str> {
        let news: Vec<&str> =
            self.side(JobSide::New).flat_map(|h| &h.housing().bridges).map(|b| b.name.as_str()).collect();
        let olds = self.side(JobSide::Old).flat_map(|h| &h.housing().bridges).map(|b| b.name.as_str());
        olds.into_iter().find(|name| !news.contains(name))
    }

    /// The first question not yet answered.
    pub fn next_question(&self) -> Option<Question> {
        self.questions().into_iter().find(|q| !self.compared.contains_key(q))
    }

    /// The question whose answer refuses the replacement, if one does.
    pub fn misfit(&self) -> Option<Question> {
        let refuses = |answer: &Fit| match answer {
            Fit::Fits => false,
            // Not knowing waits with everything else for the machine.
            Fit::DontKnow => !self.waits_for_machine(),
            Fit::Differs => true,
        };
        self.questions().into_iter().find(|question| self.compared.get(question).is_some_and(refuses))
    }

    /// The tests that are asked for and were not passed.
    pub fn tests_left(&self) -> Vec<TestKind> {
        // A test before the last move says nothing about what moved.
        let is_of_now = |test: &super::TestSeen| self.new_moved.is_none_or(|moved| test.n > moved);
        let passed = |kind: &TestKind| {
            let last = self.tests.iter().rev().find(|test| test.test == *kind);
            last.is_some_and(|test| test.passed && is_of_now(test))
        };
        self.rules.tests.value.iter().copied().filter(|kind| !passed(kind)).collect()
    }

    /// A test that failed, and was not passed since.
    pub fn failed_test(&self) -> Option<&super::TestSeen> {
        self.tests.iter().filter(|test| !test.passed).find(|failed| {
            let same = |test: &&super::TestSeen| test.test == failed.test && test.circuit == failed.circuit;
            self.tests.iter().rev().find(same).is_some_and(|last| !last.passed)
        })
    }

    /// Whether a parked lead waits for a part: its repair is planned, and the parts asked for it
    /// have not all come (or were not asked for yet).
    pub fn waits_for_part(&self, lead: &Lead) -> bool {
        let needs_part =
            lead.planned.is_some_and(|how| how == super::RepairKind::NewSeal || how.renews_terminal());
        if !needs_part || !matches!(lead.place, Place::Parked(_) | Place::NotMade) {
            return false;
        }
        let lines = self.requested.iter().flat_map(|request| &request.lines);
        let mut asked = lines.filter(|line| line.leads.contains(&lead.id)).peekable();
        let is_supplied = |line: u32| self.supplied.contains(&(line, lead.id.clone()));
        asked.peek().is_none()
            || asked.any(|line| !is_supplied(line.line) && self.came(line.line) < line.need)
    }

    /// How many parts came for a line that can be used: as asked for, or a substitute that was accepted.
    pub fn came(&self, line: u32) -> u32 {
        let here = self.arrivals.iter().filter(|arrival| arrival.line == line && arrival.is_of_use());
        here.map(|arrival| arrival.count).sum()
    }

    /// Whether both records that are kept are finished.
    pub fn records_finished(&self) -> bool {
        self.finished.contains(&RecordSide::Found)
    }

    /// What a lead is called, with the one it is to be joined with.
    pub fn call_joined(&self, lead: &Lead) -> String {
        match lead.joined_with.as_ref().and_then(|with| self.lead(with)) {
            Some(other) => format!("{} + {}", self.call(other), self.call(lead)),
            None => self.call(lead),
        }
    }

    /// What a lead is called at the bench: the wire number or circuit and where it was recorded.
    pub fn call(&self, lead: &Lead) -> String {
        let names: Vec<&str> = lead.seen.wires.iter().filter_map(|w| w.name()).collect();
        match (names.is_empty(), &lead.id) {
            (false, _) => names.join(" + "),
            (true, ItemId::At(at)) => format!("the lead from {at}"),
            (true, id) => format!("the lead {id}"),
        }
    }
}
