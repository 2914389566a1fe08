//! What happens beside the plan: a lead cut free, leads that fell out, a plug that is gone, something left
//! behind, the new lock opened again.

use crate::{
    catalogue::LockState,
    job::{Act, JobSide},
    quantity::Length,
    record::Address,
};

use super::{Asked, Choice, JobView, Reply, closing::side_words, field, picks, texts};

/// Each answer is read before the next question: what is written on the wire, before it is cut.
pub(super) fn cut_free(view: &JobView<'_>, answers: &[Reply]) -> Asked {
    let typed = texts(answers);
    let Some(label) = typed.first() else { return field("CUT FREE the lead of which old cavity?") };
    let from = match view.resolve(JobSide::Old, label) {
        Ok(from) => from,
        Err(why) => return Asked::Wrong(why),
    };
    let Some(circuit) = typed.get(1) else {
        return field("Before the cut: what is written on the wire you are about to cut?");
    };
    let cut = |distance: Length, stayed: bool| Act::CutFree {
        from: from.clone(),
        distance,
        terminal_stayed: stayed,
        circuit: Some((*circuit).to_owned()),
        anyway: None,
    };
    let read = |text: &str| text.parse::<Length>().map_err(|why| Asked::Wrong(format!("{why}")));
    match (typed.get(2).map(|distance| read(distance)), answers.last()) {
        (None, _) => match read("50 mm") {
            Ok(usual) => {
                super::unless_barred(view, cut(usual, true), || field("How far behind the housing? (50 mm)"))
            }
            Err(wrong) => wrong,
        },
        (Some(Err(wrong)), _) => wrong,
        (Some(Ok(distance)), Some(Reply::Choice(stayed))) => {
            Asked::Ready(vec![cut(distance, *stayed == Choice::Yes)])
        }
        (Some(Ok(_)), _) => picks("Did the terminal stay in its cavity?", &[Choice::Yes, Choice::No]),
    }
}

pub(super) fn loose(view: &JobView<'_>, typed: &[&str]) -> Asked {
    let Some(line) = typed.first() else {
        return field("LOOSE: which leads, each with its tag? (3=T1 4=T2)");
    };
    let mut leads = Vec::new();
    for pair in line.split_whitespace() {
        let Some((label, tag)) = pair.split_once('=') else {
            return Asked::Wrong("Write label=tag for each lead.".to_owned());
        };
        match (view.resolve(JobSide::Old, label), tag.parse()) {
            (Ok(at), Ok(tag)) => leads.push((at, tag)),
            (Err(why), _) => return Asked::Wrong(why),
            (_, Err(why)) => return Asked::Wrong(format!("{why}")),
        }
    }
    Asked::Ready(vec![Act::Loose { leads }])
}

pub(super) fn plug_gone(answers: &[Reply]) -> Asked {
    match (answers.first(), texts(answers).first()) {
        (None, _) => picks(
            "The PLUG in the hand, else in the tray:",
            &[Choice::LoseIt, Choice::ScrapIt, Choice::ReturnIt],
        ),
        (Some(Reply::Choice(Choice::LoseIt)), _) => Asked::Ready(vec![Act::LosePlug]),
        (Some(Reply::Choice(Choice::ReturnIt)), _) => Asked::Ready(vec![Act::ReturnPlug]),
        (Some(_), None) => field("Why is it scrapped?"),
        (Some(_), Some(reason)) => Asked::Ready(vec![Act::ScrapPlug { reason: (*reason).to_owned() }]),
    }
}

pub(super) fn at_with_reason(
    view: &JobView<'_>,
    typed: &[&str],
    prompt: &str,
    act: fn(Address, String) -> Act,
) -> Asked {
    match typed {
        [] => field(prompt),
        [label, more @ ..] => match view.resolve(JobSide::Old, label) {
            Err(why) => Asked::Wrong(why),
            Ok(at) => match more.first() {
                None => super::unless_barred(view, act(at, "as said".to_owned()), || field("Why?")),
                Some(reason) => Asked::Ready(vec![act(at, (*reason).to_owned())]),
            },
        },
    }
}

pub(super) fn reopen(view: &JobView<'_>, typed: &[&str]) -> Asked {
    let set = view.state().housings.side(JobSide::New).find(|h| h.lock == Some(LockState::FullSet));
    let Some((housing, lock)) = set.and_then(|h| h.housing().lock.as_ref().map(|l| (h, l))) else {
        return Asked::Wrong(format!("No lock on the {} side is full-set.", side_words(JobSide::New)));
    };
    match typed.first() {
        None => field("OPEN the new lock again: why? (its fingers tire)"),
        Some(why) => Asked::Ready(vec![Act::Lock {
            housing: housing.name.clone(),
            to: lock.open_state,
            finger: true,
            why: Some((*why).to_owned()),
            anyway: None,
        }]),
    }
}
