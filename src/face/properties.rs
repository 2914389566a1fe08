//! What holds of every layout, however it is held.

use proptest::prelude::*;

use super::*;

fn grids() -> impl Strategy<Value = Grid> {
    let corner = prop::sample::select(vec![
        Corner::TopLeft,
        Corner::TopRight,
        Corner::BottomLeft,
        Corner::BottomRight,
    ]);
    let along = prop::sample::select(vec![Along::Rows, Along::Columns]);
    let path = prop::sample::select(vec![Path::Straight, Path::Serpentine, Path::Round]);
    let stagger = prop::sample::select(vec![RowStagger::No, RowStagger::OddRows, RowStagger::EvenRows]);
    let pitch = prop::option::of((0.5..10.0_f64, 0.5..10.0_f64));
    (1..6_usize, 1..9_usize, corner, along, path, stagger, pitch, prop::option::of(1..9_usize)).prop_map(
        |(rows, columns, start, along, path, staggered, pitch_mm, hole)| {
            let hole = hole.filter(|hole| *hole <= columns && rows * columns > 1);
            let naming = Naming::Count { prefix: String::new(), counter: Counter::new("1", vec![]).unwrap() };
            Grid {
                rows,
                columns,
                staggered,
                left_out: hole.map(|column| (rows, column)).into_iter().collect(),
                pitch_mm,
                numbering: Numbering { start, along, path, naming },
            }
        },
    )
}

fn poses() -> impl Strategy<Value = Pose> {
    let face = prop::sample::select(vec![Face::Mating, Face::Wire]);
    let up = prop::sample::select(vec![Side::Top, Side::Right, Side::Bottom, Side::Left]);
    (face, up).prop_map(|(face, up)| Pose { face, up })
}

/// What is seen, taken as if it had been drawn like that.
fn redrawn(spots: &[Spot], seen: &[SeenSpot]) -> Vec<Spot> {
    spots.iter().zip(seen).map(|(spot, s)| Spot { x: s.x, y: s.y, ..spot.clone() }).collect()
}

fn places(spots: &[Spot]) -> Vec<(Label, f64, f64)> {
    spots.iter().map(|s| (s.label.clone(), s.x, s.y)).collect()
}

proptest! {
    #[test]
    fn mirroring_twice_and_four_quarter_turns_change_nothing(grid in grids()) {
        let spots = Layout::Grid(grid).spots().unwrap();
        let mirror = |s: &[Spot]| redrawn(s, &seen_from(s, Face::Wire, Pose { face: Face::Mating, up: Side::Top }));
        prop_assert_eq!(places(&mirror(&mirror(&spots))), places(&spots));
        let turn = |s: &[Spot]| redrawn(s, &seen_from(s, Face::Wire, Pose { face: Face::Wire, up: Side::Right }));
        prop_assert_eq!(places(&turn(&turn(&turn(&turn(&spots))))), places(&spots));
    }

    #[test]
    fn every_picture_keeps_labels_and_distances(grid in grids(), pose in poses()) {
        let spots = Layout::Grid(grid).spots().unwrap();
        let seen = redrawn(&spots, &seen_from(&spots, Face::Wire, pose));
        for (i, one) in spots.iter().enumerate() {
            for (j, other) in spots.iter().enumerate() {
                prop_assert!(i == j || one.label != other.label);
                prop_assert!((distance(one, other) - distance(&seen[i], &seen[j])).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn no_two_cavities_are_seen_in_one_place(grid in grids(), pose in poses()) {
        let spots = Layout::Grid(grid).spots().unwrap();
        let mut places: Vec<_> = seen_from(&spots, Face::Wire, pose).iter().map(|s| s.place().unwrap()).collect();
        places.sort();
        places.dedup();
        prop_assert_eq!(places.len(), spots.len());
    }

    #[test]
    fn a_misreading_misread_again_is_the_truth(grid in grids(), pose in poses()) {
        let spots = Layout::Grid(grid).spots().unwrap();
        for how in [Misreading::Mirror, Misreading::Turn, Misreading::Both] {
            if let Some(map) = misread(&spots, Face::Wire, pose, how) {
                for (label, taken_for) in &map {
                    prop_assert_eq!(&map[taken_for], label);
                }
            }
        }
    }
}

#[test]
fn a_side_named_right_in_the_drawing_is_on_top_when_it_is_asked_for_on_either_face() {
    let spots: Vec<Spot> = Layout::Points(Points {
        points: vec![("L".parse().unwrap(), -1.0, 0.0), ("R".parse().unwrap(), 1.0, 0.0)],
        in_mm: false,
    })
    .spots()
    .unwrap();
    for face in [Face::Wire, Face::Mating] {
        let seen = seen_from(&spots, Face::Wire, Pose { face, up: Side::Right });
        assert!(seen[1].y < seen[0].y, "{face}: {seen:?}");
    }
}
