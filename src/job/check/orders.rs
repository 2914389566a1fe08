//! Checks of orders: what may be planned on a wire, and what a repair lead may be.

use super::rules::{Checked, Rules, barred, impossible};
use crate::{
    job::{Behind, Code, Lead, LeadOrder, Load, OtherEnd, Refusal, RepairKind, state::State},
    quantity::{Gauge, Length},
    reckoning::{ClassChange, SizeChange, Twist, class_change, size_change},
};

impl State {
    /// Why a repair may not be planned on a lead, by its kind and what was ordered.
    pub(in crate::job) fn check_planned(
        &self,
        lead: &Lead,
        how: RepairKind,
        order: Option<&LeadOrder>,
    ) -> Result<(), Refusal> {
        // Any repair of such a wire needs the machine's own document; a repair lead above all.
        if let Some(kind) = self.forbidden_kind(lead) {
            return barred(
                Code::SpliceForbidden,
                format!("{} is a {}: {} is not planned on it.", lead.call(), kind.words(), how.words()),
                "Stop, and ask for the document of this machine.",
            );
        }
        if let Some(order) = order.filter(|_| how.is_new_lead()) {
            self.check_size(lead, order)?;
            self.check_class(lead, order)?;
            order.load.as_ref().map_or(Ok(()), |load| check_load(load, order.gauge_for(lead)))?;
            check_lengths(lead, order)?;
        }
        Ok(())
    }

    /// The new wire against all the copper it stands in for.
    fn check_size(&self, lead: &Lead, order: &LeadOrder) -> Result<(), Refusal> {
        let (Some(old), Some(new)) = (lead.area_mm2(), &order.gauge) else { return Ok(()) };
        match self.size_change(lead, old, new) {
            SizeChange::Refused(percent) => barred(
                Code::GaugeReduced,
                format!(
                    "{} has {:.2} mm² less copper than {} ({percent:.1} %): refused.",
                    new.both(),
                    old - new.area_mm2(),
                    lead.call()
                ),
                "Order the same area or more; the terminal and the seal have to take it.",
            ),
            SizeChange::Kept | SizeChange::Warn(_) | SizeChange::Approved(_) => Ok(()),
        }
    }

    /// How the copper changes, by area and by the pairs the house lists.
    pub fn size_change(&self, lead: &Lead, old_mm2: f64, new: &Gauge) -> SizeChange {
        let rules = &self.world.rules;
        let same = |a: f64, b: f64| (a - b).abs() < 1e-9;
        let is_approved = rules.approved_pairs.value.iter().any(|(from, to)| {
            same(from.area_mm2(), old_mm2) && same(to.area_mm2(), new.area_mm2()) && lead.wires_left() == 1
        });
        size_change(old_mm2, new.area_mm2(), rules.least_gauge_percent.value, is_approved)
    }

    pub(super) fn check_class(&self, lead: &Lead, order: &LeadOrder) -> Result<(), Refusal> {
        let old = lead.seen.wires.iter().filter_map(|wire| wire.insulation_class).max();
        match class_change(old, order.insulation_class) {
            ClassChange::Lowered => barred(
                Code::ClassLowered,
                format!("The insulation ordered for {} is of a lower temperature class.", lead.call()),
                "Order the same class or a higher one; cross-linked may replace PVC, never the reverse.",
            ),
            ClassChange::Kept | ClassChange::Unknown => Ok(()),
        }
    }
}

/// The longest end a splice takes (common practice, no source).
const LONGEST_STRIP_MM: f64 = 40.0;

/// Lengths and diameters that can be: a sleeve over its wire, insulation over its conductor, a lay
/// that can be twisted.
fn check_lengths(lead: &Lead, order: &LeadOrder) -> Result<(), Refusal> {
    let measure = "Measure it again.";
    let lay = order.twist.as_ref().map(|twist| &twist.lay);
    if let Some(length) = order.sleeve.iter().chain(lay).find(|length| length.mm() < 1.0) {
        return impossible(format!("A sleeve or a lay of {length} cannot be."), "Measure it, from 1 mm up.");
    }
    if let Some(OtherEnd::Stripped(length)) = order.other_end.as_ref()
        && !(1.0..=LONGEST_STRIP_MM).contains(&length.mm())
    {
        let say = format!("No splice takes an end stripped {}.", length.both());
        return impossible(say, format!("Key 1 to {LONGEST_STRIP_MM} mm, as the splice's sheet says."));
    }
    let Some(diameter) = order.diameter_for(lead) else { return Ok(()) };
    // A larger size is asked before its own diameter is.
    let is_of_one_wire = order.outside_diameter.is_some() || order.gauge.is_none();
    let gauge = order.gauge_for(lead).filter(|_| is_of_one_wire);
    let copper_mm = gauge.map(|gauge| (gauge.area_mm2() * 4.0 / std::f64::consts::PI).sqrt());
    if let Some(copper_mm) = copper_mm.filter(|copper_mm| *copper_mm >= diameter.mm()) {
        let say =
            format!("The copper alone is {copper_mm:.1} mm thick, the wire cannot be {}.", diameter.both());
        return impossible(say, measure);
    }
    if let Some(sleeve) = order.sleeve_diameter.as_ref().filter(|sleeve| sleeve.mm() <= diameter.mm()) {
        let say = format!("A sleeve of {} does not go over a wire of {}.", sleeve.both(), diameter.both());
        return impossible(say, measure);
    }
    let can_be = |lay: &Length| Twist { diameter_mm: diameter.mm(), lay_mm: lay.mm() }.can_be();
    match lay.filter(|lay| !can_be(lay)) {
        Some(lay) => impossible(
            format!("A wire of {} is not twisted with a lay of {}.", diameter.both(), lay.both()),
            "Measure ten turns and divide.",
        ),
        None => Ok(()),
    }
}

/// More current than this melts the wire, whatever is around it (common practice, no source).
const MOST_A_PER_MM2: f64 = 100.0;

/// What a circuit can carry.
fn check_load(load: &Load, gauge: Option<&Gauge>) -> Result<(), Refusal> {
    if let Some(gauge) = gauge.filter(|gauge| load.current_a > MOST_A_PER_MM2 * gauge.area_mm2()) {
        return impossible(
            format!("{} does not carry {} A.", gauge.both(), load.current_a),
            "Key the current in A, as the diagram or the fuse has it.",
        );
    }
    let can_be = |value: f64, least: f64, most: f64| (least..=most).contains(&value);
    let is_sound = can_be(load.current_a, 0.0, 10_000.0)
        && can_be(load.supply_v, 0.1, 100_000.0)
        && can_be(load.circuit_mm, 0.0, 10_000_000.0)
        && can_be(load.conductor_c, -60.0, 300.0);
    match is_sound {
        true => Ok(()),
        false => impossible(
            "No circuit carries that.",
            "Key 0 to 10000 A, 0.1 V or more, up to 10 km, -60 to 300 °C.",
        ),
    }
}

/// Stretches end after they start.
pub(super) fn check_behind(behind: &Behind) -> Checked {
    if behind.beyond.as_ref().is_some_and(|why| why.trim().is_empty()) {
        return impossible("Beyond a branch only with a reason.", "Say why splices may lie there.");
    }
    let turned = |(from, to): &&(Length, Length)| to.mm() < from.mm();
    match behind.keep_out.iter().chain(&behind.splices).find(turned) {
        Some((from, to)) => impossible(
            format!("The stretch from {from} to {to} ends before it starts."),
            "Key it from the rear face outwards.",
        ),
        None => Ok(Rules::default()),
    }
}
