//! Questions before the first move: views, comparisons, decisions, tags.

use crate::{
    face::{Face, Label, Side},
    job::{About, Act, Fit, ItemId, JobSide, MatingVerdict, Question as Comparison, RecordSide, RepairKind},
    quantity::list_of,
    record::{Address, Difference, DifferenceKind::Missing, HousingName},
};

use super::{Acts, Choice, JobView, Kind, Replies, SetupQuestion, Stop, Typed, closing};

const FEATURES: [Choice; 3] = [Choice::UpFeature1, Choice::UpFeature2, Choice::UpFeature3];

/// Digits for all of them: the L of "latch" must not mean left.
const SIDES: [(Choice, Side); 4] = [
    (Choice::UpTop, Side::Top),
    (Choice::UpRight, Side::Right),
    (Choice::UpBottom, Side::Bottom),
    (Choice::UpLeft, Side::Left),
];

/// Which side of a housing an answer means: one that a feature stands out on by that, any other by where it is
/// on the drawing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum UpSide<'a> {
    /// This feature is up.
    Feature(&'a str),
    /// This side of the drawing is up.
    Drawn(Side),
}

/// What an answer to "which side is up" means.
pub fn up_side<'a>(view: &JobView<'a>, name: &HousingName, choice: Choice) -> Option<UpSide<'a>> {
    let housing = view.housing(name)?.housing();
    if let Some(n) = FEATURES.iter().position(|feature| *feature == choice) {
        return housing.features.get(n).map(|feature| UpSide::Feature(&feature.name));
    }
    SIDES.iter().find(|(side, _)| *side == choice).map(|(_, side)| UpSide::Drawn(*side))
}

/// Which face is towards the eye.
pub(super) const FACES: [(Choice, Face); 2] =
    [(Choice::WireFace, Face::Wire), (Choice::MatingFace, Face::Mating)];

/// Which face is towards the eye and which side is up.
pub(super) fn point_of_view(view: &JobView<'_>, name: &HousingName, replies: &mut Replies<'_>) -> Acts {
    let housing =
        view.housing(name).ok_or_else(|| Stop::wrong(format!("There is no housing {name}.")))?.housing();
    let face = replies.one_of(SetupQuestion::Face(name.clone()), &FACES)?;
    let features = housing.features.iter().zip(FEATURES).map(|(_, choice)| choice);
    let free = SIDES.iter().filter(|(_, side)| housing.feature_on(*side).is_none());
    let offered: Vec<Choice> = features.chain(free.map(|(choice, _)| *choice)).collect();
    let choice = replies.choice(SetupQuestion::Up { housing: name.clone(), face }, &offered)?;
    let up = match up_side(view, name, choice) {
        Some(UpSide::Feature(feature)) => feature,
        Some(UpSide::Drawn(Side::Right)) => "right",
        Some(UpSide::Drawn(Side::Bottom)) => "bottom",
        Some(UpSide::Drawn(Side::Left)) => "left",
        Some(UpSide::Drawn(Side::Top)) | None => "top",
    };
    Ok(vec![Act::View { housing: name.clone(), face, up: up.to_owned() }])
}

/// A question with the mating half in the hand.
pub(super) fn compare(question: Comparison, replies: &mut Replies<'_>) -> Acts {
    let agrees = agrees(question);
    let offered = [
        (agrees, Some(Fit::Fits)),
        (Choice::Differs, Some(Fit::Differs)),
        (Choice::DontKnow, Some(Fit::DontKnow)),
        (Choice::NotHere, None),
    ];
    Ok(vec![match replies.one_of(SetupQuestion::Compare(question), &offered)? {
        Some(answer) => Act::Compared { question, answer, mating_half: true },
        None => Act::MatingHalf { verdict: MatingVerdict::NotHere },
    }])
}

/// Each question has a key of its own: one key held answers one of them.
fn agrees(question: Comparison) -> Choice {
    match question {
        Comparison::Key => Choice::KeyFits,
        Comparison::Latch => Choice::LatchFits,
        Comparison::Gender => Choice::GenderFits,
        Comparison::Clip => Choice::ClipFits,
    }
}

/// The differences between what is found and what should be at one cavity.
pub fn differences_at<'a>(view: &JobView<'a>, at: &Address) -> Vec<&'a Difference> {
    view.assessment.target.differences.iter().filter(|difference| difference.at == *at).collect()
}

/// The differences at one cavity, decided together.
pub(super) fn decide(view: &JobView<'_>, at: &Address, replies: &mut Replies<'_>) -> Acts {
    let offered = [(Choice::FoundWins, RecordSide::Found), (Choice::ShouldWins, RecordSide::Should)];
    let wins = replies.one_of(SetupQuestion::Decide(at.clone()), &offered)?;
    let reason = replies.text(SetupQuestion::DecideWhy(at.clone()), Kind::Words)?.words();
    let mut acts = vec![Act::Decided { at: at.clone(), wins, reason }];
    let lead = ItemId::At(at.clone());
    let is_missing = differences_at(view, at).iter().any(|d| matches!(d.kind, Missing { .. }))
        && view.state().items.lead(&lead).is_none();
    if wins == RecordSide::Should && is_missing {
        let place = replies.text(SetupQuestion::JoinedAt(at.clone()), Kind::Words)?.unless_dash();
        acts.extend(place.map(|place| Act::Planned {
            wires: None,
            lead,
            how: RepairKind::RepairLead,
            reason: format!("missing as found; joined at: {}", place.as_str()),
            part: None,
            order: None,
            with: None,
        }));
    }
    Ok(acts)
}

/// Neighbours of a hole that was open at intake; or new holes in which something stayed.
pub(super) fn look_at(view: &JobView<'_>, cavities: &[Address], replies: &mut Replies<'_>) -> Acts {
    if cavities.iter().any(|at| view.state().housings.side_of(at) == Some(JobSide::New)) {
        return closing::clear(cavities, replies);
    }
    let first = cavities.first().ok_or_else(|| Stop::wrong("Nothing to look at."))?;
    let labels: Vec<&Label> = cavities.iter().map(|at| &at.label).collect();
    let looked = |which: Vec<Label>, sound: bool| Act::LookedOver {
        housing: first.housing.clone(),
        face: Face::Wire,
        cavities: which,
        sound,
        found: Vec::new(),
    };
    let question = SetupQuestion::LookBeside(cavities.to_vec());
    if replies.one_of(question, &[(Choice::Sound, true), (Choice::NotSo, false)])? {
        return Ok(vec![looked(labels.into_iter().cloned().collect(), true)]);
    }
    let typed = replies.text(SetupQuestion::NotSound(cavities.to_vec()), Kind::Values)?;
    let (bad, seen) = not_sound(typed, &labels)?;
    let good: Vec<Label> = labels.into_iter().filter(|label| !bad.contains(label)).cloned().collect();
    let mut acts = vec![looked(bad.clone(), false)];
    acts.extend((!good.is_empty()).then(|| looked(good, true)));
    let about = |label| About::At(Address::new(first.housing.clone(), label));
    acts.extend(bad.into_iter().map(|label| Act::Note { text: seen.to_owned(), about: about(label) }));
    Ok(acts)
}

/// Which of the cavities are not sound, and what is seen there.
fn not_sound<'a>(typed: Typed<'a>, labels: &[&Label]) -> Result<(Vec<Label>, &'a str), Stop> {
    let (named, seen) = typed.as_str().split_once(' ').unwrap_or((typed.as_str(), ""));
    let bad: Vec<Label> = named.split(',').filter_map(|label| label.parse().ok()).collect();
    if bad.is_empty() || bad.iter().any(|label| !labels.contains(&label)) {
        let list = list_of(labels);
        return Err(Stop::wrong(format!("Key one of {list} first, then what you see there.")));
    }
    Ok((bad, if seen.is_empty() { "not sound" } else { seen }))
}

/// A tag for a look-alike.
pub(super) fn tag(lead: &ItemId, replies: &mut Replies<'_>) -> Acts {
    let tag = replies.text(SetupQuestion::Tag(lead.clone()), Kind::Tag)?.parse_or_wrong()?;
    Ok(vec![Act::Tagged { lead: lead.clone(), tag }])
}
