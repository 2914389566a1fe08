//! What lies behind a housing: where its bundle branches, where no splice may lie, what is there.

use crate::{
    job::{Act, Behind, JobSide},
    quantity::Length,
    record::HousingName,
};

use super::{
    Asked, JobView, Reply, field,
    lead_order::{lengths, read},
    texts,
};

/// What lies behind a housing, along its bundle; each answer is read before the next question, and
/// what is on record stands beside it.
pub(super) fn behind(view: &JobView<'_>, answers: &[Reply]) -> Asked {
    let olds: Vec<_> = view.state().housings.side(JobSide::Old).map(|h| h.name.clone()).collect();
    let typed = texts(answers);
    let (name, typed) = match (olds.as_slice(), typed.as_slice()) {
        ([one], typed) => (one.clone(), typed),
        (_, []) => return field("BEHIND which old housing?"),
        (_, [name, rest @ ..]) => match olds.iter().find(|old| old.to_string() == *name) {
            Some(name) => (name.clone(), rest),
            None => return Asked::Wrong(format!("There is no old housing {name}.")),
        },
    };
    match read_behind(view, &name, typed) {
        Ok(behind) => Asked::Ready(vec![Act::Behind { housing: name, behind }]),
        Err(question) => question,
    }
}

fn read_behind(view: &JobView<'_>, name: &HousingName, typed: &[&str]) -> Result<Behind, Asked> {
    let now = view.state().housings.behind.get(name);
    let on_record = now.cloned().unwrap_or_default();
    let offer =
        |told: String| if now.is_some() { format!("; = as on record: {told}") } else { String::new() };
    let mut left = typed.iter().copied();
    let mut answer = |question: String, none: &str, told: String| {
        left.next().ok_or_else(|| field(format!("{question} ({none}{})", offer(told))))
    };
    let wrong = Asked::Wrong;
    let branches = answer(
        format!("BEHIND {name}, in mm from its rear face: where does the bundle branch?"),
        "260; - nowhere",
        told_of(&on_record.branches),
    )?;
    let branches = match branches {
        "=" => on_record.branches,
        "-" => Vec::new(),
        typed => lengths(typed).map_err(wrong)?,
    };
    let keep_out = answer(
        "Where may no splice lie: clamps, grommets, bends, heat?".to_owned(),
        "120-150 300-340; - nowhere",
        stretches_told(&on_record.keep_out),
    )?;
    let keep_out = if keep_out == "=" { on_record.keep_out } else { stretches(keep_out).map_err(wrong)? };
    let splices = answer(
        "Splices there already, besides those made in this job, from-to?".to_owned(),
        "300-340; - none",
        stretches_told(&on_record.splices),
    )?;
    let splices = if splices == "=" { on_record.splices } else { stretches(splices).map_err(wrong)? };
    let last = answer(
        "As far as splices may go?".to_owned(),
        "800; - no limit",
        on_record.last.as_ref().map_or("no limit".to_owned(), ToString::to_string),
    )?;
    let last = match last {
        "=" => on_record.last,
        "-" => None,
        typed => Some(read(typed).map_err(wrong)?),
    };
    let barred = keep_out.iter().find(|(from, to)| {
        last.as_ref().is_some_and(|last: &Length| last.mm() > from.mm() + 1e-9 && last.mm() < to.mm() - 1e-9)
    });
    if let Some((from, to)) = barred {
        return Err(wrong(format!(
            "That lies between {from} and {to}, where no splice may lie: key {from}."
        )));
    }
    let clearance = view.state().world.rules.clearance_mm.value;
    if let Some(last) = last.as_ref().filter(|last| last.mm() <= clearance) {
        return Err(wrong(format!(
            "Nothing fits before {last}: {clearance} mm behind the housing are kept free. How far may splices go?"
        )));
    }
    let beyond = answer(
        "May splices lie beyond a branch? Why?".to_owned(),
        "- they may not",
        on_record.beyond.clone().unwrap_or("they may not".to_owned()),
    )?;
    let beyond = match beyond {
        "=" => on_record.beyond,
        "-" => None,
        why if why.parse::<Length>().is_ok() => {
            return Err(wrong("Key the reason in words, or - where they may not.".to_owned()));
        }
        why => Some(why.to_owned()),
    };
    Ok(Behind { branches, keep_out, splices, last, beyond })
}

fn told_of(lengths: &[Length]) -> String {
    match lengths {
        [] => "nowhere".to_owned(),
        some => some.iter().map(ToString::to_string).collect::<Vec<_>>().join(" "),
    }
}

fn stretches_told(stretches: &[(Length, Length)]) -> String {
    match stretches {
        [] => "none".to_owned(),
        some => some.iter().map(|(from, to)| format!("{from} to {to}")).collect::<Vec<_>>().join(", "),
    }
}

fn stretches(typed: &str) -> Result<Vec<(Length, Length)>, String> {
    if typed == "-" {
        return Ok(Vec::new());
    }
    let stretch = |text: &str| match text.split_once('-') {
        Some((from, to)) => {
            let (from, to): (Length, Length) = (read(from)?, read(to)?);
            match from.mm() < to.mm() {
                true => Ok((from, to)),
                false => {
                    Err(format!("{from} to {to} ends before it starts: key it from the rear face outwards."))
                }
            }
        }
        None => Err(format!("\"{text}\" is no stretch: key from-to, as in 120-150.")),
    };
    typed.split_whitespace().map(stretch).collect()
}
