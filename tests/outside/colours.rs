//! Wire colours against published codes and core lists.

use repin::colour::{CODES, Colour};

fn colour(typed: &str) -> Colour {
    typed.parse().unwrap_or_else(|problem| panic!("{problem}"))
}

/// Source: IEC 60757:1983 through the identical GOST 28763-90 (read).
#[test]
fn the_codes_of_iec_60757_stand_for_their_colours_in_table_order() {
    let table = [
        ("BK", "black"),
        ("BN", "brown"),
        ("RD", "red"),
        ("OG", "orange"),
        ("YE", "yellow"),
        ("GN", "green"),
        ("BU", "blue"),
        ("VT", "violet"),
        ("GY", "grey"),
        ("WH", "white"),
        ("PK", "pink"),
        ("GD", "gold"),
        ("TQ", "turquoise"),
        ("SR", "silver"),
    ];
    let ours: Vec<(&str, &str)> = CODES.iter().map(|(_, letters, word)| (*letters, *word)).collect();
    assert_eq!(ours, table);
    for (letters, word) in table {
        assert_eq!(colour(letters).words(), word);
        assert_eq!(colour(&letters.to_lowercase()), colour(letters), "lower case means the same");
    }
    assert_eq!(colour("GNYE").words(), "green with yellow");
}

/// Source: DIN 47100 (read at en.wikipedia.org/wiki/DIN_47100): base first, the second colour is
/// the ring. DIFFERS from the table order of IEC 60757 on purpose: it would write 13 as GNWH.
#[test]
fn the_cores_of_din_47100_keep_base_and_ring_in_order() {
    let cores = [
        "WH", "BN", "GN", "YE", "GY", "PK", "BU", "RD", "BK", "VT", "GYPK", "RDBU", "WHGN", "BNGN", "WHYE",
        "YEBN", "WHGY", "GYBN", "WHPK", "PKBN", "WHBU", "BNBU", "WHRD", "BNRD", "WHBK", "BNBK", "GYGN",
        "YEGY", "PKGN", "YEPK", "GNBU", "YEBU", "GNRD", "YERD", "GNBK", "YEBK", "GYBU", "PKBU", "GYRD",
        "PKRD", "GYBK", "PKBK", "BUBK", "RDBK",
    ];
    let mut known: Vec<Colour> = Vec::new();
    for core in cores {
        let read = colour(core);
        assert_eq!(read.to_string().replace('/', ""), core);
        assert!(!known.contains(&read), "{core} is taken for another core");
        known.push(read);
    }
    assert_eq!(known[12].words(), "white with green");
    assert_eq!(colour("WHBNBK").stripes().len(), 2);
}

/// Source: DIN 72551 designation FLRY-1.5-A-BKWHYE in a cable specification (read): base black,
/// first mark white, second mark yellow; a service manual (read) writes RD/BU.
#[test]
fn vehicle_notation_is_base_first_then_the_marks_in_order() {
    assert_eq!(colour("BKWHYE").words(), "black with white and yellow");
    assert_eq!(colour("RD/BU").words(), "red with blue");
    for typed in ["bk/wh/ye", "BK-WH-YE", "bk wh ye", " BKWH/YE "] {
        assert_eq!(colour(typed).to_string(), "BK/WH/YE", "{typed}");
    }
}
