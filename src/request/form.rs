//! The request as a document: JSON, and the RON file that `--send` writes.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::what::WhatForm;
use crate::{
    job::{
        Ticket,
        needs::{JobLine, JobRequest},
    },
    report::description,
    supply::{LeadSpec, LeadWanted, Line, Looks, PartKind, Request, RequestHead, Substitute, Urgency},
};

/// A request in a file or a JSON document. Absent values are null.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RequestForm {
    pub(super) request: String,
    pub(super) revision: u32,
    changed: bool,
    job: String,
    asset: Option<String>,
    serial: Option<String>,
    connector: Option<String>,
    pub(super) asked_by: String,
    pub(super) bench: Option<String>,
    pub(super) deliver_to: Option<String>,
    #[serde(with = "super::values::day")]
    pub(super) needed_by: Option<Date>,
    pub(super) urgency: Option<String>,
    pub(super) why: Option<String>,
    pub(super) photos: Vec<String>,
    pub(super) lines: Vec<LineForm>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct LineForm {
    pub(super) line: u32,
    #[serde(with = "super::values::words")]
    pub(super) kind: PartKind,
    pub(super) part: Option<String>,
    pub(super) read_from: Option<String>,
    pub(super) description: String,
    pub(super) describe: Option<DescribeForm>,
    pub(super) need: u32,
    pub(super) spare: u32,
    pub(super) pack: Option<u32>,
    pub(super) unit: String,
    #[serde(rename = "for")]
    pub(super) for_cavities: Vec<String>,
    pub(super) essential: bool,
    #[serde(with = "super::values::words")]
    pub(super) substitute: Substitute,
    pub(super) supplied_with: Option<String>,
    pub(super) identified: bool,
    /// What a repair lead has to be.
    pub(super) lead: Option<LeadForm>,
    /// How many came until then; the rest of the need is still wanted.
    #[serde(default)]
    pub(super) came: u32,
    #[serde(default)]
    pub(super) wanted: u32,
    /// What it is as data, where an entry of the job keeps it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) what: Option<Box<WhatForm>>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct LeadForm {
    pub(super) quantity: u32,
    pub(super) length_mm: Option<f64>,
    pub(super) cut_mm: Option<f64>,
    pub(super) tolerance: String,
    pub(super) measured: String,
    pub(super) gauge: Option<String>,
    pub(super) area_mm2: Option<f64>,
    pub(super) less_copper: Option<String>,
    pub(super) strands: Option<String>,
    pub(super) colour: Option<String>,
    pub(super) colour_words: Option<String>,
    pub(super) other_colour: Option<bool>,
    pub(super) insulation: Option<String>,
    pub(super) class: Option<String>,
    pub(super) wall: Option<String>,
    pub(super) outside_diameter_mm: Option<f64>,
    pub(super) twisted_with: Option<String>,
    pub(super) lay_mm: Option<f64>,
    pub(super) hand: Option<String>,
    pub(super) shielded: bool,
    pub(super) terminal: Option<String>,
    pub(super) fits: String,
    pub(super) seal: Option<String>,
    pub(super) seal_fitted: bool,
    pub(super) other_end: Option<String>,
    pub(super) splice: Option<String>,
    pub(super) joins: Option<String>,
    pub(super) sleeve_mm: Option<f64>,
    pub(super) sleeve_diameter_mm: Option<f64>,
    pub(super) splice_included: Option<bool>,
    pub(super) label: String,
    pub(super) crimp_record: Option<bool>,
    pub(super) circuit: String,
    pub(super) cavity: String,
    pub(super) missing: Vec<String>,
}

impl LeadForm {
    /// A repair lead; none once nothing asks for it any more.
    fn of(lead: &LeadWanted) -> Option<Self> {
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
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct DescribeForm {
    pub(super) size: Option<String>,
    pub(super) gender: Option<String>,
    pub(super) gauges: Vec<String>,
    pub(super) colours: Vec<String>,
    pub(super) diameters: Vec<String>,
    pub(super) fits: String,
    pub(super) sealing: String,
    pub(super) place: String,
}

impl From<&Looks> for DescribeForm {
    fn from(d: &Looks) -> Self {
        Self {
            size: d.size.clone(),
            gender: d.gender.map(|gender| gender.word().to_owned()),
            gauges: d.gauges.clone(),
            colours: d.colours.clone(),
            diameters: d.diameters.clone(),
            fits: d.fits.clone(),
            sealing: d.sealing.clone(),
            place: d.place.clone(),
        }
    }
}

impl From<&Line> for LineForm {
    fn from(line: &Line) -> Self {
        let number = line.wanted.number();
        Self {
            line: line.line,
            kind: line.kind(),
            part: number.map(ToString::to_string),
            read_from: line.wanted.read_from(),
            description: description(&line.wanted),
            describe: line.wanted.looks().map(Into::into),
            need: line.amount.need,
            spare: line.amount.spare,
            pack: line.amount.pack,
            unit: "each".to_owned(),
            for_cavities: line.used_for.iter().map(ToString::to_string).collect(),
            essential: line.essential,
            substitute: line.substitute,
            supplied_with: line.supplied_with.as_ref().map(ToString::to_string),
            identified: number.is_some(),
            lead: line.wanted.lead().and_then(LeadForm::of),
            came: 0,
            wanted: line.amount.need,
            what: None,
        }
    }
}

impl From<&JobLine> for LineForm {
    fn from(line: &JobLine) -> Self {
        let (came, wanted) = (line.counts.arrived(), line.counts.still_wanted());
        Self { came, wanted, ..Self::from(&line.asked) }
    }
}

impl LineForm {
    /// A line as an entry of the job keeps it: with what it is as data, so that no words are compared.
    pub(crate) fn kept(line: &Line) -> Self {
        Self { what: WhatForm::of(&line.wanted).map(Box::new), ..Self::from(line) }
    }
}

impl From<&JobRequest> for RequestForm {
    fn from(request: &JobRequest) -> Self {
        let RequestHead { asked_by, bench, deliver_to, needed_by, urgency } = request.head.clone();
        Self {
            request: request.number.to_string(),
            revision: request.revision,
            changed: request.changed,
            job: request.job.clone(),
            asset: said(&request.ticket.asset),
            serial: said(&request.ticket.serial),
            connector: said(&request.ticket.connector),
            asked_by,
            bench,
            deliver_to,
            needed_by,
            urgency: urgency.as_ref().map(Urgency::to_string),
            why: said(&request.why),
            photos: request.photos.clone(),
            lines: request.lines.iter().map(Into::into).collect(),
        }
    }
}

fn said(text: &str) -> Option<String> {
    (!text.trim().is_empty()).then(|| text.to_owned())
}

impl RequestForm {
    /// The request that was sent last, with what has come for each line: still the change that was sent.
    pub fn sent(job: &str, ticket: &Ticket, sent: &Request, came: impl Fn(u32) -> u32) -> Self {
        let RequestHead { asked_by, bench, deliver_to, needed_by, urgency } = sent.head.clone();
        let lines = sent.lines.iter().map(|line| {
            let came = came(line.line);
            LineForm { came, wanted: line.amount.need.saturating_sub(came), ..LineForm::from(line) }
        });
        Self {
            request: sent.number.to_string(),
            revision: sent.revision,
            changed: true,
            job: job.to_owned(),
            asset: said(&ticket.asset),
            serial: said(&ticket.serial),
            connector: said(&ticket.connector),
            asked_by,
            bench,
            deliver_to,
            needed_by,
            urgency: urgency.as_ref().map(Urgency::to_string),
            why: said(&sent.why),
            photos: sent.photos.clone(),
            lines: lines.collect(),
        }
    }

    /// The request as its file holds it: written again, it is still the change that was sent.
    pub fn as_sent(self) -> Self {
        Self { changed: true, ..self }
    }

    /// The text of the file `--send` writes.
    pub fn to_ron(&self) -> Result<String, ron::Error> {
        crate::catalogue::ron_options().to_string_pretty(self, ron::ser::PrettyConfig::new().depth_limit(2))
    }
}

/// A request as `--send` wrote it.
pub fn read_request(text: &str) -> Result<RequestForm, ron::error::SpannedError> {
    crate::catalogue::ron_options().from_str(text.trim_start_matches('\u{feff}'))
}
