//! What is kept before the first move: photos of the connector as found, and what broke the housing.

use crate::{
    job::{Act, Code},
    reckoning::DamageCause,
};

use super::{Acts, IntakeQuestion, Kind, Replies, Stop};

/// The photo that is the way back, or the name of the person who goes without.
pub(super) fn photo_as_found(replies: &mut Replies<'_>) -> Acts {
    match replies.text(IntakeQuestion::PhotoAsFound, Kind::Number)?.unless_dash() {
        None => without(Code::PhotoMissing, replies),
        Some(number) => photo_of(number.words(), replies),
    }
}

/// Any other photo.
pub(super) fn photo(replies: &mut Replies<'_>) -> Acts {
    let number = replies.text(IntakeQuestion::PhotoNumber, Kind::Number)?;
    photo_of(number.words(), replies)
}

fn photo_of(number: String, replies: &mut Replies<'_>) -> Acts {
    let shows = replies.text(IntakeQuestion::PhotoShows, Kind::Words)?.words();
    Ok(vec![Act::Photo { number, shows }])
}

/// The cause, from the list, and what is known of it; or the name of the person who goes on without.
pub(super) fn cause(or_unknown: bool, replies: &mut Replies<'_>) -> Acts {
    let number = replies.text(IntakeQuestion::Cause { or_unknown }, Kind::Number)?;
    if or_unknown && number.unless_dash().is_none() {
        return without(Code::CauseUnknown, replies);
    }
    let kind = number.of_list(DamageCause::ALL).copied();
    if kind.is_none() && number.as_str() != "0" {
        return Err(Stop::wrong(format!(
            "\"{}\" is not on the list: key a number from 0 to {}.",
            number.as_str(),
            DamageCause::ALL.len()
        )));
    }
    let text = replies.text(IntakeQuestion::CauseKnown(kind), Kind::Words)?.words();
    Ok(vec![Act::Cause { text, kind }])
}

/// A named person goes on without it.
fn without(flag: Code, replies: &mut Replies<'_>) -> Acts {
    let by = replies.text(IntakeQuestion::WithoutBy, Kind::Name)?.words();
    let reason = replies.text(IntakeQuestion::WithoutWhy, Kind::Words)?.words();
    Ok(vec![Act::Accept { flag, at: None, by: Some(by), reason, due: None, line: None }])
}
