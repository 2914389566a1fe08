//! What is wrong before a question, in words.

use crate::{
    job::Refusal,
    procedure::Warning,
    report::refusals::{line, words},
};

pub(super) fn sentence(warning: &Warning) -> String {
    match warning {
        Warning::First(refusal) => format!("FIRST: {}", line(refusal)),
        Warning::WasNotSound(found) => {
            let remedies: Vec<&str> = found.iter().map(|fault| fault.remedy()).collect();
            format!("IT WAS NOT SOUND. {}", remedies.join(" "))
        }
        Warning::CountAgain => "NO MATCH. Find the hole that differs, count again.".to_owned(),
        Warning::ReadAgain => "NO MATCH. Look at both faces, put it right (!), read again.".to_owned(),
        Warning::ToolNotProved(standing) => {
            format!("{standing}: its crimp counts only when a named person accepts it.")
        }
        Warning::StrippedOff { strip, sheet_mm } => format!(
            "STRIPPED {}, the sheet says {sheet_mm} mm: cut it off, strip again, Esc keys it anew.",
            strip.both()
        ),
        Warning::HeightOut { height, sheet } => {
            format!("OUT: {}, the sheet says {sheet}. Cut it off and crimp again.", height.both())
        }
        Warning::SampleWeak { force_n, least_n, source } => {
            format!("TOO WEAK: the sample came off at {force_n} N, least {least_n} N ({source}).")
        }
        Warning::WrongPart(misfits) => {
            each(misfits, |refusal| format!("WRONG PART? {} Esc keys it anew.", line(refusal)))
        }
        Warning::TooShort { asked_mm, cut_mm } => format!(
            "TOO SHORT BY NOW: asked for with {asked_mm} mm, it has to be cut to {cut_mm:.1} mm. Send the request again."
        ),
        Warning::NotThere(refusals) => {
            each(refusals, |refusal| format!("NOT THERE: {} Esc marks it anew.", words(refusal).say))
        }
        Warning::NotTheSleeve(ordered) => {
            format!("NOT THE SLEEVE that was ordered ({}): is it the right one?", ordered.both())
        }
    }
}

fn each(refusals: &[Refusal], say: impl Fn(&Refusal) -> String) -> String {
    refusals.iter().map(say).collect::<Vec<_>>().join(" ")
}
