//! Describing a housing nobody has a file of, in the order of what the eye finds first.

use crate::{
    catalogue::{Counting, Gender, Sketch, SketchedLock, SketchedSeal},
    face::Corner,
};

use super::{Choice, DefineQuestion, Kind, Replies, Stop, Typed, setup::FACES};

/// The most rows of a grid that is drawn while it is typed.
const ROWS_MOST: usize = 40;
/// The most cavities in one of them.
const COLUMNS_MOST: usize = 60;

/// Takes what was said into the sketch; stops with the next question. At the end the sketch is whole.
pub fn describe(sketch: &mut Sketch, replies: &mut Replies<'_>) -> Result<(), Stop> {
    outline(sketch, replies)?;
    numbers(sketch, replies)?;
    inside(sketch, replies)?;
    replies.choice(DefineQuestion::Save, &[Choice::SaveIt]).map(|_| ())
}

/// Its part number, its grid, and how it is looked at.
fn outline(sketch: &mut Sketch, replies: &mut Replies<'_>) -> Result<(), Stop> {
    sketch.part = replies.text(DefineQuestion::Part, Kind::Part)?.words();
    sketch.rows = count(replies.text(DefineQuestion::Rows, Kind::Number)?, ROWS_MOST)?;
    sketch.columns = count(replies.text(DefineQuestion::Columns, Kind::Number)?, COLUMNS_MOST)?;
    sketch.face = replies.one_of(DefineQuestion::Face, &FACES)?;
    sketch.feature = named(replies.text(DefineQuestion::Feature, Kind::Mark)?);
    Ok(())
}

/// Where the numbers start and how they go on.
fn numbers(sketch: &mut Sketch, replies: &mut Replies<'_>) -> Result<(), Stop> {
    let corners = [
        (Choice::FirstTopLeft, Corner::TopLeft),
        (Choice::FirstTopRight, Corner::TopRight),
        (Choice::FirstBottomLeft, Corner::BottomLeft),
        (Choice::FirstBottomRight, Corner::BottomRight),
    ];
    sketch.start = replies.one_of(DefineQuestion::FirstAt, &corners)?;
    let ways = [
        (Choice::CountRows, Counting::Rows),
        (Choice::CountColumns, Counting::Columns),
        (Choice::CountRound, Counting::Round),
    ];
    sketch.counting = replies.one_of(DefineQuestion::Counting, &ways)?;
    sketch.first = replies.text(DefineQuestion::First, Kind::Mark)?.words();
    let (letters, number) = sketch.first_parts();
    if letters.chars().count() == 1 && !number.is_empty() && sketch.counting != Counting::Round {
        sketch.letter_per_row = replies.yes(DefineQuestion::LetterPerRow)?;
    }
    Ok(())
}

/// Terminals, seals, lock, and what its cavities came with.
fn inside(sketch: &mut Sketch, replies: &mut Replies<'_>) -> Result<(), Stop> {
    let genders = [(Choice::Pins, Gender::Male), (Choice::Sockets, Gender::Female)];
    sketch.gender = replies.one_of(DefineQuestion::Gender, &genders)?;
    let seals = [
        (Choice::SealEach, SketchedSeal::Individual),
        (Choice::SealMat, SketchedSeal::Mat),
        (Choice::SealNone, SketchedSeal::Unsealed),
    ];
    sketch.seal = replies.one_of(DefineQuestion::Sealing, &seals)?;
    let locks = [
        (Choice::LockNone, SketchedLock::None),
        (Choice::LockComesOut, SketchedLock::Out),
        (Choice::LockStays, SketchedLock::PreSet),
    ];
    sketch.lock = replies.one_of(DefineQuestion::Lock, &locks)?;
    sketch.plugged = list(replies.text(DefineQuestion::Plugged, Kind::Values)?);
    sketch.blocked = list(replies.text(DefineQuestion::Blocked, Kind::Values)?);
    let size = replies.text(DefineQuestion::CavitySize, Kind::Words)?;
    sketch.size = named(size).unwrap_or_else(|| "contact".to_owned());
    Ok(())
}

/// A name, or nothing for `-`.
fn named(typed: Typed<'_>) -> Option<String> {
    typed.unless_dash().filter(|typed| !typed.as_str().is_empty()).map(Typed::words)
}

fn count(typed: Typed<'_>, most: usize) -> Result<usize, Stop> {
    match typed.as_str().parse() {
        Ok(count) if (1..=most).contains(&count) => Ok(count),
        _ => Err(Stop::wrong(format!("Key a whole number from 1 to {most}."))),
    }
}

fn list(typed: Typed<'_>) -> Vec<String> {
    let text = named(typed).unwrap_or_default();
    text.split([',', ' ']).filter(|part| !part.is_empty()).map(ToOwned::to_owned).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_count_is_whole_and_within_bounds_and_a_dash_names_nothing() {
        assert_eq!(count(Typed("2"), 3).unwrap(), 2);
        for wrong in ["0", "4", "two", ""] {
            assert!(matches!(count(Typed(wrong), 3), Err(Stop::Wrong(_))), "{wrong}");
        }
        assert_eq!(
            (named(Typed("-")), named(Typed("")), named(Typed("latch"))),
            (None, None, Some("latch".into()))
        );
        assert_eq!(list(Typed("3, 7..9 11")), ["3", "7..9", "11"]);
    }
}
