//! Codes of rules and flags. They never change: journals keep them for years.

use std::{fmt, str::FromStr};

/// Makes the enum, its spelling and its severity from one table.
macro_rules! codes {
    ($($severity:literal: $($name:ident $text:literal)*;)*) => {
        /// A rule or flag, with its severity: 4 can hurt someone, 3 machine dead, 2 comes back
        /// later, 1 time and money.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[allow(missing_docs)]
        pub enum Code { $($($name,)*)* }

        impl Code {
            /// Every code, the gravest first.
            pub const ALL: &[Code] = &[$($(Code::$name,)*)*];

            /// 4 to 1.
            pub fn severity(self) -> u8 {
                match self { $($(Code::$name => $severity,)*)* }
            }

            /// The spelling in journals and reports.
            pub fn as_str(self) -> &'static str {
                match self { $($(Code::$name => $text,)*)* }
            }
        }
    };
}

codes! {
    4: GateOpen "gate-open" ViewUnset "view-unset" AnchorFailed "anchor-failed" NotReRead "not-re-read"
       RowCount "row-count" WrongCavity "wrong-cavity" SpliceForbidden "splice-forbidden"
       GaugeReduced "gauge-reduced" BridgeMissing "bridge-missing";
    3: FoundDiffers "found-differs" BlockedUnderWire "blocked-under-wire" TerminalMisfit "terminal-misfit"
       WireMisfit "wire-misfit" MapClash "map-clash" PartMisfit "part-misfit"
       LockNotReleased "lock-not-released" LockNotSet "lock-not-set" LockForced "lock-forced"
       InHand "in-hand" Parked "parked" WireMissing "wire-missing" LeadParted "lead-parted"
       NotSeated "not-seated" NotTugged "not-tugged" NotMated "not-mated" AssuranceOff "assurance-off"
       ResumeUnchecked "resume-unchecked" HeightOut "height-out" CrimpLook "crimp-look"
       ReformedTwice "reformed-twice" Untwisted "untwisted" ClassLowered "class-lowered"
       TestFailed "test-failed" PairSplit "pair-split" SpliceTooNear "splice-too-near"
       DrainBare "drain-bare" Substitute "substitute";
    2: PrefittedPlug "prefitted-plug" PlugMissing "plug-missing" PlugWrongCavity "plug-wrong-cavity"
       PlugSize "plug-size" OpenCavity "open-cavity" SealRange "seal-range" SealMissing "seal-missing"
       SealWorn "seal-worn" SpareMissing "spare-missing" SmallPart "small-part" MatingHalf "mating-half"
       NotLookedOver "not-looked-over" HeightNotVerified "height-not-verified"
       ToolNotQualified "tool-not-qualified" CrimpSuspect "crimp-suspect" ForcedOut "forced-out"
       Soldered "soldered" SpliceSecond "splice-second" SpliceTooMany "splice-too-many"
       LeadsMany "leads-many" LockWorn "lock-worn" LookAlike "look-alike" PhotoMissing "photo-missing"
       CauseUnknown "cause-unknown" TestMissing "test-missing" TemporaryMeasure "temporary-measure"
       UnknownValue "unknown-value" ColourDiffers "colour-differs" TwoInOneHole "two-in-one-hole";
    1: NotFinished "not-finished" LastTime "last-time" Unsigned "unsigned";
}

impl fmt::Display for Code {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.as_str())
    }
}

impl FromStr for Code {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        Code::ALL
            .iter()
            .copied()
            .find(|code| code.as_str() == text)
            .ok_or_else(|| format!("\"{text}\" is not a flag: `repin check` prints the flags of a job"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_code_reads_back_as_itself_and_is_sorted_by_severity() {
        let mut last = 4;
        for code in Code::ALL {
            assert_eq!(code.as_str().parse(), Ok(*code));
            assert!(code.severity() <= last);
            last = code.severity();
        }
    }
}
