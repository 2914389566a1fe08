//! Gates: the safety questions that stop the job. No `anyway`, no default answer; a name each time, a
//! document where one is needed, and a measured zero or a state where something may be live.

use super::{
    Act, EnergyKind, GateAnswer, GateKind, Measured, Refusal,
    refusal::{GateRule, ReleaseRule},
    seen::GateSeen,
    state::State,
};
use crate::{
    colour::{Named, named_in},
    quantity::{Current, Voltage, plain_words, says_something},
};

/// Every gate, in the order they are asked.
pub const GATES: [GateKind; 5] = [
    GateKind::Restraint,
    GateKind::HighVoltage,
    GateKind::Interlock,
    GateKind::Battery,
    GateKind::StoredEnergy,
];

/// Above these a circuit is high voltage (from memory of UN R100).
const HIGH_VOLTAGE_DC_V: f64 = 60.0;
const HIGH_VOLTAGE_AC_V: f64 = 30.0;

/// A conductor counts as dead below this, at the tester.
const DEAD_BELOW_V: f64 = 0.5;

/// What parts the two points of a measurement: `1 and chassis`, `C1+ / C1-`.
const BETWEEN: [&str; 11] = [" and ", " to ", " & ", " - ", " und ", " et ", " y ", " / ", "/", ",", ";"];

impl GateKind {
    /// What it is about, in a few words.
    pub fn title(self) -> &'static str {
        match self {
            Self::Restraint => "restraint systems",
            Self::HighVoltage => "high voltage",
            Self::Interlock => "interlock loops",
            Self::Battery => "battery",
            Self::StoredEnergy => "stored energy",
        }
    }

    /// The question.
    pub fn question(self) -> &'static str {
        match self {
            Self::Restraint => {
                "Does the diagram show an air bag, belt tensioner or other restraint circuit in this connector, or is its sleeve or connector yellow?"
            }
            Self::HighVoltage => {
                "Does the diagram show more than 60 V DC or 30 V AC here, or is the sleeve or cable cover (not one thin wire) orange?"
            }
            Self::Interlock => {
                "Is there an interlock loop, a shorting clip, a steering, brake, lifting, fire or life-saving circuit in this connector?"
            }
            Self::Battery => {
                "Is every battery and charger of this machine off and secured, and the connector measured dead?"
            }
            Self::StoredEnergy => {
                "Are capacitors discharged, hydraulic pressure let off, springs and raised loads secured?"
            }
        }
    }

    /// Whether there can be none of it: no such circuit here. A machine always has its energy.
    pub fn can_be_absent(self) -> bool {
        match self {
            Self::Restraint | Self::HighVoltage | Self::Interlock => true,
            Self::Battery | Self::StoredEnergy => false,
        }
    }

    /// Whether being released needs volts measured.
    pub fn needs_measured_zero(self) -> bool {
        match self {
            Self::HighVoltage | Self::Battery => true,
            Self::Restraint | Self::Interlock | Self::StoredEnergy => false,
        }
    }
}

impl EnergyKind {
    /// Every kind.
    pub const ALL: [Self; 5] = [Self::Capacitors, Self::SecondBattery, Self::Fluid, Self::Load, Self::Spring];

    /// What it is, in words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Capacitors => "capacitors",
            Self::SecondBattery => "a second battery or charger",
            Self::Fluid => "hydraulic or air pressure",
            Self::Load => "raised loads",
            Self::Spring => "springs",
        }
    }

    /// Whether a state tells that it is safe: a word that says so of this kind, and none that says
    /// otherwise.
    fn is_safe_by(self, state: &str) -> bool {
        const OTHERWISE: [&str; 9] =
            ["not", "never", "still", "unknown", "partly", "nearly", "almost", "high", "full"];
        const UNITS: [&str; 5] = ["bar", "psi", "kpa", "mpa", "pa"];
        let safe: &[&str] = match self {
            Self::Capacitors | Self::SecondBattery => &[],
            Self::Fluid => {
                &["zero", "0", "vented", "drained", "bled", "depressurised", "depressurized", "released"]
            }
            Self::Load => &[
                "lowered",
                "blocked",
                "stand",
                "stands",
                "rest",
                "supported",
                "propped",
                "chocked",
                "floor",
                "ground",
            ],
            Self::Spring => &["relaxed", "released", "unloaded", "blocked", "secured", "unhooked"],
        };
        let plain = plain_words(state);
        let words: Vec<&str> = plain.split(' ').collect();
        let has_pressure = words.windows(2).any(|pair| match pair {
            [number, unit] => UNITS.contains(unit) && number.parse::<f64>().is_ok_and(|n| n != 0.0),
            _ => false,
        });
        words.iter().any(|word| safe.contains(word))
            && !words.iter().any(|word| OTHERWISE.contains(word))
            && !has_pressure
    }

    /// Whether it is measured in volts; the others have a state.
    pub fn is_measured(self) -> bool {
        match self {
            Self::Capacitors | Self::SecondBattery => true,
            Self::Fluid | Self::Load | Self::Spring => false,
        }
    }
}

impl GateSeen {
    /// Whether the answer stops the job.
    pub fn stops(&self) -> bool {
        match self.answer {
            GateAnswer::Stop | GateAnswer::DontKnow => true,
            GateAnswer::Absent | GateAnswer::Released | GateAnswer::OffMachine => false,
        }
    }

    /// Whether the harness was said to be off the machine, and that is over.
    pub fn has_lapsed(&self) -> bool {
        self.answer == GateAnswer::OffMachine && !self.fresh
    }
}

impl State {
    /// The gates as asked, answered or not: open when the way is free.
    pub fn gate_is_open(&self, gate: GateKind) -> bool {
        self.course.gates.get(&gate).is_some_and(|seen| {
            let is_free = match seen.answer {
                GateAnswer::Absent => !self.is_against_record(gate),
                GateAnswer::Released | GateAnswer::OffMachine => true,
                GateAnswer::Stop | GateAnswer::DontKnow => false,
            };
            seen.fresh && is_free
        })
    }

    /// Whether a gate was answered as absent, and what is recorded, drawn or seen speaks of it.
    pub fn is_against_record(&self, gate: GateKind) -> bool {
        let is_absent = self.course.gates.get(&gate).is_some_and(|seen| seen.answer == GateAnswer::Absent);
        is_absent && self.sign_of(gate, None).is_some()
    }

    /// The first gate that is not answered, not answered again, or answered against the record.
    pub fn next_gate(&self) -> Option<GateKind> {
        GATES.into_iter().find(|gate| !self.gate_is_open(*gate))
    }

    /// The gate that stops the job, if one does.
    pub fn stopping_gate(&self) -> Option<GateKind> {
        GATES.into_iter().find(|gate| self.course.gates.get(gate).is_some_and(GateSeen::stops))
    }

    /// A gate whose answer "off the machine" has lapsed: the machine's own answer comes before the next
    /// step.
    pub(super) fn lapsed_gate(&self) -> Option<GateKind> {
        GATES.into_iter().find(|gate| self.course.gates.get(gate).is_some_and(GateSeen::has_lapsed))
    }

    /// What is missing in an answer to a gate.
    pub(super) fn check_gate(&self, act: &Act) -> Result<(), Refusal> {
        let Act::Gate { gate, answer, document, name, voltage, sleeve, measured, energy, .. } = act else {
            return Ok(());
        };
        let is_named = |text: &Option<String>| text.as_deref().is_some_and(says_something);
        match answer {
            GateAnswer::Stop | GateAnswer::DontKnow => return Ok(()),
            GateAnswer::OffMachine if gate.can_be_absent() => {
                return refuse(GateRule::OffMachineCarries(*gate));
            }
            GateAnswer::OffMachine if self.housings.mated.is_some() => return refuse(GateRule::HalvesMated),
            GateAnswer::OffMachine if !is_named(name) => return refuse(GateRule::WhoSaysOff),
            GateAnswer::OffMachine => return Ok(()),
            GateAnswer::Absent if !gate.can_be_absent() => return refuse(GateRule::NeverAbsent(*gate)),
            GateAnswer::Absent | GateAnswer::Released => {}
        }
        if !is_named(name) || !is_named(document) {
            return refuse(GateRule::NameAndDocument(*gate));
        }
        if let Some(sleeve) = sleeve.as_deref().filter(|sleeve| named_in(sleeve) == Named::NotUnderstood) {
            return refuse(GateRule::NoSleeveColour(sleeve.to_owned()));
        }
        if let Some(voltage) = voltage.as_ref().filter(|voltage| is_open_to_doubt(voltage)) {
            return refuse(GateRule::DirectOrAlternating(voltage.clone()));
        }
        if *answer == GateAnswer::Absent {
            return match self.sign_of(*gate, Some(act)) {
                Some(sign) => refuse(GateRule::Speaks(*gate, sign)),
                None => Ok(()),
            };
        }
        check_release(*gate, measured.as_ref(), energy)
    }
}

/// What a release rests on: by what the gate and the kinds of energy ask.
fn check_release(gate: GateKind, measured: Option<&Measured>, energy: &[EnergyKind]) -> Result<(), Refusal> {
    let volts = measured.and_then(|measured| measured.volts.as_ref());
    let state = measured.and_then(|measured| measured.state.as_deref());
    if let Some((measured, volts)) = measured.zip(volts) {
        check_zero(gate, measured, volts)?;
    }
    if let Some(state) = state.filter(|state| !says_something(state)) {
        return refuse(ReleaseRule::NoState(state.to_owned()));
    }
    let to_measure = energy.iter().copied().find(|kind| kind.is_measured());
    if volts.is_none() && (gate.needs_measured_zero() || to_measure.is_some()) {
        return refuse(ReleaseRule::ZeroVolts(gate, to_measure));
    }
    let is_told = |kind: &EnergyKind| state.is_some_and(|state| kind.is_safe_by(state));
    let to_tell = energy.iter().copied().find(|kind| !kind.is_measured() && !is_told(kind));
    let is_safe = state.is_some_and(|state| {
        plain_words(state).starts_with("none") || EnergyKind::ALL.iter().any(|kind| kind.is_safe_by(state))
    });
    let tells_nothing = gate == GateKind::StoredEnergy && volts.is_none() && !is_safe;
    if to_tell.is_some() || tells_nothing {
        return refuse(ReleaseRule::WordAlone(gate, to_tell));
    }
    Ok(())
}

fn check_zero(gate: GateKind, measured: &Measured, volts: &Voltage) -> Result<(), Refusal> {
    if !is_dead(volts) {
        let (volts, between) = (volts.clone(), measured.between.clone());
        return refuse(ReleaseRule::NotDead { gate, volts, between });
    }
    if !are_two_points(&measured.between) {
        return refuse(ReleaseRule::NotTwoPoints(measured.between.clone()));
    }
    if !measured.tester_proved {
        return refuse(ReleaseRule::TesterNotProved(gate));
    }
    Ok(())
}

/// Whether a text names two points that are not one.
pub fn are_two_points(between: &str) -> bool {
    let parted = BETWEEN.iter().find_map(|by| between.split_once(by)).filter(|_| says_something(between));
    // One cavity is one point, however it is written: 1, 01, old:1.
    let point = |text: &str| {
        let text = text.trim().to_lowercase();
        let label = text.rsplit_once(':').map_or(text.as_str(), |(_, label)| label);
        label.trim_start_matches('0').trim().to_owned()
    };
    parted.is_some_and(|(one, other)| {
        says_something(one) && says_something(other) && point(one) != point(other)
    })
}

/// Whether a reading counts as dead.
pub fn is_dead(volts: &Voltage) -> bool {
    volts.volts().abs() < DEAD_BELOW_V
}

/// Whether a voltage is high; what nobody said to be direct counts as alternating.
pub(super) fn is_high(voltage: &Voltage) -> bool {
    let limit = match voltage.current() {
        Some(Current::Dc) => HIGH_VOLTAGE_DC_V,
        Some(Current::Ac) | None => HIGH_VOLTAGE_AC_V,
    };
    voltage.volts().abs() > limit
}

/// Whether it hangs on direct or alternating, and nobody said.
pub fn is_open_to_doubt(voltage: &Voltage) -> bool {
    let volts = voltage.volts().abs();
    voltage.current().is_none() && volts > HIGH_VOLTAGE_AC_V && volts <= HIGH_VOLTAGE_DC_V
}

fn refuse(rule: impl Into<Refusal>) -> Result<(), Refusal> {
    Err(rule.into())
}
