//! What a part looks like that has no number.

use crate::{
    catalogue::{Sealing, SizeName},
    job::{JobHousing, Lead},
    quantity::{Gauge, Length},
    supply::Looks,
};

/// How a part looks that goes into this housing.
pub(super) fn looks_of(new: &JobHousing, size: Option<&SizeName>, lead: Option<&Lead>) -> Looks {
    let housing = new.housing();
    let wires = lead.map_or(&[][..], |l| l.seen.wires.as_slice());
    Looks {
        size: size.map(ToString::to_string),
        gender: Some(housing.gender),
        gauges: wires.iter().filter_map(|w| w.gauge.known()).map(Gauge::both).collect(),
        colours: wires
            .iter()
            .filter_map(|w| w.colour.known())
            .map(|c| format!("{c} ({})", c.words()))
            .collect(),
        diameters: wires
            .iter()
            .filter_map(|w| w.outside_diameter.as_ref()?.known())
            .map(Length::both)
            .collect(),
        fits: housing.part.to_string(),
        sealing: match housing.sealing {
            Sealing::Individual => "a seal on every wire",
            Sealing::Mat { .. } => "mat seal",
            Sealing::Unsealed => "not sealed",
        }
        .to_owned(),
        place: new.name.to_string(),
    }
}
