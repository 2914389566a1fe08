//! Checks of requests, of what came for them, and of flags that a person accepts.

use jiff::civil::Date;

use crate::{
    catalogue::PartNumber,
    job::{Accepted, ArrivedVerdict, Code, state::State, target::Target},
    record::Address,
    supply::RequestNumber,
};

use super::rules::{Checked, Rules, impossible};

impl State {
    pub(super) fn check_requested(&self, number: &str, revision: u32) -> Checked {
        let next = self.supply.requested.as_ref().map_or(1, |r| r.revision + 1);
        if revision != next {
            return impossible(
                format!("The next revision of this job's request is {next}."),
                "Send it with that revision.",
            );
        }
        if let Err(problem) = number.parse::<RequestNumber>() {
            return impossible(
                format!("{problem}."),
                "It has eight characters of ACDEFGHJKLMNPQRTUVWXYZ234679: `repin request` shows it.",
            );
        }
        match self.supply.requested.as_ref().filter(|r| r.number != number) {
            Some(request) => impossible(
                format!("This job's request is {}.", request.number),
                "Keep one number for every later enquiry.",
            ),
            None => Ok(Rules::default()),
        }
    }

    /// What came is held against what was asked; what is more than that is a question, never a stock.
    pub(super) fn check_arrived(
        &self,
        line: u32,
        count: u32,
        part: Option<&PartNumber>,
        verdict: ArrivedVerdict,
    ) -> Checked {
        let Some(request) = &self.supply.requested else {
            return impossible("No request was sent.", "Send the request first.");
        };
        let Some(asked) = request.lines.iter().find(|asked| asked.line == line) else {
            return impossible(
                format!("Request {} has no line {line}.", request.number),
                "Read the line number on the request.",
            );
        };
        if count == 0 {
            return impossible("Nothing came.", "Key how many came.");
        }
        let is_another = matches!(verdict, ArrivedVerdict::WrongPart | ArrivedVerdict::Substitute);
        if is_another && part.is_none() {
            return impossible("Which part came instead?", "Key the number that is on it.");
        }
        let own = asked.asked.as_ref().and_then(|asked| asked.wanted.number());
        if let (true, Some(part), Some(own)) = (is_another, part, own)
            && part.is_same(own.as_str())
        {
            return impossible(
                format!("{part} is the number line {line} asked for."),
                "Say that it is as asked, or damaged; or key the number that is on it.",
            );
        }
        if let (ArrivedVerdict::AsAsked, Some(part), Some(own)) = (verdict, part, own)
            && !part.is_same(own.as_str())
        {
            return impossible(
                format!("{part} came, and line {line} asked for {own}."),
                "Say that it is the wrong part, or a substitute.",
            );
        }
        let counts = self.supply.counts(asked);
        let is_of_use = matches!(verdict, ArrivedVerdict::AsAsked | ArrivedVerdict::Substitute);
        // A journal of version 1 does not say how many spares were asked for.
        let is_known = asked.asked.is_some();
        if is_known && is_of_use && !counts.may_arrive(count) {
            let (most, came) = (counts.asked().most(), counts.arrived());
            return impossible(
                format!("Line {line} asked for {most} in all; {came} came before and {count} now."),
                "Count again. Key those that were asked for; ask the desk about the rest, and note what it says.",
            );
        }
        Ok(Rules::default())
    }

    pub(super) fn check_accept(
        &self,
        flag: Code,
        at: Option<&Address>,
        due: Option<Date>,
        line: Option<u32>,
        target: &Target,
    ) -> Checked {
        let has_due = due.is_some();
        let by_name = self.may_be_accepted(flag, at);
        let steps = self.steps(target);
        let flags = self.flags(target, &steps);
        if !by_name && !has_due && flags.iter().any(|raised| raised.code() == flag) {
            return impossible(
                format!("{flag} is not one that a name can accept."),
                "Put it right, or set a temporary measure with the date by which it will be.",
            );
        }
        let accepted = Accepted {
            flag,
            at: at.cloned(),
            item: at.and_then(|at| self.items.item_spoken_of(at)),
            line,
            by: String::new(),
            reason: String::new(),
            due: None,
        };
        let raised = || flags.iter().filter(|raised| raised.code() == flag);
        let is_only = at.is_none() && raised().count() == 1;
        if !is_only && !flags.iter().any(|raised| accepted.is_about(raised)) {
            let elsewhere: Vec<&Address> = flags
                .iter()
                .filter(|raised| raised.code() == flag)
                .filter_map(|raised| raised.at.as_ref())
                .collect();
            let where_ = match elsewhere.as_slice() {
                [] => "`repin check` lists the open flags.".to_owned(),
                at => format!("Name the cavity: {}.", crate::quantity::list_of(at)),
            };
            return impossible(format!("There is no open flag {flag} there."), where_);
        }
        let lines: Vec<u32> =
            raised().filter(|raised| accepted.is_about(raised)).filter_map(|raised| raised.line).collect();
        if lines.len() > 1 && line.is_none() {
            return impossible(
                format!("{flag} stands there more than once."),
                format!("Name the line of the request: {}.", crate::quantity::list_of(&lines)),
            );
        }
        Ok(Rules::default())
    }
}
