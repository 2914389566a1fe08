//! The request as a document: JSON, and the RON file that `--send` writes.

use serde::{Deserialize, Serialize};
use serde_json::Value;

use super::{JobLine, Request, RequestHead};
use crate::{
    job::{RequestSeen, Ticket},
    supply::{Describe, LeadSpec, Line, PartKind, Substitute},
};

/// A request in a file or a JSON document. Absent values are null.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RequestForm {
    request: String,
    revision: u32,
    changed: bool,
    job: String,
    asset: Option<String>,
    serial: Option<String>,
    connector: Option<String>,
    asked_by: String,
    bench: Option<String>,
    deliver_to: Option<String>,
    needed_by: Option<String>,
    urgency: Option<String>,
    why: Option<String>,
    photos: Vec<String>,
    lines: Vec<LineForm>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct LineForm {
    pub(super) line: u32,
    #[serde(with = "super::form_back::words")]
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
    #[serde(with = "super::form_back::words")]
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

impl From<&LeadSpec> for LeadForm {
    fn from(s: &LeadSpec) -> Self {
        Self {
            quantity: 1,
            length_mm: s.length_mm,
            cut_mm: s.cut_mm,
            tolerance: s.tolerance.clone(),
            measured: s.measured.clone(),
            gauge: s.gauge.clone(),
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
            circuit: s.circuit.clone(),
            cavity: s.cavity.clone(),
            missing: s.missing.clone(),
        }
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

impl From<&Describe> for DescribeForm {
    fn from(d: &Describe) -> Self {
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
        Self {
            line: line.line,
            kind: line.kind,
            part: line.part.clone(),
            read_from: line.read_from.clone(),
            description: line.description.clone(),
            describe: line.describe.as_ref().map(Into::into),
            need: line.need,
            spare: line.spare,
            pack: line.pack,
            unit: "each".to_owned(),
            for_cavities: line.for_cavities.clone(),
            essential: line.essential,
            substitute: line.substitute,
            supplied_with: line.supplied_with.clone(),
            identified: line.part.is_some(),
            lead: line.lead.as_ref().map(Into::into),
            came: 0,
            wanted: line.need,
        }
    }
}

impl From<&JobLine> for LineForm {
    fn from(line: &JobLine) -> Self {
        Self { came: line.came, wanted: line.wanted(), ..Self::from(&line.asked) }
    }
}

impl From<&Request> for RequestForm {
    fn from(request: &Request) -> Self {
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
            urgency,
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
    /// The request as its entry in the job keeps it; none where that was written by version 1, which
    /// kept only what is waited for.
    pub fn sent(job: &str, ticket: &Ticket, sent: &RequestSeen) -> Option<Self> {
        let kept = sent.said.as_ref()?;
        let RequestHead { asked_by, bench, deliver_to, needed_by, urgency } = kept.head.clone();
        let lines = sent.lines.iter().map(|line| line.asked.as_deref().map(LineForm::from));
        Some(Self {
            request: sent.number.clone(),
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
            urgency,
            why: said(&kept.why),
            photos: kept.photos.clone(),
            lines: lines.collect::<Option<_>>()?,
        })
    }

    /// The same, with what has come for each line.
    pub fn with_what_came(mut self, came: impl Fn(u32) -> u32) -> Self {
        for line in &mut self.lines {
            line.came = came(line.line);
            line.wanted = line.need.saturating_sub(line.came);
        }
        self
    }

    /// The request as its file holds it: written again, it is still the change that was sent.
    pub fn as_sent(self) -> Self {
        Self { changed: true, ..self }
    }

    /// The part of a line, else what it is in words.
    pub fn part_of(&self, line: u32) -> Option<&str> {
        let line = self.lines.iter().find(|l| l.line == line)?;
        Some(line.part.as_deref().unwrap_or(&line.description))
    }

    /// Who asked.
    pub(super) fn asked_by(&self) -> &str {
        &self.asked_by
    }

    /// The part number of a line, where it has one.
    pub fn number_of(&self, line: u32) -> Option<&str> {
        self.lines.iter().find(|l| l.line == line)?.part.as_deref()
    }

    /// The highest line number ever given.
    pub(super) fn last_line(&self) -> u32 {
        self.lines.iter().map(|line| line.line).max().unwrap_or(0)
    }

    /// The head of the next revision: what the bench does not say anew stays as it was said.
    pub(super) fn head_for(&self, head: &RequestHead) -> RequestHead {
        let stays = |new: &Option<String>, old: &Option<String>| new.clone().or_else(|| old.clone());
        RequestHead {
            asked_by: head.asked_by.clone(),
            bench: stays(&head.bench, &self.bench),
            deliver_to: stays(&head.deliver_to, &self.deliver_to),
            needed_by: stays(&head.needed_by, &self.needed_by),
            urgency: stays(&head.urgency, &self.urgency),
        }
    }

    /// Whether the desk would deliver otherwise by this head; who asks is no difference.
    pub(super) fn head_differs(&self, head: &RequestHead) -> bool {
        let said = (&head.bench, &head.deliver_to, &head.needed_by, &head.urgency);
        said != (&self.bench, &self.deliver_to, &self.needed_by, &self.urgency)
    }

    /// The line for the same part that no other line took, and whether it asks for the same.
    pub(super) fn line_like(&self, line: &Line, taken: &[u32]) -> Option<(u32, bool)> {
        let form = LineForm::from(line);
        let home = |line: &LineForm| line.lead.as_ref().map(|lead| lead.cavity.clone());
        let same_part = |old: &&LineForm| {
            // A repair lead stays the same line however long it gets: it is for the same wire.
            let is_same = match line.kind {
                PartKind::Lead => home(old) == home(&form),
                _ => old.description == form.description,
            };
            old.kind == form.kind && old.part == form.part && is_same && !taken.contains(&old.line)
        };
        let old = self.lines.iter().find(same_part)?;
        Some((old.line, old.told_apart_from(&form).is_empty()))
    }

    /// What a line says otherwise than the one of the same number, each in words. What is told by
    /// description follows from the other fields.
    pub(super) fn changes(&self, line: &Line) -> Vec<String> {
        let old = self.lines.iter().find(|old| old.line == line.line);
        old.map_or_else(Vec::new, |old| old.told_apart_from(&LineForm::from(line)))
    }

    /// Lines that nothing asks for any more, with need 0, and whether that is new.
    pub(super) fn gone(&self, kept: &[u32]) -> Vec<(JobLine, bool)> {
        let gone = self.lines.iter().filter(|line| !kept.contains(&line.line));
        gone.map(|old| {
            let asked = Line {
                need: 0,
                spare: 0,
                describe: None,
                for_cavities: Vec::new(),
                essential: false,
                substitute: Substitute::None,
                lead: None,
                ..Line::from(old.clone())
            };
            let changes = if old.need > 0 { vec![format!("need was {}", old.need)] } else { Vec::new() };
            (JobLine { changes, ..JobLine::of(asked) }, old.need > 0 || old.spare > 0)
        })
        .collect()
    }
}

impl LineForm {
    /// What a line of a later revision says otherwise, each in words.
    fn told_apart_from(&self, later: &Self) -> Vec<String> {
        // What describes a repair lead follows from what is ordered.
        let plain = |line: &Self| match line.lead {
            Some(_) => Self { description: String::new(), describe: None, ..line.clone() },
            None => line.clone(),
        };
        let as_value = |line: &Self| serde_json::to_value(plain(line)).unwrap_or_default();
        let mut told = Vec::new();
        told_apart("", &as_value(self), &as_value(later), &mut told);
        told
    }
}

/// Fields that follow from others, or only number the line.
const FOLLOWING: [&str; 4] = ["line", "cut_mm", "came", "wanted"];

/// Names the fields that differ, with what stood there before.
fn told_apart(name: &str, old: &Value, new: &Value, told: &mut Vec<String>) {
    match (old, new) {
        (Value::Object(old), Value::Object(new)) => {
            for (field, value) in new.iter().filter(|(field, _)| !FOLLOWING.contains(&field.as_str())) {
                told_apart(field, old.get(field).unwrap_or(&Value::Null), value, told);
            }
        }
        (old, new) if old == new => {}
        (old, _) => {
            let (name, unit) = match name.strip_suffix("_mm") {
                Some(name) => (name, " mm"),
                None => (name, ""),
            };
            let name = name.replace('_', " ");
            told.push(match old {
                Value::Null => format!("{name} is said for the first time"),
                old => format!("{name} was {}{unit}", plain(old)),
            });
        }
    }
}

fn plain(value: &Value) -> String {
    match value {
        Value::String(text) => text.clone(),
        Value::Bool(true) => "yes".to_owned(),
        Value::Bool(false) => "no".to_owned(),
        Value::Number(number) => number.as_f64().map_or_else(|| number.to_string(), |n| n.to_string()),
        Value::Array(list) => list.iter().map(plain).collect::<Vec<_>>().join(", "),
        other => other.to_string(),
    }
}
