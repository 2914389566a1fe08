//! Flags on what the new side cannot take, and on holes that were open at intake.

use super::{
    Flag, Flags,
    cause::{FitCause, FlagCause},
};
use crate::{
    job::{
        Housings, ItemId, JobSide, is_satisfied,
        state::State,
        target::{Destination, Expected, Target},
    },
    record::{Address, CavityContent},
};

impl State {
    pub(super) fn flag_fit(&self, target: &Target, flags: &mut Flags) {
        for lead in &self.items.leads {
            match target.leads.get(&lead.id) {
                Some(Destination::Blocked(to)) => {
                    let cause = FitCause::Blocked { lead: lead.call(), to: to.clone() };
                    flags.push(self.about_lead(fit(cause), lead));
                }
                Some(Destination::Unmapped(from)) if self.mapping.confirmed.is_some() => {
                    let cause = FitCause::Unmapped { lead: lead.call(), from: from.clone() };
                    flags.push(self.about_lead(fit(cause), lead));
                }
                Some(Destination::To(to)) => {
                    self.flag_objections(self.misfits(lead, to), lead, flags);
                }
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
                let cause = FitCause::Clash { leads: leads.clone(), at: at.clone() };
                flags.push(fit(cause).at(self, at));
            }
        }
        flags.extend(self.misfit().map(|question| fit(FitCause::HousingDiffers(question))));
        flags.extend(self.housings.clip_missing().map(|clip| fit(FitCause::ClipMissing(clip.to_owned()))));
        self.flag_split_pairs(target, flags);
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
                let from = (at.label.clone(), label.clone());
                let cause = FitCause::PairSplit { from, to: (a.clone(), b.clone()) };
                flags.push(fit(cause).at(self, at));
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
            let cause = if sealed { FitCause::FoundOpen } else { FitCause::FoundEmpty };
            flags.push(fit(cause(at.label.clone())).at(self, at));
        }
    }
}

fn fit(cause: FitCause) -> Flag {
    Flag::job(FlagCause::Fit(cause))
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
