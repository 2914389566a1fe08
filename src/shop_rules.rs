//! The house rules: every limit a shop may change, each with where it comes from.

use std::fmt;

use crate::quantity::Gauge;

/// A limit with its source.
#[derive(Debug, Clone, PartialEq)]
pub struct Rule<T> {
    /// The limit.
    pub value: T,
    /// Where it comes from.
    pub source: String,
}

impl<T> Rule<T> {
    /// A limit and its source.
    pub fn new(value: T, source: &str) -> Self {
        Self { value, source: source.to_owned() }
    }
}

/// What is done with a cavity in which nothing belongs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum UnusedCavities {
    /// Left empty.
    Leave,
    /// A plug goes in.
    Plug,
    /// A spare terminal goes in, and a plug behind it.
    SpareAndPlug,
}

/// How many spare contacts go with a connector of so many: FAA AC 43.13-1B par. 11-234 (read).
pub fn spare_contacts(contacts: usize) -> u32 {
    match contacts {
        0..=25 => 2,
        26..=100 => 4,
        _ => 6,
    }
}

/// A test of the finished connector.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum TestKind {
    /// End to end, each circuit.
    Continuity,
    /// No continuity to neighbours, ground and supply.
    Neighbours,
    /// Voltage drop under load.
    Drop,
    /// Both wires of a pair, and from one to the other.
    Pair,
    /// Insulation resistance.
    Insulation,
    /// The function of the machine.
    Function,
}

impl fmt::Display for TestKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Continuity => "continuity end to end",
            Self::Neighbours => "no continuity to neighbours, ground and supply",
            Self::Drop => "voltage drop under load",
            Self::Pair => "pair",
            Self::Insulation => "insulation resistance",
            Self::Function => "function of the machine",
        })
    }
}

/// How many of a part are asked for beyond the need.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Spares {
    /// Plugs of each size.
    pub plugs: u32,
    /// Wire seals of each size.
    pub wire_seals: u32,
    /// Small terminals: at least this many…
    pub terminals_least: u32,
    /// …or this share of the need in per cent, whichever is more.
    pub terminals_percent: u32,
    /// Terminals of a size above 1.5.
    pub terminals_large: u32,
    /// Splices with their sleeves, of each kind.
    pub splices: u32,
    /// Sample terminals when the tool's position has to be qualified first.
    pub samples: u32,
}

/// Whether a soldered joint may be made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Solder {
    /// No: solder wicks up the wire, and it breaks where the solder ends.
    Never,
    /// Yes, with the reason on record.
    WithReason,
}

/// A standard with a table of least pull forces.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PullStandard {
    /// SAE AS7928, table II (was MIL-T-7928).
    SaeAs7928,
    /// IEC 60352-2.
    Iec60352,
    /// UL 486C.
    Ul486c,
}

/// The rules of a shop.
#[derive(Debug, Clone, PartialEq)]
pub struct ShopRules {
    /// Cavities in which nothing belongs, in a sealed housing.
    pub unused_sealed: Rule<UnusedCavities>,
    /// Cavities in which nothing belongs, in an unsealed housing.
    pub unused_unsealed: Rule<UnusedCavities>,
    /// Spares asked for.
    pub spares: Rule<Spares>,
    /// After this many hours without an entry, gates and the resume check are asked again.
    pub pause_h: Rule<u32>,
    /// A re-read is asked after this many moves.
    pub reread_every_moves: Rule<u32>,
    /// Which tests a closing needs.
    pub tests: Rule<Vec<TestKind>>,
    /// The insertion into one sealed cavity from which its seal counts as worn.
    pub seal_worn_at: Rule<u32>,
    /// Openings of a secondary lock from which it counts as worn.
    pub lock_worn_at: Rule<u32>,
    /// No splice starts nearer behind a housing than this, in mm.
    pub clearance_mm: Rule<f64>,
    /// No splice comes nearer to a branch than this, in mm.
    pub branch_clearance_mm: Rule<f64>,
    /// Between two splices of a bundle, edge to edge, in mm.
    pub splice_gap_mm: Rule<f64>,
    /// The same beside a twisted or shielded wire, in mm.
    pub splice_gap_twisted_mm: Rule<f64>,
    /// Sound wire past the damage, in mm.
    pub damage_margin_mm: Rule<f64>,
    /// So many spliced wires in one bundle; beyond that the branch is replaced.
    pub most_splices: Rule<u32>,
    /// More repair leads than one in so many wires: think of replacing the branch.
    pub leads_one_in: Rule<u32>,
    /// How much less copper is let pass, in per cent of area (negative).
    pub least_gauge_percent: Rule<f64>,
    /// Pairs (old, new) that pass although the new one has less copper than that.
    pub approved_pairs: Rule<Vec<(Gauge, Gauge)>>,
    /// Untwisted length of a pair at a splice, in mm.
    pub untwisted_mm: Rule<f64>,
    /// Solder.
    pub solder: Rule<Solder>,
    /// Voltage drop of the circuit, in per cent of the supply.
    pub drop_percent: Rule<f64>,
    /// The same on main feeds, electronics and lights that must not fail.
    pub drop_critical_percent: Rule<f64>,
    /// Whose least pull forces hold where a terminal's sheet names none.
    pub pull_standard: Rule<PullStandard>,
}

impl Default for ShopRules {
    /// The rules built in.
    fn default() -> Self {
        let practice = "common practice, no source";
        Self {
            unused_sealed: Rule::new(UnusedCavities::Plug, practice),
            unused_unsealed: Rule::new(UnusedCavities::Leave, practice),
            spares: Rule::new(
                Spares {
                    plugs: 2,
                    wire_seals: 2,
                    terminals_least: 2,
                    terminals_percent: 50,
                    terminals_large: 1,
                    splices: 1,
                    samples: 5,
                },
                practice,
            ),
            pause_h: Rule::new(8, practice),
            reread_every_moves: Rule::new(10, practice),
            tests: Rule::new(vec![TestKind::Continuity, TestKind::Neighbours], practice),
            seal_worn_at: Rule::new(3, practice),
            lock_worn_at: Rule::new(3, practice),
            clearance_mm: Rule::new(
                152.4,
                "6 in; common practice, no source (service manuals: 40 mm; aircraft: 305 mm)",
            ),
            branch_clearance_mm: Rule::new(40.0, practice),
            splice_gap_mm: Rule::new(40.0, "service manuals; common practice, no source"),
            splice_gap_twisted_mm: Rule::new(65.0, "service manuals; common practice, no source"),
            damage_margin_mm: Rule::new(15.0, practice),
            most_splices: Rule::new(6, practice),
            leads_one_in: Rule::new(3, practice),
            least_gauge_percent: Rule::new(-7.0, practice),
            approved_pairs: Rule::new(Vec::new(), practice),
            untwisted_mm: Rule::new(50.0, "bus wiring practice, from memory"),
            solder: Rule::new(Solder::Never, practice),
            drop_percent: Rule::new(10.0, "boat-wiring standard as quoted, other loads"),
            drop_critical_percent: Rule::new(3.0, "boat-wiring standard as quoted, critical feeds"),
            pull_standard: Rule::new(PullStandard::Iec60352, practice),
        }
    }
}
