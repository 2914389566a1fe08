//! Going to a place: by its label, by what its wire is called or looks like, or to the next one
//! that is not done or open. The step that was next stays next; nothing is lost by looking.

use crate::{
    job::{ItemId, JobSide, Status, Task},
    quantity::{harmless, list_of},
    record::{Address, CavityContent, DifferenceKind, Wire},
};

use super::{
    Asked, Covered, Done, JobView, Kind, OtherQuestion, Replies, Stop, Topic, Typed, Wanted, topic_now,
};

/// How many places are named when a word fits several.
const NAMED: usize = 12;

/// Going to a cavity of the old side (or of the new one by its full address).
pub(super) fn jump(
    view: &JobView<'_>,
    covered_now: &dyn Fn() -> Covered,
    replies: &mut Replies<'_>,
) -> Asked {
    let typed = replies.text(OtherQuestion::JumpTo, Kind::Label)?;
    go_to(view, find(view, covered_now, typed)?)
}

/// A label first; then a wire number, a circuit, a part of one, a colour.
pub(super) fn find(
    view: &JobView<'_>,
    covered_now: &dyn Fn() -> Covered,
    typed: Typed<'_>,
) -> Result<Address, Stop> {
    let no_label = match view.cavity(JobSide::Old, typed) {
        Ok(at) => return Ok(at),
        Err(why) => why,
    };
    // Where a hole or a row is asked, going by what is in it would tell it.
    let asked = match covered_now() {
        Covered::LabelsToo => Some("What is in a hole"),
        Covered::Contents => Some("What is in a row"),
        // Wires whose colour will be asked are not looked for by it.
        Covered::Nothing | Covered::ColoursOf(_) => None,
    };
    if let Some(asked) = asked {
        return Err(Stop::wrong(format!("{asked} is asked now: go by a label, or answer first.")));
    }
    let word = typed.as_str().to_lowercase();
    let colour = typed.as_str().parse().ok();
    let is = |name: &Option<String>| name.as_ref().is_some_and(|n| n.to_lowercase() == word);
    let has = |name: &Option<String>| name.as_ref().is_some_and(|n| n.to_lowercase().contains(&word));
    let marks: [&dyn Fn(&Wire) -> bool; 3] = [
        &|wire| is(&wire.number) || is(&wire.circuit),
        &|wire| colour.is_some() && wire.colour.known() == colour.as_ref(),
        &|wire| has(&wire.number) || has(&wire.circuit),
    ];
    // A colour that will be asked is not told by going to it.
    let is_told = |at: &Address| colour.is_none() || !view.will_ask_colour(&ItemId::At(at.clone()));
    for mark in marks {
        let found = &view.state().records.found;
        let fits =
            found.iter().filter(|(at, h)| is_told(at) && h.lead().is_some_and(|l| l.wires.iter().any(mark)));
        let at: Vec<&Address> = fits.map(|(at, _)| at).collect();
        match at.as_slice() {
            [] => {}
            [only] => return Ok((*only).clone()),
            several => return Err(is_in_several(typed, several)),
        }
    }
    Err(no_label)
}

fn is_in_several(typed: Typed<'_>, several: &[&Address]) -> Stop {
    let shown: Vec<String> = several.iter().take(NAMED).map(|at| at.label.to_string()).collect();
    let more = several.len().saturating_sub(NAMED);
    let more = if more > 0 { format!(" and {more} more") } else { String::new() };
    let (typed, shown) = (harmless(typed.as_str()), list_of(&shown));
    Stop::wrong(format!("\"{typed}\" is in {shown}{more}: key one of them."))
}

/// The open step at a place, or its record while that is not finished.
fn go_to(view: &JobView<'_>, at: Address) -> Asked {
    if !view.state().records.records_finished() {
        return Ok(Done::Go(Task::Record { at: Some(at) }));
    }
    let step = step_for(view, &at);
    step.map(Done::Go).ok_or_else(|| Stop::wrong(format!("Nothing is left to do at {at}.")))
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
    let is_open = |(_, holds): &(&Address, &CavityContent)| **holds == CavityContent::Open;
    let open_holes: Vec<&Address> = state.records.found.iter().filter(is_open).map(|(at, _)| at).collect();
    if !state.records.records_finished() {
        let at = match wanted {
            Wanted::Undone => state.unrecorded().into_iter().next(),
            Wanted::Open => open_holes.first().map(|at| (*at).clone()),
        };
        return Ok(Done::Go(Task::Record { at }));
    }
    let fits = |what: &Task| match wanted {
        Wanted::Undone => what.is_move(),
        Wanted::Open => open_holes.iter().any(|at| is_about(view, what, at)),
    };
    let now = match topic_now(view) {
        Topic::Step(step) => Some(step),
        _ => None,
    };
    let after = after.or(now.as_ref());
    let steps: Vec<&Task> =
        view.assessment.steps.iter().filter(|s| s.status != Status::Done).map(|s| &s.what).collect();
    let from = after.and_then(|after| steps.iter().position(|what| *what == after)).map_or(0, |i| i + 1);
    let mut round = steps.iter().skip(from).chain(steps.iter().take(from)).copied();
    match (round.find(|what| fits(what)), wanted) {
        (Some(step), _) => Ok(Done::Go(step.clone())),
        (None, Wanted::Undone) => Err(Stop::wrong("Every move is done.")),
        (None, Wanted::Open) => Err(Stop::wrong("No open cavity is left to fill.")),
    }
}
