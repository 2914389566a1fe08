//! What a repair lead has to be, beside its length, its conductor and its wire.

/// What a repair lead has to be.
#[derive(Debug, Clone, PartialEq)]
#[allow(missing_docs)]
pub struct LeadSpec {
    /// As reckoned, before it is rounded up.
    pub cut_mm: Option<f64>,
    pub tolerance: String,
    /// From where to where the length is measured.
    pub measured: String,
    pub area_mm2: Option<f64>,
    /// How much less copper that is than before, and who lets it pass; none where it is not less.
    pub less_copper: Option<String>,
    pub strands: Option<String>,
    pub colour: Option<String>,
    pub colour_words: Option<String>,
    pub other_colour: Option<bool>,
    pub insulation: Option<String>,
    pub class: Option<String>,
    pub wall: Option<String>,
    pub outside_diameter_mm: Option<f64>,
    pub twisted_with: Option<String>,
    pub lay_mm: Option<f64>,
    pub hand: Option<String>,
    pub shielded: bool,
    pub terminal: Option<String>,
    /// The cavity and the housing it goes into.
    pub fits: String,
    pub seal: Option<String>,
    pub seal_fitted: bool,
    pub other_end: Option<String>,
    pub splice: Option<String>,
    /// The wires it joins.
    pub joins: String,
    pub sleeve_mm: Option<f64>,
    pub sleeve_diameter_mm: Option<f64>,
    pub splice_included: Option<bool>,
    /// At both ends.
    pub label: String,
    pub crimp_record: Option<bool>,
    /// What it does not state yet.
    pub missing: Vec<String>,
}
