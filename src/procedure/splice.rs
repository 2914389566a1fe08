//! The joint of a repair lead, step by step in the order of the hands: the right lead, the mark, the
//! sleeve, and only then what cannot be undone.

use crate::{
    catalogue::{PartNumber, Sealing},
    job::{Act, Lead, LeadOrder, Ordered, RepairKind, Splice},
    quantity::Length,
};

use super::{Acts, Choice, JobView, Kind, Replies, SpliceQuestion, SpliceStep, Stop, Typed, Warning, warned};

/// Sleeves and places this near are the same one.
pub const SAME_SLEEVE_MM: f64 = 0.5;

/// The joint, or the next question about it.
pub(super) fn splice(
    view: &JobView<'_>,
    lead: &Lead,
    how: RepairKind,
    part: Option<PartNumber>,
    replies: &mut Replies<'_>,
) -> Acts {
    let splicing = Splicing {
        view,
        lead,
        how,
        part,
        order: lead.order.as_deref(),
        plan: view.assessment.ordered(view.state(), &lead.id),
    };
    let splice = splicing.record(replies)?;
    Ok(vec![splicing.done(splice)])
}

/// One joint.
struct Splicing<'a> {
    view: &'a JobView<'a>,
    lead: &'a Lead,
    /// A repair lead, or one lead for two.
    how: RepairKind,
    part: Option<PartNumber>,
    order: Option<&'a LeadOrder>,
    plan: Option<&'a Ordered>,
}

impl Splicing<'_> {
    fn record(&self, replies: &mut Replies<'_>) -> Result<Splice, Stop> {
        if self.order.is_some() {
            let right = warned(self.ask(SpliceStep::RightLead), self.too_short());
            if !replies.yes(right)? {
                return Err(Stop::wrong(
                    "Not the lead that was ordered: park the wire, send the lead back, or order anew what it is (! 4).",
                ));
            }
        }
        let marked = self.marked(replies)?;
        let wrong = if replies.is_empty() { self.wrong_with(&marked) } else { Vec::new() };
        let sleeve_on = warned(self.ask(SpliceStep::SleeveOn(Box::new(marked.clone()))), wrong);
        replies.choice(sleeve_on, &[Choice::SleeveOn])?;
        let untwisted = match self.lead.is_twisted_or_shielded() {
            true => Some(replies.text(self.ask(SpliceStep::Untwisted), Kind::Length)?.parse_or_wrong()?),
            false => None,
        };
        // Whether it is sound, and whether the seal ended up behind it.
        let mut offered = vec![(Choice::Sound, (true, false)), (Choice::No, (false, false))];
        offered.extend(is_sealed(self.view, self.lead).then_some((Choice::SealBehind, (true, true))));
        let is_joined = untwisted.is_some();
        let (sound, seal_behind) = replies.one_of(self.ask(SpliceStep::Sound { is_joined }), &offered)?;
        Ok(Splice { sound, seal_behind, untwisted, ..marked })
    }

    /// Where the joint is, before anything is cut.
    fn marked(&self, replies: &mut Replies<'_>) -> Result<Splice, Stop> {
        let planned = self.plan.and_then(|ordered| ordered.place);
        let planned: Option<Length> = planned.and_then(|place| format!("{} mm", place.start_mm).parse().ok());
        let start = replies.text(self.ask(SpliceStep::Mark(planned.clone())), Kind::Length)?;
        let start = or_as_planned(start, planned)?;
        let ordered = self.order.and_then(|order| order.sleeve.clone());
        let sleeve = replies.text(self.ask(SpliceStep::SleeveLength(ordered.clone())), Kind::Length)?;
        let sleeve = or_as_planned(sleeve, ordered)?;
        Ok(Splice { start, sleeve, sound: true, seal_behind: false, untwisted: None, solder: None })
    }

    fn ask(&self, step: SpliceStep) -> SpliceQuestion {
        SpliceQuestion { lead: self.lead.id.clone(), step }
    }

    fn done(&self, splice: Splice) -> Act {
        Act::Repair {
            made: None,
            lead: self.lead.id.clone(),
            how: self.how,
            done: "marked, sleeve on, stripped, joined, looked, crimped, tugged, shrunk".to_owned(),
            crimp: None,
            splice: Some(Box::new(splice)),
            anyway: None,
            part: self.part.clone(),
        }
    }

    /// The plan has changed since the lead was ordered.
    fn too_short(&self) -> Option<Warning> {
        let needs = self.plan.and_then(|ordered| ordered.length)?;
        let asked_mm = self.view.state().asked_length_mm(&self.lead.id)?;
        (asked_mm < needs.cut_mm - 1e-6).then_some(Warning::TooShort { asked_mm, cut_mm: needs.cut_mm })
    }

    /// What stands against the mark and the sleeve, before the wire is cut.
    fn wrong_with(&self, marked: &Splice) -> Vec<Warning> {
        let verdict = self.view.preview(&self.done(marked.clone()));
        let against = match verdict.refusals() {
            [] => None,
            refusals => Some(Warning::NotThere(refusals.to_vec())),
        };
        let ordered = self.order.and_then(|order| order.sleeve.as_ref());
        let other = ordered.filter(|ordered| (ordered.mm() - marked.sleeve.mm()).abs() > SAME_SLEEVE_MM);
        against.into_iter().chain(other.cloned().map(Warning::NotTheSleeve)).collect()
    }
}

/// Whether a seal sits on the wire of a lead.
pub fn is_sealed(view: &JobView<'_>, lead: &Lead) -> bool {
    view.goes_into(lead).is_none_or(|h| h.housing().sealing == Sealing::Individual)
}

/// A length as keyed, or with = the one that was planned.
fn or_as_planned(typed: Typed<'_>, planned: Option<Length>) -> Result<Length, Stop> {
    match planned.filter(|_| typed.is_same()) {
        Some(planned) => Ok(planned),
        None => typed.parse_or_wrong(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_length_stays_as_planned_only_where_one_was_planned() {
        let planned: Length = "300 mm".parse().unwrap();
        assert_eq!(or_as_planned(Typed("="), Some(planned.clone())).unwrap(), planned);
        assert!(or_as_planned(Typed("="), None).is_err());
        assert!(or_as_planned(Typed("far"), Some(planned)).is_err());
        assert!(or_as_planned(Typed("310"), None).is_ok());
    }
}
