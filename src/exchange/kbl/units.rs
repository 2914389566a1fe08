//! Numbers with the unit the file gives them; a number whose unit is not one of ours stays text.

use roxmltree::Node;

use super::xml::{Tree, text};
use crate::quantity::{Gauge, Length};

/// A number as written, with the unit in words.
fn written<'a>(tree: &Tree<'a>, value: Node<'a, 'a>) -> Option<(f64, Option<Node<'a, 'a>>)> {
    let number = text(value, "Value_component")?.parse().ok()?;
    Some((number, tree.referred(value, "Unit_component").into_iter().next()))
}

/// The factor from a unit of the metre to mm, or to mm² where it is squared.
fn factor(unit: Node<'_, '_>, squared: bool) -> Option<f64> {
    let child =
        |name: &str| unit.children().find(|c| c.has_tag_name(name)).and_then(|c| c.text()).map(str::trim);
    if child("Si_unit_name") != Some("metre") || (child("Si_dimension") == Some("square")) != squared {
        return None;
    }
    let mm = match child("Si_prefix") {
        Some("milli") => 1.0,
        Some("centi") => 10.0,
        Some("micro") => 0.001,
        Some("kilo") => 1e6,
        Some(_) => return None,
        None => 1000.0,
    };
    Some(if squared { mm * mm } else { mm })
}

/// A conductor size, or the number as text with why it is not one.
pub(super) fn gauge<'a>(tree: &Tree<'a>, value: Node<'a, 'a>) -> Result<Gauge, String> {
    let Some((number, unit)) = written(tree, value) else { return Err("a size without a number".to_owned()) };
    let by_name = unit.and_then(|unit| text(unit, "Unit_name"));
    if by_name.is_some_and(|name| name.eq_ignore_ascii_case("awg")) {
        return format!("{number} AWG").parse().map_err(|_| format!("size {number} AWG"));
    }
    match unit.and_then(|unit| factor(unit, true)) {
        Some(to_mm2) => format!("{} mm²", number * to_mm2).parse().map_err(|_| format!("size {number}")),
        None => Err(format!("size {number} in the unit {}", by_name.unwrap_or("not known"))),
    }
}

/// A diameter.
pub(super) fn diameter<'a>(tree: &Tree<'a>, value: Node<'a, 'a>) -> Option<Length> {
    let (number, unit) = written(tree, value)?;
    let mm = number * factor(unit?, false)?;
    format!("{mm} mm").parse().ok().filter(|_| mm > 0.0)
}
