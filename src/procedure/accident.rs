//! What happens beside the plan: a lead cut free, leads that fell out, a plug that is gone, something left
//! behind, the new lock opened again.

use crate::{
    catalogue::LockState,
    job::{Act, JobSide},
    quantity::Length,
};

use super::{AccidentQuestion, Acts, Choice, JobView, Kind, Replies, Stop};

/// What is written on the wire is read before it is cut.
pub(super) fn cut_free(view: &JobView<'_>, replies: &mut Replies<'_>) -> Acts {
    let from = replies.text(AccidentQuestion::CutFreeFrom, Kind::Label)?;
    let from = view.cavity(JobSide::Old, from)?;
    let circuit = replies.text(AccidentQuestion::CutFreeWritten, Kind::Words)?.words();
    let cut = |distance: Length, terminal_stayed: bool| Act::CutFree {
        from: from.clone(),
        distance,
        terminal_stayed,
        circuit: Some(circuit.clone()),
        anyway: None,
    };
    let usual: Length = super::Typed("50 mm").parse_or_wrong()?;
    replies.unless_barred(view, || cut(usual, true))?;
    let distance = replies.text(AccidentQuestion::CutFreeDistance, Kind::Length)?.parse_or_wrong()?;
    let stayed = replies.yes(AccidentQuestion::TerminalStayed)?;
    Ok(vec![cut(distance, stayed)])
}

/// Leads that came out together, each with the tag it got.
pub(super) fn loose(view: &JobView<'_>, replies: &mut Replies<'_>) -> Acts {
    let line = replies.text(AccidentQuestion::LooseLeads, Kind::Values)?;
    let lead = |pair: &str| {
        let (label, tag) =
            pair.split_once('=').ok_or_else(|| Stop::wrong("Write label=tag for each lead."))?;
        Ok((view.cavity(JobSide::Old, super::Typed(label))?, super::Typed(tag).parse_or_wrong()?))
    };
    let leads = line.as_str().split_whitespace().map(lead).collect::<Result<_, Stop>>()?;
    Ok(vec![Act::Loose { leads }])
}

/// A plug that is lost, torn or given back.
pub(super) fn plug_gone(replies: &mut Replies<'_>) -> Acts {
    let offered = [
        (Choice::LoseIt, Some(Act::LosePlug)),
        (Choice::ScrapIt, None),
        (Choice::ReturnIt, Some(Act::ReturnPlug)),
    ];
    Ok(vec![match replies.one_of(AccidentQuestion::PlugGone, &offered)? {
        Some(act) => act,
        None => Act::ScrapPlug { reason: replies.text(AccidentQuestion::ScrapWhy, Kind::Words)?.words() },
    }])
}

/// What stays in the old housing.
pub(super) fn left_in_old(view: &JobView<'_>, replies: &mut Replies<'_>) -> Acts {
    let at = replies.text(AccidentQuestion::LeftInOld, Kind::Label)?;
    let at = view.cavity(JobSide::Old, at)?;
    let left = |reason: &str| Act::LeftInOld { at: at.clone(), reason: reason.to_owned() };
    replies.unless_barred(view, || left("as said"))?;
    let reason = replies.text(AccidentQuestion::LeftWhy, Kind::Words)?;
    Ok(vec![left(reason.as_str())])
}

/// The new lock, opened again: its fingers tire.
pub(super) fn reopen(view: &JobView<'_>, replies: &mut Replies<'_>) -> Acts {
    let set = view.state().housings.side(JobSide::New).find(|h| h.lock == Some(LockState::FullSet));
    let Some((housing, lock)) = set.and_then(|h| h.housing().lock.as_ref().map(|l| (h, l))) else {
        return Err(Stop::wrong("No lock on the new side is full-set."));
    };
    let why = replies.text(AccidentQuestion::ReopenWhy, Kind::Words)?;
    Ok(vec![Act::Lock {
        housing: housing.name.clone(),
        to: lock.open_state,
        finger: true,
        why: Some(why.words()),
        anyway: None,
    }])
}
