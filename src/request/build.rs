//! From a job to the lines of its request.

use std::collections::BTreeMap;

use super::{
    JobLine, Request, RequestForm, RequestHead,
    others::other_lines,
    repairs::{Proved, repair_lines},
};
use crate::{
    catalogue::{LockState, Sealing, SizeName, SmallPart, Supplied},
    job::{
        Assessment, Destination, Expected, ItemId, Job, JobHousing, JobSide, Lead, Place, PlugOrigin, State,
        day_of,
    },
    reckoning::ToolBook,
    record::Address,
    supply::{Describe, Line, PartKind, RequestNumber, Substitute},
};

/// The request of a job as it stands, numbered on from the one sent before.
pub fn build(
    job: &Job,
    assessment: &Assessment,
    id: &str,
    head: RequestHead,
    previous: Option<&RequestForm>,
    book: &ToolBook,
) -> Request {
    let state = job.state();
    let mut lines = Vec::new();
    for new in state.housings.side(JobSide::New) {
        housing_lines(state, assessment, new, &mut lines);
        plug_lines(state, assessment, new, &mut lines);
        other_lines(state, assessment, new, &mut lines);
    }
    let today = day_of(assessment.now);
    repair_lines(state, assessment, &Proved { book, today: today.clone(), previous }, &mut lines);
    let mut head = match previous {
        Some(previous) => previous.head_for(&head),
        None => head,
    };
    let changed =
        number_lines(&mut lines, previous, state) || previous.is_some_and(|p| p.head_differs(&head));
    if let Some(previous) = previous.filter(|_| !changed) {
        // Whoever prints it: it was asked by who sent it.
        head.asked_by = previous.asked_by().to_owned();
    }
    for line in &mut lines {
        line.came = state.supply.came(line.asked.line);
    }
    let sent = state.supply.requested.as_ref().map_or(0, |r| r.revision);
    Request {
        number: request_number(state, id),
        revision: if changed { sent + 1 } else { sent.max(1) },
        changed,
        job: id.to_owned(),
        ticket: state.world.ticket.clone(),
        why: why(state),
        day: today,
        head,
        photos: state.course.photos.iter().map(|(number, _)| number.clone()).collect(),
        lines,
    }
}

/// One number for every later enquiry: the one that went out, else the one of the ticket's id. A
/// ticket of version 1 has none: there the file's name stands for it, as it did then. What an old
/// journal calls a number and is none never went out.
fn request_number(state: &State, name: &str) -> RequestNumber {
    match &state.world.ticket.id {
        Some(id) => {
            let sent = state.supply.requested.as_ref().and_then(|sent| sent.number.parse().ok());
            sent.unwrap_or_else(|| RequestNumber::of_job(id.as_str()))
        }
        None => RequestNumber::of_job(name),
    }
}

/// Why it is asked for: the reason on the ticket, and the cause once it is known.
fn why(state: &State) -> String {
    let kind = state.records.cause_kind.map(|kind| kind.words().to_owned());
    let cause = kind.into_iter().chain(state.records.cause.clone()).collect::<Vec<_>>().join(", ");
    let said = [state.world.ticket.reason.clone(), cause];
    said.into_iter().filter(|text| !text.trim().is_empty()).collect::<Vec<_>>().join("; cause: ")
}

/// Gives every line its number: the one it had, else a new one. Lines that are gone stay with
/// need 0. Says whether anything changed.
fn number_lines(lines: &mut Vec<JobLine>, previous: Option<&RequestForm>, state: &State) -> bool {
    let Some(previous) = previous else {
        // What was sent before cannot be read: its line numbers are known and not given again.
        let sent = state.supply.requested.iter().flat_map(|sent| &sent.lines);
        let next = sent.map(|line| line.line).max().unwrap_or(0).saturating_add(1);
        (next..).zip(lines.iter_mut()).for_each(|(n, line)| line.asked.line = n);
        return true;
    };
    let mut next = previous.last_line() + 1;
    let mut changed = false;
    let mut kept = Vec::new();
    for line in lines.iter_mut() {
        match previous.line_like(&line.asked, &kept) {
            Some((number, same)) => {
                line.asked.line = number;
                line.changes = previous.changes(&line.asked);
                changed |= !same;
                kept.push(number);
            }
            None => {
                line.asked.line = next;
                line.changes = vec!["new in this revision".to_owned()];
                next += 1;
                changed = true;
            }
        }
    }
    for gone in previous.gone(&kept) {
        changed |= gone.1;
        lines.push(gone.0);
    }
    lines.sort_by_key(|line| line.asked.line);
    changed
}

pub(super) fn line(kind: PartKind, part: Option<String>, description: String, need: u32) -> Line {
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
        substitute: Substitute::None,
        supplied_with: None,
        lead: None,
    }
}

/// The housing and what is forgotten beside it.
fn housing_lines(state: &State, assessment: &Assessment, new: &JobHousing, lines: &mut Vec<JobLine>) {
    let housing = new.housing();
    if is_in_use(state, new) {
        parts_still_missing(new, lines);
        return;
    }
    let mut main = line(PartKind::Housing, Some(housing.part.to_string()), housing.title.clone(), 1);
    if let Some(revision) = &housing.revision {
        main.description.push_str(&format!(", revision {revision}"));
    }
    let shut = shut_out(state, assessment, new);
    if !shut.is_empty() {
        main.description.push_str(&format!(
            ". QUESTION: {}. Is there an earlier revision that takes it, or a document that moves it?",
            shut.join("; ")
        ));
        main.substitute = Substitute::AskFirst;
    }
    main.read_from = Some(format!("definition of family {}", new.definition.family().id));
    lines.push(JobLine::of(main));
    if let Some(lock) = &housing.lock {
        let part = lock.part.as_ref().map(ToString::to_string);
        lines.push(JobLine::of(companion(PartKind::SecondaryLock, part, &lock.kind, lock.supplied, new)));
    }
    if let Some(clip) = &housing.assurance {
        lines.push(JobLine::of(small_part(PartKind::Assurance, clip, new)));
    }
    for part in &housing.small_parts {
        lines.push(JobLine::of(small_part(PartKind::SmallPart, part, new)));
    }
}

/// Whether something was put into a housing: it is here, and nobody orders it again.
fn is_in_use(state: &State, new: &JobHousing) -> bool {
    state.items.insertions.keys().any(|at| at.housing == new.name)
}

/// What a housing in use still lacks: a lock that broke, parts that come separately and are not on.
fn parts_still_missing(new: &JobHousing, lines: &mut Vec<JobLine>) {
    let housing = new.housing();
    if let Some(lock) = housing.lock.as_ref().filter(|_| new.lock == Some(LockState::Broken)) {
        let part = lock.part.as_ref().map(ToString::to_string);
        let broken = companion(PartKind::SecondaryLock, part, &lock.kind, Supplied::Separate, new);
        lines.push(JobLine::of(broken));
    }
    let clip = housing.assurance.iter().filter(|_| new.assurance != Some(true));
    let clip = clip.map(|part| (PartKind::Assurance, part));
    let parts = housing.small_parts.iter().filter(|part| !new.parts_on.contains(&part.name));
    let parts = parts.map(|part| (PartKind::SmallPart, part));
    for (kind, part) in clip.chain(parts).filter(|(_, part)| part.supplied == Supplied::Separate) {
        lines.push(JobLine::of(small_part(kind, part, new)));
    }
}

/// The leads that have no place because their cavity is moulded shut.
fn shut_out(state: &State, assessment: &Assessment, new: &JobHousing) -> Vec<String> {
    let at = |lead: &Lead| match assessment.target.leads.get(&lead.id) {
        Some(Destination::Blocked(at)) if at.housing == new.name => Some(at.label.clone()),
        _ => None,
    };
    let shut = state.items.leads.iter().filter_map(|lead| Some((lead, at(lead)?)));
    shut.map(|(lead, label)| format!("{} has no place, cavity {label} is moulded shut", lead.call()))
        .collect()
}

fn small_part(kind: PartKind, part: &SmallPart, new: &JobHousing) -> Line {
    companion(kind, part.part.as_ref().map(ToString::to_string), &part.name, part.supplied, new)
}

fn companion(kind: PartKind, part: Option<String>, name: &str, supplied: Supplied, new: &JobHousing) -> Line {
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
pub(super) fn describe(new: &JobHousing, size: Option<&SizeName>, lead: Option<&Lead>) -> Describe {
    let housing = new.housing();
    let wires = lead.map_or(&[][..], |l| l.seen.wires.as_slice());
    Describe {
        size: size.map(ToString::to_string),
        gender: Some(housing.gender),
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
        }
        .to_owned(),
        place: new.name.to_string(),
    }
}

/// Plugs by cavity size: holes that take one, less the sound ones already here.
fn plug_lines(state: &State, assessment: &Assessment, new: &JobHousing, lines: &mut Vec<JobLine>) {
    let mut missing: BTreeMap<SizeName, Vec<Address>> = BTreeMap::new();
    for cavity in &new.housing().cavities {
        let at = new.address(&cavity.label);
        let wants = match assessment.target.expected(&at) {
            Expected::Plug(Some(from)) => !plug_serves(state, from, &at),
            Expected::Plug(None) | Expected::SpareAndPlug => true,
            _ => false,
        };
        // A hole that is filled by a plug that was found or delivered asks for none.
        let filled = state.items.plug_at(&at).is_some_and(|p| p.origin != PlugOrigin::Stock);
        if wants && !filled {
            missing.entry(cavity.size.clone()).or_default().push(at);
        }
    }
    for (size, mut cavities) in missing {
        let lying =
            state.items.plugs.iter().filter(|p| lies_ready(&p.place) && p.size.as_ref() == Some(&size));
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
        let mut asked = line(PartKind::Plug, plug.map(|p| p.part.to_string()), description, need);
        asked.spare = state.world.rules.spares.value.plugs;
        asked.pack = plug.and_then(|p| p.pack);
        asked.for_cavities = cavities.iter().map(ToString::to_string).collect();
        match plug {
            Some(_) => asked.read_from = Some(format!("definition of family {}", family.id)),
            None => asked.describe = Some(describe(new, Some(&size), None)),
        }
        lines.push(JobLine::of(asked));
    }
}

/// Whether the plug recorded in an old cavity is still one to be used for a new one: not lost, not
/// left behind, and not borrowed for another hole.
fn plug_serves(state: &State, from: &Address, to: &Address) -> bool {
    let plug = state.items.plugs.iter().find(|p| p.id == ItemId::At(from.clone()));
    let is_here = |place: &Place| match place {
        Place::In(at) => at == to || state.housings.side_of(at) == Some(JobSide::Old),
        place => lies_ready(place),
    };
    plug.is_some_and(|p| is_here(&p.place)) && !state.items.left_in_old.contains_key(from)
}

fn lies_ready(place: &Place) -> bool {
    matches!(place, Place::Hand | Place::Tray)
}
