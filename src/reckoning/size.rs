//! A replacement wire against the one it stands in for: copper by area, insulation by its
//! temperature class.

use crate::record::InsulationClass;

/// Within this of a limit, in per cent, the limit is met.
const SAME_PERCENT: f64 = 1e-9;

/// How the copper changes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SizeChange {
    /// The same or more.
    Kept,
    /// Less, within what the house lets pass: by how many per cent (negative).
    Warn(f64),
    /// Less than that, and the house lists the pair: by how many per cent.
    Approved(f64),
    /// Less than that: by how many per cent.
    Refused(f64),
}

/// Compares areas: never names, some chart pairs go down in area.
pub fn size_change(old_mm2: f64, new_mm2: f64, lowest_percent: f64, is_approved: bool) -> SizeChange {
    let percent = (new_mm2 / old_mm2 - 1.0) * 100.0;
    if percent >= -SAME_PERCENT {
        SizeChange::Kept
    } else if percent >= lowest_percent - SAME_PERCENT {
        SizeChange::Warn(percent)
    } else if is_approved {
        SizeChange::Approved(percent)
    } else {
        SizeChange::Refused(percent)
    }
}

/// How the temperature class changes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ClassChange {
    /// The same or higher.
    Kept,
    /// Lower.
    Lowered,
    /// One of them is not known.
    Unknown,
}

/// Compares classes.
pub fn class_change(old: Option<InsulationClass>, new: Option<InsulationClass>) -> ClassChange {
    match (old, new) {
        (Some(old), Some(new)) if new >= old => ClassChange::Kept,
        (Some(_), Some(_)) => ClassChange::Lowered,
        _ => ClassChange::Unknown,
    }
}
