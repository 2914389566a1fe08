//! A named person goes on although a rule says no.

use crate::{
    job::{Act, Anyway},
    quantity::says_something,
};

use super::{Acts, Choice, HaltQuestion, Kind, MoveQuestion, Press, Replies, Stop, moves};

/// The whole press is entered with the name and the reason of who goes past the rule.
pub(super) fn anyway(press: &Press, replies: &mut Replies<'_>) -> Acts {
    let by = replies.text(HaltQuestion::AnywayBy, Kind::Name)?.name()?;
    let reason = replies.text(HaltQuestion::AnywayWhy, Kind::Words)?.words();
    if !says_something(&reason) {
        return Err(Stop::wrong("Say why: key it in words."));
    }
    let mut acts = press.acts.clone();
    if let Some(act) = acts.get_mut(press.nth) {
        how_it_went(act, replies)?;
    }
    let anyway = acts.get_mut(press.nth).and_then(Act::anyway_mut);
    *anyway.ok_or_else(|| Stop::wrong("Nobody can go past this rule."))? =
        Some(Anyway { by, reason, codes: Vec::new() });
    Ok(acts)
}

/// What was done against the rule is asked like any other move: whether it came freely and with its seal,
/// whether it clicked. Of other acts nothing more is asked.
fn how_it_went(act: &mut Act, replies: &mut Replies<'_>) -> Result<(), Stop> {
    if let Act::Insert { into, click, again: false, .. } = act {
        let question = MoveQuestion::Clicked { into: into.clone(), lead: None };
        *click = replies.one_of(question, &[(Choice::Clicked, true), (Choice::NoClick, false)])?;
    }
    if let Act::Extract { from, freely, seal, .. } = act {
        (*freely, *seal) = moves::how_it_came(from, *seal, replies)?;
    }
    Ok(())
}
