//! From the path of a field to the byte where it stands, and back: walks over the text, without
//! building anything.

use super::walk::Walk;
use crate::catalogue::{FieldPath, PathStep};

/// The byte at which the value at `path` starts; the nearest value around it when the field is not
/// written in the file.
pub(super) fn locate(text: &str, path: &FieldPath) -> usize {
    let mut walk = Walk::new(text);
    for step in path.steps() {
        let before = walk.at;
        if !enter(&mut walk, step) {
            return before;
        }
    }
    walk.at
}

/// Goes from the start of a value to the start of a value in it; false when it is not there.
fn enter(walk: &mut Walk<'_>, step: &PathStep) -> bool {
    if !open(walk) {
        return false;
    }
    let mut index = 0;
    loop {
        walk.skip_blank();
        if matches!(walk.peek(), None | Some(')' | ']' | '}')) {
            return false;
        }
        let start = walk.at;
        let name = walk.field_name();
        let found = match step {
            PathStep::Field(wanted) => name == Some(wanted),
            PathStep::Index(wanted) | PathStep::Entry(wanted, _) => index == *wanted,
        };
        if found {
            return true;
        }
        if name.is_none() {
            walk.at = start;
        }
        walk.skip_value();
        walk.skip_blank();
        if walk.peek() == Some(':') {
            walk.skip_char();
            walk.skip_blank();
            walk.skip_value();
            walk.skip_blank();
        }
        if walk.peek() == Some(',') {
            walk.skip_char();
        }
        index += 1;
        if walk.at == start {
            return false;
        }
    }
}

/// Goes behind the bracket that opens a value, past a name before it, as in `Grid(…)`, and past
/// brackets that are no step of a path, as in `Some(…)`; false when the value opens none.
fn open(walk: &mut Walk<'_>) -> bool {
    loop {
        let is_named = !walk.word().is_empty();
        walk.skip_blank();
        let Some(bracket @ ('(' | '[' | '{')) = walk.peek() else { return false };
        walk.skip_char();
        walk.skip_blank();
        let inside = walk.at;
        let is_wrap = is_named && bracket == '(' && walk.field_name().is_none();
        walk.at = inside;
        if !is_wrap || walk.peek() == Some(')') {
            return true;
        }
    }
}

/// What is meant by a byte between two values.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Nearest {
    /// The value before it.
    Value,
    /// What holds them.
    Around,
}

/// A bracket that is open where the walk is.
struct Open {
    bracket: char,
    /// Whether a name stands before it.
    is_named: bool,
    /// Which value of it the walk is in.
    index: usize,
    /// The field that value belongs to, or its key.
    name: Option<String>,
}

impl Open {
    /// The step of the path it makes.
    fn step(&self) -> Option<String> {
        match (self.bracket, &self.name) {
            ('(', Some(name)) => Some(format!(".{name}")),
            ('(', None) if self.is_named => None,
            ('{', name) => name.as_ref().map(|key| format!("[{key}]")),
            _ => Some(format!("[{}]", self.index)),
        }
    }
}

/// The path of the value a byte is in, or just behind.
pub(super) fn path_at(text: &str, byte: usize, nearest: Nearest) -> String {
    let mut walk = Walk::new(text);
    let mut open: Vec<Open> = Vec::new();
    let mut is_named = false;
    while walk.at < byte {
        let start = walk.at;
        match walk.peek() {
            None => break,
            Some(bracket @ ('(' | '[' | '{')) => {
                walk.skip_char();
                open.push(Open { bracket, is_named, index: 0, name: None });
            }
            Some(')' | ']' | '}') => {
                walk.skip_char();
                open.pop();
            }
            Some(',') => {
                walk.skip_char();
                if let Some(inner) = open.last_mut() {
                    inner.index += 1;
                    inner.name = None;
                }
            }
            Some(_) => {
                let inner = open.last_mut();
                match inner {
                    Some(inner) if inner.bracket == '{' && inner.name.is_none() => {
                        walk.skip_plain();
                        inner.name = Some(walk.since(start).to_owned());
                    }
                    Some(inner) if inner.bracket == '(' && inner.name.is_none() => match walk.field_name() {
                        Some(name) => inner.name = Some(name.to_owned()),
                        None => walk.skip_plain(),
                    },
                    _ => walk.skip_plain(),
                }
            }
        }
        is_named = walk.since(start).chars().all(|c| c.is_alphanumeric() || c == '_');
        walk.skip_blank();
    }
    if nearest == Nearest::Around {
        open.pop();
    }
    let path: String = open.iter().filter_map(Open::step).collect();
    path.trim_start_matches('.').to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = r###"// head (a: 1)
        (id: "x, (y: 2)", /* list: [ */ list: [ (a: 1), Grid(a: 2, b: ("p", 3)) ],
         raw: r#"a: "(["#, maybe: Some((c: 'x', d: [true])), map: {"1": "A", "2": "B"}, last: 9)"###;

    /// The path leads to the place, and the place back to the path.
    #[track_caller]
    fn check(path: &FieldPath, starts: &str) {
        let byte = locate(TEXT, path);
        let found = TEXT.get(byte..).unwrap();
        assert!(found.starts_with(starts), "{path} is at {found}");
        assert_eq!(path_at(TEXT, byte + 1, Nearest::Value), path.to_string());
    }

    #[test]
    fn a_field_is_found_past_texts_and_comments_that_look_like_fields() {
        let top = FieldPath::default();
        check(&top.field("id"), "\"x, (y");
        check(&top.field("list").index(1).field("b").index(0), "\"p\"");
        check(&top.field("maybe").field("d").index(0), "true");
        check(&top.field("map").entry(1, "2"), "\"2\"");
        check(&top.field("last"), "9)");
    }

    #[test]
    fn a_field_that_is_not_written_gives_the_value_around_it() {
        let path = FieldPath::default().field("list").index(0).field("missing");
        assert!(TEXT.get(locate(TEXT, &path)..).unwrap().starts_with("(a: 1)"));
        let in_a_word = FieldPath::default().field("last").field("deeper");
        assert!(TEXT.get(locate(TEXT, &in_a_word)..).unwrap().starts_with("9)"));
    }

    #[test]
    fn between_two_values_either_the_one_before_or_what_holds_them_is_meant() {
        let byte = TEXT.find(", /* list").unwrap();
        assert_eq!(path_at(TEXT, byte, Nearest::Value), "id");
        assert_eq!(path_at(TEXT, byte, Nearest::Around), "");
        let byte = TEXT.find(" ],").unwrap();
        assert_eq!(path_at(TEXT, byte, Nearest::Around), "list");
        assert_eq!(path_at("", 0, Nearest::Value), "");
        assert_eq!(path_at("(((", 99, Nearest::Value), "[0][0][0]");
    }
}
