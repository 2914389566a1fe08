//! Working without a bench: a technician who answers what the procedure asks from a hidden truth, and walks
//! whole jobs by the questions alone.

mod keyed;
mod technician;
mod truth;
mod usual;
mod walk;

pub use technician::{Technician, Unanswered};
pub use truth::{Thing, Truth};
pub use walk::{Stuck, Walked, walk};
