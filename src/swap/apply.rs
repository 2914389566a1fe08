//! Taking an entry in. This cannot fail: what could be wrong was said by `check` before the entry
//! went to disk. An entry that does not fit (a journal edited by hand) changes nothing.

use crate::{
    catalogue::{Delivered, LockState, Sealing},
    face::{Face, Label},
    record::{Address, Holds, LeadSeen, Seal, Told, Wire, WireKind},
};

use super::{
    Act, Entry, Fit, Flip, GateKind, Inspected, ItemId, JobSide, Lead, MapSource, OtherItem, OtherKind,
    Place, PlugItem, PlugOrigin, PlugSource, RecordSide, RepairKind, Seat, SeenAt, Tag, WireId,
    state::{
        Accepted, Broken, GateSeen, JobHousing, ReReadSeen, RequestSeen, ResumeNeed, State, TestSeen, Ticket,
    },
    view::{Seen, flipped},
};

impl State {
    /// Takes in entry number `n` (from 0) of the entries in force.
    pub(super) fn take(&mut self, n: usize, entry: &Entry) {
        self.notice_pause(entry);
        if entry.act.is_physical() {
            self.signed = None;
        }
        self.note_broken(&entry.act);
        self.take_world(&entry.act);
        self.take_record(&entry.act);
        self.take_setup(&entry.act);
        self.take_lead(&entry.act);
        self.take_plug(&entry.act);
        self.take_repair(&entry.act);
        self.take_reading(n, entry);
        self.take_end(entry);
        self.last_at = Some(entry.at);
        if entry.act.is_bench_work() {
            self.bench = Some(entry.by.clone());
        }
    }

    /// A pause, another person or a clock that ran backwards: gates are asked again, and once
    /// something has moved the resume check is due.
    fn notice_pause(&mut self, entry: &Entry) {
        if let Some(why) = self.pause_before(entry.at, &entry.by, &entry.act) {
            self.interrupt(&why);
        }
    }

    fn interrupt(&mut self, why: &str) {
        self.gates.values_mut().for_each(|gate| gate.fresh = false);
        if self.has_moved() && self.signed.is_none() {
            self.resume = Some(ResumeNeed { why: why.to_owned(), ..ResumeNeed::default() });
        }
    }

    fn note_broken(&mut self, act: &Act) {
        let Some(anyway) = act.anyway() else { return };
        let lead = match act {
            Act::Extract { from, .. } | Act::CutFree { from, .. } => self.lead_at(from).map(|l| l.id.clone()),
            Act::Repair { lead, .. } => Some(lead.clone()),
            Act::Insert { .. } => self.lead_in_hand().map(|l| l.id.clone()),
            _ => None,
        };
        let at = act.address().cloned();
        let noted = anyway.codes.iter().map(|code| Broken {
            code: *code,
            at: at.clone(),
            lead: lead.clone(),
            anyway: anyway.clone(),
        });
        self.broken.extend(noted.collect::<Vec<_>>());
    }

    fn take_world(&mut self, act: &Act) {
        match act {
            Act::Ticket { asset, serial, connector, reason, seed } => {
                self.ticket = Ticket {
                    asset: asset.clone(),
                    serial: serial.clone(),
                    connector: connector.clone(),
                    reason: reason.clone(),
                    seed: *seed,
                };
            }
            Act::Rules { rules } => self.rules = (**rules).clone(),
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
                    assurance: housing.assurance.as_ref().map(|_| *side == JobSide::Old),
                    parts_on: if *side == JobSide::Old { parts.collect() } else { Default::default() },
                    parts_seen: Default::default(),
                };
                if *side == JobSide::New {
                    self.add_prefitted(&job_housing);
                }
                self.housings.push(job_housing);
                self.housings.sort_by_key(|h| h.side);
            }
            _ => {}
        }
    }

    fn add_prefitted(&mut self, housing: &JobHousing) {
        for cavity in housing.housing().cavities.iter().filter(|c| c.delivered == Delivered::Plugged) {
            let at = housing.address(&cavity.label);
            self.plugs.push(PlugItem {
                id: ItemId::At(at.clone()),
                origin: PlugOrigin::Prefitted,
                size: Some(cavity.size.clone()),
                place: Place::In(at),
                came_from: None,
            });
        }
    }

    fn take_record(&mut self, act: &Act) {
        match act {
            Act::Recorded { side: RecordSide::Found, at, holds, .. }
            | Act::RecordCorrected { at, holds, .. } => {
                self.set_found(at, holds);
            }
            Act::Recorded { side: RecordSide::Should, at, holds, .. } => {
                self.should.insert(at.clone(), holds.clone());
            }
            Act::RecordFinished { side } => {
                self.finished.insert(*side);
            }
            Act::RecordFlipped { housing, how, .. } => {
                if let Some(name) = self.flipped_housing(housing.as_ref()) {
                    self.flip_record(&name, *how);
                }
            }
            Act::Decided { at, wins, reason } => {
                self.decisions.insert(at.clone(), (*wins, reason.clone()));
            }
            _ => {}
        }
    }

    /// Puts what an old cavity holds on record, and its items in place.
    fn set_found(&mut self, at: &Address, holds: &Holds) {
        let id = ItemId::At(at.clone());
        let behind = ItemId::PlugBehind(at.clone());
        // The tag and the repairs planned stay with a lead whose description is corrected.
        let former = self.leads.iter().find(|l| l.id == id).cloned();
        self.leads.retain(|l| l.id != id);
        self.plugs.retain(|p| p.id != id && p.id != behind);
        self.others.retain(|o| o.id != id);
        let size = self.cavity_size(at);
        let plug = |id: ItemId| PlugItem {
            id,
            origin: PlugOrigin::Found,
            size: size.clone(),
            place: Place::In(at.clone()),
            came_from: None,
        };
        match holds {
            Holds::Wired(seen) => {
                let fresh = new_lead(id, seen.clone(), Place::In(at.clone()), self.default_seal(at));
                self.leads.push(match former {
                    Some(former) => Lead { seen: seen.clone(), seal: fresh.seal, ..former },
                    None => fresh,
                });
                self.leads.sort_by(|a, b| a.id.cmp(&b.id));
            }
            Holds::Plugged => self.plugs.push(plug(id)),
            Holds::Spare(spare) => {
                if spare.plug_behind {
                    self.plugs.push(plug(behind));
                }
                self.others.push(OtherItem { id, kind: OtherKind::Spare, place: Place::In(at.clone()) });
            }
            Holds::Bridge(what) => {
                let kind = OtherKind::Bridge(what.clone());
                self.others.push(OtherItem { id, kind, place: Place::In(at.clone()) });
            }
            Holds::Open | Holds::Empty | Holds::Blocked => {}
        }
        self.found.insert(at.clone(), holds.clone());
    }

    fn default_seal(&self, at: &Address) -> Seal {
        match self.housing(&at.housing).map(|h| &h.housing().sealing) {
            Some(Sealing::Individual) => Seal::Unknown,
            _ => Seal::None,
        }
    }

    /// Puts every content of a record that was keyed from the wrong point of view at the label it
    /// was really seen at.
    fn flip_record(&mut self, name: &crate::record::HousingName, how: Flip) {
        let Some(housing) = self.housing(name) else { return };
        let seen = housing.seen();
        let reading = Seen::of(housing.housing(), flipped(housing.pose(), how));
        let labels: Vec<Label> = housing.housing().cavities.iter().map(|c| c.label.clone()).collect();
        let moved: Vec<(Address, Holds)> = labels
            .iter()
            .filter_map(|label| {
                let keyed_as = reading.label_at(seen.place_of(label)?)?;
                let holds = self.found.get(&housing.address(keyed_as))?;
                Some((housing.address(label), holds.clone()))
            })
            .collect();
        for (at, holds) in moved {
            self.set_found(&at, &holds);
        }
        if let Some(housing) = self.housings.iter_mut().find(|h| h.name == *name) {
            housing.anchors.clear();
        }
    }

    fn take_setup(&mut self, act: &Act) {
        match act {
            Act::Compared { question, answer, mating_half } => {
                // An answer given without the mating half in the hand proves nothing.
                let answer = if *mating_half { *answer } else { Fit::DontKnow };
                self.compared.insert(*question, answer);
            }
            Act::Mapped { from, to, document } => {
                self.map.insert(from.clone(), to.clone());
                if let Some(document) = document {
                    self.map_documents.insert(from.clone(), document.clone());
                }
                self.map_confirmed = None;
            }
            Act::MapConfirmed { source } => {
                if *source == MapSource::SameLabels {
                    self.map_same_labels();
                }
                self.map_confirmed = Some(*source);
            }
            Act::Cause { text } => self.cause = Some(text.clone()),
            Act::Photo { number, shows } => self.photos.push((number.clone(), shows.clone())),
            Act::Gate { gate, answer, document, name, .. } => self.take_gate(*gate, *answer, document, name),
            Act::View { housing, face, up } => self.take_view(housing, *face, up),
            Act::Anchor { housing, place, colour, mark } => {
                let Some(seen) =
                    self.housing(housing).map(|h| self.judge_anchor(h, *place, colour.as_ref(), mark))
                else {
                    return;
                };
                if let Some(h) = self.housing_mut(housing) {
                    h.anchors.retain(|a| a.place != *place);
                    h.anchors.push(seen);
                }
            }
            Act::Lock { housing, to, finger, .. } => self.take_lock(housing, *to, *finger),
            Act::Assurance { housing, on, .. } => {
                if let Some(h) = self.housing_mut(housing) {
                    h.assurance = Some(*on);
                }
            }
            Act::SmallPart { housing, part, on } => {
                if let Some(h) = self.housing_mut(housing) {
                    h.parts_seen.insert(part.clone());
                    if *on {
                        h.parts_on.insert(part.clone());
                    } else {
                        h.parts_on.remove(part);
                    }
                }
            }
            Act::MatingHalf { verdict } => self.mating_half = Some(verdict.clone()),
            _ => {}
        }
    }

    fn take_gate(
        &mut self,
        gate: GateKind,
        answer: super::GateAnswer,
        document: &Option<String>,
        name: &Option<String>,
    ) {
        let seen = GateSeen { answer, name: name.clone(), document: document.clone(), fresh: true };
        self.gates.insert(gate, seen);
    }

    fn take_view(&mut self, name: &crate::record::HousingName, face: Face, up: &str) {
        if let Some(need) = &mut self.resume {
            need.views.insert(name.clone());
        }
        if let Some(h) = self.housing_mut(name)
            && let Some(side) = h.housing().side_of(up)
        {
            let view = Some((crate::face::Pose { face, up: side }, up.to_owned()));
            // Saying the same view again after a pause does not ask the anchors again.
            if h.view != view {
                h.view = view;
                h.anchors.clear();
            }
        }
    }

    fn take_lock(&mut self, name: &crate::record::HousingName, to: LockState, finger: bool) {
        let Some(h) = self.housing_mut(name) else { return };
        if h.side == JobSide::New && h.lock == Some(LockState::FullSet) && to != LockState::FullSet {
            h.lock_openings += 1;
        }
        if to == LockState::FullSet {
            h.lock_forced = !finger;
        }
        h.lock = Some(to);
    }

    fn map_same_labels(&mut self) {
        let news: Vec<(Label, Address)> = self
            .side(JobSide::New)
            .flat_map(|h| h.housing().cavities.iter().map(|c| (c.label.clone(), h.address(&c.label))))
            .collect();
        let olds: Vec<Address> = self
            .side(JobSide::Old)
            .flat_map(|h| h.housing().cavities.iter().map(|c| h.address(&c.label)))
            .collect();
        for old in olds {
            let mut same = news.iter().filter(|(label, _)| *label == old.label);
            if let (Some((_, to)), None) = (same.next(), same.next()) {
                self.map.entry(old).or_insert_with(|| Some(to.clone()));
            }
        }
    }

    fn take_lead(&mut self, act: &Act) {
        match act {
            Act::Tagged { lead, tag } => {
                if let Some(lead) = self.lead_mut(lead) {
                    lead.tag = Some(tag.clone());
                }
            }
            Act::Extract { from, freely, seal, .. } => {
                let (freely, seal, from) = (*freely, *seal, from.clone());
                self.unsettle(&from);
                if let Some(lead) = self.lead_at_mut(&from) {
                    lead.place = Place::Hand;
                    lead.came_from = Some(from);
                    lead.seat = Seat::Away;
                    lead.seal = seal;
                    lead.forced |= !freely;
                    lead.inspected = None;
                }
            }
            Act::CutFree { from, .. } => {
                let from = from.clone();
                self.unsettle(&from);
                if let Some(lead) = self.lead_at_mut(&from) {
                    lead.place = Place::Hand;
                    lead.came_from = Some(from);
                    lead.seat = Seat::Away;
                    lead.cut = true;
                    lead.inspected = Some(Some(RepairKind::RepairLead));
                }
            }
            Act::Loose { leads } => {
                for (from, tag) in leads {
                    self.unsettle(from);
                    if let Some(lead) = self.lead_at_mut(from) {
                        lead.place = Place::Parked(tag.clone());
                        lead.came_from = Some(from.clone());
                        lead.seat = Seat::Away;
                        lead.tag = Some(tag.clone());
                        lead.inspected = None;
                    }
                }
            }
            Act::Inspect { verdict } => {
                if let Some(lead) = self.hand_mut() {
                    let needs = match verdict {
                        Inspected::Good => None,
                        Inspected::Needs(kind) => Some(*kind),
                    };
                    lead.inspected = Some(needs);
                }
            }
            Act::Insert { into, click, .. } => {
                let (into, click) = (into.clone(), *click);
                if let Some(lead) = self.hand_mut() {
                    lead.place = Place::In(into.clone());
                    lead.seat = if click { Seat::Clicked } else { Seat::NoClick };
                    self.settle(&into);
                }
            }
            Act::Tug { at, held } => {
                let held = *held;
                if !held {
                    self.unsettle(at);
                }
                if let Some(lead) = self.lead_at_mut(at) {
                    if held {
                        lead.seat = Seat::Held;
                    } else {
                        lead.place = Place::Hand;
                        lead.seat = Seat::Away;
                        lead.inspected = None;
                    }
                }
            }
            Act::PutBack => self.put_back(),
            Act::Park { tag, .. } => self.park(tag),
            Act::TakeUp { tag } => self.take_up(tag),
            _ => {}
        }
    }

    fn put_back(&mut self) {
        let back = |place: &mut Place, came_from: &Option<Address>| {
            if *place == Place::Hand
                && let Some(from) = came_from
            {
                *place = Place::In(from.clone());
            }
        };
        let new_side: Vec<_> = self.side(JobSide::New).map(|h| h.name.clone()).collect();
        for lead in &mut self.leads {
            if lead.place == Place::Hand {
                back(&mut lead.place, &lead.came_from);
                let in_new = lead.came_from.as_ref().is_some_and(|from| new_side.contains(&from.housing));
                lead.seat = if in_new { Seat::Clicked } else { Seat::Away };
            }
        }
        self.plugs.iter_mut().for_each(|p| back(&mut p.place, &p.came_from));
    }

    fn park(&mut self, tag: &Tag) {
        if let Some(lead) = self.hand_mut() {
            lead.place = Place::Parked(tag.clone());
            lead.tag = Some(tag.clone());
        }
        for plug in self.plugs.iter_mut().filter(|p| p.place == Place::Hand) {
            plug.place = Place::Tray;
        }
        for other in self.others.iter_mut().filter(|o| o.place == Place::Hand) {
            other.place = Place::Parked(tag.clone());
        }
    }

    fn take_up(&mut self, tag: &Tag) {
        let parked = Place::Parked(tag.clone());
        for lead in self.leads.iter_mut().filter(|l| l.place == parked) {
            lead.place = Place::Hand;
            return;
        }
        if let Some(other) = self.others.iter_mut().find(|o| o.place == parked) {
            other.place = Place::Hand;
        }
    }

    fn take_plug(&mut self, act: &Act) {
        match act {
            Act::TakePlug { from, .. } => {
                self.unsettle(from);
                if let Some(plug) = self.plug_at_mut(from) {
                    plug.place = Place::Hand;
                    plug.came_from = Some(from.clone());
                }
            }
            Act::FitPlug { into, source, spare, .. } => self.fit_plug(into, *source, spare.is_some()),
            Act::LosePlug => self.plug_out(Place::Lost),
            Act::ScrapPlug { .. } => self.plug_out(Place::Scrapped),
            Act::ReturnPlug => self.plug_out(Place::Returned),
            Act::LeftInOld { at, reason } => {
                self.left_in_old.insert(at.clone(), reason.clone());
            }
            Act::MoveOther { from, to, .. } => {
                let (from, to) = (from.clone(), Place::In(to.clone()));
                let from_place = Place::In(from);
                for other in self.others.iter_mut().filter(|o| o.place == from_place) {
                    other.place = to.clone();
                }
                for plug in self.plugs.iter_mut().filter(|p| p.place == from_place) {
                    plug.place = to.clone();
                }
                if let Place::In(to) = to {
                    self.settle(&to);
                }
            }
            _ => {}
        }
    }

    fn fit_plug(&mut self, into: &Address, source: PlugSource, with_spare: bool) {
        let size = self.cavity_size(into);
        if with_spare {
            let id = ItemId::At(into.clone());
            self.others.push(OtherItem { id, kind: OtherKind::Spare, place: Place::In(into.clone()) });
        }
        match source {
            PlugSource::Stock => {
                let n = self.plugs.iter().filter(|p| p.origin == PlugOrigin::Stock).count();
                self.plugs.push(PlugItem {
                    id: ItemId::Stock(u32::try_from(n).unwrap_or(u32::MAX).saturating_add(1)),
                    origin: PlugOrigin::Stock,
                    size,
                    place: Place::In(into.clone()),
                    came_from: None,
                });
            }
            PlugSource::Hand | PlugSource::Tray => {
                let from = if source == PlugSource::Hand { Place::Hand } else { Place::Tray };
                let fits = |p: &PlugItem| p.size.is_none() || p.size == size;
                let here = |p: &PlugItem| p.place == from;
                let index = self
                    .plugs
                    .iter()
                    .position(|p| here(p) && fits(p))
                    .or_else(|| self.plugs.iter().position(here));
                if let Some(plug) = index.and_then(|i| self.plugs.get_mut(i)) {
                    plug.place = Place::In(into.clone());
                }
            }
        }
        self.settle(into);
    }

    /// The plug in the hand, else the last one in the tray, leaves for good.
    fn plug_out(&mut self, to: Place) {
        let in_hand = self.plugs.iter().position(|p| p.place == Place::Hand);
        let index = in_hand.or_else(|| self.plugs.iter().rposition(|p| p.place == Place::Tray));
        if let Some(plug) = index.and_then(|i| self.plugs.get_mut(i)) {
            plug.place = to;
        }
    }

    fn take_repair(&mut self, act: &Act) {
        match act {
            Act::Planned { lead, how, part, .. } => {
                if let Some(lead) = self.lead_mut(lead) {
                    lead.planned = Some(*how);
                    lead.planned_part.clone_from(part);
                }
            }
            Act::Repair { lead, how, part, .. } => {
                let sealed = self.side(JobSide::New).any(|h| h.housing().sealing == Sealing::Individual);
                if let Some(lead) = self.lead_mut(lead) {
                    lead.repairs.push((*how, part.clone()));
                    lead.inspected = None;
                    if lead.planned == Some(*how) {
                        lead.planned = None;
                    }
                    if matches!(how, RepairKind::NewTerminal | RepairKind::RepairLead) {
                        lead.cut = false;
                        lead.forced = false;
                    }
                    let renews = !matches!(how, RepairKind::Reform | RepairKind::Other);
                    if renews && sealed {
                        lead.seal = Seal::Renewed;
                    }
                }
            }
            Act::Removed { wire, .. } => self.remove_wire(wire),
            _ => {}
        }
    }

    fn remove_wire(&mut self, wire: &WireId) {
        let Some(lead) = self.lead_mut(&wire.lead) else { return };
        match wire.wire {
            Some(n) => lead.removed_wires.push(n),
            None => lead.removed_wires = (1..=lead.seen.wires.len()).collect(),
        }
        if lead.wires_left() == 0 {
            lead.place = Place::Removed;
            lead.seat = Seat::Away;
        }
    }

    fn take_reading(&mut self, n: usize, entry: &Entry) {
        match &entry.act {
            Act::Seen { item, at, .. } => self.see(item, at),
            Act::ReRead { at, colour } => {
                let agrees = self.agrees_with(at, colour);
                self.rereads
                    .insert(at.clone(), ReReadSeen { saw: colour.clone(), agrees, by: entry.by.clone() });
                if let Some(need) = self.resume.as_mut().filter(|_| agrees) {
                    need.reread.insert(at.clone());
                }
            }
            Act::RowCounted { housing, row, wires, plugs, open } => {
                let agrees = self.count_row(housing, *row) == Some((*wires, *plugs, *open));
                self.row_counts.insert((housing.clone(), *row), agrees);
                if let Some(need) = self.resume.as_mut().filter(|_| agrees) {
                    need.rows.insert((housing.clone(), *row));
                }
            }
            Act::LookedOver { housing, face, cavities, sound } => {
                let at = |label: &Label| Address::new(housing.clone(), label.clone());
                self.looked_at.extend(cavities.iter().map(at));
                if cavities.is_empty() {
                    self.looked_over.insert((housing.clone(), *face), *sound);
                }
            }
            Act::Measure { circuit, test, value, passed } => self.tests.push(TestSeen {
                test: *test,
                circuit: circuit.clone(),
                value: value.clone(),
                passed: *passed,
            }),
            Act::Note { text, about } => {
                let at = match about {
                    super::About::Job => None,
                    super::About::At(at) => Some(at.clone()),
                };
                self.notes.push((n, at, text.clone()));
            }
            _ => {}
        }
    }

    fn see(&mut self, item: &ItemId, at: &SeenAt) {
        if let Place::In(from) = self.place_of(item).unwrap_or(Place::Unseen) {
            self.unsettle(&from);
        }
        if let SeenAt::In(to) = at {
            self.unsettle(to);
        }
        let is_new = matches!(at, SeenAt::In(to) if self.side_of(to) == Some(JobSide::New));
        let is_plug = self.plugs.iter().any(|p| p.id == *item);
        let place = match at {
            SeenAt::In(to) => Place::In(to.clone()),
            SeenAt::Hand => Place::Hand,
            SeenAt::Parked(_) if is_plug => Place::Tray,
            SeenAt::Parked(tag) => Place::Parked(tag.clone()),
            SeenAt::Unseen => Place::Unseen,
        };
        if let ItemId::Loose(_) = item
            && self.lead(item).is_none()
        {
            self.leads.push(new_lead(item.clone(), unknown_lead(), Place::Unseen, Seal::Unknown));
        }
        if let Some(lead) = self.lead_mut(item) {
            lead.place = place;
            // Seen sitting in a new hole: whether it holds is for the tug to say.
            lead.seat = if is_new { Seat::Clicked } else { Seat::Away };
            lead.inspected = None;
            if let SeenAt::Parked(tag) = at {
                lead.tag = Some(tag.clone());
            }
        } else if let Some(plug) = self.plugs.iter_mut().find(|p| p.id == *item) {
            plug.place = place;
        } else if let Some(other) = self.others.iter_mut().find(|o| o.id == *item) {
            other.place = place;
        }
    }

    fn take_end(&mut self, entry: &Entry) {
        match &entry.act {
            Act::Requested { number, revision, lines } => {
                self.requested =
                    Some(RequestSeen { number: number.clone(), revision: *revision, lines: lines.clone() });
            }
            Act::Arrived { line, count } => *self.arrived.entry(*line).or_default() += count,
            Act::Accept { flag, at, by, reason, due } => self.accepted.push(Accepted {
                flag: *flag,
                at: at.clone(),
                by: by.clone().unwrap_or_else(|| entry.by.clone()),
                reason: reason.clone(),
                due: due.clone(),
            }),
            Act::HandOver { to } => self.interrupt(&format!("handed over to {to}")),
            Act::Resume { .. } => self.resume = None,
            Act::Mate { level, .. } => self.mated = Some(*level),
            Act::Sign { name, .. } => self.signed = Some(name.clone()),
            Act::Stop { why } => self.stopped = Some(why.clone()),
            _ => {}
        }
    }

    // Small helpers on items and places.

    /// Something came into a new cavity: what was known of the hole and its row is out of date.
    fn settle(&mut self, into: &Address) {
        self.moves += 1;
        *self.insertions.entry(into.clone()).or_default() += 1;
        self.unsettle(into);
    }

    /// Something left or entered a cavity: its re-read, row count and looks must be made again.
    fn unsettle(&mut self, at: &Address) {
        self.rereads.remove(at);
        self.looked_over.retain(|(housing, _), _| *housing != at.housing);
        if let Some(row) = self.row_of(at) {
            self.row_counts.remove(&(at.housing.clone(), row));
        }
        if self.side_of(at) == Some(JobSide::New) {
            self.mated = None;
        }
    }

    fn housing_mut(&mut self, name: &crate::record::HousingName) -> Option<&mut JobHousing> {
        self.housings.iter_mut().find(|h| h.name == *name)
    }

    fn lead_mut(&mut self, id: &ItemId) -> Option<&mut Lead> {
        self.leads.iter_mut().find(|l| l.id == *id)
    }

    fn lead_at_mut(&mut self, at: &Address) -> Option<&mut Lead> {
        self.leads.iter_mut().find(|l| matches!(&l.place, Place::In(a) if a == at))
    }

    fn plug_at_mut(&mut self, at: &Address) -> Option<&mut PlugItem> {
        self.plugs.iter_mut().find(|p| matches!(&p.place, Place::In(a) if a == at))
    }

    fn hand_mut(&mut self) -> Option<&mut Lead> {
        self.leads.iter_mut().find(|l| l.place == Place::Hand)
    }
}

/// A lead as it comes into the job.
fn new_lead(id: ItemId, seen: LeadSeen, place: Place, default_seal: Seal) -> Lead {
    Lead {
        seal: seen.seal.unwrap_or(default_seal),
        id,
        seen,
        place,
        came_from: None,
        seat: Seat::Away,
        tag: None,
        forced: false,
        inspected: None,
        cut: false,
        removed_wires: Vec::new(),
        planned: None,
        planned_part: None,
        repairs: Vec::new(),
    }
}

/// A lead nobody recorded: one wire of which nothing is known yet.
fn unknown_lead() -> LeadSeen {
    let wire = Wire {
        number: None,
        circuit: None,
        colour: Told::Unknown,
        gauge: Told::Unknown,
        outside_diameter: None,
        insulation_class: None,
        twisted_with: None,
        shielded: false,
        damage: None,
        slack: None,
        kind: WireKind::Ordinary,
    };
    LeadSeen { wires: vec![wire], terminal: None, seal: None, condition: None }
}
