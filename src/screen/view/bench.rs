//! The bench page: both faces, the move in big characters, one line that says what to do now, and
//! how many things are not in a housing.

use ratatui::{
    buffer::Buffer,
    layout::Rect,
    style::Style,
    text::{Line, Span},
};

use crate::{
    face::PosePlace,
    picture::big_text,
    record::{Address, HousingName},
    screen::{
        ask::{Asked, OtherThing, REREAD_POSE, Topic},
        sight::Sight,
        state::{Message, Ui},
        theme::Theme,
    },
    swap::{Code, Do, ItemId, JobSide, Lead, Occasion, Place, Status, caution},
};

use super::{
    ahead,
    faces::{self, Covered, Spoken},
    text::{self, put},
};

/// Rows under the faces: big characters, question, message, counts, open things.
const BIG: u16 = 5;
const COUNTS: u16 = 2;

/// Draws the bench page.
pub(super) fn draw(sight: &Sight<'_>, ui: &Ui, theme: Theme, area: Rect, buf: &mut Buffer) {
    let topic = ui.topic(sight);
    let spoken = spoken_of(sight, ui, &topic);
    let question = question_lines(sight, ui, theme, area.width);
    let asked_rows = u16::try_from(question.len()).unwrap_or(1);
    let below = BIG + asked_rows + COUNTS + 1;
    let faces = Rect { height: area.height.saturating_sub(below), ..area };
    let used = draw_faces(sight, ui, theme, &spoken, faces, buf).min(faces.height);
    let spare = faces.height - used;
    // On a tall terminal the move stays near the faces, the question near the bottom.
    let big = Rect { y: area.y + used + spare.min(1), height: BIG, ..area };
    draw_big(sight, theme, &topic, &spoken, big, buf);
    let bottom = area.bottom();
    let ask_at = bottom.saturating_sub(COUNTS + asked_rows);
    // Nothing is listed beside a question about what the list would show.
    if matches!(spoken.covered, Covered::Nothing | Covered::SpokenOf) {
        let top = big.bottom() + 1;
        let room = Rect { y: top, height: ask_at.saturating_sub(top + 1), ..area };
        ahead::draw(sight, spoken.from.as_ref(), theme, room, buf);
    }
    let ask_area = Rect { y: ask_at, height: asked_rows, ..area };
    for (row, line) in (0_u16..).zip(&question) {
        put(buf, ask_area, row, line);
    }
    draw_counts(sight, theme, Rect { y: bottom.saturating_sub(COUNTS), height: COUNTS, ..area }, buf);
}

fn draw_faces(
    sight: &Sight<'_>,
    ui: &Ui,
    theme: Theme,
    spoken: &Spoken,
    area: Rect,
    buf: &mut Buffer,
) -> u16 {
    let half = area.width / 2;
    let left = Rect { width: half, ..area };
    let right = Rect { x: area.x + half, width: area.width - half, ..area };
    let old = faces::housing(sight, ui, theme, JobSide::Old, spoken, left, buf);
    let new = faces::housing(sight, ui, theme, JobSide::New, spoken, right, buf);
    old.max(new)
}

/// Which cavities the line is about.
fn spoken_of(sight: &Sight<'_>, ui: &Ui, topic: &Topic) -> Spoken {
    let state = sight.state();
    let Topic::Step(step) = topic else { return Spoken::default() };
    let (from, to) = match step {
        Do::MoveWire { lead, .. } | Do::Repair { lead, .. } => return spoken_of_lead(sight, ui, lead),
        Do::TakePlug { at } if state.side_of(at) == Some(JobSide::New) => (None, Some(at)),
        Do::Anchor { housing, place } => return spoken_of_anchor(sight, housing, *place),
        Do::ReRead { at } => {
            let covered = Covered::Everything;
            return Spoken { to: Some(at.clone()), covered, pose: Some(REREAD_POSE), from: None };
        }
        Do::CountRow { .. } => return Spoken { covered: Covered::Contents, ..Spoken::default() },
        step => step.ends(),
    };
    Spoken { from: from.cloned(), to: to.cloned(), ..Spoken::default() }
}

/// The place an anchor asks about, with everything covered.
fn spoken_of_anchor(sight: &Sight<'_>, name: &HousingName, place: PosePlace) -> Spoken {
    let housing = sight.housing(name);
    let at = housing.and_then(|h| h.seen().label_at(place).map(|label| h.address(label)));
    let (from, to) = match housing.map(|h| h.side) {
        Some(JobSide::Old) => (at, None),
        _ => (None, at),
    };
    Spoken { from, to, covered: Covered::Everything, pose: None }
}

fn spoken_of_lead(sight: &Sight<'_>, ui: &Ui, id: &ItemId) -> Spoken {
    let state = sight.state();
    let Some(lead) = state.lead(id) else { return Spoken::default() };
    let sits_in_old = matches!(&lead.place, Place::In(at) if state.side_of(at) == Some(JobSide::Old));
    let asked = sits_in_old && ui.answers.is_empty() && sight.survey.target.colours_asked.contains(id);
    Spoken {
        from: home_of(lead),
        to: sight.survey.target.of(id).cloned(),
        covered: if asked { Covered::SpokenOf } else { Covered::Nothing },
        pose: None,
    }
}

/// Where a lead is or was taken from.
fn home_of(lead: &Lead) -> Option<Address> {
    match (&lead.place, &lead.id) {
        (_, ItemId::At(at)) => Some(at.clone()),
        (Place::In(at), _) => Some(at.clone()),
        _ => lead.came_from.clone(),
    }
}

/// The move in characters five rows high, and what is known of the lead beside it.
fn draw_big(sight: &Sight<'_>, theme: Theme, topic: &Topic, spoken: &Spoken, area: Rect, buf: &mut Buffer) {
    let label = |at: &Option<Address>| {
        at.as_ref().filter(|_| spoken.covered != Covered::Everything).map(|at| at.label.to_string())
    };
    let text = match (topic, label(&spoken.from), label(&spoken.to)) {
        (Topic::Step(Do::Record { .. } | Do::Decide { .. }), Some(from), _) => from,
        (Topic::Step(Do::FitPlug { .. } | Do::TakePlug { .. }), None, Some(to)) => format!(">{to}"),
        (_, Some(from), Some(to)) => format!("{from}>{to}"),
        (_, Some(from), None) => format!("{from}>?"),
        (_, None, Some(to)) => format!(">{to}"),
        (_, None, None) => String::new(),
    };
    let rows = big_text(&text, theme.ascii);
    let width = rows.first().map_or(0, |row| row.chars().count());
    let style = theme.now();
    for (y, row) in (0_u16..).zip(&rows) {
        put(buf, area, y, &Line::styled(format!("  {row}"), style));
    }
    let beside = u16::try_from(width + 5).unwrap_or(0).min(area.width);
    let beside = Rect { x: area.x + beside, width: area.width - beside, ..area };
    let facts = match topic {
        Topic::Step(Do::MoveWire { lead, .. } | Do::Repair { lead, .. }) => sight
            .state()
            .lead(lead)
            .map_or_else(Vec::new, |l| lead_facts(sight, l, spoken.covered == Covered::SpokenOf)),
        _ => progress(sight),
    };
    for (y, fact) in (0_u16..).zip(facts) {
        put(buf, beside, y, &Line::raw(text::clean(&fact, theme).into_owned()));
    }
}

/// What is known of a lead: colour in words, gauge in both systems, names, condition, partner.
fn lead_facts(sight: &Sight<'_>, lead: &Lead, hide_colour: bool) -> Vec<String> {
    let mut facts = Vec::new();
    for wire in &lead.seen.wires {
        let colour = match wire.colour.known() {
            _ if hide_colour => "?? (hidden until keyed)".to_owned(),
            Some(colour) => format!("{colour}  {}", colour.words()),
            None => "colour ?".to_owned(),
        };
        let gauge = wire.gauge.known().map_or("gauge ?".to_owned(), crate::quantity::Gauge::both);
        facts.push(colour);
        facts.push(gauge);
        let names: Vec<&str> =
            [&wire.number, &wire.circuit].into_iter().filter_map(|n| n.as_deref()).collect();
        facts.push(names.join("  "));
    }
    let from = match &lead.id {
        ItemId::At(from) => Some(from),
        ItemId::PlugBehind(_) | ItemId::Loose(_) | ItemId::Stock(_) => None,
    };
    let numbered = from.into_iter().chain(sight.survey.target.of(&lead.id));
    facts.extend(
        numbered
            .map(|at| (at, sight.also(at)))
            .filter(|(_, also)| !also.is_empty())
            .map(|(at, also)| format!("{} {} is{also}", at.housing, at.label)),
    );
    let partner = lead.seen.wires.iter().find_map(|w| w.twisted_with.as_ref());
    facts.extend(partner.map(|label| format!("twisted with the lead in {label}: keep the twist")));
    facts.extend(lead.seen.condition.as_ref().map(|condition| format!("as found: {condition}")));
    facts.extend(lead.tag.as_ref().map(|tag| format!("tag {tag}")));
    if let Place::Parked(tag) = &lead.place {
        let waits = if sight.state().waits_for_part(lead) { ", waits for a part" } else { "" };
        facts.push(format!("PARKED under tag {tag}{waits}"));
    }
    facts
}

/// Where the job stands, beside questions that are not about one lead.
fn progress(sight: &Sight<'_>) -> Vec<String> {
    let steps = &sight.survey.steps;
    let done = steps.iter().filter(|s| s.status == Status::Done).count();
    let ticket = &sight.state().ticket;
    vec![
        format!("{done} of {} steps done", steps.len()),
        format!("serial {}", ticket.serial),
        ticket.reason.clone(),
    ]
}

/// The imperative line with its answers, and the message under it.
fn question_lines<'a>(sight: &Sight<'_>, ui: &Ui, theme: Theme, width: u16) -> Vec<Line<'a>> {
    let width = usize::from(width).saturating_sub(2);
    let mut lines = Vec::new();
    if let Some(message) = &ui.message {
        let (text, style) = match message {
            Message::Done(text) => (text, theme.done()),
            Message::Refused(text) | Message::Trouble(text) => (text, theme.alarm()),
        };
        push_wrapped(&mut lines, &text::clean(text, theme), width, style);
    }
    if let Some(occasion) = occasion(sight, ui).filter(|_| ui.answers.is_empty()) {
        push_wrapped(&mut lines, &text::clean(caution(occasion), theme), width, theme.faint());
    }
    match ui.asked(sight) {
        Asked::Field { prompt } => {
            push_wrapped(&mut lines, &text::clean(&prompt, theme), width, theme.now());
            let cursor = if theme.ascii { "_" } else { "▁" };
            let field = text::end_of(&text::clean(&ui.field, theme), width.saturating_sub(3));
            lines.push(Line::styled(format!(" > {field}{cursor}"), theme.now()));
        }
        Asked::Picks { prompt, picks } => {
            push_wrapped(&mut lines, &text::clean(&prompt, theme), width, theme.now());
            lines.extend(pick_lines(&picks, theme, width));
        }
        Asked::Ready(_)
        | Asked::Send(_)
        | Asked::Book(_)
        | Asked::Go(_)
        | Asked::Works(_)
        | Asked::Barred { .. } => {}
        Asked::Wrong(why) => push_wrapped(&mut lines, &text::clean(&why, theme), width, theme.alarm()),
    }
    lines
}

/// The caution that belongs to the question; the one on release tools before the first wire, too.
fn occasion(sight: &Sight<'_>, ui: &Ui) -> Option<Occasion> {
    match ui.topic(sight) {
        Topic::Step(Do::MoveWire { .. }) if !sight.state().has_moved() => Some(Occasion::ReleaseTools),
        Topic::Step(step) => step.occasion(),
        Topic::Other(OtherThing::Cause) => Some(Occasion::Heat),
        _ => None,
    }
}

fn push_wrapped(lines: &mut Vec<Line<'_>>, text: &str, width: usize, style: Style) {
    lines.extend(text::wrap(text, width).into_iter().map(|line| Line::styled(format!(" {line}"), style)));
}

/// The one-key answers, as many on a line as fit.
fn pick_lines<'a>(
    picks: &[(crate::screen::keys::Pick, String)],
    theme: Theme,
    width: usize,
) -> Vec<Line<'a>> {
    let mut lines = Vec::new();
    let mut spans: Vec<Span<'a>> = Vec::new();
    let mut used = 0;
    for (pick, says) in picks {
        let item = format!(" {}", text::clean(says, theme));
        let long = item.chars().count() + 5;
        if used > 0 && used + long > width {
            lines.push(Line::from(std::mem::take(&mut spans)));
            used = 0;
        }
        spans.push(Span::raw("  "));
        spans.push(Span::styled(format!("[{}]", pick.key()), theme.key()));
        spans.push(Span::raw(item));
        used += long;
    }
    if !spans.is_empty() {
        lines.push(Line::from(spans));
    }
    lines
}

/// Where everything is, and what is open: on every screen of the move.
fn draw_counts(sight: &Sight<'_>, theme: Theme, area: Rect, buf: &mut Buffer) {
    let account = &sight.survey.account;
    let (wires, plugs) = (&account.wires, &account.plugs);
    let left = format!(
        " wires: old {} hand {} parked {} new {}   plugs: old {} hand {} tray {} new {}",
        wires.old, wires.hand, wires.parked, wires.new, plugs.old, plugs.hand, plugs.tray, plugs.new
    );
    put(buf, area, 0, &Line::raw(left));
    put(buf, area, 1, &open_line(sight, theme, usize::from(area.width)));
}

/// The gravest thing that is open, and what is parked.
fn open_line<'a>(sight: &Sight<'_>, theme: Theme, width: usize) -> Line<'a> {
    let state = sight.state();
    let ordinary =
        |code: Code| matches!(code, Code::NotFinished | Code::InHand | Code::Parked | Code::NotTugged);
    let flags: Vec<_> = sight.survey.account.open_flags().filter(|f| !ordinary(f.code)).collect();
    let parked: Vec<String> = state.parked().map(|(tag, id)| format!("{id} (tag {tag})")).collect();
    let mut text = String::from(" ");
    let out = sight.survey.account.not_in_a_housing();
    text.push_str(&match out {
        0 => "0 in no housing   ".to_owned(),
        out => format!("{out} IN NO HOUSING   "),
    });
    if !parked.is_empty() {
        text.push_str(&format!("PARKED {}   ", parked.join(", ")));
    }
    match flags.as_slice() {
        [] => {}
        [first, rest @ ..] => {
            let more = if rest.is_empty() { String::new() } else { format!(" (+{} more)", rest.len()) };
            let room = width.saturating_sub(text.chars().count() + more.chars().count() + "OPEN ".len());
            text.push_str(&format!("OPEN {}{more}", text::start_of(&first.say, room)));
        }
    }
    let style = if flags.is_empty() && out == 0 { theme.faint() } else { theme.now() };
    Line::styled(text::clean(&text, theme).into_owned(), style)
}
