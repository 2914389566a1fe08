//! What a job needs besides wires and plugs: spare terminals, bridges and clips that are drawn and found
//! nowhere, and the unwired contacts of a shop that fills every cavity.

use std::collections::BTreeMap;

use super::{looks::looks_of, need::Need};
use crate::{
    catalogue::{SizeName, Terminal},
    job::{Assessment, Expected, ItemId, JobHousing, Occupant, OtherKind, State},
    record::Address,
    shop_rules::spare_contacts,
    supply::{Amount, Article, Line, Substitute, TerminalUse, UsePlace, Wanted},
};

pub(super) fn other_lines(state: &State, assessment: &Assessment, new: &JobHousing, needs: &mut Vec<Need>) {
    let mut spares: BTreeMap<SizeName, Vec<Address>> = BTreeMap::new();
    let mut by_practice = false;
    for cavity in &new.housing().cavities {
        let at = new.address(&cavity.label);
        let expected = assessment.target.expected(&at);
        by_practice |= *expected == Expected::SpareAndPlug;
        match wanted(state, expected, &at) {
            Some(OtherKind::Bridge(what)) => needs.push(Need {
                fitted: fitted(state, std::slice::from_ref(&at)),
                ..Need::of(bridge_line(new, what, at))
            }),
            Some(OtherKind::Spare) => spares.entry(cavity.size.clone()).or_default().push(at),
            None => {}
        }
    }
    for (size, cavities) in spares {
        let fitted = fitted(state, &cavities);
        let mut asked = spare_line(new, &size, cavities);
        if by_practice {
            asked.amount.spare = spare_contacts(new.housing().cavities.len());
        }
        needs.push(Need { fitted, ..Need::of(asked) });
    }
}

/// How many of these cavities hold what was got new for them.
fn fitted(state: &State, cavities: &[Address]) -> u32 {
    let is_in = |at: &&Address| {
        let occupant = state.items.occupant(at);
        matches!(occupant, Some(Occupant::Other(other)) if other.id == ItemId::At((*at).clone()))
    };
    u32::try_from(cavities.iter().filter(is_in).count()).unwrap_or(u32::MAX)
}

/// What has to be got new for a cavity; what was got and is in stays asked for.
fn wanted(state: &State, expected: &Expected, at: &Address) -> Option<OtherKind> {
    let is_new = |id: &ItemId| *id == ItemId::At(at.clone());
    match expected {
        Expected::MissingOther(kind) => Some(kind.clone()),
        Expected::Other(id) if is_new(id) => {
            state.items.others.iter().find(|other| other.id == *id).map(|other| other.kind.clone())
        }
        Expected::SpareAndPlug => match state.items.occupant(at) {
            Some(Occupant::Other(found)) if !is_new(&found.id) => None,
            _ => Some(OtherKind::Spare),
        },
        Expected::Other(_)
        | Expected::Leads(_)
        | Expected::Plug(_)
        | Expected::Delivered
        | Expected::Nothing
        | Expected::Blocked
        | Expected::MissingWire => None,
    }
}

fn bridge_line(new: &JobHousing, what: String, at: Address) -> Line {
    let article = Article::Bridge { what, at: at.clone() };
    let wanted = Wanted::Described { article, looks: Some(looks_of(new, None, None)) };
    Line { used_for: vec![UsePlace::Cavity(at)], substitute: Substitute::AskFirst, ..Line::new(wanted, 1) }
}

/// Terminals without a wire, for the holes of one size.
fn spare_line(new: &JobHousing, size: &SizeName, cavities: Vec<Address>) -> Line {
    let family = new.definition.family();
    let mut fitting = family.terminals_for(size).filter(|terminal| terminal.gender == new.housing().gender);
    let only: Option<&Terminal> = fitting.next().filter(|_| fitting.next().is_none());
    let article = Article::Terminal { size: Some(size.clone()), plating: None, used: TerminalUse::Unwired };
    let number = only.map(|terminal| terminal.part.clone());
    let wanted = Wanted::of(article, number, &family.id, || looks_of(new, Some(size), None));
    Line {
        substitute: if only.is_some() { Substitute::None } else { Substitute::AskFirst },
        amount: Amount::of(u32::try_from(cavities.len()).unwrap_or(u32::MAX)),
        used_for: cavities.into_iter().map(UsePlace::Cavity).collect(),
        ..Line::new(wanted, 0)
    }
}
