//! A held key does one thing. The key that answered last answers nothing more until another key was
//! pressed: where the next question would take it, it asks for another one and shows that.

use crossterm::event::{KeyCode, KeyEvent};

use super::keys::Pick;

/// Keys that stand in where the key of an answer has just been used.
const STAND_INS: [char; 5] = ['2', '3', '4', '8', '9'];

/// More printable keys than this, at once and at a question of one letter, are a paste.
const AT_ONCE_MOST: usize = 3;

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

    /// This key answered.
    pub fn uses(&mut self, key: char) {
        self.0 = Some(key);
    }

    /// The key of an answer among those that are offered with it.
    pub fn key_of(self, pick: Pick, offered: &[Pick]) -> char {
        match pick.key() {
            key if self.0 == Some(key) => {
                let is_free = |key: &&char| offered.iter().all(|other| other.key() != **key);
                STAND_INS.iter().find(is_free).copied().unwrap_or(key)
            }
            key => key,
        }
    }

    /// The answer a key gives.
    pub fn answer(self, key: char, offered: &[Pick]) -> Option<Pick> {
        offered.iter().copied().find(|pick| self.key_of(*pick, offered) == key)
    }
}

/// How many of these keys, which came at once at a question of one letter, are a paste: as many as are
/// printable and follow each other, none where they are few or one held key.
pub fn pasted(keys: &[KeyEvent]) -> usize {
    let printable = |key: &&KeyEvent| matches!(key.code, KeyCode::Char(_));
    let run = keys.iter().take_while(printable).count();
    let is_one_key =
        keys.iter().take(run).all(|key| keys.first().is_some_and(|first| first.code == key.code));
    if run > AT_ONCE_MOST && !is_one_key { run } else { 0 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crossterm::event::KeyModifiers;

    fn keys(text: &str) -> Vec<KeyEvent> {
        text.chars().map(|c| KeyEvent::new(KeyCode::Char(c), KeyModifiers::NONE)).collect()
    }

    #[test]
    fn the_key_that_answered_has_a_stand_in_until_another_key_is_pressed() {
        let offered = [Pick::Yes, Pick::No];
        let mut spent = Spent::default();
        assert_eq!(spent.answer('y', &offered), Some(Pick::Yes));
        spent.uses('y');
        for key in keys("yyy") {
            spent.sees(key);
            assert_eq!(spent.answer('y', &offered), None);
        }
        assert_eq!((spent.key_of(Pick::Yes, &offered), spent.answer('2', &offered)), ('2', Some(Pick::Yes)));
        spent.uses('2');
        assert_eq!(spent.answer('y', &offered), Some(Pick::Yes));
        spent.uses('y');
        spent.sees(KeyEvent::new(KeyCode::Tab, KeyModifiers::NONE));
        assert_eq!(spent.answer('y', &offered), Some(Pick::Yes));
    }

    #[test]
    fn a_stand_in_is_never_the_key_of_another_answer() {
        let offered = [Pick::UpFeature2, Pick::UpFeature3, Pick::Yes];
        let mut spent = Spent::default();
        spent.uses('y');
        assert_eq!(spent.key_of(Pick::Yes, &offered), '4');
    }

    #[test]
    fn more_than_three_printable_keys_at_once_are_a_paste_and_a_held_key_is_none() {
        assert_eq!([pasted(&keys("og1")), pasted(&keys("heat marks")), pasted(&keys("oooooo"))], [0, 10, 0]);
        let mut line = keys("og11");
        line.insert(2, KeyEvent::new(KeyCode::Enter, KeyModifiers::NONE));
        assert_eq!(pasted(&line), 0);
    }
}
