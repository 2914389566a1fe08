//! The main job in a real pseudo-terminal: from the board to a closed connector by key presses,
//! with typing mistakes and a kill in the middle.

use crate::cli;

use std::{
    io::{Read, Write},
    sync::mpsc::{Receiver, channel},
    time::{Duration, Instant},
};

use cli::{Shop, demo};
use portable_pty::{Child, CommandBuilder, MasterPty, PtySize, native_pty_system};

const WAIT: Duration = Duration::from_secs(20);

/// The program in a terminal of 80 by 24.
struct Terminal {
    child: Box<dyn Child + Send + Sync>,
    master: Box<dyn MasterPty + Send>,
    input: Box<dyn Write + Send>,
    output: Receiver<Vec<u8>>,
    screen: vt100::Parser,
}

impl Terminal {
    fn start(shop: &Shop, args: &[&str]) -> Self {
        let size = PtySize { rows: 24, cols: 80, pixel_width: 0, pixel_height: 0 };
        let pair = native_pty_system().openpty(size).unwrap();
        let mut command = CommandBuilder::new(env!("CARGO_BIN_EXE_repin"));
        command.args(args);
        command.env("REPIN_STORE", shop.folder.path());
        command.env("REPIN_BY", "kt");
        command.env("TERM", "xterm-256color");
        command.cwd(shop.folder.path());
        let child = pair.slave.spawn_command(command).unwrap();
        let mut reader = pair.master.try_clone_reader().unwrap();
        let (send, output) = channel();
        std::thread::spawn(move || {
            let mut buffer = [0; 4096];
            while let Ok(n) = reader.read(&mut buffer) {
                if n == 0 || send.send(buffer[..n].to_vec()).is_err() {
                    break;
                }
            }
        });
        let input = pair.master.take_writer().unwrap();
        Self { child, master: pair.master, input, output, screen: vt100::Parser::new(24, 80, 0) }
    }

    /// Waits until the screen shows this.
    #[track_caller]
    fn shows(&mut self, text: &str) {
        let start = Instant::now();
        while !self.text().contains(text) {
            assert!(start.elapsed() < WAIT, "\"{text}\" never came:\n{}", self.screen.screen().contents());
            self.pump();
        }
    }

    /// Takes in what the program drew.
    fn pump(&mut self) {
        if let Ok(bytes) = self.output.recv_timeout(Duration::from_millis(50)) {
            self.screen.process(&bytes);
        }
    }

    /// The screen as one line, so that a wrapped sentence is found, too.
    fn text(&self) -> String {
        self.screen.screen().contents().split_whitespace().collect::<Vec<_>>().join(" ")
    }

    fn keys(&mut self, keys: &str) {
        self.input.write_all(keys.as_bytes()).unwrap();
        self.input.flush().unwrap();
        // What one hand sends after another does not come at once.
        std::thread::sleep(Duration::from_millis(10));
    }

    /// Esc by itself: together with the next key it would be another key.
    fn escape(&mut self) {
        self.pump();
        self.keys("\u{1b}");
        std::thread::sleep(Duration::from_millis(150));
    }

    fn typed(&mut self, text: &str) {
        self.keys(&format!("{text}\r"));
    }

    fn ends(&mut self) {
        ends(&mut *self.child);
    }
}

/// Waits until the program has ended.
#[track_caller]
fn ends(child: &mut (dyn Child + Send + Sync)) {
    let start = Instant::now();
    while child.try_wait().unwrap().is_none() {
        assert!(start.elapsed() < WAIT, "the program did not end");
        std::thread::sleep(Duration::from_millis(20));
    }
}

/// Two wires and nothing else moved; the rest is done by hand.
fn half_done() -> Shop {
    let shop = Shop::new();
    shop.proves();
    shop.new_job(
        "fernwalker",
        "fw-hsg-12a",
        "fw-hsg-12a",
        &["--serial", "FW8-20731", "--seed", "12", "--asset", "Fernwalker 8"],
    );
    let text = std::fs::read_to_string(demo("fernwalker-boom-tip.acts")).unwrap();
    let (before, _) = text.split_once("Extract(from:\"old:9\"").unwrap();
    assert_eq!(shop.run_with(&["enter", "fernwalker"], before, &[]).code, 0);
    // The next crimp needs its position proved anew.
    std::fs::remove_file(shop.path("tools").join("kt.ron")).unwrap();
    shop
}

#[test]
fn the_job_is_walked_from_the_board_to_a_closed_connector_with_mistakes_and_a_kill() {
    let shop = half_done();
    let mut terminal = Terminal::start(&shop, &[]);
    terminal.shows("job board");
    terminal.keys("\r");
    terminal.shows("from 9");
    // 9 comes out and is in the hand when the power goes.
    take_out(&mut terminal, "VT");
    terminal.shows("hand 1");
    terminal.child.kill().unwrap();
    terminal.ends();

    let mut terminal = Terminal::start(&shop, &["open", "fernwalker"]);
    terminal.shows("hand 1");
    terminal.shows("1 IN NO HOUSING");
    terminal.keys("ro");
    terminal.shows("No tool position is qualified");
    terminal.keys("y");
    terminal.shows("needs a new terminal");
    prove_the_tool(&mut terminal);
    new_terminal(&mut terminal);
    terminal.shows("LOOK at the terminal");
    terminal.keys("g");
    // First mistake: a label that is not on the housing. Second: the neighbour.
    terminal.typed("99");
    terminal.shows("There is no cavity \"99\"");
    terminal.typed("8");
    terminal.shows("is taken");
    terminal.typed("9");
    terminal.keys("ct");
    for (kind, label) in [("plug", "10"), ("wire", "11"), ("plug", "12")] {
        if kind == "plug" {
            rereads_until(&mut terminal, &format!("TAKE the plug out of old {label}"));
            terminal.keys("o");
            terminal.typed(label);
            terminal.keys("c");
        } else {
            rereads_until(&mut terminal, "from 11");
            take_out(&mut terminal, "VT/WH");
            terminal.shows("LOOK at the terminal");
            terminal.keys("g");
            terminal.typed(label);
            terminal.keys("ct");
        }
    }
    close(&mut terminal);
    terminal.shows("Nothing is left to do");
    terminal.shows("closed");
    terminal.keys("q");
    terminal.ends();
    let account = shop.json(&["check", "fernwalker"]);
    let journal = std::fs::read_to_string(shop.path("fernwalker.job.ron")).unwrap();
    assert!(journal.contains(r#"lot:"4711""#));
    assert_eq!((account["state"].as_str(), account["flags"].as_array().unwrap().len()), (Some("closed"), 0));
}

/// Three heights and five pulls prove the position that the terminal in the hand needs.
fn prove_the_tool(terminal: &mut Terminal) {
    terminal.keys("!5");
    for (asked, said) in [
        ("PROVE a tool's position", "hand tool 0113, B"),
        ("On which terminal", "FW-TRM-F15"),
        ("On which wire", "0.5"),
        ("heights of 3 samples", "1,11 1.12 1.13"),
        ("5 samples or more came off", "71 68 74 70 66"),
        ("until which day", "2099-03-31"),
    ] {
        terminal.shows(asked);
        terminal.typed(said);
    }
    terminal.shows("qualified until 2099-03-31");
}

/// The bench says which position to use; the record of the crimp is keyed as it is made.
fn new_terminal(terminal: &mut Terminal) {
    terminal.keys("d");
    terminal.shows("(= FW-TRM-F15; - for none");
    terminal.typed("= lot 4711");
    terminal.shows("CUT BACK to bright copper");
    terminal.typed("10");
    terminal.shows("= uses hand tool 0113, B (qualified until");
    terminal.typed("=");
    terminal.shows("sheet 4.5 mm");
    terminal.typed("4.5");
    terminal.shows("(sheet 1.12");
    terminal.typed("1,13");
    terminal.shows("LOOK: bellmouth");
    terminal.keys("y");
    terminal.shows("SAMPLE made with it");
    terminal.typed("-");
    terminal.shows("FINGER TUG the crimp");
    terminal.keys("t");
}

/// Takes the lead out, with its colour where it is asked.
fn take_out(terminal: &mut Terminal, colour: &str) {
    terminal.shows("EXTRACT the lead");
    if terminal.screen.screen().contents().contains("what colour") {
        terminal.typed(colour);
    }
    terminal.shows("[o] out");
    terminal.keys("o");
}

/// Answers re-reads until the screen says something else.
fn rereads_until(terminal: &mut Terminal, end: &str) {
    let mut answered = String::new();
    let start = Instant::now();
    loop {
        terminal.pump();
        let shown = terminal.text();
        assert!(start.elapsed() < WAIT, "the re-reads do not end: {shown}");
        if shown.contains(end) {
            return;
        }
        let Some((_, place)) = shown.split_once("latch up: ") else { continue };
        let place = place.split(" Colour in").next().unwrap().to_owned();
        if place != answered {
            terminal.typed(in_the_hole(&place));
            answered = place;
        }
    }
}

/// Holes are named by place on the mating face; what is in them is read off a list of the truth.
fn in_the_hole(place: &str) -> &'static str {
    let row = match place.starts_with("top row") {
        true => ["RD", "BK", "YE/BK", "YE/BU", "OG", "BN"],
        false => ["GN/WH", "plug", "VT", "plug", "VT/WH", "plug"],
    };
    // On the mating face each row reads right to left.
    let column = match place.trim_end_matches('.').split_once(", ").unwrap().1 {
        "far left" => 6,
        "far right" => 1,
        "2 from the left" => 5,
        "3 from the left" => 4,
        "3 from the right" => 3,
        "2 from the right" => 2,
        other => panic!("{other}"),
    };
    row[column - 1]
}

fn close(terminal: &mut Terminal) {
    terminal.shows("FIT the interface seal");
    terminal.keys("f");
    for (face, key) in [("wire", "e"), ("mating", "h")] {
        terminal.shows(&format!("LOOK OVER the {face} face"));
        terminal.keys(key);
    }
    terminal.shows("COUNT the row 1 to 6");
    terminal.typed("6 0 0");
    terminal.shows("COUNT the row 7 to 12");
    terminal.typed("3 3 0");
    rereads_until(terminal, "CLOSE the secondary lock");
    terminal.keys("f");
    terminal.shows("LOOK at the mating half");
    terminal.keys("s");
    terminal.shows("MATE the halves");
    terminal.keys("y");
    terminal.shows("PUSH IN the connector position assurance");
    terminal.keys("a");
    terminal.shows("TEST, continuity");
    terminal.typed("0.2 ohm");
    terminal.shows("Its limit");
    terminal.typed("0.5 ohm, service manual");
    terminal.keys("p");
    terminal.shows("TEST, no continuity");
    terminal.typed("open");
    terminal.shows("Its limit");
    terminal.typed("-");
    terminal.keys("p");
    terminal.shows("SIGN: your name?");
    terminal.typed("K. Tanner");
    terminal.typed("31");
}

#[test]
fn a_job_open_at_another_bench_is_shown_and_not_changed() {
    let shop = half_done();
    let mut first = Terminal::start(&shop, &["open", "fernwalker"]);
    first.shows("EXTRACT the lead");
    let mut second = Terminal::start(&shop, &["open", "fernwalker", "--by", "jo"]);
    second.shows("READ ONLY");
    second.shows("kt on ");
    first.keys("q");
    first.ends();
    second.keys("q");
    second.ends();
}

#[test]
fn the_demo_opens_the_board_and_leaves_the_terminal_as_it_was() {
    let shop = Shop::new();
    let folder = shop.path("demo");
    let mut terminal = Terminal::start(&shop, &["demo", folder.to_str().unwrap()]);
    terminal.shows("10 jobs");
    terminal.shows("not-startable");
    assert!(terminal.screen.screen().alternate_screen());
    terminal.keys("q");
    terminal.ends();
    while let Ok(bytes) = terminal.output.recv_timeout(Duration::from_millis(200)) {
        terminal.screen.process(&bytes);
    }
    assert!(!terminal.screen.screen().alternate_screen());
    assert!(!terminal.screen.screen().bracketed_paste());
}

/// A job whose next question has a note as one of its other actions.
fn ready() -> (Shop, Terminal) {
    let shop = half_done();
    let mut terminal = Terminal::start(&shop, &["open", "fernwalker"]);
    terminal.shows("EXTRACT the lead");
    (shop, terminal)
}

#[test]
fn a_long_text_is_read_whole_without_another_key() {
    let (_shop, mut terminal) = ready();
    terminal.keys("!n");
    terminal.shows("NOTE about what");
    terminal.typed("-");
    terminal.shows("The note?");
    terminal.keys(&format!("{} to its END", "word ".repeat(600)));
    terminal.shows("to its END");
    terminal.keys("\r");
    terminal.shows("hand 0");
    terminal.keys("q");
    terminal.ends();
}

#[test]
fn the_start_of_a_paste_without_its_end_swallows_nothing() {
    let (_shop, mut terminal) = ready();
    terminal.keys("\u{1b}[200~");
    terminal.keys("!");
    terminal.shows("other actions");
    terminal.escape();
    terminal.keys("q");
    terminal.ends();
}

#[test]
fn keys_and_new_sizes_at_once_leave_nothing_deaf() {
    let (_shop, mut terminal) = ready();
    for n in 0..60 {
        let size = PtySize { rows: 24 + n % 7, cols: 80 + n % 11, pixel_width: 0, pixel_height: 0 };
        terminal.master.resize(size).unwrap();
        terminal.keys("zz\t");
        if n % 8 == 0 {
            terminal.pump();
        }
    }
    // Sixty pages on, of eight: four from the bench.
    terminal.master.resize(PtySize { rows: 24, cols: 80, pixel_width: 0, pixel_height: 0 }).unwrap();
    terminal.escape();
    terminal.keys("!");
    terminal.shows("other actions");
    terminal.escape();
    terminal.keys("q");
    terminal.ends();
}

#[cfg(unix)]
mod signals {
    use super::*;

    impl Terminal {
        fn signal(&self, name: &str) {
            let pid = self.child.process_id().unwrap();
            let done = std::process::Command::new("sh").args(["-c", &format!("kill -{name} {pid}")]).status();
            assert!(done.unwrap().success());
        }

        fn is_ours(&mut self) -> bool {
            self.pump();
            self.screen.screen().alternate_screen()
        }

        #[track_caller]
        fn becomes(&mut self, ours: bool) {
            let start = Instant::now();
            while self.is_ours() != ours {
                assert!(start.elapsed() < WAIT, "the terminal is not as it should be");
            }
        }

        /// Whether a line is given whole and shown as it is typed, as a shell needs it.
        fn is_cooked(&self) -> bool {
            let path = self.master.tty_name().unwrap();
            let out = std::process::Command::new("stty").arg("-a").arg("-F").arg(path).output();
            // Without stty only the screen is held against.
            out.map_or(true, |out| !String::from_utf8_lossy(&out.stdout).contains("-icanon"))
        }
    }

    #[test]
    fn a_signal_that_ends_the_program_gives_the_terminal_back() {
        for name in ["TERM", "INT", "QUIT", "HUP"] {
            let (_shop, mut terminal) = ready();
            assert!(terminal.is_ours());
            terminal.signal(name);
            terminal.ends();
            terminal.becomes(false);
            assert!(terminal.is_cooked(), "{name} leaves the terminal raw");
        }
    }

    #[test]
    fn a_job_opened_from_the_board_ends_by_a_signal_too() {
        let shop = half_done();
        let mut terminal = Terminal::start(&shop, &[]);
        terminal.shows("job board");
        terminal.keys("\r");
        terminal.shows("EXTRACT the lead");
        terminal.signal("TERM");
        terminal.ends();
        terminal.becomes(false);
        assert!(terminal.is_cooked());
    }

    #[test]
    fn what_another_program_did_to_a_stopped_terminal_is_put_right() {
        let (_shop, mut terminal) = ready();
        terminal.signal("STOP");
        let path = terminal.master.tty_name().unwrap();
        let sane = std::process::Command::new("stty").arg("sane").arg("-F").arg(path).status();
        terminal.signal("CONT");
        terminal.keys("!");
        terminal.shows("other actions");
        assert!(sane.is_err() || !terminal.is_cooked());
        terminal.escape();
        terminal.keys("q");
        terminal.ends();
    }

    #[test]
    fn a_program_that_is_stopped_gives_the_terminal_back_and_takes_it_again() {
        let (_shop, mut terminal) = ready();
        terminal.signal("TSTP");
        terminal.becomes(false);
        assert!(terminal.is_cooked());
        terminal.signal("CONT");
        terminal.becomes(true);
        terminal.shows("EXTRACT the lead");
        terminal.keys("!");
        terminal.shows("other actions");
        terminal.escape();
        terminal.keys("q");
        terminal.ends();
    }

    #[test]
    fn a_terminal_that_is_gone_ends_the_program() {
        let (_shop, terminal) = ready();
        let Terminal { mut child, master, mut input, output, .. } = terminal;
        // What it draws next finds no reader; then nobody holds the other end.
        drop(output);
        input.write_all(b"\t").unwrap();
        std::thread::sleep(Duration::from_millis(500));
        drop((master, input));
        ends(&mut *child);
    }
}
