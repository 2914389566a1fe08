//! What may be looked at while something is asked: the job as it stands on disk, and nothing that could be
//! changed.

use jiff::civil::Date;

use crate::{
    face::Label,
    job::{Act, Assessment, Entry, ItemId, Job, JobHousing, JobSide, Lead, Place, State, Verdict, day_of},
    quantity::{harmless, list_of},
    reckoning::ToolBook,
    record::{Address, HousingName},
    supply::Request,
};

use super::{Barred, Stop, Typed};

/// A job as who asks and who answers see it.
#[derive(Clone, Copy)]
pub struct JobView<'a> {
    /// The job's id.
    pub id: &'a str,
    /// The job.
    pub job: &'a Job,
    /// Its account, target and steps, reckoned since the last entry.
    pub assessment: &'a Assessment,
    /// The request sent last, when one was.
    pub last_request: Option<&'a Request>,
    /// The shop's tool book.
    pub tools: &'a ToolBook,
    /// Who works here.
    pub by: &'a str,
    /// Why nothing can be entered, when that is so.
    pub read_only: Option<&'a str>,
}

impl<'a> JobView<'a> {
    /// What the entries add up to.
    pub fn state(&self) -> &'a State {
        self.assessment.interrupted.as_ref().unwrap_or(self.job.state())
    }

    /// Today, as YYYY-MM-DD.
    pub fn today(&self) -> Date {
        day_of(self.assessment.now)
    }

    /// A housing by name.
    pub fn housing(&self, name: &HousingName) -> Option<&'a JobHousing> {
        self.state().housings.housing(name)
    }

    /// The new housing a lead goes into.
    pub fn goes_into(&self, lead: &Lead) -> Option<&'a JobHousing> {
        self.housing(&self.assessment.target.of(&lead.id)?.housing)
    }

    /// Whether the colour of a lead is or will be asked before it leaves the old housing.
    pub fn will_ask_colour(&self, id: &ItemId) -> bool {
        let state = self.state();
        let sits_in_old = |lead: &Lead| matches!(&lead.place, Place::In(at) if state.housings.side_of(at) == Some(JobSide::Old));
        self.assessment.target.colours_asked.contains(id) && state.items.lead(id).is_some_and(sits_in_old)
    }

    /// What a cavity is called in the other numberings of its housing, to be put behind its label:
    /// ` (row by row 26)`; empty where there is no other.
    pub fn also(&self, at: &Address) -> String {
        let also = self.housing(&at.housing).map(|h| h.housing().also_called(&at.label)).unwrap_or_default();
        if also.is_empty() { also } else { format!(" ({also})") }
    }

    /// What the job would say to an act now.
    pub fn preview(&self, act: &Act) -> Verdict {
        self.job.check(&Entry::new(self.assessment.now, self.by.to_owned(), act.clone()))
    }

    /// Stops with an act that would be refused now.
    pub(super) fn allows(&self, act: Act) -> Result<(), Stop> {
        let (refusals, can_go_on) = match self.preview(&act) {
            Verdict::Allowed => return Ok(()),
            Verdict::Impossible(refusal) => (vec![refusal], false),
            Verdict::Against(refusals) => (refusals, act.takes_anyway()),
        };
        Err(Stop::Barred(Box::new(Barred { act, refusals, can_go_on })))
    }

    /// The address a typed label means on one side: the label alone where it is unique there, or
    /// a full address.
    pub(super) fn cavity(&self, side: JobSide, typed: Typed<'_>) -> Result<Address, Stop> {
        let text = typed.as_str();
        if text.contains(':') {
            let at: Address = typed.parse_or_wrong()?;
            return match self.state().housings.cavity(&at) {
                Some(_) => Ok(at),
                None => Err(Stop::wrong(format!("There is no cavity {at} in this job."))),
            };
        }
        let mut found = self.labelled(side, |label| label.as_str() == text);
        if found.is_empty() {
            found = self.labelled(side, |label| label.as_str().eq_ignore_ascii_case(text));
        }
        match found.as_slice() {
            [one] => Ok(one.clone()),
            [] => Err(Stop::wrong(format!("There is no cavity \"{}\" on that side.", harmless(text)))),
            several => {
                Err(Stop::wrong(format!("\"{text}\" is on several housings: key {}.", list_of(several))))
            }
        }
    }

    /// The cavities of one side whose label is as wanted.
    fn labelled(&self, side: JobSide, is_it: impl Fn(&Label) -> bool) -> Vec<Address> {
        let housings = self.state().housings.side(side);
        let labels = housings.flat_map(|h| h.housing().cavities.iter().map(move |c| (h, &c.label)));
        labels.filter(|(_, label)| is_it(label)).map(|(h, label)| h.address(label)).collect()
    }
}
