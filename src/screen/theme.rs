//! How marks look: colours as far as the terminal has them, attributes alone with `NO_COLOR`. Meaning
//! is in the text; the look only helps the eye.

use ratatui::style::{Color, Modifier, Style};

use crate::{colour::ColourCode, picture::Mark};

/// The colours a terminal shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Palette {
    /// None: `NO_COLOR` asks for it.
    None,
    /// The few of every terminal: wires are told by their codes alone.
    Basic,
    /// The fixed table of 256.
    Table,
    /// Any.
    True,
}

impl Palette {
    /// What the environment says: `NO_COLOR`, then `COLORTERM`, then the name of the terminal.
    pub fn of(no_color: Option<&str>, colorterm: Option<&str>, term: Option<&str>) -> Self {
        let term = term.unwrap_or_default();
        match (no_color, colorterm) {
            (Some(set), _) if !set.is_empty() => Self::None,
            (_, Some("truecolor" | "24bit")) => Self::True,
            _ if term.contains("256color") => Self::Table,
            _ if term == "dumb" => Self::None,
            _ => Self::Basic,
        }
    }
}

/// The look of a terminal.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Theme {
    /// Its colours.
    pub palette: Palette,
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

    /// A danger, a refusal, a failure.
    pub fn alarm(self) -> Style {
        let style = Style::new().add_modifier(Modifier::BOLD);
        match self.palette {
            Palette::None => style.add_modifier(Modifier::REVERSED),
            Palette::Basic | Palette::Table | Palette::True => style.fg(Color::Black).bg(Color::Yellow),
        }
    }

    /// Something that went in.
    pub fn done(self) -> Style {
        match self.palette {
            Palette::None => Style::new(),
            Palette::Basic | Palette::Table | Palette::True => Style::new().fg(Color::Green),
        }
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
            Mark::Plain | Mark::Plug => Style::new(),
            Mark::Frame | Mark::Faint => self.faint(),
            Mark::Label => Style::new().add_modifier(Modifier::BOLD),
            Mark::Ground(code) => self.ground(*code),
            // Among wires no colour of a wire may mean anything else.
            Mark::Alarm | Mark::From => Style::new().add_modifier(Modifier::BOLD | Modifier::REVERSED),
            Mark::To => Style::new().add_modifier(Modifier::BOLD | Modifier::REVERSED | Modifier::UNDERLINED),
        }
    }

    /// A wire's colour as the ground, with ink that reads on it. Black and white carry a line of that
    /// ink, so that they have an edge on a black or white screen, too.
    fn ground(self, code: ColourCode) -> Style {
        let look = look_of(code);
        let (ground, dark, light) = match self.palette {
            Palette::None | Palette::Basic => return Style::new(),
            Palette::Table => (Color::Indexed(look.table), Color::Indexed(16), Color::Indexed(231)),
            Palette::True => (look.rgb, Color::Rgb(0, 0, 0), Color::Rgb(255, 255, 255)),
        };
        let style = Style::new().bg(ground).fg(if look.is_light { dark } else { light });
        match code {
            ColourCode::BK | ColourCode::WH => style.add_modifier(Modifier::UNDERLINED),
            _ => style,
        }
    }
}

/// How a wire colour looks on a screen.
struct Look {
    rgb: Color,
    /// Its place in the table of 256.
    table: u8,
    /// Whether dark ink reads better on it.
    is_light: bool,
}

fn look_of(code: ColourCode) -> Look {
    let (rgb, table, is_light) = match code {
        ColourCode::BK => ((48, 48, 48), 236, false),
        ColourCode::BN => ((112, 66, 20), 94, false),
        ColourCode::RD => ((200, 30, 30), 160, false),
        ColourCode::OG => ((255, 140, 0), 208, true),
        ColourCode::YE => ((245, 220, 60), 226, true),
        ColourCode::GN => ((20, 130, 50), 28, false),
        ColourCode::BU => ((30, 80, 200), 26, false),
        ColourCode::VT => ((130, 50, 160), 91, false),
        ColourCode::GY => ((130, 130, 130), 245, true),
        ColourCode::WH => ((236, 236, 236), 255, true),
        ColourCode::PK => ((250, 160, 190), 218, true),
        ColourCode::GD => ((200, 165, 60), 178, true),
        ColourCode::TQ => ((60, 200, 190), 44, true),
        ColourCode::SR => ((190, 195, 200), 250, true),
    };
    let (r, g, b) = rgb;
    Look { rgb: Color::Rgb(r, g, b), table, is_light }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_terminal_gets_no_more_colours_than_it_says_it_has() {
        let of = |no_color, colorterm, term| Palette::of(no_color, colorterm, Some(term));
        assert_eq!(of(Some("1"), Some("truecolor"), "xterm-256color"), Palette::None);
        assert_eq!(of(Some(""), Some("24bit"), "xterm"), Palette::True);
        assert_eq!(of(None, Some("yes"), "screen-256color"), Palette::Table);
        assert_eq!(of(None, None, "linux"), Palette::Basic);
        assert_eq!(of(None, None, "dumb"), Palette::None);
        assert_eq!(Palette::of(None, None, None), Palette::Basic);
    }

    #[test]
    fn wires_have_a_ground_only_where_the_terminal_has_its_colour() {
        let ground = |palette| Theme { palette, ascii: false }.mark(&Mark::Ground(ColourCode::VT)).bg;
        assert_eq!([ground(Palette::None), ground(Palette::Basic)], [None, None]);
        assert_eq!(ground(Palette::Table), Some(Color::Indexed(91)));
        assert_eq!(ground(Palette::True), Some(Color::Rgb(130, 50, 160)));
    }

    #[test]
    fn an_open_cavity_looks_like_no_wire() {
        for palette in [Palette::Basic, Palette::Table, Palette::True] {
            let theme = Theme { palette, ascii: false };
            let open = theme.mark(&Mark::Alarm);
            assert!(crate::colour::CODES.iter().all(|(code, ..)| theme.mark(&Mark::Ground(*code)) != open));
            assert_eq!((open.bg, open.fg), (None, None));
        }
    }
}
