//! The job: all its entries, which of them are in force, and the state they add up to.

use std::rc::Rc;

use crate::{
    face::Label,
    record::{CavityContent, HousingName, LeadSeen, SpareSeen},
};

use super::{
    Act, Entry, JobSide, OtherKind,
    lent::Lent,
    state::{Occupant, State},
    target::Target,
};

/// A job.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Job {
    entries: Vec<Entry>,
    /// Places in `entries` of those that were not taken back.
    in_force: Vec<usize>,
    /// Where this sitting started: what stands before cannot be taken back by a wrong-key.
    sitting: usize,
    state: State,
    /// Where everything is to go by that state.
    lent: Lent,
}

impl Job {
    /// The job that these entries, in the order of the journal, add up to. A new sitting starts.
    pub fn replay(entries: Vec<Entry>) -> Self {
        let mut in_force = Vec::with_capacity(entries.len());
        for (n, entry) in entries.iter().enumerate() {
            if entry.act == Act::WrongKey {
                take_back(&mut in_force, &entries);
            } else {
                in_force.push(n);
            }
        }
        let sitting = entries.len();
        let mut job = Self { entries, in_force, sitting, state: State::default(), lent: Lent::default() };
        job.refold();
        job
    }

    /// Takes in an entry that is on disk.
    pub fn apply(&mut self, entry: Entry) {
        self.lent = Lent::default();
        let n = self.entries.len();
        self.entries.push(entry);
        let Some(entry) = self.entries.last_mut() else { return };
        if entry.act == Act::WrongKey {
            take_back(&mut self.in_force, &self.entries);
            self.refold();
        } else {
            self.in_force.push(n);
            self.state.lift(&mut entry.act);
            self.state.apply(n, entry);
        }
    }

    fn refold(&mut self) {
        let mut state = State::default();
        for &n in &self.in_force {
            if let Some(entry) = self.entries.get_mut(n) {
                state.lift(&mut entry.act);
                state.apply(n, entry);
            }
        }
        self.state = state;
        self.lent = Lent::default();
    }

    /// Where everything is to go. A pause, which opens gates, changes nothing of it.
    pub fn target(&self) -> &Rc<Target> {
        self.lent.target(&self.state)
    }

    /// What the entries in force add up to.
    pub fn state(&self) -> &State {
        &self.state
    }

    /// Every entry, taken back or not.
    pub fn entries(&self) -> &[Entry] {
        &self.entries
    }

    /// The entries nobody took back, the first first.
    pub fn entries_in_force(&self) -> impl DoubleEndedIterator<Item = &Entry> {
        self.in_force.iter().filter_map(|n| self.entries.get(*n))
    }

    /// The last entry in force with its place in the journal, if there is one.
    pub fn last_in_force(&self) -> Option<(usize, &Entry)> {
        let n = *self.in_force.last()?;
        Some((n, self.entries.get(n)?))
    }

    /// The entries of the last key press in force, with their places in the journal, the last first:
    /// what a wrong key takes back.
    pub fn last_press(&self) -> impl Iterator<Item = (usize, &Entry)> {
        let first = first_of_last_press(&self.in_force, &self.entries);
        let press = self.in_force.iter().rev().take_while(move |n| first.is_some_and(|first| **n >= first));
        press.filter_map(|n| Some((*n, self.entries.get(*n)?)))
    }

    /// Whether the entry at this place was entered in this sitting.
    pub fn is_of_this_sitting(&self, n: usize) -> bool {
        n >= self.sitting
    }

    /// What the new housings hold now, as a record another job can start from.
    pub fn left_as_record(&self) -> Vec<(HousingName, Label, CavityContent)> {
        let occupants = self.state.items.occupants();
        let target = self.target();
        let mut record = Vec::new();
        for new in self.state.housings.side(JobSide::New) {
            for cavity in &new.housing().cavities {
                let at = new.address(&cavity.label);
                let holds = match occupants.get(&at) {
                    Some(Occupant::Lead(lead)) => CavityContent::Wired(LeadSeen {
                        seal: Some(lead.seal),
                        terminal: lead.terminal().cloned(),
                        ..lead.seen.clone()
                    }),
                    Some(Occupant::Plug(_)) => CavityContent::Plugged,
                    Some(Occupant::Other(other)) => match &other.kind {
                        OtherKind::Spare => CavityContent::Spare(SpareSeen {
                            terminal: None,
                            plug_behind: self.state.items.plug_at(&at).is_some(),
                        }),
                        OtherKind::Bridge(what) => CavityContent::Bridge(what.clone()),
                    },
                    None => bare(target.expected(&at)),
                };
                record.push((new.name.clone(), cavity.label.clone(), holds));
            }
        }
        record
    }
}

/// The place of the first entry of the last key press in force.
fn first_of_last_press(in_force: &[usize], entries: &[Entry]) -> Option<usize> {
    let last = *in_force.last()?;
    let first = entries.get(last)?.with.and_then(|number| number.checked_sub(1));
    Some(first.map_or(last, |first| first.min(last)))
}

/// A wrong key takes back the whole last key press.
fn take_back(in_force: &mut Vec<usize>, entries: &[Entry]) {
    if let Some(first) = first_of_last_press(in_force, entries) {
        in_force.truncate(in_force.partition_point(|n| *n < first));
    }
}

fn bare(expected: &super::Expected) -> CavityContent {
    match expected {
        super::Expected::Nothing => CavityContent::Empty,
        super::Expected::Blocked => CavityContent::Blocked,
        super::Expected::Delivered => CavityContent::Bridge("as delivered".to_owned()),
        super::Expected::Leads(_)
        | super::Expected::Plug(_)
        | super::Expected::SpareAndPlug
        | super::Expected::Other(_)
        | super::Expected::MissingWire
        | super::Expected::MissingOther(_) => CavityContent::Open,
    }
}
