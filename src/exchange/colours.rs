//! Wire colours as people and files write them. Codes of two letters mean different colours in
//! different code sets, so the set is decided for a whole file, never for one wire, and said.

use crate::{
    colour::{Colour, ENGLISH, GERMAN, ONLY_GERMAN, WORDS},
    quantity::{plain_words, quoted},
};

/// Words between colours that say nothing.
const FILLERS: [&str; 14] = [
    "with", "and", "stripe", "striped", "tracer", "mit", "und", "streifen", "avec", "et", "con", "y", "raya",
    "w",
];

/// The code set of a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CodeSet {
    /// IEC 60757, and shortened English words.
    Iec,
    /// German codes, beside those of IEC 60757.
    German,
}

impl CodeSet {
    /// The set that a file's colours are written in.
    pub fn decide<'a>(colours: impl Iterator<Item = &'a str>) -> Self {
        let german = |text: &str| parts(text).iter().any(|part| ONLY_GERMAN.contains(&part.as_str()));
        match colours.into_iter().any(german) {
            true => Self::German,
            false => Self::Iec,
        }
    }

    /// What is to be said about it, when it is not the standard's.
    pub fn assumed(self) -> Option<&'static str> {
        match self {
            Self::Iec => None,
            Self::German => Some(
                "colours are read in the German codes: sw black, br brown, rt red, or orange, ge yellow, gn green, bl blue, vi violet, gr grey, ws white, rs pink, tk turquoise",
            ),
        }
    }

    /// A colour, base first; or why it is none.
    pub fn read(self, text: &str) -> Result<Colour, String> {
        let mut codes = Vec::new();
        for part in parts(text) {
            codes.extend(self.codes(&part).ok_or_else(|| refusal(text, &part))?);
        }
        codes.join("/").parse().map_err(|_| format!("\"{}\" is not a colour", quoted(text)))
    }

    /// The codes of one part: a word, a code, or codes written together.
    fn codes(self, part: &str) -> Option<Vec<&'static str>> {
        if let Some(code) = self.code(part) {
            return Some(vec![code]);
        }
        let letters: Vec<char> = part.chars().collect();
        if letters.len() < 4 || !letters.len().is_multiple_of(2) {
            return None;
        }
        letters.chunks(2).map(|pair| self.code(&pair.iter().collect::<String>())).collect()
    }

    fn code(self, part: &str) -> Option<&'static str> {
        let word = WORDS.iter().find(|(_, words)| words.contains(&part)).map(|(code, _)| *code);
        let iec = || WORDS.iter().map(|(code, _)| *code).find(|code| code.eq_ignore_ascii_case(part));
        let more: &[(&str, &'static str)] = match self {
            Self::Iec => &ENGLISH,
            Self::German => &GERMAN,
        };
        let listed = || more.iter().find(|(name, _)| *name == part).map(|(_, code)| *code);
        word.or_else(iec).or_else(listed)
    }
}

/// The parts of a colour as written, in small letters, words that say nothing left out.
fn parts(text: &str) -> Vec<String> {
    let words = plain_words(text);
    let parts = words.split(' ').filter(|part| !part.is_empty() && !FILLERS.contains(part));
    parts.map(ToOwned::to_owned).collect()
}

fn refusal(text: &str, part: &str) -> String {
    let two = match part {
        "bl" => Some("blue or black"),
        "gr" => Some("grey or green"),
        "br" => Some("brown, or bright something"),
        "vi" | "or" => Some("violet or orange in the German codes, or something else"),
        _ => None,
    };
    let (text, part) = (quoted(text), quoted(part));
    match two {
        Some(two) => format!(
            "\"{part}\" in the colour \"{text}\" may be {two}, and nothing in the file says which codes it uses: write codes of IEC 60757"
        ),
        None => format!(
            "\"{part}\" in the colour \"{text}\" is not known: write codes of IEC 60757 or plain words, base first, as in RD/WH"
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_and_codes_of_several_languages_keep_base_and_stripe_in_order() {
        for (text, shown) in [
            ("RD/WH", "RD/WH"),
            ("red-white", "RD/WH"),
            ("rot / weiß", "RD/WH"),
            ("rouge avec blanc", "RD/WH"),
            ("rojo y blanco", "RD/WH"),
            ("BLK/RED", "BK/RD"),
            ("RDWH", "RD/WH"),
            ("Grün", "GN"),
            ("YERD", "YE/RD"),
        ] {
            assert_eq!(CodeSet::Iec.read(text).unwrap().to_string(), shown, "{text}");
        }
    }

    #[test]
    fn the_code_set_is_decided_by_the_whole_file() {
        let german = CodeSet::decide(["bl", "gr/rt"].into_iter());
        assert_eq!(german.read("bl").unwrap().to_string(), "BU");
        assert_eq!(german.read("gr/br").unwrap().to_string(), "GY/BN");
        assert_eq!(german.read("rtws").unwrap().to_string(), "RD/WH");
        // Black in English, and in such a file nobody knows.
        assert!(german.read("blk").is_err());
        let unsure = CodeSet::decide(["bl", "gr"].into_iter());
        assert!(unsure.read("bl").unwrap_err().contains("blue or black"));
        for nonsense in ["", "light blue", "🔴", "=B2"] {
            assert!(CodeSet::Iec.read(nonsense).is_err(), "{nonsense}");
        }
    }
}
