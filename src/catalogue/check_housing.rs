//! A housing as written, checked against its own cavities and the parts of its family.

use std::collections::{BTreeMap, BTreeSet};

use super::{
    check_layout::layout,
    check_parts::{Parts, gather, range, sizes_in_words},
    draft::{BridgeDraft, FamilyDraft, HousingDraft, LockDraft, SealingDraft, SmallPartDraft},
    family::{
        Bridge, Cavity, Delivered, Feature, Housing, LockState, Sealing, SecondaryLock, SmallPart, Supplied,
    },
    finding::{FieldPath, Findings},
    part::{HousingId, PartNumber, SizeName},
};
use crate::{
    face::{Label, Layout, Side, Spot},
    quantity::{TextProblem, plain_text},
};

type LabelPairs = Vec<(Label, Label)>;

/// Checks a housing; none when something about it was found.
pub(super) fn check_housing(
    draft: &HousingDraft,
    path: &FieldPath,
    parts: &Parts,
    family: &FamilyDraft,
    findings: &mut Findings,
) -> Option<Housing> {
    let id = findings.take(path.field("id"), draft.id.parse::<HousingId>());
    let part = findings.take(path.field("part"), draft.part.parse());
    let title = findings.take(path.field("title"), plain_text("title", &draft.title, 120));
    let revision = optional(&draft.revision, "revision", path, findings);
    let colour = optional(&draft.colour, "colour", path, findings);
    let key_code = optional(&draft.key_code, "key_code", path, findings);
    let sealing = sealing(&draft.sealing, path, findings);
    let features = features(draft, path, findings);
    let lock = draft.lock.as_ref().and_then(|lock| check_lock(lock, &path.field("lock"), findings));
    let assurance_path = path.field("assurance");
    let assurance = draft.assurance.as_ref().and_then(|part| small_part(part, &assurance_path, findings));
    let small_parts = gather(&draft.small_parts, path.field("small_parts"), findings, small_part);
    check_names_differ(draft.small_parts.iter().map(|p| p.name.as_str()), "small_parts", path, findings);
    let (layout, spots) = laid_out(draft, path, findings)?;
    let mut cavities = Cavities { spots: &spots, findings };
    let bridges = gather_bridges(draft, path, &mut cavities);
    let cells = cavities.all(draft, path, parts, &sealing, &bridges);
    let also = cavities.also(draft, path);
    let replaces = cavities.replaces(draft, path, family);
    Some(Housing {
        id: id?,
        part: part?,
        title: title?,
        revision,
        gender: draft.gender,
        colour,
        key_code,
        sealing,
        drawn: draft.drawn,
        features,
        pitch_mm: layout.pitch_mm(&spots),
        layout,
        cavities: cells,
        bridges,
        lock,
        assurance,
        small_parts,
        also,
        replaces,
        spots,
    })
}

fn laid_out(draft: &HousingDraft, path: &FieldPath, findings: &mut Findings) -> Option<(Layout, Vec<Spot>)> {
    let layout = findings.take(path.field("layout"), layout(&draft.layout))?;
    let spots = findings.take(path.field("layout"), layout.spots())?;
    Some((layout, spots))
}

fn optional(
    text: &Option<String>,
    name: &'static str,
    path: &FieldPath,
    findings: &mut Findings,
) -> Option<String> {
    text.as_ref().and_then(|text| findings.take(path.field(name), plain_text(name, text, 40)))
}

fn sealing(draft: &SealingDraft, path: &FieldPath, findings: &mut Findings) -> Sealing {
    match draft {
        SealingDraft::Individual => Sealing::Individual,
        SealingDraft::Unsealed => Sealing::Unsealed,
        SealingDraft::Mat { hole_mm } => {
            range(*hole_mm, path.field("sealing").field("hole_mm"), findings);
            Sealing::Mat { hole_mm: *hole_mm }
        }
    }
}

fn features(draft: &HousingDraft, path: &FieldPath, findings: &mut Findings) -> Vec<Feature> {
    check_names_differ(draft.features.iter().map(|(name, _)| name.as_str()), "features", path, findings);
    let mut features = Vec::new();
    for (n, (name, side)) in draft.features.iter().enumerate() {
        let path = path.field("features").index(n);
        if name.parse::<Side>().is_ok() {
            findings.add_with(path, format!("{name} is a side, not a feature"), "such as latch, key or lock");
        } else if let Some(name) = findings.take(path, plain_text("feature", name, 20)) {
            features.push(Feature { name, side: *side });
        }
    }
    features
}

fn check_names_differ<'a>(
    names: impl Iterator<Item = &'a str>,
    list: &'static str,
    path: &FieldPath,
    findings: &mut Findings,
) {
    let mut seen = BTreeSet::new();
    for (n, name) in names.enumerate() {
        if !seen.insert(name.trim().to_lowercase()) {
            findings.add(path.field(list).index(n), format!("{name} stands here twice"));
        }
    }
}

/// A part that comes by itself can only be ordered by its number.
fn part_to_order(
    part: &Option<String>,
    supplied: Supplied,
    path: &FieldPath,
    findings: &mut Findings,
) -> Option<PartNumber> {
    if part.is_none() && supplied == Supplied::Separate {
        findings.add(path.field("supplied"), "a part supplied by itself needs its part number");
    }
    part.as_ref().and_then(|part| findings.take(path.field("part"), part.parse()))
}

fn check_lock(draft: &LockDraft, path: &FieldPath, findings: &mut Findings) -> Option<SecondaryLock> {
    let open_state = draft.open;
    if !matches!(open_state, LockState::PreSet | LockState::Out) {
        let say = "terminals can go in and out only while the lock is pre-set or out";
        findings.add_with(path.field("open"), say, "allowed: PreSet, Out");
    }
    let delivered = draft.delivered;
    if delivered == LockState::Broken {
        let say = "no lock is delivered broken";
        findings.add_with(path.field("delivered"), say, "allowed: FullSet, PreSet, Out");
    }
    let supplied = draft.supplied;
    let part = part_to_order(&draft.part, supplied, path, findings);
    let kind = findings.take(path.field("kind"), plain_text("kind of lock", &draft.kind, 40))?;
    let released_from = draft.released_from;
    Some(SecondaryLock { part, kind, open_state, released_from, delivered, supplied })
}

fn small_part(draft: &SmallPartDraft, path: &FieldPath, findings: &mut Findings) -> Option<SmallPart> {
    let supplied = draft.supplied;
    let part = part_to_order(&draft.part, supplied, path, findings);
    let name = findings.take(path.field("name"), plain_text("name", &draft.name, 40))?;
    Some(SmallPart { name, part, supplied })
}

fn gather_bridges(draft: &HousingDraft, path: &FieldPath, cavities: &mut Cavities<'_>) -> Vec<Bridge> {
    let mut bridges = Vec::new();
    for (n, bridge) in draft.bridges.iter().enumerate() {
        bridges.extend(cavities.bridge(bridge, &path.field("bridges").index(n)));
    }
    bridges
}

/// The cavities of the housing under check, and what was found about it.
struct Cavities<'a> {
    spots: &'a [Spot],
    findings: &'a mut Findings,
}

impl Cavities<'_> {
    /// The cavities with size, tang and what they hold on delivery.
    fn all(
        &mut self,
        draft: &HousingDraft,
        path: &FieldPath,
        parts: &Parts,
        sealing: &Sealing,
        bridges: &[Bridge],
    ) -> Vec<Cavity> {
        let delivered = self.delivered(draft, path, bridges);
        let sizes = self.sizes(draft, path);
        let mut tangs: BTreeMap<Label, Side> = BTreeMap::new();
        for (n, (side, at)) in draft.tangs.iter().enumerate() {
            let path = path.field("tangs").index(n).index(1);
            for label in self.labels(at, &path) {
                if tangs.insert(label.clone(), *side).is_some() {
                    self.findings.add(path.clone(), format!("cavity {label} has a tang direction already"));
                }
            }
        }
        let usual = self.findings.take(path.field("size"), draft.size.parse::<SizeName>());
        let cavities: Vec<Cavity> = self
            .spots
            .iter()
            .filter_map(|spot| {
                let label = spot.label.clone();
                let size = sizes.get(&label).or(usual.as_ref())?.clone();
                let delivered = delivered.get(&label).copied().unwrap_or(Delivered::Bare);
                Some(Cavity { tang: tangs.get(&label).copied(), label, size, delivered })
            })
            .collect();
        self.check_parts(&cavities, draft, path, parts, sealing);
        cavities
    }

    fn sizes(&mut self, draft: &HousingDraft, path: &FieldPath) -> BTreeMap<Label, SizeName> {
        let mut sizes = BTreeMap::new();
        for (n, (size, at)) in draft.sizes.iter().enumerate() {
            let path = path.field("sizes").index(n);
            let size = self.findings.take(path.index(0), size.parse::<SizeName>());
            for label in self.labels(at, &path.index(1)) {
                let Some(size) = size.clone() else { continue };
                if sizes.insert(label.clone(), size).is_some() {
                    self.findings.add(path.index(1), format!("cavity {label} has a size already"));
                }
            }
        }
        sizes
    }

    fn delivered(
        &mut self,
        draft: &HousingDraft,
        path: &FieldPath,
        bridges: &[Bridge],
    ) -> BTreeMap<Label, Delivered> {
        let mut named: Vec<(FieldPath, Label, Delivered)> = Vec::new();
        for (name, listed, what) in
            [("blocked", &draft.blocked, Delivered::Blocked), ("plugged", &draft.plugged, Delivered::Plugged)]
        {
            let path = path.field(name);
            named.extend(self.labels(listed, &path).into_iter().map(|label| (path.clone(), label, what)));
        }
        let bridged = bridges.iter().flat_map(|bridge| bridge.at.clone());
        named.extend(bridged.map(|label| (path.field("bridges"), label, Delivered::Bridge)));
        let mut delivered = BTreeMap::new();
        for (path, label, what) in named {
            if delivered.insert(label.clone(), what).is_some() {
                let say = format!("cavity {label} is named twice as blocked, plugged or bridged");
                self.findings.add(path, say);
            }
        }
        delivered
    }

    /// What the cavities need has to be in the family: terminals of their size and gender, seals
    /// and plugs where water is kept out, plugs where they are delivered.
    fn check_parts(
        &mut self,
        cavities: &[Cavity],
        draft: &HousingDraft,
        path: &FieldPath,
        parts: &Parts,
        sealing: &Sealing,
    ) {
        let known: BTreeSet<&SizeName> = parts.terminal_sizes(draft.gender).into_iter().collect();
        let open: Vec<&Cavity> = cavities.iter().filter(|c| c.delivered != Delivered::Blocked).collect();
        let used: BTreeSet<&SizeName> = open.iter().map(|c| &c.size).collect();
        for size in used {
            let at = draft.sizes.iter().position(|(name, _)| name.trim() == size.as_str());
            let path = at.map_or(path.field("size"), |n| path.field("sizes").index(n).index(0));
            // A housing described at the bench has no parts yet: nothing can be held against them.
            if parts.are_none() {
                continue;
            }
            if !known.contains(size) {
                let say = format!("no terminal of this gender in the family has the size {size}");
                self.findings.add_with(path, say, sizes_in_words(&known));
                continue;
            }
            if *sealing == Sealing::Individual && !parts.has_seal(size) {
                let say = format!("a housing sealed wire by wire needs a wire seal of the size {size}");
                self.findings.add(path.clone(), say);
            }
            let plugged = open.iter().any(|c| c.size == *size && c.delivered == Delivered::Plugged);
            if (sealing.is_sealed() || plugged) && !parts.has_plug(size) {
                let reason = if plugged { "delivered with plugs" } else { "that is sealed" };
                let say = format!("a housing {reason} needs a plug of the size {size}");
                self.findings.add(path, say);
            }
        }
    }

    fn bridge(&mut self, draft: &BridgeDraft, path: &FieldPath) -> Option<Bridge> {
        let at = self.labels(&draft.at, &path.field("at"));
        if draft.at.is_empty() {
            self.findings.add(path.field("at"), "a bridge or clip sits in at least one cavity");
        }
        let part = draft.part.as_ref();
        let part = part.and_then(|part| self.findings.take(path.field("part"), part.parse()));
        let name = self.findings.take(path.field("name"), plain_text("name", &draft.name, 40))?;
        Some(Bridge { name, part, at })
    }

    fn also(&mut self, draft: &HousingDraft, path: &FieldPath) -> Vec<(String, LabelPairs)> {
        check_names_differ(draft.also.iter().map(|(name, _)| name.as_str()), "also", path, self.findings);
        let mut also = Vec::new();
        for (n, (name, pairs)) in draft.also.iter().enumerate() {
            let path = path.field("also").index(n);
            let name = self.findings.take(path.index(0), plain_text("name", name, 40));
            let pairs = self.pairs(pairs, &path.index(1), Some(self.spots), None);
            also.extend(name.map(|name| (name, pairs)));
        }
        also
    }

    fn replaces(
        &mut self,
        draft: &HousingDraft,
        path: &FieldPath,
        family: &FamilyDraft,
    ) -> Vec<(HousingId, LabelPairs)> {
        check_names_differ(draft.replaces.iter().map(|(id, _)| id.as_str()), "replaces", path, self.findings);
        let mut replaces = Vec::new();
        for (n, (id, pairs)) in draft.replaces.iter().enumerate() {
            let path = path.field("replaces").index(n);
            if *id == draft.id {
                self.findings.add(path.index(0), "a housing does not replace itself");
            }
            // A housing of another family cannot be looked into from here.
            let old = family.housings.iter().find(|housing| housing.id == *id);
            let old = old.and_then(|old| layout(&old.layout).ok()?.spots().ok());
            let id = self.findings.take(path.index(0), id.parse::<HousingId>());
            let pairs = self.pairs(pairs, &path.index(1), old.as_deref(), Some(self.spots));
            replaces.extend(id.map(|id| (id, pairs)));
        }
        replaces
    }

    /// Pairs of labels, no label twice on either side, each among the cavities given for its side.
    fn pairs(
        &mut self,
        pairs: &[(String, String)],
        path: &FieldPath,
        left: Option<&[Spot]>,
        right: Option<&[Spot]>,
    ) -> LabelPairs {
        let mut taken: LabelPairs = Vec::new();
        for (n, (from, to)) in pairs.iter().enumerate() {
            let path = path.entry(n, from);
            let labels: Result<(Label, Label), TextProblem> = from.parse().and_then(|f| Ok((f, to.parse()?)));
            let Some((from, to)) = self.findings.take(path.clone(), labels) else { continue };
            for (label, spots) in [(&from, left), (&to, right)] {
                if spots.is_some_and(|spots| spots.iter().all(|spot| spot.label != *label)) {
                    self.unknown(label.as_str(), spots.unwrap_or(&[]), path.clone());
                }
            }
            if taken.iter().any(|(f, t)| *f == from || *t == to) {
                self.findings.add(path, format!("{from} or {to} stands in two pairs"));
            }
            taken.push((from, to));
        }
        taken
    }

    /// The labels a list names; `A3..A7` stands for all from A3 to A7 in the order of the numbering.
    fn labels(&mut self, listed: &[String], path: &FieldPath) -> Vec<Label> {
        let mut labels: Vec<Label> = Vec::new();
        for (n, item) in listed.iter().enumerate() {
            let named = self.named(item, &path.index(n));
            for label in named {
                if labels.contains(&label) {
                    self.findings.add(path.index(n), format!("cavity {label} stands in the list already"));
                } else {
                    labels.push(label);
                }
            }
        }
        labels
    }

    fn named(&mut self, item: &str, path: &FieldPath) -> Vec<Label> {
        let position = |text: &str| self.spots.iter().position(|spot| spot.label.as_str() == text.trim());
        let range = match (position(item), item.split_once("..")) {
            (Some(at), _) => Some((at, at)),
            (None, Some((first, last))) => position(first).zip(position(last)).filter(|(f, l)| f <= l),
            (None, None) => None,
        };
        let Some((first, last)) = range else {
            self.unknown(item, self.spots, path.clone());
            return Vec::new();
        };
        self.spots.get(first..=last).unwrap_or(&[]).iter().map(|spot| spot.label.clone()).collect()
    }

    fn unknown(&mut self, label: &str, spots: &[Spot], path: FieldPath) {
        let ends = spots.first().zip(spots.last());
        let hint = ends.map_or(String::new(), |(first, last)| {
            format!("cavities: {} to {}, {} in all", first.label, last.label, spots.len())
        });
        self.findings.add_with(path, format!("there is no cavity {label}"), hint);
    }
}
