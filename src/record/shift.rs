//! A row that is one hole off is one mistake, not as many as it has wires.

use super::{Address, Difference, DifferenceKind};

/// How many wires of a row have to be off by the same hole before it is the row that is off.
const ROW_LEAST: usize = 2;

/// Joins wires that are one hole off the same way in one row, each row with its cavities in order.
pub fn join_shifts(differences: Vec<Difference>, rows: &[Vec<Address>]) -> Vec<Difference> {
    let mut rest = differences;
    let mut joined = Vec::new();
    for row in rows {
        for step in [1, -1] {
            let is_off = |difference: &Difference| step_in(row, difference) == Some(step);
            if rest.iter().filter(|d| is_off(d)).count() < ROW_LEAST {
                continue;
            }
            let (off, others): (Vec<Difference>, Vec<Difference>) = rest.into_iter().partition(is_off);
            rest = others;
            let mut moves: Vec<(Address, usize, Address)> = off
                .into_iter()
                .filter_map(|d| match d.kind {
                    DifferenceKind::Elsewhere { should_at, slot, .. } => Some((d.at, slot, should_at)),
                    _ => None,
                })
                .collect();
            moves.sort();
            if let Some((first, ..)) = moves.first().cloned() {
                joined.push(Difference { at: first, kind: DifferenceKind::Shifted { moves } });
            }
        }
    }
    rest.extend(joined);
    rest.sort_by(|a, b| a.at.cmp(&b.at));
    rest
}

/// By how many holes of this row a wire is off; none when it is about something else.
fn step_in(row: &[Address], difference: &Difference) -> Option<i32> {
    let DifferenceKind::Elsewhere { should_at, .. } = &difference.kind else { return None };
    let place = |at: &Address| row.iter().position(|in_row| in_row == at).and_then(|n| i32::try_from(n).ok());
    Some(place(should_at)? - place(&difference.at)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(label: usize) -> Address {
        format!("old:{label}").parse().unwrap()
    }

    fn elsewhere(from: usize, to: usize) -> Difference {
        let kind = DifferenceKind::Elsewhere { wire: format!("W{from}"), slot: 1, should_at: at(to) };
        Difference { at: at(from), kind }
    }

    #[test]
    fn a_row_one_hole_off_is_one_difference_at_its_first_wrong_cavity() {
        let row: Vec<Address> = (1..=6).map(at).collect();
        let all = vec![elsewhere(3, 4), elsewhere(4, 5), elsewhere(5, 6)];
        let joined = join_shifts(all, std::slice::from_ref(&row));
        let said: Vec<String> = joined.iter().map(Difference::sentence).collect();
        assert_eq!(said, ["From 3 to 5 the wires are one hole off: what is in 3 belongs in 4, and so on."]);
        // One wire one hole off, and wires off in other ways, stay what they are.
        let single = vec![elsewhere(2, 3), elsewhere(5, 1)];
        assert_eq!(join_shifts(single.clone(), &[row]), single);
    }
}
