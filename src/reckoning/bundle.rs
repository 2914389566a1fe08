//! How thick a bundle of wires is: from a real packing, beside the rule of thumb.

use super::packing::pack;

/// A wire in the bundle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WirePlace {
    /// Its middle, from the middle of the bundle.
    pub x_mm: f64,
    /// The same, upwards.
    pub y_mm: f64,
    /// Its outside diameter.
    pub diameter_mm: f64,
}

/// A bundle.
#[derive(Debug, Clone, PartialEq)]
pub struct Bundle {
    /// The smallest circle found around the wires.
    pub diameter_mm: f64,
    /// The rule of thumb.
    pub rule_mm: f64,
    /// The share of the circle that wire fills.
    pub filled: f64,
    /// Where each wire lies, in the order given.
    pub places: Vec<WirePlace>,
}

/// 1.2 times the root of the sum of the squares (common practice, no source). Too small for 2 to 6
/// and for 9 and 10 equal wires.
pub fn rule_of_thumb_mm(wires_mm: &[f64]) -> f64 {
    1.2 * squares(wires_mm).sqrt()
}

fn squares(wires_mm: &[f64]) -> f64 {
    wires_mm.iter().map(|d| d * d).sum()
}

/// The bundle of wires with these outside diameters.
pub fn bundle_of(wires_mm: &[f64]) -> Bundle {
    let radii: Vec<f64> = wires_mm.iter().map(|d| d / 2.0).collect();
    let (discs, radius) = pack(&radii);
    // A hair more, so that no rounding makes it smaller than it can be.
    let diameter_mm = 2.0 * radius * (1.0 + 1e-12);
    let area = diameter_mm * diameter_mm;
    Bundle {
        diameter_mm,
        rule_mm: rule_of_thumb_mm(wires_mm),
        filled: if area > 0.0 { squares(wires_mm) / area } else { 0.0 },
        places: discs
            .into_iter()
            .zip(wires_mm)
            .map(|(disc, diameter_mm)| WirePlace { x_mm: disc.x, y_mm: disc.y, diameter_mm: *diameter_mm })
            .collect(),
    }
}

/// Largest outside diameter of thin-walled vehicle wire by its area in mm² (ISO 6722-1, from memory;
/// 0.75 to 10 mm² also read on a seller's sheet).
const THIN_WALL_MM: [(f64, f64); 13] = [
    (0.13, 1.05),
    (0.22, 1.2),
    (0.35, 1.4),
    (0.5, 1.6),
    (0.75, 1.9),
    (1.0, 2.1),
    (1.5, 2.4),
    (2.0, 2.8),
    (2.5, 3.0),
    (3.0, 3.4),
    (4.0, 3.7),
    (6.0, 4.3),
    (10.0, 6.0),
];

/// What a thin-walled wire of this area measures at most, where nobody measured it: that of the
/// listed size or of the next larger one.
pub fn thin_wall_mm(area_mm2: f64) -> Option<f64> {
    THIN_WALL_MM.iter().find(|(area, _)| *area >= area_mm2 - 1e-9).map(|(_, diameter)| *diameter)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(24))]

        #[test]
        fn no_two_wires_overlap_and_none_sticks_out(wires in prop::collection::vec(0.5..8.0_f64, 1..12)) {
            let bundle = bundle_of(&wires);
            for (n, one) in bundle.places.iter().enumerate() {
                prop_assert_eq!(one.diameter_mm, wires[n]);
                let out = one.x_mm.hypot(one.y_mm) + one.diameter_mm / 2.0;
                prop_assert!(out <= bundle.diameter_mm / 2.0 + 1e-9);
                for other in &bundle.places[..n] {
                    let apart = (one.x_mm - other.x_mm).hypot(one.y_mm - other.y_mm);
                    prop_assert!(apart >= (one.diameter_mm + other.diameter_mm) / 2.0 - 1e-9);
                }
            }
            prop_assert!(bundle.filled <= 1.0 + 1e-12);
        }
    }

    #[test]
    fn two_unlike_wires_lie_side_by_side() {
        assert!((bundle_of(&[1.0, 3.0]).diameter_mm - 4.0).abs() < 1e-6);
        // Once came out a hair smaller than the two wires are wide.
        let (thick, thin) = (5.573018581775725, 3.541863205542529);
        assert!(bundle_of(&[thick, thin]).diameter_mm >= thick + thin);
        assert!((bundle_of(&[2.5]).diameter_mm - 2.5).abs() < 1e-9);
        assert_eq!(bundle_of(&[]).diameter_mm, 0.0);
    }
}
