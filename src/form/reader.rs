//! The one way RON is read: a text with a name becomes a form, and the form what it stands for. Whatever
//! is wrong is said in one shape, at its place. Every form is made for one reader only, so that the
//! program holds the code for it once.

use ron::{Options, error::SpannedError, extensions::Extensions};
use serde::de::DeserializeOwned;

use super::{
    locate::{Nearest, locate, path_at},
    mirror::FormOf,
    problem::{Problem, TextPlace},
    wording::in_words,
};
use crate::catalogue::{FieldFinding, FieldPath};

/// The format of every file that says its format.
const FORMAT: u32 = 1;

/// How RON is read and written: `Some(x)` may be written `x`.
pub fn ron_options() -> Options {
    Options::default().with_default_extension(Extensions::IMPLICIT_SOME)
}

/// A text that RON is read from: a file, or a line of one.
#[derive(Debug, Clone, Copy)]
pub(super) struct Source<'a> {
    name: &'a str,
    text: &'a str,
    /// The line of the file the text starts in, from 1.
    line: usize,
}

impl<'a> Source<'a> {
    /// A whole file. The mark that some editors put at its start is no part of the text.
    pub fn file(name: &'a str, text: &'a str) -> Self {
        Self { name, text: text.strip_prefix('\u{feff}').unwrap_or(text), line: 1 }
    }

    /// One line of a file.
    pub fn line(name: &'a str, line: usize, text: &'a str) -> Self {
        Self { name, text, line }
    }

    /// What its form stands for.
    pub fn read<F: DeserializeOwned + FormOf<T>, T>(&self) -> Result<T, Box<Problem>> {
        self.read_with(F::read)
    }

    /// What a form stands for that is read and never written.
    pub fn read_with<F: DeserializeOwned, T>(
        &self,
        read: impl FnOnce(F) -> Result<T, FieldFinding>,
    ) -> Result<T, Box<Problem>> {
        read(self.form()?).map_err(|finding| Box::new(self.found(finding).1))
    }

    /// The form as written, nothing checked.
    pub fn form<F: DeserializeOwned>(&self) -> Result<F, Box<Problem>> {
        ron_options().from_str(self.text).map_err(|spoilt| Box::new(self.spoilt(&spoilt)))
    }

    /// What a check found in a form, with the byte of the text where it stands.
    pub fn found(&self, finding: FieldFinding) -> (usize, Problem) {
        let byte = locate(self.text, &finding.path);
        let place = TextPlace::of_byte(self.text, byte);
        let FieldFinding { path, say, hint } = finding;
        (byte, self.problem(Some(place), path.to_string(), say, hint))
    }

    /// A problem of the text as a whole.
    pub fn whole(&self, say: &str, hint: &str) -> Problem {
        self.problem(None, String::new(), say.to_owned(), Some(hint.to_owned()))
    }

    /// What the reader of RON says.
    fn spoilt(&self, spoilt: &SpannedError) -> Problem {
        use ron::Error as E;
        let (start, end) = (&spoilt.span.start, &spoilt.span.end);
        let end = TextPlace::byte_of(self.text, end.line, end.col);
        let is_over = self.text.get(end..).is_none_or(|rest| rest.trim().is_empty());
        // What is missing is missing in the bracket, not in the value before it; and where nothing
        // follows, it is the bracket that is not closed.
        let (code, place, nearest) = match &spoilt.code {
            E::ExpectedComma if is_over => (&E::Eof, TextPlace::of_byte(self.text, end), Nearest::Around),
            code => {
                let is_missing = matches!(code, E::ExpectedComma | E::MissingStructField { .. });
                let nearest = if is_missing { Nearest::Around } else { Nearest::Value };
                (code, TextPlace::of_line(self.text, start.line, start.col), nearest)
            }
        };
        let (say, hint) = in_words(code);
        self.problem(Some(place), path_at(self.text, end, nearest), say, hint)
    }

    fn problem(&self, place: Option<TextPlace>, path: String, say: String, hint: Option<String>) -> Problem {
        let place = place.map(|place| Box::new(TextPlace { line: place.line + self.line - 1, ..place }));
        Problem { file: self.name.to_owned(), place, path, say, hint }
    }
}

/// Whether a file is of the format that is read.
pub(super) fn expect_format(format: u32) -> Result<(), FieldFinding> {
    match format {
        FORMAT => Ok(()),
        other => Err(FieldFinding {
            path: FieldPath::default().field("format"),
            say: format!("format {other} is not known"),
            hint: Some(format!("format {FORMAT} is read; this file is for a newer repin")),
        }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        form::{acts::ActForm, read_rules},
        job::Act,
    };

    /// What is said of a third line that is to be an act.
    #[track_caller]
    fn check_act(text: &str, expected: &str) {
        let said = Source::line("x.acts", 3, text).read::<ActForm, Act>().unwrap_err().to_string();
        assert_eq!(said, expected);
    }

    #[test]
    fn a_field_that_is_unknown_missing_or_doubled_is_named() {
        check_act(
            r#"Tug(at:"new:3",hold:true)"#,
            r#"--> x.acts:3:16 at hold
  3 | Tug(at:"new:3",hold:true)
    |                ^
  a tug has no field "hold"
  (fields: at, held; or this file is for a newer repin)"#,
        );
        check_act(
            r#"Tug(at:"new:3")"#,
            r#"--> x.acts:3:15
  3 | Tug(at:"new:3")
    |               ^
  a tug needs the field "held""#,
        );
        check_act(
            r#"Loose(leads:[],leads:[])"#,
            r#"--> x.acts:3:16 at leads
  3 | Loose(leads:[],leads:[])
    |                ^
  the field "leads" stands here twice"#,
        );
    }

    #[test]
    fn a_value_of_the_wrong_kind_is_shown_with_what_is_allowed() {
        check_act(
            r#"Compared(question:Key,answer:Perhaps,mating_half:true)"#,
            r#"--> x.acts:3:30 at answer
  3 | Compared(question:Key,answer:Perhaps,mating_half:true)
    |                              ^
  "Perhaps" is not known here
  (allowed: Fits, Differs, DontKnow; or this file is for a newer repin)"#,
        );
        check_act(
            r#"Tug(at:5,held:true)"#,
            r#"--> x.acts:3:8 at at
  3 | Tug(at:5,held:true)
    |        ^
  a text in quotes should stand here
  (such as "A12")"#,
        );
        check_act(
            r#"Resume(power_off:yes,tags_read:true)"#,
            r#"--> x.acts:3:18 at power_off
  3 | Resume(power_off:yes,tags_read:true)
    |                  ^
  yes or no should stand here
  (true or false)"#,
        );
        check_act(
            r#"RowCounted(housing:"old",row:-1,wires:0,plugs:0,open:0)"#,
            r#"--> x.acts:3:31 at row
  3 | RowCounted(housing:"old",row:-1,wires:0,plugs:0,open:0)
    |                               ^
  a whole number should stand here
  (such as 12)"#,
        );
        check_act(
            r#"Loose(leads:"old:1")"#,
            r#"--> x.acts:3:13 at leads
  3 | Loose(leads:"old:1")
    |             ^
  a list should stand here
  (such as ["1", "2"])"#,
        );
    }

    #[test]
    fn a_text_that_is_no_value_is_shown_where_it_starts() {
        check_act(
            r#"Loose(leads:[("old:1","T1"),("old2","T2")])"#,
            r#"--> x.acts:3:30 at leads[1][0]
  3 | Loose(leads:[("old:1","T1"),("old2","T2")])
    |                              ^
  "old2" is not a full address: write the housing's name, a colon and the label, as in old:11"#,
        );
        check_act(
            r#"Extract(from:"old:3",colour:Some("XX"),freely:true,seal:On)"#,
            r#"--> x.acts:3:29 at colour
  3 | Extract(from:"old:3",colour:Some("XX"),freely:true,seal:On)
    |                             ^
  "XX" in "XX" is not a colour code: use BK BN RD OG YE GN BU VT GY WH PK GD TQ SR, base first, as in RD/WH"#,
        );
    }

    #[test]
    fn brackets_and_commas_that_are_missing_or_too_many_are_found() {
        check_act(
            r#"Tug(at:"new:3" held:true)"#,
            r#"--> x.acts:3:16
  3 | Tug(at:"new:3" held:true)
    |                ^
  a comma is missing before this
  (after the value above)"#,
        );
        check_act(
            r#"Loose(leads:[("old:1","T1")"#,
            r#"--> x.acts:3:28 at leads
  3 | Loose(leads:[("old:1","T1")
    |                            ^
  the file ends too early
  (a bracket is not closed)"#,
        );
        check_act(
            "PutBack PutBack",
            r#"--> x.acts:3:8
  3 | PutBack PutBack
    |        ^
  there is something after the end
  (nothing stands behind the last bracket)"#,
        );
    }

    #[test]
    fn a_file_of_another_format_is_for_a_newer_repin() {
        let said = read_rules("r.ron", "(\n  format: 2,\n)").unwrap_err().to_string();
        let expected = r#"--> r.ron:2:11 at format
  2 |   format: 2,
    |           ^
  format 2 is not known
  (format 1 is read; this file is for a newer repin)"#;
        assert_eq!(said, expected);
    }

    #[test]
    fn the_mark_of_an_editor_and_windows_line_ends_change_no_place() {
        let said = read_rules("r.ron", "\u{feff}(format: 1,\r\n pauze_h: (2, \"x\"))\r\n").unwrap_err();
        let place = said.place.clone().unwrap();
        assert_eq!((place.line, place.column), (2, 2));
        assert_eq!(place.source, " pauze_h: (2, \"x\"))");
        assert!(said.to_string().contains("a set of house rules has no field \"pauze_h\""), "{said}");
    }

    #[test]
    fn a_name_where_a_value_should_stand_and_an_empty_file_are_said_in_words() {
        let empty = read_rules("r.ron", "").unwrap_err().to_string();
        assert!(empty.starts_with("--> r.ron:1:1\n") && empty.contains("round brackets"), "{empty}");
        let named = read_rules("r.ron", "rules").unwrap_err().to_string();
        assert!(named.contains("here stands rules, and it should be a set of house rules"), "{named}");
        let deep = read_rules("r.ron", &format!("(format: {}", "(".repeat(1000))).unwrap_err();
        assert!(deep.to_string().len() < 1000, "{deep}");
    }
}
