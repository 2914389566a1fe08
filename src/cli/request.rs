//! `repin request`: what the job needs now, printed or sent to the desk.

use std::path::{Path, PathBuf};

use anyhow::Result;
use clap::{Args, ValueEnum};
use jiff::{Timestamp, civil::Date};

use super::{Common, Exit, print};
use crate::{
    form::{RequestForm, write_request},
    quantity,
    report::{missing_in_words, request_csv, request_text},
    service::{OpenJob, SendProblem, export_request, lost_request, request_of, send_request},
    supply::{Line, RequestHead, Urgency},
};

/// How and for whom.
#[derive(Debug, Args)]
pub(super) struct RequestArgs {
    /// The job, by id or path
    #[arg(value_name = "JOB")]
    job: String,
    /// How it is printed
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    /// Keep it in the job and write it for the desk
    #[arg(long)]
    send: bool,
    /// Write the request sent last into this folder again
    #[arg(long, value_name = "DIR", conflicts_with = "send")]
    export: Option<PathBuf>,
    /// Which bench asks
    #[arg(long, value_name = "TEXT")]
    bench: Option<String>,
    /// Where to deliver
    #[arg(long, value_name = "TEXT")]
    deliver_to: Option<String>,
    /// By when, as YYYY-MM-DD
    #[arg(long, value_name = "DATE", value_parser = day)]
    needed_by: Option<Date>,
    /// How urgent: machine stopped, needed by date, when convenient
    #[arg(long, value_name = "TEXT")]
    urgency: Option<String>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    Text,
    Csv,
    Json,
    Ron,
}

/// A day as it is asked for.
fn day(typed: &str) -> Result<Date, String> {
    quantity::day(typed).map_err(|_| "key the day as 2026-12-01".to_owned())
}

/// Writes the request sent last into a folder.
fn export(common: &Common, job: &str, folder: &Path) -> Result<Exit> {
    let open = print::look(common, job)?;
    match export_request(&open, folder)? {
        Some(path) => {
            print::text(common, &format!("{}\n", path))?;
            Ok(Exit::Fine)
        }
        None => {
            print::aside(common, "nothing was sent yet: send the request with --send");
            Ok(Exit::Problems)
        }
    }
}

/// Runs the command.
pub(super) fn run(common: &Common, args: &RequestArgs) -> Result<Exit> {
    if let Some(folder) = &args.export {
        return export(common, &args.job, folder);
    }
    let shop = common.shop()?;
    let head = RequestHead {
        asked_by: common.by(),
        bench: args.bench.clone(),
        deliver_to: args.deliver_to.clone(),
        needed_by: args.needed_by,
        urgency: args.urgency.as_deref().map(Urgency::from),
    };
    let mut exit = Exit::Fine;
    let lost;
    let request = if args.send {
        let mut open = OpenJob::open(&shop.job(&args.job)?, &head.asked_by, Timestamp::now())?;
        lost = lost_request(&open);
        match send_request(&mut open, head, Timestamp::now()) {
            Ok(request) => request,
            Err(why @ SendProblem::Incomplete(_)) => {
                print::aside(common, &why.to_string());
                return Ok(Exit::Problems);
            }
            Err(why) => return Err(why.into()),
        }
    } else {
        let open = print::look(common, &args.job)?;
        if open.trouble().is_some() {
            exit = Exit::Problems;
        }
        lost = lost_request(&open);
        request_of(&open, head, Timestamp::now())
    };
    if let Err(why) = shop.tool_book() {
        exit = Exit::Problems;
        print::aside(common, &format!("no tool position counts as proved: {why}"));
    }
    if let Some(lost) = lost {
        exit = Exit::Problems;
        print::aside(common, &lost.to_string());
    }
    for missing in missing_in_words(&request) {
        exit = Exit::Problems;
        print::aside(common, &missing);
    }
    let is_unknown = |asked: &Line| {
        let is_made = asked.wanted.lead().is_some();
        !asked.is_gone() && !is_made && asked.wanted.number().is_none()
    };
    if request.lines.iter().any(|line| is_unknown(&line.asked)) {
        exit = Exit::Problems;
        print::aside(common, "some parts are described and still to be identified");
    }
    let format = if common.json { Format::Json } else { args.format };
    match format {
        Format::Text => print::text(common, &request_text(&request))?,
        Format::Csv => print::text(common, &request_csv(&request)?)?,
        Format::Json => print::json(common, &RequestForm::from(&request))?,
        Format::Ron => print::ron(common, &write_request(&RequestForm::from(&request))?)?,
    }
    Ok(exit)
}
