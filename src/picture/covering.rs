//! What of a face is covered while it is asked.

/// What of a face may be seen, while something of it is asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Covering {
    /// All of it.
    #[default]
    Nothing,
    /// The labels, and not what the cavities hold.
    Contents,
    /// Only where the holes are.
    LabelsToo,
}
