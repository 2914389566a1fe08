//! The names of jobs, and of files beside them.

use std::{fmt, path::Path, str::FromStr};

use crate::{quantity::quoted, supply::RequestNumber};

/// A job's id: the file's name without its ending. Never a way out of the folder.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct JobId(String);

/// Why a text is not a job's id.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error(
    "\"{shown}\" cannot be a job's name: use letters, digits, - _ and ., up to 60, starting with a letter or digit"
)]
pub struct JobIdProblem {
    shown: String,
}

impl JobId {
    /// What the job in a file that a person named is called: the file's name without its ending. It is
    /// shown and leads nowhere: the store keeps the path as it was named.
    pub(super) fn of_named(file: &Path) -> Self {
        let name = file.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
        Self(name.strip_suffix(".job.ron").unwrap_or(&name).to_owned())
    }

    /// The id as text.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl FromStr for JobId {
    type Err = JobIdProblem;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let starts = text.starts_with(|c: char| c.is_ascii_alphanumeric());
        let plain = text.chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.'));
        if starts && plain && text.len() <= 60 && !text.contains("..") {
            Ok(Self(text.to_owned()))
        } else {
            Err(JobIdProblem { shown: quoted(text) })
        }
    }
}

impl fmt::Display for JobId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.0)
    }
}

/// A plain name in a folder: never a way out of it, never a hidden file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FileName(String);

/// Why a text is not a file's name.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("\"{shown}\" is not the name of a file: use letters, digits, - _ and .")]
pub struct FileNameProblem {
    shown: String,
}

impl FileName {
    /// The file of a request.
    pub fn of_request(number: &RequestNumber, revision: u32) -> Self {
        Self(format!("{number}-{revision}.request.ron"))
    }

    /// The file of a tool book; the name is of small letters, digits and hyphens.
    pub(super) fn of_book(name: &str) -> Self {
        Self(format!("{name}.ron"))
    }

    /// The name as text.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl FromStr for FileName {
    type Err = FileNameProblem;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let plain = |c: char| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.');
        match text.starts_with(|c: char| c.is_ascii_alphanumeric() || c == '-') && text.chars().all(plain) {
            true => Ok(Self(text.to_owned())),
            false => Err(FileNameProblem { shown: quoted(text) }),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_never_leads_out_of_the_folder() {
        for bad in ["", "..", "../x", "a/b", "a\\b", ".hidden", "a..b", "a\u{202e}b", "x y"] {
            assert!(bad.parse::<JobId>().is_err(), "{bad:?}");
        }
        assert_eq!("SC1.b-2".parse::<JobId>().unwrap().as_str(), "SC1.b-2");
    }

    #[test]
    fn a_name_leads_nowhere() {
        for bad in ["", "..", "../x", "a/b", "a\\b", ".x", "a\u{202e}b", "a b", "c:x"] {
            assert!(bad.parse::<FileName>().is_err(), "{bad:?}");
        }
        assert_eq!("ACDEFGHJ-1.request.ron".parse::<FileName>().unwrap().as_str(), "ACDEFGHJ-1.request.ron");
    }
}
