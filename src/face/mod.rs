//! Where the cavities of a housing sit, how they are numbered, and what is seen of them from which
//! side: pure geometry. A housing is drawn once, from one face and one way up; every other picture
//! is this one mirrored (the other face) or turned (another side up), never typed a second time.

mod label;
mod layout;
mod numbering;
mod place;
mod pose;

pub use label::Label;
pub use layout::{Layout, LayoutProblem, Spot};
pub use numbering::{Corner, Numbering, Path};
pub use place::PosePlace;
pub use pose::{Face, Pose, SeenSpot, Side, seen_from};
