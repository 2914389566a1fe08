//! What is said against readings of an instrument.

use crate::shop_rules::TestKind;

/// Why a test was not made so. What was keyed is given as it was keyed.
#[derive(Debug, Clone, PartialEq)]
pub enum MeasureBarrier {
    /// There is no value.
    NoValue,
    /// No wire of this job is called so.
    NoCircuit(String),
    /// The reading is not one of this test.
    OtherKind {
        /// The test.
        test: TestKind,
        /// The value.
        value: String,
        /// What the instrument shows in this test.
        wanted: ReadingKind,
    },
    /// The reading is an open circuit.
    OpenCircuit(TestKind, String),
    /// The reading is a short.
    Short(TestKind, String),
    /// The value and its limit are of different kinds.
    LimitOfOtherKind {
        /// The test.
        test: TestKind,
        /// The value.
        value: String,
        /// The limit.
        limit: String,
    },
    /// The value is past its limit.
    PastLimit {
        /// The test.
        test: TestKind,
        /// The value.
        value: String,
        /// The limit.
        limit: String,
    },
}

/// What an instrument shows in a test.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ReadingKind {
    /// A small resistance.
    Resistance,
    /// A drop of voltage.
    Drop,
    /// A large resistance, or an open circuit.
    Insulation,
}
