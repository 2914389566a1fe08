//! `repin new`: a job that carries its own world: ticket, rules, and every housing it uses.

use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};
use clap::Args;
use serde::Deserialize;
use sha2::{Digest, Sha256};

use super::{Common, Exit, enter::now, print};
use crate::{
    catalogue::Definition,
    face::Label,
    quantity::harmless,
    record::{Address, Holds, HousingName},
    store::{OpenJob, form::ron_options},
    swap::{Act, Entry, JobSide, RecordSide},
};

/// What the job is about.
#[derive(Debug, Args)]
pub(super) struct NewArgs {
    /// The job's id, or a path ending in .job.ron
    #[arg(value_name = "JOB")]
    job: String,
    /// A damaged housing: an id or a part number, with a name where there are several
    #[arg(long, required = true, value_name = "[NAME=]HOUSING")]
    old: Vec<String>,
    /// A replacement
    #[arg(long, required = true, value_name = "[NAME=]HOUSING")]
    new: Vec<String>,
    /// What is found: a record file, or a job whose new side is this old side
    #[arg(long, value_name = "[NAME=]FILE|JOB")]
    found: Option<String>,
    /// What should be there: a record file
    #[arg(long, value_name = "[NAME=]FILE")]
    should: Option<String>,
    /// The machine, as the shop calls it
    #[arg(long, default_value = "", value_name = "TEXT")]
    asset: String,
    /// Its serial number
    #[arg(long, default_value = "", value_name = "TEXT")]
    serial: String,
    /// The connector's name on the diagram
    #[arg(long, default_value = "", value_name = "TEXT")]
    connector: String,
    /// Why the housing is replaced
    #[arg(long, default_value = "", value_name = "TEXT")]
    reason: String,
    /// What drawn questions are drawn from (else from the job's id)
    #[arg(long, value_name = "N")]
    seed: Option<u64>,
}

/// A record in a file: `(format: 1, cavities: [("1", Wired(…)), …])`.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RecordForm {
    format: u32,
    cavities: Vec<(Label, Holds)>,
}

/// A cavity of a record with where it was written.
struct Keyed {
    at: Address,
    holds: Holds,
    from: Option<(String, u32)>,
}

/// Runs the command.
pub(super) fn run(common: &Common, args: &NewArgs) -> Result<Exit> {
    let store = common.store()?;
    let path = store.path_of(&args.job)?;
    let mut acts = vec![Act::Ticket {
        asset: plain(&args.asset),
        serial: plain(&args.serial),
        connector: plain(&args.connector),
        reason: plain(&args.reason),
        seed: args.seed.unwrap_or_else(|| seed_of(&args.job)),
    }];
    let rules = store.rules(common.rules.as_deref())?;
    acts.push(Act::Rules { rules: Box::new(rules) });
    let mut housings = housings(common, JobSide::Old, &args.old)?;
    housings.extend(self::housings(common, JobSide::New, &args.new)?);
    let names: Vec<HousingName> =
        housings.iter().filter(|h| h.1 == JobSide::Old).map(|h| h.0.clone()).collect();
    for (name, side, definition) in housings {
        acts.push(Act::Housed { name, side, definition: Box::new(definition) });
    }
    let records = [(RecordSide::Found, &args.found), (RecordSide::Should, &args.should)];
    for (side, source) in records {
        let Some(source) = source else { continue };
        let keyed = record(common, &names, source, side)?;
        acts.extend(keyed.into_iter().map(|k| Act::Recorded {
            side,
            at: k.at,
            holds: k.holds,
            from: k.from,
        }));
    }
    if path.exists() {
        bail!("{}: there is a job of this name already", harmless(&path.to_string_lossy()));
    }
    if path.parent() == Some(store.folder()) {
        store.make()?;
    }
    let (at, by) = (now(), common.by());
    let entries = acts.into_iter().map(|act| Entry { at, by: by.clone(), act }).collect();
    let open = OpenJob::create(&path, entries)?;
    let where_ = common.store.as_ref().map_or(String::new(), |dir| format!(" --store {}", dir.display()));
    print::text(common, &format!("{}\nnext: repin open {}{where_}\n", open.path().display(), args.job))?;
    Ok(Exit::Fine)
}

fn plain(text: &str) -> String {
    text.trim().to_owned()
}

/// The first eight bytes of SHA-256 over the id: the same job asks the same questions anywhere.
pub(super) fn seed_of(job: &str) -> u64 {
    let digest = Sha256::digest(job.as_bytes());
    digest.iter().take(8).fold(0, |seed, byte| (seed << 8) | u64::from(*byte))
}

/// The housings of one side, each with its short name.
fn housings(
    common: &Common,
    side: JobSide,
    words: &[String],
) -> Result<Vec<(HousingName, JobSide, Definition)>> {
    let catalogue = common.catalogue()?;
    let default = match side {
        JobSide::Old => "old",
        JobSide::New => "new",
    };
    let mut out: Vec<(HousingName, JobSide, Definition)> = Vec::new();
    for word in words {
        let (name, housing) = match word.split_once('=') {
            Some((name, housing)) => (name, housing),
            None if words.len() == 1 => (default, word.as_str()),
            None => bail!("there are several --{default} housings: name each, as in --{default} a={word}"),
        };
        let name: HousingName = name.parse()?;
        if out.iter().any(|(other, ..)| *other == name) {
            bail!("two housings are named {name}");
        }
        out.push((name, side, catalogue.find(housing)?));
    }
    Ok(out)
}

/// A record from a file, or what another job left.
fn record(common: &Common, olds: &[HousingName], source: &str, side: RecordSide) -> Result<Vec<Keyed>> {
    let (name, source) = match source.split_once('=') {
        Some((name, source)) => (name.parse()?, source),
        None => match olds {
            [only] => (only.clone(), source),
            _ => bail!("there are several old housings: name the one the record is of, as in NAME={source}"),
        },
    };
    let path = PathBuf::from(source);
    let is_job = source.ends_with(".job.ron") || (side == RecordSide::Found && !path.exists());
    if is_job && side == RecordSide::Found {
        return left_of(common, &name, source);
    }
    record_file(&path, &name)
}

fn left_of(common: &Common, name: &HousingName, job: &str) -> Result<Vec<Keyed>> {
    let open = print::look(common, job)?;
    let left = open.job().left_as_record();
    Ok(left
        .into_iter()
        .map(|(_, label, holds)| Keyed { at: Address::new(name.clone(), label), holds, from: None })
        .collect())
}

fn record_file(path: &Path, name: &HousingName) -> Result<Vec<Keyed>> {
    let shown = harmless(&path.to_string_lossy()).into_owned();
    let bytes = std::fs::read(path).with_context(|| format!("{shown}: the record cannot be read"))?;
    let text = String::from_utf8(bytes).map_err(|_| anyhow::anyhow!("{shown}: is not text"))?;
    let text = text.trim_start_matches('\u{feff}');
    let mut reader = ron::Deserializer::from_str_with_options(text, &ron_options())
        .map_err(|e| anyhow::anyhow!("{shown}:{}: {}", e.span.start, e.code))?;
    let form: Result<RecordForm, _> = serde_path_to_error::deserialize(&mut reader);
    let form = form.map_err(|error| {
        let path = error.path().to_string();
        let error = reader.span_error(error.into_inner());
        anyhow::anyhow!("{shown}:{} at {path}: {}", error.span.start, error.code)
    })?;
    if form.format != 1 {
        bail!("{shown}: format {} is for a newer repin; this one reads format 1", form.format);
    }
    let mut keyed: Vec<Keyed> = Vec::new();
    for (n, (label, holds)) in (1..).zip(form.cavities) {
        let at = Address::new(name.clone(), label);
        if keyed.iter().any(|k| k.at == at) {
            bail!("{shown}: cavity {} stands twice, the second time as entry {n}", at.label);
        }
        keyed.push(Keyed { at, holds, from: Some((shown.clone(), n)) });
    }
    Ok(keyed)
}
