//! The kinds of part a desk knows, what may be given instead, how urgent it is.

use std::fmt;

/// The kinds of part a desk knows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum PartKind {
    /// The body with the cavities.
    Housing,
    /// The one part that locks all terminals of a housing.
    SecondaryLock,
    /// The clip that proves the halves are latched.
    Assurance,
    /// A seal between the halves, retainer, cover, boot; a bridge or clip, too.
    SmallPart,
    /// A blanking plug for an unused cavity.
    Plug,
    /// A terminal without wire.
    Terminal,
    /// A seal for one wire.
    WireSeal,
    /// A length of wire with its terminal on, made to order.
    Lead,
    /// What joins a repair lead to its wire, with its sleeve.
    Splice,
}

impl PartKind {
    /// Every kind.
    pub const ALL: [Self; 9] = [
        Self::Housing,
        Self::SecondaryLock,
        Self::Assurance,
        Self::SmallPart,
        Self::Plug,
        Self::Terminal,
        Self::WireSeal,
        Self::Lead,
        Self::Splice,
    ];

    /// The word for it.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::Housing => "housing",
            Self::SecondaryLock => "secondary lock",
            Self::Assurance => "connector position assurance",
            Self::SmallPart => "small part",
            Self::Plug => "plug",
            Self::Terminal => "terminal",
            Self::WireSeal => "wire seal",
            Self::Lead => "repair lead",
            Self::Splice => "splice",
        }
    }
}

/// What may be given instead of a part.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Substitute {
    /// Nothing.
    None,
    /// The bench is asked first.
    AskFirst,
}

impl Substitute {
    /// The words for it.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::None => "none",
            Self::AskFirst => "ask me first",
        }
    }
}

/// How urgent a request is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Urgency {
    /// The machine stands still.
    MachineStopped,
    /// Needed by the day that is named.
    ByTheDay,
    /// When convenient.
    WhenConvenient,
    /// In the bench's own words.
    Said(String),
}

/// Any words are taken: those of the three choices as that choice.
impl From<&str> for Urgency {
    fn from(text: &str) -> Self {
        let choices = [Self::MachineStopped, Self::ByTheDay, Self::WhenConvenient];
        let choice = choices.into_iter().find(|choice| choice.words() == text);
        choice.unwrap_or_else(|| Self::Said(text.to_owned()))
    }
}

impl Urgency {
    fn words(&self) -> &str {
        match self {
            Self::MachineStopped => "the machine stands still",
            Self::ByTheDay => "needed by that day",
            Self::WhenConvenient => "when convenient",
            Self::Said(words) => words,
        }
    }
}

impl fmt::Display for Urgency {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.words())
    }
}
