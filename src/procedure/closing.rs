//! Questions about locks, small parts, looks, counts, re-reads, tests and the signature.

use crate::{
    catalogue::LockState,
    face::{Face, Pose, Side},
    job::{Act, FaceFault, JobSide, MatingVerdict, Seen, place_in_words, pose_in_words},
    quantity::{Instrument, list_of, says_something},
    record::{Address, HousingName},
    shop_rules::TestKind,
};

use super::{Asked, Choice, JobView, Reply, field, offer, picks, texts};

/// How a housing is held to be re-read: what was put in from behind is read from the front.
pub const REREAD_POSE: Pose = Pose { face: Face::Mating, up: Side::Top };

/// The position assurance, off first or on last.
pub(super) fn assurance(housing: &HousingName, on: bool, answers: &[Reply]) -> Asked {
    match (answers.first(), on) {
        (None, false) => picks(
            format!("PULL the connector position assurance of {housing} first."),
            &[Choice::AssuranceOff],
        ),
        (None, true) => picks(
            format!("PUSH IN the connector position assurance of {housing}: it goes in only when latched."),
            &[Choice::AssuranceIn],
        ),
        (Some(_), _) => Asked::Ready(vec![Act::Assurance { housing: housing.clone(), on, anyway: None }]),
    }
}

/// The secondary lock, before anything moves.
pub(super) fn unlock(view: &JobView<'_>, name: &HousingName, to: LockState, answers: &[Reply]) -> Asked {
    let kind = view.housing(name).and_then(|h| h.housing().lock.as_ref()).map_or("lock", |l| l.kind.as_str());
    let lock = |to| {
        Asked::Ready(vec![Act::Lock { housing: name.clone(), to, finger: true, why: None, anyway: None }])
    };
    match answers.first() {
        None => offer(
            format!("RELEASE the secondary lock ({kind}) of {name}: {}. It moves freely?", to.words()),
            vec![(Choice::Unlocked, Some(format!("{}, moved freely", to.words()))), (Choice::Broken, None)],
        ),
        Some(Reply::Choice(Choice::Broken)) => lock(LockState::Broken),
        Some(_) => lock(to),
    }
}

/// A small part, off or on.
pub(super) fn small_part(housing: &HousingName, part: &str, on: bool, answers: &[Reply]) -> Asked {
    match (answers.first(), on) {
        (None, false) => {
            picks(format!("TAKE OFF the {part} of {housing} and lay it in the tray."), &[Choice::PartOff])
        }
        (None, true) => picks(format!("FIT the {part} on {housing}: clean, not twisted."), &[Choice::PartOn]),
        (Some(_), _) => {
            Asked::Ready(vec![Act::SmallPart { housing: housing.clone(), part: part.to_owned(), on }])
        }
    }
}

const FACE_FAULTS: [(Choice, FaceFault); 5] = [
    (Choice::LipUneven, FaceFault::LipUneven),
    (Choice::WireSlanted, FaceFault::WireSlanted),
    (Choice::HoleDirty, FaceFault::HoleDirty),
    (Choice::TerminalLow, FaceFault::TerminalLow),
    (Choice::TerminalTurned, FaceFault::TerminalTurned),
];

/// A face looked over: sound, or what is not.
pub(super) fn look(view: &JobView<'_>, housing: &HousingName, face: Face, answers: &[Reply]) -> Asked {
    let what = match face {
        Face::Wire => "every seal lip even, wires straight to the face, holes clean?",
        Face::Mating => "every terminal as high as its neighbours, right way up, holes clean?",
    };
    let looked = |sound, found| {
        let (housing, cavities) = (housing.clone(), Vec::new());
        Asked::Ready(vec![Act::LookedOver { housing, face, cavities, sound, found }])
    };
    let last = view.state().readings.looked_over.get(&(housing.clone(), face)).filter(|look| !look.sound);
    let again = last.map_or(String::new(), |look| {
        let remedies: Vec<&str> = look.found.iter().map(|fault| fault.remedy()).collect();
        format!("IT WAS NOT SOUND. {}", remedies.join(" "))
    });
    // The two looks follow each other: each has a key of its own.
    let sound = match face {
        Face::Wire => Choice::LooksEven,
        Face::Mating => Choice::LooksHigh,
    };
    match answers {
        [] => picks(format!("LOOK OVER the {face} face of {housing}: {what}"), &[sound, Choice::NotSound])
            .loudly(again),
        [Reply::Choice(pick), ..] if *pick == sound => looked(true, Vec::new()),
        [_] => {
            let shown = FACE_FAULTS.iter().filter(|(_, fault)| fault.shows_on(face));
            let mut offered: Vec<Choice> = shown.map(|(pick, _)| *pick).collect();
            offered.push(Choice::Other);
            picks(format!("NOT SOUND: what is it on the {face} face of {housing}?"), &offered)
        }
        [_, which, ..] => {
            let fault = FACE_FAULTS.iter().find(|(pick, _)| *which == Reply::Choice(*pick));
            looked(false, fault.map(|(_, fault)| *fault).into_iter().collect())
        }
    }
}

/// A new hole in which something stayed.
pub(super) fn clear(cavities: &[Address], answers: &[Reply]) -> Asked {
    let Some(at) = cavities.first() else { return Asked::Wrong("Nothing to look into.".to_owned()) };
    match answers.first() {
        None => picks(
            format!(
                "TAKE OUT what stayed in {at}: seal or terminal. Look into the hole: is it clear and sound?"
            ),
            &[Choice::Yes],
        ),
        Some(_) => Asked::Ready(vec![Act::LookedOver {
            housing: at.housing.clone(),
            face: Face::Wire,
            cavities: vec![at.label.clone()],
            sound: true,
            found: Vec::new(),
        }]),
    }
}

/// The mating half: looked at, put right where it was damaged, or not at this bench.
pub(super) fn mating_half(view: &JobView<'_>, answers: &[Reply]) -> Asked {
    let prompt = match &view.state().housings.mating_half {
        Some(MatingVerdict::Damaged(what)) => {
            format!("The mating half is NOT SOUND: {what}. Nothing is mated until it is cleaned or replaced.")
        }
        _ => "LOOK at the mating half: pins, corrosion, seal, plastic.".to_owned(),
    };
    let offered = match view.state().housings.mating_half {
        Some(MatingVerdict::Damaged(_)) => vec![Choice::Cleaned, Choice::Replaced, Choice::NotHere],
        _ => vec![Choice::Sound, Choice::NotSound, Choice::Cleaned, Choice::Replaced, Choice::NotHere],
    };
    let verdict = match (answers.first(), texts(answers).first()) {
        (None, _) => return picks(prompt, &offered),
        (Some(Reply::Choice(Choice::Sound)), _) => MatingVerdict::Good,
        (Some(Reply::Choice(Choice::Cleaned)), _) => MatingVerdict::Cleaned,
        (Some(Reply::Choice(Choice::Replaced)), _) => MatingVerdict::Replaced,
        (Some(Reply::Choice(Choice::NotHere)), _) => MatingVerdict::NotHere,
        (Some(_), None) => return field("What is wrong with the mating half?"),
        (Some(_), Some(what)) => MatingVerdict::Damaged((*what).to_owned()),
    };
    Asked::Ready(vec![Act::MatingHalf { verdict }])
}

/// What is left needs the machine: the mating half is looked at when it is there.
pub(super) fn at_the_machine(view: &JobView<'_>, answers: &[Reply]) -> Asked {
    match answers {
        [] => picks(
            "WAITING for the machine: comparing, mating, position assurance, tests there, signature. At the machine:",
            &[Choice::AtMachine],
        ),
        [_, rest @ ..] => mating_half(view, rest),
    }
}

/// A row counted.
pub(super) fn count_row(view: &JobView<'_>, name: &HousingName, row: usize, answers: &[Reply]) -> Asked {
    let holes = view.state().housings.row_in_words(name, row);
    match texts(answers).first() {
        None => {
            let failed = view.state().readings.row_counts.get(&(name.clone(), row)) == Some(&false);
            let again = if failed { "NO MATCH. Find the hole that differs, count again." } else { "" };
            field(format!("COUNT the row {holes} of {name}: wires, plugs, open holes, as in 6 2 0"))
                .loudly(again)
        }
        Some(typed) => {
            let words = typed.split([' ', ',', '/']).filter(|word| !word.is_empty());
            let counts: Option<Vec<usize>> = words.map(|word| word.parse().ok()).collect();
            match counts.as_deref() {
                Some([wires, plugs, open]) => Asked::Ready(vec![Act::RowCounted {
                    housing: name.clone(),
                    row,
                    wires: *wires,
                    plugs: *plugs,
                    open: *open,
                }]),
                _ => Asked::Wrong("Key three numbers: wires, plugs, open holes.".to_owned()),
            }
        }
    }
}

/// A hole of the new housing read back from the mating face; neither colour nor label is shown.
pub(super) fn reread(view: &JobView<'_>, at: &Address, answers: &[Reply]) -> Asked {
    let Some(housing) = view.housing(&at.housing) else { return Asked::Wrong("Look again.".to_owned()) };
    match texts(answers).first() {
        None => {
            let pose = REREAD_POSE;
            let seen = Seen::of(housing.housing(), pose);
            let place = seen.place_of(&at.label).map_or(String::new(), |place| place_in_words(&seen, place));
            let held = pose_in_words(housing.housing(), pose);
            let ask =
                format!("RE-READ {}, {held}: {place}. Colour in that hole, plug or nothing?", at.housing);
            let failed = view.state().readings.rereads.get(at).is_some_and(|last| !last.agrees);
            let again =
                if failed { "NO MATCH. Look at both faces, put it right (!), read again." } else { "" };
            field(ask).loudly(again)
        }
        Some(typed) => {
            // One letter is enough for what is no wire.
            let typed = match typed.to_ascii_lowercase().as_str() {
                "p" => "plug",
                "n" => "nothing",
                _ => typed,
            };
            match typed.parse() {
                Ok(colour) => Asked::Ready(vec![Act::ReRead { at: at.clone(), colour }]),
                Err(why) => Asked::Wrong(why),
            }
        }
    }
}

/// The new lock, last and without force.
pub(super) fn lock(view: &JobView<'_>, housing: &HousingName, answers: &[Reply]) -> Asked {
    let is_broken = view.housing(housing).is_some_and(|h| h.lock == Some(LockState::Broken));
    let new_one = texts(answers).first().map(|text| (*text).to_owned());
    if is_broken && new_one.is_none() {
        return field(format!(
            "The secondary lock of {housing} is BROKEN. Put a new one in: which part is it?"
        ));
    }
    let answer = answers.iter().find(|answer| matches!(answer, Reply::Choice(_)));
    match answer {
        None => picks(
            format!(
                "CLOSE the secondary lock of {housing} to full-set, with a finger. If it does not go: find the terminal."
            ),
            &[Choice::Finger, Choice::Pressed],
        ),
        Some(answer) => Asked::Ready(vec![Act::Lock {
            housing: housing.clone(),
            to: LockState::FullSet,
            finger: *answer == Reply::Choice(Choice::Finger),
            why: new_one.map(|part| format!("new lock fitted: {part}")),
            anyway: None,
        }]),
    }
}

/// The halves mated.
pub(super) fn mate(answers: &[Reply]) -> Asked {
    match answers.first() {
        None => picks(
            "MATE the halves until the latch clicks, tug the halves, look at the wires at the rear.",
            &[Choice::Level, Choice::NotLevel],
        ),
        Some(answer) => {
            Asked::Ready(vec![Act::Mate { level: *answer == Reply::Choice(Choice::Level), anyway: None }])
        }
    }
}

/// A test with its value, the limit it is held against and whose that is.
pub(super) fn test(view: &JobView<'_>, kind: TestKind, answers: &[Reply]) -> Asked {
    let typed = texts(answers);
    let Some(value) = typed.first() else {
        let which = match kind {
            TestKind::Continuity | TestKind::Drop => "the highest value",
            TestKind::Neighbours | TestKind::Insulation => "the lowest value, or open,",
            TestKind::Pair | TestKind::Function => "what",
        };
        return field(format!(
            "TEST, {kind}{}. Restraint circuits: no meter. Key {which} the instrument showed",
            mended(view)
        ));
    };
    // The function of the machine, and what a pair shows, are told in words.
    let is_in_words = matches!(kind, TestKind::Function | TestKind::Pair);
    if !is_in_words && !is_reading(value) {
        return Asked::Wrong(format!("\"{value}\" is no reading: key it as {}, or open.", example(kind).0));
    }
    // A number proves nothing without its limit.
    let is_number = !is_in_words && value.parse::<Instrument>().is_ok();
    let Some(limit) = typed.get(1) else {
        let (_, limit) = example(kind);
        return field(format!(
            "Its limit, a comma, and whose? ({limit}, service manual{}){}",
            if is_number { "" } else { "; - for none" },
            house_limit(view, kind)
        ));
    };
    let (limit, source) = match (*limit, limit.rsplit_once(", ")) {
        ("-", _) if is_number => {
            return Asked::Wrong(
                "A reading proves nothing without its limit: key it, a comma, and whose it is.".to_owned(),
            );
        }
        ("-", _) => (None, None),
        (_, Some((limit, source))) if is_reading(limit) => (Some(limit.to_owned()), Some(source.to_owned())),
        (_, Some((limit, _))) => {
            return Asked::Wrong(format!("\"{limit}\" is no limit: 0.5 ohm, service manual."));
        }
        (_, None) => {
            return Asked::Wrong("Whose limit is it? Key a comma and its source behind it.".to_owned());
        }
    };
    match answers.last() {
        Some(Reply::Choice(verdict)) => Asked::Ready(vec![Act::Measure {
            circuit: None,
            test: kind,
            value: (*value).to_owned(),
            limit,
            source,
            passed: *verdict == Choice::Passed,
        }]),
        // No connection is a failure where one is asked for.
        _ if matches!(kind, TestKind::Continuity | TestKind::Drop)
            && value.parse::<Instrument>().is_err() =>
        {
            picks(format!("{kind}: no connection."), &[Choice::Failed])
        }
        _ => picks(format!("{kind}: passed?"), &[Choice::Passed, Choice::Failed]),
    }
}

/// The wires that were mended: they are tested first, each.
fn mended(view: &JobView<'_>) -> String {
    let state = view.state();
    let mended = state.items.leads.iter().filter(|lead| lead.repairs.iter().any(|done| done.stands()));
    let calls: Vec<String> = mended.map(|lead| lead.call()).collect();
    match calls.as_slice() {
        [] => String::new(),
        calls => format!(", the mended wires first, each: {}", list_of(calls)),
    }
}

/// What an instrument shows: a value, or that there is no connection.
fn is_reading(text: &str) -> bool {
    let text = text.trim();
    let first = text.split([' ', ',']).next().unwrap_or_default();
    ["open", "ol", "none"].iter().any(|word| first.eq_ignore_ascii_case(word))
        || text.trim_start_matches(['<', '>', ' ']).parse::<Instrument>().is_ok()
}

/// A reading and a limit as they are keyed.
fn example(kind: TestKind) -> (&'static str, &'static str) {
    match kind {
        TestKind::Drop => ("0.2 V", "0.5 V"),
        TestKind::Neighbours | TestKind::Insulation => ("20 Mohm", "1 Mohm"),
        TestKind::Continuity | TestKind::Pair | TestKind::Function => ("0.2 ohm", "0.5 ohm"),
    }
}

/// The house's own limit, where it has one.
fn house_limit(view: &JobView<'_>, kind: TestKind) -> String {
    let rules = &view.state().world.rules;
    match kind {
        TestKind::Drop => format!(
            " House: {} % of the supply, {} % where it must not fail ({}); the machine's manual goes first.",
            rules.drop_percent.value, rules.drop_critical_percent.value, rules.drop_percent.source
        ),
        _ => String::new(),
    }
}

/// The signature, with the end of the serial number so that no other job is signed.
pub(super) fn sign(view: &JobView<'_>, answers: &[Reply]) -> Asked {
    match texts(answers).as_slice() {
        [] => field("SIGN: your name?"),
        [name, ..] if !says_something(name) => Asked::Wrong(format!("\"{name}\" is no name: key it.")),
        // A ticket without a serial number has no end to read.
        [name] if view.state().world.ticket.serial.trim().is_empty() => {
            Asked::Ready(vec![Act::Sign { name: (*name).to_owned(), serial_end: String::new() }])
        }
        [_] => field("The end of the serial number, two characters or more, read on the machine?"),
        [name, end, ..] => {
            Asked::Ready(vec![Act::Sign { name: (*name).to_owned(), serial_end: (*end).to_owned() }])
        }
    }
}

/// The last question of the resume check.
pub(super) fn resume(answers: &[Reply]) -> Asked {
    match answers.first() {
        None => picks(
            "RESUME: is the power off, is every parked tag read against the list, are open halves capped?",
            &[Choice::Yes],
        ),
        Some(_) => Asked::Ready(vec![Act::Resume { power_off: true, tags_read: true }]),
    }
}

/// The side a housing is on, for prompts.
pub(super) fn side_words(side: JobSide) -> &'static str {
    match side {
        JobSide::Old => "old",
        JobSide::New => "new",
    }
}
