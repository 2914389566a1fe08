//! `repin new`: a job that carries its own world: ticket, rules, and every housing it uses.

use std::path::PathBuf;

use anyhow::{Result, anyhow, bail};
use clap::{Args, ValueEnum};
use jiff::Timestamp;
use sha2::{Digest, Sha256};

use super::{
    common::{Common, Exit},
    enter::now,
    print,
    records::{self, Choice, KeyedIn, ListSource},
};
use crate::{
    catalogue::Definition,
    job::{Act, Entry, Job, JobSide, RecordSide, State, TicketId},
    record::HousingName,
    report::refusals,
    service::{EnterProblem, OpenJob},
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
    /// What is found: a record file, a wiring list, or a job whose new side is this old side
    #[arg(long, value_name = "[NAME=]FILE|JOB")]
    found: Vec<String>,
    /// What should be there: a record file or a wiring list
    #[arg(long, value_name = "[NAME=]FILE")]
    should: Vec<String>,
    /// In whose labels the record of what should be is written
    #[arg(long, value_enum, default_value_t = Labels::Old)]
    should_labels: Labels,
    /// Which old cavity goes to which new one: a map file
    #[arg(long, value_name = "FILE")]
    map: Option<PathBuf>,
    /// The machine, as the shop calls it
    #[arg(long, default_value = "", value_name = "TEXT")]
    asset: String,
    /// Its serial number
    #[arg(long, default_value = "", value_name = "TEXT")]
    serial: String,
    /// The connector's name on the diagram
    #[arg(long, default_value = "", value_name = "TEXT")]
    connector: String,
    /// The configuration of a harness file that holds variants
    #[arg(long, value_name = "NAME")]
    configuration: Option<String>,
    /// Why the housing is replaced
    #[arg(long, default_value = "", value_name = "TEXT")]
    reason: String,
    /// What drawn questions are drawn from (else from the job's random id)
    #[arg(long, value_name = "N")]
    seed: Option<u64>,
}

/// The side whose labels a record is written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Labels {
    Old,
    New,
}

/// Runs the command.
pub(super) fn run(common: &Common, args: &NewArgs) -> Result<Exit> {
    let shop = common.shop()?;
    let place = shop.job(&args.job)?;
    let id = random_id()?;
    let mut acts: Vec<KeyedIn> = vec![KeyedIn::from(Act::Ticket {
        seed: args.seed.unwrap_or_else(|| seed_of(&id)),
        id: Some(id),
        asset: plain(&args.asset),
        serial: plain(&args.serial),
        connector: plain(&args.connector),
        reason: plain(&args.reason),
    })];
    let rules = shop.rules(common.rules.as_deref())?;
    acts.push(Act::Rules { rules: Box::new(rules) }.into());
    let mut housings = housings(common, JobSide::Old, &args.old)?;
    housings.extend(self::housings(common, JobSide::New, &args.new)?);
    let [names, new_names] = [JobSide::Old, JobSide::New].map(|side| {
        housings.iter().filter(|h| h.1 == side).map(|h| h.0.clone()).collect::<Vec<HousingName>>()
    });
    for (name, side, definition) in housings {
        acts.push(Act::Housed { name, side, definition: Box::new(definition) }.into());
    }
    let mut said = Vec::new();
    for source in sources(args, &names, &new_names) {
        let taken = records::record(common, &source)?;
        acts.extend(taken.acts);
        said.extend(taken.said);
    }
    if let Some(file) = &args.map {
        acts.extend(records::map(file)?);
    }
    if place.is_there() {
        return Err(EnterProblem::AlreadyThere(place.place()).into());
    }
    let (at, by) = (now(), common.by());
    let entries = checked(acts, at, &by)?;
    let open = OpenJob::start(&place, entries, &by, at)?;
    let where_ = common.store.as_ref().map_or(String::new(), |dir| format!(" --store {}", dir.display()));
    said.extend(differences_said(open.job().state()));
    let said: String = said.iter().map(|line| format!("{line}\n")).collect();
    print::text(common, &format!("{said}{}\nnext: repin open {}{where_}\n", open.place(), args.job))?;
    Ok(Exit::Fine)
}

/// The records named in the arguments.
fn sources<'a>(args: &'a NewArgs, olds: &'a [HousingName], news: &'a [HousingName]) -> Vec<ListSource<'a>> {
    let should_in = if args.should_labels == Labels::New { news } else { olds };
    let choice = Choice {
        connector: Some(args.connector.trim()).filter(|name| !name.is_empty()),
        configuration: args.configuration.as_deref(),
    };
    let source = |word: &'a String, side, housings| ListSource { word, side, housings, choice };
    let found = args.found.iter().map(|word| source(word, RecordSide::Found, olds));
    found.chain(args.should.iter().map(|word| source(word, RecordSide::Should, should_in))).collect()
}

/// The acts as entries, each checked as the job will check it, so that a refusal names the file and
/// place it comes from.
fn checked(acts: Vec<KeyedIn>, at: Timestamp, by: &str) -> Result<Vec<Entry>> {
    let mut job = Job::default();
    let mut entries = Vec::new();
    for KeyedIn { act, place } in acts {
        let entry = Entry::new(at, by.to_owned(), act);
        if let Some(refusal) = job.check(&entry).refusals().first() {
            bail!("{}: {}", place.unwrap_or_else(|| "the job".to_owned()), refusals::line(refusal));
        }
        job.apply(entry.clone());
        entries.push(entry);
    }
    Ok(entries)
}

/// How the housings differ, before the first move.
fn differences_said(state: &State) -> Vec<String> {
    let pairs = state
        .housings
        .side(JobSide::Old)
        .flat_map(|old| state.housings.side(JobSide::New).map(move |new| (old, new)));
    let said = pairs.flat_map(|(old, new)| {
        let found = old.definition.differences_to(&new.definition).into_iter();
        found.map(move |d| format!("{} and {}: {} {}", old.name, new.name, d.say, d.kind.means()))
    });
    said.collect()
}

fn plain(text: &str) -> String {
    text.trim().to_owned()
}

/// Sixteen random bytes: two jobs of one name in two stores stay two jobs.
fn random_id() -> Result<TicketId> {
    let mut bytes = [0_u8; 16];
    getrandom::fill(&mut bytes).map_err(|why| anyhow!("the system gives no random numbers: {why}"))?;
    let digits: String = bytes.iter().map(|byte| format!("{byte:02x}")).collect();
    Ok(digits.parse()?)
}

/// The first eight bytes of SHA-256 over the id: the same job asks the same questions anywhere.
fn seed_of(id: &TicketId) -> u64 {
    let digest = Sha256::digest(id.as_str().as_bytes());
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
