//! Flags about what a decision for the diagram asks for and what is not done yet.

use super::{Flag, Flags};
use crate::{
    record::Wire,
    swap::{
        Code, ItemId, JobSide, LeadOrigin, OtherKind, Place,
        state::State,
        target::{Expected, Target},
    },
};

impl State {
    pub(super) fn flag_decided(&self, target: &Target, flags: &mut Flags) {
        self.flag_missing_wires(target, flags);
        self.flag_missing_others(target, flags);
        for lead in &self.leads {
            let is_in_new = matches!(&lead.place, Place::In(at) if self.side_of(at) == Some(JobSide::New));
            for (code, say, instead) in self.undone_by_decision(lead, target) {
                // What leaves the terminal is a step until the lead sits in its new hole.
                if code == Code::GaugeReduced || is_in_new {
                    flags.push(self.about_lead(Flag::job(code, say, instead), lead));
                }
            }
            let recoloured = target.by_decision.recoloured.get(&lead.id);
            let has = |colour| lead.seen.wires.iter().any(|wire| wire.colour.known() == Some(colour));
            if let Some((found, meant)) = recoloured.filter(|(_, meant)| !has(meant)) {
                let say = format!("{} is {found} and drawn {meant}; the wire stays.", self.call(lead));
                let instead = "Label it at both ends, and accept it by name.";
                flags.push(self.about_lead(Flag::job(Code::ColourDiffers, say, instead), lead));
            }
        }
    }

    /// Wires that are drawn and found nowhere, until somebody makes them.
    fn flag_missing_wires(&self, target: &Target, flags: &mut Flags) {
        for (at, wires) in &target.by_decision.missing {
            let names: Vec<String> = wires.iter().map(called).collect();
            let name = names.join(" and ");
            let there = self.lead(&ItemId::At(at.clone()));
            let flag = match there {
                Some(lead) if lead.origin == LeadOrigin::Made || lead.repair_lead().is_some() => continue,
                Some(lead) => {
                    let say = format!(
                        "{name} belongs in the terminal of {} and is found nowhere.",
                        self.call(lead)
                    );
                    Flag::job(
                        Code::LeadParted,
                        say,
                        "Find it, or join it behind the housing to one new lead.",
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
