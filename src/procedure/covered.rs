//! What is covered because it is asked: an answer that stands on the screen catches nothing. One value,
//! and every page, list and message goes by it.

use crate::job::{ItemId, Task};

use super::{JobView, Topic};

/// What is covered now.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub enum Covered {
    /// Nothing is asked that a screen could tell.
    #[default]
    Nothing,
    /// The colours of this lead.
    ColoursOf(ItemId),
    /// What every cavity holds.
    Contents,
    /// Labels and contents.
    LabelsToo,
}

impl Covered {
    /// What a question covers; a colour only until it is keyed.
    pub fn by(view: &JobView<'_>, topic: &Topic, is_unanswered: bool) -> Self {
        match topic {
            Topic::FailedAnchor(_) | Topic::Step(Task::Anchor { .. } | Task::ReRead { .. }) => {
                Self::LabelsToo
            }
            Topic::Step(Task::CountRow { .. }) => Self::Contents,
            Topic::Step(Task::MoveWire { lead, .. } | Task::Repair { lead, .. }) if is_unanswered => {
                match view.will_ask_colour(lead) {
                    true => Self::ColoursOf(lead.clone()),
                    false => Self::Nothing,
                }
            }
            Topic::Step(_)
            | Topic::Resume
            | Topic::PlugInHand
            | Topic::Anyway(_)
            | Topic::Other(_)
            | Topic::Jump
            | Topic::Next(..)
            | Topic::NotStartable
            | Topic::Waiting
            | Topic::WaitingForMachine
            | Topic::Stopped
            | Topic::WhoWorks
            | Topic::Nothing => Self::Nothing,
        }
    }

    /// How much it covers.
    pub fn rank(&self) -> u8 {
        match self {
            Self::Nothing => 0,
            Self::ColoursOf(_) => 1,
            Self::Contents => 2,
            Self::LabelsToo => 3,
        }
    }

    /// Whether what is known of this lead is covered.
    pub fn hides(&self, lead: &ItemId) -> bool {
        match self {
            Self::Nothing => false,
            Self::ColoursOf(asked) => asked == lead,
            Self::Contents | Self::LabelsToo => true,
        }
    }

    /// Whether nothing is covered.
    pub fn is_nothing(&self) -> bool {
        *self == Self::Nothing
    }
}
