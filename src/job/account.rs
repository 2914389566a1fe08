//! The account: where everything is, and what is open. Pure, recomputed whole each time.

use super::{CavityCounts, LeadCounts, OtherCounts, PlugCounts, WireCounts};

use super::{
    Code, ItemId,
    flags::Flag,
    state::State,
    step::{Status, Step},
    target::{Destination, Target},
};

/// Where a job stands: the first that fits.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum JobState {
    /// Stopped for good.
    Stopped,
    /// Signed, no open flag.
    Closed,
    /// Nothing moved, and something forbids to start.
    NotStartable,
    /// Nothing moved.
    NotStarted,
    /// Every step left waits for a part, an answer or the machine.
    Waiting,
    /// Only lock, assurance, look, re-read, mate, tests and signature are left.
    ReadyToClose,
    /// Under way.
    Moving,
}

impl JobState {
    /// The spelling in reports.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::Stopped => "stopped",
            Self::Closed => "closed",
            Self::NotStartable => "not-startable",
            Self::NotStarted => "not-started",
            Self::Waiting => "waiting",
            Self::ReadyToClose => "ready-to-close",
            Self::Moving => "moving",
        }
    }
}

/// The account of a job.
#[derive(Debug, Clone, PartialEq)]
pub struct Account {
    /// Where the job stands.
    pub state: JobState,
    /// Conductors.
    pub wires: WireCounts,
    /// Leads.
    pub leads: LeadCounts,
    /// Plugs.
    pub plugs: PlugCounts,
    /// Spare terminals, bridges and the like.
    pub others: OtherCounts,
    /// The cavities of the new side.
    pub cavities: CavityCounts,
    /// Every flag, the gravest first; accepted ones stay.
    pub flags: Vec<Flag>,
}

impl Account {
    /// The flags nobody accepted.
    pub fn open_flags(&self) -> impl Iterator<Item = &Flag> {
        self.flags.iter().filter(|flag| flag.accepted.is_none())
    }

    /// Whether a flag of this code is open.
    pub fn has(&self, code: Code) -> bool {
        self.open_flags().any(|flag| flag.code() == code)
    }

    /// How many things are not in a housing.
    pub fn not_in_a_housing(&self) -> usize {
        let leads = self.leads.places;
        let others = self.others;
        leads.hand
            + leads.parked
            + leads.unseen
            + self.plugs.hand
            + self.plugs.tray
            + self.plugs.unseen
            + others.hand
            + others.parked
            + others.unseen
    }
}

impl State {
    pub(in crate::job) fn job_state(&self, target: &Target, steps: &[Step], flags: &[Flag]) -> JobState {
        let open_flags = flags.iter().filter(|f| f.accepted.is_none());
        if self.course.stopped.is_some() {
            return JobState::Stopped;
        }
        if self.course.signed.is_some() && open_flags.clone().count() == 0 {
            return JobState::Closed;
        }
        if !self.has_moved() {
            let blocked = target.leads.values().any(|d| matches!(d, Destination::Blocked(_)));
            let unfit = self.misfit().is_some() || self.housings.clip_missing().is_some();
            let refused = self.stopping_gate().is_some() || blocked || unfit;
            return if refused { JobState::NotStartable } else { JobState::NotStarted };
        }
        let mut open = steps.iter().filter(|s| s.status != Status::Done && !s.what.is_closing());
        let temporary = open_flags.clone().any(|f| f.code() == Code::TemporaryMeasure);
        if open.all(|step| step.what.needs_machine() && step.status == Status::Waiting) {
            let mut left = steps.iter().filter(|s| s.status != Status::Done);
            let waits = self.housings.waits_for_machine() && left.all(|s| s.status == Status::Waiting);
            return if temporary || waits { JobState::Waiting } else { JobState::ReadyToClose };
        }
        let mut open = steps.iter().filter(|s| s.status != Status::Done && !s.what.is_closing());
        let waits = open.all(|step| self.is_held_up(step, steps));
        if waits && self.course.resume.is_none() { JobState::Waiting } else { JobState::Moving }
    }

    /// Whether an open step waits, or only follows one that waits.
    fn is_held_up(&self, step: &Step, steps: &[Step]) -> bool {
        use super::Task::{MoveWire, Repair};
        let waiting = |id: &ItemId| {
            steps.iter().any(|s| {
                s.status == Status::Waiting && matches!(&s.what, MoveWire { lead, .. } if lead == id)
            })
        };
        match &step.what {
            MoveWire { lead, .. } | Repair { lead, .. } => waiting(lead),
            what => what.needs_machine() && step.status == Status::Waiting,
        }
    }
}
