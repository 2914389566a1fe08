//! Wire colours by IEC 60757: a base and its stripes in the order they are read, base first.
//!
//! The standard writes several colours of one item in table order, which loses which is the base.
//! Vehicle practice needs the base first, so a colour here is never sorted.

mod words;

use std::{fmt, str::FromStr};

use crate::quantity::quoted;

pub use words::{ENGLISH, GERMAN, Named, ONLY_GERMAN, WORDS, named_in};

/// One colour of the table in IEC 60757, in table order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ColourCode {
    /// Black.
    BK,
    /// Brown.
    BN,
    /// Red.
    RD,
    /// Orange.
    OG,
    /// Yellow.
    YE,
    /// Green.
    GN,
    /// Blue.
    BU,
    /// Violet.
    VT,
    /// Grey.
    GY,
    /// White.
    WH,
    /// Pink.
    PK,
    /// Gold.
    GD,
    /// Turquoise.
    TQ,
    /// Silver.
    SR,
}

/// Every code with its words.
pub const CODES: [(ColourCode, &str, &str); 14] = [
    (ColourCode::BK, "BK", "black"),
    (ColourCode::BN, "BN", "brown"),
    (ColourCode::RD, "RD", "red"),
    (ColourCode::OG, "OG", "orange"),
    (ColourCode::YE, "YE", "yellow"),
    (ColourCode::GN, "GN", "green"),
    (ColourCode::BU, "BU", "blue"),
    (ColourCode::VT, "VT", "violet"),
    (ColourCode::GY, "GY", "grey"),
    (ColourCode::WH, "WH", "white"),
    (ColourCode::PK, "PK", "pink"),
    (ColourCode::GD, "GD", "gold"),
    (ColourCode::TQ, "TQ", "turquoise"),
    (ColourCode::SR, "SR", "silver"),
];

impl ColourCode {
    /// The word for the colour.
    pub fn word(self) -> &'static str {
        CODES.iter().find(|(code, ..)| *code == self).map_or("", |(_, _, word)| word)
    }

    fn letters(self) -> &'static str {
        CODES.iter().find(|(code, ..)| *code == self).map_or("", |(_, letters, _)| letters)
    }

    fn from_letters(letters: &str) -> Option<Self> {
        CODES.iter().find(|(_, known, _)| known.eq_ignore_ascii_case(letters)).map(|(code, ..)| *code)
    }
}

/// A wire's colour: the insulation, then its stripes in the order they are read.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Colour {
    base: ColourCode,
    stripes: Vec<ColourCode>,
}

/// Why a typed colour was not understood.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ColourProblem {
    /// Not a code of the standard.
    #[error(
        "\"{}\" in \"{}\" is not a colour code: use BK BN RD OG YE GN BU VT GY WH PK GD TQ SR, base first, as in RD/WH",
        quoted(.part),
        quoted(.typed)
    )]
    Unknown {
        /// What was typed.
        typed: String,
        /// The part that was not understood.
        part: String,
    },
    /// More stripes than any wire carries.
    #[error("\"{}\" names more than four colours for one wire", quoted(.typed))]
    TooMany {
        /// What was typed.
        typed: String,
    },
}

impl Colour {
    /// The colour of the insulation.
    pub fn base(&self) -> ColourCode {
        self.base
    }

    /// The stripes, in the order they are read.
    pub fn stripes(&self) -> &[ColourCode] {
        &self.stripes
    }

    /// In words: `red`, `red with white`, `black with white and yellow`.
    pub fn words(&self) -> String {
        let stripes: Vec<&str> = self.stripes.iter().map(|stripe| stripe.word()).collect();
        match stripes.is_empty() {
            true => self.base.word().to_owned(),
            false => format!("{} with {}", self.base.word(), crate::quantity::list_of(&stripes)),
        }
    }
}

/// Codes, separated by `/`, `-` or blank, or written together (`BKWHYE`); case does not matter.
impl FromStr for Colour {
    type Err = ColourProblem;

    fn from_str(typed: &str) -> Result<Self, Self::Err> {
        let unknown = |part: &str| ColourProblem::Unknown { typed: typed.to_owned(), part: part.to_owned() };
        let mut codes = Vec::new();
        for part in typed.split(['/', '-', ' ']).filter(|part| !part.is_empty()) {
            let letters: Vec<char> = part.chars().collect();
            for pair in letters.chunks(2) {
                let pair: String = pair.iter().collect();
                codes.push(ColourCode::from_letters(&pair).ok_or_else(|| unknown(part))?);
            }
        }
        if codes.len() > 4 {
            return Err(ColourProblem::TooMany { typed: typed.to_owned() });
        }
        match codes.split_first() {
            Some((base, stripes)) => Ok(Self { base: *base, stripes: stripes.to_vec() }),
            None => Err(unknown(typed)),
        }
    }
}

/// One colour all over.
impl From<ColourCode> for Colour {
    fn from(base: ColourCode) -> Self {
        Self { base, stripes: Vec::new() }
    }
}

/// `RD` or `RD/WH`, base first.
impl fmt::Display for Colour {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.base.letters())?;
        for stripe in &self.stripes {
            write!(f, "/{}", stripe.letters())?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn what_is_shown_reads_as_the_same_colour(codes in prop::collection::vec(0..CODES.len(), 1..=4)) {
            let codes: Vec<ColourCode> = codes.into_iter().map(|n| CODES[n].0).collect();
            let (base, stripes) = codes.split_first().unwrap();
            let colour = Colour { base: *base, stripes: stripes.to_vec() };
            prop_assert_eq!(colour.to_string().parse::<Colour>().unwrap(), colour.clone());
            prop_assert_eq!(colour.to_string().replace('/', "").to_lowercase().parse::<Colour>().unwrap(), colour);
        }

        #[test]
        fn no_text_whatever_is_sent_back_raw(typed in ".{0,12}") {
            if let Err(problem) = typed.parse::<Colour>() {
                prop_assert!(!problem.to_string().chars().any(crate::quantity::is_harmful));
            }
        }
    }

    #[test]
    fn nonsense_is_refused() {
        for typed in ["", " ", "/", "R", "RDB", "XX", "RD/XX", "RD/BK/WH/YE/GN", "rot"] {
            assert!(typed.parse::<Colour>().is_err(), "{typed:?} was accepted");
        }
    }
}
