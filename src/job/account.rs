//! The account: where everything is, and what is open. Pure, recomputed whole each time.

use std::cell::OnceCell;

use jiff::Timestamp;

use crate::catalogue::Delivered;

use super::{
    Act, Code, ItemId, Job, JobSide, LeadOrigin, Place, PlugOrigin,
    flags::Flag,
    splices::{Ordered, SplicePlan},
    state::{Occupant, State},
    step::{Status, Step},
    target::{Destination, Expected, Target},
    thickness::Thickness,
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

/// Places of wires, or of leads.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[allow(missing_docs)]
pub struct WireCounts {
    pub found: usize,
    pub old: usize,
    pub hand: usize,
    pub parked: usize,
    pub new: usize,
    pub removed: usize,
    pub unseen: usize,
}

/// Places of leads, with those put into another lead's terminal.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[allow(missing_docs)]
pub struct LeadCounts {
    pub places: WireCounts,
    pub made: usize,
    pub joined: usize,
}

/// Places of plugs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[allow(missing_docs)]
pub struct PlugCounts {
    pub found: usize,
    pub prefitted: usize,
    pub new_stock: usize,
    pub old: usize,
    pub hand: usize,
    pub tray: usize,
    pub new: usize,
    pub scrapped: usize,
    pub lost: usize,
    pub returned: usize,
    pub unseen: usize,
}

/// Places of spare terminals, bridges and the like.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[allow(missing_docs)]
pub struct OtherCounts {
    pub found: usize,
    pub old: usize,
    pub hand: usize,
    pub parked: usize,
    pub new: usize,
    pub scrapped: usize,
    pub returned: usize,
    pub lost: usize,
    pub unseen: usize,
}

/// What the cavities of the new side hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[allow(missing_docs)]
pub struct CavityCounts {
    pub total: usize,
    pub wired: usize,
    pub plugged: usize,
    pub open: usize,
    pub empty: usize,
    pub blocked: usize,
    pub spare: usize,
    pub bridge: usize,
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

/// The account with what it was reckoned from, for screens that show both.
#[derive(Debug, Clone, PartialEq)]
pub struct Assessment {
    /// The account.
    pub account: Account,
    /// Where everything is to go.
    pub target: Target,
    /// Every step.
    pub steps: Vec<Step>,
    /// The moment it was reckoned for.
    pub now: Timestamp,
    /// The state as an interruption leaves it, when one lies between the last entry and now.
    pub interrupted: Option<State>,
    /// Where the splices sit and how thick the bundles get: reckoned when first looked at, for both
    /// take their time.
    plans: OnceCell<Vec<SplicePlan>>,
    bundles: OnceCell<Vec<Thickness>>,
}

impl Assessment {
    /// How thick each bundle with repair leads gets along its way.
    pub fn bundles(&self, state: &State) -> &[Thickness] {
        self.bundles.get_or_init(|| state.thicknesses(self.plans(state)))
    }

    /// The plan of each bundle with repair leads.
    pub fn plans(&self, state: &State) -> &[SplicePlan] {
        self.plans.get_or_init(|| state.splice_plans())
    }

    /// The place and length of the repair lead for a lead.
    pub fn ordered(&self, state: &State, lead: &ItemId) -> Option<&Ordered> {
        self.plans(state).iter().find_map(|plan| plan.of(lead))
    }
}

impl Job {
    /// The account of the job as it stands at `now`.
    pub fn account(&self, now: Timestamp) -> Account {
        self.assess(now, None).account
    }

    /// Account, target and steps, each reckoned once, as they stand at `now` for whoever works
    /// there: a pause or another person counts before anything is entered.
    pub fn assess(&self, now: Timestamp, by: Option<&str>) -> Assessment {
        let interrupted = self.state().interrupted_at(now, by);
        let state = interrupted.as_ref().unwrap_or(self.state());
        let target = state.target();
        let steps = state.steps(&target);
        let flags = state.flags(&target, &steps);
        let account = Account {
            state: state.job_state(&target, &steps, &flags),
            wires: state.wire_counts(),
            leads: state.lead_counts(),
            plugs: state.plug_counts(),
            others: state.other_counts(),
            cavities: state.cavity_counts(&target),
            flags,
        };
        Assessment {
            account,
            target,
            steps,
            now,
            interrupted,
            plans: OnceCell::new(),
            bundles: OnceCell::new(),
        }
    }
}

impl Account {
    /// The flags nobody accepted.
    pub fn open_flags(&self) -> impl Iterator<Item = &Flag> {
        self.flags.iter().filter(|flag| flag.accepted.is_none())
    }

    /// Whether a flag of this code is open.
    pub fn has(&self, code: Code) -> bool {
        self.open_flags().any(|flag| flag.code == code)
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
    fn job_state(&self, target: &Target, steps: &[Step], flags: &[Flag]) -> JobState {
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
        let temporary = open_flags.clone().any(|f| f.code == Code::TemporaryMeasure);
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

    fn wire_counts(&self) -> WireCounts {
        let mut counts = WireCounts::default();
        for lead in self.items.leads.iter().filter(|lead| lead.place != Place::NotMade) {
            let (all, left) = (lead.seen.wires.len(), lead.wires_left());
            counts.found += all;
            counts.removed += all - left;
            if lead.place != Place::Removed {
                *self.wire_place(&mut counts, self.items.rests_at(lead)) += left;
            }
        }
        counts
    }

    fn lead_counts(&self) -> LeadCounts {
        let mut counts = LeadCounts::default();
        for lead in self.items.leads.iter().filter(|lead| lead.place != Place::NotMade) {
            match lead.origin {
                LeadOrigin::Found => counts.places.found += 1,
                LeadOrigin::Made => counts.made += 1,
            }
            match &lead.place {
                Place::Joined(_) => counts.joined += 1,
                place => *self.wire_place(&mut counts.places, place) += 1,
            }
        }
        counts
    }

    fn wire_place<'a>(&self, counts: &'a mut WireCounts, place: &Place) -> &'a mut usize {
        match place {
            Place::In(at) if self.housings.side_of(at) == Some(JobSide::New) => &mut counts.new,
            Place::In(_) => &mut counts.old,
            Place::Hand => &mut counts.hand,
            Place::Parked(_) | Place::Tray => &mut counts.parked,
            Place::Removed | Place::Scrapped | Place::Returned => &mut counts.removed,
            Place::Joined(_) | Place::NotMade | Place::Lost | Place::Unseen => &mut counts.unseen,
        }
    }

    fn plug_counts(&self) -> PlugCounts {
        let mut counts = PlugCounts::default();
        for plug in &self.items.plugs {
            *match plug.origin {
                PlugOrigin::Found => &mut counts.found,
                PlugOrigin::Prefitted => &mut counts.prefitted,
                PlugOrigin::Stock => &mut counts.new_stock,
            } += 1;
            *match &plug.place {
                Place::In(at) if self.housings.side_of(at) == Some(JobSide::New) => &mut counts.new,
                Place::In(_) => &mut counts.old,
                Place::Hand => &mut counts.hand,
                Place::Tray | Place::Parked(_) => &mut counts.tray,
                Place::Scrapped | Place::Removed => &mut counts.scrapped,
                Place::Lost => &mut counts.lost,
                Place::Returned => &mut counts.returned,
                Place::Joined(_) | Place::NotMade | Place::Unseen => &mut counts.unseen,
            } += 1;
        }
        counts
    }

    fn other_counts(&self) -> OtherCounts {
        let mut counts = OtherCounts::default();
        for other in &self.items.others {
            counts.found += 1;
            *match &other.place {
                Place::In(at) if self.housings.side_of(at) == Some(JobSide::New) => &mut counts.new,
                Place::In(_) => &mut counts.old,
                Place::Hand => &mut counts.hand,
                Place::Parked(_) | Place::Tray => &mut counts.parked,
                Place::Scrapped | Place::Removed => &mut counts.scrapped,
                Place::Returned => &mut counts.returned,
                Place::Lost => &mut counts.lost,
                Place::Joined(_) | Place::NotMade | Place::Unseen => &mut counts.unseen,
            } += 1;
        }
        counts
    }

    fn cavity_counts(&self, target: &Target) -> CavityCounts {
        let mut counts = CavityCounts::default();
        let occupants = self.items.occupants();
        for new in self.housings.side(JobSide::New) {
            for cavity in &new.housing().cavities {
                let at = new.address(&cavity.label);
                counts.total += 1;
                *match (occupants.get(&at), cavity.delivered, target.expected(&at)) {
                    (Some(Occupant::Lead(_)), ..) => &mut counts.wired,
                    (Some(Occupant::Plug(_)), ..) => &mut counts.plugged,
                    (Some(Occupant::Other(other)), ..) => match other.kind {
                        super::OtherKind::Spare => &mut counts.spare,
                        super::OtherKind::Bridge(_) => &mut counts.bridge,
                    },
                    (None, Delivered::Blocked, _) => &mut counts.blocked,
                    (None, Delivered::Bridge, _) => &mut counts.bridge,
                    (None, _, Expected::Nothing) => &mut counts.empty,
                    (None, ..) => &mut counts.open,
                } += 1;
            }
        }
        counts
    }
}

impl Act {
    /// Whether the act may come while a resume check is due.
    pub(super) fn is_part_of_resume(&self) -> bool {
        matches!(
            self,
            Self::Seen { .. }
                | Self::Note { .. }
                | Self::Photo { .. }
                | Self::Gate { .. }
                | Self::View { .. }
                | Self::Anchor { .. }
                | Self::ReRead { .. }
                | Self::RowCounted { .. }
                | Self::Resume { .. }
                | Self::HandOver { .. }
                | Self::Requested { .. }
                | Self::Arrived { .. }
                | Self::WrongKey
                | Self::Stop { .. }
        )
    }
}
