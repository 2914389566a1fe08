//! What a repair lead has to be, in sentences.

use crate::supply::{LeadSpec, LeadWanted};

/// A length in both systems.
fn in_both(mm: f64) -> String {
    format!("{mm} mm ({:.2} in)", mm / 25.4)
}

/// A sleeve, in words.
pub(super) fn sleeve_told(length_mm: Option<f64>, diameter_mm: Option<f64>) -> String {
    let long = length_mm.map_or("length MISSING".to_owned(), |mm| format!("{} long", in_both(mm)));
    match diameter_mm {
        Some(mm) => format!("{long}, {} over it", in_both(mm)),
        None => long,
    }
}

/// What the desk has to know of a repair lead, in sentences.
pub(super) fn lead_in_words(lead: &LeadWanted, spec: &LeadSpec) -> Vec<String> {
    let or_missing = |text: &Option<String>| text.clone().unwrap_or_else(|| "MISSING".to_owned());
    let yes_no = |yes: Option<bool>| match yes {
        Some(true) => "yes",
        Some(false) => "no",
        None => "MISSING",
    };
    let length =
        lead.length_mm.map_or("MISSING".to_owned(), |mm| format!("{mm:.0} mm ({:.2} in)", mm / 25.4));
    let colour = spec.colour.as_ref().zip(spec.colour_words.as_ref());
    let colour = colour.map_or("MISSING".to_owned(), |(code, words)| format!("{code}, {words}"));
    let mut words = vec![
        format!("length {length} {}, {}", spec.tolerance, spec.measured),
        format!(
            "conductor {}, {}{}",
            or_missing(&lead.gauge),
            or_missing(&spec.strands),
            spec.less_copper.as_ref().map_or(String::new(), |told| format!("; {told}"))
        ),
        format!("colour {colour}; another with labels: {}", yes_no(spec.other_colour)),
        format!(
            "insulation {}, class {}, {}, outside diameter {}",
            or_missing(&spec.insulation),
            or_missing(&spec.class),
            spec.wall.as_deref().unwrap_or("wall MISSING"),
            spec.outside_diameter_mm.map_or("MISSING".to_owned(), in_both)
        ),
    ];
    if let Some(partner) = &spec.twisted_with {
        let lay = spec.lay_mm.map_or("MISSING".to_owned(), |mm| format!("{mm} mm"));
        words.push(format!(
            "twisted with the lead in {partner}, lay {lay}, {}",
            spec.hand.as_deref().unwrap_or("hand MISSING")
        ));
    }
    if spec.shielded {
        words.push("shielded, with its drain".to_owned());
    }
    let terminal = spec.terminal.as_ref().map_or(String::new(), |part| format!("{part}, "));
    words.push(format!("terminal {terminal}fits {}", spec.fits));
    if spec.seal_fitted {
        words.push(format!("seal {}, fitted on the terminal side", or_missing(&spec.seal)));
    }
    words.push(format!("other end {}", or_missing(&spec.other_end)));
    words.push(format!(
        "splice and sleeve {}, joins {}, sleeve {}; included: {}",
        or_missing(&spec.splice),
        spec.joins,
        sleeve_told(spec.sleeve_mm, spec.sleeve_diameter_mm),
        yes_no(spec.splice_included)
    ));
    words.push(format!(
        "label at both ends \"{}\"; crimp record with it: {}",
        spec.label,
        yes_no(spec.crimp_record)
    ));
    words.push(format!("goes to {}, recorded in {}", lead.circuit, lead.home));
    words
}
