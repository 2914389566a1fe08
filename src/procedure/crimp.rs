//! A new terminal, step by step: the record of its crimp.

use crate::{
    catalogue::{PartNumber, Sealing, Terminal},
    job::{Act, Crimp, CrimpVerdict, Lead, RepairKind, STRIP_OFF_MM, SamplePull},
    quantity::{Length, QuantityProblem},
    reckoning::{Finding, Height, LookFault, PositionKey, ToolPosition, pull_minimum},
};

use super::{Asked, Choice, JobView, Reply, field, offer, picks};

/// A new terminal: tool, strip, height, look, sample, verdict, in the order of the hands. Each answer
/// is read before the next question.
pub(super) fn new_terminal(
    view: &JobView<'_>,
    lead: &Lead,
    part: Option<PartNumber>,
    lot: Option<String>,
    answers: &[Reply],
) -> Asked {
    let terminal = part.or_else(|| view.state().terminal_for(lead).map(|terminal| terminal.part.clone()));
    let asks = CrimpAsks { view, lead, terminal: terminal.as_ref() };
    match asks.record(answers) {
        Err(question) => question,
        Ok(crimp) => Asked::Ready(vec![Act::Repair {
            lead: lead.id.clone(),
            how: RepairKind::NewTerminal,
            done: "seal, strip, crimp, look, tug".to_owned(),
            crimp: Some(Box::new(Crimp { lot, ..crimp })),
            splice: None,
            anyway: None,
            part: terminal,
        }]),
    }
}

/// What is typed, or the question that asks for it.
pub(super) fn typed<Q: Into<Asked>>(
    answer: Option<&Reply>,
    question: impl FnOnce() -> Q,
) -> Result<&str, Asked> {
    match answer {
        Some(Reply::Text(text)) => Ok(text.trim()),
        Some(Reply::Choice(_)) | None => Err(question().into()),
    }
}

/// What is picked, or the question that asks for it.
pub(super) fn picked(answer: Option<&Reply>, question: impl FnOnce() -> Asked) -> Result<Choice, Asked> {
    match answer {
        Some(Reply::Choice(pick)) => Ok(*pick),
        Some(Reply::Text(_)) | None => Err(question()),
    }
}

/// A length as keyed, or what is wrong with it.
pub(super) fn length(text: &str) -> Result<Length, Asked> {
    text.parse().map_err(|why: QuantityProblem| Asked::Wrong(why.to_string()))
}

/// The questions about one crimp.
struct CrimpAsks<'a> {
    view: &'a JobView<'a>,
    lead: &'a Lead,
    terminal: Option<&'a PartNumber>,
}

impl CrimpAsks<'_> {
    /// The record as keyed, or the next question.
    fn record(&self, answers: &[Reply]) -> Result<Crimp, Asked> {
        let mut left = answers.iter();
        let cut_back = match self.is_cut_back() {
            true => Some(length(typed(left.next(), ask_cut_back)?)?),
            false => None,
        };
        let (tool, position) = match (typed(left.next(), || self.ask_tool())?, self.proved()) {
            ("=", Some(proved)) => (proved.key.tool.clone(), proved.key.position.clone()),
            (typed, _) => super::tool::tool_and_position(typed).map_err(Asked::Wrong)?,
        };
        let strip = length(typed(left.next(), || self.ask_strip(&tool, &position))?)?;
        let height = match typed(left.next(), || self.ask_height(&strip))? {
            "-" => None,
            measured => Some(length(measured)?),
        };
        let look = match picked(left.next(), || self.ask_look(height.as_ref()))? {
            Choice::No => faults(typed(left.next(), ask_faults)?)?,
            _ => Vec::new(),
        };
        let sample_pull = sample(typed(left.next(), ask_sample)?)?;
        let verdict = match picked(left.next(), || self.ask_tug(sample_pull.as_ref()))? {
            Choice::Redo => CrimpVerdict::Redo,
            _ => CrimpVerdict::Accepted,
        };
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

    /// Whether what was found lies in the wire, behind the terminal.
    fn is_cut_back(&self) -> bool {
        matches!(self.lead.finding, Some(Finding::Corroded | Finding::InsulationUnderSeal))
    }

    /// The terminal's sheet, where the families of the job have it.
    fn sheet(&self) -> Option<&Terminal> {
        self.view.state().housings.terminal_named(self.terminal?)
    }

    fn sheet_height(&self) -> Option<Height> {
        let (target_mm, tolerance_mm) = self.sheet()?.height_for(self.lead.wire_to_crimp()?.area_mm2())?;
        Some(Height { target_mm, tolerance_mm })
    }

    /// The position that the tool book has for this crimp.
    fn proved(&self) -> Option<&ToolPosition> {
        let (terminal, wire) = self.terminal.zip(self.lead.wire_to_crimp())?;
        let today = self.view.today();
        self.view.tools.proved(terminal, wire, &today)
    }

    /// Which position to use, as the tool book has it.
    fn ask_tool(&self) -> String {
        let use_this = match self.proved() {
            Some(proved) => format!(
                "= uses {}, {} ({})",
                proved.key.tool,
                proved.key.position,
                proved.standing(&self.view.today())
            ),
            None => "NO position is qualified for it on this wire (! proves one)".to_owned(),
        };
        let what = self.terminal.map_or("the terminal".to_owned(), ToString::to_string);
        format!("TOOL for {what}: {use_this}. Key tool with serial, comma, position")
    }

    /// How long to strip, and what to know first about a tool that is not proved for this crimp.
    fn ask_strip(&self, tool: &str, position: &str) -> Asked {
        let wire = self.lead.wire_to_crimp();
        let standing = self.terminal.zip(wire).map(|(terminal, wire)| {
            let key = PositionKey {
                tool: tool.to_owned(),
                position: position.to_owned(),
                terminal: terminal.clone(),
                wire: wire.clone(),
            };
            self.view.tools.standing(&key, &self.view.today())
        });
        let unproved = match standing {
            Some(standing) if !standing.is_qualified() => {
                format!("{standing}: its crimp counts only when a named person accepts it.")
            }
            _ => String::new(),
        };
        let target = self.sheet().and_then(|t| t.strip_mm);
        let target = target.map_or(String::new(), |mm| format!(", sheet {mm} mm"));
        let seal = match self.is_sealed() {
            true => {
                "SEAL ON the wire, small end as its sheet says; covers and nuts that cannot pass first; then "
            }
            false => "BOOT, COVER or NUT that cannot pass the terminal ON the wire; then ",
        };
        field(format!("{seal}STRIP{target}. Stripped how long?")).loudly(unproved)
    }

    fn ask_height(&self, strip: &Length) -> Asked {
        let off = match self.sheet().and_then(|t| t.strip_mm) {
            Some(asked) if (strip.mm() - asked).abs() > STRIP_OFF_MM => {
                format!(
                    "STRIPPED {}, the sheet says {asked} mm: cut it off, strip again, Esc keys it anew.",
                    strip.both()
                )
            }
            _ => String::new(),
        };
        let target = self.sheet_height();
        let target = target.map_or("no sheet for this wire".to_owned(), |sheet| format!("sheet {sheet}"));
        field(format!(
            "CRIMP, then MEASURE the conductor crimp, blade one side, point the other ({target}). Height? (- not measured)"
        ))
        .loudly(off)
    }

    /// Whether a seal sits on the wire.
    fn is_sealed(&self) -> bool {
        self.view.goes_into(self.lead).is_none_or(|h| h.housing().sealing == Sealing::Individual)
    }

    fn ask_tug(&self, sample: Option<&SamplePull>) -> Asked {
        let standard = self.view.state().world.rules.pull_standard.value;
        let least = self.lead.wire_to_crimp().and_then(|wire| pull_minimum(standard, wire.area_mm2()));
        let weak = match sample.zip(least) {
            Some((sample, (least_n, source))) if sample.force_n < least_n => {
                format!(
                    "TOO WEAK: the sample came off at {} N, least {least_n} N ({source}).",
                    sample.force_n
                )
            }
            _ => String::new(),
        };
        let offered = vec![(Choice::Held, Some("it stays".to_owned())), (Choice::Redo, None)];
        offer("FINGER TUG the crimp. Does it stay?", offered).loudly(weak)
    }

    fn ask_look(&self, height: Option<&Length>) -> Asked {
        let out = self.sheet_height().zip(height).filter(|(sheet, height)| !sheet.takes(height.mm()));
        let out = out.map_or(String::new(), |(sheet, height)| {
            format!("OUT: {}, the sheet says {sheet}. Cut it off and crimp again.", height.both())
        });
        picks(
            format!(
                "LOOK: bellmouth, brush in front, no insulation in it, no strand out or cut, wire not tinned, straight{}. All so?",
                if self.is_sealed() { ", seal in its wings" } else { "" }
            ),
            &[Choice::Yes, Choice::No],
        )
        .loudly(out)
    }
}

fn ask_cut_back() -> String {
    "CUT BACK to bright copper and whole insulation. How much wire went beyond the old terminal? (mm; 0 none)"
        .to_owned()
}

fn ask_faults() -> String {
    let list = LookFault::ALL.iter().zip(1..).map(|(fault, n)| format!("{n} {}", fault.words()));
    format!("Which? Key the numbers: {}", list.collect::<Vec<_>>().join(", "))
}

fn faults(typed: &str) -> Result<Vec<LookFault>, Asked> {
    let fault = |n: &str| {
        let index = n.parse::<usize>().ok().and_then(|n| n.checked_sub(1));
        let known = index.and_then(|n| LookFault::ALL.get(n).copied());
        known.ok_or(Asked::Wrong(format!("\"{n}\" is not on the list.")))
    };
    let found: Vec<LookFault> =
        typed.split([' ', ',']).filter(|n| !n.is_empty()).map(fault).collect::<Result<_, _>>()?;
    match found.is_empty() {
        true => Err(Asked::Wrong("Key at least one number of the list.".to_owned())),
        false => Ok(found),
    }
}

fn ask_sample() -> String {
    "SAMPLE made with it, pulled off: force in N and where it broke? (- none; the real crimp only gets a finger tug)".to_owned()
}

/// Pound-force in newton (exact, by definition).
const N_PER_LBF: f64 = 4.448_221_615_260_5;

/// `71 N at the crimp`, `71 crimp`, `16 lbf at the crimp`: the force, and where it broke.
fn sample(typed: &str) -> Result<Option<SamplePull>, Asked> {
    if typed == "-" {
        return Ok(None);
    }
    let is_number = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',');
    let end = typed.find(|c: char| !is_number(c)).unwrap_or(typed.len());
    let (force, rest) = typed.split_at(end);
    let (unit_n, rest) = unit(rest.trim_start());
    let newton = force.replace(',', ".").parse::<f64>().ok().map(|force| force * unit_n);
    let force_n = newton
        .filter(|newton| newton.is_finite() && *newton > 0.0)
        .ok_or_else(|| Asked::Wrong(format!("\"{typed}\" starts with no force: key 71 N at the crimp.")))?;
    let place = rest.trim_start();
    let place = ["at the ", "at ", "in the ", "in "]
        .iter()
        .find_map(|word| place.strip_prefix(word))
        .unwrap_or(place);
    match place.trim() {
        "" => Err(Asked::Wrong(
            "Where did it come off? Key the force, then the place: 71 N at the crimp.".to_owned(),
        )),
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
            match sample(typed) {
                Ok(Some(pull)) => {
                    assert!((pull.force_n - force_n).abs() < 1e-9, "{typed}: {}", pull.force_n);
                    assert_eq!(pull.broke_at, broke_at, "{typed}");
                }
                other => panic!("{typed}: {other:?}"),
            }
        }
        for wrong in ["crimp", "95", "95 N", "N 95 crimp", "0 N crimp", ". crimp"] {
            assert!(sample(wrong).is_err(), "{wrong}");
        }
        assert_eq!(sample("-"), Ok(None));
    }
}
