//! Flags about what a decision for the diagram asks for and what is not done yet.

use super::{
    Flag, Flags,
    cause::{DecidedCause, FlagCause, WireMissing},
};
use crate::{
    colour::Colour,
    job::{
        Code, ItemId, JobSide, Lead, LeadOrigin, Place, Readings,
        state::State,
        target::{Expected, Target},
    },
    quantity::plain_words,
    record::Wire,
    shop_rules::TestKind,
};

impl State {
    pub(super) fn flag_decided(&self, target: &Target, flags: &mut Flags) {
        self.flag_missing_wires(target, flags);
        self.flag_missing_others(target, flags);
        for lead in &self.items.leads {
            let is_in_new =
                matches!(&lead.place, Place::In(at) if self.housings.side_of(at) == Some(JobSide::New));
            // What leaves the terminal is a step until the lead sits in its new hole.
            let mut undone = self.undone_by_decision(lead, target);
            undone.retain(|objection| objection.code() == Code::GaugeReduced || is_in_new);
            self.flag_objections(undone, lead, flags);
            if lead.place != Place::Removed {
                self.flag_described(lead, target, flags);
            }
        }
    }

    /// Wires that are described otherwise than they are drawn, and stay.
    fn flag_described(&self, lead: &Lead, target: &Target, flags: &mut Flags) {
        let by_decision = &target.by_decision;
        let slots = (1..=lead.seen.wires.len()).filter(|slot| !lead.removed_wires.contains(slot));
        for slot in slots {
            let key = (lead.id.clone(), slot);
            let call = lead.call_wire(slot);
            let mut add = |cause| flags.push(self.about_lead(decided(cause), lead));
            let wire = slot.checked_sub(1).and_then(|n| lead.seen.wires.get(n));
            let has = |colour: &Colour| wire.is_some_and(|wire| wire.colour.known() == Some(colour));
            if let Some((found, meant)) = by_decision.recoloured.get(&key).filter(|(_, meant)| !has(meant)) {
                let (found, drawn) = (found.clone(), meant.clone());
                add(DecidedCause::Colour { wire: call.clone(), found, drawn });
            }
            if let Some((found, meant)) = by_decision.renamed.get(&key)
                && !self.readings.is_traced(&[found, meant])
            {
                let (found, drawn) = (found.clone(), meant.clone());
                add(DecidedCause::Name { wire: call.clone(), found, drawn });
            }
            if let Some((found, drawn)) = by_decision.of_another_kind.get(&key).copied() {
                add(DecidedCause::Kind { wire: call, found, drawn });
            }
        }
    }

    /// Wires that are drawn and found nowhere, until somebody makes them.
    fn flag_missing_wires(&self, target: &Target, flags: &mut Flags) {
        for (at, wires) in &target.by_decision.missing {
            let there = match self.items.lead(&ItemId::At(at.clone())) {
                Some(lead) if lead.origin == LeadOrigin::Made && lead.place != Place::Removed => continue,
                // The lead of this cavity is another one, or is out for good.
                Some(lead) if lead.place == Place::Removed || target.by_decision.out.contains(&lead.id) => {
                    WireMissing::OtherLead
                }
                Some(lead) => WireMissing::Parted(lead.call()),
                None => WireMissing::NoLead,
            };
            let wires: Vec<String> = wires.iter().map(called).collect();
            let circuit = wires.join(" and ");
            let cause = DecidedCause::WireMissing { wires, label: at.label.clone(), there };
            flags.push(decided(cause).at(self, at).circuit(Some(&circuit)));
        }
    }

    /// Spare terminals, bridges and clips that are drawn and found nowhere, until a new one is fitted.
    fn flag_missing_others(&self, target: &Target, flags: &mut Flags) {
        for (at, expected) in &target.cavities {
            let Expected::MissingOther(kind) = expected else { continue };
            let cause = DecidedCause::OtherMissing { kind: kind.clone(), at: at.clone() };
            flags.push(decided(cause).at(self, at));
        }
    }
}

fn decided(cause: DecidedCause) -> Flag {
    Flag::job(FlagCause::Decided(cause))
}

/// What a wire that is nowhere is called.
fn called(wire: &Wire) -> String {
    wire.name().map_or_else(|| format!("the {} {} wire", wire.colour, wire.gauge), ToOwned::to_owned)
}

impl Readings {
    /// Whether a circuit was measured through, and passed, under one of these names.
    fn is_traced(&self, names: &[&String]) -> bool {
        self.tests.iter().any(|test| {
            let is_it = |circuit: &String| names.iter().any(|name| plain_words(name) == plain_words(circuit));
            test.passed && test.test == TestKind::Continuity && test.circuit.as_ref().is_some_and(is_it)
        })
    }
}
