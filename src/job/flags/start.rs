//! Flags on gates, on how housings are held, and on interruptions.

use super::{
    Flag, Flags,
    cause::{FlagCause, StartCause},
};
use crate::job::{GATES, GateAnswer, GateKind, JobHousing, seen::GateSeen, state::State};

impl State {
    pub(super) fn flag_gates_and_views(&self, flags: &mut Flags) {
        let moved = self.has_moved() && self.course.signed.is_none();
        for gate in GATES {
            let stops = self.course.gates.get(&gate).is_some_and(GateSeen::stops);
            let is_against = self.is_against_record(gate);
            if stops || is_against || (moved && !self.gate_is_open(gate)) {
                flags.push(start(self.gate_cause(gate, stops)));
            }
        }
        for housing in &self.housings.all {
            if moved && housing.view.is_none() {
                flags.push(start(StartCause::ViewUnset(housing.name.clone())).of(housing));
            }
            flags.extend(self.anchor_cause(housing).map(|cause| start(cause).of(housing)));
        }
        if let Some(need) = &self.course.resume {
            flags.push(start(StartCause::Interrupted { why: need.why.clone() }));
        }
    }

    fn gate_cause(&self, gate: GateKind, stops: bool) -> StartCause {
        let seen = self.course.gates.get(&gate);
        match (stops, self.sign_of(gate, None)) {
            (true, _) => StartCause::GateStops(gate),
            (false, Some(sign)) if seen.is_some_and(|seen| seen.answer == GateAnswer::Absent) => {
                StartCause::GateAbsent { gate, sign }
            }
            (false, _) if seen.is_some_and(GateSeen::has_lapsed) => StartCause::GateLapsed(gate),
            (false, _) => StartCause::GateOpenAgain(gate),
        }
    }

    fn anchor_cause(&self, housing: &JobHousing) -> Option<StartCause> {
        let anchor = self.failed_anchor(housing)?;
        Some(StartCause::AnchorFailed {
            housing: housing.name.clone(),
            side: housing.side,
            place: housing.seen().spoken(anchor.place),
            colour: anchor.colour.clone(),
            mark: anchor.mark.clone(),
            fits: self.readings_that_fit(housing),
        })
    }
}

fn start(cause: StartCause) -> Flag {
    Flag::job(FlagCause::Start(cause))
}
