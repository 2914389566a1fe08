//! What is covered because it is asked: an answer that stands on the screen catches nothing. One value,
//! and every page, list and message goes by it.

use crate::{
    picture::Covering,
    swap::{Do, ItemId},
};

use super::{
    ask::{Topic, topic_now},
    sight::Sight,
    state::Ui,
};

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
    /// What the question on the screen covers, and the one that comes next although something else was
    /// chosen meanwhile: it is asked all the same. Who only looks at a job sees no more: the other bench is
    /// asked.
    pub fn now(sight: &Sight<'_>, ui: &Ui) -> Self {
        Self::with_topic(sight, ui).0
    }

    /// The same, with the question that covers.
    pub fn with_topic(sight: &Sight<'_>, ui: &Ui) -> (Self, Topic) {
        let next = topic_now(sight);
        let Some(chosen) = &ui.chosen else {
            return (Self::by(sight, &next, ui.answers.is_empty()), next);
        };
        let by_chosen = Self::by(sight, chosen, ui.answers.is_empty());
        let by_next = Self::by(sight, &next, true);
        match by_next.rank() > by_chosen.rank() {
            true => (by_next, next),
            false => (by_chosen, chosen.clone()),
        }
    }

    fn by(sight: &Sight<'_>, topic: &Topic, is_unanswered: bool) -> Self {
        match topic {
            Topic::FailedAnchor(_) | Topic::Step(Do::Anchor { .. } | Do::ReRead { .. }) => Self::LabelsToo,
            Topic::Step(Do::CountRow { .. }) => Self::Contents,
            Topic::Step(Do::MoveWire { lead, .. } | Do::Repair { lead, .. }) if is_unanswered => {
                match sight.will_ask_colour(lead) {
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
    fn rank(&self) -> u8 {
        match self {
            Self::Nothing => 0,
            Self::ColoursOf(_) => 1,
            Self::Contents => 2,
            Self::LabelsToo => 3,
        }
    }

    /// What of the faces is covered.
    pub fn of_faces(&self) -> Covering {
        match self {
            Self::Nothing | Self::ColoursOf(_) => Covering::Nothing,
            Self::Contents => Covering::Contents,
            Self::LabelsToo => Covering::LabelsToo,
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
