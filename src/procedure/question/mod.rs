//! Every single question as data, grouped by what it is about. Sentences are made elsewhere.

mod before;
mod beside;
mod defining;
mod ending;
mod mending;
mod moving;

use super::Covered;

pub use before::{
    AnchorQuestion, GateField, GateQuestion, IntakeQuestion, MapQuestion, RecordQuestion, SetupQuestion,
};
pub use beside::{AccidentQuestion, DeskQuestion, HaltQuestion, OtherQuestion};
pub use defining::DefineQuestion;
pub use ending::{ClosingQuestion, TestField, TestQuestion};
pub use mending::{
    BehindQuestion, CrimpOf, CrimpQuestion, OrderField, OrderQuestion, RepairQuestion, SpliceQuestion,
    SpliceStep, ToolQuestion,
};
pub use moving::{ConsequenceQuestion, InHandQuestion, MoveQuestion, PlugQuestion};

macro_rules! questions {
    ($($(#[$doc:meta])* $name:ident($of:ty),)*) => {
        /// What is asked.
        #[derive(Debug, Clone, PartialEq)]
        pub enum Question {
            $($(#[$doc])* $name($of),)*
        }

        $(
            impl From<$of> for Question {
                fn from(question: $of) -> Self {
                    Self::$name(question)
                }
            }
        )*
    };
}

questions! {
    /// Where the job cannot simply go on.
    Halt(HaltQuestion),
    /// Recording what is found.
    Record(RecordQuestion),
    /// Photos and the cause.
    Intake(IntakeQuestion),
    /// A safety question.
    Gate(GateQuestion),
    /// Views, comparisons, decisions, tags.
    Setup(SetupQuestion),
    /// Proving a point of view.
    Anchor(AnchorQuestion),
    /// The map from old to new.
    Map(MapQuestion),
    /// A wire on its way.
    Move(MoveQuestion),
    /// A plug or another part on its way.
    Plug(PlugQuestion),
    /// The lead in the hand.
    InHand(InHandQuestion),
    /// What follows from a decision.
    Consequence(ConsequenceQuestion),
    /// A repair.
    Repair(RepairQuestion),
    /// A crimp.
    Crimp(CrimpOf),
    /// A joint.
    Splice(SpliceQuestion),
    /// A lead that is ordered.
    Order(OrderQuestion),
    /// What lies behind a housing.
    Behind(BehindQuestion),
    /// The tool book.
    Tool(ToolQuestion),
    /// The parts request.
    Desk(DeskQuestion),
    /// Before anything moves and after everything did.
    Closing(ClosingQuestion),
    /// A test.
    Test(TestQuestion),
    /// An accident.
    Accident(AccidentQuestion),
    /// Another thing one can do.
    Other(OtherQuestion),
    /// Describing a housing.
    Define(DefineQuestion),
}

impl Question {
    /// What must not be shown while this is asked: an answer that stands on the screen catches nothing.
    pub fn covers(&self) -> Covered {
        match self {
            Self::Anchor(_) | Self::Closing(ClosingQuestion::ReRead(_)) => Covered::LabelsToo,
            Self::Closing(ClosingQuestion::CountRow(..)) => Covered::Contents,
            Self::Move(MoveQuestion::ColourAt { lead, .. }) => Covered::ColoursOf(lead.clone()),
            Self::Halt(_)
            | Self::Record(_)
            | Self::Intake(_)
            | Self::Gate(_)
            | Self::Setup(_)
            | Self::Map(_)
            | Self::Move(_)
            | Self::Plug(_)
            | Self::InHand(_)
            | Self::Consequence(_)
            | Self::Repair(_)
            | Self::Crimp(_)
            | Self::Splice(_)
            | Self::Order(_)
            | Self::Behind(_)
            | Self::Tool(_)
            | Self::Desk(_)
            | Self::Closing(_)
            | Self::Test(_)
            | Self::Accident(_)
            | Self::Other(_)
            | Self::Define(_) => Covered::Nothing,
        }
    }
}
