//! Wire sizes against ASTM B258.

use repin::quantity::{Gauge, NOMINAL_PAIRS};

fn area(typed: &str) -> f64 {
    typed.parse::<Gauge>().unwrap().area_mm2()
}

/// Source: ASTM B258, d = 0.127 mm × 92^((36 − n)/39) (formula from memory, areas computed; 10 to 30
/// spot-checked in a public table, read).
#[test]
fn areas_of_awg_numbers_are_those_of_astm_b258() {
    let table = [
        (0, 53.4751),
        (1, 42.4077),
        (2, 33.6308),
        (3, 26.6705),
        (4, 21.1506),
        (5, 16.7732),
        (6, 13.3018),
        (7, 10.5488),
        (8, 8.3656),
        (9, 6.6342),
        (10, 5.2612),
        (11, 4.1723),
        (12, 3.3088),
        (13, 2.6240),
        (14, 2.0809),
        (15, 1.6502),
        (16, 1.3087),
        (17, 1.0378),
        (18, 0.8230),
        (19, 0.6527),
        (20, 0.5176),
        (21, 0.4105),
        (22, 0.3255),
        (23, 0.2582),
        (24, 0.2047),
        (25, 0.1624),
        (26, 0.1288),
        (27, 0.1021),
        (28, 0.0810),
        (29, 0.0642),
        (30, 0.0509),
    ];
    for (awg, mm2) in table {
        assert!((area(&format!("{awg}AWG")) - mm2).abs() < 6e-5, "{awg} AWG");
    }
    assert!((area("4/0 AWG") - 107.2193).abs() < 1e-3, "0000 has a diameter of 11.684 mm");
    assert_eq!(area("1/0AWG"), area("0 AWG"));
}

/// Source: a service manual's conversion chart (read) prints these pairs side by side; the areas
/// are computed by ASTM B258.
#[test]
fn some_nominal_pairs_go_down_in_area() {
    let down: Vec<String> = NOMINAL_PAIRS
        .iter()
        .filter(|(mm2, awg)| area(&format!("{awg} AWG")) < *mm2)
        .map(|(mm2, awg)| format!("{mm2} to {awg}"))
        .collect();
    assert_eq!(down, ["0.35 to 22", "35 to 2"]);
}

/// Source: computed by ASTM B258: 22 AWG for 0.35 mm², 0.75 mm² and 0.8 mm² for 18 AWG.
#[test]
fn changes_of_area_are_told_in_per_cent() {
    for (new, old, per_cent, places) in
        [("22AWG", "0.35", "-6.99", 2), ("0.75", "18AWG", "-8.9", 1), ("0.8", "18AWG", "-2.8", 1)]
    {
        let [new, old] = [new, old].map(|typed| typed.parse::<Gauge>().unwrap());
        assert_eq!(format!("{:.places$}", new.change_percent_from(&old)), per_cent, "{new} for {old}");
    }
}
