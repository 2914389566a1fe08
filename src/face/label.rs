//! The label moulded beside a cavity.

use std::{cmp::Ordering, fmt, str::FromStr};

use crate::quantity::{TextProblem, plain_text};

/// A cavity's label as moulded: `7`, `A12`, `k`. Labels differ when their letters differ in case.
/// They sort as people count: `A2` before `A10`.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Label(String);

impl Label {
    /// The label as text.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl FromStr for Label {
    type Err = TextProblem;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        plain_text("cavity label", text, 12).map(Self)
    }
}

impl fmt::Display for Label {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.0)
    }
}

/// Splits a label into its leading text, its number and what follows.
fn parts(label: &str) -> (&str, u64, &str) {
    let start = label.find(|c: char| c.is_ascii_digit()).unwrap_or(label.len());
    let (head, tail) = label.split_at(start);
    let end = tail.find(|c: char| !c.is_ascii_digit()).unwrap_or(tail.len());
    let (digits, rest) = tail.split_at(end);
    (head, digits.parse().unwrap_or(0), rest)
}

impl Ord for Label {
    fn cmp(&self, other: &Self) -> Ordering {
        parts(&self.0).cmp(&parts(&other.0)).then_with(|| self.0.cmp(&other.0))
    }
}

impl PartialOrd for Label {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn labels_sort_as_people_count() {
        let mut labels: Vec<Label> =
            ["A10", "B1", "A2", "10", "9", "a1"].iter().map(|l| l.parse().unwrap()).collect();
        labels.sort();
        let sorted: Vec<&str> = labels.iter().map(Label::as_str).collect();
        assert_eq!(sorted, ["9", "10", "A2", "A10", "B1", "a1"]);
    }

    #[test]
    fn a_label_with_a_control_or_bidi_character_is_refused() {
        for bad in ["", " ", "a\u{7}", "1\u{202e}2"] {
            assert!(bad.parse::<Label>().is_err(), "{bad:?}");
        }
    }
}
