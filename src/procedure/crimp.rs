//! A new terminal, step by step: the record of its crimp.

use crate::{
    catalogue::{PartNumber, Terminal},
    job::{Act, Crimp, CrimpVerdict, Lead, RepairKind, STRIP_OFF_MM, SamplePull},
    quantity::{Gauge, Length},
    reckoning::{Finding, Height, LookFault, PositionKey, ToolPosition, pull_minimum},
};

use super::{
    Acts, Choice, CrimpOf, CrimpQuestion, JobView, Kind, Prompt, Replies, Stop, Typed, Warning, tool, warned,
};

/// A new terminal: tool, strip, height, look, sample, verdict, in the order of the hands.
pub(super) fn new_terminal(
    view: &JobView<'_>,
    lead: &Lead,
    part: Option<PartNumber>,
    lot: Option<String>,
    replies: &mut Replies<'_>,
) -> Acts {
    let terminal = part.or_else(|| view.state().terminal_for(lead).map(|terminal| terminal.part.clone()));
    let crimping = Crimping { view, lead, terminal: terminal.as_ref() };
    let crimp = crimping.record(replies)?;
    Ok(vec![Act::Repair {
        made: None,
        lead: lead.id.clone(),
        how: RepairKind::NewTerminal,
        done: "seal, strip, crimp, look, tug".to_owned(),
        crimp: Some(Box::new(Crimp { lot, ..crimp })),
        splice: None,
        anyway: None,
        part: terminal,
    }])
}

/// One crimp: the lead, and the terminal that goes on it.
pub struct Crimping<'a> {
    view: &'a JobView<'a>,
    lead: &'a Lead,
    terminal: Option<&'a PartNumber>,
}

impl<'a> Crimping<'a> {
    /// The crimp of a terminal on the lead in question.
    pub fn of(view: &'a JobView<'a>, lead: &'a Lead, terminal: Option<&'a PartNumber>) -> Self {
        Self { view, lead, terminal }
    }

    /// The record as keyed, or the next question.
    fn record(&self, replies: &mut Replies<'_>) -> Result<Crimp, Stop> {
        let cut_back = match self.is_cut_back() {
            true => Some(replies.text(self.ask(CrimpQuestion::CutBack), Kind::Length)?.parse_or_wrong()?),
            false => None,
        };
        let of = || self.terminal.cloned();
        let typed = replies.text(self.ask(CrimpQuestion::Tool(of())), Kind::Tool)?;
        let (tool, position) = match self.proved().filter(|_| typed.is_same()) {
            Some(proved) => (proved.key.tool.clone(), proved.key.position.clone()),
            None => tool::tool_and_position(typed)?,
        };
        let unproved = replies.before_asking(|| self.unproved(&tool, &position));
        let strip = self.ask_warned(CrimpQuestion::Strip(of()), unproved);
        let strip: Length = replies.text(strip, Kind::Length)?.parse_or_wrong()?;
        let height = self.ask_warned(CrimpQuestion::Height(of()), self.stripped_off(&strip));
        let height = replies.text(height, Kind::Length)?.unless_dash();
        let height: Option<Length> = height.map(Typed::parse_or_wrong).transpose()?;
        let look = self.ask_warned(CrimpQuestion::Look, self.out_of_height(height.as_ref()));
        let look = match replies.yes(look)? {
            true => Vec::new(),
            false => faults(replies.text(self.ask(CrimpQuestion::Faults), Kind::Values)?)?,
        };
        let sample_pull = sample(replies.text(self.ask(CrimpQuestion::Sample), Kind::Values)?)?;
        let tug = self.ask_warned(CrimpQuestion::Tug, self.too_weak(sample_pull.as_ref()));
        let held = [(Choice::Held, CrimpVerdict::Accepted), (Choice::Redo, CrimpVerdict::Redo)];
        let verdict = replies.one_of(tug, &held)?;
        Ok(Crimp {
            wire: None,
            lot: None,
            tool: Some(tool),
            position: Some(position),
            cut_back,
            strip: Some(strip),
            height,
            width: None,
            look,
            sample_pull,
            verdict,
            book: None,
        })
    }

    fn ask(&self, question: CrimpQuestion) -> Prompt {
        self.ask_warned(question, None)
    }

    fn ask_warned(&self, question: CrimpQuestion, warning: Option<Warning>) -> Prompt {
        warned(CrimpOf { lead: self.lead.id.clone(), what: question }, warning)
    }

    /// Whether what was found lies in the wire, behind the terminal.
    fn is_cut_back(&self) -> bool {
        matches!(self.lead.finding, Some(Finding::Corroded | Finding::InsulationUnderSeal))
    }

    /// The terminal's sheet, where the families of the job have it.
    pub fn sheet(&self) -> Option<&'a Terminal> {
        self.view.state().housings.terminal_named(self.terminal?)
    }

    /// The height its sheet gives for the wire.
    pub fn sheet_height(&self) -> Option<Height> {
        let (target_mm, tolerance_mm) = self.sheet()?.height_for(self.lead.wire_to_crimp()?.area_mm2())?;
        Some(Height { target_mm, tolerance_mm })
    }

    /// The terminal and the wire it is crimped on.
    fn on_wire(&self) -> Option<(&'a PartNumber, &'a Gauge)> {
        self.terminal.zip(self.lead.wire_to_crimp())
    }

    /// The position that the tool book has for this crimp.
    pub fn proved(&self) -> Option<&'a ToolPosition> {
        let (terminal, wire) = self.on_wire()?;
        let today = self.view.today();
        self.view.tools.proved(terminal, wire, today)
    }

    /// What to know first about a tool that is not proved for this crimp.
    fn unproved(&self, tool: &str, position: &str) -> Option<Warning> {
        let (terminal, wire) = self.on_wire()?;
        let key = PositionKey {
            tool: tool.to_owned(),
            position: position.to_owned(),
            terminal: terminal.clone(),
            wire: wire.clone(),
        };
        let standing = self.view.tools.standing(&key, self.view.today());
        (!standing.is_qualified()).then_some(Warning::ToolNotProved(standing))
    }

    fn stripped_off(&self, strip: &Length) -> Option<Warning> {
        let sheet_mm = self.sheet()?.strip_mm?;
        let is_off = (strip.mm() - sheet_mm).abs() > STRIP_OFF_MM;
        is_off.then(|| Warning::StrippedOff { strip: strip.clone(), sheet_mm })
    }

    fn out_of_height(&self, height: Option<&Length>) -> Option<Warning> {
        let (sheet, height) = self.sheet_height().zip(height)?;
        (!sheet.takes(height.mm())).then(|| Warning::HeightOut { height: height.clone(), sheet })
    }

    fn too_weak(&self, sample: Option<&SamplePull>) -> Option<Warning> {
        let standard = self.view.state().world.rules.pull_standard.value;
        let (least_n, source) = pull_minimum(standard, self.lead.wire_to_crimp()?.area_mm2())?;
        let force_n = sample?.force_n;
        (force_n < least_n).then(|| Warning::SampleWeak { force_n, least_n, source: source.to_owned() })
    }
}

fn faults(typed: Typed<'_>) -> Result<Vec<LookFault>, Stop> {
    let fault = |n: &str| {
        let known = Typed(n).of_list(LookFault::ALL).copied();
        known.ok_or_else(|| Stop::wrong(format!("\"{n}\" is not on the list.")))
    };
    let numbers = typed.as_str().split([' ', ',']).filter(|n| !n.is_empty());
    let found: Vec<LookFault> = numbers.map(fault).collect::<Result<_, _>>()?;
    match found.is_empty() {
        true => Err(Stop::wrong("Key at least one number of the list.")),
        false => Ok(found),
    }
}

/// Pound-force in newton (exact, by definition).
const N_PER_LBF: f64 = 4.448_221_615_260_5;

/// `71 N at the crimp`, `71 crimp`, `16 lbf at the crimp`: the force, and where it broke.
fn sample(typed: Typed<'_>) -> Result<Option<SamplePull>, Stop> {
    let Some(Typed(typed)) = typed.unless_dash() else { return Ok(None) };
    let is_number = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',');
    let end = typed.find(|c: char| !is_number(c)).unwrap_or(typed.len());
    let (force, rest) = typed.split_at(end);
    let (unit_n, rest) = unit(rest.trim_start());
    let newton = force.replace(',', ".").parse::<f64>().ok().map(|force| force * unit_n);
    let force_n = newton
        .filter(|newton| newton.is_finite() && *newton > 0.0)
        .ok_or_else(|| Stop::wrong(format!("\"{typed}\" starts with no force: key 71 N at the crimp.")))?;
    let place = rest.trim_start();
    let place = ["at the ", "at ", "in the ", "in "]
        .iter()
        .find_map(|word| place.strip_prefix(word))
        .unwrap_or(place);
    match place.trim() {
        "" => Err(Stop::wrong("Where did it come off? Key the force, then the place: 71 N at the crimp.")),
        place => Ok(Some(SamplePull { force_n, broke_at: place.to_owned() })),
    }
}

/// The unit a force starts with, in newton, and what follows it; newton where none is said.
fn unit(rest: &str) -> (f64, &str) {
    let units = [("lbf", N_PER_LBF), ("lb", N_PER_LBF), ("kgf", 9.806_65), ("N", 1.0), ("n", 1.0)];
    let is_apart = |after: &str| !after.starts_with(|c: char| c.is_alphanumeric());
    let known = units.iter().find_map(|(unit, newton)| {
        rest.strip_prefix(unit).filter(|after| is_apart(after)).map(|after| (*newton, after))
    });
    known.unwrap_or((1.0, rest))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_force_keeps_its_unit_and_the_place_its_words() {
        for (typed, force_n, broke_at) in [
            ("95 N at the crimp", 95.0, "crimp"),
            ("95N at the crimp", 95.0, "crimp"),
            ("71 crimp", 71.0, "crimp"),
            ("71,5 strands in the crimp", 71.5, "strands in the crimp"),
            ("10 lbf at wire", 44.482_216_152_605, "wire"),
            ("8 near the barrel", 8.0, "near the barrel"),
        ] {
            match sample(Typed(typed)) {
                Ok(Some(pull)) => {
                    assert!((pull.force_n - force_n).abs() < 1e-9, "{typed}: {}", pull.force_n);
                    assert_eq!(pull.broke_at, broke_at, "{typed}");
                }
                other => panic!("{typed}: {other:?}"),
            }
        }
        for wrong in ["crimp", "95", "95 N", "N 95 crimp", "0 N crimp", ". crimp"] {
            assert!(sample(Typed(wrong)).is_err(), "{wrong}");
        }
        assert_eq!(sample(Typed("-")).unwrap(), None);
    }

    #[test]
    fn faults_are_numbers_of_the_list() {
        let first = LookFault::ALL.first().copied().into_iter().collect::<Vec<_>>();
        assert_eq!(faults(Typed("1")).unwrap(), first);
        assert_eq!(faults(Typed("1, 2")).unwrap().len(), 2);
        for wrong in ["", "0", "99", "x"] {
            assert!(faults(Typed(wrong)).is_err(), "{wrong}");
        }
    }
}
