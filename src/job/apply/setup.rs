//! Taking in what is set up before the first move: map, gates, views, locks, small parts.

use crate::{
    catalogue::LockState,
    face::{Face, Pose},
    job::{
        Act, Behind, CavityMap, Fit, GateAnswer, GateKind, Housings, JobSide, MapSource, MatingVerdict,
        Question, Records,
        seen::{AnchorSeen, GateSeen},
        state::State,
    },
    reckoning::DamageCause,
    record::{Address, HousingName},
};

impl State {
    pub(super) fn apply_compared(&mut self, question: Question, answer: Fit, mating_half: bool) {
        // An answer given without the mating half in the hand proves nothing.
        let answer = if mating_half { answer } else { Fit::DontKnow };
        self.housings.compared.insert(question, answer);
    }

    pub(super) fn apply_map_confirmed(&mut self, source: MapSource, map: Option<&CavityMap>) {
        if let Some(map) = map {
            self.mapping.map.clone_from(map);
            self.mapping.confirmed = Some(source);
        }
    }

    pub(super) fn apply_mapped(&mut self, from: &Address, to: Option<&Address>, document: Option<&str>) {
        self.mapping.by_hand.insert(from.clone(), to.cloned());
        self.mapping.map = self.presumed_map();
        self.mapping.documents.remove(from);
        if let Some(document) = document {
            self.mapping.documents.insert(from.clone(), document.to_owned());
        }
        self.mapping.confirmed = None;
    }

    pub(super) fn apply_assurance(&mut self, housing: &HousingName, on: bool) {
        let is_early = on && self.housings.mated != Some(true);
        if let Some(h) = self.housings.housing_mut(housing) {
            h.assurance = Some(on);
            h.assurance_forced = is_early && h.side == JobSide::New;
        }
    }

    pub(super) fn apply_small_part(&mut self, housing: &HousingName, part: &str, on: bool) {
        let parts_halves = self
            .housings
            .housing(housing)
            .is_some_and(|h| h.side == JobSide::New && !on && h.parts_on.contains(part));
        if parts_halves {
            self.part_halves(housing);
        }
        if let Some(h) = self.housings.housing_mut(housing) {
            h.parts_seen.insert(part.to_owned());
            if on {
                h.parts_on.insert(part.to_owned());
            } else {
                h.parts_on.remove(part);
            }
        }
    }

    pub(super) fn apply_mating_half(&mut self, verdict: &MatingVerdict) {
        match verdict {
            // Nobody sees or mends it while it is mated.
            MatingVerdict::Damaged(_) | MatingVerdict::Cleaned | MatingVerdict::Replaced => {
                self.part_all_halves();
            }
            MatingVerdict::Good | MatingVerdict::NotHere => {}
        }
        self.housings.mating_half = Some(verdict.clone());
    }

    /// The last answer counts. Off the machine is said of battery and stored energy at once; and whoever
    /// answers one of them for the machine says that the harness is back on it.
    pub(super) fn apply_gate(&mut self, gate: GateKind, act: &Act) {
        let Some(mut seen) = GateSeen::told(act) else { return };
        if let Some(told) = self.course.gates.get(&gate) {
            // What was told of circuits, sleeves and voltage stands until it is told anew.
            seen.circuit = seen.circuit.or_else(|| told.circuit.clone());
            seen.sleeve = seen.sleeve.or_else(|| told.sleeve.clone());
            seen.voltage = seen.voltage.or_else(|| told.voltage.clone());
        }
        if !gate.can_be_absent() {
            let other = match gate {
                GateKind::Battery => GateKind::StoredEnergy,
                GateKind::StoredEnergy
                | GateKind::Restraint
                | GateKind::HighVoltage
                | GateKind::Interlock => GateKind::Battery,
            };
            if seen.answer != GateAnswer::OffMachine {
                self.lapse_off_machine();
            } else if !self.gate_is_open(other) {
                self.course.gates.insert(other, seen.clone());
            }
        }
        self.course.gates.insert(gate, seen);
    }

    /// The harness is on the machine, or nobody can say that it is not.
    pub(super) fn lapse_off_machine(&mut self) {
        let off = self.course.gates.values_mut().filter(|seen| seen.answer == GateAnswer::OffMachine);
        off.for_each(|seen| seen.fresh = false);
    }

    pub(super) fn apply_view(&mut self, name: &HousingName, face: Face, up: &str) {
        if let Some(need) = &mut self.course.resume {
            need.views.insert(name.clone());
        }
        if let Some(h) = self.housings.housing_mut(name)
            && let Some(side) = h.housing().side_of(up)
        {
            let view = Some((Pose { face, up: side }, up.to_owned()));
            // Saying the same view again after a pause does not ask the anchors again.
            if h.view != view {
                h.view = view;
                h.anchors.clear();
            }
        }
    }

    pub(super) fn apply_lock(&mut self, name: &HousingName, to: LockState, finger: bool) {
        let Some(h) = self.housings.housing_mut(name) else { return };
        let is_opened =
            h.side == JobSide::New && h.lock == Some(LockState::FullSet) && to != LockState::FullSet;
        if is_opened {
            h.lock_openings += 1;
        }
        if to == LockState::FullSet {
            h.lock_forced = !finger;
        }
        h.lock = Some(to);
        if is_opened {
            self.part_halves(name);
        }
    }
}

impl GateSeen {
    /// What an answer to a gate says.
    fn told(act: &Act) -> Option<Self> {
        let Act::Gate { answer, circuit, document, name, sleeve, voltage, .. } = act else { return None };
        Some(Self {
            answer: *answer,
            name: name.clone(),
            document: document.clone(),
            circuit: circuit.clone(),
            sleeve: sleeve.clone(),
            voltage: voltage.clone(),
            fresh: true,
        })
    }
}

impl Records {
    pub(super) fn is_caused_by(&mut self, text: &str, kind: Option<DamageCause>) {
        self.cause = Some(text.to_owned());
        self.cause_kind = kind;
    }
}

impl Housings {
    pub(super) fn apply_anchor(&mut self, act: &Act) {
        let Act::Anchor { housing, place, colour, mark, agrees: Some(agrees) } = act else { return };
        if let Some(h) = self.housing_mut(housing) {
            h.anchors.retain(|a| a.place != *place);
            let (colour, mark) = (colour.clone(), mark.trim().to_owned());
            h.anchors.push(AnchorSeen { place: *place, colour, mark, agrees: *agrees });
        }
    }

    pub(super) fn apply_behind(&mut self, housing: &HousingName, behind: &Behind) {
        self.behind.insert(housing.clone(), behind.clone());
    }
}
