//! Request numbers: eight characters from the job's random id, without those that are mixed up when
//! read aloud.

use sha2::{Digest, Sha256};

const ALPHABET: &[u8] = b"ACDEFGHJKLMNPQRTUVWXYZ234679";

/// The number of a job's request: the same job, the same number, on every machine.
pub fn number_of(job: &str) -> String {
    let digest = Sha256::digest(job.as_bytes());
    let letter = |byte: &u8| ALPHABET.get(usize::from(*byte) % ALPHABET.len()).copied().unwrap_or(b'A');
    digest.iter().take(8).map(|byte| char::from(letter(byte))).collect()
}

/// Whether a text can be the number of a request.
pub fn is_number(text: &str) -> bool {
    text.len() == 8 && text.bytes().all(|byte| ALPHABET.contains(&byte))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_is_eight_plain_characters_and_hangs_on_the_job_alone() {
        assert_eq!(number_of("sc1"), number_of("sc1"));
        assert_ne!(number_of("sc1"), number_of("sc2"));
        for n in 0..200 {
            let number = number_of(&format!("job-{n}"));
            assert_eq!(number.len(), 8);
            assert!(!number.contains(['B', 'I', 'O', 'S', '0', '1', '5', '8']), "{number}");
            assert!(is_number(&number));
        }
        for text in ["", "../secre", "ACDEFGHI", "ACDEFGH", "ACDEFGHJJ", "acdefghj"] {
            assert!(!is_number(text), "{text}");
        }
    }
}
