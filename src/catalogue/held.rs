//! How a housing is held, in words: by what is moulded on it.

use crate::face::{Pose, Side};

use super::{Feature, Housing};

impl Housing {
    /// Which side is up as it is held, by what is moulded there: `latch up`, else where its first
    /// feature shows: `latch DOWN`.
    pub fn up_in_words(&self, pose: Pose) -> String {
        if let Some(feature) = self.feature_on(pose.up) {
            return format!("{feature} up");
        }
        let Some(Feature { name, side }) = self.features.first() else {
            return format!("{} of the drawing up", pose.up);
        };
        match pose.shows(*side, self.drawn) {
            Side::Top => format!("{name} up"),
            Side::Bottom => format!("{name} DOWN"),
            Side::Left => format!("{name} to the LEFT"),
            Side::Right => format!("{name} to the RIGHT"),
        }
    }
}
