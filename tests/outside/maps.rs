//! Maps and re-pinning against published ones: whole jobs, walked by a technician who makes no
//! mistake, to the state the publication asks for.

use crate::{cli, walk};

use std::collections::BTreeMap;

use cli::Shop;
use serde_json::{Value, json};
use walk::walk;

fn write(shop: &Shop, name: &str, text: &str) -> String {
    let path = shop.path(name);
    std::fs::write(&path, text).unwrap();
    path.to_str().unwrap().to_owned()
}

/// From where to where each wire goes, by the steps.
fn moves(shop: &Shop, job: &str) -> BTreeMap<String, String> {
    let steps = shop.json(&["steps", job]);
    let moves = steps["steps"].as_array().unwrap().iter().filter(|s| s["do"] == "move-wire");
    let text = |v: &Value| v.as_str().unwrap_or("-").to_owned();
    moves.map(|s| (text(&s["from"]), text(&s["to"]))).collect()
}

/// Functions as the three standards name them (read), the grounds by what they serve: a published map
/// follows from them alone.
const TWELVE_N: &str = "contact,function,colour,mm2
1,left indicator,yellow,1.5
2,rear fog,blue,1.5
3,ground of the lamps,white,2.5
4,right indicator,green,1.5
5,right tail,brown,1.5
6,stop,red,1.5
7,left tail,black,1.5
";
const TWELVE_S: &str = "contact,function,colour,mm2
1,reversing lamp,yellow,1.5
2,not used,,
3,ground of the permanent supply,white,2.5
4,permanent supply,green,2.5
5,not used,,
6,ignition supply,red,2.5
7,ground of the ignition supply,black,2.5
";

/// ISO 11446 by function; its colours differ between editions and are left open.
const THIRTEEN: &str = "contact,function,mm2
1,left indicator,1.5
2,rear fog,1.5
3,ground of the lamps,2.5
4,right indicator,1.5
5,right tail,1.5
6,stop,1.5
7,left tail,1.5
8,reversing lamp,1.5
9,permanent supply,2.5
10,ignition supply,2.5
11,ground of the ignition supply,2.5
12,not used,
13,ground of the permanent supply,2.5
";

/// Source: a connector maker's allocation table for ISO 1724 (12N) and ISO 3732 (12S) into ISO 11446
/// (read; address withheld); functions agree with the public summaries of the three standards.
#[test]
fn twelve_wires_of_two_trailer_sockets_go_into_one_of_thirteen() {
    let shop = Shop::new();
    let (n, s) = (write(&shop, "12n.csv", TWELVE_N), write(&shop, "12s.csv", TWELVE_S));
    let published = [
        ("12s:1", "new:8"),
        ("12s:4", "new:9"),
        ("12s:6", "new:10"),
        ("12s:7", "new:11"),
        ("12s:3", "new:13"),
    ];
    let mut pairs: Vec<(String, String)> =
        (1..=7).map(|contact| (format!("12n:{contact}"), format!("new:{contact}"))).collect();
    pairs.extend(published.map(|(from, to)| (from.to_owned(), to.to_owned())));
    let listed: Vec<String> = pairs.iter().map(|(from, to)| format!("({from:?}, {to:?})")).collect();
    let map = write(&shop, "map.ron", &format!("(format: 1, map: [{}])", listed.join(", ")));
    let thirteen = write(&shop, "thirteen.csv", THIRTEEN);
    let (n, s) = (format!("12n={n}"), format!("12s={s}"));
    let start = |job: &str, more: &[&str]| {
        let sockets = ["--old", "12n=iso-1724", "--old", "12s=iso-3732", "--new", "iso-11446"];
        let run = shop.run(&[&["new", job], &sockets[..], &["--found", &n, "--found", &s], more].concat());
        assert_eq!(run.code, 0, "{run:?}");
    };
    start("trailer", &["--map", &map, "--serial", "TRL-13"]);
    walk(&shop, "trailer");
    let account = shop.json(&["check", "trailer"]);
    assert_eq!((&account["state"], &account["wires"]["new"]), (&json!("closed"), &json!(12)));
    let cavities = &account["cavities"];
    let bare = cavities["open"].as_u64().unwrap() + cavities["empty"].as_u64().unwrap();
    assert_eq!((&cavities["total"], &cavities["wired"], bare), (&json!(13), &json!(12), 1));
    // A map that only keeps the order of the contacts is put right by the functions of both sides: the
    // published permutation is not monotone, and colours repeat over the two old housings, so that
    // neither order nor colour decides.
    let kept = [("12s:1", 8), ("12s:3", 9), ("12s:4", 10), ("12s:6", 11), ("12s:7", 13)];
    let mut in_order: Vec<String> = (1..=7).map(|n| format!("(\"12n:{n}\", \"new:{n}\")")).collect();
    in_order.extend(kept.map(|(from, to)| format!("({from:?}, \"new:{to}\")")));
    let in_order = write(&shop, "order.ron", &format!("(format: 1, map: [{}])", in_order.join(", ")));
    let drawn = ["--map", &in_order, "--should", &thirteen, "--should-labels", "new", "--serial", "TRL-13"];
    start("by-function", &drawn);
    walk::walk_until(&shop, "by-function", |step| matches!(step, repin::job::Task::MoveWire { .. }));
    assert_eq!(moves(&shop, "by-function"), pairs.into_iter().collect());
    // Without a map there is nothing to go by: no source gives every wire a place.
    start("unmapped", &[]);
    let acts = "RecordFinished(side:Found)\nMapConfirmed(source:SameLabels)";
    let run = shop.run_with(&["enter", "unmapped"], acts, &[]);
    assert!(run.code == 1 && run.err.contains("has no place on the new side"), "{run:?}");
}

/// Source: TIA-568 pin assignments A and B (read at everets.org/kevin/netcable.txt and
/// stason.org/TULARC/pc/networking_cabling.html): from A to B is exactly (1 3)(2 6).
#[test]
fn from_t568a_to_t568b_four_wires_change_place() {
    let shop = Shop::new();
    let pairs = |list: &[&str]| -> String {
        let rows = list.iter().enumerate().map(|(n, colour)| format!("{},{colour},24 AWG\n", n + 1));
        format!("pin,colour,gauge\n{}", rows.collect::<String>())
    };
    let a = ["white/green", "green", "white/orange", "blue", "white/blue", "orange", "white/brown", "brown"];
    let b = ["white/orange", "orange", "white/green", "blue", "white/blue", "green", "white/brown", "brown"];
    let (found, should) = (write(&shop, "a.csv", &pairs(&a)), write(&shop, "b.csv", &pairs(&b)));
    let jack = "iec-60603-7-jack";
    shop.new_job("patch", jack, jack, &["--found", &found, "--should", &should, "--serial", "568-AB"]);
    walk::walk_until(&shop, "patch", |step| matches!(step, repin::job::Task::MoveWire { .. }));
    let published =
        [("1", "3"), ("3", "1"), ("2", "6"), ("6", "2"), ("4", "4"), ("5", "5"), ("7", "7"), ("8", "8")];
    let expected: BTreeMap<String, String> =
        published.iter().map(|(from, to)| (format!("old:{from}"), format!("new:{to}"))).collect();
    assert_eq!(moves(&shop, "patch"), expected);
    walk(&shop, "patch");
    assert_eq!(shop.json(&["check", "patch"])["state"], "closed");
}

/// Source: SCSI-2 draft, table 4, contact sets 1 and 2 of 50 positions (conductors 1 to 38 read at
/// people.freebsd.org/~gibbs/scsi_spec.tar.gz, 40 to 50 computed by the same rule).
#[test]
fn the_two_numberings_of_fifty_positions_are_shown_beside_each_other() {
    let shop = Shop::new();
    let run = shop.run(&["housing", "show", "box-header-50"]);
    assert_eq!(run.code, 0, "{run:?}");
    let published =
        [(1, 1), (2, 26), (3, 2), (4, 27), (25, 13), (26, 38), (30, 40), (40, 45), (49, 25), (50, 50)];
    for (moulded, row_by_row) in published {
        assert!(run.out.contains(&format!(" {moulded}={row_by_row}")), "{moulded}: {}", run.out);
    }
    // For N = 2m: odd 2k-1 is k of the first row, even 2k is m+k of the second.
    for k in 1..=25 {
        assert!(
            run.out.contains(&format!(" {}={k}", 2 * k - 1))
                && run.out.contains(&format!(" {}={}", 2 * k, 25 + k))
        );
    }
}

/// Source: kicad-footprints 6.0.11 (Debian), DSUB-9 and DSUB-15, male and female vertical (read): the
/// faces of one gender are the mirror of the other's, so behind a socket the numbers stand as before
/// the pins.
#[test]
fn a_pin_and_a_socket_housing_are_mirror_pairs_and_map_by_position_from_behind() {
    let shop = Shop::new();
    for (pins, sockets, count) in [("de-9-pin", "de-9-socket", 9), ("da-15-pin", "da-15-socket", 15)] {
        let run = shop.run(&["new", pins, "--old", pins, "--new", sockets]);
        assert_eq!(run.code, 0, "{run:?}");
        assert!(run.out.contains("The old housing is male, the new one female"), "{run:?}");
        assert!(run.out.contains("numbers run the other way"), "{run:?}");
        let records: String = (1..=count)
            .map(|n| format!("Recorded(side:Found,at:\"old:{n}\",holds:Wired(wires:[(number:\"W{n}\",colour:\"?\",gauge:\"0.25\")]))\n"))
            .collect();
        let acts = format!("{records}RecordFinished(side:Found)\nMapConfirmed(source:Position)");
        let run = shop.run_with(&["enter", pins], &acts, &[]);
        assert_eq!(run.code, 0, "{run:?}");
        let first_row = count / 2 + 1;
        let mirrored = |n: usize| match n <= first_row {
            true => first_row + 1 - n,
            false => first_row + 1 + count - n,
        };
        let expected: BTreeMap<String, String> =
            (1..=count).map(|n| (format!("old:{n}"), format!("new:{}", mirrored(n)))).collect();
        assert_eq!(moves(&shop, pins), expected);
    }
}
