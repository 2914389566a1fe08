//! What items are known by, and the tags tied to them.

use std::{fmt, str::FromStr};

use crate::{
    quantity::{TextProblem, plain_text},
    record::Address,
};

/// The text on a tag tied to a lead.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Tag(String);

impl FromStr for Tag {
    type Err = TextProblem;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        plain_text("tag", text, 24).map(Self)
    }
}

impl fmt::Display for Tag {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.0)
    }
}

/// What an item is known by: where it was recorded, or how it came in.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ItemId {
    /// What was recorded (or delivered) in this cavity.
    At(Address),
    /// The plug behind a spare terminal recorded in this cavity: `old:11/plug`.
    PlugBehind(Address),
    /// A lead met later: `loose/1`.
    Loose(u32),
    /// A plug taken from stock: `stock/1`.
    Stock(u32),
}

impl fmt::Display for ItemId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::At(address) => address.fmt(f),
            Self::PlugBehind(address) => write!(f, "{address}/plug"),
            Self::Loose(n) => write!(f, "loose/{n}"),
            Self::Stock(n) => write!(f, "stock/{n}"),
        }
    }
}

impl FromStr for ItemId {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let number = |n: &str| n.parse().map_err(|_| format!("\"{text}\" has no number after the stroke"));
        match text.split_once('/') {
            Some(("loose", n)) => number(n).map(Self::Loose),
            Some(("stock", n)) => number(n).map(Self::Stock),
            Some((address, "plug")) => address
                .parse()
                .map(Self::PlugBehind)
                .map_err(|e: crate::record::AddressProblem| e.to_string()),
            _ => text.parse().map(Self::At).map_err(|e: crate::record::AddressProblem| e.to_string()),
        }
    }
}

/// One wire of a lead: `old:11/2`, or the only one: `old:11`.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct WireId {
    /// The lead.
    pub lead: ItemId,
    /// Its place in the lead, from 1; none when the whole lead is meant.
    pub wire: Option<usize>,
}

impl fmt::Display for WireId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.wire {
            Some(wire) => write!(f, "{}/{wire}", self.lead),
            None => self.lead.fmt(f),
        }
    }
}

impl FromStr for WireId {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        if let Some((lead, wire)) = text.rsplit_once('/')
            && lead.contains(':')
            && let Ok(wire) = wire.parse::<usize>()
            && wire > 0
        {
            return Ok(Self { lead: lead.parse()?, wire: Some(wire) });
        }
        Ok(Self { lead: text.parse()?, wire: None })
    }
}
