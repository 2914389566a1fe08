//! A gate: what the diagram says, what is seen, a document and a name, what was measured or done. Each
//! answer is read before the next question; nothing passes on Enter.

use crate::{
    colour::{Named, named_in},
    job::{Act, EnergyKind, GateAnswer, GateKind, Measured, are_two_points, is_dead},
    quantity::{Voltage, says_something},
};

use super::{Asked, Choice, JobView, Reply, field, picks};

/// What a gate asks to be typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum GateField {
    Circuit,
    Voltage,
    Sleeve,
    Document,
    Name,
    Energy,
    Reading,
    Points,
    State,
}

/// The letters for the kinds of stored energy.
const ENERGY: [(char, EnergyKind); 5] = [
    ('c', EnergyKind::Capacitors),
    ('b', EnergyKind::SecondBattery),
    ('p', EnergyKind::Fluid),
    ('l', EnergyKind::Load),
    ('s', EnergyKind::Spring),
];

/// What is said of the state where there is no stored energy at all.
const NONE_HERE: &str = "none of them on this machine";

/// What was typed so far.
#[derive(Default)]
struct Typed {
    circuit: Option<String>,
    voltage: Option<Voltage>,
    sleeve: Option<String>,
    document: Option<String>,
    name: Option<String>,
    energy: Vec<EnergyKind>,
    reading: Option<Voltage>,
    points: String,
    state: Option<String>,
}

impl GateField {
    fn question(self, typed: &Typed) -> String {
        match self {
            Self::Circuit => "What does the diagram say these circuits are?".to_owned(),
            Self::Voltage => {
                "Highest voltage the diagram shows here, DC or AC? (24 V DC, 230 V AC)".to_owned()
            }
            Self::Sleeve => "Colours of sleeves and covers? (none, black, YE, OG…)".to_owned(),
            Self::Document => "Which document does it rest on?".to_owned(),
            Self::Name => "Name of the person who answers for it?".to_owned(),
            Self::Energy => {
                let list = ENERGY.map(|(letter, kind)| format!("{letter} {}", kind.words()));
                format!("Which are on this machine? Letters together, - for none: {}", list.join(", "))
            }
            Self::Reading => "Volts measured at the connector?".to_owned(),
            Self::Points => "Between which two points? (1 and chassis)".to_owned(),
            Self::State => {
                let told = typed.energy.iter().filter(|kind| !kind.is_measured());
                let told: Vec<&str> = told.map(|kind| kind.words()).collect();
                format!(
                    "{}: gauge at zero, vented, lowered, blocked, relaxed? Say what was done",
                    told.join(", ")
                )
            }
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
            Self::Energy | Self::Reading | Self::Points | Self::State => None,
        }
    }
}

/// What is asked, in order. A gate that opens again after a pause asks who answers and on what, and
/// the measurement: the circuit and the sleeve are what they were.
fn asks(gate: GateKind, answer: GateAnswer, answered_before: bool, energy: &[EnergyKind]) -> Vec<GateField> {
    use GateField::{Circuit, Document, Energy, Name, Points, Reading, Sleeve, State, Voltage};
    match answer {
        GateAnswer::Stop | GateAnswer::DontKnow => return Vec::new(),
        GateAnswer::OffMachine => return vec![Name],
        GateAnswer::Absent | GateAnswer::Released => {}
    }
    let mut asks = match gate {
        _ if answered_before => Vec::new(),
        GateKind::Restraint | GateKind::Interlock => vec![Circuit, Sleeve],
        GateKind::HighVoltage => vec![Circuit, Voltage, Sleeve],
        GateKind::Battery | GateKind::StoredEnergy => Vec::new(),
    };
    asks.extend([Document, Name]);
    if answer == GateAnswer::Absent {
        return asks;
    }
    if gate == GateKind::StoredEnergy {
        asks.push(Energy);
    }
    if gate.needs_measured_zero() || energy.iter().any(|kind| kind.is_measured()) {
        asks.extend([Reading, Points]);
    }
    if energy.iter().any(|kind| !kind.is_measured()) {
        asks.push(State);
    }
    asks
}

/// The question of a gate, as far as it is answered.
pub(super) fn gate(view: &JobView<'_>, gate: GateKind, answers: &[Reply]) -> Asked {
    let Some(Reply::Choice(pick)) = answers.first() else {
        let first = if gate.can_be_absent() { Choice::Absent } else { Choice::OffMachine };
        let offered = [first, Choice::Released, Choice::Stop, Choice::DontKnow];
        return picks(format!("GATE, {}: {}", gate.title(), gate.question()), &offered);
    };
    let answer = match pick {
        Choice::Absent => GateAnswer::Absent,
        Choice::Released => GateAnswer::Released,
        Choice::OffMachine => GateAnswer::OffMachine,
        Choice::DontKnow => GateAnswer::DontKnow,
        _ => GateAnswer::Stop,
    };
    let asking = Asking { view, gate, answer, before: same_answer_before(view, gate, answer) };
    match asking.all(answers.get(1..).unwrap_or_default()) {
        Ok(act) => Asked::Ready(vec![act]),
        Err(question) => question,
    }
}

/// The questions of one gate and one answer to it.
struct Asking<'a> {
    view: &'a JobView<'a>,
    gate: GateKind,
    answer: GateAnswer,
    /// The last answer to this gate, when it was the same.
    before: Option<&'a Act>,
}

impl Asking<'_> {
    /// The act, once everything is said; else the next question, or what is wrong with the last answer.
    fn all(&self, answers: &[Reply]) -> Result<Act, Asked> {
        let mut typed = Typed::default();
        // What was said before and would not be taken today is asked anew.
        let kept = [GateField::Circuit, GateField::Voltage, GateField::Sleeve].into_iter().all(|ask| {
            let before = self.before.and_then(|act| ask.said_before(act));
            before.is_none_or(|text| take(&mut typed, ask, &text).is_ok())
        });
        let answered_before = self.before.is_some() && kept;
        let mut left = answers.iter();
        let mut done = 0;
        while let Some(ask) = asks(self.gate, self.answer, answered_before, &typed.energy).get(done).copied()
        {
            let said = match left.next() {
                Some(Reply::Text(text)) => self.said(ask, text)?,
                Some(Reply::Choice(_)) | None => return Err(self.ask(ask, &typed)),
            };
            take(&mut typed, ask, &said).map_err(Asked::Wrong)?;
            if self.answer == GateAnswer::Absent {
                self.refuse_signs(&typed)?;
            }
            done += 1;
        }
        if typed.reading.is_some() && left.next() != Some(&Reply::Choice(Choice::Proved)) {
            return Err(picks(
                "Was the tester proved on a known source before and after?",
                &[Choice::Proved],
            ));
        }
        Ok(self.act(typed))
    }

    fn ask(&self, ask: GateField, typed: &Typed) -> Asked {
        let again = self.last_said(ask).map_or(String::new(), |last| format!(" (= {last})"));
        field(format!("{}: {}{again}", self.gate.title(), ask.question(typed)))
    }

    /// What was typed, or with = what was said last.
    fn said(&self, ask: GateField, text: &str) -> Result<String, Asked> {
        match text.trim() {
            "=" => self
                .last_said(ask)
                .ok_or_else(|| Asked::Wrong("There is nothing to repeat: key it.".to_owned())),
            text => Ok(text.to_owned()),
        }
    }

    /// What was last typed for a question, at whichever gate. A name is repeated only for who keyed it.
    fn last_said(&self, ask: GateField) -> Option<String> {
        let mut entries = self.view.job.entries_in_force().rev();
        entries.find_map(|entry| {
            let is_own = ask != GateField::Name || entry.by == self.view.by;
            ask.said_before(&entry.act).filter(|_| is_own)
        })
    }

    /// What speaks of the gate's subject is said when it is keyed.
    fn refuse_signs(&self, typed: &Typed) -> Result<(), Asked> {
        let so_far = Typed {
            circuit: typed.circuit.clone(),
            sleeve: typed.sleeve.clone(),
            voltage: typed.voltage.clone(),
            ..Typed::default()
        };
        match self.view.state().sign_of(self.gate, Some(&self.act(so_far))) {
            Some(sign) => Err(Asked::Wrong(format!(
                "{sign} So {} cannot be answered as absent: STOP, or have it released by name (Esc).",
                self.gate.title()
            ))),
            None => Ok(()),
        }
    }

    fn act(&self, typed: Typed) -> Act {
        let is_none_here = self.answer == GateAnswer::Released
            && self.gate == GateKind::StoredEnergy
            && typed.energy.is_empty();
        let state = if is_none_here { Some(NONE_HERE.to_owned()) } else { typed.state };
        let is_measured = typed.reading.is_some() || state.is_some();
        Act::Gate {
            gate: self.gate,
            answer: self.answer,
            circuit: typed.circuit,
            sleeve: typed.sleeve,
            document: typed.document,
            name: typed.name,
            voltage: typed.voltage,
            measured: is_measured.then_some(Measured {
                tester_proved: typed.reading.is_some(),
                volts: typed.reading,
                between: typed.points,
                state,
            }),
            energy: typed.energy,
        }
    }
}

/// Takes an answer in, or says what is wrong with it.
fn take(typed: &mut Typed, ask: GateField, text: &str) -> Result<(), String> {
    let named = |text: &str, what: &str| match says_something(text) {
        true => Ok(Some(text.to_owned())),
        false => Err(format!("\"{text}\" is no {what}: key it in words.")),
    };
    match ask {
        GateField::Circuit => typed.circuit = named(text, "circuit")?,
        GateField::Voltage => typed.voltage = Some(voltage(text)?),
        GateField::Sleeve if named_in(text) == Named::NotUnderstood => {
            return Err(format!("\"{text}\" names no colour: key codes or words, or none."));
        }
        GateField::Sleeve => typed.sleeve = Some(text.to_owned()),
        GateField::Document => typed.document = named(text, "document")?,
        GateField::Name => typed.name = named(text, "name")?,
        GateField::Energy => typed.energy = energy(text)?,
        GateField::Reading => {
            let volts: Voltage =
                text.parse().map_err(|why: crate::quantity::QuantityProblem| why.to_string())?;
            if !is_dead(&volts) {
                return Err(format!("{volts} is not dead: find the supply, make it safe and measure again."));
            }
            typed.reading = Some(volts);
        }
        GateField::Points if !are_two_points(text) => {
            return Err(format!("\"{text}\" is not two points: key both, as in 1 and chassis."));
        }
        GateField::Points => typed.points = text.to_owned(),
        GateField::State => typed.state = named(text, "state")?,
    }
    Ok(())
}

/// The voltage of the diagram, with DC or AC where that decides.
fn voltage(text: &str) -> Result<Voltage, String> {
    let voltage: Voltage = text.parse().map_err(|why: crate::quantity::QuantityProblem| why.to_string())?;
    match crate::job::is_open_to_doubt(&voltage) {
        true => Err(format!("{voltage}: DC or AC? The limits are 60 V DC and 30 V AC.")),
        false => Ok(voltage),
    }
}

fn energy(text: &str) -> Result<Vec<EnergyKind>, String> {
    if text == "-" {
        return Ok(Vec::new());
    }
    let kind = |letter: char| {
        let known =
            ENERGY.iter().find(|(known, _)| known.eq_ignore_ascii_case(&letter)).map(|(_, kind)| *kind);
        known.ok_or_else(|| format!("\"{letter}\" is none of c, b, p, l, s: key the letters, or - for none."))
    };
    text.chars().filter(|c| !c.is_whitespace() && *c != ',').map(kind).collect()
}

/// The last answer to this gate, when it was the same.
fn same_answer_before<'a>(view: &JobView<'a>, gate: GateKind, answer: GateAnswer) -> Option<&'a Act> {
    let mut acts = view.job.entries_in_force().map(|entry| &entry.act).rev();
    acts.find(|act| matches!(act, Act::Gate { gate: g, .. } if *g == gate))
        .filter(|act| matches!(act, Act::Gate { answer: a, .. } if *a == answer))
}
