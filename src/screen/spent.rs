//! A held key does one thing. The key that answered last answers nothing more until another key was
//! pressed: where the next question would take it, it asks for another one and shows that.

use crossterm::event::{KeyCode, KeyEvent, KeyModifiers};

use super::keys::key_of;
use crate::procedure::Choice;

/// Keys that stand in where the key of an answer has just been used.
const STAND_INS: [char; 5] = ['2', '3', '4', '8', '9'];

/// More printable keys than this, at once and at a question of one letter, are a paste.
const AT_ONCE_MOST: usize = 3;

/// What is said of a paste that was not taken.
pub const PASTED: &str = "Many characters came at once, and here one key answers: nothing of it was taken.";

/// The key that answered last.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Spent(Option<char>);

impl Spent {
    /// Takes a key press in: any other key frees the one that was used.
    pub fn sees(&mut self, event: KeyEvent) {
        if self.0.is_some_and(|spent| event.code != KeyCode::Char(spent)) {
            self.0 = None;
        }
    }

    /// Whether this is the key that answered last.
    pub fn is(self, event: KeyEvent) -> bool {
        self.0.is_some_and(|spent| event.code == KeyCode::Char(spent))
    }

    /// This key answered.
    pub fn uses(&mut self, key: char) {
        self.0 = Some(key);
    }

    /// The key of an answer among those that are offered with it.
    pub fn key_of(self, choice: Choice, offered: &[Choice]) -> char {
        match key_of(choice) {
            key if self.0 == Some(key) => {
                let is_free = |key: &&char| offered.iter().all(|other| key_of(*other) != **key);
                STAND_INS.iter().find(is_free).copied().unwrap_or(key)
            }
            key => key,
        }
    }

    /// The answer a key gives.
    pub fn answer(self, key: char, offered: &[Choice]) -> Option<Choice> {
        offered.iter().copied().find(|choice| self.key_of(*choice, offered) == key)
    }
}

/// Whether keys that came at once at a question of one letter are a paste: many of them are printable,
/// with whatever between, and they are not one key that is held.
pub fn is_paste(keys: &[KeyEvent]) -> bool {
    let printable = |key: &&KeyEvent| {
        matches!(key.code, KeyCode::Char(_))
            && !key.modifiers.intersects(KeyModifiers::CONTROL | KeyModifiers::ALT)
    };
    let first = keys.iter().find(printable);
    let is_one_key =
        keys.iter().filter(printable).all(|key| first.is_some_and(|first| first.code == key.code));
    keys.iter().filter(printable).count() > AT_ONCE_MOST && !is_one_key
}

#[cfg(test)]
mod tests {
    use super::*;

    fn keys(text: &str) -> Vec<KeyEvent> {
        text.chars().map(|c| KeyEvent::new(KeyCode::Char(c), KeyModifiers::NONE)).collect()
    }

    #[test]
    fn the_key_that_answered_has_a_stand_in_until_another_key_is_pressed() {
        let offered = [Choice::Yes, Choice::No];
        let mut spent = Spent::default();
        assert_eq!(spent.answer('y', &offered), Some(Choice::Yes));
        spent.uses('y');
        for key in keys("yyy") {
            spent.sees(key);
            assert_eq!(spent.answer('y', &offered), None);
        }
        assert_eq!(
            (spent.key_of(Choice::Yes, &offered), spent.answer('2', &offered)),
            ('2', Some(Choice::Yes))
        );
        spent.uses('2');
        assert_eq!(spent.answer('y', &offered), Some(Choice::Yes));
        spent.uses('y');
        spent.sees(KeyEvent::new(KeyCode::Tab, KeyModifiers::NONE));
        assert_eq!(spent.answer('y', &offered), Some(Choice::Yes));
    }

    #[test]
    fn a_stand_in_is_never_the_key_of_another_answer() {
        let offered = [Choice::UpFeature2, Choice::UpFeature3, Choice::Yes];
        let mut spent = Spent::default();
        spent.uses('y');
        assert_eq!(spent.key_of(Choice::Yes, &offered), '4');
    }

    #[test]
    fn more_than_three_printable_keys_at_once_are_a_paste_and_a_held_key_is_none() {
        assert!(!is_paste(&keys("og1")) && is_paste(&keys("heat marks")) && !is_paste(&keys("oooooo")));
        // A list with line ends is a paste, too.
        let mut lines = keys("ogty");
        for n in 1..4 {
            lines.insert(2 * n - 1, KeyEvent::new(KeyCode::Enter, KeyModifiers::NONE));
        }
        assert!(is_paste(&lines));
    }
}
