//! What was typed, and how it is read the same way everywhere.

use jiff::civil::Date;

use crate::quantity::{day, says_something};

use super::Stop;

/// What was typed, without the blanks around it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Typed<'a>(pub &'a str);

impl<'a> Typed<'a> {
    /// As it was typed.
    pub fn as_str(self) -> &'a str {
        self.0
    }

    /// In words of its own.
    pub fn words(self) -> String {
        self.0.to_owned()
    }

    /// Nothing where a dash stands for nothing, none or not known.
    pub fn unless_dash(self) -> Option<Self> {
        (self.0 != "-").then_some(self)
    }

    /// Whether what is on record, planned or said before stays.
    pub fn is_same(self) -> bool {
        self.0 == "="
    }

    /// As a value, or what is wrong with it.
    pub fn parse_or_wrong<T: std::str::FromStr>(self) -> Result<T, Stop>
    where
        T::Err: std::fmt::Display,
    {
        self.0.parse().map_err(|why: T::Err| Stop::wrong(why.to_string()))
    }

    /// An entry of a numbered list, from 1.
    pub fn of_list<T>(self, list: &[T]) -> Option<&T> {
        let number = self.0.parse::<usize>().ok()?;
        list.get(number.checked_sub(1)?)
    }

    /// The name of a person, which has to say something.
    pub fn name(self) -> Result<String, Stop> {
        match says_something(self.0) {
            true => Ok(self.words()),
            false => Err(Stop::wrong(format!("\"{}\" is no name: key it.", self.0))),
        }
    }

    /// A day as it is written everywhere.
    pub fn day(self) -> Result<Date, Stop> {
        day(self.0).map_err(|_| Stop::wrong("Key the day as 2026-12-01."))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_stands_for_nothing_for_the_same_and_for_an_entry_of_a_list_is_read_in_one_way() {
        assert_eq!((Typed("-").unless_dash(), Typed("5").unless_dash()), (None, Some(Typed("5"))));
        assert!(Typed("=").is_same() && !Typed("-").is_same());
        let list = ["a", "b"];
        assert_eq!((Typed("2").of_list(&list), Typed("0").of_list(&list)), (Some(&"b"), None));
        assert_eq!((Typed("3").of_list(&list), Typed("b").of_list(&list)), (None, None));
        assert!(Typed("12").parse_or_wrong::<u32>().is_ok());
        assert!(matches!(Typed("x").parse_or_wrong::<u32>(), Err(Stop::Wrong(_))));
    }
}
