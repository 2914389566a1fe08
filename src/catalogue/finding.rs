//! What a check has to say about a field of a form, before it is known where the field stands in
//! the file.

use std::fmt;

/// The way to a field: `housings[2].plugged[1]`.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct FieldPath(Vec<PathStep>);

/// One step on the way to a field.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PathStep {
    /// A named field.
    Field(&'static str),
    /// A place in a list, from 0.
    Index(usize),
    /// The n-th entry of a map, from 0, with its key.
    Entry(usize, String),
}

impl FieldPath {
    /// One field further in.
    pub fn field(&self, name: &'static str) -> Self {
        self.with(PathStep::Field(name))
    }

    /// One place of a list further in.
    pub fn index(&self, index: usize) -> Self {
        self.with(PathStep::Index(index))
    }

    /// One entry of a map further in.
    pub fn entry(&self, index: usize, key: &str) -> Self {
        self.with(PathStep::Entry(index, key.to_owned()))
    }

    /// The steps from the outermost.
    pub fn steps(&self) -> &[PathStep] {
        &self.0
    }

    fn with(&self, step: PathStep) -> Self {
        let mut steps = self.0.clone();
        steps.push(step);
        Self(steps)
    }
}

impl fmt::Display for FieldPath {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (n, step) in self.0.iter().enumerate() {
            match step {
                PathStep::Field(name) if n == 0 => f.write_str(name)?,
                PathStep::Field(name) => write!(f, ".{name}")?,
                PathStep::Index(index) => write!(f, "[{index}]")?,
                PathStep::Entry(_, key) => write!(f, "[\"{key}\"]")?,
            }
        }
        Ok(())
    }
}

/// Something wrong with a field.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FieldFinding {
    /// The field.
    pub path: FieldPath,
    /// What is wrong, in one sentence.
    pub say: String,
    /// What is allowed.
    pub hint: Option<String>,
}

impl FieldFinding {
    /// What a value itself has to say, wherever it stands.
    pub fn of(say: impl fmt::Display) -> Self {
        Self { path: FieldPath::default(), say: say.to_string(), hint: None }
    }

    /// The same, one step further out.
    pub fn under(mut self, step: PathStep) -> Self {
        self.path.0.insert(0, step);
        self
    }
}

/// What has been found so far.
#[derive(Debug, Default)]
pub(super) struct Findings {
    found: Vec<FieldFinding>,
    /// The first value that could not be read at all, among `found`.
    hole: Option<usize>,
}

impl Findings {
    /// Notes something wrong.
    pub fn add(&mut self, path: FieldPath, say: impl Into<String>) {
        self.found.push(FieldFinding { path, say: say.into(), hint: None });
    }

    /// Notes something wrong and what is allowed.
    pub fn add_with(&mut self, path: FieldPath, say: impl Into<String>, hint: impl Into<String>) {
        self.found.push(FieldFinding { path, say: say.into(), hint: Some(hint.into()) });
    }

    /// Takes a value, or notes why there is none.
    pub fn take<T, E: fmt::Display>(&mut self, path: FieldPath, value: Result<T, E>) -> Option<T> {
        let hole = self.found.len();
        let read = value.map_err(|problem| self.add(path, problem.to_string())).ok();
        if read.is_none() {
            self.hole.get_or_insert(hole);
        }
        read
    }

    /// Everything found, in order.
    pub fn into_vec(self) -> Vec<FieldFinding> {
        self.found
    }

    /// The first value that could not be read at all: what it belongs to is not there.
    pub fn hole(&self) -> Option<&FieldFinding> {
        self.found.get(self.hole?)
    }
}
