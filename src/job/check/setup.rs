//! Checks of what is set up before the first move: map, views, anchors, gates, tags.

use super::rules::{Checked, Rules, impossible};
use crate::{
    catalogue::Delivered,
    face::PosePlace,
    job::{
        ItemId, JobSide, MapSource, MatingVerdict, Place, Refusal, Tag,
        refusal::{AsideBarrier, MapBarrier, MappingBarrier, PlaceBarrier, SightBarrier},
        state::State,
    },
    record::{Address, HousingName},
};

impl State {
    pub(super) fn check_compared(&self, mating_half: bool) -> Checked {
        if !mating_half {
            return impossible(SightBarrier::WithoutMatingHalf);
        }
        match self.housings.waits_for_machine() {
            false => Ok(Rules::default()),
            true => impossible(SightBarrier::MatingHalfAway),
        }
    }

    pub(super) fn check_mating_half(&self, verdict: &MatingVerdict) -> Checked {
        let was_damaged = matches!(self.housings.mating_half, Some(MatingVerdict::Damaged(_)));
        match verdict {
            MatingVerdict::Good if was_damaged => impossible(SightBarrier::StillDamaged),
            MatingVerdict::Good
            | MatingVerdict::Cleaned
            | MatingVerdict::Replaced
            | MatingVerdict::Damaged(_)
            | MatingVerdict::NotHere => Ok(Rules::default()),
        }
    }

    pub(super) fn check_view(&self, housing: &HousingName, up: &str) -> Checked {
        let housing = self.named(housing)?;
        match housing.housing().side_of(up) {
            Some(_) => Ok(Rules::default()),
            None => impossible(SightBarrier::NoFeature {
                part: housing.housing().part.clone(),
                up: up.to_owned(),
                features: housing.housing().features.iter().map(|f| f.name.clone()).collect(),
            }),
        }
    }

    pub(super) fn check_anchor(&self, housing: &HousingName, place: PosePlace) -> Checked {
        let housing = self.named(housing)?;
        if housing.view.is_none() {
            return impossible(SightBarrier::ViewFirst(housing.name.clone()));
        }
        let seen = housing.seen();
        match place {
            crate::face::PosePlace::Key => Ok(Rules::default()),
            place if seen.label_at(place).is_some() => Ok(Rules::default()),
            place => impossible(SightBarrier::NoCavityAt(place)),
        }
    }

    pub(super) fn check_small_part(&self, housing: &HousingName, part: &str) -> Checked {
        let housing = self.named(housing)?;
        match housing.housing().small_parts.iter().any(|p| p.name == *part) {
            true => Ok(Rules::default()),
            false => impossible(SightBarrier::NoSmallPart {
                part: housing.housing().part.clone(),
                named: part.to_owned(),
                small_parts: housing.housing().small_parts.iter().map(|p| p.name.clone()).collect(),
            }),
        }
    }

    pub(super) fn check_tagged(&self, lead: &ItemId, tag: &Tag) -> Checked {
        if self.items.lead(lead).is_none() {
            return impossible(PlaceBarrier::NoLead(lead.clone()));
        }
        check_tag(tag)?;
        match self.items.leads.iter().find(|l| l.id != *lead && l.tag.as_ref() == Some(tag)) {
            None => Ok(Rules::default()),
            Some(other) => impossible(AsideBarrier::TagOn(tag.clone(), other.call())),
        }
    }

    fn named(&self, name: &crate::record::HousingName) -> Result<&crate::job::JobHousing, Refusal> {
        match self.housings.housing(name) {
            Some(housing) => Ok(housing),
            None => impossible(self.housings.no_housing(name)),
        }
    }

    pub(super) fn check_mapped(
        &self,
        from: &crate::record::Address,
        to: Option<&crate::record::Address>,
        document: Option<&str>,
    ) -> Checked {
        // Two that go to one hole and are not joined are parted by the map at any time, while both are out
        // of the new housing.
        let is_in_new = |at: &Address| {
            let lead = self.items.lead(&ItemId::At(at.clone()));
            lead.is_some_and(
                |lead| matches!(&lead.place, Place::In(now) if self.housings.side_of(now) == Some(JobSide::New)),
            )
        };
        let clashes = self.clashes(&self.mapping.map);
        let is_clash = self.mapping.mapped(from).is_some_and(|to| clashes.contains(to)) && !is_in_new(from);
        if self.has_moved() && !is_clash {
            return impossible(MappingBarrier::Moved);
        }
        if self.housings.check_cavity(from)? != JobSide::Old {
            return impossible(MappingBarrier::FromNew(from.clone()));
        }
        let document = document.is_some_and(crate::quantity::says_something);
        match to {
            None if !document => impossible(MappingBarrier::WithoutPlace(from.clone())),
            None => Ok(Rules::default()),
            Some(to) => {
                if self.housings.check_cavity(to)? != JobSide::New {
                    return impossible(MappingBarrier::ToOld(to.clone()));
                }
                if !document
                    && let Some((there, by)) = self.housings.made_for(from)
                    && there != *to
                {
                    return impossible(MappingBarrier::MadeOtherwise { made: there, by, to: to.clone() });
                }
                let shut = self.housings.cavity(to).is_some_and(|c| c.delivered == Delivered::Blocked);
                if shut {
                    return impossible(MappingBarrier::Shut(to.clone()));
                }
                let mut by_hand = self.mapping.by_hand.iter();
                match by_hand.find(|(other, t)| *other != from && t.as_ref() == Some(to)) {
                    // Under a document two leads may be joined to one.
                    Some(_) if document => Ok(Rules::default()),
                    Some((other, _)) => {
                        let other = other.clone();
                        impossible(MappingBarrier::MappedAlready { other, to: to.clone() })
                    }
                    None => Ok(Rules::default()),
                }
            }
        }
    }

    pub(super) fn check_map(&self, source: MapSource) -> Checked {
        if self.has_moved() {
            return impossible(MapBarrier::Moved);
        }
        if !self.records.records_finished() {
            return impossible(MapBarrier::RecordUnfinished);
        }
        let map = self.map_by(source);
        if let Some(at) = self.without_place(&map).first() {
            return impossible(MapBarrier::WithoutPlace(source, at.clone()));
        }
        if let Some(to) = self.clashes(&map).first() {
            return impossible(MapBarrier::TwoLeads(source, to.clone()));
        }
        // The same label in another hole is what supersession does.
        if source == MapSource::SameLabels
            && let Some((by, differs)) = self.housings.labels_mislead()
        {
            return impossible(MapBarrier::LabelsMislead(by, differs));
        }
        Ok(Rules::default())
    }
}

/// A tag is what is written on it.
pub(super) fn check_tag(tag: &Tag) -> Result<(), Refusal> {
    match crate::quantity::says_something(&tag.to_string()) {
        true => Ok(()),
        false => impossible(AsideBarrier::NoTag(tag.clone())),
    }
}
