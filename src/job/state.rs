//! The state of a job: the fold of its entries in force. Plain data; only `apply` changes it.

use std::collections::{BTreeMap, BTreeSet};

use jiff::Timestamp;

use crate::{
    catalogue::{Definition, Housing, LockState, PartNumber},
    face::{Face, Label, Pose},
    reckoning::DamageCause,
    record::{Address, HousingName, Record},
    shop_rules::ShopRules,
};

use super::{
    CavityMap, Fit, GateKind, ItemId, JobSide, Lead, MapSource, MatingVerdict, OtherItem, Place, PlugItem,
    Question, RecordSide, RepairKind, Tag, TicketId,
    repairs::{Behind, RepairDone},
    seen::{
        Accepted, AnchorSeen, Arrival, Decision, Deviation, GateSeen, LookSeen, ReReadSeen, RequestSeen,
        ResumeNeed, TestSeen,
    },
};

/// What the job is about.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Ticket {
    /// Its random id; none in a job of version 1.
    pub id: Option<TicketId>,
    /// The machine, as the shop calls it.
    pub asset: String,
    /// Its serial number.
    pub serial: String,
    /// The connector's name on the diagram.
    pub connector: String,
    /// Why the housing is replaced.
    pub reason: String,
    /// What the drawn questions are drawn from.
    pub seed: u64,
}

/// A housing of the job and what was done to it.
#[derive(Debug, Clone, PartialEq)]
pub struct JobHousing {
    /// Its short name.
    pub name: HousingName,
    /// Which side it is on.
    pub side: JobSide,
    /// What it is.
    pub definition: Definition,
    /// How it is held, once said: the pose, and the word used for "up".
    pub view: Option<(Pose, String)>,
    /// The anchors asked since the view was last set.
    pub anchors: Vec<AnchorSeen>,
    /// The state of the secondary lock; none when it has none.
    pub lock: Option<LockState>,
    /// How often a lock that was full-set was opened again.
    pub lock_openings: u32,
    /// Whether the lock was pressed home with more than a finger.
    pub lock_forced: bool,
    /// Whether the position assurance was pushed in before the halves were mated.
    pub assurance_forced: bool,
    /// Whether the position assurance is on; none when it has none.
    pub assurance: Option<bool>,
    /// Small parts that are on.
    pub parts_on: BTreeSet<String>,
    /// Small parts that were spoken of.
    pub parts_seen: BTreeSet<String>,
}

impl JobHousing {
    /// The housing itself.
    pub fn housing(&self) -> &Housing {
        self.definition.housing()
    }

    /// The address of one of its cavities.
    pub fn address(&self, label: &Label) -> Address {
        Address::new(self.name.clone(), label.clone())
    }

    /// The pose it is held in, or drawn in while nothing was said.
    pub fn pose(&self) -> Pose {
        self.view.as_ref().map_or(self.housing().drawn_pose(), |(pose, _)| *pose)
    }
}

/// Everything the entries in force add up to.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct State {
    /// The ticket.
    pub ticket: Ticket,
    /// The house rules.
    pub rules: ShopRules,
    /// The housings, old ones first.
    pub housings: Vec<JobHousing>,
    /// What is physically in the old housings.
    pub found: Record,
    /// What belongs there.
    pub should: Record,
    /// Which records are finished.
    pub finished: BTreeSet<RecordSide>,
    /// Decisions on differences between the records.
    pub decisions: BTreeMap<Address, Decision>,
    /// What was compared with the mating half in hand.
    pub compared: BTreeMap<Question, Fit>,
    /// What was mapped cavity by cavity.
    pub mapped_by_hand: CavityMap,
    /// The map from old cavities to new ones: what was mapped by hand, and what a source fills in:
    /// the one confirmed, else the first that the definitions give.
    pub map: CavityMap,
    /// Documents under which a cavity was mapped.
    pub map_documents: BTreeMap<Address, String>,
    /// Where the confirmed map came from.
    pub map_confirmed: Option<MapSource>,
    /// The cause of the damage.
    pub cause: Option<String>,
    /// Which of the known causes it is.
    pub cause_kind: Option<DamageCause>,
    /// What lies behind the old housings.
    pub behind: BTreeMap<HousingName, Behind>,
    /// Photos: number and what it shows.
    pub photos: Vec<(String, String)>,
    /// Notes: place in the journal, about what, text.
    pub notes: Vec<(usize, Option<Address>, String)>,
    /// The gates.
    pub gates: BTreeMap<GateKind, GateSeen>,
    /// The leads.
    pub leads: Vec<Lead>,
    /// The plugs.
    pub plugs: Vec<PlugItem>,
    /// Spare terminals, bridges and the like.
    pub others: Vec<OtherItem>,
    /// What stays in an old housing on purpose.
    pub left_in_old: BTreeMap<Address, String>,
    /// Rules a named person went past.
    pub deviations: Vec<Deviation>,
    /// Moves made: things put into a new housing.
    pub moves: usize,
    /// Insertions per new cavity.
    pub insertions: BTreeMap<Address, u32>,
    /// Re-reads of new holes, the last of each.
    pub rereads: BTreeMap<Address, ReReadSeen>,
    /// New holes at which a re-read once did not agree: they are asked again at the end.
    pub misread: BTreeSet<Address>,
    /// Row counts of new housings, the last of each: whether it agreed.
    pub row_counts: BTreeMap<(HousingName, usize), bool>,
    /// Faces looked over, the last look at each.
    pub looked_over: BTreeMap<(HousingName, Face), LookSeen>,
    /// Old housings whose record was read in from a list: what somebody says until their rows are counted.
    pub listed: BTreeSet<HousingName>,
    /// Rows of old housings that were counted by eye and agreed with the record.
    pub counted: BTreeSet<(HousingName, usize)>,
    /// When something last moved on the new side, as a place in the journal: tests before that are made again.
    pub new_moved: Option<usize>,
    /// Old cavities looked at closely.
    pub looked_at: BTreeSet<Address>,
    /// Old cavities that were looked at together, of which one at least was not sound.
    pub one_not_sound: Vec<Vec<Address>>,
    /// New cavities in which something stayed, until somebody found them clear.
    pub left_behind: BTreeSet<Address>,
    /// The mating half.
    pub mating_half: Option<MatingVerdict>,
    /// Tests.
    pub tests: Vec<TestSeen>,
    /// The last request sent.
    pub requested: Option<RequestSeen>,
    /// What came for the lines of the request, in the order it came.
    pub arrivals: Vec<Arrival>,
    /// Leads for which everything asked for on a line of the request has come: a later revision that asks
    /// for more does not take it from them.
    pub supplied: BTreeSet<(u32, ItemId)>,
    /// Flags accepted.
    pub accepted: Vec<Accepted>,
    /// Mated, and whether the rear wires stayed level.
    pub mated: Option<bool>,
    /// Who signed.
    pub signed: Option<String>,
    /// Why it was stopped.
    pub stopped: Option<String>,
    /// The entry that is being taken in, or was last: its place in the journal.
    pub entry: usize,
    /// The resume check that is due.
    pub resume: Option<ResumeNeed>,
    /// When the last entry was made.
    pub last_at: Option<Timestamp>,
    /// Who works at the bench.
    pub bench: Option<String>,
    /// Who handed the job over, and to whom, until another person works on it.
    pub handed_over: Option<(String, String)>,
}

/// What is in the hand.
#[derive(Debug, Clone, Copy, PartialEq)]
#[allow(missing_docs)]
pub enum InHand<'a> {
    Lead(&'a Lead),
    Plug(&'a PlugItem),
    Other(&'a OtherItem),
}

/// What sits in a cavity now.
#[derive(Debug, Clone, Copy, PartialEq)]
#[allow(missing_docs)]
pub enum Occupant<'a> {
    Lead(&'a Lead),
    Plug(&'a PlugItem),
    Other(&'a OtherItem),
}

impl State {
    /// The housing with this name.
    pub fn housing(&self, name: &HousingName) -> Option<&JobHousing> {
        self.housings.iter().find(|h| h.name == *name)
    }

    /// The housings of one side.
    pub fn side(&self, side: JobSide) -> impl Iterator<Item = &JobHousing> {
        self.housings.iter().filter(move |h| h.side == side)
    }

    /// Which side an address is on, when its housing belongs to the job.
    pub fn side_of(&self, address: &Address) -> Option<JobSide> {
        self.housing(&address.housing).map(|h| h.side)
    }

    /// The lead known by this id.
    pub fn lead(&self, id: &ItemId) -> Option<&Lead> {
        self.leads.iter().find(|lead| lead.id == *id)
    }

    /// What is in the hand.
    pub fn in_hand(&self) -> Option<InHand<'_>> {
        let lead = self.leads.iter().find(|l| l.place == Place::Hand).map(InHand::Lead);
        let plug = || self.plugs.iter().find(|p| p.place == Place::Hand).map(InHand::Plug);
        let other = || self.others.iter().find(|o| o.place == Place::Hand).map(InHand::Other);
        lead.or_else(plug).or_else(other)
    }

    /// The lead in the hand.
    pub fn lead_in_hand(&self) -> Option<&Lead> {
        self.leads.iter().find(|l| l.place == Place::Hand)
    }

    /// What sits in a cavity: a lead or other content before the plug behind it.
    pub fn occupant(&self, at: &Address) -> Option<Occupant<'_>> {
        let sits = |place: &Place| matches!(place, Place::In(a) if a == at);
        let lead = self.leads.iter().find(|l| sits(&l.place)).map(Occupant::Lead);
        let other = || self.others.iter().find(|o| sits(&o.place)).map(Occupant::Other);
        let plug = || self.plugs.iter().find(|p| sits(&p.place)).map(Occupant::Plug);
        lead.or_else(other).or_else(plug)
    }

    /// What sits where, for everything at once.
    pub fn occupants(&self) -> BTreeMap<&Address, Occupant<'_>> {
        fn at(place: &Place) -> Option<&Address> {
            match place {
                Place::In(at) => Some(at),
                _ => None,
            }
        }
        let plugs = self.plugs.iter().filter_map(|p| Some((at(&p.place)?, Occupant::Plug(p))));
        let others = self.others.iter().filter_map(|o| Some((at(&o.place)?, Occupant::Other(o))));
        let leads = self.leads.iter().filter_map(|l| Some((at(&l.place)?, Occupant::Lead(l))));
        // Later ones win: a lead or other content stands before the plug behind it.
        plugs.chain(others).chain(leads).collect()
    }

    /// The leads, plugs and others that are parked under a tag, with the tag.
    pub fn parked(&self) -> impl Iterator<Item = (&Tag, &ItemId)> {
        fn tag(place: &Place) -> Option<&Tag> {
            match place {
                Place::Parked(tag) => Some(tag),
                _ => None,
            }
        }
        let leads = self.leads.iter().filter_map(|l| Some((tag(&l.place)?, &l.id)));
        leads.chain(self.others.iter().filter_map(|o| Some((tag(&o.place)?, &o.id))))
    }

    /// Whether anything has been moved out of an old housing or into a new one.
    pub fn has_moved(&self) -> bool {
        self.moves > 0 || self.leads.iter().any(|l| !self.is_at_home(&l.place)) || self.in_hand().is_some()
    }

    fn is_at_home(&self, place: &Place) -> bool {
        matches!(place, Place::In(at) if self.side_of(at) == Some(JobSide::Old))
    }

    /// The terminal for a lead: the one the record or a repair names, else the only one of the
    /// cavity's size it goes to that takes its wire and has the housing's gender.
    pub fn terminal_for(&self, lead: &Lead) -> Option<&crate::catalogue::Terminal> {
        let families = || self.housings.iter().flat_map(|h| &h.definition.family().terminals);
        let bears_it = lead.planned.is_some_and(RepairKind::renews_terminal);
        let named = lead.planned_part.as_ref().filter(|_| bears_it);
        let part = named.or_else(|| self.terminal_of(lead));
        if let Some(part) = part {
            return families().find(|t| t.part == *part);
        }
        let at = match &lead.id {
            ItemId::At(at) => at,
            _ => lead.came_from.as_ref()?,
        };
        let (housing, cavity) = (self.housing(&at.housing)?, self.cavity(at)?);
        let area = lead.area_to_crimp_mm2();
        let mut fitting = housing.definition.family().terminals_for(&cavity.size).filter(|t| {
            t.gender == housing.housing().gender
                && area.is_none_or(|a| a >= t.wire_mm2.0 - 1e-9 && a <= t.wire_mm2.1 + 1e-9)
        });
        let first = fitting.next();
        first.filter(|_| fitting.next().is_none())
    }

    /// The terminal part for a lead, when the record or a repair names it.
    pub fn terminal_of<'a>(&self, lead: &'a Lead) -> Option<&'a PartNumber> {
        let bears_it = |repair: &&RepairDone| repair.kind != RepairKind::NewSeal;
        let renewed = lead.repairs.iter().rev().filter(bears_it).find_map(|repair| repair.part.as_ref());
        renewed.or(lead.seen.terminal.as_ref())
    }
}
