//! What the repairs of a job need: terminals with their seals, seals alone, repair leads.

use jiff::civil::Date;

use std::cmp::Ordering;

use super::{
    leads::{WantedLead, lead_lines, use_place},
    looks::looks_of,
    need::Need,
};
use crate::{
    catalogue::{Family, PartNumber, Sealing, SizeName, Terminal, WireSeal},
    job::{Assessment, ItemId, JobHousing, JobSide, Lead, MadeLead, RepairKind, State},
    reckoning::ToolBook,
    supply::{
        Article, Line, ReadFrom, Request, SealRange, SealUse, Substitute, TerminalUse, UsePlace, Wanted,
    },
};

/// What is needed for repairs, planned or done, while it is gathered lead by lead.
#[derive(Default)]
struct Gathered {
    terminals: Vec<Terminals>,
    seals: Vec<Need>,
    splices: Vec<Need>,
    leads: Vec<Need>,
}

/// Terminals of one part, and what their spares and samples hang on.
struct Terminals {
    need: Need,
    is_large: bool,
    is_unproved: bool,
}

/// Terminals with their seals, seals alone, repair leads: planned or done.
pub(super) fn repair_lines(
    state: &State,
    assessment: &Assessment,
    proved: &Proved<'_>,
    needs: &mut Vec<Need>,
) {
    let mut gathered = Gathered::default();
    for lead in &state.items.leads {
        if let Some((new, size, to)) = goes_into(state, assessment, lead) {
            let place = LeadPlace { lead, new, size: size.as_ref(), to: &to };
            for repair in asked_repairs(lead) {
                gathered.add_repair(state, assessment, proved, &place, &repair);
            }
        }
    }
    let Gathered { mut terminals, mut seals, mut splices, leads } = gathered;
    needs.extend(leads);
    let spares = &state.world.rules.spares.value;
    terminals.sort_by(|one, other| in_order(&one.need.asked, &other.need.asked));
    for Terminals { mut need, is_large, is_unproved } in terminals {
        let share = (need.asked.amount.need * spares.terminals_percent).div_ceil(100);
        need.asked.amount.spare = match is_large {
            true => spares.terminals_large,
            false => spares.terminals_least.max(share),
        };
        let samples = sample_line(&need.asked, spares.samples)
            .filter(|samples| is_unproved || proved.was_asked(samples));
        needs.push(need);
        needs.extend(samples.map(Need::of));
    }
    for (lines, spare) in [(&mut splices, spares.splices), (&mut seals, spares.wire_seals)] {
        lines.sort_by(|one, other| in_order(&one.asked, &other.asked));
        lines.iter_mut().for_each(|need| need.asked.amount.spare = spare);
    }
    needs.extend(splices);
    needs.extend(seals);
}

/// Where the parts of a lead go.
struct LeadPlace<'a> {
    lead: &'a Lead,
    new: &'a JobHousing,
    size: Option<&'a SizeName>,
    to: &'a UsePlace,
}

impl Gathered {
    fn add_repair(
        &mut self,
        state: &State,
        assessment: &Assessment,
        proved: &Proved<'_>,
        place: &LeadPlace<'_>,
        repair: &RepairAsked<'_>,
    ) {
        match repair.kind {
            RepairKind::NewTerminal => {
                self.add_terminal(proved, place, repair);
                if place.new.housing().sealing == Sealing::Individual {
                    let seal = seal_line(place, None, SealUse::NewTerminal);
                    add(&mut self.seals, seal, place, repair.is_done);
                }
            }
            RepairKind::NewSeal => {
                let seal = seal_line(place, repair.part, SealUse::Itself);
                add(&mut self.seals, seal, place, repair.is_done);
            }
            RepairKind::RepairLead | RepairKind::Join => {
                let LeadPlace { lead, new, size, to } = *place;
                let (order, length) = match repair.made {
                    // What was made stays asked for as it was ordered.
                    Some(made) => (Some(&made.order), made.length.planned),
                    None => {
                        let planned = assessment.ordered(state, &lead.id).and_then(|ordered| ordered.length);
                        (lead.order.as_deref(), planned)
                    }
                };
                let is_made = repair.made.is_some();
                let wanted = WantedLead { lead, order, is_made, length, new, size, to, part: repair.part };
                let (need, splice) = lead_lines(state, &wanted);
                self.leads.push(need);
                if let Some(splice) = splice {
                    add(&mut self.splices, splice, place, is_made);
                }
            }
            RepairKind::Reform | RepairKind::Other => {}
        }
    }

    fn add_terminal(&mut self, proved: &Proved<'_>, place: &LeadPlace<'_>, repair: &RepairAsked<'_>) {
        let fresh = terminal_line(place, repair.part);
        let is_large = place.size.is_some_and(is_large);
        let is_unproved = !proved.is_proved(&fresh, place.lead);
        match self.terminals.iter_mut().find(|terminals| terminals.need.asked.is_same(&fresh)) {
            Some(terminals) => {
                terminals.is_large |= is_large;
                terminals.is_unproved |= is_unproved;
                terminals.need.add(place, repair.is_done);
            }
            None => {
                let mut need = Need::of(fresh);
                need.add(place, repair.is_done);
                self.terminals.push(Terminals { need, is_large, is_unproved });
            }
        }
    }
}

impl Need {
    /// One more, for a lead.
    fn add(&mut self, place: &LeadPlace<'_>, is_fitted: bool) {
        self.asked.amount.need += 1;
        self.fitted += u32::from(is_fitted);
        // A crimp made twice is for one cavity.
        if !self.asked.used_for.contains(place.to) {
            self.asked.used_for.push(place.to.clone());
        }
        self.leads.push(place.lead.id.clone());
    }
}

/// The same part for the same use is one line, whichever leads it is for.
fn add(needs: &mut Vec<Need>, fresh: Line, place: &LeadPlace<'_>, is_fitted: bool) {
    match needs.iter_mut().find(|need| need.asked.is_same(&fresh)) {
        Some(need) => need.add(place, is_fitted),
        None => {
            let mut need = Need::of(fresh);
            need.add(place, is_fitted);
            needs.push(need);
        }
    }
}

/// Lines stand by number, those without one first, then by size, use and looks.
fn in_order(one: &Line, other: &Line) -> Ordering {
    fn place(line: &Line) -> (Option<&PartNumber>, Option<&SizeName>, Option<SealUse>, &str) {
        let number = line.wanted.number();
        match &line.wanted {
            Wanted::Part { article, .. } | Wanted::Described { article, .. } => match article {
                Article::Terminal { size, .. } => (number, size.as_ref(), None, ""),
                Article::WireSeal { size, used, .. } => (number, size.as_ref(), Some(*used), ""),
                Article::Splice(splice) => (number, None, None, &splice.joins),
                Article::Housing { .. }
                | Article::SecondaryLock(_)
                | Article::Assurance(_)
                | Article::SmallPart(_)
                | Article::Bridge { .. }
                | Article::Plug { .. }
                | Article::Lead(_) => (number, None, None, ""),
            },
            Wanted::Told(_) => (number, None, None, ""),
        }
    }
    place(one).cmp(&place(other)).then_with(|| one.wanted.looks().cmp(&other.wanted.looks()))
}

/// Sizes are named by the width of their blade or pin in mm; up to this one they are small.
const SMALL_UP_TO: f64 = 1.5;

fn is_large(size: &SizeName) -> bool {
    size.to_string().parse::<f64>().is_ok_and(|mm| mm > SMALL_UP_TO)
}

/// The housing and cavity size a lead's parts are for, and the cavity. A lead that has no
/// place on the new side yet is asked for by the cavity it came from.
fn goes_into<'a>(
    state: &'a State,
    assessment: &Assessment,
    lead: &Lead,
) -> Option<(&'a JobHousing, Option<SizeName>, UsePlace)> {
    // One lead for two goes where the other one goes.
    let goes = lead.joined_with.as_ref().unwrap_or(&lead.id);
    if let Some(to) = assessment.target.of(goes) {
        return Some((
            state.housings.housing(&to.housing)?,
            state.housings.cavity_size(to),
            UsePlace::Cavity(to.clone()),
        ));
    }
    let from = match (&lead.id, &lead.came_from) {
        (ItemId::At(at), _) => Some(at),
        (_, from) => from.as_ref(),
    };
    let size = from.and_then(|at| state.housings.cavity_size(at));
    let new = state.housings.side(JobSide::New).next()?;
    Some((new, size, from.map_or_else(|| use_place(&lead.id), |at| UsePlace::Cavity(at.clone()))))
}

/// A repair that asks for parts: which, the part named for it, and the repair lead once it is made.
struct RepairAsked<'a> {
    kind: RepairKind,
    part: Option<&'a PartNumber>,
    is_done: bool,
    made: Option<&'a MadeLead>,
}

/// The repairs of a lead, done and planned.
fn asked_repairs(lead: &Lead) -> impl Iterator<Item = RepairAsked<'_>> {
    let done = lead.repairs.iter();
    let done = done.map(|done| RepairAsked {
        kind: done.kind,
        part: done.part.as_ref(),
        is_done: true,
        made: done.made.as_ref(),
    });
    let planned = |kind| RepairAsked { kind, part: lead.planned_part.as_ref(), is_done: false, made: None };
    done.chain(lead.planned.map(planned))
}

/// What the shop's tool book says about the terminals that are asked for.
pub(super) struct Proved<'a> {
    /// The book.
    pub book: &'a ToolBook,
    /// Today, as YYYY-MM-DD.
    pub today: Date,
    /// The request sent before.
    pub previous: Option<&'a Request>,
}

impl Proved<'_> {
    /// Whether a tool's position is qualified for a terminal on the wire of a lead.
    fn is_proved(&self, terminal: &Line, lead: &Lead) -> bool {
        let part = terminal.wanted.number();
        let wire = lead.wire_to_crimp();
        part.zip(wire).is_some_and(|(part, wire)| self.book.proved(part, wire, self.today).is_some())
    }

    /// Whether these samples were asked for before: they were used to qualify the position.
    fn was_asked(&self, samples: &Line) -> bool {
        self.previous.is_some_and(|previous| previous.lines.iter().any(|old| old.is_same(samples)))
    }
}

/// A part the bench named that is not of the family: asked for as named, and said.
fn named_line(article: Article, part: &PartNumber, new: &JobHousing) -> Line {
    let read_from = ReadFrom::Bench { not_in: new.definition.family().id.clone() };
    let wanted = Wanted::Part { number: part.clone(), read_from, article };
    Line { substitute: Substitute::AskFirst, ..Line::new(wanted, 0) }
}

/// A part of the family, else one that is described: then the desk asks before it gives another.
fn family_line(article: Article, number: Option<&PartNumber>, place: &LeadPlace<'_>) -> Line {
    let LeadPlace { lead, new, size, .. } = *place;
    let substitute = if number.is_some() { Substitute::None } else { Substitute::AskFirst };
    let family = &new.definition.family().id;
    let wanted = Wanted::of(article, number.cloned(), family, || looks_of(new, size, Some(lead)));
    Line { substitute, ..Line::new(wanted, 0) }
}

fn terminal_line(place: &LeadPlace<'_>, named: Option<&PartNumber>) -> Line {
    let LeadPlace { lead, new, size, .. } = *place;
    let family = new.definition.family();
    let of_size = |part: &PartNumber| family.terminals_for(size?).find(|t| t.part == *part);
    let article =
        |plating: Option<String>| Article::Terminal { size: size.cloned(), plating, used: TerminalUse::Wire };
    if let Some(part) = named
        && of_size(part).is_none()
    {
        return named_line(article(None), part, new);
    }
    let known = named.or_else(|| lead.terminal()).and_then(of_size);
    let terminal = known.or_else(|| terminal_for(family, new, size?, lead));
    let plating = terminal.map(|terminal| terminal.plating.clone());
    family_line(article(plating), terminal.map(|terminal| &terminal.part), place)
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
fn seal_line(place: &LeadPlace<'_>, named: Option<&PartNumber>, used: SealUse) -> Line {
    let LeadPlace { lead, new, size, .. } = *place;
    let family = new.definition.family();
    let article = |range: Option<SealRange>| Article::WireSeal { size: size.cloned(), range, used };
    let by_name = |part: &PartNumber| family.wire_seals.iter().find(|seal| seal.part == *part);
    if let Some(part) = named
        && by_name(part).is_none()
    {
        return named_line(article(None), part, new);
    }
    let diameter = lead.first_wire().and_then(|w| w.outside_diameter.as_ref()?.known());
    let seal: Option<&WireSeal> = named.and_then(by_name).or_else(|| match diameter {
        Some(diameter) => family.seal_for(size?, diameter),
        None => {
            let mut of_size = family.wire_seals.iter().filter(|s| Some(&s.size) == size);
            of_size.next().filter(|_| of_size.next().is_none())
        }
    });
    let range = seal.map(|seal| SealRange {
        least_mm: seal.insulation_mm.0,
        most_mm: seal.insulation_mm.1,
        colour: seal.colour.clone(),
    });
    family_line(article(range), seal.map(|seal| &seal.part), place)
}

/// Sample terminals to qualify the tool's position on, before the first real crimp.
fn sample_line(terminal: &Line, samples: u32) -> Option<Line> {
    let mut wanted = terminal.wanted.clone();
    match &mut wanted {
        Wanted::Part { article: Article::Terminal { used, .. }, .. }
        | Wanted::Described { article: Article::Terminal { used, .. }, .. } => *used = TerminalUse::Samples,
        Wanted::Part { .. } | Wanted::Described { .. } | Wanted::Told(_) => return None,
    }
    (samples > 0).then(|| Line { essential: false, ..Line::new(wanted, samples) })
}
