//! What an act says happened, in a few words: the line under the question, and the question before
//! an entry is taken back.

use crate::{
    catalogue::LockState,
    face::Face,
    quantity::{harmless, list_of},
    record::{CavityContent, Seal},
};

use super::{
    Act, ArrivedVerdict, CrimpVerdict, GateAnswer, Inspected, MatingVerdict, PlugSource, RecordSide,
    RepairKind, state::State,
};

impl Act {
    /// What happened, in a few words: `the lead is out of old:7`; with whose name, when it is against a rule.
    pub fn told(&self) -> String {
        let told = self.told_plainly();
        match self.anyway() {
            Some(anyway) => format!("AGAINST A RULE, by {}: {told}", harmless(&anyway.by)),
            None => told,
        }
    }

    fn told_plainly(&self) -> String {
        match self {
            Self::Ticket { .. } => "the ticket is written".to_owned(),
            Self::Housed { name, definition, .. } => {
                format!("{name} is {}", definition.housing().part)
            }
            Self::Rules { .. } => "the house rules are taken in".to_owned(),
            Self::Recorded { at, holds, side, .. } => format!("{at} {} {}", side.told(), holds_told(holds)),
            Self::RecordFinished { side } => format!("the record \"{}\" is finished", side.told()),
            Self::RecordCorrected { at, holds, .. } => format!("{at} corrected: {}", holds_told(holds)),
            Self::RecordFlipped { .. } => "the record is flipped".to_owned(),
            Self::Decided { at, wins, .. } => format!("{at}: {} wins", wins.told()),
            Self::Compared { question, .. } => format!("{} compared", question.words()),
            Self::Mapped { from, to: Some(to), .. } => format!("{from} goes to {to}"),
            Self::Mapped { from, to: None, .. } => format!("{from} has no place on the new side"),
            Self::MapConfirmed { .. } => "the map is confirmed".to_owned(),
            Self::Cause { .. } => "the cause is recorded".to_owned(),
            Self::Photo { number, .. } => format!("photo {number}"),
            Self::Gate { gate, answer, .. } => format!("gate on {}: {}", gate.title(), answer.told()),
            Self::View { housing, face, up } => match face {
                Face::Wire => format!("{housing}: wires towards you, {up} up"),
                Face::Mating => format!("{housing}: mating face towards you, {up} up"),
            },
            Self::Anchor { housing, .. } => format!("an anchor of {housing} is answered"),
            Self::Lock { housing, to, .. } => format!("lock of {housing} {}", to.words()),
            Self::Assurance { housing, on, .. } => {
                format!("position assurance of {housing} {}", on_or_off(*on))
            }
            Self::SmallPart { housing, part, on } => format!("{part} of {housing} {}", on_or_off(*on)),
            Self::MatingHalf { verdict } => verdict.told().to_owned(),
            Self::Tagged { lead, tag } => format!("{lead} carries tag {tag}"),
            Self::Extract { from, .. } => format!("the lead is out of {from}"),
            Self::CutFree { from, .. } => format!("the lead is cut free from {from}"),
            Self::Loose { leads } => format!("{} leads are parked, each with its tag", leads.len()),
            Self::Inspect { verdict: Inspected::Good, .. } => "terminal, seal and wire are good".to_owned(),
            Self::Inspect { verdict: Inspected::Needs(how), .. } => format!("it needs: {}", how.words()),
            Self::Insert { into, click: true, again: true, .. } => {
                format!("in {into}, pushed again: clicked")
            }
            Self::Insert { into, click: true, .. } => format!("in {into}, clicked"),
            Self::Insert { into, click: false, .. } => format!("in {into}, NO click"),
            Self::Tug { at, held: true } => format!("{at} held the tug"),
            Self::Tug { at, held: false } => format!("{at} came out at the tug"),
            Self::PutBack => "put back".to_owned(),
            Self::Park { tag, .. } => format!("parked, tag {tag}"),
            Self::TakeUp { tag } => format!("tag {tag} is in the hand"),
            Self::TakePlug { from, .. } => format!("the plug is out of {from}"),
            Self::FitPlug { into, source: PlugSource::Stock, .. } => format!("a new plug is in {into}"),
            Self::FitPlug { into, .. } => format!("the plug is in {into}"),
            Self::LosePlug => "the plug is lost".to_owned(),
            Self::ScrapPlug { .. } => "the plug is scrapped".to_owned(),
            Self::ReturnPlug => "the plug goes back to stock".to_owned(),
            Self::LeftInOld { at, .. } => format!("what is in {at} stays there"),
            Self::MoveOther { to, part: Some(part), .. } => format!("a new {part} is in {to}"),
            Self::MoveOther { from, to, .. } => format!("what was in {from} is in {to}"),
            Self::Behind { housing, .. } => format!("what lies behind {housing} is recorded"),
            Self::Planned { lead, how, .. } => format!("{lead} planned: {}", how.words()),
            Self::Repair { lead, crimp: Some(crimp), .. } if crimp.verdict == CrimpVerdict::Redo => {
                format!("the crimp on {lead} is cut off again")
            }
            Self::Repair { lead, how, .. } => format!("{lead} repaired: {}", how.words()),
            Self::Removed { wire, .. } => format!("{wire} is out for good"),
            Self::Seen { item, .. } => format!("{item} is seen elsewhere"),
            Self::WrongKey => "the last entry is taken back".to_owned(),
            Self::ReRead { .. } => "a hole is re-read".to_owned(),
            Self::RowCounted { housing, row, .. } => format!("row {row} of {housing} is counted"),
            Self::LookedOver { housing, face, .. } => format!("the {face} face of {housing} is looked over"),
            Self::Measure { test, passed: true, .. } => format!("{test}: passed"),
            Self::Measure { test, passed: false, .. } => format!("{test}: FAILED"),
            Self::Requested { number, revision, .. } => format!("request {number} revision {revision}"),
            Self::Arrived { line, count, verdict, .. } => {
                format!("{count} for line {line} arrived: {}", verdict.told())
            }
            Self::Accept { flag, .. } => format!("{flag} is accepted by name"),
            Self::Note { .. } => "a note".to_owned(),
            Self::HandOver { to } => format!("handed over to {to}"),
            Self::Resume { .. } => "the work goes on".to_owned(),
            Self::Mate { level: true, .. } => "mated, the wires stay level".to_owned(),
            Self::Mate { level: false, .. } => "mated, a wire moved".to_owned(),
            Self::Sign { name, .. } => format!("signed by {name}"),
            Self::Stop { .. } => "the job is stopped".to_owned(),
        }
    }
}

impl State {
    /// What is to be said loudly of an act that was just taken in: that what was read back, counted, looked
    /// at, tugged or tested does not agree; none where all is well.
    pub fn disagrees(&self, act: &Act) -> Option<String> {
        match act {
            Act::ReRead { at, .. } => {
                let read = self.readings.rereads.get(at).filter(|read| !read.agrees)?;
                Some(format!(
                    "DOES NOT AGREE: {at} shows {}. Nothing more is taken out until it is settled.",
                    read.saw
                ))
            }
            Act::RowCounted { housing, row, .. } => {
                (self.readings.row_counts.get(&(housing.clone(), *row)) == Some(&false)).then(|| {
                    let holes = self.housings.row_ends(housing, *row);
                    format!("DOES NOT AGREE: row {row} of {housing} ({holes}). Find the hole that differs.")
                })
            }
            Act::LookedOver { housing, face, cavities, sound: false, .. } if cavities.is_empty() => {
                Some(format!("NOT SOUND: the {face} face of {housing}. Put it right, then look again."))
            }
            Act::LookedOver { housing, cavities, sound: false, .. } => Some(format!(
                "NOT SOUND: {} of {housing}. It is not good until it is mended.",
                list_of(cavities)
            )),
            Act::Extract { from, freely, seal, .. } if !freely || *seal == Seal::Missing => {
                let force = (!freely).then_some("it came WITH FORCE: its crimp is suspect");
                let seal = (*seal == Seal::Missing).then_some("its SEAL IS MISSING: look in the hole");
                let both: Vec<&str> = force.into_iter().chain(seal).collect();
                Some(format!("The lead of {from} is out: {}.", list_of(&both)))
            }
            Act::Lock { to: LockState::Broken, housing, .. } => {
                Some(format!("BROKEN: the lock of {housing}. It holds nothing; a new one is needed."))
            }
            Act::Measure { test, passed: false, .. } => {
                Some(format!("FAILED: {test}. Find the fault and test again."))
            }
            Act::Anchor { housing, .. } => {
                let failed =
                    self.housings.housing(housing).and_then(|housing| self.failed_anchor(housing))?;
                let colour = failed.colour.as_ref().map_or(String::new(), |colour| format!("{colour}, "));
                Some(format!(
                    "DOES NOT AGREE: {housing}, {}: {colour}mark \"{}\". Colour or mark is not that of the record.",
                    failed.place,
                    harmless(&failed.mark)
                ))
            }
            Act::Tug { at, held: false } => Some(format!("DID NOT HOLD: the lead of {at} is in your hand.")),
            Act::Insert { into, click: false, .. } => Some(format!("NO CLICK in {into}.")),
            Act::Mate { level: false, .. } => {
                Some("A WIRE WAS PUSHED BACK: part the halves and find the terminal.".to_owned())
            }
            Act::MatingHalf { verdict: MatingVerdict::Damaged(what) } => Some(format!(
                "The mating half is NOT SOUND ({what}): nothing is mated until that is settled."
            )),
            Act::Lock { finger: false, to: LockState::FullSet, housing, .. } => {
                Some(format!("FORCED: the lock of {housing}. Open it, find the terminal that stands out."))
            }
            Act::Arrived { line, verdict: ArrivedVerdict::WrongPart | ArrivedVerdict::Damaged, .. } => {
                Some(format!("Line {line} goes on waiting: what came cannot be used."))
            }
            Act::Arrived { line, verdict: ArrivedVerdict::Substitute, .. } => Some(format!(
                "Line {line} goes on waiting until a named person accepts the substitute (! a)."
            )),
            // All is well, or there is nothing to agree with.
            Act::Ticket { .. }
            | Act::Housed { .. }
            | Act::Rules { .. }
            | Act::Recorded { .. }
            | Act::RecordFinished { .. }
            | Act::RecordCorrected { .. }
            | Act::RecordFlipped { .. }
            | Act::Decided { .. }
            | Act::Compared { .. }
            | Act::Mapped { .. }
            | Act::MapConfirmed { .. }
            | Act::Cause { .. }
            | Act::Photo { .. }
            | Act::Gate { .. }
            | Act::View { .. }
            | Act::Lock { .. }
            | Act::Assurance { .. }
            | Act::SmallPart { .. }
            | Act::MatingHalf { .. }
            | Act::Tagged { .. }
            | Act::Extract { .. }
            | Act::CutFree { .. }
            | Act::Loose { .. }
            | Act::Inspect { .. }
            | Act::Insert { .. }
            | Act::Tug { .. }
            | Act::PutBack
            | Act::Park { .. }
            | Act::TakeUp { .. }
            | Act::TakePlug { .. }
            | Act::FitPlug { .. }
            | Act::LosePlug
            | Act::ScrapPlug { .. }
            | Act::ReturnPlug
            | Act::LeftInOld { .. }
            | Act::MoveOther { .. }
            | Act::Behind { .. }
            | Act::Planned { .. }
            | Act::Repair { .. }
            | Act::Removed { .. }
            | Act::Seen { .. }
            | Act::WrongKey
            | Act::LookedOver { .. }
            | Act::Measure { .. }
            | Act::Requested { .. }
            | Act::Arrived { .. }
            | Act::Accept { .. }
            | Act::Note { .. }
            | Act::HandOver { .. }
            | Act::Resume { .. }
            | Act::Mate { .. }
            | Act::Sign { .. }
            | Act::Stop { .. } => None,
        }
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

impl RecordSide {
    fn told(self) -> &'static str {
        match self {
            Self::Found => "as found",
            Self::Should => "as it should be",
        }
    }
}

impl GateAnswer {
    fn told(self) -> &'static str {
        match self {
            Self::Absent => "no such circuit",
            Self::Released => "released",
            Self::Stop => "STOP",
            Self::DontKnow => "not known, STOP",
            Self::OffMachine => "harness off the machine",
        }
    }
}

impl MatingVerdict {
    fn told(&self) -> &'static str {
        match self {
            Self::Good => "the mating half is sound",
            Self::Cleaned => "the mating half is cleaned",
            Self::Replaced => "the mating half is replaced",
            Self::Damaged(_) => "the mating half is NOT sound",
            Self::NotHere => "the mating half is not here",
        }
    }
}

impl ArrivedVerdict {
    fn told(self) -> &'static str {
        match self {
            Self::AsAsked => "as asked",
            Self::WrongPart => "the WRONG part",
            Self::Damaged => "DAMAGED",
            Self::Substitute => "a substitute, to be accepted by name",
        }
    }
}

impl RepairKind {
    /// The repair in words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Reform => "its tang re-formed",
            Self::NewTerminal => "a new terminal",
            Self::NewSeal => "a new seal",
            Self::RepairLead => "a repair lead",
            Self::Join => "joined with another lead",
            Self::Other => "another repair",
        }
    }
}
