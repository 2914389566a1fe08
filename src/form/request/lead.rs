//! A repair lead on a line: what it has to be, with every value the maker needs.

use serde::{Deserialize, Serialize};

use super::super::mirror::read_field;
use crate::{
    catalogue::FieldFinding,
    supply::{LeadSpec, LeadWanted},
};

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct LeadForm {
    quantity: u32,
    length_mm: Option<f64>,
    cut_mm: Option<f64>,
    tolerance: String,
    measured: String,
    gauge: Option<String>,
    area_mm2: Option<f64>,
    less_copper: Option<String>,
    strands: Option<String>,
    colour: Option<String>,
    colour_words: Option<String>,
    other_colour: Option<bool>,
    insulation: Option<String>,
    class: Option<String>,
    wall: Option<String>,
    outside_diameter_mm: Option<f64>,
    twisted_with: Option<String>,
    lay_mm: Option<f64>,
    hand: Option<String>,
    shielded: bool,
    terminal: Option<String>,
    fits: String,
    seal: Option<String>,
    seal_fitted: bool,
    other_end: Option<String>,
    splice: Option<String>,
    joins: Option<String>,
    sleeve_mm: Option<f64>,
    sleeve_diameter_mm: Option<f64>,
    splice_included: Option<bool>,
    label: String,
    crimp_record: Option<bool>,
    circuit: String,
    cavity: String,
    missing: Vec<String>,
}

impl LeadForm {
    /// A repair lead; none once nothing asks for it any more.
    pub(super) fn of(lead: &LeadWanted) -> Option<Self> {
        let s: &LeadSpec = lead.spec.as_deref()?;
        Some(Self {
            quantity: 1,
            length_mm: lead.length_mm,
            cut_mm: s.cut_mm,
            tolerance: s.tolerance.clone(),
            measured: s.measured.clone(),
            gauge: lead.gauge.clone(),
            area_mm2: s.area_mm2,
            less_copper: s.less_copper.clone(),
            strands: s.strands.clone(),
            colour: s.colour.clone(),
            colour_words: s.colour_words.clone(),
            other_colour: s.other_colour,
            insulation: s.insulation.clone(),
            class: s.class.clone(),
            wall: s.wall.clone(),
            outside_diameter_mm: s.outside_diameter_mm,
            twisted_with: s.twisted_with.clone(),
            lay_mm: s.lay_mm,
            hand: s.hand.clone(),
            shielded: s.shielded,
            terminal: s.terminal.clone(),
            fits: s.fits.clone(),
            seal: s.seal.clone(),
            seal_fitted: s.seal_fitted,
            other_end: s.other_end.clone(),
            splice: s.splice.clone(),
            joins: Some(s.joins.clone()),
            sleeve_mm: s.sleeve_mm,
            sleeve_diameter_mm: s.sleeve_diameter_mm,
            splice_included: s.splice_included,
            label: s.label.clone(),
            crimp_record: s.crimp_record,
            circuit: lead.circuit.clone(),
            cavity: lead.home.to_string(),
            missing: s.missing.clone(),
        })
    }

    /// The lead a request of an earlier version asks for.
    pub(super) fn told(self) -> Result<LeadWanted, FieldFinding> {
        Ok(LeadWanted {
            home: read_field("cavity", self.cavity.clone())?,
            circuit: self.circuit.clone(),
            length_mm: self.length_mm,
            gauge: self.gauge.clone(),
            sealed: self.seal_fitted,
            spec: Some(Box::new(self.into())),
        })
    }
}

impl From<LeadForm> for LeadSpec {
    fn from(form: LeadForm) -> Self {
        Self {
            cut_mm: form.cut_mm,
            tolerance: form.tolerance,
            measured: form.measured,
            area_mm2: form.area_mm2,
            less_copper: form.less_copper,
            strands: form.strands,
            colour: form.colour,
            colour_words: form.colour_words,
            other_colour: form.other_colour,
            insulation: form.insulation,
            class: form.class,
            wall: form.wall,
            outside_diameter_mm: form.outside_diameter_mm,
            twisted_with: form.twisted_with,
            lay_mm: form.lay_mm,
            hand: form.hand,
            shielded: form.shielded,
            terminal: form.terminal,
            fits: form.fits,
            seal: form.seal,
            seal_fitted: form.seal_fitted,
            other_end: form.other_end,
            splice: form.splice,
            joins: form.joins.unwrap_or_default(),
            sleeve_mm: form.sleeve_mm,
            sleeve_diameter_mm: form.sleeve_diameter_mm,
            splice_included: form.splice_included,
            label: form.label,
            crimp_record: form.crimp_record,
            missing: form.missing,
        }
    }
}
