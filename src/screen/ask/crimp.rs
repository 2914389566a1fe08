//! The repair in the hand, step by step: the record of a crimp, and the joint of a repair lead.

use crate::{
    catalogue::PartNumber,
    quantity::Length,
    repair::{Height, LookFault, PositionKey},
    swap::{Act, Crimp, CrimpVerdict, Lead, RepairKind, STRIP_OFF_MM, SamplePull, Splice},
};

use super::{Answer, Asked, field, picks, texts};
use crate::screen::{keys::Pick, sight::Sight};

/// A new terminal: part, tool, strip, height, look, sample, verdict, in the order of the hands.
pub(super) fn new_terminal(sight: &Sight<'_>, lead: &Lead, part: Option<&str>, answers: &[Answer]) -> Asked {
    let typed = texts(answers);
    let state = sight.state();
    let named = part.map(str::parse::<PartNumber>).transpose();
    let terminal = match named {
        Ok(Some(part)) => Some(part),
        Ok(None) => state.terminal_for(lead).map(|terminal| terminal.part.clone()),
        Err(why) => return Asked::Wrong(why.to_string()),
    };
    let family = state.housings.iter().flat_map(|h| &h.definition.family().terminals);
    let sheet = family.into_iter().find(|t| Some(&t.part) == terminal.as_ref());
    let look_good = answers.contains(&Answer::Pick(Pick::Yes));
    let look_bad = answers.contains(&Answer::Pick(Pick::No));
    let (tool, strip, height) = match typed.as_slice() {
        [] => return field(tool_prompt(sight, lead, terminal.as_ref())),
        [tool] => {
            let target =
                sheet.and_then(|t| t.strip_mm).map_or(String::new(), |mm| format!(", sheet {mm} mm"));
            let unproved = unproved(sight, lead, terminal.as_ref(), tool);
            return field(format!(
                "{unproved}SEAL ON the wire, small end as its sheet says; then STRIP{target}. Stripped how long?"
            ));
        }
        [_, strip] => {
            let target = sheet.zip(lead.area_mm2()).and_then(|(t, area)| t.height_for(area));
            let target = target.map_or("no sheet for this wire".to_owned(), |(mm, tolerance)| {
                format!("sheet {}", Height { target_mm: mm, tolerance_mm: tolerance })
            });
            let off = sheet.and_then(|t| t.strip_mm).zip(strip.parse::<Length>().ok());
            let off = match off {
                Some((asked, keyed)) if (keyed.mm() - asked).abs() > STRIP_OFF_MM => {
                    format!("STRIPPED {}, the sheet says {asked} mm: cut it off. ", keyed.both())
                }
                _ => String::new(),
            };
            return field(format!(
                "{off}CRIMP, then MEASURE the conductor crimp, blade one side, point the other ({target}). Height? (- not measured)"
            ));
        }
        [tool, strip, height, ..] => (*tool, *strip, *height),
    };
    let faults = typed.get(3).filter(|_| look_bad);
    match (look_good, look_bad, faults) {
        (false, false, _) => {
            let sheet = sheet.zip(lead.area_mm2()).and_then(|(t, area)| t.height_for(area));
            let sheet = sheet.map(|(target_mm, tolerance_mm)| Height { target_mm, tolerance_mm });
            let out = sheet.zip(height.parse::<Length>().ok()).filter(|(sheet, h)| !sheet.takes(h.mm()));
            let out = out.map_or(String::new(), |(sheet, _)| format!("OUT: the sheet says {sheet}. "));
            return picks(
                out + "LOOK: bellmouth, brush in front, no insulation in it, no strand out or cut, wire not tinned, straight, seal in its wings. All so?",
                &[Pick::Yes, Pick::No],
            );
        }
        (_, true, None) => {
            let list: Vec<String> =
                LookFault::ALL.iter().zip(1..).map(|(fault, n)| format!("{n} {}", fault.words())).collect();
            return field(format!("Which? Key the numbers: {}", list.join(", ")));
        }
        _ => {}
    }
    let sample_at = if look_bad { 4 } else { 3 };
    let Some(sample) = typed.get(sample_at) else {
        return field(
            "SAMPLE made with it, pulled off: force in N and where it broke? (- none; the real crimp only gets a finger tug)",
        );
    };
    let verdict = match answers.last() {
        Some(Answer::Pick(Pick::RepairDone)) => CrimpVerdict::Accepted,
        Some(Answer::Pick(Pick::Redo)) => CrimpVerdict::Redo,
        _ => {
            return Asked::Picks {
                prompt: "FINGER TUG the crimp. Does it stay?".to_owned(),
                picks: vec![
                    (Pick::RepairDone, "it stays".to_owned()),
                    (Pick::Redo, Pick::Redo.text().to_owned()),
                ],
            };
        }
    };
    match crimp(tool, strip, height, faults.copied(), sample, verdict) {
        Ok(crimp) => Asked::Ready(vec![Act::Repair {
            lead: lead.id.clone(),
            how: RepairKind::NewTerminal,
            done: "seal, strip, crimp, look, tug".to_owned(),
            part: terminal,
            crimp: Some(Box::new(crimp)),
            splice: None,
            anyway: None,
        }]),
        Err(why) => Asked::Wrong(why),
    }
}

/// Which position to use, as the tool book has it.
fn tool_prompt(sight: &Sight<'_>, lead: &Lead, terminal: Option<&PartNumber>) -> String {
    let wire = lead.first_wire().and_then(|wire| wire.gauge.known());
    let today = sight.today();
    let known = terminal.zip(wire).and_then(|(terminal, wire)| {
        let position = sight.tools.for_crimp(terminal, wire, &today).next()?;
        Some(format!("{}, {} ({})", position.key.tool, position.key.position, position.standing(&today)))
    });
    let what = terminal.map_or("the terminal".to_owned(), ToString::to_string);
    match known {
        Some(use_this) => format!("TOOL for {what}: use {use_this}. Key tool with serial, comma, position"),
        None => format!(
            "TOOL for {what}: NO position is qualified for it on this wire (! proves one). Key tool with serial, comma, position"
        ),
    }
}

/// What to know about a tool that is not proved for this crimp; empty when it is.
fn unproved(sight: &Sight<'_>, lead: &Lead, terminal: Option<&PartNumber>, typed: &str) -> String {
    let wire = lead.first_wire().and_then(|wire| wire.gauge.known());
    let (Some((tool, position)), Some((terminal, wire))) = (typed.rsplit_once(','), terminal.zip(wire))
    else {
        return String::new();
    };
    let key = PositionKey {
        tool: tool.trim().to_owned(),
        position: position.trim().to_owned(),
        terminal: terminal.clone(),
        wire: wire.clone(),
    };
    match sight.tools.standing(&key, &sight.today()) {
        standing if standing.is_qualified() => String::new(),
        standing => format!("{standing}: its crimp counts only when a named person accepts it. "),
    }
}

fn crimp(
    tool: &str,
    strip: &str,
    height: &str,
    faults: Option<&str>,
    sample: &str,
    verdict: CrimpVerdict,
) -> Result<Crimp, String> {
    let length = |text: &str| text.parse::<Length>().map_err(|why| why.to_string());
    let (tool, position) = tool.rsplit_once(',').ok_or("Key the tool, a comma, its position.")?;
    let look = match faults {
        None => Vec::new(),
        Some(numbers) => numbers
            .split([' ', ','])
            .filter(|n| !n.is_empty())
            .map(|n| {
                let index = n.parse::<usize>().ok().and_then(|n| n.checked_sub(1));
                index
                    .and_then(|n| LookFault::ALL.get(n).copied())
                    .ok_or(format!("\"{n}\" is not on the list."))
            })
            .collect::<Result<_, _>>()?,
    };
    let sample_pull = match sample.trim() {
        "-" => None,
        told => {
            let (force, broke_at) = told.split_once(' ').ok_or("Key the force, a blank, where it broke.")?;
            let newton = force.replace(',', ".").parse::<f64>().ok();
            let force_n = newton
                .filter(|newton| newton.is_finite() && *newton > 0.0)
                .ok_or(format!("\"{force}\" is no force in N."))?;
            Some(SamplePull { force_n, broke_at: broke_at.to_owned() })
        }
    };
    Ok(Crimp {
        wire: None,
        lot: None,
        tool: Some(tool.trim().to_owned()),
        position: Some(position.trim().to_owned()),
        strip: Some(length(strip)?),
        height: if height.trim() == "-" { None } else { Some(length(height)?) },
        width: None,
        look,
        sample_pull,
        verdict,
        book: None,
    })
}

/// The joint of a repair lead, the sleeve first.
pub(super) fn splice(sight: &Sight<'_>, lead: &Lead, part: Option<&PartNumber>, answers: &[Answer]) -> Asked {
    let twisted = lead.seen.wires.iter().any(|wire| wire.twisted_with.is_some() || wire.shielded);
    let typed = texts(answers);
    let plan = sight.survey.ordered(sight.state(), &lead.id);
    let planned = plan.as_ref().and_then(|ordered| ordered.place);
    let length = plan.as_ref().and_then(|ordered| ordered.length);
    if answers.is_empty() {
        let cut = length.map_or(String::new(), |l| format!("Cut the lead to {:.1} mm. ", l.cut_mm));
        let place = planned.map_or(String::new(), |place| {
            format!(
                "The sleeve goes from {:.1} to {:.1} mm behind the rear face. ",
                place.start_mm, place.end_mm
            )
        });
        return picks(
            format!(
                "{cut}{place}IS THE SLEEVE ON THE WIRE, and boot or nut with it? Only then strip and join. The wire seal stays on the terminal side."
            ),
            &[Pick::SleeveOn],
        );
    }
    match typed.as_slice() {
        [] => {
            let at = planned.map_or(String::new(), |place| format!(" (planned {} mm)", place.start_mm));
            return field(format!(
                "STRIP, insert to the stop, LOOK in the window, CRIMP, tug, SHRINK. Where does the sleeve start, from the rear face?{at}"
            ));
        }
        [_] => return field("How long is the sleeve?"),
        [_, _] if twisted => return field("TWIST the pair again over the splice. Untwisted length left?"),
        _ => {}
    }
    let sound = match answers.last() {
        Some(Answer::Pick(Pick::Sound)) => true,
        Some(Answer::Pick(Pick::No)) => false,
        _ => {
            return picks(
                "Copper at both sides of the window, adhesive out at both ends, held a tug, not soldered?",
                &[Pick::Sound, Pick::No],
            );
        }
    };
    let lengths: Result<Vec<Length>, _> = typed.iter().map(|text| text.parse()).collect();
    match lengths.as_deref() {
        Ok([start, sleeve, rest @ ..]) => Asked::Ready(vec![Act::Repair {
            lead: lead.id.clone(),
            how: RepairKind::RepairLead,
            done: "sleeve on, stripped, joined, looked, crimped, tugged, shrunk".to_owned(),
            part: part.cloned(),
            crimp: None,
            splice: Some(Box::new(Splice {
                start: start.clone(),
                sleeve: sleeve.clone(),
                sound,
                untwisted: rest.first().cloned(),
                solder: None,
            })),
            anyway: None,
        }]),
        Ok(_) => Asked::Wrong("Key two lengths.".to_owned()),
        Err(why) => Asked::Wrong(why.to_string()),
    }
}
