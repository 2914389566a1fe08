//! The shell of the screens: terminal, keys, and the work that pure screens hand over. The only
//! part of this module that does anything.

use std::path::{Path, PathBuf};

use anyhow::Result;
use jiff::Timestamp;

use super::{
    board::{Board, BoardEffect, BoardLine, view_board},
    define::{Define, DefineEffect, view_define},
    state::{Effect, Message, Outcome, Ui},
    terminal::{Tty, Woken, need_a_terminal, with_terminal},
    theme::{Palette, Theme},
    update::Burst,
    view::view,
};
use crate::{
    job::{Act, Assessment, Entry, day_of},
    procedure::{JobView, Press},
    reckoning::{ToolBook, ToolPosition},
    report::{act_told, alarm_words},
    service::{
        EnterProblem, JobAt, OpenJob, SendProblem, Shop, Stands, StoreProblem, board, describe_family,
        last_request, lost_request, send_request,
    },
    supply::{Request, RequestHead},
};

/// What the shell needs to know about this sitting.
pub struct Sitting {
    /// The shop whose jobs these are.
    pub shop: Shop,
    /// Who works here.
    pub by: String,
    /// The look of the terminal.
    pub theme: Theme,
}

impl Sitting {
    /// A sitting; colours as `NO_COLOR` says.
    pub fn new(shop: Shop, by: String, ascii: bool) -> Self {
        let says = |name| std::env::var(name).ok();
        let [no_color, colorterm, term] = ["NO_COLOR", "COLORTERM", "TERM"].map(says);
        let palette = Palette::of(no_color.as_deref(), colorterm.as_deref(), term.as_deref());
        Self { shop, by, theme: Theme { palette, ascii } }
    }
}

/// Runs the job board until somebody leaves.
pub fn run_board(sitting: &Sitting) -> Result<()> {
    with_terminal(|terminal| {
        // After a hand-over the next job is opened by who took over.
        let mut by = sitting.by.clone();
        let mut board = Board::of(board_lines(&sitting.shop)?);
        loop {
            terminal.draw(|area, buf| view_board(&board, sitting.theme, area, buf))?;
            let Woken::Keys(keys) = terminal.wait()? else { continue };
            for key in keys {
                match board.update(key) {
                    BoardEffect::None => {}
                    BoardEffect::Leave => return Ok(()),
                    BoardEffect::Open(id) => {
                        let at = sitting.shop.job(&id).map_err(anyhow::Error::from);
                        let opened = at.and_then(|at| Bench::open(sitting, &at, &by));
                        // What cannot be opened is said on the board; what ends the sitting ends it here, too.
                        let refused = match opened {
                            Ok(bench) => {
                                by = work_on(terminal, bench)?;
                                None
                            }
                            Err(why) => Some(format!("{why:#}")),
                        };
                        let marked = board.marked;
                        board = Board::of(board_lines(&sitting.shop)?);
                        board.marked = board.lines.iter().position(|line| line.id == id).unwrap_or(marked);
                        board.message = refused;
                        break;
                    }
                }
            }
        }
    })
}

/// Opens one job until somebody leaves it.
pub fn run_job(sitting: &Sitting, at: &JobAt) -> Result<()> {
    need_a_terminal()?;
    // What cannot be opened is said on the plain terminal.
    let bench = Bench::open(sitting, at, &sitting.by)?;
    with_terminal(|terminal| work_on(terminal, bench).map(|_| ()))
}

/// Describes a housing until it is saved in this folder, or somebody leaves. Gives the file.
pub fn run_define(sitting: &Sitting, library: &Path) -> Result<Option<PathBuf>> {
    with_terminal(|terminal| {
        let today = day_of(Timestamp::now());
        let mut define = Define::new(format!("described at the bench by {}, {today}", sitting.by));
        loop {
            terminal.draw(|area, buf| view_define(&define, sitting.theme, area, buf))?;
            let Woken::Keys(keys) = terminal.wait()? else { continue };
            for (n, key) in keys.iter().enumerate() {
                if define.refuses_paste(keys.get(n..).unwrap_or_default()) {
                    break;
                }
                match define.update(*key) {
                    DefineEffect::None => {}
                    DefineEffect::Leave => return Ok(None),
                    DefineEffect::Save(form) => match describe_family(library, &form) {
                        Ok(path) => return Ok(Some(path)),
                        Err(why) => define.refuse(why.to_string()),
                    },
                }
            }
        }
    })
}

/// A job on the screen.
struct Bench<'a> {
    open: OpenJob,
    assessment: Assessment,
    last_request: Option<Request>,
    tools: ToolBook,
    /// What could not be read beside the job.
    without: Option<String>,
    id: String,
    /// Who works here now; nobody between a hand-over and the name of who takes over.
    by: String,
    sitting: &'a Sitting,
}

impl<'a> Bench<'a> {
    fn open(sitting: &'a Sitting, at: &JobAt, by: &str) -> Result<Self> {
        let open = OpenJob::open(at, by, Timestamp::now())?;
        let assessment = open.job().assess(Timestamp::now(), Some(by));
        let (id, last_request) = (open.id(), last_request(&open));
        // Without the book no position counts; the wires are moved all the same.
        let (tools, no_book) = match open.tool_book() {
            Ok(book) => (book, None),
            Err(why) => (ToolBook::default(), Some(no_book(&why))),
        };
        let lost = lost_request(&open).filter(|lost| !lost.is_gone()).map(|lost| format!("{lost}."));
        let without = [no_book, lost].into_iter().flatten().reduce(|one, other| format!("{one} {other}"));
        Ok(Self { open, assessment, last_request, tools, without, id, by: by.to_owned(), sitting })
    }

    fn view(&self) -> JobView<'_> {
        JobView {
            id: &self.id,
            job: self.open.job(),
            assessment: &self.assessment,
            last_request: self.last_request.as_ref(),
            tools: &self.tools,
            by: &self.by,
            read_only: self.open.read_only(),
        }
    }

    /// Writes positions into this bench's tool book.
    fn book(&mut self, positions: &[ToolPosition]) -> Outcome {
        let today = day_of(self.assessment.now);
        let mut said = Vec::new();
        for position in positions {
            match self.open.write_position(&self.by, position) {
                Ok(file) => said.push(format!("in {file}: {}", position.standing(today))),
                Err(why) => return Outcome::Trouble(why.to_string()),
            }
        }
        match self.open.tool_book() {
            Ok(book) => {
                self.tools = book;
                Outcome::Entered(said.join("; "))
            }
            Err(why) => Outcome::NotSo(no_book(&why)),
        }
    }

    /// Does what a screen asks for, and looks at the job anew.
    fn perform(&mut self, work: impl FnOnce(&mut OpenJob, &str) -> Outcome) -> Outcome {
        let outcome = work(&mut self.open, &self.by);
        self.look();
        self.last_request = last_request(&self.open);
        outcome
    }

    fn look(&mut self) {
        let by = Some(self.by.as_str()).filter(|by| !by.is_empty());
        self.assessment = self.open.job().assess(Timestamp::now(), by);
    }

    /// Enters acts; after a hand-over nobody works here until somebody says the name.
    fn enter(&mut self, acts: Vec<Act>) -> Outcome {
        let is_handed_over = acts.iter().any(|act| matches!(act, Act::HandOver { .. }));
        let outcome = self.perform(|open, by| enter(open, by, acts));
        if is_handed_over && matches!(outcome, Outcome::Entered(_)) {
            self.by.clear();
        }
        outcome
    }

    fn works(&mut self, name: String) -> Outcome {
        self.by = name;
        self.look();
        Outcome::Entered(format!("{} works here now", self.by))
    }
}

fn no_book(why: &StoreProblem) -> String {
    format!("The tool book cannot be read, so no tool position counts as proved: {why}.")
}

/// Works on a job until somebody leaves it; gives who worked there last.
fn work_on(terminal: &mut Tty, mut bench: Bench<'_>) -> Result<String> {
    let sitting = bench.sitting;
    let mut ui = Ui { message: bench.without.take().map(Message::Refused), ..Ui::default() };
    if let Some(trouble) = bench.open.trouble() {
        ui.message = Some(Message::Trouble(trouble.to_owned()));
    }
    loop {
        terminal.draw(|area, buf| {
            view(&bench.view(), &ui, sitting.theme, area, buf);
        })?;
        let Woken::Keys(keys) = terminal.wait()? else { continue };
        let mut burst = Burst::of(&keys);
        while let Some(key) = ui.next_key(&bench.view(), &mut burst) {
            let outcome = match ui.update(&bench.view(), key) {
                Effect::None => continue,
                Effect::Leave if bench.by.is_empty() => return Ok(sitting.by.clone()),
                Effect::Leave => return Ok(bench.by),
                Effect::Enter(acts) => bench.enter(acts),
                Effect::Works(name) => bench.works(name),
                Effect::SendRequest(head) => bench.perform(|open, _| send(open, head)),
                Effect::Book(positions) => bench.book(&positions),
            };
            ui.finish(outcome);
        }
    }
}

/// Enters the acts of one key press by the one road: all of them or none.
fn enter(open: &mut OpenJob, by: &str, acts: Vec<Act>) -> Outcome {
    let at = Timestamp::from_second(Timestamp::now().as_second()).unwrap_or_default();
    let press = acts.iter().map(|act| Entry::new(at, by, act.clone())).collect();
    let loses = acts.iter().find_map(|act| open.job().state().mapping.loses_place(act)).cloned();
    let loses = loses.map_or(String::new(), |at| format!("; {at} HAS NO PLACE now: map it, too"));
    match open.enter_press(press) {
        Ok(_) => {
            if let Some(alarm) = acts.iter().find_map(|act| open.job().state().alarm(act)) {
                return Outcome::Disagrees(alarm_words(&alarm));
            }
            let said = acts.last().map(act_told).unwrap_or_default();
            let length = acts.iter().rev().find_map(|act| length_of_order(open, act)).unwrap_or_default();
            match loses.is_empty() {
                true => Outcome::Entered(format!("on disk: {said}{length}")),
                false => Outcome::Disagrees(format!("on disk: {said}{length}{loses}")),
            }
        }
        Err(EnterProblem::Refused { refusals, can_go_on, nth }) => {
            Outcome::Refused { press: Press { acts, nth }, refusals, can_go_on }
        }
        Err(other) => Outcome::Trouble(other.to_string()),
    }
}

/// What a lead just ordered comes to: how long it is, and where its splice sits.
fn length_of_order(open: &OpenJob, act: &Act) -> Option<String> {
    let Act::Planned { lead, order: Some(_), .. } = act else { return None };
    let ordered = open.job().state().ordered(lead)?;
    match (ordered.place, ordered.length) {
        (Some(place), Some(length)) => Some(format!(
            "; order {:.0} mm, sleeve {:.1} to {:.1} mm from the rear face",
            length.order_mm, place.start_mm, place.end_mm
        )),
        (None, _) => Some("; NO PLACE for its splice: see the page repairs".to_owned()),
        (Some(_), None) => Some("; its length is not known yet".to_owned()),
    }
}

fn send(open: &mut OpenJob, head: RequestHead) -> Outcome {
    match send_request(open, head, Timestamp::now()) {
        Ok(request) => Outcome::Entered(format!("on disk and sent: {}", request.file_name())),
        Err(why @ SendProblem::Incomplete(_)) => Outcome::NotSo(why.to_string()),
        Err(why) => Outcome::Trouble(why.to_string()),
    }
}

/// Every job of the shop as the board shows it.
fn board_lines(shop: &Shop) -> Result<Vec<BoardLine>> {
    let jobs = board(&shop.store(), Timestamp::now())?;
    let lines = jobs.into_iter().map(|job| {
        let touched = job.touched.to_string().get(..16).unwrap_or_default().replace('T', " ");
        let opens = job.stands.is_ok();
        let stands = job.stands.unwrap_or_else(|why| Stands {
            asset: String::new(),
            connector: String::new(),
            state: "unreadable".to_owned(),
            about: why,
        });
        let Stands { asset, connector, state, about } = stands;
        BoardLine { id: job.id, asset, connector, state, about, touched, opens }
    });
    Ok(lines.collect())
}
