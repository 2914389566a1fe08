//! A screen without a terminal: keys in, pictures out, acts by the one road.

use crossterm::event::{KeyCode, KeyEvent, KeyModifiers};
use ratatui::{buffer::Buffer, layout::Rect};
use repin::{
    job::{Act, Entry, Occupant, Status, Task, Verdict},
    procedure::{JobView, Press, Stop, Takes},
    reckoning::ToolBook,
    report::{alarm_words, questions::prompt},
    screen::{Effect, Outcome, Theme, Ui, view},
};

use crate::support::Bench;

/// A job with a screen before it.
pub struct Desk {
    pub bench: Bench,
    pub ui: Ui,
    pub presses: usize,
    pub tools: ToolBook,
}

impl Desk {
    pub fn at(bench: Bench) -> Self {
        Self { bench, ui: Ui::default(), presses: 0, tools: ToolBook::default() }
    }

    pub fn with<T>(&mut self, look: impl FnOnce(&mut Ui, &JobView<'_>) -> T) -> T {
        let assessment = self.bench.job.assess(self.bench.now, Some(&self.bench.by));
        let sight = JobView {
            id: "board",
            job: &self.bench.job,
            assessment: &assessment,
            last_request: None,
            tools: &self.tools,
            by: &self.bench.by,
            read_only: None,
        };
        look(&mut self.ui, &sight)
    }

    /// What is asked now, in words, with what may answer it.
    pub fn question(&mut self) -> (String, Takes) {
        self.with(|ui, sight| match ui.asked(sight) {
            Err(Stop::Ask(ask)) => (prompt(sight, &ask), ask.takes),
            other => panic!("nothing is asked: {other:?}"),
        })
    }

    /// Whether a key answers what is asked now.
    pub fn asks_for_a_key(&mut self) -> bool {
        matches!(self.question(), (_, Takes::Choices(_)))
    }

    /// Presses one key and does what the screen asks for, by the one road.
    pub fn press(&mut self, code: KeyCode) {
        self.presses += 1;
        let event = KeyEvent::new(code, KeyModifiers::NONE);
        let acts = match self.with(|ui, sight| ui.update(sight, event)) {
            Effect::Enter(acts) => acts,
            Effect::Works(name) => {
                self.bench.by = name;
                self.ui.finish(Outcome::Entered(String::new()));
                return;
            }
            Effect::Book(positions) => {
                self.tools.positions.retain(|old| positions.iter().all(|new| !new.key.is_same(&old.key)));
                self.tools.positions.extend(positions);
                self.ui.finish(Outcome::Entered("in the book".to_owned()));
                return;
            }
            _ => return,
        };
        let first = self.bench.job.entries().len() + 1;
        let mut job = self.bench.job.clone();
        for (nth, act) in acts.iter().enumerate() {
            let mut entry = Entry::new(self.bench.now, self.bench.by.clone(), act.clone());
            entry.with = (nth > 0).then_some(first);
            let (refusals, can_go_on) = match job.check(&entry) {
                Verdict::Allowed => (Vec::new(), false),
                Verdict::Against(refusals) if act.anyway().is_some() => {
                    if let Some(Some(anyway)) = entry.act.anyway_mut() {
                        anyway.codes = refusals.iter().filter_map(|refusal| refusal.code()).collect();
                    }
                    (Vec::new(), false)
                }
                Verdict::Impossible(refusal) => (vec![refusal], false),
                Verdict::Against(refusals) => (refusals, act.takes_anyway()),
            };
            if !refusals.is_empty() {
                let press = Press { acts: acts.clone(), nth };
                self.ui.finish(Outcome::Refused { press, refusals, can_go_on });
                return;
            }
            job.apply(entry);
        }
        self.bench.job = job;
        if acts.iter().any(|act| matches!(act, Act::HandOver { .. })) {
            self.bench.by.clear();
        }
        let loud = acts.iter().find_map(|act| self.bench.job.state().alarm(act));
        let loud = loud.map(|alarm| alarm_words(&alarm));
        self.ui.finish(loud.map_or(Outcome::Entered(String::new()), Outcome::Disagrees));
    }

    pub fn keys(&mut self, keys: &str) {
        keys.chars().for_each(|c| self.press(KeyCode::Char(c)));
    }

    pub fn typed(&mut self, text: &str) {
        self.keys(text);
        self.press(KeyCode::Enter);
    }

    /// Answers the re-read that stands between moves with what is in the hole; says whether one did.
    pub fn rereads(&mut self) -> bool {
        let next = self.with(|_, sight| {
            let next = sight.assessment.steps.iter().find(|step| step.status == Status::Next)?;
            let Task::ReRead { at } = &next.what else { return None };
            sight.state().items.occupant(at).map(|occupant| match occupant {
                Occupant::Lead(lead) => lead.seen.wires[0].colour.to_string(),
                _ => "plug".to_owned(),
            })
        });
        let Some(seen) = next else { return false };
        self.typed(&seen);
        true
    }

    pub fn picture(&mut self, width: u16, height: u16, theme: Theme) -> String {
        let area = Rect::new(0, 0, width, height);
        let mut buffer = Buffer::empty(area);
        self.with(|ui, sight| view(sight, ui, theme, area, &mut buffer));
        lines(&buffer)
    }
}

pub fn lines(buffer: &Buffer) -> String {
    let width = usize::from(buffer.area.width).max(1);
    let rows = buffer.content().chunks(width);
    let text = rows
        .map(|row| row.iter().map(ratatui::buffer::Cell::symbol).collect::<String>().trim_end().to_owned());
    text.collect::<Vec<_>>().join("\n")
}
