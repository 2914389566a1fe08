//! Defining a housing nobody has a file of: one question after another, drawn while it is typed,
//! saved as a family file that a person can then complete.

use crossterm::event::KeyEvent;
use ratatui::{
    buffer::Buffer,
    layout::Rect,
    style::Style,
    text::{Line, Span},
};

use super::{
    keys::{Pressed, SharedKey, pressed, words_of},
    spent::{PASTED, Spent, is_paste},
    theme::Theme,
    view::{SMALLEST, clean, paint, put, two_ends, wrap},
};
use crate::{
    catalogue::{Delivered, FamilyDraft, Housing, Sketch, check_family},
    face::Label,
    picture::{Covering, FaceOptions, Mark, Slot, draw_face},
    procedure::{Ask, Choice, Question, Replies, Reply, Stop, Takes, describe},
    quantity::{count_of, is_harmful},
    report::questions::{self, define_prompt},
};

/// What the screen remembers.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Define {
    /// Who describes it and when, as the file will say.
    pub how: String,
    replies: Vec<Reply>,
    field: String,
    message: Option<String>,
    spent: Spent,
}

/// What the shell is to do.
#[derive(Debug, Clone, PartialEq)]
pub enum DefineEffect {
    /// Nothing but draw.
    None,
    /// Write this family file and leave.
    Save(Box<FamilyDraft>),
    /// Leave without a file.
    Leave,
}

impl Define {
    /// An empty screen; `how` is what the file will say about where it comes from.
    pub fn new(how: String) -> Self {
        Self { how, ..Self::default() }
    }

    /// Says why the file could not be written.
    pub fn refuse(&mut self, why: String) {
        self.message = Some(why);
    }

    /// The sketch the replies make, and what comes next; nothing does when it is to be saved.
    fn sketch(&self, replies: &[Reply]) -> (Sketch, Result<(), Stop>) {
        let mut sketch = Sketch::default();
        let next = describe(&mut sketch, &mut Replies::of(replies));
        (sketch, next)
    }

    /// What is asked now.
    fn asked(&self) -> Option<Ask> {
        match self.sketch(&self.replies) {
            (_, Err(Stop::Ask(ask))) => Some(*ask),
            _ => None,
        }
    }

    /// The answers one can give with a key; none where something is typed.
    fn offered(&self) -> Vec<Choice> {
        match self.asked().map(|ask| ask.takes) {
            Some(Takes::Choices(offered)) => offered,
            Some(Takes::Text(_)) | None => Vec::new(),
        }
    }

    /// The housing as far as it is described, with what is being typed; else as it was before.
    fn shown(&self) -> Option<Housing> {
        let housing = |replies: &[Reply]| match self.sketch(replies) {
            (_, Err(Stop::Wrong(_))) => None,
            (sketch, _) => check_family(&sketch.draft(&self.how)).ok()?.housings.into_iter().next(),
        };
        let typed = || {
            let mut replies = self.replies.clone();
            replies.push(Reply::Text(self.field.clone()));
            housing(&replies)
        };
        let typed = if self.field.is_empty() { None } else { typed() };
        typed.or_else(|| housing(&self.replies))
    }

    /// Whether these keys, which came at once, are a paste where one key would answer.
    pub fn refuses_paste(&mut self, keys: &[KeyEvent]) -> bool {
        let is_refused = is_paste(keys) && !self.offered().is_empty();
        if is_refused {
            self.message = Some(PASTED.to_owned());
        }
        is_refused
    }

    /// Handles one key press.
    pub fn update(&mut self, event: KeyEvent) -> DefineEffect {
        let effect = self.take(event);
        self.spent.sees(event);
        effect
    }

    fn take(&mut self, event: KeyEvent) -> DefineEffect {
        let offered = self.offered();
        let typing = offered.is_empty();
        match pressed(event, typing) {
            Pressed::SharedKey(SharedKey::Enter) if typing && !self.field.trim().is_empty() => {
                let typed = Reply::Text(std::mem::take(&mut self.field));
                return self.answer(typed);
            }
            Pressed::SharedKey(SharedKey::Erase) => {
                self.field.pop();
            }
            Pressed::SharedKey(SharedKey::Back) => {
                self.message = None;
                if self.field.is_empty() && self.replies.pop().is_none() {
                    return DefineEffect::Leave;
                }
                self.field.clear();
            }
            Pressed::SharedKey(SharedKey::Leave) => return DefineEffect::Leave,
            Pressed::Char(c) if typing && !is_harmful(c) => self.field.push(c),
            Pressed::Char(c) => return self.on_key(&offered, c),
            _ => {}
        }
        DefineEffect::None
    }

    fn on_key(&mut self, offered: &[Choice], c: char) -> DefineEffect {
        match self.spent.answer(c, offered) {
            Some(choice) => {
                self.spent.uses(c);
                self.answer(Reply::Choice(choice))
            }
            None => DefineEffect::None,
        }
    }

    /// Takes an answer, unless the housing would not hold together with it.
    fn answer(&mut self, reply: Reply) -> DefineEffect {
        self.message = None;
        self.replies.push(reply);
        let (sketch, next) = self.sketch(&self.replies);
        let form = sketch.draft(&self.how);
        let wrong = match next {
            Ok(()) => {
                // Should it not be written, it is asked again.
                self.replies.pop();
                return DefineEffect::Save(Box::new(form));
            }
            Err(Stop::Wrong(why)) => Some(questions::wrong(&why)),
            Err(Stop::Ask(_) | Stop::Barred(_)) => falls_apart(&form),
        };
        if let Some(why) = wrong {
            if let Some(Reply::Text(typed)) = self.replies.pop() {
                self.field = typed;
            }
            self.message = Some(why);
        }
        DefineEffect::None
    }
}

/// Why a housing does not hold together.
fn falls_apart(form: &FamilyDraft) -> Option<String> {
    let finding = check_family(form).err()?.into_iter().next()?;
    Some(match finding.hint {
        Some(hint) => format!("{}: {hint}.", finding.say),
        None => format!("{}.", finding.say),
    })
}

/// Draws the screen.
pub fn view_define(define: &Define, theme: Theme, area: Rect, buf: &mut Buffer) {
    if area.width < SMALLEST.0 || area.height < SMALLEST.1 {
        put(buf, area, 0, &Line::from(format!("Make the window at least {} x {}.", SMALLEST.0, SMALLEST.1)));
        return;
    }
    let housing = define.shown();
    let about = housing
        .as_ref()
        .map_or(String::new(), |h| format!("{}, {} ", h.part, count_of(h.cavities.len(), "cavity")));
    two_ends(buf, area, 0, " repin  define a housing", &clean(&about, theme), theme.title());
    if let Some(housing) = &housing {
        let words = crate::job::pose_in_words(housing, housing.drawn_pose());
        put(buf, area, 2, &Line::styled(format!(" {}", clean(&words, theme)), theme.faint()));
        let below = Rect { x: area.x + 1, y: area.y + 3, width: area.width - 2, height: area.height - 10 };
        let options = FaceOptions {
            ascii: theme.ascii,
            width: usize::from(below.width),
            height: usize::from(below.height),
            focus: None,
            covering: Covering::Nothing,
        };
        let slot = |label: &Label| slot(housing, label);
        paint(buf, below, &draw_face(housing, housing.drawn_pose(), &slot, &options).picture, theme);
    }
    ask_line(define, theme, area, buf);
}

fn slot(housing: &Housing, label: &Label) -> Slot {
    match housing.cavity(label).map(|cavity| cavity.delivered) {
        Some(Delivered::Blocked) => Slot::word("shut", Mark::Faint),
        Some(Delivered::Plugged) => Slot::word("plug", Mark::Plug),
        Some(Delivered::Bridge) => Slot::word("clip", Mark::Plain),
        Some(Delivered::Bare) | None => Slot::default(),
    }
}

/// The question, what is typed, the answers one can give, and what is wrong.
fn ask_line(define: &Define, theme: Theme, area: Rect, buf: &mut Buffer) {
    let Some(ask) = define.asked() else { return };
    let prompt = match &ask.question {
        Question::Define(asked) => define_prompt(*asked),
        _ => "",
    };
    let offered = define.offered();
    let mut row = area.height - 6;
    for line in wrap(prompt, usize::from(area.width) - 2) {
        put(buf, area, row, &Line::styled(format!(" {line}"), theme.now()));
        row += 1;
    }
    if offered.is_empty() {
        let field = format!(" > {}", clean(&define.field, theme));
        put(buf, area, row, &Line::from(vec![Span::raw(field), Span::styled("_", theme.key())]));
    } else {
        let spans = offered.iter().flat_map(|choice| {
            let key = define.spent.key_of(*choice, &offered);
            [Span::styled(format!(" [{key}]"), theme.key()), Span::raw(format!(" {} ", words_of(*choice)))]
        });
        put(buf, area, row, &Line::from(spans.collect::<Vec<_>>()));
    }
    if let Some(message) = &define.message {
        for (n, line) in (0_u16..2).zip(wrap(&clean(message, theme), usize::from(area.width) - 2)) {
            put(buf, area, area.height - 4 + n, &Line::styled(format!(" {line}"), theme.alarm()));
        }
    }
    let foot = Rect { y: area.bottom() - 1, height: 1, ..area };
    let leave = if offered.is_empty() { "" } else { "   q leaves" };
    put(
        buf,
        foot,
        0,
        &Line::styled(
            format!(" Enter ends what you type   Esc one answer back, at the start leaves{leave}"),
            Style::new(),
        ),
    );
}
