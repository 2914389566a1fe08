//! The circuit a repair lead goes into: its resistance and its voltage drop at the temperature of
//! the place, against the house limit.

use crate::{
    reckoning::{LeadLength, SizeChange, copper, of_supply_percent},
    shop_rules::Rule,
};

use super::{Lead, LeadOrder, state::State};

/// What a circuit loses with its repair lead in it.
#[derive(Debug, Clone, PartialEq)]
pub struct CircuitDrop {
    /// Resistance of the whole circuit, there and back.
    pub resistance_ohm: f64,
    /// Voltage lost in it.
    pub drop_v: f64,
    /// What of that the repair lead loses.
    pub lead_drop_v: f64,
    /// The same, in per cent of the supply.
    pub percent: f64,
    /// What the house lets pass, in per cent.
    pub limit: Rule<f64>,
    /// Where the resistance of the wire comes from.
    pub source: &'static str,
}

impl CircuitDrop {
    /// Whether it loses more than the house lets pass.
    pub fn is_over(&self) -> bool {
        self.percent > self.limit.value + 1e-9
    }
}

impl State {
    /// What the circuit of a lead loses; none where load or sizes were not said. The repair lead
    /// counts with its own size over its own length, the rest with the size it had.
    pub fn circuit_drop(&self, lead: &Lead, length: Option<LeadLength>) -> Option<CircuitDrop> {
        let order = lead.order_in_force()?;
        let load = order.load?;
        let new = order.gauge_for(lead)?;
        let old = lead.first_wire().and_then(|wire| wire.gauge.known()).unwrap_or(new);
        let lead_mm = length.map_or(0.0, |length| length.cut_mm).min(load.circuit_mm);
        let own = copper(new, lead_mm, load.conductor_c);
        let rest = copper(old, load.circuit_mm - lead_mm, load.conductor_c);
        let resistance_ohm = own.resistance_ohm + rest.resistance_ohm;
        let drop_v = resistance_ohm * load.current_a;
        let limit = if load.critical {
            &self.world.rules.drop_critical_percent
        } else {
            &self.world.rules.drop_percent
        };
        Some(CircuitDrop {
            resistance_ohm,
            drop_v,
            lead_drop_v: own.resistance_ohm * load.current_a,
            percent: of_supply_percent(drop_v, load.supply_v),
            limit: limit.clone(),
            source: own.source,
        })
    }

    /// How the copper of an ordered lead compares with what it stands in for, in a sentence.
    pub fn size_in_words(&self, lead: &Lead, order: &LeadOrder) -> Option<String> {
        let (old, new) = (lead.area_mm2()?, order.gauge_for(lead)?);
        let change = self.less_copper(lead, order).unwrap_or_else(|| "not less".to_owned());
        Some(format!("{} for {old:.3} mm² of copper: {change}", new.both()))
    }

    /// How much less copper a lead has, and who lets it pass; none where it has not less.
    pub fn less_copper(&self, lead: &Lead, order: &LeadOrder) -> Option<String> {
        let rules = &self.world.rules;
        match self.size_change(lead, lead.area_mm2()?, order.gauge_for(lead)?) {
            SizeChange::Kept => None,
            SizeChange::Warn(percent) => Some(format!(
                "{:.1} % less copper, let pass down to {} % ({})",
                -percent, rules.least_gauge_percent.value, rules.least_gauge_percent.source
            )),
            SizeChange::Approved(percent) => Some(format!(
                "{:.1} % less copper, a pair the house lists ({})",
                -percent, rules.approved_pairs.source
            )),
            SizeChange::Refused(percent) => Some(format!("{:.1} % less copper: refused", -percent)),
        }
    }
}
