//! The state of a job: the fold of its entries in force. Plain data; only `apply` changes it.

mod course;
mod housings;
mod items;
mod mapping;
mod readings;
mod records;
mod supply;
mod world;

pub use course::Course;
pub use housings::{Housings, JobHousing};
pub use items::{InHand, Items, Occupant};
pub use mapping::Mapping;
pub use readings::Readings;
pub use records::Records;
pub use supply::Supply;
pub use world::{Ticket, World};

use super::{ItemId, Lead, MatingVerdict, Place, PlugItem, RepairKind, seen::TestSeen};

/// Everything the entries in force add up to.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct State {
    /// What the job carries with it: its ticket and the house rules it was started with.
    pub world: World,
    /// The housings of both sides, and what was said of them together.
    pub housings: Housings,
    /// What was found, what should be, and what was decided between the two.
    pub records: Records,
    /// Where each old cavity goes in the new housings.
    pub mapping: Mapping,
    /// Everything that has a place: leads, plugs and other contents.
    pub items: Items,
    /// What was read back, counted, looked over and tested.
    pub readings: Readings,
    /// What was asked of the parts desk, and what came.
    pub supply: Supply,
    /// How the work goes: safety, people, pauses, what a person answers for, the end.
    pub course: Course,
}

impl State {
    /// Whether anything has been moved out of an old housing or into a new one.
    pub fn has_moved(&self) -> bool {
        self.items.moves > 0
            || self.items.leads.iter().any(|l| !self.housings.is_at_home(&l.place))
            || self.items.in_hand().is_some()
    }

    /// The terminal for a lead: the one the record or a repair names, else the only one of the
    /// cavity's size it goes to that takes its wire and has the housing's gender.
    pub fn terminal_for(&self, lead: &Lead) -> Option<&crate::catalogue::Terminal> {
        let families = || self.housings.all.iter().flat_map(|h| &h.definition.family().terminals);
        let bears_it = lead.planned.is_some_and(RepairKind::renews_terminal);
        let named = lead.planned_part.as_ref().filter(|_| bears_it);
        let part = named.or_else(|| lead.terminal());
        if let Some(part) = part {
            return families().find(|t| t.part == *part);
        }
        let at = match &lead.id {
            ItemId::At(at) => at,
            _ => lead.came_from.as_ref()?,
        };
        let (housing, cavity) = (self.housings.housing(&at.housing)?, self.housings.cavity(at)?);
        let area = lead.area_to_crimp_mm2();
        let mut fitting = housing.definition.family().terminals_for(&cavity.size).filter(|t| {
            t.gender == housing.housing().gender
                && area.is_none_or(|a| a >= t.wire_mm2.0 - 1e-9 && a <= t.wire_mm2.1 + 1e-9)
        });
        let first = fitting.next();
        first.filter(|_| fitting.next().is_none())
    }
}
