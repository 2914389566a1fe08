//! What is said against what is set up before the first move: the mating half, views, anchors, the map.

use crate::{
    catalogue::PartNumber,
    face::PosePlace,
    job::{MapDifference, MapSource},
    record::{Address, HousingName},
};

/// Why what was seen of the connector cannot be.
#[derive(Debug, Clone, PartialEq)]
pub enum SightBarrier {
    /// Compared without the mating half in the hand.
    WithoutMatingHalf,
    /// The mating half is not here, by what was said.
    MatingHalfAway,
    /// The mating half was said to be damaged, and is good by a look alone.
    StillDamaged,
    /// The housing has nothing of this name on a side.
    NoFeature {
        /// The housing.
        part: PartNumber,
        /// What was keyed.
        up: String,
        /// The features it has.
        features: Vec<String>,
    },
    /// Nobody said how the housing is held.
    ViewFirst(HousingName),
    /// There is no cavity at this place.
    NoCavityAt(PosePlace),
    /// The housing has no such small part.
    NoSmallPart {
        /// The housing.
        part: PartNumber,
        /// What was keyed.
        named: String,
        /// The small parts it has.
        small_parts: Vec<String>,
    },
}

/// Why a cavity is not mapped to another.
#[derive(Debug, Clone, PartialEq)]
pub enum MappingBarrier {
    /// Something has moved already.
    Moved,
    /// The cavity to be mapped is on the new side.
    FromNew(Address),
    /// The cavity that is mapped to is on the old side.
    ToOld(Address),
    /// The cavity would have no place, and no document says so.
    WithoutPlace(Address),
    /// The mating half is made otherwise.
    MadeOtherwise {
        /// Where it has its terminal.
        made: Address,
        /// By which map.
        by: MapSource,
        /// Where it was mapped.
        to: Address,
    },
    /// The cavity that is mapped to is moulded shut.
    Shut(Address),
    /// Another cavity is mapped there already.
    MappedAlready {
        /// The other cavity.
        other: Address,
        /// There.
        to: Address,
    },
}

/// Why the map is not confirmed.
#[derive(Debug, Clone, PartialEq)]
pub enum MapBarrier {
    /// Something has moved already.
    Moved,
    /// The record of what is found is not finished.
    RecordUnfinished,
    /// By the source a cavity has no place on the new side.
    WithoutPlace(MapSource, Address),
    /// By the source two leads would go to a cavity.
    TwoLeads(MapSource, Address),
    /// The same labels are other holes, by another source.
    LabelsMislead(MapSource, MapDifference),
}
