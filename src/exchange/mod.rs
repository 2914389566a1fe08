//! Text and bytes from elsewhere to values: wiring lists from spreadsheets and from open harness
//! files. Every line is understood, and how is said, or it is not, and why is said; nothing is
//! dropped in silence. No file is opened here: bytes come in.

mod cells;
mod colours;
mod decode;
mod grid;
mod headings;
mod kbl;
mod line;
mod shape;
mod table;
mod wiring;

pub use kbl::{ConnectorEntry, KblFile, KblProblem, is_xml};
pub use table::read_table;
pub use wiring::{LineProblem, ListedHolds, WiringList, WiringRow};
