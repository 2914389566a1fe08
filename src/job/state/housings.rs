//! The housings of both sides, and what was said of them together.

use std::collections::{BTreeMap, BTreeSet};

use crate::{
    catalogue::{Cavity, Definition, Housing, LockState, SizeName},
    face::{Label, Pose},
    job::{AnchorSeen, Behind, Fit, JobSide, MatingVerdict, Place, Question, RowEnds},
    record::{Address, HousingName},
};

/// A housing of the job and what was done to it.
#[derive(Debug, Clone, PartialEq)]
pub struct JobHousing {
    /// Its short name.
    pub name: HousingName,
    /// Which side it is on.
    pub side: JobSide,
    /// What it is.
    pub definition: Definition,
    /// How it is held, once said: the pose, and the word used for "up".
    pub view: Option<(Pose, String)>,
    /// The anchors asked since the view was last set.
    pub anchors: Vec<AnchorSeen>,
    /// The state of the secondary lock; none when it has none.
    pub lock: Option<LockState>,
    /// How often a lock that was full-set was opened again.
    pub lock_openings: u32,
    /// Whether the lock was pressed home with more than a finger.
    pub lock_forced: bool,
    /// Whether the position assurance was pushed in before the halves were mated.
    pub assurance_forced: bool,
    /// Whether the position assurance is on; none when it has none.
    pub assurance: Option<bool>,
    /// Small parts that are on.
    pub parts_on: BTreeSet<String>,
    /// Small parts that were spoken of.
    pub parts_seen: BTreeSet<String>,
}

impl JobHousing {
    /// The housing itself.
    pub fn housing(&self) -> &Housing {
        self.definition.housing()
    }

    /// The address of one of its cavities.
    pub fn address(&self, label: &Label) -> Address {
        Address::new(self.name.clone(), label.clone())
    }

    /// The pose it is held in, or drawn in while nothing was said.
    pub fn pose(&self) -> Pose {
        self.view.as_ref().map_or(self.housing().drawn_pose(), |(pose, _)| *pose)
    }
}

/// The housings of both sides, and what was said of them together.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Housings {
    /// The housings, old ones first.
    pub all: Vec<JobHousing>,
    /// What lies behind the old housings.
    pub behind: BTreeMap<HousingName, Behind>,
    /// What was compared with the mating half in hand.
    pub compared: BTreeMap<Question, Fit>,
    /// The mating half.
    pub mating_half: Option<MatingVerdict>,
    /// Mated, and whether the rear wires stayed level.
    pub mated: Option<bool>,
}

impl Housings {
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

    /// A row by the holes at its ends. However the housing is held, they are the same.
    pub fn row_ends(&self, name: &HousingName, row: usize) -> RowEnds {
        let rows = self.housing(name).map(JobHousing::rows).unwrap_or_default();
        let row = row.checked_sub(1).and_then(|n| rows.get(n));
        match row.map(|row| (row.first(), row.last())) {
            Some((Some(first), Some(last))) if first != last => {
                RowEnds::Both(first.label.clone(), last.label.clone())
            }
            Some((Some(only), _)) => RowEnds::Only(only.label.clone()),
            _ => RowEnds::NoRow,
        }
    }

    /// Whether the mating half is away, so that what needs the machine waits for it.
    pub fn waits_for_machine(&self) -> bool {
        self.mating_half == Some(super::MatingVerdict::NotHere)
    }

    /// Whether terminals can leave and enter a housing: its lock is open, broken or not there.
    pub fn lock_is_open(&self, housing: &JobHousing) -> bool {
        match (&housing.housing().lock, housing.lock) {
            (None, _) | (_, None | Some(LockState::Broken | LockState::Out)) => true,
            (Some(lock), Some(now)) => now == lock.open_state,
        }
    }

    /// A clip or bridge of the old housings that the new ones come without.
    pub fn clip_missing(&self) -> Option<&str> {
        let news: Vec<&str> =
            self.side(JobSide::New).flat_map(|h| &h.housing().bridges).map(|b| b.name.as_str()).collect();
        let olds = self.side(JobSide::Old).flat_map(|h| &h.housing().bridges).map(|b| b.name.as_str());
        olds.into_iter().find(|name| !news.contains(name))
    }

    pub(in crate::job) fn is_sealed(&self, at: &Address) -> bool {
        self.housing(&at.housing).is_some_and(|h| h.housing().sealing.is_sealed())
    }

    pub(in crate::job) fn housing_mut(&mut self, name: &HousingName) -> Option<&mut JobHousing> {
        self.all.iter_mut().find(|h| h.name == *name)
    }

    /// The housing with this name.
    pub fn housing(&self, name: &HousingName) -> Option<&JobHousing> {
        self.all.iter().find(|h| h.name == *name)
    }

    /// The housings of one side.
    pub fn side(&self, side: JobSide) -> impl Iterator<Item = &JobHousing> {
        self.all.iter().filter(move |h| h.side == side)
    }

    /// Which side an address is on, when its housing belongs to the job.
    pub fn side_of(&self, address: &Address) -> Option<JobSide> {
        self.housing(&address.housing).map(|h| h.side)
    }

    pub(in crate::job) fn is_at_home(&self, place: &Place) -> bool {
        matches!(place, Place::In(at) if self.side_of(at) == Some(JobSide::Old))
    }
}
