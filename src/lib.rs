//! repin moves every wire and every blanking plug from a damaged connector housing to its
//! replacement, one at a time, and proves that none was lost or misplaced.
//!
//! The crate is a pure core with a thin shell. Modules are listed in the order in which they may
//! use each other: a module uses only what stands above it (a test holds this).
//!
//! * [`quantity`]: lengths, wire sizes, voltages as types; what a person typed is kept.
//! * [`colour`]: IEC 60757 colour codes, base and stripes in order.
//! * [`face`]: where cavities sit, how they are numbered, what is seen from which side.
//! * [`shop_rules`]: the house rules, every limit a shop may change, each with its source.
//! * [`catalogue`]: connector families: housings, terminals, seals, plugs made for each other.
//! * [`record`]: what is in a connector, and how two records of it differ.
//! * [`reckoning`]: on wires and terminals: which repair, lead lengths, splices, bundles, crimps.
//! * [`supply`]: parts that are asked for: lines as data, which line goes on which, how many came.
//! * [`job`]: the job as a pure state machine: acts, verdicts, state, account, flags.
//! * [`procedure`]: what is asked now and what may answer it, as data; answers to acts.
//! * [`picture`]: faces as grids of marked text cells, painted by the command line and the screen.
//! * [`drill`]: a technician who answers from a hidden truth, and walks whole jobs by the questions.
//! * [`report`]: what is said to people: sentences are made from data here.
//! * [`exchange`]: wiring lists from spreadsheets and open harness files; bytes to values and back.
//! * [`form`]: every form on disk, versioned: text to values and back.
//! * [`store`]: journals behind one port, in a folder or in memory; the only module that writes files.
//! * [`service`]: the use cases, the only caller of the store: start, open, enter, send, list.
//! * [`cli`]: one file per subcommand.
//! * [`screen`]: the terminal.
//!
//! Nothing above `store` in this list does I/O or reads a clock, the environment or randomness.

pub mod catalogue;
pub mod cli;
pub mod colour;
pub mod drill;
pub mod exchange;
pub mod face;
pub mod form;
pub mod job;
pub mod picture;
pub mod procedure;
pub mod quantity;
pub mod reckoning;
pub mod record;
pub mod report;
pub mod screen;
pub mod service;
pub mod shop_rules;
pub mod store;
pub mod supply;
