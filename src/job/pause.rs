//! Interruptions: a pause, another person, a clock that ran backwards. After one the gates are asked again, and
//! once something has moved the resume check is due.

use jiff::Timestamp;

use super::seen::ResumeNeed;
use super::{Act, Entry, state::State};

impl State {
    /// Why an entry made now would count as coming after an interruption.
    pub fn pause_before(&self, at: Timestamp, by: &str, act: &Act) -> Option<String> {
        self.pause_for(at, act.is_bench_work().then_some(by))
    }

    /// Why work now would come after an interruption; `by` is who works, when that is known.
    fn pause_for(&self, at: Timestamp, by: Option<&str>) -> Option<String> {
        let last = self.course.last_at?;
        if at < last {
            return Some("the clock ran backwards".to_owned());
        }
        let hours = at.since(last).map_or(0, |span| span.total(jiff::Unit::Hour).map_or(0, |h| h as i64));
        if hours >= i64::from(self.world.rules.pause_h.value) {
            return Some(format!("nothing was entered for {hours} hours"));
        }
        match (&self.course.bench, by) {
            (Some(bench), Some(by)) if bench != by => Some(format!("{by} goes on after {bench}")),
            _ => None,
        }
    }

    /// The state as the interruption before an entry leaves it, when there was one.
    pub(super) fn interrupted_by(&self, entry: &Entry) -> Option<Self> {
        let why = self.pause_before(entry.at, &entry.by, &entry.act)?;
        let mut state = self.clone();
        state.interrupt(&why);
        Some(state)
    }

    /// The state as an interruption leaves it, when work now would come after one.
    pub fn interrupted_at(&self, now: Timestamp, by: Option<&str>) -> Option<Self> {
        if self.course.resume.is_some() || self.course.stopped.is_some() || self.course.signed.is_some() {
            return None;
        }
        let why = self.pause_for(now, by)?;
        let mut state = self.clone();
        state.interrupt(&why);
        Some(state)
    }

    pub(super) fn interrupt(&mut self, why: &str) {
        self.course.gates.values_mut().for_each(|gate| gate.fresh = false);
        if self.has_moved() && self.course.signed.is_none() {
            self.course.resume = Some(ResumeNeed { why: why.to_owned(), ..ResumeNeed::default() });
        }
    }
}
