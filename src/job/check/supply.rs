//! Checks of requests, of what came for them, and of flags that a person accepts.

use jiff::civil::Date;

use crate::{
    catalogue::PartNumber,
    job::{
        Accepted, ArrivedVerdict, Code,
        refusal::{AcceptBarrier, ArrivalBarrier, RequestBarrier},
        state::State,
        target::Target,
    },
    record::Address,
    supply::RequestNumber,
};

use super::rules::{Checked, Rules, impossible};

impl State {
    pub(super) fn check_requested(&self, number: &str, revision: u32) -> Checked {
        let next = self.supply.requested.as_ref().map_or(1, |r| r.revision + 1);
        if revision != next {
            return impossible(RequestBarrier::NextRevision(next));
        }
        if let Err(problem) = number.parse::<RequestNumber>() {
            return impossible(RequestBarrier::NoNumber(problem));
        }
        match self.supply.requested.as_ref().filter(|r| r.number != number) {
            Some(request) => impossible(RequestBarrier::OtherNumber(request.number.clone())),
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
            return impossible(ArrivalBarrier::NoRequest);
        };
        let Some(asked) = request.lines.iter().find(|asked| asked.line == line) else {
            return impossible(ArrivalBarrier::NoLine { request: request.number.clone(), line });
        };
        if count == 0 {
            return impossible(ArrivalBarrier::NothingCame);
        }
        let is_another = matches!(verdict, ArrivedVerdict::WrongPart | ArrivedVerdict::Substitute);
        if is_another && part.is_none() {
            return impossible(ArrivalBarrier::WhichPart);
        }
        let own = asked.asked.as_ref().and_then(|asked| asked.wanted.number());
        if let (true, Some(part), Some(own)) = (is_another, part, own)
            && part.is_same(own.as_str())
        {
            return impossible(ArrivalBarrier::SamePart(part.clone(), line));
        }
        if let (ArrivedVerdict::AsAsked, Some(part), Some(own)) = (verdict, part, own)
            && !part.is_same(own.as_str())
        {
            return impossible(ArrivalBarrier::OtherPart { part: part.clone(), line, asked: own.clone() });
        }
        let counts = self.supply.counts(asked);
        let is_of_use = matches!(verdict, ArrivedVerdict::AsAsked | ArrivedVerdict::Substitute);
        // A journal of version 1 does not say how many spares were asked for.
        let is_known = asked.asked.is_some();
        if is_known && is_of_use && !counts.may_arrive(count) {
            let (most, came) = (counts.asked().most(), counts.arrived());
            return impossible(ArrivalBarrier::TooMany { line, most, came, now: count });
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
            return impossible(AcceptBarrier::NotByName(flag));
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
            let elsewhere = flags
                .iter()
                .filter(|raised| raised.code() == flag)
                .filter_map(|raised| raised.at.clone())
                .collect();
            return impossible(AcceptBarrier::NotOpenThere(flag, elsewhere));
        }
        let lines: Vec<u32> =
            raised().filter(|raised| accepted.is_about(raised)).filter_map(|raised| raised.line).collect();
        if lines.len() > 1 && line.is_none() {
            return impossible(AcceptBarrier::SeveralLines(flag, lines));
        }
        Ok(Rules::default())
    }
}
