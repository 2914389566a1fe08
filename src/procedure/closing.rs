//! Locks, small parts, looks, counts, re-reads, and the halves put together.

use crate::{
    catalogue::LockState,
    face::{Face, Pose, Side},
    job::{Act, FaceFault, MatingVerdict},
    record::{Address, HousingName},
};

use super::{
    Acts, Choice, ClosingQuestion, JobView, Kind, Replies, Stop, Typed, Warning, replies::not_offered, warned,
};

/// How a housing is held to be re-read: what was put in from behind is read from the front.
pub const REREAD_POSE: Pose = Pose { face: Face::Mating, up: Side::Top };

/// The position assurance, off first or on last.
pub(super) fn assurance(housing: &HousingName, on: bool, replies: &mut Replies<'_>) -> Acts {
    match on {
        false => replies.choice(ClosingQuestion::AssuranceOff(housing.clone()), &[Choice::AssuranceOff])?,
        true => replies.choice(ClosingQuestion::AssuranceOn(housing.clone()), &[Choice::AssuranceIn])?,
    };
    Ok(vec![Act::Assurance { housing: housing.clone(), on, anyway: None }])
}

/// The secondary lock, before anything moves.
pub(super) fn unlock(housing: &HousingName, to: LockState, replies: &mut Replies<'_>) -> Acts {
    let question = ClosingQuestion::Unlock(housing.clone(), to);
    let to = replies.one_of(question, &[(Choice::Unlocked, to), (Choice::Broken, LockState::Broken)])?;
    Ok(vec![Act::Lock { housing: housing.clone(), to, finger: true, why: None, anyway: None }])
}

/// A small part, off or on.
pub(super) fn small_part(housing: &HousingName, part: &str, on: bool, replies: &mut Replies<'_>) -> Acts {
    let part = part.to_owned();
    match on {
        false => {
            replies.choice(ClosingQuestion::PartOff(housing.clone(), part.clone()), &[Choice::PartOff])?
        }
        true => replies.choice(ClosingQuestion::PartOn(housing.clone(), part.clone()), &[Choice::PartOn])?,
    };
    Ok(vec![Act::SmallPart { housing: housing.clone(), part, on }])
}

const FACE_FAULTS: [(Choice, FaceFault); 5] = [
    (Choice::LipUneven, FaceFault::LipUneven),
    (Choice::WireSlanted, FaceFault::WireSlanted),
    (Choice::HoleDirty, FaceFault::HoleDirty),
    (Choice::TerminalLow, FaceFault::TerminalLow),
    (Choice::TerminalTurned, FaceFault::TerminalTurned),
];

/// A face looked over: sound, or what is not.
pub(super) fn look(view: &JobView<'_>, housing: &HousingName, face: Face, replies: &mut Replies<'_>) -> Acts {
    let last = view.state().readings.looked_over.get(&(housing.clone(), face)).filter(|look| !look.sound);
    let again = last.map(|look| Warning::WasNotSound(look.found.clone()));
    // The two looks follow each other: each has a key of its own.
    let is_sound = match face {
        Face::Wire => Choice::LooksEven,
        Face::Mating => Choice::LooksHigh,
    };
    let question = warned(ClosingQuestion::LookOver(housing.clone(), face), again);
    let sound = replies.one_of(question, &[(is_sound, true), (Choice::NotSound, false)])?;
    let found = match sound {
        true => Vec::new(),
        false => look_fault(housing, face, replies)?.into_iter().collect(),
    };
    Ok(vec![Act::LookedOver { housing: housing.clone(), face, cavities: Vec::new(), sound, found }])
}

/// What is not sound on a face; nothing where it is none of what has a name.
fn look_fault(
    housing: &HousingName,
    face: Face,
    replies: &mut Replies<'_>,
) -> Result<Option<FaceFault>, Stop> {
    let shown = FACE_FAULTS.into_iter().filter(|(_, fault)| fault.shows_on(face));
    let shown = shown.map(|(choice, fault)| (choice, Some(fault)));
    let offered: Vec<(Choice, Option<FaceFault>)> = shown.chain([(Choice::Other, None)]).collect();
    replies.one_of(ClosingQuestion::LookFault(housing.clone(), face), &offered)
}

/// A new hole in which something stayed.
pub(super) fn clear(cavities: &[Address], replies: &mut Replies<'_>) -> Acts {
    let at = cavities.first().ok_or_else(|| Stop::wrong("Nothing to look into."))?;
    replies.choice(ClosingQuestion::Cleared(at.clone()), &[Choice::Yes])?;
    Ok(vec![Act::LookedOver {
        housing: at.housing.clone(),
        face: Face::Wire,
        cavities: vec![at.label.clone()],
        sound: true,
        found: Vec::new(),
    }])
}

/// The mating half: looked at, put right where it was damaged, or not at this bench.
pub(super) fn mating_half(view: &JobView<'_>, replies: &mut Replies<'_>) -> Acts {
    let mut offered = vec![Choice::Cleaned, Choice::Replaced, Choice::NotHere];
    if !matches!(view.state().housings.mating_half, Some(MatingVerdict::Damaged(_))) {
        offered.splice(0..0, [Choice::Sound, Choice::NotSound]);
    }
    let verdict = match replies.choice(ClosingQuestion::MatingHalf, &offered)? {
        Choice::Sound => MatingVerdict::Good,
        Choice::Cleaned => MatingVerdict::Cleaned,
        Choice::Replaced => MatingVerdict::Replaced,
        Choice::NotHere => MatingVerdict::NotHere,
        Choice::NotSound => {
            MatingVerdict::Damaged(replies.text(ClosingQuestion::MatingHalfFault, Kind::Words)?.words())
        }
        _ => return Err(not_offered()),
    };
    Ok(vec![Act::MatingHalf { verdict }])
}

/// What is left needs the machine: the mating half is looked at when it is there.
pub(super) fn at_the_machine(view: &JobView<'_>, replies: &mut Replies<'_>) -> Acts {
    replies.choice(ClosingQuestion::AtMachine, &[Choice::AtMachine])?;
    mating_half(view, replies)
}

/// A row counted.
pub(super) fn count_row(
    view: &JobView<'_>,
    housing: &HousingName,
    row: usize,
    replies: &mut Replies<'_>,
) -> Acts {
    let failed = view.state().readings.row_counts.get(&(housing.clone(), row)) == Some(&false);
    let again = failed.then_some(Warning::CountAgain);
    let typed =
        replies.text(warned(ClosingQuestion::CountRow(housing.clone(), row), again), Kind::Values)?.as_str();
    let words = typed.split([' ', ',', '/']).filter(|word| !word.is_empty());
    let counts: Option<Vec<usize>> = words.map(|word| word.parse().ok()).collect();
    match counts.as_deref() {
        Some([wires, plugs, open]) => Ok(vec![Act::RowCounted {
            housing: housing.clone(),
            row,
            wires: *wires,
            plugs: *plugs,
            open: *open,
        }]),
        _ => Err(Stop::wrong("Key three numbers: wires, plugs, open holes.")),
    }
}

/// A hole of the new housing read back from the mating face; neither colour nor label is shown.
pub(super) fn reread(view: &JobView<'_>, at: &Address, replies: &mut Replies<'_>) -> Acts {
    if view.housing(&at.housing).is_none() {
        return Err(Stop::wrong("Look again."));
    }
    let failed = view.state().readings.rereads.get(at).is_some_and(|last| !last.agrees);
    let again = failed.then_some(Warning::ReadAgain);
    let typed = replies.text(warned(ClosingQuestion::ReRead(at.clone()), again), Kind::Content)?;
    // One letter is enough for what is no wire.
    let seen = match typed.as_str().to_ascii_lowercase().as_str() {
        "p" => Typed("plug"),
        "n" => Typed("nothing"),
        _ => typed,
    };
    Ok(vec![Act::ReRead { at: at.clone(), colour: seen.parse_or_wrong()? }])
}

/// The new lock, last and without force.
pub(super) fn lock(view: &JobView<'_>, housing: &HousingName, replies: &mut Replies<'_>) -> Acts {
    let is_broken = view.housing(housing).is_some_and(|h| h.lock == Some(LockState::Broken));
    let new_one = match is_broken {
        true => Some(replies.text(ClosingQuestion::NewLock(housing.clone()), Kind::Part)?),
        false => None,
    };
    let ways = [(Choice::Finger, true), (Choice::Pressed, false)];
    let finger = replies.one_of(ClosingQuestion::CloseLock(housing.clone()), &ways)?;
    Ok(vec![Act::Lock {
        housing: housing.clone(),
        to: LockState::FullSet,
        finger,
        why: new_one.map(|part| format!("new lock fitted: {}", part.as_str())),
        anyway: None,
    }])
}

/// The halves mated.
pub(super) fn mate(replies: &mut Replies<'_>) -> Acts {
    let level =
        replies.one_of(ClosingQuestion::Mated, &[(Choice::Level, true), (Choice::NotLevel, false)])?;
    Ok(vec![Act::Mate { level, anyway: None }])
}

/// The signature, with the end of the serial number so that no other job is signed.
pub(super) fn sign(view: &JobView<'_>, replies: &mut Replies<'_>) -> Acts {
    let name = replies.text(ClosingQuestion::SignName, Kind::Name)?.name()?;
    // A ticket without a serial number has no end to read.
    let serial_end = match view.state().world.ticket.serial.trim().is_empty() {
        true => String::new(),
        false => replies.text(ClosingQuestion::SerialEnd, Kind::Words)?.words(),
    };
    Ok(vec![Act::Sign { name, serial_end }])
}

/// The last question of the resume check.
pub(super) fn resume(replies: &mut Replies<'_>) -> Acts {
    replies.choice(ClosingQuestion::Resume, &[Choice::Yes])?;
    Ok(vec![Act::Resume { power_off: true, tags_read: true }])
}
