//! What is covered because it is asked: an answer that stands on the screen catches nothing. One value,
//! and every page, list and message goes by it.

use crate::job::ItemId;

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
