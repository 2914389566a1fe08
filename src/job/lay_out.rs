//! What to lay out before the start: the tools and helps a job needs, from its housings and its
//! repairs.

use jiff::civil::Date;

use std::collections::BTreeSet;

use crate::{
    catalogue::{AccessFace, LockState, PrimaryLock, Terminal},
    reckoning::ToolBook,
    record::Known,
};

use super::{Lead, RepairKind, state::State};

/// The thinnest wire hand strippers and splices go down to (common practice, no source).
const THINNEST_MM2: f64 = 0.13;

/// A thing to lay out, and what it is for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LayOut {
    /// The thing.
    pub thing: String,
    /// What for.
    pub what_for: String,
}

/// Everything to lay out, with the tool positions that the book has for its crimps today.
pub fn lay_out(state: &State, book: &ToolBook, today: Date) -> Vec<LayOut> {
    let mut list: Vec<LayOut> = Vec::new();
    let mut add = |thing: String, what_for: &str| {
        let item = LayOut { thing, what_for: what_for.to_owned() };
        if !list.contains(&item) {
            list.push(item);
        }
    };
    for lock in state.housings.all.iter().filter_map(|h| h.housing().lock.as_ref()) {
        let way = match lock.open_state {
            LockState::Out => "to draw it out",
            LockState::PreSet | LockState::FullSet | LockState::Broken => "to set it to pre-set",
        };
        let face = face_words(lock.released_from);
        add(format!("a blunt pick for the {}, {face}", lock.kind), way);
    }
    for (tool, size) in release_tools(state) {
        add(tool, &format!("terminals of size {size}"));
    }
    add("light and magnifier, tray with numbered cups, tags, caps for both halves".to_owned(), "every job");
    add("a new terminal of the same family on a short wire".to_owned(), "the drag test; never another pin");
    let repairs: Vec<(&Lead, RepairKind)> = repairs(state).collect();
    let has = |kind: RepairKind| repairs.iter().any(|(_, planned)| *planned == kind);
    let strips = repairs.iter().any(|(_, planned)| planned.renews_terminal());
    if strips {
        add(stripper(&repairs), "the thinnest wire that is stripped");
        add("a crimp-height gauge with blade and point, callipers".to_owned(), "every conductor crimp");
    }
    for (lead, _) in repairs.iter().filter(|(_, kind)| *kind == RepairKind::NewTerminal) {
        add(crimp_tool(state, lead, book, today), &lead.call());
    }
    if repairs.iter().any(|(_, planned)| planned.is_new_lead()) {
        add("splices with a window, adhesive sleeves, the splice crimp tool".to_owned(), "repair leads");
        add("a hot-air source with a reflector, no flame".to_owned(), "adhesive sleeves");
    }
    if has(RepairKind::Reform) {
        add("a tang gauge or pick".to_owned(), "tangs that are re-formed");
    }
    add("a meter with test leads that end in terminals of the family".to_owned(), "the tests after");
    list
}

/// The tool and position for the new terminal of a lead.
fn crimp_tool(state: &State, lead: &Lead, book: &ToolBook, today: Date) -> String {
    let Some(terminal) = state.terminal_for(lead).map(|terminal| &terminal.part) else {
        return "a crimp tool: name the terminal first".to_owned();
    };
    let Some(wire) = lead.wire_to_crimp() else {
        return format!("a crimp tool for {terminal}: measure the wire first");
    };
    let on = format!("{terminal} on {}", wire.both());
    match book.proved(terminal, wire, today) {
        Some(position) => format!("{}, position {}: {on}", position.key.tool, position.key.position),
        None => format!("a crimp tool for {on}, and samples: no position is proved"),
    }
}

/// Repairs planned and done.
fn repairs(state: &State) -> impl Iterator<Item = (&Lead, RepairKind)> {
    state.items.leads.iter().flat_map(|lead| {
        let done = lead.repairs.iter().map(|done| done.kind);
        done.chain(lead.planned).map(move |kind| (lead, kind))
    })
}

/// A release tool for each way terminals of the old housings are held.
fn release_tools(state: &State) -> BTreeSet<(String, String)> {
    let mut tools = BTreeSet::new();
    for old in state.housings.side(super::JobSide::Old) {
        let sizes: BTreeSet<_> = old.housing().cavities.iter().map(|c| &c.size).collect();
        let family = old.definition.family();
        for terminal in sizes.into_iter().flat_map(|size| family.terminals_for(size)) {
            tools.insert((release_tool(terminal), terminal.size.to_string()));
        }
    }
    tools
}

fn release_tool(terminal: &Terminal) -> String {
    let what = match terminal.held_by {
        PrimaryLock::Tang => "that presses the tang",
        PrimaryLock::HousingFinger => "that lifts the plastic finger",
    };
    format!("an extraction tool {what}, {}", face_words(terminal.released_from))
}

fn face_words(from: AccessFace) -> &'static str {
    match from {
        AccessFace::Front => "at the mating face",
        AccessFace::Rear => "at the wire face",
    }
}

fn stripper(repairs: &[(&Lead, RepairKind)]) -> String {
    let wires = repairs.iter().flat_map(|(lead, _)| &lead.seen.wires);
    let known = wires.filter_map(|wire| match &wire.gauge {
        Known::Is(gauge) => Some(gauge),
        Known::Unknown => None,
    });
    match known.min_by(|a, b| a.area_mm2().total_cmp(&b.area_mm2())) {
        Some(gauge) if gauge.area_mm2() < THINNEST_MM2 => {
            format!("a thermal or blade stripper for {}: hand strippers end at 0.13 mm²", gauge.both())
        }
        Some(gauge) => format!("a wire stripper down to {}", gauge.both()),
        None => "a wire stripper".to_owned(),
    }
}
