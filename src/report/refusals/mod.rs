//! Refusals in words: of each one sentence that says what is wrong, and one that says what to do instead.

mod closing;
mod crimps;
mod disagreement;
mod every_act;
mod gates;
mod halves;
mod measure;
mod moves;
mod orders;
mod places;
mod plugs;
mod records;
mod repairs;
mod setup;
mod start;
mod supply;

use super::{Words, objections::objection};
use crate::job::{
    Refusal,
    refusal::{Barrier, Rule},
};

pub(super) use orders::not_plannable;

/// A refusal, in words.
pub fn words(refusal: &Refusal) -> Words {
    match refusal {
        Refusal::Barrier(barrier) => of_barrier(barrier),
        Refusal::Rule(rule) => of_rule(rule),
    }
}

/// A refusal with what to do instead.
pub fn line(refusal: &Refusal) -> String {
    let Words { say, instead } = words(refusal);
    format!("{say} {instead}")
}

/// Refusals as they are said in one line, each with what to do instead.
pub fn in_one_line(refusals: &[Refusal]) -> String {
    refusals.iter().map(line).collect::<Vec<_>>().join(" ")
}

fn of_barrier(barrier: &Barrier) -> Words {
    match barrier {
        Barrier::EveryAct(barrier) => every_act::barrier(barrier),
        Barrier::TakeBack(barrier) => every_act::take_back(barrier),
        Barrier::Place(barrier) => places::barrier(barrier),
        Barrier::Start(barrier) => start::barrier(barrier),
        Barrier::Look(barrier) => moves::look(barrier),
        Barrier::TakeOut(barrier) => moves::take_out(barrier),
        Barrier::PutIn(barrier) => moves::put_in(barrier),
        Barrier::Aside(barrier) => moves::aside(barrier),
        Barrier::Plug(barrier) => plugs::plug(barrier),
        Barrier::Other(barrier) => plugs::other(barrier),
        Barrier::Seen(barrier) => plugs::seen(barrier),
        Barrier::World(barrier) => records::world(barrier),
        Barrier::Record(barrier) => records::record(barrier),
        Barrier::Decision(barrier) => records::decision(barrier),
        Barrier::Sight(barrier) => setup::sight(barrier),
        Barrier::Mapping(barrier) => setup::mapping(barrier),
        Barrier::Map(barrier) => setup::map(barrier),
        Barrier::Halves(barrier) => halves::barrier(barrier),
        Barrier::Repair(barrier) => repairs::repair(barrier),
        Barrier::Removal(barrier) => repairs::removal(barrier),
        Barrier::Order(barrier) => orders::order(barrier),
        Barrier::Join(barrier) => orders::join(barrier),
        Barrier::Request(barrier) => supply::request(barrier),
        Barrier::Arrival(barrier) => supply::arrival(barrier),
        Barrier::Accept(barrier) => supply::accept(barrier),
        Barrier::Reading(barrier) => closing::reading(barrier),
        Barrier::Resume(barrier) => closing::resume(barrier),
        Barrier::Sign(barrier) => closing::sign(barrier),
        Barrier::Measure(barrier) => measure::barrier(barrier),
    }
}

fn of_rule(rule: &Rule) -> Words {
    match rule {
        Rule::EveryAct(rule) => every_act::rule(rule),
        Rule::Start(rule) => start::rule(rule),
        Rule::Disagreement(rule) => disagreement::rule(rule),
        Rule::Move(rule) => moves::rule(rule),
        Rule::Plug(rule) => plugs::rule(rule),
        Rule::Halves(rule) => halves::rule(rule),
        Rule::Repair(rule) => repairs::rule(rule),
        Rule::Lead(against) => objection(against),
        Rule::Crimp(rule) => crimps::rule(rule),
        Rule::Reach(rule) => crimps::reach(rule),
        Rule::Splice(rule) => repairs::splice(rule),
        Rule::Order(rule) => orders::rule(rule),
        Rule::Gate(rule) => gates::rule(rule),
        Rule::Release(rule) => gates::release(rule),
    }
}
