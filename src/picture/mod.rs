//! Pictures as grids of marked text cells: what stands where, and what it means. The command line
//! prints the characters, the screen paints the marks; neither decides what is drawn.

mod canvas;
mod face;

pub use canvas::{Mark, MarkedCell, Picture};
pub use face::{Content, FaceOptions, FacePicture, LabelBox, draw_face, pose_in_words};
