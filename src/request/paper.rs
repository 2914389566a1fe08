//! The request on paper: one page wide, tick boxes, room to write.

use super::{JobLine, Request};
use crate::{
    quantity::harmless,
    supply::{Describe, Substitute},
};

const WIDTH: usize = 78;

/// The printable text of a request.
pub fn paper(request: &Request) -> String {
    let mut out = String::new();
    let spaced: String = request.number.as_str().chars().map(|c| format!("{c} ")).collect();
    out.push_str(&format!("PARTS REQUEST   {}  revision {}\n", spaced.trim_end(), request.revision));
    out.push_str(&format!("{}\n", "=".repeat(WIDTH)));
    if request.revision > 1 {
        out.push_str(&format!("REPLACES revision {} and all before it\n", request.revision - 1));
    }
    let ticket = &request.ticket;
    let head = &request.head;
    let blank = || "____________".to_owned();
    let said = |text: &Option<String>| text.clone().unwrap_or_else(blank);
    let told = |text: &str| if text.is_empty() { blank() } else { text.to_owned() };
    field(&mut out, "machine", &format!("{}, serial {}", told(&ticket.asset), told(&ticket.serial)));
    field(&mut out, "connector", &told(&ticket.connector));
    field(&mut out, "why", &told(&request.why));
    field(&mut out, "job", &format!("{}, put together {}", request.job, request.day));
    field(&mut out, "asked by", &format!("{}, bench {}", told(&head.asked_by), bench_of(&said(&head.bench))));
    field(&mut out, "deliver to", &said(&head.deliver_to));
    field(&mut out, "needed by", &format!("{} ({})", said(&head.needed_by), said(&head.urgency)));
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
    let unknown = if asked.lead.is_some() { "MADE TO ORDER" } else { "TO BE IDENTIFIED" };
    let part = asked.part.as_deref().unwrap_or(unknown);
    let mut amount = format!("need {} + spare {}", asked.need, asked.spare);
    if let (Some(pack), Some(packs)) = (asked.pack, asked.packs()) {
        let word = if packs == 1 { "pack" } else { "packs" };
        amount.push_str(&format!(" = {} ({packs} {word} of {pack})", asked.need + asked.spare));
    }
    out.push_str(&format!("[ ] {:>2}  {:<28} {}\n", asked.line, harmless(part), amount));
    wrapped(out, "        ", &format!("{}: {}", asked.kind.as_str(), asked.description));
    if !line.changes.is_empty() {
        wrapped(out, "        CHANGED: ", &line.changes.join("; "));
    }
    if line.came > 0 {
        let came = format!("{} came, {} still wanted", line.came, line.wanted());
        wrapped(out, "        CAME: ", &came);
    }
    if asked.need == 0 {
        wrapped(out, "        ", "no longer needed");
        return;
    }
    if !asked.for_cavities.is_empty() {
        wrapped(out, "        for ", &asked.for_cavities.join(", "));
    }
    if let Some(with) = &asked.supplied_with {
        wrapped(out, "        ", &format!("comes with {with}: check that it is in the bag"));
    }
    if let Some(lead) = &asked.lead {
        for words in lead.in_words() {
            wrapped(out, "        - ", &words);
        }
        if !lead.missing.is_empty() {
            wrapped(out, "        NOT TO BE SENT YET, missing: ", &lead.missing.join("; "));
        }
    } else if let Some(describe) = &asked.describe {
        wrapped(out, "        looks: ", &describe.in_words());
    }
    if asked.substitute != Substitute::None {
        wrapped(out, "        substitute: ", asked.substitute.as_str());
    }
}

impl Describe {
    /// The description in one sentence.
    pub fn in_words(&self) -> String {
        let mut words = vec![format!("fits {} ({})", self.fits, self.sealing)];
        words.extend(self.size.as_ref().map(|size| format!("cavity size {size}")));
        words.extend(self.gender.map(|gender| gender.word().to_owned()));
        words.extend(self.gauges.iter().cloned());
        words.extend(self.colours.iter().cloned());
        words.extend(self.diameters.iter().map(|d| format!("outside diameter {d}")));
        words.join("; ")
    }
}
