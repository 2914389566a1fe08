//! Codes of rules and flags. They never change: journals keep them for years.

use std::{fmt, str::FromStr};

/// Makes the enum, its spelling and its severity from one table.
macro_rules! codes {
    ($($severity:literal: $($(#[$doc:meta])* $name:ident $text:literal)*;)*) => {
        /// A rule or flag, with its severity: 4 can hurt someone, 3 machine dead, 2 comes back
        /// later, 1 time and money.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Code { $($($(#[$doc])* $name,)*)* }

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
    4:
        /// A safety question is not answered, says stop, lapsed, or was answered against the record.
        GateOpen "gate-open"
        /// Nobody said how a housing is held: which face is towards the eye and which side is up.
        ViewUnset "view-unset"
        /// The view of a housing is not proved, or what was seen there does not fit the record.
        AnchorFailed "anchor-failed"
        /// A hole of a new housing that has to be read back was not.
        NotReRead "not-re-read"
        /// A row was not counted by eye, or its count does not agree.
        RowCount "row-count"
        /// A lead is put into a new cavity that is not its own, or a re-read saw something else there.
        WrongCavity "wrong-cavity"
        /// A cut or a repair of a wire of a kind that nobody splices.
        SpliceForbidden "splice-forbidden"
        /// Less copper than the old wire or the diagram has, by more than the house rules let pass.
        GaugeReduced "gauge-reduced"
        /// A bridge, diode or clip is gone or in a wrong cavity, or the new housing lacks its clip.
        BridgeMissing "bridge-missing";
    3:
        /// Found and should differ, and nobody decided, or what was decided is not done.
        FoundDiffers "found-differs"
        /// A lead has to go into a new cavity that is moulded shut.
        BlockedUnderWire "blocked-under-wire"
        /// A terminal or seal of another family, size, gender or plating than is needed; or a wrong test pin.
        TerminalMisfit "terminal-misfit"
        /// A wire or its repair lead is of another size, kind or length than is needed.
        WireMisfit "wire-misfit"
        /// Two leads go to one cavity, an old cavity is not mapped, or the map is not confirmed.
        MapClash "map-clash"
        /// The new housing does not agree with the mating half, or was not compared with it.
        PartMisfit "part-misfit"
        /// Something is moved in a housing whose secondary lock is not released.
        LockNotReleased "lock-not-released"
        /// The secondary lock of a new housing is not full-set.
        LockNotSet "lock-not-set"
        /// The secondary lock of a new housing did not go home with a finger.
        LockForced "lock-forced"
        /// A lead or a plug is in the hand.
        InHand "in-hand"
        /// A lead or other part is set aside, or a plug lies in the tray.
        Parked "parked"
        /// A wire is seen by nobody, or is drawn and found nowhere.
        WireMissing "wire-missing"
        /// A wire is not in the terminal it shares with another: it was cut out, or is found nowhere.
        LeadParted "lead-parted"
        /// A lead went into its new cavity without a click.
        NotSeated "not-seated"
        /// A lead clicked and nobody tugged it.
        NotTugged "not-tugged"
        /// The halves are not mated, or a wire was pushed back when they were.
        NotMated "not-mated"
        /// The clip that proves the latch is off, or was pushed in before the halves were mated.
        AssuranceOff "assurance-off"
        /// The work was interrupted, and the check before it goes on is not done.
        ResumeUnchecked "resume-unchecked"
        /// The crimp height is outside what the terminal's sheet lets pass.
        HeightOut "height-out"
        /// The eye found something wrong with a crimp or a splice.
        CrimpLook "crimp-look"
        /// A tang is bent back for the second time.
        ReformedTwice "reformed-twice"
        /// A pair is untwisted over more than the house rule lets pass.
        Untwisted "untwisted"
        /// The insulation ordered is of a lower temperature class than that of the old wire.
        ClassLowered "class-lowered"
        /// The last test of its kind and circuit failed.
        TestFailed "test-failed"
        /// The two wires of a pair would not be neighbours any more.
        PairSplit "pair-split"
        /// A splice is too near to housing, branch, damage or another splice, or has no place at all.
        SpliceTooNear "splice-too-near"
        /// A drain wire has no sleeve.
        DrainBare "drain-bare"
        /// Another part came than was asked for, and no named person accepted it.
        Substitute "substitute";
    2:
        /// The new housing came with a plug where something else goes.
        PrefittedPlug "prefitted-plug"
        /// A plug is lost and its cavity bare, or a cavity is bare that the house rule fills.
        PlugMissing "plug-missing"
        /// A plug is in a new cavity that takes none.
        PlugWrongCavity "plug-wrong-cavity"
        /// A plug is of another size than its cavity.
        PlugSize "plug-size"
        /// A cavity was open at intake, and the one of a sealed housing it is mapped to is not filled yet.
        OpenCavity "open-cavity"
        /// No seal of the family, or no hole of the mat, closes on the insulation's diameter.
        SealRange "seal-range"
        /// A lead has no seal, or a bad one, where it needs one.
        SealMissing "seal-missing"
        /// A cavity of a sealed housing was filled so often that its seal is worn.
        SealWorn "seal-worn"
        /// A spare terminal is gone, not fitted, or in a wrong cavity.
        SpareMissing "spare-missing"
        /// A seal, cover or other small part of a new housing is not on it.
        SmallPart "small-part"
        /// The mating half was not looked at, is not sound, or is not here.
        MatingHalf "mating-half"
        /// A face or a hole was not looked at, is not sound, or still has something left in it.
        NotLookedOver "not-looked-over"
        /// The height of a crimp was not measured, or no sheet says what it has to be.
        HeightNotVerified "height-not-verified"
        /// A crimp is from a tool position that is not qualified for its terminal and wire.
        ToolNotQualified "tool-not-qualified"
        /// A lead counts as good against force, damage or a finding, or without a look since it was out.
        CrimpSuspect "crimp-suspect"
        /// A lead came out with force, and nobody looked at it since.
        ForcedOut "forced-out"
        /// A splice is soldered.
        Soldered "soldered"
        /// A wire has two splices before the next branch.
        SpliceSecond "splice-second"
        /// More wires of a bundle are spliced than the house rule lets pass.
        SpliceTooMany "splice-too-many"
        /// A larger share of a bundle gets repair leads than the house rule lets pass.
        LeadsMany "leads-many"
        /// The lock of a new housing was opened so often that it may not hold.
        LockWorn "lock-worn"
        /// A wire looks like another one here and has no tag.
        LookAlike "look-alike"
        /// There is no photo of the connector as found.
        PhotoMissing "photo-missing"
        /// Nobody said what damaged the connector.
        CauseUnknown "cause-unknown"
        /// A test the house rules ask for was not made, or was made before the last move.
        TestMissing "test-missing"
        /// A flag was accepted until a day; this stands until it is put right, whatever the day.
        TemporaryMeasure "temporary-measure"
        /// Something that has to be known was keyed as "?", or never said.
        UnknownValue "unknown-value"
        /// A wire has another colour than is drawn, and stays.
        ColourDiffers "colour-differs"
        /// Several wires share one sealed hole: water runs in between them.
        TwoInOneHole "two-in-one-hole";
    1:
        /// Ordinary steps are left: one flag for all of them.
        NotFinished "not-finished"
        /// A wire has less slack left than one more terminal takes.
        LastTime "last-time"
        /// Nobody signed.
        Unsigned "unsigned";
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
