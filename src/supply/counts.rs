//! How many are asked for, how many came, how many are fitted.

/// How many are asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Amount {
    /// How many this repair needs.
    pub need: u32,
    /// How many beyond that.
    pub spare: u32,
    /// How many are in a pack, when it is sold in packs.
    pub pack: Option<u32>,
}

impl Amount {
    /// So many for the repair, and none beyond.
    pub fn of(need: u32) -> Self {
        Self { need, ..Self::default() }
    }

    /// Need and spare.
    pub fn total(&self) -> u32 {
        self.need.saturating_add(self.spare)
    }

    /// Packs to take: need and spare added first, then rounded up.
    pub fn packs(&self) -> Option<u32> {
        self.pack.filter(|pack| *pack > 0).map(|pack| self.total().div_ceil(pack))
    }

    /// The most that come when whole packs are taken.
    pub fn most(&self) -> u32 {
        match (self.packs(), self.pack) {
            (Some(packs), Some(pack)) => packs.saturating_mul(pack).max(self.need),
            (None, _) | (_, None) => self.total(),
        }
    }
}

/// The numbers of a line. What came and can be used is counted apart from what came and cannot; no
/// number ever goes below zero, and none is changed but by what happened.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Counts {
    asked: Amount,
    usable: u32,
    unusable: u32,
    fitted: u32,
}

impl Counts {
    /// Nothing came yet of what is asked for.
    pub fn of(asked: Amount) -> Self {
        Self { asked, ..Self::default() }
    }

    /// So many came that can be used.
    pub fn arrive(&mut self, count: u32) {
        self.usable = self.usable.saturating_add(count);
    }

    /// So many came that cannot be used: the wrong part, damaged, a substitute nobody accepted.
    pub fn arrive_unusable(&mut self, count: u32) {
        self.unusable = self.unusable.saturating_add(count);
    }

    /// So many of the need are in the connector, whether they came for this line or lay on the shelf.
    pub fn fit(&mut self, count: u32) {
        self.fitted = self.fitted.saturating_add(count).min(self.asked.need);
    }

    /// What is asked for.
    pub fn asked(&self) -> Amount {
        self.asked
    }

    /// How many came that can be used.
    pub fn arrived(&self) -> u32 {
        self.usable
    }

    /// How many came that cannot be used.
    pub fn unusable(&self) -> u32 {
        self.unusable
    }

    /// How many of the need are in the connector.
    pub fn fitted(&self) -> u32 {
        self.fitted
    }

    /// How many of the need have not come.
    pub fn still_wanted(&self) -> u32 {
        self.asked.need.saturating_sub(self.usable)
    }

    /// Whether the whole need has come.
    pub fn has_come(&self) -> bool {
        self.still_wanted() == 0
    }

    /// Whether so many more are within what was asked for, in whole packs.
    pub fn may_arrive(&self, count: u32) -> bool {
        self.usable.checked_add(count).is_some_and(|came| came <= self.asked.most())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn packs_are_rounded_up_once_for_need_and_spare_together() {
        let plugs = Amount { need: 7, spare: 3, pack: Some(10) };
        assert_eq!((plugs.packs(), plugs.most()), (Some(1), 10));
        let plugs = Amount { need: 8, ..plugs };
        assert_eq!((plugs.packs(), plugs.most()), (Some(2), 20));
        let broken = Amount { pack: Some(0), ..plugs };
        assert_eq!((broken.packs(), broken.most()), (None, 11));
    }

    #[test]
    fn a_wrong_part_is_not_what_was_asked_for() {
        let mut counts = Counts::of(Amount::of(2));
        counts.arrive_unusable(2);
        assert_eq!((counts.arrived(), counts.unusable(), counts.still_wanted()), (0, 2, 2));
        counts.arrive(2);
        assert!(counts.has_come() && !counts.may_arrive(1) && counts.may_arrive(0));
    }

    proptest! {
        #[test]
        fn no_number_goes_below_zero_or_past_what_was_said(
            need in any::<u32>(), spare in any::<u32>(), pack in proptest::option::of(any::<u32>()),
            steps in proptest::collection::vec((0_u8..3, any::<u32>()), 0..12),
        ) {
            let mut counts = Counts::of(Amount { need, spare, pack });
            let mut came = 0_u64;
            for (what, count) in steps {
                let before = counts;
                match what {
                    0 => { counts.arrive(count); came += u64::from(count) }
                    1 => counts.arrive_unusable(count),
                    _ => counts.fit(count),
                }
                prop_assert!(counts.arrived() >= before.arrived());
                prop_assert!(counts.unusable() >= before.unusable() && counts.fitted() >= before.fitted());
            }
            prop_assert_eq!(counts.asked(), Amount { need, spare, pack });
            prop_assert!(counts.fitted() <= need);
            prop_assert_eq!(counts.still_wanted(), need.saturating_sub(u32::try_from(came).unwrap_or(u32::MAX)));
            prop_assert!(counts.asked().most() >= need);
        }
    }
}
