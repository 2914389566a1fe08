//! A face never lies: whatever the housing, the turn, the room and what is in it, no cell lies on
//! another, no label and no colour code is cut, and what is left out is said.

use std::collections::BTreeMap;

use proptest::prelude::*;
use repin::{
    catalogue::{Catalogue, Housing},
    colour::{CODES, Colour, ColourCode},
    face::{Face, Label, Layout, Points, Pose, Side, Spot},
    picture::{Cell, Covering, DrawnFace, FaceOptions, Mark, Slot, draw_face, draw_strip},
};

/// What a cavity holds, by its place among all.
#[derive(Debug, Clone, Copy)]
enum Holding {
    Wires,
    Mixed,
    Words,
}

fn colour(n: usize) -> Colour {
    let code = |n: usize| Colour::from(CODES[n % CODES.len()].0).to_string();
    let stripes: String = (0..n % 4).map(|stripe| format!("/{}", code(n + 3 * stripe + 1))).collect();
    format!("{}{stripes}", code(n)).parse().unwrap()
}

fn slot(n: usize, holding: Holding) -> Slot {
    match (holding, n % 7) {
        (Holding::Wires, _) | (Holding::Mixed, 0 | 1) => Slot::wires([Some(&colour(n))]),
        (Holding::Mixed, 2) => Slot::wires([Some(&colour(n)), None]),
        (_, 3) => Slot::word("empty", Mark::Faint),
        (_, 4) => Slot::word("OPEN", Mark::Alarm),
        _ => Slot::word("plug", Mark::Plug),
    }
}

struct Drawn {
    housing: Housing,
    holding: Holding,
    options: FaceOptions,
    pose: Pose,
    face: DrawnFace,
}

impl Drawn {
    fn of(housing: &Housing, pose: Pose, holding: Holding, options: FaceOptions) -> Self {
        let housing = housing.clone();
        let slots = slots(&housing, holding, options.focus.as_ref());
        let face = draw_face(&housing, pose, &|label: &Label| slots[label].clone(), &options);
        Self { housing, holding, options, pose, face }
    }

    fn is_list(&self) -> bool {
        self.face.picture.lines().join(" ").contains("for a drawing: a list")
    }

    /// The words of the picture without its outline and marks, and without what is said under it.
    fn words(&self) -> Vec<String> {
        let bare = |c: char| if "[]<>▐▌│|".contains(c) { ' ' } else { c };
        let rows = self.face.picture.rows();
        let is_edge =
            |row: &&Vec<Cell>| row[0].mark == Mark::Frame && row[0].text.is_some_and(|c| "╭╰+".contains(c));
        let text = |row: &Vec<Cell>| row.iter().filter_map(|cell| cell.text).collect::<String>();
        let inside: Vec<String> = match self.is_list() {
            true => rows
                .iter()
                .map(text)
                .take_while(|line| !line.starts_with("group") && !line.starts_with("no room"))
                .collect(),
            false => {
                let after = rows.iter().rposition(|row| is_edge(&row)).unwrap();
                rows[1..after].iter().map(text).collect()
            }
        };
        let words = inside.iter().map(|line| line.chars().map(bare).collect::<String>());
        words.flat_map(|line| line.split_whitespace().map(String::from).collect::<Vec<_>>()).collect()
    }

    fn check(&self) {
        let told = || {
            let lines = self.face.picture.lines().join("\n");
            format!("{} {:?} {:?} {:?}\n{lines}", self.housing.id, self.pose, self.holding, self.options)
        };
        let picture = &self.face.picture;
        assert!(picture.width() <= self.options.width, "too wide: {}", told());
        assert!(picture.height() <= self.options.height, "too tall: {}", told());
        self.check_codes(&told);
        let slots = slots(&self.housing, self.holding, None);
        let text = |slot: &Slot| slot.pieces.iter().map(|piece| piece.text.as_str()).collect::<String>();
        let mut expected: BTreeMap<String, usize> = BTreeMap::new();
        for (label, slot) in &slots {
            *expected.entry(label.to_string()).or_default() += 1;
            *expected.entry(text(slot)).or_default() += 1;
        }
        let mut shown: BTreeMap<String, usize> = BTreeMap::new();
        for word in self.words() {
            assert!(expected.contains_key(&word), "\"{word}\" stands nowhere: {}", told());
            *shown.entry(word).or_default() += 1;
        }
        let labels = slots.keys().filter(|label| shown.contains_key(label.as_str())).count();
        if self.face.is_whole {
            assert_eq!(shown, expected, "{}", told());
        } else {
            assert!(
                labels > 0 && (labels < slots.len() || self.is_list()),
                "{labels} of {}: {}",
                slots.len(),
                told()
            );
            let said = picture.lines().iter().any(|line| line.contains(" of ") || line.contains("a list"));
            assert!(said, "not said: {}", told());
        }
        if let Some(focus) = &self.options.focus {
            assert!(shown.contains_key(focus.as_str()), "{focus} is out of sight: {}", told());
        }
    }

    /// Every run of one wire colour is its whole code.
    fn check_codes(&self, told: &dyn Fn() -> String) {
        for row in self.face.picture.rows() {
            let mut runs: Vec<(ColourCode, String)> = Vec::new();
            let mut last = None;
            for cell in row {
                let ground = match cell.mark {
                    Mark::Ground(code) => Some(code),
                    _ => None,
                };
                if let (Some(code), Some(c)) = (ground, cell.text) {
                    match runs.last_mut() {
                        Some((_, run)) if last == ground && c != '/' => run.push(c),
                        _ => runs.push((code, c.to_string())),
                    }
                }
                last = ground;
            }
            for (code, run) in runs {
                let whole = Colour::from(code).to_string();
                assert!(run == whole || run == format!("/{whole}"), "\"{run}\" for {whole}: {}", told());
            }
        }
    }
}

fn slots(housing: &Housing, holding: Holding, focus: Option<&Label>) -> BTreeMap<Label, Slot> {
    let labels = housing.spots.iter().map(|spot| spot.label.clone()).enumerate();
    labels
        .map(|(n, label)| {
            let spoken = (focus == Some(&label)).then_some(if n % 2 == 0 { Mark::From } else { Mark::To });
            (label, slot(n, holding).spoken_of(spoken))
        })
        .collect()
}

fn poses() -> impl Iterator<Item = Pose> {
    let sides = [Side::Top, Side::Right, Side::Bottom, Side::Left];
    [Face::Mating, Face::Wire]
        .into_iter()
        .flat_map(move |face| sides.into_iter().map(move |up| Pose { face, up }))
}

fn housings() -> Vec<Housing> {
    let families = Catalogue::built_in().families().unwrap();
    families.iter().flat_map(|file| file.family.housings.clone()).collect()
}

/// Every housing there is, both faces, every side up, from narrow to wide, with the focus at either end.
#[test]
fn no_face_of_any_housing_lies_at_any_size() {
    let mut whole = 0;
    for housing in housings() {
        let ends = [housing.spots.first(), housing.spots.last()].map(|spot| spot.unwrap().label.clone());
        for pose in poses() {
            for (n, width) in [40, 47, 63, 78, 90, 130, 200, 250].into_iter().enumerate() {
                let holding = [Holding::Wires, Holding::Mixed, Holding::Words][n % 3];
                for height in [6, 9, 12, 24, 60] {
                    let focus = Some(ends[(n + height) % 2].clone());
                    let ascii = n % 2 == 0;
                    let options = FaceOptions { ascii, width, height, focus, covering: Covering::Nothing };
                    let drawn = Drawn::of(&housing, pose, holding, options);
                    drawn.check();
                    whole += usize::from(drawn.face.is_whole);
                }
            }
        }
    }
    assert!(whole > 1000, "{whole} whole faces");
}

/// What is covered shows neither labels nor contents, and the hole that is asked is in sight.
#[test]
fn a_covered_face_shows_holes_and_nothing_of_what_is_in_them() {
    for housing in housings() {
        let asked = housing.spots.last().unwrap().label.clone();
        for (pose, width) in poses().zip([40, 78, 130, 200].into_iter().cycle()) {
            let focus = Some(asked.clone());
            let options =
                FaceOptions { ascii: true, width, height: 16, focus, covering: Covering::LabelsToo };
            let drawn = Drawn::of(&housing, pose, Holding::Mixed, options.clone());
            let asked_holes = drawn.face.picture.lines().join("\n").matches("[?]").count();
            assert_eq!(asked_holes, 1, "{} {pose:?} {width}", housing.id);
            assert!(drawn.words().iter().all(|word| word == "o" || word == "?"), "{:?}", drawn.words());
            let covering = Covering::Contents;
            let labels = Drawn::of(&housing, pose, Holding::Wires, FaceOptions { covering, ..options });
            let grounds = labels.face.picture.rows().iter().flatten();
            assert!(grounds.clone().all(|cell| !matches!(cell.mark, Mark::Ground(_))), "{}", housing.id);
        }
    }
}

/// The one row of the other side keeps whole cells, too.
#[test]
fn a_strip_shows_whole_cells_and_says_which() {
    for housing in housings() {
        let slots = slots(&housing, Holding::Wires, None);
        for spot in &housing.spots {
            let focus = Some(spot.label.clone());
            let options =
                FaceOptions { ascii: true, width: 78, height: 1, focus, covering: Covering::Nothing };
            let pose = housing.drawn_pose();
            let strip = draw_strip(&housing, pose, "held", &|label: &Label| slots[label].clone(), &options);
            let lines = strip.lines();
            assert!(lines.iter().all(|line| line.chars().count() <= 78), "{lines:?}");
            let words: Vec<&str> = lines.last().unwrap().split_whitespace().collect();
            let at = words.iter().position(|word| *word == spot.label.as_str()).unwrap();
            let held: String = slots[&spot.label].pieces.iter().map(|p| p.text.as_str()).collect();
            assert_eq!(words[at + 1], held, "{lines:?}");
            let seen = housing.seen(pose);
            let row = seen.iter().find(|seen| seen.label == spot.label).unwrap().row;
            let all = seen.iter().filter(|seen| seen.row == row).count();
            let (shown, says) = (words.len() / 2, lines[..lines.len() - 1].join(" "));
            assert!(shown == all || says.ends_with(&format!(" of {all}")), "{shown} of {all}: {lines:?}");
        }
    }
}

fn with_spots(spots: Vec<Spot>) -> Housing {
    let mut housing = housings().into_iter().next().unwrap();
    housing.spots = spots;
    housing
}

fn points() -> impl Strategy<Value = Points> {
    let place = (0..60_i32, 0..60_i32);
    (proptest::collection::btree_set(place, 1..40), 1_usize..6).prop_map(|(places, label)| {
        let named = places.into_iter().enumerate().map(|(n, (x, y))| {
            let text = format!("{}{n}", "Q".repeat(label - 1));
            (text.parse().unwrap(), f64::from(x) * 0.7, f64::from(y) * 0.9)
        });
        Points { points: named.collect(), in_mm: false }
    })
}

fn ring() -> impl Strategy<Value = Points> {
    (proptest::collection::btree_set(0..72_i32, 1..30), any::<bool>()).prop_map(|(angles, centre)| {
        let places = angles.iter().map(|step| f64::from(*step * 5).to_radians());
        let mut named: Vec<(Label, f64, f64)> = places
            .enumerate()
            .map(|(n, angle)| ((n + 1).to_string().parse().unwrap(), angle.sin(), -angle.cos()))
            .collect();
        if centre {
            named.push(("C".parse().unwrap(), 0.0, 0.0));
        }
        Points { points: named, in_mm: false }
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, ..ProptestConfig::default() })]

    #[test]
    fn no_face_of_scattered_or_ringed_holes_lies(
        points in prop_oneof![points(), ring()],
        width in 40_usize..250,
        height in 6_usize..70,
        turn in 0_usize..8,
        holding in prop_oneof![Just(Holding::Wires), Just(Holding::Mixed), Just(Holding::Words)],
        ascii in any::<bool>(),
        nth in any::<prop::sample::Index>(),
    ) {
        let housing = with_spots(Layout::Points(points).spots().unwrap());
        let focus = Some(housing.spots[nth.index(housing.spots.len())].label.clone());
        let options = FaceOptions { ascii, width, height, focus, covering: Covering::Nothing };
        let pose = poses().nth(turn).unwrap();
        Drawn::of(&housing, pose, holding, options).check();
    }
}
