//! Repair leads: everything a desk has to know to make or order one without a phone call.

use super::{looks::looks_of, need::Need};
use crate::{
    catalogue::{PartNumber, Sealing, SizeName},
    job::{ItemId, JobHousing, Lead, LeadOrder, OtherEnd, State},
    quantity::{Gauge, Length},
    reckoning::LeadLength,
    record::InsulationClass,
    supply::{Article, LeadSpec, LeadWanted, Line, Looks, SpliceWanted, Substitute, UsePlace, Wanted},
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
    /// Its cavity.
    pub to: &'a UsePlace,
    /// The terminal named for it.
    pub part: Option<&'a PartNumber>,
}

/// The line of a repair lead, and that of its splice where it does not come with it.
pub(super) fn lead_lines(state: &State, wanted: &WantedLead<'_>) -> (Need, Option<Line>) {
    let WantedLead { lead, new, size, to, .. } = *wanted;
    let order = wanted.order.cloned().unwrap_or_default();
    let article = Article::Lead(LeadWanted {
        home: use_place(&lead.id),
        circuit: state.items.call_joined(lead),
        length_mm: wanted.length.map(|length| length.order_mm),
        gauge: order.gauge_for(lead).map(Gauge::both),
        sealed: new.housing().sealing == Sealing::Individual,
        spec: Some(Box::new(spec(state, wanted, &order))),
    });
    let asked = Line {
        used_for: vec![to.clone()],
        substitute: Substitute::AskFirst,
        ..Line::new(Wanted::Described { article, looks: Some(looks_of(new, size, Some(lead))) }, 1)
    };
    let need = Need { asked, leads: vec![lead.id.clone()], fitted: u32::from(wanted.is_made) };
    (need, splice_line(state, lead, &order))
}

/// What a part for a lead is used for, where the lead has no cavity on the new side: the cavity it came
/// from, else the lead.
pub(super) fn use_place(lead: &ItemId) -> UsePlace {
    match lead {
        ItemId::At(at) | ItemId::PlugBehind(at) => UsePlace::Cavity(at.clone()),
        ItemId::Loose(n) | ItemId::Stock(n) => UsePlace::Loose(*n),
    }
}

/// The splice and its sleeve, where they do not come with the lead.
fn splice_line(state: &State, lead: &Lead, order: &LeadOrder) -> Option<Line> {
    let splice = order.splice.as_ref().filter(|_| order.splice_included == Some(false))?;
    let article = Article::Splice(SpliceWanted {
        splice: splice.clone(),
        joins: joins(state, lead, order),
        sleeve_mm: order.sleeve.as_ref().map(Length::mm),
        sleeve_diameter_mm: order.sleeve_diameter.as_ref().map(Length::mm),
    });
    let looks = Looks {
        gauges: vec![order.gauge_for(lead).map_or("?".to_owned(), Gauge::both)],
        diameters: order.diameter_for(lead).map(Length::both).into_iter().collect(),
        fits: "the joint of a repair lead".to_owned(),
        sealing: "sealed".to_owned(),
        ..Looks::default()
    };
    let wanted = Wanted::Described { article, looks: Some(looks) };
    // How many is counted lead by lead.
    Some(Line { substitute: Substitute::AskFirst, ..Line::new(wanted, 0) })
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
    let home = use_place(&lead.id);
    let mut missing: Vec<String> = order.missing(lead, length.as_ref()).into_iter().map(Into::into).collect();
    if sealed && seal.is_none() {
        missing.push("a seal for the insulation's outside diameter".to_owned());
    }
    LeadSpec {
        cut_mm: length.map(|l| l.cut_mm),
        tolerance: "-0/+10 mm".to_owned(),
        measured: "from the terminal's crimp to the middle of the splice".to_owned(),
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
