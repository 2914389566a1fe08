//! What a repair lead has to be, beside its length, its conductor and its wire.

/// What a repair lead has to be.
#[derive(Debug, Clone, PartialEq)]
pub struct LeadSpec {
    /// As reckoned, before it is rounded up.
    pub cut_mm: Option<f64>,
    /// How much longer or shorter it may come.
    pub tolerance: String,
    /// From where to where the length is measured.
    pub measured: String,
    /// Conductor area in mm².
    pub area_mm2: Option<f64>,
    /// How much less copper that is than before, and who lets it pass; none where it is not less.
    pub less_copper: Option<String>,
    /// Conductor and strands, in the bench's words.
    pub strands: Option<String>,
    /// The colour as a code, base first.
    pub colour: Option<String>,
    /// The same colour in words.
    pub colour_words: Option<String>,
    /// Whether another colour will do, with a label at both ends.
    pub other_colour: Option<bool>,
    /// Kind of insulation, in the bench's words.
    pub insulation: Option<String>,
    /// Temperature class with its degrees: `B (100 °C)`.
    pub class: Option<String>,
    /// Thickness of the insulation, in words.
    pub wall: Option<String>,
    /// Diameter over the insulation in mm.
    pub outside_diameter_mm: Option<f64>,
    /// The old cavity of the wire it is twisted with; none when it is no member of a pair.
    pub twisted_with: Option<String>,
    /// Length of one full turn of the pair in mm.
    pub lay_mm: Option<f64>,
    /// Which way the pair is twisted: left or right.
    pub hand: Option<String>,
    /// Whether it runs in a shield, with its drain.
    pub shielded: bool,
    /// Part number of the terminal; without one, any that `fits`.
    pub terminal: Option<String>,
    /// The cavity and the housing it goes into.
    pub fits: String,
    /// Part number of the wire seal that holds its insulation.
    pub seal: Option<String>,
    /// Whether it comes with a wire seal on: only where the housing is sealed wire by wire.
    pub seal_fitted: bool,
    /// How the end without terminal comes, in words.
    pub other_end: Option<String>,
    /// The splice and its sleeve, in the bench's words.
    pub splice: Option<String>,
    /// The wires it joins.
    pub joins: String,
    /// Length of the sleeve in mm.
    pub sleeve_mm: Option<f64>,
    /// Diameter over the sleeve in its place in mm.
    pub sleeve_diameter_mm: Option<f64>,
    /// Whether splice and sleeve come with it; if not, they have a line of their own.
    pub splice_included: Option<bool>,
    /// At both ends.
    pub label: String,
    /// Whether the record of its crimp is to come with it.
    pub crimp_record: Option<bool>,
    /// What it does not state yet.
    pub missing: Vec<String>,
}
