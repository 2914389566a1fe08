//! One connector to rows: cavity, the contact that is live in it, its wires, plug and parts.

use std::collections::{BTreeMap, HashSet};

use roxmltree::Node;

use super::{
    colours::colour,
    index::{Ends, Groups, name_of},
    modules::{Variant, configurations, of_modules},
    units::{diameter, gauge},
    xml::{Tree, children, kind, refs, text},
};
use crate::{
    exchange::{
        colours::CodeSet,
        wiring::{ListedHolds, WiringList, WiringRow},
    },
    face::Label,
    quantity::list_of,
    record::WireKind,
};

/// What is known of the whole file while one connector is read.
pub(super) struct Reader<'t, 'a> {
    pub tree: &'t Tree<'a>,
    pub variant: &'t Variant<'a>,
    pub colours: CodeSet,
    pub ends: &'t Ends<'a>,
    pub groups: &'t Groups<'a>,
}

/// A cavity of the connector.
struct ReadCavity<'a> {
    node: Node<'a, 'a>,
    label: Label,
    slot: Option<&'a str>,
}

impl<'a> Reader<'_, 'a> {
    /// Every cavity of a connector.
    pub fn read(&self, connector: Node<'a, 'a>, list: &mut WiringList) {
        let mut contacts: BTreeMap<&str, Vec<Node<'a, 'a>>> = BTreeMap::new();
        for contact in children(connector, "Contact_points") {
            let cavities: Vec<&str> = refs(contact, "Contacted_cavity").collect();
            if cavities.len() > 1 {
                list.problem(
                    self.tree.line(contact),
                    format!(
                        "the contact {} touches {} cavities: such a contact is not read",
                        name_of(contact),
                        cavities.len()
                    ),
                );
                continue;
            }
            for cavity in cavities {
                contacts.entry(cavity).or_default().push(contact);
            }
        }
        let mut if_vacated = 0;
        let mut plugged: HashSet<&str> = HashSet::new();
        for cavity in self.cavities(connector, list) {
            let id = cavity.node.attribute("id").unwrap_or_default();
            let there = contacts.get(id).map_or(&[][..], Vec::as_slice);
            let live: Vec<Node<'a, 'a>> =
                there.iter().copied().filter(|c| self.is_live(*c, self.variant)).collect();
            let plug = refs(cavity.node, "Associated_plug").next();
            match live.as_slice() {
                [] => {
                    let mut row = self.row(&cavity, ListedHolds::Open);
                    if let Some(plug) = plug {
                        row.holds = ListedHolds::Plugged;
                        row.plug = self.tree.by_id(plug).and_then(|plug| self.part_number(plug));
                        // One plug may be named at several cavities: it is still one.
                        if !plugged.insert(plug) {
                            row.note = Some("the same plug as another cavity".to_owned());
                        }
                    }
                    list.rows.push(row);
                }
                [contact] => {
                    if_vacated += usize::from(plug.is_some());
                    self.read_contact(&cavity, *contact, plug, list);
                }
                several => list.problem(self.tree.line(cavity.node), self.refusal(&cavity, several)),
            }
        }
        if if_vacated > 0 {
            list.assumed.push(format!(
                "{if_vacated} plugs stand at cavities with a wire: each is taken as the plug to fit once the cavity is vacated"
            ));
        }
        list.name_duplicates();
        self.name_slots(list);
        list.problems.sort_by_key(|problem| problem.line);
    }

    /// The cavities, each with its number and slot.
    fn cavities(&self, connector: Node<'a, 'a>, list: &mut WiringList) -> Vec<ReadCavity<'a>> {
        let mut cavities = Vec::new();
        for slot in children(connector, "Slots") {
            let master = self.tree.referred(slot, "Part").into_iter().next();
            let slot_id = master.and_then(|master| text(master, "Id"));
            for node in children(slot, "Cavities") {
                let master = self.tree.referred(node, "Part").into_iter().next();
                let number = master.and_then(|master| text(master, "Cavity_number"));
                match number.map(str::parse::<Label>) {
                    Some(Ok(label)) => cavities.push(ReadCavity { node, label, slot: slot_id }),
                    Some(Err(why)) => list.problem(self.tree.line(node), why.to_string()),
                    None => list.problem(self.tree.line(node), "a cavity without a number"),
                }
            }
        }
        cavities
    }

    /// Whether a contact has a wire, or a terminal of its own, in a variant.
    fn is_live(&self, contact: Node<'a, 'a>, variant: &Variant<'a>) -> bool {
        let id = contact.attribute("id").unwrap_or_default();
        let connections = self.ends.get(id).map_or(&[][..], Vec::as_slice);
        if connections.is_empty() {
            let mut parts = self.tree.referred(contact, "Associated_parts").into_iter();
            return parts.any(|part| variant.has(self.tree, part));
        }
        connections.iter().any(|connection| self.wire_is_live(*connection, variant))
    }

    fn wire_is_live(&self, connection: Node<'a, 'a>, variant: &Variant<'a>) -> bool {
        let wire = self.tree.referred(connection, "Wire").into_iter().next();
        wire.is_some_and(|wire| {
            let cable = wire.parent().filter(|_| wire.has_tag_name("Core_occurrence"));
            variant.has(self.tree, wire) && cable.is_none_or(|cable| variant.has(self.tree, cable))
        })
    }

    /// Why a cavity with several live contacts is not read, and what would settle it.
    fn refusal(&self, cavity: &ReadCavity<'a>, live: &[Node<'a, 'a>]) -> String {
        let names: Vec<&str> = live.iter().map(|contact| name_of(*contact)).collect();
        let settled: Vec<&str> = configurations(self.tree)
            .into_iter()
            .filter(|(_, node)| {
                let (variant, _) = of_modules(self.tree, &refs(*node, "Modules").collect());
                live.iter().filter(|contact| self.is_live(**contact, &variant)).count() == 1
            })
            .map(|(name, _)| name)
            .collect();
        let settle = match settled.is_empty() {
            true => "no configuration of the file settles it".to_owned(),
            false => format!("name a configuration that settles it: {}", list_of(&settled)),
        };
        format!("cavity {} has {} live contacts, {}: {settle}", cavity.label, live.len(), list_of(&names))
    }

    fn row(&self, cavity: &ReadCavity<'a>, holds: ListedHolds) -> WiringRow {
        let slot = cavity.slot.map(ToOwned::to_owned);
        WiringRow { slot, ..WiringRow::new(self.tree.line(cavity.node), cavity.label.clone(), holds) }
    }

    fn part_number(&self, occurrence: Node<'a, 'a>) -> Option<String> {
        let part = self.tree.referred(occurrence, "Part").into_iter().next()?;
        text(part, "Part_number").map(ToOwned::to_owned)
    }

    /// The wires of the one contact in a cavity; several are one lead.
    fn read_contact(
        &self,
        cavity: &ReadCavity<'a>,
        contact: Node<'a, 'a>,
        plug: Option<&str>,
        list: &mut WiringList,
    ) {
        let mut base = self.row(cavity, ListedHolds::Wired);
        base.lead = Some(name_of(contact).to_owned());
        base.plug_if_vacated =
            plug.and_then(|plug| self.tree.by_id(plug)).and_then(|plug| self.part_number(plug));
        for part in self.tree.referred(contact, "Associated_parts") {
            if !self.variant.has(self.tree, part) {
                continue;
            }
            let number = self.part_number(part);
            let place = match kind(part) {
                "Terminal_occurrence" | "Special_terminal_occurrence" => &mut base.terminal,
                "Cavity_seal_occurrence" => &mut base.seal,
                _ => {
                    base.more_parts.extend(number);
                    continue;
                }
            };
            match place {
                None => *place = number,
                Some(_) => base.more_parts.extend(number),
            }
        }
        let id = contact.attribute("id").unwrap_or_default();
        let connections = self.ends.get(id).map_or(&[][..], Vec::as_slice);
        let wires: Vec<Node<'a, 'a>> =
            connections.iter().copied().filter(|c| self.wire_is_live(*c, self.variant)).collect();
        if wires.is_empty() {
            list.rows.push(WiringRow { holds: ListedHolds::Spare, ..base });
            return;
        }
        for connection in wires {
            let row = self.wire(connection, id, base.clone(), list);
            list.rows.push(row);
        }
    }

    fn wire(
        &self,
        connection: Node<'a, 'a>,
        contact: &str,
        base: WiringRow,
        list: &mut WiringList,
    ) -> WiringRow {
        let mut row = base;
        row.circuit = text(connection, "Signal_name").map(ToOwned::to_owned);
        row.far_ends = children(connection, "Extremities")
            .flat_map(|end| refs(end, "Contact_point"))
            .filter(|id| *id != contact)
            .map(|id| self.place_of(id))
            .collect();
        let Some(wire) = self.tree.referred(connection, "Wire").into_iter().next() else { return row };
        row.wire = text(wire, "Wire_number").map(ToOwned::to_owned);
        let Some(part) = self.tree.referred(wire, "Part").into_iter().next() else { return row };
        let mut notes = Vec::new();
        let (colour, raw) = colour(self.colours, part);
        match (&colour, &raw) {
            (None, Some(raw)) => {
                notes.push(format!("colour written as {raw}"));
                list.assumed.push(format!(
                    "the colour \"{raw}\" of cavity {} is not known and left open",
                    row.cavity
                ));
            }
            (Some(known), Some(raw)) if !known.to_string().eq_ignore_ascii_case(raw) => {
                notes.push(format!("colour written as {raw}"));
            }
            _ => {}
        }
        row.colour = colour;
        match children(part, "Cross_section_area").next().map(|area| gauge(self.tree, area)) {
            Some(Ok(gauge)) => row.gauge = Some(gauge),
            Some(Err(as_written)) => {
                list.assumed.push(format!("the {as_written} of cavity {} is not taken as mm²", row.cavity));
                notes.push(as_written);
            }
            None => {}
        }
        row.outside_diameter = children(part, "Outside_diameter").next().and_then(|d| diameter(self.tree, d));
        self.bundle(wire, part, &mut row, &mut notes);
        row.note = (!notes.is_empty()).then(|| notes.join("; "));
        row
    }

    /// What keeps a wire with others: a twisted pair, a cable, a shield.
    fn bundle(&self, wire: Node<'a, 'a>, part: Node<'a, 'a>, row: &mut WiringRow, notes: &mut Vec<String>) {
        let kind_words = text(part, "Wire_type").unwrap_or_default().to_lowercase();
        if kind_words.contains("shield") {
            row.kind = WireKind::Drain;
            notes.push("conductor of a shield".to_owned());
        }
        let id = wire.attribute("id").unwrap_or_default();
        let group = self.groups.get(id).copied();
        let cable = wire.parent().filter(|_| wire.has_tag_name("Core_occurrence"));
        let cable_id = cable.and_then(|cable| text(cable, "Special_wire_id").or(cable.attribute("id")));
        let cores = cable.map_or(0, |cable| children(cable, "Core_occurrence").count());
        let by_group = group.filter(|group| {
            let kind = text(*group, "Type").unwrap_or_default().to_lowercase();
            kind.contains("twist") || refs(*group, "Assigned_wire").count() == 2
        });
        if let Some(group) = by_group {
            row.pair = Some(name_of(group).to_owned());
        } else if cores == 2 || kind_words.contains("twist") {
            row.pair = cable_id.map(ToOwned::to_owned);
        } else if let Some(cable) = cable_id {
            notes.push(format!("core of the cable {cable}"));
        }
    }

    /// Connector and cavity of a contact point, or what it is called.
    fn place_of(&self, contact: &str) -> String {
        let Some(contact) = self.tree.by_id(contact) else { return contact.to_owned() };
        let owner = contact.parent().map_or("?", name_of);
        let cavity = self.tree.referred(contact, "Contacted_cavity").into_iter().next();
        let master = cavity.and_then(|cavity| self.tree.referred(cavity, "Part").into_iter().next());
        match master.and_then(|master| text(master, "Cavity_number")) {
            Some(number) => format!("{owner}:{number}"),
            None => owner.to_owned(),
        }
    }

    /// Slots that number their cavities alike make two cavities of one label.
    fn name_slots(&self, list: &mut WiringList) {
        let mut slots: BTreeMap<&Label, &WiringRow> = BTreeMap::new();
        let mut twice = Vec::new();
        for row in &list.rows {
            match slots.get(&row.cavity) {
                Some(first) if first.slot != row.slot => twice.push((
                    row.line,
                    format!(
                        "cavity {} stands in the slots {} and {}: labels of one housing differ",
                        row.cavity,
                        first.slot.as_deref().unwrap_or("?"),
                        row.slot.as_deref().unwrap_or("?")
                    ),
                )),
                Some(_) => {}
                None => {
                    slots.insert(&row.cavity, row);
                }
            }
        }
        for (line, say) in twice {
            list.problem(line, say);
        }
    }
}
