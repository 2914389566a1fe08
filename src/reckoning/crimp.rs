//! Crimps: the height against the sheet of that terminal and that wire, and what the eye looks for.

use super::statistics::Sample;

/// Heights are compared to a tenth of a micrometre: 1.29 is not outside 1.24 ± 0.05 because of the
/// way a computer writes it.
const SAME_MM: f64 = 1e-4;

/// Readings from which a sample speaks for a position.
pub const FEWEST_SAMPLES: usize = 5;

/// The height a conductor crimp has to have.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Height {
    /// The target.
    pub target_mm: f64,
    /// How far from it is good, either way.
    pub tolerance_mm: f64,
}

impl Height {
    /// Whether a measured height is good.
    pub fn takes(&self, measured_mm: f64) -> bool {
        (measured_mm - self.target_mm).abs() <= self.tolerance_mm + SAME_MM
    }

    /// The lowest and the highest good height.
    pub fn limits_mm(&self) -> (f64, f64) {
        (self.target_mm - self.tolerance_mm, self.target_mm + self.tolerance_mm)
    }
}

impl std::fmt::Display for Height {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:.2} ± {:.2} mm", self.target_mm, self.tolerance_mm)
    }
}

/// What measured heights say.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HeightVerdict {
    /// Every one is good.
    In,
    /// One is not.
    Out,
    /// A capability is asked of fewer than five.
    TooFew,
}

/// Judges heights by the one that is furthest off, never by their mean.
pub fn judge_heights(sheet: Height, sample: &Sample, capability_wanted: bool) -> HeightVerdict {
    if !sheet.takes(sample.lowest) || !sheet.takes(sample.highest) {
        HeightVerdict::Out
    } else if capability_wanted && sample.n < FEWEST_SAMPLES {
        HeightVerdict::TooFew
    } else {
        HeightVerdict::In
    }
}

/// Makes the faults, their spelling and their words from one table.
macro_rules! look_faults {
    ($($name:ident $text:literal,)*) => {
        /// What the eye finds wrong with a crimp.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
        pub enum LookFault { $(#[doc = $text] $name,)* }

        impl LookFault {
            /// Every fault, in the order of the list.
            pub const ALL: &[LookFault] = &[$(LookFault::$name,)*];

            /// What is wrong, in words.
            pub fn words(self) -> &'static str {
                match self { $(LookFault::$name => $text,)* }
            }
        }
    };
}

look_faults! {
    InsulationInCrimp "insulation in the conductor crimp",
    GapTooBig "too much bare wire between insulation and conductor crimp",
    StrandsCut "strands nicked or cut",
    StrandsOut "strands outside the crimp",
    TinnedEnd "the wire end was tinned with solder",
    NoBellmouth "no bellmouth at the wire end",
    NoBrush "no conductor seen in front of the crimp",
    Cracked "the crimp is cracked",
    Bent "the terminal is bent or twisted",
    InsulationLoose "the insulation grip does not hold, or cuts",
    SealLoose "the seal is not in its wings",
    TabTooLong "the cut-off tab is too long",
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_edge_of_the_tolerance_is_good() {
        let sheet = Height { target_mm: 1.24, tolerance_mm: 0.05 };
        for (mm, good) in [(1.23, true), (1.29, true), (1.19, true), (1.30, false), (1.18, false)] {
            assert_eq!(sheet.takes(mm), good, "{mm}");
        }
    }

    #[test]
    fn a_sample_is_judged_by_its_worst_reading() {
        let sheet = Height { target_mm: 1.24, tolerance_mm: 0.05 };
        let judged = |heights: &[f64], wanted| judge_heights(sheet, &Sample::of(heights).unwrap(), wanted);
        assert_eq!(judged(&[1.24, 1.24, 1.31], false), HeightVerdict::Out);
        assert_eq!(judged(&[1.24, 1.25], true), HeightVerdict::TooFew);
        assert_eq!(judged(&[1.24, 1.25, 1.23, 1.24, 1.24], true), HeightVerdict::In);
    }
}
