//! Every step of a job in order: what is done, what comes next, what is left. Proposed, never
//! forced: any free cavity can be taken by its label.

use std::collections::{BTreeMap, BTreeSet};

use crate::{
    catalogue::LockState,
    face::Face,
    record::{Address, CavityContent},
};

use super::{
    Code, GATES, ItemId, JobSide, Lead, LeadOrigin, MatingVerdict, Place, PlugOrigin, RepairKind, Seat,
    Status, Step, Task, is_satisfied,
    prefitted::PrefittedWay,
    state::{JobHousing, Occupant, State},
    target::{Destination, Expected, Target},
};

/// Collects steps with whether they are done.
#[derive(Default)]
struct List(Vec<Step>);

impl List {
    fn add(&mut self, what: Task, done: bool) {
        self.0.push(Step { what, status: if done { Status::Done } else { Status::Left } });
    }
}

impl State {
    /// Every step, in order, the first open one marked next.
    pub fn steps(&self, target: &Target) -> Vec<Step> {
        let mut list = List::default();
        self.add_gates_and_views(&mut list);
        self.add_records(&mut list);
        self.add_anchors(&mut list);
        self.add_comparisons(&mut list, target);
        self.add_opening(&mut list);
        self.add_moves(&mut list, target);
        self.add_closing(&mut list, target);
        let mut steps = list.0;
        self.mark(&mut steps);
        steps
    }

    /// Marks the next step: what is in the hand comes before everything, then the first open one
    /// that does not wait.
    fn mark(&self, steps: &mut [Step]) {
        let waiting: BTreeSet<&ItemId> =
            self.items.leads.iter().filter(|l| self.supply.waits_for_part(l)).map(|l| &l.id).collect();
        let is_clearing = |what: &Task| matches!(what, Task::LookAt { cavities } if cavities.iter().any(|at| self.items.left_behind.contains(at)));
        for step in steps.iter_mut().filter(|s| s.status == Status::Left) {
            if matches!(&step.what, Task::MoveWire { lead, .. } | Task::Repair { lead, .. } if waiting.contains(lead))
            {
                step.status = Status::Waiting;
            }
            if self.housings.waits_for_machine() && step.what.needs_machine() {
                step.status = Status::Waiting;
            }
        }
        // What is in the hand, then what sits in a new hole and was not tugged.
        let is_unfinished = |lead: &&Lead| match &lead.place {
            Place::Hand => true,
            Place::In(at) => lead.seat != Seat::Held && self.housings.side_of(at) == Some(JobSide::New),
            Place::Parked(_)
            | Place::Tray
            | Place::Removed
            | Place::Joined(_)
            | Place::NotMade
            | Place::Scrapped
            | Place::Lost
            | Place::Returned
            | Place::Unseen => false,
        };
        let leads: BTreeSet<&ItemId> = self.items.leads.iter().filter(is_unfinished).map(|l| &l.id).collect();
        let plug =
            self.items.plugs.iter().find(|p| p.place == Place::Hand).and_then(|p| p.came_from.as_ref());
        let unfinished = |what: &Task| match what {
            Task::MoveWire { lead, .. } => leads.contains(lead),
            Task::MovePlug { from, .. } => plug == Some(from),
            _ => false,
        };
        // Nothing is closed over a lead that waits for its part.
        let may_close = waiting.is_empty();
        let is_open = |s: &&Step| s.status == Status::Left && (may_close || !s.what.is_closing());
        let left =
            |is: &dyn Fn(&Task) -> bool| steps.iter().position(|s| s.status == Status::Left && is(&s.what));
        // What is in the hand goes nowhere before the views are proved.
        let is_view = |what: &Task| matches!(what, Task::View { .. } | Task::Anchor { .. });
        let unproved = self.has_moved() && self.housings.all.iter().any(|h| !self.view_is_proved(h));
        let next = left(&is_view)
            .filter(|_| unproved)
            .or_else(|| left(&is_clearing))
            .or_else(|| left(&unfinished))
            .or_else(|| self.reread_due(steps))
            .or_else(|| steps.iter().position(|s| is_open(&s)));
        if let Some(step) = next.and_then(|i| steps.get_mut(i)) {
            step.status = Status::Next;
        }
    }

    fn add_records(&self, list: &mut List) {
        for old in self.housings.side(JobSide::Old) {
            for cavity in &old.housing().cavities {
                let at = old.address(&cavity.label);
                let done = self.records.found.contains_key(&at);
                list.add(Task::Record { at: Some(at) }, done);
            }
        }
        list.add(Task::Record { at: None }, self.records.records_finished());
        for old in self.housings.side(JobSide::Old).filter(|old| self.records.listed.contains(&old.name)) {
            for row in 1..=old.rows().len() {
                let key = (old.name.clone(), row);
                let done = self.records.counted.contains(&key);
                list.add(Task::CountRow { housing: key.0, row }, done);
            }
        }
    }

    fn add_gates_and_views(&self, list: &mut List) {
        for gate in GATES {
            list.add(Task::Gate { gate }, self.gate_is_open(gate));
        }
        for housing in &self.housings.all {
            list.add(Task::View { housing: housing.name.clone() }, housing.view.is_some());
        }
    }

    fn add_anchors(&self, list: &mut List) {
        for housing in &self.housings.all {
            for anchor in housing.anchors.iter().filter(|a| a.agrees) {
                list.add(Task::Anchor { housing: housing.name.clone(), place: anchor.place }, true);
            }
            for place in self.anchors_left(housing) {
                list.add(Task::Anchor { housing: housing.name.clone(), place }, false);
            }
        }
    }

    fn add_comparisons(&self, list: &mut List, target: &Target) {
        for question in self.questions() {
            list.add(Task::Compare { question }, self.housings.compared.contains_key(&question));
        }
        let map_first = self.should_is_in_new_labels();
        if map_first {
            list.add(Task::ConfirmMap, self.mapping.confirmed.is_some());
        }
        let mut cavities: Vec<&Address> =
            target.differences.iter().map(|difference| &difference.at).collect();
        cavities.dedup();
        for at in cavities {
            let done = target.differences.iter().filter(|d| d.at == *at).all(|d| self.records.is_decided(d));
            list.add(Task::Decide { at: at.clone() }, done);
        }
        if !map_first {
            list.add(Task::ConfirmMap, self.mapping.confirmed.is_some());
        }
        if !target.look_closely.is_empty() {
            let done = target.look_closely.iter().all(|at| self.readings.looked_at.contains(at));
            list.add(Task::LookAt { cavities: target.look_closely.clone() }, done);
        }
        for id in &target.look_alikes {
            let done = self.items.lead(id).is_some_and(|l| l.tag.is_some());
            list.add(Task::Tag { lead: id.clone() }, done);
        }
        let is_accepted = |code| self.course.accepted.iter().any(|accepted| accepted.flag == code);
        list.add(Task::Photo, !self.course.photos.is_empty() || is_accepted(Code::PhotoMissing));
        list.add(Task::Cause, self.records.cause.is_some() || is_accepted(Code::CauseUnknown));
    }

    fn add_opening(&self, list: &mut List) {
        let started = self.has_moved();
        for old in self.housings.side(JobSide::Old) {
            if old.housing().assurance.is_some() {
                list.add(Task::AssuranceOff { housing: old.name.clone() }, old.assurance == Some(false));
            }
            for part in &old.housing().small_parts {
                let what = Task::SmallPartOff { housing: old.name.clone(), part: part.name.clone() };
                list.add(what, !old.parts_on.contains(&part.name));
            }
            if let Some(lock) = &old.housing().lock {
                let what = Task::Unlock { housing: old.name.clone(), to: lock.open_state };
                list.add(what, self.housings.lock_is_open(old));
            }
        }
        for new in self.housings.side(JobSide::New) {
            if let Some(lock) = &new.housing().lock
                && (!self.housings.lock_is_open(new) && !started)
            {
                list.add(Task::Unlock { housing: new.name.clone(), to: lock.open_state }, false);
            }
        }
    }

    fn add_moves(&self, list: &mut List, target: &Target) {
        if !self.items.left_behind.is_empty() {
            list.add(Task::LookAt { cavities: self.items.left_behind.iter().cloned().collect() }, false);
        }
        let occupants = self.items.occupants();
        let given = self.add_plugs_in_the_way(list, target, &occupants);
        let mut fitted: BTreeMap<&Address, bool> = target
            .cavities
            .iter()
            .filter(|(_, e)| e.takes_plug())
            .map(|(at, expected)| {
                (at, is_satisfied(expected, occupants.get(at), self.items.plug_at(at).is_some()))
            })
            .collect();
        let leads: BTreeMap<&ItemId, &Lead> = self.items.leads.iter().map(|lead| (&lead.id, lead)).collect();
        let plugs = self.items.plugs.iter().map(|plug| (&plug.id, &plug.place));
        let others = self.items.others.iter().map(|other| (&other.id, &other.place));
        let places: BTreeMap<&ItemId, &Place> = plugs.chain(others).collect();
        for at in self.order_of_moves() {
            let home = places.get(&ItemId::At(at.clone())).copied();
            match self.records.found.get(&at) {
                Some(CavityContent::Wired(_)) => {
                    if let Some(lead) = leads.get(&ItemId::At(at)) {
                        self.add_lead(list, target, lead);
                    }
                }
                Some(CavityContent::Plugged | CavityContent::Open) => {
                    let to = self
                        .mapping
                        .mapped(&at)
                        .filter(|to| target.expected(to) == &Expected::Plug(Some(at.clone())));
                    let done = to.and_then(|to| fitted.remove(to)).unwrap_or(true);
                    let found = self.records.found.get(&at) == Some(&CavityContent::Plugged);
                    let there = |to: &Address| matches!(home, Some(Place::In(now)) if now == to);
                    // A hole that another plug fills, or is about to, leaves this one over.
                    let over = |to: &Address| (done && !there(to)) || given.contains(to);
                    match (found, to) {
                        (true, Some(to)) if !over(to) && (done || self.plug_can_move(home)) => {
                            list.add(Task::MovePlug { from: at, to: Some(to.clone()) }, done);
                        }
                        (true, Some(to)) if !over(to) => list.add(Task::FitPlug { at: to.clone() }, done),
                        (false, Some(to)) if !given.contains(to) => {
                            list.add(Task::FitPlug { at: to.clone() }, done);
                        }
                        (false, _) => {}
                        (true, _) => {
                            let gone = !matches!(home, Some(Place::In(_) | Place::Hand | Place::Tray))
                                || self.items.left_in_old.contains_key(&at)
                                || matches!(home, Some(Place::In(now)) if self.housings.side_of(now) == Some(JobSide::New));
                            list.add(Task::TakePlug { at }, gone);
                        }
                    }
                }
                Some(CavityContent::Spare(_) | CavityContent::Bridge(_)) => {
                    // What does not belong there by the decision is left behind.
                    let goes =
                        |to: &&Address| *target.expected(to) == Expected::Other(ItemId::At(at.clone()));
                    let to = self.mapping.mapped(&at).filter(goes).cloned();
                    let done = self.items.left_in_old.contains_key(&at)
                        || !matches!(home, Some(Place::In(now)) if *now == at);
                    list.add(Task::MoveOther { from: at, to }, done);
                }
                _ => {}
            }
        }
        for lead in self.items.leads.iter().filter(|l| !is_recorded(l)) {
            self.add_lead(list, target, lead);
        }
        for (to, expected) in &target.cavities {
            if matches!(expected, Expected::MissingOther(_)) {
                let from = self
                    .mapping
                    .map
                    .iter()
                    .find(|(_, there)| there.as_ref() == Some(to))
                    .map(|(from, _)| from);
                let from = from.unwrap_or(to).clone();
                list.add(Task::MoveOther { from, to: Some(to.clone()) }, false);
            }
        }
        for (at, done) in fitted.into_iter().filter(|(at, done)| *done || !given.contains(at)) {
            list.add(Task::FitPlug { at: at.clone() }, done);
        }
    }

    fn plug_can_move(&self, place: Option<&Place>) -> bool {
        match place {
            Some(Place::In(at)) => {
                self.housings.side_of(at) == Some(JobSide::Old) && !self.items.left_in_old.contains_key(at)
            }
            Some(Place::Hand | Place::Tray) => true,
            Some(
                Place::Parked(_)
                | Place::Removed
                | Place::Joined(_)
                | Place::NotMade
                | Place::Scrapped
                | Place::Lost
                | Place::Returned
                | Place::Unseen,
            )
            | None => false,
        }
    }

    /// Plugs in new cavities where something else goes. Gives the holes they are meant for.
    fn add_plugs_in_the_way(
        &self,
        list: &mut List,
        target: &Target,
        occupants: &BTreeMap<&Address, Occupant<'_>>,
    ) -> BTreeSet<Address> {
        let mut given = BTreeSet::new();
        for (from, way) in self.prefitted_plugs(target, occupants) {
            match way {
                PrefittedWay::Stays => {}
                PrefittedWay::Went(to) => list.add(Task::MovePlug { from, to: Some(to) }, true),
                PrefittedWay::Goes(to) => {
                    given.insert(to.clone());
                    list.add(Task::MovePlug { from, to: Some(to) }, false);
                }
                PrefittedWay::Out => list.add(Task::TakePlug { at: from }, false),
            }
        }
        // What was put where it does not belong comes out again.
        for (at, occupant) in occupants {
            let misplaced = matches!(occupant, Occupant::Plug(plug) if plug.origin != PlugOrigin::Prefitted)
                && self.housings.side_of(at) == Some(JobSide::New)
                && !target.expected(at).takes_plug();
            if misplaced {
                list.add(Task::TakePlug { at: (*at).clone() }, false);
            }
        }
        given
    }

    /// Old cavities row by row in the order of the numbering; the second leg of a pair follows
    /// its first.
    fn order_of_moves(&self) -> Vec<Address> {
        let mut order: Vec<Address> = Vec::new();
        let mut taken: BTreeSet<Address> = BTreeSet::new();
        for old in self.housings.side(JobSide::Old) {
            for cavity in &old.housing().cavities {
                let at = old.address(&cavity.label);
                let partner = self.partner(old, &at);
                if taken.insert(at.clone()) {
                    order.push(at);
                    order.extend(partner.filter(|partner| taken.insert(partner.clone())));
                }
            }
        }
        order
    }

    fn partner(&self, old: &JobHousing, at: &Address) -> Option<Address> {
        let lead = self.records.found.get(at)?.lead()?;
        let label = lead.wires.iter().find_map(|w| w.twisted_with.as_ref())?;
        let partner = old.address(label);
        self.records.found.contains_key(&partner).then_some(partner)
    }

    fn add_closing(&self, list: &mut List, target: &Target) {
        let news: Vec<&JobHousing> = self.housings.side(JobSide::New).collect();
        for new in &news {
            for part in &new.housing().small_parts {
                let what = Task::SmallPartOn { housing: new.name.clone(), part: part.name.clone() };
                list.add(what, new.parts_on.contains(&part.name));
            }
        }
        for new in &news {
            for face in [Face::Wire, Face::Mating] {
                let done = self.readings.is_found_sound(&new.name, face);
                list.add(Task::Look { housing: new.name.clone(), face }, done);
            }
            for row in 1..=new.rows().len() {
                let done = self.readings.row_counts.get(&(new.name.clone(), row)) == Some(&true);
                list.add(Task::CountRow { housing: new.name.clone(), row }, done);
            }
        }
        for at in &target.rereads {
            let done = self.readings.rereads.get(at).is_some_and(|r| r.agrees);
            list.add(Task::ReRead { at: at.clone() }, done);
        }
        for new in news.iter().filter(|h| h.housing().lock.is_some()) {
            let done = new.lock == Some(LockState::FullSet) && !new.lock_forced;
            list.add(Task::Lock { housing: new.name.clone() }, done);
        }
        let is_looked_at = matches!(
            self.housings.mating_half,
            Some(MatingVerdict::Good | MatingVerdict::Cleaned | MatingVerdict::Replaced)
        );
        list.add(Task::LookMatingHalf, is_looked_at);
        list.add(Task::Mate, self.housings.mated == Some(true));
        for new in news.iter().filter(|h| h.housing().assurance.is_some()) {
            list.add(Task::AssuranceOn { housing: new.name.clone() }, new.assurance == Some(true));
        }
        let left = self.tests_left();
        for test in &self.world.rules.tests.value {
            list.add(Task::Test { test: *test }, !left.contains(test));
        }
        list.add(Task::Sign, self.course.signed.is_some());
    }
}

/// Whether a lead stands in the order of the old cavities.
fn is_recorded(lead: &Lead) -> bool {
    lead.origin == LeadOrigin::Found && matches!(lead.id, ItemId::At(_))
}

impl State {
    fn add_lead(&self, list: &mut List, target: &Target, lead: &Lead) {
        if matches!(lead.place, Place::Removed | Place::Joined(_)) || self.is_tied_back(lead, target) {
            return;
        }
        let id = &lead.id;
        let parts = target.by_decision.parting.contains_key(id).then_some(RepairKind::NewTerminal);
        if let Some(how) = lead.planned.or(parts) {
            list.add(Task::Repair { lead: id.clone(), how }, false);
        }
        if matches!(target.leads.get(id), Some(Destination::JoinedTo(_))) {
            return;
        }
        let to = target.of(id);
        let home = to.is_some_and(|to| matches!(&lead.place, Place::In(at) if at == to));
        list.add(Task::MoveWire { lead: id.clone(), to: to.cloned() }, home && lead.seat == Seat::Held);
    }

    /// A lead without a place that is insulated, tied back and parked, with the day it is put right.
    pub(super) fn is_tied_back(&self, lead: &Lead, target: &Target) -> bool {
        let is_out = target.leads.get(&lead.id) == Some(&Destination::Out);
        let is_parked = matches!(lead.place, Place::Parked(_));
        is_out
            && is_parked
            && self.course.accepted.iter().any(|accepted| {
                // Parked is never accepted without its day.
                accepted.flag == Code::Parked && accepted.item.as_ref() == Some(&lead.id)
            })
    }
}

/// The lead a step moves, if it moves one.
pub fn lead_of_step<'a>(state: &'a State, step: &Step) -> Option<&'a Lead> {
    match &step.what {
        Task::MoveWire { lead, .. } | Task::Repair { lead, .. } | Task::Tag { lead } => {
            state.items.lead(lead)
        }
        _ => None,
    }
}
