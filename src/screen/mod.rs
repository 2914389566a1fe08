//! The terminal. Screens are pure: `update` takes a key press and says what is to be done, `view`
//! draws; the shell performs. Keys stand once, in [`keys`].

mod asking;
mod backend;
pub mod board;
pub mod define;
pub mod keys;
pub mod menu;
pub mod shell;
mod spent;
pub mod state;
mod terminal;
pub mod theme;
mod update;
pub mod view;

pub use shell::{Sitting, run_board, run_define, run_job};
pub use state::{Effect, Outcome, Ui};
pub use theme::{Palette, Theme};
pub use update::Burst;
pub use view::{to_ascii, view};
