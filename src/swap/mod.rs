//! The job as a pure state machine. One road for every act: [`Job::check`] gives a verdict, the
//! caller appends the entry to disk, [`Job::apply`] takes it in and cannot fail.

mod act;
mod code;
mod entry;
mod item;
mod job;
mod verdict;

pub use act::{
    About, Act, Anyway, Fit, Flip, GateAnswer, GateKind, Inspected, JobSide, MapSource, MatingVerdict,
    Measured, PlugSource, Question, ReadBack, RecordSide, RepairKind, SeenAt,
};
pub use code::Code;
pub use entry::Entry;
pub use item::{ItemId, Lead, OtherItem, OtherKind, Place, PlugItem, PlugOrigin, Seat, Tag, WireId};
pub use job::Job;
pub use verdict::{Refusal, Verdict};
