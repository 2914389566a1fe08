//! Flags on housings, their locks and seals, the mating half, and parts that came in place of others.

use super::{
    Flag, Flags,
    cause::{FlagCause, HousingCause},
};
use crate::job::{ArrivedVerdict, JobSide, MatingVerdict, state::State, target::Target};

impl State {
    pub(super) fn flag_housings(&self, target: &Target, flags: &mut Flags) {
        self.flag_locks(flags);
        self.flag_old_faces(flags);
        self.flag_seals(flags);
        if let Some(MatingVerdict::Damaged(what)) = &self.housings.mating_half {
            flags.push(housing(HousingCause::MatingHalfDamaged(what.clone())));
        }
        self.flag_failed_tests(flags);
        for new in self.housings.side(JobSide::New).filter(|h| h.assurance_forced) {
            flags.push(housing(HousingCause::AssuranceForced(new.name.clone())).of(new));
        }
        self.flag_rows_read_in(flags);
        if self.housings.mated == Some(false) {
            flags.push(housing(HousingCause::WirePushedBack));
        }
        self.flag_neighbours(target, flags);
    }

    fn flag_locks(&self, flags: &mut Flags) {
        for housed in &self.housings.all {
            if housed.lock_forced {
                flags.push(housing(HousingCause::LockForced(housed.name.clone())).of(housed));
            }
            if housed.lock_openings >= self.world.rules.lock_worn_at.value {
                let (name, openings) = (housed.name.clone(), housed.lock_openings);
                flags.push(housing(HousingCause::LockWorn { housing: name, openings }).of(housed));
            }
        }
    }

    fn flag_seals(&self, flags: &mut Flags) {
        for at in &self.items.left_behind {
            flags.push(housing(HousingCause::LeftBehind(at.clone())).at(self, at));
        }
        for (at, count) in &self.items.insertions {
            let sealed = self.housings.housing(&at.housing).is_some_and(|h| h.housing().sealing.is_sealed());
            if sealed && *count >= self.world.rules.seal_worn_at.value {
                let cause = HousingCause::SealWorn { at: at.clone(), fillings: *count };
                flags.push(housing(cause).at(self, at));
            }
        }
    }

    /// A part that came in place of the one asked for, until a named person accepts it.
    pub(super) fn flag_arrivals(&self, flags: &mut Flags) {
        for arrival in
            self.supply.arrivals.iter().filter(|arrival| arrival.verdict == ArrivedVerdict::Substitute)
        {
            let cause = FlagCause::Substitute { part: arrival.part.clone(), line: arrival.line };
            let flag = Flag { line: Some(arrival.line), ..Flag::job(cause) };
            flags.push(match self.supply.waits_at(arrival.line) {
                Some(at) => flag.at(self, &at),
                None => flag,
            });
        }
    }
}

fn housing(cause: HousingCause) -> Flag {
    Flag::job(FlagCause::Housing(cause))
}
