//! Rules that a named person went past. Their flags stay until what they say is no longer so; nothing is
//! taken for mended that nobody checked.

use super::{Flag, Flags, cause::FlagCause};
use crate::{
    face::Face,
    job::{
        Code, ItemId, Lead, Place, Readings,
        seen::Deviation,
        state::{Occupant, State},
        target::{Expected, Target},
    },
    shop_rules::TestKind,
};

impl State {
    pub(super) fn flag_passed(&self, target: &Target, flags: &mut Flags) {
        for deviation in self.course.deviations.iter().filter(|b| !self.is_mended(b, target)) {
            let flag = Flag::job(FlagCause::Passed {
                code: deviation.code,
                by: deviation.anyway.by.clone(),
                reason: deviation.anyway.reason.clone(),
            });
            let lead = deviation.lead.as_ref().and_then(|id| self.items.lead(id));
            let flag = match (lead, &deviation.at) {
                (Some(lead), _) => self.about_lead(flag, lead),
                (None, Some(at)) => flag.at(self, at),
                (None, None) => flag,
            };
            let already = |f: &Flag| f.code() == flag.code() && f.at == flag.at && f.item == flag.item;
            if !flags.iter().any(already) {
                flags.push(flag);
            }
        }
    }

    /// Whether what was done against a rule has been put right and looked at.
    fn is_mended(&self, deviation: &Deviation, target: &Target) -> bool {
        match mended_by(deviation.code) {
            MendedBy::State => true,
            MendedBy::OtherInPlace => !self.holds_other_out_of_place(deviation, target),
            MendedBy::OtherOut => deviation.lead.is_some() || !self.holds_other(deviation),
            MendedBy::EveryView => self.housings.all.iter().all(|h| h.view.is_some()),
            MendedBy::EveryProof => self.housings.all.iter().all(|h| self.view_is_proved(h)),
            MendedBy::Map => {
                let lead = deviation.lead.as_ref().and_then(|id| self.items.lead(id));
                let waits =
                    lead.is_some_and(|lead| self.items.leads.iter().any(|l| self.waits_to_join(l, lead)));
                self.mapping.confirmed.is_some() && !waits
            }
            MendedBy::Comparison => self.misfit().is_none() && self.next_question().is_none(),
            MendedBy::Look => self.is_looked_at_since(deviation),
            MendedBy::Measurement => deviation
                .lead
                .as_ref()
                .and_then(|id| self.items.lead(id))
                .is_some_and(|lead| self.readings.is_measured_since(lead, deviation.n)),
            MendedBy::Nothing => false,
        }
    }

    /// Whether a spare terminal, bridge or clip sits where the rule was passed.
    fn holds_other(&self, deviation: &Deviation) -> bool {
        let at = deviation.to.as_ref().or(deviation.at.as_ref());
        at.is_some_and(|at| matches!(self.items.occupant(at), Some(Occupant::Other(_))))
    }

    /// The same, and by the plan it does not belong there.
    fn holds_other_out_of_place(&self, deviation: &Deviation, target: &Target) -> bool {
        let Some(at) = deviation.to.as_ref().or(deviation.at.as_ref()) else { return false };
        match self.items.occupant(at) {
            Some(Occupant::Other(other)) => *target.expected(at) != Expected::Other(other.id.clone()),
            Some(Occupant::Lead(_) | Occupant::Plug(_)) | None => false,
        }
    }

    /// What went past a lock is sound when somebody looked at it since: a lead in the hand, a plug where
    /// it sits. What is not in a new housing any more harms nothing.
    fn is_looked_at_since(&self, deviation: &Deviation) -> bool {
        if let Some(id) = &deviation.lead {
            return self.items.lead(id).is_some_and(|lead| lead.called_good.is_some_and(|n| n > deviation.n));
        }
        let Some(at) = &deviation.at else { return false };
        let id = ItemId::At(at.clone());
        let plug = self.items.plugs.iter().find(|plug| plug.id == id || plug.place == Place::In(at.clone()));
        let housing = match plug.map(|plug| &plug.place) {
            Some(Place::In(now)) => &now.housing,
            Some(Place::Scrapped | Place::Returned | Place::Lost) => return true,
            Some(
                Place::Hand
                | Place::Tray
                | Place::Parked(_)
                | Place::Removed
                | Place::Joined(_)
                | Place::NotMade
                | Place::Unseen,
            )
            | None => &at.housing,
        };
        let look = self.readings.looked_over.get(&(housing.clone(), Face::Wire));
        look.is_some_and(|look| look.sound && look.n > deviation.n)
    }
}

/// What puts a passed rule right.
enum MendedBy {
    /// The state itself shows it, with a flag of its own, until it is put right.
    State,
    /// The spare terminal, bridge or clip sits where it belongs, or nowhere.
    OtherInPlace,
    /// No spare terminal, bridge or clip sits there.
    OtherOut,
    /// Every housing has a view.
    EveryView,
    /// Every view is proved.
    EveryProof,
    /// The map is confirmed, and nothing waits to be joined with the lead.
    Map,
    /// All is compared with the mating half, and agrees.
    Comparison,
    /// Somebody looked at it since.
    Look,
    /// The circuit was measured since: a tag tied on later can be the wrong one.
    Measurement,
    /// No rule that takes a name says this; what a journal claims of it stays.
    Nothing,
}

fn mended_by(code: Code) -> MendedBy {
    match code {
        Code::WrongCavity
        | Code::GaugeReduced
        | Code::FoundDiffers
        | Code::RowCount
        | Code::WireMisfit
        | Code::LockNotSet
        | Code::LockForced
        | Code::LeadParted
        | Code::NotSeated
        | Code::NotTugged
        | Code::NotMated
        | Code::AssuranceOff
        | Code::HeightOut
        | Code::CrimpLook
        | Code::ReformedTwice
        | Code::Untwisted
        | Code::TestFailed
        | Code::SpliceTooNear
        | Code::DrainBare
        | Code::PlugWrongCavity
        | Code::PlugSize
        | Code::SealRange
        | Code::SealMissing
        | Code::MatingHalf
        | Code::NotLookedOver
        | Code::ToolNotQualified
        | Code::CrimpSuspect
        | Code::Soldered
        | Code::SpliceSecond => MendedBy::State,
        Code::SpareMissing | Code::BridgeMissing => MendedBy::OtherInPlace,
        Code::TerminalMisfit => MendedBy::OtherOut,
        Code::ViewUnset => MendedBy::EveryView,
        Code::AnchorFailed => MendedBy::EveryProof,
        Code::MapClash => MendedBy::Map,
        Code::PartMisfit => MendedBy::Comparison,
        Code::LockNotReleased => MendedBy::Look,
        Code::LookAlike => MendedBy::Measurement,
        Code::GateOpen
        | Code::NotReRead
        | Code::SpliceForbidden
        | Code::BlockedUnderWire
        | Code::InHand
        | Code::Parked
        | Code::WireMissing
        | Code::ResumeUnchecked
        | Code::ClassLowered
        | Code::PairSplit
        | Code::Substitute
        | Code::PrefittedPlug
        | Code::PlugMissing
        | Code::OpenCavity
        | Code::SealWorn
        | Code::SmallPart
        | Code::HeightNotVerified
        | Code::ForcedOut
        | Code::SpliceTooMany
        | Code::LeadsMany
        | Code::LockWorn
        | Code::PhotoMissing
        | Code::CauseUnknown
        | Code::TestMissing
        | Code::TemporaryMeasure
        | Code::UnknownValue
        | Code::ColourDiffers
        | Code::TwoInOneHole
        | Code::NotFinished
        | Code::LastTime
        | Code::Unsigned => MendedBy::Nothing,
    }
}

impl Readings {
    /// Whether the circuit of a lead was measured through, and passed, since an entry.
    fn is_measured_since(&self, lead: &Lead, n: usize) -> bool {
        let is_its = |circuit: &str| {
            let named = |name: &Option<String>| {
                name.as_deref().is_some_and(|name| name.eq_ignore_ascii_case(circuit))
            };
            lead.seen.wires.iter().any(|wire| named(&wire.number) || named(&wire.circuit))
        };
        self.tests.iter().any(|test| {
            test.n > n
                && test.passed
                && test.test == TestKind::Continuity
                && test.circuit.as_deref().is_some_and(is_its)
        })
    }
}
