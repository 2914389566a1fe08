//! An example of every act with all its fields, for people who write files of acts. A test parses
//! each back.

/// The examples, one act a line, with a line of comment where a group starts.
const EXAMPLES: &str = include_str!("examples.acts");

/// Every act with all fields, an example each.
pub fn examples() -> anyhow::Result<String> {
    Ok(EXAMPLES.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::{acts::ActForm, mirror::FormOf, read_acts, ron_options};

    /// A number without a part is written as 50.0 and may be typed as 50.
    fn shortened(text: &str) -> String {
        text.replace(".0,", ",").replace(".0)", ")")
    }

    #[test]
    fn every_example_is_written_again_as_it_stands() {
        let examples = examples().unwrap();
        let mut otherwise = Vec::new();
        for line in read_acts("examples", &examples).unwrap() {
            let written = ron_options().to_string(&ActForm::write(&line.act)).unwrap();
            let example = examples.lines().nth(line.line - 1).unwrap();
            if shortened(&written) != shortened(example) {
                otherwise.push(format!("{example}\n{written}"));
            }
        }
        assert!(otherwise.is_empty(), "{}", otherwise.join("\n\n"));
    }
}
