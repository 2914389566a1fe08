//! Both faces of connectors against published drawings and coordinates: mirrored, never turned.

use crate::show;

use show::{Face, assert_at, document, face, rows};

/// Source: kicad-footprints 6.0.11 (Debian), DSUB-9_Male_Vertical and DSUB-9_Female_Vertical,
/// P2.77x2.84mm, seen from the component side (read; that this is the mating face is a judgement).
#[test]
fn de_9_contacts_are_where_the_footprints_have_them_and_the_socket_is_the_mirror() {
    let (pin, socket) = (face(&["de-9-pin"]), face(&["de-9-socket"]));
    for n in 1..=9_i32 {
        let (x, y) = match n {
            1..=5 => (2.77 * f64::from(n - 1), 0.0),
            _ => (1.385 + 2.77 * f64::from(n - 6), 2.84),
        };
        assert_at(&pin, &n.to_string(), x, y);
        assert_at(&socket, &n.to_string(), -x, y);
    }
}

/// Source: kicad-footprints 6.0.11 (Debian), DSUB-15_Male_Vertical and DSUB-15_Female_Vertical,
/// P2.77x2.84mm (read).
#[test]
fn da_15_contacts_are_where_the_footprints_have_them_on_both_faces() {
    let pin = face(&["da-15-pin", "--face", "mating"]);
    let pin_from_behind = face(&["da-15-pin", "--face", "wire"]);
    let socket = face(&["da-15-socket", "--face", "mating"]);
    let published =
        [("1", 0.0, 0.0), ("2", 2.77, 0.0), ("8", 19.39, 0.0), ("9", 1.385, 2.84), ("15", 18.005, 2.84)];
    for (label, x, y) in published {
        assert_at(&pin, label, x, y);
        assert_at(&socket, label, -x, y);
        assert_at(&pin_from_behind, label, -x, y);
    }
    assert_eq!(document(&["da-15-pin"])["pitch"], 2.77);
}

/// Source: jwenet.net/notebook/2004/1020.html and sput.nl/hardware/data-cables.html (read): the pin
/// face reads 1 to 5 over 6 to 9, the socket face 5 to 1 over 9 to 6; a tutorial (read): the solder
/// side of a socket reads like the mating face of the pins.
#[test]
fn the_solder_side_of_a_de_9_socket_reads_like_the_mating_face_of_the_pins() {
    let pins = face(&["de-9-pin", "--face", "mating"]);
    assert_eq!(rows(&pins), [vec!["1", "2", "3", "4", "5"], vec!["6", "7", "8", "9"]]);
    let socket = face(&["de-9-socket", "--face", "mating"]);
    assert_eq!(rows(&socket), [vec!["5", "4", "3", "2", "1"], vec!["9", "8", "7", "6"]]);
    assert_eq!(rows(&face(&["de-9-socket", "--face", "wire"])), rows(&pins));
}

fn cross(face: &Face, origin: &str, one: &str, other: &str) -> f64 {
    let [o, a, b] = [origin, one, other].map(|label| &face[label]);
    (a.x - o.x) * (b.y - o.y) - (a.y - o.y) * (b.x - o.x)
}

/// Source: kicad-footprints 6.0.11 and pcb-common 4.2.2 (Debian): DE-9, 2 x 8 pin header, IDC box
/// header and DIP-16 footprints (read); the areas are computed from their coordinates, y downwards.
#[test]
fn the_handedness_of_faces_is_that_of_the_footprints_however_they_are_turned() {
    for up in ["top", "right", "bottom", "left"] {
        let area = |housing: &str, [o, a, b]: [&str; 3]| cross(&face(&[housing, "--up", up]), o, a, b);
        assert!((area("de-9-pin", ["1", "5", "6"]) - 31.467).abs() < 0.01, "{up}");
        assert!((area("de-9-socket", ["1", "5", "6"]) + 31.467).abs() < 0.01, "{up}");
        assert!((area("box-header-16", ["1", "15", "2"]) + 45.161).abs() < 0.01, "{up}");
        assert!(area("dip-16-outline", ["1", "8", "16"]) < 0.0, "{up}");
    }
    let header_from_behind = face(&["box-header-16", "--face", "wire"]);
    assert!((cross(&header_from_behind, "1", "15", "2") - 45.161).abs() < 0.01);
}

/// Source: everets.org/kevin/netcable.txt and stason.org/TULARC/pc/networking_cabling.html (read):
/// latch down, the front of the plug reads 8 to 1 and the jack reads 1 to 8.
#[test]
fn an_8_way_plug_reads_8_to_1_and_its_jack_1_to_8_with_the_latch_down() {
    let order = |housing: &str| {
        let document = document(&[housing, "--face", "mating", "--up", "top"]);
        assert_eq!(document["up"]["side"], "top");
        rows(&face(&[housing, "--face", "mating", "--up", "top"])).concat().join("")
    };
    assert_eq!([order("iec-60603-7-plug"), order("iec-60603-7-jack")], ["87654321", "12345678"]);
    let latch_up = document(&["iec-60603-7-plug", "--up", "latch"]);
    assert_eq!(latch_up["up"]["feature"], "latch");
    assert_eq!(rows(&face(&["iec-60603-7-plug", "--up", "latch"])).concat().join(""), "12345678");
}

/// Source: tickerdossier.com/wiki/din-connector (read): contacts 45 degrees apart on a circle of
/// 7.0 mm; pins upward, from right to left 1-4-2-5-3 on the pin face, from left to right on the
/// socket face. The coordinates are computed for a radius of 3.5 mm.
#[test]
fn din_5_way_contacts_lie_out_of_sequence_on_their_circle() {
    let left_to_right = |face: &Face| {
        let mut labels: Vec<&String> = face.keys().collect();
        labels.sort_by(|a, b| face[*a].x.total_cmp(&face[*b].x));
        labels.into_iter().map(String::as_str).collect::<String>()
    };
    let (pin, socket) = (face(&["din-5-180-pin"]), face(&["din-5-180-socket"]));
    assert_eq!([left_to_right(&pin), left_to_right(&socket)], ["35241", "14253"]);
    let published =
        [("1", 3.5, 0.0), ("4", 2.475, -2.475), ("2", 0.0, -3.5), ("5", -2.475, -2.475), ("3", -3.5, 0.0)];
    for (label, x, y) in published {
        assert_at(&pin, label, x, y);
        assert_at(&socket, label, -x, y);
        assert_eq!((pin[label].row, pin[label].column), (None, None));
    }
}

/// Source: IEC 61076-2-101, A-coding (from memory): the socket face is the mirror of the pin face
/// about the key's axis. Absolute angles are not held against anything.
#[test]
fn the_m12_socket_is_the_mirror_of_the_pins_about_the_key() {
    let (pin, socket) = (face(&["m12-a5-pin"]), face(&["m12-a5-socket"]));
    for (label, shown) in &pin {
        assert_at(&socket, label, -shown.x, shown.y);
    }
    assert_at(&pin, "5", 0.0, 0.0);
    for (label, behind) in face(&["m12-a5-pin", "--face", "wire"]) {
        assert_at(&socket, &label, behind.x, behind.y);
    }
}
