//! What can be wrong with a face that is looked over, and what puts it right.

use crate::face::Face;

/// Makes the faults, the face they show on, their words and their remedy from one table.
macro_rules! face_faults {
    ($($name:ident $shows:pat, $words:literal, $remedy:literal;)*) => {
        /// What is wrong with a face.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
        pub enum FaceFault { $(#[doc = $words] $name,)* }

        impl FaceFault {
            /// Every fault, in the order it is asked.
            pub const ALL: &[FaceFault] = &[$(FaceFault::$name,)*];

            /// What is wrong, in words.
            pub fn words(self) -> &'static str {
                match self { $(FaceFault::$name => $words,)* }
            }

            /// What puts it right.
            pub fn remedy(self) -> &'static str {
                match self { $(FaceFault::$name => $remedy,)* }
            }

            /// Whether it can be seen on this face.
            pub fn shows_on(self, face: Face) -> bool {
                match self { $(FaceFault::$name => matches!(face, $shows),)* }
            }
        }
    };
}

face_faults! {
    LipUneven Face::Wire, "a seal lip is not even",
        "Push that seal in straight; if it is rolled or cut, take the lead out and renew it.";
    WireSlanted Face::Wire, "a wire is crossed, tight or does not go straight to the face",
        "Lay the wires without crossing and give that one slack: a slanted wire deforms its seal.";
    HoleDirty _, "a hole is not clean",
        "Take what fills it out, clean the hole and the seal, and look again.";
    TerminalLow Face::Mating, "a terminal does not stand as high as its neighbours",
        "Push that lead until it clicks, tug it; if it does not hold, take it out and look at its tang.";
    TerminalTurned Face::Mating, "a terminal is the wrong way up",
        "Take that lead out, turn it so that its tang faces as the drawing says, and put it in again.";
}
