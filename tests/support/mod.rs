//! A bench for tests: jobs in memory, acts as people write them in files. Beside it what else tests
//! share: the built program in a folder, a screen without a terminal, a set of housings, a walk by steps.

#![allow(dead_code, reason = "each test program uses what it needs")]

pub mod cli;
pub mod desk;
pub mod four;
pub mod walk;

use jiff::{SignedDuration, Timestamp};
use repin::{
    form::{Catalogue, read_acts},
    job::{Act, Code, Entry, ItemId, Job, JobSide, Status, Task, Verdict},
    report::refusals,
    shop_rules::ShopRules,
};

/// A job in memory and who works on it.
pub struct Bench {
    pub job: Job,
    pub now: Timestamp,
    pub by: String,
}

/// The acts of a demo file, comments and blank lines left out.
pub fn demo_acts(file: &str) -> Vec<String> {
    let path = format!("{}/demo-data/{file}", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(path).unwrap();
    text.lines().filter(|l| !l.trim().is_empty() && !l.starts_with("//")).map(ToOwned::to_owned).collect()
}

impl Bench {
    /// A job on these housings, with the serial number 4072 and nothing recorded.
    pub fn new(old: &str, new: &str) -> Self {
        Self::with_rules(old, new, ShopRules::default())
    }

    pub fn with_rules(old: &str, new: &str, rules: ShopRules) -> Self {
        Self::from(&Catalogue::built_in(), old, new, rules)
    }

    /// A job on housings of a catalogue.
    pub fn from(catalogue: &Catalogue, old: &str, new: &str, rules: ShopRules) -> Self {
        let now: Timestamp = "2026-11-25T07:00:00Z".parse().unwrap();
        let mut bench = Self { job: Job::default(), now, by: "kt".to_owned() };
        bench.takes(Act::Ticket {
            id: None,
            asset: "test machine".into(),
            serial: "SPD-4072".into(),
            connector: "X1".into(),
            reason: "test".into(),
            seed: 4072,
        });
        bench.takes(Act::Rules { rules: Box::new(rules) });
        for (name, side, word) in [("old", JobSide::Old, old), ("new", JobSide::New, new)] {
            let definition = Box::new(catalogue.find(word).unwrap());
            bench.takes(Act::Housed { name: name.parse().unwrap(), side, definition });
        }
        bench
    }

    /// One more housing, of those built in.
    pub fn houses(&mut self, name: &str, side: JobSide, word: &str) {
        let definition = Box::new(Catalogue::built_in().find(word).unwrap());
        self.takes(Act::Housed { name: name.parse().unwrap(), side, definition });
    }

    /// The seed sensor of the class board with everything set up, nothing moved.
    pub fn ready() -> Self {
        let mut bench = Self::new("sp-16", "sp-16");
        for act in demo_acts("spudrow-twin.acts") {
            if act.starts_with("Extract") {
                break;
            }
            bench.does(&act);
        }
        bench
    }

    /// The same with everything moved, nothing closed.
    pub fn moved() -> Self {
        let mut bench = Self::new("sp-16", "sp-16");
        for act in demo_acts("spudrow-twin.acts") {
            if act.starts_with("SmallPart(housing:\"new\"") {
                break;
            }
            bench.does(&act);
        }
        bench
    }

    fn takes(&mut self, act: Act) {
        let entry = self.entry(act);
        assert_eq!(self.job.check(&entry), Verdict::Allowed);
        self.job.apply(entry);
    }

    fn entry(&self, act: Act) -> Entry {
        Entry::new(self.now, self.by.clone(), act)
    }

    pub fn parse(act: &str) -> Act {
        let mut lines = read_acts("test", act).unwrap_or_else(|p| panic!("{}", p.first().unwrap()));
        lines.remove(0).act
    }

    /// What the job says to an act, without taking it in.
    pub fn asks(&self, act: &str) -> Verdict {
        self.job.check(&self.entry(Self::parse(act)))
    }

    /// Takes an act in; it must be allowed.
    #[track_caller]
    pub fn does(&mut self, act: &str) {
        let entry = self.entry(Self::parse(act));
        let verdict = self.job.check(&entry);
        assert_eq!(verdict, Verdict::Allowed, "{act}");
        self.job.apply(entry);
    }

    /// Takes several acts in.
    #[track_caller]
    pub fn does_all(&mut self, acts: &[&str]) {
        acts.iter().for_each(|act| self.does(act));
    }

    /// An act that a rule forbids: the codes. Nothing is taken in.
    #[track_caller]
    pub fn against(&self, act: &str) -> Vec<Code> {
        match self.asks(act) {
            Verdict::Against(refusals) => refusals.iter().filter_map(|r| r.code()).collect(),
            other => panic!("{act}: {other:?}"),
        }
    }

    /// An act that cannot be: the whole sentence. Nothing is taken in.
    #[track_caller]
    pub fn impossible(&self, act: &str) -> String {
        match self.asks(act) {
            Verdict::Impossible(refusal) => refusals::line(&refusal),
            other => panic!("{act}: {other:?}"),
        }
    }

    /// Takes an act in by the same road as the store: a named person goes past the rules.
    #[track_caller]
    pub fn insists(&mut self, act: &str) -> Vec<Code> {
        let mut act = Self::parse(act);
        let anyway = repin::job::Anyway { by: "K. Tanner".into(), reason: "test".into(), codes: Vec::new() };
        *act.anyway_mut().expect("an act that takes anyway") = Some(anyway);
        let entry = self.entry(act.clone());
        let codes: Vec<Code> = match self.job.check(&entry) {
            Verdict::Against(refusals) => refusals.iter().filter_map(|r| r.code()).collect(),
            other => panic!("{act:?}: {other:?}"),
        };
        if let Some(Some(anyway)) = act.anyway_mut() {
            anyway.codes.clone_from(&codes);
        }
        let entry = self.entry(act);
        self.job.apply(entry);
        codes
    }

    /// Time goes by.
    pub fn waits_h(&mut self, hours: i64) {
        self.now += SignedDuration::from_hours(hours);
    }

    /// The codes of the open flags.
    pub fn flags(&self) -> Vec<Code> {
        self.job.account(self.now).open_flags().map(|f| f.code()).collect()
    }

    #[track_caller]
    pub fn flagged(&self, code: Code) {
        assert!(self.flags().contains(&code), "{code} is not among {:?}", self.flags());
    }

    #[track_caller]
    pub fn not_flagged(&self, code: Code) {
        assert!(!self.flags().contains(&code), "{code} is among {:?}", self.flags());
    }

    /// The word for where the job stands.
    pub fn state(&self) -> &'static str {
        self.job.account(self.now).state.as_str()
    }

    /// Answers every gate: nothing dangerous there, the battery off and measured.
    #[track_caller]
    pub fn passes_the_gates(&mut self) {
        for gate in ["Restraint", "HighVoltage", "Interlock"] {
            self.does(&format!(r#"Gate(gate:{gate},answer:Absent,document:"d",name:"n")"#));
        }
        self.does(
            r#"Gate(gate:Battery,answer:Released,document:"d",name:"n",measured:(volts:"0 V",between:"1 and 2",tester_proved:true))"#,
        );
        self.does(
            r#"Gate(gate:StoredEnergy,answer:Released,document:"d",name:"n",measured:(state:"boom on stands"),energy:[Load])"#,
        );
    }

    /// Answers every anchor that is asked, by the record.
    #[track_caller]
    pub fn proves_the_views(&mut self) {
        loop {
            let state = self.job.state();
            let steps = state.steps(&state.target());
            let next = steps.iter().find_map(|step| match &step.what {
                Task::Anchor { housing, place } if step.status != Status::Done => Some((housing, *place)),
                _ => None,
            });
            let Some((name, place)) = next else { return };
            let housing = state.housings.housing(name).unwrap();
            let act = match housing.seen().label_at(place) {
                None => {
                    let up = housing.housing().feature_on(housing.pose().up).unwrap();
                    format!(r#"Anchor(housing:"{name}",place:"key",mark:"{up}")"#)
                }
                Some(label) => {
                    let lead = state.items.lead(&ItemId::At(housing.address(label)));
                    let colour = lead.and_then(|lead| lead.seen.wires[0].colour.known());
                    let colour = colour.map_or(String::new(), |colour| format!(r#"colour:"{colour}","#));
                    format!(r#"Anchor(housing:"{name}",place:"{place}",{colour}mark:"{label}")"#)
                }
            };
            self.does(&act);
        }
    }

    /// Answers the anchors of a housing of one row with RD at its far left, and compares old and new.
    #[track_caller]
    pub fn proves_and_compares(&mut self) {
        self.does_all(&[
            r#"Anchor(housing:"old",place:"row 1, 1 from left",colour:"RD",mark:"1")"#,
            r#"Anchor(housing:"old",place:"key",mark:"latch")"#,
            r#"Anchor(housing:"new",place:"row 1, 1 from left",mark:"1")"#,
            r#"Anchor(housing:"new",place:"key",mark:"latch")"#,
            "Compared(question:Key,answer:Fits,mating_half:true)",
            "Compared(question:Latch,answer:Fits,mating_half:true)",
            "Compared(question:Gender,answer:Fits,mating_half:true)",
        ]);
    }

    /// Moves one wire of the class board without a fault.
    #[track_caller]
    pub fn moves(&mut self, label: &str, colour: &str) {
        self.does(&format!(r#"Extract(from:"old:{label}",colour:"{colour}",freely:true,seal:On)"#));
        self.does("Inspect(verdict:Good)");
        self.does(&format!(r#"Insert(into:"new:{label}",click:true)"#));
        self.does(&format!(r#"Tug(at:"new:{label}",held:true)"#));
    }
}
