//! One cell of a list: what a word for a content means, which size a number is, and what a
//! spreadsheet made of a cell that was something else.

use crate::quantity::{Gauge, plain_words, quoted};

use super::{headings::GaugeUnit, wiring::ListedHolds};

/// Words for what a cavity holds, in English, German, French and Spanish, accents left out.
const CONTENTS: [(ListedHolds, &[&str]); 7] = [
    (ListedHolds::Wired, &["wire", "wired", "besetzt", "belegt"]),
    (
        ListedHolds::Plugged,
        &[
            "plug",
            "plugged",
            "blanking plug",
            "cavity plug",
            "blind plug",
            "dummy plug",
            "stopfen",
            "blindstopfen",
            "verstopft",
            "bouchon",
            "obturateur",
            "tapon",
        ],
    ),
    (
        ListedHolds::Open,
        &[
            "open",
            "missing",
            "plug missing",
            "wire missing",
            "offen",
            "fehlt",
            "ouvert",
            "manque",
            "abierto",
            "falta",
        ],
    ),
    (
        ListedHolds::Empty,
        &[
            "empty",
            "nc",
            "n c",
            "not connected",
            "unused",
            "not used",
            "leer",
            "frei",
            "nicht belegt",
            "unbelegt",
            "vide",
            "libre",
            "non connecte",
            "vacio",
            "no usado",
        ],
    ),
    (
        ListedHolds::Blocked,
        &["blocked", "moulded shut", "shut", "verschlossen", "blockiert", "bouche", "bloque", "bloqueado"],
    ),
    (ListedHolds::Spare, &["spare", "spare terminal", "terminal without wire", "kontakt ohne leitung"]),
    (
        ListedHolds::Bridge,
        &["bridge", "shunt", "shorting clip", "diode", "brucke", "bruecke", "pont", "puente"],
    ),
];

/// Letters for a content, where a column is about nothing else.
const LETTERS: [(ListedHolds, &str); 5] = [
    (ListedHolds::Wired, "w"),
    (ListedHolds::Plugged, "p"),
    (ListedHolds::Open, "o"),
    (ListedHolds::Empty, "e"),
    (ListedHolds::Blocked, "x"),
];

/// The content a word means, wherever it stands.
pub(super) fn content(text: &str) -> Option<ListedHolds> {
    let plain = plain_words(text);
    CONTENTS.iter().find(|(_, words)| words.contains(&plain.as_str())).map(|(holds, _)| *holds)
}

/// The content a word or letter means in a column about contents.
pub(super) fn content_cell(text: &str) -> Option<ListedHolds> {
    let plain = plain_words(text);
    let letter = LETTERS.iter().find(|(_, letter)| *letter == plain).map(|(holds, _)| *holds);
    letter.or_else(|| content(text))
}

/// What a spreadsheet left of a cell that was something else, when it shows.
pub(super) fn spoilt(text: &str) -> Option<String> {
    let shown = quoted(text);
    if text.starts_with('=') {
        return Some(format!("\"{shown}\" is a formula, not its value: export the values"));
    }
    let is_error = text.starts_with('#')
        && (text.ends_with(['!', '?']) || text.starts_with("#N/") || text.starts_with("##"));
    if is_error {
        return Some(format!("\"{shown}\" is an error the spreadsheet shows, not a value"));
    }
    looks_like_date(text).then(|| {
        format!("\"{shown}\" looks like a date that the spreadsheet made of something such as 1-2: write it as text")
    })
}

const MONTHS: [&str; 28] = [
    "jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec", "marz", "mai", "okt",
    "dez", "janv", "fevr", "mars", "avr", "juin", "juil", "aout", "sept", "ene", "abr", "ago", "dic",
];

fn looks_like_date(text: &str) -> bool {
    let plain = plain_words(text);
    let parts: Vec<&str> = plain.split(' ').collect();
    let is_number = |part: &str| !part.is_empty() && part.chars().all(|c| c.is_ascii_digit());
    let is_year =
        |part: &str| part.len() == 4 && is_number(part) && (part.starts_with("19") || part.starts_with("20"));
    let is_month = |part: &str| MONTHS.contains(&part);
    match parts.as_slice() {
        [a, b] => (is_number(a) && is_month(b)) || (is_month(a) && is_number(b)),
        [a, b, c, ..] => {
            let year = is_year(a) || is_year(c);
            (year && (is_number(b) || is_month(b))) || (is_number(a) && is_month(b) && is_number(c))
        }
        _ => false,
    }
}

impl GaugeUnit {
    /// The unit of a column whose heading names none, as its own cells tell it.
    pub fn decide<'a>(self, cells: impl Iterator<Item = &'a str>) -> Self {
        if self != Self::NotSaid {
            return self;
        }
        let (mut metric, mut awg) = (false, false);
        for cell in cells {
            let lower = cell.to_lowercase();
            awg |= lower.contains("awg") || lower.ends_with("ga");
            metric |= lower.contains("mm") || lower.contains(['.', ',']);
        }
        match (metric, awg) {
            (true, false) => Self::Mm2,
            (false, true) => Self::Awg,
            _ => Self::NotSaid,
        }
    }

    /// The size in a cell of this column.
    pub fn read(self, text: &str) -> Result<Gauge, String> {
        let is_count = !text.is_empty() && text.chars().all(|c| c.is_ascii_digit());
        let two_readings = is_count && text.parse().is_ok_and(|n: u32| (8..=40).contains(&n));
        let typed = match self {
            Self::Awg if is_count => format!("{text} AWG"),
            Self::NotSaid if two_readings => {
                return Err(format!("{text} may be {text} mm² or {text} AWG: write the unit"));
            }
            _ => text.to_owned(),
        };
        typed.parse().map_err(|why: crate::quantity::QuantityProblem| why.to_string())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dates_formulas_and_errors_are_seen_and_labels_are_not_taken_for_them() {
        for text in
            ["1-Feb", "01.02.2026", "2026-02-01", "Feb 1", "2. Mai", "=B2", "#REF!", "#N/A", "1-mars-26"]
        {
            assert!(spoilt(text).is_some(), "{text}");
        }
        for text in ["1-2", "A12", "7", "1.2", "B-07", "#7", "SEP7"] {
            assert_eq!(spoilt(text), None, "{text}");
        }
    }

    #[test]
    fn a_number_without_a_unit_is_not_guessed_at() {
        let gauge = |unit: GaugeUnit, text: &str| unit.read(text).map(|g| g.both());
        assert_eq!(gauge(GaugeUnit::Awg, "18").unwrap(), "18 AWG (0.823 mm²)");
        assert_eq!(gauge(GaugeUnit::Mm2, "10").unwrap(), "10 mm²");
        assert!(gauge(GaugeUnit::NotSaid, "18").unwrap_err().contains("mm² or 18 AWG"));
        assert_eq!(GaugeUnit::NotSaid.decide(["0,75", "10"].into_iter()), GaugeUnit::Mm2);
        assert_eq!(GaugeUnit::NotSaid.decide(["18 AWG", "20"].into_iter()), GaugeUnit::Awg);
        assert_eq!(GaugeUnit::NotSaid.decide(["18ga", "0.5"].into_iter()), GaugeUnit::NotSaid);
    }

    #[test]
    fn words_for_contents_are_known_in_four_languages() {
        for word in ["plug", "Blindstopfen", "bouchon", "tapón"] {
            assert_eq!(content(word), Some(ListedHolds::Plugged), "{word}");
        }
        assert_eq!(content("n.c."), Some(ListedHolds::Empty));
        assert_eq!((content("p"), content_cell("P")), (None, Some(ListedHolds::Plugged)));
    }
}
