//! What the line on the bench page is about: which cavities, and at which side the hands are.

use super::faces::Spoken;
use crate::{
    face::PosePlace,
    job::{ItemId, JobSide, Lead, Place, Task},
    procedure::{JobView, REREAD_POSE, Topic},
    record::{Address, HousingName},
};

/// Which cavities the line is about, and at which side the hands are.
pub(super) fn spoken_of(view: &JobView<'_>, topic: &Topic) -> Spoken {
    let state = view.state();
    let usual = if state.has_moved() { JobSide::New } else { JobSide::Old };
    let about = |name: &HousingName| Spoken {
        about: Some(name.clone()),
        ..Spoken::at(view.housing(name).map_or(usual, |housing| housing.side))
    };
    let step = match topic {
        Topic::Step(step) => step,
        Topic::FailedAnchor(name) => return about(name),
        _ => return Spoken::at(usual),
    };
    let (from, to) = step.ends();
    let ends = |work| Spoken { from: from.cloned(), to: to.cloned(), ..Spoken::at(work) };
    match step {
        Task::MoveWire { lead, .. } | Task::Repair { lead, .. } => spoken_of_lead(view, lead),
        Task::TakePlug { at } if state.housings.side_of(at) == Some(JobSide::New) => {
            Spoken { to: Some(at.clone()), ..Spoken::at(JobSide::New) }
        }
        Task::MovePlug { .. } if state.items.plugs.iter().any(|plug| plug.place == Place::Hand) => {
            ends(JobSide::New)
        }
        Task::Anchor { housing, place } => spoken_of_anchor(view, housing, *place),
        Task::ReRead { at } => {
            Spoken { to: Some(at.clone()), pose: Some(REREAD_POSE), ..Spoken::at(JobSide::New) }
        }
        Task::View { housing }
        | Task::Unlock { housing, .. }
        | Task::Lock { housing }
        | Task::Look { housing, .. }
        | Task::CountRow { housing, .. }
        | Task::SmallPartOff { housing, .. }
        | Task::SmallPartOn { housing, .. }
        | Task::AssuranceOff { housing }
        | Task::AssuranceOn { housing } => about(housing),
        Task::LookAt { cavities } => cavities.first().map_or(ends(usual), |at| about(&at.housing)),
        Task::FitPlug { .. } | Task::MoveOther { .. } => ends(JobSide::New),
        Task::Record { .. }
        | Task::Decide { .. }
        | Task::Tag { .. }
        | Task::TakePlug { .. }
        | Task::MovePlug { .. } => ends(JobSide::Old),
        Task::Gate { .. } => Spoken { is_about_no_face: true, ..Spoken::at(usual) },
        Task::Compare { .. }
        | Task::Photo
        | Task::Cause
        | Task::ConfirmMap
        | Task::LookMatingHalf
        | Task::Mate
        | Task::Test { .. }
        | Task::Sign => ends(usual),
    }
}

/// The place an anchor asks about.
fn spoken_of_anchor(view: &JobView<'_>, name: &HousingName, place: PosePlace) -> Spoken {
    let Some(housing) = view.housing(name) else { return Spoken::at(JobSide::Old) };
    let at = housing.seen().label_at(place).map(|label| housing.address(label));
    let spoken = Spoken { about: Some(name.clone()), ..Spoken::at(housing.side) };
    match housing.side {
        JobSide::Old => Spoken { from: at, ..spoken },
        JobSide::New => Spoken { to: at, ..spoken },
    }
}

fn spoken_of_lead(view: &JobView<'_>, id: &ItemId) -> Spoken {
    let state = view.state();
    let Some(lead) = state.items.lead(id) else { return Spoken::at(JobSide::Old) };
    let sits_in_old =
        matches!(&lead.place, Place::In(at) if state.housings.side_of(at) == Some(JobSide::Old));
    let work = if sits_in_old { JobSide::Old } else { JobSide::New };
    Spoken { from: home_of(lead), to: view.assessment.target.of(id).cloned(), ..Spoken::at(work) }
}

/// Where a lead is or was taken from.
fn home_of(lead: &Lead) -> Option<Address> {
    match (&lead.place, &lead.id) {
        (_, ItemId::At(at)) => Some(at.clone()),
        (Place::In(at), _) => Some(at.clone()),
        _ => lead.came_from.clone(),
    }
}
