//! A family as written, checked and turned into the core's family. All problems are gathered, none
//! hides another.

use std::collections::BTreeSet;

use super::{
    check_housing::check_housing,
    check_parts::{Parts, gather, range},
    draft::{FamilyDraft, PlugDraft, TerminalDraft, WireSealDraft},
    family::{CrimpHeight, Family, Housing, Plug, Terminal, WireSeal},
    finding::{FieldFinding, FieldPath, Findings},
    part::PartNumber,
};
use crate::quantity::plain_text;

/// Checks a family; every finding, or the family.
pub fn check_family(draft: &FamilyDraft) -> Result<Family, Vec<FieldFinding>> {
    let (family, findings) = build(draft);
    let findings = findings.into_vec();
    match family {
        Some(family) if findings.is_empty() => Ok(family),
        _ => Err(findings),
    }
}

/// A family that was checked when it was written into a job: only what cannot be read at all is in the way,
/// and no rule of today.
pub(super) fn kept_family(draft: &FamilyDraft) -> Result<Option<Family>, FieldFinding> {
    let (family, findings) = build(draft);
    findings.hole().cloned().map_or(Ok(family), Err)
}

fn build(draft: &FamilyDraft) -> (Option<Family>, Findings) {
    let mut findings = Findings::default();
    let top = FieldPath::default();
    let id = findings.take(top.field("id"), draft.id.parse());
    let title = findings.take(top.field("title"), plain_text("title", &draft.title, 120));
    let parts = Parts {
        terminals: gather(&draft.terminals, top.field("terminals"), &mut findings, terminal),
        wire_seals: gather(&draft.wire_seals, top.field("wire_seals"), &mut findings, wire_seal),
        plugs: gather(&draft.plugs, top.field("plugs"), &mut findings, plug),
    };
    parts.check_sizes(&mut findings);
    if draft.housings.is_empty() {
        findings.add(top.field("housings"), "a family needs at least one housing");
    }
    let housings =
        gather(&draft.housings, top.field("housings"), &mut findings, |housing, path, findings| {
            check_housing(housing, path, &parts, draft, findings)
        });
    check_part_numbers(draft, &mut findings);
    check_housing_ids(&housings, draft, &mut findings);
    let family = id.zip(title).map(|(id, title)| Family {
        id,
        title,
        source: draft.source.clone(),
        terminals: parts.terminals,
        wire_seals: parts.wire_seals,
        plugs: parts.plugs,
        housings,
    });
    (family, findings)
}

fn above_zero(value: f64, path: FieldPath, findings: &mut Findings) {
    if !(value > 0.0 && value <= 1000.0) {
        findings.add(path, format!("{value} is not a measure: it has to be above 0 and at most 1000"));
    }
}

fn terminal(draft: &TerminalDraft, path: &FieldPath, findings: &mut Findings) -> Option<Terminal> {
    range(draft.wire_mm2, path.field("wire_mm2"), findings);
    range(draft.insulation_mm, path.field("insulation_mm"), findings);
    for (name, value) in [("strip_mm", draft.strip_mm), ("used_mm", draft.used_mm)] {
        if let Some(value) = value {
            above_zero(value, path.field(name), findings);
        }
    }
    let mut crimps = Vec::new();
    for (n, crimp) in draft.crimps.iter().enumerate() {
        let path = path.field("crimps").index(n);
        above_zero(crimp.height_mm, path.field("height_mm"), findings);
        above_zero(crimp.tolerance_mm, path.field("tolerance_mm"), findings);
        if !(draft.wire_mm2.0..=draft.wire_mm2.1).contains(&crimp.wire_mm2) {
            let say = format!("a crimp on {} mm² is outside the wires this terminal takes", crimp.wire_mm2);
            findings.add(path.field("wire_mm2"), say);
        }
        let origin = findings.take(path.field("origin"), plain_text("origin", &crimp.origin, 120));
        crimps.extend(origin.map(|origin| CrimpHeight {
            wire_mm2: crimp.wire_mm2,
            height_mm: crimp.height_mm,
            tolerance_mm: crimp.tolerance_mm,
            origin,
        }));
    }
    let part = findings.take(path.field("part"), draft.part.parse());
    let size = findings.take(path.field("size"), draft.size.parse());
    let plating = findings.take(path.field("plating"), plain_text("plating", &draft.plating, 40));
    Some(Terminal {
        part: part?,
        size: size?,
        gender: draft.gender,
        plating: plating?,
        wire_mm2: draft.wire_mm2,
        insulation_mm: draft.insulation_mm,
        strip_mm: draft.strip_mm,
        used_mm: draft.used_mm,
        held_by: draft.held_by,
        released_from: draft.released_from,
        seating: draft.seating,
        crimps,
    })
}

fn wire_seal(draft: &WireSealDraft, path: &FieldPath, findings: &mut Findings) -> Option<WireSeal> {
    range(draft.insulation_mm, path.field("insulation_mm"), findings);
    let part = findings.take(path.field("part"), draft.part.parse());
    let size = findings.take(path.field("size"), draft.size.parse());
    let colour = findings.take(path.field("colour"), plain_text("colour", &draft.colour, 40));
    Some(WireSeal { part: part?, size: size?, insulation_mm: draft.insulation_mm, colour: colour? })
}

fn plug(draft: &PlugDraft, path: &FieldPath, findings: &mut Findings) -> Option<Plug> {
    let part = findings.take(path.field("part"), draft.part.parse());
    let size = findings.take(path.field("size"), draft.size.parse());
    let colour = findings.take(path.field("colour"), plain_text("colour", &draft.colour, 40));
    if draft.pack == Some(0) {
        findings.add_with(path.field("pack"), "a pack of 0 is no pack", "leave pack away for single parts");
    }
    Some(Plug { part: part?, size: size?, colour: colour?, pack: draft.pack })
}

/// One part number is one part: no kind of part twice with one size, no two kinds with one number.
fn check_part_numbers(draft: &FamilyDraft, findings: &mut Findings) {
    let top = FieldPath::default();
    let mut seen: Vec<(&str, &'static str, &str)> = Vec::new();
    let terminals = draft.terminals.iter().map(|t| ("terminals", t.part.as_str(), t.size.as_str()));
    let seals = draft.wire_seals.iter().map(|s| ("wire_seals", s.part.as_str(), s.size.as_str()));
    let plugs = draft.plugs.iter().map(|p| ("plugs", p.part.as_str(), p.size.as_str()));
    let housings = draft.housings.iter().map(|h| ("housings", h.part.as_str(), ""));
    let mut index = 0;
    for (list, part, size) in terminals.chain(seals).chain(plugs).chain(housings) {
        index = if seen.last().is_some_and(|(_, last, _)| *last == list) { index + 1 } else { 0 };
        let clash = |(other, kind, other_size): &&(&str, &'static str, &str)| {
            PartNumber::is_same_text(other, part) && (*kind != list || *other_size == size)
        };
        if seen.iter().any(|s| clash(&s)) {
            let say = format!("the part number {part} stands here twice");
            findings.add(top.field(list).index(index).field("part"), say);
        }
        seen.push((part, list, size));
    }
}

fn check_housing_ids(housings: &[Housing], draft: &FamilyDraft, findings: &mut Findings) {
    let path = FieldPath::default().field("housings");
    let mut seen = BTreeSet::new();
    for (n, housing) in draft.housings.iter().enumerate() {
        if !seen.insert(housing.id.as_str()) && housings.iter().any(|h| h.id.as_str() == housing.id) {
            let say = format!("the housing id {} is given twice", housing.id);
            findings.add(path.index(n).field("id"), say);
        }
    }
}
