//! The request as a document: JSON, and the RON file that `--send` writes.

use serde::{Deserialize, Serialize};
use serde_json::Value;

use super::{Describe, Kind, LeadSpec, Line, Request, RequestHead};

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
struct LineForm {
    line: u32,
    kind: String,
    part: Option<String>,
    read_from: Option<String>,
    description: String,
    describe: Option<DescribeForm>,
    need: u32,
    spare: u32,
    pack: Option<u32>,
    unit: String,
    #[serde(rename = "for")]
    for_cavities: Vec<String>,
    essential: bool,
    substitute: String,
    supplied_with: Option<String>,
    identified: bool,
    /// What a repair lead has to be.
    lead: Option<LeadForm>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct LeadForm {
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

impl From<&LeadSpec> for LeadForm {
    fn from(s: &LeadSpec) -> Self {
        Self {
            quantity: 1,
            length_mm: s.length_mm,
            cut_mm: s.cut_mm,
            tolerance: s.tolerance.to_owned(),
            measured: s.measured.to_owned(),
            gauge: s.gauge.clone(),
            area_mm2: s.area_mm2,
            less_copper: s.less_copper.clone(),
            strands: s.strands.clone(),
            colour: s.colour.clone(),
            colour_words: s.colour_words.clone(),
            other_colour: s.other_colour,
            insulation: s.insulation.clone(),
            class: s.class.clone(),
            wall: s.wall.map(ToOwned::to_owned),
            outside_diameter_mm: s.outside_diameter_mm,
            twisted_with: s.twisted_with.clone(),
            lay_mm: s.lay_mm,
            hand: s.hand.map(ToOwned::to_owned),
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
struct DescribeForm {
    size: Option<String>,
    gender: Option<String>,
    gauges: Vec<String>,
    colours: Vec<String>,
    diameters: Vec<String>,
    fits: String,
    sealing: String,
    place: String,
}

impl From<&Describe> for DescribeForm {
    fn from(d: &Describe) -> Self {
        Self {
            size: d.size.clone(),
            gender: d.gender.map(ToOwned::to_owned),
            gauges: d.gauges.clone(),
            colours: d.colours.clone(),
            diameters: d.diameters.clone(),
            fits: d.fits.clone(),
            sealing: d.sealing.to_owned(),
            place: d.place.clone(),
        }
    }
}

impl From<&Line> for LineForm {
    fn from(line: &Line) -> Self {
        Self {
            line: line.line,
            kind: line.kind.as_str().to_owned(),
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
            substitute: line.substitute.to_owned(),
            supplied_with: line.supplied_with.clone(),
            identified: line.part.is_some(),
            lead: line.lead.as_ref().map(Into::into),
        }
    }
}

impl From<&Request> for RequestForm {
    fn from(request: &Request) -> Self {
        let said = |text: &str| (!text.trim().is_empty()).then(|| text.to_owned());
        Self {
            request: request.number.clone(),
            revision: request.revision,
            changed: request.changed,
            job: request.job.clone(),
            asset: said(&request.ticket.asset),
            serial: said(&request.ticket.serial),
            connector: said(&request.ticket.connector),
            asked_by: request.head.asked_by.clone(),
            bench: request.head.bench.clone(),
            deliver_to: request.head.deliver_to.clone(),
            needed_by: request.head.needed_by.clone(),
            urgency: request.head.urgency.clone(),
            why: said(&request.why),
            photos: request.photos.clone(),
            lines: request.lines.iter().map(Into::into).collect(),
        }
    }
}

const KINDS: [Kind; 9] = [
    Kind::Housing,
    Kind::SecondaryLock,
    Kind::Assurance,
    Kind::SmallPart,
    Kind::Plug,
    Kind::Terminal,
    Kind::WireSeal,
    Kind::Lead,
    Kind::Splice,
];

impl RequestForm {
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
                Kind::Lead => home(old) == home(&form),
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
    pub(super) fn gone(&self, kept: &[u32]) -> Vec<(Line, bool)> {
        let gone = self.lines.iter().filter(|line| !kept.contains(&line.line));
        gone.map(|old| {
            let kind = KINDS.into_iter().find(|kind| kind.as_str() == old.kind).unwrap_or(Kind::SmallPart);
            let line = Line {
                line: old.line,
                kind,
                part: old.part.clone(),
                read_from: old.read_from.clone(),
                description: old.description.clone(),
                describe: None,
                need: 0,
                spare: 0,
                pack: old.pack,
                for_cavities: Vec::new(),
                essential: false,
                substitute: "none",
                supplied_with: old.supplied_with.clone(),
                leads: Vec::new(),
                lead: None,
                changes: if old.need > 0 { vec![format!("need was {}", old.need)] } else { Vec::new() },
            };
            (line, old.need > 0 || old.spare > 0)
        })
        .collect()
    }

    /// The text of the file `--send` writes.
    pub fn to_ron(&self) -> Result<String, ron::Error> {
        crate::catalogue::ron_options().to_string_pretty(self, ron::ser::PrettyConfig::new().depth_limit(2))
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
const FOLLOWING: [&str; 2] = ["line", "cut_mm"];

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

/// A request as `--send` wrote it.
pub fn read_request(text: &str) -> Result<RequestForm, ron::error::SpannedError> {
    crate::catalogue::ron_options().from_str(text.trim_start_matches('\u{feff}'))
}
