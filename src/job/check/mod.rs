//! What the job says to an entry before it is kept. Every refusal is one sentence that says what
//! is wrong and one that says what to do instead.

mod closing;
mod disagreement;
mod every_act;
mod halves;
mod joins;
mod measure;
mod moves;
mod orders;
mod plugs;
mod records;
mod repairs;
mod rules;
mod setup;
mod splices;
mod supply;

use super::{
    Act, Entry, Job, Refusal, Verdict, day_of,
    lent::Lender,
    refusal::{ActBarrier, Held, PlaceBarrier, StartBarrier, StartRule, TakeBackBarrier},
    state::State,
    target::Target,
};
use rules::{Checked, Rules, barred, impossible};

use crate::{
    job::{Housings, Items},
    quantity::says_something,
    record::HousingName,
};

impl Job {
    /// What the job says to an entry that is about to be kept.
    pub fn check(&self, entry: &Entry) -> Verdict {
        match self.checked(entry) {
            Err(refusal) => Verdict::Impossible(refusal),
            Ok(Rules(rules)) if rules.is_empty() => Verdict::Allowed,
            Ok(Rules(rules)) => Verdict::Against(rules),
        }
    }

    fn checked(&self, entry: &Entry) -> Checked {
        let act = &entry.act;
        // What the pause before this entry opens is open already when it is checked.
        let interrupted = self.state().interrupted_by(entry);
        let state = interrupted.as_ref().unwrap_or(self.state());
        if let (Some(why), false) = (&state.course.stopped, matches!(act, Act::Note { .. } | Act::WrongKey)) {
            return impossible(ActBarrier::Stopped(why.clone()));
        }
        if !matches!(act, Act::Ticket { .. } | Act::Housed { .. } | Act::Rules { .. })
            && state.housings.all.is_empty()
        {
            return impossible(ActBarrier::NoHousings);
        }
        if let Some(anyway) = act.anyway().filter(|anyway| !says_something(&anyway.by)) {
            return impossible(ActBarrier::AnywayUnnamed(anyway.by.clone()));
        }
        if act.anyway().is_some_and(|anyway| !says_something(&anyway.reason)) {
            return impossible(ActBarrier::AnywayWithoutReason);
        }
        every_act::check_words(act)?;
        if let Act::Accept { due: Some(due), .. } = act
            && *due < day_of(entry.at)
        {
            return impossible(ActBarrier::DayPast(*due));
        }
        state.check_bench(entry)?;
        state.check_resume(act)?;
        state.check_gates(act)?;
        match act {
            Act::WrongKey => self.check_wrong_key(entry),
            _ => state.check(act, &|| self.target()),
        }
    }

    /// A slip of the keys can be taken back as far as the last thing somebody else may have
    /// relied on.
    fn check_wrong_key(&self, entry: &Entry) -> Checked {
        let mut press = self.last_press().peekable();
        if press.peek().is_none() {
            return impossible(TakeBackBarrier::Nothing);
        }
        for (n, last) in press {
            if last.act.others_rely_on_it() {
                return impossible(TakeBackBarrier::OthersRelyOnIt);
            }
            if last.by != entry.by {
                return impossible(TakeBackBarrier::EntryOf(last.by.clone()));
            }
            if !self.is_of_this_sitting(n) {
                return impossible(TakeBackBarrier::BeforeThisSitting);
            }
        }
        Ok(Rules::default())
    }
}

impl State {
    /// What stands for and against each act: an act that is forgotten here does not compile.
    fn check(&self, act: &Act, target: Lender<'_>) -> Checked {
        match act {
            Act::Ticket { .. } => self.check_ticket(),
            Act::Housed { name, .. } => self.check_housed(name),
            Act::Rules { .. } => self.check_nothing_moved(),
            Act::Recorded { side, at, holds, .. } => self.check_recorded(*side, at, holds),
            Act::RecordFinished { side } => self.check_finished(*side),
            Act::RecordCorrected { at, holds, .. } => self.check_corrected(at, holds),
            Act::RecordFlipped { housing, how, .. } => self.check_flipped(housing.as_ref(), *how),
            Act::Decided { at, .. } => self.check_decided(at),
            Act::Compared { mating_half, .. } => self.check_compared(*mating_half),
            Act::Mapped { from, to, document } => self.check_mapped(from, to.as_ref(), document.as_deref()),
            Act::MapConfirmed { source, .. } => self.check_map(*source),
            Act::Gate { .. } => self.check_gate(act).map(|()| Rules::default()),
            Act::View { housing, up, .. } => self.check_view(housing, up),
            Act::Anchor { housing, place, .. } => self.check_anchor(housing, *place),
            Act::Lock { housing, to, finger, why, .. } => {
                self.check_lock(housing, *to, *finger, why.as_deref())
            }
            Act::Assurance { housing, on, .. } => self.check_assurance(housing, *on),
            Act::SmallPart { housing, part, .. } => self.check_small_part(housing, part),
            Act::MatingHalf { verdict } => self.check_mating_half(verdict),
            Act::Tagged { lead, tag } => self.check_tagged(lead, tag),
            Act::Extract { from, colour, .. } => self.check_extract(from, colour.as_ref(), target()),
            Act::CutFree { from, circuit, .. } => {
                self.check_cut(from, circuit.as_deref().unwrap_or_default(), target())
            }
            Act::Loose { leads } => self.check_loose(leads),
            Act::Inspect { verdict, .. } => self.check_inspect(verdict, act),
            Act::Insert { into, again: true, .. } => self.check_again(into),
            Act::Insert { into, again: false, .. } => self.check_insert(into, target()),
            Act::Tug { at, held } => self.check_tug(at, *held),
            Act::PutBack => self.check_put_back(),
            Act::Park { tag, .. } => self.check_park(tag),
            Act::TakeUp { tag } => self.check_take_up(tag),
            Act::TakePlug { from, .. } => self.check_take_plug(from, target()),
            Act::FitPlug { into, source, spare, .. } => {
                self.check_fit(into, *source, spare.is_some(), target())
            }
            Act::LosePlug | Act::ScrapPlug { .. } | Act::ReturnPlug => self.check_plug_out(),
            Act::LeftInOld { at, .. } => self.check_left_in_old(at),
            Act::MoveOther { to, part: Some(part), .. } => self.check_new_other(to, part, target()),
            Act::MoveOther { from, to, part: None, .. } => self.check_move_other(from, to, target()),
            Act::Behind { housing, behind } => self.check_behind_of(housing, behind),
            Act::Planned { lead, how, order, with, .. } => {
                self.check_plan(lead, *how, with.as_ref(), order.as_deref(), target)
            }
            Act::Repair { .. } => self.check_repair(act, target()),
            Act::Removed { wire, document } => self.check_removed(wire, document),
            Act::Seen { item, at, .. } => self.check_seen(item, at),
            Act::ReRead { at, .. } => self.check_reread(at),
            Act::RowCounted { housing, row, .. } => self.check_row_counted(housing, *row),
            Act::LookedOver { housing, face, cavities, sound, found } => {
                self.check_looked_over(housing, *face, cavities, *sound, found)
            }
            Act::Measure { circuit, test, value, limit, passed, .. } => {
                self.check_measured(circuit.as_deref(), *test, value, limit.as_deref(), *passed)
            }
            Act::Requested { revision, number, .. } => self.check_requested(number, *revision),
            Act::Arrived { line, count, part, verdict } => {
                self.check_arrived(*line, *count, part.as_ref(), *verdict)
            }
            Act::Accept { by, flag, at, due, line, .. } => {
                self.check_accepted(by.as_deref(), *flag, at.as_ref(), *due, *line, target())
            }
            Act::Resume { power_off, tags_read } => self.check_resumed(*power_off, *tags_read),
            Act::Mate { .. } => self.check_mate(target()),
            Act::Sign { serial_end, name } => self.check_sign(name, serial_end, target()),
            // What is said in words was looked at for every act.
            Act::Cause { .. }
            | Act::Photo { .. }
            | Act::Note { .. }
            | Act::HandOver { .. }
            | Act::Stop { .. }
            // Whether a slip can be taken back is for the whole job to say.
            | Act::WrongKey => Ok(Rules::default()),
        }
    }

    /// What must be so before anything leaves an old housing or enters a new one.
    fn check_start(&self, target: &Target) -> Checked {
        if !self.records.records_finished() {
            return impossible(StartBarrier::RecordUnfinished(self.unrecorded().len()));
        }
        if let Some(lead) = self.blocked_lead(target) {
            return barred(StartRule::NoPlace(lead.call()));
        }
        if let Some(clip) = self.housings.clip_missing() {
            return barred(StartRule::ClipMissing(clip.to_owned()));
        }
        let mut rules = Rules::default();
        for housing in &self.housings.all {
            if housing.view.is_none() {
                rules.add(StartRule::ViewUnset(housing.name.clone()));
            } else if !self.view_is_proved(housing) {
                rules.add(StartRule::ViewNotProved(housing.name.clone()));
            }
        }
        if let Some(difference) = self.undecided().first() {
            rules.add(StartRule::Undecided(Box::new(difference.clone())));
        }
        if self.mapping.confirmed.is_none() {
            rules.add(StartRule::MapNotConfirmed);
        }
        if let Some((housing, row)) = self.rows_to_count().first() {
            rules.add(StartRule::RowNotCounted { housing: housing.clone(), row: *row });
        }
        if let Some(to) = self.clashes(&self.mapping.map).first() {
            rules.add(StartRule::TwoLeads(to.clone()));
        }
        let unasked = self.next_question().filter(|_| !self.housings.waits_for_machine());
        if let Some(question) = self.misfit().or(unasked) {
            rules.add(StartRule::NotCompared(question));
        }
        Ok(rules)
    }

    /// What must be so before anything more leaves an old housing.
    fn check_leaves(&self, target: &Target) -> Checked {
        let mut rules = self.check_start(target)?;
        self.check_agreement(&mut rules);
        Ok(rules)
    }

    fn blocked_lead(&self, target: &Target) -> Option<&super::Lead> {
        let blocked =
            |id: &super::ItemId| matches!(target.leads.get(id), Some(super::Destination::Blocked(_)));
        self.items.leads.iter().find(|lead| blocked(&lead.id))
    }
}

impl Housings {
    /// That the job has no housing of this name, with those it has.
    fn no_housing(&self, name: &HousingName) -> PlaceBarrier {
        let housings = self.all.iter().map(|housing| housing.name.clone()).collect();
        PlaceBarrier::NoHousing { name: name.clone(), housings }
    }

    /// A cavity that belongs to a housing of the job, or the act cannot be.
    fn check_cavity(&self, at: &crate::record::Address) -> Result<super::JobSide, Refusal> {
        let Some(housing) = self.housing(&at.housing) else {
            return impossible(self.no_housing(&at.housing));
        };
        match housing.housing().cavity(&at.label) {
            Some(_) => Ok(housing.side),
            None => impossible(PlaceBarrier::NoCavity {
                part: housing.housing().part.clone(),
                label: at.label.clone(),
            }),
        }
    }
}

impl Items {
    /// The hand is empty, or the act cannot be.
    fn check_empty_hand(&self) -> Result<(), Refusal> {
        match self.in_hand() {
            None => Ok(()),
            Some(held) => {
                let held = match held {
                    super::InHand::Lead(lead) => Held::Lead(lead.call()),
                    super::InHand::Plug(plug) => Held::Plug(plug.id.clone()),
                    super::InHand::Other(other) => Held::Other(other.id.clone()),
                };
                impossible(PlaceBarrier::HandFull(held))
            }
        }
    }
}
