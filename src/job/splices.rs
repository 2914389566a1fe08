//! The repair leads of a job: where their splices sit, how long each is, and what would not fit.

use crate::{
    job::Housings,
    quantity::{Gauge, Length},
    reckoning::{
        LeadAsk, LeadLength, MOST_LEADS, SplicePlace, Stagger, StaggerRequest, Twist, lead_length,
        room_needed_mm, stagger,
    },
    record::{HousingName, Known, Wire},
};
use std::cell::OnceCell;

use super::{
    Behind, ItemId, Lead, LeadOrder, MadeLead, Place, RepairKind, Splice,
    state::{JobHousing, State},
};

/// Behind a bundle of which nothing was said, splices may go as far as this.
const FAR_MM: f64 = 10_000.0;

/// A repair lead with its place and its length, as far as they are known.
#[derive(Debug, Clone, PartialEq)]
pub struct Ordered {
    /// Which lead it is for.
    pub lead: ItemId,
    /// Where its splice sits.
    pub place: Option<SplicePlace>,
    /// How long it is.
    pub length: Option<LeadLength>,
}

/// The plan of one bundle.
#[derive(Debug, Clone, PartialEq)]
pub struct SplicePlan {
    /// The housing it starts at.
    pub housing: HousingName,
    /// What was asked of the planner.
    pub ask: StaggerRequest,
    /// Every repair lead, planned and done, in the order of the record.
    pub leads: Vec<Ordered>,
    /// A smallest set of leads that cannot all be placed; empty when all can.
    pub cannot: Vec<ItemId>,
    /// How much more room would settle it, once somebody asked.
    room_needed_mm: OnceCell<Option<f64>>,
}

impl SplicePlan {
    /// Whether there are more leads than one plan takes.
    pub fn is_too_many(&self) -> bool {
        self.cannot.len() > MOST_LEADS
    }

    /// How much more room would settle it; none where none would, or none is needed.
    pub fn room_needed_mm(&self) -> Option<f64> {
        let reckon = || if self.cannot.is_empty() { None } else { room_needed_mm(&self.ask) };
        *self.room_needed_mm.get_or_init(reckon)
    }

    /// The plan of one lead.
    pub fn of(&self, lead: &ItemId) -> Option<&Ordered> {
        self.leads.iter().find(|ordered| ordered.lead == *lead)
    }
}

impl State {
    /// The plans of all bundles that have repair leads.
    pub fn splice_plans(&self) -> Vec<SplicePlan> {
        self.housings.side(super::JobSide::Old).filter_map(|old| self.splice_plan(old)).collect()
    }

    /// The length and place of the repair lead for a lead.
    pub fn ordered(&self, lead: &ItemId) -> Option<Ordered> {
        self.splice_plans().into_iter().find_map(|plan| plan.of(lead).cloned())
    }

    fn splice_plan(&self, old: &JobHousing) -> Option<SplicePlan> {
        let leads: Vec<&Lead> = self.leads_of(&old.name).filter(|lead| lead.has_repair_lead()).collect();
        if leads.is_empty() {
            return None;
        }
        // A splice that is made stays where it is; of the others, those whose sleeve is known get a place.
        let is_open = |lead: &&Lead| made_splice(lead).is_none() && sleeve_mm(lead).is_some();
        let placed: Vec<&Lead> = leads.iter().copied().filter(is_open).collect();
        let made = leads.iter().filter(|lead| made_splice(lead).is_some()).flat_map(|lead| {
            let gap = self.gap_of(lead);
            splices_on(lead).into_iter().map(move |place| (place.start_mm, place.end_mm, gap))
        });
        let ask = self.splice_ask(old, &placed, made);
        let (places, cannot) = match stagger(&ask) {
            Stagger::Plan { places, .. } => (places, Vec::new()),
            Stagger::Cannot(set) => (Vec::new(), set),
            Stagger::TooMany => (Vec::new(), (0..placed.len()).collect()),
        };
        let ids = |set: Vec<usize>| set.into_iter().filter_map(|n| Some(placed.get(n)?.id.clone())).collect();
        let ordered = leads.iter().map(|lead| {
            let planned = || placed.iter().position(|p| p.id == lead.id).and_then(|n| places.get(n).copied());
            let place = made_splice(lead).or_else(planned);
            let length = match made_lead(lead) {
                Some(made) => made.length.planned,
                None => {
                    place.zip(lead.order_in_force()).and_then(|(place, order)| length_of(lead, order, place))
                }
            };
            Ordered { lead: lead.id.clone(), place, length }
        });
        Some(SplicePlan {
            housing: old.name.clone(),
            leads: ordered.collect(),
            cannot: ids(cannot),
            room_needed_mm: OnceCell::new(),
            ask,
        })
    }

    /// The bundle a lead belongs to: that of the housing it was recorded in.
    fn bundle_of_lead<'a>(&'a self, lead: &'a Lead) -> Option<&'a HousingName> {
        match &lead.id {
            ItemId::At(at) => Some(&at.housing),
            _ => lead.came_from.as_ref().map(|at| &at.housing).or_else(|| self.housings.only_old()),
        }
    }

    /// The leads that start at an old housing.
    pub(super) fn leads_of<'a>(&'a self, housing: &'a HousingName) -> impl Iterator<Item = &'a Lead> {
        let is_gone = |lead: &Lead| matches!(lead.place, Place::Removed | Place::Joined(_));
        self.items
            .leads
            .iter()
            .filter(move |lead| !is_gone(lead) && self.bundle_of_lead(lead) == Some(housing))
    }

    /// What the planner is asked: house rules, what lies behind the housing, and each lead.
    fn splice_ask(
        &self,
        old: &JobHousing,
        leads: &[&Lead],
        made: impl Iterator<Item = (f64, f64, f64)>,
    ) -> StaggerRequest {
        let rules = &self.world.rules;
        let nothing = Behind::default();
        let behind = self.housings.behind.get(&old.name).unwrap_or(&nothing);
        let stretch = |pair: &(Length, Length)| (pair.0.mm(), pair.1.mm());
        let mut keep_out_mm: Vec<(f64, f64)> = behind.keep_out.iter().map(stretch).collect();
        let near = rules.branch_clearance_mm.value;
        if behind.beyond.is_some() {
            let branches = behind.branches.iter().map(Length::mm);
            keep_out_mm.extend(branches.map(|branch| ((branch - near).max(0.0), branch + near)));
        }
        let lead = |lead: &&Lead| LeadAsk {
            circuit: lead.call(),
            damage_mm: self.unsound_mm(lead),
            sleeve_mm: sleeve_mm(lead).unwrap_or_default(),
            last_mm: self.last_for(lead, behind),
            gap_mm: Some(self.gap_of(lead)),
        };
        StaggerRequest {
            clearance_mm: rules.clearance_mm.value,
            gap_mm: rules.splice_gap_mm.value,
            margin_mm: rules.damage_margin_mm.value,
            keep_out_mm,
            existing_mm: self.splices_before(&old.name),
            made_mm: made.collect(),
            leads: leads.iter().map(lead).collect(),
        }
    }

    /// How far the wire of a lead is not to be spliced for what is wrong with it: over its damage, and
    /// over a splice that goes with the old lead when a new one is made.
    fn unsound_mm(&self, lead: &Lead) -> f64 {
        let former = splices_on(lead).iter().map(|place| place.end_mm).fold(0.0, f64::max);
        lead.damage_mm().max(former - self.world.rules.damage_margin_mm.value)
    }

    /// The gap that the splice of a lead keeps from others.
    pub(super) fn gap_of(&self, lead: &Lead) -> f64 {
        let common = self.world.rules.splice_gap_mm.value;
        match lead.is_twisted_or_shielded() {
            true => self.world.rules.splice_gap_twisted_mm.value.max(common),
            false => common,
        }
    }

    /// What the far end of the sleeve of a lead may not pass: what was said of it or of its bundle, and
    /// the first branch, unless splices may lie beyond.
    pub(super) fn last_for(&self, lead: &Lead, behind: &Behind) -> f64 {
        let near = self.world.rules.branch_clearance_mm.value;
        let own = lead.order_in_force().and_then(|order| order.last.as_ref()).map(Length::mm);
        let said = behind.last.as_ref().map(Length::mm);
        let branches = behind.branches.iter().filter(|_| behind.beyond.is_none());
        let before = branches.map(|branch| branch.mm() - near);
        own.into_iter().chain(said).chain(before).fold(FAR_MM, f64::min)
    }

    /// How long the repair lead of a lead was asked for, in the request sent last.
    pub fn asked_length_mm(&self, lead: &ItemId) -> Option<f64> {
        let lines = self.supply.requested.iter().flat_map(|request| &request.lines);
        // A lead that is made stays a line; the one to come is the latest.
        lines
            .filter(|line| line.leads.contains(lead) && line.need > 0)
            .filter_map(|line| line.length_mm)
            .next_back()
    }

    /// Splices that were in a bundle before this job. One that was made in it is known already, when
    /// somebody says it once more.
    pub(super) fn splices_before(&self, housing: &HousingName) -> Vec<(f64, f64)> {
        let made: Vec<SplicePlace> = self.leads_of(housing).flat_map(splices_on).collect();
        let near = |a: f64, b: f64| (a - b).abs() <= 1.0;
        let is_made = |from: f64, to: f64| {
            made.iter().any(|place| near(place.start_mm, from) && near(place.end_mm, to))
        };
        let said = self.housings.behind.get(housing).into_iter().flat_map(|behind| &behind.splices);
        said.map(|(from, to)| (from.mm(), to.mm())).filter(|(from, to)| !is_made(*from, *to)).collect()
    }

    /// How many wires of a bundle are spliced or will be.
    pub fn splices_in(&self, plan: &SplicePlan) -> usize {
        plan.leads.len() + self.splices_before(&plan.housing).len()
    }
}

/// The repair lead of a lead, once it is made; none while another one is planned.
pub(super) fn made_lead(lead: &Lead) -> Option<&MadeLead> {
    let is_open = lead.planned.is_some_and(RepairKind::is_new_lead);
    lead.made().filter(|_| !is_open)
}

/// Where the splice of a lead sits, once it is made; none while another one is planned.
pub(super) fn made_splice(lead: &Lead) -> Option<SplicePlace> {
    made_lead(lead)?;
    lead.repair_lead()?.splice.as_ref().map(Splice::place)
}

/// The splices on the wire of a lead, the latest first. A new lead takes away what lay nearer to the
/// housing; a splice further out stays in the wire.
pub(super) fn splices_on(lead: &Lead) -> Vec<SplicePlace> {
    let made = lead.repairs.iter().rev().filter(|done| done.stands()).filter_map(|done| done.splice.as_ref());
    let mut on: Vec<SplicePlace> = Vec::new();
    for place in made.map(Splice::place) {
        if on.iter().all(|later| place.start_mm >= later.end_mm - 1e-9) {
            on.push(place);
        }
    }
    on
}

impl Splice {
    /// From where to where its sleeve lies.
    pub fn place(&self) -> SplicePlace {
        let (start_mm, end_mm) = (self.start.mm(), self.start.mm() + self.sleeve.mm());
        SplicePlace { start_mm, centre_mm: f64::midpoint(start_mm, end_mm), end_mm }
    }
}

fn sleeve_mm(lead: &Lead) -> Option<f64> {
    lead.order_in_force()?.sleeve.as_ref().map(Length::mm)
}

/// The length of a lead for its place; none where inside or slack is not known.
pub(super) fn length_of(lead: &Lead, order: &LeadOrder, place: SplicePlace) -> Option<LeadLength> {
    let twist = order.twist.as_ref().and_then(|twist| {
        Some(Twist { diameter_mm: order.diameter_for(lead)?.mm(), lay_mm: twist.lay.mm() })
    });
    let route = order.route.as_ref().map_or(0.0, Length::mm);
    Some(lead_length(order.inside.as_ref()?.mm(), place.centre_mm, order.slack.as_ref()?.mm(), route, twist))
}

impl Lead {
    /// How far the damage reaches: the furthest of what was ordered for, what is on record and what was
    /// found in the hand. Nothing, where nothing was said.
    pub fn damage_mm(&self) -> f64 {
        let said = self.order_in_force().and_then(|order| order.damage.as_ref());
        said.into_iter().chain(self.damages()).map(Length::mm).fold(0.0, f64::max)
    }

    /// Damage as found in the hand, else as on record.
    pub fn damages(&self) -> impl Iterator<Item = &Length> {
        let recorded = self.seen.wires.iter().filter_map(|wire| wire.damage.as_ref());
        self.damage_found.iter().chain(recorded.filter(|_| self.damage_found.is_none()))
    }
}

impl LeadOrder {
    /// The wire of a lead that has only one: what its repair lead may take over.
    fn only_wire<'a>(&self, lead: &'a Lead) -> Option<&'a Wire> {
        lead.first_wire().filter(|_| lead.wires_left() == 1)
    }

    /// The size of the new wire: as ordered, else as it was.
    pub fn gauge_for<'a>(&'a self, lead: &'a Lead) -> Option<&'a Gauge> {
        // One lead for two stands in for the copper of both: its size is always said.
        let kept = || self.only_wire(lead).filter(|_| lead.planned != Some(RepairKind::Join))?.gauge.known();
        self.gauge.as_ref().or_else(kept)
    }

    /// Its colour.
    pub fn colour_for<'a>(&'a self, lead: &'a Lead) -> Option<&'a crate::colour::Colour> {
        let mut wires = lead.seen.wires.iter().map(|wire| wire.colour.known());
        let first = wires.next().flatten();
        // Wires of unlike colours leave it open.
        self.colour.as_ref().or_else(|| first.filter(|_| wires.all(|colour| colour == first)))
    }

    /// Its outside diameter.
    pub fn diameter_for<'a>(&'a self, lead: &'a Lead) -> Option<&'a Length> {
        let kept = || self.only_wire(lead)?.outside_diameter.as_ref().and_then(Known::known);
        self.outside_diameter.as_ref().or_else(kept)
    }

    /// Its temperature class.
    pub fn class_for(&self, lead: &Lead) -> Option<crate::record::InsulationClass> {
        self.insulation_class
            .or_else(|| lead.seen.wires.iter().filter_map(|wire| wire.insulation_class).max())
    }

    /// What an order must state and this one does not, each in a few words.
    pub fn missing(&self, lead: &Lead, length: Option<&LeadLength>) -> Vec<&'static str> {
        let stated = [
            (length.is_some(), "length (inside, slack, sleeve and a place for the splice)"),
            (self.gauge_for(lead).is_some(), "conductor size"),
            (self.colour_for(lead).is_some(), "colour"),
            (self.other_colour.is_some(), "whether another colour will do"),
            (self.strands.is_some(), "conductor and strands"),
            (self.insulation.is_some(), "insulation type"),
            (self.class_for(lead).is_some(), "temperature class"),
            (self.wall.is_some(), "wall"),
            (self.diameter_for(lead).is_some(), "outside diameter"),
            (self.other_end.is_some(), "the other end"),
            (self.splice.is_some() && self.splice_included.is_some(), "splice and sleeve"),
            (self.crimp_record.is_some(), "whether the crimp record comes with it"),
            (!lead.is_in_a_pair() || self.twist.is_some(), "lay and direction of the twist"),
        ];
        stated.into_iter().filter(|(is_stated, _)| !is_stated).map(|(_, what)| what).collect()
    }
}

impl Housings {
    /// The old housing, where there is one.
    pub(super) fn only_old(&self) -> Option<&HousingName> {
        let mut olds = self.side(super::JobSide::Old);
        olds.next().filter(|_| olds.next().is_none()).map(|old| &old.name)
    }
}
