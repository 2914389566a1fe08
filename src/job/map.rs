//! The map from old cavities to new ones: what each source of a map would give, what speaks
//! against it, and the words for where the numbers differ.

use crate::{
    catalogue::{by_position, runs_other_way},
    face::Label,
    job::{CavityMap, Housings, Mapping},
    quantity::{count_of, list_of},
    record::{Address, CavityContent},
};
use std::collections::{BTreeMap, BTreeSet};

use super::{
    Act, ItemId, JobSide, MapSource, Place,
    state::{JobHousing, State},
};

/// The sources a map can be filled from, in the order they are offered.
const SOURCES: [MapSource; 3] = [MapSource::Shop, MapSource::SameLabels, MapSource::Position];

/// Where one map differs from another.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MapDifference {
    /// How many cavities are mapped otherwise.
    pub cavities: usize,
    /// The first of them.
    pub from: Address,
    /// Where it goes by the one map, if it goes anywhere.
    pub to: Option<Address>,
    /// Where it goes by the other.
    pub there: Option<Address>,
}

/// Why a new cavity has another label than the old one it stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Relabelled {
    /// The numbers run the other way.
    OtherWay,
    /// The new housing is numbered otherwise.
    Otherwise,
}

/// What a source would make of the map.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MapProposal {
    /// The source.
    pub source: MapSource,
    /// The whole map, what was mapped by hand kept.
    pub map: CavityMap,
}

impl MapSource {
    /// In words, after "by".
    pub fn words(self) -> &'static str {
        match self {
            Self::SameLabels => "the same labels",
            Self::Shop => "the published map",
            Self::Position => "position",
            Self::Hand => "hand",
        }
    }
}

impl State {
    /// The map as a source would fill it: what was mapped by hand stays, and a new cavity that is
    /// taken by hand is given to nothing else.
    pub fn map_by(&self, source: MapSource) -> CavityMap {
        let mut map = self.mapping.by_hand.clone();
        let taken: BTreeSet<Address> = map.values().flatten().cloned().collect();
        for (from, to) in self.housings.pairs_by(source) {
            if !taken.contains(&to) {
                map.entry(from).or_insert(Some(to));
            }
        }
        map
    }

    /// The map as the definitions have it, until one is confirmed: by the first source that says
    /// anything.
    pub(super) fn presumed_map(&self) -> CavityMap {
        let mislead = self.housings.labels_mislead().is_some();
        let sources = SOURCES.into_iter().filter(|source| *source != MapSource::SameLabels || !mislead);
        let maps = sources.map(|source| self.map_by(source));
        maps.into_iter()
            .find(|map| map.len() > self.mapping.by_hand.len())
            .unwrap_or_else(|| self.mapping.by_hand.clone())
    }

    /// The source that leaves the fewest leads without a place, and those.
    pub fn nearest_map(&self) -> (MapSource, Vec<Address>) {
        let left = SOURCES.map(|source| (source, self.without_place(&self.map_by(source))));
        let nearest = left.into_iter().min_by_key(|(_, without)| without.len());
        nearest.unwrap_or_else(|| (MapSource::Hand, self.without_place(&self.mapping.by_hand)))
    }

    /// Every different map that gives each lead a place: what the technician chooses from.
    pub fn map_proposals(&self) -> Vec<MapProposal> {
        let mut proposals: Vec<MapProposal> = Vec::new();
        let complete = |map: &CavityMap| self.without_place(map).is_empty();
        let mislead = self.housings.labels_mislead().is_some();
        for source in SOURCES.into_iter().filter(|source| *source != MapSource::SameLabels || !mislead) {
            let map = self.map_by(source);
            let fills = map.len() > self.mapping.by_hand.len();
            if fills && complete(&map) && proposals.iter().all(|p| p.map != map) {
                proposals.push(MapProposal { source, map });
            }
        }
        let by_hand = self.mapping.by_hand.clone();
        if !by_hand.is_empty() && complete(&by_hand) {
            proposals.push(MapProposal { source: MapSource::Hand, map: by_hand });
        }
        proposals
    }

    /// Old cavities that hold something and have no place by a map.
    pub fn without_place(&self, map: &CavityMap) -> Vec<Address> {
        let moves = |holds: &CavityContent| {
            matches!(holds, CavityContent::Wired(_) | CavityContent::Spare(_) | CavityContent::Bridge(_))
        };
        let held = self.records.found.iter().filter(|(at, holds)| moves(holds) && !map.contains_key(*at));
        held.map(|(at, _)| at.clone()).collect()
    }

    /// New cavities that two old ones with a lead in them are mapped to, where these are not to be joined.
    pub fn clashes(&self, map: &CavityMap) -> Vec<Address> {
        let mut by_target: BTreeMap<&Address, Vec<&Address>> = BTreeMap::new();
        for (from, to) in map {
            if let Some(to) =
                to.as_ref().filter(|_| self.records.found.get(from).is_some_and(|h| h.lead().is_some()))
            {
                by_target.entry(to).or_default().push(from);
            }
        }
        let is_joined = |from: &&&Address| {
            let lead = self.items.lead(&ItemId::At((**from).clone()));
            lead.is_some_and(|lead| lead.joined_with.is_some() || lead.place == Place::Removed)
        };
        let clash =
            by_target.into_iter().filter(|(_, from)| from.iter().filter(|f| !is_joined(f)).count() > 1);
        clash.map(|(to, _)| to.clone()).collect()
    }

    /// In a few words how a map goes: its first and last cavity, and what is mapped to nothing.
    pub fn map_in_words(&self, map: &CavityMap) -> String {
        let mut pairs = map.iter().filter_map(|(from, to)| Some((from, to.as_ref()?)));
        let (first, last) = (pairs.next(), pairs.next_back());
        let ends: Vec<String> =
            [first, last].into_iter().flatten().map(|(from, to)| format!("{from} to {to}")).collect();
        format!("{}: {}", count_of(map.len(), "cavity"), list_of(&ends))
    }
}

impl Housings {
    /// How one map differs from another; none when they agree.
    pub fn map_differs(&self, one: &CavityMap, other: &CavityMap) -> Option<MapDifference> {
        let mut differ = one.iter().filter(|(from, to)| other.get(*from) != Some(*to));
        let (from, to) = differ.clone().next()?;
        let cavities = differ.by_ref().count();
        let there = other.get(from).cloned().flatten();
        Some(MapDifference { cavities, from: from.clone(), to: to.clone(), there })
    }

    fn pairs_by(&self, source: MapSource) -> Vec<(Address, Address)> {
        match source {
            MapSource::SameLabels => self.same_labels(),
            MapSource::Shop => self.pairs_of(|old, new| {
                let pairs = new.housing().replacement_map(&old.housing().id);
                pairs.map(<[(Label, Label)]>::to_vec).unwrap_or_default()
            }),
            // Several housings on a side have no place in common.
            MapSource::Position if self.all.len() == 2 => self.pairs_of(|old, new| {
                by_position(old.housing(), new.housing()).unwrap_or_default().into_iter().collect()
            }),
            MapSource::Position | MapSource::Hand => Vec::new(),
        }
    }

    fn pairs_of(
        &self,
        pairs: impl Fn(&JobHousing, &JobHousing) -> Vec<(Label, Label)>,
    ) -> Vec<(Address, Address)> {
        let mut out = Vec::new();
        for old in self.side(JobSide::Old) {
            for new in self.side(JobSide::New) {
                let pairs = pairs(old, new).into_iter();
                out.extend(pairs.map(|(from, to)| (old.address(&from), new.address(&to))));
            }
        }
        out
    }

    /// The cavities whose label stands once on either side.
    fn same_labels(&self) -> Vec<(Address, Address)> {
        let of = |side| {
            let mut by_label: BTreeMap<Label, Vec<Address>> = BTreeMap::new();
            for housing in self.side(side) {
                for cavity in &housing.housing().cavities {
                    let at = housing.address(&cavity.label);
                    by_label.entry(cavity.label.clone()).or_default().push(at);
                }
            }
            by_label
        };
        let news = of(JobSide::New);
        let only = |at: &[Address]| match at {
            [only] => Some(only.clone()),
            _ => None,
        };
        let olds = of(JobSide::Old).into_iter();
        olds.filter_map(|(label, at)| Some((only(&at)?, only(news.get(&label)?)?))).collect()
    }

    /// The map the mating half is made for, and by what: the published one, else the same holes.
    fn made_map(&self) -> Option<(MapSource, CavityMap)> {
        [MapSource::Shop, MapSource::Position].into_iter().find_map(|source| {
            let pairs = self.pairs_by(source);
            let map = pairs.into_iter().map(|(from, to)| (from, Some(to))).collect::<CavityMap>();
            (!map.is_empty()).then_some((source, map))
        })
    }

    /// The new cavity the mating half is made for, and by what.
    pub fn made_for(&self, from: &Address) -> Option<(Address, MapSource)> {
        let (source, map) = self.made_map()?;
        Some((map.get(from)?.clone()?, source))
    }

    /// Why the same labels are not the map, where they are not: the source that says otherwise, and
    /// what it says.
    pub fn labels_mislead(&self) -> Option<(MapSource, MapDifference)> {
        let (source, made) = self.made_map()?;
        let labels = self.pairs_by(MapSource::SameLabels).into_iter();
        let labels: CavityMap = labels.map(|(from, to)| (from, Some(to))).collect();
        let common = made.into_iter().filter(|(from, _)| labels.contains_key(from)).collect();
        Some((source, self.map_differs(&common, &labels)?))
    }

    /// Why a new cavity has another label than the old one it stands for, where the numbering is
    /// the reason.
    pub fn why_labels_differ(&self, from: &Address, to: &Address) -> Option<Relabelled> {
        let (old, new) = (self.housing(&from.housing)?, self.housing(&to.housing)?);
        let map = by_position(old.housing(), new.housing())?;
        let same_place = map.get(&from.label) == Some(&to.label);
        match (same_place && from.label != to.label, runs_other_way(old.housing(), new.housing(), &map)) {
            (false, _) => None,
            (true, true) => Some(Relabelled::OtherWay),
            (true, false) => Some(Relabelled::Otherwise),
        }
    }
}

impl Mapping {
    /// The old cavity that loses its place to a mapping by hand, where one does.
    pub fn loses_place(&self, act: &Act) -> Option<&Address> {
        let Act::Mapped { from, to: Some(to), .. } = act else { return None };
        let mut before =
            self.map.iter().filter(|(other, there)| *other != from && there.as_ref() == Some(to));
        before.next().map(|(other, _)| other)
    }

    /// What was mapped otherwise than the mating half is made, under a document: old cavity, new
    /// one if there is one, document.
    pub fn mapped_under_document(&self) -> impl Iterator<Item = (&Address, Option<&Address>, &str)> {
        let to = |from: &Address| self.map.get(from).and_then(Option::as_ref);
        self.documents.iter().map(move |(from, document)| (from, to(from), document.as_str()))
    }
}
