//! What a line asks for, as an entry of the job keeps it: as data, so that no words are compared.

use super::super::{mirror::FormOf, mirror::form, mirror::read_field};
use crate::{
    catalogue::{FieldFinding, Gender, PartNumber},
    supply::{
        Article, Companion, LeadSpec, LeadWanted, Looks, ReadFrom, SealRange, SealUse, ShutOut, SpliceWanted,
        TerminalUse, Wanted,
    },
};

/// What a line asks for: the article, and for a part with a number where that was read.
#[derive(Debug, Clone, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct WhatForm {
    article: ArticleForm,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    read_from: Option<ReadFromForm>,
}

form! {
    #[derive(Debug, Clone, PartialEq)]
    enum ReadFromForm of ReadFrom {
        Definition(family: String),
        Bench {
            not_in: String,
        },
    }
}

form! {
    #[derive(Debug, Clone, PartialEq)]
    enum ArticleForm of Article {
        Housing {
            name: String,
            title: String,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            revision: Option<String>,
            #[serde(default, skip_serializing_if = "Vec::is_empty")]
            shut_out: Vec<ShutOutForm>,
        },
        SecondaryLock(part: CompanionForm),
        Assurance(part: CompanionForm),
        SmallPart(part: CompanionForm),
        Bridge {
            what: String,
            at: String,
        },
        Plug {
            housing: String,
            size: String,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            colour: Option<String>,
        },
        Terminal {
            #[serde(default, skip_serializing_if = "Option::is_none")]
            size: Option<String>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            plating: Option<String>,
            used: TerminalUseForm,
        },
        WireSeal {
            #[serde(default, skip_serializing_if = "Option::is_none")]
            size: Option<String>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            range: Option<SealRangeForm>,
            used: SealUseForm,
        },
        Lead(lead: LeadWantedForm),
        Splice(splice: SpliceForm),
    }
}

form! {
    #[derive(Debug, Clone, PartialEq)]
    struct ShutOutForm of ShutOut {
        lead: String,
        cavity: String,
    }
}

form! {
    #[derive(Debug, Clone, PartialEq)]
    struct CompanionForm of Companion {
        housing: String,
        of: String,
        name: String,
    }
}

form! {
    #[derive(Debug, Clone, PartialEq)]
    enum TerminalUseForm of TerminalUse {
        Wire,
        Samples,
        Unwired,
    }
}

form! {
    #[derive(Debug, Clone, PartialEq)]
    enum SealUseForm of SealUse {
        Itself,
        NewTerminal,
    }
}

form! {
    #[derive(Debug, Clone, PartialEq)]
    struct SealRangeForm of SealRange {
        least_mm: f64,
        most_mm: f64,
        colour: String,
    }
}

form! {
    #[derive(Debug, Clone, PartialEq)]
    struct SpliceForm of SpliceWanted {
        splice: String,
        joins: String,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        sleeve_mm: Option<f64>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        sleeve_diameter_mm: Option<f64>,
    }
}

/// Which repair lead; what else it has to be stands on the line itself.
#[derive(Debug, Clone, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct LeadWantedForm {
    home: String,
    circuit: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    length_mm: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    gauge: Option<String>,
    sealed: bool,
}

impl FormOf<LeadWanted> for LeadWantedForm {
    fn write(value: &LeadWanted) -> Self {
        let LeadWanted { home, circuit, length_mm, gauge, sealed, spec: _ } = value;
        Self {
            home: home.to_string(),
            circuit: circuit.clone(),
            length_mm: *length_mm,
            gauge: gauge.clone(),
            sealed: *sealed,
        }
    }

    fn read(self) -> Result<LeadWanted, FieldFinding> {
        let Self { home, circuit, length_mm, gauge, sealed } = self;
        Ok(LeadWanted { home: read_field("home", home)?, circuit, length_mm, gauge, sealed, spec: None })
    }
}

form! {
    #[derive(Debug, Clone, PartialEq)]
    pub(crate) struct LooksForm of Looks {
        size: Option<String>,
        gender: Option<String>,
        gauges: Vec<String>,
        colours: Vec<String>,
        diameters: Vec<String>,
        fits: String,
        sealing: String,
        place: String,
    }
}

impl FormOf<Gender> for String {
    fn write(value: &Gender) -> Self {
        value.word().to_owned()
    }

    fn read(self) -> Result<Gender, FieldFinding> {
        let known = Gender::ALL.into_iter().find(|gender| gender.word() == self);
        known.ok_or_else(|| FieldFinding::of(format!("\"{self}\" is neither male nor female")))
    }
}

impl WhatForm {
    /// What a line asks for; none of one that was kept in words already.
    pub(super) fn of(wanted: &Wanted) -> Option<Self> {
        match wanted {
            Wanted::Part { read_from, article, .. } => {
                let read_from = Some(ReadFromForm::write(read_from));
                Some(Self { article: ArticleForm::write(article), read_from })
            }
            Wanted::Described { article, .. } => {
                Some(Self { article: ArticleForm::write(article), read_from: None })
            }
            Wanted::Told(_) => None,
        }
    }

    /// What a line asks for, with what else stands on the line.
    pub(super) fn read(
        self,
        number: Option<PartNumber>,
        looks: Option<Looks>,
        spec: Option<LeadSpec>,
    ) -> Result<Wanted, FieldFinding> {
        let mut article: Article = read_field("article", self.article)?;
        if let Article::Lead(lead) = &mut article {
            lead.spec = spec.map(Box::new);
        }
        match (number, read_field("read_from", self.read_from)?) {
            (Some(number), Some(read_from)) => Ok(Wanted::Part { number, read_from, article }),
            (None, None) => Ok(Wanted::Described { article, looks }),
            (Some(_), None) | (None, Some(_)) => {
                Err(FieldFinding::of("a part number, and where it was read, go together"))
            }
        }
    }
}
