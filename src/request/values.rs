//! Values of a request that stand as words in a file.

/// A day in a file.
pub(crate) mod day {
    use jiff::civil::Date;
    use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error};

    pub(crate) fn serialize<S: Serializer>(day: &Option<Date>, to: S) -> Result<S::Ok, S::Error> {
        day.map(|day| day.to_string()).serialize(to)
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Option<Date>, D::Error> {
        let text = Option::<String>::deserialize(from)?;
        text.map(|text| crate::quantity::day(&text)).transpose().map_err(D::Error::custom)
    }
}

/// A kind of part, or what may be given instead, by its words.
pub(super) mod words {
    use serde::{Deserialize, Deserializer, Serializer, de::Error};

    use crate::supply::{PartKind, Substitute};

    pub(in crate::request) trait Worded: Copy + 'static {
        const ALL: &'static [Self];
        fn word(self) -> &'static str;
    }

    impl Worded for PartKind {
        const ALL: &'static [Self] = &PartKind::ALL;
        fn word(self) -> &'static str {
            self.as_str()
        }
    }

    impl Worded for Substitute {
        const ALL: &'static [Self] = &[Self::None, Self::AskFirst];
        fn word(self) -> &'static str {
            self.as_str()
        }
    }

    pub(in crate::request) fn serialize<T: Worded, S: Serializer>(
        value: &T,
        to: S,
    ) -> Result<S::Ok, S::Error> {
        to.serialize_str(value.word())
    }

    pub(in crate::request) fn deserialize<'de, T: Worded, D: Deserializer<'de>>(
        from: D,
    ) -> Result<T, D::Error> {
        let word = std::borrow::Cow::<'de, str>::deserialize(from)?;
        let known = T::ALL.iter().copied().find(|value| value.word() == word);
        known.ok_or_else(|| {
            let words: Vec<&str> = T::ALL.iter().map(|value| value.word()).collect();
            D::Error::custom(format!("\"{word}\" is none of {}", words.join(", ")))
        })
    }
}
