//! What the repairs of a job need: terminals with their seals, seals alone, repair leads.

use std::collections::{BTreeMap, BTreeSet};

use super::{
    JobLine,
    build::{describe, line},
    leads::{WantedLead, lead_lines},
};
use crate::{
    catalogue::{Family, PartNumber, Sealing, SizeName, Terminal, WireSeal},
    job::{Assessment, ItemId, JobHousing, JobSide, Lead, MadeLead, RepairKind, State},
    reckoning::ToolBook,
    supply::{Line, PartKind, Substitute},
};

/// Terminals with their seals, seals alone, repair leads: planned or done.
pub(super) fn repair_lines(
    state: &State,
    assessment: &Assessment,
    proved: &Proved<'_>,
    lines: &mut Vec<JobLine>,
) {
    let mut terminals: BTreeMap<String, JobLine> = BTreeMap::new();
    let mut seals: BTreeMap<String, JobLine> = BTreeMap::new();
    let mut splices: BTreeMap<String, JobLine> = BTreeMap::new();
    let mut large: BTreeSet<String> = BTreeSet::new();
    let mut unproved: BTreeSet<String> = BTreeSet::new();
    for lead in &state.items.leads {
        let Some((new, size, to)) = goes_into(state, assessment, lead) else { continue };
        let size = size.as_ref();
        for RepairAsked { kind, part, made } in asked_repairs(lead) {
            match kind {
                RepairKind::NewTerminal => {
                    let asked = terminal_line(state, new, size, lead, part);
                    if size.is_some_and(is_large) {
                        large.insert(part_key(&asked));
                    }
                    if !proved.is_proved(&asked, lead) {
                        unproved.insert(part_key(&asked));
                    }
                    add(&mut terminals, asked, lead, &to);
                    if new.housing().sealing == Sealing::Individual {
                        let added = " (added: every new terminal takes its seal)";
                        add(&mut seals, seal_line(new, size, lead, None, added), lead, &to);
                    }
                }
                RepairKind::NewSeal => add(&mut seals, seal_line(new, size, lead, part, ""), lead, &to),
                RepairKind::RepairLead | RepairKind::Join => {
                    let (order, length) = match made {
                        // What was made stays asked for as it was ordered.
                        Some(made) => (Some(&made.order), made.length),
                        None => {
                            let planned =
                                assessment.ordered(state, &lead.id).and_then(|ordered| ordered.length);
                            (lead.order.as_deref(), planned)
                        }
                    };
                    let is_made = made.is_some();
                    let wanted = WantedLead { lead, order, is_made, length, new, size, to: &to, part };
                    let (line, splice) = lead_lines(state, &wanted);
                    lines.push(line);
                    if let Some(splice) = splice {
                        add(&mut splices, splice, lead, &to);
                    }
                }
                RepairKind::Reform | RepairKind::Other => {}
            }
        }
    }
    let spares = &state.world.rules.spares.value;
    for mut line in terminals.into_values() {
        let share = (line.asked.need * spares.terminals_percent).div_ceil(100);
        line.asked.spare = match large.contains(&part_key(&line.asked)) {
            true => spares.terminals_large,
            false => spares.terminals_least.max(share),
        };
        let samples = sample_line(&line.asked, spares.samples)
            .filter(|samples| unproved.contains(&part_key(&line.asked)) || proved.was_asked(samples));
        lines.push(line);
        lines.extend(samples.map(JobLine::of));
    }
    for mut line in splices.into_values() {
        line.asked.spare = spares.splices;
        lines.push(line);
    }
    for mut line in seals.into_values() {
        line.asked.spare = spares.wire_seals;
        lines.push(line);
    }
}

/// Sizes are named by the width of their blade or pin in mm; up to this one they are small.
const SMALL_UP_TO: f64 = 1.5;

fn is_large(size: &SizeName) -> bool {
    size.to_string().parse::<f64>().is_ok_and(|mm| mm > SMALL_UP_TO)
}

/// The housing and cavity size a lead's parts are for, and the cavity in words. A lead that has no
/// place on the new side yet is asked for by the cavity it came from.
fn goes_into<'a>(
    state: &'a State,
    assessment: &Assessment,
    lead: &Lead,
) -> Option<(&'a JobHousing, Option<SizeName>, String)> {
    // One lead for two goes where the other one goes.
    let goes = lead.joined_with.as_ref().unwrap_or(&lead.id);
    if let Some(to) = assessment.target.of(goes) {
        return Some((state.housings.housing(&to.housing)?, state.housings.cavity_size(to), to.to_string()));
    }
    let from = match (&lead.id, &lead.came_from) {
        (ItemId::At(at), _) => Some(at),
        (_, from) => from.as_ref(),
    };
    let size = from.and_then(|at| state.housings.cavity_size(at));
    let new = state.housings.side(JobSide::New).next()?;
    Some((new, size, from.map_or_else(|| lead.id.to_string(), ToString::to_string)))
}

/// A repair that asks for parts: which, the part named for it, and the repair lead once it is made.
struct RepairAsked<'a> {
    kind: RepairKind,
    part: Option<&'a PartNumber>,
    made: Option<&'a MadeLead>,
}

/// The repairs of a lead, done and planned.
fn asked_repairs(lead: &Lead) -> impl Iterator<Item = RepairAsked<'_>> {
    let done = lead.repairs.iter();
    let done =
        done.map(|done| RepairAsked { kind: done.kind, part: done.part.as_ref(), made: done.made.as_ref() });
    let planned = |kind| RepairAsked { kind, part: lead.planned_part.as_ref(), made: None };
    done.chain(lead.planned.map(planned))
}

fn add(lines: &mut BTreeMap<String, JobLine>, mut fresh: Line, lead: &Lead, to: &str) {
    let line = lines.entry(part_key(&fresh)).or_insert_with(|| {
        fresh.need = 0;
        JobLine::of(fresh)
    });
    line.asked.need += 1;
    // A crimp made twice is for one cavity.
    if !line.asked.for_cavities.iter().any(|at| at == to) {
        line.asked.for_cavities.push(to.to_owned());
    }
    line.leads.push(lead.id.clone());
}

/// Parts without a number are one line only where they look the same.
fn part_key(line: &Line) -> String {
    format!("{:?}|{}|{:?}", line.part, line.description, line.describe)
}

/// What the shop's tool book says about the terminals that are asked for.
pub(super) struct Proved<'a> {
    /// The book.
    pub book: &'a ToolBook,
    /// Today, as YYYY-MM-DD.
    pub today: String,
    /// The request sent before.
    pub previous: Option<&'a super::RequestForm>,
}

impl Proved<'_> {
    /// Whether a tool's position is qualified for a terminal on the wire of a lead.
    fn is_proved(&self, terminal: &Line, lead: &Lead) -> bool {
        let part = terminal.part.as_ref().and_then(|part| part.parse().ok());
        let wire = lead.wire_to_crimp();
        part.zip(wire).is_some_and(|(part, wire)| self.book.proved(&part, wire, &self.today).is_some())
    }

    /// Whether these samples were asked for before: they were used to qualify the position.
    fn was_asked(&self, samples: &Line) -> bool {
        self.previous.is_some_and(|previous| previous.line_like(samples, &[]).is_some())
    }
}

/// What a part is for: a cavity size, when it is known.
fn for_size(size: Option<&SizeName>) -> String {
    size.map_or_else(|| "a cavity of unknown size".to_owned(), |size| format!("cavity size {size}"))
}

/// A part the bench named that is not of the family: asked for as named, and said.
fn named_line(kind: PartKind, part: &PartNumber, new: &JobHousing, size: Option<&SizeName>) -> Line {
    let family = &new.definition.family().id;
    let description =
        format!("{} for {}, as named at the bench; not in family {family}", kind.as_str(), for_size(size));
    let mut asked = line(kind, Some(part.to_string()), description, 1);
    asked.read_from = Some("the bench".to_owned());
    asked.substitute = Substitute::AskFirst;
    asked
}

fn terminal_line(
    _state: &State,
    new: &JobHousing,
    size: Option<&SizeName>,
    lead: &Lead,
    named: Option<&PartNumber>,
) -> Line {
    let family = new.definition.family();
    let of_size = |part: &PartNumber| family.terminals_for(size?).find(|t| t.part == *part);
    if let Some(part) = named
        && of_size(part).is_none()
    {
        return named_line(PartKind::Terminal, part, new, size);
    }
    let known = named.or_else(|| lead.terminal()).and_then(of_size);
    match known.or_else(|| terminal_for(family, new, size?, lead)) {
        Some(terminal) => {
            let description = format!("terminal for {}, plating {}", for_size(size), terminal.plating);
            let mut asked = line(PartKind::Terminal, Some(terminal.part.to_string()), description, 1);
            asked.read_from = Some(format!("definition of family {}", family.id));
            asked
        }
        None => {
            let mut asked = line(PartKind::Terminal, None, format!("terminal for {}", for_size(size)), 1);
            asked.describe = Some(describe(new, size, Some(lead)));
            asked.substitute = Substitute::AskFirst;
            asked
        }
    }
}

/// The one terminal of a size that takes the wire, of the housing's gender; none when several do.
fn terminal_for<'a>(
    family: &'a Family,
    new: &JobHousing,
    size: &'a SizeName,
    lead: &Lead,
) -> Option<&'a Terminal> {
    let area = lead.area_to_crimp_mm2();
    let gender = new.housing().gender;
    let fits = |t: &&Terminal| {
        t.gender == gender && area.is_none_or(|a| a >= t.wire_mm2.0 - 1e-9 && a <= t.wire_mm2.1 + 1e-9)
    };
    let mut fitting = family.terminals_for(size).filter(fits);
    let first = fitting.next();
    first.filter(|_| fitting.next().is_none())
}

/// A wire seal: by the part named for it, else by the insulation.
fn seal_line(
    new: &JobHousing,
    size: Option<&SizeName>,
    lead: &Lead,
    named: Option<&PartNumber>,
    added: &str,
) -> Line {
    let family = new.definition.family();
    let by_name = |part: &PartNumber| family.wire_seals.iter().find(|seal| seal.part == *part);
    if let Some(part) = named
        && by_name(part).is_none()
    {
        return named_line(PartKind::WireSeal, part, new, size);
    }
    let diameter = lead.first_wire().and_then(|w| w.outside_diameter.as_ref()?.known());
    let seal: Option<&WireSeal> = named.and_then(by_name).or_else(|| match diameter {
        Some(diameter) => family.seal_for(size?, diameter),
        None => {
            let mut of_size = family.wire_seals.iter().filter(|s| Some(&s.size) == size);
            of_size.next().filter(|_| of_size.next().is_none())
        }
    });
    match seal {
        Some(seal) => {
            let (least, most) = seal.insulation_mm;
            let description =
                format!("wire seal for insulation {least} to {most} mm, {}{added}", seal.colour);
            let mut asked = line(PartKind::WireSeal, Some(seal.part.to_string()), description, 1);
            asked.read_from = Some(format!("definition of family {}", family.id));
            asked
        }
        None => {
            let description =
                format!("wire seal for {}, chosen by the insulation's diameter{added}", for_size(size));
            let mut asked = line(PartKind::WireSeal, None, description, 1);
            asked.describe = Some(describe(new, size, Some(lead)));
            asked.substitute = Substitute::AskFirst;
            asked
        }
    }
}

/// Sample terminals to qualify the tool's position on, before the first real crimp.
fn sample_line(terminal: &Line, samples: u32) -> Option<Line> {
    let mut asked = line(
        PartKind::Terminal,
        terminal.part.clone(),
        format!("{}: samples to qualify the tool's position", terminal.description),
        samples,
    );
    asked.read_from.clone_from(&terminal.read_from);
    asked.describe.clone_from(&terminal.describe);
    asked.essential = false;
    (samples > 0).then_some(asked)
}
