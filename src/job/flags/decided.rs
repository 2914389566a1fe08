//! Flags about what a decision for the diagram asks for and what is not done yet.

use super::{Flag, Flags};
use crate::{
    colour::Colour,
    job::{
        Code, ItemId, JobSide, Lead, LeadOrigin, OtherKind, Place, Readings,
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
            for (code, say, instead) in self.undone_by_decision(lead, target) {
                // What leaves the terminal is a step until the lead sits in its new hole.
                if code == Code::GaugeReduced || is_in_new {
                    flags.push(self.about_lead(Flag::job(code, say, instead), lead));
                }
            }
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
            let mut add = |code, say: String, instead: &str| {
                flags.push(self.about_lead(Flag::job(code, say, instead), lead));
            };
            let wire = slot.checked_sub(1).and_then(|n| lead.seen.wires.get(n));
            let has = |colour: &Colour| wire.is_some_and(|wire| wire.colour.known() == Some(colour));
            if let Some((found, meant)) = by_decision.recoloured.get(&key).filter(|(_, meant)| !has(meant)) {
                let say = format!("{call} is {found} and drawn {meant}; the wire stays.");
                add(Code::ColourDiffers, say, "Label it at both ends, and accept it by name.");
            }
            if let Some((found, meant)) = by_decision.renamed.get(&key)
                && !self.readings.is_traced(&[found, meant])
            {
                let say = format!("{call} is drawn as {meant} and was found as {found}: nobody traced it.");
                let instead =
                    "Measure it through to its far end and key that with its circuit, or accept it by name.";
                add(Code::UnknownValue, say, instead);
            }
            if let Some((found, meant)) = by_decision.of_another_kind.get(&key) {
                let say = format!("{call} is found as {} and drawn as {}.", found.words(), meant.words());
                let instead =
                    "Ask for the document of this machine; correct the record with what the wire is.";
                add(Code::WireMisfit, say, instead);
            }
        }
    }

    /// Wires that are drawn and found nowhere, until somebody makes them.
    fn flag_missing_wires(&self, target: &Target, flags: &mut Flags) {
        for (at, wires) in &target.by_decision.missing {
            let names: Vec<String> = wires.iter().map(called).collect();
            let name = names.join(" and ");
            let there = self.items.lead(&ItemId::At(at.clone()));
            let flag = match there {
                Some(lead) if lead.origin == LeadOrigin::Made && lead.place != Place::Removed => continue,
                // The lead of this cavity is another one, or is out for good.
                Some(lead) if lead.place == Place::Removed || target.by_decision.out.contains(&lead.id) => {
                    let say = format!("{name} belongs in {} and is not there.", at.label);
                    let instead = "Find it and say where it is seen, plan a repair lead for it, or key what should be by the document.";
                    Flag::job(Code::WireMissing, say, instead)
                }
                Some(lead) => {
                    let say =
                        format!("{name} belongs in the terminal of {} and is found nowhere.", lead.call());
                    Flag::job(
                        Code::LeadParted,
                        say,
                        "Find it, or join it behind the housing to one new lead; then correct the record of this cavity.",
                    )
                }
                None => {
                    let say = format!("{name} belongs in {} and is found nowhere.", at.label);
                    Flag::job(Code::WireMissing, say, "Find it, or plan a repair lead for it.")
                }
            };
            flags.push(flag.at(self, at).circuit(Some(&name)));
        }
    }

    /// Spare terminals, bridges and clips that are drawn and found nowhere, until a new one is fitted.
    fn flag_missing_others(&self, target: &Target, flags: &mut Flags) {
        for (at, expected) in &target.cavities {
            let Expected::MissingOther(kind) = expected else { continue };
            let (code, what) = match kind {
                OtherKind::Spare => (Code::SpareMissing, "spare terminal".to_owned()),
                OtherKind::Bridge(what) => (Code::BridgeMissing, what.clone()),
            };
            let say = format!("A {what} belongs in {at} and is found nowhere.");
            flags.push(Flag::job(code, say, "Order one like it and fit it.").at(self, at));
        }
    }
}

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
