//! What is written at a cavity: its label and, in pieces that are never cut, what it holds.

use unicode_width::UnicodeWidthStr;

use crate::{
    colour::{Colour, ColourCode},
    face::Label,
};

use super::{Covering, Mark};

/// A piece of what a cavity holds: a colour code, a word. It is drawn whole or not at all.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Piece {
    /// The characters.
    pub text: String,
    /// What they stand for.
    pub mark: Mark,
}

/// What is written at a cavity.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Slot {
    /// What it holds, piece by piece.
    pub pieces: Vec<Piece>,
    /// How the label is marked when the cavity is spoken of.
    pub spoken_of: Option<Mark>,
}

impl Slot {
    /// A cavity that holds this word.
    pub fn word(text: &str, mark: Mark) -> Self {
        let piece = Piece { text: text.to_owned(), mark };
        Self { pieces: (!text.is_empty()).then_some(piece).into_iter().collect(), spoken_of: None }
    }

    /// A cavity that holds wires of these colours, `?` for one that is not known: each code on a
    /// ground of its own, base first, several wires of one terminal with a plus between them.
    pub fn wires<'a>(colours: impl IntoIterator<Item = Option<&'a Colour>>) -> Self {
        let mut pieces = Vec::new();
        for (n, colour) in colours.into_iter().enumerate() {
            if n > 0 {
                pieces.push(Piece { text: "+".to_owned(), mark: Mark::Plain });
            }
            match colour {
                Some(colour) => {
                    pieces.push(code(colour.base(), ""));
                    pieces.extend(colour.stripes().iter().map(|stripe| code(*stripe, "/")));
                }
                None => pieces.push(Piece { text: "?".to_owned(), mark: Mark::Plain }),
            }
        }
        Self { pieces, spoken_of: None }
    }

    /// The same, spoken of.
    #[must_use]
    pub fn spoken_of(mut self, mark: Option<Mark>) -> Self {
        self.spoken_of = mark;
        self
    }

    /// Columns of what it holds.
    pub(super) fn width(&self) -> usize {
        self.pieces.iter().map(|piece| piece.text.width()).sum()
    }

    /// The label between its marks, and how it is marked.
    pub(super) fn label(&self, label: &Label) -> Piece {
        let (left, right) = match &self.spoken_of {
            None => (' ', ' '),
            Some(Mark::To) => ('>', '<'),
            Some(_) => ('[', ']'),
        };
        let mark = self.spoken_of.clone().unwrap_or(Mark::Label);
        Piece { text: format!("{left}{label}{right}"), mark }
    }

    /// What may be written while so much is covered: the label or the hole, and what the cavity holds.
    pub(super) fn written(&self, label: &Label, covering: Covering) -> (Piece, &[Piece]) {
        match covering {
            Covering::Nothing => (self.label(label), &self.pieces),
            Covering::Contents => (self.label(label), &[]),
            Covering::LabelsToo => (self.hole(), &[]),
        }
    }

    /// The cavity where labels are covered: a hole, or the hole that is asked.
    pub(super) fn hole(&self) -> Piece {
        match &self.spoken_of {
            None => Piece { text: " o ".to_owned(), mark: Mark::Faint },
            Some(mark) => Piece { text: "[?]".to_owned(), mark: mark.clone() },
        }
    }
}

fn code(code: ColourCode, before: &str) -> Piece {
    Piece { text: format!("{before}{}", Colour::from(code)), mark: Mark::Ground(code) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_colour_of_every_wire_stands_there_on_its_own_ground() {
        let (one, other): (Colour, Colour) = ("GN/WH".parse().unwrap(), "BK".parse().unwrap());
        let slot = Slot::wires([Some(&one), None, Some(&other)]);
        let text: String = slot.pieces.iter().map(|piece| piece.text.as_str()).collect();
        assert_eq!((text.as_str(), slot.width()), ("GN/WH+?+BK", 10));
        let grounds = slot.pieces.iter().filter(|piece| matches!(piece.mark, Mark::Ground(_))).count();
        assert_eq!(grounds, 3);
    }

    #[test]
    fn where_from_and_where_to_do_not_look_alike() {
        let label: Label = "11".parse().unwrap();
        let shown = |mark| Slot::default().spoken_of(mark).label(&label).text;
        assert_eq!([shown(None), shown(Some(Mark::From)), shown(Some(Mark::To))], [" 11 ", "[11]", ">11<"]);
    }
}
