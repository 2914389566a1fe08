//! What an act says happened, in a few words: the line under the question, and the question before
//! an entry is taken back.

use crate::{
    face::Face,
    job::{Act, ArrivedVerdict, CrimpVerdict, GateAnswer, Inspected, MatingVerdict, PlugSource, RecordSide},
    quantity::harmless,
    record::CavityContent,
};

/// What happened, in a few words: `the lead is out of old:7`; with whose name, when it is against a rule.
pub fn act_told(act: &Act) -> String {
    let told = told_plainly(act);
    match act.anyway() {
        Some(anyway) => format!("AGAINST A RULE, by {}: {told}", harmless(&anyway.by)),
        None => told,
    }
}

fn told_plainly(act: &Act) -> String {
    match act {
        Act::Ticket { .. } => "the ticket is written".to_owned(),
        Act::Housed { name, definition, .. } => {
            format!("{name} is {}", definition.housing().part)
        }
        Act::Rules { .. } => "the house rules are taken in".to_owned(),
        Act::Recorded { at, holds, side, .. } => format!("{at} {} {}", side_told(*side), holds_told(holds)),
        Act::RecordFinished { side } => format!("the record \"{}\" is finished", side_told(*side)),
        Act::RecordCorrected { at, holds, .. } => format!("{at} corrected: {}", holds_told(holds)),
        Act::RecordFlipped { .. } => "the record is flipped".to_owned(),
        Act::Decided { at, wins, .. } => format!("{at}: {} wins", side_told(*wins)),
        Act::Compared { question, .. } => format!("{} compared", question.words()),
        Act::Mapped { from, to: Some(to), .. } => format!("{from} goes to {to}"),
        Act::Mapped { from, to: None, .. } => format!("{from} has no place on the new side"),
        Act::MapConfirmed { .. } => "the map is confirmed".to_owned(),
        Act::Cause { .. } => "the cause is recorded".to_owned(),
        Act::Photo { number, .. } => format!("photo {number}"),
        Act::Gate { gate, answer, .. } => format!("gate on {}: {}", gate.title(), gate_told(*answer)),
        Act::View { housing, face, up } => match face {
            Face::Wire => format!("{housing}: wires towards you, {up} up"),
            Face::Mating => format!("{housing}: mating face towards you, {up} up"),
        },
        Act::Anchor { housing, .. } => format!("an anchor of {housing} is answered"),
        Act::Lock { housing, to, .. } => format!("lock of {housing} {}", to.words()),
        Act::Assurance { housing, on, .. } => {
            format!("position assurance of {housing} {}", on_or_off(*on))
        }
        Act::SmallPart { housing, part, on } => format!("{part} of {housing} {}", on_or_off(*on)),
        Act::MatingHalf { verdict } => half_told(verdict).to_owned(),
        Act::Tagged { lead, tag } => format!("{lead} carries tag {tag}"),
        Act::Extract { from, .. } => format!("the lead is out of {from}"),
        Act::CutFree { from, .. } => format!("the lead is cut free from {from}"),
        Act::Loose { leads } => format!("{} leads are parked, each with its tag", leads.len()),
        Act::Inspect { verdict: Inspected::Good, .. } => "terminal, seal and wire are good".to_owned(),
        Act::Inspect { verdict: Inspected::Needs(how), .. } => format!("it needs: {}", how.words()),
        Act::Insert { into, click: true, again: true, .. } => {
            format!("in {into}, pushed again: clicked")
        }
        Act::Insert { into, click: true, .. } => format!("in {into}, clicked"),
        Act::Insert { into, click: false, .. } => format!("in {into}, NO click"),
        Act::Tug { at, held: true } => format!("{at} held the tug"),
        Act::Tug { at, held: false } => format!("{at} came out at the tug"),
        Act::PutBack => "put back".to_owned(),
        Act::Park { tag, .. } => format!("parked, tag {tag}"),
        Act::TakeUp { tag } => format!("tag {tag} is in the hand"),
        Act::TakePlug { from, .. } => format!("the plug is out of {from}"),
        Act::FitPlug { into, source: PlugSource::Stock, .. } => format!("a new plug is in {into}"),
        Act::FitPlug { into, .. } => format!("the plug is in {into}"),
        Act::LosePlug => "the plug is lost".to_owned(),
        Act::ScrapPlug { .. } => "the plug is scrapped".to_owned(),
        Act::ReturnPlug => "the plug goes back to stock".to_owned(),
        Act::LeftInOld { at, .. } => format!("what is in {at} stays there"),
        Act::MoveOther { to, part: Some(part), .. } => format!("a new {part} is in {to}"),
        Act::MoveOther { from, to, .. } => format!("what was in {from} is in {to}"),
        Act::Behind { housing, .. } => format!("what lies behind {housing} is recorded"),
        Act::Planned { lead, how, .. } => format!("{lead} planned: {}", how.words()),
        Act::Repair { lead, crimp: Some(crimp), .. } if crimp.verdict == CrimpVerdict::Redo => {
            format!("the crimp on {lead} is cut off again")
        }
        Act::Repair { lead, how, .. } => format!("{lead} repaired: {}", how.words()),
        Act::Removed { wire, .. } => format!("{wire} is out for good"),
        Act::Seen { item, .. } => format!("{item} is seen elsewhere"),
        Act::WrongKey => "the last entry is taken back".to_owned(),
        Act::ReRead { .. } => "a hole is re-read".to_owned(),
        Act::RowCounted { housing, row, .. } => format!("row {row} of {housing} is counted"),
        Act::LookedOver { housing, face, .. } => format!("the {face} face of {housing} is looked over"),
        Act::Measure { test, passed: true, .. } => format!("{test}: passed"),
        Act::Measure { test, passed: false, .. } => format!("{test}: FAILED"),
        Act::Requested { number, revision, .. } => format!("request {number} revision {revision}"),
        Act::Arrived { line, count, verdict, .. } => {
            format!("{count} for line {line} arrived: {}", arrived_told(*verdict))
        }
        Act::Accept { flag, .. } => format!("{flag} is accepted by name"),
        Act::Note { .. } => "a note".to_owned(),
        Act::HandOver { to } => format!("handed over to {to}"),
        Act::Resume { .. } => "the work goes on".to_owned(),
        Act::Mate { level: true, .. } => "mated, the wires stay level".to_owned(),
        Act::Mate { level: false, .. } => "mated, a wire moved".to_owned(),
        Act::Sign { name, .. } => format!("signed by {name}"),
        Act::Stop { .. } => "the job is stopped".to_owned(),
    }
}

fn on_or_off(on: bool) -> &'static str {
    if on { "on" } else { "off" }
}

/// What a cavity holds: the wires by name and colour, else the word.
fn holds_told(holds: &CavityContent) -> String {
    let Some(lead) = holds.lead() else { return holds.word().to_owned() };
    let wire = |w: &crate::record::Wire| match w.name() {
        Some(name) => format!("{} {name}", w.colour),
        None => w.colour.to_string(),
    };
    lead.wires.iter().map(wire).collect::<Vec<_>>().join(" + ")
}

fn side_told(said: RecordSide) -> &'static str {
    match said {
        RecordSide::Found => "as found",
        RecordSide::Should => "as it should be",
    }
}

fn gate_told(said: GateAnswer) -> &'static str {
    match said {
        GateAnswer::Absent => "no such circuit",
        GateAnswer::Released => "released",
        GateAnswer::Stop => "STOP",
        GateAnswer::DontKnow => "not known, STOP",
        GateAnswer::OffMachine => "harness off the machine",
    }
}

fn half_told(said: &MatingVerdict) -> &'static str {
    match said {
        MatingVerdict::Good => "the mating half is sound",
        MatingVerdict::Cleaned => "the mating half is cleaned",
        MatingVerdict::Replaced => "the mating half is replaced",
        MatingVerdict::Damaged(_) => "the mating half is NOT sound",
        MatingVerdict::NotHere => "the mating half is not here",
    }
}

fn arrived_told(said: ArrivedVerdict) -> &'static str {
    match said {
        ArrivedVerdict::AsAsked => "as asked",
        ArrivedVerdict::WrongPart => "the WRONG part",
        ArrivedVerdict::Damaged => "DAMAGED",
        ArrivedVerdict::Substitute => "a substitute, to be accepted by name",
    }
}
