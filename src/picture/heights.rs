//! Crimp heights against the band of the terminal's sheet, along one line.

use crate::reckoning::Height;

use super::{Mark, Picture};

/// How much wider than the band the picture is, each side, in bands.
const BESIDE: f64 = 0.25;

/// The heights as marks above the band; one that is out is a cross, however far out it lies.
pub fn draw_heights(sheet: Height, heights_mm: &[f64], width: usize) -> Picture {
    let width = width.clamp(31, 61);
    let (low, high) = sheet.limits_mm();
    let band = (high - low).max(1e-6);
    let (first, last) = (low - BESIDE * band, high + BESIDE * band);
    let column = |mm: f64| {
        let share = ((mm - first) / (last - first)).clamp(0.0, 1.0);
        (share * (width - 1) as f64).round() as usize
    };
    let mut stacks = vec![0_usize; width];
    let marks: Vec<(usize, usize, bool)> = heights_mm
        .iter()
        .map(|mm| {
            let x = column(*mm);
            let stack = stacks.get_mut(x);
            let y = stack.map_or(0, |n| {
                *n += 1;
                *n - 1
            });
            (x, y, sheet.takes(*mm))
        })
        .collect();
    let tallest = stacks.iter().copied().max().unwrap_or(0).max(1);
    let mut picture = Picture::blank(width, tallest + 2);
    for (x, y, is_in) in marks {
        let (glyph, mark) = if is_in { ("o", Mark::Label) } else { ("X", Mark::Alarm) };
        picture.write(x, tallest - 1 - y, glyph, &mark);
    }
    let (left, right) = (column(low), column(high));
    picture.write(left, tallest, &"-".repeat(right - left), &Mark::Frame);
    for x in [left, column(sheet.target_mm), right] {
        picture.write(x, tallest, "|", &Mark::Frame);
    }
    for (x, mm) in [(left, low), (column(sheet.target_mm), sheet.target_mm), (right, high)] {
        picture.write(x.saturating_sub(2), tallest + 1, &format!("{mm:.2}"), &Mark::Faint);
    }
    picture
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn samples_stand_over_the_band_and_one_that_is_out_is_a_cross() {
        let sheet = Height { target_mm: 1.24, tolerance_mm: 0.05 };
        let picture = draw_heights(sheet, &[1.23, 1.24, 1.24, 1.29, 1.40], 41);
        assert_eq!(
            picture.lines(),
            [
                "                    o",
                "                 o  o            o      X",
                "       |------------|------------|",
                "     1.19         1.24         1.29",
            ]
        );
        assert_eq!(draw_heights(sheet, &[], 5).height(), 3);
    }
}
