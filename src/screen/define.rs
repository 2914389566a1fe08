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
    ask::Answer,
    keys::{Pick, Pressed, SharedKey, pressed},
    spent::{PASTED, Spent, is_paste},
    theme::Theme,
    view::{SMALLEST, clean, paint, put, two_ends, wrap},
};
use crate::{
    catalogue::{
        Counting, Delivered, FamilyDraft, Gender, Housing, Sketch, SketchedLock, SketchedSeal, check_family,
    },
    face::{Corner, Face, Label},
    picture::{Covering, FaceOptions, Mark, Slot, draw_face},
    quantity::{count_of, is_harmful},
};

/// The largest grid that is drawn while it is typed.
const ROWS_MOST: usize = 40;
const COLUMNS_MOST: usize = 60;

/// One thing that is asked.
struct DefineField {
    prompt: &'static str,
    /// One-key answers; none where something is typed.
    picks: &'static [Pick],
    /// Takes an answer into the sketch, or says why it is none.
    take: fn(&mut Sketch, &Answer) -> Result<(), String>,
    /// Whether it is asked at all.
    asked: fn(&Sketch) -> bool,
}

const fn typed(prompt: &'static str, take: fn(&mut Sketch, &Answer) -> Result<(), String>) -> DefineField {
    DefineField { prompt, picks: &[], take, asked: |_| true }
}

const fn picked(
    prompt: &'static str,
    picks: &'static [Pick],
    take: fn(&mut Sketch, &Answer) -> Result<(), String>,
) -> DefineField {
    DefineField { prompt, picks, take, asked: |_| true }
}

/// What is asked, in the order of what the eye finds first.
const QUESTIONS: [DefineField; 15] = [
    typed("PART NUMBER moulded on it? (or a name of your own)", |sketch, answer| {
        sketch.part = text(answer).to_owned();
        Ok(())
    }),
    typed("How many ROWS do you see?", |sketch, answer| {
        sketch.rows = count(answer, ROWS_MOST)?;
        Ok(())
    }),
    typed("How many cavities in a row?", |sketch, answer| {
        sketch.columns = count(answer, COLUMNS_MOST)?;
        Ok(())
    }),
    picked("Which FACE do you look at?", &[Pick::WireFace, Pick::MatingFace], |sketch, answer| {
        sketch.face = if is(answer, Pick::MatingFace) { Face::Mating } else { Face::Wire };
        Ok(())
    }),
    typed("What is on the UPPER side? (latch, key, lock, lever; - nothing)", |sketch, answer| {
        sketch.feature = named(answer);
        Ok(())
    }),
    picked(
        "Where is the FIRST number moulded?",
        &[Pick::FirstTopLeft, Pick::FirstTopRight, Pick::FirstBottomLeft, Pick::FirstBottomRight],
        |sketch, answer| {
            sketch.start = match answer {
                Answer::Pick(Pick::FirstTopRight) => Corner::TopRight,
                Answer::Pick(Pick::FirstBottomLeft) => Corner::BottomLeft,
                Answer::Pick(Pick::FirstBottomRight) => Corner::BottomRight,
                _ => Corner::TopLeft,
            };
            Ok(())
        },
    ),
    picked(
        "How do the numbers go on?",
        &[Pick::CountRows, Pick::CountColumns, Pick::CountRound],
        |sketch, answer| {
            sketch.counting = match answer {
                Answer::Pick(Pick::CountColumns) => Counting::Columns,
                Answer::Pick(Pick::CountRound) => Counting::Round,
                _ => Counting::Rows,
            };
            Ok(())
        },
    ),
    typed("What is moulded at the first cavity? (1, A1, A)", |sketch, answer| {
        sketch.first = text(answer).to_owned();
        Ok(())
    }),
    DefineField {
        prompt: "Does each row have a letter of its own?",
        picks: &[Pick::Yes, Pick::No],
        take: |sketch, answer| {
            sketch.letter_per_row = is(answer, Pick::Yes);
            Ok(())
        },
        asked: |sketch| {
            let (letters, number) = sketch.first_parts();
            letters.chars().count() == 1 && !number.is_empty() && sketch.counting != Counting::Round
        },
    },
    picked("Are its terminals pins or sockets?", &[Pick::Pins, Pick::Sockets], |sketch, answer| {
        sketch.gender = if is(answer, Pick::Pins) { Gender::Male } else { Gender::Female };
        Ok(())
    }),
    picked("How is it SEALED?", &[Pick::SealEach, Pick::SealMat, Pick::SealNone], |sketch, answer| {
        sketch.seal = match answer {
            Answer::Pick(Pick::SealEach) => SketchedSeal::Individual,
            Answer::Pick(Pick::SealMat) => SketchedSeal::Mat,
            _ => SketchedSeal::Unsealed,
        };
        Ok(())
    }),
    picked(
        "Has it a secondary LOCK?",
        &[Pick::LockNone, Pick::LockComesOut, Pick::LockStays],
        |sketch, answer| {
            sketch.lock = match answer {
                Answer::Pick(Pick::LockComesOut) => SketchedLock::Out,
                Answer::Pick(Pick::LockStays) => SketchedLock::PreSet,
                _ => SketchedLock::None,
            };
            Ok(())
        },
    ),
    typed("Which cavities came with a PLUG? (3, 7..9; - none)", |sketch, answer| {
        sketch.plugged = list(answer);
        Ok(())
    }),
    typed("Which are MOULDED SHUT? (6, 11..12; - none)", |sketch, answer| {
        sketch.blocked = list(answer);
        Ok(())
    }),
    typed("Size of a cavity, as its terminals are called? (1.5; - not known)", |sketch, answer| {
        sketch.size = named(answer).unwrap_or_else(|| "contact".to_owned());
        Ok(())
    }),
];

fn text(answer: &Answer) -> &str {
    match answer {
        Answer::Text(text) => text.trim(),
        Answer::Pick(_) => "",
    }
}

fn is(answer: &Answer, pick: Pick) -> bool {
    *answer == Answer::Pick(pick)
}

/// A name, or nothing for `-`.
fn named(answer: &Answer) -> Option<String> {
    Some(text(answer)).filter(|text| !matches!(*text, "" | "-")).map(ToOwned::to_owned)
}

fn count(answer: &Answer, most: usize) -> Result<usize, String> {
    match text(answer).parse() {
        Ok(count) if (1..=most).contains(&count) => Ok(count),
        _ => Err(format!("Key a whole number from 1 to {most}.")),
    }
}

fn list(answer: &Answer) -> Vec<String> {
    let text = named(answer).unwrap_or_default();
    text.split([',', ' ']).filter(|part| !part.is_empty()).map(ToOwned::to_owned).collect()
}

/// What the screen remembers.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Define {
    /// Who describes it and when, as the file will say.
    pub how: String,
    answers: Vec<Answer>,
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

    /// The sketch the answers make, and the question that comes next; none when all are answered.
    fn sketch(&self, answers: &[Answer]) -> Result<(Sketch, Option<&'static DefineField>), String> {
        let mut sketch = Sketch::default();
        let mut answers = answers.iter();
        for question in &QUESTIONS {
            if !(question.asked)(&sketch) {
                continue;
            }
            match answers.next() {
                Some(answer) => (question.take)(&mut sketch, answer)?,
                None => return Ok((sketch, Some(question))),
            }
        }
        Ok((sketch, None))
    }

    /// The housing as far as it is described, with what is being typed; else as it was before.
    fn shown(&self) -> Option<Housing> {
        let with_field = || {
            let mut answers = self.answers.clone();
            answers.push(Answer::Text(self.field.clone()));
            self.sketch(&answers).ok()
        };
        let typed = Some(&self.field).filter(|field| !field.is_empty()).and_then(|_| with_field());
        let before = || self.sketch(&self.answers).ok();
        let housing = |(sketch, _): (Sketch, _)| {
            check_family(&sketch.draft(&self.how)).ok()?.housings.into_iter().next()
        };
        typed.and_then(housing).or_else(|| before().and_then(housing))
    }

    /// Whether these keys, which came at once, are a paste where one key would answer.
    pub fn refuses_paste(&mut self, keys: &[KeyEvent]) -> bool {
        let question = self.sketch(&self.answers).ok().and_then(|(_, question)| question);
        let is_refused = is_paste(keys) && question.is_none_or(|question| !question.picks.is_empty());
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
        let question = self.sketch(&self.answers).ok().and_then(|(_, question)| question);
        let typing = question.is_some_and(|question| question.picks.is_empty());
        match pressed(event, typing) {
            Pressed::SharedKey(SharedKey::Enter) if typing && !self.field.trim().is_empty() => {
                let answer = Answer::Text(std::mem::take(&mut self.field));
                self.answer(answer);
            }
            Pressed::SharedKey(SharedKey::Erase) => {
                self.field.pop();
            }
            Pressed::SharedKey(SharedKey::Back) => {
                self.message = None;
                if self.field.is_empty() && self.answers.pop().is_none() {
                    return DefineEffect::Leave;
                }
                self.field.clear();
            }
            Pressed::SharedKey(SharedKey::Leave) => return DefineEffect::Leave,
            Pressed::Char(c) if typing && !is_harmful(c) => self.field.push(c),
            Pressed::Char(c) => return self.on_key(question, c),
            _ => {}
        }
        DefineEffect::None
    }

    fn on_key(&mut self, question: Option<&DefineField>, c: char) -> DefineEffect {
        match question {
            Some(question) => {
                if let Some(pick) = self.spent.answer(c, question.picks) {
                    self.spent.uses(c);
                    self.answer(Answer::Pick(pick));
                }
            }
            None if self.spent.answer(c, &[Pick::SaveIt]).is_some() => match self.sketch(&self.answers) {
                Ok((sketch, _)) => return DefineEffect::Save(Box::new(sketch.draft(&self.how))),
                Err(why) => self.message = Some(why),
            },
            None => {}
        }
        DefineEffect::None
    }

    /// Takes an answer, unless the housing would not hold together with it.
    fn answer(&mut self, answer: Answer) {
        self.message = None;
        self.answers.push(answer);
        let wrong = match self.sketch(&self.answers) {
            Err(why) => Some(why),
            Ok((sketch, _)) => check_family(&sketch.draft(&self.how)).err().and_then(|findings| {
                findings.into_iter().next().map(|finding| match finding.hint {
                    Some(hint) => format!("{}: {hint}.", finding.say),
                    None => format!("{}.", finding.say),
                })
            }),
        };
        if let Some(why) = wrong {
            if let Some(Answer::Text(typed)) = self.answers.pop() {
                self.field = typed;
            }
            self.message = Some(why);
        }
    }
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
    let question = define.sketch(&define.answers).ok().and_then(|(_, question)| question);
    let (prompt, picks): (&str, &[Pick]) = match question {
        Some(question) => (question.prompt, question.picks),
        None => ("This is the housing. Look at it once more, and save it.", &[Pick::SaveIt]),
    };
    let mut row = area.height - 6;
    for line in wrap(prompt, usize::from(area.width) - 2) {
        put(buf, area, row, &Line::styled(format!(" {line}"), theme.now()));
        row += 1;
    }
    if picks.is_empty() {
        let field = format!(" > {}", clean(&define.field, theme));
        put(buf, area, row, &Line::from(vec![Span::raw(field), Span::styled("_", theme.key())]));
    } else {
        let spans = picks.iter().flat_map(|pick| {
            let key = define.spent.key_of(*pick, picks);
            [Span::styled(format!(" [{key}]"), theme.key()), Span::raw(format!(" {} ", pick.text()))]
        });
        put(buf, area, row, &Line::from(spans.collect::<Vec<_>>()));
    }
    if let Some(message) = &define.message {
        for (n, line) in (0_u16..2).zip(wrap(&clean(message, theme), usize::from(area.width) - 2)) {
            put(buf, area, area.height - 4 + n, &Line::styled(format!(" {line}"), theme.alarm()));
        }
    }
    let foot = Rect { y: area.bottom() - 1, height: 1, ..area };
    let leave = if picks.is_empty() { "" } else { "   q leaves" };
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
