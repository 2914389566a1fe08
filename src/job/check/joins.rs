//! Checks of leads that are made new, and of two that become one.

use super::rules::{Checked, Rules, barred, impossible};
use crate::{
    job::{
        ItemId, Lead, LeadOrder, Place, Refusal, RepairKind,
        refusal::{JoinBarrier, OrderRule, PlaceBarrier},
        state::State,
    },
    reckoning::SizeChange,
};

impl State {
    /// A lead for a wire that is drawn and found nowhere: the only one that can be planned without being
    /// there.
    pub(super) fn check_new_lead(&self, id: &ItemId, how: RepairKind) -> Checked {
        match (self.is_missing_wire(id), how) {
            (true, RepairKind::RepairLead) => Ok(Rules::default()),
            (true, _) => impossible(JoinBarrier::OnlyNewLead(id.clone())),
            (false, _) => impossible(PlaceBarrier::NoLead(id.clone())),
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
            return impossible(JoinBarrier::WithWhich(call));
        };
        let (ItemId::At(from), ItemId::At(there)) = (&lead.id, &other.id) else {
            return impossible(JoinBarrier::NotRecorded);
        };
        if self.mapping.mapped(from).is_none() || self.mapping.mapped(from) != self.mapping.mapped(there) {
            return impossible(JoinBarrier::NotToOne(from.clone(), there.clone()));
        }
        if !self.mapping.documents.contains_key(from) && !self.mapping.documents.contains_key(there) {
            return impossible(JoinBarrier::NoDocument(call, other.call()));
        }
        if matches!(other.place, Place::Joined(_) | Place::Removed) || other.joined_with.is_some() {
            return impossible(JoinBarrier::JoinedAlready(other.call()));
        }
        if let Some(kind) = self.forbidden_kind(other) {
            return barred(OrderRule::NotJoined(other.call(), kind));
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
            SizeChange::Refused(percent) => barred(OrderRule::LessThanBoth {
                new: gauge.clone(),
                other: other.call(),
                lead: lead.call(),
                both_mm2: both,
                percent,
            }),
            SizeChange::Kept | SizeChange::Warn(_) | SizeChange::Approved(_) => Ok(()),
        }
    }
}
