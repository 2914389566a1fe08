//! The connectors of a file: which there are, and one of them as a wiring list.

use std::collections::BTreeMap;

use roxmltree::Node;

use super::{
    colours::code_set,
    index::{ends_of, groups_of, name_of},
    modules::{Variant, configurations, module_count, variant},
    rows::Reader,
    xml::{KblProblem, Tree, children, kind, text, text_of, tree},
};
use crate::exchange::wiring::WiringList;

/// A connector, as it is listed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ConnectorEntry {
    /// Its name on the diagram.
    pub id: String,
    /// What the file says of it.
    pub description: Option<String>,
    /// The housing's part number.
    pub housing: Option<String>,
    /// How many cavities it has.
    pub cavities: usize,
}

/// A file whose text was decoded.
#[derive(Debug)]
pub struct KblFile {
    text: String,
}

/// Elements that are read; what else stands in the file is counted.
const READ: [&str; 22] = [
    "Cavity_plug",
    "Cavity_seal",
    "Connector_housing",
    "General_terminal",
    "General_wire",
    "Harness",
    "Unit",
    "Cavity_plug_occurrence",
    "Cavity_seal_occurrence",
    "Connection",
    "Connector_occurrence",
    "General_wire_occurrence",
    "Special_terminal_occurrence",
    "Terminal_occurrence",
    "Wiring_group",
    "Harness_configuration",
    "Module",
    "Module_configuration",
    "Module_families",
    "Module_family",
    "Wire_occurrence",
    "Special_wire_occurrence",
];

impl KblFile {
    /// Decodes a file; nothing is looked at yet.
    pub fn of(bytes: &[u8]) -> Result<Self, KblProblem> {
        Ok(Self { text: text_of(bytes)? })
    }

    /// Every connector with cavities of its own: splices and rings are far ends only.
    pub fn connectors(&self) -> Result<Vec<ConnectorEntry>, KblProblem> {
        let doc = tree(&self.text)?;
        let tree = Tree::of(&doc);
        harness_file(&tree)?;
        Ok(real_connectors(&tree).map(|node| entry(&tree, node)).collect())
    }

    /// The configurations of the file, each with how many modules it has.
    pub fn configurations(&self) -> Result<Vec<(String, usize)>, KblProblem> {
        let doc = tree(&self.text)?;
        let tree = Tree::of(&doc);
        harness_file(&tree)?;
        Ok(configurations(&tree)
            .into_iter()
            .map(|(name, node)| (name.to_owned(), module_count(node)))
            .collect())
    }

    /// One connector, in one configuration where one is named. `progress` is told how many of how many
    /// elements are looked at.
    pub fn list(
        &self,
        connector: &str,
        configuration: Option<&str>,
        progress: &mut dyn FnMut(usize, usize),
    ) -> Result<WiringList, KblProblem> {
        let doc = tree(&self.text)?;
        let tree = Tree::of(&doc);
        harness_file(&tree)?;
        let wanted =
            real_connectors(&tree).find(|node| name_of(*node).eq_ignore_ascii_case(connector.trim()));
        let Some(node) = wanted else {
            let there = real_connectors(&tree).map(|node| name_of(node).to_owned()).collect();
            return Err(KblProblem::NoConnector { wanted: connector.to_owned(), there });
        };
        let (variant, assumed) = match configuration {
            Some(name) => variant(&tree, name)?,
            None => (Variant::everything(), Vec::new()),
        };
        let mut list = WiringList { assumed, skipped: skipped(&tree), ..WiringList::default() };
        let colours = code_set(&tree);
        list.assumed.extend(colours.assumed().map(ToOwned::to_owned));
        let ends = ends_of(&tree, progress);
        let groups = groups_of(&tree);
        Reader { tree: &tree, variant: &variant, colours, ends: &ends, groups: &groups }
            .read(node, &mut list);
        Ok(list)
    }
}

fn harness_file(tree: &Tree<'_>) -> Result<(), KblProblem> {
    let root = tree.doc.root_element();
    match root.tag_name().name() {
        "KBL_container" => Ok(()),
        other => Err(KblProblem::NotKbl { root: other.to_owned() }),
    }
}

fn connector_occurrences<'a>(tree: &Tree<'a>) -> impl Iterator<Item = Node<'a, 'a>> {
    let harnesses = children(tree.doc.root_element(), "Harness");
    harnesses
        .flat_map(|harness| harness.children())
        .filter(|node| node.has_tag_name("Connector_occurrence") || kind(*node) == "Connector_occurrence")
}

fn real_connectors<'a>(tree: &Tree<'a>) -> impl Iterator<Item = Node<'a, 'a>> {
    connector_occurrences(tree).filter(|node| !is_end_only(tree, *node))
}

/// Splices, rings and loose ends are written as connectors with a dummy housing.
fn is_end_only<'a>(tree: &Tree<'a>, node: Node<'a, 'a>) -> bool {
    let usage = text(node, "Usage").unwrap_or_default().to_lowercase();
    let by_usage = matches!(usage.as_str(), "splice" | "ring terminal" | "dangler" | "no end");
    let housing = tree.referred(node, "Part").into_iter().next();
    let kind = housing.and_then(|h| text(h, "Housing_type")).unwrap_or_default().to_lowercase();
    // By whole words: a "spring lock" is no ring.
    by_usage || kind.split(|c: char| !c.is_alphanumeric()).any(|word| matches!(word, "splice" | "ring"))
}

fn entry<'a>(tree: &Tree<'a>, node: Node<'a, 'a>) -> ConnectorEntry {
    let housing = tree.referred(node, "Part").into_iter().next();
    ConnectorEntry {
        id: name_of(node).to_owned(),
        description: text(node, "Description").map(ToOwned::to_owned),
        housing: housing.and_then(|h| text(h, "Part_number")).map(ToOwned::to_owned),
        cavities: children(node, "Slots").map(|slot| children(slot, "Cavities").count()).sum(),
    }
}

/// What stands in the file and is not read, by name.
fn skipped(tree: &Tree<'_>) -> BTreeMap<String, usize> {
    let root = tree.doc.root_element();
    let tops = root.children().chain(children(root, "Harness").flat_map(|h| h.children()));
    let mut skipped = BTreeMap::new();
    for node in tops.filter(|node| node.is_element() && node.has_attribute("id")) {
        let name = node.tag_name().name();
        if !READ.contains(&name) {
            *skipped.entry(name.to_owned()).or_default() += 1;
        }
    }
    skipped
}
