//! Rules that a named person went past. Their flags stay until what they say is no longer so; nothing is
//! taken for mended that nobody checked.

use super::{Flag, Flags};
use crate::{
    face::Face,
    job::{
        Code, ItemId, Lead, Place, Readings,
        seen::Deviation,
        state::{Occupant, State},
        target::Expected,
    },
    shop_rules::TestKind,
};

impl State {
    pub(super) fn flag_passed(&self, flags: &mut Flags) {
        for deviation in self.course.deviations.iter().filter(|b| !self.is_mended(b)) {
            let say =
                format!("{} went past {}: {}", deviation.anyway.by, deviation.code, deviation.anyway.reason);
            let flag = Flag::job(deviation.code, say, "Inspect what was done to it, and put it right.");
            let lead = deviation.lead.as_ref().and_then(|id| self.items.lead(id));
            let flag = match (lead, &deviation.at) {
                (Some(lead), _) => self.about_lead(flag, lead),
                (None, Some(at)) => flag.at(self, at),
                (None, None) => flag,
            };
            let already = |f: &Flag| f.code == flag.code && f.at == flag.at && f.item == flag.item;
            if !flags.iter().any(already) {
                flags.push(flag);
            }
        }
    }

    /// Whether what was done against a rule has been put right and looked at.
    fn is_mended(&self, deviation: &Deviation) -> bool {
        match deviation.code {
            // The state itself shows these, with a flag of their own, until they are put right.
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
            | Code::SpliceSecond => true,
            Code::SpareMissing | Code::BridgeMissing => !self.holds_other_out_of_place(deviation),
            Code::TerminalMisfit => deviation.lead.is_some() || !self.holds_other(deviation),
            Code::ViewUnset => self.housings.all.iter().all(|h| h.view.is_some()),
            Code::AnchorFailed => self.housings.all.iter().all(|h| self.view_is_proved(h)),
            Code::MapClash => {
                let lead = deviation.lead.as_ref().and_then(|id| self.items.lead(id));
                let waits =
                    lead.is_some_and(|lead| self.items.leads.iter().any(|l| self.waits_to_join(l, lead)));
                self.mapping.confirmed.is_some() && !waits
            }
            Code::PartMisfit => self.misfit().is_none() && self.next_question().is_none(),
            Code::LockNotReleased => self.is_looked_at_since(deviation),
            // A tag tied on later can be the wrong one: the circuit is measured.
            Code::LookAlike => deviation
                .lead
                .as_ref()
                .and_then(|id| self.items.lead(id))
                .is_some_and(|lead| self.readings.is_measured_since(lead, deviation.n)),
            // No rule that takes a name says these; what a journal claims of them stays.
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
            | Code::Unsigned => false,
        }
    }

    /// Whether a spare terminal, bridge or clip sits where the rule was passed.
    fn holds_other(&self, deviation: &Deviation) -> bool {
        let at = deviation.to.as_ref().or(deviation.at.as_ref());
        at.is_some_and(|at| matches!(self.items.occupant(at), Some(Occupant::Other(_))))
    }

    /// The same, and by the plan it does not belong there.
    fn holds_other_out_of_place(&self, deviation: &Deviation) -> bool {
        let Some(at) = deviation.to.as_ref().or(deviation.at.as_ref()) else { return false };
        match self.items.occupant(at) {
            Some(Occupant::Other(other)) => *self.target().expected(at) != Expected::Other(other.id.clone()),
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
            _ => &at.housing,
        };
        let look = self.readings.looked_over.get(&(housing.clone(), Face::Wire));
        look.is_some_and(|look| look.sound && look.n > deviation.n)
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
