//! A housing as it is described at the bench, before anybody has a data sheet: enough to draw it,
//! to check it and to write the family file that a person then completes.

use super::{
    AccessFace, FamilyDraft, Gender, HousingDraft, LayoutDraft, LockDraft, LockState, NumberingDraft,
    SealingDraft, Source, Supplied,
};
use crate::face::{Along, Corner, Face, Path, RowStagger, Side};

/// How the numbers run on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Counting {
    /// Row by row.
    Rows,
    /// Down each column: on two rows, odd and even.
    Columns,
    /// Round the outside.
    Round,
}

/// The secondary lock, as far as it shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SketchedLock {
    /// There is none.
    None,
    /// It comes out.
    Out,
    /// It stays, and is pushed to pre-set.
    PreSet,
}

/// How it keeps water out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SketchedSeal {
    /// A seal on every wire.
    Individual,
    /// One mat.
    Mat,
    /// Not at all.
    Unsealed,
}

/// What is known so far; the rest as most housings have it.
#[derive(Debug, Clone, PartialEq)]
pub struct Sketch {
    /// Part number, as moulded; the housing's id is made of it.
    pub part: String,
    /// How many rows, as seen on `face`.
    pub rows: usize,
    /// How many cavities in each row.
    pub columns: usize,
    /// The face it was looked at and is drawn from.
    pub face: Face,
    /// What is at the top as it was held: latch, key; absent when nothing tells the sides apart.
    pub feature: Option<String>,
    /// Where the first number is moulded.
    pub start: Corner,
    /// How the numbers run on from there.
    pub counting: Counting,
    /// The label moulded at `start`: `1`, `A`, `A1`.
    pub first: String,
    /// With a first label such as `A1`: each row has the next letter and counts anew.
    pub letter_per_row: bool,
    /// Whether its terminals are pins or sockets.
    pub gender: Gender,
    /// How it keeps water out.
    pub seal: SketchedSeal,
    /// Its secondary lock.
    pub lock: SketchedLock,
    /// Cavities it came with plugs in: labels, or `A3..A7` as numbered.
    pub plugged: Vec<String>,
    /// Cavities moulded shut: labels, or `A3..A7` as numbered.
    pub blocked: Vec<String>,
    /// The size of all its cavities; `contact` when nobody named one.
    pub size: String,
}

impl Default for Sketch {
    fn default() -> Self {
        Self {
            part: "NEW".to_owned(),
            rows: 1,
            columns: 1,
            face: Face::Wire,
            feature: None,
            start: Corner::TopLeft,
            counting: Counting::Rows,
            first: "1".to_owned(),
            letter_per_row: false,
            gender: Gender::Female,
            seal: SketchedSeal::Unsealed,
            lock: SketchedLock::None,
            plugged: Vec::new(),
            blocked: Vec::new(),
            size: "contact".to_owned(),
        }
    }
}

impl Sketch {
    /// The id made of the part number.
    pub fn id(&self) -> String {
        let id: String = self
            .part
            .to_lowercase()
            .chars()
            .map(|c| if c.is_ascii_alphanumeric() { c } else { '-' })
            .collect();
        id.split('-').filter(|part| !part.is_empty()).collect::<Vec<_>>().join("-")
    }

    /// How many lines counting runs along.
    fn lines(&self) -> usize {
        match self.counting {
            Counting::Columns => self.columns,
            Counting::Rows | Counting::Round => self.rows,
        }
    }

    /// The letters and the number a first label such as `A1` is made of.
    pub fn first_parts(&self) -> (&str, &str) {
        let digits = self.first.find(|c: char| c.is_ascii_digit()).unwrap_or(self.first.len());
        self.first.split_at(digits)
    }

    /// The family it makes; `how` says who described it and when.
    pub fn draft(&self, how: &str) -> FamilyDraft {
        let id = self.id();
        let how = match self.seal {
            SketchedSeal::Mat => format!("{how}; what the holes of the mat take is not measured"),
            SketchedSeal::Individual | SketchedSeal::Unsealed => how.to_owned(),
        };
        FamilyDraft {
            title: format!("{} as described at the bench", self.part),
            source: Source::Shop { how },
            terminals: Vec::new(),
            wire_seals: Vec::new(),
            plugs: Vec::new(),
            housings: vec![self.housing(&id)],
            id,
        }
    }

    fn housing(&self, id: &str) -> HousingDraft {
        let lock = |open| LockDraft {
            part: None,
            kind: "lock".to_owned(),
            open,
            released_from: AccessFace::Front,
            delivered: open,
            supplied: Supplied::With,
        };
        HousingDraft {
            id: id.to_owned(),
            part: self.part.clone(),
            title: format!("{}-way housing, {} x {}", self.rows * self.columns, self.rows, self.columns),
            revision: None,
            gender: self.gender,
            colour: None,
            key_code: None,
            sealing: match self.seal {
                SketchedSeal::Individual => SealingDraft::Individual,
                // Wide enough to refuse nothing until it is measured; the source says so.
                SketchedSeal::Mat => SealingDraft::Mat { hole_mm: (0.5, 10.0) },
                SketchedSeal::Unsealed => SealingDraft::Unsealed,
            },
            drawn: self.face,
            features: self.feature.iter().map(|name| (name.clone(), Side::Top)).collect(),
            layout: LayoutDraft::Grid {
                rows: self.rows,
                columns: self.columns,
                staggered: RowStagger::No,
                left_out: Vec::new(),
                pitch_mm: None,
                numbering: self.numbering(),
            },
            size: self.size.clone(),
            sizes: Vec::new(),
            tangs: Vec::new(),
            blocked: self.blocked.clone(),
            plugged: self.plugged.clone(),
            bridges: Vec::new(),
            lock: match self.lock {
                SketchedLock::None => None,
                SketchedLock::Out => Some(lock(LockState::Out)),
                SketchedLock::PreSet => Some(lock(LockState::PreSet)),
            },
            assurance: None,
            small_parts: Vec::new(),
            also: Vec::new(),
            replaces: Vec::new(),
        }
    }

    fn numbering(&self) -> NumberingDraft {
        let (along, path) = match self.counting {
            Counting::Rows => (Along::Rows, Path::Straight),
            Counting::Columns => (Along::Columns, Path::Straight),
            Counting::Round => (Along::Rows, Path::Round),
        };
        let (letters, number) = self.first_parts();
        let base = NumberingDraft {
            start: self.start,
            along,
            path,
            first: None,
            left_out: Vec::new(),
            prefix: None,
            line_prefixes: Vec::new(),
            labels: Vec::new(),
        };
        match (letters, number) {
            ("", number) => NumberingDraft { first: Some(number.to_owned()), ..base },
            (letter, "") => NumberingDraft { first: Some(letter.to_owned()), ..base },
            (letters, number) if self.letter_per_row => NumberingDraft {
                first: Some(number.to_owned()),
                line_prefixes: letters_from(letters, self.lines()),
                ..base
            },
            (letters, number) => {
                NumberingDraft { first: Some(number.to_owned()), prefix: Some(letters.to_owned()), ..base }
            }
        }
    }
}

/// This letter and the ones after it, one for each row.
fn letters_from(first: &str, rows: usize) -> Vec<String> {
    let Some(first) = first.chars().next() else { return Vec::new() };
    let last = if first.is_ascii_lowercase() { 'z' } else { 'Z' };
    (first..=last).take(rows).map(String::from).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::check_family;

    #[test]
    fn a_sketch_makes_a_family_without_a_fault_and_counts_as_described() {
        let sketch = Sketch {
            part: "KX 24/B".to_owned(),
            rows: 2,
            columns: 12,
            start: Corner::TopRight,
            first: "A1".to_owned(),
            letter_per_row: true,
            feature: Some("latch".to_owned()),
            seal: SketchedSeal::Individual,
            lock: SketchedLock::PreSet,
            plugged: vec!["B3".to_owned(), "A2..A4".to_owned()],
            ..Sketch::default()
        };
        assert_eq!(sketch.id(), "kx-24-b");
        let family = check_family(&sketch.draft("described at the bench")).unwrap();
        let housing = &family.housings[0];
        let rows: Vec<String> =
            housing.rows().iter().map(|row| format!("{}..{}", row[0], row[row.len() - 1])).collect();
        assert_eq!(rows, ["A1..A12", "B1..B12"]);
        let plugged = housing.cavities.iter().filter(|c| c.delivered == crate::catalogue::Delivered::Plugged);
        assert_eq!(plugged.count(), 4);
        assert!(check_family(&Sketch::default().draft("x")).is_ok());
    }
}
