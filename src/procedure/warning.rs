//! What is wrong, said before a question.

use crate::{
    job::{FaceFault, Refusal},
    quantity::Length,
    reckoning::{Height, Standing},
};

/// What is wrong with what was done, measured or said last.
#[derive(Debug, Clone, PartialEq)]
pub enum Warning {
    /// What is asked would be refused as long as this is so.
    First(Box<Refusal>),
    /// A face was looked over and these faults were found.
    WasNotSound(Vec<FaceFault>),
    /// A row was counted and does not agree.
    CountAgain,
    /// A hole was re-read and does not agree.
    ReadAgain,
    /// A tool that does not count for this crimp.
    ToolNotProved(Standing),
    /// Stripped longer or shorter than the sheet says.
    StrippedOff {
        /// How long it was stripped.
        strip: Length,
        /// What the sheet says.
        sheet_mm: f64,
    },
    /// The crimp is higher or lower than the sheet says.
    HeightOut {
        /// What was measured.
        height: Length,
        /// What the sheet says.
        sheet: Height,
    },
    /// The sample came off too easily.
    SampleWeak {
        /// The force at which it came off.
        force_n: f64,
        /// The least it has to bear.
        least_n: f64,
        /// Who says so.
        source: String,
    },
    /// A part that does not belong there.
    WrongPart(Vec<Refusal>),
    /// The lead that was asked for is too short by now.
    TooShort {
        /// How long it was asked for.
        asked_mm: f64,
        /// How long it has to be cut.
        cut_mm: f64,
    },
    /// A rule is against the place that was marked.
    NotThere(Vec<Refusal>),
    /// Another sleeve was ordered.
    NotTheSleeve(Length),
}
