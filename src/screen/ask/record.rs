//! Recording what is found, cavity by cavity, typed fast.

use crate::{
    job::{Act, RecordSide},
    record::{Address, CavityContent, SpareSeen},
};

use super::{Answer, Asked, field, picks, texts, wire_line::parse_wires};
use crate::screen::{job_view::JobView, keys::Pick};

/// What a cavity holds, or that the record is finished.
pub(super) fn record(view: &JobView<'_>, at: Option<&Address>, answers: &[Answer]) -> Asked {
    let Some(at) = at else {
        return match answers.first() {
            Some(_) => Asked::Ready(vec![Act::RecordFinished { side: RecordSide::Found }]),
            None => picks("FINISH the record: every cavity has its answer.", &[Pick::Finished]),
        };
    };
    content(view, at, RecordSide::Found, answers)
}

/// What a cavity holds, or by the diagram should hold.
pub(super) fn content(view: &JobView<'_>, at: &Address, side: RecordSide, answers: &[Answer]) -> Asked {
    let label = &at.label;
    let Some(Answer::Pick(pick)) = answers.first() else {
        let mut offered = vec![
            Pick::Wired,
            Pick::Plugged,
            Pick::Open,
            Pick::Empty,
            Pick::Blocked,
            Pick::Spare,
            Pick::Bridge,
        ];
        if last_recorded(view).is_some() {
            offered.push(Pick::Repeat);
        }
        let also = view.also(at);
        let ask = match side {
            RecordSide::Found => format!("RECORD cavity {label}{also}: what is in it?"),
            RecordSide::Should => format!("BY THE DIAGRAM, cavity {label}{also}: what belongs in it?"),
        };
        return picks(ask, &offered);
    };
    let typed = texts(answers);
    let holds = match (pick, typed.as_slice()) {
        (Pick::Plugged, _) => CavityContent::Plugged,
        (Pick::Open, _) => CavityContent::Open,
        (Pick::Empty, _) => CavityContent::Empty,
        (Pick::Blocked, _) => CavityContent::Blocked,
        (Pick::Repeat, _) => match last_recorded(view) {
            Some(holds) => holds.clone(),
            None => return Asked::Wrong("Nothing was recorded yet.".to_owned()),
        },
        (Pick::Wired, []) => {
            return field(format!(
                "Wire in {label}: colour gauge [number [circuit]], + adds a wire, ? is unknown"
            ));
        }
        (Pick::Wired, [line, ..]) => match parse_wires(line) {
            Ok(lead) => CavityContent::Wired(lead),
            Err(why) => return Asked::Wrong(why),
        },
        (Pick::Bridge, []) => return field(format!("What bridges {label}? (shorting clip, diode…)")),
        (Pick::Bridge, [what, ..]) => CavityContent::Bridge((*what).to_owned()),
        (Pick::Spare, _) => match answers.get(1) {
            Some(Answer::Pick(behind)) => {
                CavityContent::Spare(SpareSeen { terminal: None, plug_behind: *behind == Pick::Yes })
            }
            _ => {
                return picks(
                    format!("Is there a plug behind the spare terminal in {label}?"),
                    &[Pick::Yes, Pick::No],
                );
            }
        },
        _ => return Asked::Wrong("That is not an answer here.".to_owned()),
    };
    Asked::Ready(vec![Act::Recorded { side, at: at.clone(), holds, from: None }])
}

/// What the last record entry said, without what is a wire's own.
fn last_recorded(view: &JobView<'_>) -> Option<CavityContent> {
    let entries = view.job.entries().iter().rev();
    let last = entries.filter_map(|entry| match &entry.act {
        Act::Recorded { side: RecordSide::Found, holds, .. } => Some(holds),
        _ => None,
    });
    let mut holds = last.into_iter().next()?.clone();
    if let CavityContent::Wired(lead) = &mut holds {
        for wire in &mut lead.wires {
            wire.number = None;
            wire.circuit = None;
        }
        lead.condition = None;
    }
    Some(holds)
}
