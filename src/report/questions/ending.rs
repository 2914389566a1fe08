//! Locks, looks, counts, re-reads, tests and the signature, in words.

use crate::{
    face::Face,
    job::{MatingVerdict, Seen, pose_in_words},
    procedure::{ClosingQuestion, JobView, REREAD_POSE, TestField, TestQuestion, example},
    quantity::list_of,
    record::{Address, HousingName},
    report::places::place_in_words,
    shop_rules::TestKind,
};

const AT_MACHINE: &str =
    "WAITING for the machine: comparing, mating, position assurance, tests there, signature. At the machine:";
const MATED: &str = "MATE the halves until the latch clicks, tug the halves, look at the wires at the rear.";
const SERIAL_END: &str = "The end of the serial number, two characters or more, read on the machine?";
const RESUME: &str =
    "RESUME: is the power off, is every parked tag read against the list, are open halves capped?";

pub(super) fn closing(view: &JobView<'_>, asked: &ClosingQuestion) -> String {
    match asked {
        ClosingQuestion::AssuranceOff(housing) => {
            format!("PULL the connector position assurance of {housing} first.")
        }
        ClosingQuestion::AssuranceOn(housing) => {
            format!("PUSH IN the connector position assurance of {housing}: it goes in only when latched.")
        }
        ClosingQuestion::Unlock(housing, to) => {
            let lock = view.housing(housing).and_then(|h| h.housing().lock.as_ref());
            let kind = lock.map_or("lock", |lock| lock.kind.as_str());
            format!("RELEASE the secondary lock ({kind}) of {housing}: {}. It moves freely?", to.words())
        }
        ClosingQuestion::PartOff(housing, part) => {
            format!("TAKE OFF the {part} of {housing} and lay it in the tray.")
        }
        ClosingQuestion::PartOn(housing, part) => {
            format!("FIT the {part} on {housing}: clean, not twisted.")
        }
        ClosingQuestion::LookOver(housing, face) => look_over(housing, *face),
        ClosingQuestion::LookFault(housing, face) => {
            format!("NOT SOUND: what is it on the {face} face of {housing}?")
        }
        ClosingQuestion::Cleared(at) => format!(
            "TAKE OUT what stayed in {at}: seal or terminal. Look into the hole: is it clear and sound?"
        ),
        ClosingQuestion::CountRow(housing, row) => {
            let holes = view.state().housings.row_ends(housing, *row);
            format!("COUNT the row {holes} of {housing}: wires, plugs, open holes, as in 6 2 0")
        }
        ClosingQuestion::ReRead(at) => reread(view, at),
        ClosingQuestion::NewLock(housing) => {
            format!("The secondary lock of {housing} is BROKEN. Put a new one in: which part is it?")
        }
        ClosingQuestion::CloseLock(housing) => format!(
            "CLOSE the secondary lock of {housing} to full-set, with a finger. If it does not go: find the terminal."
        ),
        ClosingQuestion::MatingHalf => mating_half(view),
        ClosingQuestion::MatingHalfFault => "What is wrong with the mating half?".to_owned(),
        ClosingQuestion::AtMachine => AT_MACHINE.to_owned(),
        ClosingQuestion::Mated => MATED.to_owned(),
        ClosingQuestion::SignName => "SIGN: your name?".to_owned(),
        ClosingQuestion::SerialEnd => SERIAL_END.to_owned(),
        ClosingQuestion::Resume => RESUME.to_owned(),
    }
}

fn look_over(housing: &HousingName, face: Face) -> String {
    let what = match face {
        Face::Wire => "every seal lip even, wires straight to the face, holes clean?",
        Face::Mating => "every terminal as high as its neighbours, right way up, holes clean?",
    };
    format!("LOOK OVER the {face} face of {housing}: {what}")
}

fn mating_half(view: &JobView<'_>) -> String {
    match &view.state().housings.mating_half {
        Some(MatingVerdict::Damaged(what)) => {
            format!("The mating half is NOT SOUND: {what}. Nothing is mated until it is cleaned or replaced.")
        }
        _ => "LOOK at the mating half: pins, corrosion, seal, plastic.".to_owned(),
    }
}

/// A hole by its place in the pose it is read in; neither colour nor label is said.
fn reread(view: &JobView<'_>, at: &Address) -> String {
    let Some(housing) = view.housing(&at.housing) else { return format!("RE-READ {}", at.housing) };
    let seen = Seen::of(housing.housing(), REREAD_POSE);
    let place = seen.place_of(&at.label).map_or(String::new(), |place| place_in_words(seen.spoken(place)));
    let held = pose_in_words(housing.housing(), REREAD_POSE);
    format!("RE-READ {}, {held}: {place}. Colour in that hole, plug or nothing?", at.housing)
}

pub(super) fn test(view: &JobView<'_>, asked: &TestQuestion) -> String {
    let test = asked.test;
    match asked.field {
        TestField::Value => {
            let which = match test {
                TestKind::Continuity | TestKind::Drop => "the highest value",
                TestKind::Neighbours | TestKind::Insulation => "the lowest value, or open,",
                TestKind::Pair | TestKind::Function => "what",
            };
            format!(
                "TEST, {test}{}. Restraint circuits: no meter. Key {which} the instrument showed",
                mended(view)
            )
        }
        TestField::Limit { is_needed } => {
            let (_, limit) = example(test);
            let or_none = if is_needed { "" } else { "; - for none" };
            format!(
                "Its limit, a comma, and whose? ({limit}, service manual{or_none}){}",
                house_limit(view, test)
            )
        }
        TestField::Passed => format!("{test}: passed?"),
        TestField::NoConnection => format!("{test}: no connection."),
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

/// The house's own limit, where it has one.
fn house_limit(view: &JobView<'_>, test: TestKind) -> String {
    let rules = &view.state().world.rules;
    match test {
        TestKind::Drop => format!(
            " House: {} % of the supply, {} % where it must not fail ({}); the machine's manual goes first.",
            rules.drop_percent.value, rules.drop_critical_percent.value, rules.drop_percent.source
        ),
        TestKind::Continuity
        | TestKind::Neighbours
        | TestKind::Insulation
        | TestKind::Pair
        | TestKind::Function => String::new(),
    }
}
