//! The wires of a cavity as they are keyed on one line.

use crate::record::{CavityContent, Known, Seal, Wire, WireKind};

/// The wires of one terminal on one line, as they are keyed.
pub(super) fn wires(content: &CavityContent) -> Option<String> {
    let lead = content.lead()?;
    let mut wires: Vec<String> = lead.wires.iter().map(wire).collect::<Option<_>>()?;
    if let Some(first) = wires.first_mut() {
        if lead.seal == Some(Seal::Missing) {
            first.push_str(" seal=missing");
        }
        if let Some(condition) = &lead.condition {
            first.push_str(&format!(" cond={}", condition.replace(' ', "_")));
        }
    }
    Some(wires.join(" + "))
}

/// A wire as it is keyed; none where its kind has no word.
fn wire(wire: &Wire) -> Option<String> {
    fn known<T: ToString>(value: &Known<T>) -> String {
        value.known().map_or("?".to_owned(), ToString::to_string)
    }
    let mut line = format!("{} {}", known(&wire.colour), known(&wire.gauge).replace(' ', ""));
    line.push_str(&format!(" {}", wire.number.as_deref().unwrap_or("-")));
    line.extend(wire.circuit.iter().map(|circuit| format!(" {circuit}")));
    line.extend(wire.twisted_with.iter().map(|label| format!(" twin={label}")));
    line.extend(wire.damage.iter().map(|mm| format!(" damage={}", mm.mm())));
    line.extend(wire.slack.iter().map(|mm| format!(" slack={}", mm.mm())));
    line.extend(wire.untwisted.iter().map(|mm| format!(" untwisted={}", mm.mm())));
    let kind = match wire.kind {
        WireKind::Ordinary => return Some(line),
        WireKind::BusPair => "bus",
        WireKind::Drain => "drain",
        WireKind::FusibleLink => "fusible",
        WireKind::Restraint => "restraint",
        WireKind::HighVoltage => "hv",
        WireKind::Coaxial => "coax",
        WireKind::Thermocouple => "thermocouple",
        WireKind::Interlock => return None,
    };
    Some(format!("{line} kind={kind}"))
}
