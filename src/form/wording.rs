//! What the reader of RON says, as sentences, with what is allowed.

/// A reader's error as a sentence, and what is allowed.
pub(super) fn in_words(code: &ron::Error) -> (String, Option<String>) {
    use ron::Error as E;
    let some = |hint: &str| Some(hint.to_owned());
    match code {
        E::NoSuchStructField { expected, found, outer } => {
            (format!("{} has no field \"{found}\"", a_thing(outer.as_deref())), allowed("fields", expected))
        }
        E::MissingStructField { field, outer } => {
            (format!("{} needs the field \"{field}\"", a_thing(outer.as_deref())), None)
        }
        E::DuplicateStructField { field, .. } => (format!("the field \"{field}\" stands here twice"), None),
        E::NoSuchEnumVariant { expected, found, .. } => {
            (format!("\"{found}\" is not known here"), allowed("allowed", expected))
        }
        E::ExpectedComma => ("a comma is missing before this".to_owned(), some("after the value above")),
        E::Eof => ("the file ends too early".to_owned(), some("a bracket is not closed")),
        E::TrailingCharacters => {
            ("there is something after the end".to_owned(), some("nothing stands behind the last bracket"))
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
        E::ExpectedBoolean => ("yes or no should stand here".to_owned(), some("true or false")),
        E::ExpectedArray => ("a list should stand here".to_owned(), some("such as [\"1\", \"2\"]")),
        E::ExpectedMap => ("a map should stand here".to_owned(), some("such as {\"1\": \"A12\"}")),
        E::ExpectedStructLike | E::ExpectedNamedStructLike(_) | E::ExpectedStructLikeEnd => {
            ("a list of fields in round brackets should stand here".to_owned(), some("such as (a: 1, b: 2)"))
        }
        E::ExpectedDifferentStructName { expected, found } => (
            format!("here stands {found}, and it should be {}", a_thing(Some(expected))),
            some("in round brackets, without a name"),
        ),
        E::ExceededRecursionLimit => ("brackets are nested too deep".to_owned(), None),
        other => (lower_first(&other.to_string()), None),
    }
}

/// What may stand there; a newer program may know more.
fn allowed(what: &str, names: &[&str]) -> Option<String> {
    Some(format!("{what}: {}; or this file is for a newer repin", names.join(", ")))
}

/// "a housing", "an act": what a field belongs to, by the name of its form.
fn a_thing(name: Option<&str>) -> String {
    let Some(name) = name else { return "a part of the file".to_owned() };
    let mut words = String::new();
    for c in name.strip_suffix("Form").unwrap_or(name).chars() {
        match c {
            '_' => words.push(' '),
            c if c.is_uppercase() && !words.is_empty() => words.extend([' ', c.to_ascii_lowercase()]),
            c => words.push(c.to_ascii_lowercase()),
        }
    }
    let article = if words.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" };
    format!("{article} {words}")
}

fn lower_first(text: &str) -> String {
    let mut characters = text.chars();
    let first = characters.next().map(|c| c.to_lowercase().to_string());
    format!("{}{}", first.unwrap_or_default(), characters.as_str())
}
