//! The bench page: both faces, the move in big characters, one line that says what to do now, and
//! how many things are not in a housing.

use ratatui::{
    buffer::Buffer,
    layout::Rect,
    style::Style,
    text::{Line, Span},
};

use crate::{
    job::{Code, ItemId, Lead, Occasion, Place, Status, Task, caution},
    picture::big_text,
    procedure::{Ask, Choice, Covered, JobView, OtherThing, Stop, Takes, Topic},
    record::Address,
    report::{
        flag_words,
        questions::{answer_words, prompt, warning, wrong},
    },
    screen::{
        asking::Asking,
        keys::{key_of, words_of},
        state::{Message, Ui},
        theme::Theme,
    },
};

use super::{
    ahead,
    faces::{Faces, Spoken},
    spoken::spoken_of,
    text::{self, put},
};

/// Rows of the move in big characters.
const BIG: u16 = 5;
const COUNTS: u16 = 2;
/// Rows there must be for the faces and the move.
const ROOM_FOR_BOTH: u16 = 12;
/// The most rows of a message and a caution, so that the question under them is in sight.
const MESSAGE_MOST: usize = 5;
/// Between where from and where to, and nothing that can be read as a figure.
const ARROW: [[&str; 5]; 2] = [
    ["         ", "         ", " ━━━━━▶▶ ", "         ", "         "],
    ["         ", "         ", " ====>>  ", "         ", "         "],
];

/// Draws the bench page.
pub(super) fn draw(view: &JobView<'_>, ui: &Ui, asking: &Asking, theme: Theme, area: Rect, buf: &mut Buffer) {
    let Asking { topic, covered, covering, .. } = asking;
    // A mark beside the hole that is asked would tell it.
    let spoken = spoken_of(view, if *covered == Covered::LabelsToo { covering } else { topic });
    let question = question_lines(view, ui, asking, theme, area.width);
    let asked_rows = u16::try_from(question.len()).unwrap_or(1);
    let open = open_lines(view, theme, covered, usize::from(area.width));
    let counts = COUNTS.max(1 + u16::try_from(open.len()).unwrap_or(1));
    let big = Big { view, theme, topic, spoken: &spoken, covered };
    // A question of many lines takes the room of the move before that of the faces.
    let left = area.height.saturating_sub(asked_rows + counts + 1);
    let big_rows = if left < ROOM_FOR_BOTH { 0 } else { big.height(area.width) };
    let below = big_rows + asked_rows + counts + 1;
    let faces = Rect { height: area.height.saturating_sub(below), ..area };
    let is_moving = view.state().has_moved() || matches!(topic, Topic::Step(step) if step.is_move());
    let drawn = Faces { view, ui, theme, spoken: &spoken, covered, is_moving };
    let used = drawn.draw(faces, buf).min(faces.height);
    let spare = faces.height - used;
    // On a tall terminal the move stays near the faces, the question near the bottom.
    let big_area = Rect { y: area.y + used + spare.min(1), height: big_rows, ..area };
    big.draw(big_area, buf);
    let bottom = area.bottom();
    let ask_at = bottom.saturating_sub(counts + asked_rows);
    // Nothing is listed beside a question about what the list would show.
    if matches!(covered, Covered::Nothing | Covered::ColoursOf(_)) && !spoken.is_about_no_face {
        let top = big_area.bottom() + 1;
        let room = Rect { y: top, height: ask_at.saturating_sub(top + 1), ..area };
        ahead::draw(view, spoken.from.as_ref(), theme, room, buf);
    }
    let ask_area = Rect { y: ask_at, height: asked_rows, ..area };
    for (row, line) in (0_u16..).zip(&question) {
        put(buf, ask_area, row, line);
    }
    let counts_area = Rect { y: bottom.saturating_sub(counts), height: counts, ..area };
    put(buf, counts_area, 0, &counts_line(view, covered));
    for (row, line) in (1_u16..).zip(&open) {
        put(buf, counts_area, row, line);
    }
}

/// The move in characters five rows high, and what is known of the lead beside it.
struct Big<'a> {
    view: &'a JobView<'a>,
    theme: Theme,
    topic: &'a Topic,
    spoken: &'a Spoken,
    covered: &'a Covered,
}

impl Big<'_> {
    /// Rows it takes: no more than are written on.
    fn height(&self, width: u16) -> u16 {
        let rows = self.rows(usize::from(width) / 2);
        let facts = self.facts(usize::from(width).saturating_sub(indent(&rows)));
        u16::try_from(rows.len().max(facts.len())).unwrap_or(BIG).min(BIG)
    }

    fn draw(&self, area: Rect, buf: &mut Buffer) {
        let rows = self.rows(usize::from(area.width) / 2);
        for (y, row) in (0_u16..).zip(&rows) {
            put(buf, area, y, &Line::styled(format!("  {row}"), self.theme.now()));
        }
        let indent = u16::try_from(indent(&rows)).unwrap_or(0).min(area.width);
        let beside = Rect { x: area.x + indent, width: area.width - indent, ..area };
        for (y, line) in (0_u16..).zip(self.facts(usize::from(beside.width))) {
            put(buf, beside, y, &Line::raw(line));
        }
    }

    /// What is known of the lead, else how far the job is, in lines of this width.
    fn facts(&self, width: usize) -> Vec<String> {
        let facts = match self.topic {
            Topic::Step(Task::MoveWire { lead, .. } | Task::Repair { lead, .. }) => self
                .view
                .state()
                .items
                .lead(lead)
                .filter(|_| !matches!(self.covered, Covered::Contents | Covered::LabelsToo))
                .map_or_else(Vec::new, |l| lead_facts(self.view, l, self.covered.hides(lead))),
            _ => progress(self.view),
        };
        facts.iter().flat_map(|fact| text::wrap(&text::clean(fact, self.theme), width)).collect()
    }

    /// Where from and where to, five rows high where they fit, else in plain words.
    fn rows(&self, most: usize) -> Vec<String> {
        let is_told = *self.covered != Covered::LabelsToo;
        let label = |at: &Option<Address>| {
            at.as_ref().filter(|_| is_told).map(|at| self.view.state().housings.short(at))
        };
        let (from, to) = (label(&self.spoken.from), label(&self.spoken.to));
        let is_a_move = match self.topic {
            Topic::Step(step) => {
                !matches!(step, Task::Record { .. } | Task::Decide { .. } | Task::Tag { .. })
            }
            _ => false,
        };
        let (from, to) = match (from, to) {
            (Some(from), None) if is_a_move => (Some(from), Some("?".to_owned())),
            ends => ends,
        };
        if from.is_none() && to.is_none() {
            return Vec::new();
        }
        let big = |text: &Option<String>| big_text(text.as_deref().unwrap_or_default(), self.theme.ascii);
        let (left, right) = (big(&from), big(&to));
        let arrow = ARROW[usize::from(self.theme.ascii)];
        let arrow = if to.is_some() { arrow } else { [""; 5] };
        let rows =
            left.iter().zip(arrow).zip(&right).map(|((left, arrow), right)| format!("{left}{arrow}{right}"));
        let rows: Vec<String> = rows.collect();
        if rows.iter().all(|row| row.chars().count() <= most) {
            return rows;
        }
        let said = [from.map(|label| format!("from {label}")), to.map(|label| format!("to {label}"))];
        said.into_iter().flatten().collect()
    }
}

/// Columns left of the facts.
fn indent(rows: &[String]) -> usize {
    match rows.iter().map(|row| row.chars().count()).max() {
        Some(wide) => wide + 5,
        None => 1,
    }
}

/// What is known of a lead: colour in words, gauge in both systems, names, condition, partner.
fn lead_facts(view: &JobView<'_>, lead: &Lead, hide_colour: bool) -> Vec<String> {
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
    let numbered = from.into_iter().chain(view.assessment.target.of(&lead.id));
    facts.extend(
        numbered
            .map(|at| (at, view.also(at)))
            .filter(|(_, also)| !also.is_empty())
            .map(|(at, also)| format!("{} {} is{also}", at.housing, at.label)),
    );
    let partner = lead.seen.wires.iter().find_map(|w| w.twisted_with.as_ref());
    facts.extend(partner.map(|label| format!("twisted with the lead in {label}: keep the twist")));
    facts.extend(lead.seen.condition.as_ref().map(|condition| format!("as found: {condition}")));
    facts.extend(lead.tag.as_ref().map(|tag| format!("tag {tag}")));
    if let Place::Parked(tag) = &lead.place {
        let waits = if view.state().supply.waits_for_part(lead) { ", waits for a part" } else { "" };
        facts.push(format!("PARKED under tag {tag}{waits}"));
    }
    facts
}

/// Where the job stands, beside questions that are not about one lead.
fn progress(view: &JobView<'_>) -> Vec<String> {
    let steps = &view.assessment.steps;
    let done = steps.iter().filter(|s| s.status == Status::Done).count();
    let ticket = &view.state().world.ticket;
    vec![
        format!("{done} of {} steps done", steps.len()),
        format!("serial {}", ticket.serial),
        ticket.reason.clone(),
    ]
}

/// The imperative line with its answers, and the message under it.
fn question_lines<'a>(
    view: &JobView<'_>,
    ui: &Ui,
    asking: &Asking,
    theme: Theme,
    width: u16,
) -> Vec<Line<'a>> {
    let width = usize::from(width).saturating_sub(2);
    let mut lines = Vec::new();
    if let Some(message) = &ui.message {
        match message {
            Message::Done(text) => push_wrapped(&mut lines, &text::clean(text, theme), width, theme.done()),
            Message::Refused(text) | Message::Failed(text) | Message::Trouble(text) => {
                push_loud(&mut lines, Some(text), theme, width);
            }
        }
    }
    if view.read_only.is_some() {
        let say = "This job can only be looked at here: Tab turns the pages, q leaves.";
        push_wrapped(&mut lines, say, width, theme.now());
        return lines;
    }
    if let Some(occasion) = occasion(view, &asking.topic).filter(|_| ui.answers.is_empty()) {
        push_wrapped(&mut lines, &text::clean(caution(occasion), theme), width, theme.faint());
    }
    if lines.len() > MESSAGE_MOST {
        lines.truncate(MESSAGE_MOST);
        lines.push(Line::styled(" ... (more than fits here)", theme.alarm()));
    }
    match &asking.asked {
        Err(Stop::Ask(ask)) => push_question(&mut lines, view, ui, ask, theme, width),
        Err(Stop::Wrong(why)) => {
            push_wrapped(&mut lines, &text::clean(&wrong(why), theme), width, theme.alarm())
        }
        Err(Stop::Barred(_)) | Ok(_) => {}
    }
    lines
}

/// What is wrong, the question, and what is typed or the answers one can give.
fn push_question<'a>(
    lines: &mut Vec<Line<'a>>,
    view: &JobView<'_>,
    ui: &Ui,
    ask: &Ask,
    theme: Theme,
    width: usize,
) {
    push_loud(lines, warning(ask).as_deref(), theme, width);
    push_wrapped(lines, &text::clean(&prompt(view, ask), theme), width, theme.now());
    match &ask.takes {
        Takes::Text(_) => {
            let cursor = if theme.ascii { "_" } else { "▁" };
            let field = text::end_of(&text::clean(&ui.field, theme), width.saturating_sub(3));
            lines.push(Line::styled(format!(" > {field}{cursor}"), theme.now()));
        }
        Takes::Choices(offered) => {
            let words = |choice| answer_words(view, &ask.question, choice);
            lines.extend(choice_lines(ui, offered, words, theme, width));
        }
    }
}

/// The caution that belongs to the question; the one on release tools before the first wire, too.
fn occasion(view: &JobView<'_>, topic: &Topic) -> Option<Occasion> {
    match topic {
        Topic::Step(Task::MoveWire { .. }) if !view.state().has_moved() => Some(Occasion::ReleaseTools),
        Topic::Step(step) => step.occasion(),
        Topic::Other(OtherThing::Cause) => Some(Occasion::Heat),
        _ => None,
    }
}

/// What is wrong: with a sign of its own, on lines of its own.
fn push_loud(lines: &mut Vec<Line<'_>>, text: Option<&str>, theme: Theme, width: usize) {
    if let Some(text) = text {
        push_wrapped(lines, &text::clean(&format!("!! {text}"), theme), width, theme.alarm());
    }
}

fn push_wrapped(lines: &mut Vec<Line<'_>>, text: &str, width: usize, style: Style) {
    lines.extend(text::wrap(text, width).into_iter().map(|line| Line::styled(format!(" {line}"), style)));
}

/// The one-key answers, as many on a line as fit.
fn choice_lines<'a>(
    ui: &Ui,
    offered: &[Choice],
    words: impl Fn(Choice) -> Option<String>,
    theme: Theme,
    width: usize,
) -> Vec<Line<'a>> {
    let mut lines = Vec::new();
    let mut spans: Vec<Span<'a>> = Vec::new();
    let mut used = 0;
    for choice in offered.iter().copied() {
        let (key, usual) = (ui.spent.key_of(choice, offered), key_of(choice));
        let used_up = if key == usual { String::new() } else { format!(" (not {usual} twice)") };
        let says = words(choice).unwrap_or_else(|| words_of(choice).to_owned());
        let item = format!(" {}{used_up}", text::clean(&says, theme));
        let long = item.chars().count() + 5;
        if used > 0 && used + long > width {
            lines.push(Line::from(std::mem::take(&mut spans)));
            used = 0;
        }
        spans.push(Span::raw("  "));
        spans.push(Span::styled(format!("[{key}]"), theme.key()));
        spans.push(Span::raw(item));
        used += long;
    }
    if !spans.is_empty() {
        lines.push(Line::from(spans));
    }
    lines
}

/// Where everything is: on every screen of the move.
fn counts_line<'a>(view: &JobView<'_>, covered: &Covered) -> Line<'a> {
    // The sums of a housing of one row are what its count asks.
    if *covered == Covered::Contents {
        return Line::raw(" wires, plugs: covered while a row is counted");
    }
    let (wires, plugs) = (&view.assessment.account.wires, &view.assessment.account.plugs);
    Line::raw(format!(
        " wires: old {} hand {} parked {} new {}   plugs: old {} hand {} tray {} new {}",
        wires.old, wires.hand, wires.parked, wires.new, plugs.old, plugs.hand, plugs.tray, plugs.new
    ))
}

/// What is in no housing, what is parked, and the gravest thing that is open; two lines where one does not
/// hold it.
fn open_lines<'a>(view: &JobView<'_>, theme: Theme, covered: &Covered, width: usize) -> Vec<Line<'a>> {
    let state = view.state();
    let ordinary =
        |code: Code| matches!(code, Code::NotFinished | Code::InHand | Code::Parked | Code::NotTugged);
    let flags: Vec<_> = view.assessment.account.open_flags().filter(|f| !ordinary(f.code())).collect();
    let parked: Vec<String> = state.items.parked().map(|(tag, id)| format!("{id} (tag {tag})")).collect();
    let out = view.assessment.account.not_in_a_housing();
    let mut text = match out {
        0 => "0 in no housing".to_owned(),
        out => format!("{out} IN NO HOUSING"),
    };
    if !parked.is_empty() {
        text.push_str(&format!("   PARKED {}", parked.join(", ")));
    }
    match flags.as_slice() {
        [] => {}
        [..] if !covered.is_nothing() => {
            let points = crate::quantity::count_of(flags.len(), "open point");
            text.push_str(&format!("   {points}: covered while this is asked"));
        }
        [only] => text.push_str(&format!("   OPEN POINT: {}", flag_words(only).say)),
        [first, ..] => {
            text.push_str(&format!("   {} OPEN POINTS: {}", flags.len(), flag_words(first).say));
        }
    }
    let style = if flags.is_empty() && out == 0 { theme.faint() } else { theme.now() };
    let mut lines = text::wrap(&text::clean(&text, theme), width.saturating_sub(2));
    if lines.len() > 2 {
        lines.truncate(2);
        if let Some(last) = lines.last_mut() {
            *last = format!("{} ... Tab: the rest", text::start_of(last, width.saturating_sub(22)));
        }
    }
    lines.into_iter().map(|line| Line::styled(format!(" {line}"), style)).collect()
}
