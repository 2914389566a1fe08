//! `repin housing`: which housings there are, what they look like, whether a family file is good.

use std::path::PathBuf;

use anyhow::{anyhow, bail};
use clap::Subcommand;
use serde::Serialize;

use super::{Everywhere, Exit, Reply, library};
use crate::{
    catalogue::{
        Catalogue, Delivered, Family, FamilyFile, Housing, Sealing, Source, problems_in_words, read_family,
    },
    face::{Face, Pose},
    picture::{Content, FaceOptions, draw_face, pose_in_words},
    quantity::{count_of, harmless},
};

#[derive(Debug, Subcommand)]
pub(super) enum HousingCommand {
    /// All housings there are
    List,
    /// Housings by words, number of cavities or part number
    Find {
        /// Words that all have to fit: of the title, the part number, the family, or a number of cavities
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
    /// Checks family files
    Check {
        /// The files
        #[arg(required = true, value_name = "FILE")]
        files: Vec<PathBuf>,
    },
}

pub(super) fn run(command: HousingCommand, everywhere: &Everywhere) -> anyhow::Result<Reply> {
    let catalogue = || library::catalogue(everywhere.library.as_deref());
    match command {
        HousingCommand::List => list(&catalogue()?, &[], everywhere.json),
        HousingCommand::Find { words } => list(&catalogue()?, &words, everywhere.json),
        HousingCommand::Show { housing, face, up } => {
            let definition = catalogue()?.find(&housing)?;
            let (family, housing) = (definition.family(), definition.housing());
            let pose = pose(housing, face, up.as_deref())?;
            match everywhere.json {
                true => json(&ShownJson::of(housing, pose)),
                false => Ok(Reply::fine(shown(family, housing, pose, everywhere.ascii))),
            }
        }
        HousingCommand::Check { files } => check(&files),
    }
}

/// One JSON document.
fn json(document: &impl Serialize) -> anyhow::Result<Reply> {
    Ok(Reply::fine(serde_json::to_string_pretty(document)? + "\n"))
}

/// A housing in a list.
#[derive(Serialize)]
struct ListedJson<'a> {
    id: &'a str,
    part: &'a str,
    title: &'a str,
    family: &'a str,
    cavities: usize,
    gender: &'static str,
    sealed: bool,
    source: &'static str,
}

impl<'a> ListedJson<'a> {
    fn of(family: &'a Family, housing: &'a Housing) -> Self {
        Self {
            id: housing.id.as_str(),
            part: housing.part.as_str(),
            title: &housing.title,
            family: family.id.as_str(),
            cavities: housing.cavities.len(),
            gender: housing.gender.word(),
            sealed: housing.sealing.is_sealed(),
            source: match family.source {
                Source::Invented => "invented",
                Source::Standard { .. } => "standard",
                Source::Shop { .. } => "shop",
            },
        }
    }

    /// Whether a word fits: a number of cavities, or part of any of the names.
    fn fits(&self, word: &str) -> bool {
        let word = word.trim().to_lowercase();
        let names = [self.id, self.part, self.title, self.family, self.gender, self.source];
        word.parse() == Ok(self.cavities) || names.iter().any(|name| name.to_lowercase().contains(&word))
    }
}

fn list(catalogue: &Catalogue, words: &[String], as_json: bool) -> anyhow::Result<Reply> {
    let families: Vec<FamilyFile> =
        catalogue.families().map_err(|problems| anyhow!(problems_in_words(&problems)))?;
    let all = families
        .iter()
        .flat_map(|file| file.family.housings.iter().map(|housing| ListedJson::of(&file.family, housing)));
    let mut listed: Vec<ListedJson<'_>> =
        all.filter(|housing| words.iter().all(|word| housing.fits(word))).collect();
    listed.sort_by_key(|housing| housing.id);
    let exit = if listed.is_empty() { Exit::Problems } else { Exit::Fine };
    let text = match (as_json, listed.is_empty()) {
        (true, _) => json(&listed)?.text,
        (false, true) => "no housing fits\n".to_owned(),
        (false, false) => table(&listed),
    };
    Ok(Reply { text, exit })
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
                let word = harmless(word);
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
    let content = |label: &_| match housing.cavity(label).map(|cavity| cavity.delivered) {
        Some(Delivered::Blocked) => Content::blocked(),
        Some(Delivered::Plugged) => Content::plug(),
        Some(Delivered::Bridge) => Content::bridge(),
        _ => Content::bare(),
    };
    let face = draw_face(housing, pose, &content, FaceOptions { ascii, ..FaceOptions::default() });
    let sealing = match housing.sealing {
        Sealing::Individual => "sealed wire by wire",
        Sealing::Mat { .. } => "sealed by a mat",
        Sealing::Unsealed => "not sealed",
    };
    let (gender, cavities) = (housing.gender.word(), count_of(housing.cavities.len(), "cavity"));
    format!(
        "{} {}, {cavities}, {gender}, {sealing}\nseen: {}\n\n{}\nsource: {}\n",
        housing.part,
        housing.title,
        pose_in_words(housing, pose),
        face.picture.text(),
        source_in_words(&family.source),
    )
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
fn check(files: &[PathBuf]) -> anyhow::Result<Reply> {
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
    if problems.is_empty() {
        return Ok(Reply::fine(said));
    }
    let count = count_of(problems.len(), "problem");
    bail!("{}\n\n{count}", problems.join("\n\n"))
}
