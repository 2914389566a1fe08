//! Characters several rows high, read from a distance.

/// Rows of a big character.
pub const BIG_ROWS: usize = 5;

/// The shapes: five rows of five columns, one bit a column, the leftmost the highest.
const SHAPES: [(char, [u8; BIG_ROWS]); 42] = [
    ('0', [0b01110, 0b10001, 0b10001, 0b10001, 0b01110]),
    ('1', [0b00100, 0b01100, 0b00100, 0b00100, 0b01110]),
    ('2', [0b11110, 0b00001, 0b01110, 0b10000, 0b11111]),
    ('3', [0b11110, 0b00001, 0b01110, 0b00001, 0b11110]),
    ('4', [0b10010, 0b10010, 0b11111, 0b00010, 0b00010]),
    ('5', [0b11111, 0b10000, 0b11110, 0b00001, 0b11110]),
    ('6', [0b01110, 0b10000, 0b11110, 0b10001, 0b01110]),
    ('7', [0b11111, 0b00010, 0b00100, 0b01000, 0b01000]),
    ('8', [0b01110, 0b10001, 0b01110, 0b10001, 0b01110]),
    ('9', [0b01110, 0b10001, 0b01111, 0b00001, 0b01110]),
    ('A', [0b01110, 0b10001, 0b11111, 0b10001, 0b10001]),
    ('B', [0b11110, 0b10001, 0b11110, 0b10001, 0b11110]),
    ('C', [0b01111, 0b10000, 0b10000, 0b10000, 0b01111]),
    ('D', [0b11110, 0b10001, 0b10001, 0b10001, 0b11110]),
    ('E', [0b11111, 0b10000, 0b11110, 0b10000, 0b11111]),
    ('F', [0b11111, 0b10000, 0b11110, 0b10000, 0b10000]),
    ('G', [0b01111, 0b10000, 0b10011, 0b10001, 0b01111]),
    ('H', [0b10001, 0b10001, 0b11111, 0b10001, 0b10001]),
    ('I', [0b01110, 0b00100, 0b00100, 0b00100, 0b01110]),
    ('J', [0b00111, 0b00010, 0b00010, 0b10010, 0b01100]),
    ('K', [0b10001, 0b10010, 0b11100, 0b10010, 0b10001]),
    ('L', [0b10000, 0b10000, 0b10000, 0b10000, 0b11111]),
    ('M', [0b10001, 0b11011, 0b10101, 0b10001, 0b10001]),
    ('N', [0b10001, 0b11001, 0b10101, 0b10011, 0b10001]),
    ('O', [0b01110, 0b10001, 0b10001, 0b10001, 0b01110]),
    ('P', [0b11110, 0b10001, 0b11110, 0b10000, 0b10000]),
    ('Q', [0b01110, 0b10001, 0b10101, 0b10010, 0b01101]),
    ('R', [0b11110, 0b10001, 0b11110, 0b10010, 0b10001]),
    ('S', [0b01111, 0b10000, 0b01110, 0b00001, 0b11110]),
    ('T', [0b11111, 0b00100, 0b00100, 0b00100, 0b00100]),
    ('U', [0b10001, 0b10001, 0b10001, 0b10001, 0b01110]),
    ('V', [0b10001, 0b10001, 0b10001, 0b01010, 0b00100]),
    ('W', [0b10001, 0b10001, 0b10101, 0b11011, 0b10001]),
    ('X', [0b10001, 0b01010, 0b00100, 0b01010, 0b10001]),
    ('Y', [0b10001, 0b01010, 0b00100, 0b00100, 0b00100]),
    ('Z', [0b11111, 0b00010, 0b00100, 0b01000, 0b11111]),
    ('/', [0b00001, 0b00010, 0b00100, 0b01000, 0b10000]),
    ('?', [0b01110, 0b10001, 0b00110, 0b00000, 0b00100]),
    ('-', [0b00000, 0b00000, 0b11111, 0b00000, 0b00000]),
    ('>', [0b00100, 0b00010, 0b11111, 0b00010, 0b00100]),
    ('.', [0b00000, 0b00000, 0b00000, 0b00000, 0b00100]),
    (' ', [0; BIG_ROWS]),
];

/// The text in big characters, small letters as capitals; a character without a shape stands
/// small in its place.
pub fn big_text(text: &str, ascii: bool) -> [String; BIG_ROWS] {
    let ink = if ascii { '#' } else { '█' };
    let mut rows: [String; BIG_ROWS] = Default::default();
    for c in text.chars() {
        let shape = SHAPES.iter().find(|(known, _)| *known == c.to_ascii_uppercase());
        for (n, row) in rows.iter_mut().enumerate() {
            match shape {
                Some((_, bits)) => {
                    let line = bits.get(n).copied().unwrap_or(0);
                    row.extend((0..5).map(|i| if line & (0b10000 >> i) != 0 { ink } else { ' ' }));
                }
                None if n == BIG_ROWS / 2 => row.push_str(&format!("  {c}  ")),
                None => row.push_str("     "),
            }
            row.push(' ');
        }
    }
    rows
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn big_characters_are_five_rows_of_equal_width() {
        let rows = big_text("A1", true);
        assert_eq!(rows, [" ###    #   ", "#   #  ##   ", "#####   #   ", "#   #   #   ", "#   #  ###  "]);
    }
}
