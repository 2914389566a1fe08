//! What is to be said loudly of an act that was just taken in: that what was read back, counted, looked
//! at, tugged or tested does not agree.

use crate::{
    catalogue::LockState,
    colour::Colour,
    face::{Face, Label, PosePlace},
    record::{Address, HousingName, Seal},
    shop_rules::TestKind,
};

use super::{Act, ArrivedVerdict, MatingVerdict, ReadBack, RowEnds, state::State};

/// Something that is not well.
#[derive(Debug, Clone, PartialEq)]
pub enum Alarm {
    /// A hole shows something else than what is recorded there.
    ReadElse {
        /// The hole.
        at: Address,
        /// What it shows.
        saw: ReadBack,
    },
    /// The count of a row did not agree.
    RowDiffers {
        /// The housing.
        housing: HousingName,
        /// The row, from 1.
        row: usize,
        /// The holes at its ends.
        ends: RowEnds,
    },
    /// A face is not sound.
    FaceNotSound {
        /// The housing.
        housing: HousingName,
        /// The face.
        face: Face,
    },
    /// Cavities that were looked at are not sound.
    CavitiesNotSound {
        /// The housing.
        housing: HousingName,
        /// The cavities.
        cavities: Vec<Label>,
    },
    /// A lead came out, and not well.
    CameOut {
        /// Where it was.
        from: Address,
        /// What went wrong.
        faults: Vec<OutFault>,
    },
    /// A lock is broken.
    LockBroken(HousingName),
    /// A lock was pressed home with force.
    LockForced(HousingName),
    /// A test failed.
    TestFailed(TestKind),
    /// An anchor does not agree with the record or the definition.
    AnchorFailed {
        /// The housing.
        housing: HousingName,
        /// Where.
        place: PosePlace,
        /// The colour that was seen.
        colour: Option<Colour>,
        /// The mark that was read.
        mark: String,
    },
    /// A lead came out at the tug.
    DidNotHold(Address),
    /// A lead did not click.
    NoClick(Address),
    /// At mating a wire was pushed back.
    WirePushedBack,
    /// The mating half is damaged: what was said of it.
    MatingHalfDamaged(String),
    /// What came for a line cannot be used.
    OfNoUse(u32),
    /// What came for a line waits until a named person accepts it.
    Substitute(u32),
}

/// What can go wrong when a lead comes out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OutFault {
    /// It took force.
    WithForce,
    /// Its seal is missing.
    SealMissing,
}

impl State {
    /// What is to be said loudly of an act that was just taken in; none where all is well.
    pub fn alarm(&self, act: &Act) -> Option<Alarm> {
        match act {
            Act::ReRead { at, .. } => self.reread_alarm(at),
            Act::RowCounted { housing, row, .. } => self.count_alarm(housing, *row),
            Act::LookedOver { housing, face, cavities, sound, .. } => {
                look_alarm(housing, *face, cavities, *sound)
            }
            Act::Anchor { housing, .. } => self.anchor_alarm(housing),
            Act::Measure { test, passed, .. } => (!passed).then_some(Alarm::TestFailed(*test)),
            Act::Extract { from, freely, seal, .. } => out_alarm(from, *freely, *seal),
            Act::Lock { housing, to, finger, .. } => lock_alarm(housing, *to, *finger),
            Act::Tug { at, held } => (!held).then(|| Alarm::DidNotHold(at.clone())),
            Act::Insert { into, click, .. } => (!click).then(|| Alarm::NoClick(into.clone())),
            Act::Mate { level, .. } => (!level).then_some(Alarm::WirePushedBack),
            Act::MatingHalf { verdict } => half_alarm(verdict),
            Act::Arrived { line, verdict, .. } => arrival_alarm(*line, *verdict),
            // All is well, or there is nothing to agree with.
            Act::Ticket { .. }
            | Act::Housed { .. }
            | Act::Rules { .. }
            | Act::Recorded { .. }
            | Act::RecordFinished { .. }
            | Act::RecordCorrected { .. }
            | Act::RecordFlipped { .. }
            | Act::Decided { .. }
            | Act::Compared { .. }
            | Act::Mapped { .. }
            | Act::MapConfirmed { .. }
            | Act::Cause { .. }
            | Act::Photo { .. }
            | Act::Gate { .. }
            | Act::View { .. }
            | Act::Assurance { .. }
            | Act::SmallPart { .. }
            | Act::Tagged { .. }
            | Act::CutFree { .. }
            | Act::Loose { .. }
            | Act::Inspect { .. }
            | Act::PutBack
            | Act::Park { .. }
            | Act::TakeUp { .. }
            | Act::TakePlug { .. }
            | Act::FitPlug { .. }
            | Act::LosePlug
            | Act::ScrapPlug { .. }
            | Act::ReturnPlug
            | Act::LeftInOld { .. }
            | Act::MoveOther { .. }
            | Act::Behind { .. }
            | Act::Planned { .. }
            | Act::Repair { .. }
            | Act::Removed { .. }
            | Act::Seen { .. }
            | Act::WrongKey
            | Act::Requested { .. }
            | Act::Accept { .. }
            | Act::Note { .. }
            | Act::HandOver { .. }
            | Act::Resume { .. }
            | Act::Sign { .. }
            | Act::Stop { .. } => None,
        }
    }

    fn reread_alarm(&self, at: &Address) -> Option<Alarm> {
        let read = self.readings.rereads.get(at).filter(|read| !read.agrees)?;
        Some(Alarm::ReadElse { at: at.clone(), saw: read.saw.clone() })
    }

    fn count_alarm(&self, housing: &HousingName, row: usize) -> Option<Alarm> {
        let agrees = *self.readings.row_counts.get(&(housing.clone(), row))?;
        let ends = || self.housings.row_ends(housing, row);
        (!agrees).then(|| Alarm::RowDiffers { housing: housing.clone(), row, ends: ends() })
    }

    fn anchor_alarm(&self, name: &HousingName) -> Option<Alarm> {
        let failed = self.housings.housing(name).and_then(|housing| self.failed_anchor(housing))?;
        Some(Alarm::AnchorFailed {
            housing: name.clone(),
            place: failed.place,
            colour: failed.colour.clone(),
            mark: failed.mark.clone(),
        })
    }
}

fn look_alarm(name: &HousingName, face: Face, cavities: &[Label], sound: bool) -> Option<Alarm> {
    let housing = name.clone();
    match (sound, cavities) {
        (true, _) => None,
        (false, []) => Some(Alarm::FaceNotSound { housing, face }),
        (false, cavities) => Some(Alarm::CavitiesNotSound { housing, cavities: cavities.to_vec() }),
    }
}

fn out_alarm(from: &Address, freely: bool, seal: Seal) -> Option<Alarm> {
    let force = (!freely).then_some(OutFault::WithForce);
    let seal = (seal == Seal::Missing).then_some(OutFault::SealMissing);
    let faults: Vec<OutFault> = force.into_iter().chain(seal).collect();
    (!faults.is_empty()).then(|| Alarm::CameOut { from: from.clone(), faults })
}

fn lock_alarm(housing: &HousingName, to: LockState, finger: bool) -> Option<Alarm> {
    match to {
        LockState::Broken => Some(Alarm::LockBroken(housing.clone())),
        LockState::FullSet if !finger => Some(Alarm::LockForced(housing.clone())),
        LockState::FullSet | LockState::PreSet | LockState::Out => None,
    }
}

fn half_alarm(verdict: &MatingVerdict) -> Option<Alarm> {
    match verdict {
        MatingVerdict::Damaged(what) => Some(Alarm::MatingHalfDamaged(what.clone())),
        MatingVerdict::Good | MatingVerdict::Cleaned | MatingVerdict::Replaced | MatingVerdict::NotHere => {
            None
        }
    }
}

fn arrival_alarm(line: u32, verdict: ArrivedVerdict) -> Option<Alarm> {
    match verdict {
        ArrivedVerdict::WrongPart | ArrivedVerdict::Damaged => Some(Alarm::OfNoUse(line)),
        ArrivedVerdict::Substitute => Some(Alarm::Substitute(line)),
        ArrivedVerdict::AsAsked => None,
    }
}
