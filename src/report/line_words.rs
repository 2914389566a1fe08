//! The sentences of a request's lines: what is asked for, how it looks, what changed. They are made
//! here and nowhere else, and nothing compares them.

use super::lead_words::sleeve_told;
use crate::{
    catalogue::SizeName,
    job::needs::JobRequest,
    supply::{
        Article, Change, Companion, Fact, LeadWanted, Line, Looks, ReadFrom, SealRange, SealUse, ShutOut,
        SpliceWanted, TerminalUse, Wanted,
    },
};

/// What a line asks for, in words.
pub fn description(wanted: &Wanted) -> String {
    match wanted {
        Wanted::Part { read_from: ReadFrom::Bench { not_in }, article, .. } => {
            let named = format!("as named at the bench; not in family {not_in}");
            article_in_words(article, Some(&named))
        }
        Wanted::Part { read_from: ReadFrom::Definition(_), article, .. }
        | Wanted::Described { article, .. } => article_in_words(article, None),
        Wanted::Told(told) => told.words.clone(),
    }
}

/// The part of a line, else what it is in words.
pub fn part_or_description(line: &Line) -> String {
    line.wanted.number().map_or_else(|| description(&line.wanted), ToString::to_string)
}

fn article_in_words(article: &Article, named: Option<&str>) -> String {
    match article {
        Article::Housing { title, revision, shut_out, .. } => housing_in_words(title, revision, shut_out),
        Article::SecondaryLock(part) | Article::Assurance(part) | Article::SmallPart(part) => {
            let Companion { name, of, .. } = part;
            format!("{name} of {of} (added: its companion)")
        }
        Article::Bridge { what, at } => format!("{what} (bridge, diode or clip) for cavity {}", at.label),
        Article::Plug { size, colour: Some(colour), .. } => {
            format!("blanking plug for cavity size {size}, {colour}")
        }
        Article::Plug { size, colour: None, .. } => format!("blanking plug for cavity size {size}"),
        Article::Terminal { size, plating, used } => {
            terminal_in_words(size.as_ref(), plating.as_deref(), *used, named)
        }
        Article::WireSeal { size, range, used } => seal_in_words(size.as_ref(), range.as_ref(), *used, named),
        Article::Lead(lead) => {
            let LeadWanted { circuit, length_mm, gauge, sealed, .. } = lead;
            let length = length_mm.map_or("length not known yet".to_owned(), |mm| format!("{mm:.0} mm"));
            let gauge = gauge.as_deref().unwrap_or("size not said");
            let with = if *sealed { "terminal and seal" } else { "terminal" };
            format!("repair lead for {circuit}, {length}, {gauge}, with {with} fitted")
        }
        Article::Splice(SpliceWanted { splice, joins, sleeve_mm, sleeve_diameter_mm }) => format!(
            "splice with its sleeve, {joins}, sleeve {}: {splice} (added: every lead takes one)",
            sleeve_told(*sleeve_mm, *sleeve_diameter_mm)
        ),
    }
}

fn housing_in_words(title: &str, revision: &Option<String>, shut_out: &[ShutOut]) -> String {
    let mut words = title.to_owned();
    if let Some(revision) = revision {
        words.push_str(&format!(", revision {revision}"));
    }
    let told = |shut: &ShutOut| format!("{} has no place, cavity {} is moulded shut", shut.lead, shut.cavity);
    if !shut_out.is_empty() {
        words.push_str(&format!(
            ". QUESTION: {}. Is there an earlier revision that takes it, or a document that moves it?",
            shut_out.iter().map(told).collect::<Vec<_>>().join("; ")
        ));
    }
    words
}

/// What a part is for: a cavity size, when it is known.
fn for_size(size: Option<&SizeName>) -> String {
    size.map_or_else(|| "a cavity of unknown size".to_owned(), |size| format!("cavity size {size}"))
}

fn terminal_in_words(
    size: Option<&SizeName>,
    plating: Option<&str>,
    used: TerminalUse,
    named: Option<&str>,
) -> String {
    let mut words = format!("terminal for {}", for_size(size));
    if let Some(named) = named {
        words.push_str(&format!(", {named}"));
    }
    if let Some(plating) = plating {
        words.push_str(&format!(", plating {plating}"));
    }
    match used {
        TerminalUse::Wire => words,
        TerminalUse::Samples => format!("{words}: samples to qualify the tool's position"),
        TerminalUse::Unwired => format!("spare {words}, no wire"),
    }
}

fn seal_in_words(
    size: Option<&SizeName>,
    range: Option<&SealRange>,
    used: SealUse,
    named: Option<&str>,
) -> String {
    let added = match used {
        SealUse::Itself => "",
        SealUse::NewTerminal => " (added: every new terminal takes its seal)",
    };
    match (range, named) {
        (Some(SealRange { least_mm, most_mm, colour }), _) => {
            format!("wire seal for insulation {least_mm} to {most_mm} mm, {colour}{added}")
        }
        (None, Some(named)) => format!("wire seal for {}, {named}", for_size(size)),
        (None, None) => {
            format!("wire seal for {}, chosen by the insulation's diameter{added}", for_size(size))
        }
    }
}

/// How a part looks, in one sentence.
pub(super) fn looks_in_words(looks: &Looks) -> String {
    let mut words = vec![format!("fits {} ({})", looks.fits, looks.sealing)];
    words.extend(looks.size.as_ref().map(|size| format!("cavity size {size}")));
    words.extend(looks.gender.map(|gender| gender.word().to_owned()));
    words.extend(looks.gauges.iter().cloned());
    words.extend(looks.colours.iter().cloned());
    words.extend(looks.diameters.iter().map(|d| format!("outside diameter {d}")));
    words.join("; ")
}

/// What is not as it was, one change after the other.
pub(super) fn changes_in_words(changes: &[Change]) -> String {
    changes.iter().map(change_in_words).collect::<Vec<_>>().join("; ")
}

fn change_in_words(change: &Change) -> String {
    let plain = |field: &str| field.replace('_', " ");
    match change {
        Change::NewLine => "new in this revision".to_owned(),
        Change::FirstSaid(field) => {
            format!("{} is said for the first time", plain(field.strip_suffix("_mm").unwrap_or(field)))
        }
        Change::Was(field, was) => match field.strip_suffix("_mm") {
            Some(field) => format!("{} was {} mm", plain(field), fact_in_words(was)),
            None => format!("{} was {}", plain(field), fact_in_words(was)),
        },
    }
}

fn fact_in_words(fact: &Fact) -> String {
    match fact {
        Fact::Nothing => String::new(),
        Fact::Text(text) => text.clone(),
        Fact::Number(number) => number.to_string(),
        Fact::Yes(true) => "yes".to_owned(),
        Fact::Yes(false) => "no".to_owned(),
        Fact::List(list) => list.join(", "),
    }
}

/// What lead orders do not state yet, a sentence each.
pub fn missing_in_words(request: &JobRequest) -> Vec<String> {
    let told = |line: &Line| {
        let lead = line.wanted.lead()?;
        Some(format!(
            "line {}, the repair lead for {}, does not state: {}",
            line.line,
            lead.circuit,
            lead.spec.as_ref()?.missing.join("; ")
        ))
    };
    request.incomplete().filter_map(told).collect()
}
