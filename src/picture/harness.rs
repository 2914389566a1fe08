//! The harness behind a housing along its way: where sleeves lie, where none may lie, and how thick
//! the bundle gets. Drawn to one scale, so that the two pictures stand under each other.

use crate::{
    job::Thick,
    reckoning::{SplicePlace, StaggerRequest},
};

use super::{Mark, Picture};

/// Widest name in front of a line.
const NAME: usize = 10;
/// Columns a branch keeps for its number.
const BRANCH: usize = 6;
/// Rows of a bundle's outline.
const TALL: usize = 7;

/// Millimetres to columns.
#[derive(Debug, Clone, Copy)]
pub struct Ruler {
    per_column_mm: f64,
    columns: usize,
}

impl Ruler {
    /// A ruler for a picture this wide that reaches past everything in it.
    pub fn of(harness: &Harness<'_>, width: usize) -> Self {
        let ask = harness.ask;
        let ends = harness.leads.iter().filter_map(|lead| lead.place).map(|place| place.end_mm);
        let stretches = ask.keep_out_mm.iter().chain(&ask.existing_mm).map(|(_, to)| *to);
        let branches = harness.branches_mm.iter().copied();
        let far = ends.chain(stretches).chain(branches).fold(ask.clearance_mm, f64::max).max(1.0);
        let columns = width.saturating_sub(NAME + 1).max(10);
        Self { per_column_mm: far * 1.08 / columns as f64, columns }
    }

    fn column(self, mm: f64) -> usize {
        ((mm / self.per_column_mm).round().max(0.0) as usize).min(self.columns)
    }

    /// Columns of a stretch: at least one, however short.
    fn stretch(self, from_mm: f64, to_mm: f64) -> (usize, usize) {
        let start = self.column(from_mm).min(self.columns.saturating_sub(1));
        (start, (self.column(to_mm).max(start + 1) - start).max(1))
    }

    /// A round step that leaves room for its number.
    fn step_mm(self) -> f64 {
        let least = self.per_column_mm * 9.0;
        let tens = 10_f64.powf(least.log10().floor());
        [1.0, 2.0, 5.0, 10.0].iter().map(|n| n * tens).find(|step| *step >= least).unwrap_or(least)
    }
}

/// The glyphs, with and without box drawing.
struct Ink {
    line: char,
    sleeve: char,
    damage: char,
    barred: char,
}

impl Ink {
    fn of(ascii: bool) -> Self {
        match ascii {
            true => Self { line: '-', sleeve: '#', damage: '~', barred: 'x' },
            false => Self { line: '─', sleeve: '█', damage: '≈', barred: '×' },
        }
    }
}

/// A lead in the picture.
#[derive(Debug, Clone, Copy)]
pub struct Splicing<'a> {
    /// What it is called.
    pub call: &'a str,
    /// How far its damage reaches.
    pub damage_mm: f64,
    /// Where its splice sits, when it has a place.
    pub place: Option<SplicePlace>,
}

/// What is drawn, from the rear face of a housing.
#[derive(Debug, Clone)]
pub struct Harness<'a> {
    /// What the planner was asked.
    pub ask: &'a StaggerRequest,
    /// Where the bundle branches.
    pub branches_mm: Vec<f64>,
    /// Splices there already.
    pub there_mm: Vec<(f64, f64)>,
    /// The leads.
    pub leads: Vec<Splicing<'a>>,
}

/// The wires with their sleeves.
pub fn draw_splices(harness: &Harness<'_>, ruler: Ruler, ascii: bool) -> Picture {
    let ink = Ink::of(ascii);
    let rows = harness.leads.len() + 2 + usize::from(!harness.there_mm.is_empty());
    let mut picture = Picture::blank(NAME + 1 + ruler.columns, rows);
    draw_scale(&mut picture, ruler, &harness.branches_mm);
    draw_name(&mut picture, 1, "no splice", &Mark::Faint);
    let ask = harness.ask;
    // Past what every splice has to end before, none may lie either.
    let last = ask.leads.iter().map(|lead| lead.last_mm).reduce(f64::max);
    let beyond = last.filter(|last| ruler.column(*last) < ruler.columns).map(|last| (last, f64::INFINITY));
    let barred =
        std::iter::once((0.0, ask.clearance_mm)).chain(ask.keep_out_mm.iter().copied()).chain(beyond);
    for (from, to) in barred {
        let (start, long) = ruler.stretch(from, to);
        fill(&mut picture, 1, start, long, ink.barred, &Mark::Alarm);
    }
    for (row, lead) in (2..).zip(&harness.leads) {
        draw_name(&mut picture, row, lead.call, &Mark::Label);
        fill(&mut picture, row, 0, ruler.columns, ink.line, &Mark::Frame);
        if lead.damage_mm > 0.0 {
            let (start, long) = ruler.stretch(0.0, lead.damage_mm);
            fill(&mut picture, row, start, long, ink.damage, &Mark::Plain);
        }
        match lead.place {
            Some(place) => {
                let (start, long) = ruler.stretch(place.start_mm, place.end_mm);
                fill(&mut picture, row, start, long, ink.sleeve, &Mark::Label);
            }
            None => picture.write(NAME + 2, row, " no place yet ", &Mark::Alarm),
        }
    }
    if !harness.there_mm.is_empty() {
        draw_name(&mut picture, rows - 1, "there now", &Mark::Faint);
        for (from, to) in &harness.there_mm {
            let (start, long) = ruler.stretch(*from, *to);
            fill(&mut picture, rows - 1, start, long, ink.sleeve, &Mark::Frame);
        }
    }
    picture
}

/// Millimetres from the rear face; a branch is marked where it leaves.
fn draw_scale(picture: &mut Picture, ruler: Ruler, branches_mm: &[f64]) {
    draw_name(picture, 0, "mm", &Mark::Faint);
    let step = ruler.step_mm();
    let marks = (0..).map(|n| f64::from(n) * step).take_while(|mm| ruler.column(*mm) < ruler.columns);
    for mm in marks.take(ruler.columns) {
        // A branch has its own number: it goes before a round one.
        let is_free = |branch: &f64| ruler.column(*branch).abs_diff(ruler.column(mm)) > BRANCH;
        if branches_mm.iter().all(is_free) {
            picture.write(NAME + 1 + ruler.column(mm), 0, &format!("{mm:.0}"), &Mark::Faint);
        }
    }
    for branch in branches_mm {
        let told = format!("Y{branch:.0}");
        let column = ruler.column(*branch).min(ruler.columns.saturating_sub(told.len()));
        picture.write(NAME + 1 + column, 0, &told, &Mark::Label);
    }
}

fn draw_name(picture: &mut Picture, row: usize, name: &str, mark: &Mark) {
    let short: String = name.chars().take(NAME).collect();
    picture.write(0, row, &short, mark);
}

fn fill(picture: &mut Picture, row: usize, start: usize, long: usize, ink: char, mark: &Mark) {
    picture.write(NAME + 1 + start, row, &ink.to_string().repeat(long), mark);
}

/// The outline of a bundle along its way, seen from the side; `most_mm` is as tall as the picture.
pub fn draw_outline(plain_mm: f64, thick: &[Thick], most_mm: f64, ruler: Ruler, ascii: bool) -> Picture {
    let mut picture = Picture::blank(NAME + 1 + ruler.columns, TALL);
    draw_tall(&mut picture, ruler.stretch(0.0, f64::INFINITY), plain_mm / most_mm, ascii, &Mark::Frame);
    for stretch in thick {
        let columns = ruler.stretch(stretch.from_mm, stretch.to_mm);
        draw_tall(&mut picture, columns, stretch.diameter_mm / most_mm, ascii, &Mark::Label);
    }
    picture
}

/// Columns filled about the middle to this share of the height, in half rows.
fn draw_tall(picture: &mut Picture, (start, long): (usize, usize), share: f64, ascii: bool, mark: &Mark) {
    let [full, lower, upper] = if ascii { ['#', '_', '"'] } else { ['█', '▄', '▀'] };
    let halves = ((share * TALL as f64).round() as usize).clamp(1, TALL);
    let (first, last) = (TALL - halves, TALL + halves);
    for row in 0..TALL {
        let is_in = |half: usize| (first..last).contains(&half);
        let ink = match (is_in(2 * row), is_in(2 * row + 1)) {
            (true, true) => full,
            (false, true) => lower,
            (true, false) => upper,
            (false, false) => continue,
        };
        fill(picture, row, start, long, ink, mark);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sleeves_lie_where_the_plan_has_them_and_the_outline_stands_under_them() {
        let ask = StaggerRequest {
            clearance_mm: 40.0,
            gap_mm: 40.0,
            margin_mm: 15.0,
            keep_out_mm: vec![(220.0, 300.0)],
            existing_mm: Vec::new(),
            made_mm: Vec::new(),
            leads: Vec::new(),
        };
        let lead = |call, start_mm: f64| Splicing {
            call,
            damage_mm: 90.0,
            place: Some(SplicePlace { start_mm, centre_mm: start_mm + 22.5, end_mm: start_mm + 45.0 }),
        };
        let harness = Harness {
            ask: &ask,
            branches_mm: vec![260.0],
            there_mm: Vec::new(),
            leads: vec![lead("W401", 105.0), lead("W402", 300.0)],
        };
        let ruler = Ruler::of(&harness, 51);
        let picture = draw_splices(&harness, ruler, true).lines();
        assert_eq!(
            picture,
            [
                "mm         0          100       200    Y260",
                "no splice  xxxx                    xxxxxxxx",
                "W401       ~~~~~~~~~~-#####------------------------",
                "W402       ~~~~~~~~~~----------------------#####---",
            ]
        );
        let thick = Thick { from_mm: 105.0, to_mm: 150.0, diameter_mm: 12.0 };
        let outline = draw_outline(9.0, &[thick], 14.0, ruler, true).lines();
        let column =
            |n: usize| outline.iter().map(|line| line.chars().nth(11 + n).unwrap_or(' ')).collect::<String>();
        assert_eq!([column(0), column(13), column(30)], [" ##### ", "_#####\"", " ##### "]);
    }
}
