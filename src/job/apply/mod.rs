//! Taking an entry in. This cannot fail: what could be wrong was said by `check` before the entry
//! went to disk. An entry that does not fit (a journal edited by hand) changes nothing.

mod moves;
mod readings;
mod records;
mod repairs;
mod setup;

use crate::{
    catalogue::{Delivered, LockState},
    record::{Address, HousingName, Known, LeadSeen, Seal, Wire},
};

use super::{
    Act, Code, Entry, ItemId, JobSide, Lead, LeadOrigin, Place, PlugItem, PlugOrigin, RepairKind, Seat,
    Touches, WireId,
    seen::{Deviation, ResumeNeed},
    soundness::is_bad,
    state::{JobHousing, State, Ticket},
};

impl State {
    /// Takes in entry number `n` (from 0) of the entries in force.
    pub(super) fn apply(&mut self, n: usize, entry: &Entry) {
        self.notice_pause(entry);
        if entry.act.is_physical() || entry.act.touches() == Touches::Record {
            self.course.signed = None;
        }
        self.course.entry = n;
        self.note_deviation(n, &entry.act);
        self.apply_world(&entry.act);
        self.apply_record(&entry.act);
        self.apply_setup(&entry.act);
        self.apply_lead(n, &entry.act);
        self.apply_plug(&entry.act);
        self.apply_repair(n, &entry.act);
        self.apply_reading(n, entry);
        self.apply_end(entry);
        self.course.last_at = Some(entry.at);
        if entry.act.is_bench_work() {
            self.course.bench = Some(entry.by.clone());
            self.course.handed_over = None;
        }
    }

    /// A pause, another person or a clock that ran backwards: gates are asked again, and once
    /// something has moved the resume check is due.
    fn notice_pause(&mut self, entry: &Entry) {
        if let Some(why) = self.pause_before(entry.at, &entry.by, &entry.act) {
            self.interrupt(&why);
        }
    }

    pub(super) fn interrupt(&mut self, why: &str) {
        self.course.gates.values_mut().for_each(|gate| gate.fresh = false);
        if self.has_moved() && self.course.signed.is_none() {
            self.course.resume = Some(ResumeNeed { why: why.to_owned(), ..ResumeNeed::default() });
        }
    }

    fn note_deviation(&mut self, n: usize, act: &Act) {
        let Some(anyway) = act.anyway() else { return };
        let lead = match act {
            Act::Extract { from, .. } | Act::CutFree { from, .. } => {
                self.items.lead_at(from).map(|l| l.id.clone())
            }
            Act::Repair { lead, .. } => Some(lead.clone()),
            Act::Insert { .. } | Act::Inspect { .. } => self.items.lead_in_hand().map(|l| l.id.clone()),
            _ => None,
        };
        let at = act.address().cloned();
        let to = match act {
            Act::MoveOther { to, .. } => Some(to.clone()),
            _ => None,
        };
        let noted = anyway.codes.iter().map(|code| Deviation {
            n,
            code: *code,
            at: at.clone(),
            to: to.clone(),
            lead: lead.clone(),
            anyway: anyway.clone(),
        });
        self.course.deviations.extend(noted.collect::<Vec<_>>());
    }

    fn apply_world(&mut self, act: &Act) {
        match act {
            Act::Ticket { id, asset, serial, connector, reason, seed } => {
                self.world.ticket = Ticket {
                    id: id.clone(),
                    asset: asset.clone(),
                    serial: serial.clone(),
                    connector: connector.clone(),
                    reason: reason.clone(),
                    seed: *seed,
                };
            }
            Act::Rules { rules } => self.world.rules = (**rules).clone(),
            Act::Housed { name, side, definition } => {
                let housing = definition.housing();
                let parts = housing.small_parts.iter().map(|p| p.name.clone());
                let lock = housing.lock.as_ref().map(|lock| match side {
                    JobSide::Old => LockState::FullSet,
                    JobSide::New => lock.delivered,
                });
                let job_housing = JobHousing {
                    name: name.clone(),
                    side: *side,
                    definition: (**definition).clone(),
                    view: None,
                    anchors: Vec::new(),
                    lock,
                    lock_openings: 0,
                    lock_forced: false,
                    assurance_forced: false,
                    assurance: housing.assurance.as_ref().map(|_| *side == JobSide::Old),
                    parts_on: if *side == JobSide::Old { parts.collect() } else { Default::default() },
                    parts_seen: Default::default(),
                };
                if *side == JobSide::New {
                    self.add_prefitted(&job_housing);
                }
                self.housings.all.push(job_housing);
                self.housings.all.sort_by_key(|h| h.side);
                self.mapping.map = self.presumed_map();
            }
            _ => {}
        }
    }

    fn add_prefitted(&mut self, housing: &JobHousing) {
        for cavity in housing.housing().cavities.iter().filter(|c| c.delivered == Delivered::Plugged) {
            let at = housing.address(&cavity.label);
            self.items.plugs.push(PlugItem {
                id: ItemId::At(at.clone()),
                origin: PlugOrigin::Prefitted,
                size: Some(cavity.size.clone()),
                place: Place::In(at),
                came_from: None,
            });
        }
    }

    fn remove_wire(&mut self, wire: &WireId) {
        let Some(lead) = self.items.lead_mut(&wire.lead) else { return };
        let from = match &lead.place {
            Place::In(at) => Some(at.clone()),
            _ => None,
        };
        match wire.wire {
            Some(n) => lead.removed_wires.push(n),
            None => lead.removed_wires = (1..=lead.seen.wires.len()).collect(),
        }
        if lead.wires_left() == 0 {
            lead.place = Place::Removed;
            lead.seat = Seat::Away;
            // Nothing is made for it any more.
            lead.planned = None;
            lead.planned_part = None;
            lead.joined_with = None;
            lead.order = None;
            let gone = lead.id.clone();
            for other in self.items.leads.iter_mut().filter(|other| other.joined_with.as_ref() == Some(&gone))
            {
                other.joined_with = None;
                other.planned = other.planned.filter(|how| *how != RepairKind::Join);
            }
        }
        if let Some(from) = from {
            self.unsettle(&from);
        }
    }

    // Small helpers on items and places.

    /// Something came into a new cavity: what was known of the hole and its row is out of date.
    fn settle(&mut self, into: &Address) {
        self.items.moves += 1;
        *self.items.insertions.entry(into.clone()).or_default() += 1;
        self.unsettle(into);
    }

    /// Something left or entered a cavity: its re-read, row count and looks must be made again. What did
    /// not agree stays until it is made again and agrees: no move takes it back.
    fn unsettle(&mut self, at: &Address) {
        self.readings.rereads.retain(|hole, read| hole != at || !read.agrees);
        self.readings.looked_over.retain(|(housing, _), look| *housing != at.housing || !look.sound);
        if let Some(row) = self.housings.row_of(at) {
            self.readings
                .row_counts
                .retain(|(housing, n), agrees| (housing, *n) != (&at.housing, row) || !*agrees);
        }
        if self.housings.side_of(at) == Some(JobSide::New) {
            self.part_halves(&at.housing);
        }
    }

    /// The halves of a new housing are apart: what proves them mated is done again.
    fn part_halves(&mut self, name: &HousingName) {
        self.housings.mated = None;
        self.readings.new_moved = Some(self.course.entry);
        if let Some(housing) = self.housings.housing_mut(name).filter(|h| h.assurance == Some(true)) {
            housing.assurance = Some(false);
            housing.assurance_forced = false;
        }
    }

    /// The same for every new housing.
    fn part_all_halves(&mut self) {
        let new: Vec<HousingName> = self.housings.side(JobSide::New).map(|h| h.name.clone()).collect();
        new.iter().for_each(|name| self.part_halves(name));
    }

    /// What was accepted of an item is not accepted of what happens to it later.
    fn accepted_lapses(&mut self, item: &ItemId, codes: &[Code]) {
        self.course
            .accepted
            .retain(|accepted| accepted.item.as_ref() != Some(item) || !codes.contains(&accepted.flag));
    }
}

/// A lead as it comes into the job.
fn new_lead(id: ItemId, seen: LeadSeen, place: Place, default_seal: Seal) -> Lead {
    Lead {
        seal: seen.seal.unwrap_or(default_seal),
        suspect: is_bad(seen.condition.as_ref()),
        id,
        origin: LeadOrigin::Found,
        seen,
        place,
        came_from: None,
        seat: Seat::Away,
        tag: None,
        forced: false,
        called_good: None,
        inspected: None,
        cut: false,
        removed_wires: Vec::new(),
        planned: None,
        planned_part: None,
        planned_why: None,
        joined_with: None,
        order: None,
        finding: None,
        damage_found: None,
        tried_with: None,
        repairs: Vec::new(),
    }
}

/// A lead nobody recorded: one wire of which nothing is known yet.
fn unknown_lead() -> LeadSeen {
    let wire = Wire::new(Known::Unknown, Known::Unknown);
    LeadSeen { wires: vec![wire], terminal: None, seal: None, condition: None }
}
