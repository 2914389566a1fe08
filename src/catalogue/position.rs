//! Which cavity of the new housing lies where one of the old housing lies, whatever is moulded
//! beside them, and which way the numbers run.

use std::collections::BTreeMap;

use super::Housing;
use crate::face::{Face, Label, Pose, PosePlace, SeenSpot};

/// The labels of both housings at the same places, both seen from the wire side with the same
/// feature up. None when the faces are not the same, or share no feature to hold them by, so that no
/// place stands for another.
pub fn by_position(old: &Housing, new: &Housing) -> Option<BTreeMap<Label, Label>> {
    let (old, new) = same_pose(old, new)?;
    if old.len() != new.len() {
        return None;
    }
    let there: BTreeMap<PosePlace, &Label> =
        new.iter().filter_map(|spot| Some((spot.place()?, &spot.label))).collect();
    old.iter().map(|spot| Some((spot.label.clone(), (*there.get(&spot.place()?)?).clone()))).collect()
}

/// Both housings from the wire side, the first feature they share up.
fn same_pose(old: &Housing, new: &Housing) -> Option<(Vec<SeenSpot>, Vec<SeenSpot>)> {
    let (old_up, new_up) = old.features.iter().find_map(|f| Some((f.side, new.side_of(&f.name)?)))?;
    let wire = |up| Pose { face: Face::Wire, up };
    Some((old.seen(wire(old_up)), new.seen(wire(new_up))))
}

/// Whether by this map the numbers of every row run against those of the old housing.
pub fn runs_other_way(old: &Housing, new: &Housing, map: &BTreeMap<Label, Label>) -> bool {
    let rank = |housing: &Housing, label: &Label| housing.cavities.iter().position(|c| c.label == *label);
    let ranks = |label: &Label| Some((rank(old, label)?, rank(new, map.get(label)?)?));
    let mut compared = 0;
    for row in old.rows() {
        for pair in row.windows(2) {
            let [a, b] = pair else { continue };
            let (Some((old_a, new_a)), Some((old_b, new_b))) = (ranks(a), ranks(b)) else { return false };
            if (old_a < old_b) == (new_a < new_b) {
                return false;
            }
            compared += 1;
        }
    }
    compared > 0
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::Catalogue;

    fn housing(id: &str) -> Housing {
        Catalogue::built_in().find(id).unwrap().housing().clone()
    }

    #[test]
    fn the_published_map_of_a_superseded_housing_is_the_map_by_position() {
        let (old, new) = (housing("lh-24"), housing("lh-24b"));
        let map = by_position(&old, &new).unwrap();
        let published: BTreeMap<Label, Label> =
            new.replacement_map(&old.id).unwrap().iter().cloned().collect();
        assert_eq!(map, published);
        assert!(runs_other_way(&old, &new, &map));
        assert!(!runs_other_way(&old, &old, &by_position(&old, &old).unwrap()));
    }

    #[test]
    fn other_faces_have_no_map_by_position() {
        assert_eq!(by_position(&housing("sp-16"), &housing("lh-24")), None);
        assert_eq!(by_position(&housing("iso-1724"), &housing("iso-11446")), None);
    }
}
