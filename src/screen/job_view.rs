//! What a screen may look at: the job as it stands on disk, and nothing it could change.

use crate::{
    face::Label,
    job::{Act, Assessment, Entry, ItemId, Job, JobHousing, JobSide, Lead, Place, State, Verdict, day_of},
    reckoning::ToolBook,
    record::{Address, HousingName},
    supply::Request,
};

/// A job as screens see it.
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
    pub fn today(&self) -> String {
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

    /// The address a typed label means on one side: the label alone where it is unique there, or
    /// a full address.
    pub fn resolve(&self, side: JobSide, typed: &str) -> Result<Address, String> {
        let typed = typed.trim();
        if typed.contains(':') {
            let at: Address = typed.parse().map_err(|e: crate::record::AddressProblem| e.to_string())?;
            return match self.state().housings.cavity(&at) {
                Some(_) => Ok(at),
                None => Err(format!("There is no cavity {at} in this job.")),
            };
        }
        let housings = || self.state().housings.side(side);
        let exact = |label: &Label| label.as_str() == typed;
        let folded = |label: &Label| label.as_str().eq_ignore_ascii_case(typed);
        let all = |same: &dyn Fn(&Label) -> bool| -> Vec<Address> {
            housings()
                .flat_map(|h| h.housing().cavities.iter().map(move |c| (h, &c.label)))
                .filter(|(_, label)| same(label))
                .map(|(h, label)| h.address(label))
                .collect()
        };
        let mut found = all(&exact);
        if found.is_empty() {
            found = all(&folded);
        }
        match found.as_slice() {
            [one] => Ok(one.clone()),
            [] => Err(format!("There is no cavity \"{}\" on that side.", crate::quantity::harmless(typed))),
            _ => {
                Err(format!("\"{typed}\" is on several housings: key {}.", crate::quantity::list_of(&found)))
            }
        }
    }
}
