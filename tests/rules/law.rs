//! The law: nothing vanishes. Random acts, replay, and every reachable state of a small connector.

use crate::support;

use std::collections::{BTreeMap, BTreeSet, VecDeque};

use repin::{
    catalogue::{Catalogue, Definition, FamilyForm, LockState, ron_options},
    job::{Act, Entry, Job, JobSide, Place, State, Verdict, mix},
    store::read_acts,
};
use support::{Bench, demo_acts};

/// The sums of design: found equals the sum of the places, for wires, leads, plugs and others; at
/// most one thing in the hand; each cavity one content; cavities are the sum of their seven kinds.
fn check_law(job: &Job) {
    let account = job.account("2026-11-25T08:00:00Z".parse().unwrap());
    let w = account.wires;
    assert_eq!(w.found, w.old + w.hand + w.parked + w.new + w.removed + w.unseen, "wires");
    let l = account.leads;
    let p = l.places;
    let sum = p.old + p.hand + p.parked + p.new + p.removed + l.joined + p.unseen;
    assert_eq!(p.found + l.made, sum, "leads");
    let q = account.plugs;
    let sum = q.old + q.hand + q.tray + q.new + q.scrapped + q.lost + q.returned + q.unseen;
    assert_eq!(q.found + q.prefitted + q.new_stock, sum, "plugs");
    let o = account.others;
    let sum = o.old + o.hand + o.parked + o.new + o.scrapped + o.returned + o.lost + o.unseen;
    assert_eq!(o.found, sum, "others");
    assert!(p.hand + q.hand + o.hand <= 1, "two things in the hand");
    let c = account.cavities;
    assert_eq!(c.total, c.wired + c.plugged + c.open + c.empty + c.blocked + c.spare + c.bridge, "cavities");
    let state = job.state();
    let mut leads_at = BTreeSet::new();
    for lead in &state.items.leads {
        if let Place::In(at) = &lead.place {
            assert!(leads_at.insert(at), "two leads in {at}");
        }
    }
    for plug in &state.items.plugs {
        if let Place::In(at) = &plug.place {
            assert!(!leads_at.contains(at), "a lead and a plug in {at}");
        }
    }
}

/// Draws: the nth number of a seeded row, below `below`.
struct Draws {
    seed: u64,
    n: u64,
}

impl Draws {
    fn below(&mut self, below: usize) -> usize {
        self.n += 1;
        usize::try_from(mix(self.seed, self.n) % below as u64).unwrap()
    }

    fn of<'a>(&mut self, from: &[&'a str]) -> &'a str {
        from[self.below(from.len())]
    }
}

/// A random act of the bench, sensible or not.
fn random_act(d: &mut Draws) -> String {
    let old = d.below(17);
    let new = d.below(17);
    let tag = d.below(4);
    let colour = d.of(&["RD", "BK", "GY/RD", "GY/BN", "BU", "GN", "YE", "VT", "OG", "BN", "WH", "PK"]);
    let yes = d.of(&["true", "false"]);
    match d.below(24) {
        0..=3 => format!("Extract(from:\"old:{old}\",colour:\"{colour}\",freely:{yes},seal:On)"),
        4 => format!("Extract(from:\"new:{new}\",freely:true,seal:{})", d.of(&["On", "Missing"])),
        5 | 6 => "Inspect(verdict:Good)".to_owned(),
        7 => "Inspect(verdict:Needs(NewTerminal))".to_owned(),
        8..=10 => format!("Insert(into:\"new:{new}\",click:{yes})"),
        11 | 12 => format!("Tug(at:\"new:{new}\",held:{yes})"),
        13 => "PutBack".to_owned(),
        14 => format!("Park(tag:\"T{tag}\",reason:\"seen so\")"),
        15 => format!("TakeUp(tag:\"T{tag}\")"),
        16 => format!("TakePlug(from:\"{}\")", d.of(&["old:12", "old:14", "new:12", "new:14", "new:1"])),
        17 => format!("FitPlug(into:\"new:{new}\",source:{})", d.of(&["Hand", "Tray", "Stock"])),
        18 => d.of(&["LosePlug", "ScrapPlug(reason:\"seen so\")", "ReturnPlug"]).to_owned(),
        19 => format!("Loose(leads:[(\"old:{old}\",\"T{tag}\"),(\"new:{new}\",\"U{tag}\")])"),
        20 => {
            let at = d.of(&[
                "Hand",
                "Unseen",
                "In(\"new:3\")",
                "In(\"new:9\")",
                "In(\"old:3\")",
                "Parked(\"T9\")",
            ]);
            format!(
                "Seen(item:\"{}\",at:{at},reason:\"seen so\")",
                d.of(&["old:3", "old:9", "old:12", "loose/1", "stock/1"])
            )
        }
        21 => "WrongKey".to_owned(),
        22 => format!("Removed(wire:\"old:{old}\",document:\"d\")"),
        _ => format!(
            "Lock(housing:\"{}\",to:{},finger:true,why:\"x\")",
            d.of(&["old", "new"]),
            d.of(&["FullSet", "PreSet"])
        ),
    }
}

/// Source: none outside; the law is the project's own.
#[test]
fn after_any_acts_nothing_has_vanished_and_the_bytes_replay_to_the_same_state() {
    let ready = Bench::ready();
    for seed in 0..500 {
        let mut bench = Bench { job: ready.job.clone(), now: ready.now, by: ready.by.clone() };
        let mut draws = Draws { seed, n: 0 };
        for n in 0..200 {
            let text = random_act(&mut draws);
            let act = Bench::parse(&text);
            let entry = Entry::new(bench.now, bench.by.clone(), act);
            match bench.job.check(&entry) {
                Verdict::Allowed => bench.job.apply(entry),
                // Every third rule is gone past by name, so that states off the road are reached.
                Verdict::Against(_) if n % 3 == 0 && entry.act.clone().anyway_mut().is_some() => {
                    bench.insists(&text);
                }
                _ => continue,
            }
            check_law(&bench.job);
            if n % 20 == 19 {
                replays(&bench.job, seed);
            }
        }
        replays(&bench.job, seed);
    }
}

/// Written as lines, read back and folded again, the job is the same.
fn replays(job: &Job, seed: u64) {
    let mut text = String::new();
    let mut sum = String::new();
    for (n, entry) in job.entries().iter().enumerate() {
        let (line, next) = repin::store::line_of(n + 1, entry, &sum).unwrap();
        text.push_str(&line);
        text.push('\n');
        sum = next;
    }
    let journal = repin::store::read_journal(text.as_bytes());
    assert_eq!(journal.entries.len(), job.entries().len(), "seed {seed}");
    assert_eq!(Job::replay(journal.entries).state(), job.state(), "seed {seed}");
}

/// A connector of three cavities: a wire, a lead of two wires, a plug.
fn small() -> Job {
    let form: FamilyForm = ron_options()
        .from_str(
            r#"(format: 1, id: "small", title: "small", source: Invented,
            terminals: [(part: "T", size: "1", gender: Female, plating: "tin", wire_mm2: (0.35, 2.0), insulation_mm: (1.0, 3.0), held_by: Tang, released_from: Front, seating: Push)],
            plugs: [(part: "P", size: "1", colour: "white")],
            housings: [(id: "small-3", part: "S-3", title: "3-way", gender: Female, sealing: Unsealed, drawn: Wire, features: [("latch", Top)],
                layout: Grid(rows: 1, columns: 3), size: "1",
                lock: (kind: "wedge", open: PreSet, released_from: Front, delivered: PreSet, supplied: With))])"#,
        )
        .unwrap();
    let mut job = Job::default();
    let mut take = |act: Act| {
        let entry = Entry::new("2026-11-25T07:00:00Z".parse().unwrap(), "kt", act);
        assert_eq!(job.check(&entry), Verdict::Allowed);
        job.apply(entry);
    };
    let text = String::new;
    take(Act::Ticket { id: None, asset: text(), serial: text(), connector: text(), reason: text(), seed: 1 });
    for (name, side) in [("old", JobSide::Old), ("new", JobSide::New)] {
        let definition = Box::new(Definition::of_housing(&form, "small-3").unwrap());
        take(Act::Housed { name: name.parse().unwrap(), side, definition });
    }
    let set_up = r#"
        Gate(gate:Restraint,answer:Absent,document:"d",name:"n")
        Gate(gate:HighVoltage,answer:Absent,document:"d",name:"n")
        Gate(gate:Interlock,answer:Absent,document:"d",name:"n")
        Gate(gate:Battery,answer:OffMachine,name:"n")
        View(housing:"old",face:Wire,up:"latch")
        View(housing:"new",face:Wire,up:"latch")
        Recorded(side:Found,at:"old:1",holds:Wired(wires:[(number:"A",colour:"RD",gauge:"0.5")]))
        Recorded(side:Found,at:"old:2",holds:Wired(wires:[(number:"B",colour:"BK",gauge:"0.5"),(number:"C",colour:"BU",gauge:"0.5")]))
        Recorded(side:Found,at:"old:3",holds:Plugged)
        RecordFinished(side:Found)
        Anchor(housing:"old",place:"row 1, 1 from left",colour:"RD",mark:"1")
        Anchor(housing:"old",place:"key",mark:"latch")
        Anchor(housing:"new",place:"row 1, 1 from left",mark:"1")
        Anchor(housing:"new",place:"key",mark:"latch")
        Compared(question:Key,answer:Fits,mating_half:true)
        Compared(question:Latch,answer:Fits,mating_half:true)
        Compared(question:Gender,answer:Fits,mating_half:true)
        MapConfirmed(source:SameLabels)
        Lock(housing:"old",to:PreSet,finger:true)"#;
    read_acts("set-up", set_up).unwrap().into_iter().for_each(|line| take(line.act));
    job
}

/// What makes a state different: places, seats and locks, and what decides about the thing in the
/// hand. History, time, notes and counters are left out.
fn identity(state: &State) -> String {
    let leads: Vec<_> = state
        .items
        .leads
        .iter()
        .map(|l| (&l.place, l.seat, (l.place == Place::Hand).then_some((&l.inspected, &l.came_from))))
        .collect();
    let mut plugs: Vec<_> = state.items.plugs.iter().map(|p| (p.origin, &p.place)).collect();
    // Plugs from stock are alike.
    plugs.sort();
    let locks: Vec<Option<LockState>> = state.housings.all.iter().map(|h| h.lock).collect();
    format!("{leads:?}{plugs:?}{locks:?}")
}

/// Every act tried in every state: moves into any hole, corrections as steps, one plug from stock.
fn moves(state: &State) -> Vec<String> {
    let mut acts: Vec<String> = [
        "Inspect(verdict:Good)",
        "PutBack",
        "Park(tag:\"T\",reason:\"seen so\")",
        "TakeUp(tag:\"T\")",
        "LosePlug",
    ]
    .map(ToOwned::to_owned)
    .to_vec();
    for n in 1..=3 {
        for side in ["old", "new"] {
            for colour in ["RD", "BK"] {
                acts.push(format!("Extract(from:\"{side}:{n}\",colour:\"{colour}\",freely:true,seal:None)"));
            }
            acts.push(format!("TakePlug(from:\"{side}:{n}\")"));
        }
        for yes in ["true", "false"] {
            acts.push(format!("Insert(into:\"new:{n}\",click:{yes})"));
            acts.push(format!("Tug(at:\"new:{n}\",held:{yes})"));
        }
        acts.push(format!("FitPlug(into:\"new:{n}\",source:Hand)"));
        acts.push(format!("FitPlug(into:\"new:{n}\",source:Tray)"));
        if state.items.plugs.len() < 2 {
            acts.push(format!("FitPlug(into:\"new:{n}\",source:Stock)"));
        }
        for item in ["old:1", "old:2", "old:3"] {
            acts.push(format!("Seen(item:\"{item}\",at:In(\"new:{n}\"),reason:\"seen so\")"));
        }
    }
    for item in ["old:1", "old:2", "old:3"] {
        for at in ["Hand", "Unseen"] {
            acts.push(format!("Seen(item:\"{item}\",at:{at},reason:\"seen so\")"));
        }
    }
    acts
}

/// The count is the project's own: it changes when the rules change, and then on purpose.
const STATES: usize = 10_502;

#[test]
fn in_every_reachable_state_of_a_small_connector_the_law_holds() {
    let start = small();
    let mut seen: BTreeSet<String> = BTreeSet::new();
    let mut parsed: BTreeMap<String, Act> = BTreeMap::new();
    seen.insert(identity(start.state()));
    let mut edge = VecDeque::from([start]);
    while let Some(job) = edge.pop_front() {
        for text in moves(job.state()) {
            let act = parsed.entry(text.clone()).or_insert_with(|| Bench::parse(&text)).clone();
            let entry = Entry::new("2026-11-25T07:00:00Z".parse().unwrap(), "kt", act);
            let entry = match job.check(&entry) {
                Verdict::Allowed => entry,
                // A wrong hole is a rule a named person goes past: that state must hold the law, too.
                Verdict::Against(_) => {
                    let mut entry = entry;
                    if let Some(anyway) = entry.act.anyway_mut() {
                        *anyway = Some(repin::job::Anyway {
                            by: "n".into(),
                            reason: "r".into(),
                            codes: Vec::new(),
                        });
                    }
                    entry
                }
                Verdict::Impossible(_) => continue,
            };
            let mut next = job.clone();
            next.apply(entry);
            if seen.insert(identity(next.state())) {
                check_law(&next);
                edge.push_back(next);
                assert!(seen.len() < 200_000, "more states than a small connector has");
            }
        }
    }
    println!("{} states", seen.len());
    assert_eq!(seen.len(), STATES);
}

#[test]
fn the_demo_jobs_hold_the_law_after_every_act() {
    let catalogue = Catalogue::built_in();
    for (old, new, file) in [
        ("fw-hsg-12a", "fw-hsg-12a", "fernwalker-boom-tip.acts"),
        ("sk-10", "sk-10", "skerry-pod.acts"),
        ("iso-1724", "iso-1724", "trailer-7-way.acts"),
    ] {
        assert!(catalogue.find(old).is_ok());
        let mut bench = Bench::new(old, new);
        for act in demo_acts(file).iter().filter(|act| !act.starts_with("Sign")) {
            bench.does(act);
            check_law(&bench.job);
        }
    }
}
