//! Text broken at blanks to a width in columns, as a terminal or a fixed-width page counts them.

use unicode_width::UnicodeWidthStr;

/// Breaks a text into lines of at most `width` columns, at blanks; a longer word stays whole.
pub fn wrap(text: &str, width: usize) -> Vec<String> {
    let mut lines = Vec::new();
    let mut line = String::new();
    for word in text.split_whitespace() {
        if !line.is_empty() && line.width() + 1 + word.width() > width {
            lines.push(std::mem::take(&mut line));
        }
        if !line.is_empty() {
            line.push(' ');
        }
        line.push_str(word);
    }
    if !line.is_empty() {
        lines.push(line);
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::wrap;

    #[test]
    fn words_stay_whole_and_lines_stay_short() {
        assert_eq!(wrap("one two  three", 7), ["one two", "three"]);
        assert_eq!(wrap("unbreakable", 4), ["unbreakable"]);
        assert_eq!(wrap("", 4), Vec::<String>::new());
    }
}
