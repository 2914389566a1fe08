//! The joint of a repair lead, step by step in the order of the hands: the right lead, the mark, the
//! sleeve, and only then what cannot be undone.

use crate::{
    catalogue::{PartNumber, Sealing},
    job::{Act, Lead, LeadOrder, Ordered, OtherEnd, RepairKind, Splice},
    quantity::Length,
};

use super::{
    Asked, Choice, JobView, Reply,
    crimp::{length, picked, typed},
    picks,
};

/// Sleeves this near in length are the same one.
const SAME_SLEEVE_MM: f64 = 0.5;

/// The joint, or the next question about it.
pub(super) fn splice(
    view: &JobView<'_>,
    lead: &Lead,
    how: RepairKind,
    part: Option<PartNumber>,
    answers: &[Reply],
) -> Asked {
    let asks = SpliceAsks {
        view,
        lead,
        how,
        part,
        order: lead.order.as_deref(),
        plan: view.assessment.ordered(view.state(), &lead.id),
    };
    match asks.record(answers) {
        Err(question) => question,
        Ok(splice) => Asked::Ready(vec![asks.done(splice)]),
    }
}

/// The questions about one joint.
struct SpliceAsks<'a> {
    view: &'a JobView<'a>,
    lead: &'a Lead,
    /// A repair lead, or one lead for two.
    how: RepairKind,
    part: Option<PartNumber>,
    order: Option<&'a LeadOrder>,
    plan: Option<&'a Ordered>,
}

impl SpliceAsks<'_> {
    fn record(&self, answers: &[Reply]) -> Result<Splice, Asked> {
        let mut left = answers.iter();
        if let Some(order) = self.order
            && picked(left.next(), || self.ask_lead(order))? == Choice::No
        {
            let not_it = "Not the lead that was ordered: park the wire, send the lead back, or order anew what it is (! 4).";
            return Err(Asked::Wrong(not_it.to_owned()));
        }
        let planned = self.plan.and_then(|ordered| ordered.place);
        let planned = planned.and_then(|place| format!("{} mm", place.start_mm).parse::<Length>().ok());
        let start = or_as_planned(left.next(), planned.as_ref(), |offer| {
            format!("MARK the joint. Where will the sleeve start, from the rear face?{offer}")
        })?;
        let ordered = self.order.and_then(|order| order.sleeve.as_ref());
        let sleeve = or_as_planned(left.next(), ordered, |offer| format!("How long is the sleeve?{offer}"))?;
        let marked = Splice { start, sleeve, sound: true, seal_behind: false, untwisted: None, solder: None };
        picked(left.next(), || self.ask_sleeve(&marked))?;
        let join = "STRIP, insert to the stop, LOOK in the window, CRIMP, tug, SHRINK";
        let untwisted = match self.lead.is_twisted_or_shielded() {
            true => {
                let ask = || format!("{join}; TWIST the pair again over the splice. Untwisted length left?");
                Some(length(typed(left.next(), ask)?)?)
            }
            false => None,
        };
        let join = if untwisted.is_some() { String::new() } else { format!("{join}. ") };
        let sound = picked(left.next(), || {
            picks(
                format!(
                    "{join}Sleeve on its mark, copper at both sides of the window, adhesive out at both ends, held a tug, not soldered?"
                ),
                if self.is_sealed() {
                    &[Choice::Sound, Choice::No, Choice::SealBehind]
                } else {
                    &[Choice::Sound, Choice::No]
                },
            )
        })?;
        let seal_behind = sound == Choice::SealBehind;
        Ok(Splice { sound: sound != Choice::No, seal_behind, untwisted, ..marked })
    }

    fn is_sealed(&self) -> bool {
        self.view.goes_into(self.lead).is_none_or(|h| h.housing().sealing == Sealing::Individual)
    }

    fn done(&self, splice: Splice) -> Act {
        Act::Repair {
            lead: self.lead.id.clone(),
            how: self.how,
            done: "marked, sleeve on, stripped, joined, looked, crimped, tugged, shrunk".to_owned(),
            crimp: None,
            splice: Some(Box::new(splice)),
            anyway: None,
            part: self.part.clone(),
        }
    }

    /// Whether the lead on the bench is the one that was ordered.
    fn ask_lead(&self, order: &LeadOrder) -> Asked {
        let needs = self.plan.and_then(|ordered| ordered.length);
        let asked = self.view.state().asked_length_mm(&self.lead.id);
        let long = asked.or(needs.map(|length| length.order_mm));
        let long = long.map_or("its length".to_owned(), |mm| format!("{mm} mm (-0/+10)"));
        let short = match asked.zip(needs).filter(|(asked, needs)| *asked < needs.cut_mm - 1e-6) {
            Some((asked, needs)) => format!(
                "TOO SHORT BY NOW: asked for with {asked} mm, it has to be cut to {:.1} mm. Send the request again.",
                needs.cut_mm
            ),
            None => String::new(),
        };
        let gauge = order.gauge_for(self.lead).map_or(String::new(), |gauge| format!(", {}", gauge.both()));
        let colour = order.colour_for(self.lead).map_or(String::new(), |colour| format!(", {colour}"));
        let record = if order.crimp_record == Some(true) { ", with the record of its crimp" } else { "" };
        picks(
            format!(
                "IS IT THE LEAD for {}? Measure it, crimp to cut end: {long}{gauge}{colour}; read the label at both ends{record}.",
                self.lead.call()
            ),
            &[Choice::Yes, Choice::No],
        )
        .loudly(short)
    }

    /// What stands against the mark, and whether the sleeve is on before anything is joined.
    fn ask_sleeve(&self, marked: &Splice) -> Asked {
        let seal = if self.is_sealed() { " The wire seal stays on the terminal side." } else { "" };
        picks(
            format!(
                "{}IS THE SLEEVE ON THE WIRE, and boot or nut with it? Only then strip and join.{seal}",
                self.cut_to(marked)
            ),
            &[Choice::SleeveOn],
        )
        .loudly(self.other_sleeve(marked))
        .loudly(self.against(marked))
    }

    /// What a rule has against the place, before the wire is cut.
    fn against(&self, marked: &Splice) -> String {
        let verdict = self.view.preview(&self.done(marked.clone()));
        let say = |refusal: &crate::job::Refusal| format!("NOT THERE: {} Esc marks it anew.", refusal.say);
        verdict.refusals().iter().map(say).collect::<Vec<_>>().join(" ")
    }

    fn other_sleeve(&self, marked: &Splice) -> String {
        let ordered = self.order.and_then(|order| order.sleeve.as_ref());
        match ordered.filter(|ordered| (ordered.mm() - marked.sleeve.mm()).abs() > SAME_SLEEVE_MM) {
            Some(ordered) => {
                format!("NOT THE SLEEVE that was ordered ({}): is it the right one?", ordered.both())
            }
            None => String::new(),
        }
    }

    /// How long the lead is cut, where it is joined as planned.
    fn cut_to(&self, marked: &Splice) -> String {
        let place = marked.place();
        let planned = self.plan.and_then(|ordered| ordered.place.zip(ordered.length));
        match planned.filter(|(planned, _)| (planned.centre_mm - place.centre_mm).abs() < SAME_SLEEVE_MM) {
            Some((_, length)) => format!(
                "Cut the lead to {:.1} mm{}, the machine's wire {:.1} mm behind the face; the sleeve goes from {:.1} to {:.1} mm. ",
                length.cut_mm,
                self.strip_again(),
                place.centre_mm,
                place.start_mm,
                place.end_mm
            ),
            None => "Cut the lead to its mark. ".to_owned(),
        }
    }
}

impl SpliceAsks<'_> {
    /// A lead that comes stripped loses that end when it is cut.
    fn strip_again(&self) -> &'static str {
        match self.order.and_then(|order| order.other_end.as_ref()) {
            Some(OtherEnd::Stripped(_)) => " and strip it again",
            _ => "",
        }
    }
}

/// A length as keyed, or with = the one that was planned.
fn or_as_planned(
    answer: Option<&Reply>,
    planned: Option<&Length>,
    question: impl FnOnce(String) -> String,
) -> Result<Length, Asked> {
    let offer = || planned.map_or(String::new(), |planned| format!(" (= {}, as planned)", planned.both()));
    match (typed(answer, || question(offer()))?, planned) {
        ("=", Some(planned)) => Ok(planned.clone()),
        (text, _) => length(text),
    }
}
