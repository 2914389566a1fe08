//! Places on a face, in words.

use crate::job::SpokenPlace;

/// A place in words: `top row, far left`.
pub fn place_in_words(place: SpokenPlace) -> String {
    match place {
        SpokenPlace::Cell { row, rows, column, columns } => {
            let row_words = match row {
                _ if rows == 1 => "the row".to_owned(),
                1 => "top row".to_owned(),
                r if r == rows => "bottom row".to_owned(),
                r => format!("row {r} from the top"),
            };
            let column_words = match column {
                1 => "far left".to_owned(),
                c if c == columns => "far right".to_owned(),
                c if c * 2 <= columns => format!("{c} from the left"),
                c => format!("{} from the right", columns - c + 1),
            };
            format!("{row_words}, {column_words}")
        }
        SpokenPlace::Clockwise(n) => format!("number {n} clockwise from twelve o'clock"),
        SpokenPlace::Key => "the key or latch".to_owned(),
    }
}
