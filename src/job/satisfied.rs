//! Whether a cavity of the new side holds what it is to hold.

use super::{Occupant, target::Expected};

/// Whether a cavity of the new side holds what it is to hold.
pub fn is_satisfied(expected: &Expected, occupant: Option<&Occupant<'_>>, has_plug: bool) -> bool {
    match (expected, occupant) {
        (Expected::Leads(leads), Some(Occupant::Lead(lead))) => leads.contains(&lead.id),
        (Expected::Plug(_), Some(Occupant::Plug(_))) => true,
        // A plug behind a spare terminal fills a hole as well as a plug alone.
        (Expected::Plug(_) | Expected::SpareAndPlug, Some(Occupant::Other(_))) => has_plug,
        (Expected::Other(id), Some(Occupant::Other(other))) => other.id == *id,
        (Expected::Nothing | Expected::Blocked | Expected::Delivered, None) => true,
        (Expected::Leads(_), Some(Occupant::Plug(_) | Occupant::Other(_)) | None)
        | (Expected::Plug(_), Some(Occupant::Lead(_)) | None)
        | (Expected::SpareAndPlug | Expected::Other(_), Some(Occupant::Lead(_) | Occupant::Plug(_)) | None)
        | (Expected::Nothing | Expected::Blocked | Expected::Delivered, Some(_))
        | (Expected::MissingWire | Expected::MissingOther(_), _) => false,
    }
}
