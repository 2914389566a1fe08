//! Flags about safety, records and whether the new housing can take what comes.

use crate::{
    catalogue::{Sealing, Terminal},
    job::{
        Code, GATES, GateAnswer, Housings, ItemId, JobSide, Lead, Misread, is_satisfied,
        seen::GateSeen,
        state::State,
        target::{Destination, Expected, Target},
    },
    quantity::list_of,
    record::{Address, CavityContent, Known, look_alikes},
};

use super::{Flag, Flags};

impl State {
    pub(super) fn flag_gates_and_views(&self, flags: &mut Flags) {
        let moved = self.has_moved() && self.course.signed.is_none();
        for gate in GATES {
            let stops = self.course.gates.get(&gate).is_some_and(GateSeen::stops);
            let is_against = self.is_against_record(gate);
            if stops || is_against || (moved && !self.gate_is_open(gate)) {
                let seen = self.course.gates.get(&gate);
                let say = match (stops, self.sign_of(gate, None)) {
                    (true, _) => format!("The gate on {} says stop.", gate.title()),
                    (false, Some(sign)) if seen.is_some_and(|seen| seen.answer == GateAnswer::Absent) => {
                        format!("{sign} The gate on {} was answered as absent.", gate.title())
                    }
                    (false, _) if seen.is_some_and(GateSeen::has_lapsed) => {
                        format!("\"Off the machine\" is over: the gate on {} is open.", gate.title())
                    }
                    (false, _) => format!("The gate on {} is open again.", gate.title()),
                };
                let instead =
                    "Do not touch the connector: answer it with a name and a document, or stop the job.";
                flags.push(Flag::job(Code::GateOpen, say, instead));
            }
        }
        for housing in &self.housings.all {
            if moved && housing.view.is_none() {
                let say = format!("Nobody said how {} is held.", housing.name);
                flags.push(
                    Flag::job(Code::ViewUnset, say, "Say which face is towards you and which side is up.")
                        .of(housing),
                );
            }
            if let Some(anchor) = self.failed_anchor(housing) {
                let say = format!(
                    "At {} of {} you see {}, and the record says otherwise.",
                    crate::job::place_in_words(&housing.seen(), anchor.place),
                    housing.name,
                    anchor
                        .colour
                        .as_ref()
                        .map_or_else(|| format!("\"{}\"", anchor.mark), ToString::to_string),
                );
                let fits = self.readings_that_fit(housing);
                let instead = match fits.as_slice() {
                    [one] if housing.side == JobSide::New => {
                        format!("The marks fit a housing {}: say again how it is held.", one.in_words())
                    }
                    [one @ Misread::Flip(_)] => {
                        format!("The record fits if it was {}: flip it.", one.in_words())
                    }
                    [one] => format!("The record fits if it was {}: put the row right.", one.in_words()),
                    [] => "Look again, say again how it is held, or correct the record.".to_owned(),
                    _ => "Several readings fit: answer another anchor before anything is flipped.".to_owned(),
                };
                flags.push(Flag::job(Code::AnchorFailed, say, instead).of(housing));
            }
        }
        if let Some(need) = &self.course.resume {
            let say = format!("The work was interrupted: {}.", need.why);
            let instead = "DO NOT POWER. Make the resume check before anything is moved.";
            flags.push(Flag::job(Code::ResumeUnchecked, say, instead));
        }
    }

    pub(super) fn flag_records(&self, target: &Target, flags: &mut Flags) {
        for difference in target.differences.iter().filter(|d| !self.records.is_decided(d)) {
            let instead = "Decide which record wins, with the reason.";
            let flag = Flag::job(Code::FoundDiffers, difference.sentence(), instead).at(self, &difference.at);
            flags.push(flag);
        }
        self.flag_decided(target, flags);
        for group in look_alikes(&self.records.found) {
            let untagged: Vec<&Address> = group
                .at
                .iter()
                .filter(|at| self.items.lead(&ItemId::At((*at).clone())).is_some_and(|l| l.tag.is_none()))
                .collect();
            if let Some(first) = untagged.first() {
                let say =
                    format!("{} look alike: {}.", list_of(&self.housings.spoken(&group.at)), group.looks);
                flags.push(
                    Flag::job(Code::LookAlike, say, "Tie a tag to each before it is taken out.")
                        .at(self, first),
                );
            }
        }
        for lead in &self.items.leads {
            let unknown = lead.seen.wires.iter().any(|w| {
                w.colour == Known::Unknown
                    || w.gauge == Known::Unknown
                    || w.outside_diameter == Some(Known::Unknown)
            });
            if unknown {
                let say = format!("Something about {} is not known.", lead.call());
                let flag = Flag::job(
                    Code::UnknownValue,
                    say,
                    "Measure it and correct the record, or accept it by name.",
                );
                flags.push(self.about_lead(flag, lead));
            }
        }
        if self.records.records_finished() && self.course.photos.is_empty() {
            let instead = "Photograph both faces and key the photo's number.";
            flags.push(Flag::job(
                Code::PhotoMissing,
                "There is no photo of the connector as found.",
                instead,
            ));
        }
        if self.records.records_finished() && self.records.cause.is_none() {
            let instead = "Find out what broke the housing: the next one fails the same way.";
            flags.push(Flag::job(Code::CauseUnknown, "The cause of the damage is not recorded.", instead));
        }
    }

    /// Puts the place of a lead and its circuit on a flag.
    pub(super) fn about_lead(&self, flag: Flag, lead: &Lead) -> Flag {
        let wire = lead.first_wire();
        let circuit = wire.and_then(|w| w.circuit.as_deref().or(w.number.as_deref()));
        let flag = Flag { item: Some(lead.id.clone()), ..flag.circuit(circuit) };
        match (&lead.place, &lead.id) {
            (crate::job::Place::In(at), _) | (_, ItemId::At(at)) => flag.at(self, at),
            (_, ItemId::PlugBehind(_) | ItemId::Loose(_) | ItemId::Stock(_)) => flag,
        }
    }

    pub(super) fn flag_fit(&self, target: &Target, flags: &mut Flags) {
        for lead in &self.items.leads {
            match target.leads.get(&lead.id) {
                Some(Destination::Blocked(to)) => {
                    let say = format!("{} has no place: {} is moulded shut.", lead.call(), to);
                    let instead =
                        "Ask the desk for an earlier revision, or map it elsewhere under a document.";
                    flags.push(self.about_lead(Flag::job(Code::BlockedUnderWire, say, instead), lead));
                }
                Some(Destination::Unmapped(from)) if self.mapping.confirmed.is_some() => {
                    let say =
                        format!("{} belongs in {from}, which is not mapped to the new side.", lead.call());
                    flags.push(self.about_lead(
                        Flag::job(
                            Code::MapClash,
                            say,
                            "Map it, or say under which document it has no place.",
                        ),
                        lead,
                    ));
                }
                Some(Destination::To(to)) => self.flag_misfit(lead, to, flags),
                Some(
                    Destination::None
                    | Destination::Out
                    | Destination::JoinedTo(_)
                    | Destination::Unmapped(_)
                    | Destination::Unknown,
                )
                | None => {}
            }
        }
        for (at, expected) in &target.cavities {
            if let Expected::Leads(leads) = expected
                && leads.len() > 1
            {
                let say = format!("{} are mapped to {at}.", list_of(leads));
                flags.push(
                    Flag::job(Code::MapClash, say, "Only one can go there: map the others elsewhere.")
                        .at(self, at),
                );
            }
        }
        if let Some(question) = self.misfit() {
            let say =
                format!("The {} of the new housing does not agree with the mating half.", question.words());
            flags.push(Flag::job(Code::PartMisfit, say, "Do not start: ask the desk for the right housing."));
        }
        if let Some(clip) = self.housings.clip_missing() {
            let say = format!("The new housing comes without the {clip} of the old one.");
            flags.push(Flag::job(
                Code::BridgeMissing,
                say,
                "Do not start: ask the desk for the housing with it.",
            ));
        }
        self.flag_split_pairs(target, flags);
    }

    fn flag_misfit(&self, lead: &Lead, to: &Address, flags: &mut Flags) {
        for (code, say, instead) in self.misfits(lead, to) {
            flags.push(self.about_lead(Flag::job(code, say, instead), lead));
        }
    }

    /// Why a lead does not fit a cavity of the new side, by what is known of both.
    pub(in crate::job) fn misfits(&self, lead: &Lead, to: &Address) -> Vec<(Code, String, &'static str)> {
        let mut out = Vec::new();
        let (Some(housing), Some(cavity)) = (self.housings.housing(&to.housing), self.housings.cavity(to))
        else {
            return out;
        };
        let family = housing.definition.family();
        let part = lead.terminal();
        let known: Option<&Terminal> = part.and_then(|p| family.terminals.iter().find(|t| t.part == *p));
        if let (Some(part), Some(terminal)) = (part, known)
            && terminal.size != cavity.size
        {
            let say =
                format!("Terminal {part} is size {}, and {to} takes size {}.", terminal.size, cavity.size);
            out.push((Code::TerminalMisfit, say, "Fit the terminal the cavity takes."));
        } else if let (Some(part), None) = (part, known) {
            let say = format!("Terminal {part} is not of the family of {}.", housing.housing().part);
            out.push((
                Code::TerminalMisfit,
                say,
                "Fit a terminal of the family: another one clicks, and fails.",
            ));
        }
        let area: f64 = lead.seen.wires.iter().filter_map(|w| w.gauge.known()).map(|g| g.area_mm2()).sum();
        let all_known = lead.seen.wires.iter().all(|w| w.gauge.known().is_some());
        let mut terminals = family.terminals_for(&cavity.size).peekable();
        let takes = |t: &Terminal| area >= t.wire_mm2.0 - 1e-9 && area <= t.wire_mm2.1 + 1e-9;
        if all_known && terminals.peek().is_some() && !terminals.any(takes) {
            let say = format!("{:.3} mm² does not fit any terminal for {to}.", area);
            out.push((Code::WireMisfit, say, "Check the gauge, or map the wire to a cavity that takes it."));
        }
        out.extend(self.seal_misfit(lead, housing, cavity, to));
        out
    }

    fn seal_misfit(
        &self,
        lead: &Lead,
        housing: &crate::job::JobHousing,
        cavity: &crate::catalogue::Cavity,
        to: &Address,
    ) -> Option<(Code, String, &'static str)> {
        let wire = lead.first_wire()?;
        let diameter = wire.outside_diameter.as_ref()?.known()?;
        let fits = match &housing.housing().sealing {
            Sealing::Unsealed => true,
            Sealing::Mat { hole_mm } => (hole_mm.0..=hole_mm.1).contains(&diameter.mm()),
            Sealing::Individual => {
                let family = housing.definition.family();
                family.wire_seals.is_empty() || family.seal_for(&cavity.size, diameter).is_some()
            }
        };
        let say = format!("No seal of the family holds {} in {to}.", diameter.both());
        (!fits).then_some((
            Code::SealRange,
            say,
            "Measure the insulation again; seals follow the diameter, not the gauge.",
        ))
    }

    fn flag_split_pairs(&self, target: &Target, flags: &mut Flags) {
        for (at, holds) in &self.records.found {
            let Some(label) = holds.lead().and_then(|l| l.wires.iter().find_map(|w| w.twisted_with.as_ref()))
            else {
                continue;
            };
            let partner = Address::new(at.housing.clone(), label.clone());
            // Each pair once, from its first leg.
            if partner <= *at {
                continue;
            }
            let to = |at: &Address| target.of(&ItemId::At(at.clone()));
            if let (Some(a), Some(b)) = (to(at), to(&partner))
                && self.housings.are_neighbours(at, &partner)
                && !self.housings.are_neighbours(a, b)
            {
                let say = format!("The pair {} and {} would be split between {a} and {b}.", at.label, label);
                flags.push(
                    Flag::job(Code::PairSplit, say, "Keep the legs of a pair side by side.").at(self, at),
                );
            }
        }
    }

    /// Holes that were open or empty at intake and have to be filled: flagged at once on the old
    /// side, until the cavity they are mapped to is filled.
    pub(super) fn flag_intake_faults(&self, target: &Target, flags: &mut Flags) {
        let occupants = self.items.occupants();
        for (at, holds) in &self.records.found {
            if !matches!(holds, CavityContent::Open | CavityContent::Empty) {
                continue;
            }
            let Some(to) = self.mapping.mapped(at).cloned().or_else(|| self.housings.same_label(at)) else {
                continue;
            };
            let expected = target.cavities.get(&to).filter(|_| self.mapping.mapped(at).is_some());
            let needs_plug = match expected {
                Some(expected) => expected.takes_plug(),
                None => *holds == CavityContent::Open,
            };
            let filled = expected
                .is_some_and(|e| is_satisfied(e, occupants.get(&to), self.items.plug_at(&to).is_some()));
            if !needs_plug || filled {
                continue;
            }
            let sealed = self.housings.housing(&to.housing).is_some_and(|h| h.housing().sealing.is_sealed());
            let flag = if sealed {
                let say = format!("{} is open: its plug is missing as found.", at.label);
                Flag::job(Code::OpenCavity, say, "Look at its neighbours for corrosion, and fit a new plug.")
            } else {
                let say = format!("{} is neither wired nor plugged.", at.label);
                Flag::job(Code::PlugMissing, say, "The house rule fills every cavity: fit a plug.")
            };
            flags.push(flag.at(self, at));
        }
    }
}

impl Housings {
    /// Whether two cavities of one housing are within one and a half of its smallest pitch.
    fn are_neighbours(&self, a: &Address, b: &Address) -> bool {
        let housing = self.housing(&a.housing).filter(|_| a.housing == b.housing);
        housing.is_some_and(|h| h.housing().are_neighbours(&a.label, &b.label))
    }

    /// The new cavity of the same label, where the map is not confirmed yet.
    fn same_label(&self, at: &Address) -> Option<Address> {
        let mut news = self.side(JobSide::New).filter(|h| h.housing().cavity(&at.label).is_some());
        let only = news.next().filter(|_| news.next().is_none())?;
        Some(only.address(&at.label))
    }
}
