//! An example of every act with all its fields, for people who write files of acts. A test parses
//! each back.

/// The examples, one act a line, with a line of comment where a group starts.
const EXAMPLES: &str = include_str!("examples.acts");

/// Every act with all fields, an example each.
pub fn examples() -> anyhow::Result<String> {
    Ok(EXAMPLES.to_owned())
}
