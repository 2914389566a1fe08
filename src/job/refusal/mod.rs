//! Why an act is refused, as data: a file a topic, with what the sentences of `report` need to know.

mod crimps;
mod orders;
mod planned;

use super::{Code, Flag, Objection};

pub use crimps::{CrimpRule, ReachRule};
pub use orders::{JoinBarrier, OrderBarrier, OrderRule};
pub use planned::NotPlannable;

/// What is said against an act.
#[derive(Debug, Clone, PartialEq)]
pub enum Refusal {
    /// It cannot be.
    Barrier(Barrier),
    /// A rule says no.
    Rule(Rule),
}

impl Refusal {
    /// The rule, when it is one.
    pub fn code(&self) -> Option<Code> {
        match self {
            Self::Barrier(_) => None,
            Self::Rule(rule) => Some(rule.code()),
        }
    }
}

/// Why an act cannot be, whatever anybody says.
#[derive(Debug, Clone, PartialEq)]
pub enum Barrier {
    /// What is wrong, and what to do instead, in words.
    Told(String, String),
    /// What was measured for an order cannot be.
    Order(OrderBarrier),
    /// A lead is not made new, or two are not joined.
    Join(JoinBarrier),
    /// So many flags are open before a signature; the first of them.
    FlagsOpen(usize, Box<Flag>),
}

/// A rule that says no.
#[derive(Debug, Clone, PartialEq)]
pub enum Rule {
    /// Its code, what is wrong, and what to do instead, in words.
    Told(Code, String, String),
    /// Something stands against the lead.
    Lead(Objection),
    /// It is against a crimp.
    Crimp(CrimpRule),
    /// It is against where a splice lies.
    Reach(ReachRule),
    /// It is against an order.
    Order(OrderRule),
}

impl Rule {
    /// Its code.
    pub fn code(&self) -> Code {
        match self {
            Self::Told(code, ..) => *code,
            Self::Lead(objection) => objection.code(),
            Self::Crimp(rule) => rule.code(),
            Self::Reach(rule) => rule.code(),
            Self::Order(rule) => rule.code(),
        }
    }
}

/// The ways from a topic to a refusal.
macro_rules! topics {
    ($of:ident: $($topic:ident($refusal:ident))*) => {
        $(
            impl From<$refusal> for $of {
                fn from(refusal: $refusal) -> Self {
                    Self::$topic(refusal)
                }
            }

            impl From<$refusal> for Refusal {
                fn from(refusal: $refusal) -> Self {
                    Self::$of($of::$topic(refusal))
                }
            }
        )*
    };
}

topics! { Barrier: Order(OrderBarrier) Join(JoinBarrier) }
topics! { Rule: Lead(Objection) Crimp(CrimpRule) Reach(ReachRule) Order(OrderRule) }

impl From<NotPlannable> for Refusal {
    fn from(refusal: NotPlannable) -> Self {
        match refusal {
            NotPlannable::Barrier(barrier) => barrier.into(),
            NotPlannable::Rule(rule) => rule.into(),
        }
    }
}
