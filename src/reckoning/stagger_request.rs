//! A plan of splices that is asked for.

/// A lead whose splice wants a place.
#[derive(Debug, Clone, PartialEq)]
pub struct LeadAsk {
    /// What it is called.
    pub circuit: String,
    /// How far behind the housing the damage reaches.
    pub damage_mm: f64,
    /// Length of the sleeve.
    pub sleeve_mm: f64,
    /// What the sleeve's far end may not pass.
    pub last_mm: f64,
    /// The gap this lead asks for, where it is more than the common one.
    pub gap_mm: Option<f64>,
}

/// A whole plan that is asked for. All lengths from the rear face along the wires.
#[derive(Debug, Clone, PartialEq)]
pub struct StaggerRequest {
    /// No splice starts before this.
    pub clearance_mm: f64,
    /// Between two sleeves.
    pub gap_mm: f64,
    /// Sound wire past the damage.
    pub margin_mm: f64,
    /// Stretches a sleeve may not overlap.
    pub keep_out_mm: Vec<(f64, f64)>,
    /// Splices already there: they keep their gap.
    pub existing_mm: Vec<(f64, f64)>,
    /// Splices made since, each with the gap it keeps itself.
    pub made_mm: Vec<(f64, f64, f64)>,
    /// The leads, at most twelve.
    pub leads: Vec<LeadAsk>,
}
