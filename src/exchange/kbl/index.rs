//! What of a harness file is looked up by id: the connections of each contact point, the groups of each wire.

use std::collections::HashMap;

use roxmltree::Node;

use super::xml::{Tree, children, refs, text};

/// The name on the diagram.
pub(super) fn name_of<'a>(node: Node<'a, 'a>) -> &'a str {
    text(node, "Id").or(node.attribute("id")).unwrap_or("?")
}

/// The connections at each contact point, by its id.
pub(super) type Ends<'a> = HashMap<&'a str, Vec<Node<'a, 'a>>>;

pub(super) fn ends_of<'a>(tree: &Tree<'a>, progress: &mut dyn FnMut(usize, usize)) -> Ends<'a> {
    let connections: Vec<Node<'a, 'a>> =
        tree.doc.descendants().filter(|n| n.has_tag_name("Connection")).collect();
    let mut ends = Ends::new();
    for (n, connection) in connections.iter().enumerate() {
        for end in children(*connection, "Extremities") {
            for id in refs(end, "Contact_point") {
                ends.entry(id).or_default().push(*connection);
            }
        }
        progress(n + 1, connections.len());
    }
    ends
}

/// The wiring group of each wire and core, by its id.
pub(super) type Groups<'a> = HashMap<&'a str, Node<'a, 'a>>;

pub(super) fn groups_of<'a>(tree: &Tree<'a>) -> Groups<'a> {
    let groups = tree.doc.descendants().filter(|node| node.has_tag_name("Wiring_group"));
    groups.flat_map(|group| refs(group, "Assigned_wire").map(move |wire| (wire, group))).collect()
}
