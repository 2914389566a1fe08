//! `repin steps`: every step of a job: done, next, left.

use std::collections::BTreeSet;

use anyhow::Result;
use clap::Args;
use jiff::Timestamp;
use serde::Serialize;

use super::{
    common::{Common, Exit},
    print,
};
use crate::{
    job::{Assessment, ItemId, Lead, Occasion, Place, State, Status, Step, Task, caution, day_of, lay_out},
    quantity::harmless,
    record::Address,
    report::steps::about,
};

/// Which job.
#[derive(Debug, Args)]
pub(super) struct StepsArgs {
    /// The job, by id or path
    #[arg(value_name = "JOB")]
    job: String,
}

#[derive(Serialize)]
struct StepsForm {
    job: String,
    steps: Vec<StepForm>,
}

#[derive(Serialize)]
struct StepForm {
    n: usize,
    #[serde(rename = "do")]
    what: &'static str,
    from: Option<String>,
    to: Option<String>,
    circuit: Option<String>,
    colour: Option<String>,
    status: &'static str,
    /// For people; the JSON of this page leaves it out.
    #[serde(skip)]
    text: String,
}

/// Runs the command.
pub(super) fn run(common: &Common, args: &StepsArgs) -> Result<Exit> {
    let open = print::look(common, &args.job)?;
    let assessment = open.job().assess(Timestamp::now(), None);
    let state = assessment.interrupted.as_ref().unwrap_or(open.job().state());
    let asked = &assessment.target.colours_asked;
    let steps: Vec<StepForm> = assessment
        .steps
        .iter()
        .enumerate()
        .map(|(n, step)| {
            let hide =
                lead_of(state, step).is_some_and(|l| asked.contains(&l.id) && step.status != Status::Done);
            form(state, &assessment, n + 1, step, hide)
        })
        .collect();
    let exit = if open.trouble().is_some() { Exit::Problems } else { Exit::Fine };
    if common.json {
        print::json(common, &StepsForm { job: open.id(), steps })?;
        return Ok(exit);
    }
    let mut text = String::new();
    if !assessment.steps.iter().any(|step| step.status == Status::Done && step.what.opens_or_moves()) {
        let book = open.tool_book()?;
        let today = day_of(assessment.now);
        for item in lay_out(state, &book, today) {
            text.push_str(&format!("lay out  {}  ({})\n", harmless(&item.thing), harmless(&item.what_for)));
        }
    }
    for step in &steps {
        let or_dash = |value: &Option<String>| value.clone().unwrap_or_else(|| "-".to_owned());
        text.push_str(&format!(
            "{:>4}  {:<7} {:<10} {:<10} {:<10} {:<7} {} {}\n",
            step.n,
            step.status,
            step.what,
            or_dash(&step.from),
            or_dash(&step.to),
            or_dash(&step.colour),
            harmless(step.circuit.as_deref().unwrap_or("")),
            harmless(&step.text),
        ));
    }
    text.push_str(&cautions(&assessment));
    if let Some(trouble) = open.trouble() {
        print::aside(common, trouble);
    }
    print::text(common, &text)?;
    Ok(exit)
}

/// What has to be borne in mind for the steps that are left, each once.
fn cautions(assessment: &Assessment) -> String {
    let left = assessment.steps.iter().filter(|step| step.status != Status::Done);
    let occasions: BTreeSet<Occasion> =
        left.filter_map(|step| step.what.occasion()).chain([Occasion::Always]).collect();
    let lines: Vec<String> =
        occasions.into_iter().map(|occasion| format!("caution: {}\n", caution(occasion))).collect();
    format!("\n{}", lines.concat())
}

fn lead_of<'a>(state: &'a State, step: &Step) -> Option<&'a Lead> {
    crate::job::lead_of_step(state, step)
}

fn form(state: &State, assessment: &Assessment, n: usize, step: &Step, hide_colour: bool) -> StepForm {
    let (from, to) = ends(state, assessment, &step.what);
    let wire = lead_of(state, step).and_then(Lead::first_wire);
    let colour = wire.and_then(|w| w.colour.known()).filter(|_| !hide_colour);
    StepForm {
        n,
        what: step.what.word(),
        from,
        to,
        circuit: wire.and_then(|w| w.circuit.clone().or_else(|| w.number.clone())),
        colour: colour.map(ToString::to_string),
        status: match step.status {
            Status::Done => "done",
            Status::Next => "next",
            Status::Left => "left",
            Status::Waiting => "waiting",
        },
        text: about(state, &step.what),
    }
}

/// Full addresses where a step starts and ends.
fn ends(state: &State, assessment: &Assessment, what: &Task) -> (Option<String>, Option<String>) {
    let text = |at: &Address| Some(at.to_string());
    match what {
        Task::MoveWire { lead, .. } | Task::Repair { lead, .. } | Task::Tag { lead } => {
            let from = state.items.lead(lead).and_then(|l| match (&l.id, &l.place) {
                (ItemId::At(at), _) | (_, Place::In(at)) => text(at),
                _ => None,
            });
            let to =
                assessment.target.of(lead).and_then(text).filter(|_| matches!(what, Task::MoveWire { .. }));
            (from, to)
        }
        what => {
            let (from, to) = what.ends();
            (from.and_then(text), to.and_then(text))
        }
    }
}
