//! What is in the hand, tagged and set aside.

use crate::job::{Act, RepairKind, Tag};

use super::{Acts, JobView, Kind, RepairQuestion, Replies};

/// Tag and park what is in the hand. Why is asked only where no planned repair says it.
pub(super) fn park(view: &JobView<'_>, planned: Option<RepairKind>, replies: &mut Replies<'_>) -> Acts {
    let tag: Tag = replies.text(RepairQuestion::ParkTag, Kind::Tag)?.parse_or_wrong()?;
    let reason = match planned {
        Some(how) => format!("waits for {}", how.words()),
        None => {
            // A tag that is used already is said before the reason is asked.
            replies.unless_barred(view, || Act::Park { tag: tag.clone(), reason: "parked".to_owned() })?;
            replies.text(RepairQuestion::ParkWhy, Kind::Words)?.words()
        }
    };
    Ok(vec![Act::Park { tag, reason }])
}
