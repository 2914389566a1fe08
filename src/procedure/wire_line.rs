//! A lead typed on one line: `YE/BU 0.75 W104 saw valve B`, with `+` between the wires of one
//! terminal and `name=value` for what only some wires have.

use crate::{
    quantity::Length,
    record::{Known, LeadSeen, Seal, Wire, WireKind},
};

/// What may be added as `name=value`, for the help page.
pub const EXTRAS: &str = "od=1.9 (outside diameter) slack=60 damage=22 twin=12 (twisted with) untwisted=30 seal=missing cond=corrosion kind=bus";

/// The lead a line describes.
pub fn parse_wires(line: &str) -> Result<LeadSeen, String> {
    let mut lead = LeadSeen { wires: Vec::new(), terminal: None, seal: None, condition: None };
    for part in line.split('+') {
        let wire = parse_wire(part.trim(), &mut lead)?;
        lead.wires.push(wire);
    }
    Ok(lead)
}

fn parse_wire(text: &str, lead: &mut LeadSeen) -> Result<Wire, String> {
    let (extras, words): (Vec<&str>, Vec<&str>) =
        text.split_whitespace().partition(|word| word.contains('='));
    let mut words = words.into_iter();
    let (Some(colour), Some(gauge)) = (words.next(), words.next()) else {
        return Err("Key at least colour and gauge, as in YE/BU 0.75; ? where it is not known.".to_owned());
    };
    let number = words.next().filter(|word| *word != "-").map(ToOwned::to_owned);
    let circuit = words.collect::<Vec<_>>().join(" ");
    let mut wire = Wire {
        number,
        circuit: (!circuit.is_empty()).then_some(circuit),
        ..Wire::new(told(colour)?, told(gauge)?)
    };
    for extra in extras {
        add_extra(extra, &mut wire, lead)?;
    }
    Ok(wire)
}

fn told<T>(text: &str) -> Result<Known<T>, String>
where
    T: std::str::FromStr,
    T::Err: std::fmt::Display,
{
    match text {
        "?" => Ok(Known::Unknown),
        _ => text.parse().map(Known::Is).map_err(|why: T::Err| why.to_string()),
    }
}

fn length(value: &str) -> Result<Length, String> {
    value.parse().map_err(|why: crate::quantity::QuantityProblem| why.to_string())
}

fn add_extra(extra: &str, wire: &mut Wire, lead: &mut LeadSeen) -> Result<(), String> {
    let Some((name, value)) = extra.split_once('=') else { return Ok(()) };
    match name {
        "od" => wire.outside_diameter = Some(told(value)?),
        "slack" => wire.slack = Some(length(value)?),
        "damage" => wire.damage = Some(length(value)?),
        "untwisted" => wire.untwisted = Some(length(value)?),
        "twin" => {
            wire.twisted_with = Some(value.parse().map_err(|e: crate::quantity::TextProblem| e.to_string())?)
        }
        "cond" => lead.condition = Some(value.replace('_', " ")),
        "seal" => {
            lead.seal = Some(match value {
                "on" => Seal::On,
                "missing" => Seal::Missing,
                "none" => Seal::None,
                _ => return Err(format!("seal={value}: it is on, missing or none.")),
            });
        }
        "kind" => {
            wire.kind = match value {
                "bus" => WireKind::BusPair,
                "drain" => WireKind::Drain,
                "fusible" => WireKind::FusibleLink,
                "restraint" => WireKind::Restraint,
                "hv" => WireKind::HighVoltage,
                "coax" => WireKind::Coaxial,
                "thermocouple" => WireKind::Thermocouple,
                _ => {
                    return Err(format!(
                        "kind={value}: it is bus, drain, fusible, restraint, hv, coax or thermocouple."
                    ));
                }
            };
        }
        _ => return Err(format!("\"{name}=\" is not known: {EXTRAS}.")),
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_lead_is_typed_on_one_line() {
        let lead = parse_wires("ye/bu 0,75 W104 saw valve B slack=60 cond=green_corrosion").unwrap();
        let wire = lead.wires.first().unwrap();
        assert_eq!(wire.colour.to_string(), "YE/BU");
        assert_eq!((wire.number.as_deref(), wire.circuit.as_deref()), (Some("W104"), Some("saw valve B")));
        assert_eq!(lead.condition.as_deref(), Some("green corrosion"));
        assert_eq!(parse_wires("BN 0.75 W311a + BN 0.75 W311b").unwrap().wires.len(), 2);
        assert_eq!(parse_wires("? ?").unwrap().wires.first().unwrap().colour, Known::Unknown);
    }

    #[test]
    fn half_a_line_is_refused_with_what_is_wanted() {
        for bad in ["", "RD", "XX 0.5", "RD thick", "RD 0.5 w od=wide", "RD 0.5 w x=1"] {
            assert!(parse_wires(bad).is_err(), "{bad:?} was accepted");
        }
    }
}
