//! Going to a place: by its label, by what its wire is called or looks like, or to the next one
//! that is not done or open. The step that was next stays next; nothing is lost by looking.

use crate::{
    job::{ItemId, JobSide, Status, Task},
    quantity::list_of,
    record::{Address, CavityContent, DifferenceKind, Wire},
};

use super::{Asked, Covered, JobView, Reply, Wanted, field, texts};

/// How many places are named when a word fits several.
const NAMED: usize = 12;

/// Going to a cavity of the old side (or of the new one by its full address).
pub(super) fn jump(view: &JobView<'_>, answers: &[Reply]) -> Asked {
    let Some(typed) = texts(answers).first().copied() else {
        return field("JUMP to which cavity? Key its label, or a wire, circuit or colour.");
    };
    match find(view, typed) {
        Ok(at) => go_to(view, at),
        Err(why) => Asked::Wrong(why),
    }
}

/// A label first; then a wire number, a circuit, a part of one, a colour.
pub(super) fn find(view: &JobView<'_>, typed: &str) -> Result<Address, String> {
    let no_label = match view.resolve(JobSide::Old, typed) {
        Ok(at) => return Ok(at),
        Err(why) => why,
    };
    let word = typed.trim().to_lowercase();
    // Where a hole or a row is asked, going by what is in it would tell it.
    if let Some(covered) = covered_now(view) {
        return Err(format!("{covered} is asked now: go by a label, or answer first."));
    }
    let colour = typed.parse().ok();
    let is = |name: &Option<String>| name.as_ref().is_some_and(|n| n.to_lowercase() == word);
    let has = |name: &Option<String>| name.as_ref().is_some_and(|n| n.to_lowercase().contains(&word));
    let marks: [&dyn Fn(&Wire) -> bool; 3] = [
        &|wire| is(&wire.number) || is(&wire.circuit),
        &|wire| colour.is_some() && wire.colour.known() == colour.as_ref(),
        &|wire| has(&wire.number) || has(&wire.circuit),
    ];
    for mark in marks {
        let found = &view.state().records.found;
        // A colour that will be asked is not told by going to it.
        let is_told = |at: &Address| colour.is_none() || !view.will_ask_colour(&ItemId::At(at.clone()));
        let fits =
            found.iter().filter(|(at, h)| is_told(at) && h.lead().is_some_and(|l| l.wires.iter().any(mark)));
        let at: Vec<&Address> = fits.map(|(at, _)| at).collect();
        match at.as_slice() {
            [] => {}
            [only] => return Ok((*only).clone()),
            several => {
                let shown: Vec<String> = several.iter().take(NAMED).map(|at| at.label.to_string()).collect();
                let more = several.len().saturating_sub(NAMED);
                let more = if more > 0 { format!(" and {more} more") } else { String::new() };
                return Err(format!(
                    "\"{}\" is in {}{more}: key one of them.",
                    crate::quantity::harmless(typed),
                    list_of(&shown)
                ));
            }
        }
    }
    Err(no_label)
}

/// What is asked now and would be told by looking for wires.
fn covered_now(view: &JobView<'_>) -> Option<&'static str> {
    match Covered::by(view, &super::topic_now(view), true) {
        Covered::LabelsToo => Some("What is in a hole"),
        Covered::Contents => Some("What is in a row"),
        // Wires whose colour will be asked are not looked for by it.
        Covered::Nothing | Covered::ColoursOf(_) => None,
    }
}

/// The open step at a place, or its record while that is not finished.
fn go_to(view: &JobView<'_>, at: Address) -> Asked {
    if !view.state().records.records_finished() {
        return Asked::Go(Task::Record { at: Some(at) });
    }
    match step_for(view, &at) {
        Some(step) => Asked::Go(step),
        None => Asked::Wrong(format!("Nothing is left to do at {at}.")),
    }
}

/// The open step about an old cavity.
fn step_for(view: &JobView<'_>, at: &Address) -> Option<Task> {
    let open = || view.assessment.steps.iter().filter(|s| s.status != Status::Done).map(|s| &s.what);
    let moves = open().find(|what| is_about(view, what, at));
    moves.or_else(|| open().find(|what| is_asked_of(view, what, at))).cloned()
}

/// Whether a step before the first move asks something about a cavity.
fn is_asked_of(view: &JobView<'_>, what: &Task, at: &Address) -> bool {
    match what {
        Task::Decide { at: differs } => differs == at || belongs_in(view, differs, at),
        Task::Tag { lead } => *lead == ItemId::At(at.clone()),
        Task::LookAt { cavities } => cavities.contains(at),
        _ => false,
    }
}

fn is_about(view: &JobView<'_>, what: &Task, at: &Address) -> bool {
    let to_there = |to: Option<&Address>| to.is_some() && to == view.state().mapping.mapped(at);
    match what {
        // A wire that sits elsewhere and belongs there is about it, too.
        Task::MoveWire { lead, to } => *lead == ItemId::At(at.clone()) || to_there(to.as_ref()),
        Task::MovePlug { from, .. } | Task::MoveOther { from, .. } | Task::TakePlug { at: from } => {
            from == at
        }
        Task::FitPlug { at: to } => view.state().mapping.mapped(at) == Some(to),
        _ => false,
    }
}

/// Whether by the difference at one cavity its wire belongs in another.
fn belongs_in(view: &JobView<'_>, differs: &Address, at: &Address) -> bool {
    let mut differences = view.assessment.target.differences.iter().filter(|d| d.at == *differs);
    differences.any(|difference| match &difference.kind {
        DifferenceKind::Elsewhere { should_at, .. } => should_at == at,
        DifferenceKind::Swapped { with, .. } => with == at,
        DifferenceKind::Shifted { moves } => moves.iter().any(|(from, _, to)| from == at || to == at),
        _ => false,
    })
}

/// The next move that is not done, or the next cavity that was open as found and is not filled
/// yet: after this step, round to the first.
pub(super) fn next(view: &JobView<'_>, wanted: Wanted, after: Option<&Task>) -> Asked {
    let state = view.state();
    let open_holes: Vec<&Address> = state
        .records
        .found
        .iter()
        .filter(|(_, holds)| **holds == CavityContent::Open)
        .map(|(at, _)| at)
        .collect();
    if !state.records.records_finished() {
        let at = match wanted {
            Wanted::Undone => state.unrecorded().into_iter().next(),
            Wanted::Open => open_holes.first().map(|at| (*at).clone()),
        };
        return Asked::Go(Task::Record { at });
    }
    let fits = |what: &Task| match wanted {
        Wanted::Undone => what.is_move(),
        Wanted::Open => open_holes.iter().any(|at| is_about(view, what, at)),
    };
    let now = match super::topic_now(view) {
        super::Topic::Step(step) => Some(step),
        _ => None,
    };
    let after = after.or(now.as_ref());
    let steps: Vec<&Task> =
        view.assessment.steps.iter().filter(|s| s.status != Status::Done).map(|s| &s.what).collect();
    let from = after.and_then(|after| steps.iter().position(|what| *what == after)).map_or(0, |i| i + 1);
    let mut round = steps.iter().skip(from).chain(steps.iter().take(from)).copied();
    match (round.find(|what| fits(what)), wanted) {
        (Some(step), _) => Asked::Go(step.clone()),
        (None, Wanted::Undone) => Asked::Wrong("Every move is done.".to_owned()),
        (None, Wanted::Open) => Asked::Wrong("No open cavity is left to fill.".to_owned()),
    }
}
