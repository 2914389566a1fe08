//! From the form of a request back to its lines: what an entry of the job kept is what was asked.

use super::form::{DescribeForm, LeadForm, LineForm};
use crate::{
    catalogue::Gender,
    supply::{Describe, LeadSpec, Line},
};

impl From<LineForm> for Line {
    fn from(form: LineForm) -> Self {
        Self {
            line: form.line,
            kind: form.kind,
            part: form.part,
            read_from: form.read_from,
            description: form.description,
            describe: form.describe.map(Into::into),
            need: form.need,
            spare: form.spare,
            pack: form.pack,
            for_cavities: form.for_cavities,
            essential: form.essential,
            substitute: form.substitute,
            supplied_with: form.supplied_with,
            lead: form.lead.map(Into::into),
        }
    }
}

impl From<DescribeForm> for Describe {
    fn from(form: DescribeForm) -> Self {
        let gender = |word: String| Gender::ALL.into_iter().find(|gender| gender.word() == word);
        Self {
            size: form.size,
            gender: form.gender.and_then(gender),
            gauges: form.gauges,
            colours: form.colours,
            diameters: form.diameters,
            fits: form.fits,
            sealing: form.sealing,
            place: form.place,
        }
    }
}

impl From<LeadForm> for LeadSpec {
    fn from(form: LeadForm) -> Self {
        Self {
            length_mm: form.length_mm,
            cut_mm: form.cut_mm,
            tolerance: form.tolerance,
            measured: form.measured,
            gauge: form.gauge,
            area_mm2: form.area_mm2,
            less_copper: form.less_copper,
            strands: form.strands,
            colour: form.colour,
            colour_words: form.colour_words,
            other_colour: form.other_colour,
            insulation: form.insulation,
            class: form.class,
            wall: form.wall,
            outside_diameter_mm: form.outside_diameter_mm,
            twisted_with: form.twisted_with,
            lay_mm: form.lay_mm,
            hand: form.hand,
            shielded: form.shielded,
            terminal: form.terminal,
            fits: form.fits,
            seal: form.seal,
            seal_fitted: form.seal_fitted,
            other_end: form.other_end,
            splice: form.splice,
            joins: form.joins.unwrap_or_default(),
            sleeve_mm: form.sleeve_mm,
            sleeve_diameter_mm: form.sleeve_diameter_mm,
            splice_included: form.splice_included,
            label: form.label,
            crimp_record: form.crimp_record,
            circuit: form.circuit,
            cavity: form.cavity,
            missing: form.missing,
        }
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
