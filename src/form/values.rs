//! Values that stand as one text in a file, by the same spelling people type.

use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error};

use crate::{
    catalogue::PartNumber,
    colour::Colour,
    face::{Label, PosePlace},
    job::{Code, ItemId, ReadBack, Tag, TicketId, WireId},
    quantity::{Gauge, Length, Voltage},
    record::{Address, HousingName, Known},
};

/// Writes a type by its display and reads it by its parser.
macro_rules! as_text {
    ($($name:ty),* $(,)?) => {
        $(
            impl Serialize for $name {
                fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
                    to.collect_str(self)
                }
            }

            impl<'de> Deserialize<'de> for $name {
                fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
                    let text = std::borrow::Cow::<'de, str>::deserialize(from)?;
                    text.parse().map_err(D::Error::custom)
                }
            }
        )*
    };
}

as_text!(
    Address,
    Code,
    Colour,
    Gauge,
    HousingName,
    ItemId,
    Label,
    Length,
    PartNumber,
    PosePlace,
    ReadBack,
    Tag,
    TicketId,
    Voltage,
    WireId
);

/// A told value, or "?".
impl<T: std::fmt::Display> Serialize for Known<T> {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(self)
    }
}

impl<'de, T> Deserialize<'de> for Known<T>
where
    T: std::str::FromStr,
    T::Err: std::fmt::Display,
{
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let text = std::borrow::Cow::<'de, str>::deserialize(from)?;
        match text.trim() {
            "?" => Ok(Self::Unknown),
            text => text.parse().map(Self::Is).map_err(D::Error::custom),
        }
    }
}

/// Reads and writes a core type through the form that mirrors it.
macro_rules! mirrored {
    ($($name:ty as $form:ty),* $(,)?) => {
        $(
            impl serde::Serialize for $name {
                fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
                    <$form>::serialize(self, to)
                }
            }

            impl<'de> serde::Deserialize<'de> for $name {
                fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
                    <$form>::deserialize(from)
                }
            }
        )*
    };
}

pub(super) use mirrored;
