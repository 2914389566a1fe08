//! Taking in what is seen, read back, counted and measured, and the end of a job.

use crate::{
    face::Label,
    job::{
        About, Act, Code, Course, Entry, ItemId, JobSide, Place, ReadBack, Readings, Seat, SeenAt, Supply,
        seen::{Accepted, Arrival, LookSeen, ReReadSeen, RequestSeen, TestSeen},
        state::State,
    },
    record::{Address, HousingName, Seal},
};

use super::{new_lead, unknown_lead};

impl State {
    pub(super) fn apply_looked_over(&mut self, n: usize, act: &Act) {
        let Act::LookedOver { housing, face, cavities, sound, found } = act else { return };
        if cavities.is_empty() {
            let look = LookSeen { sound: *sound, n, found: found.clone() };
            self.readings.looked_over.insert((housing.clone(), *face), look);
        }
        let at = |label: &Label| Address::new(housing.clone(), label.clone());
        self.look_into(cavities.iter().map(at).collect(), *sound);
    }

    pub(super) fn apply_accept(&mut self, entry: &Entry) {
        let Act::Accept { flag, at, by, reason, due, line } = &entry.act else { return };
        self.accept(Accepted {
            flag: *flag,
            at: at.clone(),
            item: at.as_ref().and_then(|at| self.items.item_spoken_of(at)),
            line: *line,
            by: by.clone().unwrap_or_else(|| entry.by.clone()),
            reason: reason.clone(),
            due: *due,
        });
    }

    pub(super) fn apply_hand_over(&mut self, by: &str, to: &str) {
        self.interrupt(&format!("handed over to {to}"));
        self.course.handed_over = Some((by.to_owned(), to.to_owned()));
    }

    pub(super) fn apply_reread(&mut self, at: &Address, colour: &ReadBack, by: &str) {
        let agrees = self.agrees_with(at, colour);
        self.readings
            .rereads
            .insert(at.clone(), ReReadSeen { saw: colour.clone(), agrees, by: by.to_owned() });
        if !agrees {
            self.readings.misread.insert(at.clone());
        }
        if let Some(need) = self.course.resume.as_mut().filter(|_| agrees) {
            need.reread.insert(at.clone());
        }
    }

    pub(super) fn apply_row_counted(
        &mut self,
        housing: &HousingName,
        row: usize,
        counted: (usize, usize, usize),
    ) {
        let agrees = self.count_agrees(housing, row, counted);
        let is_old = self.housings.housing(housing).is_some_and(|h| h.side == JobSide::Old);
        if agrees && is_old {
            self.records.counted.insert((housing.clone(), row));
        }
        self.readings.row_counts.insert((housing.clone(), row), agrees);
        if let Some(need) = self.course.resume.as_mut().filter(|_| agrees) {
            need.rows.insert((housing.clone(), row));
        }
    }

    /// A look at single cavities: of the old side at what sits in them, of the new side into the holes.
    fn look_into(&mut self, cavities: Vec<Address>, sound: bool) {
        for at in &cavities {
            match (self.housings.side_of(at), sound) {
                (Some(JobSide::New), true) => {
                    self.items.left_behind.remove(at);
                }
                (Some(JobSide::New), false) => {
                    self.items.left_behind.insert(at.clone());
                }
                (Some(JobSide::Old) | None, _) => {
                    self.readings.looked_at.insert(at.clone());
                }
            }
        }
        match sound {
            true => self
                .readings
                .one_not_sound
                .iter_mut()
                .for_each(|group| group.retain(|at| !cavities.contains(at))),
            false => self.readings.one_not_sound.push(cavities),
        }
    }

    pub(super) fn apply_seen(&mut self, item: &ItemId, at: &SeenAt) {
        if let Place::In(from) = self.items.place_of(item).unwrap_or(Place::Unseen) {
            self.unsettle(&from);
        }
        if let SeenAt::In(to) = at {
            self.unsettle(to);
            // What is said to be there is no longer left there on purpose.
            self.items.left_in_old.remove(to);
        }
        if let ItemId::At(home) | ItemId::PlugBehind(home) = item {
            self.items.left_in_old.remove(home);
        }
        let is_new = matches!(at, SeenAt::In(to) if self.housings.side_of(to) == Some(JobSide::New));
        let is_plug = self.items.plugs.iter().any(|p| p.id == *item);
        let place = match at {
            SeenAt::In(to) => Place::In(to.clone()),
            SeenAt::Hand => Place::Hand,
            SeenAt::Parked(_) if is_plug => Place::Tray,
            SeenAt::Parked(tag) => Place::Parked(tag.clone()),
            SeenAt::Unseen => Place::Unseen,
        };
        if let ItemId::Loose(_) = item
            && self.items.lead(item).is_none()
        {
            self.items.leads.push(new_lead(item.clone(), unknown_lead(), Place::Unseen, Seal::Unknown));
        }
        if let Some(lead) = self.items.lead_mut(item) {
            // Seen again it is not out for good; seen where it is, it is seen whole.
            if lead.place == Place::Removed || lead.place == place {
                lead.removed_wires.clear();
            }
            lead.place = place;
            // Seen sitting in a new hole: whether it holds is for the tug to say.
            lead.seat = if is_new { Seat::Clicked } else { Seat::Away };
            lead.inspected = None;
            if let SeenAt::Parked(tag) = at {
                lead.tag = Some(tag.clone());
            }
        } else if let Some(plug) = self.items.plugs.iter_mut().find(|p| p.id == *item) {
            plug.place = place;
        } else if let Some(other) = self.items.others.iter_mut().find(|o| o.id == *item) {
            other.place = place;
        }
    }

    /// Without a cavity the only flag of its code is meant, wherever that is.
    fn accept(&mut self, mut accepted: Accepted) {
        if accepted.at.is_none() {
            let target = self.target();
            let flags = self.flags(&target, &self.steps(&target));
            let mut meant = flags.iter().filter(|flag| flag.code() == accepted.flag);
            if let (Some(only), None) = (meant.next(), meant.next()) {
                accepted.at.clone_from(&only.at);
                accepted.item.clone_from(&only.item);
            }
        }
        if accepted.flag == Code::Substitute {
            let homes: Vec<Option<Address>> =
                self.supply.arrivals.iter().map(|arrival| self.supply.waits_at(arrival.line)).collect();
            for (arrival, home) in self.supply.arrivals.iter_mut().zip(homes) {
                let is_its_line = accepted.line.is_none_or(|line| line == arrival.line);
                arrival.is_accepted |= home == accepted.at && is_its_line;
            }
            self.supply.note_supplied();
        }
        // Said again it stands in place of what was said before.
        let is_same = |told: &Accepted| {
            (told.flag, &told.at, &told.item, told.line)
                == (accepted.flag, &accepted.at, &accepted.item, accepted.line)
        };
        self.course.accepted.retain(|told| !is_same(told));
        self.course.accepted.push(accepted);
    }

    pub(super) fn apply_mate(&mut self, level: bool) {
        if !level {
            // A wire went back: both faces are looked at again before the next try.
            self.part_all_halves();
            self.readings.looked_over.clear();
        }
        self.housings.mated = Some(level);
        self.lapse_off_machine();
    }
}

impl Supply {
    pub(super) fn apply_requested(&mut self, act: &Act) {
        let Act::Requested { number, revision, lines, said } = act else { return };
        self.requested = Some(RequestSeen {
            number: number.clone(),
            revision: *revision,
            lines: lines.clone(),
            said: said.clone(),
        });
    }

    pub(super) fn apply_arrived(&mut self, act: &Act) {
        let Act::Arrived { line, count, part, verdict } = act else { return };
        self.arrivals.push(Arrival {
            line: *line,
            count: *count,
            part: part.clone(),
            verdict: *verdict,
            is_accepted: false,
        });
        self.note_supplied();
    }

    /// Leads whose line of the request is complete now stay supplied.
    fn note_supplied(&mut self) {
        let lines = self.requested.iter().flat_map(|request| &request.lines);
        let complete = lines.filter(|line| line.need > 0 && self.counts(line).has_come());
        let leads: Vec<(u32, ItemId)> =
            complete.flat_map(|line| line.leads.iter().map(|lead| (line.line, lead.clone()))).collect();
        self.supplied.extend(leads);
    }
}

impl Readings {
    pub(super) fn apply_measure(&mut self, n: usize, act: &Act) {
        let Act::Measure { circuit, test, value, limit, source, passed } = act else { return };
        self.tests.push(TestSeen {
            test: *test,
            circuit: circuit.clone(),
            value: value.clone(),
            limit: limit.clone().map(|limit| (limit, source.clone().unwrap_or_default())),
            passed: *passed,
            n,
        });
    }
}

impl Course {
    pub(super) fn apply_note(&mut self, n: usize, text: &str, about: &About) {
        let at = match about {
            About::Job => None,
            About::At(at) => Some(at.clone()),
        };
        self.notes.push((n, at, text.to_owned()));
    }
}
