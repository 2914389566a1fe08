//! What was said, seen and decided, as the state keeps it.

use jiff::civil::Date;

use std::collections::BTreeSet;

use crate::{
    catalogue::PartNumber,
    colour::Colour,
    face::PosePlace,
    quantity::Voltage,
    record::{Address, DifferenceKind, HousingName},
    shop_rules::TestKind,
    supply::Request,
};

use super::{
    Anyway, ArrivedVerdict, Code, FaceFault, GateAnswer, ItemId, ReadBack, RecordSide, RequestSaid,
    RequestedLine,
};

/// What was answered to an anchor.
#[derive(Debug, Clone, PartialEq)]
pub struct AnchorSeen {
    /// The place, in the pose of the view.
    pub place: PosePlace,
    /// The colour that goes in there.
    pub colour: Option<Colour>,
    /// The mark moulded there.
    pub mark: String,
    /// Whether both agree with the record and the definition.
    pub agrees: bool,
}

/// An answered gate.
#[derive(Debug, Clone, PartialEq)]
pub struct GateSeen {
    /// The answer.
    pub answer: GateAnswer,
    /// Who answers for it.
    pub name: Option<String>,
    /// The document named.
    pub document: Option<String>,
    /// What the diagram says the circuits are, as told.
    pub circuit: Option<String>,
    /// The colours of sleeves and covers, as told.
    pub sleeve: Option<String>,
    /// The highest voltage of the diagram, as told.
    pub voltage: Option<Voltage>,
    /// Whether it was answered since the last pause, hand-over or change of person; an answer "off the
    /// machine" also lapses at mating.
    pub fresh: bool,
}

/// A rule that a named person went past.
#[derive(Debug, Clone, PartialEq)]
pub struct Deviation {
    /// Its place in the journal, from 0.
    pub n: usize,
    /// The rule.
    pub code: Code,
    /// Where.
    pub at: Option<Address>,
    /// Where it went, when it was moved.
    pub to: Option<Address>,
    /// The lead it was done to.
    pub lead: Option<ItemId>,
    /// By whom and why.
    pub anyway: Anyway,
}

/// A flag taken as a deviation by a named person.
#[derive(Debug, Clone, PartialEq)]
pub struct Accepted {
    /// The flag.
    pub flag: Code,
    /// Where, when it is about one cavity.
    pub at: Option<Address>,
    /// The lead, plug or other it is about, when it is about one: it is accepted wherever that goes.
    pub item: Option<ItemId>,
    /// The line of the request, where several of its parts are spoken of at one place.
    pub line: Option<u32>,
    /// Who.
    pub by: String,
    /// Why.
    pub reason: String,
    /// Until when, for a temporary measure.
    pub due: Option<Date>,
}

/// What was decided at a cavity.
#[derive(Debug, Clone, PartialEq)]
pub struct Decision {
    /// The record that wins.
    pub wins: RecordSide,
    /// Why.
    pub reason: String,
    /// The differences it was about: others that show up there later are decided anew.
    pub about: Vec<DifferenceKind>,
}

/// A re-read of a hole of a new housing.
#[derive(Debug, Clone, PartialEq)]
pub struct ReReadSeen {
    /// What was seen.
    pub saw: ReadBack,
    /// Whether it agrees with the record.
    pub agrees: bool,
    /// Who read it.
    pub by: String,
}

/// A look over a face of a housing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LookSeen {
    /// Whether everything was found sound.
    pub sound: bool,
    /// What was not, where that was said.
    pub found: Vec<FaceFault>,
    /// Its place in the journal, from 0.
    pub n: usize,
}

/// What a resume check still needs.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ResumeNeed {
    /// Why the check is asked.
    pub why: String,
    /// Holes re-read since.
    pub reread: BTreeSet<Address>,
    /// Rows counted since and found right.
    pub rows: BTreeSet<(HousingName, usize)>,
    /// Housings whose view was said again since.
    pub views: BTreeSet<HousingName>,
}

/// A request that went out.
#[derive(Debug, Clone, PartialEq)]
pub struct RequestSeen {
    /// Its number.
    pub number: String,
    /// Its revision.
    pub revision: u32,
    /// Its lines.
    pub lines: Vec<RequestedLine>,
    /// What it said beside its lines.
    pub said: Option<Box<RequestSaid>>,
}

impl RequestSeen {
    /// The request as it was sent; none where version 1 wrote it, which kept only what is waited for,
    /// and where what it calls a number is none.
    pub fn sent(&self) -> Option<Request> {
        let said = self.said.as_ref()?;
        let lines = self.lines.iter().map(|line| line.asked.as_deref().cloned());
        Some(Request {
            number: self.number.parse().ok()?,
            revision: self.revision,
            head: said.head.clone(),
            why: said.why.clone(),
            photos: said.photos.clone(),
            lines: lines.collect::<Option<_>>()?,
        })
    }
}

/// What came for a line of the request.
#[derive(Debug, Clone, PartialEq)]
pub struct Arrival {
    /// The line.
    pub line: u32,
    /// How many.
    pub count: u32,
    /// The part, when it is not the one asked for.
    pub part: Option<PartNumber>,
    /// What it is.
    pub verdict: ArrivedVerdict,
    /// Whether a named person accepted it as a substitute.
    pub is_accepted: bool,
}

/// A test that was made.
#[derive(Debug, Clone, PartialEq)]
pub struct TestSeen {
    /// Which.
    pub test: TestKind,
    /// Of which circuit; all when none is named.
    pub circuit: Option<String>,
    /// The value as typed.
    pub value: String,
    /// The limit it was held against, and whose it is.
    pub limit: Option<(String, String)>,
    /// Whether it passed.
    pub passed: bool,
    /// Its place in the journal, from 0.
    pub n: usize,
}

impl Arrival {
    /// Whether what waits for the line can go on with it.
    pub fn is_of_use(&self) -> bool {
        match self.verdict {
            ArrivedVerdict::AsAsked => true,
            ArrivedVerdict::Substitute => self.is_accepted,
            ArrivedVerdict::WrongPart | ArrivedVerdict::Damaged => false,
        }
    }
}
