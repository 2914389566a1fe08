//! `repin check`: the account of jobs and their flags.

use anyhow::Result;
use clap::Args;
use jiff::Timestamp;
use serde::Serialize;

use super::{
    common::{Common, Exit},
    print,
};
use crate::{
    job::{Account, Flag, JobSide},
    quantity::{count_of, harmless},
    report::{Words, flag_words},
    service::OpenJob,
};

/// Which jobs.
#[derive(Debug, Args)]
pub(super) struct CheckArgs {
    /// Jobs, by id or path
    #[arg(required = true, value_name = "JOB")]
    jobs: Vec<String>,
}

#[derive(Serialize)]
struct AccountForm {
    job: String,
    state: &'static str,
    wires: WiresForm,
    leads: LeadsForm,
    plugs: PlugsForm,
    others: OthersForm,
    cavities: CavitiesForm,
    flags: Vec<FlagForm>,
    damage: Vec<DamageForm>,
}

#[derive(Serialize)]
struct WiresForm {
    found: usize,
    old: usize,
    hand: usize,
    parked: usize,
    new: usize,
    removed: usize,
    unseen: usize,
}

#[derive(Serialize)]
struct LeadsForm {
    #[serde(flatten)]
    places: WiresForm,
    made: usize,
    joined: usize,
}

#[derive(Serialize)]
struct PlugsForm {
    found: usize,
    prefitted: usize,
    new_stock: usize,
    old: usize,
    hand: usize,
    tray: usize,
    new: usize,
    scrapped: usize,
    lost: usize,
    returned: usize,
    unseen: usize,
}

#[derive(Serialize)]
struct OthersForm {
    found: usize,
    old: usize,
    hand: usize,
    parked: usize,
    new: usize,
    scrapped: usize,
    returned: usize,
    lost: usize,
    unseen: usize,
}

#[derive(Serialize)]
struct CavitiesForm {
    total: usize,
    wired: usize,
    plugged: usize,
    open: usize,
    empty: usize,
    blocked: usize,
    spare: usize,
    bridge: usize,
}

#[derive(Serialize)]
struct FlagForm {
    code: &'static str,
    severity: u8,
    side: Option<&'static str>,
    housing: Option<String>,
    cavity: Option<String>,
    circuit: Option<String>,
    say: String,
    #[serde(rename = "do")]
    instead: String,
    accepted: Option<AcceptedForm>,
}

#[derive(Serialize)]
struct AcceptedForm {
    by: String,
    reason: String,
    due: Option<String>,
}

#[derive(Serialize)]
struct DamageForm {
    line: usize,
    say: String,
}

impl From<crate::job::WireCounts> for WiresForm {
    fn from(c: crate::job::WireCounts) -> Self {
        Self {
            found: c.found,
            old: c.old,
            hand: c.hand,
            parked: c.parked,
            new: c.new,
            removed: c.removed,
            unseen: c.unseen,
        }
    }
}

impl From<&Flag> for FlagForm {
    fn from(flag: &Flag) -> Self {
        let side = |side| match side {
            JobSide::Old => "old",
            JobSide::New => "new",
        };
        let (code, Words { say, instead }) = (flag.code(), flag_words(flag));
        Self {
            code: code.as_str(),
            severity: code.severity(),
            side: flag.side.map(side),
            housing: flag.housing.as_ref().map(ToString::to_string),
            cavity: flag.at.as_ref().map(|at| at.label.to_string()),
            circuit: flag.circuit.clone(),
            say,
            instead,
            accepted: flag.accepted.as_ref().map(|a| AcceptedForm {
                by: a.by.clone(),
                reason: a.reason.clone(),
                due: a.due.map(|day| day.to_string()),
            }),
        }
    }
}

impl AccountForm {
    fn of(open: &OpenJob, account: &Account) -> Self {
        let (p, o, c) = (account.plugs, account.others, account.cavities);
        Self {
            job: open.id(),
            state: account.state.as_str(),
            wires: account.wires.into(),
            leads: LeadsForm {
                places: account.leads.places.into(),
                made: account.leads.made,
                joined: account.leads.joined,
            },
            plugs: PlugsForm {
                found: p.found,
                prefitted: p.prefitted,
                new_stock: p.new_stock,
                old: p.old,
                hand: p.hand,
                tray: p.tray,
                new: p.new,
                scrapped: p.scrapped,
                lost: p.lost,
                returned: p.returned,
                unseen: p.unseen,
            },
            others: OthersForm {
                found: o.found,
                old: o.old,
                hand: o.hand,
                parked: o.parked,
                new: o.new,
                scrapped: o.scrapped,
                returned: o.returned,
                lost: o.lost,
                unseen: o.unseen,
            },
            cavities: CavitiesForm {
                total: c.total,
                wired: c.wired,
                plugged: c.plugged,
                open: c.open,
                empty: c.empty,
                blocked: c.blocked,
                spare: c.spare,
                bridge: c.bridge,
            },
            flags: account.flags.iter().map(Into::into).collect(),
            damage: open
                .trouble()
                .map(|say| DamageForm { line: open.job().entries().len() + 1, say: say.to_owned() })
                .into_iter()
                .collect(),
        }
    }
}

/// Runs the command.
pub(super) fn run(common: &Common, args: &CheckArgs) -> Result<Exit> {
    let now = Timestamp::now();
    let opened: Vec<OpenJob> = args.jobs.iter().map(|job| print::look(common, job)).collect::<Result<_>>()?;
    let accounts: Vec<Account> = opened.iter().map(|open| open.job().account(now)).collect();
    let mut exit = Exit::Fine;
    for (open, account) in opened.iter().zip(&accounts) {
        if account.open_flags().next().is_some() || open.trouble().is_some() {
            exit = Exit::Problems;
        }
    }
    if common.json {
        let forms: Vec<AccountForm> =
            opened.iter().zip(&accounts).map(|(open, account)| AccountForm::of(open, account)).collect();
        match forms.as_slice() {
            [one] => print::json(common, one)?,
            several => print::json(common, &several)?,
        }
        return Ok(exit);
    }
    let texts: Vec<String> =
        opened.iter().zip(&accounts).map(|(open, account)| account_text(open, account)).collect();
    print::text(common, &texts.join("\n"))?;
    Ok(exit)
}

fn account_text(open: &OpenJob, account: &Account) -> String {
    let ticket = &open.job().state().world.ticket;
    let mut text = format!(
        "{}  {}  {}  serial {}\nstate   {}\n",
        open.id(),
        harmless(&ticket.asset),
        harmless(&ticket.connector),
        harmless(&ticket.serial),
        account.state.as_str()
    );
    let (w, p, c) = (account.wires, account.plugs, account.cavities);
    text.push_str(&format!(
        "wires   found {} = old {} + hand {} + parked {} + new {} + removed {} + unseen {}\n",
        w.found, w.old, w.hand, w.parked, w.new, w.removed, w.unseen
    ));
    text.push_str(&format!(
        "plugs   found {} + prefitted {} + stock {} = old {} + hand {} + tray {} + new {} + scrapped {} + lost {} + returned {} + unseen {}\n",
        p.found, p.prefitted, p.new_stock, p.old, p.hand, p.tray, p.new, p.scrapped, p.lost, p.returned, p.unseen
    ));
    text.push_str(&format!(
        "new     {} cavities = wired {} + plugged {} + open {} + empty {} + blocked {} + spare {} + bridge {}\n",
        c.total, c.wired, c.plugged, c.open, c.empty, c.blocked, c.spare, c.bridge
    ));
    if let Some(trouble) = open.trouble() {
        text.push_str(&format!("file    {}\n", harmless(trouble)));
    }
    for (from, to, document) in open.job().state().mapping.mapped_under_document() {
        let to = to.map_or("no place".to_owned(), ToString::to_string);
        text.push_str(&format!("deviation  {from} goes to {to}, under {}\n", harmless(document)));
    }
    let open_flags = account.open_flags().count();
    text.push_str(&format!("{} open\n", count_of(open_flags, "flag")));
    for flag in &account.flags {
        let place = flag.at.as_ref().map_or(String::new(), |at| format!(" {at}"));
        let accepted = flag.accepted.as_ref().map_or(String::new(), |a| {
            format!("  [accepted by {}: {}]", harmless(&a.by), harmless(&a.reason))
        });
        let (code, words) = (flag.code(), flag_words(flag));
        text.push_str(&format!(
            "  {} {code}{place}: {}{accepted}\n      {}\n",
            code.severity(),
            harmless(&words.say),
            harmless(&words.instead)
        ));
    }
    text
}
