//! How the found record differs from the should record. Wires are matched by wire number, else by
//! circuit where that is unique in both, else by cavity, colour and area; what is left over is
//! matched by colour and area only where that is unique on both sides.

use std::collections::{BTreeMap, BTreeSet};

use super::{Address, Aspect, Difference, DifferenceKind, Record, Wire};
use crate::quantity::plain_words;

/// A wire of a record: where it is, its place in the lead from 1, and what was said of it.
type WireSpot<'a> = (&'a Address, usize, &'a Wire);

/// What a wire is recognised by in one pass of the matching.
type Marker<'m> = dyn Fn(&WireSpot<'_>) -> Option<String> + 'm;

/// The name of a wire, else what it looks like.
fn called(wire: &Wire) -> String {
    wire.name().map_or_else(|| format!("the {} {} wire", wire.colour, wire.gauge), ToOwned::to_owned)
}

fn wires(record: &Record) -> Vec<WireSpot<'_>> {
    let leads = record.iter().filter_map(|(at, holds)| holds.lead().map(|lead| (at, lead)));
    leads.flat_map(|(at, lead)| lead.wires.iter().enumerate().map(move |(i, w)| (at, i + 1, w))).collect()
}

/// Pairs the wires of both records, in passes from the surest mark to the weakest.
fn matched<'a>(found: &[WireSpot<'a>], should: &[WireSpot<'a>]) -> Vec<(usize, usize)> {
    let mut pairs = Vec::new();
    let (mut used_found, mut used_should) = (BTreeSet::new(), BTreeSet::new());
    let by_number = |(_, _, w): &WireSpot<'_>| w.number.clone();
    let by_circuit = |(_, _, w): &WireSpot<'_>| w.circuit.clone();
    let look = |w: &Wire| {
        let (colour, gauge) = (w.colour.known()?, w.gauge.known()?);
        Some(format!("{colour} {}", gauge.area_mm2()))
    };
    let by_place = |(at, _, w): &WireSpot<'_>| look(w).map(|look| format!("{at} {look}"));
    let by_look = |(_, _, w): &WireSpot<'_>| look(w);
    let passes: [&Marker<'_>; 4] = [&by_number, &by_circuit, &by_place, &by_look];
    for key in passes {
        let unique = |spots: &[WireSpot<'_>], used: &BTreeSet<usize>| {
            let mut seen: BTreeMap<String, Option<usize>> = BTreeMap::new();
            for (i, spot) in spots.iter().enumerate().filter(|(i, _)| !used.contains(i)) {
                if let Some(mark) = key(spot) {
                    seen.entry(mark).and_modify(|only| *only = None).or_insert(Some(i));
                }
            }
            seen
        };
        let (in_found, in_should) = (unique(found, &used_found), unique(should, &used_should));
        for (mark, i) in in_found {
            if let (Some(i), Some(Some(j))) = (i, in_should.get(&mark)) {
                let both = found.get(i).zip(should.get(*j));
                if both.is_some_and(|((at, _, one), (there, _, other))| at != there && are_others(one, other))
                {
                    continue;
                }
                used_found.insert(i);
                used_should.insert(*j);
                pairs.push((i, *j));
            }
        }
    }
    pairs
}

/// Whether two wires are known by names that differ: looks alone do not make them one.
fn are_others(one: &Wire, other: &Wire) -> bool {
    let differ = |a: &Option<String>, b: &Option<String>| {
        a.as_ref().zip(b.as_ref()).map(|(a, b)| plain_words(a) != plain_words(b))
    };
    let (by_number, by_circuit) = (differ(&one.number, &other.number), differ(&one.circuit, &other.circuit));
    by_number != Some(false) && by_circuit != Some(false) && (by_number.is_some() || by_circuit.is_some())
}

/// The drawn wire of every found one that has a counterpart: by cavity and place in the lead, from 1.
pub fn drawn_wires<'a>(found: &Record, should: &'a Record) -> BTreeMap<(Address, usize), &'a Wire> {
    let (found_wires, should_wires) = (wires(found), wires(should));
    let pairs = matched(&found_wires, &should_wires).into_iter();
    let drawn = pairs.filter_map(|(i, j)| {
        let (at, slot, _) = found_wires.get(i)?;
        let (_, _, meant) = should_wires.get(j)?;
        Some((((*at).clone(), *slot), *meant))
    });
    drawn.collect()
}

/// Every difference, by cavity. Cavities the should record says nothing about are not compared.
pub fn compare(found: &Record, should: &Record) -> Vec<Difference> {
    if should.is_empty() {
        return Vec::new();
    }
    let (found_wires, should_wires) = (wires(found), wires(should));
    let pairs = matched(&found_wires, &should_wires);
    let mut differences = Vec::new();
    // Cavities whose content is explained by a wire that is elsewhere, missing or extra.
    let mut explained: BTreeSet<&Address> = BTreeSet::new();
    let mut moved: Vec<Moved<'_>> = Vec::new();
    for &(i, j) in &pairs {
        let (Some(&(at, slot, wire)), Some(&(should_at, _, meant))) =
            (found_wires.get(i), should_wires.get(j))
        else {
            continue;
        };
        if at != should_at {
            explained.extend([at, should_at]);
            moved.push(Moved { at, slot, should_at, wire: called(wire) });
        }
        let aspects = described(wire, meant);
        if !aspects.is_empty() {
            let kind = DifferenceKind::Described { wire: called(wire), slot, aspects };
            differences.push(Difference { at: at.clone(), kind });
        }
    }
    differences.extend(moves(&moved));
    let unmatched = |n: usize, side: fn(&(usize, usize)) -> usize| !pairs.iter().any(|pair| side(pair) == n);
    for (_, &(at, slot, wire)) in should_wires.iter().enumerate().filter(|(j, _)| unmatched(*j, |p| p.1)) {
        explained.insert(at);
        let kind = DifferenceKind::Missing { wire: called(wire), slot };
        differences.push(Difference { at: at.clone(), kind });
    }
    for (_, &(at, slot, wire)) in found_wires
        .iter()
        .enumerate()
        .filter(|(i, (at, ..))| unmatched(*i, |p| p.0) && should.contains_key(*at))
    {
        explained.insert(at);
        let kind = DifferenceKind::Extra { wire: called(wire), slot };
        differences.push(Difference { at: at.clone(), kind });
    }
    for (at, meant) in should.iter().filter(|(at, _)| !explained.contains(at)) {
        if let Some(holds) = found.get(at)
            && !holds.is_like(meant)
        {
            let (found, should) = match holds.word() == meant.word() {
                true => (holds.in_words(), meant.in_words()),
                false => (holds.word().to_owned(), meant.word().to_owned()),
            };
            let kind = DifferenceKind::Content { found, should };
            differences.push(Difference { at: at.clone(), kind });
        }
    }
    differences.sort_by(|a, b| a.at.cmp(&b.at));
    differences
}

/// A wire in another cavity than it should be.
struct Moved<'a> {
    at: &'a Address,
    slot: usize,
    should_at: &'a Address,
    wire: String,
}

/// Wires in another cavity; two that changed places are one difference, where each was the only one
/// that left its cavity.
fn moves(moved: &[Moved<'_>]) -> Vec<Difference> {
    let only = |at: &Address| {
        let mut from = moved.iter().filter(|one| one.at == at);
        from.next().filter(|_| from.next().is_none())
    };
    let mut out = Vec::new();
    for one in moved {
        let back = only(one.at).and_then(|_| only(one.should_at)).filter(|back| back.should_at == one.at);
        let kind = match back {
            Some(back) if one.at < one.should_at => DifferenceKind::Swapped {
                with: one.should_at.clone(),
                wire: one.wire.clone(),
                other: back.wire.clone(),
                slots: (one.slot, back.slot),
            },
            Some(_) => continue,
            None => DifferenceKind::Elsewhere {
                wire: one.wire.clone(),
                slot: one.slot,
                should_at: one.should_at.clone(),
            },
        };
        out.push(Difference { at: one.at.clone(), kind });
    }
    out
}

/// What two descriptions of one wire say differently; "?" differs from nothing.
fn described(found: &Wire, should: &Wire) -> Vec<Aspect> {
    let colour = found.colour.known().zip(should.colour.known()).filter(|(a, b)| a != b);
    let gauge = found.gauge.known().zip(should.gauge.known());
    let gauge = gauge.filter(|(a, b)| (a.area_mm2() - b.area_mm2()).abs() > 1e-9);
    let circuit = found.circuit.as_ref().zip(should.circuit.as_ref());
    let circuit = circuit.filter(|(a, b)| plain_words(a) != plain_words(b));
    // The same circuit may have another number in another issue of the diagram.
    let same_circuit = found.circuit.is_some() && should.circuit.is_some() && circuit.is_none();
    let number = found.number.as_ref().zip(should.number.as_ref());
    let number =
        number.filter(|(a, b)| circuit.is_none() && !same_circuit && plain_words(a) != plain_words(b));
    let kind = (found.kind != should.kind).then_some((found.kind, should.kind));
    let aspects = [
        colour.map(|(a, b)| Aspect::Colour(a.clone(), b.clone())),
        gauge.map(|(a, b)| Aspect::Area {
            found: a.both(),
            should: b.both(),
            is_thinner: a.area_mm2() < b.area_mm2(),
        }),
        circuit.map(|(a, b)| Aspect::Circuit(a.clone(), b.clone())),
        number.map(|(a, b)| Aspect::Number(a.clone(), b.clone())),
        kind.map(|(a, b)| Aspect::Kind(a, b)),
    ];
    aspects.into_iter().flatten().collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::{CavityContent, Known, LeadSeen, WireKind};

    fn at(label: &str) -> Address {
        format!("old:{label}").parse().unwrap()
    }

    fn wired(number: Option<&str>, colour: &str) -> CavityContent {
        let gauge = Known::Is("0.5".parse().unwrap());
        let wire = Wire {
            number: number.map(ToOwned::to_owned),
            ..Wire::new(Known::Is(colour.parse().unwrap()), gauge)
        };
        CavityContent::Wired(LeadSeen { wires: vec![wire], terminal: None, seal: None, condition: None })
    }

    #[track_caller]
    fn check(found: &[(&str, CavityContent)], should: &[(&str, CavityContent)], sentences: &[&str]) {
        let record =
            |cavities: &[(&str, CavityContent)]| cavities.iter().map(|(l, h)| (at(l), h.clone())).collect();
        let seen: Vec<String> =
            compare(&record(found), &record(should)).iter().map(Difference::sentence).collect();
        assert_eq!(seen, sentences);
    }

    #[test]
    fn a_wire_one_hole_off_is_one_difference() {
        check(
            &[("A133", wired(Some("W1"), "OG")), ("A134", CavityContent::Open)],
            &[("A133", CavityContent::Plugged), ("A134", wired(Some("W1"), "OG"))],
            &["W1 is in A133 and belongs in A134."],
        );
    }

    #[test]
    fn two_wires_in_each_others_place_are_one_difference() {
        check(
            &[("3", wired(None, "GY/BN")), ("4", wired(None, "GY/RD"))],
            &[("3", wired(None, "GY/RD")), ("4", wired(None, "GY/BN"))],
            &["3 and 4 are swapped: the GY/BN 0.5 wire is in 3, the GY/RD 0.5 wire is in 4."],
        );
    }

    #[test]
    fn a_missing_plug_a_missing_wire_and_an_extra_wire_are_told_apart() {
        check(
            &[("1", CavityContent::Open), ("2", CavityContent::Open), ("3", wired(Some("W9"), "BK"))],
            &[("1", CavityContent::Plugged), ("2", wired(Some("W2"), "RD")), ("3", CavityContent::Empty)],
            &[
                "1 is open as found and plugged as it should be.",
                "W2 belongs in 2 and is found nowhere.",
                "W9 is in 3 and is not on the diagram.",
            ],
        );
    }

    #[test]
    fn two_wires_of_one_terminal_that_belong_elsewhere_are_two_differences() {
        let two = |first: &str, second: &str| match (wired(Some(first), "RD"), wired(Some(second), "BK")) {
            (CavityContent::Wired(mut lead), CavityContent::Wired(more)) => {
                lead.wires.extend(more.wires);
                CavityContent::Wired(lead)
            }
            _ => CavityContent::Open,
        };
        check(
            &[("1", two("W1", "W2")), ("2", CavityContent::Open), ("3", CavityContent::Open)],
            &[("1", CavityContent::Empty), ("2", wired(Some("W1"), "RD")), ("3", wired(Some("W2"), "BK"))],
            &["W1 is in 1 and belongs in 2.", "W2 is in 1 and belongs in 3."],
        );
    }

    #[test]
    fn colour_area_circuit_and_kind_of_one_wire_are_one_difference() {
        let meant = Wire {
            number: Some("W1".into()),
            circuit: Some("belt tensioner".into()),
            kind: WireKind::Restraint,
            ..Wire::new(Known::Is("YE".parse().unwrap()), Known::Is("0.75".parse().unwrap()))
        };
        let found = Wire {
            circuit: Some("spare".into()),
            kind: WireKind::Ordinary,
            colour: Known::Is("RD".parse().unwrap()),
            gauge: Known::Is("0.5".parse().unwrap()),
            ..meant.clone()
        };
        let holds = |wire| {
            CavityContent::Wired(LeadSeen { wires: vec![wire], terminal: None, seal: None, condition: None })
        };
        check(
            &[("1", holds(found.clone()))],
            &[("1", holds(meant.clone()))],
            &[
                "W1 in 1 is RD, 0.5 mm² (charts: 20 AWG), circuit spare and ordinary wire as found and YE, 0.75 mm², circuit belt tensioner and restraint wire as it should be.",
            ],
        );
        // Upper case and marks are no other circuit; what is not known differs from nothing.
        let same = Wire { circuit: Some("Belt-Tensioner".into()), colour: Known::Unknown, ..meant.clone() };
        check(&[("1", holds(same))], &[("1", holds(meant))], &[]);
    }

    #[test]
    fn wires_that_are_known_by_other_names_are_not_one_by_their_looks() {
        // Elsewhere: two wires, one too many and one missing.
        check(
            &[("1", wired(Some("W9"), "BK")), ("2", CavityContent::Open)],
            &[("1", CavityContent::Plugged), ("2", wired(Some("W2"), "BK"))],
            &["W9 is in 1 and is not on the diagram.", "W2 belongs in 2 and is found nowhere."],
        );
        // In its own hole the names are the difference; without a name the look decides.
        check(
            &[("1", wired(Some("W9"), "BK"))],
            &[("1", wired(Some("W1"), "BK"))],
            &["W9 in 1 is number W9 as found and number W1 as it should be."],
        );
        check(
            &[("1", wired(None, "BK")), ("2", CavityContent::Open)],
            &[("1", CavityContent::Plugged), ("2", wired(Some("W2"), "BK"))],
            &["the BK 0.5 wire is in 1 and belongs in 2."],
        );
    }

    #[test]
    fn a_bridge_is_not_any_bridge() {
        let bridge = |what: &str| CavityContent::Bridge(what.to_owned());
        check(
            &[("1", bridge("diode"))],
            &[("1", bridge("shorting clip"))],
            &["1 is bridge (diode) as found and bridge (shorting clip) as it should be."],
        );
        check(&[("1", bridge("Shorting clip"))], &[("1", bridge("shorting-clip"))], &[]);
    }

    #[test]
    fn without_a_should_record_nothing_is_compared() {
        check(&[("1", wired(Some("W1"), "BK"))], &[], &[]);
    }
}
