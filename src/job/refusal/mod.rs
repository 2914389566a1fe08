//! Why an act is refused, as data: a file a topic, with what the sentences of `report` need to know.

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
mod planned;
mod plugs;
mod records;
mod repairs;
mod setup;
mod start;
mod supply;

use super::{Code, Objection};

pub use closing::{ReadingBarrier, ResumeBarrier, SignBarrier};
pub use crimps::{CrimpRule, ReachRule};
pub use disagreement::DisagreementRule;
pub use every_act::{ActBarrier, ActRule, Saying, TakeBackBarrier};
pub use gates::{GateRule, ReleaseRule};
pub use halves::{HalvesBarrier, HalvesRule};
pub use measure::{MeasureBarrier, ReadingKind};
pub use moves::{AsideBarrier, Elsewhere, LookBarrier, MoveRule, PutInBarrier, TakeOutBarrier};
pub use orders::{JoinBarrier, OrderBarrier, OrderRule};
pub use places::{Held, PlaceBarrier};
pub use planned::NotPlannable;
pub use plugs::{OtherBarrier, PlugBarrier, PlugRule, SeenBarrier};
pub use records::{DecisionBarrier, RecordBarrier, Recorded, WorldBarrier};
pub use repairs::{RemovalBarrier, RepairBarrier, RepairRule, SpliceRule};
pub use setup::{MapBarrier, MappingBarrier, SightBarrier};
pub use start::{StartBarrier, StartRule};
pub use supply::{AcceptBarrier, ArrivalBarrier, RequestBarrier};

/// What is said against an act.
#[derive(Debug, Clone, PartialEq)]
pub enum Refusal {
    /// It cannot be.
    Barrier(Box<Barrier>),
    /// A rule says no.
    Rule(Box<Rule>),
}

impl Refusal {
    /// The rule, when it is one.
    pub fn code(&self) -> Option<Code> {
        match self {
            Self::Barrier(_) => None,
            Self::Rule(rule) => Some(rule.code()),
        }
    }
}

/// Makes the enum of topics, and the ways from a topic to a refusal.
macro_rules! topics {
    ($(#[$about:meta])* $of:ident { $($(#[$why:meta])* $topic:ident($refusal:ident),)* }) => {
        $(#[$about])*
        #[derive(Debug, Clone, PartialEq)]
        pub enum $of {
            $($(#[$why])* $topic($refusal),)*
        }

        $(
            impl From<$refusal> for $of {
                fn from(refusal: $refusal) -> Self {
                    Self::$topic(refusal)
                }
            }

            impl From<$refusal> for Refusal {
                fn from(refusal: $refusal) -> Self {
                    Self::$of(Box::new($of::$topic(refusal)))
                }
            }
        )*
    };
}

topics! {
    /// Why an act cannot be, whatever anybody says.
    Barrier {
        /// It cannot be, whatever it is about.
        EveryAct(ActBarrier),
        /// The last entry is not taken back.
        TakeBack(TakeBackBarrier),
        /// What it names is not there, or the hand or the hole is full.
        Place(PlaceBarrier),
        /// Nothing can be moved yet.
        Start(StartBarrier),
        /// A look or a tug proves nothing.
        Look(LookBarrier),
        /// A lead is not taken out.
        TakeOut(TakeOutBarrier),
        /// A lead does not go in.
        PutIn(PutInBarrier),
        /// It is not put back, parked, taken up or tagged.
        Aside(AsideBarrier),
        /// Nothing can be done with the plug.
        Plug(PlugBarrier),
        /// A spare terminal, bridge or clip is not moved.
        Other(OtherBarrier),
        /// The thing is not seen there.
        Seen(SeenBarrier),
        /// The world of the job or a whole record is not changed.
        World(WorldBarrier),
        /// The record of a cavity cannot be so.
        Record(RecordBarrier),
        /// Nothing is decided there.
        Decision(DecisionBarrier),
        /// What was seen of the connector cannot be.
        Sight(SightBarrier),
        /// A cavity is not mapped to another.
        Mapping(MappingBarrier),
        /// The map is not confirmed.
        Map(MapBarrier),
        /// The lock, the assurance or the halves are not set so.
        Halves(HalvesBarrier),
        /// A repair cannot be.
        Repair(RepairBarrier),
        /// A wire is not taken out for good.
        Removal(RemovalBarrier),
        /// What was measured for an order cannot be.
        Order(OrderBarrier),
        /// A lead is not made new, or two are not joined.
        Join(JoinBarrier),
        /// The request cannot be.
        Request(RequestBarrier),
        /// Nothing came so.
        Arrival(ArrivalBarrier),
        /// The flag is not accepted.
        Accept(AcceptBarrier),
        /// Nothing was looked at, counted or read so.
        Reading(ReadingBarrier),
        /// The work does not go on after an interruption.
        Resume(ResumeBarrier),
        /// The job is not signed.
        Sign(SignBarrier),
        /// The test was not made so.
        Measure(MeasureBarrier),
    }
}

topics! {
    /// A rule that says no.
    Rule {
        /// It holds back work of every kind.
        EveryAct(ActRule),
        /// It is against moving anything yet.
        Start(StartRule),
        /// What does not agree is settled first.
        Disagreement(DisagreementRule),
        /// It is against taking a lead out or putting it in.
        Move(MoveRule),
        /// It is against what is done with a plug, a spare terminal, a bridge or a clip.
        Plug(PlugRule),
        /// It is against setting a lock or an assurance, or mating.
        Halves(HalvesRule),
        /// It is against a repair or its crimp.
        Repair(RepairRule),
        /// Something stands against the lead.
        Lead(Objection),
        /// It is against a crimp.
        Crimp(CrimpRule),
        /// It is against where a splice lies.
        Reach(ReachRule),
        /// It is against a splice that was made.
        Splice(SpliceRule),
        /// It is against an order.
        Order(OrderRule),
        /// It is against an answer to a gate.
        Gate(GateRule),
        /// It is against passing a gate.
        Release(ReleaseRule),
    }
}

impl Rule {
    /// Its code.
    pub fn code(&self) -> Code {
        match self {
            Self::EveryAct(rule) => rule.code(),
            Self::Start(rule) => rule.code(),
            Self::Disagreement(rule) => rule.code(),
            Self::Move(rule) => rule.code(),
            Self::Plug(rule) => rule.code(),
            Self::Halves(rule) => rule.code(),
            Self::Repair(rule) => rule.code(),
            Self::Lead(rule) => rule.code(),
            Self::Crimp(rule) => rule.code(),
            Self::Reach(rule) => rule.code(),
            Self::Splice(rule) => rule.code(),
            Self::Order(rule) => rule.code(),
            Self::Gate(_) | Self::Release(_) => Code::GateOpen,
        }
    }
}

impl From<NotPlannable> for Refusal {
    fn from(refusal: NotPlannable) -> Self {
        match refusal {
            NotPlannable::Barrier(barrier) => barrier.into(),
            NotPlannable::Rule(rule) => rule.into(),
        }
    }
}
