//! Names of parts, sizes, families and housings.

use std::{fmt, str::FromStr};

use crate::quantity::{TextProblem, plain_text};

/// Makes a text newtype with parsing and display.
macro_rules! text_name {
    ($(#[$doc:meta])* $name:ident, $what:literal, $most:literal) => {
        $(#[$doc])*
        #[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(String);

        impl $name {
            /// The name as text.
            pub fn as_str(&self) -> &str {
                &self.0
            }
        }

        impl FromStr for $name {
            type Err = TextProblem;

            fn from_str(text: &str) -> Result<Self, Self::Err> {
                plain_text($what, text, $most).map(Self)
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.pad(&self.0)
            }
        }
    };
}

text_name! {
    /// A part number as moulded or printed: text, never a number.
    PartNumber, "part number", 40
}

text_name! {
    /// A cavity or terminal size as the family calls it, such as `1.5`.
    SizeName, "size", 20
}

impl PartNumber {
    /// Part numbers are compared without case.
    pub fn is_same(&self, other: &str) -> bool {
        Self::is_same_text(&self.0, other)
    }

    /// Whether two texts are one part number.
    pub fn is_same_text(one: &str, other: &str) -> bool {
        one.trim().eq_ignore_ascii_case(other.trim())
    }
}

/// Makes an id newtype: `[a-z0-9-]`, as used in file names and commands.
macro_rules! id_name {
    ($(#[$doc:meta])* $name:ident, $what:literal) => {
        $(#[$doc])*
        #[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(String);

        impl $name {
            /// The id as text.
            pub fn as_str(&self) -> &str {
                &self.0
            }
        }

        impl FromStr for $name {
            type Err = TextProblem;

            fn from_str(text: &str) -> Result<Self, Self::Err> {
                let id = plain_text($what, text, 60)?;
                if id.chars().all(|c| matches!(c, 'a'..='z' | '0'..='9' | '-')) {
                    Ok(Self(id))
                } else {
                    Err(TextProblem::NotAllowed { what: $what, shown: id, allowed: "a to z, 0 to 9 and -" })
                }
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.pad(&self.0)
            }
        }
    };
}

id_name! {
    /// A family's id.
    FamilyId, "family id"
}

id_name! {
    /// A housing's id, unique over all families.
    HousingId, "housing id"
}
