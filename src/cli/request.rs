//! `repin request`: what the job needs now, printed or sent to the desk.

use std::path::{Path, PathBuf};

use anyhow::Result;
use clap::{Args, ValueEnum};
use jiff::{Timestamp, civil::Date};

use super::{
    common::{Common, Exit},
    print,
};
use crate::{
    form::{RequestForm, write_request},
    job::needs::JobRequest,
    quantity,
    report::{missing_in_words, request_csv, request_text},
    service::{
        LostRequest, OpenJob, SendProblem, Shop, export_request, lost_request, request_of, send_request,
    },
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
    exit = exit.max(said_aside(common, &shop, lost.as_ref(), &request));
    let format = if common.json { Format::Json } else { args.format };
    match format {
        Format::Text => print::text(common, &request_text(&request))?,
        Format::Csv => print::text(common, &request_csv(&request)?)?,
        Format::Json => print::json(common, &RequestForm::from(&request))?,
        Format::Ron => print::ron(common, &write_request(&RequestForm::from(&request))?)?,
    }
    Ok(exit)
}

/// What the desk would phone back about, and what could not be read, beside the request.
fn said_aside(common: &Common, shop: &Shop, lost: Option<&LostRequest>, request: &JobRequest) -> Exit {
    let book = shop.tool_book().err().map(|why| format!("no tool position counts as proved: {why}"));
    let is_unknown = |asked: &Line| {
        let is_made = asked.wanted.lead().is_some();
        !asked.is_gone() && !is_made && asked.wanted.number().is_none()
    };
    let is_described = request.lines.iter().any(|line| is_unknown(&line.asked));
    let described = is_described.then(|| "some parts are described and still to be identified".to_owned());
    let lost = lost.map(ToString::to_string);
    let said = book.into_iter().chain(lost).chain(missing_in_words(request)).chain(described);
    let said: Vec<String> = said.collect();
    said.iter().for_each(|said| print::aside(common, said));
    if said.is_empty() { Exit::Fine } else { Exit::Problems }
}
