//! How long a repair lead is cut, and how long it is asked for.

/// A reckoned length this near to a full ten millimetres is that length.
const SAME_MM: f64 = 1e-6;

/// Leads are asked for in steps of this.
const STEP_MM: f64 = 10.0;

/// The twist a member of a pair has.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Twist {
    /// Outside diameter of one member.
    pub diameter_mm: f64,
    /// Length of one full turn.
    pub lay_mm: f64,
}

/// No pair is twisted tighter than this many diameters of its wires to a turn (common practice, no
/// source).
const TIGHTEST_LAY: f64 = 3.0;

impl Twist {
    /// Whether a wire can be twisted so.
    pub fn can_be(&self) -> bool {
        self.lay_mm >= TIGHTEST_LAY * self.diameter_mm
    }

    /// How much longer the wire is than the pair.
    pub fn take_up(&self) -> f64 {
        (std::f64::consts::PI * self.diameter_mm / self.lay_mm).hypot(1.0)
    }
}

/// A lead's length.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeadLength {
    /// Cut to this: terminal to the middle of the splice, slack included.
    pub cut_mm: f64,
    /// Asked for: the next full ten millimetres.
    pub order_mm: f64,
}

/// The length of a lead from the crimp to the middle of its splice: what lies inside the housing,
/// the way to the middle of the splice, slack for one more terminal, and what the new housing adds
/// to the way.
pub fn lead_length(
    inside_mm: f64,
    centre_mm: f64,
    slack_mm: f64,
    route_mm: f64,
    twist: Option<Twist>,
) -> LeadLength {
    let straight = inside_mm + centre_mm + slack_mm + route_mm;
    let cut_mm = straight * twist.map_or(1.0, |twist| twist.take_up());
    let steps = cut_mm / STEP_MM;
    let near = steps.round();
    let order_mm = if (steps - near).abs() * STEP_MM <= SAME_MM { near } else { steps.ceil() } * STEP_MM;
    LeadLength { cut_mm, order_mm }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_length_is_rounded_up_and_a_full_one_stays() {
        let length = |inside| lead_length(inside, 57.5, 25.0, 0.0, None);
        assert_eq!(length(18.0), LeadLength { cut_mm: 100.5, order_mm: 110.0 });
        assert_eq!(length(17.5).order_mm, 100.0);
        // 0.1 + 0.2 is not quite 0.3 to a computer.
        assert_eq!(lead_length(0.1 + 0.2, 9.7, 0.0, 0.0, None).order_mm, 10.0);
    }

    #[test]
    fn a_twisted_wire_is_longer_than_its_pair() {
        // Common practice, no source: d 1.6 mm, lay 25 mm takes up 2 %.
        let twist = Twist { diameter_mm: 1.6, lay_mm: 25.0 };
        assert!((twist.take_up() - 1.020).abs() < 5e-4);
    }
}
