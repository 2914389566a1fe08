//! How thick the bundle behind a housing gets along its way: with its splices one behind the other,
//! as planned, and with all of them side by side. From real packings of its wires.

use crate::{
    quantity::{Gauge, Length},
    reckoning::{SplicePlace, bundle_of, thin_wall_mm},
    record::{HousingName, Known},
};

use super::{Lead, SplicePlan, state::State};

/// A stretch of a bundle and its diameter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Thick {
    /// From the rear face.
    pub from_mm: f64,
    /// To here.
    pub to_mm: f64,
    /// Its diameter.
    pub diameter_mm: f64,
}

/// The thickness of one bundle.
#[derive(Debug, Clone, PartialEq)]
pub struct Thickness {
    /// The housing it starts at.
    pub housing: HousingName,
    /// Where no splice lies.
    pub plain_mm: f64,
    /// At each splice, along the way, as planned.
    pub staggered: Vec<Thick>,
    /// With all splices side by side.
    pub stacked_mm: f64,
    /// Wires whose outside diameter nobody measured: reckoned as thin-walled.
    pub assumed: Vec<String>,
    /// Wires left out, for neither diameter nor size is known.
    pub left_out: Vec<String>,
    /// Repair leads whose sleeve's diameter was not said: drawn without it.
    pub bare: Vec<String>,
}

impl Thickness {
    /// The thickest place as planned.
    pub fn thickest(&self) -> Option<Thick> {
        self.staggered.iter().copied().max_by(|a, b| a.diameter_mm.total_cmp(&b.diameter_mm))
    }

    /// All sleeves in one place: where the first one lies.
    pub fn stacked(&self) -> Vec<Thick> {
        let first = self.staggered.first();
        first.map(|first| Thick { diameter_mm: self.stacked_mm, ..*first }).into_iter().collect()
    }
}

impl State {
    /// The thickness of every bundle that has repair leads.
    pub(super) fn thicknesses(&self, plans: &[SplicePlan]) -> Vec<Thickness> {
        plans.iter().filter(|plan| !plan.leads.is_empty()).map(|plan| self.thickness(plan)).collect()
    }

    fn thickness(&self, plan: &SplicePlan) -> Thickness {
        let bundle: Vec<&Lead> = self.leads_of(&plan.housing).collect();
        let mut assumed = Vec::new();
        let mut left_out = Vec::new();
        // Every lead with the diameters of its wires.
        let wires: Vec<(&Lead, Vec<f64>)> =
            bundle.iter().map(|lead| (*lead, self.diameters(lead, &mut assumed, &mut left_out))).collect();
        let sleeve = |lead: &Lead| Some(lead.order_in_force()?.sleeve_diameter.as_ref()?.mm());
        let section = |has_sleeve: &dyn Fn(&Lead) -> bool| {
            let of_lead = |(lead, own): &(&Lead, Vec<f64>)| match sleeve(lead).filter(|_| has_sleeve(lead)) {
                Some(sleeve) => vec![sleeve],
                None => own.clone(),
            };
            bundle_of(&wires.iter().flat_map(of_lead).collect::<Vec<f64>>()).diameter_mm
        };
        let here = |lead: &Lead| plan.of(&lead.id).is_some();
        let spliced = bundle.iter().filter(|lead| here(lead));
        let mut staggered: Vec<Thick> = spliced
            .clone()
            .filter(|lead| sleeve(lead).is_some())
            .filter_map(|lead| {
                let SplicePlace { start_mm, end_mm, .. } = plan.of(&lead.id)?.place?;
                let diameter_mm = section(&|other| other.id == lead.id);
                Some(Thick { from_mm: start_mm, to_mm: end_mm, diameter_mm })
            })
            .collect();
        staggered.sort_by(|a, b| a.from_mm.total_cmp(&b.from_mm));
        let bare = spliced.filter(|lead| sleeve(lead).is_none()).map(|lead| lead.call()).collect();
        Thickness {
            housing: plan.housing.clone(),
            plain_mm: section(&|_| false),
            staggered,
            stacked_mm: section(&here),
            assumed,
            left_out,
            bare,
        }
    }

    /// The outside diameters of the wires of a lead: measured, or those of thin walls.
    fn diameters(&self, lead: &Lead, assumed: &mut Vec<String>, left_out: &mut Vec<String>) -> Vec<f64> {
        let wires = lead.seen.wires.iter().enumerate();
        let left = wires.filter(|(n, _)| !lead.removed_wires.contains(&(n + 1)));
        left.filter_map(|(_, wire)| {
            let measured = wire.outside_diameter.as_ref().and_then(Known::known).map(Length::mm);
            if measured.is_some() {
                return measured;
            }
            let call = wire.name().map_or_else(|| lead.call(), str::to_owned);
            let reckoned = wire.gauge.known().map(Gauge::area_mm2).and_then(thin_wall_mm);
            if reckoned.is_some() {
                assumed.push(call)
            } else {
                left_out.push(call)
            }
            reckoned
        })
        .collect()
    }
}
