//! Request numbers: eight characters from the job's random id, without those that are mixed up when
//! read aloud.

use std::{fmt, str::FromStr};

use sha2::{Digest, Sha256};

use crate::quantity::quoted;

const ALPHABET: &[u8] = b"ACDEFGHJKLMNPQRTUVWXYZ234679";

/// The number of a request: eight characters of the alphabet and nothing else, so that the name of a
/// file can be made of it.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct RequestNumber(String);

/// Why a text is not the number of a request.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("\"{shown}\" is not the number of a request")]
pub struct RequestNumberProblem {
    shown: String,
}

impl RequestNumber {
    /// The number of a job's request: the same job, the same number, on every machine.
    pub fn of_job(job: &str) -> Self {
        let digest = Sha256::digest(job.as_bytes());
        let letter = |byte: &u8| ALPHABET.get(usize::from(*byte) % ALPHABET.len()).copied().unwrap_or(b'A');
        Self(digest.iter().take(8).map(|byte| char::from(letter(byte))).collect())
    }

    /// The number as text.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl FromStr for RequestNumber {
    type Err = RequestNumberProblem;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        match text.len() == 8 && text.bytes().all(|byte| ALPHABET.contains(&byte)) {
            true => Ok(Self(text.to_owned())),
            false => Err(RequestNumberProblem { shown: quoted(text) }),
        }
    }
}

impl fmt::Display for RequestNumber {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_is_eight_plain_characters_and_hangs_on_the_job_alone() {
        assert_eq!(RequestNumber::of_job("sc1"), RequestNumber::of_job("sc1"));
        assert_ne!(RequestNumber::of_job("sc1"), RequestNumber::of_job("sc2"));
        for n in 0..200 {
            let number = RequestNumber::of_job(&format!("job-{n}"));
            let number = number.as_str();
            assert_eq!(number.len(), 8);
            assert!(!number.contains(['B', 'I', 'O', 'S', '0', '1', '5', '8']), "{number}");
            assert_eq!(number.parse::<RequestNumber>().unwrap().as_str(), number);
        }
        for text in ["", "../secre", "ACDEFGHI", "ACDEFGH", "ACDEFGHJJ", "acdefghj"] {
            assert!(text.parse::<RequestNumber>().is_err(), "{text}");
        }
    }
}
