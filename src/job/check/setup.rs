//! Checks of what is set up before the first move: map, views, anchors, gates, tags.

use super::rules::{Checked, Rules, impossible};
use crate::{
    catalogue::Delivered,
    face::PosePlace,
    job::{ItemId, JobSide, MapSource, MatingVerdict, Place, Refusal, Tag, state::State},
    record::{Address, HousingName},
};

impl State {
    pub(super) fn check_compared(&self, mating_half: bool) -> Checked {
        if !mating_half {
            return impossible(
                "Compared without the mating half in the hand, this proves nothing.",
                "Fetch the mating half, then answer.",
            );
        }
        match self.housings.waits_for_machine() {
            false => Ok(Rules::default()),
            true => impossible(
                "The mating half is not here, by what was said.",
                "Say first that it is here, and how it looks.",
            ),
        }
    }

    pub(super) fn check_mating_half(&self, verdict: &MatingVerdict) -> Checked {
        let was_damaged = matches!(self.housings.mating_half, Some(MatingVerdict::Damaged(_)));
        match verdict {
            MatingVerdict::Good if was_damaged => impossible(
                "The mating half was said to be damaged; by a look alone it does not get better.",
                "Say that it was cleaned or replaced. A slip is taken back as a wrong key.",
            ),
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
            None => {
                let names: Vec<&str> = housing.housing().features.iter().map(|f| f.name.as_str()).collect();
                impossible(
                    format!("{} has no \"{}\".", housing.housing().part, crate::quantity::quoted(up)),
                    format!("Up is top, right, bottom, left{}.", or_one_of(&names)),
                )
            }
        }
    }

    pub(super) fn check_anchor(&self, housing: &HousingName, place: PosePlace) -> Checked {
        let housing = self.named(housing)?;
        if housing.view.is_none() {
            return impossible(
                format!("Nobody said how {} is held.", housing.name),
                "Say the view first: an anchor is asked by it.",
            );
        }
        let seen = housing.seen();
        match place {
            crate::face::PosePlace::Key => Ok(Rules::default()),
            place if seen.label_at(place).is_some() => Ok(Rules::default()),
            place => impossible(
                format!("There is no cavity at {place}."),
                "Count rows from the top, places from the left.",
            ),
        }
    }

    pub(super) fn check_small_part(&self, housing: &HousingName, part: &str) -> Checked {
        let housing = self.named(housing)?;
        match housing.housing().small_parts.iter().any(|p| p.name == *part) {
            true => Ok(Rules::default()),
            false => {
                let names: Vec<&str> =
                    housing.housing().small_parts.iter().map(|p| p.name.as_str()).collect();
                impossible(
                    format!(
                        "{} has no small part \"{}\".",
                        housing.housing().part,
                        crate::quantity::quoted(part)
                    ),
                    format!("It has {}.", crate::quantity::list_of(&names)),
                )
            }
        }
    }

    pub(super) fn check_tagged(&self, lead: &ItemId, tag: &Tag) -> Checked {
        if self.items.lead(lead).is_none() {
            return impossible(
                format!("There is no lead {lead}."),
                "Name it by the cavity it was recorded in.",
            );
        }
        check_tag(tag)?;
        match self.items.leads.iter().find(|l| l.id != *lead && l.tag.as_ref() == Some(tag)) {
            None => Ok(Rules::default()),
            Some(other) => impossible(
                format!("Tag {tag} is on {} already.", other.call()),
                "Use another tag: two leads on one tag are one lead too few.",
            ),
        }
    }

    fn named(&self, name: &crate::record::HousingName) -> Result<&crate::job::JobHousing, Refusal> {
        match self.housings.housing(name) {
            Some(housing) => Ok(housing),
            None => {
                let names: Vec<&crate::record::HousingName> =
                    self.housings.all.iter().map(|h| &h.name).collect();
                impossible(
                    format!("This job has no housing {name}."),
                    format!("Its housings are {}.", crate::quantity::list_of(&names)),
                )
            }
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
            return impossible(
                "Something has moved already.",
                "Put it back, or stop this job and start a new one.",
            );
        }
        if self.housings.check_cavity(from)? != JobSide::Old {
            return impossible(format!("{from} is on the new side."), "A map goes from old to new.");
        }
        let document = document.is_some_and(crate::quantity::says_something);
        match to {
            None if !document => {
                impossible(format!("{from} would have no place."), "Name the document that says so.")
            }
            None => Ok(Rules::default()),
            Some(to) => {
                if self.housings.check_cavity(to)? != JobSide::New {
                    return impossible(format!("{to} is on the old side."), "A map goes from old to new.");
                }
                if !document
                    && let Some((there, by)) = self.housings.made_for(from)
                    && there != *to
                {
                    return impossible(
                        format!(
                            "The mating half has its terminal at {there} by {}, not at {to}.",
                            by.words()
                        ),
                        "Both halves must change, under a document: name it.",
                    );
                }
                let shut = self.housings.cavity(to).is_some_and(|c| c.delivered == Delivered::Blocked);
                if shut {
                    return impossible(
                        format!("{to} is moulded shut."),
                        "Map it to a cavity that can take it.",
                    );
                }
                let mut by_hand = self.mapping.by_hand.iter();
                match by_hand.find(|(other, t)| *other != from && t.as_ref() == Some(to)) {
                    // Under a document two leads may be joined to one.
                    Some(_) if document => Ok(Rules::default()),
                    Some((other, _)) => impossible(
                        format!("{other} is mapped to {to} already."),
                        "One cavity takes one: map one of them elsewhere, or name the document under which both are joined.",
                    ),
                    None => Ok(Rules::default()),
                }
            }
        }
    }

    pub(super) fn check_map(&self, source: MapSource) -> Checked {
        if self.has_moved() {
            return impossible("Something has moved already.", "The map is confirmed before the first move.");
        }
        if !self.records.records_finished() {
            return impossible(
                "The record of what is found is not finished.",
                "Finish it first: the map follows it.",
            );
        }
        let map = self.map_by(source);
        if let Some(at) = self.without_place(&map).first() {
            return impossible(
                format!("By {} {at} has no place on the new side.", source.words()),
                "Map it, or say under which document it has no place.",
            );
        }
        if let Some(to) = self.clashes(&map).first() {
            return impossible(
                format!("By {} two leads would go to {to}.", source.words()),
                "One cavity takes one: map one of them elsewhere, or plan to join them under a document.",
            );
        }
        // The same label in another hole is what supersession does.
        if source == MapSource::SameLabels
            && let Some((by, differs)) = self.housings.labels_mislead()
        {
            return impossible(
                format!("The same labels are other holes. By {} {differs}", by.words()),
                format!("Confirm the map by {}, or map by hand under a document.", by.words()),
            );
        }
        Ok(Rules::default())
    }
}

/// A tag is what is written on it.
pub(super) fn check_tag(tag: &Tag) -> Result<(), Refusal> {
    match crate::quantity::says_something(&tag.to_string()) {
        true => Ok(()),
        false => impossible(format!("\"{tag}\" is no tag."), "Write something on it, and key that."),
    }
}

fn or_one_of(names: &[&str]) -> String {
    names.iter().map(|name| format!(" or {name}")).collect()
}
