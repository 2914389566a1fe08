//! Colours of a file: one code set for all of it, base first, what was written kept.

use roxmltree::Node;

use super::xml::{Tree, children, text};
use crate::{colour::Colour, exchange::colours::CodeSet};

/// The colours of a wire or core as written, the base first.
fn written<'a>(node: Node<'a, 'a>) -> Vec<&'a str> {
    let name = if node.has_tag_name("Core") { "Core_colour" } else { "Cover_colour" };
    let mut parts: Vec<(u8, &str)> = children(node, name)
        .filter_map(|colour| {
            Some((rank(text(colour, "Colour_type").unwrap_or("")), text(colour, "Colour_value")?))
        })
        .collect();
    // Stable: colours of one rank stay in the order of the file.
    parts.sort_by_key(|(rank, _)| *rank);
    parts.into_iter().map(|(_, value)| value).collect()
}

/// Base before stripes, whatever language names them.
fn rank(kind: &str) -> u8 {
    let kind = kind.to_lowercase();
    match kind.as_str() {
        kind if kind.contains("base") || kind.contains("grund") => 0,
        kind if kind.contains("second") && kind.contains("ident") => 2,
        _ => 1,
    }
}

/// The code set of a file.
pub(super) fn code_set(tree: &Tree<'_>) -> CodeSet {
    let values = tree.doc.descendants().filter(|node| node.has_tag_name("Colour_value"));
    CodeSet::decide(values.filter_map(|value| value.text()))
}

/// The colour of a wire or core, and how it was written.
pub(super) fn colour<'a>(set: CodeSet, node: Node<'a, 'a>) -> (Option<Colour>, Option<String>) {
    let parts = written(node);
    if parts.is_empty() {
        return (None, None);
    }
    let raw = parts.join("/");
    (set.read(&raw).ok(), Some(raw))
}
