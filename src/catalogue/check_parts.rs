//! What the checks of a family and of its housings share: the parts that housings refer to by size, lists
//! under their path, ranges.

use std::collections::BTreeSet;

use super::{
    family::{Gender, Plug, Terminal, WireSeal},
    finding::{FieldPath, Findings},
    part::SizeName,
};

/// The parts of a family that housings refer to by size.
pub(super) struct Parts {
    pub terminals: Vec<Terminal>,
    pub wire_seals: Vec<WireSeal>,
    pub plugs: Vec<Plug>,
}

impl Parts {
    /// Whether the family lists no part at all beside its housings.
    pub fn are_none(&self) -> bool {
        self.terminals.is_empty() && self.wire_seals.is_empty() && self.plugs.is_empty()
    }

    /// The sizes terminals of a gender are made in.
    pub fn terminal_sizes(&self, gender: Gender) -> Vec<&SizeName> {
        self.terminals.iter().filter(|t| t.gender == gender).map(|t| &t.size).collect()
    }

    /// Whether there is a wire seal of this size.
    pub fn has_seal(&self, size: &SizeName) -> bool {
        self.wire_seals.iter().any(|seal| seal.size == *size)
    }

    /// Whether there is a plug of this size.
    pub fn has_plug(&self, size: &SizeName) -> bool {
        self.plugs.iter().any(|plug| plug.size == *size)
    }

    /// Seals and plugs are of a size that some terminal has.
    pub fn check_sizes(&self, findings: &mut Findings) {
        let known: BTreeSet<&SizeName> = self.terminals.iter().map(|t| &t.size).collect();
        let top = FieldPath::default();
        let seals = self.wire_seals.iter().map(|seal| &seal.size).enumerate();
        let plugs = self.plugs.iter().map(|plug| &plug.size).enumerate();
        let seals = seals.map(|(n, size)| (top.field("wire_seals").index(n), size));
        for (path, size) in seals.chain(plugs.map(|(n, size)| (top.field("plugs").index(n), size))) {
            if !known.contains(size) {
                let say = format!("no terminal of this family has the size {size}");
                findings.add_with(path.field("size"), say, sizes_in_words(&known));
            }
        }
    }
}

/// "sizes: 0.64, 2.8".
pub(super) fn sizes_in_words(sizes: &BTreeSet<&SizeName>) -> String {
    let names: Vec<&str> = sizes.iter().map(|size| size.as_str()).collect();
    match names.is_empty() {
        true => "there are no terminals yet".to_owned(),
        false => format!("sizes: {}", names.join(", ")),
    }
}

/// Checks every item of a list under its own path; those with findings are left away.
pub(super) fn gather<F, T>(
    forms: &[F],
    path: FieldPath,
    findings: &mut Findings,
    check: impl Fn(&F, &FieldPath, &mut Findings) -> Option<T>,
) -> Vec<T> {
    forms.iter().enumerate().filter_map(|(n, draft)| check(draft, &path.index(n), findings)).collect()
}

/// A range of positive numbers, the lower one first.
pub(super) fn range(range: (f64, f64), path: FieldPath, findings: &mut Findings) {
    let (low, high) = range;
    if !(low > 0.0 && high.is_finite() && low <= high) {
        let say = format!("{low} to {high} is no range");
        findings.add_with(path, say, "two numbers above 0, the lower one first");
    }
}
