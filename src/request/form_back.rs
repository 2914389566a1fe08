//! From the form of a request back to its lines: what an entry of the job kept is what was asked.

use super::{
    form::{DescribeForm, LeadForm, LineForm, RequestForm},
    problem::RequestProblem,
};
use crate::{
    catalogue::{Gender, PartNumber},
    quantity::quoted,
    record::AddressProblem,
    supply::{
        Amount, LeadSpec, LeadWanted, Line, Looks, Request, RequestHead, ToldLine, Urgency, UsePlace, Wanted,
    },
};

impl TryFrom<LineForm> for Line {
    type Error = RequestProblem;

    fn try_from(form: LineForm) -> Result<Self, Self::Error> {
        let line = form.line;
        let text = |why| RequestProblem::Text { line, why };
        let address = |why| RequestProblem::Address { line, why };
        let part = |text: Option<String>| text.map(|part| part.parse::<PartNumber>()).transpose();
        let number = part(form.part).map_err(text)?;
        let looks = form.describe.map(|describe| describe.read(line)).transpose()?;
        let wanted = match form.what {
            Some(what) => what.read(line, number, looks, form.lead.map(Into::into))?,
            None => Wanted::Told(Box::new(ToldLine {
                kind: form.kind,
                part: number,
                read_from: form.read_from,
                words: form.description,
                looks,
                lead: form.lead.map(told_lead).transpose().map_err(address)?,
            })),
        };
        let used_for = form.for_cavities.iter().map(|at| at.parse::<UsePlace>());
        Ok(Self {
            line,
            wanted,
            amount: Amount { need: form.need, spare: form.spare, pack: form.pack },
            used_for: used_for.collect::<Result<_, _>>().map_err(address)?,
            essential: form.essential,
            substitute: form.substitute,
            supplied_with: part(form.supplied_with).map_err(text)?,
        })
    }
}

/// A request as its file has it.
impl TryFrom<RequestForm> for Request {
    type Error = RequestProblem;

    fn try_from(form: RequestForm) -> Result<Self, Self::Error> {
        let urgency = form.urgency.map(|text| Urgency::from(text.as_str()));
        Ok(Self {
            number: form.request.parse()?,
            revision: form.revision,
            head: RequestHead {
                asked_by: form.asked_by,
                bench: form.bench,
                deliver_to: form.deliver_to,
                needed_by: form.needed_by,
                urgency,
            },
            why: form.why.unwrap_or_default(),
            photos: form.photos,
            lines: form.lines.into_iter().map(Line::try_from).collect::<Result<_, _>>()?,
        })
    }
}

impl DescribeForm {
    fn read(self, line: u32) -> Result<Looks, RequestProblem> {
        let gender = |word: String| {
            let known = Gender::ALL.into_iter().find(|gender| gender.word() == word);
            known.ok_or_else(|| RequestProblem::Gender { line, shown: quoted(&word) })
        };
        Ok(Looks {
            size: self.size,
            gender: self.gender.map(gender).transpose()?,
            gauges: self.gauges,
            colours: self.colours,
            diameters: self.diameters,
            fits: self.fits,
            sealing: self.sealing,
            place: self.place,
        })
    }
}

/// A repair lead that a request of an earlier version asks for.
fn told_lead(form: LeadForm) -> Result<LeadWanted, AddressProblem> {
    Ok(LeadWanted {
        home: form.cavity.parse()?,
        circuit: form.circuit.clone(),
        length_mm: form.length_mm,
        gauge: form.gauge.clone(),
        sealed: form.seal_fitted,
        spec: Some(Box::new(form.into())),
    })
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
