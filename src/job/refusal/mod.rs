//! Why an act is refused, as data: a file a topic, with what the sentences of `report` need to know.

use super::Code;

/// What is said against an act.
#[derive(Debug, Clone, PartialEq)]
pub enum Refusal {
    /// It cannot be.
    Barrier(Barrier),
    /// A rule says no.
    Rule(Rule),
}

impl Refusal {
    pub(super) fn told(&self) -> (String, String) {
        match self {
            Self::Barrier(Barrier::Told(say, instead)) => (say.clone(), instead.clone()),
            Self::Rule(Rule::Told(_, say, instead)) => (say.clone(), instead.clone()),
        }
    }

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
    Told(String, String),
}

/// A rule that says no.
#[derive(Debug, Clone, PartialEq)]
pub enum Rule {
    Told(Code, String, String),
}

impl Rule {
    /// Its code.
    pub fn code(&self) -> Code {
        match self {
            Self::Told(code, ..) => *code,
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

topics! { Barrier: }
topics! { Rule: }
