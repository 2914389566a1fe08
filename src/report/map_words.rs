//! Where maps differ and why labels do, in words.

use crate::{
    job::{MapDifference, Relabelled},
    quantity::count_of,
    record::Address,
};

/// Where one map differs from another, as a sentence.
pub(super) fn map_difference(differs: &MapDifference) -> String {
    let place = |to: &Option<Address>| to.as_ref().map_or("nowhere".to_owned(), ToString::to_string);
    format!(
        "{} differ, the first: {} to {} and not to {}.",
        count_of(differs.cavities, "cavity"),
        differs.from,
        place(&differs.to),
        place(&differs.there)
    )
}

/// Why a new cavity has another label than the old one it stands for.
pub(super) fn relabelled(why: Relabelled) -> &'static str {
    match why {
        Relabelled::OtherWay => "the numbers run the other way",
        Relabelled::Otherwise => "the new housing is numbered otherwise",
    }
}
