//! Recording what is found, cavity by cavity, typed fast.

use crate::{
    job::{Act, RecordSide},
    record::{Address, CavityContent, SpareSeen},
};

use super::{Asked, Choice, JobView, Reply, field, picks, texts, wire_line::parse_wires};

/// What a cavity holds, or that the record is finished.
pub(super) fn record(view: &JobView<'_>, at: Option<&Address>, answers: &[Reply]) -> Asked {
    let Some(at) = at else {
        return match answers.first() {
            Some(_) => Asked::Ready(vec![Act::RecordFinished { side: RecordSide::Found }]),
            None => picks("FINISH the record: every cavity has its answer.", &[Choice::Finished]),
        };
    };
    content(view, at, RecordSide::Found, answers)
}

/// What a cavity holds, or by the diagram should hold.
pub(super) fn content(view: &JobView<'_>, at: &Address, side: RecordSide, answers: &[Reply]) -> Asked {
    let label = &at.label;
    let Some(Reply::Choice(pick)) = answers.first() else {
        let mut offered = vec![
            Choice::Wired,
            Choice::Plugged,
            Choice::Open,
            Choice::Empty,
            Choice::Blocked,
            Choice::Spare,
            Choice::Bridge,
        ];
        if last_recorded(view).is_some() {
            offered.push(Choice::Repeat);
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
        (Choice::Plugged, _) => CavityContent::Plugged,
        (Choice::Open, _) => CavityContent::Open,
        (Choice::Empty, _) => CavityContent::Empty,
        (Choice::Blocked, _) => CavityContent::Blocked,
        (Choice::Repeat, _) => match last_recorded(view) {
            Some(holds) => holds.clone(),
            None => return Asked::Wrong("Nothing was recorded yet.".to_owned()),
        },
        (Choice::Wired, []) => {
            return field(format!(
                "Wire in {label}: colour gauge [number [circuit]], + adds a wire, ? is unknown"
            ));
        }
        (Choice::Wired, [line, ..]) => match parse_wires(line) {
            Ok(lead) => CavityContent::Wired(lead),
            Err(why) => return Asked::Wrong(why),
        },
        (Choice::Bridge, []) => return field(format!("What bridges {label}? (shorting clip, diode…)")),
        (Choice::Bridge, [what, ..]) => CavityContent::Bridge((*what).to_owned()),
        (Choice::Spare, _) => match answers.get(1) {
            Some(Reply::Choice(behind)) => {
                CavityContent::Spare(SpareSeen { terminal: None, plug_behind: *behind == Choice::Yes })
            }
            _ => {
                return picks(
                    format!("Is there a plug behind the spare terminal in {label}?"),
                    &[Choice::Yes, Choice::No],
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
