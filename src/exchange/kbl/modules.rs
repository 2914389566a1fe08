//! Files that hold every variant of a harness at once: which components are in the variant chosen.

use std::collections::HashSet;

use roxmltree::Node;

use super::xml::{KblProblem, Tree, children, refs, text};

/// Which components a configuration has.
#[derive(Default)]
pub(super) struct Variant<'a> {
    /// Components that some module controls.
    controlled: HashSet<&'a str>,
    /// Those that a module of the configuration controls.
    chosen: HashSet<&'a str>,
    /// No configuration was chosen: everything is there.
    everything: bool,
}

impl<'a> Variant<'a> {
    /// Everything the file holds.
    pub fn everything() -> Self {
        Self { everything: true, ..Self::default() }
    }

    /// Whether a component is in it. One that no module controls goes with its assembly, and where it
    /// has none it is always there.
    pub fn has(&self, tree: &Tree<'a>, node: Node<'a, 'a>) -> bool {
        if self.everything {
            return true;
        }
        let Some(id) = node.attribute("id") else { return true };
        if self.controlled.contains(id) {
            return self.chosen.contains(id);
        }
        let mut assemblies =
            tree.referred(node, "Related_assembly").into_iter().filter_map(|a| a.attribute("id"));
        let controlling: Vec<&str> = assemblies.by_ref().filter(|id| self.controlled.contains(id)).collect();
        controlling.is_empty() || controlling.iter().any(|id| self.chosen.contains(id))
    }
}

/// A named choice of modules.
pub(super) fn configurations<'a>(tree: &Tree<'a>) -> Vec<(&'a str, Node<'a, 'a>)> {
    let found = tree.doc.descendants().filter(|node| node.has_tag_name("Harness_configuration"));
    found
        .filter_map(|node| {
            let name = ["Part_number", "Abbreviation", "Id"].iter().find_map(|name| text(node, name));
            Some((name?, node))
        })
        .collect()
}

/// The variant of a configuration, and what is taken for granted about it.
pub(super) fn variant<'a>(
    tree: &Tree<'a>,
    configuration: &str,
) -> Result<(Variant<'a>, Vec<String>), KblProblem> {
    let all = configurations(tree);
    let Some((_, node)) = all.iter().find(|(name, _)| name.eq_ignore_ascii_case(configuration)) else {
        let there = all.iter().map(|(name, _)| (*name).to_owned()).collect();
        return Err(KblProblem::NoConfiguration { wanted: configuration.to_owned(), there });
    };
    Ok(of_modules(tree, &refs(*node, "Modules").collect()))
}

/// The variant these modules make.
pub(super) fn of_modules<'a>(tree: &Tree<'a>, modules: &HashSet<&'a str>) -> (Variant<'a>, Vec<String>) {
    let mut variant = Variant::default();
    let mut not_read = 0;
    for node in tree.doc.descendants().filter(|node| node.has_tag_name("Module_configuration")) {
        let components: Vec<&str> = refs(node, "Controlled_components").collect();
        if components.is_empty() {
            continue;
        }
        let in_module = node.parent().filter(|parent| parent.has_tag_name("Module"));
        let chosen = match in_module {
            Some(module) => module.attribute("id").is_some_and(|id| modules.contains(id)),
            None if text(node, "Configuration_type") == Some("module list") => {
                names_one_of(tree, text(node, "Logistic_control_information").unwrap_or(""), modules)
            }
            // The maker's own grammar: what it controls is left in, and that is said.
            None => {
                not_read += 1;
                continue;
            }
        };
        variant.controlled.extend(&components);
        if chosen {
            variant.chosen.extend(&components);
        }
    }
    let mut assumed = Vec::new();
    if not_read > 0 {
        assumed.push(format!(
            "{not_read} conditions in a maker's own code are not read: what they control is taken to be there"
        ));
    }
    (variant, assumed)
}

/// Whether a list of modules names one that is chosen: any one of them is enough.
fn names_one_of(tree: &Tree<'_>, list: &str, modules: &HashSet<&str>) -> bool {
    let part_numbers: HashSet<&str> = modules
        .iter()
        .filter_map(|id| tree.by_id(id))
        .filter_map(|module| text(module, "Part_number"))
        .collect();
    let mut named = list.split(|c: char| c.is_whitespace() || matches!(c, ',' | ';'));
    named.any(|word| modules.contains(word) || part_numbers.contains(word))
}

/// The components a configuration's modules hold, counted.
pub(super) fn module_count<'a>(node: Node<'a, 'a>) -> usize {
    children(node, "Modules").filter_map(|child| child.text()).flat_map(str::split_whitespace).count()
}
