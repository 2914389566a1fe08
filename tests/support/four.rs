//! Four sealed cavities in a row and their wires, set up to be repaired.

use repin::{
    catalogue::Catalogue,
    shop_rules::{Rule, ShopRules},
};

use crate::support::Bench;

/// Four sealed cavities in a row; terminals in tin and in gold, and a male one of the same size.
pub const FAMILY: &str = r#"(
    format: 1, id: "bench-four", title: "Bench four", source: Invented,
    terminals: [
        (part: "B4-T", size: "1.5", gender: Female, plating: "tin", wire_mm2: (0.5, 1.0),
         insulation_mm: (1.4, 2.1), strip_mm: 4.5, used_mm: 12, held_by: Tang, released_from: Rear, seating: Push,
         crimps: [(wire_mm2: 0.5, height_mm: 1.12, tolerance_mm: 0.05, origin: "invented")]),
        (part: "B4-TG", size: "1.5", gender: Female, plating: "gold", wire_mm2: (0.5, 1.0),
         insulation_mm: (1.4, 2.1), strip_mm: 4.5, used_mm: 12, held_by: Tang, released_from: Rear, seating: Push),
        (part: "B4-M", size: "1.5", gender: Male, plating: "tin", wire_mm2: (0.5, 1.0),
         insulation_mm: (1.4, 2.1), strip_mm: 4.5, used_mm: 12, held_by: Tang, released_from: Rear, seating: Push),
    ],
    wire_seals: [(part: "B4-S", size: "1.5", insulation_mm: (1.4, 2.1), colour: "green")],
    plugs: [(part: "B4-P", size: "1.5", colour: "white")],
    housings: [
        (id: "b4", part: "B4", title: "four", gender: Female, sealing: Individual, drawn: Wire,
         features: [("latch", Top)], layout: Grid(rows: 1, columns: 4, pitch_mm: (5, 5)),
         size: "1.5", tangs: [(Top, ["1..4"])]),
    ],
)"#;

pub const WIRES: [&str; 4] = [
    r#"(number:"W1",colour:"RD",gauge:"0.5",insulation_class:B,outside_diameter:"1.6 mm",slack:"60 mm",damage:"30 mm")"#,
    r#"(number:"W2",colour:"BK",gauge:"0.5",twisted_with:"3",damage:"30 mm")"#,
    r#"(number:"W3",colour:"GN",gauge:"0.5",twisted_with:"2",damage:"30 mm")"#,
    r#"(number:"W4",colour:"BU",gauge:"0.35",insulation_class:B)"#,
];

pub const QUALIFIED: &str = r#"book:Qualified(mean_mm:1.12,samples:5,until:"2027-03-31")"#;

/// What a whole order says; sleeve 35, inside 18, slack 25.
pub const ORDER: &str = r#"other_colour:false,strands:"fine strands",insulation:"cross-linked",insulation_class:B,wall:Thin,outside_diameter:"1.6 mm",inside:"18 mm",slack:"25 mm",sleeve:"35 mm",splice:"windowed barrel",splice_included:true,other_end:Stripped("8 mm"),crimp_record:true"#;

pub fn rules() -> ShopRules {
    ShopRules { clearance_mm: Rule::new(40.0, "service manual"), ..ShopRules::default() }
}

/// Set up on the sealed four with these wires, nothing moved.
pub fn ready_with(rules: ShopRules, wires: &[&str]) -> Bench {
    let library = vec![("bench-four.ron".to_owned(), FAMILY.to_owned())];
    let mut bench = Bench::from(&Catalogue::built_in().with_library(library), "b4", "b4", rules);
    bench.passes_the_gates();
    bench.does(r#"View(housing:"old",face:Wire,up:"latch")"#);
    bench.does(r#"View(housing:"new",face:Wire,up:"latch")"#);
    for (n, wire) in (1..).zip(wires) {
        bench.does(&format!(
            r#"Recorded(side:Found,at:"old:{n}",holds:Wired(wires:[{wire}],terminal:"B4-T"))"#
        ));
    }
    bench.does("RecordFinished(side:Found)");
    bench.proves_and_compares();
    bench.does("MapConfirmed(source:SameLabels)");
    bench
}

pub fn ready() -> Bench {
    ready_with(rules(), &WIRES)
}

/// The first two leads with their orders; the pair with a splice each.
pub fn ordered(behind: &str) -> Bench {
    let mut bench = ready();
    bench.does(&format!(r#"Behind(housing:"old",behind:({behind}))"#));
    bench.does(&format!(
        r#"Planned(lead:"old:1",how:RepairLead,reason:"nicked",part:"B4-T",order:({ORDER}))"#
    ));
    for n in [2, 3] {
        bench.does(&format!(
            r#"Planned(lead:"old:{n}",how:RepairLead,reason:"nicked",part:"B4-T",order:({ORDER},twist:(lay:"25 mm",hand:Right)))"#
        ));
    }
    bench
}

/// The first lead alone with its order.
pub fn ordered_one() -> Bench {
    let mut bench = ready();
    bench.does(r#"Behind(housing:"old",behind:(last:"700 mm"))"#);
    bench.does(&format!(
        r#"Planned(lead:"old:1",how:RepairLead,reason:"nicked",part:"B4-T",order:({ORDER}))"#
    ));
    bench
}

pub fn spliced(bench: &mut Bench, lead: u32, colour: &str, start: &str) -> String {
    bench.does(&format!(r#"Extract(from:"old:{lead}",colour:"{colour}",freely:true,seal:On)"#));
    bench.does("Inspect(verdict:Needs(RepairLead),found:InsulationUnderSeal)");
    format!(
        r#"Repair(lead:"old:{lead}",how:RepairLead,done:"joined",part:"B4-T",splice:(start:"{start}",sleeve:"35 mm",sound:true,untwisted:"20 mm"))"#
    )
}

pub fn into_its_hole(bench: &mut Bench, lead: u32) {
    bench.does("Inspect(verdict:Good)");
    bench.does(&format!(r#"Insert(into:"new:{lead}",click:true)"#));
    bench.does(&format!(r#"Tug(at:"new:{lead}",held:true)"#));
}
