//! Repairs, crimps and joints, in words.

use crate::{
    job::{Lead, LeadOrder, OtherEnd, RepairKind, Splice},
    procedure::{
        CrimpOf, CrimpQuestion, Crimping, JobView, RepairQuestion, SAME_SLEEVE_MM, SpliceQuestion,
        SpliceStep, is_sealed, named_part, parked_leads,
    },
    quantity::{Length, list_of},
    reckoning::LookFault,
    report::part_or_description,
};

pub(super) fn repair(view: &JobView<'_>, asked: &RepairQuestion) -> String {
    match asked {
        RepairQuestion::Waiting => waiting(view),
        RepairQuestion::TakeUpTag => "TAKE UP which tag?".to_owned(),
        RepairQuestion::ParkTag => "PARK it: what is on the tag?".to_owned(),
        RepairQuestion::ParkWhy => "Why is it parked?".to_owned(),
        RepairQuestion::Done { lead, kind } => {
            let items = &view.state().items;
            let call = items.lead(lead).map_or_else(String::new, |lead| match lead.place {
                crate::job::Place::NotMade => items.call_joined(lead),
                _ => lead.call(),
            });
            format!("{call} needs {}. Done, or park it until its part is here?", kind.words())
        }
        RepairQuestion::WhatWasDone => "What was done?".to_owned(),
        RepairQuestion::Part { lead, kind } => {
            let named = view.state().items.lead(lead).and_then(|lead| named_part(view, lead));
            let named = named.map_or(String::new(), |part| format!("= {part}; "));
            let lot = if *kind == RepairKind::NewTerminal { "; with its lot: = lot 4711" } else { "" };
            format!("Part number of the new part? ({named}- for none{lot})")
        }
    }
}

/// What every move that is left waits for.
fn waiting(view: &JobView<'_>) -> String {
    let leads = parked_leads(view);
    let calls: Vec<String> = leads.iter().map(|(lead, tag)| format!("{} (tag {tag})", lead.call())).collect();
    let next = match view.state().supply.requested {
        Some(_) => match still_to_come(view).as_slice() {
            [] => String::new(),
            lines => format!(" Still to come: {}.", list_of(lines)),
        },
        None => " Send the request: Tab to its page.".to_owned(),
    };
    format!("WAITING for parts: {}.{next}", list_of(&calls))
}

/// The lines of the request that leads wait for and that have not all come.
fn still_to_come(view: &JobView<'_>) -> Vec<String> {
    let state = view.state();
    let lines = state.supply.requested.iter().flat_map(|request| &request.lines);
    lines
        .filter(|line| !line.leads.is_empty())
        .map(|line| (line.line, state.supply.counts(line)))
        .filter(|(_, counts)| !counts.has_come())
        .map(|(line, counts)| {
            let asked = view.last_request.and_then(|request| request.line(line));
            let part = asked.map(part_or_description).unwrap_or_default();
            format!("line {line} {part} ({})", counts.still_wanted())
        })
        .collect()
}

pub(super) fn crimp(view: &JobView<'_>, asked: &CrimpOf) -> String {
    let Some(lead) = view.state().items.lead(&asked.lead) else { return String::new() };
    match &asked.what {
        CrimpQuestion::CutBack => "CUT BACK to bright copper and whole insulation. How much wire went beyond the old terminal? (mm; 0 none)".to_owned(),
        CrimpQuestion::Tool(terminal) => {
            let proved = Crimping::of(view, lead, terminal.as_ref()).proved();
            let use_this = match proved {
                Some(proved) => format!(
                    "= uses {}, {} ({})",
                    proved.key.tool,
                    proved.key.position,
                    proved.standing(view.today())
                ),
                None => "NO position is qualified for it on this wire (! proves one)".to_owned(),
            };
            let what = terminal.as_ref().map_or("the terminal".to_owned(), ToString::to_string);
            format!("TOOL for {what}: {use_this}. Key tool with serial, comma, position")
        }
        CrimpQuestion::Strip(terminal) => {
            let target = Crimping::of(view, lead, terminal.as_ref()).sheet().and_then(|t| t.strip_mm);
            let target = target.map_or(String::new(), |mm| format!(", sheet {mm} mm"));
            let seal = match is_sealed(view, lead) {
                true => "SEAL ON the wire, small end as its sheet says; covers and nuts that cannot pass first; then ",
                false => "BOOT, COVER or NUT that cannot pass the terminal ON the wire; then ",
            };
            format!("{seal}STRIP{target}. Stripped how long?")
        }
        CrimpQuestion::Height(terminal) => {
            let target = Crimping::of(view, lead, terminal.as_ref()).sheet_height();
            let target = target.map_or("no sheet for this wire".to_owned(), |sheet| format!("sheet {sheet}"));
            format!(
                "CRIMP, then MEASURE the conductor crimp, blade one side, point the other ({target}). Height? (- not measured)"
            )
        }
        CrimpQuestion::Look => {
            let seal = if is_sealed(view, lead) { ", seal in its wings" } else { "" };
            format!(
                "LOOK: bellmouth, brush in front, no insulation in it, no strand out or cut, wire not tinned, straight{seal}. All so?"
            )
        }
        CrimpQuestion::Faults => {
            let list = LookFault::ALL.iter().zip(1..).map(|(fault, n)| format!("{n} {}", fault.words()));
            format!("Which? Key the numbers: {}", list.collect::<Vec<_>>().join(", "))
        }
        CrimpQuestion::Sample => "SAMPLE made with it, pulled off: force in N and where it broke? (- none; the real crimp only gets a finger tug)".to_owned(),
        CrimpQuestion::Tug => "FINGER TUG the crimp. Does it stay?".to_owned(),
    }
}

/// What is done between the sleeve and the look.
const JOIN: &str = "STRIP, insert to the stop, LOOK in the window, CRIMP, tug, SHRINK";

pub(super) fn splice(view: &JobView<'_>, asked: &SpliceQuestion) -> String {
    let Some(lead) = view.state().items.lead(&asked.lead) else { return String::new() };
    match &asked.step {
        SpliceStep::RightLead => right_lead(view, lead),
        SpliceStep::Mark(planned) => {
            format!(
                "MARK the joint. Where will the sleeve start, from the rear face?{}",
                as_planned(planned.as_ref())
            )
        }
        SpliceStep::SleeveLength(ordered) => {
            format!("How long is the sleeve?{}", as_planned(ordered.as_ref()))
        }
        SpliceStep::SleeveOn(marked) => {
            let seal = if is_sealed(view, lead) { " The wire seal stays on the terminal side." } else { "" };
            format!(
                "{}IS THE SLEEVE ON THE WIRE, and boot or nut with it? Only then strip and join.{seal}",
                cut_to(view, lead, marked)
            )
        }
        SpliceStep::Untwisted => {
            format!("{JOIN}; TWIST the pair again over the splice. Untwisted length left?")
        }
        SpliceStep::Sound { is_joined } => {
            let join = if *is_joined { String::new() } else { format!("{JOIN}. ") };
            format!(
                "{join}Sleeve on its mark, copper at both sides of the window, adhesive out at both ends, held a tug, not soldered?"
            )
        }
    }
}

/// That = keeps a length as it was planned.
fn as_planned(planned: Option<&Length>) -> String {
    planned.map_or(String::new(), |planned| format!(" (= {}, as planned)", planned.both()))
}

/// Whether the lead on the bench is the one that was ordered.
fn right_lead(view: &JobView<'_>, lead: &Lead) -> String {
    let order = lead.order.as_deref();
    let needs = view.assessment.ordered(view.state(), &lead.id).and_then(|ordered| ordered.length);
    let asked = view.state().asked_length_mm(&lead.id);
    let long = asked.or(needs.map(|length| length.order_mm));
    let long = long.map_or("its length".to_owned(), |mm| format!("{mm} mm (-0/+10)"));
    let of = |said: &dyn Fn(&LeadOrder) -> Option<String>| order.and_then(said).unwrap_or_default();
    let gauge = of(&|order| order.gauge_for(lead).map(|gauge| format!(", {}", gauge.both())));
    let colour = of(&|order| order.colour_for(lead).map(|colour| format!(", {colour}")));
    let with_record = order.is_some_and(|order| order.crimp_record == Some(true));
    let record = if with_record { ", with the record of its crimp" } else { "" };
    format!(
        "IS IT THE LEAD for {}? Measure it, crimp to cut end: {long}{gauge}{colour}; read the label at both ends{record}.",
        lead.call()
    )
}

/// How long the lead is cut, where it is joined as planned.
fn cut_to(view: &JobView<'_>, lead: &Lead, marked: &Splice) -> String {
    let place = marked.place();
    let planned = view.assessment.ordered(view.state(), &lead.id);
    let planned = planned.and_then(|ordered| ordered.place.zip(ordered.length));
    match planned.filter(|(planned, _)| (planned.centre_mm - place.centre_mm).abs() < SAME_SLEEVE_MM) {
        Some((_, length)) => format!(
            "Cut the lead to {:.1} mm{}, the machine's wire {:.1} mm behind the face; the sleeve goes from {:.1} to {:.1} mm. ",
            length.cut_mm,
            strip_again(lead),
            place.centre_mm,
            place.start_mm,
            place.end_mm
        ),
        None => "Cut the lead to its mark. ".to_owned(),
    }
}

/// A lead that comes stripped loses that end when it is cut.
fn strip_again(lead: &Lead) -> &'static str {
    match lead.order.as_ref().and_then(|order| order.other_end.as_ref()) {
        Some(OtherEnd::Stripped(_)) => " and strip it again",
        Some(OtherEnd::CutSquare | OtherEnd::SpliceFitted) | None => "",
    }
}
