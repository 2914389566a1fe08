//! From a job to the lines of its request.

use std::collections::BTreeMap;

use super::{Describe, Kind, Line, Request, RequestForm, RequestHead, number_of};
use crate::{
    catalogue::{Family, Gender, PartNumber, Sealing, SizeName, SmallPart, Supplied, Terminal, WireSeal},
    record::Address,
    swap::{Expected, ItemId, Job, JobHousing, JobSide, Lead, Place, PlugOrigin, RepairKind, State, Survey},
};

const ASK_FIRST: &str = "ask me first";
const NONE: &str = "none";

/// The request of a job as it stands, numbered on from the one sent before.
pub fn build(
    job: &Job,
    survey: &Survey,
    id: &str,
    head: RequestHead,
    previous: Option<&RequestForm>,
) -> Request {
    let state = job.state();
    let mut lines = Vec::new();
    for new in state.side(JobSide::New) {
        housing_lines(new, &mut lines);
        plug_lines(state, survey, new, &mut lines);
    }
    repair_lines(state, survey, &mut lines);
    let head = previous.map_or_else(|| head.clone(), |previous| previous.head_for(&head));
    let changed = number_lines(&mut lines, previous) || previous.is_some_and(|p| p.head_differs(&head));
    let sent = state.requested.as_ref().map_or(0, |r| r.revision);
    Request {
        number: number_of(id),
        revision: if changed { sent + 1 } else { sent.max(1) },
        changed,
        job: id.to_owned(),
        ticket: state.ticket.clone(),
        head,
        photos: state.photos.iter().map(|(number, _)| number.clone()).collect(),
        lines,
    }
}

/// Gives every line its number: the one it had, else a new one. Lines that are gone stay with
/// need 0. Says whether anything changed.
fn number_lines(lines: &mut Vec<Line>, previous: Option<&RequestForm>) -> bool {
    let Some(previous) = previous else {
        (1..).zip(lines.iter_mut()).for_each(|(n, line)| line.line = n);
        return true;
    };
    let mut next = previous.last_line() + 1;
    let mut changed = false;
    let mut kept = Vec::new();
    for line in lines.iter_mut() {
        match previous.line_like(line, &kept) {
            Some((number, same)) => {
                line.line = number;
                changed |= !same;
                kept.push(number);
            }
            None => {
                line.line = next;
                next += 1;
                changed = true;
            }
        }
    }
    for gone in previous.gone(&kept) {
        changed |= gone.1;
        lines.push(gone.0);
    }
    lines.sort_by_key(|line| line.line);
    changed
}

fn line(kind: Kind, part: Option<String>, description: String, need: u32) -> Line {
    Line {
        line: 0,
        kind,
        part,
        read_from: None,
        description,
        describe: None,
        need,
        spare: 0,
        pack: None,
        for_cavities: Vec::new(),
        essential: true,
        substitute: NONE,
        supplied_with: None,
        leads: Vec::new(),
    }
}

/// The housing and what is forgotten beside it.
fn housing_lines(new: &JobHousing, lines: &mut Vec<Line>) {
    let housing = new.housing();
    let mut main = line(Kind::Housing, Some(housing.part.to_string()), housing.title.clone(), 1);
    if let Some(revision) = &housing.revision {
        main.description.push_str(&format!(", revision {revision}"));
    }
    main.read_from = Some(format!("definition of family {}", new.definition.family().id));
    lines.push(main);
    if let Some(lock) = &housing.lock {
        let part = lock.part.as_ref().map(ToString::to_string);
        lines.push(companion(Kind::SecondaryLock, part, &lock.kind, lock.supplied, new));
    }
    if let Some(clip) = &housing.assurance {
        lines.push(small_part(Kind::Assurance, clip, new));
    }
    for part in &housing.small_parts {
        lines.push(small_part(Kind::SmallPart, part, new));
    }
}

fn small_part(kind: Kind, part: &SmallPart, new: &JobHousing) -> Line {
    companion(kind, part.part.as_ref().map(ToString::to_string), &part.name, part.supplied, new)
}

fn companion(kind: Kind, part: Option<String>, name: &str, supplied: Supplied, new: &JobHousing) -> Line {
    let housing = new.housing();
    let description = format!("{name} of {} (added: its companion)", housing.part);
    let mut companion = line(kind, part, description, 1);
    companion.supplied_with = (supplied == Supplied::With).then(|| housing.part.to_string());
    if companion.part.is_none() {
        companion.describe = Some(describe(new, None, None));
    } else {
        companion.read_from = Some(format!("definition of family {}", new.definition.family().id));
    }
    companion
}

/// How a part looks that goes into this housing.
fn describe(new: &JobHousing, size: Option<&SizeName>, lead: Option<&Lead>) -> Describe {
    let housing = new.housing();
    let wires = lead.map_or(&[][..], |l| l.seen.wires.as_slice());
    Describe {
        size: size.map(ToString::to_string),
        gender: Some(match housing.gender {
            Gender::Male => "male",
            Gender::Female => "female",
        }),
        gauges: wires.iter().filter_map(|w| w.gauge.known()).map(crate::quantity::Gauge::both).collect(),
        colours: wires
            .iter()
            .filter_map(|w| w.colour.known())
            .map(|c| format!("{c} ({})", c.words()))
            .collect(),
        diameters: wires
            .iter()
            .filter_map(|w| w.outside_diameter.as_ref()?.known())
            .map(crate::quantity::Length::both)
            .collect(),
        fits: housing.part.to_string(),
        sealing: match housing.sealing {
            Sealing::Individual => "a seal on every wire",
            Sealing::Mat { .. } => "mat seal",
            Sealing::Unsealed => "not sealed",
        },
        place: new.name.to_string(),
    }
}

/// Plugs by cavity size: holes that take one, less the sound ones already here.
fn plug_lines(state: &State, survey: &Survey, new: &JobHousing, lines: &mut Vec<Line>) {
    let mut missing: BTreeMap<SizeName, Vec<Address>> = BTreeMap::new();
    for cavity in &new.housing().cavities {
        let at = new.address(&cavity.label);
        let wants = match survey.target.expected(&at) {
            Expected::Plug(Some(from)) => !plug_serves(state, from, &at),
            Expected::Plug(None) | Expected::SpareAndPlug => true,
            _ => false,
        };
        // A hole that is filled by a plug that was found or delivered asks for none.
        let filled = state.plug_at(&at).is_some_and(|p| p.origin != PlugOrigin::Stock);
        if wants && !filled {
            missing.entry(cavity.size.clone()).or_default().push(at);
        }
    }
    for (size, mut cavities) in missing {
        let lying = state.plugs.iter().filter(|p| lies_ready(&p.place) && p.size.as_ref() == Some(&size));
        let ready = lying.filter(|p| p.origin == PlugOrigin::Prefitted).count();
        cavities.truncate(cavities.len().saturating_sub(ready));
        if cavities.is_empty() {
            continue;
        }
        let family = new.definition.family();
        let plug = family.plug_for(&size);
        let description = match plug {
            Some(plug) => format!("blanking plug for cavity size {size}, {}", plug.colour),
            None => format!("blanking plug for cavity size {size}"),
        };
        let need = u32::try_from(cavities.len()).unwrap_or(u32::MAX);
        let mut asked = line(Kind::Plug, plug.map(|p| p.part.to_string()), description, need);
        asked.spare = state.rules.spares.value.plugs;
        asked.pack = plug.and_then(|p| p.pack);
        asked.for_cavities = cavities.iter().map(ToString::to_string).collect();
        match plug {
            Some(_) => asked.read_from = Some(format!("definition of family {}", family.id)),
            None => asked.describe = Some(describe(new, Some(&size), None)),
        }
        lines.push(asked);
    }
}

/// Whether the plug recorded in an old cavity is still one to be used for a new one: not lost, not
/// left behind, and not borrowed for another hole.
fn plug_serves(state: &State, from: &Address, to: &Address) -> bool {
    let plug = state.plugs.iter().find(|p| p.id == ItemId::At(from.clone()));
    let is_here = |place: &Place| match place {
        Place::In(at) => at == to || state.side_of(at) == Some(JobSide::Old),
        place => lies_ready(place),
    };
    plug.is_some_and(|p| is_here(&p.place)) && !state.left_in_old.contains_key(from)
}

fn lies_ready(place: &Place) -> bool {
    matches!(place, Place::Hand | Place::Tray)
}

/// Terminals with their seals, seals alone, repair leads: planned or done.
fn repair_lines(state: &State, survey: &Survey, lines: &mut Vec<Line>) {
    let mut terminals: BTreeMap<String, Line> = BTreeMap::new();
    let mut seals: BTreeMap<String, Line> = BTreeMap::new();
    for lead in &state.leads {
        let Some((new, size, to)) = goes_into(state, survey, lead) else { continue };
        for kind in asked_repairs(lead) {
            match kind {
                RepairKind::NewTerminal => {
                    add(&mut terminals, terminal_line(state, new, &size, lead), lead, &to);
                    if new.housing().sealing == Sealing::Individual {
                        add(&mut seals, seal_line(new, &size, lead, None), lead, &to);
                    }
                }
                RepairKind::NewSeal => {
                    let named = lead.planned_part.as_ref();
                    add(&mut seals, seal_line(new, &size, lead, Some(named)), lead, &to);
                }
                RepairKind::RepairLead => lines.push(lead_line(state, new, &size, lead, &to)),
                RepairKind::Reform | RepairKind::Other => {}
            }
        }
    }
    let spares = &state.rules.spares.value;
    for mut asked in terminals.into_values() {
        let share = (asked.need * spares.terminals_percent).div_ceil(100);
        asked.spare = spares.terminals_least.max(share);
        let samples = sample_line(&asked, spares.samples);
        lines.push(asked);
        lines.extend(samples);
    }
    for mut asked in seals.into_values() {
        asked.spare = spares.wire_seals;
        lines.push(asked);
    }
}

/// The housing and cavity size a lead's parts are for, and the cavity in words. A lead that has no
/// place on the new side yet is asked for by the cavity it came from.
fn goes_into<'a>(
    state: &'a State,
    survey: &Survey,
    lead: &Lead,
) -> Option<(&'a JobHousing, Option<SizeName>, String)> {
    if let Some(to) = survey.target.of(&lead.id) {
        return Some((state.housing(&to.housing)?, state.cavity_size(to), to.to_string()));
    }
    let from = match (&lead.id, &lead.came_from) {
        (ItemId::At(at), _) => Some(at),
        (_, from) => from.as_ref(),
    };
    let size = from.and_then(|at| state.cavity_size(at));
    let new = state.side(JobSide::New).next()?;
    Some((new, size, from.map_or_else(|| lead.id.to_string(), ToString::to_string)))
}

/// The repairs of a lead that use parts, the planned one once.
fn asked_repairs(lead: &Lead) -> Vec<RepairKind> {
    lead.repairs.iter().map(|(kind, _)| *kind).chain(lead.planned).collect()
}

fn add(lines: &mut BTreeMap<String, Line>, mut fresh: Line, lead: &Lead, to: &str) {
    // Parts without a number are one line only where they look the same.
    let key = format!("{:?}|{}|{:?}", fresh.part, fresh.description, fresh.describe);
    let asked = lines.entry(key).or_insert_with(|| {
        fresh.need = 0;
        fresh
    });
    asked.need += 1;
    asked.for_cavities.push(to.to_owned());
    asked.leads.push(lead.id.clone());
}

/// What a part is for: a cavity size, when it is known.
fn for_size(size: Option<&SizeName>) -> String {
    size.map_or_else(|| "a cavity of unknown size".to_owned(), |size| format!("cavity size {size}"))
}

/// A part the bench named that is not of the family: asked for as named, and said.
fn named_line(kind: Kind, part: &PartNumber, new: &JobHousing, size: Option<&SizeName>) -> Line {
    let family = &new.definition.family().id;
    let description =
        format!("{} for {}, as named at the bench; not in family {family}", kind.as_str(), for_size(size));
    let mut asked = line(kind, Some(part.to_string()), description, 1);
    asked.read_from = Some("the bench".to_owned());
    asked.substitute = ASK_FIRST;
    asked
}

fn terminal_line(state: &State, new: &JobHousing, size: &Option<SizeName>, lead: &Lead) -> Line {
    let family = new.definition.family();
    let size = size.as_ref();
    let of_size = |part: &PartNumber| family.terminals_for(size?).find(|t| t.part == *part);
    let planned = lead.planned_part.as_ref().filter(|_| lead.planned == Some(RepairKind::NewTerminal));
    if let Some(part) = planned
        && of_size(part).is_none()
    {
        return named_line(Kind::Terminal, part, new, size);
    }
    let named = planned.or_else(|| state.terminal_of(lead)).and_then(of_size);
    match named.or_else(|| terminal_for(family, new, size?, lead)) {
        Some(terminal) => {
            let description = format!("terminal for {}, plating {}", for_size(size), terminal.plating);
            let mut asked = line(Kind::Terminal, Some(terminal.part.to_string()), description, 1);
            asked.read_from = Some(format!("definition of family {}", family.id));
            asked
        }
        None => {
            let mut asked = line(Kind::Terminal, None, format!("terminal for {}", for_size(size)), 1);
            asked.describe = Some(describe(new, size, Some(lead)));
            asked.substitute = ASK_FIRST;
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
    let area: Option<f64> =
        lead.seen.wires.iter().map(|w| w.gauge.known().map(crate::quantity::Gauge::area_mm2)).sum();
    let gender = new.housing().gender;
    let fits = |t: &&Terminal| {
        t.gender == gender && area.is_none_or(|a| a >= t.wire_mm2.0 - 1e-9 && a <= t.wire_mm2.1 + 1e-9)
    };
    let mut fitting = family.terminals_for(size).filter(fits);
    let first = fitting.next();
    first.filter(|_| fitting.next().is_none())
}

/// A wire seal: the companion of a new terminal, or one planned by itself, by the part named then.
fn seal_line(
    new: &JobHousing,
    size: &Option<SizeName>,
    lead: &Lead,
    planned: Option<Option<&PartNumber>>,
) -> Line {
    let family = new.definition.family();
    let size = size.as_ref();
    if let Some(Some(part)) = planned
        && !family.wire_seals.iter().any(|seal| seal.part == *part)
    {
        return named_line(Kind::WireSeal, part, new, size);
    }
    let named = planned.flatten().and_then(|part| family.wire_seals.iter().find(|seal| seal.part == *part));
    let diameter = lead.first_wire().and_then(|w| w.outside_diameter.as_ref()?.known());
    let seal: Option<&WireSeal> = named.or_else(|| match diameter {
        Some(diameter) => family.seal_for(size?, diameter),
        None => {
            let mut of_size = family.wire_seals.iter().filter(|s| Some(&s.size) == size);
            of_size.next().filter(|_| of_size.next().is_none())
        }
    });
    let added = if planned.is_none() { " (added: every new terminal takes its seal)" } else { "" };
    match seal {
        Some(seal) => {
            let (least, most) = seal.insulation_mm;
            let description =
                format!("wire seal for insulation {least} to {most} mm, {}{added}", seal.colour);
            let mut asked = line(Kind::WireSeal, Some(seal.part.to_string()), description, 1);
            asked.read_from = Some(format!("definition of family {}", family.id));
            asked
        }
        None => {
            let description =
                format!("wire seal for {}, chosen by the insulation's diameter{added}", for_size(size));
            let mut asked = line(Kind::WireSeal, None, description, 1);
            asked.describe = Some(describe(new, size, Some(lead)));
            asked.substitute = ASK_FIRST;
            asked
        }
    }
}

fn lead_line(state: &State, new: &JobHousing, size: &Option<SizeName>, lead: &Lead, to: &str) -> Line {
    let description = format!("repair lead for {} with terminal and seal fitted", state.call(lead));
    let mut asked = line(Kind::Lead, None, description, 1);
    asked.describe = Some(describe(new, size.as_ref(), Some(lead)));
    asked.for_cavities = vec![to.to_owned()];
    asked.leads = vec![lead.id.clone()];
    asked.substitute = ASK_FIRST;
    asked
}

/// Sample terminals to qualify the tool's position on, before the first real crimp.
fn sample_line(terminal: &Line, samples: u32) -> Option<Line> {
    let mut asked = line(
        Kind::Terminal,
        terminal.part.clone(),
        format!("{}: samples to qualify the tool's position", terminal.description),
        samples,
    );
    asked.read_from.clone_from(&terminal.read_from);
    asked.describe.clone_from(&terminal.describe);
    asked.essential = false;
    (samples > 0).then_some(asked)
}
