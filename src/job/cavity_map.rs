//! The map from old cavities to new ones, as a value.

use std::collections::BTreeMap;

use crate::record::Address;

/// Old cavities to new ones; none where a document says that nothing goes on.
pub type CavityMap = BTreeMap<Address, Option<Address>>;
