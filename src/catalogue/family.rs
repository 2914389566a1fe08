//! What a family is: plain data, checked once when it was read.

use std::collections::BTreeMap;

use crate::{
    face::{
        Face, Label, Layout, Misreading, Pose, PosePlace, SeenSpot, Side, Spot, distance, misread, rows,
        seen_from, smallest_distance,
    },
    quantity::Length,
};

use super::{FamilyId, HousingId, PartNumber, SizeName};

/// Parts made for each other.
#[derive(Debug, Clone, PartialEq)]
pub struct Family {
    /// The family's id.
    pub id: FamilyId,
    /// What people call it.
    pub title: String,
    /// Where its figures come from.
    pub source: Source,
    /// The terminals.
    pub terminals: Vec<Terminal>,
    /// The seals crimped on single wires.
    pub wire_seals: Vec<WireSeal>,
    /// The blanking plugs.
    pub plugs: Vec<Plug>,
    /// The housings.
    pub housings: Vec<Housing>,
}

/// Where a definition's figures come from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Source {
    /// Made up for demonstration and drills.
    Invented,
    /// A published standard.
    Standard {
        /// The standard's number.
        standard: String,
        /// The part of it.
        clause: String,
        /// What was read, and where.
        read: String,
        /// What is from memory.
        from_memory: String,
    },
    /// Measured or copied by the shop itself.
    Shop {
        /// How.
        how: String,
    },
}

/// Male (pin) or female (socket).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Gender {
    /// Pins.
    Male,
    /// Sockets.
    Female,
}

impl Gender {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Male, Self::Female];

    /// In a word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Male => "male",
            Self::Female => "female",
        }
    }
}

/// What holds a terminal in its cavity.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PrimaryLock {
    /// A spring finger on the terminal.
    Tang,
    /// A plastic finger in the housing.
    HousingFinger,
}

/// The face a tool or a lock works from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AccessFace {
    /// The mating face.
    Front,
    /// The wire face.
    Rear,
}

/// How a terminal goes in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Seating {
    /// Pushed in from the wire face.
    Push,
    /// Pulled in by its wire from the mating face: such a lead cannot be moved whole.
    Pull,
}

/// A terminal.
#[derive(Debug, Clone, PartialEq)]
pub struct Terminal {
    /// Part number.
    pub part: PartNumber,
    /// Cavity size it fits.
    pub size: SizeName,
    /// Male or female.
    pub gender: Gender,
    /// Plating, in words.
    pub plating: String,
    /// Conductor areas it takes, least and most, in mm².
    pub wire_mm2: (f64, f64),
    /// Insulation diameters it grips, least and most, in mm.
    pub insulation_mm: (f64, f64),
    /// Strip length.
    pub strip_mm: Option<f64>,
    /// Wire used up by one re-termination.
    pub used_mm: Option<f64>,
    /// What holds it.
    pub held_by: PrimaryLock,
    /// Where the release tool goes in.
    pub released_from: AccessFace,
    /// Pushed or pulled in.
    pub seating: Seating,
    /// Crimp heights, by wire.
    pub crimps: Vec<CrimpHeight>,
}

/// The height a crimp on one wire has to have.
#[derive(Debug, Clone, PartialEq)]
pub struct CrimpHeight {
    /// Conductor area in mm².
    pub wire_mm2: f64,
    /// Height in mm.
    pub height_mm: f64,
    /// How far from it is good, either way, in mm.
    pub tolerance_mm: f64,
    /// Who says so.
    pub origin: String,
}

/// A sheet's line holds for a wire this near in area, in share of it.
const SAME_AREA: f64 = 0.005;

impl Terminal {
    /// The crimp height its sheet has for a wire of this area; none where it has none.
    pub fn height_for(&self, area_mm2: f64) -> Option<(f64, f64)> {
        let line = self.crimps.iter().find(|c| ((c.wire_mm2 - area_mm2) / area_mm2).abs() <= SAME_AREA)?;
        Some((line.height_mm, line.tolerance_mm))
    }
}

/// A seal crimped on the insulation of one wire.
#[derive(Debug, Clone, PartialEq)]
pub struct WireSeal {
    /// Part number.
    pub part: PartNumber,
    /// Cavity size it fits.
    pub size: SizeName,
    /// Insulation diameters it seals, least and most, in mm.
    pub insulation_mm: (f64, f64),
    /// Its colour, in words.
    pub colour: String,
}

/// A blanking plug.
#[derive(Debug, Clone, PartialEq)]
pub struct Plug {
    /// Part number.
    pub part: PartNumber,
    /// Cavity size it fits.
    pub size: SizeName,
    /// Its colour, in words.
    pub colour: String,
    /// How many are sold in one pack, when not single.
    pub pack: Option<u32>,
}

/// How a housing keeps water out.
#[derive(Debug, Clone, PartialEq)]
pub enum Sealing {
    /// A seal on every wire.
    Individual,
    /// One rubber block with a hole for each cavity; insulation diameters its holes take, in mm.
    Mat {
        /// Least and most insulation diameter, in mm.
        hole_mm: (f64, f64),
    },
    /// Not sealed.
    Unsealed,
}

impl Sealing {
    /// Whether the housing keeps water out at all.
    pub fn is_sealed(&self) -> bool {
        !matches!(self, Self::Unsealed)
    }
}

/// A feature that tells the sides apart, such as the latch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Feature {
    /// Its name: `latch`, `key`, `lock`, `groove`.
    pub name: String,
    /// The side of the drawing it is on.
    pub side: Side,
}

/// States of a secondary lock.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LockState {
    /// Locked: holds every terminal.
    FullSet,
    /// Fitted, open: terminals can go in and out.
    PreSet,
    /// Out of the housing.
    Out,
    /// Broken.
    Broken,
}

/// Whether a companion part comes with the housing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Supplied {
    /// In the bag with the housing.
    With,
    /// Ordered by itself.
    Separate,
}

/// The one part that locks all terminals.
#[derive(Debug, Clone, PartialEq)]
pub struct SecondaryLock {
    /// Part number, when it can be ordered by itself.
    pub part: Option<PartNumber>,
    /// Its kind: wedge, comb, slide, flap.
    pub kind: String,
    /// The state in which terminals can go in and out: pre-set or out.
    pub open_state: LockState,
    /// Where it is released from.
    pub released_from: AccessFace,
    /// The state it is delivered in.
    pub delivered: LockState,
    /// With the housing or by itself.
    pub supplied: Supplied,
}

/// A part that belongs to a housing: position assurance, interface seal, retainer, cover, boot.
#[derive(Debug, Clone, PartialEq)]
pub struct SmallPart {
    /// What it is, unique within the housing: `interface seal`.
    pub name: String,
    /// Part number.
    pub part: Option<PartNumber>,
    /// With the housing or by itself.
    pub supplied: Supplied,
}

/// What a cavity holds when the housing is delivered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Delivered {
    /// Nothing.
    Bare,
    /// Moulded shut.
    Blocked,
    /// A plug.
    Plugged,
    /// A shorting clip or bridge.
    Bridge,
}

/// A bridge, shunt or shorting clip a housing is delivered with.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bridge {
    /// What it is: `shorting clip`.
    pub name: String,
    /// Part number.
    pub part: Option<PartNumber>,
    /// The cavities it joins.
    pub at: Vec<Label>,
}

/// One cavity.
#[derive(Debug, Clone, PartialEq)]
pub struct Cavity {
    /// The label moulded beside it.
    pub label: Label,
    /// Its size, matching terminals, seals and plugs.
    pub size: SizeName,
    /// The side (in the drawing) a terminal's tang points to.
    pub tang: Option<Side>,
    /// What it holds on delivery.
    pub delivered: Delivered,
}

/// A housing.
#[derive(Debug, Clone, PartialEq)]
pub struct Housing {
    /// Its id, unique over all families.
    pub id: HousingId,
    /// Part number.
    pub part: PartNumber,
    /// What people call it.
    pub title: String,
    /// Mould revision, when marked.
    pub revision: Option<String>,
    /// Male or female, as its terminals.
    pub gender: Gender,
    /// Its colour, in words.
    pub colour: Option<String>,
    /// Key code, when it has one.
    pub key_code: Option<String>,
    /// How it keeps water out.
    pub sealing: Sealing,
    /// The face it is drawn from; the drawing's top is up.
    pub drawn: Face,
    /// What tells the sides apart; the first is the one spoken of.
    pub features: Vec<Feature>,
    /// Layout and numbering as described.
    pub layout: Layout,
    /// Distance between neighbours in mm, when known.
    pub pitch_mm: Option<f64>,
    /// Where the cavities sit in the drawing, in the order of the numbering.
    pub spots: Vec<Spot>,
    /// The cavities, in the order of the numbering.
    pub cavities: Vec<Cavity>,
    /// The bridges and clips it is delivered with.
    pub bridges: Vec<Bridge>,
    /// Its secondary lock.
    pub lock: Option<SecondaryLock>,
    /// The clip that proves the halves are latched.
    pub assurance: Option<SmallPart>,
    /// Seals, retainers, covers and the like.
    pub small_parts: Vec<SmallPart>,
    /// Other numberings of the same cavities: name, then (moulded, other).
    pub also: Vec<(String, Vec<(Label, Label)>)>,
    /// Older housings this one replaces, with the map of their cavities onto these.
    pub replaces: Vec<(HousingId, Vec<(Label, Label)>)>,
}

impl Housing {
    /// The cavity with this label.
    pub fn cavity(&self, label: &Label) -> Option<&Cavity> {
        self.cavities.iter().find(|cavity| cavity.label == *label)
    }

    /// The side a word means: a side's own name, or the name of a feature.
    pub fn side_of(&self, word: &str) -> Option<Side> {
        word.parse().ok().or_else(|| {
            self.features.iter().find(|f| f.name.eq_ignore_ascii_case(word.trim())).map(|f| f.side)
        })
    }

    /// The feature on a side, if any.
    pub fn feature_on(&self, side: Side) -> Option<&str> {
        self.features.iter().find(|f| f.side == side).map(|f| f.name.as_str())
    }

    /// What a cavity is called in the other numberings: `row by row 26`; empty when in none.
    pub fn also_called(&self, label: &Label) -> String {
        let named = self.also.iter().filter_map(|(name, pairs)| {
            let (_, other) = pairs.iter().find(|(moulded, _)| moulded == label)?;
            Some(format!("{name} {other}"))
        });
        named.collect::<Vec<_>>().join(", ")
    }

    /// The pose it is drawn in.
    pub fn drawn_pose(&self) -> Pose {
        Pose { face: self.drawn, up: Side::Top }
    }

    /// Its cavities as seen in a pose, in the order of the numbering.
    pub fn seen(&self, pose: Pose) -> Vec<SeenSpot> {
        seen_from(&self.spots, self.drawn, pose)
    }

    /// The place of a cavity as the eye finds it in a pose.
    pub fn place_of(&self, label: &Label, pose: Pose) -> Option<PosePlace> {
        self.seen(pose).iter().find(|spot| spot.label == *label)?.place()
    }

    /// The cavity at a place in a pose.
    pub fn label_at(&self, place: PosePlace, pose: Pose) -> Option<Label> {
        self.seen(pose).into_iter().find(|spot| spot.place() == Some(place)).map(|spot| spot.label)
    }

    /// Which cavity is taken for which when it is held in `pose` and misread; none when the outline of the
    /// cavities is not the same misread.
    pub fn misread(&self, pose: Pose, how: Misreading) -> Option<BTreeMap<Label, Label>> {
        misread(&self.spots, self.drawn, pose, how)
    }

    /// Its rows as drawn, from the top, each in the order of the numbering; all cavities in one row
    /// where there are none.
    pub fn rows(&self) -> Vec<Vec<Label>> {
        rows(&self.spots, self.drawn)
    }

    /// How far two cavities are from one another, in mm or grid units.
    pub fn distance(&self, one: &Label, other: &Label) -> Option<f64> {
        let spot = |label: &Label| self.spots.iter().find(|spot| spot.label == *label);
        Some(distance(spot(one)?, spot(other)?))
    }

    /// Whether two cavities are neighbours: no further apart than one and a half smallest pitches.
    pub fn are_neighbours(&self, one: &Label, other: &Label) -> bool {
        self.distance(one, other).is_some_and(|d| d <= 1.5 * smallest_distance(&self.spots) + 1e-9)
    }
}

impl Family {
    /// The housing with this id, or with this part number compared without case.
    pub fn housing(&self, id_or_part: &str) -> Option<&Housing> {
        self.housings.iter().find(|h| h.id.as_str() == id_or_part || h.part.is_same(id_or_part))
    }

    /// The plug for a cavity size.
    pub fn plug_for(&self, size: &SizeName) -> Option<&Plug> {
        self.plugs.iter().find(|plug| plug.size == *size)
    }

    /// The terminals that fit a cavity size.
    pub fn terminals_for<'a>(&'a self, size: &'a SizeName) -> impl Iterator<Item = &'a Terminal> {
        self.terminals.iter().filter(move |terminal| terminal.size == *size)
    }

    /// The seal of a cavity size for an insulation diameter.
    pub fn seal_for(&self, size: &SizeName, insulation: &Length) -> Option<&WireSeal> {
        self.wire_seals.iter().find(|seal| {
            seal.size == *size && (seal.insulation_mm.0..=seal.insulation_mm.1).contains(&insulation.mm())
        })
    }
}
