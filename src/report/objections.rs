//! What stands against a lead, a part on it, its crimp or its splice, in words.

use crate::{
    job::{CrimpFaults, Misfit, Objection, ShortLead, SpliceNear, ToolUsed, Undone, Unsound, WeakSample},
    quantity::{harmless, list_of},
};

use super::Words;

/// What is wrong, and what to do.
pub fn objection(objection: &Objection) -> Words {
    match objection {
        Objection::Unsound { lead, how } => unsound(lead, how),
        Objection::Undone { lead, what: Undone::Parting(wires) } => Words::new(
            format!("{} is in the terminal of {lead} and does not belong there.", wires.join(" and ")),
            "Cut it, insulate it and tie it back under a document; the wire that stays gets a new terminal.",
        ),
        Objection::Undone { lead, what: Undone::Thicker(meant_mm2) } => Words::new(
            format!("{lead} is thinner than the diagram has it ({meant_mm2:.2} mm²)."),
            "Plan a repair lead of the size that is drawn.",
        ),
        Objection::Misfit(what) => misfit(what),
    }
}

fn unsound(lead: &str, how: &Unsound) -> Words {
    match how {
        Unsound::Forced => Words::new(
            format!("{lead} came out with force: its crimp is suspect."),
            "Replace the terminal, or accept it by name.",
        ),
        Unsound::Recorded(condition) => Words::new(
            format!("{lead} was recorded with: {}.", harmless(condition.as_deref().unwrap_or("damaged"))),
            "Mend it, correct the record with what you see, or accept it by name.",
        ),
        Unsound::Damaged(damage) => Words::new(
            format!("{lead} is damaged up to {damage} mm behind the housing."),
            "Mend it, correct the record with what you see, or accept it by name.",
        ),
        Unsound::SealMissing => Words::new(
            format!("The seal of {lead} is missing."),
            "Look in the old cavity, and put a new seal on.",
        ),
        Unsound::Found(finding) => Words::new(
            format!("{lead} was found with: {}.", finding.words()),
            "Mend it, or accept it by name.",
        ),
        Unsound::NobodyElse(group) => {
            let among = if group.len() > 1 { format!(", one of {},", list_of(group)) } else { String::new() };
            Words::new(
                format!("{lead}{among} was not sound at the look beside an open hole."),
                "Mend it, or accept it by name.",
            )
        }
        Unsound::TriedWith(pin) => Words::new(
            format!("{lead} was tried with {pin}, which is no test pin for it."),
            "Try it with the pin of its own family and size; if that is loose, replace the terminal.",
        ),
        Unsound::Parted => Words::new(
            format!("A wire of {lead} was cut out of its terminal."),
            "A crimp made for two does not hold one: crimp a new terminal.",
        ),
    }
}

fn misfit(what: &Misfit) -> Words {
    match what {
        Misfit::TerminalSize { part, size, to, takes } => Words::new(
            format!("Terminal {part} is size {size}, and {to} takes size {takes}."),
            "Fit the terminal the cavity takes.",
        ),
        Misfit::OtherFamily { part, housing } => Words::new(
            format!("Terminal {part} is not of the family of {housing}."),
            "Fit a terminal of the family: another one clicks, and fails.",
        ),
        Misfit::NoTerminal { area_mm2, to } => Words::new(
            format!("{area_mm2:.3} mm² does not fit any terminal for {to}."),
            "Check the gauge, or map the wire to a cavity that takes it.",
        ),
        Misfit::NoSeal { diameter, to } => Words::new(
            format!("No seal of the family holds {} in {to}.", diameter.both()),
            "Measure the insulation again; seals follow the diameter, not the gauge.",
        ),
        Misfit::Part { part, to } => Words::new(
            format!("Part {part} is not one for {to}."),
            "Use a part of the housing's family, the cavity's size and its gender.",
        ),
        Misfit::Plating { part, new, old } => Words::new(
            format!("Terminal {part} is plated with {new}, the old one with {old}."),
            "Keep the plating: the mating half has the same.",
        ),
        Misfit::OtherWire { lead, own, claimed } => Words::new(
            format!("{lead} has {}, the crimp is said to be on {}.", own.both(), claimed.both()),
            "Measure the wire; correct its record if that is wrong.",
        ),
    }
}

/// What is wrong with a crimp to the eye, without a stop.
pub fn crimp_faults(faults: &CrimpFaults) -> String {
    let look = faults.look.iter().map(|fault| fault.words().to_owned());
    let strip = faults
        .strip
        .iter()
        .map(|(strip, asked)| format!("stripped {}, the sheet says {asked} mm", strip.both()));
    list_of(&look.chain(strip).collect::<Vec<_>>())
}

/// That a sample came off too early.
pub fn weak_sample(sample: &WeakSample) -> String {
    let WeakSample { tool, force_n, least_n, source } = sample;
    format!("The sample made with {} came off at {force_n} N, least {least_n} N ({source}).", tool_used(tool))
}

/// A tool and its position.
pub fn tool_used(used: &ToolUsed) -> String {
    let tool = used.tool.as_deref().unwrap_or("a tool not named");
    match &used.position {
        Some(position) => format!("{tool}, position {position}"),
        None => format!("{tool}, position not named"),
    }
}

/// What a splice comes too near to.
pub fn splice_near(lead: &str, near: &SpliceNear) -> String {
    match near {
        SpliceNear::Housing { start, clearance_mm } => format!(
            "The splice of {lead} starts {} behind the housing; {clearance_mm} mm must lie between.",
            start.both()
        ),
        SpliceNear::Damage { start, damage_mm, margin_mm } => format!(
            "The splice of {lead} starts {} behind the housing; the damage reaches {damage_mm} mm, and {margin_mm} mm of sound wire come first.",
            start.both()
        ),
        SpliceNear::KeptFree { from_mm, to_mm } => {
            format!("The splice of {lead} lies between {from_mm} and {to_mm} mm, where none may lie.")
        }
        SpliceNear::Last { end_mm, last_mm } => {
            format!("The sleeve of {lead} ends {end_mm} mm behind the housing; none may pass {last_mm} mm.")
        }
        SpliceNear::Splice { gap_mm, from_mm, to_mm } => format!(
            "The splice of {lead} lies less than {gap_mm} mm from the one at {from_mm} to {to_mm} mm."
        ),
    }
}

/// That a lead does not reach its splice.
pub fn short_lead(lead: &str, short: &ShortLead) -> String {
    let ShortLead { start, cut_mm, asked_mm } = short;
    format!(
        "A splice of {lead} that starts at {} needs a lead of {cut_mm:.1} mm; {asked_mm} mm were asked for.",
        start.both()
    )
}
