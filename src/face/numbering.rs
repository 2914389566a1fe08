//! How the cavities of a layout are numbered: as data, never as code for one housing.

use super::{Label, LayoutProblem};

/// Where counting starts, in the drawing of the definition.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Corner {
    /// At the left end of the top row.
    TopLeft,
    /// At the right end of the top row.
    TopRight,
    /// At the left end of the bottom row.
    BottomLeft,
    /// At the right end of the bottom row.
    BottomRight,
}

/// Along which lines of a grid counting runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Along {
    /// Row by row.
    Rows,
    /// Column by column: on two rows, odd numbers in one and even numbers in the other.
    Columns,
}

/// How counting goes on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Path {
    /// Every row (or column) in the same direction.
    Straight,
    /// Every second row (or column) backwards.
    Serpentine,
    /// Round the outside, then inwards; on two columns, down one side and up the other.
    Round,
}

/// A numbering rule for a grid.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Numbering {
    /// Where counting starts.
    pub start: Corner,
    /// Row by row or column by column.
    pub along: Along,
    /// How counting goes on at the end of a line.
    pub path: Path,
    /// What is counted out.
    pub naming: Naming,
}

/// The labels counted out along the path.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Naming {
    /// One count over all cavities.
    Count {
        /// Put before every label.
        prefix: String,
        /// Numbers or letters, and the first of them.
        counter: Counter,
    },
    /// A prefix for every row (or column) in the order they are met; counting starts anew in each.
    PerLine {
        /// The prefixes, one for every line.
        prefixes: Vec<String>,
        /// Numbers or letters, and the first of them.
        counter: Counter,
    },
    /// The labels themselves, in the order of the path.
    List(Vec<Label>),
}

/// A count in numbers or letters, with what is left out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Counter {
    first: First,
    left_out: Vec<String>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum First {
    Number(u32),
    Letter(char),
}

impl Counter {
    /// A count from `first` (a number or one letter), never giving a label of `left_out`.
    pub fn new(first: &str, left_out: Vec<String>) -> Result<Self, LayoutProblem> {
        let mut letters = first.chars();
        let first = match (letters.next(), letters.next(), first.parse::<u32>()) {
            (_, _, Ok(number)) if first.len() <= 6 => First::Number(number),
            (Some(letter), None, _) if letter.is_ascii_alphabetic() => First::Letter(letter),
            _ => return Err(LayoutProblem::First { first: first.to_owned() }),
        };
        Ok(Self { first, left_out })
    }

    /// The first `count` labels.
    pub(super) fn labels(&self, count: usize) -> Result<Vec<String>, LayoutProblem> {
        let kept = |label: &String| !self.left_out.contains(label);
        let labels: Vec<String> = match self.first {
            First::Number(first) => {
                (u64::from(first)..).map(|n| n.to_string()).filter(kept).take(count).collect()
            }
            First::Letter(first) => {
                let last = if first.is_ascii_uppercase() { 'Z' } else { 'z' };
                (first..=last).map(String::from).filter(kept).take(count).collect()
            }
        };
        if labels.len() < count {
            return Err(LayoutProblem::LettersRunOut { cavities: count, letters: labels.len() });
        }
        Ok(labels)
    }
}

/// A line and a place in it, both from 0 in the drawing: rows and columns of a grid.
pub(super) type LatticePlace = (usize, usize);

impl Numbering {
    /// The lines in the order counting meets them, each with the places it holds, in order, for a
    /// grid of `rows` by `columns` of which only the places in `holds` exist.
    pub(super) fn lines(
        &self,
        (rows, columns): LatticePlace,
        holds: impl Fn(LatticePlace) -> bool,
    ) -> Vec<Vec<LatticePlace>> {
        let (lines, length) = match self.along {
            Along::Rows => (rows, columns),
            Along::Columns => (columns, rows),
        };
        let place = |line: usize, step: usize| {
            let (row, column) = match self.along {
                Along::Rows => (line, step),
                Along::Columns => (step, line),
            };
            let row = if self.starts_at_bottom() { rows - 1 - row } else { row };
            (row, if self.starts_at_right() { columns - 1 - column } else { column })
        };
        let ordered: Vec<Vec<LatticePlace>> = match self.path {
            Path::Round => vec![spiral(lines, length).map(|(line, step)| place(line, step)).collect()],
            path => (0..lines)
                .map(|line| {
                    let backwards = path == Path::Serpentine && line % 2 == 1;
                    let step = |step| if backwards { length - 1 - step } else { step };
                    (0..length).map(|at| place(line, step(at))).collect()
                })
                .collect(),
        };
        ordered.into_iter().map(|line| line.into_iter().filter(|p| holds(*p)).collect()).collect()
    }

    fn starts_at_bottom(&self) -> bool {
        matches!(self.start, Corner::BottomLeft | Corner::BottomRight)
    }

    fn starts_at_right(&self) -> bool {
        matches!(self.start, Corner::TopRight | Corner::BottomRight)
    }

    /// The label of every place in `lines`, in order.
    pub(super) fn labels(&self, lines: &[Vec<LatticePlace>]) -> Result<Vec<Label>, LayoutProblem> {
        match &self.naming {
            Naming::PerLine { prefixes, counter } => {
                if self.path == Path::Round {
                    return Err(LayoutProblem::PrefixRound);
                }
                if prefixes.len() != lines.len() {
                    return Err(LayoutProblem::Prefixes { prefixes: prefixes.len(), lines: lines.len() });
                }
                let mut labels = Vec::new();
                for (prefix, line) in prefixes.iter().zip(lines) {
                    labels.extend(prefixed(prefix, counter, line.len())?);
                }
                Ok(labels)
            }
            naming => naming.labels(lines.iter().map(Vec::len).sum()),
        }
    }
}

impl Naming {
    /// Labels for `count` cavities that lie in no lines.
    pub(super) fn labels(&self, count: usize) -> Result<Vec<Label>, LayoutProblem> {
        match self {
            Self::Count { prefix, counter } => prefixed(prefix, counter, count),
            Self::PerLine { .. } => Err(LayoutProblem::PrefixRound),
            Self::List(labels) if labels.len() == count => Ok(labels.clone()),
            Self::List(labels) => Err(LayoutProblem::ListLength { labels: labels.len(), cavities: count }),
        }
    }
}

fn prefixed(prefix: &str, counter: &Counter, count: usize) -> Result<Vec<Label>, LayoutProblem> {
    counter.labels(count)?.iter().map(|text| Ok(format!("{prefix}{text}").parse()?)).collect()
}

/// Round the outside of a field and then inwards: along the first line, across the ends, back
/// along the last line, home, and so on.
fn spiral(lines: usize, length: usize) -> impl Iterator<Item = LatticePlace> {
    let rings = lines.min(length).div_ceil(2);
    (0..rings).flat_map(move |ring| {
        let (last_line, last_step) = (lines - 1 - ring, length - 1 - ring);
        let out = (ring..=last_step).map(move |step| (ring, step));
        let across = (ring + 1..=last_line).map(move |line| (line, last_step));
        let back = (ring..last_step).rev().filter(move |_| last_line > ring).map(move |s| (last_line, s));
        let home = (ring + 1..last_line).rev().filter(move |_| last_step > ring).map(move |l| (l, ring));
        out.chain(across).chain(back).chain(home)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn round_the_outside_visits_every_place_once() {
        for (lines, length) in [(1, 1), (1, 5), (5, 1), (2, 8), (3, 4), (4, 3), (5, 5)] {
            let mut places: Vec<LatticePlace> = spiral(lines, length).collect();
            let steps_apart = |w: &[LatticePlace]| w[0].0.abs_diff(w[1].0) + w[0].1.abs_diff(w[1].1);
            assert!(places.windows(2).all(|w| steps_apart(w) == 1), "{lines} by {length}: {places:?}");
            places.sort_unstable();
            places.dedup();
            assert_eq!(places.len(), lines * length, "{lines} by {length}");
        }
    }

    #[test]
    fn letters_left_out_are_never_given_and_letters_end_at_z() {
        let counter = Counter::new("A", vec!["I".to_owned(), "O".to_owned()]).unwrap();
        assert_eq!(counter.labels(10).unwrap().join(""), "ABCDEFGHJK");
        assert!(counter.labels(24).is_ok());
        assert_eq!(counter.labels(25), Err(LayoutProblem::LettersRunOut { cavities: 25, letters: 24 }));
        assert!(Counter::new("AA", vec![]).is_err());
    }
}
