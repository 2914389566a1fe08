//! What a line asks for, as an entry of the job keeps it.

use serde::{Deserialize, Serialize};

use super::problem::RequestProblem;
use crate::{
    catalogue::PartNumber,
    quantity::TextProblem,
    record::AddressProblem,
    supply::{
        Article, Companion, LeadSpec, LeadWanted, Looks, ReadFrom, SealRange, SealUse, ShutOut, SpliceWanted,
        TerminalUse, Wanted,
    },
};

/// What a line asks for: the article, and for a part with a number where that was read.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct WhatForm {
    article: ArticleForm,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    read_from: Option<ReadFromForm>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
enum ReadFromForm {
    Definition(String),
    Bench { not_in: String },
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
enum ArticleForm {
    Housing {
        name: String,
        title: String,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        revision: Option<String>,
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        shut_out: Vec<(String, String)>,
    },
    SecondaryLock(CompanionForm),
    Assurance(CompanionForm),
    SmallPart(CompanionForm),
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
        range: Option<(f64, f64, String)>,
        used: SealUseForm,
    },
    Lead {
        home: String,
        circuit: String,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        length_mm: Option<f64>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        gauge: Option<String>,
        sealed: bool,
    },
    Splice {
        splice: String,
        joins: String,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        sleeve_mm: Option<f64>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        sleeve_diameter_mm: Option<f64>,
    },
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct CompanionForm {
    housing: String,
    of: String,
    name: String,
}

#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
enum TerminalUseForm {
    Wire,
    Samples,
    Unwired,
}

#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
enum SealUseForm {
    Itself,
    NewTerminal,
}

impl From<&Companion> for CompanionForm {
    fn from(part: &Companion) -> Self {
        Self { housing: part.housing.to_string(), of: part.of.to_string(), name: part.name.clone() }
    }
}

impl WhatForm {
    /// What a line asks for; none of one that was kept in words already.
    pub(super) fn of(wanted: &Wanted) -> Option<Self> {
        match wanted {
            Wanted::Part { read_from, article, .. } => {
                let read_from = match read_from {
                    ReadFrom::Definition(family) => ReadFromForm::Definition(family.to_string()),
                    ReadFrom::Bench { not_in } => ReadFromForm::Bench { not_in: not_in.to_string() },
                };
                Some(Self { article: article.into(), read_from: Some(read_from) })
            }
            Wanted::Described { article, .. } => Some(Self { article: article.into(), read_from: None }),
            Wanted::Told(_) => None,
        }
    }

    /// What a line asks for, with what else stands on the line.
    pub(super) fn read(
        self,
        line: u32,
        number: Option<PartNumber>,
        looks: Option<Looks>,
        spec: Option<LeadSpec>,
    ) -> Result<Wanted, RequestProblem> {
        let article = self.article.read(line, spec)?;
        let text = |why| RequestProblem::Text { line, why };
        let read_from = match self.read_from {
            Some(ReadFromForm::Definition(family)) => {
                Some(ReadFrom::Definition(family.parse().map_err(text)?))
            }
            Some(ReadFromForm::Bench { not_in }) => {
                Some(ReadFrom::Bench { not_in: not_in.parse().map_err(text)? })
            }
            None => None,
        };
        match (number, read_from) {
            (Some(number), Some(read_from)) => Ok(Wanted::Part { number, read_from, article }),
            (None, None) => Ok(Wanted::Described { article, looks }),
            (Some(_), None) | (None, Some(_)) => Err(RequestProblem::Unread { line }),
        }
    }
}

impl From<&Article> for ArticleForm {
    fn from(article: &Article) -> Self {
        let text = |value: &Option<crate::catalogue::SizeName>| value.as_ref().map(ToString::to_string);
        match article {
            Article::Housing { name, title, revision, shut_out } => Self::Housing {
                name: name.to_string(),
                title: title.clone(),
                revision: revision.clone(),
                shut_out: shut_out.iter().map(|shut| (shut.lead.clone(), shut.cavity.to_string())).collect(),
            },
            Article::SecondaryLock(part) => Self::SecondaryLock(part.into()),
            Article::Assurance(part) => Self::Assurance(part.into()),
            Article::SmallPart(part) => Self::SmallPart(part.into()),
            Article::Bridge { what, at } => Self::Bridge { what: what.clone(), at: at.to_string() },
            Article::Plug { housing, size, colour } => {
                Self::Plug { housing: housing.to_string(), size: size.to_string(), colour: colour.clone() }
            }
            Article::Terminal { size, plating, used } => Self::Terminal {
                size: text(size),
                plating: plating.clone(),
                used: match used {
                    TerminalUse::Wire => TerminalUseForm::Wire,
                    TerminalUse::Samples => TerminalUseForm::Samples,
                    TerminalUse::Unwired => TerminalUseForm::Unwired,
                },
            },
            Article::WireSeal { size, range, used } => Self::WireSeal {
                size: text(size),
                range: range.as_ref().map(|range| (range.least_mm, range.most_mm, range.colour.clone())),
                used: match used {
                    SealUse::Itself => SealUseForm::Itself,
                    SealUse::NewTerminal => SealUseForm::NewTerminal,
                },
            },
            Article::Lead(lead) => Self::Lead {
                home: lead.home.to_string(),
                circuit: lead.circuit.clone(),
                length_mm: lead.length_mm,
                gauge: lead.gauge.clone(),
                sealed: lead.sealed,
            },
            Article::Splice(splice) => Self::Splice {
                splice: splice.splice.clone(),
                joins: splice.joins.clone(),
                sleeve_mm: splice.sleeve_mm,
                sleeve_diameter_mm: splice.sleeve_diameter_mm,
            },
        }
    }
}

impl ArticleForm {
    fn read(self, line: u32, spec: Option<LeadSpec>) -> Result<Article, RequestProblem> {
        let text = |why: TextProblem| RequestProblem::Text { line, why };
        let address = |why: AddressProblem| RequestProblem::Address { line, why };
        let companion = |form: CompanionForm| -> Result<Companion, RequestProblem> {
            Ok(Companion {
                housing: form.housing.parse().map_err(text)?,
                of: form.of.parse().map_err(text)?,
                name: form.name,
            })
        };
        let sized = |size: Option<String>| size.map(|size| size.parse()).transpose().map_err(text);
        Ok(match self {
            Self::Housing { name, title, revision, shut_out } => {
                let shut =
                    shut_out.into_iter().map(|(lead, cavity)| Ok(ShutOut { lead, cavity: cavity.parse()? }));
                let shut_out = shut.collect::<Result<_, _>>().map_err(text)?;
                Article::Housing { name: name.parse().map_err(text)?, title, revision, shut_out }
            }
            Self::SecondaryLock(part) => Article::SecondaryLock(companion(part)?),
            Self::Assurance(part) => Article::Assurance(companion(part)?),
            Self::SmallPart(part) => Article::SmallPart(companion(part)?),
            Self::Bridge { what, at } => Article::Bridge { what, at: at.parse().map_err(address)? },
            Self::Plug { housing, size, colour } => Article::Plug {
                housing: housing.parse().map_err(text)?,
                size: size.parse().map_err(text)?,
                colour,
            },
            Self::Terminal { size, plating, used } => {
                Article::Terminal { size: sized(size)?, plating, used: used.into() }
            }
            Self::WireSeal { size, range, used } => {
                let range = range.map(|(least_mm, most_mm, colour)| SealRange { least_mm, most_mm, colour });
                Article::WireSeal { size: sized(size)?, range, used: used.into() }
            }
            Self::Lead { home, circuit, length_mm, gauge, sealed } => Article::Lead(LeadWanted {
                home: home.parse().map_err(address)?,
                circuit,
                length_mm,
                gauge,
                sealed,
                spec: spec.map(Box::new),
            }),
            Self::Splice { splice, joins, sleeve_mm, sleeve_diameter_mm } => {
                Article::Splice(SpliceWanted { splice, joins, sleeve_mm, sleeve_diameter_mm })
            }
        })
    }
}

impl From<TerminalUseForm> for TerminalUse {
    fn from(form: TerminalUseForm) -> Self {
        match form {
            TerminalUseForm::Wire => Self::Wire,
            TerminalUseForm::Samples => Self::Samples,
            TerminalUseForm::Unwired => Self::Unwired,
        }
    }
}

impl From<SealUseForm> for SealUse {
    fn from(form: SealUseForm) -> Self {
        match form {
            SealUseForm::Itself => Self::Itself,
            SealUseForm::NewTerminal => Self::NewTerminal,
        }
    }
}
