//! Repair leads: everything a desk has to know to make or order one without a phone call.

use super::{
    JobLine,
    build::{describe, line},
};
use crate::{
    catalogue::{PartNumber, Sealing, SizeName},
    job::{ItemId, JobHousing, Lead, LeadOrder, OtherEnd, State},
    quantity::{Gauge, Length},
    reckoning::LeadLength,
    record::InsulationClass,
    supply::{Describe, LeadSpec, Line, PartKind, Substitute},
};

/// A repair lead that is asked for.
pub(super) struct WantedLead<'a> {
    /// What it is for.
    pub lead: &'a Lead,
    /// What it has to be, as far as it was said.
    pub order: Option<&'a LeadOrder>,
    /// Whether it is made already.
    pub is_made: bool,
    /// How long it is, once its splice has a place.
    pub length: Option<LeadLength>,
    /// The housing it goes into.
    pub new: &'a JobHousing,
    /// The size of its cavity.
    pub size: Option<&'a SizeName>,
    /// Its cavity, in words.
    pub to: &'a str,
    /// The terminal named for it.
    pub part: Option<&'a PartNumber>,
}

/// The line of a repair lead, and that of its splice where it does not come with it.
pub(super) fn lead_lines(state: &State, wanted: &WantedLead<'_>) -> (JobLine, Option<Line>) {
    let WantedLead { lead, new, size, to, .. } = *wanted;
    let order = wanted.order.cloned().unwrap_or_default();
    let spec = spec(state, wanted, &order);
    let length = spec.length_mm.map_or("length not known yet".to_owned(), |mm| format!("{mm:.0} mm"));
    let gauge = spec.gauge.as_deref().unwrap_or("size not said");
    let with = if new.housing().sealing == Sealing::Individual { "terminal and seal" } else { "terminal" };
    let call = state.items.call_joined(lead);
    let description = format!("repair lead for {call}, {length}, {gauge}, with {with} fitted");
    let mut asked = line(PartKind::Lead, None, description, 1);
    asked.describe = Some(describe(new, size, Some(lead)));
    asked.for_cavities = vec![to.to_owned()];
    asked.substitute = Substitute::AskFirst;
    asked.lead = Some(spec);
    (JobLine { leads: vec![lead.id.clone()], ..JobLine::of(asked) }, splice_line(state, lead, &order))
}

/// The splice and its sleeve, where they do not come with the lead.
fn splice_line(state: &State, lead: &Lead, order: &LeadOrder) -> Option<Line> {
    let splice = order.splice.as_ref().filter(|_| order.splice_included == Some(false))?;
    let wire = order.gauge_for(lead).map_or("?".to_owned(), Gauge::both);
    let sleeve =
        sleeve_told(order.sleeve.as_ref().map(Length::mm), order.sleeve_diameter.as_ref().map(Length::mm));
    let description = format!(
        "splice with its sleeve, {}, sleeve {sleeve}: {splice} (added: every lead takes one)",
        joins(state, lead, order)
    );
    let mut asked = line(PartKind::Splice, None, description, 1);
    asked.describe = Some(Describe {
        gauges: vec![wire],
        diameters: order.diameter_for(lead).map(Length::both).into_iter().collect(),
        fits: "the joint of a repair lead".to_owned(),
        sealing: "sealed".to_owned(),
        ..Describe::default()
    });
    asked.substitute = Substitute::AskFirst;
    Some(asked)
}

fn spec(state: &State, wanted: &WantedLead<'_>, order: &LeadOrder) -> LeadSpec {
    let WantedLead { lead, length, new, size, to, part, .. } = *wanted;
    let gauge = order.gauge_for(lead);
    let colour = order.colour_for(lead);
    let first = lead.first_wire();
    let terminal = part.or(lead.planned_part.as_ref()).or_else(|| lead.terminal());
    let family = new.definition.family();
    let diameter = order.diameter_for(lead);
    let sealed = new.housing().sealing == Sealing::Individual;
    let seal = diameter.zip(size).and_then(|(d, size)| family.seal_for(size, d));
    let class = order.class_for(lead);
    let twisted = first.and_then(|wire| wire.twisted_with.as_ref());
    let home = match &lead.id {
        ItemId::At(at) => at.to_string(),
        id => id.to_string(),
    };
    let mut missing: Vec<String> = order.missing(lead, length.as_ref()).into_iter().map(Into::into).collect();
    if sealed && seal.is_none() {
        missing.push("a seal for the insulation's outside diameter".to_owned());
    }
    LeadSpec {
        length_mm: length.map(|l| l.order_mm),
        cut_mm: length.map(|l| l.cut_mm),
        tolerance: "-0/+10 mm".to_owned(),
        measured: "from the terminal's crimp to the middle of the splice".to_owned(),
        gauge: gauge.map(Gauge::both),
        area_mm2: gauge.map(Gauge::area_mm2),
        less_copper: state.less_copper(lead, order),
        strands: order.strands.clone(),
        colour: colour.map(ToString::to_string),
        colour_words: colour.map(|c| c.words()),
        other_colour: order.other_colour,
        insulation: order.insulation.clone(),
        class: class.map(class_told),
        wall: order.wall.map(|wall| wall.words().to_owned()),
        outside_diameter_mm: diameter.map(Length::mm),
        twisted_with: twisted.map(ToString::to_string),
        lay_mm: order.twist.as_ref().map(|twist| twist.lay.mm()),
        hand: order.twist.as_ref().map(|twist| match twist.hand {
            crate::job::Lay::Left => "left".to_owned(),
            crate::job::Lay::Right => "right".to_owned(),
        }),
        shielded: first.is_some_and(|wire| wire.shielded),
        terminal: terminal.map(ToString::to_string),
        fits: format!("cavity {to} of {}{}", new.housing().part, no_wire_seal(&new.housing().sealing)),
        seal: seal.map(|seal| seal.part.to_string()),
        seal_fitted: sealed,
        other_end: order.other_end.as_ref().map(other_end_told),
        splice: order.splice.clone(),
        joins: joins(state, lead, order),
        sleeve_mm: order.sleeve.as_ref().map(Length::mm),
        sleeve_diameter_mm: order.sleeve_diameter.as_ref().map(Length::mm),
        splice_included: order.splice_included,
        label: order.label.clone().unwrap_or_else(|| format!("{} {home}", state.items.call_joined(lead))),
        crimp_record: order.crimp_record,
        circuit: state.items.call_joined(lead),
        cavity: home,
        // What was made already misses nothing.
        missing: if wanted.is_made { Vec::new() } else { missing },
    }
}

/// Why a lead has no seal of its own.
fn no_wire_seal(sealing: &Sealing) -> &'static str {
    match sealing {
        Sealing::Individual => "",
        Sealing::Mat { .. } => " (mat seal: no seal on the wire)",
        Sealing::Unsealed => " (not sealed: no seal on the wire)",
    }
}

/// The wires a splice joins: the new lead, and every wire it goes on to.
fn joins(state: &State, lead: &Lead, order: &LeadOrder) -> String {
    let size = |gauge: Option<&Gauge>| gauge.map_or("size not known".to_owned(), Gauge::both);
    let other = lead.joined_with.as_ref().and_then(|with| state.items.lead(with));
    let wires = other.into_iter().chain([lead]).flat_map(Lead::wires_in);
    let on: Vec<String> = wires.map(|wire| size(wire.gauge.known())).collect();
    format!("{} to {}", size(order.gauge_for(lead)), on.join(" and "))
}

/// A length in both systems.
fn in_both(mm: f64) -> String {
    format!("{mm} mm ({:.2} in)", mm / 25.4)
}

/// A sleeve, in words.
fn sleeve_told(length_mm: Option<f64>, diameter_mm: Option<f64>) -> String {
    let long = length_mm.map_or("length MISSING".to_owned(), |mm| format!("{} long", in_both(mm)));
    match diameter_mm {
        Some(mm) => format!("{long}, {} over it", in_both(mm)),
        None => long,
    }
}

/// Classes with their temperature (from memory of the ISO 19642 series).
fn class_told(class: InsulationClass) -> String {
    let degrees = match class {
        InsulationClass::A => 85,
        InsulationClass::B => 100,
        InsulationClass::C => 125,
        InsulationClass::D => 150,
        InsulationClass::E => 175,
        InsulationClass::F => 200,
    };
    format!("{class:?} ({degrees} °C)")
}

fn other_end_told(end: &OtherEnd) -> String {
    match end {
        OtherEnd::Stripped(length) => format!("stripped {}", length.both()),
        OtherEnd::CutSquare => "cut square".to_owned(),
        OtherEnd::SpliceFitted => "splice fitted".to_owned(),
    }
}

impl LeadSpec {
    /// What the desk has to know, in sentences.
    pub fn in_words(&self) -> Vec<String> {
        let or_missing = |text: &Option<String>| text.clone().unwrap_or_else(|| "MISSING".to_owned());
        let yes_no = |yes: Option<bool>| match yes {
            Some(true) => "yes",
            Some(false) => "no",
            None => "MISSING",
        };
        let length =
            self.length_mm.map_or("MISSING".to_owned(), |mm| format!("{mm:.0} mm ({:.2} in)", mm / 25.4));
        let colour = self.colour.as_ref().zip(self.colour_words.as_ref());
        let colour = colour.map_or("MISSING".to_owned(), |(code, words)| format!("{code}, {words}"));
        let mut words = vec![
            format!("length {length} {}, {}", self.tolerance, self.measured),
            format!(
                "conductor {}, {}{}",
                or_missing(&self.gauge),
                or_missing(&self.strands),
                self.less_copper.as_ref().map_or(String::new(), |told| format!("; {told}"))
            ),
            format!("colour {colour}; another with labels: {}", yes_no(self.other_colour)),
            format!(
                "insulation {}, class {}, {}, outside diameter {}",
                or_missing(&self.insulation),
                or_missing(&self.class),
                self.wall.as_deref().unwrap_or("wall MISSING"),
                self.outside_diameter_mm.map_or("MISSING".to_owned(), in_both)
            ),
        ];
        if let Some(partner) = &self.twisted_with {
            let lay = self.lay_mm.map_or("MISSING".to_owned(), |mm| format!("{mm} mm"));
            words.push(format!(
                "twisted with the lead in {partner}, lay {lay}, {}",
                self.hand.as_deref().unwrap_or("hand MISSING")
            ));
        }
        if self.shielded {
            words.push("shielded, with its drain".to_owned());
        }
        let terminal = self.terminal.as_ref().map_or(String::new(), |part| format!("{part}, "));
        words.push(format!("terminal {terminal}fits {}", self.fits));
        if self.seal_fitted {
            words.push(format!("seal {}, fitted on the terminal side", or_missing(&self.seal)));
        }
        words.push(format!("other end {}", or_missing(&self.other_end)));
        words.push(format!(
            "splice and sleeve {}, joins {}, sleeve {}; included: {}",
            or_missing(&self.splice),
            self.joins,
            sleeve_told(self.sleeve_mm, self.sleeve_diameter_mm),
            yes_no(self.splice_included)
        ));
        words.push(format!(
            "label at both ends \"{}\"; crimp record with it: {}",
            self.label,
            yes_no(self.crimp_record)
        ));
        words.push(format!("goes to {}, recorded in {}", self.circuit, self.cavity));
        words
    }
}
