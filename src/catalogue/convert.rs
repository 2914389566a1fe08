//! The words of the file form turned into the core's, where nothing can be wrong with them.

use super::{
    family::{AccessFace, Gender, LockState, PrimaryLock, Seating, Source, Supplied},
    form::{
        AlongForm, CornerForm, FaceForm, FromForm, GenderForm, HeldByForm, LockStateForm, PathForm,
        SeatingForm, SideForm, SourceForm, StaggerForm, SuppliedForm,
    },
};
use crate::face::{Along, Corner, Face, Path, RowStagger, Side};

/// Turns each variant of a form into the core's variant of the same name.
macro_rules! same_names {
    ($($form:ty => $core:ident: $($variant:ident),+;)+) => {
        $(impl From<$form> for $core {
            fn from(form: $form) -> Self {
                match form {
                    $(<$form>::$variant => Self::$variant,)+
                }
            }
        })+
    };
}

same_names! {
    GenderForm => Gender: Male, Female;
    HeldByForm => PrimaryLock: Tang, HousingFinger;
    FromForm => AccessFace: Front, Rear;
    SeatingForm => Seating: Push, Pull;
    FaceForm => Face: Mating, Wire;
    SideForm => Side: Top, Right, Bottom, Left;
    LockStateForm => LockState: FullSet, PreSet, Out, Broken;
    SuppliedForm => Supplied: With, Separate;
    StaggerForm => RowStagger: No, OddRows, EvenRows;
    CornerForm => Corner: TopLeft, TopRight, BottomLeft, BottomRight;
    AlongForm => Along: Rows, Columns;
    PathForm => Path: Straight, Serpentine, Round;
}

impl From<&SourceForm> for Source {
    fn from(form: &SourceForm) -> Self {
        match form {
            SourceForm::Invented => Self::Invented,
            SourceForm::Standard { standard, clause, read, from_memory } => Self::Standard {
                standard: standard.clone(),
                clause: clause.clone(),
                read: read.clone(),
                from_memory: from_memory.clone(),
            },
            SourceForm::Shop { how } => Self::Shop { how: how.clone() },
        }
    }
}
