//! A gate: what the diagram says, what is seen, a document and a name. Nothing passes on Enter.

use crate::swap::{Act, GateAnswer, GateKind, Measured};

use super::{Answer, Asked, field, picks, texts};
use crate::screen::{keys::Pick, sight::Sight};

/// What a gate asks to be typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Ask {
    Circuit,
    Voltage,
    Sleeve,
    Document,
    Name,
    Reading,
    Points,
}

impl Ask {
    fn question(self) -> &'static str {
        match self {
            Self::Circuit => "What does the diagram say these circuits are?",
            Self::Voltage => "Highest voltage the diagram shows here? (24 V DC, 230 V AC)",
            Self::Sleeve => "Colour of the sleeve or connector? (none, yellow, orange…)",
            Self::Document => "Which document does it rest on?",
            Self::Name => "Name of the person who answers for it?",
            Self::Reading => "Volts measured at the connector?",
            Self::Points => "Between which two points?",
        }
    }

    /// What an earlier answer said to the same question; what was measured is measured anew.
    fn said_before(self, act: &Act) -> Option<String> {
        let Act::Gate { circuit, voltage, sleeve, document, name, .. } = act else { return None };
        match self {
            Self::Circuit => circuit.clone(),
            Self::Voltage => voltage.as_ref().map(ToString::to_string),
            Self::Sleeve => sleeve.clone(),
            Self::Document => document.clone(),
            Self::Name => name.clone(),
            Self::Reading | Self::Points => None,
        }
    }
}

/// What is asked, in order. A gate that opens again after a pause asks who answers and on what,
/// and the measurement: the circuit and the sleeve are what they were.
fn asks(gate: GateKind, answer: GateAnswer, answered_before: bool) -> Vec<Ask> {
    use Ask::{Circuit, Document, Name, Points, Reading, Sleeve, Voltage};
    if matches!(answer, GateAnswer::Stop | GateAnswer::DontKnow) {
        return Vec::new();
    }
    let mut asks = match gate {
        _ if answered_before => Vec::new(),
        GateKind::Restraint | GateKind::Interlock => vec![Circuit, Sleeve],
        GateKind::HighVoltage => vec![Circuit, Voltage, Sleeve],
        GateKind::Battery | GateKind::StoredEnergy => Vec::new(),
    };
    asks.extend([Document, Name]);
    if answer == GateAnswer::Released && gate.needs_measured_zero() {
        asks.extend([Reading, Points]);
    }
    asks
}

/// The question of a gate, as far as it is answered.
pub(super) fn gate(sight: &Sight<'_>, gate: GateKind, answers: &[Answer]) -> Asked {
    let Some(Answer::Pick(pick)) = answers.first() else {
        let offered = [Pick::Absent, Pick::Released, Pick::Stop, Pick::DontKnow];
        return picks(format!("GATE, {}: {}", gate.title(), gate.question()), &offered);
    };
    let answer = match pick {
        Pick::Absent => GateAnswer::Absent,
        Pick::Released => GateAnswer::Released,
        Pick::DontKnow => GateAnswer::DontKnow,
        _ => GateAnswer::Stop,
    };
    let before = same_answer_before(sight, gate, answer);
    let asks = asks(gate, answer, before.is_some());
    let typed = texts(answers);
    let said = |ask: Ask| match asks.iter().position(|a| *a == ask).and_then(|n| typed.get(n).copied()) {
        Some("=") => last_said(sight, ask),
        Some(text) => Some(text.trim().to_owned()).filter(|text| !text.is_empty()),
        None => before.and_then(|act| ask.said_before(act)),
    };
    // A value that cannot be read is said at once, not after the last question.
    let voltage = match said(Ask::Voltage).map(|text| text.parse()).transpose() {
        Ok(voltage) => voltage,
        Err(why) => return Asked::Wrong(format!("{why}")),
    };
    let reading = match said(Ask::Reading).map(|text| text.parse()).transpose() {
        Ok(reading) => reading,
        Err(why) => return Asked::Wrong(format!("{why}")),
    };
    if let Some(ask) = asks.get(typed.len()) {
        let again = match last_said(sight, *ask) {
            Some(last) => format!(" (= {last})"),
            None => String::new(),
        };
        return field(format!("{}: {}{again}", gate.title(), ask.question()));
    }
    let measured = match reading {
        None => None,
        Some(_) if !matches!(answers.last(), Some(Answer::Pick(Pick::Proved))) => {
            return picks("Was the tester proved on a known source before and after?", &[Pick::Proved]);
        }
        Some(volts) => {
            let between = said(Ask::Points).unwrap_or_default();
            Some(Measured { volts, between, tester_proved: true })
        }
    };
    Asked::Ready(vec![Act::Gate {
        gate,
        answer,
        circuit: said(Ask::Circuit),
        sleeve: said(Ask::Sleeve),
        document: said(Ask::Document),
        name: said(Ask::Name),
        voltage,
        measured,
    }])
}

/// The last answer to this gate, when it was the same.
fn same_answer_before<'a>(sight: &Sight<'a>, gate: GateKind, answer: GateAnswer) -> Option<&'a Act> {
    let mut acts = sight.job.entries_in_force().map(|entry| &entry.act).rev();
    acts.find(|act| matches!(act, Act::Gate { gate: g, .. } if *g == gate))
        .filter(|act| matches!(act, Act::Gate { answer: a, .. } if *a == answer))
}

/// What was last typed for a question, at whichever gate.
fn last_said(sight: &Sight<'_>, ask: Ask) -> Option<String> {
    sight.job.entries_in_force().rev().find_map(|entry| ask.said_before(&entry.act))
}
