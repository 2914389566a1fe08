//! Gates: the safety questions that stop the job. No `anyway`, no default answer; a name and a
//! document each time, and a measured zero where something may be live.

use super::{
    Act, GateAnswer, GateKind, Measured, Refusal,
    state::{GateSeen, State},
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

    /// Whether being released needs a measured zero.
    pub fn needs_measured_zero(self) -> bool {
        matches!(self, Self::HighVoltage | Self::Battery)
    }
}

impl GateSeen {
    /// Whether the way is free.
    pub fn is_open(&self) -> bool {
        self.fresh && matches!(self.answer, GateAnswer::Absent | GateAnswer::Released)
    }

    /// Whether the answer stops the job.
    pub fn stops(&self) -> bool {
        matches!(self.answer, GateAnswer::Stop | GateAnswer::DontKnow)
    }
}

impl State {
    /// The first gate that is not answered, or not answered again.
    pub fn next_gate(&self) -> Option<GateKind> {
        GATES.into_iter().find(|gate| !self.gates.get(gate).is_some_and(GateSeen::is_open))
    }

    /// The gate that stops the job, if one does.
    pub fn stopping_gate(&self) -> Option<GateKind> {
        GATES.into_iter().find(|gate| self.gates.get(gate).is_some_and(GateSeen::stops))
    }
}

fn is_blank(text: &Option<String>) -> bool {
    text.as_ref().is_none_or(|t| t.trim().is_empty())
}

/// What is missing in an answer to a gate.
pub(super) fn check_gate(act: &Act) -> Option<Refusal> {
    let Act::Gate { gate, answer, document, name, voltage, sleeve, measured, .. } = act else { return None };
    let refuse = |say: String, instead: &str| {
        Some(Refusal { code: Some(super::Code::GateOpen), say, instead: instead.to_owned() })
    };
    let title = gate.title();
    if matches!(answer, GateAnswer::Stop | GateAnswer::DontKnow) {
        return None;
    }
    if is_blank(name) || is_blank(document) {
        return refuse(
            format!(
                "The gate on {title} needs the name of the person who answers and the document it rests on."
            ),
            "Key both; without them, answer stop.",
        );
    }
    if *answer == GateAnswer::Absent {
        let sleeve = sleeve.as_deref().unwrap_or_default().to_ascii_lowercase();
        let high = voltage
            .as_ref()
            .is_some_and(|v| v.volts().abs() > if v.is_ac() { HIGH_VOLTAGE_AC_V } else { HIGH_VOLTAGE_DC_V });
        let sign = match gate {
            GateKind::Restraint => sleeve.contains("yellow"),
            GateKind::HighVoltage => sleeve.contains("orange") || high,
            GateKind::Interlock | GateKind::Battery | GateKind::StoredEnergy => false,
        };
        if sign {
            return refuse(
                format!("What you see speaks of {title}, so it cannot be answered as absent."),
                "Answer stop, or have it released by a qualified person under a named document.",
            );
        }
        return None;
    }
    match (gate.needs_measured_zero(), measured) {
        (false, _) => None,
        (true, None) => refuse(
            format!("To pass the gate on {title} zero volts must be measured."),
            "Prove the tester, measure, prove it again, and key the reading and the two points.",
        ),
        (true, Some(measured)) => {
            check_measured(title, measured).and_then(|(say, instead)| refuse(say, instead))
        }
    }
}

fn check_measured(title: &str, measured: &Measured) -> Option<(String, &'static str)> {
    if measured.volts.volts().abs() >= DEAD_BELOW_V {
        return Some((
            format!(
                "{} between {} is not dead: the gate on {title} stays shut.",
                measured.volts, measured.between
            ),
            "Find the supply, make it safe and measure again.",
        ));
    }
    if measured.between.trim().is_empty() || !measured.tester_proved {
        return Some((
            format!("The zero for the gate on {title} is not proved."),
            "Name the two points, and prove the tester on a known source before and after.",
        ));
    }
    None
}
