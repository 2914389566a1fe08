//! The pages about repairs: what is planned and done, where the splices sit, how thick the bundle
//! gets, what the circuits lose, what the tool book says; and what to lay out before the start.

use jiff::civil::Date;

use ratatui::{buffer::Buffer, layout::Rect, style::Style};

use crate::{
    job::{
        Crimp, CrimpVerdict, ItemId, Lead, Occasion, Ordered, RepairDone, SplicePlan, Thickness, caution,
        lay_out,
    },
    picture::{Harness, Ruler, Splicing, draw_heights, draw_outline, draw_splices},
    procedure::JobView,
    quantity::Length,
    reckoning::{Capability, FEWEST_SAMPLES, Standing, ToolPosition},
    report::{no_plan, tool_used},
    screen::{state::Ui, theme::Theme},
};

use super::page::Lines;

/// Everything about the repairs of the job.
pub(super) fn repairs(view: &JobView<'_>, ui: &Ui, theme: Theme, area: Rect, buf: &mut Buffer) {
    let state = view.state();
    let mut lines = Lines::new(theme, area);
    let repaired: Vec<&Lead> =
        state.items.leads.iter().filter(|lead| lead.planned.is_some() || !lead.repairs.is_empty()).collect();
    lines.add("REPAIRS", theme.now());
    if repaired.is_empty() {
        lines.add("None is planned. What is found on a lead is asked when it is in the hand.", Style::new());
    }
    for lead in &repaired {
        add_lead(view, lead, theme, &mut lines);
    }
    let is_open =
        |lead: &&Lead| lead.planned.is_none() && lead.repairs.is_empty() && lead.inspected.is_none();
    for lead in state.items.leads.iter().filter(is_open) {
        if let Some(found) = found_at_intake(lead) {
            let call = lead.call();
            lines.add(
                &format!("{call}: found at intake, nothing decided: {found} (! orders a lead)"),
                theme.alarm(),
            );
        }
    }
    for plan in view.assessment.plans(state) {
        add_plan(view, plan, theme, &mut lines);
    }
    for thickness in view.assessment.bundles(state) {
        add_thickness(view, thickness, theme, &mut lines);
    }
    add_circuits(view, &repaired, theme, &mut lines);
    add_tools(view, &repaired, theme, &mut lines);
    lines.show(ui, area, buf);
}

/// Damage on record before the lead was in the hand.
fn found_at_intake(lead: &Lead) -> Option<String> {
    let condition = lead.seen.condition.clone();
    let damage = lead.damages().map(|length| format!("damage over {}", length.both()));
    let found: Vec<String> = condition.into_iter().chain(damage).collect();
    (!found.is_empty()).then(|| found.join(", "))
}

/// What is planned for a lead and what was done to it.
fn add_lead(view: &JobView<'_>, lead: &Lead, theme: Theme, lines: &mut Lines) {
    let state = view.state();
    let call = lead.call();
    if let Some(planned) = lead.planned {
        let why = lead.planned_why.as_deref().unwrap_or("no reason said");
        lines.add(&format!("{call}: planned: {}; {why}", planned.words()), Style::new());
    }
    for done in &lead.repairs {
        lines.add(&format!("{call}: {}", done_in_words(done)), Style::new());
        if let Some(crimp) = &done.crimp {
            let sheet = state.sheet_for(lead, done.part.as_ref(), crimp);
            let sheet = sheet.map_or("no sheet: height not verified".to_owned(), |s| format!("sheet {s}"));
            lines.add(&format!("    {} ({sheet})", crimp_in_words(done, crimp)), theme.faint());
        }
    }
    if let Some((left, takes)) = state.slack_left(lead) {
        let last = if left < takes { ": not enough for another" } else { "" };
        lines.add(&format!("    slack left {left} mm, a new terminal takes {takes} mm{last}"), theme.faint());
    }
}

fn done_in_words(done: &RepairDone) -> String {
    let part = done.part.as_ref().map_or(String::new(), |part| format!(" {part}"));
    let stands = if done.stands() { "done" } else { "cut off again" };
    let splice = done.splice.as_ref().map_or(String::new(), |splice| {
        format!(", splice from {}, sleeve {}", splice.start.both(), splice.sleeve.both())
    });
    format!("{stands}: {}{part}{splice}", done.kind.words())
}

fn crimp_in_words(done: &RepairDone, crimp: &Crimp) -> String {
    let height =
        crimp.height.as_ref().map_or("height not measured".to_owned(), |h| format!("height {}", h.both()));
    let book = crimp.book.as_ref().map_or("not looked up".to_owned(), Standing::to_string);
    let verdict = match (crimp.verdict, &done.deviation_by) {
        (CrimpVerdict::Redo, _) => "made again".to_owned(),
        (CrimpVerdict::Accepted, None) => "accepted".to_owned(),
        (CrimpVerdict::Accepted, Some(by)) => format!("accepted as deviation by {by}"),
    };
    let sample = crimp
        .sample_pull
        .as_ref()
        .map_or(String::new(), |sample| format!(", sample {} N ({})", sample.force_n, sample.broke_at));
    let strip = crimp.strip.as_ref().map_or(String::new(), |strip| format!(", stripped {}", strip.both()));
    let back = crimp.cut_back.as_ref().filter(|back| back.mm() > 0.0);
    let back = back.map_or(String::new(), |back| format!(", cut back {}", back.both()));
    let lot = crimp.lot.as_ref().map_or(String::new(), |lot| format!("lot {lot}, "));
    format!(
        "{lot}{}{back}{strip}, {height}{sample}, {verdict}; position {book}",
        tool_used(&crimp.tool_used())
    )
}

/// The harness with its sleeves, and the lengths beside it.
fn add_plan(view: &JobView<'_>, plan: &SplicePlan, theme: Theme, lines: &mut Lines) {
    let state = view.state();
    lines.add("", Style::new());
    lines.add(&format!("SPLICES BEHIND {}, from its rear face", plan.housing), theme.now());
    if !state.housings.behind.contains_key(&plan.housing) {
        lines.add("Nobody said what lies behind it: branches, clamps, splices (! says it).", theme.alarm());
    }
    let calls = calls_of(view, plan);
    let harness = harness_of(view, plan, &calls);
    let ruler = Ruler::of(&harness, lines.width());
    lines.picture(&draw_splices(&harness, ruler, theme.ascii));
    for (ordered, call) in plan.leads.iter().zip(&calls) {
        let place = ordered.place.map_or("no place for its splice yet".to_owned(), |place| {
            format!(
                "sleeve {}-{} mm, middle {}",
                short(place.start_mm),
                short(place.end_mm),
                short(place.centre_mm)
            )
        });
        let length = match (ordered.place, ordered.length) {
            (None, _) => String::new(),
            (Some(_), None) => "; length not known: say what the lead has to be".to_owned(),
            (Some(_), Some(l)) => {
                let inches = l.order_mm / 25.4;
                format!("; cut {}, order {:.0} mm ({inches:.2} in)", short(l.cut_mm), l.order_mm)
            }
        };
        lines.add(&format!("{call}: {place}{length}"), Style::new());
        if let Some(lead) = state.items.lead(&ordered.lead) {
            add_pair(view, lead, call, theme, lines);
        }
    }
    if !plan.cannot.is_empty() {
        lines.add(&no_plan(&state.why_no_plan(plan), &plan.housing), theme.alarm());
        let settles = match plan.room_needed_mm() {
            Some(more) => format!("With {more} mm more room all would fit. "),
            None => String::new(),
        };
        lines.add(
            &format!(
                "{settles}What settles it: beyond the branch with the reason, shorter sleeves, or a new branch."
            ),
            Style::new(),
        );
    }
    let rules = &state.world.rules;
    lines.add(
        &format!(
            "house: {} mm behind the housing ({}), {} mm between sleeves, {} mm beside a pair or shield, {} mm past the damage",
            rules.clearance_mm.value,
            rules.clearance_mm.source,
            rules.splice_gap_mm.value,
            rules.splice_gap_twisted_mm.value,
            rules.damage_margin_mm.value
        ),
        theme.faint(),
    );
}

/// What a twisted wire asks for beside its own splice.
fn add_pair(view: &JobView<'_>, lead: &Lead, call: &str, theme: Theme, lines: &mut Lines) {
    let state = view.state();
    let Some(partner) = lead.seen.wires.iter().find_map(|wire| wire.twisted_with.as_ref()) else { return };
    let is_partner =
        |other: &&Lead| matches!(&other.id, ItemId::At(at) if at.label == *partner) && other.id != lead.id;
    let other = state.items.leads.iter().find(is_partner);
    let alone = match other {
        Some(other) if other.has_repair_lead() => String::new(),
        _ => format!(" {partner} has no lead planned: splice both alike, or leave the pair whole."),
    };
    lines.add(
        &format!(
            "    {call} is twisted with {partner}: same splice on both, staggered, twisted again over it, at most {} mm untwisted ({}).{alone}",
            state.world.rules.untwisted_mm.value, state.world.rules.untwisted_mm.source
        ),
        theme.faint(),
    );
}

fn calls_of(view: &JobView<'_>, plan: &SplicePlan) -> Vec<String> {
    let state = view.state();
    let call = |lead: &Lead| lead.call();
    plan.leads.iter().map(|ordered| state.items.lead(&ordered.lead).map_or(String::new(), call)).collect()
}

/// The plan as it is drawn.
fn harness_of<'a>(view: &JobView<'a>, plan: &'a SplicePlan, calls: &'a [String]) -> Harness<'a> {
    let state = view.state();
    let behind = state.housings.behind.get(&plan.housing);
    let damage = |ordered: &Ordered| state.items.lead(&ordered.lead).map_or(0.0, Lead::damage_mm);
    let leads = plan.leads.iter().zip(calls);
    Harness {
        ask: &plan.ask,
        branches_mm: behind.into_iter().flat_map(|b| &b.branches).map(Length::mm).collect(),
        there_mm: behind.into_iter().flat_map(|b| &b.splices).map(|(a, b)| (a.mm(), b.mm())).collect(),
        leads: leads
            .map(|(ordered, call)| Splicing { call, damage_mm: damage(ordered), place: ordered.place })
            .collect(),
    }
}

/// How thick the bundle gets, staggered and stacked.
fn add_thickness(view: &JobView<'_>, thickness: &Thickness, theme: Theme, lines: &mut Lines) {
    let state = view.state();
    lines.add("", Style::new());
    lines.add(&format!("THICKNESS OF THE BUNDLE BEHIND {}", thickness.housing), theme.now());
    let plan = view.assessment.plans(state).iter().find(|plan| plan.housing == thickness.housing);
    if let (Some(plan), Some(most)) = (plan, thickness.thickest()) {
        let calls = calls_of(view, plan);
        let ruler = Ruler::of(&harness_of(view, plan, &calls), lines.width());
        let tallest = thickness.stacked_mm.max(most.diameter_mm);
        lines.add(
            &format!(
                "as planned: {} mm ({:.2} in), up to {} mm ({:.2} in) at {} to {} mm",
                short(thickness.plain_mm),
                thickness.plain_mm / 25.4,
                short(most.diameter_mm),
                most.diameter_mm / 25.4,
                short(most.from_mm),
                short(most.to_mm)
            ),
            Style::new(),
        );
        lines.picture(&draw_outline(thickness.plain_mm, &thickness.staggered, tallest, ruler, theme.ascii));
        lines.add(
            &format!(
                "all splices side by side: {} mm ({:.2} in)",
                short(thickness.stacked_mm),
                thickness.stacked_mm / 25.4
            ),
            Style::new(),
        );
        lines.picture(&draw_outline(thickness.plain_mm, &thickness.stacked(), tallest, ruler, theme.ascii));
        lines.add("Will conduit, clip and grommet still take it?", Style::new());
    } else {
        lines.add(&format!("without sleeves {} mm", short(thickness.plain_mm)), Style::new());
    }
    let mut about = |who: &[String], what: &str| {
        if !who.is_empty() {
            lines.add(&format!("{}: {what}", crate::quantity::list_of(who)), theme.faint());
        }
    };
    about(&thickness.assumed, "diameter not measured, reckoned as thin-walled (ISO 6722-1, from memory)");
    about(&thickness.left_out, "left out: neither diameter nor size is known");
    about(&thickness.bare, "drawn without the sleeve: its diameter was not said");
}

/// Resistance and drop of each circuit that gets a lead, and how its copper changes.
fn add_circuits(view: &JobView<'_>, repaired: &[&Lead], theme: Theme, lines: &mut Lines) {
    let state = view.state();
    let ordered: Vec<&&Lead> = repaired.iter().filter(|lead| lead.order_in_force().is_some()).collect();
    if ordered.is_empty() {
        return;
    }
    lines.add("", Style::new());
    lines.add("CIRCUITS WITH THE LEAD IN THEM", theme.now());
    for lead in ordered {
        let call = lead.call();
        let Some(order) = lead.order_in_force() else { continue };
        if let Some(size) = state.size_in_words(lead, order) {
            lines.add(&format!("{call}: {size}"), Style::new());
        }
        let length = view.assessment.ordered(state, &lead.id).and_then(|ordered| ordered.length);
        match state.circuit_drop(lead, length) {
            None => lines.add(
                &format!(
                    "{call}: drop not reckoned: current, supply and length of the circuit were not said"
                ),
                theme.faint(),
            ),
            Some(drop) => {
                let over = if drop.is_over() { "OVER THE LIMIT" } else { "within it" };
                let style = if drop.is_over() { theme.alarm() } else { Style::new() };
                lines.add(
                    &format!(
                        "{call}: {:.4} ohm, {:.3} V lost, {:.2} % of the supply; limit {} % ({}): {over}",
                        drop.resistance_ohm, drop.drop_v, drop.percent, drop.limit.value, drop.limit.source
                    ),
                    style,
                );
                lines.add(
                    &format!("    of that the lead {:.3} V; resistance: {}", drop.lead_drop_v, drop.source),
                    theme.faint(),
                );
            }
        }
    }
}

/// The positions the book has for the terminals of these repairs.
fn add_tools(view: &JobView<'_>, repaired: &[&Lead], theme: Theme, lines: &mut Lines) {
    let terminals: Vec<_> =
        repaired.iter().filter_map(|lead| view.state().terminal_for(lead)).map(|t| &t.part).collect();
    if terminals.is_empty() {
        return;
    }
    lines.add("", Style::new());
    lines.add("TOOL BOOK for these terminals (! proves a position)", theme.now());
    let today = view.today();
    let known = view.tools.in_force(today).filter(|position| terminals.contains(&&position.key.terminal));
    let mut any = false;
    for position in known {
        any = true;
        add_position(position, today, theme, lines);
    }
    if !any {
        lines.add("Nothing is in it for them: no position is qualified.", theme.alarm());
    }
}

fn add_position(position: &ToolPosition, today: Date, theme: Theme, lines: &mut Lines) {
    let key = &position.key;
    let standing = position.standing(today);
    let style = if standing.is_qualified() { Style::new() } else { theme.alarm() };
    lines.add(
        &format!(
            "{}, position {}, {} on {}: {standing}",
            key.tool,
            key.position,
            key.terminal,
            key.wire.both()
        ),
        style,
    );
    if let (Some(sheet), Some(heights)) = (position.sheet, position.heights()) {
        let (low, high) = sheet.limits_mm();
        // Fewer say nothing of what the position is capable of.
        let capability = heights.capability(low, high).filter(|_| heights.n >= FEWEST_SAMPLES);
        let capability = capability.map_or(String::new(), |capability| {
            let (least, most) = capability.cpk_interval(heights.n, Capability::Z95);
            format!(", Cp {:.2}, Cpk {:.2} (95 %: {least:.2} to {most:.2})", capability.cp, capability.cpk)
        });
        let s = heights.s.map_or("s not known".to_owned(), |s| format!("s {s:.4} mm"));
        lines.add(
            &format!("    {} heights, mean {:.3} mm, {s}{capability}", heights.n, heights.mean),
            theme.faint(),
        );
        lines.picture(&draw_heights(sheet, &position.heights_mm, lines.width().min(61)));
    }
    if let (Some(lowest), Some((least, source))) = (position.lowest_pull_n(), &position.minimum_n) {
        lines.add(&format!("    lowest pull {lowest} N, least {least} N ({source})"), theme.faint());
    }
}

/// What to lay out before the start, and what the cause asks to be looked at.
pub(super) fn lay_out_page(view: &JobView<'_>, ui: &Ui, theme: Theme, area: Rect, buf: &mut Buffer) {
    let mut lines = Lines::new(theme, area);
    lines.add("LAY OUT before the start", theme.now());
    for item in lay_out(view.state(), view.tools, view.today()) {
        lines.add(&format!("- {}  ({})", item.thing, item.what_for), Style::new());
    }
    lines.add("", Style::new());
    lines.add("THE CAUSE, AND WHAT ELSE IT ASKS TO BE LOOKED AT", theme.now());
    let state = view.state();
    match &state.records.cause {
        None => {
            lines.add("Not recorded yet (! records it). The job does not close without it.", Style::new())
        }
        Some(text) => {
            let kind = state.records.cause_kind.map_or(String::new(), |kind| format!("{}: ", kind.words()));
            lines.add(&format!("{kind}{text}"), Style::new());
            match state.records.cause_kind {
                Some(kind) => lines.add(&format!("look also at: {}", kind.look_also()), theme.now()),
                None => lines.add("its kind was not said: what it asks for is not known", theme.faint()),
            }
        }
    }
    lines.add("", Style::new());
    for occasion in [Occasion::ReleaseTools, Occasion::Heat, Occasion::Battery] {
        lines.add(caution(occasion), theme.faint());
    }
    lines.show(ui, area, buf);
}

/// A length with at most one decimal.
fn short(mm: f64) -> String {
    let text = format!("{mm:.1}");
    text.strip_suffix(".0").map_or(text.clone(), str::to_owned)
}
