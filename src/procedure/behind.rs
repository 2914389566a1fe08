//! What lies behind a housing: where its bundle branches, where no splice may lie, what is there.

use crate::{
    job::{Act, Behind, JobSide},
    quantity::Length,
    record::HousingName,
};

use super::{Acts, BehindQuestion, JobView, Kind, Replies, Stop, Typed, lead_order::lengths};

/// What lies behind a housing, along its bundle; what is on record may stay.
pub(super) fn behind(view: &JobView<'_>, replies: &mut Replies<'_>) -> Acts {
    let olds: Vec<_> = view.state().housings.side(JobSide::Old).map(|h| &h.name).collect();
    let housing = match olds.as_slice() {
        [one] => (*one).clone(),
        several => {
            let typed = replies.text(BehindQuestion::Which, Kind::Words)?.as_str();
            let known = several.iter().find(|old| old.to_string() == typed);
            known
                .map(|name| (*name).clone())
                .ok_or_else(|| Stop::wrong(format!("There is no old housing {typed}.")))?
        }
    };
    let behind = read(view, &housing, replies)?;
    Ok(vec![Act::Behind { housing, behind }])
}

fn read(view: &JobView<'_>, name: &HousingName, replies: &mut Replies<'_>) -> Result<Behind, Stop> {
    let on_record = view.state().housings.behind.get(name).cloned().unwrap_or_default();
    let branches = match replies.text(BehindQuestion::Branches(name.clone()), Kind::Values)?.as_str() {
        "=" => on_record.branches,
        "-" => Vec::new(),
        typed => lengths(typed)?,
    };
    let typed = replies.text(BehindQuestion::KeepOut(name.clone()), Kind::Values)?;
    let keep_out = if typed.is_same() { on_record.keep_out } else { stretches(typed)? };
    let typed = replies.text(BehindQuestion::Splices(name.clone()), Kind::Values)?;
    let splices = if typed.is_same() { on_record.splices } else { stretches(typed)? };
    let last = match replies.text(BehindQuestion::Last(name.clone()), Kind::Length)? {
        Typed("=") => on_record.last,
        Typed("-") => None,
        typed => Some(typed.parse_or_wrong()?),
    };
    if let Some(last) = &last {
        refuse_last(view, last, &keep_out)?;
    }
    let beyond = match replies.text(BehindQuestion::Beyond(name.clone()), Kind::Words)? {
        Typed("=") => on_record.beyond,
        Typed("-") => None,
        why if why.as_str().parse::<Length>().is_ok() => {
            return Err(Stop::wrong("Key the reason in words, or - where they may not."));
        }
        why => Some(why.words()),
    };
    Ok(Behind { branches, keep_out, splices, last, beyond })
}

/// The last place of a splice lies where none may lie, or too near the housing.
fn refuse_last(view: &JobView<'_>, last: &Length, keep_out: &[(Length, Length)]) -> Result<(), Stop> {
    let is_inside =
        |(from, to): &&(Length, Length)| last.mm() > from.mm() + 1e-9 && last.mm() < to.mm() - 1e-9;
    if let Some((from, to)) = keep_out.iter().find(is_inside) {
        return Err(Stop::wrong(format!(
            "That lies between {from} and {to}, where no splice may lie: key {from}."
        )));
    }
    let clearance = view.state().world.rules.clearance_mm.value;
    match last.mm() <= clearance {
        true => Err(Stop::wrong(format!(
            "Nothing fits before {last}: {clearance} mm behind the housing are kept free. How far may splices go?"
        ))),
        false => Ok(()),
    }
}

fn stretches(typed: Typed<'_>) -> Result<Vec<(Length, Length)>, Stop> {
    let stretch = |text: &str| {
        let (from, to) = text
            .split_once('-')
            .ok_or_else(|| Stop::wrong(format!("\"{text}\" is no stretch: key from-to, as in 120-150.")))?;
        let (from, to): (Length, Length) = (Typed(from).parse_or_wrong()?, Typed(to).parse_or_wrong()?);
        match from.mm() < to.mm() {
            true => Ok((from, to)),
            false => Err(Stop::wrong(format!(
                "{from} to {to} ends before it starts: key it from the rear face outwards."
            ))),
        }
    };
    match typed.unless_dash() {
        None => Ok(Vec::new()),
        Some(typed) => typed.as_str().split_whitespace().map(stretch).collect(),
    }
}
