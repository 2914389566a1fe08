//! A technician who makes no mistake: answers what the procedure asks from what is really there. What he cannot
//! answer he says, with the question.

use std::collections::BTreeSet;

use crate::{
    catalogue::Delivered,
    job::{ItemId, MapSource},
    procedure::{
        AnchorQuestion, Ask, Choice, ClosingQuestion, CrimpOf, CrimpQuestion, GateField, InHandQuestion,
        JobView, MapQuestion, MoveQuestion, PlugQuestion, Question, RecordQuestion, RepairQuestion, Reply,
        SetupQuestion, Takes, Topic, named_part,
    },
    record::{Address, CavityContent, HousingName},
};

use super::{Thing, Truth, keyed::wires, truth::Bench, usual};

/// A question nobody told the technician the answer to.
#[derive(Debug, thiserror::Error)]
#[error("the technician has no answer: {0}")]
pub struct Unanswered(String);

impl Unanswered {
    fn of(ask: &Ask) -> Self {
        Self(format!("{:?}, which takes {:?}", ask.question, ask.takes))
    }

    /// Nothing was asked where something should be.
    pub(super) fn of_topic(topic: &Topic, why: String) -> Self {
        Self(format!("{topic:?}: {why}"))
    }
}

/// Someone at a bench, with a connector before him.
#[derive(Debug, Clone)]
pub struct Technician {
    truth: Truth,
    bench: Bench,
    /// How many tags were written.
    tags: usize,
    /// The leads that were pushed in once.
    pushed: BTreeSet<Address>,
}

impl Technician {
    /// Before this connector, with nothing done.
    pub fn before(truth: Truth) -> Self {
        Self { truth, bench: Bench::new(), tags: 0, pushed: BTreeSet::new() }
    }

    /// The answer to a question, after the hands did what it asks.
    pub fn reply(&mut self, view: &JobView<'_>, ask: &Ask) -> Result<Reply, Unanswered> {
        match &ask.takes {
            Takes::Text(_) => self.typed(view, &ask.question).map(Reply::Text),
            Takes::Choices(offered) => {
                let choice = self.chosen(view, &ask.question, offered);
                choice.filter(|choice| offered.contains(choice)).map(Reply::Choice)
            }
        }
        .ok_or_else(|| Unanswered::of(ask))
    }

    /// What is typed.
    fn typed(&mut self, view: &JobView<'_>, question: &Question) -> Option<String> {
        match question {
            Question::Record(RecordQuestion::Wires(at)) => wires(self.truth.holds.get(at)?),
            Question::Record(RecordQuestion::Bridge(at)) => match self.truth.holds.get(at)? {
                CavityContent::Bridge(what) => Some(what.clone()),
                _ => None,
            },
            Question::Intake(asked) => Some(usual::said_at_intake(asked)),
            Question::Gate(asked) => self.at_gate(&asked.field),
            Question::Setup(SetupQuestion::Tag(_)) => {
                self.tags += 1;
                Some(format!("T{}", self.tags))
            }
            Question::Setup(SetupQuestion::DecideWhy(_)) => Some("as the machine was built".to_owned()),
            Question::Setup(SetupQuestion::JoinedAt(_)) => Some("-".to_owned()),
            Question::Anchor(asked) => self.anchor(view, asked),
            Question::Move(MoveQuestion::ColourAt { at, .. }) => {
                self.bench.at(&self.truth, view, at)?.colour()
            }
            Question::Move(MoveQuestion::LabelFor(lead)) => {
                view.assessment.target.of(lead).map(ToString::to_string)
            }
            Question::Plug(asked) => label_for(view, asked),
            Question::InHand(InHandQuestion::TestPin(_)) => Some("-".to_owned()),
            Question::InHand(InHandQuestion::DamageReach(_)) => Some("20 mm".to_owned()),
            Question::Repair(RepairQuestion::Part { lead, .. }) => {
                let named = view.state().items.lead(lead).and_then(|lead| named_part(view, lead));
                Some(if named.is_some() { "=" } else { "-" }.to_owned())
            }
            Question::Repair(RepairQuestion::WhatWasDone) => Some("mended by the manual".to_owned()),
            Question::Crimp(asked) => usual::crimped(view, asked),
            Question::Closing(asked) => self.at_the_end(view, asked),
            Question::Test(asked) => Some(usual::measured(asked.test, asked.field)),
            Question::Halt(_)
            | Question::Record(_)
            | Question::Setup(_)
            | Question::Map(_)
            | Question::Move(_)
            | Question::InHand(_)
            | Question::Consequence(_)
            | Question::Repair(_)
            | Question::Splice(_)
            | Question::Order(_)
            | Question::Behind(_)
            | Question::Tool(_)
            | Question::Desk(_)
            | Question::Accident(_)
            | Question::Other(_)
            | Question::Define(_) => None,
        }
    }

    /// What is chosen.
    fn chosen(&mut self, view: &JobView<'_>, question: &Question, offered: &[Choice]) -> Option<Choice> {
        match question {
            Question::Record(asked) => self.recorded(asked),
            Question::Gate(asked) => match asked.field {
                GateField::TesterProved => Some(Choice::Proved),
                _ if asked.gate.can_be_absent() => Some(Choice::Absent),
                _ => Some(Choice::Released),
            },
            Question::Setup(asked) => Some(usual::set_up(asked, offered)),
            Question::Map(MapQuestion::Confirm) => {
                let sources = view.state().map_proposals();
                let known = sources.iter().any(|proposal| proposal.source != MapSource::Hand);
                offered.first().copied().filter(|_| known)
            }
            Question::Move(asked) => self.moved(view, asked),
            Question::Plug(asked) => self.moved_plug(view, asked, offered),
            Question::InHand(asked) => self.looked_at(view, asked, offered),
            Question::Repair(RepairQuestion::Done { .. }) => Some(Choice::RepairDone),
            Question::Crimp(CrimpOf { what: CrimpQuestion::Look, .. }) => Some(Choice::Yes),
            Question::Crimp(CrimpOf { what: CrimpQuestion::Tug, .. }) => Some(Choice::Held),
            Question::Test(_) => Some(Choice::Passed),
            // What is well is offered first.
            Question::Closing(_) => offered.first().copied(),
            Question::Halt(_)
            | Question::Intake(_)
            | Question::Anchor(_)
            | Question::Map(_)
            | Question::Consequence(_)
            | Question::Repair(_)
            | Question::Crimp(_)
            | Question::Splice(_)
            | Question::Order(_)
            | Question::Behind(_)
            | Question::Tool(_)
            | Question::Desk(_)
            | Question::Accident(_)
            | Question::Other(_)
            | Question::Define(_) => None,
        }
    }

    fn recorded(&self, asked: &RecordQuestion) -> Option<Choice> {
        match asked {
            RecordQuestion::Finish => Some(Choice::Finished),
            RecordQuestion::Content { at, .. } => Some(match self.truth.holds.get(at)? {
                CavityContent::Wired(_) => Choice::Wired,
                CavityContent::Plugged => Choice::Plugged,
                CavityContent::Open => Choice::Open,
                CavityContent::Empty => Choice::Empty,
                CavityContent::Blocked => Choice::Blocked,
                CavityContent::Spare(_) => Choice::Spare,
                CavityContent::Bridge(_) => Choice::Bridge,
            }),
            RecordQuestion::PlugBehind(at) => match self.truth.holds.get(at)? {
                CavityContent::Spare(spare) if spare.plug_behind => Some(Choice::Yes),
                _ => Some(Choice::No),
            },
            RecordQuestion::Wires(_) | RecordQuestion::Bridge(_) => None,
        }
    }

    fn at_gate(&self, field: &GateField) -> Option<String> {
        let said = match field {
            GateField::Circuit => "lamps and valves",
            GateField::Voltage => "24 V DC",
            GateField::Sleeve => "none",
            GateField::Document => "wiring diagram",
            GateField::Name => &self.truth.name,
            GateField::Energy => "-",
            GateField::Reading => "0 V",
            GateField::Points => "1 and chassis",
            GateField::State(_) => "lowered on stands",
            GateField::Answer | GateField::TesterProved => return None,
        };
        Some(said.to_owned())
    }

    /// What is seen at a place of the housing as it is held.
    fn anchor(&self, view: &JobView<'_>, asked: &AnchorQuestion) -> Option<String> {
        match asked {
            AnchorQuestion::Colour { housing, place } => {
                let housing = view.housing(housing)?;
                let seen = housing.seen();
                Some(self.seen_in(view, &housing.address(seen.label_at(*place)?)))
            }
            AnchorQuestion::Mark { housing, place } => {
                view.housing(housing)?.seen().label_at(*place).map(ToString::to_string)
            }
            AnchorQuestion::Feature(housing) => {
                let housing = view.housing(housing)?;
                housing.housing().feature_on(housing.pose().up).map(ToString::to_string)
            }
            AnchorQuestion::Failed(_) => None,
        }
    }

    /// What is seen in a hole: a colour, a plug, nothing.
    fn seen_in(&self, view: &JobView<'_>, at: &Address) -> String {
        match self.bench.at(&self.truth, view, at) {
            None => "nothing".to_owned(),
            Some(Thing { is: CavityContent::Plugged, .. }) => "plug".to_owned(),
            Some(thing) => thing.colour().unwrap_or_else(|| "nothing".to_owned()),
        }
    }

    fn moved(&mut self, view: &JobView<'_>, asked: &MoveQuestion) -> Option<Choice> {
        match asked {
            MoveQuestion::Extract { at, .. } | MoveQuestion::OutAgain { at, .. } => {
                self.bench.takes(&self.truth, view, at);
                Some(Choice::Out)
            }
            MoveQuestion::Clicked { into, .. } => {
                let from = self.bench.hand.as_ref()?.from.clone();
                self.bench.puts(into);
                // What is stiff clicks when it is pushed once more.
                let is_stiff =
                    from.is_some_and(|from| self.truth.stiff.contains(&from) && self.pushed.insert(from));
                Some(if is_stiff { Choice::NoClick } else { Choice::Clicked })
            }
            MoveQuestion::PushedAgain { .. } => Some(Choice::PushedAgain),
            MoveQuestion::TugHeld { .. } => Some(Choice::Held),
            MoveQuestion::TakeUp { .. } => Some(Choice::TakeUp),
            MoveQuestion::HowItCame(_) => Some(Choice::Freely),
            MoveQuestion::SealCame(_) => Some(Choice::SealWith),
            MoveQuestion::ColourAt { .. } | MoveQuestion::LabelFor(_) | MoveQuestion::Found(_) => None,
        }
    }

    fn moved_plug(&mut self, view: &JobView<'_>, asked: &PlugQuestion, offered: &[Choice]) -> Option<Choice> {
        match asked {
            PlugQuestion::Out(at) => {
                self.bench.takes(&self.truth, view, at);
                Some(Choice::Out)
            }
            PlugQuestion::In { into, .. } => {
                self.bench.puts(into);
                Some(Choice::InPlace)
            }
            // Fitted where one is missing, else given back.
            PlugQuestion::InHand { .. } => offered.first().copied(),
            PlugQuestion::NewIn(into) => {
                self.bench.fits(into, Thing { from: None, is: CavityContent::Plugged });
                Some(Choice::FromStock)
            }
            PlugQuestion::OtherLeft(_) => Some(Choice::LeftThere),
            PlugQuestion::OtherIn(into) => {
                self.bench.puts(into);
                Some(Choice::InPlace)
            }
            PlugQuestion::LabelFor(_)
            | PlugQuestion::ScrapWhy
            | PlugQuestion::LabelForNew(_)
            | PlugQuestion::SparePart
            | PlugQuestion::NewOther { .. }
            | PlugQuestion::LabelForNewOther
            | PlugQuestion::LabelForOther(_) => None,
        }
    }

    /// What is found on the lead in the hand.
    fn looked_at(&self, view: &JobView<'_>, asked: &InHandQuestion, offered: &[Choice]) -> Option<Choice> {
        let hurt = |lead: &ItemId| match lead {
            ItemId::At(at) => self.truth.hurt.get(at).copied(),
            ItemId::PlugBehind(_) | ItemId::Loose(_) | ItemId::Stock(_) => None,
        };
        let is_mended = |lead: &ItemId| {
            let lead = view.state().items.lead(lead);
            lead.is_some_and(|lead| lead.repairs.iter().any(|done| done.stands()))
        };
        match asked {
            InHandQuestion::Verdict(lead) => {
                let needs = hurt(lead).is_some() && !is_mended(lead);
                Some(if needs { Choice::RepairNeeded } else { Choice::Good })
            }
            InHandQuestion::Found(lead) => hurt(lead).map(usual::choice_of),
            InHandQuestion::Proposed { .. } => Some(Choice::DoIt),
            InHandQuestion::StopWith { .. } => offered.first().copied(),
            InHandQuestion::WhyGood(_)
            | InHandQuestion::TestPin(_)
            | InHandQuestion::DamageReach(_)
            | InHandQuestion::WhichRepair(_)
            | InHandQuestion::WhyOtherwise => None,
        }
    }

    fn at_the_end(&self, view: &JobView<'_>, asked: &ClosingQuestion) -> Option<String> {
        match asked {
            ClosingQuestion::CountRow(housing, row) => self.counted(view, housing, *row),
            ClosingQuestion::ReRead(at) => Some(self.seen_in(view, at)),
            ClosingQuestion::SignName => Some(self.truth.name.clone()),
            ClosingQuestion::SerialEnd => {
                let serial = &self.truth.serial;
                serial.get(serial.len().saturating_sub(4)..).map(ToOwned::to_owned)
            }
            ClosingQuestion::AssuranceOff(_)
            | ClosingQuestion::AssuranceOn(_)
            | ClosingQuestion::Unlock(..)
            | ClosingQuestion::PartOff(..)
            | ClosingQuestion::PartOn(..)
            | ClosingQuestion::LookOver(..)
            | ClosingQuestion::LookFault(..)
            | ClosingQuestion::Cleared(_)
            | ClosingQuestion::MatingHalf
            | ClosingQuestion::MatingHalfFault
            | ClosingQuestion::AtMachine
            | ClosingQuestion::NewLock(_)
            | ClosingQuestion::CloseLock(_)
            | ClosingQuestion::Mated
            | ClosingQuestion::Resume => None,
        }
    }

    /// Wires, plugs and open holes of a row, by eye.
    fn counted(&self, view: &JobView<'_>, housing: &HousingName, row: usize) -> Option<String> {
        let rows = view.housing(housing)?.rows();
        let (mut wires, mut plugs, mut open) = (0, 0, 0);
        for at in rows.get(row.checked_sub(1)?)? {
            let is_shut = self.truth.holds.get(at) == Some(&CavityContent::Blocked) || is_shut(view, at);
            match self.bench.at(&self.truth, view, at).map(|thing| thing.is) {
                Some(CavityContent::Wired(_)) => wires += 1,
                Some(CavityContent::Plugged) => plugs += 1,
                Some(CavityContent::Spare(spare)) => plugs += usize::from(spare.plug_behind),
                Some(_) => {}
                None if is_shut => {}
                None => open += 1,
            }
        }
        Some(format!("{wires} {plugs} {open}"))
    }
}

/// Whether a hole is moulded shut or bridged as it is delivered.
fn is_shut(view: &JobView<'_>, at: &Address) -> bool {
    let delivered = view.state().housings.cavity(at).map(|cavity| cavity.delivered);
    matches!(delivered, Some(Delivered::Blocked | Delivered::Bridge))
}

/// The label of the hole a plug or another part goes into, as its step has it.
fn label_for(view: &JobView<'_>, asked: &PlugQuestion) -> Option<String> {
    match asked {
        PlugQuestion::LabelFor(Some(from)) | PlugQuestion::LabelForOther(from) => {
            // Where the step has it: a plug that came with the new housing has no place on the map.
            let ends = view.assessment.steps.iter().map(|step| step.what.ends());
            let to = ends.into_iter().find_map(|(start, to)| to.filter(|_| start == Some(from)));
            to.map(ToString::to_string)
        }
        PlugQuestion::LabelFor(None) => {
            let occupants = view.state().items.occupants();
            let mut cavities = view.assessment.target.cavities.iter();
            let needy = cavities.find(|(at, expected)| expected.takes_plug() && !occupants.contains_key(at));
            needy.map(|(at, _)| at.to_string())
        }
        PlugQuestion::LabelForNew(at) => Some(at.to_string()),
        PlugQuestion::Out(_)
        | PlugQuestion::In { .. }
        | PlugQuestion::InHand { .. }
        | PlugQuestion::ScrapWhy
        | PlugQuestion::SparePart
        | PlugQuestion::NewIn(_)
        | PlugQuestion::OtherLeft(_)
        | PlugQuestion::NewOther { .. }
        | PlugQuestion::LabelForNewOther
        | PlugQuestion::OtherIn(_) => None,
    }
}
