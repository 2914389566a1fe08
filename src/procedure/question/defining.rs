//! What is asked about a housing nobody has a file of.

/// What is asked while a housing is described.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DefineQuestion {
    /// The part number moulded on it.
    Part,
    /// How many rows it has.
    Rows,
    /// How many cavities are in a row.
    Columns,
    /// Which face is looked at.
    Face,
    /// What is on its upper side.
    Feature,
    /// Where the first number is moulded.
    FirstAt,
    /// How the numbers go on.
    Counting,
    /// What is moulded at the first cavity.
    First,
    /// Whether each row has a letter of its own.
    LetterPerRow,
    /// Whether its terminals are pins or sockets.
    Gender,
    /// How it is sealed.
    Sealing,
    /// Whether it has a secondary lock, and which.
    Lock,
    /// Which cavities came with a plug.
    Plugged,
    /// Which are moulded shut.
    Blocked,
    /// What its terminals are called by size.
    CavitySize,
    /// Whether what is drawn is it.
    Save,
}
