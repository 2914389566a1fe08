//! Plugs, spare terminals, bridges and clips on their way: out, and in by the label that was read.

use crate::{
    catalogue::PartNumber,
    job::{Act, Expected, ItemId, JobSide, OtherKind, Place, PlugSource},
    record::{Address, CavityContent},
};

use super::{Acts, Choice, JobView, Kind, PlugQuestion, Replies, replies::not_offered};

/// A plug of the old housing on its way.
pub(super) fn plug(view: &JobView<'_>, from: &Address, replies: &mut Replies<'_>) -> Acts {
    match view.state().items.place_of(&ItemId::At(from.clone())) {
        Some(Place::Hand) => plug_into(view, Some(from), PlugSource::Hand, replies),
        Some(Place::Tray) => plug_into(view, Some(from), PlugSource::Tray, replies),
        _ => take_plug(from, replies),
    }
}

/// A plug that comes out.
pub(super) fn take_plug(at: &Address, replies: &mut Replies<'_>) -> Acts {
    replies.choice(PlugQuestion::Out(at.clone()), &[Choice::Out])?;
    Ok(vec![Act::TakePlug { from: at.clone(), anyway: None }])
}

fn plug_into(
    view: &JobView<'_>,
    from: Option<&Address>,
    source: PlugSource,
    replies: &mut Replies<'_>,
) -> Acts {
    let fit = |into| Act::FitPlug { into, source, part: None, spare: None, anyway: None };
    let label = replies.text(PlugQuestion::LabelFor(from.cloned()), Kind::Label)?;
    let into = view.cavity(JobSide::New, label)?;
    replies.unless_barred(view, || fit(into.clone()))?;
    replies.choice(PlugQuestion::In { into: into.clone(), from: from.cloned() }, &[Choice::InPlace])?;
    Ok(vec![fit(into)])
}

/// A plug in the hand that has no step of its own: fit it where one is missing, or lay it aside. A hole is
/// named only where one needs it.
pub(super) fn plug_in_hand(view: &JobView<'_>, replies: &mut Replies<'_>) -> Acts {
    let occupants = view.state().items.occupants();
    let mut cavities = view.assessment.target.cavities.iter();
    let is_needed = cavities.any(|(at, expected)| expected.takes_plug() && !occupants.contains_key(at));
    let mut offered =
        vec![Choice::ReturnIt, Choice::ScrapIt, Choice::ToTray, Choice::LoseIt, Choice::PutBack];
    if is_needed {
        offered.insert(0, Choice::InPlace);
    }
    let act = match replies.choice(PlugQuestion::InHand { is_needed }, &offered)? {
        Choice::ToTray => {
            let tag = super::Typed("tray").parse_or_wrong()?;
            Act::Park { tag, reason: "into the tray".to_owned() }
        }
        Choice::ScrapIt => {
            Act::ScrapPlug { reason: replies.text(PlugQuestion::ScrapWhy, Kind::Words)?.words() }
        }
        Choice::ReturnIt => Act::ReturnPlug,
        Choice::LoseIt => Act::LosePlug,
        Choice::PutBack => Act::PutBack,
        Choice::InPlace => return plug_into(view, None, PlugSource::Hand, replies),
        _ => return Err(not_offered()),
    };
    Ok(vec![act])
}

/// A hole that takes a plug which is not on its way from the old housing.
pub(super) fn fit_plug(view: &JobView<'_>, at: &Address, replies: &mut Replies<'_>) -> Acts {
    let is_in_tray = view.state().items.plugs.iter().any(|p| p.place == Place::Tray);
    let label = replies.text(PlugQuestion::LabelForNew(at.clone()), Kind::Label)?;
    let into = view.cavity(JobSide::New, label)?;
    let spare: Option<PartNumber> = match view.assessment.target.expected(at) {
        Expected::SpareAndPlug => Some(replies.text(PlugQuestion::SparePart, Kind::Part)?.parse_or_wrong()?),
        _ => None,
    };
    let fit =
        |source| Act::FitPlug { into: into.clone(), source, part: None, spare: spare.clone(), anyway: None };
    replies.unless_barred(view, || fit(PlugSource::Stock))?;
    let mut offered = vec![(Choice::FromStock, PlugSource::Stock)];
    offered.extend(is_in_tray.then_some((Choice::FromTray, PlugSource::Tray)));
    let source = replies.one_of(PlugQuestion::NewIn(into.clone()), &offered)?;
    Ok(vec![fit(source)])
}

/// A spare terminal, bridge or clip: moved, left behind, or put in new where it is missing.
pub(super) fn other(
    view: &JobView<'_>,
    from: &Address,
    to: Option<&Address>,
    replies: &mut Replies<'_>,
) -> Acts {
    let Some(to) = to else {
        // By the decision it does not belong in the new housing.
        replies.choice(PlugQuestion::OtherLeft(from.clone()), &[Choice::LeftThere])?;
        let reason = "by the decision it has no place".to_owned();
        return Ok(vec![Act::LeftInOld { at: from.clone(), reason }]);
    };
    match view.assessment.target.expected(to) {
        Expected::MissingOther(kind) => new_other(view, from, to, kind, replies),
        _ => moved_other(view, from, replies),
    }
}

/// A new one, where one is drawn and none was found.
fn new_other(
    view: &JobView<'_>,
    from: &Address,
    to: &Address,
    kind: &OtherKind,
    replies: &mut Replies<'_>,
) -> Acts {
    let question = PlugQuestion::NewOther { to: to.clone(), kind: kind.clone() };
    let part: PartNumber = replies.text(question, Kind::Part)?.parse_or_wrong()?;
    let label = replies.text(PlugQuestion::LabelForNewOther, Kind::Label)?;
    let to = view.cavity(JobSide::New, label)?;
    Ok(vec![Act::MoveOther { from: from.clone(), to, part: Some(part), anyway: None }])
}

fn moved_other(view: &JobView<'_>, from: &Address, replies: &mut Replies<'_>) -> Acts {
    let put = |to| Act::MoveOther { from: from.clone(), to, part: None, anyway: None };
    let label = replies.text(PlugQuestion::LabelForOther(from.clone()), Kind::Label)?;
    let to = view.cavity(JobSide::New, label)?;
    replies.unless_barred(view, || put(to.clone()))?;
    replies.choice(PlugQuestion::OtherIn(to.clone()), &[Choice::InPlace])?;
    Ok(vec![put(to)])
}

/// What this old cavity holds beside wires and plugs, in words.
pub fn other_in<'a>(view: &JobView<'a>, at: &Address) -> &'a str {
    match view.state().records.found.get(at) {
        Some(CavityContent::Bridge(what)) => what,
        _ => "spare terminal",
    }
}
