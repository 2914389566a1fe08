//! Questions about the map: which source it comes from, and one cavity at a time by hand.

use crate::{
    job::{Act, JobSide, MapProposal, MapSource, Verdict},
    quantity::list_of,
    record::Address,
};

use super::{Asked, Choice, JobView, Reply, field, offer};

/// The key that chooses a source.
fn pick_of(source: MapSource) -> Choice {
    match source {
        MapSource::SameLabels => Choice::MapSame,
        MapSource::Shop => Choice::MapPublished,
        MapSource::Position => Choice::MapByPosition,
        MapSource::Hand => Choice::MapByHand,
    }
}

/// The map from old to new: what each source would give; one key confirms one of them.
pub(super) fn confirm(view: &JobView<'_>, answers: &[Reply]) -> Asked {
    let proposals = view.state().map_proposals();
    match answers.first() {
        None => {
            let mut offered: Vec<_> = proposals.iter().map(|p| (pick_of(p.source), None)).collect();
            offered.push((Choice::MapOne, None));
            offer(prompt(view, &proposals), offered)
        }
        Some(Reply::Choice(Choice::MapOne)) => by_hand(view, answers.get(1..).unwrap_or_default()),
        Some(answer) => match proposals.iter().find(|p| *answer == Reply::Choice(pick_of(p.source))) {
            Some(proposal) => Asked::Ready(vec![Act::MapConfirmed { source: proposal.source }]),
            None => Asked::Wrong("That source gives no whole map.".to_owned()),
        },
    }
}

fn prompt(view: &JobView<'_>, proposals: &[MapProposal]) -> String {
    let state = view.state();
    match proposals {
        [] => {
            let (source, without) = state.nearest_map();
            let first: Vec<&Address> = without.iter().take(6).collect();
            let more = if without.len() > first.len() { " and more" } else { "" };
            let held = view.state().items.leads.len();
            match without.len() < held {
                true => format!(
                    "MAP: with {} for the rest, still without a place: {}{more}. Map by hand.",
                    source.words(),
                    list_of(&first)
                ),
                false => "MAP: no source knows these housings. Map each cavity by hand, or start the job with a map file.".to_owned(),
            }
        }
        [only] => {
            let mut pairs = only.map.iter().filter_map(|(from, to)| Some((from, to.as_ref()?)));
            let why = pairs.find_map(|(from, to)| state.housings.why_labels_differ(from, to));
            let why = why.map_or(String::new(), |why| format!(": {why}"));
            format!("CONFIRM the map by {}{why}. {}.", only.source.words(), state.map_in_words(&only.map))
        }
        [first, second, ..] => {
            let differs = state.housings.map_differs(&first.map, &second.map).unwrap_or_default();
            format!(
                "CHOOSE the map (Tab: both ways). Between {} and {}, {differs} Which does the mating half follow?",
                first.source.words(),
                second.source.words()
            )
        }
    }
}

/// One old cavity to one new one, or to none; a document where the mating half must change too.
pub(super) fn by_hand(view: &JobView<'_>, answers: &[Reply]) -> Asked {
    let typed = super::texts(answers);
    let Some(from) = typed.first() else {
        return field("MAP which old cavity?");
    };
    let from = match view.resolve(JobSide::Old, from) {
        Ok(from) => from,
        Err(why) => return Asked::Wrong(why),
    };
    let Some(to) = typed.get(1) else {
        return field(format!("{from} goes to which new cavity? (none: it has no place there)"));
    };
    let to = match to.eq_ignore_ascii_case("none") {
        true => None,
        false => match view.resolve(JobSide::New, to) {
            Ok(to) => Some(to),
            Err(why) => return Asked::Wrong(why),
        },
    };
    let act = |document: Option<String>| Act::Mapped { from: from.clone(), to: to.clone(), document };
    match (typed.get(2), view.preview(&act(None))) {
        (Some(document), _) => Asked::Ready(vec![act(Some((*document).to_owned()))]),
        (None, Verdict::Allowed) => Asked::Ready(vec![act(None)]),
        (None, verdict) => match view.preview(&act(Some("named".to_owned()))) {
            // Only the document is missing.
            Verdict::Allowed => field(format!("{} Under which document? (Esc: no)", said(&verdict))),
            still => Asked::Wrong(said(&still)),
        },
    }
}

fn said(verdict: &Verdict) -> String {
    verdict.refusals().iter().map(ToString::to_string).collect::<Vec<_>>().join(" ")
}
