//! KBL (VDA 4964), the vehicle industry's open harness list, versions 2.3 to 2.5 by one reader. It
//! says which wire, terminal, seal and plug sits in which cavity, and nothing of where a cavity is: it
//! can fill a housing, never draw one.

mod colours;
mod connectors;
mod index;
mod modules;
mod rows;
mod units;
mod xml;

pub use connectors::{ConnectorEntry, KblFile};
pub use xml::{KblProblem, is_xml};
