//! The least force a crimp sample has to stand, in newton. The terminal's own sheet goes first;
//! without one the shop says which of these standards it works to.

use crate::shop_rules::PullStandard;

impl PullStandard {
    /// Its name, and how its figures are known.
    pub fn source(self) -> &'static str {
        match self {
            Self::SaeAs7928 => "SAE AS7928 table II, read in a pull-tester maker's table",
            Self::Iec60352 => "IEC 60352-2, read in a pull-tester maker's table",
            Self::Ul486c => "UL 486C, read in a pull-tester maker's table",
        }
    }
}

/// Area in mm² as the table prints it, AWG beside it, then SAE AS7928, IEC 60352-2 and UL 486C.
pub const PULL_MINIMUMS: [(f64, u8, [Option<f64>; 3]); 11] = [
    (0.06, 30, [None, Some(6.0), Some(6.0)]),
    (0.09, 28, [None, Some(11.0), Some(11.0)]),
    (0.14, 26, [Some(32.0), Some(18.0), Some(18.0)]),
    (0.22, 24, [Some(45.0), Some(28.0), Some(28.0)]),
    (0.34, 22, [Some(67.0), Some(40.0), Some(40.0)]),
    (0.56, 20, [Some(85.0), Some(60.0), Some(45.0)]),
    (0.93, 18, [Some(170.0), Some(90.0), Some(45.0)]),
    (1.25, 16, [Some(223.0), Some(135.0), Some(68.0)]),
    (1.93, 14, [Some(312.0), Some(200.0), Some(100.0)]),
    (3.16, 12, [Some(490.0), Some(275.0), Some(138.0)]),
    (4.65, 10, [None, Some(355.0), None]),
];

/// IEC 60352-2 by mm², a finer list (from memory; where a row stands in the table above, too, they
/// agree). The table ends at 4.65 mm², and is coarse: 1.0 mm² is nearest to its row for 0.93.
pub const IEC_BY_AREA: [(f64, f64); 9] = [
    (0.25, 32.0),
    (0.5, 60.0),
    (0.75, 85.0),
    (1.0, 108.0),
    (1.5, 150.0),
    (2.5, 230.0),
    (4.0, 310.0),
    (6.0, 360.0),
    (10.0, 380.0),
];

/// A wire is read in the row that is nearest in area, when that is no further off than this. The
/// table's own areas are nominal: 22 AWG (0.326 mm²) stands at 0.34.
const NEAREST_WITHIN: f64 = 1.35;

/// The least force for a wire of this area, and whose it is; none where no table goes.
pub fn pull_minimum(standard: PullStandard, area_mm2: f64) -> Option<(f64, &'static str)> {
    let by_area = IEC_BY_AREA.iter().find(|(area, _)| (area - area_mm2).abs() < 1e-6);
    match by_area.filter(|_| standard == PullStandard::Iec60352) {
        Some((_, newton)) => Some((*newton, "IEC 60352-2 by mm², from memory")),
        None => in_table(standard, area_mm2).map(|newton| (newton, standard.source())),
    }
}

fn in_table(standard: PullStandard, area_mm2: f64) -> Option<f64> {
    let column = match standard {
        PullStandard::SaeAs7928 => 0,
        PullStandard::Iec60352 => 1,
        PullStandard::Ul486c => 2,
    };
    let off = |row: &(f64, u8, [Option<f64>; 3])| (row.0 / area_mm2).ln().abs();
    let nearest = PULL_MINIMUMS.iter().min_by(|a, b| off(a).total_cmp(&off(b)))?;
    let (_, _, forces) = Some(nearest).filter(|row| off(row) <= NEAREST_WITHIN.ln())?;
    forces.get(column).copied().flatten()
}
