//! Questions about the map: which source it comes from, and one cavity at a time by hand.

use crate::job::{Act, JobSide, MapSource, Verdict};

use super::{Acts, Choice, JobView, Kind, MapQuestion, Replies, Stop, Wrong};

/// The answer that chooses a source.
fn choice_of(source: MapSource) -> Choice {
    match source {
        MapSource::SameLabels => Choice::MapSame,
        MapSource::Shop => Choice::MapPublished,
        MapSource::Position => Choice::MapByPosition,
        MapSource::Hand => Choice::MapByHand,
    }
}

/// The map from old to new: what each source would give; one key confirms one of them.
pub(super) fn confirm(view: &JobView<'_>, replies: &mut Replies<'_>) -> Acts {
    let proposals = view.state().map_proposals();
    let sources = proposals.iter().map(|proposal| choice_of(proposal.source));
    let offered: Vec<Choice> = sources.chain([Choice::MapOne]).collect();
    let choice = replies.choice(MapQuestion::Confirm, &offered)?;
    match proposals.iter().find(|proposal| choice_of(proposal.source) == choice) {
        Some(proposal) => Ok(vec![Act::MapConfirmed { source: proposal.source, map: None }]),
        None => by_hand(view, replies),
    }
}

/// One old cavity to one new one, or to none; a document where the mating half must change too.
pub(super) fn by_hand(view: &JobView<'_>, replies: &mut Replies<'_>) -> Acts {
    let from = view.cavity(JobSide::Old, replies.text(MapQuestion::From, Kind::Label)?)?;
    let to = replies.text(MapQuestion::To(from.clone()), Kind::Label)?;
    let to = match to.as_str().eq_ignore_ascii_case("none") {
        true => None,
        false => Some(view.cavity(JobSide::New, to)?),
    };
    let act = |document: Option<String>| Act::Mapped { from: from.clone(), to: to.clone(), document };
    let against = match view.preview(&act(None)) {
        Verdict::Allowed => return Ok(vec![act(None)]),
        verdict => verdict,
    };
    // Only the document may be missing.
    if let still @ (Verdict::Impossible(_) | Verdict::Against(_)) =
        view.preview(&act(Some("named".to_owned())))
    {
        return Err(Stop::Wrong(Wrong::Refused(still.refusals().to_vec())));
    }
    let question = MapQuestion::Document(against.refusals().to_vec());
    let document = replies.text(question, Kind::Document)?;
    Ok(vec![act(Some(document.words()))])
}
