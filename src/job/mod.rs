//! The job as a pure state machine. One road for every act: [`Job::check`] gives a verdict, the
//! caller appends the entry to disk, [`Job::apply`] takes it in and cannot fail.

mod account;
mod act;
mod alarm;
mod anchor;
mod apply;
mod assessment;
mod caution;
mod cavity_map;
mod check;
mod circuit;
mod code;
mod comparing;
mod counts;
mod crimp_book;
mod decided;
mod differences;
mod entries;
mod entry;
mod face_fault;
mod facts;
mod fit;
mod flags;
mod gates;
mod item;
mod item_id;
mod lay_out;
mod lent;
mod map;
pub mod needs;
mod objection;
mod pause;
mod prefitted;
mod reading;
pub mod refusal;
mod repairs;
mod reread;
mod row_ends;
mod row_shift;
mod rows;
mod satisfied;
mod seen;
mod sign;
mod signs;
mod soundness;
mod splices;
mod state;
mod step;
mod steps;
mod target;
mod term;
mod testing;
mod thickness;
mod verdict;
mod view;

pub use account::{Account, JobState};
pub use act::{Act, Touches};
pub use alarm::{Alarm, OutFault};
pub use assessment::Assessment;
pub use caution::{CAUTIONS, Occasion, caution};
pub use cavity_map::CavityMap;
pub use circuit::CircuitDrop;
pub use code::Code;
pub use counts::{CavityCounts, LeadCounts, OtherCounts, PlugCounts, WireCounts};
pub use decided::Decided;
pub use entries::Job;
pub use entry::{Entry, day_of};
pub use face_fault::FaceFault;
pub use flags::{
    BundleCause, ClosingCause, CrimpCause, DecidedCause, FitCause, Flag, FlagCause, HousingCause, LeadCause,
    LeftToDo, NoPlan, OrderCause, OtherCause, PlugCause, ReadingCause, RecordCause, SpliceCause, StartCause,
    WireMissing,
};
pub use gates::{GATES, are_two_points, is_dead, is_open_to_doubt};
pub use item::{Lead, LeadOrigin, OtherItem, OtherKind, Place, PlugItem, PlugOrigin, Seat};
pub use item_id::{ItemId, Tag, WireId};
pub use lay_out::{LayOut, lay_out};
pub use map::{MapDifference, MapProposal, Relabelled};
pub use objection::{
    CrimpFaults, Misfit, Objection, ShortLead, SpliceNear, ToolUsed, Undone, Unsound, WeakSample,
};
pub use prefitted::PrefittedWay;
pub use reading::{Beside, Misread, RowShift};
pub use refusal::Refusal;
pub use repairs::{
    Behind, Crimp, CrimpVerdict, Lay, LeadOrder, Load, MadeLead, MadeLength, OtherEnd, RepairDone,
    STRIP_OFF_MM, SamplePull, Splice, TwistAsked, Wall,
};
pub use reread::{draw, mix};
pub use row_ends::RowEnds;
pub use satisfied::is_satisfied;
pub use seen::{
    Accepted, AnchorSeen, Arrival, Decision, Deviation, GateSeen, LookSeen, ReReadSeen, RequestSeen,
    ResumeNeed, TestSeen,
};
pub use sign::Sign;
pub use splices::{Ordered, SplicePlan};
pub use state::{
    Course, Housings, InHand, Items, JobHousing, Mapping, Occupant, Readings, Records, State, Supply, Ticket,
    World,
};
pub use step::{Status, Step, Task};
pub use steps::lead_of_step;
pub use target::{Destination, Expected, Target};
pub use term::{
    About, Anyway, ArrivedVerdict, EnergyKind, Fit, Flip, GateAnswer, GateKind, Inspected, JobSide,
    MapSource, MatingVerdict, Measured, PlugSource, Question, ReadBack, RecordSide, RepairKind, RequestSaid,
    RequestedLine, SeenAt, TicketId,
};
pub use thickness::{Thick, Thickness};
pub use verdict::Verdict;
pub use view::{Seen, SpokenPlace, flipped, pose_in_words};
