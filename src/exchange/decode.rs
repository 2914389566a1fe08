//! Bytes to text: UTF-8, with or without a mark, UTF-16 with one, else Windows-1252, which every
//! byte fits.

use encoding_rs::{UTF_16BE, UTF_16LE, WINDOWS_1252};

/// The text, and what was taken for granted about it.
pub(super) fn decode(bytes: &[u8]) -> (String, Option<String>) {
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let marked = [(&b"\xff\xfe"[..], UTF_16LE), (&b"\xfe\xff"[..], UTF_16BE)];
    if let Some((_, encoding)) = marked.iter().find(|(mark, _)| bytes.starts_with(mark)) {
        return (
            encoding.decode(bytes).0.into_owned(),
            Some(format!("the file is read as {}", encoding.name())),
        );
    }
    match std::str::from_utf8(bytes) {
        Ok(text) => (text.to_owned(), None),
        Err(_) => {
            let (text, ..) = WINDOWS_1252.decode(bytes);
            (text.into_owned(), Some("the file is not UTF-8 and is read as Windows-1252".to_owned()))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_and_encodings_are_understood_and_said() {
        assert_eq!(decode("\u{feff}Kammer;Farbe".as_bytes()), ("Kammer;Farbe".to_owned(), None));
        let (text, said) = decode(b"Kavit\xe4t;Querschnitt mm\xb2");
        assert_eq!(text, "Kavität;Querschnitt mm²");
        assert!(said.unwrap().contains("Windows-1252"));
        let utf16: Vec<u8> = "\u{feff}1;RD".encode_utf16().flat_map(u16::to_le_bytes).collect();
        assert_eq!(decode(&utf16).0, "1;RD");
    }
}
