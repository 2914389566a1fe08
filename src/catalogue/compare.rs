//! The old housing against the new one, before the first wire moves: what differs, as facts. What
//! a difference means for a job is decided elsewhere.

use std::collections::{BTreeMap, BTreeSet};

use super::{
    Definition, HousingId,
    family::{Delivered, Family, Housing, LockState, Sealing, SecondaryLock, SmallPart, Supplied},
    position::{by_position, runs_other_way},
};
use crate::{
    face::{Face, Label, Side},
    quantity::{count_of, list_of},
};

/// In what two housings differ.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum HousingDifferenceKind {
    /// The number of cavities.
    Count,
    /// Labels that only one of them has.
    Labels,
    /// Labels that stand at other places.
    Places,
    /// The size of a cavity.
    Size,
    /// The family of terminals.
    Family,
    /// Cavities moulded shut in the new one.
    Blocked,
    /// Cavities of the new one delivered with a plug.
    Plugged,
    /// A bridge or clip that only one of them has.
    Bridge,
    /// Male against female.
    Gender,
    /// The key code.
    KeyCode,
    /// The side a latch or key is on.
    FeatureSide,
    /// How water is kept out.
    Sealing,
    /// The secondary lock.
    Lock,
    /// The connector position assurance.
    Assurance,
    /// Seals, covers, retainers and the like.
    SmallPart,
}

impl HousingDifferenceKind {
    /// What a difference means for the work.
    pub fn means(self) -> &'static str {
        match self {
            Self::Count | Self::Labels => "Map every wire; plug what is left over.",
            Self::Places => "The same label is another hole: map before anything moves.",
            Self::Family => "Its terminals are other parts, even where they seem to fit: check each.",
            Self::Size => "Another terminal goes in there: the old one rattles or does not enter.",
            Self::Blocked => "No wire can go there; the job does not start over one.",
            Self::Plugged => "Take the plug out where a wire goes; keep it where none does.",
            Self::Bridge => "The circuit needs it: without it, this is not the right housing.",
            Self::Gender | Self::KeyCode | Self::FeatureSide => {
                "It may not mate: hold the mating half against it."
            }
            Self::Sealing => "Seals and plugs change with it.",
            Self::Lock | Self::Assurance | Self::SmallPart => {
                "Have it on the bench before the first wire moves."
            }
        }
    }
}

/// One difference between an old and a new housing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HousingDifference {
    /// In what they differ.
    pub kind: HousingDifferenceKind,
    /// One sentence.
    pub say: String,
    /// The cavities concerned, with their labels on the new housing, or on the old one where the
    /// new one has none such.
    pub cavities: Vec<Label>,
}

/// Everything in which the new housing differs from the old one, in a fixed order.
pub fn differences(old: &Housing, new: &Housing) -> Vec<HousingDifference> {
    let mut found = Found { old, new, differences: Vec::new() };
    found.cavities();
    found.sizes();
    found.delivered();
    found.bridges();
    found.outside();
    found.lock();
    found.small_parts();
    found.differences
}

impl Definition {
    /// Everything in which a new housing and its parts differ from the old one.
    pub fn differences_to(&self, new: &Self) -> Vec<HousingDifference> {
        let mut found = differences(self.housing(), new.housing());
        let terminals =
            |family: &Family| family.terminals.iter().map(|t| t.part.clone()).collect::<BTreeSet<_>>();
        let (old_parts, new_parts) = (terminals(self.family()), terminals(new.family()));
        if self.family().id != new.family().id && !old_parts.is_subset(&new_parts) {
            let say = format!(
                "The old housing is of the family {}, the new one of {}.",
                self.family().title,
                new.family().title
            );
            found.insert(
                0,
                HousingDifference { kind: HousingDifferenceKind::Family, say, cavities: Vec::new() },
            );
        }
        found
    }
}

impl Housing {
    /// The published map from an older housing's labels onto this one's, if there is one.
    pub fn replacement_map(&self, old: &HousingId) -> Option<&[(Label, Label)]> {
        self.replaces.iter().find(|(id, _)| id == old).map(|(_, map)| map.as_slice())
    }
}

struct Found<'a> {
    old: &'a Housing,
    new: &'a Housing,
    differences: Vec<HousingDifference>,
}

impl Found<'_> {
    fn add(&mut self, kind: HousingDifferenceKind, cavities: Vec<Label>, say: String) {
        self.differences.push(HousingDifference { kind, say, cavities });
    }

    /// Number, labels and places of the cavities.
    fn cavities(&mut self) {
        let (old_count, new_count) = (self.old.cavities.len(), self.new.cavities.len());
        if old_count != new_count {
            let say =
                format!("The old housing has {}, the new one {new_count}.", count_of(old_count, "cavity"));
            self.add(HousingDifferenceKind::Count, Vec::new(), say);
        }
        if let Some(map) = by_position(self.old, self.new) {
            return self.places(&map);
        }
        let labels = |housing: &Housing| -> BTreeSet<Label> {
            housing.cavities.iter().map(|cavity| cavity.label.clone()).collect()
        };
        let (old, new) = (labels(self.old), labels(self.new));
        let only_old: Vec<Label> = old.difference(&new).cloned().collect();
        let only_new: Vec<Label> = new.difference(&old).cloned().collect();
        if !only_old.is_empty() {
            let say = format!("The new housing has no cavity labelled {}.", list_of(&only_old));
            self.add(HousingDifferenceKind::Labels, only_old, say);
        }
        if !only_new.is_empty() {
            let say = format!("Only the new housing has cavities labelled {}.", list_of(&only_new));
            self.add(HousingDifferenceKind::Labels, only_new, say);
        }
    }

    /// The same face with other labels: in which places, and which way the numbers run.
    fn places(&mut self, map: &BTreeMap<Label, Label>) {
        let mut others = self.old.cavities.iter().filter_map(|c| Some((&c.label, map.get(&c.label)?)));
        let moved: Vec<Label> = others.clone().filter(|(a, b)| a != b).map(|(_, b)| b.clone()).collect();
        let Some((from, to)) = others.find(|(a, b)| a != b) else { return };
        let way = match runs_other_way(self.old, self.new, map) {
            true => "the numbers run the other way",
            false => "it is numbered otherwise",
        };
        let say = format!(
            "The face is the same and {way}: where the old housing has {from}, the new one has {to}."
        );
        self.add(HousingDifferenceKind::Places, moved, say);
    }

    /// The cavity of the new housing that stands for an old one: by the published map, else by label.
    fn stands_for(&self, old: &Label) -> Label {
        let map = self.new.replacement_map(&self.old.id).unwrap_or(&[]);
        map.iter().find(|(from, _)| from == old).map_or(old, |(_, to)| to).clone()
    }

    fn sizes(&mut self) {
        for cavity in &self.old.cavities {
            let label = self.stands_for(&cavity.label);
            let Some(new) = self.new.cavity(&label) else { continue };
            if new.size != cavity.size {
                let say = format!("Cavity {label} takes size {}, the old one {}.", new.size, cavity.size);
                self.add(HousingDifferenceKind::Size, vec![label], say);
            }
        }
    }

    fn delivered(&mut self) {
        let all = [
            (Delivered::Blocked, HousingDifferenceKind::Blocked),
            (Delivered::Plugged, HousingDifferenceKind::Plugged),
        ];
        for (what, kind) in all {
            let is =
                |housing: &Housing, label: &Label| housing.cavity(label).is_some_and(|c| c.delivered == what);
            let were: BTreeSet<Label> = self
                .old
                .cavities
                .iter()
                .filter(|cavity| cavity.delivered == what)
                .map(|cavity| self.stands_for(&cavity.label))
                .collect();
            let labels = self.new.cavities.iter().map(|cavity| cavity.label.clone());
            let now: Vec<Label> = labels.filter(|l| is(self.new, l) && !were.contains(l)).collect();
            if !now.is_empty() {
                let how = if what == Delivered::Blocked { "moulded shut" } else { "delivered with a plug" };
                let say = format!("On the new housing {} {how}: {}.", is_or_are(&now), list_of(&now));
                self.add(kind, now, say);
            }
        }
    }

    fn bridges(&mut self) {
        for bridge in &self.old.bridges {
            let at: BTreeSet<Label> = bridge.at.iter().map(|label| self.stands_for(label)).collect();
            let has = |new: &super::Bridge| at.iter().all(|label| new.at.contains(label));
            if !self.new.bridges.iter().any(has) {
                let at: Vec<Label> = at.into_iter().collect();
                let say = format!("The new housing has no {} at {}.", bridge.name, list_of(&at));
                self.add(HousingDifferenceKind::Bridge, at, say);
            }
        }
        for bridge in &self.new.bridges {
            let stands = |old: &super::Bridge| old.at.iter().map(|l| self.stands_for(l)).collect::<Vec<_>>();
            if !self.old.bridges.iter().any(|old| stands(old).iter().all(|l| bridge.at.contains(l))) {
                let say = format!("Only the new housing has a {} at {}.", bridge.name, list_of(&bridge.at));
                self.add(HousingDifferenceKind::Bridge, bridge.at.clone(), say);
            }
        }
    }

    /// Gender, key code, latch side and sealing.
    fn outside(&mut self) {
        let (old, new) = (self.old, self.new);
        if old.gender != new.gender {
            let say = format!("The old housing is {}, the new one {}.", old.gender.word(), new.gender.word());
            self.add(HousingDifferenceKind::Gender, Vec::new(), say);
        }
        if old.key_code != new.key_code {
            let code = |housing: &Housing| housing.key_code.clone().unwrap_or_else(|| "none".to_owned());
            let say =
                format!("The key code of the old housing is {}, of the new one {}.", code(old), code(new));
            self.add(HousingDifferenceKind::KeyCode, Vec::new(), say);
        }
        for feature in &old.features {
            let there = new.features.iter().find(|f| f.name.eq_ignore_ascii_case(&feature.name));
            let say = match there {
                None => format!("The new housing has no {}.", feature.name),
                Some(there) if from_wire_side(there.side, new) != from_wire_side(feature.side, old) => {
                    format!("The {} of the new housing is on another side.", feature.name)
                }
                Some(_) => continue,
            };
            self.add(HousingDifferenceKind::FeatureSide, Vec::new(), say);
        }
        if old.sealing != new.sealing {
            let (old, new) = (sealing_in_words(&old.sealing), sealing_in_words(&new.sealing));
            self.add(
                HousingDifferenceKind::Sealing,
                Vec::new(),
                format!("The old housing is {old}, the new one {new}."),
            );
        }
    }

    fn lock(&mut self) {
        let say = match (&self.old.lock, &self.new.lock) {
            (None, None) => return,
            (Some(old), None) => {
                format!("The new housing has no secondary lock; the old one has a {}.", old.kind)
            }
            (None, Some(new)) => format!("Only the new housing has a secondary lock, a {}.", new.kind),
            (Some(old), Some(new)) => match lock_difference(old, new) {
                Some(say) => say,
                None => return,
            },
        };
        self.add(HousingDifferenceKind::Lock, Vec::new(), say);
    }

    fn small_parts(&mut self) {
        let of = |part: &Option<SmallPart>| part.iter().map(|p| (p.name.clone(), p.supplied)).next();
        if let Some(say) =
            part_difference("position assurance", of(&self.old.assurance), of(&self.new.assurance))
        {
            self.add(HousingDifferenceKind::Assurance, Vec::new(), say);
        }
        let names: BTreeSet<&str> =
            self.old.small_parts.iter().chain(&self.new.small_parts).map(|part| part.name.as_str()).collect();
        for name in names {
            let find = |housing: &Housing| {
                let part = housing.small_parts.iter().find(|part| part.name == name);
                part.map(|part| (part.name.clone(), part.supplied))
            };
            if let Some(say) = part_difference(name, find(self.old), find(self.new)) {
                self.add(HousingDifferenceKind::SmallPart, Vec::new(), say);
            }
        }
    }
}

fn is_or_are(labels: &[Label]) -> &'static str {
    if labels.len() == 1 { "this cavity is" } else { "these cavities are" }
}

/// Left and right of a drawing of the mating face change places on the wire side.
fn from_wire_side(side: Side, housing: &Housing) -> Side {
    match (housing.drawn, side) {
        (Face::Mating, Side::Left | Side::Right) => side.opposite(),
        _ => side,
    }
}

fn sealing_in_words(sealing: &Sealing) -> String {
    match sealing {
        Sealing::Individual => "sealed wire by wire".to_owned(),
        Sealing::Mat { hole_mm: (least, most) } => format!("sealed by a mat for {least} to {most} mm"),
        Sealing::Unsealed => "not sealed".to_owned(),
    }
}

/// How one lock differs from the other: kind, how terminals get in, whether it comes along.
fn lock_difference(old: &SecondaryLock, new: &SecondaryLock) -> Option<String> {
    let open = |lock: &SecondaryLock| match lock.open_state {
        LockState::Out => "taken out",
        _ => "pre-set",
    };
    if old.kind != new.kind {
        return Some(format!("The new housing's lock is a {}, the old one's a {}.", new.kind, old.kind));
    }
    if old.open_state != new.open_state {
        return Some(format!(
            "The new {} has to be {} for terminals, the old one {}.",
            new.kind,
            open(new),
            open(old)
        ));
    }
    if new.supplied == Supplied::Separate {
        return Some(format!("The {} of the new housing is supplied separately.", new.kind));
    }
    if new.delivered != new.open_state {
        return Some(format!(
            "The {} of the new housing comes closed: open it before the first terminal.",
            new.kind
        ));
    }
    (old.released_from != new.released_from)
        .then(|| format!("The {} of the new housing is released from the other face.", new.kind))
}

fn part_difference(
    name: &str,
    old: Option<(String, Supplied)>,
    new: Option<(String, Supplied)>,
) -> Option<String> {
    match (old, new) {
        (Some(_), None) => Some(format!("The new housing has no {name}.")),
        (None, Some(_)) => Some(format!("Only the new housing has a {name}.")),
        (_, Some((_, Supplied::Separate))) => {
            Some(format!("The {name} of the new housing is supplied separately."))
        }
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::Catalogue;

    fn housing(id: &str) -> Housing {
        Catalogue::built_in().find(id).unwrap().housing().clone()
    }

    fn kinds(old: &Housing, new: &Housing) -> Vec<HousingDifferenceKind> {
        differences(old, new).into_iter().map(|d| d.kind).collect()
    }

    #[test]
    fn a_housing_does_not_differ_from_itself() {
        for file in Catalogue::built_in().families().unwrap() {
            for housing in &file.family.housings {
                let separate = housing.small_parts.iter().any(|p| p.supplied == Supplied::Separate);
                assert_eq!(differences(housing, housing).is_empty(), !separate, "{}", housing.id);
            }
        }
    }

    #[test]
    fn a_missing_shorting_clip_is_named_with_its_cavities() {
        let found = differences(&housing("kw-16"), &housing("kw-16n"));
        let [clip] = found.as_slice() else { panic!("{found:?}") };
        assert_eq!(clip.say, "The new housing has no shorting clip at 1 and 2.");
        assert!(differences(&housing("kw-16"), &housing("kw-16s")).is_empty());
    }

    #[test]
    fn pin_and_socket_differ_in_gender_and_places() {
        use HousingDifferenceKind as D;
        assert_eq!(kinds(&housing("de-9-pin"), &housing("de-9-socket")), [D::Places, D::Gender]);
        assert_eq!(kinds(&housing("iso-1724"), &housing("iso-3732")), [D::KeyCode]);
    }

    #[test]
    fn blocked_plugged_and_other_sizes_are_found_on_the_new_housing() {
        use HousingDifferenceKind as D;
        let old = housing("sp-16");
        let mut new = old.clone();
        new.cavities[5].delivered = Delivered::Blocked;
        new.cavities[8].delivered = Delivered::Plugged;
        new.cavities[9].size = "2.8".parse().unwrap();
        assert_eq!(kinds(&old, &new), [D::Size, D::Blocked, D::Plugged]);
        assert_eq!(differences(&old, &new)[1].say, "On the new housing this cavity is moulded shut: 6.");
    }
}
