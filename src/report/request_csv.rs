//! The request as a spreadsheet: one row a line, UTF-8, part numbers as text, and no cell that a
//! spreadsheet would run as a formula.

use super::{
    lead_words::lead_in_words,
    line_words::{changes_in_words, description},
};
use crate::{
    job::needs::{JobLine, JobRequest},
    quantity::harmless,
};

const HEADINGS: [&str; 24] = [
    "request",
    "revision",
    "line",
    "kind",
    "part",
    "description",
    "need",
    "spare",
    "pack",
    "packs",
    "for",
    "essential",
    "substitute",
    "supplied with",
    "identified",
    "repair lead",
    "changed",
    "machine",
    "serial",
    "bench",
    "deliver to",
    "needed by",
    "came",
    "still wanted",
];

/// The rows as CSV.
pub fn request_csv(request: &JobRequest) -> Result<String, csv::Error> {
    let mut writer =
        csv::WriterBuilder::new().quote_style(csv::QuoteStyle::Necessary).from_writer(Vec::new());
    writer.write_record(HEADINGS)?;
    for line in &request.lines {
        writer.write_record(row(request, line))?;
    }
    let bytes = writer.into_inner().map_err(|e| csv::Error::from(e.into_error()))?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

fn row(request: &JobRequest, line: &JobLine) -> [String; HEADINGS.len()] {
    let number = |n: Option<u32>| n.map_or(String::new(), |n| n.to_string());
    let yes_no = |yes: bool| if yes { "yes" } else { "no" }.to_owned();
    let asked = &line.asked;
    let amount = asked.amount;
    let part = asked.wanted.number();
    let places: Vec<String> = asked.used_for.iter().map(ToString::to_string).collect();
    let lead = asked.wanted.lead();
    let lead = lead.and_then(|lead| Some(lead_in_words(lead, lead.spec.as_deref()?).join("; ")));
    [
        request.number.to_string(),
        request.revision.to_string(),
        asked.line.to_string(),
        asked.kind().as_str().to_owned(),
        as_text(part.map_or("", |part| part.as_str())),
        as_text(&description(&asked.wanted)),
        amount.need.to_string(),
        amount.spare.to_string(),
        number(amount.pack),
        number(amount.packs()),
        as_text(&places.join(" ")),
        yes_no(asked.essential),
        as_text(asked.substitute.as_str()),
        as_text(asked.supplied_with.as_ref().map_or("", |part| part.as_str())),
        yes_no(part.is_some()),
        as_text(&lead.unwrap_or_default()),
        as_text(&changes_in_words(&line.changes)),
        as_text(&request.ticket.asset),
        as_text(&request.ticket.serial),
        as_text(request.head.bench.as_deref().unwrap_or_default()),
        as_text(request.head.deliver_to.as_deref().unwrap_or_default()),
        request.head.needed_by.map_or(String::new(), |day| day.to_string()),
        line.counts.arrived().to_string(),
        line.counts.still_wanted().to_string(),
    ]
}

/// A cell that stays text: what a spreadsheet would run as a formula, or read as a number or date,
/// is given an apostrophe in front.
fn as_text(text: &str) -> String {
    let text = harmless(text);
    // A spreadsheet takes the wide forms for the narrow ones.
    let formula = text
        .trim_start()
        .starts_with(['=', '+', '-', '@', '＝', '＋', '－', '＠', '−', '﹦', '﹢', '﹣', '﹫']);
    let number = text.starts_with(|c: char| c.is_ascii_digit())
        && text
            .chars()
            .all(|c| c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '/' | ':' | 'e' | 'E' | '+'));
    if formula || number { format!("'{text}") } else { text.into_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn formulas_are_made_harmless_and_part_numbers_stay_text() {
        for (cell, shown) in [
            ("=1+1", "'=1+1"),
            ("@x", "'@x"),
            ("-7", "'-7"),
            ("＝1+1", "'＝1+1"),
            ("＋1", "'＋1"),
            ("－1", "'－1"),
            ("＠x", "'＠x"),
            (" =1", "' =1"),
            ("0071", "'0071"),
            ("1E5", "'1E5"),
            ("1-2", "'1-2"),
            ("FW-PLUG-15", "FW-PLUG-15"),
        ] {
            assert_eq!(as_text(cell), shown);
        }
    }
}
