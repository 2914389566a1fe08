//! `repin housing`: which housings there are, what they look like, whether a family file is good.

use std::path::PathBuf;

use anyhow::{anyhow, bail};
use clap::Subcommand;
use serde::Serialize;

use super::{
    common::{Common, Exit},
    library, print,
};
use crate::{
    catalogue::{Delivered, Family, Housing, Sealing, Source},
    face::{Face, Label, Pose},
    form::{FamilyFile, problems_in_words, read_family},
    picture::{Covering, FaceOptions, Mark, Slot, draw_face},
    quantity::{count_of, harmless, quoted},
    screen::{Sitting, run_define},
};

#[derive(Debug, Subcommand)]
pub(super) enum HousingCommand {
    /// All housings there are
    List,
    /// Housings by what can be seen of them
    Find {
        /// Words that all have to fit: 24, 2x12, 2-row, pins, sockets, sealed, unsealed, a cavity size,
        /// a colour, what is moulded on it, or part of a name
        #[arg(required = true)]
        words: Vec<String>,
    },
    /// A drawing of a housing, from either face, any side up
    Show {
        /// Its id or part number
        housing: String,
        /// The face towards you: mating or wire
        #[arg(long)]
        face: Option<Face>,
        /// The side that is up: top, right, bottom, left (as drawn), or a feature such as latch
        #[arg(long, value_name = "SIDE")]
        up: Option<String>,
    },
    /// Describe a housing on the screen and save it as a family file (in --library, else in the store)
    Define,
    /// Checks family files
    Check {
        /// The files
        #[arg(required = true, value_name = "FILE")]
        files: Vec<PathBuf>,
    },
}

pub(super) fn run(common: &Common, command: &HousingCommand) -> anyhow::Result<Exit> {
    match command {
        HousingCommand::List => list(common, &[]),
        HousingCommand::Find { words } => list(common, words),
        HousingCommand::Show { housing, face, up } => {
            let definition = common.catalogue()?.find(housing)?;
            let (family, housing) = (definition.family(), definition.housing());
            let pose = pose(housing, *face, up.as_deref())?;
            match common.json {
                true => print::json(common, &ShownJson::of(housing, pose))?,
                false => print::text(common, &shown(family, housing, pose, common.ascii))?,
            }
            Ok(Exit::Fine)
        }
        HousingCommand::Check { files } => check(common, files),
        HousingCommand::Define => define(common),
    }
}

fn define(common: &Common) -> anyhow::Result<Exit> {
    let shop = common.shop()?;
    let folder = common.library.clone().unwrap_or_else(|| shop.library());
    let sitting = Sitting::new(shop, common.by(), common.ascii);
    match run_define(&sitting, &folder)? {
        Some(path) => print::text(
            common,
            &format!("{0}\nnext: complete it in an editor, then repin housing check {0}\n", path.display()),
        )?,
        None => print::text(common, "nothing was saved\n")?,
    }
    Ok(Exit::Fine)
}

/// A housing in a list.
#[derive(Serialize)]
struct ListedJson<'a> {
    id: &'a str,
    part: &'a str,
    title: &'a str,
    family: &'a str,
    cavities: usize,
    rows: usize,
    gender: &'static str,
    sealed: bool,
    colour: Option<&'a str>,
    source: &'static str,
    #[serde(skip)]
    housing: &'a Housing,
}

impl<'a> ListedJson<'a> {
    fn of(family: &'a Family, housing: &'a Housing) -> Self {
        Self {
            id: housing.id.as_str(),
            part: housing.part.as_str(),
            title: &housing.title,
            family: family.id.as_str(),
            cavities: housing.cavities.len(),
            rows: housing.rows().len(),
            gender: housing.gender.word(),
            sealed: housing.sealing.is_sealed(),
            colour: housing.colour.as_deref(),
            source: match family.source {
                Source::Invented => "invented",
                Source::Standard { .. } => "standard",
                Source::Shop { .. } => "shop",
            },
            housing,
        }
    }

    /// Whether a word fits what can be seen of the housing, or what it is called.
    fn fits(&self, word: &str) -> bool {
        let word = word.trim().to_lowercase();
        self.looks(&word) || self.is_called(&word)
    }

    /// A number of cavities, `2x12`, `2-row`, pins or sockets, sealed or not, a cavity size, a colour,
    /// or something moulded on it.
    fn looks(&self, word: &str) -> bool {
        let sealing = if self.sealed { "sealed" } else { "unsealed" };
        let gender = match self.gender {
            "male" => ["male", "pin", "pins"],
            _ => ["female", "socket", "sockets"],
        };
        let rows = word.strip_suffix("-rows").or_else(|| word.strip_suffix("-row"));
        let columns = self.housing.rows().iter().map(Vec::len).max().unwrap_or(0);
        let moulded = [&self.housing.revision, &self.housing.key_code];
        word == sealing
            || gender.contains(&word)
            || word == format!("{}x{columns}", self.rows)
            || rows.is_some_and(|rows| rows.parse() == Ok(self.rows))
            || word.parse() == Ok(self.cavities)
            || self.housing.cavities.iter().any(|cavity| cavity.size.as_str() == word)
            || self.colour.is_some_and(|colour| colour.eq_ignore_ascii_case(word))
            || moulded.iter().any(|text| text.as_ref().is_some_and(|text| text.eq_ignore_ascii_case(word)))
            || self.housing.features.iter().any(|feature| feature.name.eq_ignore_ascii_case(word))
    }

    /// A number as a whole part of a name, any other word as any part of one.
    fn is_called(&self, word: &str) -> bool {
        // "male" stands inside "female", and a gender is not looked for in names.
        if matches!(word, "male" | "female" | "sealed" | "unsealed") {
            return false;
        }
        let names = [self.id, self.part, self.title, self.family, self.source];
        match word.parse::<usize>() {
            Ok(_) => names.iter().any(|name| has_token(name, word)),
            Err(_) => names.iter().any(|name| name.to_lowercase().contains(word)),
        }
    }
}

/// Whether a name has this word between blanks and marks.
fn has_token(name: &str, word: &str) -> bool {
    name.split(|c: char| !c.is_alphanumeric()).any(|token| token.eq_ignore_ascii_case(word))
}

fn list(common: &Common, words: &[String]) -> anyhow::Result<Exit> {
    let families: Vec<FamilyFile> =
        common.catalogue()?.families().map_err(|problems| anyhow!(problems_in_words(&problems)))?;
    let all = families
        .iter()
        .flat_map(|file| file.family.housings.iter().map(|housing| ListedJson::of(&file.family, housing)));
    let mut listed: Vec<ListedJson<'_>> =
        all.filter(|housing| words.iter().all(|word| housing.fits(word))).collect();
    listed.sort_by_key(|housing| housing.id);
    match (common.json, listed.is_empty()) {
        (true, _) => print::json(common, &listed)?,
        (false, true) => print::text(common, "no housing fits\n")?,
        (false, false) => print::text(common, &table(&listed))?,
    }
    Ok(if listed.is_empty() { Exit::Problems } else { Exit::Fine })
}

/// Id, cavities and what it is, in columns.
fn table(listed: &[ListedJson<'_>]) -> String {
    let wide = listed.iter().map(|h| h.id.len()).max().unwrap_or(0);
    let part = listed.iter().map(|h| h.part.chars().count()).max().unwrap_or(0);
    let line = |h: &ListedJson<'_>| {
        let invented = if h.source == "invented" { " (invented)" } else { "" };
        format!("{:wide$}  {:part$}  {:>3}  {}{invented}\n", h.id, h.part, h.cavities, h.title)
    };
    listed.iter().map(line).collect()
}

fn pose(housing: &Housing, face: Option<Face>, up: Option<&str>) -> anyhow::Result<Pose> {
    let drawn = housing.drawn_pose();
    let up = match up {
        None => drawn.up,
        Some(word) => match housing.side_of(word) {
            Some(side) => side,
            None => {
                let features: String = housing.features.iter().map(|f| format!(", {}", f.name)).collect();
                let word = quoted(word);
                bail!("{} has no side \"{word}\": use top, right, bottom, left{features}", housing.part);
            }
        },
    };
    Ok(Pose { face: face.unwrap_or(drawn.face), up })
}

/// A housing as shown, for programs.
#[derive(Serialize)]
struct ShownJson<'a> {
    part: &'a str,
    face: String,
    up: UpJson<'a>,
    pitch: Option<f64>,
    cavities: Vec<CavityJson>,
}

#[derive(Serialize)]
struct UpJson<'a> {
    side: String,
    feature: Option<&'a str>,
}

#[derive(Serialize)]
struct CavityJson {
    label: String,
    row: Option<usize>,
    column: Option<usize>,
    x_mm: f64,
    y_mm: f64,
    size: String,
    holds: Option<&'static str>,
}

impl<'a> ShownJson<'a> {
    fn of(housing: &'a Housing, pose: Pose) -> Self {
        let cavities = housing.seen(pose).into_iter().filter_map(|seen| {
            let cavity = housing.cavity(&seen.label)?;
            Some(CavityJson {
                label: seen.label.to_string(),
                row: seen.row,
                column: seen.column,
                x_mm: seen.x,
                y_mm: seen.y,
                size: cavity.size.to_string(),
                holds: match cavity.delivered {
                    Delivered::Bare => None,
                    Delivered::Blocked => Some("blocked"),
                    Delivered::Plugged => Some("plugged"),
                    Delivered::Bridge => Some("bridge"),
                },
            })
        });
        Self {
            part: housing.part.as_str(),
            face: pose.face.to_string(),
            up: UpJson { side: pose.up.to_string(), feature: housing.feature_on(pose.up) },
            pitch: housing.pitch_mm,
            cavities: cavities.collect(),
        }
    }
}

/// A housing as shown, for people.
fn shown(family: &Family, housing: &Housing, pose: Pose, ascii: bool) -> String {
    let slot = |label: &Label| match housing.cavity(label).map(|cavity| cavity.delivered) {
        Some(Delivered::Blocked) => Slot::word("shut", Mark::Faint),
        Some(Delivered::Plugged) => Slot::word("plug", Mark::Plug),
        Some(Delivered::Bridge) => Slot::word("clip", Mark::Plain),
        Some(Delivered::Bare) | None => Slot::default(),
    };
    let (width, height) = (usize::MAX, usize::MAX);
    let options = FaceOptions { ascii, width, height, focus: None, covering: Covering::Nothing };
    let picture = draw_face(housing, pose, &slot, &options).picture;
    let sealing = match housing.sealing {
        Sealing::Individual => "sealed wire by wire",
        Sealing::Mat { .. } => "sealed by a mat",
        Sealing::Unsealed => "not sealed",
    };
    let (gender, cavities) = (housing.gender.word(), count_of(housing.cavities.len(), "cavity"));
    let also: String = housing.also.iter().map(|(name, pairs)| also_in_words(name, pairs)).collect();
    format!(
        "{} {}, {cavities}, {gender}, {sealing}\nseen: {}\n\n{}\n\n{also}source: {}\n",
        housing.part,
        housing.title,
        pose_in_words(housing, pose),
        picture.lines().join("\n"),
        source_in_words(&family.source),
    )
}

/// Another numbering of the same cavities, ten to a line.
fn also_in_words(name: &str, pairs: &[(Label, Label)]) -> String {
    let mut out = format!("also numbered {name}, moulded=other:\n");
    for line in pairs.chunks(10) {
        let pairs: String = line.iter().map(|(moulded, other)| format!(" {moulded}={other}")).collect();
        out.push_str(&format!(" {pairs}\n"));
    }
    out
}

/// Which face and which side is up: `wire side, latch up`.
fn pose_in_words(housing: &Housing, pose: Pose) -> String {
    format!("{} side, {}", pose.face, housing.up_in_words(pose))
}

fn source_in_words(source: &Source) -> String {
    match source {
        Source::Invented => "invented".to_owned(),
        Source::Standard { standard, clause, read, from_memory } => {
            format!("{standard}, {clause}\n  read: {read}\n  from memory: {from_memory}")
        }
        Source::Shop { how } => format!("the shop: {how}"),
    }
}

/// Checks every file, whatever is wrong with the others.
fn check(common: &Common, files: &[PathBuf]) -> anyhow::Result<Exit> {
    let mut problems = Vec::new();
    let mut said = String::new();
    for path in files {
        let name = path.display().to_string();
        match library::read_text(path) {
            Ok(Ok(text)) => match read_family(&name, &text) {
                Ok(file) => {
                    let housings = count_of(file.family.housings.len(), "housing");
                    said.push_str(&format!("{}: good, {housings}\n", harmless(&name)));
                }
                Err(found) => problems.extend(found.iter().map(ToString::to_string)),
            },
            Ok(Err(problem)) => problems.push(problem.to_string()),
            Err(error) => problems.push(format!("--> {}\n  {error:#}", harmless(&name))),
        }
    }
    if !problems.is_empty() {
        bail!("{}\n\n{}", count_of(problems.len(), "problem"), problems.join("\n\n"));
    }
    print::text(common, &said)?;
    Ok(Exit::Fine)
}
