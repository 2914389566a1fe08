//! Flags: what is open, each with its cause as data; `report/flags` says what is wrong and what to do.
//! What an ordinary step will still do is one flag, `not-finished`.

mod cause;
mod closing;
mod crimps;
mod decided;
mod fit;
mod housings;
mod leads;
mod others;
mod passed;
mod plugs;
mod readings;
mod records;
mod splices;
mod start;

pub use cause::{
    BundleCause, ClosingCause, CrimpCause, DecidedCause, FitCause, FlagCause, HousingCause, LeadCause,
    LeftToDo, NoPlan, OrderCause, OtherCause, PlugCause, ReadingCause, RecordCause, SpliceCause, StartCause,
    WireMissing,
};

use crate::record::{Address, HousingName};

use super::{
    Accepted, Code, ItemId, JobSide,
    state::State,
    step::{Status, Step, Task},
    target::Target,
};

/// A flag.
#[derive(Debug, Clone, PartialEq)]
pub struct Flag {
    /// What it is about.
    pub cause: FlagCause,
    /// The side it is about.
    pub side: Option<JobSide>,
    /// The housing it is about.
    pub housing: Option<HousingName>,
    /// The cavity it is about.
    pub at: Option<Address>,
    /// The lead, plug or other it is about.
    pub item: Option<ItemId>,
    /// The circuit or wire it is about.
    pub circuit: Option<String>,
    /// The line of the request it is about.
    pub line: Option<u32>,
    /// The person who accepted it as a deviation.
    pub accepted: Option<Accepted>,
}

impl Flag {
    /// A flag about the whole job.
    fn job(cause: FlagCause) -> Self {
        Self {
            cause,
            side: None,
            housing: None,
            at: None,
            item: None,
            circuit: None,
            line: None,
            accepted: None,
        }
    }

    /// Its code.
    pub fn code(&self) -> Code {
        self.cause.code()
    }

    /// The same flag, about a cavity.
    fn at(mut self, state: &State, at: &Address) -> Self {
        self.side = state.housings.side_of(at);
        self.housing = Some(at.housing.clone());
        self.at = Some(at.clone());
        self
    }

    /// The same flag, about a housing.
    fn of(mut self, housing: &super::JobHousing) -> Self {
        self.side = Some(housing.side);
        self.housing = Some(housing.name.clone());
        self
    }

    /// The same flag, about a circuit.
    fn circuit(mut self, circuit: Option<&str>) -> Self {
        self.circuit = circuit.map(ToOwned::to_owned);
        self
    }
}

/// Collects flags.
pub(super) type Flags = Vec<Flag>;

impl State {
    /// Every flag, the gravest first, accepted ones marked.
    pub fn flags(&self, target: &Target, steps: &[Step]) -> Vec<Flag> {
        let mut flags = Flags::new();
        self.flag_gates_and_views(&mut flags);
        self.flag_records(target, &mut flags);
        self.flag_fit(target, &mut flags);
        self.flag_intake_faults(target, &mut flags);
        self.flag_leads(target, &mut flags);
        self.flag_read_back(&mut flags);
        self.flag_repairs(target, &mut flags);
        self.flag_plugs(target, &mut flags);
        self.flag_others(target, &mut flags);
        self.flag_housings(target, &mut flags);
        self.flag_arrivals(&mut flags);
        self.flag_passed(target, &mut flags);
        let moves_left = steps.iter().any(|s| s.status != Status::Done && !s.what.is_closing());
        let mut closing = Flags::new();
        self.flag_closing(target, &mut closing);
        self.add_temporary_measures(&closing, &mut flags);
        if moves_left {
            flags.push(not_finished(steps));
        } else {
            flags.extend(closing);
        }
        self.mark_accepted(&mut flags);
        flags.sort_by_key(|flag| std::cmp::Reverse(flag.code().severity()));
        flags
    }

    /// Whether a flag may be accepted as a deviation at all.
    pub fn may_be_accepted(&self, code: Code, at: Option<&Address>) -> bool {
        let sealed = |at: &Address| {
            let mapped = self.mapping.mapped(at).unwrap_or(at);
            self.housings.housing(&mapped.housing).is_some_and(|h| h.housing().sealing.is_sealed())
        };
        let open_in_sealed = matches!(code, Code::OpenCavity | Code::PlugMissing) && at.is_none_or(sealed);
        // A substitute is the one grave thing a name may settle: it is what the flag asks for.
        let by_name = code.severity() <= 2 || code == Code::Substitute;
        let never = [Code::NotFinished, Code::Unsigned, Code::TemporaryMeasure];
        by_name && !open_in_sealed && !never.contains(&code)
    }

    /// A temporary measure (a flag accepted with a due date) is a flag of its own until what it
    /// stands for is put right; time does not clear it.
    fn add_temporary_measures(&self, closing: &Flags, flags: &mut Flags) {
        let mut measures = Flags::new();
        for accepted in &self.course.accepted {
            let Some(due) = &accepted.due else { continue };
            let stands_for = |flag: &&Flag| accepted.is_about(flag);
            if let Some(flag) = flags.iter().chain(closing).find(stands_for) {
                let cause = FlagCause::Temporary { due: *due, reason: accepted.reason.clone() };
                measures.push(Flag { cause, ..flag.clone() });
            }
        }
        flags.extend(measures);
    }

    /// Marks accepted flags.
    fn mark_accepted(&self, flags: &mut Flags) {
        for flag in flags.iter_mut() {
            let Some(accepted) = self.course.accepted.iter().rev().find(|a| a.is_about(flag)) else {
                continue;
            };
            if self.may_be_accepted(flag.code(), flag.at.as_ref()) {
                flag.accepted = Some(accepted.clone());
            }
        }
    }
}

impl Accepted {
    /// Whether it is this flag that was accepted: of the same thing, wherever that is now; at the same
    /// cavity; or about the whole job, where the flag is.
    pub fn is_about(&self, flag: &Flag) -> bool {
        let is_same = match (&self.item, &flag.item) {
            (Some(accepted), Some(flagged)) => accepted == flagged,
            (Some(_), None) | (None, Some(_) | None) => self.at == flag.at,
        };
        let is_its_line = self.line.is_none_or(|line| flag.line == Some(line));
        self.flag == flag.code() && is_same && is_its_line
    }
}

/// One flag for everything ordinary steps will still do.
fn not_finished(steps: &[Step]) -> Flag {
    let open =
        |is: fn(&Task) -> bool| steps.iter().filter(|s| s.status != Status::Done && is(&s.what)).count();
    let records = open(|what| matches!(what, Task::Record { at: Some(_) }));
    let wires = open(|what| matches!(what, Task::MoveWire { .. }));
    let plugs =
        open(|what| matches!(what, Task::MovePlug { .. } | Task::FitPlug { .. } | Task::TakePlug { .. }));
    let others = open(|what| matches!(what, Task::MoveOther { .. }));
    let left = if records > 0 {
        LeftToDo::Records(records)
    } else if wires + plugs + others > 0 {
        LeftToDo::Moves { wires, plugs, others }
    } else {
        LeftToDo::Steps
    };
    Flag::job(FlagCause::NotFinished(left))
}
