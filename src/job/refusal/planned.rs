//! Why a repair may not be planned on a lead: said when it is planned, and as a flag once its record was
//! corrected.

use super::orders::{OrderBarrier, OrderRule};
use crate::job::Code;

/// Why a repair may not be planned on a lead, by its kind and what was ordered.
#[derive(Debug, Clone, PartialEq)]
pub enum NotPlannable {
    /// What was measured for the order cannot be.
    Barrier(OrderBarrier),
    /// A rule is against the order.
    Rule(OrderRule),
}

impl NotPlannable {
    /// The rule, when it is one.
    pub fn code(&self) -> Option<Code> {
        match self {
            Self::Barrier(_) => None,
            Self::Rule(rule) => Some(rule.code()),
        }
    }
}

impl From<OrderBarrier> for NotPlannable {
    fn from(barrier: OrderBarrier) -> Self {
        Self::Barrier(barrier)
    }
}

impl From<OrderRule> for NotPlannable {
    fn from(rule: OrderRule) -> Self {
        Self::Rule(rule)
    }
}
