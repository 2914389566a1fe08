//! Look-alikes: wires of the same colour and gauge. These are the ones that get swapped.

use std::collections::BTreeMap;

use super::{Address, CavityContent, Record};

/// Leads that the eye cannot tell apart.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LookAlike {
    /// What they look like: `GY/BK 0.5`.
    pub looks: String,
    /// Where they are.
    pub at: Vec<Address>,
}

/// The groups of leads of one colour and area, in the order of the record. Wires whose colour or
/// gauge is unknown are left out: they are a flag of their own.
pub fn look_alikes(record: &Record) -> Vec<LookAlike> {
    let mut groups: BTreeMap<(String, u64), LookAlike> = BTreeMap::new();
    for (at, holds) in record {
        let CavityContent::Wired(lead) = holds else { continue };
        for wire in &lead.wires {
            let (Some(colour), Some(gauge)) = (wire.colour.known(), wire.gauge.known()) else { continue };
            let key = (colour.to_string(), gauge.area_mm2().to_bits());
            let group = groups
                .entry(key)
                .or_insert_with(|| LookAlike { looks: format!("{colour} {gauge}"), at: Vec::new() });
            if group.at.last() != Some(at) {
                group.at.push(at.clone());
            }
        }
    }
    groups.into_values().filter(|group| group.at.len() > 1).collect()
}
