//! The shop's book of hand tools: which position of which tool makes a good crimp of this terminal
//! on this wire, proved on samples, and until when. Change one of the four and it proves nothing.

use jiff::{Timestamp, civil::Date, tz::Offset};

use crate::{catalogue::PartNumber, quantity::Gauge};

use super::{
    crimp::{FEWEST_SAMPLES, Height},
    statistics::Sample,
};

/// Heights measured before a position is trusted.
pub const FEWEST_HEIGHTS: usize = 3;

/// What a qualification belongs to.
#[derive(Debug, Clone, PartialEq)]
pub struct PositionKey {
    /// The tool with its serial number.
    pub tool: String,
    /// Its position or nest.
    pub position: String,
    /// The terminal.
    pub terminal: PartNumber,
    /// The wire.
    pub wire: Gauge,
}

/// A tool's position and the samples made in it.
#[derive(Debug, Clone, PartialEq)]
pub struct ToolPosition {
    /// What it belongs to.
    pub key: PositionKey,
    /// Conductor crimp heights of the samples.
    pub heights_mm: Vec<f64>,
    /// Forces at which samples came off.
    pub pulls_n: Vec<f64>,
    /// The least force they had to stand, and who says so.
    pub minimum_n: Option<(f64, String)>,
    /// The height by the terminal's sheet.
    pub sheet: Option<Height>,
    /// Good until this day.
    pub until: Date,
    /// Who made the samples, or withdrew it.
    pub by: String,
    /// When that was said.
    pub at: Timestamp,
    /// Why it was withdrawn, when it was.
    pub withdrawn: Option<String>,
}

/// What the book says of a position, kept in the record of a crimp as it was that day.
#[derive(Debug, Clone, PartialEq)]
pub enum Standing {
    /// Proved: mean height, how many samples, until when.
    Qualified {
        /// Mean of the sample heights.
        mean_mm: f64,
        /// How many were pulled.
        samples: usize,
        /// Until this day.
        until: Date,
    },
    /// Its day is past, or it lacks samples: why.
    Due(String),
    /// Not in the book.
    Never,
    /// Taken out of use: why.
    Withdrawn(String),
}

impl Standing {
    /// Whether a crimp made so counts.
    pub fn is_qualified(&self) -> bool {
        matches!(self, Self::Qualified { .. })
    }
}

impl std::fmt::Display for Standing {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Qualified { mean_mm, samples, until } => {
                write!(f, "qualified until {until} (mean height {mean_mm:.2} mm, {samples} samples)")
            }
            Self::Due(why) => write!(f, "due: {why}"),
            Self::Never => f.write_str("never qualified"),
            Self::Withdrawn(why) => write!(f, "withdrawn: {why}"),
        }
    }
}

impl PositionKey {
    /// Whether both speak of the same tool, position, terminal and wire.
    pub fn is_same(&self, other: &Self) -> bool {
        self.tool.eq_ignore_ascii_case(&other.tool)
            && self.position.eq_ignore_ascii_case(&other.position)
            && self.terminal == other.terminal
            && self.wire.is_same_size(&other.wire)
    }
}

impl ToolPosition {
    /// Heights of the samples.
    pub fn heights(&self) -> Option<Sample> {
        Sample::of(&self.heights_mm)
    }

    /// The lowest pull: the one that judges.
    pub fn lowest_pull_n(&self) -> Option<f64> {
        self.pulls_n.iter().copied().reduce(f64::min)
    }

    /// Whether it was said on this day or before.
    fn is_said_by(&self, today: Date) -> bool {
        Offset::UTC.to_datetime(self.at).date() <= today
    }

    /// What it is worth on a day.
    pub fn standing(&self, today: Date) -> Standing {
        if let Some(why) = &self.withdrawn {
            return Standing::Withdrawn(why.clone());
        }
        match (self.lacks(), self.heights()) {
            (Some(why), _) => Standing::Due(why),
            (None, _) if self.until < today => Standing::Due(format!("it was good until {}", self.until)),
            (None, Some(heights)) => {
                Standing::Qualified { mean_mm: heights.mean, samples: self.pulls_n.len(), until: self.until }
            }
            (None, None) => Standing::Due("no heights were measured".to_owned()),
        }
    }

    /// What the samples do not prove yet.
    fn lacks(&self) -> Option<String> {
        if self.heights_mm.len() < FEWEST_HEIGHTS {
            return Some(format!(
                "heights of {FEWEST_HEIGHTS} samples are asked for, {} measured",
                self.heights_mm.len()
            ));
        }
        if self.sheet.is_none() {
            return Some("no sheet gives a height for this terminal and wire".to_owned());
        }
        let outside = |h: &&f64| self.sheet.is_some_and(|sheet| !sheet.takes(**h));
        if let Some(height) = self.heights_mm.iter().find(outside) {
            return Some(format!("a sample measures {height} mm, outside the sheet"));
        }
        if self.pulls_n.len() < FEWEST_SAMPLES {
            return Some(format!("{FEWEST_SAMPLES} samples are pulled, {} were", self.pulls_n.len()));
        }
        match (self.lowest_pull_n(), &self.minimum_n) {
            (Some(lowest), Some((least, source))) if lowest < *least => {
                Some(format!("the lowest sample came off at {lowest} N, least {least} N ({source})"))
            }
            (_, None) => Some("no least pull force was named for this wire".to_owned()),
            _ => None,
        }
    }
}

/// The book.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ToolBook {
    /// What each bench said of each position.
    pub positions: Vec<ToolPosition>,
}

impl ToolBook {
    /// What counts of a position on a day: what was said of it last, by whichever bench. Of two at the
    /// same moment the worse one counts. What is proved later proves nothing of that day; what is
    /// withdrawn counts at once, for clocks differ.
    fn last_said(&self, key: &PositionKey, today: Date) -> Option<&ToolPosition> {
        let counts = |said: &&ToolPosition| said.withdrawn.is_some() || said.is_said_by(today);
        let said = self.positions.iter().filter(|said| said.key.is_same(key)).filter(counts);
        said.max_by_key(|said| (said.at, said.withdrawn.is_some(), said.lacks().is_some()))
    }

    /// What the book says of a tool and position for a terminal and wire.
    pub fn standing(&self, key: &PositionKey, today: Date) -> Standing {
        self.last_said(key, today).map_or(Standing::Never, |said| said.standing(today))
    }

    /// Whether this is what counts of its position on a day.
    fn counts(&self, said: &ToolPosition, today: Date) -> bool {
        self.last_said(&said.key, today).is_some_and(|last| std::ptr::eq(last, said))
    }

    /// What counts of every position on a day, each once.
    pub fn in_force<'a>(&'a self, today: Date) -> impl Iterator<Item = &'a ToolPosition> {
        self.positions.iter().filter(move |said| self.counts(said, today))
    }

    /// A position that is qualified for a terminal and a wire on a day.
    pub fn proved(&self, terminal: &PartNumber, wire: &Gauge, today: Date) -> Option<&ToolPosition> {
        let is_for_it = |said: &&ToolPosition| {
            said.key.terminal == *terminal
                && said.key.wire.is_same_size(wire)
                && said.standing(today).is_qualified()
        };
        self.positions.iter().filter(is_for_it).find(|said| self.counts(said, today))
    }
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::*;

    const TODAY: Date = date(2026, 11, 26);

    fn position() -> ToolPosition {
        ToolPosition {
            key: PositionKey {
                tool: "hand tool 0113".into(),
                position: "B".into(),
                terminal: "FW-TRM-F15".parse().unwrap(),
                wire: "0.5".parse().unwrap(),
            },
            heights_mm: vec![1.11, 1.12, 1.13],
            pulls_n: vec![71.0, 68.0, 74.0, 70.0, 66.0],
            minimum_n: Some((60.0, "the terminal's sheet".into())),
            sheet: Some(Height { target_mm: 1.12, tolerance_mm: 0.05 }),
            until: date(2027, 3, 31),
            by: "kt".into(),
            at: "2026-11-02T08:00:00Z".parse().unwrap(),
            withdrawn: None,
        }
    }

    #[test]
    fn a_position_is_judged_by_its_lowest_sample_never_by_the_mean() {
        let mut position = position();
        assert!(position.standing(TODAY).is_qualified());
        position.pulls_n = vec![90.0, 91.0, 92.0, 93.0, 59.9];
        assert_eq!(
            position.standing(TODAY).to_string(),
            "due: the lowest sample came off at 59.9 N, least 60 N (the terminal's sheet)"
        );
    }

    #[test]
    fn the_states_of_a_position() {
        let good = position();
        assert!(good.standing(date(2027, 4, 1)).to_string().starts_with("due: it was good until"));
        let few = ToolPosition { pulls_n: vec![70.0; 4], ..position() };
        assert_eq!(few.standing(TODAY).to_string(), "due: 5 samples are pulled, 4 were");
        let sheet = position().sheet.unwrap();
        let (least, most) = (sheet.target_mm - sheet.tolerance_mm, sheet.target_mm + sheet.tolerance_mm);
        let heights = |heights_mm: &[f64]| ToolPosition { heights_mm: heights_mm.to_vec(), ..position() };
        for (why, changed) in [
            ("heights of 3 samples are asked for, 2 measured", heights(&[sheet.target_mm; 2])),
            ("heights of 3 samples are asked for, 0 measured", heights(&[])),
            ("outside the sheet", heights(&[sheet.target_mm, sheet.target_mm, least - 0.01])),
            ("outside the sheet", heights(&[most + 0.01, sheet.target_mm, sheet.target_mm])),
            ("no sheet gives a height", ToolPosition { sheet: None, ..position() }),
            ("no least pull force", ToolPosition { minimum_n: None, ..position() }),
            (
                "came off at 59.9 N",
                ToolPosition { pulls_n: vec![70.0, 59.9, 70.0, 70.0, 70.0], ..position() },
            ),
        ] {
            let standing = changed.standing(TODAY);
            assert!(!standing.is_qualified() && standing.to_string().contains(why), "{why}: {standing}");
        }
        assert!(heights(&[sheet.target_mm, least + 0.001, most - 0.001]).standing(TODAY).is_qualified());
        let least_pull = ToolPosition { pulls_n: vec![60.0; 5], ..position() };
        assert!(least_pull.standing(TODAY).is_qualified());
        let out = ToolPosition { withdrawn: Some("dropped".into()), ..position() };
        assert_eq!(out.standing(TODAY), Standing::Withdrawn("dropped".into()));
        let book = ToolBook { positions: vec![good.clone()] };
        let other = PositionKey { position: "C".into(), ..good.key.clone() };
        assert_eq!(book.standing(&other, TODAY), Standing::Never);
        let other_wire = PositionKey { wire: "0.75".parse().unwrap(), ..good.key };
        assert_eq!(book.standing(&other_wire, TODAY), Standing::Never);
    }

    #[test]
    fn what_was_said_last_counts_whichever_bench_said_it() {
        let said = |at: &str, change: &dyn Fn(&mut ToolPosition)| {
            let mut said = ToolPosition { at: at.parse().unwrap(), ..position() };
            change(&mut said);
            said
        };
        let proved = |at| said(at, &|_| {});
        let failed = |at| said(at, &|p| p.pulls_n = vec![59.0; 5]);
        let dropped = |at| said(at, &|p| p.withdrawn = Some("dropped".into()));
        let (monday, tuesday, next_year) =
            ("2026-11-02T08:00:00Z", "2026-11-03T08:00:00Z", "2027-02-01T08:00:00Z");
        let judged = |positions: Vec<ToolPosition>| {
            let book = ToolBook { positions };
            let standing = book.standing(&position().key, TODAY);
            assert_eq!(book.in_force(TODAY).count(), 1);
            standing
        };
        assert!(judged(vec![failed(tuesday), proved(monday)]).to_string().contains("59 N"));
        assert!(judged(vec![proved(tuesday), dropped(monday)]).is_qualified());
        assert!(judged(vec![dropped(tuesday), proved(monday)]).to_string().contains("dropped"));
        assert!(judged(vec![dropped(monday), proved(monday)]).to_string().contains("dropped"));
        // What is proved after the crimp proves nothing about it.
        assert!(judged(vec![proved(next_year), failed(monday)]).to_string().contains("59 N"));
    }
}
