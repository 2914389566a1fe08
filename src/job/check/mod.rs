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

use super::{Act, Code, Entry, Job, Refusal, Verdict, day_of, state::State, target::Target};
use rules::{Checked, Rules, barred, impossible};

use crate::{
    job::{Housings, Items},
    quantity::{quoted, says_something},
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
            return impossible(format!("The job was stopped: {why}"), "Start a new job from what was left.");
        }
        if !matches!(act, Act::Ticket { .. } | Act::Housed { .. } | Act::Rules { .. })
            && state.housings.all.is_empty()
        {
            return impossible("The job has no housings yet.", "Start it with `repin new`.");
        }
        if let Some(anyway) = act.anyway().filter(|anyway| !says_something(&anyway.by)) {
            return impossible(
                format!("\"{}\" is no name of the person who goes on anyway.", quoted(&anyway.by)),
                "Key the name of the person who answers for it.",
            );
        }
        if act.anyway().is_some_and(|anyway| !says_something(&anyway.reason)) {
            return impossible("Nobody goes on anyway without a reason.", "Say why.");
        }
        every_act::check_words(act)?;
        if let Act::Accept { due: Some(due), .. } = act
            && *due < day_of(entry.at)
        {
            return impossible(format!("{due} is past."), "Key a day that is still to come.");
        }
        state.check_bench(entry)?;
        state.check_resume(act)?;
        state.check_gates(act)?;
        match act {
            Act::WrongKey => self.check_wrong_key(entry),
            _ => state.check(act),
        }
    }

    /// A slip of the keys can be taken back as far as the last thing somebody else may have
    /// relied on.
    fn check_wrong_key(&self, entry: &Entry) -> Checked {
        let nothing = "Say what you see instead: put it back, or key what is so.";
        let mut press = self.last_press().peekable();
        if press.peek().is_none() {
            return impossible("There is nothing to take back.", nothing);
        }
        for (n, last) in press {
            if last.act.others_rely_on_it() {
                return impossible(
                    "The last entry is one that others rely on; it cannot be taken back.",
                    nothing,
                );
            }
            if last.by != entry.by {
                return impossible(format!("The last entry is {}'s, not yours.", last.by), nothing);
            }
            if !self.is_of_this_sitting(n) {
                return impossible(
                    "The last entry was made before this sitting; it cannot be taken back.",
                    nothing,
                );
            }
        }
        Ok(Rules::default())
    }
}

impl State {
    /// What stands for and against each act: an act that is forgotten here does not compile.
    fn check(&self, act: &Act) -> Checked {
        let target = || self.target();
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
            Act::Extract { from, colour, .. } => self.check_extract(from, colour.as_ref(), &target()),
            Act::CutFree { from, circuit, .. } => {
                self.check_cut(from, circuit.as_deref().unwrap_or_default(), &target())
            }
            Act::Loose { leads } => self.check_loose(leads),
            Act::Inspect { verdict, .. } => self.check_inspect(verdict, act),
            Act::Insert { into, again: true, .. } => self.check_again(into),
            Act::Insert { into, again: false, .. } => self.check_insert(into, &target()),
            Act::Tug { at, held } => self.check_tug(at, *held),
            Act::PutBack => self.check_put_back(),
            Act::Park { tag, .. } => self.check_park(tag),
            Act::TakeUp { tag } => self.check_take_up(tag),
            Act::TakePlug { from, .. } => self.check_take_plug(from, &target()),
            Act::FitPlug { into, source, spare, .. } => {
                self.check_fit(into, *source, spare.is_some(), &target())
            }
            Act::LosePlug | Act::ScrapPlug { .. } | Act::ReturnPlug => self.check_plug_out(),
            Act::LeftInOld { at, .. } => self.check_left_in_old(at),
            Act::MoveOther { to, part: Some(part), .. } => self.check_new_other(to, part, &target()),
            Act::MoveOther { from, to, part: None, .. } => self.check_move_other(from, to, &target()),
            Act::Behind { housing, behind } => self.check_behind_of(housing, behind),
            Act::Planned { lead, how, order, with, .. } => {
                self.check_plan(lead, *how, with.as_ref(), order.as_deref())
            }
            Act::Repair { .. } => self.check_repair(act),
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
                self.check_accepted(by.as_deref(), *flag, at.as_ref(), *due, *line)
            }
            Act::Resume { power_off, tags_read } => self.check_resumed(*power_off, *tags_read),
            Act::Mate { .. } => self.check_mate(&target()),
            Act::Sign { serial_end, name } => self.check_sign(name, serial_end, &target()),
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
            let left = self.unrecorded().len();
            let say = match left {
                0 => "The record of what is found is not finished.".to_owned(),
                n => format!(
                    "The record of what is found is not finished: {} left.",
                    crate::quantity::count_of(n, "cavity")
                ),
            };
            return impossible(say, "Finish it before anything is moved.");
        }
        if let Some(lead) = self.blocked_lead(target) {
            let say = format!("{} has no place: its new cavity is moulded shut.", lead.call());
            return barred(
                Code::BlockedUnderWire,
                say,
                "Ask the desk for an earlier revision, or map it under a document.",
            );
        }
        if let Some(clip) = self.housings.clip_missing() {
            let say = format!("The new housing comes without the {clip} of the old one.");
            return barred(Code::BridgeMissing, say, "Do not start: ask the desk for the housing with it.");
        }
        let mut rules = Rules::default();
        for housing in &self.housings.all {
            if housing.view.is_none() {
                let say = format!("Nobody said how {} is held.", housing.name);
                rules.add(Code::ViewUnset, say, "Say which face is towards you and which side is up.");
            } else if !self.view_is_proved(housing) {
                let say = format!("The view of {} is not proved.", housing.name);
                rules.add(Code::AnchorFailed, say, "Answer its anchors first.");
            }
        }
        if let Some(difference) = self.undecided().first() {
            rules.add(Code::FoundDiffers, difference.sentence(), "Decide it first, with the reason.");
        }
        if self.mapping.confirmed.is_none() {
            rules.add(Code::MapClash, "The map from old to new is not confirmed.", "Confirm it first.");
        }
        if let Some((housing, row)) = self.rows_to_count().first() {
            let say = format!("The record of {housing} was read in, and row {row} was not counted by eye.");
            rules.add(
                Code::RowCount,
                say,
                "Count its wires, plugs and open holes; the list is what somebody says.",
            );
        }
        if let Some(to) = self.clashes(&self.mapping.map).first() {
            let say = format!("Two leads are mapped to {to}, and it is not planned to join them.");
            rules.add(
                Code::MapClash,
                say,
                "Plan to join them under the document, or map one of them elsewhere.",
            );
        }
        let unasked = self.next_question().filter(|_| !self.housings.waits_for_machine());
        if let Some(question) = self.misfit().or(unasked) {
            let say = format!("The {} was not found to agree with the mating half.", question.words());
            rules.add(Code::PartMisfit, say, "Compare it with the mating half in your hand.");
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
    /// A cavity that belongs to a housing of the job, or the act cannot be.
    fn check_cavity(&self, at: &crate::record::Address) -> Result<super::JobSide, Refusal> {
        let Some(housing) = self.housing(&at.housing) else {
            let names: Vec<&crate::record::HousingName> = self.all.iter().map(|h| &h.name).collect();
            return impossible(
                format!("This job has no housing {}.", at.housing),
                format!("Its housings are {}.", crate::quantity::list_of(&names)),
            );
        };
        match housing.housing().cavity(&at.label) {
            Some(_) => Ok(housing.side),
            None => impossible(
                format!("{} has no cavity {}.", housing.housing().part, at.label),
                "Read the label moulded beside the hole.",
            ),
        }
    }
}

impl Items {
    /// The hand is empty, or the act cannot be.
    fn check_empty_hand(&self) -> Result<(), Refusal> {
        match self.in_hand() {
            None => Ok(()),
            Some(held) => {
                let what = match held {
                    super::InHand::Lead(lead) => lead.call(),
                    super::InHand::Plug(plug) => format!("the plug {}", plug.id),
                    super::InHand::Other(other) => format!("the part {}", other.id),
                };
                impossible(
                    format!("{what} is in the hand."),
                    "One thing at a time: put it in, put it back, or tag and park it.",
                )
            }
        }
    }
}
