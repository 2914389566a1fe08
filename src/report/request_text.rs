//! The request on paper: one page wide, tick boxes, room to write.

use super::{
    lead_words::lead_in_words,
    line_words::{changes_in_words, description, looks_in_words},
};
use crate::{
    job::needs::{JobLine, JobRequest},
    quantity::harmless,
    supply::Substitute,
};

const WIDTH: usize = 78;

/// Room to write what was not said.
fn blank() -> String {
    "____________".to_owned()
}

fn said<T: ToString>(value: Option<&T>) -> String {
    value.map_or_else(blank, ToString::to_string)
}

/// The printable text of a request.
pub fn request_text(request: &JobRequest) -> String {
    let mut out = String::new();
    let spaced: String = request.number.as_str().chars().map(|c| format!("{c} ")).collect();
    out.push_str(&format!("PARTS REQUEST   {}  revision {}\n", spaced.trim_end(), request.revision));
    out.push_str(&format!("{}\n", "=".repeat(WIDTH)));
    if request.revision > 1 {
        out.push_str(&format!("REPLACES revision {} and all before it\n", request.revision - 1));
    }
    let ticket = &request.ticket;
    let head = &request.head;
    let told = |text: &str| if text.is_empty() { blank() } else { text.to_owned() };
    field(&mut out, "machine", &format!("{}, serial {}", told(&ticket.asset), told(&ticket.serial)));
    field(&mut out, "connector", &told(&ticket.connector));
    field(&mut out, "why", &told(&request.why));
    field(&mut out, "job", &format!("{}, put together {}", request.job, request.day));
    field(
        &mut out,
        "asked by",
        &format!("{}, bench {}", told(&head.asked_by), bench_of(&said(head.bench.as_ref()))),
    );
    field(&mut out, "deliver to", &said(head.deliver_to.as_ref()));
    field(
        &mut out,
        "needed by",
        &format!("{} ({})", said(head.needed_by.as_ref()), said(head.urgency.as_ref())),
    );
    let photos = if request.photos.is_empty() { "none".to_owned() } else { request.photos.join(", ") };
    field(&mut out, "photos", &photos);
    out.push_str(&format!("{}\n", "-".repeat(WIDTH)));
    for line in &request.lines {
        line_text(&mut out, line);
    }
    out.push_str(&format!("{}\n", "=".repeat(WIDTH)));
    out.push_str("need: for this repair. spare: beyond it, by the house rules. A substitute is a\n");
    out.push_str("question to the bench, never a fact.\n");
    out
}

/// A bench that was keyed as "bench 4" is bench 4, too.
fn bench_of(said: &str) -> &str {
    match said.split_at_checked(6) {
        Some((word, name)) if word.eq_ignore_ascii_case("bench ") => name.trim(),
        _ => said,
    }
}

fn field(out: &mut String, name: &str, value: &str) {
    wrapped(out, &format!("{name:<11}"), value);
}

/// Text after a lead-in, the following lines under it.
fn wrapped(out: &mut String, lead: &str, text: &str) {
    let indent = lead.chars().count();
    let mut line = lead.to_owned();
    let mut used = 0;
    for word in harmless(text).split_whitespace() {
        if used > 0 && indent + used + 1 + word.chars().count() > WIDTH {
            out.push_str(line.trim_end());
            out.push('\n');
            line = " ".repeat(indent);
            used = 0;
        }
        if used > 0 {
            line.push(' ');
            used += 1;
        }
        line.push_str(word);
        used += word.chars().count();
    }
    out.push_str(line.trim_end());
    out.push('\n');
}

fn line_text(out: &mut String, line: &JobLine) {
    let asked = &line.asked;
    let amount = asked.amount;
    let lead = asked.wanted.lead();
    let spec = lead.and_then(|lead| Some((lead, lead.spec.as_deref()?)));
    let unknown = if spec.is_some() { "MADE TO ORDER" } else { "TO BE IDENTIFIED" };
    let part = asked.wanted.number().map_or(unknown, |number| number.as_str());
    let mut told = format!("need {} + spare {}", amount.need, amount.spare);
    if let (Some(pack), Some(packs)) = (amount.pack, amount.packs()) {
        let word = if packs == 1 { "pack" } else { "packs" };
        told.push_str(&format!(" = {} ({packs} {word} of {pack})", amount.total()));
    }
    out.push_str(&format!("[ ] {:>2}  {:<28} {}\n", asked.line, harmless(part), told));
    wrapped(out, "        ", &format!("{}: {}", asked.kind().as_str(), description(&asked.wanted)));
    if !line.changes.is_empty() {
        wrapped(out, "        CHANGED: ", &changes_in_words(&line.changes));
    }
    if line.counts.arrived() > 0 {
        let came = format!("{} came, {} still wanted", line.counts.arrived(), line.counts.still_wanted());
        wrapped(out, "        CAME: ", &came);
    }
    if asked.is_gone() {
        wrapped(out, "        ", "no longer needed");
        return;
    }
    if !asked.used_for.is_empty() {
        let places: Vec<String> = asked.used_for.iter().map(ToString::to_string).collect();
        wrapped(out, "        for ", &places.join(", "));
    }
    if let Some(with) = &asked.supplied_with {
        wrapped(out, "        ", &format!("comes with {with}: check that it is in the bag"));
    }
    if let Some((lead, spec)) = spec {
        for words in lead_in_words(lead, spec) {
            wrapped(out, "        - ", &words);
        }
        if !spec.missing.is_empty() {
            wrapped(out, "        NOT TO BE SENT YET, missing: ", &spec.missing.join("; "));
        }
    } else if let Some(looks) = asked.wanted.looks() {
        wrapped(out, "        looks: ", &looks_in_words(looks));
    }
    if asked.substitute != Substitute::None {
        wrapped(out, "        substitute: ", asked.substitute.as_str());
    }
}
