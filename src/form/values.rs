//! Values that stand as one text in a file, by the same spelling people type.

use jiff::civil::Date;
use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error};

use super::mirror::FormOf;
use crate::{
    catalogue::{FamilyId, FieldFinding, PartNumber, SizeName},
    colour::Colour,
    face::{Label, PosePlace},
    job::{CavityMap, Code, ItemId, ReadBack, Tag, TicketId, WireId},
    quantity::{Gauge, Length, Voltage, day},
    record::{Address, HousingName, Known},
    supply::{PartKind, RequestNumber, Substitute, Urgency, UsePlace},
};

/// Writes a type by its display and reads it by its parser.
macro_rules! as_text {
    ($($name:ty),* $(,)?) => {
        $(
            impl FormOf<$name> for String {
                fn write(value: &$name) -> Self {
                    value.to_string()
                }

                fn read(self) -> Result<$name, FieldFinding> {
                    self.parse().map_err(FieldFinding::of)
                }
            }
        )*
    };
}

as_text!(
    Address,
    Code,
    Colour,
    FamilyId,
    HousingName,
    ItemId,
    Label,
    PartNumber,
    PosePlace,
    ReadBack,
    RequestNumber,
    SizeName,
    Tag,
    TicketId,
    UsePlace,
    WireId
);

/// Writes a quantity with its value, and reads that; what people write themselves is read as typed.
macro_rules! as_quantity {
    ($($name:ty),* $(,)?) => {
        $(
            impl FormOf<$name> for String {
                fn write(value: &$name) -> Self {
                    value.kept()
                }

                fn read(self) -> Result<$name, FieldFinding> {
                    <$name>::of_kept(&self).map_or_else(|| self.parse().map_err(FieldFinding::of), Ok)
                }
            }
        )*
    };
}

as_quantity!(Gauge, Length, Voltage);

/// A day has one spelling in files.
impl FormOf<Date> for String {
    fn write(value: &Date) -> Self {
        value.to_string()
    }

    fn read(self) -> Result<Date, FieldFinding> {
        day(&self).map_err(FieldFinding::of)
    }
}

/// Words of the bench's own are taken as they are.
impl FormOf<Urgency> for String {
    fn write(value: &Urgency) -> Self {
        value.to_string()
    }

    fn read(self) -> Result<Urgency, FieldFinding> {
        Ok(Urgency::from(self.as_str()))
    }
}

/// A map: each old cavity with its new one, or with none.
impl FormOf<CavityMap> for Vec<(String, Option<String>)> {
    fn write(value: &CavityMap) -> Self {
        value.iter().map(|(from, to)| (from.to_string(), FormOf::write(to))).collect()
    }

    fn read(self) -> Result<CavityMap, FieldFinding> {
        let pairs: Vec<(Address, Option<Address>)> = FormOf::read(self)?;
        Ok(pairs.into_iter().collect())
    }
}

/// A told value, or "?".
impl<T> FormOf<Known<T>> for String
where
    String: FormOf<T>,
{
    fn write(value: &Known<T>) -> Self {
        match value {
            Known::Unknown => "?".to_owned(),
            Known::Is(value) => FormOf::write(value),
        }
    }

    fn read(self) -> Result<Known<T>, FieldFinding> {
        match self.trim() {
            "?" => Ok(Known::Unknown),
            text => text.to_owned().read().map(Known::Is),
        }
    }
}

/// Writes a choice by its word, which need not be one that RON takes as a name.
macro_rules! by_word {
    ($($name:ty: [$($choice:expr),*];)*) => {
        $(
            impl FormOf<$name> for String {
                fn write(value: &$name) -> Self {
                    value.as_str().to_owned()
                }

                fn read(self) -> Result<$name, FieldFinding> {
                    let all = [$($choice),*].concat();
                    let known = all.iter().copied().find(|choice| choice.as_str() == self);
                    known.ok_or_else(|| {
                        let words: Vec<&str> = all.iter().map(|choice| choice.as_str()).collect();
                        FieldFinding::of(format!("\"{self}\" is none of {}", words.join(", ")))
                    })
                }
            }
        )*
    };
}

by_word! {
    PartKind: [PartKind::ALL];
    Substitute: [[Substitute::None, Substitute::AskFirst]];
}

/// A length as a number of millimetres.
pub(super) struct Millimetres(Length);

impl FormOf<Length> for Millimetres {
    fn write(value: &Length) -> Self {
        Self(value.clone())
    }

    fn read(self) -> Result<Length, FieldFinding> {
        Ok(self.0)
    }
}

impl Serialize for Millimetres {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_f64(self.0.mm())
    }
}

impl<'de> Deserialize<'de> for Millimetres {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let mm = f64::deserialize(from)?;
        mm.to_string().parse().map(Self).map_err(D::Error::custom)
    }
}
