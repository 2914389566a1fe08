//! Words and codes for colours as people write them, and the colours that a free text names.

use super::ColourCode;
use crate::quantity::plain_words;

/// Words in English, German, French and Spanish, accents left out, with the code of IEC 60757.
pub const WORDS: [(&str, &[&str]); 14] = [
    ("BK", &["black", "schwarz", "noir", "noire", "negro", "negra"]),
    ("BN", &["brown", "braun", "brun", "brune", "marron", "cafe"]),
    ("RD", &["red", "rot", "rouge", "rojo", "roja"]),
    ("OG", &["orange", "naranja"]),
    ("YE", &["yellow", "gelb", "jaune", "amarillo", "amarilla"]),
    ("GN", &["green", "grun", "gruen", "vert", "verte", "verde"]),
    ("BU", &["blue", "blau", "bleu", "bleue", "azul"]),
    ("VT", &["violet", "purple", "violett", "lila", "violeta", "morado"]),
    ("GY", &["grey", "gray", "grau", "gris"]),
    ("WH", &["white", "weiss", "blanc", "blanche", "blanco", "blanca"]),
    ("PK", &["pink", "rosa", "rose"]),
    ("GD", &["gold", "oro"]),
    ("TQ", &["turquoise", "turkis", "tuerkis", "turquesa"]),
    ("SR", &["silver", "silber", "argent", "plata"]),
];

/// German codes, as DIN 47002 had them (from memory; the same table was read on a harness maker's page).
pub const GERMAN: [(&str, &str); 12] = [
    ("sw", "BK"),
    ("br", "BN"),
    ("rt", "RD"),
    ("or", "OG"),
    ("ge", "YE"),
    ("gn", "GN"),
    ("bl", "BU"),
    ("vi", "VT"),
    ("gr", "GY"),
    ("ws", "WH"),
    ("rs", "PK"),
    ("tk", "TQ"),
];

/// Codes that only the German set has: one of them in a file decides it.
pub const ONLY_GERMAN: [&str; 6] = ["sw", "rt", "ge", "ws", "rs", "tk"];

/// Shortened English words.
pub const ENGLISH: [(&str, &str); 10] = [
    ("blk", "BK"),
    ("brn", "BN"),
    ("org", "OG"),
    ("yel", "YE"),
    ("grn", "GN"),
    ("blu", "BU"),
    ("vio", "VT"),
    ("gry", "GY"),
    ("wht", "WH"),
    ("pnk", "PK"),
];

/// Words that say that there is no colour to be seen.
const NONE: [&str; 16] = [
    "none",
    "no",
    "without",
    "nothing",
    "clear",
    "transparent",
    "natural",
    "kein",
    "keine",
    "ohne",
    "aucun",
    "aucune",
    "sans",
    "ninguno",
    "ninguna",
    "sin",
];

/// The colours that warn, inside longer words: schwarzgelb, dunkelorange, anaranjado.
const WITHIN: [(&str, &str); 6] =
    [("yellow", "YE"), ("gelb", "YE"), ("jaun", "YE"), ("amarill", "YE"), ("orange", "OG"), ("naranj", "OG")];

/// Words about a sleeve or cover that name no colour.
const ABOUT: [&str; 61] = [
    "a",
    "all",
    "and",
    "around",
    "band",
    "big",
    "boot",
    "braid",
    "braided",
    "cable",
    "conduit",
    "corrugated",
    "cover",
    "covers",
    "dark",
    "dull",
    "hard",
    "hose",
    "hulle",
    "in",
    "is",
    "jacket",
    "light",
    "loom",
    "mesh",
    "of",
    "on",
    "one",
    "over",
    "plain",
    "plastic",
    "rubber",
    "schlauch",
    "shiny",
    "sleeve",
    "sleeves",
    "sleeving",
    "soft",
    "split",
    "stripe",
    "striped",
    "stripes",
    "tape",
    "taped",
    "the",
    "tube",
    "tubes",
    "tubing",
    "wellschlauch",
    "with",
    "wrap",
    "und",
    "mit",
    "et",
    "avec",
    "gaine",
    "y",
    "con",
    "funda",
    "ruban",
    "cinta",
];

/// What a text says of the colours of sleeves and covers.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Named {
    /// These colours, in the order they stand there; empty where it says that there is none.
    Colours(Vec<ColourCode>),
    /// Nothing that is understood.
    NotUnderstood,
}

impl Named {
    /// Whether a colour is among them.
    pub fn has(&self, colour: ColourCode) -> bool {
        matches!(self, Self::Colours(colours) if colours.contains(&colour))
    }
}

/// The colours a text names: codes of IEC 60757, apart or together, words of four languages with their
/// endings, German codes. Words about the sleeve are left aside; any other word could be a colour in
/// letters that nobody here reads, and makes the whole not understood.
pub fn named_in(text: &str) -> Named {
    let plain = plain_words(text);
    let parts: Vec<&str> = plain.split(' ').filter(|part| !part.is_empty()).collect();
    // "or" is orange among German codes, and a word between two colours elsewhere.
    let are_codes = parts.iter().all(|part| part.len() == 2);
    let mut colours = Vec::new();
    let mut is_understood = false;
    for (n, part) in parts.iter().enumerate() {
        let is_between = n > 0 && n + 1 < parts.len() && !are_codes;
        let mut named = match *part {
            "or" if is_between => continue,
            part => one_part(part),
        };
        // Written together the second colour counts as much as the first.
        let within = WITHIN.iter().filter(|(stem, _)| part.contains(stem));
        for code in within.filter_map(|(_, code)| ColourCode::from_letters(code)) {
            if !named.contains(&code) {
                named.push(code);
            }
        }
        if named.is_empty() && !NONE.contains(part) && !ABOUT.contains(part) {
            return Named::NotUnderstood;
        }
        is_understood |= !named.is_empty() || NONE.contains(part);
        colours.extend(named);
    }
    if is_understood { Named::Colours(colours) } else { Named::NotUnderstood }
}

/// The colours of one part: a word, a code, or codes written together.
fn one_part(part: &str) -> Vec<ColourCode> {
    if let Some(code) = one_colour(part) {
        return vec![code];
    }
    let letters: Vec<char> = part.chars().collect();
    if letters.len() < 4 || !letters.len().is_multiple_of(2) {
        return Vec::new();
    }
    let pairs = letters.chunks(2).map(|pair| one_code(&pair.iter().collect::<String>()));
    pairs.collect::<Option<Vec<ColourCode>>>().unwrap_or_default()
}

fn one_colour(part: &str) -> Option<ColourCode> {
    // A word keeps its meaning with an ending: gelbe, jaunes, yellowish.
    let is_word = |word: &&str| *word == part || (word.len() >= 4 && part.starts_with(*word));
    let by_word = WORDS.iter().find(|(_, words)| words.iter().any(is_word));
    let by_word = by_word.map(|(code, _)| *code);
    let short = || ENGLISH.iter().find(|(name, _)| *name == part).map(|(_, code)| *code);
    by_word.or_else(short).and_then(ColourCode::from_letters).or_else(|| one_code(part))
}

fn one_code(part: &str) -> Option<ColourCode> {
    let german =
        || GERMAN.iter().find(|(name, _)| *name == part).and_then(|(_, code)| ColourCode::from_letters(code));
    ColourCode::from_letters(part).or_else(german)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn yellow_and_orange_are_seen_however_they_are_written() {
        for yellow in [
            "yellow",
            "YE",
            "RD/YE",
            "rdye",
            "gelb",
            "ge",
            "sw/ge",
            "jaune",
            "amarillo",
            "Yellowish tube",
            "gelbe Hülle",
            "YEL",
        ] {
            assert!(named_in(yellow).has(ColourCode::YE), "{yellow}");
        }
        for orange in
            ["orange", "OG", "OG/BK", "naranja", "or", "or/sw", "ORG", "orangefarben", "orange conduit"]
        {
            assert!(named_in(orange).has(ColourCode::OG), "{orange}");
        }
    }

    #[test]
    fn other_colours_and_none_are_understood_and_nonsense_is_not() {
        for plain in
            ["none", "no sleeve", "black corrugated tube", "BK", "black or grey", "clear", "ohne", "grau"]
        {
            let named = named_in(plain);
            assert!(
                named != Named::NotUnderstood && !named.has(ColourCode::YE) && !named.has(ColourCode::OG),
                "{plain}"
            );
        }
        for nonsense in ["", "-", "x", "as listed", "yes", "tube"] {
            assert_eq!(named_in(nonsense), Named::NotUnderstood, "{nonsense}");
        }
    }
}
