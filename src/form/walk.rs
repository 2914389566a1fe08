//! Steps over the text of a RON file that has been read without error so far: blanks, comments, texts,
//! words, values. Nothing is built.

/// A place in a text, moved forward.
pub(super) struct Walk<'a> {
    text: &'a str,
    pub at: usize,
}

impl<'a> Walk<'a> {
    /// At the first value of the text, behind blanks, comments and what a file may say of RON itself.
    pub fn new(text: &'a str) -> Self {
        let mut walk = Self { text, at: 0 };
        walk.skip_blank();
        if walk.rest().starts_with("#!") {
            walk.at += walk.rest().find(']').map_or(0, |end| end + 1);
            walk.skip_blank();
        }
        walk
    }

    fn rest(&self) -> &'a str {
        self.text.get(self.at..).unwrap_or("")
    }

    /// The text from a byte to here.
    pub fn since(&self, start: usize) -> &'a str {
        self.text.get(start..self.at).unwrap_or("")
    }

    pub fn peek(&self) -> Option<char> {
        self.rest().chars().next()
    }

    pub fn skip_char(&mut self) {
        self.at += self.peek().map_or(0, char::len_utf8);
    }

    /// Skips blanks and comments.
    pub fn skip_blank(&mut self) {
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

    /// Skips `name:` and gives the name; stays where it is when there is none.
    pub fn field_name(&mut self) -> Option<&'a str> {
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

    /// Skips a word and gives it; empty when there is none.
    pub fn word(&mut self) -> &'a str {
        let rest = self.rest();
        let end = rest.find(|c: char| !(c.is_alphanumeric() || c == '_')).unwrap_or(rest.len());
        self.at += end;
        rest.get(..end).unwrap_or("")
    }

    /// Skips one value: a text, a bracket with all in it, or a word.
    pub fn skip_value(&mut self) {
        let mut depth = 0_usize;
        while let Some(c) = self.peek() {
            match c {
                '(' | '[' | '{' => {
                    depth += 1;
                    self.skip_char();
                }
                ')' | ']' | '}' | ',' | ':' if depth == 0 => return,
                ')' | ']' | '}' => {
                    depth -= 1;
                    self.skip_char();
                }
                _ => self.skip_plain(),
            }
            self.skip_blank();
        }
    }

    /// Skips what holds no brackets of its own: a text, a word, a number, a single sign.
    pub fn skip_plain(&mut self) {
        match self.peek() {
            Some('"') => self.skip_text(),
            Some('\'') => self.skip_letter(),
            Some(c) if c.is_alphanumeric() || c == '_' => {
                let word = self.word();
                if matches!(word, "r" | "br") && matches!(self.peek(), Some('"' | '#')) {
                    self.skip_raw_text();
                } else if word == "b" && self.peek() == Some('"') {
                    self.skip_text();
                }
            }
            _ => self.skip_char(),
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

    /// `r#"…"#`: nothing in it is escaped, and it ends with as many signs as it starts with.
    fn skip_raw_text(&mut self) {
        let signs = self.rest().chars().take_while(|c| *c == '#').count();
        self.at += signs;
        self.skip_char();
        let end = format!("\"{}", "#".repeat(signs));
        self.at += self.rest().find(&end).map_or(self.rest().len(), |at| at + end.len());
    }

    fn skip_letter(&mut self) {
        self.skip_char();
        if self.peek() == Some('\\') {
            self.skip_char();
        }
        self.skip_char();
        if self.peek() == Some('\'') {
            self.skip_char();
        }
    }
}
