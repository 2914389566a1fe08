//! `repin enter`: acts from a file, by the same road as a key press.

use anyhow::{Context, Result, bail};
use clap::Args;
use jiff::Timestamp;

use super::{
    common::{Common, Exit},
    print,
};
use crate::{
    form::{ActLine, examples, problems_in_words, read_acts},
    job::{Entry, Refusal},
    quantity::{count_of, harmless},
    report::refusals::in_one_line,
    service::{EnterProblem, OpenJob},
    store::{LIST_MOST, Links, ReadProblem, read_stdin, read_text},
};

/// Where the acts come from.
#[derive(Debug, Args)]
pub(super) struct EnterArgs {
    /// The job, by id or path
    #[arg(value_name = "JOB", required_unless_present = "acts")]
    job: Option<String>,
    /// The file; - or none is the standard input
    #[arg(value_name = "FILE")]
    file: Option<String>,
    /// Print every act with all its fields, an example each
    #[arg(long)]
    acts: bool,
}

/// The most lines that are not understood that are shown.
const PROBLEMS_MOST: usize = 20;

/// Runs the command.
pub(super) fn run(common: &Common, args: &EnterArgs) -> Result<Exit> {
    if args.acts {
        print::out(&examples()?)?;
        return Ok(Exit::Fine);
    }
    let Some(job) = &args.job else { bail!("name a job") };
    let file = args.file.as_deref().unwrap_or("-");
    let (name, text) = acts_text(file)?;
    let acts = read_acts(&name, &text).map_err(|problems| {
        let shown = problems.get(..PROBLEMS_MOST).unwrap_or(&problems);
        anyhow::anyhow!("{}\n\n{}", count_of(problems.len(), "problem"), problems_in_words(shown))
    })?;
    let at = common.shop()?.job(job)?;
    let by = common.by();
    let mut open = OpenJob::open(&at, &by, Timestamp::now())?;
    if open.is_cut_short() {
        bail!("{}", open.trouble().unwrap_or("the journal is damaged"));
    }
    if let Some(why) = open.read_only() {
        bail!("{why}");
    }
    let recovered = open.trouble().map(ToOwned::to_owned);
    let refused = enter_all(&mut open, &name, acts, &by)?;
    match (&refused, &recovered) {
        (None, None) => Ok(Exit::Fine),
        _ => {
            recovered.iter().chain(&refused).for_each(|say| print::aside(common, say));
            Ok(Exit::Problems)
        }
    }
}

/// Enters the acts in order; the first refusal stops, and is said with its line.
fn enter_all(open: &mut OpenJob, file: &str, acts: Vec<ActLine>, by: &str) -> Result<Option<String>> {
    for line in acts {
        let entry =
            Entry::new(line.at.unwrap_or_else(now), line.by.unwrap_or_else(|| by.to_owned()), line.act);
        match open.enter(entry) {
            Ok(_) => {}
            Err(EnterProblem::Refused { refusals, .. }) => {
                let codes: Vec<&str> =
                    refusals.iter().filter_map(Refusal::code).map(|c| c.as_str()).collect();
                let codes = if codes.is_empty() { String::new() } else { format!(" [{}]", codes.join(", ")) };
                return Ok(Some(format!(
                    "{}:{}: refused{codes}: {}",
                    harmless(file),
                    line.line,
                    in_one_line(&refusals)
                )));
            }
            Err(other) => return Err(other).with_context(|| format!("{}:{}", harmless(file), line.line)),
        }
    }
    Ok(None)
}

/// The time of the machine, to the second: what a journal keeps.
pub(super) fn now() -> Timestamp {
    Timestamp::from_second(Timestamp::now().as_second()).unwrap_or_default()
}

fn acts_text(file: &str) -> Result<(String, String), ReadProblem> {
    match file {
        "-" => Ok(("standard input".to_owned(), read_stdin(LIST_MOST)?)),
        path => Ok((
            harmless(path).into_owned(),
            read_text(std::path::Path::new(path), LIST_MOST, Links::Followed)?,
        )),
    }
}
