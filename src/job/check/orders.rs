//! Checks of orders: what may be planned on a wire, and what a repair lead may be.

use super::rules::{Checked, Rules, impossible};
use crate::{
    job::{
        Behind, Lead, LeadOrder, Load, OtherEnd, RepairKind,
        refusal::{NotPlannable, OrderBarrier, OrderRule},
        state::State,
    },
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
    ) -> Result<(), NotPlannable> {
        // Any repair of such a wire needs the machine's own document; a repair lead above all.
        if let Some(kind) = self.forbidden_kind(lead) {
            return Err(OrderRule::Forbidden { lead: lead.call(), kind, how }.into());
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
    fn check_size(&self, lead: &Lead, order: &LeadOrder) -> Result<(), NotPlannable> {
        let (Some(old), Some(new)) = (lead.area_mm2(), &order.gauge) else { return Ok(()) };
        match self.size_change(lead, old, new) {
            SizeChange::Refused(percent) => {
                let (new, lead) = (new.clone(), lead.call());
                Err(OrderRule::LessCopper { new, lead, old_mm2: old, percent }.into())
            }
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

    pub(super) fn check_class(&self, lead: &Lead, order: &LeadOrder) -> Result<(), NotPlannable> {
        let old = lead.seen.wires.iter().filter_map(|wire| wire.insulation_class).max();
        match class_change(old, order.insulation_class) {
            ClassChange::Lowered => Err(OrderRule::LowerClass(lead.call()).into()),
            ClassChange::Kept | ClassChange::Unknown => Ok(()),
        }
    }
}

/// The longest end a splice takes (common practice, no source).
const LONGEST_STRIP_MM: f64 = 40.0;

/// Lengths and diameters that can be: a sleeve over its wire, insulation over its conductor, a lay
/// that can be twisted.
fn check_lengths(lead: &Lead, order: &LeadOrder) -> Result<(), NotPlannable> {
    let lay = order.twist.as_ref().map(|twist| &twist.lay);
    if let Some(length) = order.sleeve.iter().chain(lay).find(|length| length.mm() < 1.0) {
        return Err(OrderBarrier::TooShort(length.clone()).into());
    }
    if let Some(OtherEnd::Stripped(length)) = order.other_end.as_ref()
        && !(1.0..=LONGEST_STRIP_MM).contains(&length.mm())
    {
        return Err(OrderBarrier::Stripped(length.clone(), LONGEST_STRIP_MM).into());
    }
    let Some(diameter) = order.diameter_for(lead) else { return Ok(()) };
    // A larger size is asked before its own diameter is.
    let is_of_one_wire = order.outside_diameter.is_some() || order.gauge.is_none();
    let gauge = order.gauge_for(lead).filter(|_| is_of_one_wire);
    let copper_mm = gauge.map(|gauge| (gauge.area_mm2() * 4.0 / std::f64::consts::PI).sqrt());
    if let Some(copper_mm) = copper_mm.filter(|copper_mm| *copper_mm >= diameter.mm()) {
        return Err(OrderBarrier::ThinnerThanCopper { copper_mm, diameter: diameter.clone() }.into());
    }
    if let Some(sleeve) = order.sleeve_diameter.as_ref().filter(|sleeve| sleeve.mm() <= diameter.mm()) {
        let (sleeve, diameter) = (sleeve.clone(), diameter.clone());
        return Err(OrderBarrier::SleeveTooNarrow { sleeve, diameter }.into());
    }
    let can_be = |lay: &Length| Twist { diameter_mm: diameter.mm(), lay_mm: lay.mm() }.can_be();
    match lay.filter(|lay| !can_be(lay)) {
        Some(lay) => Err(OrderBarrier::Lay { diameter: diameter.clone(), lay: lay.clone() }.into()),
        None => Ok(()),
    }
}

/// More current than this melts the wire, whatever is around it (common practice, no source).
const MOST_A_PER_MM2: f64 = 100.0;

/// What a circuit can carry.
fn check_load(load: &Load, gauge: Option<&Gauge>) -> Result<(), NotPlannable> {
    if let Some(gauge) = gauge.filter(|gauge| load.current_a > MOST_A_PER_MM2 * gauge.area_mm2()) {
        return Err(OrderBarrier::TooMuchCurrent(gauge.clone(), load.current_a).into());
    }
    let can_be = |value: f64, least: f64, most: f64| (least..=most).contains(&value);
    let is_sound = can_be(load.current_a, 0.0, 10_000.0)
        && can_be(load.supply_v, 0.1, 100_000.0)
        && can_be(load.circuit_mm, 0.0, 10_000_000.0)
        && can_be(load.conductor_c, -60.0, 300.0);
    match is_sound {
        true => Ok(()),
        false => Err(OrderBarrier::NoSuchLoad.into()),
    }
}

/// Stretches end after they start.
pub(super) fn check_behind(behind: &Behind) -> Checked {
    if behind.beyond.as_ref().is_some_and(|why| why.trim().is_empty()) {
        return impossible(OrderBarrier::BeyondWithoutReason);
    }
    let turned = |(from, to): &&(Length, Length)| to.mm() < from.mm();
    match behind.keep_out.iter().chain(&behind.splices).find(turned) {
        Some((from, to)) => impossible(OrderBarrier::EndsBeforeStart(from.clone(), to.clone())),
        None => Ok(Rules::default()),
    }
}
