//! What a line of a later revision says otherwise, as data.

use super::{Article, LeadSpec, LeadWanted, Line, Looks, Wanted};
use crate::catalogue::{Gender, PartNumber};

/// What is not as it was in the revision before.
#[derive(Debug, Clone, PartialEq)]
pub enum Change {
    /// There was no such line.
    NewLine,
    /// A field that said nothing says something.
    FirstSaid(&'static str),
    /// What a field said, other than now.
    Was(&'static str, Fact),
}

/// What a field says.
#[derive(Debug, Clone, PartialEq)]
pub enum Fact {
    /// It says nothing: the field is empty.
    Nothing,
    /// Words, a part number or a code.
    Text(String),
    /// A length in mm, an area in mm² or a count; which, the field tells.
    Number(f64),
    /// Yes or no.
    Yes(bool),
    /// Several words, in the order of the line.
    List(Vec<String>),
}

type Facts = Vec<(&'static str, Fact)>;

impl Line {
    /// What a later revision of this line says otherwise. Titles, colours and sentences are left aside:
    /// they say nothing of the part that its number, size or looks do not.
    pub(super) fn changes_to(&self, later: &Self) -> Vec<Change> {
        let mut changes = Vec::new();
        // How a repair lead looks follows from what is ordered; how a part looks, from its number.
        let looks = |line: &Self| line.wanted.looks().filter(|_| line.wanted.lead().is_none()).map(looks);
        if later.wanted.number().is_none() {
            compare_groups("describe", looks(self), looks(later), &mut changes);
        }
        compare(plain(self), plain(later), &mut changes);
        let spec = |line: &Self| {
            let lead = line.wanted.lead()?;
            Some(ordered(lead, lead.spec.as_deref()?))
        };
        compare_groups("lead", spec(self), spec(later), &mut changes);
        compare(amounts(self), amounts(later), &mut changes);
        changes
    }
}

/// A group of fields that one line has and the other has not is one change.
fn compare_groups(name: &'static str, old: Option<Facts>, new: Option<Facts>, changes: &mut Vec<Change>) {
    match (old, new) {
        (Some(old), Some(new)) => compare(old, new, changes),
        (None, Some(_)) => changes.push(Change::FirstSaid(name)),
        (Some(_) | None, None) => {}
    }
}

/// Both lists have the same fields in the same order.
fn compare(old: Facts, new: Facts, changes: &mut Vec<Change>) {
    for ((field, old), (_, new)) in old.into_iter().zip(new) {
        match old {
            old if old == new => {}
            Fact::Nothing => changes.push(Change::FirstSaid(field)),
            old => changes.push(Change::Was(field, old)),
        }
    }
}

impl From<&str> for Fact {
    fn from(text: &str) -> Self {
        if text.is_empty() { Self::Nothing } else { Self::Text(text.to_owned()) }
    }
}

impl From<&String> for Fact {
    fn from(text: &String) -> Self {
        text.as_str().into()
    }
}

impl From<f64> for Fact {
    fn from(number: f64) -> Self {
        Self::Number(number)
    }
}

impl From<u32> for Fact {
    fn from(number: u32) -> Self {
        Self::Number(f64::from(number))
    }
}

impl From<bool> for Fact {
    fn from(yes: bool) -> Self {
        Self::Yes(yes)
    }
}

impl<T: Into<Fact>> From<Option<T>> for Fact {
    fn from(said: Option<T>) -> Self {
        said.map_or(Self::Nothing, Into::into)
    }
}

impl From<&Vec<String>> for Fact {
    fn from(list: &Vec<String>) -> Self {
        Self::List(list.clone())
    }
}

fn plain(line: &Line) -> Facts {
    vec![
        ("essential", line.essential.into()),
        ("for", Fact::List(line.used_for.iter().map(ToString::to_string).collect())),
    ]
}

fn amounts(line: &Line) -> Facts {
    vec![
        ("need", line.amount.need.into()),
        ("pack", line.amount.pack.into()),
        ("part", line.wanted.number().map(PartNumber::as_str).into()),
        ("question", shut_out(&line.wanted)),
        ("read_from", line.wanted.read_from().as_ref().into()),
        ("spare", line.amount.spare.into()),
        ("substitute", line.substitute.as_str().into()),
        ("supplied_with", line.supplied_with.as_ref().map(PartNumber::as_str).into()),
    ]
}

fn shut_out(wanted: &Wanted) -> Fact {
    match wanted {
        Wanted::Part { article: Article::Housing { shut_out, .. }, .. } if !shut_out.is_empty() => {
            Fact::List(shut_out.iter().map(|shut| format!("{} in {}", shut.lead, shut.cavity)).collect())
        }
        Wanted::Part { .. } | Wanted::Described { .. } | Wanted::Told(_) => Fact::Nothing,
    }
}

fn looks(looks: &Looks) -> Facts {
    vec![
        ("colours", (&looks.colours).into()),
        ("diameters", (&looks.diameters).into()),
        ("fits", (&looks.fits).into()),
        ("gauges", (&looks.gauges).into()),
        ("gender", looks.gender.map(Gender::word).into()),
        ("place", (&looks.place).into()),
        ("sealing", (&looks.sealing).into()),
        ("size", looks.size.as_ref().into()),
    ]
}

/// What is ordered; how long it is cut follows from the length.
fn ordered(lead: &LeadWanted, spec: &LeadSpec) -> Facts {
    vec![
        ("area_mm2", spec.area_mm2.into()),
        ("cavity", Fact::Text(lead.home.to_string())),
        ("circuit", (&lead.circuit).into()),
        ("class", spec.class.as_ref().into()),
        ("colour", spec.colour.as_ref().into()),
        ("colour_words", spec.colour_words.as_ref().into()),
        ("crimp_record", spec.crimp_record.into()),
        ("fits", (&spec.fits).into()),
        ("gauge", lead.gauge.as_ref().into()),
        ("hand", spec.hand.as_ref().into()),
        ("insulation", spec.insulation.as_ref().into()),
        ("joins", (&spec.joins).into()),
        ("label", (&spec.label).into()),
        ("lay_mm", spec.lay_mm.into()),
        ("length_mm", lead.length_mm.into()),
        ("less_copper", spec.less_copper.as_ref().into()),
        ("measured", (&spec.measured).into()),
        ("missing", (&spec.missing).into()),
        ("other_colour", spec.other_colour.into()),
        ("other_end", spec.other_end.as_ref().into()),
        ("outside_diameter_mm", spec.outside_diameter_mm.into()),
        ("seal", spec.seal.as_ref().into()),
        ("seal_fitted", spec.seal_fitted.into()),
        ("shielded", spec.shielded.into()),
        ("sleeve_diameter_mm", spec.sleeve_diameter_mm.into()),
        ("sleeve_mm", spec.sleeve_mm.into()),
        ("splice", spec.splice.as_ref().into()),
        ("splice_included", spec.splice_included.into()),
        ("strands", spec.strands.as_ref().into()),
        ("terminal", spec.terminal.as_ref().into()),
        ("tolerance", (&spec.tolerance).into()),
        ("twisted_with", spec.twisted_with.as_ref().into()),
        ("wall", spec.wall.as_ref().into()),
    ]
}
