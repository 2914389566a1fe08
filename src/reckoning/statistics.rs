//! Mean, scatter and capability of a sample, reckoned so that nothing cancels: readings of
//! 10 000 000.1 and 10 000 000.3 keep their scatter.

/// A sample of readings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sample {
    /// How many.
    pub n: usize,
    /// Their mean.
    pub mean: f64,
    /// Their standard deviation, with n − 1; none of one reading.
    pub s: Option<f64>,
    /// The lowest.
    pub lowest: f64,
    /// The highest.
    pub highest: f64,
}

/// How well a sample keeps to its limits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Capability {
    /// Width of the limits over six s.
    pub cp: f64,
    /// The nearer limit's distance from the mean over three s.
    pub cpk: f64,
}

impl Sample {
    /// The sample of these readings; none when there are none, or one is not a number.
    pub fn of(readings: &[f64]) -> Option<Self> {
        let first = *readings.first()?;
        if readings.iter().any(|x| !x.is_finite()) {
            return None;
        }
        let n = readings.len();
        // Shifted by the first reading, then corrected by what is left: twice is enough.
        let around = |centre: f64| sum(readings.iter().map(|x| x - centre)) / n as f64;
        let near = first + around(first);
        let rest = around(near);
        let squares = sum(readings.iter().map(|x| {
            let d = (x - near) - rest;
            d * d
        }));
        Some(Self {
            n,
            mean: near + rest,
            s: (n > 1).then(|| (squares / (n - 1) as f64).sqrt()),
            lowest: readings.iter().copied().fold(f64::INFINITY, f64::min),
            highest: readings.iter().copied().fold(f64::NEG_INFINITY, f64::max),
        })
    }

    /// Cp and Cpk between two limits; none without scatter.
    pub fn capability(&self, lower: f64, upper: f64) -> Option<Capability> {
        let s = self.s.filter(|s| *s > 0.0)?;
        let cpk = (upper - self.mean).min(self.mean - lower) / (3.0 * s);
        Some(Capability { cp: (upper - lower) / (6.0 * s), cpk })
    }
}

impl Capability {
    /// The normal quantile of a two-sided 95 %.
    pub const Z95: f64 = 1.959_963_984_540_054;

    /// Between which values Cpk lies, by Bissell's approximation.
    pub fn cpk_interval(&self, n: usize, z: f64) -> (f64, f64) {
        let n = n as f64;
        let half = z * (1.0 / (9.0 * n) + self.cpk * self.cpk / (2.0 * (n - 1.0))).sqrt();
        (self.cpk - half, self.cpk + half)
    }
}

/// A sum that carries what rounding loses (Neumaier).
fn sum(values: impl Iterator<Item = f64>) -> f64 {
    let (mut total, mut lost) = (0.0_f64, 0.0_f64);
    for value in values {
        let next = total + value;
        lost += if total.abs() >= value.abs() { (total - next) + value } else { (value - next) + total };
        total = next;
    }
    total + lost
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_reading_has_a_mean_and_no_scatter() {
        let one = Sample::of(&[1.23]).unwrap();
        assert_eq!((one.n, one.mean, one.s, one.lowest, one.highest), (1, 1.23, None, 1.23, 1.23));
        assert_eq!(one.capability(1.19, 1.29), None);
        assert_eq!(Sample::of(&[]), None);
        assert_eq!(Sample::of(&[1.0, f64::NAN]), None);
    }

    #[test]
    fn readings_that_are_all_the_same_have_no_capability() {
        assert_eq!(Sample::of(&[1.2; 5]).unwrap().capability(1.1, 1.3), None);
    }
}
