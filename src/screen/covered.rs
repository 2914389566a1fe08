//! What is covered because it is asked: an answer that stands on the screen catches nothing. One value,
//! and every page, list and message goes by it.

use crate::{
    picture::Covering,
    swap::{Do, ItemId, JobSide, Place},
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
    /// chosen meanwhile: it is asked all the same.
    pub fn now(sight: &Sight<'_>, ui: &Ui) -> Self {
        // Who only looks is asked nothing.
        if sight.read_only.is_some() {
            return Self::Nothing;
        }
        let next = topic_now(sight);
        match &ui.chosen {
            None => Self::by(sight, &next, ui.answers.is_empty()),
            Some(chosen) => Self::by(sight, chosen, ui.answers.is_empty()).or(Self::by(sight, &next, true)),
        }
    }

    fn by(sight: &Sight<'_>, topic: &Topic, is_unanswered: bool) -> Self {
        match topic {
            Topic::FailedAnchor(_) | Topic::Step(Do::Anchor { .. } | Do::ReRead { .. }) => Self::LabelsToo,
            Topic::Step(Do::CountRow { .. }) => Self::Contents,
            Topic::Step(Do::MoveWire { lead, .. } | Do::Repair { lead, .. }) if is_unanswered => {
                match is_asked_colour(sight, lead) {
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

    /// The one that covers more.
    fn or(self, other: Self) -> Self {
        let rank = |covered: &Self| match covered {
            Self::Nothing => 0,
            Self::ColoursOf(_) => 1,
            Self::Contents => 2,
            Self::LabelsToo => 3,
        };
        if rank(&other) > rank(&self) { other } else { self }
    }

    /// What of the faces is covered.
    pub fn of_faces(&self) -> Covering {
        match self {
            Self::Nothing | Self::ColoursOf(_) => Covering::Nothing,
            Self::Contents => Covering::Contents,
            Self::LabelsToo => Covering::LabelsToo,
        }
    }

    /// Whether the colours of this lead are covered.
    pub fn hides_colours_of(&self, lead: &ItemId) -> bool {
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

/// Whether the colour of a lead is asked before it leaves the old housing.
fn is_asked_colour(sight: &Sight<'_>, id: &ItemId) -> bool {
    let state = sight.state();
    let sits_in_old = state
        .lead(id)
        .is_some_and(|lead| matches!(&lead.place, Place::In(at) if state.side_of(at) == Some(JobSide::Old)));
    sits_in_old && sight.survey.target.colours_asked.contains(id)
}
