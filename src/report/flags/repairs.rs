//! Flags on crimps and on what is planned and ordered for a lead.

use crate::{
    job::{CrimpCause, OrderCause},
    report::{
        Words,
        objections::{crimp_faults, tool_used, weak_sample},
        refusals::not_plannable,
    },
};

pub(super) fn crimp(lead: &str, what: &CrimpCause) -> Words {
    match what {
        CrimpCause::NoRecord => Words::new(
            format!("The crimp on {lead} has no record: height not verified."),
            "Measure it and make its record, or accept it by name.",
        ),
        CrimpCause::HeightOut { height, sheet } => Words::new(
            format!("The crimp on {lead} measures {}; its sheet says {sheet}.", height.both()),
            "Cut it off and crimp again.",
        ),
        CrimpCause::NotMeasured => Words::new(
            format!("The crimp on {lead} was not measured: height not verified."),
            "Measure the conductor crimp, blade one side, point the other, or accept it by name.",
        ),
        CrimpCause::NoSheet => Words::new(
            format!("No sheet gives a height for the terminal and wire of {lead}: height not verified."),
            "Find the terminal's sheet, or accept it by name.",
        ),
        CrimpCause::Faults(faults) => Words::new(
            format!("The crimp on {lead}: {}.", crimp_faults(faults)),
            "Cut it off and crimp again.",
        ),
        CrimpCause::WeakSample(sample) => {
            Words::new(weak_sample(sample), "Withdraw the position and crimp again, or accept it by name.")
        }
        CrimpCause::OtherSize { made_for, now } => Words::new(
            format!(
                "The crimp on {lead} was made for {}; the wire has {}: its position is proved for another wire.",
                made_for.both(),
                now.both()
            ),
            "Crimp again for this wire, or accept it by name.",
        ),
        CrimpCause::NotProved { tool, book } => {
            let told = book.as_ref().map_or("not looked up".to_owned(), ToString::to_string);
            Words::new(
                format!("The crimp on {lead} was made with {}: {told}.", tool_used(tool)),
                "Qualify the position and crimp again, or accept it by name.",
            )
        }
    }
}

pub(super) fn order(lead: &str, what: &OrderCause) -> Words {
    match what {
        OrderCause::NotAllowed(why) => not_plannable(why),
        OrderCause::UntwistedAsFound { length, limit_mm, source } => Words::new(
            format!("{lead} is untwisted over {}; {limit_mm} mm are let pass ({source}).", length.both()),
            "Twist the pair again up to its terminals and correct the record.",
        ),
        OrderCause::Stale { asked_mm, needs_mm } => Words::new(
            format!(
                "The lead for {lead} was asked for with {asked_mm} mm; its splice has moved, and it needs {needs_mm:.0} mm now."
            ),
            "Send the request again, and tell the desk that the first one is too short.",
        ),
        OrderCause::Drop { drop_v, percent, limit_percent, source } => Words::new(
            format!(
                "The circuit of {lead} loses {drop_v:.2} V ({percent:.1} %) with its lead in it; {limit_percent} % are let pass ({source})."
            ),
            "Order a larger lead, or hold it against the machine's manual and accept it by name.",
        ),
        OrderCause::TerminalTakes { terminal, gauge, wire_mm2: (least, most) } => Words::new(
            format!(
                "Does terminal {terminal} take {}, ordered for {lead}? Its sheet says {least} to {most} mm².",
                gauge.both()
            ),
            "Order a size it takes, or name a terminal that takes it.",
        ),
        OrderCause::SharedHole => Words::new(
            format!("The wires of {lead} share one sealed hole: water runs in between them."),
            "Join them behind the seal and run one lead, or accept it by name.",
        ),
    }
}
