//! Which line is which: by the part, else by what the part is for and looks like. Never by a
//! sentence, a title or a colour.

use super::{
    Article, Companion, LeadWanted, Line, Looks, PartKind, ReadFrom, SealUse, SpliceWanted, TerminalUse,
    ToldLine, UsePlace, Wanted,
};
use crate::{
    catalogue::SizeName,
    record::{Address, HousingName},
};

/// What tells the part of a line from that of every other line, its number left aside.
#[derive(PartialEq)]
enum Role<'a> {
    Housing {
        name: &'a HousingName,
        revision: &'a Option<String>,
    },
    SecondaryLock(&'a HousingName),
    Assurance(&'a HousingName),
    /// The name of a small part is unique within its housing.
    SmallPart(&'a HousingName, &'a str),
    Bridge(&'a Address, &'a str),
    Plug(&'a HousingName, &'a SizeName),
    Terminal(TerminalUse, &'a Option<SizeName>),
    WireSeal(SealUse, &'a Option<SizeName>),
    Lead(&'a UsePlace),
    Splice(&'a SpliceWanted),
}

impl Article {
    fn role(&self) -> Role<'_> {
        match self {
            Self::Housing { name, revision, .. } => Role::Housing { name, revision },
            Self::SecondaryLock(Companion { housing, .. }) => Role::SecondaryLock(housing),
            Self::Assurance(Companion { housing, .. }) => Role::Assurance(housing),
            Self::SmallPart(Companion { housing, name, .. }) => Role::SmallPart(housing, name),
            Self::Bridge { what, at } => Role::Bridge(at, what),
            Self::Plug { housing, size, .. } => Role::Plug(housing, size),
            Self::Terminal { size, used, .. } => Role::Terminal(*used, size),
            Self::WireSeal { size, used, .. } => Role::WireSeal(*used, size),
            Self::Lead(lead) => Role::Lead(&lead.home),
            Self::Splice(splice) => Role::Splice(splice),
        }
    }

    /// Whether a part of this kind is for one housing, cavity or wire, so that its looks add nothing.
    fn is_for_one_place(&self) -> bool {
        match self {
            Self::Housing { .. }
            | Self::SecondaryLock(_)
            | Self::Assurance(_)
            | Self::SmallPart(_)
            | Self::Bridge { .. }
            | Self::Plug { .. }
            | Self::Lead(_) => true,
            Self::Terminal { .. } | Self::WireSeal { .. } | Self::Splice(_) => false,
        }
    }
}

impl Line {
    /// Whether another line asks for the same part for the same use.
    pub fn is_same(&self, other: &Self) -> bool {
        match (&self.wanted, &other.wanted) {
            (
                Wanted::Part { number, read_from, article },
                Wanted::Part { number: other_number, read_from: other_from, article: other },
            ) => {
                number.is_same(other_number.as_str())
                    && match (article, other) {
                        // A seal of the family has one size, whatever cavity it is for.
                        (Article::WireSeal { used, .. }, Article::WireSeal { used: other_used, .. })
                            if is_defined(read_from) && is_defined(other_from) =>
                        {
                            used == other_used
                        }
                        _ => {
                            article.role() == other.role() && is_defined(read_from) == is_defined(other_from)
                        }
                    }
            }
            (
                Wanted::Described { article, looks },
                Wanted::Described { article: other, looks: other_looks },
            ) => {
                article.role() == other.role()
                    && (article.is_for_one_place() || is_like(looks.as_ref(), other_looks.as_ref()))
            }
            (Wanted::Told(told), Wanted::Told(_) | Wanted::Part { .. } | Wanted::Described { .. }) => {
                told.is_told_of(self, other)
            }
            (Wanted::Part { .. }, Wanted::Described { .. } | Wanted::Told(_))
            | (Wanted::Described { .. }, Wanted::Part { .. } | Wanted::Told(_)) => false,
        }
    }

    /// Whether a later line is this one, whose part got its number since.
    pub(super) fn is_identified_by(&self, later: &Self) -> bool {
        match (&self.wanted, &later.wanted) {
            (Wanted::Described { article, .. }, Wanted::Part { article: named, .. }) => {
                article.role() == named.role()
                    && (article.is_for_one_place()
                        || self.used_for.iter().any(|place| later.used_for.contains(place)))
            }
            (Wanted::Described { .. } | Wanted::Part { .. } | Wanted::Told(_), _) => false,
        }
    }

    /// Whether it asks for sample terminals.
    fn is_for_samples(&self) -> bool {
        match &self.wanted {
            Wanted::Part { article, .. } | Wanted::Described { article, .. } => {
                matches!(article, Article::Terminal { used: TerminalUse::Samples, .. })
            }
            // Nothing else that was needed was not essential.
            Wanted::Told(told) => told.kind == PartKind::Terminal && !self.essential && !self.is_gone(),
        }
    }
}

fn is_defined(read_from: &ReadFrom) -> bool {
    match read_from {
        ReadFrom::Definition(_) => true,
        ReadFrom::Bench { .. } => false,
    }
}

/// Whether two parts look alike; a line that is gone does not say any more how its part looked.
fn is_like(one: Option<&Looks>, other: Option<&Looks>) -> bool {
    one.zip(other).is_none_or(|(one, other)| one == other)
}

impl ToldLine {
    /// What an earlier version kept in words is held by what else it kept: kind, number, wire, size.
    fn is_told_of(&self, own: &Line, other: &Line) -> bool {
        let same_part = match (&self.part, other.wanted.number()) {
            (Some(one), Some(other)) => one.is_same(other.as_str()),
            (None, None) => true,
            (Some(_), None) | (None, Some(_)) => false,
        };
        let home = |lead: Option<&LeadWanted>| lead.map(|lead| lead.home.clone());
        let size = |looks: Option<&Looks>| looks.and_then(|looks| looks.size.clone());
        let sizes = size(self.looks.as_ref()).zip(size(other.wanted.looks()));
        self.kind == other.kind()
            && same_part
            && home(self.lead.as_ref()) == home(other.wanted.lead())
            && own.is_for_samples() == other.is_for_samples()
            && sizes.is_none_or(|(one, other)| one == other)
    }
}
