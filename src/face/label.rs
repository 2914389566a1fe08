//! The label moulded beside a cavity.

use std::{cmp::Ordering, fmt, ops::Range, str::FromStr, sync::Arc};

use crate::quantity::{TextProblem, plain_text};

/// The longest label, in characters.
const LONGEST: usize = 12;

/// A cavity's label as moulded: `7`, `A12`, `k`. Labels differ when their letters differ in case.
/// They sort as people count: `A2` before `A10`.
#[derive(Clone, PartialEq, Eq, Hash)]
pub struct Label {
    text: Arc<str>,
    // Shared, and its number read once: labels are copied and compared all the time.
    number: u64,
    digits: Range<u8>,
}

impl Label {
    /// The label as text.
    pub fn as_str(&self) -> &str {
        &self.text
    }

    /// The leading text, the number and what follows.
    fn parts(&self) -> (&[u8], u64, &[u8]) {
        let bytes = self.text.as_bytes();
        let head = bytes.get(..usize::from(self.digits.start)).unwrap_or(bytes);
        let rest = bytes.get(usize::from(self.digits.end)..).unwrap_or_default();
        (head, self.number, rest)
    }
}

impl FromStr for Label {
    type Err = TextProblem;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let text = plain_text("cavity label", text, LONGEST)?;
        let start = text.find(|c: char| c.is_ascii_digit()).unwrap_or(text.len());
        let tail = text.get(start..).unwrap_or_default();
        let length = tail.find(|c: char| !c.is_ascii_digit()).unwrap_or(tail.len());
        let number = tail.get(..length).and_then(|digits| digits.parse().ok()).unwrap_or(0);
        let place = |at: usize| u8::try_from(at).unwrap_or(u8::MAX);
        Ok(Self { number, digits: place(start)..place(start + length), text: text.into() })
    }
}

impl fmt::Debug for Label {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Label({:?})", self.text)
    }
}

impl fmt::Display for Label {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.text)
    }
}

impl Ord for Label {
    fn cmp(&self, other: &Self) -> Ordering {
        self.parts().cmp(&other.parts()).then_with(|| self.text.cmp(&other.text))
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
