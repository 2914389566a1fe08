//! Flags on the records: what differs, looks alike, is not known or not there.

use super::{
    Flag, Flags,
    cause::{FlagCause, RecordCause},
};
use crate::{
    job::{ItemId, Lead, Place, state::State, target::Target},
    record::{Address, Known, Wire, look_alikes},
};

impl State {
    pub(super) fn flag_records(&self, target: &Target, flags: &mut Flags) {
        for difference in target.differences.iter().filter(|d| !self.records.is_decided(d)) {
            flags.push(record(RecordCause::Differs(difference.clone())).at(self, &difference.at));
        }
        self.flag_decided(target, flags);
        self.flag_look_alikes(flags);
        let is_unknown = |wire: &Wire| {
            wire.colour == Known::Unknown
                || wire.gauge == Known::Unknown
                || wire.outside_diameter == Some(Known::Unknown)
        };
        for lead in self.items.leads.iter().filter(|lead| lead.seen.wires.iter().any(is_unknown)) {
            flags.push(self.about_lead(record(RecordCause::Unknown { lead: lead.call() }), lead));
        }
        if self.records.records_finished() && self.course.photos.is_empty() {
            flags.push(record(RecordCause::NoPhoto));
        }
        if self.records.records_finished() && self.records.cause.is_none() {
            flags.push(record(RecordCause::NoCause));
        }
    }

    fn flag_look_alikes(&self, flags: &mut Flags) {
        let has_no_tag = |at: &&Address| {
            self.items.lead(&ItemId::At((*at).clone())).is_some_and(|lead| lead.tag.is_none())
        };
        for group in look_alikes(&self.records.found) {
            if let Some(first) = group.at.iter().find(has_no_tag) {
                let at = self.housings.spoken(&group.at);
                let cause = RecordCause::LookAlike { at, looks: group.looks.clone() };
                flags.push(record(cause).at(self, first));
            }
        }
    }

    /// Puts the place of a lead and its circuit on a flag.
    pub(super) fn about_lead(&self, flag: Flag, lead: &Lead) -> Flag {
        let wire = lead.first_wire();
        let circuit = wire.and_then(|w| w.circuit.as_deref().or(w.number.as_deref()));
        let flag = Flag { item: Some(lead.id.clone()), ..flag.circuit(circuit) };
        match (&lead.place, &lead.id) {
            (Place::In(at), _) | (_, ItemId::At(at)) => flag.at(self, at),
            (_, ItemId::PlugBehind(_) | ItemId::Loose(_) | ItemId::Stock(_)) => flag,
        }
    }
}

fn record(cause: RecordCause) -> Flag {
    Flag::job(FlagCause::Record(cause))
}
