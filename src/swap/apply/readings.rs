//! Taking in what is seen, read back, counted and measured, and the end of a job.

use crate::{
    face::Label,
    record::{Address, Seal},
};

use crate::swap::{
    About, Act, Entry, ItemId, JobSide, Place, Seat, SeenAt,
    state::{Accepted, ReReadSeen, RequestSeen, State, TestSeen},
};

use super::{new_lead, unknown_lead};

impl State {
    pub(super) fn take_reading(&mut self, n: usize, entry: &Entry) {
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
            Act::Measure { circuit, test, value, limit, source, passed } => self.tests.push(TestSeen {
                test: *test,
                circuit: circuit.clone(),
                value: value.clone(),
                limit: limit.clone().map(|limit| (limit, source.clone().unwrap_or_default())),
                passed: *passed,
            }),
            Act::Note { text, about } => {
                let at = match about {
                    About::Job => None,
                    About::At(at) => Some(at.clone()),
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

    pub(super) fn take_end(&mut self, entry: &Entry) {
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
}
