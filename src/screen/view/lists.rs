//! The list pages: account, differences, parts request, notes.

use ratatui::{buffer::Buffer, layout::Rect, style::Style};

use crate::{
    catalogue::Delivered,
    job::needs::build,
    job::{About, Act, JobSide, RecordSide},
    procedure::JobView,
    record::{LeadSeen, look_alikes},
    report::{Words, flag_words, request_text},
    screen::{state::Ui, theme::Theme},
    supply::RequestHead,
};

use super::page::Lines;

/// Any page while what it tells is asked.
pub(super) fn covered(ui: &Ui, theme: Theme, area: Rect, buf: &mut Buffer) {
    let mut lines = Lines::new(theme, area);
    lines.add("COVERED", theme.now());
    lines.add(
        "The question on the bench asks what stands here. Answer it first; Esc goes back to it.",
        Style::new(),
    );
    lines.show(ui, area, buf);
}

/// The account: places, cavities, flags.
pub(super) fn account(view: &JobView<'_>, ui: &Ui, theme: Theme, area: Rect, buf: &mut Buffer) {
    let account = &view.assessment.account;
    let mut lines = Lines::new(theme, area);
    let (w, l, p, o, c) = (account.wires, account.leads, account.plugs, account.others, account.cavities);
    lines.add("WHERE EVERYTHING IS", theme.now());
    let plain = Style::new();
    lines.add(
        &format!(
            "wires   found {} = old {} + hand {} + parked {} + new {} + removed {} + unseen {}",
            w.found, w.old, w.hand, w.parked, w.new, w.removed, w.unseen
        ),
        plain,
    );
    let places = l.places;
    lines.add(
        &format!(
            "leads   found {} + made {} = old {} + hand {} + parked {} + new {} + removed {} + joined {} + unseen {}",
            places.found, l.made, places.old, places.hand, places.parked, places.new, places.removed, l.joined, places.unseen
        ),
        plain,
    );
    lines.add(
        &format!(
            "plugs   found {} + prefitted {} + stock {} = old {} + hand {} + tray {} + new {} + scrapped {} + lost {} + returned {} + unseen {}",
            p.found, p.prefitted, p.new_stock, p.old, p.hand, p.tray, p.new, p.scrapped, p.lost, p.returned, p.unseen
        ),
        plain,
    );
    if o.found > 0 {
        lines.add(
            &format!(
                "others  found {} = old {} + hand {} + parked {} + new {} + scrapped {} + returned {} + lost {} + unseen {}",
                o.found, o.old, o.hand, o.parked, o.new, o.scrapped, o.returned, o.lost, o.unseen
            ),
            plain,
        );
    }
    lines.add(
        &format!(
            "new side  {} cavities = wired {} + plugged {} + open {} + empty {} + blocked {} + spare {} + bridge {}",
            c.total, c.wired, c.plugged, c.open, c.empty, c.blocked, c.spare, c.bridge
        ),
        plain,
    );
    lines.add("", plain);
    let open = account.open_flags().count();
    lines.add(&format!("FLAGS: {open} open"), theme.now());
    for (n, flag) in account.open_flags().enumerate() {
        let place = flag.at.as_ref().map_or(String::new(), |at| format!(" {at}"));
        let (code, Words { say, instead }) = (flag.code(), flag_words(flag));
        lines.add(&format!("{:>2}  {} {code}{place}: {say}", n + 1, code.severity()), plain);
        lines.add(&format!("      {instead}"), theme.faint());
    }
    for flag in account.flags.iter().filter(|f| f.accepted.is_some()) {
        let by = flag.accepted.as_ref().map_or(String::new(), |a| format!("{}: {}", a.by, a.reason));
        lines.add(&format!("accepted  {}: {} ({by})", flag.code(), flag_words(flag).say), theme.faint());
    }
    lines.show(ui, area, buf);
}

/// Differences between found and should, decisions, and look-alikes.
pub(super) fn differences(view: &JobView<'_>, ui: &Ui, theme: Theme, area: Rect, buf: &mut Buffer) {
    let state = view.state();
    let mut lines = Lines::new(theme, area);
    lines.add("AS FOUND AGAINST AS IT SHOULD BE", theme.now());
    let differences = &view.assessment.target.differences;
    if state.records.should.is_empty() {
        lines.add("There is no record of what should be (repin new --should).", Style::new());
    } else if differences.is_empty() {
        lines.add("No difference.", Style::new());
    }
    for difference in differences {
        lines.add(&difference.sentence(), Style::new());
        let reason =
            state.records.decisions.get(&difference.at).map_or("", |decision| decision.reason.as_str());
        let decided = match state.records.decided_for(difference) {
            Some(RecordSide::Found) => format!("    as found: {reason}"),
            Some(RecordSide::Should) => format!("    as it should be: {reason}"),
            None => "    not decided".to_owned(),
        };
        lines.add(&decided, theme.faint());
    }
    lines.add("", Style::new());
    lines.add("OLD HOUSING AGAINST NEW", theme.now());
    let pairs = state
        .housings
        .side(JobSide::Old)
        .flat_map(|old| state.housings.side(JobSide::New).map(move |new| (old, new)));
    for (old, new) in pairs {
        let differ = old.definition.differences_to(&new.definition);
        if differ.is_empty() {
            lines.add(&format!("{} and {}: no difference.", old.name, new.name), Style::new());
        }
        for difference in differ {
            lines.add(&format!("{} and {}: {}", old.name, new.name, difference.say), Style::new());
            lines.add(&format!("    {}", difference.kind.means()), theme.faint());
        }
    }
    lines.add("", Style::new());
    lines.add("LOOK-ALIKES", theme.now());
    let groups = look_alikes(&state.records.found);
    if groups.is_empty() {
        lines.add("No two leads look alike.", Style::new());
    }
    for group in groups {
        lines.add(&format!("{}: {}", group.looks, state.housings.spoken(&group.at).join(", ")), Style::new());
    }
    lines.show(ui, area, buf);
}

/// The map in both directions, with what speaks about each cavity.
pub(super) fn map(view: &JobView<'_>, ui: &Ui, theme: Theme, area: Rect, buf: &mut Buffer) {
    let state = view.state();
    let mut lines = Lines::new(theme, area);
    // Until a map is confirmed, what the first source would give is shown.
    let proposal = state.map_proposals().into_iter().next();
    let (map, heading) = match (state.mapping.confirmed, proposal) {
        (Some(source), _) => (state.mapping.map.clone(), format!("MAP by {}, confirmed", source.words())),
        (None, Some(first)) => (first.map, format!("MAP by {}, NOT confirmed yet", first.source.words())),
        (None, None) => (state.mapping.map.clone(), "MAP, not whole yet".to_owned()),
    };
    lines.add(&heading, theme.now());
    lines.add("FROM OLD TO NEW", theme.now());
    for old in state.housings.side(JobSide::Old) {
        for cavity in &old.housing().cavities {
            let at = old.address(&cavity.label);
            let to = match map.get(&at) {
                Some(Some(to)) => format!("to {to}"),
                Some(None) => "no place there".to_owned(),
                None => "not mapped".to_owned(),
            };
            let holds = state.records.found.get(&at);
            let what = holds.map_or("not recorded", |h| h.word());
            let wire = holds.and_then(|h| h.lead()).map_or(String::new(), wires_in_words);
            let document = state.mapping.documents.get(&at);
            let document = document.map_or(String::new(), |d| format!("  under {d}"));
            lines.add(&format!("{:<12} {to:<15} {what} {wire}{document}", at.to_string()), Style::new());
        }
    }
    lines.add("", Style::new());
    lines.add("FROM NEW TO OLD", theme.now());
    for new in state.housings.side(JobSide::New) {
        for cavity in &new.housing().cavities {
            let at = new.address(&cavity.label);
            let from = map.iter().find(|(_, to)| to.as_ref() == Some(&at));
            let bare = match cavity.delivered {
                Delivered::Blocked => "moulded shut",
                _ => "nothing comes here",
            };
            let from = from.map_or_else(|| bare.to_owned(), |(from, _)| format!("from {from}"));
            let also = new.housing().also_called(&cavity.label);
            let also = if also.is_empty() { String::new() } else { format!("  ({also})") };
            lines.add(&format!("{:<12} {from}{also}", at.to_string()), Style::new());
        }
    }
    lines.show(ui, area, buf);
}

fn wires_in_words(lead: &LeadSeen) -> String {
    let wires = lead.wires.iter().map(|w| format!("{} {}", w.name().unwrap_or_default(), w.colour));
    wires.collect::<Vec<_>>().join(" + ")
}

/// What the job needs now, as the desk will read it.
pub(super) fn request(view: &JobView<'_>, ui: &Ui, theme: Theme, area: Rect, buf: &mut Buffer) {
    let mut lines = Lines::new(theme, area);
    match view.state().supply.requested.as_ref() {
        Some(sent) => {
            lines.add(
                &format!("Request {}, revision {}, was sent.", sent.number, sent.revision),
                Style::new(),
            );
        }
        None => lines.add("Nothing was sent yet.", Style::new()),
    }
    let head = RequestHead { asked_by: view.by.to_owned(), ..RequestHead::default() };
    let request = build(view.job, view.assessment, view.id, head, view.last_request, view.tools);
    match (request.changed, view.read_only) {
        (true, None) => lines.add("[s] send the request as it stands", theme.key()),
        (true, Some(_)) => {}
        (false, _) => lines.add("Nothing changed since.", Style::new()),
    }
    lines.add("", Style::new());
    for line in request_text(&request).lines() {
        lines.add(line, Style::new());
    }
    lines.show(ui, area, buf);
}

/// Notes, photos and the cause, the newest first.
pub(super) fn notes(view: &JobView<'_>, ui: &Ui, theme: Theme, area: Rect, buf: &mut Buffer) {
    let mut lines = Lines::new(theme, area);
    lines.add("NOTES, PHOTOS, CAUSE (! adds one)", theme.now());
    for entry in view.job.entries().iter().rev() {
        let text = match &entry.act {
            Act::Note { text, about: About::Job } => format!("note: {text}"),
            Act::Note { text, about: About::At(at) } => format!("note on {at}: {text}"),
            Act::Photo { number, shows } => format!("photo {number}: {shows}"),
            Act::Cause { text, kind } => {
                let look = kind.map_or(String::new(), |kind| format!("; look also at: {}", kind.look_also()));
                format!("cause: {text}{look}")
            }
            _ => continue,
        };
        lines.add(&format!("{}  {}  {text}", entry.at, entry.by), Style::new());
    }
    lines.show(ui, area, buf);
}
