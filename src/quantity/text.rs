//! Text that came from people and files: which characters are harmful on a terminal, how they are
//! shown without being sent, and how nouns agree with their numbers.

use std::borrow::Cow;

/// A control, direction-changing or invisible character: never printed raw, never allowed in ids
/// and labels.
pub fn is_harmful(c: char) -> bool {
    c.is_control()
        || matches!(c,
            '\u{ad}' | '\u{61c}' | '\u{180e}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}'
            | '\u{2060}'..='\u{206f}' | '\u{feff}' | '\u{fff9}'..='\u{fffb}' | '\u{e0000}'..='\u{e007f}')
}

/// The text with every harmful character replaced by its code in angle brackets, so that it is
/// seen and cannot act.
pub fn harmless(text: &str) -> Cow<'_, str> {
    if !text.chars().any(is_harmful) {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        if is_harmful(c) {
            out.push_str(&format!("<U+{:04X}>", u32::from(c)));
        } else {
            out.push(c);
        }
    }
    Cow::Owned(out)
}

/// Characters shown of a text that is quoted in an error.
const QUOTED_MOST: usize = 60;

/// Characters kept at each end of a message that quotes a file as it stands.
const BRIEF_ENDS: usize = 200;

/// A text as it is quoted in an error: harmless, and only its start where it is long.
pub fn quoted(text: &str) -> String {
    let start: String = text.chars().take(QUOTED_MOST + 1).collect();
    let shown: String = harmless(&start).chars().take(QUOTED_MOST).collect();
    if start.chars().count() > QUOTED_MOST { format!("{shown}…") } else { harmless(&start).into_owned() }
}

/// A message of another crate, which may quote a whole file: harmless, and without its middle where
/// it is long. What is allowed stands at its end and stays.
pub fn brief(text: &str) -> Cow<'_, str> {
    if text.len() <= 2 * BRIEF_ENDS || text.chars().count() <= 2 * BRIEF_ENDS {
        return harmless(text);
    }
    let start: String = text.chars().take(BRIEF_ENDS).collect();
    let end: Vec<char> = text.chars().rev().take(BRIEF_ENDS).collect();
    let end: String = end.into_iter().rev().collect();
    Cow::Owned(format!("{} … {}", harmless(&start), harmless(&end)))
}

/// Why a text cannot be a label, an id or a part number.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum TextProblem {
    /// Nothing in it.
    #[error("a {what} cannot be empty")]
    Empty {
        /// What it was to be.
        what: &'static str,
    },
    /// A control or direction-changing character.
    #[error("the {what} \"{shown}\" holds a character that cannot be printed: type it without")]
    Harmful {
        /// What it was to be.
        what: &'static str,
        /// The text, made harmless.
        shown: String,
    },
    /// Longer than anything moulded or printed on a part.
    #[error("the {what} \"{start}…\" is longer than {most} characters")]
    TooLong {
        /// What it was to be.
        what: &'static str,
        /// How it starts.
        start: String,
        /// The longest allowed.
        most: usize,
    },
    /// A character the form does not allow.
    #[error("the {what} \"{shown}\" may hold only {allowed}")]
    NotAllowed {
        /// What it was to be.
        what: &'static str,
        /// The text, made harmless.
        shown: String,
        /// The characters allowed, in words.
        allowed: &'static str,
    },
}

/// Trims a text that is to be a label or part number, and refuses what cannot be one.
pub fn plain_text(what: &'static str, text: &str, most: usize) -> Result<String, TextProblem> {
    let trimmed = text.trim();
    if trimmed.is_empty() {
        return Err(TextProblem::Empty { what });
    }
    if trimmed.chars().any(is_harmful) {
        return Err(TextProblem::Harmful { what, shown: quoted(trimmed) });
    }
    if trimmed.chars().count() > most {
        return Err(TextProblem::TooLong { what, start: trimmed.chars().take(12).collect(), most });
    }
    Ok(trimmed.to_owned())
}

/// A number with its noun: `1 wire`, `2 wires`, `no wire`; "plug switch" style nouns pluralise at
/// the end, and `cavity`-like nouns turn `y` into `ies`.
pub fn count_of(n: usize, noun: &str) -> String {
    match n {
        0 => format!("no {noun}"),
        1 => format!("1 {noun}"),
        _ => match noun.strip_suffix('y') {
            Some(stem) if !stem.ends_with(['a', 'e', 'o', 'u']) => format!("{n} {stem}ies"),
            _ if noun.ends_with('s') => format!("{n} {noun}es"),
            _ => format!("{n} {noun}s"),
        },
    }
}

/// A text in small letters without accents, words apart by one blank: what headings and words in
/// several languages are compared by.
pub fn plain_words(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars().flat_map(char::to_lowercase) {
        match c {
            'ä' | 'à' | 'á' | 'â' | 'ã' | 'å' => out.push('a'),
            'é' | 'è' | 'ê' | 'ë' => out.push('e'),
            'í' | 'ì' | 'î' | 'ï' => out.push('i'),
            'ö' | 'ó' | 'ò' | 'ô' | 'õ' => out.push('o'),
            'ü' | 'ú' | 'ù' | 'û' => out.push('u'),
            'ß' => out.push_str("ss"),
            'ñ' => out.push('n'),
            'ç' => out.push('c'),
            '²' => out.push('2'),
            c if c.is_alphanumeric() => out.push(c),
            _ => out.push(' '),
        }
    }
    out.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Whether a text says who or what: not blank, and none of the marks people key to get past a field.
pub fn says_something(text: &str) -> bool {
    const MARKS: [&str; 22] = [
        "x", "xx", "xxx", "none", "n a", "na", "nil", "null", "no", "0", "unknown", "ditto", "same",
        "nothing", "kein", "keine", "keines", "aucun", "aucune", "ninguno", "ninguna", "tbd",
    ];
    let plain = plain_words(text);
    !plain.is_empty() && !MARKS.contains(&plain.as_str())
}

/// A list as it is spoken: `A`, `A and B`, `A, B and C`.
pub fn list_of<T: std::fmt::Display>(items: &[T]) -> String {
    match items {
        [] => String::new(),
        [one] => one.to_string(),
        [head @ .., last] => {
            let head: Vec<String> = head.iter().map(ToString::to_string).collect();
            format!("{} and {last}", head.join(", "))
        }
    }
}

/// Why a text is not a day.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("\"{shown}\" is no day: key the day as 2026-12-01")]
pub struct DayProblem {
    shown: String,
}

/// A day as files and requests have it: 2026-12-01 and no other spelling.
pub fn day(text: &str) -> Result<jiff::civil::Date, DayProblem> {
    let read: Option<jiff::civil::Date> = text.parse().ok();
    read.filter(|day| day.to_string() == text).ok_or_else(|| DayProblem { shown: quoted(text) })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn control_and_direction_characters_are_shown_not_sent() {
        assert_eq!(harmless("a\u{1b}[31mb"), "a<U+001B>[31mb");
        assert_eq!(harmless("a\u{202e}b"), "a<U+202E>b");
        assert_eq!(harmless("1\u{200b}2"), "1<U+200B>2", "two labels that look alike are told apart");
        assert_eq!(harmless("Grüße 0.5 mm²"), "Grüße 0.5 mm²");
    }

    #[test]
    fn a_day_has_one_spelling_and_what_is_none_is_said() {
        assert_eq!(day("2028-02-29").unwrap().to_string(), "2028-02-29");
        for text in [
            "",
            "soon",
            "2026-13-01",
            "2026-02-29",
            "20261201",
            "2026-12-01T00:00",
            " 2026-12-01",
            "1.12.2026",
        ] {
            let why = day(text).unwrap_err().to_string();
            assert!(why.contains("is no day: key the day as 2026-12-01"), "{why}");
            assert!(day(text).is_err(), "{text}");
        }
    }

    #[test]
    fn what_an_error_quotes_is_short_and_harmless() {
        assert_eq!(quoted("RD/WH"), "RD/WH");
        assert_eq!(quoted("\u{1b}x"), "<U+001B>x");
        let long = "é".repeat(1_000_000);
        assert_eq!(quoted(&long), format!("{}…", "é".repeat(60)));
        assert!(quoted(&"\u{202e}".repeat(90)).chars().count() < 70);
        let message = format!("no field \"{long}\", allowed: red");
        let shown = brief(&message);
        assert!(shown.starts_with("no field \"é") && shown.ends_with("allowed: red"), "{shown}");
        assert!(shown.chars().count() < 420, "{}", shown.chars().count());
        assert_eq!(brief("a\u{1b}"), "a<U+001B>");
    }

    #[test]
    fn words_of_several_languages_are_compared_without_case_accents_and_marks() {
        assert_eq!(plain_words("Kavität-Nr. (mm²)"), "kavitat nr mm2");
    }

    #[test]
    fn a_mark_to_get_past_a_field_says_nothing() {
        for mark in [
            "", " ", "x", "X", "-", "--", "=", "none", "NONE", "n/a", "?", ".", "***", "keine", "unknown",
            "0",
        ] {
            assert!(!says_something(mark), "{mark}");
        }
        for said in ["kt", "K. Tanner", "diagram 7-14", "X 12", "n"] {
            assert!(says_something(said), "{said}");
        }
    }

    #[test]
    fn nouns_agree_with_their_numbers() {
        assert_eq!(
            [count_of(0, "plug"), count_of(1, "cavity"), count_of(2, "cavity"), count_of(3, "bus")],
            ["no plug", "1 cavity", "2 cavities", "3 buses"]
        );
        assert_eq!(list_of(&["7", "9", "2"]), "7, 9 and 2");
    }
}
