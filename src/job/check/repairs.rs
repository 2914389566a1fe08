//! Checks of repairs: what a crimp or a splice has to be before it counts.

use super::{
    orders::check_behind,
    rules::{Checked, Rules, impossible},
};
use crate::{
    catalogue::{PartNumber, Terminal},
    job::{
        Act, Behind, Crimp, CrimpVerdict, Housings, ItemId, JobSide, Lead, LeadOrder, Place, RepairKind,
        STRIP_OFF_MM, Splice,
        lent::Lender,
        objection::{CrimpFaults, Misfit, Objection, ToolUsed, WeakSample},
        refusal::{CrimpRule, PlaceBarrier, RemovalBarrier, RepairBarrier, RepairRule},
        state::State,
        target::{Destination, Target},
    },
    reckoning::{Height, pull_minimum},
    record::{Address, HousingName},
};

impl State {
    pub(super) fn check_behind_of(&self, housing: &HousingName, behind: &Behind) -> Checked {
        match self.housings.housing(housing).map(|h| h.side) {
            Some(JobSide::Old) => check_behind(behind),
            Some(JobSide::New) | None => impossible(RepairBarrier::NotOld(housing.clone())),
        }
    }

    pub(super) fn check_repair(&self, act: &Act, target: &Target) -> Checked {
        let Act::Repair { lead: id, how, part, crimp, splice, .. } = act else { return Ok(Rules::default()) };
        let is_here = |lead: &&Lead| matches!(lead.place, Place::Hand | Place::NotMade);
        let Some(lead) = self.items.lead(id).filter(is_here) else {
            return impossible(RepairBarrier::NotInHand(id.clone()));
        };
        if lead.place == Place::NotMade {
            self.items.check_empty_hand()?;
        }
        self.check_done(lead, *how, part.as_ref(), crimp.as_deref(), splice.as_deref(), target)
    }

    pub(super) fn check_plan(
        &self,
        lead: &ItemId,
        how: RepairKind,
        with: Option<&ItemId>,
        order: Option<&LeadOrder>,
        target: Lender<'_>,
    ) -> Checked {
        let here = self
            .items
            .lead(lead)
            .filter(|known| known.place != Place::Removed || !self.is_missing_wire(&known.id));
        let Some(lead) = here else { return self.check_new_lead(lead, how) };
        if how != RepairKind::Other && target().leads.get(&lead.id) == Some(&Destination::Out) {
            return impossible(RepairBarrier::HasNoPlace(lead.call()));
        }
        if matches!(lead.place, Place::Joined(_) | Place::Removed) {
            return impossible(RepairBarrier::Away(lead.call(), lead.place.clone()));
        }
        if how == RepairKind::Join {
            self.check_join(lead, with)?;
        }
        self.check_planned(lead, how, order)?;
        self.check_join_size(lead, how, with, order)?;
        Ok(Rules::default())
    }

    fn check_done(
        &self,
        lead: &Lead,
        how: RepairKind,
        part: Option<&PartNumber>,
        crimp: Option<&Crimp>,
        splice: Option<&Splice>,
        target: &Target,
    ) -> Checked {
        if lead.planned != Some(how) {
            return impossible(RepairBarrier::NotPlanned(lead.call()));
        }
        if let (RepairKind::Join, Some(with)) =
            (how, lead.joined_with.as_ref().and_then(|id| self.items.lead(id)))
            && !matches!(with.place, Place::Parked(_))
        {
            return impossible(RepairBarrier::OtherNotOut(with.call()));
        }
        if splice.is_some() && !how.is_new_lead() {
            return impossible(RepairBarrier::NoSpliceOnIt);
        }
        // What was planned may have been corrected since.
        self.check_planned(lead, how, lead.order_in_force())?;
        let mut rules = Rules::default();
        if how == RepairKind::Reform && lead.reforms() > 0 {
            rules.add(RepairRule::ReformedBefore(lead.call()));
        }
        let goes = lead.joined_with.as_ref().unwrap_or(&lead.id);
        if let (Some(part), Some(to)) = (part, target.of(goes)) {
            for objection in self.part_objections(lead, how, part, to) {
                rules.add(objection);
            }
        }
        if let Some(crimp) = crimp.filter(|crimp| crimp.verdict == CrimpVerdict::Accepted) {
            self.check_crimp(lead, part, crimp, &mut rules);
        }
        if let Some(splice) = splice {
            self.check_splice(lead, splice, &mut rules);
        }
        Ok(rules)
    }

    /// What an accepted crimp has to show.
    fn check_crimp(&self, lead: &Lead, part: Option<&PartNumber>, crimp: &Crimp, rules: &mut Rules) {
        let call = lead.call();
        if let Some(objection) = self.other_wire(lead, crimp) {
            rules.add(objection);
        }
        if let (Some(height), Some(sheet)) = (&crimp.height, self.sheet_for(lead, part, crimp))
            && !sheet.takes(height.mm())
        {
            rules.add(RepairRule::HeightOut { lead: call.clone(), height: height.clone(), sheet });
        }
        if let Some(found) = self.look_faults(lead, part, crimp) {
            rules.add(CrimpRule::Faults(call, found));
        }
        if let Some(book) = crimp.book.as_ref().filter(|_| !crimp.is_from_a_proved_position()) {
            rules.add(CrimpRule::NotProved(crimp.tool_used(), book.clone()));
        }
        if let Some(weak) = self.weak_sample(lead, crimp) {
            rules.add(CrimpRule::WeakSample(weak));
        }
    }

    /// A sample of this crimp that came off too early; none where it held, or where no table has a least
    /// force for the wire.
    pub fn weak_sample(&self, lead: &Lead, crimp: &Crimp) -> Option<WeakSample> {
        let force_n = crimp.sample_pull.as_ref()?.force_n;
        let area_mm2 = lead.wire_in(crimp)?.area_mm2();
        let (least_n, source) = pull_minimum(self.world.rules.pull_standard.value, area_mm2)?;
        (force_n < least_n).then(|| WeakSample { tool: crimp.tool_used(), force_n, least_n, source })
    }

    /// What the eye found wrong with a crimp, and a strip length that is off; none when all is well.
    pub(in crate::job) fn look_faults(
        &self,
        lead: &Lead,
        part: Option<&PartNumber>,
        crimp: &Crimp,
    ) -> Option<CrimpFaults> {
        let terminal = part.or_else(|| lead.terminal()).and_then(|part| self.housings.terminal_named(part));
        let asked = terminal.and_then(|terminal| terminal.strip_mm).zip(crimp.strip.as_ref());
        let strip = asked.filter(|(mm, strip)| (strip.mm() - mm).abs() > STRIP_OFF_MM);
        let strip = strip.map(|(asked, strip)| (strip.clone(), asked));
        let is_faulty = strip.is_some() || !crimp.look.is_empty();
        is_faulty.then(|| CrimpFaults { look: crimp.look.clone(), strip })
    }

    /// The height the sheet of the terminal has for the wire in it; none without a sheet.
    pub fn sheet_for(&self, lead: &Lead, part: Option<&PartNumber>, crimp: &Crimp) -> Option<Height> {
        let terminal = self.housings.terminal_named(part.or_else(|| lead.terminal())?)?;
        terminal
            .height_for(lead.wire_in(crimp)?.area_mm2())
            .map(|(target_mm, tolerance_mm)| Height { target_mm, tolerance_mm })
    }

    pub(super) fn check_removed(&self, wire: &crate::job::WireId, document: &str) -> Checked {
        let Some(lead) = self.items.lead(&wire.lead) else {
            return impossible(PlaceBarrier::NoLead(wire.lead.clone()));
        };
        if !crate::quantity::says_something(document) {
            return impossible(RemovalBarrier::NoDocument);
        }
        let whole = wire.wire.is_none_or(|_| lead.wires_left() == 1);
        let is_joined_to_it = |other: &&Lead| other.place == Place::Joined(lead.id.clone());
        if let Some(other) = self.items.leads.iter().find(is_joined_to_it).filter(|_| whole) {
            return impossible(RemovalBarrier::JoinedInIt { other: other.call(), lead: lead.call() });
        }
        match wire.wire {
            Some(n) if n > lead.seen.wires.len() || lead.removed_wires.contains(&n) => {
                impossible(RemovalBarrier::NoSuchWire(lead.id.clone(), n))
            }
            Some(_) | None if lead.place == Place::Removed => {
                impossible(RemovalBarrier::OutAlready(lead.call()))
            }
            Some(_) | None => Ok(Rules::default()),
        }
    }

    /// What stands against a part on this lead: another family, size or gender, another plating.
    pub(in crate::job) fn part_objections(
        &self,
        lead: &Lead,
        how: RepairKind,
        part: &PartNumber,
        to: &Address,
    ) -> Vec<Objection> {
        let mut objections = Vec::new();
        let Some(housing) = self.housings.housing(&to.housing) else { return objections };
        let family = housing.definition.family();
        let size = self.housings.cavity_size(to);
        let gender = housing.housing().gender;
        let fits = match how {
            RepairKind::NewTerminal | RepairKind::RepairLead | RepairKind::Join => family
                .terminals
                .iter()
                .any(|t| t.part == *part && Some(&t.size) == size.as_ref() && t.gender == gender),
            RepairKind::NewSeal => {
                family.wire_seals.iter().any(|s| s.part == *part && Some(&s.size) == size.as_ref())
            }
            RepairKind::Reform | RepairKind::Other => true,
        };
        if !fits {
            objections.push(Objection::Misfit(Misfit::Part { part: part.clone(), to: to.clone() }));
        }
        objections.extend(self.plating_objection(lead, part));
        objections
    }

    /// Tin on gold wears through: a terminal keeps the plating of the one it replaces.
    fn plating_objection(&self, lead: &Lead, part: &PartNumber) -> Option<Objection> {
        let plating_of =
            |part: &PartNumber| self.housings.terminal_named(part).map(|terminal| &terminal.plating);
        let (old, new) = (lead.seen.terminal.as_ref().and_then(plating_of), plating_of(part));
        let (old, new) = old.zip(new).filter(|(old, new)| old != new)?;
        let (part, new, old) = (part.clone(), new.clone(), old.clone());
        Some(Objection::Misfit(Misfit::Plating { part, new, old }))
    }

    /// A crimp that is said to be on another wire than the one in its lead.
    pub(in crate::job) fn other_wire(&self, lead: &Lead, crimp: &Crimp) -> Option<Objection> {
        let (claimed, own) = crimp.wire.as_ref().zip(lead.wire_to_crimp())?;
        let other = || Misfit::OtherWire { lead: lead.call(), own: own.clone(), claimed: claimed.clone() };
        (!claimed.is_same_size(own)).then(|| Objection::Misfit(other()))
    }
}

impl Crimp {
    /// The tool and its position.
    pub fn tool_used(&self) -> ToolUsed {
        ToolUsed { tool: self.tool.clone(), position: self.position.clone() }
    }
}

impl Housings {
    /// A terminal by its part number, where the families of the job know it.
    pub fn terminal_named(&self, part: &PartNumber) -> Option<&Terminal> {
        self.all.iter().flat_map(|h| &h.definition.family().terminals).find(|t| t.part == *part)
    }
}
