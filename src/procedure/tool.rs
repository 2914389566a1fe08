//! The tool book at the bench: samples that prove a position, and a tool taken out of use.

use super::{Asked, JobView, Reply, field, texts};
use crate::{
    catalogue::PartNumber,
    job::Lead,
    quantity::{Gauge, is_day, list_of},
    reckoning::{FEWEST_HEIGHTS, FEWEST_SAMPLES, Height, PositionKey, ToolPosition, pull_minimum},
};

/// Samples that prove a tool's position. Each answer is read before the next question.
pub(super) fn prove(view: &JobView<'_>, answers: &[Reply]) -> Asked {
    match read_samples(view, &texts(answers)) {
        Ok(position) => Asked::Book(vec![position]),
        Err(question) => question,
    }
}

fn read_samples(view: &JobView<'_>, typed: &[&str]) -> Result<ToolPosition, Asked> {
    let state = view.state();
    let lead = state.items.lead_in_hand();
    let in_hand = lead.and_then(|lead| state.terminal_for(lead)).map(|terminal| &terminal.part);
    let wire_in_hand = lead.and_then(|lead| lead.wire_to_crimp());
    let mut left = typed.iter().copied();
    let mut answer = |question: String| left.next().ok_or_else(|| field(question));
    let tool = answer("PROVE a tool's position: tool with serial, comma, position?".to_owned())?;
    let (tool, position) = tool_and_position(tool).map_err(Asked::Wrong)?;
    let offer = in_hand.map_or(String::new(), |part| format!("; = {part}, of the lead in the hand"));
    let terminal: PartNumber =
        match (answer(format!("On which terminal? (its part number{offer})"))?, in_hand) {
            ("=", Some(part)) => part.clone(),
            (typed, _) => typed.parse().map_err(|why| Asked::Wrong(format!("{why}")))?,
        };
    let offer = wire_in_hand.map_or(String::new(), |wire| format!("; = {}", wire.both()));
    let wire: Gauge = match (answer(format!("On which wire? (mm² or AWG{offer})"))?, wire_in_hand) {
        ("=", Some(wire)) => wire.clone(),
        (typed, _) => typed.parse().map_err(|why| Asked::Wrong(format!("{why}")))?,
    };
    let sheet = sheet_of(view, &terminal, &wire);
    let told = sheet.map_or("NO sheet gives one for it".to_owned(), |sheet| format!("sheet {sheet}"));
    let heights =
        answer(format!("Conductor crimp heights of 3 samples or more, in mm, blanks between? ({told})"))?;
    let heights_mm = readings(heights, FEWEST_HEIGHTS).map_err(Asked::Wrong)?;
    let minimum = pull_minimum(state.world.rules.pull_standard.value, wire.area_mm2());
    let told = minimum.map_or("NO table has a least force for it".to_owned(), |(newton, source)| {
        format!("least {newton} N, {source}")
    });
    let pulls = answer(format!(
        "Forces at which 5 samples or more came off, insulation grip open, in N, blanks between? ({told})"
    ))?;
    let pulls_n = readings(pulls, FEWEST_SAMPLES).map_err(Asked::Wrong)?;
    let until = answer("Good until which day? (2027-03-31)".to_owned())?;
    if !is_day(until) {
        return Err(Asked::Wrong("Key the day as 2027-03-31.".to_owned()));
    }
    if until < view.today().as_str() {
        return Err(Asked::Wrong(format!("{until} is past.")));
    }
    Ok(ToolPosition {
        key: PositionKey { tool, position, terminal, wire },
        heights_mm,
        pulls_n,
        minimum_n: minimum.map(|(newton, source)| (newton, source.to_owned())),
        sheet,
        until: until.to_owned(),
        by: view.by.to_owned(),
        at: view.assessment.now,
        withdrawn: None,
    })
}

/// The height that the families of the job have for a terminal on a wire.
fn sheet_of(view: &JobView<'_>, terminal: &PartNumber, wire: &Gauge) -> Option<Height> {
    let (target_mm, tolerance_mm) =
        view.state().housings.terminal_named(terminal)?.height_for(wire.area_mm2())?;
    Some(Height { target_mm, tolerance_mm })
}

/// The tool and its position, as they are keyed with a comma between.
pub(super) fn tool_and_position(typed: &str) -> Result<(String, String), String> {
    let (tool, position) = typed.rsplit_once(',').ok_or("Key the tool, a comma, its position.")?;
    let (tool, position) = (tool.trim(), position.trim());
    if tool.is_empty() || position.is_empty() {
        return Err("Key the tool, a comma, its position.".to_owned());
    }
    Ok((tool.to_owned(), position.to_owned()))
}

/// Readings with blanks between them, each more than nothing.
fn readings(text: &str, fewest: usize) -> Result<Vec<f64>, String> {
    let reading = |typed: &str| {
        let number = typed.replace(',', ".").parse::<f64>().ok();
        number.filter(|n| n.is_finite() && *n > 0.0).ok_or(format!("\"{typed}\" is no reading."))
    };
    let read: Vec<f64> = text.split_whitespace().map(reading).collect::<Result<_, _>>()?;
    match read.len() < fewest {
        true => Err(format!("{} readings are too few: {fewest} or more.", read.len())),
        false => Ok(read),
    }
}

/// The crimps of this job that were made with a tool: they are looked at again.
fn crimped_with(view: &JobView<'_>, tool: &str) -> String {
    let state = view.state();
    let has_it = |lead: &&Lead| {
        let crimps = lead.repairs.iter().filter(|done| done.stands()).filter_map(|done| done.crimp.as_ref());
        crimps.filter_map(|crimp| crimp.tool.as_ref()).any(|used| used.eq_ignore_ascii_case(tool.trim()))
    };
    let calls: Vec<String> = state.items.leads.iter().filter(has_it).map(|lead| lead.call()).collect();
    match calls.as_slice() {
        [] => String::new(),
        calls => format!(" LOOK again at the crimps it made here: {}.", list_of(calls)),
    }
}

/// A tool that was dropped, is worn, or whose nest was changed: one position of it, or all.
pub(super) fn withdraw(view: &JobView<'_>, answers: &[Reply]) -> Asked {
    let typed = texts(answers);
    let Some(tool) = typed.first() else {
        return field("WITHDRAW which tool? With serial, and comma, position, where only that one goes");
    };
    // A comma may part the tool from a position, or belong to its name.
    let is_it = |position: &&ToolPosition| {
        let key = &position.key;
        let whole = format!("{}, {}", key.tool, key.position);
        key.tool.eq_ignore_ascii_case(tool.trim()) || whole.eq_ignore_ascii_case(tool.trim())
    };
    let today = view.today();
    let known: Vec<&ToolPosition> = view.tools.in_force(&today).filter(is_it).collect();
    match (known.as_slice(), typed.get(1)) {
        ([], _) => Asked::Wrong(format!("{tool} is not in the tool book.")),
        (_, None) => {
            field(format!("Why? It counts for nothing until it is proved anew.{}", crimped_with(view, tool)))
        }
        (known, Some(why)) => Asked::Book(
            known
                .iter()
                .map(|position| ToolPosition {
                    withdrawn: Some((*why).to_owned()),
                    by: view.by.to_owned(),
                    at: view.assessment.now,
                    ..(*position).clone()
                })
                .collect(),
        ),
    }
}
