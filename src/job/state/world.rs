//! What the job carries with it: its ticket and the house rules it was started with.

use crate::{job::TicketId, shop_rules::ShopRules};

/// What the job is about.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Ticket {
    /// Its random id; none in a job of version 1.
    pub id: Option<TicketId>,
    /// The machine, as the shop calls it.
    pub asset: String,
    /// Its serial number.
    pub serial: String,
    /// The connector's name on the diagram.
    pub connector: String,
    /// Why the housing is replaced.
    pub reason: String,
    /// What the drawn questions are drawn from.
    pub seed: u64,
}

/// What the job carries with it: its ticket and the house rules it was started with.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct World {
    /// The ticket.
    pub ticket: Ticket,
    /// The house rules.
    pub rules: ShopRules,
}
