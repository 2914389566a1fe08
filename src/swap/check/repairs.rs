//! Checks of repairs: what may be planned on a wire, and what a crimp or a splice has to be before
//! it counts.

use super::{Checked, Rules, barred, impossible};
use crate::{
    catalogue::{PartNumber, Terminal},
    house::Solder,
    quantity::{Gauge, Length},
    record::Address,
    repair::{ClassChange, Height, Placed, SizeChange, class_change, size_change},
    swap::{
        Act, Behind, Code, Crimp, CrimpVerdict, JobSide, Lead, LeadOrder, Load, Place, Refusal, RepairKind,
        STRIP_OFF_MM, Splice, SplicePlan,
        splices::{made_splice, splices_on},
        state::State,
    },
};

impl State {
    pub(super) fn check_repair(&self, act: &Act) -> Checked {
        match act {
            Act::Behind { housing, behind } => match self.housing(housing).map(|h| h.side) {
                Some(JobSide::Old) => check_behind(behind),
                _ => impossible(
                    format!("This job has no old housing {housing}."),
                    "The bundle is measured behind the old housing.",
                ),
            },
            Act::Planned { lead, how, order, .. } => {
                let Some(lead) = self.lead(lead) else {
                    return impossible(
                        format!("There is no lead {lead}."),
                        "Name it by the cavity it was recorded in.",
                    );
                };
                self.check_planned(lead, *how, order.as_deref())?;
                Ok(Rules::default())
            }
            Act::Repair { lead: id, how, part, crimp, splice, .. } => {
                let Some(lead) = self.lead(id).filter(|l| l.place == Place::Hand) else {
                    return impossible(
                        format!("{id} is not in the hand."),
                        "Take it up before it is repaired.",
                    );
                };
                self.check_done(lead, *how, part.as_ref(), crimp.as_deref(), splice.as_deref())
            }
            Act::Removed { wire, document } => self.check_removed(wire, document),
            Act::Seen { item, at, .. } => self.check_seen(item, at),
            _ => Ok(Rules::default()),
        }
    }

    /// Why a repair may not be planned on a lead, by its kind and what was ordered.
    pub(in crate::swap) fn check_planned(
        &self,
        lead: &Lead,
        how: RepairKind,
        order: Option<&LeadOrder>,
    ) -> Result<(), Refusal> {
        // Any repair of such a wire needs the machine's own document; a repair lead above all.
        let forbidden = lead.seen.wires.iter().find(|w| w.kind.forbids_splice());
        if let Some(wire) = forbidden {
            return barred(
                Code::SpliceForbidden,
                format!(
                    "{} is a {}: {} is not planned on it.",
                    self.call(lead),
                    wire.kind.words(),
                    how.words()
                ),
                "Stop, and ask for the document of this machine.",
            );
        }
        if let Some(order) = order {
            self.check_size(lead, order)?;
            self.check_class(lead, order)?;
            order.load.as_ref().map_or(Ok(()), check_load)?;
            check_lengths(order)?;
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
                    self.call(lead)
                ),
                "Order the same area or more; the terminal and the seal have to take it.",
            ),
            SizeChange::Kept | SizeChange::Warn(_) | SizeChange::Approved(_) => Ok(()),
        }
    }

    /// How the copper changes, by area and by the pairs the house lists.
    pub fn size_change(&self, lead: &Lead, old_mm2: f64, new: &Gauge) -> SizeChange {
        let rules = &self.rules;
        let same = |a: f64, b: f64| (a - b).abs() < 1e-9;
        let is_approved = rules.approved_pairs.value.iter().any(|(from, to)| {
            same(from.area_mm2(), old_mm2) && same(to.area_mm2(), new.area_mm2()) && lead.wires_left() == 1
        });
        size_change(old_mm2, new.area_mm2(), rules.least_gauge_percent.value, is_approved)
    }

    fn check_class(&self, lead: &Lead, order: &LeadOrder) -> Result<(), Refusal> {
        let old = lead.seen.wires.iter().filter_map(|wire| wire.insulation_class).max();
        match class_change(old, order.insulation_class) {
            ClassChange::Lowered => barred(
                Code::ClassLowered,
                format!("The insulation ordered for {} is of a lower temperature class.", self.call(lead)),
                "Order the same class or a higher one; cross-linked may replace PVC, never the reverse.",
            ),
            ClassChange::Kept | ClassChange::Unknown => Ok(()),
        }
    }

    fn check_done(
        &self,
        lead: &Lead,
        how: RepairKind,
        part: Option<&PartNumber>,
        crimp: Option<&Crimp>,
        splice: Option<&Splice>,
    ) -> Checked {
        if lead.planned != Some(how) {
            return impossible(
                format!("This repair of {} is not planned.", self.call(lead)),
                "Plan it first, so that its parts are asked for.",
            );
        }
        if splice.is_some() && how != RepairKind::RepairLead {
            return impossible("Only a repair lead has a splice.", "Plan the repair lead first.");
        }
        // What was planned may have been corrected since.
        self.check_planned(lead, how, lead.order.as_deref())?;
        let mut rules = Rules::default();
        if how == RepairKind::Reform && lead.reforms() > 0 {
            let say = format!("The tang of {} was re-formed once already.", self.call(lead));
            rules.add(Code::ReformedTwice, say, "Replace the terminal.");
        }
        if let (Some(part), Some(to)) = (part, self.target().of(&lead.id)) {
            self.check_part(how, part, to, &mut rules);
            self.check_plating(lead, part, &mut rules);
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
        let call = self.call(lead);
        if let (Some(height), Some(sheet)) = (&crimp.height, self.sheet_for(lead, part, crimp))
            && !sheet.takes(height.mm())
        {
            let say = format!("The crimp on {call} measures {}; its sheet says {sheet}.", height.both());
            rules.add(Code::HeightOut, say, "Cut it off and crimp again, in the position for this terminal.");
        }
        if let Some(found) = self.look_faults(lead, part, crimp) {
            rules.add(
                Code::CrimpLook,
                format!("The crimp on {call}: {found}."),
                "Cut it off and crimp again.",
            );
        }
        if let Some(book) = crimp.book.as_ref().filter(|_| !crimp.is_from_a_proved_position()) {
            let say = format!("{} is not proved for this terminal and wire: {book}.", crimp.with());
            let instead = "Qualify it on samples first: three heights, five pulls judged by the lowest.";
            rules.add(Code::ToolNotQualified, say, instead);
        }
    }

    fn check_splice(&self, lead: &Lead, splice: &Splice, rules: &mut Rules) {
        let call = self.call(lead);
        if let Some(before) =
            splices_on(lead).first().filter(|before| before.start_mm >= splice.place().end_mm)
        {
            let say = format!(
                "The splice of {call} made before, at {} to {} mm, stays in the wire behind this one.",
                before.start_mm, before.end_mm
            );
            rules.add(Code::SpliceSecond, say, "Cut it out: replace the wire from the old splice on.");
        }
        if let Some(near) = self.splice_too_near(lead, splice, lead.damage_mm(), &self.splice_plans()) {
            rules.add(Code::SpliceTooNear, near, "Cut the lead where the plan has it.");
        }
        if !splice.sound {
            let say = format!("The splice of {call} was not found sound.");
            let instead =
                "Copper at both sides of the window, adhesive out at both ends, and it holds a tug.";
            rules.add(Code::CrimpLook, say, instead);
        }
        if splice.solder.is_some() && self.rules.solder.value == Solder::Never {
            let say = format!("The splice of {call} is soldered, and the house rule says no.");
            rules.add(Code::Soldered, say, "Crimp it: solder wicks up the wire and breaks at its edge.");
        }
        let limit = self.rules.untwisted_mm.value;
        if let Some(untwisted) = splice.untwisted.as_ref().filter(|length| length.mm() > limit) {
            let say = format!("{call} is untwisted over {}, more than {limit} mm.", untwisted.both());
            rules.add(Code::Untwisted, say, "Twist the pair again over its splices.");
        }
    }

    /// What a splice comes too near to, in a sentence; none when it lies well.
    pub(in crate::swap) fn splice_too_near(
        &self,
        lead: &Lead,
        splice: &Splice,
        damage: f64,
        plans: &[SplicePlan],
    ) -> Option<String> {
        let call = self.call(lead);
        let Placed { start_mm: start, end_mm: end, .. } = splice.place();
        let plan = plans.iter().find(|plan| plan.of(&lead.id).is_some())?;
        let ask = &plan.ask;
        if start < ask.clearance_mm - 1e-9 {
            return Some(format!(
                "The splice of {call} starts {} behind the housing; {} mm must lie between.",
                splice.start.both(),
                ask.clearance_mm
            ));
        }
        if damage > 0.0 && start < damage + ask.margin_mm - 1e-9 {
            return Some(format!(
                "The splice of {call} starts {} behind the housing; the damage reaches {damage} mm, and {} mm of sound wire come first.",
                splice.start.both(),
                ask.margin_mm
            ));
        }
        let keep_out = ask.keep_out_mm.iter().find(|(from, to)| end > *from + 1e-9 && start < *to - 1e-9);
        if let Some((from, to)) = keep_out {
            return Some(format!(
                "The splice of {call} lies between {from} and {to} mm, where none may lie."
            ));
        }
        let behind = self.behind.get(&plan.housing);
        let last = self.last_for(lead, behind.unwrap_or(&Behind::default()));
        if end > last + 1e-9 {
            return Some(format!(
                "The sleeve of {call} ends {end} mm behind the housing; none may pass {last} mm."
            ));
        }
        let own = self.gap_of(lead);
        let others = self.leads.iter().filter(|other| other.id != lead.id && plan.of(&other.id).is_some());
        let made = others.filter(|other| made_splice(other).is_some()).flat_map(|other| {
            let gap = self.gap_of(other).max(own);
            splices_on(other).into_iter().map(move |place| (place.start_mm, place.end_mm, gap))
        });
        let before = behind.into_iter().flat_map(|behind| &behind.splices);
        let before = before.map(|(from, to)| (from.mm(), to.mm(), own));
        let is_near = |(from, to, gap): &(f64, f64, f64)| end + gap > from + 1e-9 && start < to + gap - 1e-9;
        let (from, to, gap) = before.chain(made).find(is_near)?;
        Some(format!("The splice of {call} lies less than {gap} mm from the one at {from} to {to} mm."))
    }

    /// The terminal a crimp was made on, where the families of the job know it.
    fn terminal_named(&self, part: &PartNumber) -> Option<&Terminal> {
        self.housings.iter().flat_map(|h| &h.definition.family().terminals).find(|t| t.part == *part)
    }

    /// What the eye found wrong with a crimp, and a strip length that is off; none when all is well.
    pub(in crate::swap) fn look_faults(
        &self,
        lead: &Lead,
        part: Option<&PartNumber>,
        crimp: &Crimp,
    ) -> Option<String> {
        let mut found: Vec<String> = crimp.look.iter().map(|fault| fault.words().to_owned()).collect();
        let terminal = part.or_else(|| self.terminal_of(lead)).and_then(|part| self.terminal_named(part));
        let asked = terminal.and_then(|terminal| terminal.strip_mm).zip(crimp.strip.as_ref());
        if let Some((asked, strip)) = asked.filter(|(mm, strip)| (strip.mm() - mm).abs() > STRIP_OFF_MM) {
            found.push(format!("stripped {}, the sheet says {asked} mm", strip.both()));
        }
        (!found.is_empty()).then(|| crate::quantity::list_of(&found))
    }

    /// The height the sheet of the terminal has for the wire in it; none without a sheet.
    pub fn sheet_for(&self, lead: &Lead, part: Option<&PartNumber>, crimp: &Crimp) -> Option<Height> {
        let terminal = self.terminal_named(part.or_else(|| self.terminal_of(lead))?)?;
        terminal
            .height_for(crimp.wire_of(lead)?.area_mm2())
            .map(|(target_mm, tolerance_mm)| Height { target_mm, tolerance_mm })
    }

    fn check_removed(&self, wire: &crate::swap::WireId, document: &str) -> Checked {
        let Some(lead) = self.lead(&wire.lead) else {
            return impossible(
                format!("There is no lead {}.", wire.lead),
                "Name it by the cavity it was recorded in.",
            );
        };
        if document.trim().is_empty() {
            return impossible("A wire is taken out for good only under a document.", "Name it.");
        }
        match wire.wire {
            Some(n) if n > lead.seen.wires.len() || lead.removed_wires.contains(&n) => {
                impossible(format!("{} has no wire {n}.", lead.id), "Count the wires in its terminal.")
            }
            _ if lead.place == Place::Removed => {
                impossible(format!("{} is out already.", self.call(lead)), "Nothing to do.")
            }
            _ => Ok(Rules::default()),
        }
    }

    fn check_part(&self, how: RepairKind, part: &PartNumber, to: &Address, rules: &mut Rules) {
        let Some(housing) = self.housing(&to.housing) else { return };
        let family = housing.definition.family();
        let size = self.cavity_size(to);
        let gender = housing.housing().gender;
        let fits = match how {
            RepairKind::NewTerminal | RepairKind::RepairLead => family
                .terminals
                .iter()
                .any(|t| t.part == *part && Some(&t.size) == size.as_ref() && t.gender == gender),
            RepairKind::NewSeal => {
                family.wire_seals.iter().any(|s| s.part == *part && Some(&s.size) == size.as_ref())
            }
            RepairKind::Reform | RepairKind::Other => true,
        };
        if !fits {
            let say = format!("Part {part} is not one for {to}.");
            let instead = "Use a part of the housing's family, the cavity's size and its gender.";
            rules.add(Code::TerminalMisfit, say, instead);
        }
    }

    /// Tin on gold wears through: a terminal keeps the plating of the one it replaces.
    fn check_plating(&self, lead: &Lead, part: &PartNumber, rules: &mut Rules) {
        let plating_of = |part: &PartNumber| self.terminal_named(part).map(|terminal| &terminal.plating);
        let (old, new) = (lead.seen.terminal.as_ref().and_then(plating_of), plating_of(part));
        if let Some((old, new)) = old.zip(new).filter(|(old, new)| old != new) {
            let say = format!("Terminal {part} is plated with {new}, the old one with {old}.");
            rules.add(Code::TerminalMisfit, say, "Keep the plating: the mating half has the same.");
        }
    }
}

/// A sleeve and a lay have a length.
fn check_lengths(order: &LeadOrder) -> Result<(), Refusal> {
    let lay = order.twist.as_ref().map(|twist| &twist.lay);
    match order.sleeve.iter().chain(lay).find(|length| length.mm() < 1.0) {
        Some(length) => {
            impossible(format!("A sleeve or a lay of {length} cannot be."), "Measure it, from 1 mm up.")
        }
        None => Ok(()),
    }
}

/// What a circuit can carry.
fn check_load(load: &Load) -> Result<(), Refusal> {
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
fn check_behind(behind: &Behind) -> Checked {
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

impl Crimp {
    /// The tool and its position, in words.
    pub fn with(&self) -> String {
        let tool = self.tool.as_deref().unwrap_or("a tool not named");
        match &self.position {
            Some(position) => format!("{tool}, position {position}"),
            None => format!("{tool}, position not named"),
        }
    }
}
