//! Failures of the trade's list of eighty (common practice, no source) that need a housing or a job of
//! their own to be committed: two numberings mixed, a terminal released from the other face, a plug
//! that is forgotten.

use repin::{
    form::Catalogue,
    job::{Code, Verdict},
    report::flag_words,
    screen::{Palette, Theme},
    shop_rules::ShopRules,
};

use crate::{
    desk::Desk,
    support::{Bench, demo_acts},
};

/// Two rows of three, numbered row by row on the housing and column by column on the diagram; terminals
/// of one size that are released from different faces.
const FAMILY: &str = r#"(
    format: 1, id: "mixed", title: "Mixed", source: Invented,
    terminals: [
        (part: "MX-R", size: "1.5", gender: Female, plating: "tin", wire_mm2: (0.5, 1.0),
         insulation_mm: (1.4, 2.1), held_by: Tang, released_from: Rear, seating: Push),
        (part: "MX-F", size: "1.5", gender: Female, plating: "tin", wire_mm2: (0.5, 1.0),
         insulation_mm: (1.4, 2.1), held_by: Tang, released_from: Front, seating: Push),
    ],
    housings: [
        (id: "mx-6", part: "MX-6", title: "six", gender: Female, sealing: Unsealed, drawn: Wire,
         features: [("latch", Top)], layout: Grid(rows: 2, columns: 3, pitch_mm: (5, 5)), size: "1.5",
         also: [("diagram", {"1": "1", "2": "3", "3": "5", "4": "2", "5": "4", "6": "6"})]),
    ],
)"#;

/// What sits at each moulded mark.
const TRUTH: [&str; 6] = ["RD", "BK", "GN", "BU", "VT", "WH"];

/// Set up with what was recorded at each mark, and its terminal where one is named.
fn recorded(colours: [&str; 6], terminal: &str) -> Bench {
    let catalogue = Catalogue::built_in().with_library(vec![("mixed.ron".to_owned(), FAMILY.to_owned())]);
    let mut bench = Bench::from(&catalogue, "mx-6", "mx-6", ShopRules::default());
    bench.passes_the_gates();
    for housing in ["old", "new"] {
        bench.does(&format!(r#"View(housing:"{housing}",face:Wire,up:"latch")"#));
    }
    for (n, colour) in (1..).zip(colours) {
        bench.does(&format!(
            r#"Recorded(side:Found,at:"old:{n}",holds:Wired(wires:[(number:"W{n}",colour:"{colour}",gauge:"0.5")]{terminal}))"#
        ));
    }
    bench.does("RecordFinished(side:Found)");
    bench
}

fn compared(bench: &mut Bench) {
    for question in ["Key", "Latch", "Gender"] {
        bench.does(&format!("Compared(question:{question},answer:Fits,mating_half:true)"));
    }
    bench.does("MapConfirmed(source:SameLabels)");
}

#[test]
fn f03_the_numbers_of_the_diagram_are_not_the_marks_on_the_housing() {
    // Moulded 2 is 3 on the diagram, and so on: what is read by the diagram stands at other marks.
    let by_diagram = ["RD", "BU", "BK", "VT", "GN", "WH"];
    let mut bench = recorded(TRUTH, "");
    // At the second place of the first row the mark is 2; the diagram calls it 3.
    bench.does(r#"Anchor(housing:"old",place:"row 1, 2 from left",colour:"BK",mark:"3")"#);
    bench.flagged(Code::AnchorFailed);
    bench.does(r#"Anchor(housing:"old",place:"row 1, 2 from left",colour:"BK",mark:"2")"#);
    bench.not_flagged(Code::AnchorFailed);
    let mut wrong = recorded(by_diagram, "");
    wrong.does(r#"Anchor(housing:"old",place:"row 1, 2 from left",colour:"BK",mark:"2")"#);
    wrong.flagged(Code::AnchorFailed);
    // Past the anchors by chance, the colour seen is not the one on record.
    let mut wrong = recorded(by_diagram, "");
    compared(&mut wrong);
    wrong.proves_the_views();
    let out = r#"Extract(from:"old:2",colour:"BK",freely:true,seal:None)"#;
    assert!(wrong.impossible(out).contains("You see BK"));
    // And where no colour was keyed, the re-read finds it.
    wrong.does(r#"Extract(from:"old:2",colour:"BU",freely:true,seal:None)"#);
    wrong.does_all(&[
        "Inspect(verdict:Good)",
        r#"Insert(into:"new:2",click:true)"#,
        r#"Tug(at:"new:2",held:true)"#,
    ]);
    wrong.does(r#"ReRead(at:"new:2",colour:"BK")"#);
    wrong.flagged(Code::WrongCavity);
    // The other number is shown beside the mark.
    let also = wrong.job.state().housings.all[0].housing().also_called(&"2".parse().unwrap());
    assert!(also.contains("diagram") && also.contains('3'), "{also}");
}

#[test]
fn f24_the_release_face_is_that_of_the_terminal_on_the_wire() {
    let told = |terminal: &str| {
        let mut bench = recorded(TRUTH, terminal);
        bench.does_all(&[r#"Photo(number:"1",shows:"both faces")"#, r#"Cause(text:"crushed")"#]);
        compared(&mut bench);
        bench.proves_the_views();
        let mut desk = Desk::at(bench);
        let picture = desk.picture(120, 40, Theme { palette: Palette::None, ascii: true });
        picture.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let rear = told(r#",terminal:"MX-R""#);
    assert!(rear.contains("release from the rear") && !rear.contains("from the front"), "{rear}");
    let front = told(r#",terminal:"MX-F""#);
    assert!(front.contains("release from the front") && !front.contains("from the rear"), "{front}");
    // Where nobody knows which it is, it is looked at and not guessed.
    let unknown = told("");
    assert!(unknown.contains("LOOK whether its tang is released from the front or the rear"), "{unknown}");
}

#[test]
fn f42_a_plug_that_is_forgotten_is_counted_and_keeps_the_connector_open() {
    let mut bench = Bench::new("sp-16", "sp-16");
    for act in demo_acts("spudrow-twin.acts") {
        if act.contains(r#""new:14""#) || act.contains(r#"TakePlug(from:"old:14""#) || act.starts_with("Sign")
        {
            continue;
        }
        match bench.asks(&act) {
            Verdict::Against(_) => {
                bench.insists(&act);
            }
            _ => bench.does(&act),
        }
    }
    let account = bench.job.account(bench.now);
    let left = account.open_flags().find(|flag| flag.code() == Code::NotFinished).unwrap();
    let left = flag_words(left);
    assert!(left.say.contains("no wire and 1 plug still to move"), "{}", left.say);
    assert_eq!((account.cavities.open, account.plugs.old), (1, 1));
    // Its row was counted as full, and is not.
    bench.flagged(Code::RowCount);
    assert!(bench.impossible(r#"Sign(name:"K. Tanner",serial_end:"72")"#).contains("open"));
    // Said to be gone, the hole is named.
    bench.does(r#"LeftInOld(at:"old:14",reason:"torn in its hole")"#);
    let account = bench.job.account(bench.now);
    assert_ne!(account.state.as_str(), "closed");
    assert!(
        account.open_flags().any(|flag| flag.code() == Code::NotFinished || flag.code() == Code::PlugMissing)
    );
}
