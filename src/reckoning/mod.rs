//! Reckoning on wires, terminals and distances: which repair, how long a lead, where its splice
//! sits, how thick the bundle gets, what the crimp and its tool are worth. Knows no job.

mod bundle;
mod cause;
mod crimp;
mod decide;
mod electrical;
mod lead;
mod packing;
mod pull;
mod room;
mod size;
mod stagger;
mod stagger_request;
mod statistics;
mod tool_book;

pub use bundle::{Bundle, WirePlace, bundle_of, rule_of_thumb_mm, thin_wall_mm};
pub use cause::DamageCause;
pub use crimp::{FEWEST_SAMPLES, Height, HeightVerdict, LookFault, judge_heights};
pub use decide::{Advice, Finding, InHandLead, advise};
pub use electrical::{Copper, copper, of_supply_percent};
pub use lead::{LeadLength, Twist, lead_length};
pub use pull::{PULL_MINIMUMS, pull_minimum};
pub use size::{ClassChange, SizeChange, class_change, size_change};
pub use stagger::{MOST_LEADS, SplicePlace, Stagger, room_needed_mm, stagger};
pub use stagger_request::{LeadAsk, StaggerRequest};
pub use statistics::{Capability, Sample};
pub use tool_book::{FEWEST_HEIGHTS, PositionKey, Standing, ToolBook, ToolPosition};
