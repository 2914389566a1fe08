//! Taking an entry in. This cannot fail: what could be wrong was said by `check` before the entry
//! went to disk. An entry that does not fit (a journal edited by hand) changes nothing.

mod moves;
mod readings;
mod records;
mod repairs;
mod setup;

use crate::{
    catalogue::{Definition, Delivered, LockState},
    record::{Address, HousingName, Known, LeadSeen, Seal, Wire},
};

use super::{
    Act, Code, Entry, ItemId, JobSide, Lead, LeadOrigin, Place, PlugItem, PlugOrigin, RepairKind, Seat,
    Touches, WireId,
    seen::Deviation,
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
        self.fold(n, entry);
        self.course.last_at = Some(entry.at);
        if entry.act.is_bench_work() {
            self.course.bench = Some(entry.by.clone());
            self.course.handed_over = None;
        }
    }

    /// What each act changes: an act that is forgotten here does not compile.
    fn fold(&mut self, n: usize, entry: &Entry) {
        let act = &entry.act;
        match act {
            Act::Ticket { .. } => self.apply_ticket(act),
            Act::Rules { rules } => self.world.rules = (**rules).clone(),
            Act::Housed { name, side, definition } => self.apply_housed(name, *side, definition),
            Act::Recorded { side, at, holds, from } => self.apply_recorded(*side, at, holds, from.is_some()),
            Act::RecordFinished { side } => self.apply_finished(*side),
            Act::RecordCorrected { at, holds, .. } => self.apply_corrected(at, holds),
            Act::RecordFlipped { housing, how, .. } => self.apply_flipped(housing.as_ref(), *how),
            Act::Decided { at, wins, reason } => self.apply_decided(at, *wins, reason),
            Act::Compared { question, answer, mating_half } => {
                self.apply_compared(*question, *answer, *mating_half);
            }
            Act::Mapped { from, to, document } => {
                self.apply_mapped(from, to.as_ref(), document.as_deref());
            }
            Act::MapConfirmed { source, map } => self.apply_map_confirmed(*source, map.as_ref()),
            Act::Cause { text, kind } => self.records.is_caused_by(text, *kind),
            Act::Photo { number, shows } => self.course.photos.push((number.clone(), shows.clone())),
            Act::Gate { gate, .. } => self.apply_gate(*gate, act),
            Act::View { housing, face, up } => self.apply_view(housing, *face, up),
            Act::Anchor { .. } => self.housings.apply_anchor(act),
            Act::Lock { housing, to, finger, .. } => self.apply_lock(housing, *to, *finger),
            Act::Assurance { housing, on, .. } => self.apply_assurance(housing, *on),
            Act::SmallPart { housing, part, on } => self.apply_small_part(housing, part, *on),
            Act::MatingHalf { verdict } => self.apply_mating_half(verdict),
            Act::Tagged { lead, tag } => self.items.apply_tagged(lead, tag),
            Act::Extract { from, freely, seal, anyway, .. } => {
                self.apply_extract(from, *freely, *seal, anyway.as_ref());
            }
            Act::CutFree { from, terminal_stayed, .. } => self.apply_cut_free(from, *terminal_stayed),
            Act::Loose { leads } => self.apply_loose(leads),
            Act::Inspect { verdict, .. } => self.items.apply_inspect(n, verdict, act),
            Act::Insert { into, click, again: true, .. } => self.apply_pushed_again(into, *click),
            Act::Insert { into, click, again: false, .. } => self.apply_insert(into, *click),
            Act::Tug { at, held } => self.apply_tug(at, *held),
            Act::PutBack => self.apply_put_back(),
            Act::Park { tag, .. } => self.items.park(tag),
            Act::TakeUp { tag } => self.items.apply_take_up(tag),
            Act::TakePlug { from, .. } => self.apply_take_plug(from),
            Act::FitPlug { into, source, spare, .. } => {
                self.apply_fit_plug(into, *source, spare.is_some());
            }
            Act::LosePlug => self.items.plug_out(Place::Lost),
            Act::ScrapPlug { .. } => self.items.plug_out(Place::Scrapped),
            Act::ReturnPlug => self.items.plug_out(Place::Returned),
            Act::LeftInOld { at, reason } => self.items.apply_left_in_old(at, reason),
            Act::MoveOther { from, to, part: Some(_), .. } => self.apply_new_other(from, to),
            Act::MoveOther { from, to, part: None, .. } => self.apply_move_other(from, to),
            Act::Behind { housing, behind } => self.housings.apply_behind(housing, behind),
            Act::Planned { lead, .. } => self.apply_planned(lead, act),
            Act::Repair { lead, .. } => self.apply_repair(n, lead, act),
            Act::Removed { wire, .. } => self.apply_removed(wire),
            Act::Seen { item, at, .. } => self.apply_seen(item, at),
            // It is not folded at all: the entries it takes back are out of force, and so is it.
            Act::WrongKey => {}
            Act::ReRead { at, colour } => self.apply_reread(at, colour, &entry.by),
            Act::RowCounted { housing, row, wires, plugs, open } => {
                self.apply_row_counted(housing, *row, (*wires, *plugs, *open));
            }
            Act::LookedOver { .. } => self.apply_looked_over(n, act),
            Act::Measure { .. } => self.readings.apply_measure(n, act),
            Act::Requested { .. } => self.supply.apply_requested(act),
            Act::Arrived { .. } => self.supply.apply_arrived(act),
            Act::Accept { .. } => self.apply_accept(entry),
            Act::Note { text, about } => self.course.apply_note(n, text, about),
            Act::HandOver { to } => self.apply_hand_over(&entry.by, to),
            Act::Resume { .. } => self.course.resume = None,
            Act::Mate { level, .. } => self.apply_mate(*level),
            Act::Sign { name, .. } => self.course.signed = Some(name.clone()),
            Act::Stop { why } => self.course.stopped = Some(why.clone()),
        }
    }

    fn apply_ticket(&mut self, act: &Act) {
        let Act::Ticket { id, asset, serial, connector, reason, seed } = act else { return };
        self.world.ticket = Ticket {
            id: id.clone(),
            asset: asset.clone(),
            serial: serial.clone(),
            connector: connector.clone(),
            reason: reason.clone(),
            seed: *seed,
        };
    }

    /// A pause, another person or a clock that ran backwards: gates are asked again, and once
    /// something has moved the resume check is due.
    fn notice_pause(&mut self, entry: &Entry) {
        if let Some(why) = self.pause_before(entry.at, &entry.by, &entry.act) {
            self.interrupt(&why);
        }
    }

    fn note_deviation(&mut self, n: usize, act: &Act) {
        let Some(anyway) = act.anyway() else { return };
        let lead = self.lead_passed(act);
        let at = act.address().cloned();
        let to = if let Act::MoveOther { to, .. } = act { Some(to.clone()) } else { None };
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

    /// The lead that an act against a rule is done to, when it is done to one.
    fn lead_passed(&self, act: &Act) -> Option<ItemId> {
        match act {
            Act::Extract { from, .. } | Act::CutFree { from, .. } => {
                self.items.lead_at(from).map(|l| l.id.clone())
            }
            Act::Repair { lead, .. } => Some(lead.clone()),
            Act::Insert { .. } | Act::Inspect { .. } => self.items.lead_in_hand().map(|l| l.id.clone()),
            Act::Ticket { .. }
            | Act::Housed { .. }
            | Act::Rules { .. }
            | Act::Recorded { .. }
            | Act::RecordFinished { .. }
            | Act::RecordCorrected { .. }
            | Act::RecordFlipped { .. }
            | Act::Decided { .. }
            | Act::Compared { .. }
            | Act::Mapped { .. }
            | Act::MapConfirmed { .. }
            | Act::Cause { .. }
            | Act::Photo { .. }
            | Act::Gate { .. }
            | Act::View { .. }
            | Act::Anchor { .. }
            | Act::Lock { .. }
            | Act::Assurance { .. }
            | Act::SmallPart { .. }
            | Act::MatingHalf { .. }
            | Act::Tagged { .. }
            | Act::Loose { .. }
            | Act::Tug { .. }
            | Act::PutBack
            | Act::Park { .. }
            | Act::TakeUp { .. }
            | Act::TakePlug { .. }
            | Act::FitPlug { .. }
            | Act::LosePlug
            | Act::ScrapPlug { .. }
            | Act::ReturnPlug
            | Act::LeftInOld { .. }
            | Act::MoveOther { .. }
            | Act::Behind { .. }
            | Act::Planned { .. }
            | Act::Removed { .. }
            | Act::Seen { .. }
            | Act::WrongKey
            | Act::ReRead { .. }
            | Act::RowCounted { .. }
            | Act::LookedOver { .. }
            | Act::Measure { .. }
            | Act::Requested { .. }
            | Act::Arrived { .. }
            | Act::Accept { .. }
            | Act::Note { .. }
            | Act::HandOver { .. }
            | Act::Resume { .. }
            | Act::Mate { .. }
            | Act::Sign { .. }
            | Act::Stop { .. } => None,
        }
    }

    pub(super) fn apply_housed(&mut self, name: &HousingName, side: JobSide, definition: &Definition) {
        let housing = definition.housing();
        let parts = housing.small_parts.iter().map(|p| p.name.clone());
        let lock = housing.lock.as_ref().map(|lock| match side {
            JobSide::Old => LockState::FullSet,
            JobSide::New => lock.delivered,
        });
        let job_housing = JobHousing {
            name: name.clone(),
            side,
            definition: definition.clone(),
            view: None,
            anchors: Vec::new(),
            lock,
            lock_openings: 0,
            lock_forced: false,
            assurance_forced: false,
            assurance: housing.assurance.as_ref().map(|_| side == JobSide::Old),
            parts_on: if side == JobSide::Old { parts.collect() } else { Default::default() },
            parts_seen: Default::default(),
        };
        if side == JobSide::New {
            self.add_prefitted(&job_housing);
        }
        self.housings.all.push(job_housing);
        self.housings.all.sort_by_key(|h| h.side);
        self.mapping.map = self.presumed_map();
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

    fn apply_removed(&mut self, wire: &WireId) {
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
