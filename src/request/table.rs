//! The request as a spreadsheet: one row a line, UTF-8, part numbers as text, and no cell that a
//! spreadsheet would run as a formula.

use super::Request;
use crate::quantity::{harmless, is_day};

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
pub fn table(request: &Request) -> Result<String, csv::Error> {
    let mut writer =
        csv::WriterBuilder::new().quote_style(csv::QuoteStyle::Necessary).from_writer(Vec::new());
    writer.write_record(HEADINGS)?;
    for line in &request.lines {
        let number = |n: Option<u32>| n.map_or(String::new(), |n| n.to_string());
        let yes_no = |yes: bool| if yes { "yes" } else { "no" }.to_owned();
        let asked = &line.asked;
        writer.write_record([
            request.number.to_string(),
            request.revision.to_string(),
            asked.line.to_string(),
            asked.kind.as_str().to_owned(),
            as_text(asked.part.as_deref().unwrap_or_default()),
            as_text(&asked.description),
            asked.need.to_string(),
            asked.spare.to_string(),
            number(asked.pack),
            number(asked.packs()),
            as_text(&asked.for_cavities.join(" ")),
            yes_no(asked.essential),
            as_text(asked.substitute.as_str()),
            as_text(asked.supplied_with.as_deref().unwrap_or_default()),
            yes_no(asked.part.is_some()),
            as_text(&asked.lead.as_ref().map(|lead| lead.in_words().join("; ")).unwrap_or_default()),
            as_text(&line.changes.join("; ")),
            as_text(&request.ticket.asset),
            as_text(&request.ticket.serial),
            as_text(request.head.bench.as_deref().unwrap_or_default()),
            as_text(request.head.deliver_to.as_deref().unwrap_or_default()),
            request.head.needed_by.as_deref().map_or(String::new(), day),
            line.came.to_string(),
            line.wanted().to_string(),
        ])?;
    }
    let bytes = writer.into_inner().map_err(|e| csv::Error::from(e.into_error()))?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

/// A day as it is; whatever else was said instead stays text.
fn day(text: &str) -> String {
    if is_day(text) { text.to_owned() } else { as_text(text) }
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
