//! The terminal itself: set up and put back whatever happens, keys as they come, and the signals of
//! the system. What a shell sends to stop, leave or go on never leaves the terminal raw.

use std::{io, time::Duration};

use anyhow::{Context, Result, bail};
use crossterm::{
    cursor::{Hide, Show},
    event::{self, Event, KeyEvent, KeyEventKind},
    execute,
    terminal::{EnterAlternateScreen, LeaveAlternateScreen, disable_raw_mode, enable_raw_mode},
};
use ratatui::{Terminal as Drawing, buffer::Buffer, layout::Rect};

use super::backend::Output;

/// How long the wait for a key lasts before signals are looked at.
const LOOK_EVERY: Duration = Duration::from_millis(100);
/// Keys that come this soon after each other came at once.
const AT_ONCE: Duration = Duration::from_millis(2);
/// The most keys that are taken of what comes at once.
const KEYS_MOST: usize = 100_000;

/// A terminal with our screen on it.
pub struct Tty {
    drawing: Drawing<Output<io::Stdout>>,
    signals: Signals,
}

/// Why the wait for keys ended.
pub enum Woken {
    /// These keys came at once.
    Keys(Vec<KeyEvent>),
    /// Nothing came, and everything is to be drawn anew.
    Redraw,
}

/// That the system asked the program to end, or took its terminal away.
#[derive(Debug, thiserror::Error)]
#[error("the terminal was closed")]
pub struct Ended {
    signal: Option<i32>,
}

impl Ended {
    /// Ends the program the way the signal ends one; comes back where there was no signal.
    pub fn follow(&self) {
        if let Some(signal) = self.signal {
            end_by(signal);
        }
    }
}

/// Sets the terminal up, works, and puts it back, whatever happens.
pub fn with_terminal<T>(work: impl FnOnce(&mut Tty) -> Result<T>) -> Result<T> {
    need_a_terminal()?;
    // Our own theme honours NO_COLOR; left to itself crossterm would wipe bold and reverse, too.
    crossterm::style::force_color_output(true);
    let before = std::panic::take_hook();
    std::panic::set_hook(Box::new(move |panic| {
        put_back();
        before(panic);
    }));
    let terminal = Tty::new().inspect_err(|_| put_back());
    let mut terminal = terminal.context("the terminal cannot be set up")?;
    let done = work(&mut terminal);
    put_back();
    if let Err(Some(ended)) = done.as_ref().map_err(|why| why.downcast_ref::<Ended>()) {
        ended.follow();
    }
    done
}

/// Screens need somebody who looks and types.
pub fn need_a_terminal() -> Result<()> {
    use io::IsTerminal;
    if !io::stdout().is_terminal() || !io::stdin().is_terminal() {
        bail!("this needs a terminal");
    }
    Ok(())
}

fn set_up() -> io::Result<()> {
    enable_raw_mode()?;
    execute!(io::stdout(), EnterAlternateScreen, Hide)
}

/// Puts the terminal back as far as it is still there.
fn put_back() {
    let _ = execute!(io::stdout(), Show, LeaveAlternateScreen);
    let _ = disable_raw_mode();
}

impl Tty {
    fn new() -> io::Result<Self> {
        let signals = Signals::listen()?;
        set_up()?;
        let mut drawing = Drawing::new(Output::new(io::stdout()))?;
        drawing.clear()?;
        Ok(Self { drawing, signals })
    }

    /// Draws a frame.
    pub fn draw(&mut self, view: impl FnOnce(Rect, &mut Buffer)) -> io::Result<()> {
        self.drawing.draw(|frame| view(frame.area(), frame.buffer_mut())).map(|_| ())
    }

    /// Waits for keys and takes all that came at once, so that one frame answers them.
    pub fn wait(&mut self) -> Result<Woken> {
        loop {
            match self.signals.take() {
                Some(Signal::End(signal)) => return Err(Ended { signal: Some(signal) }.into()),
                Some(Signal::Pause) => {
                    put_back();
                    pause();
                    return self.anew();
                }
                Some(Signal::GoOn) => return self.anew(),
                None => {}
            }
            if event::poll(LOOK_EVERY).map_err(|_| Ended { signal: None })? {
                return self.keys();
            }
            if is_hung_up() {
                return Err(Ended { signal: None }.into());
            }
        }
    }

    fn anew(&mut self) -> Result<Woken> {
        // Whoever stopped us may have set it otherwise, and what is thought to be set is not set again.
        let _ = disable_raw_mode();
        set_up()?;
        self.drawing.clear()?;
        Ok(Woken::Redraw)
    }

    fn keys(&self) -> Result<Woken> {
        let mut keys = Vec::new();
        // To the end of what comes at once: the rest of a paste must not look like a key. A new size is
        // drawn with the next frame.
        while event::poll(AT_ONCE)? {
            match event::read()? {
                Event::Key(key) if key.kind != KeyEventKind::Release && keys.len() < KEYS_MOST => {
                    keys.push(key);
                }
                _ => {}
            }
        }
        Ok(Woken::Keys(keys))
    }
}

/// What the system asks for.
enum Signal {
    /// Leave, as by this signal.
    End(i32),
    /// Give the terminal back and stop until told to go on.
    Pause,
    /// It went on: the terminal may be set up in any way.
    GoOn,
}

#[cfg(unix)]
struct Signals {
    waiting: signal_hook::iterator::Signals,
}

#[cfg(unix)]
impl Signals {
    fn listen() -> io::Result<Self> {
        use signal_hook::consts::{SIGCONT, SIGHUP, SIGINT, SIGQUIT, SIGTERM, SIGTSTP};
        let waiting =
            signal_hook::iterator::Signals::new([SIGTERM, SIGINT, SIGHUP, SIGQUIT, SIGTSTP, SIGCONT])?;
        Ok(Self { waiting })
    }

    /// The gravest signal that came.
    fn take(&mut self) -> Option<Signal> {
        use signal_hook::consts::{SIGCONT, SIGTSTP};
        let came: Vec<i32> = self.waiting.pending().collect();
        if let Some(end) = came.iter().find(|signal| ![SIGCONT, SIGTSTP].contains(signal)) {
            return Some(Signal::End(*end));
        }
        match (came.contains(&SIGTSTP), came.contains(&SIGCONT)) {
            (true, _) => Some(Signal::Pause),
            (false, true) => Some(Signal::GoOn),
            (false, false) => None,
        }
    }
}

/// Stops the program until it is told to go on.
#[cfg(unix)]
fn pause() {
    let _ = signal_hook::low_level::emulate_default_handler(signal_hook::consts::SIGTSTP);
}

#[cfg(unix)]
fn end_by(signal: i32) {
    let _ = signal_hook::low_level::emulate_default_handler(signal);
}

/// Whether nobody is at the other end of the keyboard any more.
#[cfg(unix)]
fn is_hung_up() -> bool {
    use rustix::event::{PollFd, PollFlags, Timespec, poll};
    let stdin = io::stdin();
    let mut keyboard = [PollFd::new(&stdin, PollFlags::IN)];
    let now = Timespec { tv_sec: 0, tv_nsec: 0 };
    poll(&mut keyboard, Some(&now)).is_ok_and(|_| {
        keyboard.iter().any(|fd| fd.revents().intersects(PollFlags::HUP | PollFlags::ERR | PollFlags::NVAL))
    })
}

#[cfg(not(unix))]
struct Signals;

#[cfg(not(unix))]
impl Signals {
    fn listen() -> io::Result<Self> {
        Ok(Self)
    }

    fn take(&mut self) -> Option<Signal> {
        None
    }
}

#[cfg(not(unix))]
fn pause() {}

#[cfg(not(unix))]
fn end_by(_: i32) {}

#[cfg(not(unix))]
fn is_hung_up() -> bool {
    false
}
