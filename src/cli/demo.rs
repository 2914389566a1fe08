//! `repin demo`: jobs to try, put in a folder, and the board on them.

use std::{io::IsTerminal, path::PathBuf};

use anyhow::{Context, Result, anyhow};
use clap::Args;

use super::{
    common::{Common, Exit},
    enter::now,
    open, print,
};
use crate::{
    form::{Catalogue, problems_in_words, read_acts, read_rules},
    job::{Act, Entry, JobSide},
    service::{OpenJob, Shop},
    store::private_folder,
};

/// Where the demo jobs go.
#[derive(Debug, Args)]
pub(super) struct DemoArgs {
    /// The folder (else a fresh one that only you can open)
    #[arg(value_name = "DIR")]
    folder: Option<PathBuf>,
}

/// A demo job: its world, and the acts that bring it to where it stands.
struct DemoJob {
    id: &'static str,
    old: &'static str,
    new: &'static str,
    asset: &'static str,
    serial: &'static str,
    connector: &'static str,
    reason: &'static str,
    seed: u64,
    /// The house rules of its shop, where they are not those built in.
    rules: Option<&'static str>,
    acts: &'static str,
    /// How many of the acts were done.
    done: usize,
}

const ALL: usize = usize::MAX;

/// A shop that keeps 40 mm free behind a housing.
const CLEARANCE_40: &str = include_str!("../../demo-data/clearance-40.ron");

/// The shop's tool book.
const TOOLS: &str = include_str!("../../demo-data/tools.ron");

/// The last one is on top of the board.
const JOBS: [DemoJob; 10] = [
    DemoJob {
        id: "mulehaul",
        old: "mh-06",
        new: "mh-06",
        asset: "Mulehaul T3",
        serial: "MT3-4006",
        connector: "power",
        reason: "melted at the feeds",
        seed: 6,
        rules: Some(CLEARANCE_40),
        acts: include_str!("../../demo-data/mulehaul-power.acts"),
        // One place for two splices: the plan cannot be, and says what would settle it.
        done: 26,
    },
    DemoJob {
        id: "skerry",
        old: "sk-10",
        new: "sk-10",
        asset: "Skerry 9",
        serial: "SK9-0084",
        connector: "instrument pod",
        reason: "housing corroded at the key",
        seed: 9,
        rules: None,
        acts: include_str!("../../demo-data/skerry-pod.acts"),
        // The first anchor failed: the list was read from the other face.
        done: 19,
    },
    DemoJob {
        id: "dewline",
        old: "dl-08",
        new: "dl-08r",
        asset: "Dewline 40",
        serial: "DL40-0040",
        connector: "tank valve block",
        reason: "housing split at the key",
        seed: 8,
        rules: None,
        acts: include_str!("../../demo-data/dewline-valves.acts"),
        // A wire has no place: its cavity is moulded shut.
        done: 26,
    },
    DemoJob {
        id: "aurelia",
        old: "as-18",
        new: "as-18p",
        asset: "Aurelia Sound",
        serial: "AS-0018",
        connector: "bilge-pump panel",
        reason: "housing cracked by vibration",
        seed: 18,
        rules: Some(CLEARANCE_40),
        acts: include_str!("../../demo-data/aurelia-bilge.acts"),
        // Nothing moved: a plug of the new housing sits where a wire goes.
        done: 37,
    },
    DemoJob {
        id: "lanternhill",
        old: "lh-24",
        new: "lh-24b",
        asset: "Lanternhill 300",
        serial: "LH300-0100",
        connector: "body module X14",
        reason: "latch broken",
        seed: 24,
        rules: None,
        acts: include_str!("../../demo-data/lanternhill-module.acts"),
        // The map is the next question: the new housing numbers the other way.
        done: 38,
    },
    DemoJob {
        id: "cormorant",
        old: "cm-206",
        new: "cm-206",
        asset: "Cormorant 90",
        serial: "CM90-0206",
        connector: "bulkhead",
        reason: "flange cracked",
        seed: 206,
        rules: None,
        acts: include_str!("../../demo-data/cormorant-bulkhead.acts"),
        done: ALL,
    },
    DemoJob {
        id: "kerbwhisper",
        old: "kw-16",
        new: "kw-16n",
        asset: "Kerbwhisper E",
        serial: "KWE-1190",
        connector: "seat base",
        reason: "crushed under the rail",
        seed: 16,
        rules: None,
        acts: include_str!("../../demo-data/kerbwhisper-seat.acts"),
        done: ALL,
    },
    DemoJob {
        id: "spudrow",
        old: "sp-16",
        new: "sp-16",
        asset: "Spudrow planter",
        serial: "SPD-4072",
        connector: "seed sensor",
        reason: "latch worn",
        seed: 4072,
        rules: None,
        acts: include_str!("../../demo-data/spudrow-waits.acts"),
        done: ALL,
    },
    DemoJob {
        id: "quayline",
        old: "ql-30",
        new: "ql-30",
        asset: "Quayline",
        serial: "QD-30517",
        connector: "door left",
        reason: "housing cracked",
        seed: 30,
        rules: None,
        acts: include_str!("../../demo-data/quayline-door.acts"),
        // To where the first technician stopped.
        done: 110,
    },
    DemoJob {
        id: "fernwalker",
        old: "fw-hsg-12a",
        new: "fw-hsg-12a",
        asset: "Fernwalker 8",
        serial: "FW8-20731",
        connector: "boom tip",
        reason: "latch broken by a branch",
        seed: 12,
        rules: None,
        acts: include_str!("../../demo-data/fernwalker-boom-tip.acts"),
        // Six wires moved, 7 and its corroded terminal next.
        done: 76,
    },
];

/// Runs the command.
pub(super) fn run(common: &Common, args: &DemoArgs) -> Result<Exit> {
    let folder = match &args.folder {
        Some(folder) => folder.clone(),
        None => private_folder("repin-demo-").context("there is no folder for a demo")?,
    };
    let shop = Shop::at(folder.clone());
    shop.make()?;
    shop.put_tool_book(&"bench-1.ron".parse()?, TOOLS)?;
    let by = common.by();
    for job in &JOBS {
        make(job, &shop, &by).with_context(|| format!("demo job {}", job.id))?;
    }
    if std::io::stdout().is_terminal() && std::io::stdin().is_terminal() {
        let common = Common { store: Some(folder), ..common.clone() };
        return open::board(&common);
    }
    let shown = folder.display();
    print::text(
        common,
        &format!(
            "The demo jobs are in {shown}.\nnext: repin --store {shown}\n      repin open fernwalker --store {shown}\n      repin check quayline --store {shown}\n"
        ),
    )?;
    Ok(Exit::Fine)
}

fn make(job: &DemoJob, shop: &Shop, by: &str) -> Result<()> {
    let catalogue = Catalogue::built_in();
    let housed = |name: &str, side, word: &str| -> Result<Act> {
        Ok(Act::Housed { name: name.parse()?, side, definition: Box::new(catalogue.find(word)?) })
    };
    let rules = job.rules.map_or(Ok(Default::default()), |text| read_rules("house-rules.ron", text))?;
    let world = vec![
        Act::Ticket {
            // Fixed, so that the demo is the same everywhere.
            id: Some(job.id.parse()?),
            asset: job.asset.to_owned(),
            serial: job.serial.to_owned(),
            connector: job.connector.to_owned(),
            reason: job.reason.to_owned(),
            seed: job.seed,
        },
        Act::Rules { rules: Box::new(rules) },
        housed("old", JobSide::Old, job.old)?,
        housed("new", JobSide::New, job.new)?,
    ];
    let lines = read_acts(job.id, job.acts).map_err(|problems| anyhow!(problems_in_words(&problems)))?;
    let first = lines.first();
    let start = first.and_then(|line| line.at).unwrap_or_else(now);
    let starter = first.and_then(|line| line.by.clone()).unwrap_or_else(|| by.to_owned());
    let entries = world.into_iter().map(|act| Entry::new(start, starter.clone(), act)).collect();
    let mut open = OpenJob::start(&shop.job(job.id)?, entries, by, start)?;
    for line in lines.into_iter().take(job.done) {
        let by = line.by.unwrap_or_else(|| by.to_owned());
        let at = line.at.unwrap_or_else(now);
        open.enter(Entry::new(at, by, line.act)).with_context(|| format!("line {}", line.line))?;
    }
    Ok(())
}
