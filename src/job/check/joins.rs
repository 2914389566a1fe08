//! Checks of leads that are made new, and of two that become one.

use super::rules::{Checked, Rules, barred, impossible};
use crate::{
    job::{Code, ItemId, Lead, LeadOrder, Place, Refusal, RepairKind, state::State},
    quantity::Gauge,
    reckoning::SizeChange,
};

impl State {
    /// A lead for a wire that is drawn and found nowhere: the only one that can be planned without being
    /// there.
    pub(super) fn check_new_lead(&self, id: &ItemId, how: RepairKind) -> Checked {
        match (self.is_missing_wire(id), how) {
            (true, RepairKind::RepairLead) => Ok(Rules::default()),
            (true, _) => impossible(
                format!("The wire of {id} is found nowhere: only a new lead can be planned for it."),
                "Plan a repair lead, and say where it is joined.",
            ),
            (false, _) => {
                impossible(format!("There is no lead {id}."), "Name it by the cavity it was recorded in.")
            }
        }
    }

    /// Whether a wire is drawn in the cavity a lead would be known by, and found nowhere.
    pub(super) fn is_missing_wire(&self, id: &ItemId) -> bool {
        match id {
            ItemId::At(at) => self.decided(&self.differences()).is_missing_at(at),
            ItemId::PlugBehind(_) | ItemId::Loose(_) | ItemId::Stock(_) => false,
        }
    }

    /// Two leads may be joined where both are mapped to one cavity, under a document.
    pub(super) fn check_join(&self, lead: &Lead, with: Option<&ItemId>) -> Result<(), Refusal> {
        let call = lead.call();
        let Some(other) = with.and_then(|id| self.items.lead(id)).filter(|other| other.id != lead.id) else {
            return impossible(
                format!("With which other lead is {call} to be joined?"),
                "Name it by the cavity it was recorded in.",
            );
        };
        let (ItemId::At(from), ItemId::At(there)) = (&lead.id, &other.id) else {
            return impossible(
                "Only leads that were recorded can be joined.",
                "Correct the record of the cavity it came from first.",
            );
        };
        if self.mapping.mapped(from).is_none() || self.mapping.mapped(from) != self.mapping.mapped(there) {
            return impossible(
                format!("{from} and {there} are not mapped to one new cavity."),
                "Map both to it, under the document that says so.",
            );
        }
        if !self.mapping.documents.contains_key(from) && !self.mapping.documents.contains_key(there) {
            return impossible(
                format!("{call} and {} are joined only under a document.", other.call()),
                "Map one of them again and name it.",
            );
        }
        if matches!(other.place, Place::Joined(_) | Place::Removed) || other.joined_with.is_some() {
            return impossible(
                format!("{} is joined or to be joined already.", other.call()),
                "One lead takes one other.",
            );
        }
        if let Some(kind) = self.forbidden_kind(other) {
            return barred(
                Code::SpliceForbidden,
                format!("{} is a {}: it is not cut and joined.", other.call(), kind.words()),
                "Stop, and ask for the document of this machine.",
            );
        }
        Ok(())
    }

    /// One lead for two carries the copper of both.
    pub(super) fn check_join_size(
        &self,
        lead: &Lead,
        how: RepairKind,
        with: Option<&ItemId>,
        order: Option<&LeadOrder>,
    ) -> Result<(), Refusal> {
        let other = with.filter(|_| how == RepairKind::Join).and_then(|id| self.items.lead(id));
        if let Some((other, order)) = other.zip(order) {
            self.check_class(other, order)?;
        }
        let gauge = order.and_then(|order| order.gauge.as_ref());
        let (Some(other), Some(gauge)) = (other, gauge) else { return Ok(()) };
        let Some(both) = lead.area_mm2().zip(other.area_mm2()).map(|(a, b)| a + b) else { return Ok(()) };
        match self.size_change(lead, both, gauge) {
            SizeChange::Refused(percent) => barred(
                Code::GaugeReduced,
                format!(
                    "{} is less than the copper of {} and {} together, {both:.2} mm² ({percent:.1} %): refused.",
                    Gauge::both(gauge),
                    other.call(),
                    lead.call()
                ),
                "Order the area of both or more; the terminal and the seal have to take it.",
            ),
            SizeChange::Kept | SizeChange::Warn(_) | SizeChange::Approved(_) => Ok(()),
        }
    }
}
