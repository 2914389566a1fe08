//! What speaks of a danger: wires and clips on record, circuits, sleeves and voltages told at any gate. It
//! is held against every gate that is answered as absent.

use super::{Act, GateKind, RecordSide, gates::is_high, sign::Sign, state::State};
use crate::{
    colour::{self, named_in},
    job::Records,
    quantity::plain_words,
    record::{Address, CavityContent, WireKind},
};

impl GateKind {
    /// The kind of wire it is about.
    fn wire(self) -> Option<WireKind> {
        match self {
            Self::Restraint => Some(WireKind::Restraint),
            Self::HighVoltage => Some(WireKind::HighVoltage),
            Self::Interlock => Some(WireKind::Interlock),
            Self::Battery | Self::StoredEnergy => None,
        }
    }

    /// Words of a circuit that speak of it.
    fn words_of_it(self) -> &'static [&'static str] {
        match self {
            Self::Restraint => &[
                "airbag",
                "airbags",
                "air bag",
                "air bags",
                "squib",
                "restraint",
                "tensioner",
                "pretensioner",
                "inflator",
            ],
            Self::HighVoltage => &["high voltage"],
            Self::Interlock => &["interlock", "interlocks", "shorting clip", "steering"],
            Self::Battery | Self::StoredEnergy => &[],
        }
    }

    /// The colour of a sleeve or cover that speaks of it.
    fn colour(self) -> Option<colour::ColourCode> {
        match self {
            Self::Restraint => Some(colour::ColourCode::YE),
            Self::HighVoltage => Some(colour::ColourCode::OG),
            Self::Interlock | Self::Battery | Self::StoredEnergy => None,
        }
    }
}

impl State {
    /// What speaks of a gate's subject: a wire on either record, the colour of a sleeve,
    /// the voltage of the diagram; said at whichever gate, or in `act`, which is about to be entered.
    pub fn sign_of(&self, gate: GateKind, act: Option<&Act>) -> Option<Sign> {
        let wanted = gate.wire()?;
        let records = [(RecordSide::Found, &self.records.found), (RecordSide::Should, &self.records.should)];
        let wires = records.into_iter().flat_map(|(side, record)| {
            let leads = record.iter().filter_map(|(at, holds)| Some((at, holds.lead()?)));
            leads.flat_map(move |(at, lead)| lead.wires.iter().map(move |wire| (at, wire, side)))
        });
        let mut wires = wires.filter(|(_, wire, _)| wire.kind == wanted);
        if let Some((at, wire, record)) = wires.next() {
            let name = wire.name().map(ToOwned::to_owned);
            return Some(Sign::Wire { name, at: at.clone(), record, kind: wanted });
        }
        if let Some((at, what)) = self.records.clip_on_record().filter(|_| gate == GateKind::Interlock) {
            return Some(Sign::Clip { what: what.to_owned(), at: at.clone() });
        }
        // What is told anew at the gate that is answered now stands for what was told there before.
        let anew = match act {
            Some(Act::Gate { gate, circuit, sleeve, voltage, .. }) => {
                Some((*gate, circuit.as_deref(), sleeve.as_deref(), voltage.as_ref()))
            }
            _ => None,
        };
        let is_old =
            |other: GateKind, told_anew: bool| !(told_anew && anew.is_some_and(|(g, ..)| g == other));
        let new_circuit = anew.and_then(|(_, circuit, ..)| circuit);
        let new_sleeve = anew.and_then(|(_, _, sleeve, _)| sleeve);
        let new_voltage = anew.and_then(|(.., voltage)| voltage);
        let (mut circuits, mut sleeves, mut voltages) =
            (Vec::from_iter(new_circuit), Vec::from_iter(new_sleeve), Vec::from_iter(new_voltage));
        for (other, seen) in &self.course.gates {
            circuits.extend(seen.circuit.as_deref().filter(|_| is_old(*other, new_circuit.is_some())));
            sleeves.extend(seen.sleeve.as_deref().filter(|_| is_old(*other, new_sleeve.is_some())));
            voltages.extend(seen.voltage.as_ref().filter(|_| is_old(*other, new_voltage.is_some())));
        }
        let names_it = |circuit: &&str| {
            let plain = format!(" {} ", plain_words(circuit));
            gate.words_of_it().iter().any(|word| plain.contains(&format!(" {word} ")))
        };
        if let Some(circuit) = circuits.into_iter().find(names_it) {
            return Some(Sign::Circuit(circuit.to_owned()));
        }
        let shown = gate.colour().and_then(|colour| {
            let sleeve = sleeves.into_iter().find(|sleeve| named_in(sleeve).has(colour))?;
            Some(Sign::Sleeve((*sleeve).to_owned()))
        });
        let high = voltages.into_iter().find(|voltage| gate == GateKind::HighVoltage && is_high(voltage));
        shown.or_else(|| high.map(|voltage| Sign::Voltage(voltage.clone())))
    }
}

impl Records {
    /// A shorting clip of the records: it closes a loop that somebody relies on.
    fn clip_on_record(&self) -> Option<(&Address, &str)> {
        self.found.iter().chain(&self.should).find_map(|(at, holds)| match holds {
            CavityContent::Bridge(what) if plain_words(what).contains("shorting") => {
                Some((at, what.as_str()))
            }
            _ => None,
        })
    }
}
