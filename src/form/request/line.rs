//! A line of a request, as a document has it and as an entry of the job keeps it.

use serde::{Deserialize, Serialize};

use super::{
    super::mirror::{FormOf, read_field},
    lead::LeadForm,
    what::{LooksForm, WhatForm},
};
use crate::{
    catalogue::{FieldFinding, PathStep},
    job::needs::JobLine,
    report::description,
    supply::{Amount, Line, ToldLine, Wanted},
};

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct LineForm {
    line: u32,
    kind: String,
    part: Option<String>,
    read_from: Option<String>,
    description: String,
    describe: Option<LooksForm>,
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
    /// How many came until then; the rest of the need is still wanted.
    #[serde(default)]
    came: u32,
    #[serde(default)]
    wanted: u32,
    /// What it is as data, where an entry of the job keeps it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    what: Option<Box<WhatForm>>,
}

impl From<&Line> for LineForm {
    fn from(line: &Line) -> Self {
        let number = line.wanted.number();
        Self {
            line: line.line,
            kind: line.kind().as_str().to_owned(),
            part: number.map(ToString::to_string),
            read_from: line.wanted.read_from(),
            description: description(&line.wanted),
            describe: line.wanted.looks().map(LooksForm::write),
            need: line.amount.need,
            spare: line.amount.spare,
            pack: line.amount.pack,
            unit: "each".to_owned(),
            for_cavities: line.used_for.iter().map(ToString::to_string).collect(),
            essential: line.essential,
            substitute: line.substitute.as_str().to_owned(),
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
    /// A line that was sent, with how many came for it.
    pub(super) fn sent(line: &Line, came: u32) -> Self {
        Self { came, wanted: line.amount.need.saturating_sub(came), ..Self::from(line) }
    }
}

/// As an entry of the job keeps it: with what it is as data.
impl FormOf<Line> for LineForm {
    fn write(line: &Line) -> Self {
        Self { what: WhatForm::of(&line.wanted).map(Box::new), ..Self::from(line) }
    }

    fn read(self) -> Result<Line, FieldFinding> {
        let number = read_field("part", self.part)?;
        let looks = read_field("describe", self.describe)?;
        let wanted = match self.what {
            Some(what) => what
                .read(number, looks, self.lead.map(Into::into))
                .map_err(|found| found.under(PathStep::Field("what")))?,
            None => Wanted::Told(Box::new(ToldLine {
                kind: read_field("kind", self.kind)?,
                part: number,
                read_from: self.read_from,
                words: self.description,
                looks,
                lead: self
                    .lead
                    .map(LeadForm::told)
                    .transpose()
                    .map_err(|found| found.under(PathStep::Field("lead")))?,
            })),
        };
        Ok(Line {
            line: self.line,
            wanted,
            amount: Amount { need: self.need, spare: self.spare, pack: self.pack },
            used_for: read_field("for", self.for_cavities)?,
            essential: self.essential,
            substitute: read_field("substitute", self.substitute)?,
            supplied_with: read_field("supplied_with", self.supplied_with)?,
        })
    }
}
