//! The tool book at the bench: samples that prove a position, and a tool taken out of use.

use jiff::civil::Date;

use crate::{
    catalogue::PartNumber,
    job::Lead,
    quantity::Gauge,
    reckoning::{FEWEST_HEIGHTS, FEWEST_SAMPLES, Height, PositionKey, ToolPosition, pull_minimum},
};

use super::{Asked, Done, JobView, Kind, Replies, Stop, ToolQuestion, Typed};

/// The terminal and the wire of the lead in the hand, which = stands for.
pub fn in_hand<'a>(view: &JobView<'a>) -> (Option<&'a PartNumber>, Option<&'a Gauge>) {
    let state = view.state();
    let lead = state.items.lead_in_hand();
    let terminal = lead.and_then(|lead| state.terminal_for(lead)).map(|terminal| &terminal.part);
    (terminal, lead.and_then(Lead::wire_to_crimp))
}

/// Samples that prove a tool's position.
pub(super) fn prove(view: &JobView<'_>, replies: &mut Replies<'_>) -> Asked {
    let (terminal_in_hand, wire_in_hand) = in_hand(view);
    let (tool, position) = tool_and_position(replies.text(ToolQuestion::Which, Kind::Tool)?)?;
    let typed = replies.text(ToolQuestion::Terminal, Kind::Part)?;
    let terminal: PartNumber = match terminal_in_hand.filter(|_| typed.is_same()) {
        Some(part) => part.clone(),
        None => typed.parse_or_wrong()?,
    };
    let typed = replies.text(ToolQuestion::Wire, Kind::Size)?;
    let wire: Gauge = match wire_in_hand.filter(|_| typed.is_same()) {
        Some(wire) => wire.clone(),
        None => typed.parse_or_wrong()?,
    };
    let heights = ToolQuestion::Heights { terminal: terminal.clone(), wire: wire.clone() };
    let heights_mm = readings(replies.text(heights, Kind::Values)?, FEWEST_HEIGHTS)?;
    let pulls_n = readings(replies.text(ToolQuestion::Pulls(wire.clone()), Kind::Values)?, FEWEST_SAMPLES)?;
    let until = good_until(view, replies.text(ToolQuestion::Until, Kind::Day)?)?;
    Ok(Done::Book(vec![ToolPosition {
        heights_mm,
        pulls_n,
        minimum_n: least_force(view, &wire).map(|(newton, source)| (newton, source.to_owned())),
        sheet: sheet_of(view, &terminal, &wire),
        key: PositionKey { tool, position, terminal, wire },
        until,
        by: view.by.to_owned(),
        at: view.assessment.now,
        withdrawn: None,
    }]))
}

fn good_until(view: &JobView<'_>, typed: Typed<'_>) -> Result<Date, Stop> {
    let until = typed.day()?;
    match until < view.today() {
        true => Err(Stop::wrong(format!("{until} is past."))),
        false => Ok(until),
    }
}

/// The least force for a wire by the standard the shop goes by, and its source.
pub fn least_force(view: &JobView<'_>, wire: &Gauge) -> Option<(f64, &'static str)> {
    pull_minimum(view.state().world.rules.pull_standard.value, wire.area_mm2())
}

/// The height that the families of the job have for a terminal on a wire.
pub fn sheet_of(view: &JobView<'_>, terminal: &PartNumber, wire: &Gauge) -> Option<Height> {
    let (target_mm, tolerance_mm) =
        view.state().housings.terminal_named(terminal)?.height_for(wire.area_mm2())?;
    Some(Height { target_mm, tolerance_mm })
}

/// The tool and its position, as they are keyed with a comma between.
pub(super) fn tool_and_position(typed: Typed<'_>) -> Result<(String, String), Stop> {
    let parts = typed.as_str().rsplit_once(',').map(|(tool, position)| (tool.trim(), position.trim()));
    match parts {
        Some((tool, position)) if !tool.is_empty() && !position.is_empty() => {
            Ok((tool.to_owned(), position.to_owned()))
        }
        _ => Err(Stop::wrong("Key the tool, a comma, its position.")),
    }
}

/// Readings with blanks between them, each more than nothing.
fn readings(typed: Typed<'_>, fewest: usize) -> Result<Vec<f64>, Stop> {
    let reading = |typed: &str| {
        let number = typed.replace(',', ".").parse::<f64>().ok();
        number
            .filter(|n| n.is_finite() && *n > 0.0)
            .ok_or_else(|| Stop::wrong(format!("\"{typed}\" is no reading.")))
    };
    let read: Vec<f64> = typed.as_str().split_whitespace().map(reading).collect::<Result<_, _>>()?;
    match read.len() < fewest {
        true => Err(Stop::wrong(format!("{} readings are too few: {fewest} or more.", read.len()))),
        false => Ok(read),
    }
}

/// The leads of this job whose crimps were made with a tool: they are looked at again.
pub fn crimped_with<'a>(view: &JobView<'a>, tool: &str) -> Vec<&'a Lead> {
    let has_it = |lead: &&Lead| {
        let crimps = lead.repairs.iter().filter(|done| done.stands()).filter_map(|done| done.crimp.as_ref());
        crimps.filter_map(|crimp| crimp.tool.as_ref()).any(|used| used.eq_ignore_ascii_case(tool.trim()))
    };
    view.state().items.leads.iter().filter(has_it).collect()
}

/// A tool that was dropped, is worn, or whose nest was changed: one position of it, or all.
pub(super) fn withdraw(view: &JobView<'_>, replies: &mut Replies<'_>) -> Asked {
    let tool = replies.text(ToolQuestion::Withdraw, Kind::Tool)?.as_str();
    // A comma may part the tool from a position, or belong to its name.
    let is_it = |position: &&ToolPosition| {
        let key = &position.key;
        let whole = format!("{}, {}", key.tool, key.position);
        key.tool.eq_ignore_ascii_case(tool) || whole.eq_ignore_ascii_case(tool)
    };
    let today = view.today();
    let known: Vec<&ToolPosition> = view.tools.in_force(today).filter(is_it).collect();
    if known.is_empty() {
        return Err(Stop::wrong(format!("{tool} is not in the tool book.")));
    }
    let why = replies.text(ToolQuestion::WithdrawWhy(tool.to_owned()), Kind::Words)?;
    let withdrawn = |position: &ToolPosition| ToolPosition {
        withdrawn: Some(why.words()),
        by: view.by.to_owned(),
        at: view.assessment.now,
        ..position.clone()
    };
    Ok(Done::Book(known.into_iter().map(withdrawn).collect()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tool_is_named_with_its_position_and_readings_are_enough_and_more_than_nothing() {
        assert_eq!(tool_and_position(Typed("P-1 , B")).unwrap(), ("P-1".to_owned(), "B".to_owned()));
        for wrong in ["P-1", "P-1,", ", B"] {
            assert!(tool_and_position(Typed(wrong)).is_err(), "{wrong}");
        }
        assert_eq!(readings(Typed("1,12 1.13"), 2).unwrap(), [1.12, 1.13]);
        for wrong in ["1.12", "1.12 0", "1.12 low"] {
            assert!(readings(Typed(wrong), 2).is_err(), "{wrong}");
        }
    }
}
