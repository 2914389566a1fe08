//! How marks look: colours where the terminal has them, attributes alone with `NO_COLOR`. Meaning
//! is in the text; the look only helps the eye.

use ratatui::style::{Color, Modifier, Style};

use crate::{colour::Code, picture::Mark};

/// The look of a terminal.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Theme {
    /// Colours may be used.
    pub colour: bool,
    /// Plain ASCII only.
    pub ascii: bool,
}

impl Theme {
    /// The title line.
    pub fn title(self) -> Style {
        Style::new().add_modifier(Modifier::BOLD | Modifier::REVERSED)
    }

    /// The line that says what to do now.
    pub fn now(self) -> Style {
        Style::new().add_modifier(Modifier::BOLD)
    }

    /// A danger or refusal.
    pub fn alarm(self) -> Style {
        let style = Style::new().add_modifier(Modifier::BOLD);
        if self.colour {
            style.fg(Color::Black).bg(Color::Yellow)
        } else {
            style.add_modifier(Modifier::REVERSED)
        }
    }

    /// Something that went in.
    pub fn done(self) -> Style {
        if self.colour { Style::new().fg(Color::Green) } else { Style::new() }
    }

    /// Less important.
    pub fn faint(self) -> Style {
        Style::new().add_modifier(Modifier::DIM)
    }

    /// A key in footer and menu.
    pub fn key(self) -> Style {
        Style::new().add_modifier(Modifier::BOLD)
    }

    /// A mark of a picture.
    pub fn mark(self, mark: &Mark) -> Style {
        match mark {
            Mark::Plain => Style::new(),
            Mark::Frame | Mark::Faint => self.faint(),
            Mark::Label => Style::new().add_modifier(Modifier::BOLD),
            Mark::Wire(colour) => self.ground(colour.base()),
            Mark::Ground(code) => self.ground(*code),
            Mark::Plug => Style::new(),
            Mark::Alarm => self.alarm(),
            Mark::From | Mark::To => Style::new().add_modifier(Modifier::BOLD | Modifier::REVERSED),
        }
    }

    /// A wire's colour as the ground, with ink that reads on it.
    fn ground(self, code: Code) -> Style {
        if !self.colour {
            return Style::new();
        }
        let (ground, light) = rgb(code);
        let ink = if light { Color::Rgb(0, 0, 0) } else { Color::Rgb(255, 255, 255) };
        Style::new().fg(ink).bg(ground)
    }
}

/// A screen colour for a wire colour, and whether dark ink reads better on it.
fn rgb(code: Code) -> (Color, bool) {
    let (r, g, b, light) = match code {
        Code::BK => (20, 20, 20, false),
        Code::BN => (112, 66, 20, false),
        Code::RD => (200, 30, 30, false),
        Code::OG => (255, 140, 0, true),
        Code::YE => (245, 220, 60, true),
        Code::GN => (20, 130, 50, false),
        Code::BU => (30, 80, 200, false),
        Code::VT => (130, 50, 160, false),
        Code::GY => (130, 130, 130, true),
        Code::WH => (240, 240, 240, true),
        Code::PK => (250, 160, 190, true),
        Code::GD => (200, 165, 60, true),
        Code::TQ => (60, 200, 190, true),
        Code::SR => (190, 195, 200, true),
    };
    (Color::Rgb(r, g, b), light)
}
