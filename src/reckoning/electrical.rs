//! Resistance and voltage drop of copper wire at the temperature of the place.

use crate::quantity::Gauge;

/// Resistance at 20 °C of one metre of flexible copper, in milliohm, by conductor area in mm².
/// IEC 60228 class 5, plain (read in four concordant tables).
const CLASS_5_MOHM_PER_M: [(f64, f64); 10] = [
    (0.5, 39.0),
    (0.75, 26.0),
    (1.0, 19.5),
    (1.5, 13.3),
    (2.5, 7.98),
    (4.0, 4.95),
    (6.0, 3.30),
    (10.0, 1.91),
    (16.0, 1.21),
    (25.0, 0.780),
];

/// Resistivity of annealed copper at 20 °C (IEC 60028): 1/58 Ω·mm²/m.
const RHO_OHM_MM2_PER_M: f64 = 1.0 / 58.0;

/// How much more than ρ/A a stranded wire has: just above the largest ratio in the table (1.157).
const STRANDING: f64 = 1.16;

/// Change of copper's resistance per kelvin, about 20 °C.
const ALPHA_PER_K: f64 = 0.003_93;

/// A length of copper wire at a temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Copper {
    /// Conductor area.
    pub area_mm2: f64,
    /// Resistance of one metre at that temperature.
    pub ohm_per_m: f64,
    /// Resistance of the length.
    pub resistance_ohm: f64,
    /// Where the resistance comes from.
    pub source: &'static str,
}

impl Copper {
    /// The voltage lost at this current.
    pub fn drop_v(&self, current_a: f64) -> f64 {
        self.resistance_ohm * current_a
    }
}

/// What a length of wire has at a conductor temperature.
pub fn copper(wire: &Gauge, length_mm: f64, conductor_c: f64) -> Copper {
    let area_mm2 = wire.area_mm2();
    let listed = CLASS_5_MOHM_PER_M.iter().find(|(area, _)| (area - area_mm2).abs() < 1e-9);
    let (at_20, source) = match listed {
        Some((_, mohm)) => (mohm / 1000.0, "IEC 60228 class 5, plain copper"),
        None => (STRANDING * RHO_OHM_MM2_PER_M / area_mm2, "1.16 times 1/58 ohm mm² per m over the area"),
    };
    let ohm_per_m = at_20 * (1.0 + ALPHA_PER_K * (conductor_c - 20.0));
    Copper { area_mm2, ohm_per_m, resistance_ohm: ohm_per_m * length_mm / 1000.0, source }
}

/// A drop in per cent of the supply.
pub fn of_supply_percent(drop_v: f64, supply_v: f64) -> f64 {
    drop_v / supply_v * 100.0
}
