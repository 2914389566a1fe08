//! Recording what is found, cavity by cavity, typed fast.

use crate::{
    job::{Act, RecordSide},
    record::{Address, CavityContent, SpareSeen},
};

use super::{
    Acts, Choice, JobView, Kind, RecordQuestion, Replies, Stop, replies::not_offered, wire_line::parse_wires,
};

/// What a cavity holds, or that the record is finished.
pub(super) fn record(view: &JobView<'_>, at: Option<&Address>, replies: &mut Replies<'_>) -> Acts {
    match at {
        Some(at) => {
            let holds = content(view, at, RecordSide::Found, replies)?;
            Ok(vec![Act::Recorded { side: RecordSide::Found, at: at.clone(), holds, from: None }])
        }
        None => {
            replies.choice(RecordQuestion::Finish, &[Choice::Finished])?;
            Ok(vec![Act::RecordFinished { side: RecordSide::Found }])
        }
    }
}

/// What a cavity holds, or by the diagram should hold.
pub(super) fn content(
    view: &JobView<'_>,
    at: &Address,
    side: RecordSide,
    replies: &mut Replies<'_>,
) -> Result<CavityContent, Stop> {
    let last = last_recorded(view);
    let mut offered = vec![
        Choice::Wired,
        Choice::Plugged,
        Choice::Open,
        Choice::Empty,
        Choice::Blocked,
        Choice::Spare,
        Choice::Bridge,
    ];
    offered.extend(last.as_ref().map(|_| Choice::Repeat));
    let at = at.clone();
    match replies.choice(RecordQuestion::Content { at: at.clone(), side }, &offered)? {
        Choice::Wired => {
            let line = replies.text(RecordQuestion::Wires(at), Kind::Wires)?;
            parse_wires(line.as_str()).map(CavityContent::Wired).map_err(Stop::wrong)
        }
        Choice::Plugged => Ok(CavityContent::Plugged),
        Choice::Open => Ok(CavityContent::Open),
        Choice::Empty => Ok(CavityContent::Empty),
        Choice::Blocked => Ok(CavityContent::Blocked),
        Choice::Spare => {
            let plug_behind = replies.yes(RecordQuestion::PlugBehind(at))?;
            Ok(CavityContent::Spare(SpareSeen { terminal: None, plug_behind }))
        }
        Choice::Bridge => {
            Ok(CavityContent::Bridge(replies.text(RecordQuestion::Bridge(at), Kind::Words)?.words()))
        }
        Choice::Repeat => last.ok_or_else(|| Stop::wrong("Nothing was recorded yet.")),
        _ => Err(not_offered()),
    }
}

/// What the last record entry said, without what is a wire's own.
fn last_recorded(view: &JobView<'_>) -> Option<CavityContent> {
    let mut entries = view.job.entries().iter().rev();
    let last = entries.find_map(|entry| match &entry.act {
        Act::Recorded { side: RecordSide::Found, holds, .. } => Some(holds),
        _ => None,
    });
    let mut holds = last?.clone();
    if let CavityContent::Wired(lead) = &mut holds {
        for wire in &mut lead.wires {
            wire.number = None;
            wire.circuit = None;
        }
        lead.condition = None;
    }
    Some(holds)
}
