//! From a key press to what is to be done: pure. The job is looked at, never changed here.

use crossterm::event::{KeyCode, KeyEvent, KeyEventKind, KeyModifiers};

use crate::{
    job::Refusal,
    procedure::{
        Asked, Barred, Choice, Done, JobView, OtherThing, Press, Reply, Stop, Takes, Topic, ask, makes_sense,
        topic_now,
    },
    report::{questions::wrong, refusals::in_one_line},
};

use super::{
    keys::{Pressed, SharedKey, pressed},
    menu::OTHERS,
    spent::{PASTED, is_paste},
    state::{Effect, Message, Outcome, Overlay, PAGES, Page, Ui},
};

/// Bytes of the longest value that is typed: more than any note needs.
const LONGEST_FIELD: usize = 4000;

/// A scanned label and its Enter may be followed by the next keys; a longer text is a paste.
const LONGEST_LABEL: usize = 12;

/// Keys that came at once, as far as they are not handled yet.
pub struct Burst<'a> {
    keys: &'a [KeyEvent],
    is_pasted: bool,
}

impl<'a> Burst<'a> {
    /// All of them.
    pub fn of(keys: &'a [KeyEvent]) -> Self {
        Self { keys, is_pasted: false }
    }
}

impl Ui {
    /// What the line is about: what somebody chose, else what comes next.
    pub fn topic(&self, view: &JobView<'_>) -> Topic {
        // Nothing else is asked while nobody said who works here.
        let chosen = self.chosen.clone().filter(|_| !view.by.trim().is_empty());
        chosen.unwrap_or_else(|| topic_now(view))
    }

    /// What is asked now.
    pub fn asked(&self, view: &JobView<'_>) -> Asked {
        ask(view, &self.topic(view), &self.answers)
    }

    /// The next of these keys, which came at once, that is to be handled by itself. Text goes into the field
    /// whole, whatever its characters mean when they are typed; where one key answers a paste is said and not
    /// taken, nor is what follows a pasted line: it meant no question here.
    pub fn next_key(&mut self, view: &JobView<'_>, burst: &mut Burst<'_>) -> Option<KeyEvent> {
        if is_paste(burst.keys) && !self.is_typing(view) {
            self.message = Some(Message::Refused(PASTED.to_owned()));
            burst.keys = &[];
        } else if is_paste(burst.keys) {
            let text = burst.keys.iter().map_while(|key| match key.code {
                KeyCode::Char(c) if key.modifiers.difference(KeyModifiers::SHIFT).is_empty() => Some(c),
                _ => None,
            });
            let typed = text.map(|c| self.type_in(c)).count();
            burst.is_pasted |= typed > LONGEST_LABEL;
            burst.keys = burst.keys.get(typed..).unwrap_or_default();
        }
        let (key, later) = burst.keys.split_first()?;
        burst.keys = if burst.is_pasted && key.code == KeyCode::Enter { &[] } else { later };
        Some(*key)
    }

    /// Handles one key press.
    pub fn update(&mut self, view: &JobView<'_>, event: KeyEvent) -> Effect {
        // The key that answered is still held: it does not fill the field that came up under it.
        if event.kind == KeyEventKind::Repeat && self.spent.is(event) {
            return Effect::None;
        }
        let effect = self.take(view, event);
        // After the answer: a stand-in counts while it stands there.
        self.spent.sees(event);
        effect
    }

    fn take(&mut self, view: &JobView<'_>, event: KeyEvent) -> Effect {
        let typing = self.is_typing(view);
        match (pressed(event, typing), self.overlay) {
            (Pressed::Nothing, _) => Effect::None,
            (key, Overlay::Help) => self.on_help(key),
            (key, Overlay::Menu(marked)) => self.on_menu(view, key, marked),
            (Pressed::SharedKey(common), Overlay::None) => self.on_common(view, common),
            (Pressed::Char(c), Overlay::None) => self.on_char(view, c, typing),
        }
    }

    /// The other things that make sense now.
    pub fn things(&self, view: &JobView<'_>) -> Vec<OtherThing> {
        let things = OTHERS.iter().map(|(thing, ..)| *thing);
        things
            .filter(|thing| match thing {
                OtherThing::GoOn => self.refused.is_some(),
                thing => makes_sense(view, *thing),
            })
            .collect()
    }

    fn on_help(&mut self, key: Pressed) -> Effect {
        match key {
            Pressed::SharedKey(SharedKey::Down) => self.scroll += 1,
            Pressed::SharedKey(SharedKey::Up) => self.scroll = self.scroll.saturating_sub(1),
            Pressed::SharedKey(
                SharedKey::Help | SharedKey::Back | SharedKey::Enter | SharedKey::Leave | SharedKey::GetOut,
            ) => {
                self.overlay = Overlay::None;
                self.scroll = 0;
            }
            // What was meant for the question under it does nothing here.
            Pressed::SharedKey(_) | Pressed::Char(_) | Pressed::Nothing => {}
        }
        Effect::None
    }

    fn on_menu(&mut self, view: &JobView<'_>, key: Pressed, marked: usize) -> Effect {
        let things = self.things(view);
        let last = things.len().saturating_sub(1);
        match key {
            Pressed::SharedKey(SharedKey::Down) => self.overlay = Overlay::Menu((marked + 1).min(last)),
            Pressed::SharedKey(SharedKey::Up) => self.overlay = Overlay::Menu(marked.saturating_sub(1)),
            Pressed::SharedKey(SharedKey::Enter) => {
                if let Some(thing) = things.get(marked) {
                    self.choose(*thing);
                    return self.advance(view);
                }
            }
            Pressed::Char(typed) => {
                self.spent.uses(typed);
                match OTHERS.iter().find(|(thing, c, _)| *c == typed && things.contains(thing)) {
                    Some((thing, ..)) => {
                        self.choose(*thing);
                        return self.advance(view);
                    }
                    None => self.overlay = Overlay::None,
                }
            }
            _ => self.overlay = Overlay::None,
        }
        Effect::None
    }

    fn on_common(&mut self, view: &JobView<'_>, key: SharedKey) -> Effect {
        match key {
            SharedKey::Enter => return self.on_enter(view),
            SharedKey::Back => self.back(),
            SharedKey::Erase => {
                self.field.pop();
            }
            SharedKey::NextPage => self.turn_page(1),
            SharedKey::LastPage => self.turn_page(PAGES.len() - 1),
            SharedKey::Up => self.scroll = self.scroll.saturating_sub(1),
            SharedKey::Down => self.scroll += 1,
            SharedKey::Other if view.read_only.is_none() && !view.by.trim().is_empty() => {
                self.overlay = Overlay::Menu(0)
            }
            SharedKey::Other => {}
            SharedKey::Help => {
                self.overlay = Overlay::Help;
                self.scroll = 0;
            }
            SharedKey::Jump if view.read_only.is_some() => {}
            SharedKey::Jump => {
                self.forget_answers();
                self.page = Page::Bench;
                self.message = None;
                self.chosen = Some(Topic::Jump);
            }
            SharedKey::Flip => self.flipped = !self.flipped,
            SharedKey::Turn => self.turned = !self.turned,
            SharedKey::NextOld if self.page == Page::Bench => self.further[0] += 1,
            SharedKey::NextNew if self.page == Page::Bench => self.further[1] += 1,
            SharedKey::NextOld | SharedKey::NextNew => {}
            SharedKey::Leave => return Effect::Leave,
            SharedKey::GetOut if self.field.is_empty() => return Effect::Leave,
            SharedKey::GetOut => {
                self.field.clear();
                self.message =
                    Some(Message::Refused("What was typed is gone. Ctrl-C again leaves.".to_owned()));
            }
        }
        Effect::None
    }

    fn turn_page(&mut self, by: usize) {
        let here = PAGES.iter().position(|(page, _)| *page == self.page).unwrap_or(0);
        self.page = PAGES.get((here + by) % PAGES.len()).map_or(Page::Bench, |(page, _)| *page);
        self.scroll = 0;
    }

    /// From another page back to the bench, where everything stands as it was; else one answer back;
    /// with none left, back to the next step.
    fn back(&mut self) {
        if self.page != Page::Bench {
            self.page = Page::Bench;
            self.scroll = 0;
            return;
        }
        self.message = None;
        if !self.field.is_empty() {
            self.field.clear();
        } else if self.flipped || self.turned {
            (self.flipped, self.turned) = (false, false);
        } else if self.further != [0, 0] {
            self.further = [0, 0];
        } else if self.answers.pop().is_none() {
            self.chosen = None;
        }
    }

    fn on_enter(&mut self, view: &JobView<'_>) -> Effect {
        if !self.is_typing(view) || self.field.trim().is_empty() {
            return Effect::None;
        }
        let text = std::mem::take(&mut self.field);
        self.answers.push(Reply::Text(text.trim().to_owned()));
        self.advance(view)
    }

    fn on_char(&mut self, view: &JobView<'_>, c: char, typing: bool) -> Effect {
        if self.page == Page::Request {
            if self.spent.answer(c, &[Choice::Send]).is_none() || view.read_only.is_some() {
                return Effect::None;
            }
            self.spent.uses(c);
            self.choose(OtherThing::SendRequest);
            return self.advance(view);
        }
        if self.page != Page::Bench || view.read_only.is_some() {
            return Effect::None;
        }
        if typing {
            self.type_in(c);
            return Effect::None;
        }
        let Err(Stop::Ask(ask)) = self.asked(view) else { return Effect::None };
        let Takes::Choices(offered) = &ask.takes else { return Effect::None };
        match self.spent.answer(c, offered) {
            Some(choice) => {
                self.spent.uses(c);
                self.answers.push(Reply::Choice(choice));
                self.advance(view)
            }
            None => Effect::None,
        }
    }

    fn type_in(&mut self, c: char) {
        if self.field.len() >= LONGEST_FIELD {
            let say = format!("More than {LONGEST_FIELD} characters do not fit: the rest was not taken.");
            self.message = Some(Message::Refused(say));
        } else if !crate::quantity::is_harmful(c) {
            self.field.push(c);
        }
    }

    /// Goes on after an answer: asks the next question, says what cannot be, or hands over the
    /// acts.
    fn advance(&mut self, view: &JobView<'_>) -> Effect {
        self.message = None;
        match self.asked(view) {
            Ok(Done::Acts(acts)) => Effect::Enter(acts),
            Ok(Done::Send(head)) => Effect::SendRequest(head),
            Ok(Done::Works(name)) => Effect::Works(name),
            Ok(Done::Book(positions)) => Effect::Book(positions),
            Ok(Done::Go(step)) => {
                self.forget_answers();
                self.chosen = Some(Topic::Step(step));
                Effect::None
            }
            Err(Stop::Ask(_)) => Effect::None,
            Err(Stop::Wrong(why)) => {
                self.take_back(wrong(&why));
                Effect::None
            }
            Err(Stop::Barred(barred)) => {
                let Barred { act, refusals, can_go_on } = *barred;
                self.answers.pop();
                self.refuse(Press::of(act), &refusals, can_go_on);
                Effect::None
            }
        }
    }

    /// The last answer cannot be: it is asked again.
    fn take_back(&mut self, why: String) {
        match self.answers.pop() {
            // A line of several words stays, to be mended; a label or a colour is read again.
            Some(Reply::Text(typed)) if typed.contains(' ') => self.field = typed,
            Some(_) => {}
            // Nothing was answered: the thing itself cannot be.
            None if matches!(self.chosen, Some(Topic::Other(_) | Topic::Next(..))) => {
                self.chosen = None;
            }
            None => {}
        }
        self.message = Some(Message::Refused(why));
    }

    /// Takes in how the shell's work ended.
    pub fn finish(&mut self, outcome: Outcome) {
        match outcome {
            Outcome::Entered(what) => {
                self.forget_answers();
                self.refused = None;
                self.message = (!what.is_empty()).then_some(Message::Done(what));
            }
            Outcome::Disagrees(what) => {
                self.forget_answers();
                self.refused = None;
                self.message = Some(Message::Failed(what));
            }
            Outcome::Refused { press, refusals, can_go_on } => {
                // Nothing happened: the last question is asked again, with what was answered before it.
                self.answers.truncate(self.answers.len().saturating_sub(1));
                self.refuse(press, &refusals, can_go_on);
            }
            Outcome::NotSo(why) => {
                self.forget_answers();
                self.message = Some(Message::Refused(why));
            }
            Outcome::Trouble(what) => {
                self.answers.clear();
                self.field.clear();
                self.message = Some(Message::Trouble(what));
            }
        }
    }

    fn refuse(&mut self, press: Press, refusals: &[Refusal], can_go_on: bool) {
        let mut text = vec![in_one_line(refusals)];
        text.extend(can_go_on.then(|| "(! y goes on with it, by name and reason.)".to_owned()));
        self.message = Some(Message::Refused(text.join(" ")));
        self.refused = can_go_on.then_some(press);
    }
}
