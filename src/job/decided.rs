//! What the decisions for the diagram ask for: which leads go elsewhere, which have no place, which
//! wires leave their terminal, which are missing, thinner or of another colour than meant.

use std::collections::{BTreeMap, BTreeSet};

use crate::{
    colour::Colour,
    quantity::Gauge,
    record::{
        Address, Aspect, CavityContent, Difference, DifferenceKind, Record, Wire, WireKind, drawn_wires,
    },
};

use super::{ItemId, Lead, LeadOrigin, RecordSide, state::State};

/// Where a wire of a lead belongs, by the decisions.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
enum Belongs {
    Here,
    In(Address),
    Nowhere,
}

/// What the decisions for the diagram ask for.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Decided {
    /// The cavities leads belong in, where that is not where they were found.
    pub moves: BTreeMap<Address, Address>,
    /// Leads that have no place: every wire in them is one too many.
    pub out: BTreeSet<ItemId>,
    /// Wires that leave the terminal they were found in: places in the lead, from 1.
    pub parting: BTreeMap<ItemId, Vec<usize>>,
    /// Wires that belong in a cavity and are found in no terminal that stays.
    pub missing: BTreeMap<Address, Vec<Wire>>,
    /// The copper a lead is meant to have, in mm², where it has less.
    pub meant_mm2: BTreeMap<ItemId, f64>,
    /// Wires of another colour than meant, by lead and place in it: as found, as it should be.
    pub recoloured: BTreeMap<(ItemId, usize), (Colour, Colour)>,
    /// Wires that go by another circuit or number than meant, by lead and place in it: as found, as it
    /// should be.
    pub renamed: BTreeMap<(ItemId, usize), (String, String)>,
    /// Wires of another kind than meant, by lead and place in it: as found, as it should be.
    pub of_another_kind: BTreeMap<(ItemId, usize), (WireKind, WireKind)>,
}

impl Decided {
    /// Whether a lead is there to be made for a cavity: a wire is drawn there, found nowhere.
    pub fn is_missing_at(&self, at: &Address) -> bool {
        self.missing.contains_key(at)
    }
}

impl State {
    /// What the decisions ask for.
    pub fn decided(&self, differences: &[Difference]) -> Decided {
        let for_should: Vec<&Difference> = differences
            .iter()
            .filter(|difference| self.records.decided_for(difference) == Some(RecordSide::Should))
            .collect();
        let mut decided = Decided::default();
        let has_removed = self.items.leads.iter().any(|lead| !lead.removed_wires.is_empty());
        if for_should.is_empty() && !has_removed {
            return decided;
        }
        let should = self.should_in_old_labels();
        let belongs = where_wires_belong(&for_should);
        for lead in &self.items.leads {
            let ItemId::At(at) = &lead.id else { continue };
            place_lead(lead, at, &belongs, &mut decided);
        }
        for difference in &for_should {
            let DifferenceKind::Missing { slot, .. } = &difference.kind else { continue };
            let drawn = should.get(&difference.at).and_then(CavityContent::lead);
            if let Some(wire) = drawn.and_then(|lead| lead.wires.get(slot.checked_sub(1)?)) {
                decided.missing.entry(difference.at.clone()).or_default().push(wire.clone());
            }
        }
        self.describe(&for_should, &should, &mut decided);
        decided
    }

    /// Thinner wires and other colours, by what is drawn.
    fn describe(&self, for_should: &[&Difference], should: &Record, decided: &mut Decided) {
        let mut drawn: Option<BTreeMap<(Address, usize), &Wire>> = None;
        for difference in for_should {
            let DifferenceKind::Described { slot, aspects, .. } = &difference.kind else { continue };
            let id = ItemId::At(difference.at.clone());
            for aspect in aspects {
                match aspect {
                    Aspect::Colour(found, meant) => {
                        decided.recoloured.insert((id.clone(), *slot), (found.clone(), meant.clone()));
                    }
                    Aspect::Circuit(found, meant) | Aspect::Number(found, meant) => {
                        decided.renamed.insert((id.clone(), *slot), (found.clone(), meant.clone()));
                    }
                    Aspect::Kind(found, meant) => {
                        decided.of_another_kind.insert((id.clone(), *slot), (*found, *meant));
                    }
                    Aspect::Area { is_thinner: true, .. } => {
                        let drawn = drawn.get_or_insert_with(|| drawn_wires(&self.records.found, should));
                        let meant = drawn.get(&(difference.at.clone(), *slot)).and_then(|w| w.gauge.known());
                        let found = self.records.found.get(&difference.at).and_then(CavityContent::lead);
                        let found =
                            found.and_then(|lead| lead.wires.get(slot.checked_sub(1)?)?.gauge.known());
                        if let Some(more) = meant.zip(found).map(|(a, b)| a.area_mm2() - b.area_mm2()) {
                            // Each wire of a terminal has to be as thick as it is drawn.
                            let all =
                                self.records.found.get(&difference.at).and_then(area_of).unwrap_or_default();
                            *decided.meant_mm2.entry(id.clone()).or_insert(all) += more;
                        }
                    }
                    // A thicker wire than meant carries what is meant.
                    Aspect::Area { is_thinner: false, .. } => {}
                }
            }
        }
    }
}

fn area_of(holds: &CavityContent) -> Option<f64> {
    holds.lead()?.wires.iter().map(|wire| wire.gauge.known().map(Gauge::area_mm2)).sum()
}

/// Where each wire that is not where it should be belongs, by cavity and place in its lead.
fn where_wires_belong(for_should: &[&Difference]) -> BTreeMap<(Address, usize), Belongs> {
    let mut belongs = BTreeMap::new();
    for difference in for_should {
        let here = |slot: usize| (difference.at.clone(), slot);
        match &difference.kind {
            DifferenceKind::Elsewhere { slot, should_at, .. } => {
                belongs.insert(here(*slot), Belongs::In(should_at.clone()));
            }
            DifferenceKind::Shifted { moves } => {
                belongs.extend(
                    moves.iter().map(|(at, slot, to)| ((at.clone(), *slot), Belongs::In(to.clone()))),
                );
            }
            DifferenceKind::Swapped { with, slots, .. } => {
                belongs.insert(here(slots.0), Belongs::In(with.clone()));
                belongs.insert((with.clone(), slots.1), Belongs::In(difference.at.clone()));
            }
            DifferenceKind::Extra { slot, .. } => {
                belongs.insert(here(*slot), Belongs::Nowhere);
            }
            DifferenceKind::Missing { .. }
            | DifferenceKind::Described { .. }
            | DifferenceKind::Content { .. } => {}
        }
    }
    belongs
}

/// A lead goes where its wires belong; those that do not belong with the others leave its terminal.
fn place_lead(
    lead: &Lead,
    at: &Address,
    belongs: &BTreeMap<(Address, usize), Belongs>,
    decided: &mut Decided,
) {
    let wires = lead.seen.wires.iter().enumerate().map(|(n, wire)| (n + 1, wire));
    let of = |slot: usize| match lead.origin {
        // Made for this cavity, whatever was found in it.
        LeadOrigin::Made => Belongs::Here,
        LeadOrigin::Found => belongs.get(&(at.clone(), slot)).cloned().unwrap_or(Belongs::Here),
    };
    let (removed, left): (Vec<_>, Vec<_>) = wires
        .map(|(slot, wire)| (slot, wire, of(slot)))
        .partition(|(slot, ..)| lead.removed_wires.contains(slot));
    // What was taken out and has a place by the records is missing there.
    for (_, wire, belongs) in removed {
        let there = match belongs {
            Belongs::Here => at.clone(),
            Belongs::In(there) => there,
            Belongs::Nowhere => continue,
        };
        decided.missing.entry(there).or_default().push(wire.clone());
    }
    let stays = left.iter().find(|(.., belongs)| *belongs == Belongs::Here);
    let goes = left.iter().find(|(.., belongs)| *belongs != Belongs::Nowhere);
    let home = match stays.or(goes) {
        Some((.., home)) => home.clone(),
        None => {
            if !left.is_empty() {
                decided.out.insert(lead.id.clone());
            }
            return;
        }
    };
    if let Belongs::In(there) = &home {
        decided.moves.insert(at.clone(), there.clone());
    }
    for (slot, wire, belongs) in left.iter().filter(|(.., belongs)| *belongs != home) {
        decided.parting.entry(lead.id.clone()).or_default().push(*slot);
        if let Belongs::In(there) = belongs {
            decided.missing.entry(there.clone()).or_default().push((*wire).clone());
        }
    }
}
