//! What follows from the state of a job: its account, target, steps and plans, reckoned once after each entry
//! and lent to whoever needs it.

use std::{cell::OnceCell, rc::Rc};

use jiff::Timestamp;

use super::Account;
use super::{
    ItemId, Job,
    splices::{Ordered, SplicePlan},
    state::State,
    step::Step,
    target::Target,
    thickness::Thickness,
};

/// The account with what it was reckoned from, for screens that show both.
#[derive(Debug, Clone, PartialEq)]
pub struct Assessment {
    /// The account.
    pub account: Account,
    /// Where everything is to go.
    pub target: Rc<Target>,
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
        let target = Rc::clone(self.target());
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
