//! Where the cavities of a housing sit, how they are numbered, and what is seen of them from which
//! side: pure geometry. A housing is drawn once, from one face and one way up; every other picture
//! is this one mirrored (the other face) or turned (another side up), never typed a second time.

mod label;
mod layout;
mod layout_problem;
mod numbering;
mod place;
mod pose;
mod seen;

pub use label::Label;
pub use layout::{
    Grid, Group, LatticeCell, Layout, Points, Ring, RowStagger, Spot, distance, smallest_distance,
};
pub use layout_problem::{CAVITIES_MOST, LayoutProblem};
pub use numbering::{Along, Corner, Counter, Naming, Numbering, Path};
pub use place::PosePlace;
pub use pose::{Face, Pose, Side};
pub use seen::{Misreading, SeenSpot, misread, rows, seen_from};

#[cfg(test)]
mod properties;
