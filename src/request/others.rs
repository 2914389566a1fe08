//! What a job needs besides wires and plugs: spare terminals, bridges and clips that are drawn and found
//! nowhere, and the unwired contacts of a shop that fills every cavity.

use std::collections::BTreeMap;

use super::{
    JobLine,
    build::{describe, line},
};
use crate::{
    catalogue::{SizeName, Terminal},
    job::{Assessment, Expected, ItemId, JobHousing, Occupant, OtherKind, State},
    record::Address,
    shop_rules::spare_contacts,
    supply::{PartKind, Substitute},
};

pub(super) fn other_lines(
    state: &State,
    assessment: &Assessment,
    new: &JobHousing,
    lines: &mut Vec<JobLine>,
) {
    let mut spares: BTreeMap<SizeName, Vec<Address>> = BTreeMap::new();
    let mut by_practice = false;
    for cavity in &new.housing().cavities {
        let at = new.address(&cavity.label);
        let expected = assessment.target.expected(&at);
        by_practice |= *expected == Expected::SpareAndPlug;
        match wanted(state, expected, &at) {
            Some(OtherKind::Bridge(what)) => lines.push(bridge_line(new, &what, &at)),
            Some(OtherKind::Spare) => spares.entry(cavity.size.clone()).or_default().push(at),
            None => {}
        }
    }
    for (size, cavities) in spares {
        let mut line = spare_line(new, &size, &cavities);
        if by_practice {
            line.asked.spare = spare_contacts(new.housing().cavities.len());
        }
        lines.push(line);
    }
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

fn bridge_line(new: &JobHousing, what: &str, at: &Address) -> JobLine {
    let description = format!("{what} (bridge, diode or clip) for cavity {}", at.label);
    let mut asked = line(PartKind::SmallPart, None, description, 1);
    asked.for_cavities = vec![at.to_string()];
    asked.describe = Some(describe(new, None, None));
    asked.substitute = Substitute::AskFirst;
    JobLine::of(asked)
}

/// Terminals without a wire, for the holes of one size.
fn spare_line(new: &JobHousing, size: &SizeName, cavities: &[Address]) -> JobLine {
    let family = new.definition.family();
    let mut fitting = family.terminals_for(size).filter(|terminal| terminal.gender == new.housing().gender);
    let only: Option<&Terminal> = fitting.next().filter(|_| fitting.next().is_none());
    let need = u32::try_from(cavities.len()).unwrap_or(u32::MAX);
    let part = only.map(|terminal| terminal.part.to_string());
    let mut asked =
        line(PartKind::Terminal, part, format!("spare terminal for cavity size {size}, no wire"), need);
    asked.for_cavities = cavities.iter().map(ToString::to_string).collect();
    match only {
        Some(_) => asked.read_from = Some(format!("definition of family {}", family.id)),
        None => {
            asked.describe = Some(describe(new, Some(size), None));
            asked.substitute = Substitute::AskFirst;
        }
    }
    JobLine::of(asked)
}
