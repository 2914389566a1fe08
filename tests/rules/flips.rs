//! Which cavity is taken for which when a face is misread: by rows where there are rows, by where the
//! holes are on rings and points, all or nothing; no reading is offered that nobody could make.

use repin::{
    face::{Face, Misreading, Pose, Side},
    form::Catalogue,
    job::{Flip, Misread, Verdict},
    shop_rules::ShopRules,
};

use crate::support::Bench;

const WIRE_UP: Pose = Pose { face: Face::Wire, up: Side::Top };
const READINGS: [Misreading; 3] = [Misreading::Mirror, Misreading::Turn, Misreading::Both];

/// A family with one housing of this layout.
fn catalogue(layout: &str) -> Catalogue {
    let family = format!(
        r#"(format: 1, id: "flip", title: "Flip", source: Invented,
            terminals: [(part: "FL-T", size: "1.5", gender: Female, plating: "tin", wire_mm2: (0.5, 1.0),
                insulation_mm: (1.4, 2.1), held_by: Tang, released_from: Rear, seating: Push)],
            housings: [(id: "flip", part: "FLIP", title: "flip", gender: Female, sealing: Unsealed,
                drawn: Wire, features: [("latch", Top)], layout: {layout}, size: "1.5")])"#
    );
    Catalogue::built_in().with_library(vec![("flip.ron".to_owned(), family)])
}

/// What each reading takes each cavity for, as `1-3 2-2 3-1`; a stroke where there is no such reading.
fn pairs(catalogue: &Catalogue, housing: &str) -> [String; 3] {
    let definition = catalogue.find(housing).unwrap();
    READINGS.map(|how| match definition.housing().misread(WIRE_UP, how) {
        None => "-".to_owned(),
        Some(pairs) => {
            let mut pairs: Vec<_> = pairs.iter().collect();
            pairs.sort();
            pairs.iter().map(|(from, to)| format!("{from}-{to}")).collect::<Vec<_>>().join(" ")
        }
    })
}

/// Worked out by hand from the places of the holes.
#[test]
fn each_layout_has_the_readings_its_holes_allow() {
    let made = |layout: &str| pairs(&catalogue(layout), "flip");
    // Two rows of three: mirror, turn, both.
    assert_eq!(
        made("Grid(rows: 2, columns: 3, pitch_mm: (5, 5))"),
        ["1-3 2-2 3-1 4-6 5-5 6-4", "1-6 2-5 3-4 4-3 5-2 6-1", "1-4 2-5 3-6 4-1 5-2 6-3"]
    );
    // Three over two: rows do not change place.
    assert_eq!(
        made("Grid(rows: 2, columns: 3, pitch_mm: (5, 5), left_out: [(2, 3)])"),
        ["1-3 2-2 3-1 4-5 5-4", "-", "-"]
    );
    // Three scattered holes: no partner within half the smallest distance.
    assert_eq!(made(r#"Points(at: [("1", 0, 0), ("2", 10, 0), ("3", 3, 7)])"#), ["-", "-", "-"]);
    // The third nearly in the middle: mirrored it is taken for itself, turned nothing fits.
    assert_eq!(made(r#"Points(at: [("1", 0, 0), ("2", 10, 0), ("3", 4, 7)])"#), ["1-2 2-1 3-3", "-", "-"]);
    // Four holes of which three have partners: all or nothing.
    assert_eq!(
        made(r#"Points(at: [("1", 0, 0), ("2", 10, 0), ("3", 0, 10), ("4", 6, 10)])"#),
        ["-", "-", "-"]
    );
    // A ring of four, a quarter turned.
    assert_eq!(
        made("Ring(angles_deg: [45, 135, 225, 315], radius_mm: 5, centre: true)"),
        ["1-4 2-3 3-2 4-1 5-5", "1-3 2-4 3-1 4-2 5-5", "1-2 2-1 3-4 4-3 5-5"]
    );
}

/// Source: tickerdossier.com/wiki/din-connector and cryptomuseum.com/ref/conn/din (read): contacts of
/// the DIN 5-way on 180 degrees; 1 and 3, 4 and 5 face each other. Upside down there are none.
#[test]
fn a_half_ring_is_mirrored_and_never_turned() {
    assert_eq!(pairs(&Catalogue::built_in(), "din-5-180-pin"), ["1-3 2-2 3-1 4-5 5-4", "-", "-"]);
}

#[test]
fn a_flip_nobody_could_make_is_neither_offered_nor_taken() {
    let layout = "Grid(rows: 2, columns: 3, pitch_mm: (5, 5), left_out: [(2, 3)])";
    let mut bench = Bench::from(&catalogue(layout), "flip", "flip", ShopRules::default());
    bench.does(r#"View(housing:"old",face:Wire,up:"latch")"#);
    for (label, colour) in (1..).zip(["RD", "BK", "GN", "BU", "VT"]) {
        bench.does(&format!(
            r#"Recorded(side:Found,at:"old:{label}",holds:Wired(wires:[(number:"W{label}",colour:"{colour}",gauge:"0.5")]))"#
        ));
    }
    bench.does("RecordFinished(side:Found)");
    assert!(bench.impossible(r#"RecordFlipped(how:Turn,reason:"seen so")"#).contains("no counterparts"));
    assert!(bench.impossible(r#"RecordFlipped(how:Both,reason:"seen so")"#).contains("no counterparts"));
    // An anchor that fits the mirrored record names that reading and no other.
    bench.does(r#"Anchor(housing:"old",place:"row 1, 1 from left",colour:"GN",mark:"1")"#);
    let state = bench.job.state();
    let fits = state.readings_that_fit(&state.housings.all[0]);
    assert_eq!(fits, [Misread::Flip(Flip::Mirror)]);
    let flip = r#"RecordFlipped(how:Mirror,reason:"read from the mating face")"#;
    assert_eq!(bench.asks(flip), Verdict::Allowed);
    bench.does(flip);
    let colours: Vec<String> =
        bench.job.state().items.leads.iter().map(|lead| lead.seen.wires[0].colour.to_string()).collect();
    assert_eq!(colours, ["GN", "BK", "RD", "VT", "BU"]);
}

#[test]
fn a_flip_puts_nothing_into_a_hole_that_is_moulded_shut() {
    let mut bench = Bench::new("dl-08r", "dl-08r");
    bench.does(r#"View(housing:"old",face:Wire,up:"key")"#);
    let spots = bench.job.state().housings.housing(&"old".parse().unwrap()).unwrap().housing().spots.clone();
    let wire = |n: &str| format!(r#"Wired(wires:[(number:"W{n}",colour:"RD",gauge:"0.5")])"#);
    for spot in spots.iter() {
        let label = spot.label.to_string();
        let holds = if label == "6" { "Blocked".to_owned() } else { wire(&label) };
        bench.does(&format!(r#"Recorded(side:Found,at:"old:{label}",holds:{holds})"#));
    }
    let said = bench.impossible(r#"RecordFlipped(how:Mirror,reason:"read from the mating face")"#);
    assert!(said.contains("moulded shut"), "{said}");
}

#[test]
fn points_are_flipped_by_where_they_are_and_not_by_their_order() {
    // Numbered across the face, so that rank and place differ.
    let layout = r#"Points(at: [("1", 0, 0), ("2", 10, 8), ("3", 10, 0), ("4", 0, 8)])"#;
    assert_eq!(pairs(&catalogue(layout), "flip"), ["1-3 2-4 3-1 4-2", "1-2 2-1 3-4 4-3", "1-4 2-3 3-2 4-1"]);
    let mut bench = Bench::from(&catalogue(layout), "flip", "flip", ShopRules::default());
    bench.does(r#"View(housing:"old",face:Wire,up:"latch")"#);
    for (label, colour) in (1..).zip(["RD", "BK", "GN", "BU"]) {
        bench.does(&format!(
            r#"Recorded(side:Found,at:"old:{label}",holds:Wired(wires:[(number:"W{label}",colour:"{colour}",gauge:"0.5")]))"#
        ));
    }
    bench.does("RecordFinished(side:Found)");
    bench.does(r#"RecordFlipped(how:Turn,reason:"upside down")"#);
    let colours: Vec<String> =
        bench.job.state().items.leads.iter().map(|lead| lead.seen.wires[0].colour.to_string()).collect();
    assert_eq!(colours, ["BK", "RD", "BU", "GN"]);
}
