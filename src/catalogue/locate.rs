//! Where a field stands in a file that has been read without error: a walk over the text along a
//! path, without building anything.

use super::finding::{FieldPath, PathStep};

/// The byte at which the value at `path` starts; the nearest value around it when the field is not
/// written in the file.
pub(super) fn locate(text: &str, path: &FieldPath) -> usize {
    let mut walk = Walk { text, at: 0 };
    walk.skip_blank();
    if walk.rest().starts_with("#!") {
        walk.at += walk.rest().find(']').map_or(0, |end| end + 1);
        walk.skip_blank();
    }
    for step in path.steps() {
        let before = walk.at;
        if !walk.enter(step) {
            return before;
        }
    }
    walk.at
}

struct Walk<'a> {
    text: &'a str,
    at: usize,
}

impl<'a> Walk<'a> {
    fn rest(&self) -> &'a str {
        self.text.get(self.at..).unwrap_or("")
    }

    fn peek(&self) -> Option<char> {
        self.rest().chars().next()
    }

    fn skip_char(&mut self) {
        self.at += self.peek().map_or(0, char::len_utf8);
    }

    /// Skips blanks and comments.
    fn skip_blank(&mut self) {
        loop {
            let rest = self.rest();
            let trimmed = rest.trim_start();
            self.at += rest.len() - trimmed.len();
            if trimmed.starts_with("//") {
                self.at += trimmed.find('\n').unwrap_or(trimmed.len());
            } else if trimmed.starts_with("/*") {
                self.skip_block_comment();
            } else {
                return;
            }
        }
    }

    /// Block comments nest.
    fn skip_block_comment(&mut self) {
        let mut depth = 0_usize;
        while !self.rest().is_empty() {
            if self.rest().starts_with("/*") {
                depth += 1;
                self.at += 2;
            } else if self.rest().starts_with("*/") {
                depth -= 1;
                self.at += 2;
                if depth == 0 {
                    return;
                }
            } else {
                self.skip_char();
            }
        }
    }

    /// Goes from the start of a value to the start of a value in it; false when it is not there.
    fn enter(&mut self, step: &PathStep) -> bool {
        self.skip_word();
        if !matches!(self.peek(), Some('(' | '[' | '{')) {
            return false;
        }
        self.skip_char();
        let mut index = 0;
        loop {
            self.skip_blank();
            if matches!(self.peek(), None | Some(')' | ']' | '}')) {
                return false;
            }
            let start = self.at;
            let name = self.field_name();
            let found = match step {
                PathStep::Field(wanted) => name == Some(wanted),
                PathStep::Index(wanted) | PathStep::Entry(wanted, _) => index == *wanted,
            };
            if found {
                return true;
            }
            if name.is_none() {
                self.at = start;
            }
            self.skip_value();
            self.skip_blank();
            if self.peek() == Some(':') {
                self.skip_char();
                self.skip_blank();
                self.skip_value();
                self.skip_blank();
            }
            if self.peek() == Some(',') {
                self.skip_char();
            }
            index += 1;
            if self.at == start {
                return false;
            }
        }
    }

    /// Skips `name:` and gives the name; stays where it is when there is none.
    fn field_name(&mut self) -> Option<&'a str> {
        let start = self.at;
        let name = self.word();
        if !name.is_empty() {
            self.skip_blank();
            if self.peek() == Some(':') {
                self.skip_char();
                self.skip_blank();
                return Some(name);
            }
        }
        self.at = start;
        None
    }

    fn word(&mut self) -> &'a str {
        let rest = self.rest();
        let end = rest.find(|c: char| !(c.is_alphanumeric() || c == '_')).unwrap_or(rest.len());
        self.at += end;
        rest.get(..end).unwrap_or("")
    }

    /// Skips a name before a bracket, as in `Grid(…)`.
    fn skip_word(&mut self) {
        self.word();
        self.skip_blank();
    }

    /// Skips one value: a text, a bracket with all in it, or a word.
    fn skip_value(&mut self) {
        let mut depth = 0_usize;
        while let Some(c) = self.peek() {
            match c {
                '"' => self.skip_text(),
                '(' | '[' | '{' => {
                    depth += 1;
                    self.skip_char();
                }
                ')' | ']' | '}' | ',' | ':' if depth == 0 => return,
                ')' | ']' | '}' => {
                    depth -= 1;
                    self.skip_char();
                }
                _ => self.skip_char(),
            }
            self.skip_blank();
        }
    }

    fn skip_text(&mut self) {
        self.skip_char();
        while let Some(c) = self.peek() {
            self.skip_char();
            match c {
                '\\' => self.skip_char(),
                '"' => return,
                _ => {}
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(path: &FieldPath, starts: &str) {
        let text = r##"// head (a: 1)
            (id: "x, (y: 2)", /* list: [ */ list: [ (a: 1), Grid(a: 2, b: ("p", 3)) ],
             map: {"1": "A", "2": "B"}, last: 9)"##;
        let found = text.get(locate(text, path)..).unwrap();
        assert!(found.starts_with(starts), "{path} is at {found}");
    }

    #[test]
    fn a_field_is_found_past_texts_and_comments_that_look_like_fields() {
        let top = FieldPath::default();
        check(&top.field("id"), "\"x, (y");
        check(&top.field("list").index(1).field("b").index(0), "\"p\"");
        check(&top.field("map").entry(1, "2"), "\"2\"");
        check(&top.field("last"), "9)");
    }

    #[test]
    fn a_field_that_is_not_written_gives_the_value_around_it() {
        check(&FieldPath::default().field("list").index(0).field("missing"), "(a: 1)");
    }
}
