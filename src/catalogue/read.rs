//! From the bytes of a family file to a checked family, with every problem at its place.

use ron::{Options, extensions::Extensions};

use super::{
    check::check_family, family::Family, form::FamilyForm, locate::locate, problem::Problem,
    problem::TextPlace,
};

/// The largest family file that is read; the largest real one is far below.
pub const FILE_BYTES_MOST: usize = 4 * 1024 * 1024;

/// A family read from a file.
#[derive(Debug, Clone, PartialEq)]
pub struct FamilyFile {
    /// The file's name.
    pub file: String,
    /// As written.
    pub form: FamilyForm,
    /// As checked.
    pub family: Family,
}

/// The one way RON is read and written for families: `Some(x)` may be written `x`.
pub fn ron_options() -> Options {
    Options::default().with_default_extension(Extensions::IMPLICIT_SOME)
}

/// The text of a file from its bytes: not too long, and text at all.
pub fn text_of(file: &str, bytes: Vec<u8>) -> Result<String, Box<Problem>> {
    if bytes.len() > FILE_BYTES_MOST {
        return Err(Box::new(too_long(file)));
    }
    String::from_utf8(bytes).map_err(|problem| {
        let byte = problem.utf8_error().valid_up_to() + 1;
        let hint = "a family is written in RON, as UTF-8 text";
        let say = format!("byte {byte} is not text: this does not look like a family file");
        Box::new(whole_file(file, &say, hint))
    })
}

fn too_long(file: &str) -> Problem {
    whole_file(
        file,
        "the file is longer than 4 MB",
        "a family file is a few kilobytes: is this the right file?",
    )
}

/// A problem of the file as a whole.
fn whole_file(file: &str, say: &str, hint: &str) -> Problem {
    Problem {
        file: file.to_owned(),
        place: None,
        path: String::new(),
        say: say.to_owned(),
        hint: Some(hint.to_owned()),
    }
}

/// Reads and checks a family; every problem found, in the order of the file.
pub fn read_family(file: &str, text: &str) -> Result<FamilyFile, Vec<Problem>> {
    if text.len() > FILE_BYTES_MOST {
        return Err(vec![too_long(file)]);
    }
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let form = parse(file, text).map_err(|problem| vec![*problem])?;
    match check_family(&form) {
        Ok(family) => Ok(FamilyFile { file: file.to_owned(), form, family }),
        Err(findings) => {
            let mut problems: Vec<(usize, Problem)> = findings
                .into_iter()
                .map(|finding| {
                    let byte = locate(text, &finding.path);
                    let problem = Problem {
                        file: file.to_owned(),
                        place: Some(TextPlace::of_byte(text, byte)),
                        path: finding.path.to_string(),
                        say: finding.say,
                        hint: finding.hint,
                    };
                    (byte, problem)
                })
                .collect();
            problems.sort_by_key(|(byte, _)| *byte);
            Err(problems.into_iter().map(|(_, problem)| problem).collect())
        }
    }
}

fn parse(file: &str, text: &str) -> Result<FamilyForm, Box<Problem>> {
    let at = |spanned: ron::error::SpannedError, path: String| {
        let (say, hint) = in_words(&spanned.code);
        let start = spanned.span.start;
        let place = TextPlace::of_line(text, start.line, start.col);
        Box::new(Problem { file: file.to_owned(), place: Some(place), path, say, hint })
    };
    if text.trim().is_empty() {
        let hint = "a family starts with (format: 1, id: \"…\", title: \"…\", source: …";
        return Err(Box::new(whole_file(file, "the file is empty", hint)));
    }
    let mut reader = ron::Deserializer::from_str_with_options(text, &ron_options())
        .map_err(|spanned| at(spanned, String::new()))?;
    let form: FamilyForm = serde_path_to_error::deserialize(&mut reader).map_err(|problem| {
        // Where the way is not known, the reader writes a question mark or a single point.
        let path = problem.path().to_string();
        let path = path.trim_end_matches(['?', '.']).to_owned();
        let spanned = reader.span_error(problem.into_inner());
        at(spanned, path)
    })?;
    reader.end().map_err(|code| at(reader.span_error(code), String::new()))?;
    Ok(form)
}

/// A reader's error as a sentence, and what is allowed.
fn in_words(code: &ron::Error) -> (String, Option<String>) {
    use ron::Error as E;
    let some = |hint: &str| Some(hint.to_owned());
    match code {
        E::NoSuchStructField { expected, found, outer } => (
            format!("{} has no field \"{found}\"", a_thing(outer.as_deref())),
            Some(format!("fields: {}; or this file is for a newer repin", expected.join(", "))),
        ),
        E::MissingStructField { field, outer } => {
            (format!("{} needs the field \"{field}\"", a_thing(outer.as_deref())), None)
        }
        E::DuplicateStructField { field, .. } => (format!("the field \"{field}\" stands here twice"), None),
        E::NoSuchEnumVariant { expected, found, .. } => (
            format!("\"{found}\" is not known here"),
            Some(format!("allowed: {}; or this file is for a newer repin", expected.join(", "))),
        ),
        E::ExpectedComma => ("a comma is missing before this".to_owned(), some("after the value above")),
        E::Eof => ("the file ends too early".to_owned(), some("a bracket is not closed")),
        E::TrailingCharacters => {
            ("there is something after the end of the family".to_owned(), some("one family a file"))
        }
        E::InvalidValueForType { expected, found } => {
            (format!("here stands {found}, and it should be {expected}"), None)
        }
        E::ExpectedString | E::ExpectedStringEnd => {
            ("a text in quotes should stand here".to_owned(), some("such as \"A12\""))
        }
        E::ExpectedInteger | E::IntegerOutOfBounds => {
            ("a whole number should stand here".to_owned(), some("such as 12"))
        }
        E::ExpectedFloat => ("a number should stand here".to_owned(), some("such as 1.5")),
        E::ExpectedArray => ("a list should stand here".to_owned(), some("such as [\"1\", \"2\"]")),
        E::ExpectedMap => ("a map should stand here".to_owned(), some("such as {\"1\": \"A12\"}")),
        E::ExceededRecursionLimit => ("brackets are nested too deep".to_owned(), None),
        other => (lower_first(&other.to_string()), None),
    }
}

/// "a housing", "an item": what a field belongs to.
fn a_thing(name: Option<&str>) -> String {
    format!("a {}", name.unwrap_or("part of the file").replace('_', " "))
}

fn lower_first(text: &str) -> String {
    let mut characters = text.chars();
    let first = characters.next().map(|c| c.to_lowercase().to_string());
    format!("{}{}", first.unwrap_or_default(), characters.as_str())
}
