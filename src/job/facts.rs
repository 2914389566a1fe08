//! Facts of an entry: what the program reckons when an act is entered, kept in the entry so that replay
//! runs no planner. A program that reckons otherwise tomorrow opens the job with the same account. What
//! an act from a file claims does not count; an entry of a version that kept no facts gets them when it
//! is replayed.

use super::{Act, ItemId, Lead, MadeLength, Place, State};
use crate::record::Wire;

impl State {
    /// Writes the facts into an act that is to be entered now.
    pub fn fill_in(&self, act: &mut Act) {
        act.forget_facts();
        self.lift(act);
    }

    /// Writes the facts into an entry of an older version: those that stand in it stay.
    pub(super) fn lift(&self, act: &mut Act) {
        if let Act::MapConfirmed { source, map } = act {
            map.get_or_insert_with(|| self.map_by(*source));
        }
        if let Act::Anchor { housing, place, colour, mark, agrees } = act
            && let Some(housing) = self.housings.housing(housing)
        {
            agrees.get_or_insert_with(|| self.anchor_agrees(housing, *place, colour.as_ref(), mark));
        }
        if let Act::Planned { lead, wires, .. } = act {
            wires.get_or_insert_with(|| self.wires_to_make(lead));
        }
        if let Act::Repair { lead, how, made, .. } = act
            && how.is_new_lead()
        {
            made.get_or_insert_with(|| self.made_length(lead));
        }
    }

    /// The wires of a lead that is to be made: those drawn there and found nowhere, where no lead is. None
    /// where a lead is that keeps its wires.
    fn wires_to_make(&self, id: &ItemId) -> Vec<Wire> {
        let is_gone = |lead: &Lead| lead.place == Place::Removed;
        match id {
            ItemId::At(at) if self.items.lead(id).is_none_or(is_gone) => {
                self.decided(&self.differences()).missing.remove(at).unwrap_or_default()
            }
            ItemId::At(_) | ItemId::PlugBehind(_) | ItemId::Stock(_) | ItemId::Loose(_) => Vec::new(),
        }
    }

    fn made_length(&self, lead: &ItemId) -> MadeLength {
        MadeLength {
            planned: self.ordered(lead).and_then(|ordered| ordered.length),
            asked_mm: self.asked_length_mm(lead),
        }
    }
}

impl Act {
    fn forget_facts(&mut self) {
        if let Self::MapConfirmed { map, .. } = self {
            *map = None;
        }
        if let Self::Anchor { agrees, .. } = self {
            *agrees = None;
        }
        if let Self::Planned { wires, .. } = self {
            *wires = None;
        }
        if let Self::Repair { made, .. } = self {
            *made = None;
        }
    }
}
