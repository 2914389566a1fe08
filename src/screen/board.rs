//! The job board: every job of the store, the last touched first.

use crossterm::event::{KeyCode, KeyEvent};
use ratatui::{
    buffer::Buffer,
    layout::Rect,
    style::Style,
    text::{Line, Span},
};

use super::{
    keys::{Pressed, SharedKey, pressed},
    theme::Theme,
    view::{SMALLEST, clean, put, two_ends, wrap},
};

/// A job as the board shows it.
#[derive(Debug, Clone, PartialEq)]
pub struct BoardLine {
    /// Its id.
    pub id: String,
    /// Machine.
    pub asset: String,
    /// Connector.
    pub connector: String,
    /// The word for where it stands, or what is wrong with its file.
    pub state: String,
    /// What it waits for, who has it open, or what comes next.
    pub about: String,
    /// When it was last touched, as a date.
    pub touched: String,
    /// Whether its file can be opened at all.
    pub opens: bool,
}

/// What the board remembers.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Board {
    /// The jobs.
    pub lines: Vec<BoardLine>,
    /// The marked one.
    pub marked: usize,
    /// A message, such as why a job could not be opened.
    pub message: Option<String>,
    /// Whether help is shown.
    pub help: bool,
}

/// What the shell is to do for the board.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum BoardEffect {
    /// Nothing but draw.
    None,
    /// Open this job.
    Open(String),
    /// Leave the program.
    Leave,
}

impl Board {
    /// A board with these jobs.
    pub fn of(lines: Vec<BoardLine>) -> Self {
        Self { lines, ..Self::default() }
    }

    /// Handles one key press.
    pub fn update(&mut self, event: KeyEvent) -> BoardEffect {
        if std::mem::take(&mut self.help) {
            return BoardEffect::None;
        }
        let last = self.lines.len().saturating_sub(1);
        match pressed(event, false) {
            Pressed::SharedKey(SharedKey::Down) => self.marked = (self.marked + 1).min(last),
            Pressed::SharedKey(SharedKey::Up) => self.marked = self.marked.saturating_sub(1),
            Pressed::SharedKey(SharedKey::Help) => self.help = true,
            Pressed::SharedKey(SharedKey::Leave | SharedKey::Back) => return BoardEffect::Leave,
            Pressed::SharedKey(SharedKey::Enter) => {
                self.message = None;
                return match self.lines.get(self.marked) {
                    Some(line) => BoardEffect::Open(line.id.clone()),
                    None => BoardEffect::None,
                };
            }
            // Paging keys of the keyboard; a board has no pages of its own.
            _ if event.code == KeyCode::Home => self.marked = 0,
            _ if event.code == KeyCode::End => self.marked = last,
            _ => {}
        }
        BoardEffect::None
    }
}

/// Rows of one job on the board.
const ROWS: usize = 2;

/// Draws the board.
pub fn view_board(board: &Board, theme: Theme, area: Rect, buf: &mut Buffer) {
    if area.width < SMALLEST.0 || area.height < SMALLEST.1 {
        put(buf, area, 0, &Line::from(format!("Make the window at least {} x {}.", SMALLEST.0, SMALLEST.1)));
        return;
    }
    let count = crate::quantity::count_of(board.lines.len(), "job");
    two_ends(buf, area, 0, " repin  job board", &format!("{count} "), theme.title());
    let caution = crate::job::caution(crate::job::Occasion::Always);
    for (row, line) in (1_u16..3).zip(wrap(caution, usize::from(area.width) - 2)) {
        put(buf, area, row, &Line::styled(format!(" {line}"), theme.faint()));
    }
    let list = Rect { y: area.y + 4, height: area.height - 7, ..area };
    if board.help {
        help(theme, list, buf);
    } else if board.lines.is_empty() {
        let words = "No jobs here yet. `repin demo` makes some to try; `repin new` starts one of your own.";
        put(buf, list, 0, &Line::raw(format!(" {words}")));
    } else {
        jobs(board, theme, list, buf);
    }
    if let Some(message) = &board.message {
        let at = Rect { y: area.bottom() - 2, height: 1, ..area };
        put(buf, at, 0, &Line::styled(format!(" {}", clean(message, theme)), theme.alarm()));
    }
    let foot = Rect { y: area.bottom() - 1, height: 1, ..area };
    let keys = [("Up Down", "choose"), ("Enter", "open"), ("?", "help"), ("q", "leave")];
    let spans = keys.iter().flat_map(|(key, text)| {
        [Span::styled(format!(" {key}"), theme.key()), Span::styled(format!(" {text} "), theme.faint())]
    });
    put(buf, foot, 0, &Line::from(spans.collect::<Vec<_>>()));
}

fn jobs(board: &Board, theme: Theme, area: Rect, buf: &mut Buffer) {
    // The last line says what is out of sight.
    let fits = usize::from(area.height.saturating_sub(1)) / ROWS;
    let first = board.marked.saturating_sub(fits.saturating_sub(1));
    let below = board.lines.len().saturating_sub(first + fits);
    if first + below > 0 {
        let said = format!(" {} above, {} below: Up, Down", first, below);
        put(buf, area, area.height.saturating_sub(1), &Line::styled(said, theme.now()));
    }
    for (n, line) in board.lines.iter().enumerate().skip(first).take(fits) {
        let row = u16::try_from((n - first) * ROWS).unwrap_or(u16::MAX);
        let marked = n == board.marked;
        let style = if marked { theme.title() } else { Style::new() };
        let arrow = if marked { ">" } else { " " };
        let left = format!(
            "{arrow} {:<14} {:<22} {}",
            short(&line.id, 14, theme),
            short(&line.asset, 22, theme),
            short(&line.connector, 20, theme)
        );
        two_ends(buf, area, row, &left, &format!("{} ", line.state), style);
        let about = format!("      {}  {}", line.touched, clean(&line.about, theme));
        put(buf, area, row + 1, &Line::styled(about, if line.opens { theme.faint() } else { theme.alarm() }));
    }
}

fn short(text: &str, most: usize, theme: Theme) -> String {
    clean(text, theme).chars().take(most).collect()
}

fn help(theme: Theme, area: Rect, buf: &mut Buffer) {
    let lines = [
        "Every job of this folder, the last touched first.",
        "Up, Down and Enter open one. A job that another bench has open is shown, not changed.",
        "",
        "repin new JOB --old HOUSING --new HOUSING   starts a job",
        "repin housing find WORDS                    finds a housing",
        "repin check JOB                             prints the account of a job",
        "",
        "Any key closes this.",
    ];
    for (row, line) in (0_u16..).zip(lines) {
        put(
            buf,
            area,
            row,
            &Line::styled(format!(" {line}"), if row == 0 { theme.now() } else { Style::new() }),
        );
    }
}
