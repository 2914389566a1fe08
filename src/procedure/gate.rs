//! A gate: what the diagram says, what is seen, a document and a name, what was measured or done. Nothing
//! passes on Enter.

use crate::{
    colour::{Named, named_in},
    job::{Act, EnergyKind, GateAnswer, GateKind, Measured, are_two_points, is_dead, is_open_to_doubt},
    quantity::{Voltage, says_something},
};

use super::{Acts, Choice, GateField, GateQuestion, JobView, Kind, Replies, Stop, Typed};

/// The letters for the kinds of stored energy.
pub const ENERGY: [(char, EnergyKind); 5] = [
    ('c', EnergyKind::Capacitors),
    ('b', EnergyKind::SecondBattery),
    ('p', EnergyKind::Fluid),
    ('l', EnergyKind::Load),
    ('s', EnergyKind::Spring),
];

/// What is said of the state where there is no stored energy at all.
const NONE_HERE: &str = "none of them on this machine";

/// The question of a gate, as far as it is answered.
pub(super) fn gate(view: &JobView<'_>, gate: GateKind, replies: &mut Replies<'_>) -> Acts {
    let first = match gate.can_be_absent() {
        true => (Choice::Absent, GateAnswer::Absent),
        false => (Choice::OffMachine, GateAnswer::OffMachine),
    };
    let offered = [
        first,
        (Choice::Released, GateAnswer::Released),
        (Choice::Stop, GateAnswer::Stop),
        (Choice::DontKnow, GateAnswer::DontKnow),
    ];
    let answer = replies.one_of(GateQuestion { gate, field: GateField::Answer }, &offered)?;
    let asking = Asking { view, gate, answer };
    let act = match answer {
        GateAnswer::Stop | GateAnswer::DontKnow => asking.act(Said::default(), None, Vec::new()),
        GateAnswer::OffMachine => {
            let name = asking.words(GateField::Name, Kind::Name, "name", replies)?;
            asking.act(Said { name: Some(name), ..Said::default() }, None, Vec::new())
        }
        GateAnswer::Absent => asking.act(asking.subject(replies)?, None, Vec::new()),
        GateAnswer::Released => {
            let said = asking.subject(replies)?;
            asking.released(said, replies)?
        }
    };
    Ok(vec![act])
}

/// What was said of the circuit, and who says so.
#[derive(Clone, Default)]
struct Said {
    circuit: Option<String>,
    voltage: Option<Voltage>,
    sleeve: Option<String>,
    document: Option<String>,
    name: Option<String>,
}

/// The questions of one gate and one answer to it.
struct Asking<'a> {
    view: &'a JobView<'a>,
    gate: GateKind,
    answer: GateAnswer,
}

impl Asking<'_> {
    /// What the circuits are, by what is drawn and what is seen, the document and the name. A gate that opens
    /// again after a pause asks only who answers and on what: the circuit and the sleeve are what they were.
    fn subject(&self, replies: &mut Replies<'_>) -> Result<Said, Stop> {
        let before = self.said_before();
        let is_new = before.is_none();
        let mut said = before.unwrap_or_default();
        let asks_circuit =
            matches!(self.gate, GateKind::Restraint | GateKind::Interlock | GateKind::HighVoltage);
        if is_new && asks_circuit {
            said.circuit = Some(self.words(GateField::Circuit, Kind::Words, "circuit", replies)?);
            self.refuse_signs(&said)?;
        }
        if is_new && self.gate == GateKind::HighVoltage {
            let typed = self.typed(GateField::Voltage, Kind::Voltage, replies)?;
            said.voltage = Some(voltage(Typed(&typed))?);
            self.refuse_signs(&said)?;
        }
        if is_new && asks_circuit {
            said.sleeve = Some(sleeve(self.typed(GateField::Sleeve, Kind::Words, replies)?)?);
            self.refuse_signs(&said)?;
        }
        said.document = Some(self.words(GateField::Document, Kind::Document, "document", replies)?);
        self.refuse_signs(&said)?;
        said.name = Some(self.words(GateField::Name, Kind::Name, "name", replies)?);
        Ok(said)
    }

    /// What was measured, or done where there are no volts to measure.
    fn released(&self, said: Said, replies: &mut Replies<'_>) -> Result<Act, Stop> {
        let kinds = match self.gate {
            GateKind::StoredEnergy => {
                energy(Typed(&self.typed(GateField::Energy, Kind::Values, replies)?))?
            }
            _ => Vec::new(),
        };
        let is_measured = self.gate.needs_measured_zero() || kinds.iter().any(|kind| kind.is_measured());
        let reading = match is_measured {
            true => {
                let volts = dead(Typed(&self.typed(GateField::Reading, Kind::Voltage, replies)?))?;
                let between = self.typed(GateField::Points, Kind::Words, replies)?;
                two_points(&between)?;
                Some((volts, between))
            }
            false => None,
        };
        let told: Vec<EnergyKind> = kinds.iter().filter(|kind| !kind.is_measured()).copied().collect();
        let is_none_here = self.gate == GateKind::StoredEnergy && kinds.is_empty();
        let state = match told.is_empty() {
            true => is_none_here.then(|| NONE_HERE.to_owned()),
            false => Some(self.words(GateField::State(told), Kind::Words, "state", replies)?),
        };
        if reading.is_some() {
            replies.choice(self.ask(GateField::TesterProved), &[Choice::Proved])?;
        }
        let measured = (reading.is_some() || state.is_some()).then(|| Measured {
            tester_proved: reading.is_some(),
            between: reading.as_ref().map_or(String::new(), |(_, between)| between.clone()),
            volts: reading.map(|(volts, _)| volts),
            state,
        });
        Ok(self.act(said, measured, kinds))
    }

    fn act(&self, said: Said, measured: Option<Measured>, energy: Vec<EnergyKind>) -> Act {
        let Said { circuit, voltage, sleeve, document, name } = said;
        let (gate, answer) = (self.gate, self.answer);
        Act::Gate { gate, answer, circuit, sleeve, document, name, voltage, measured, energy }
    }

    fn ask(&self, field: GateField) -> GateQuestion {
        GateQuestion { gate: self.gate, field }
    }

    /// What was typed, or with = what was said last.
    fn typed(&self, field: GateField, kind: Kind, replies: &mut Replies<'_>) -> Result<String, Stop> {
        let question = self.ask(field);
        let typed = replies.text(question.clone(), kind)?;
        match typed.is_same() {
            true => last_said(self.view, &question.field)
                .ok_or_else(|| Stop::wrong("There is nothing to repeat: key it.")),
            false => Ok(typed.words()),
        }
    }

    /// What was typed, which has to say something.
    fn words(
        &self,
        field: GateField,
        kind: Kind,
        what: &str,
        replies: &mut Replies<'_>,
    ) -> Result<String, Stop> {
        let text = self.typed(field, kind, replies)?;
        match says_something(&text) {
            true => Ok(text),
            false => Err(Stop::wrong(format!("\"{text}\" is no {what}: key it in words."))),
        }
    }

    /// What speaks of the gate's subject is said when it is keyed.
    fn refuse_signs(&self, said: &Said) -> Result<(), Stop> {
        if self.answer != GateAnswer::Absent {
            return Ok(());
        }
        let so_far = Said { document: None, name: None, ..said.clone() };
        match self.view.state().sign_of(self.gate, Some(&self.act(so_far, None, Vec::new()))) {
            Some(sign) => Err(Stop::wrong(format!(
                "{sign} So {} cannot be answered as absent: STOP, or have it released by name (Esc).",
                self.gate.title()
            ))),
            None => Ok(()),
        }
    }

    /// What the same answer to this gate said last of the circuit, unless it would not be taken today.
    fn said_before(&self) -> Option<Said> {
        let mut acts = self.view.job.entries_in_force().map(|entry| &entry.act).rev();
        let last = acts.find(|act| matches!(act, Act::Gate { gate, .. } if *gate == self.gate))?;
        let Act::Gate { answer, circuit: was, voltage: drawn, sleeve: seen, .. } = last else { return None };
        let is_taken = was.as_deref().is_none_or(says_something)
            && drawn.as_ref().is_none_or(|drawn| voltage(Typed(&drawn.to_string())).is_ok())
            && seen.as_ref().is_none_or(|seen| sleeve(seen.clone()).is_ok());
        (*answer == self.answer && is_taken).then(|| Said {
            circuit: was.clone(),
            voltage: drawn.clone(),
            sleeve: seen.clone(),
            ..Said::default()
        })
    }
}

/// What was last typed for a question, at whichever gate. A name is repeated only for who keyed it.
pub fn last_said(view: &JobView<'_>, field: &GateField) -> Option<String> {
    let mut entries = view.job.entries_in_force().rev();
    entries.find_map(|entry| {
        let is_own = *field != GateField::Name || entry.by == view.by;
        said_by(&entry.act, field).filter(|_| is_own)
    })
}

/// What an earlier answer said to the same question; what was measured is measured anew.
fn said_by(act: &Act, field: &GateField) -> Option<String> {
    let Act::Gate { circuit, voltage, sleeve, document, name, .. } = act else { return None };
    match field {
        GateField::Circuit => circuit.clone(),
        GateField::Voltage => voltage.as_ref().map(ToString::to_string),
        GateField::Sleeve => sleeve.clone(),
        GateField::Document => document.clone(),
        GateField::Name => name.clone(),
        GateField::Answer
        | GateField::Energy
        | GateField::Reading
        | GateField::Points
        | GateField::State(_)
        | GateField::TesterProved => None,
    }
}

fn sleeve(text: String) -> Result<String, Stop> {
    match named_in(&text) {
        Named::NotUnderstood => {
            Err(Stop::wrong(format!("\"{text}\" names no colour: key codes or words, or none.")))
        }
        Named::Colours(_) => Ok(text),
    }
}

/// The voltage of the diagram, with DC or AC where that decides.
fn voltage(typed: Typed<'_>) -> Result<Voltage, Stop> {
    let voltage: Voltage = typed.parse_or_wrong()?;
    match is_open_to_doubt(&voltage) {
        true => Err(Stop::wrong(format!("{voltage}: DC or AC? The limits are 60 V DC and 30 V AC."))),
        false => Ok(voltage),
    }
}

fn dead(typed: Typed<'_>) -> Result<Voltage, Stop> {
    let volts: Voltage = typed.parse_or_wrong()?;
    match is_dead(&volts) {
        true => Ok(volts),
        false => {
            Err(Stop::wrong(format!("{volts} is not dead: find the supply, make it safe and measure again.")))
        }
    }
}

fn two_points(text: &str) -> Result<(), Stop> {
    match are_two_points(text) {
        true => Ok(()),
        false => Err(Stop::wrong(format!("\"{text}\" is not two points: key both, as in 1 and chassis."))),
    }
}

fn energy(typed: Typed<'_>) -> Result<Vec<EnergyKind>, Stop> {
    let kind = |letter: char| {
        let known =
            ENERGY.iter().find(|(known, _)| known.eq_ignore_ascii_case(&letter)).map(|(_, kind)| *kind);
        known.ok_or_else(|| {
            Stop::wrong(format!("\"{letter}\" is none of c, b, p, l, s: key the letters, or - for none."))
        })
    };
    let letters = |text: &str| text.chars().filter(|c| !c.is_whitespace() && *c != ',').map(kind).collect();
    typed.unless_dash().map_or(Ok(Vec::new()), |typed| letters(typed.as_str()))
}
