//! Questions before the first move: views, anchors, comparisons, decisions, tags.

use crate::{
    catalogue::{HousingDifferenceKind, differences},
    face::{Face, Label, Pose, PosePlace, Side},
    job::{
        About, Act, Fit, ItemId, JobHousing, JobSide, MatingVerdict, Misread, Question, ReadBack, RecordSide,
        RepairKind, RowShift, place_in_words, pose_in_words,
    },
    record::{Address, Difference, DifferenceKind::Missing, HousingName},
};

use super::{Asked, Choice, JobView, Reply, closing, field, offer, picks, texts};

const FEATURES: [Choice; 3] = [Choice::UpFeature1, Choice::UpFeature2, Choice::UpFeature3];

/// Which face is towards the eye and which side is up.
pub(super) fn point_of_view(view: &JobView<'_>, name: &HousingName, answers: &[Reply]) -> Asked {
    let Some(housing) = view.housing(name) else {
        return Asked::Wrong(format!("There is no housing {name}."));
    };
    let part = &housing.housing().part;
    match answers {
        [] => picks(
            format!("HOLD {name} ({part}) as you will work: which face?"),
            &[Choice::WireFace, Choice::MatingFace],
        ),
        [face] => {
            let features = housing.housing().features.iter().zip(FEATURES);
            let mut offered: Vec<_> =
                features.map(|(f, pick)| (pick, Some(format!("{} up", f.name)))).collect();
            // Digits for all of them: the L of "latch" must not mean left.
            let sides = [
                (Side::Top, Choice::UpTop),
                (Side::Right, Choice::UpRight),
                (Side::Bottom, Choice::UpBottom),
                (Side::Left, Choice::UpLeft),
            ];
            let free = sides.into_iter().filter(|(side, _)| housing.housing().feature_on(*side).is_none());
            let face = face_of(face);
            offered.extend(
                free.map(|(up, pick)| (pick, Some(housing.housing().up_in_words(Pose { face, up })))),
            );
            offer(format!("Which side of {name} is up?"), offered)
        }
        [face, up, ..] => {
            let face = face_of(face);
            let feature = FEATURES.iter().position(|pick| *up == Reply::Choice(*pick));
            let up = match (feature.and_then(|n| housing.housing().features.get(n)), up) {
                (Some(feature), _) => feature.name.clone(),
                (None, Reply::Choice(Choice::UpRight)) => "right".to_owned(),
                (None, Reply::Choice(Choice::UpBottom)) => "bottom".to_owned(),
                (None, Reply::Choice(Choice::UpLeft)) => "left".to_owned(),
                (None, _) => "top".to_owned(),
            };
            Asked::Ready(vec![Act::View { housing: name.clone(), face, up }])
        }
    }
}

fn face_of(answer: &Reply) -> Face {
    if *answer == Reply::Choice(Choice::MatingFace) { Face::Mating } else { Face::Wire }
}

/// An anchor, asked by the pose and never by the label.
pub(super) fn anchor(view: &JobView<'_>, name: &HousingName, place: PosePlace, answers: &[Reply]) -> Asked {
    let Some(housing) = view.housing(name) else {
        return Asked::Wrong(format!("There is no housing {name}."));
    };
    let pose = pose_in_words(housing.housing(), housing.pose());
    let typed = texts(answers);
    let done = |colour, mark: &str| {
        Asked::Ready(vec![Act::Anchor { housing: name.clone(), place, colour, mark: mark.to_owned() }])
    };
    if place == PosePlace::Key {
        return match typed.first() {
            None => field(format!("ANCHOR {name}, {pose}: which feature do you see on the upper side?")),
            Some(mark) => done(None, mark),
        };
    }
    let place_words = place_in_words(&housing.seen(), place);
    let ask_mark = || field(format!("ANCHOR {name}, {pose}: {place_words}. Which mark is moulded there?"));
    match (housing.side, typed.as_slice()) {
        (JobSide::Old, []) => {
            field(format!("ANCHOR {name}, {pose}: {place_words}. Which colour goes in there?"))
        }
        (JobSide::New, []) => ask_mark(),
        (JobSide::Old, [colour]) => match colour.parse::<ReadBack>() {
            Ok(_) => ask_mark(),
            Err(why) => Asked::Wrong(why),
        },
        (JobSide::New, [mark, ..]) => done(None, mark),
        (JobSide::Old, [colour, mark, ..]) => match colour.parse() {
            Ok(ReadBack::Wire(colour)) => done(Some(colour), mark),
            Ok(ReadBack::Plug | ReadBack::Nothing) => done(None, mark),
            Err(why) => Asked::Wrong(why),
        },
    }
}

/// An anchor failed: the reading that fits is offered.
pub(super) fn failed_anchor(view: &JobView<'_>, name: &HousingName, answers: &[Reply]) -> Asked {
    let Some(housing) = view.housing(name) else {
        return Asked::Wrong(format!("There is no housing {name}."));
    };
    let state = view.state();
    let fits = state.readings_that_fit(housing);
    let rest = answers.get(1..).unwrap_or_default();
    match (answers.first(), fits.as_slice()) {
        (None, fits) => what_fits(housing.side, fits, state.anchor_between(housing, fits).is_some()),
        (Some(Reply::Choice(Choice::FlipRecord)), [Misread::Flip(how)]) => {
            Asked::Ready(vec![Act::RecordFlipped {
                housing: Some(name.clone()),
                how: *how,
                reason: format!("anchors fit a record {}", how.in_words()),
            }])
        }
        (Some(Reply::Choice(Choice::PutRowRight)), [Misread::Shift(shift)]) => {
            put_row_right(view, housing, shift, rest)
        }
        (Some(Reply::Choice(Choice::Answer)), _) => match state.failed_anchor(housing) {
            Some(failed) => anchor(view, name, failed.place, rest),
            None => Asked::Wrong("No anchor of it failed.".to_owned()),
        },
        (Some(Reply::Choice(Choice::AnotherAnchor)), fits) => match state.anchor_between(housing, fits) {
            Some(place) => anchor(view, name, place, rest),
            None => Asked::Wrong("No other place tells them apart.".to_owned()),
        },
        _ => point_of_view(view, name, rest),
    }
}

/// What the anchors say of the record, and what can be done about it.
fn what_fits(side: JobSide, fits: &[Misread], can_ask_more: bool) -> Asked {
    let again = [Choice::Answer, Choice::HoldAnew];
    match fits {
        [one @ Misread::Flip(_)] if side == JobSide::Old => picks(
            format!("The list fits the connector if it was {}: flip the whole list?", one.in_words()),
            &[Choice::FlipRecord, Choice::Answer, Choice::HoldAnew],
        ),
        [one] if side == JobSide::Old && can_ask_more => picks(
            format!("One mistake would explain it: the list was {}. One more look:", one.in_words()),
            &[Choice::AnotherAnchor, Choice::Answer, Choice::HoldAnew],
        ),
        [one] if side == JobSide::Old => picks(
            format!("One mistake would explain it: the list was {}. Put the row right?", one.in_words()),
            &[Choice::PutRowRight, Choice::Answer, Choice::HoldAnew],
        ),
        [one] => picks(
            format!("The marks fit a housing {}, not held as you said. Look again:", one.in_words()),
            &again,
        ),
        [] => picks(
            "What you see fits no reading of the record. Look again, or correct the record (!):",
            &again,
        ),
        several => {
            let named: Vec<String> = several.iter().map(Misread::in_words).collect();
            let prompt = format!(
                "Several readings fit, so nothing is flipped: {}. One more look tells:",
                named.join("; or ")
            );
            match can_ask_more {
                true => picks(prompt, &[Choice::AnotherAnchor, Choice::Answer, Choice::HoldAnew]),
                false => picks(prompt, &again),
            }
        }
    }
}

/// A row one hole off: everything in it moves by one, and the hole nobody wrote down is asked.
fn put_row_right(view: &JobView<'_>, housing: &JobHousing, shift: &RowShift, answers: &[Reply]) -> Asked {
    let Some((known, unknown)) = view.state().row_put_right(housing, shift) else {
        return Asked::Wrong("The row cannot be put right as a whole: correct it (!).".to_owned());
    };
    match super::record::record(view, Some(&unknown), answers) {
        Asked::Ready(acts) => {
            let asked = acts.into_iter().filter_map(|act| match act {
                Act::Recorded { at, holds, .. } => Some((at, holds)),
                _ => None,
            });
            let reason = format!("row {} was written one hole off from {} on", shift.row, shift.first);
            let correct = |(at, holds)| Act::RecordCorrected { at, holds, reason: reason.clone() };
            Asked::Ready(known.into_iter().chain(asked).map(correct).collect())
        }
        asked => asked,
    }
}

/// A question with the mating half in the hand.
pub(super) fn compare(view: &JobView<'_>, question: Question, answers: &[Reply]) -> Asked {
    let answer = match answers.first() {
        None => {
            let prompt = format!(
                "COMPARE with the mating half in your hand: does the {} of the new housing agree?{}",
                question.words(),
                by_definition(view, question)
            );
            return picks(prompt, &[agrees(question), Choice::Differs, Choice::DontKnow, Choice::NotHere]);
        }
        Some(Reply::Choice(Choice::NotHere)) => {
            return Asked::Ready(vec![Act::MatingHalf { verdict: MatingVerdict::NotHere }]);
        }
        Some(Reply::Choice(pick)) if *pick == agrees(question) => Fit::Fits,
        Some(Reply::Choice(Choice::Differs)) => Fit::Differs,
        Some(_) => Fit::DontKnow,
    };
    Asked::Ready(vec![Act::Compared { question, answer, mating_half: true }])
}

/// Each question has a key of its own: one key held answers one of them.
fn agrees(question: Question) -> Choice {
    match question {
        Question::Key => Choice::KeyFits,
        Question::Latch => Choice::LatchFits,
        Question::Gender => Choice::GenderFits,
        Question::Clip => Choice::ClipFits,
    }
}

/// What the definitions say about it, when they differ.
fn by_definition(view: &JobView<'_>, question: Question) -> String {
    let kind = match question {
        Question::Key => HousingDifferenceKind::KeyCode,
        Question::Latch => HousingDifferenceKind::FeatureSide,
        Question::Gender => HousingDifferenceKind::Gender,
        Question::Clip => HousingDifferenceKind::Bridge,
    };
    let state = view.state();
    let pairs = state
        .housings
        .side(JobSide::Old)
        .flat_map(|old| state.housings.side(JobSide::New).map(move |new| (old, new)));
    let said = pairs
        .flat_map(|(old, new)| differences(old.housing(), new.housing()))
        .filter(|difference| difference.kind == kind)
        .map(|difference| format!(" {}", difference.say));
    said.collect()
}

/// The differences between what is found and what should be at one cavity, decided together.
pub(super) fn decide(view: &JobView<'_>, at: &Address, answers: &[Reply]) -> Asked {
    let here: Vec<&Difference> =
        view.assessment.target.differences.iter().filter(|difference| difference.at == *at).collect();
    let wins = match answers.first() {
        None => {
            let said: Vec<String> = here.iter().map(|difference| difference.sentence()).collect();
            return picks(
                format!("DECIDE: {} Which is to be?", said.join(" ")),
                &[Choice::FoundWins, Choice::ShouldWins],
            );
        }
        Some(Reply::Choice(Choice::ShouldWins)) => RecordSide::Should,
        Some(_) => RecordSide::Found,
    };
    let typed = texts(answers);
    let Some(reason) = typed.first() else {
        return field("Why? (factory variant, earlier repair, fault to correct…)");
    };
    let decided = Act::Decided { at: at.clone(), wins, reason: (*reason).to_owned() };
    let lead = ItemId::At(at.clone());
    let is_missing =
        here.iter().any(|d| matches!(d.kind, Missing { .. })) && view.state().items.lead(&lead).is_none();
    if wins == RecordSide::Found || !is_missing {
        return Asked::Ready(vec![decided]);
    }
    match typed.get(1) {
        None => field("The wire is missing. Where can a new lead be joined? (a wire and place; - not known)"),
        Some(&"-") => Asked::Ready(vec![decided]),
        Some(place) => Asked::Ready(vec![
            decided,
            Act::Planned {
                lead,
                how: RepairKind::RepairLead,
                reason: format!("missing as found; joined at: {place}"),
                part: None,
                order: None,
                with: None,
            },
        ]),
    }
}

/// Neighbours of a hole that was open at intake.
pub(super) fn look_at(view: &JobView<'_>, cavities: &[Address], answers: &[Reply]) -> Asked {
    if cavities.iter().any(|at| view.state().housings.side_of(at) == Some(JobSide::New)) {
        return closing::clear(cavities, answers);
    }
    let labels: Vec<&crate::face::Label> = cavities.iter().map(|at| &at.label).collect();
    let Some(first) = cavities.first() else { return Asked::Wrong("Nothing to look at.".to_owned()) };
    let looked = |which: Vec<Label>, sound: bool| Act::LookedOver {
        housing: first.housing.clone(),
        face: Face::Wire,
        cavities: which,
        sound,
        found: Vec::new(),
    };
    match (answers.first(), texts(answers).first()) {
        (None, _) => picks(
            format!(
                "LOOK at {} beside the open hole: corrosion, moisture, dirt?",
                crate::quantity::list_of(&labels)
            ),
            &[Choice::Sound, Choice::NotSo],
        ),
        (Some(Reply::Choice(Choice::Sound)), _) => {
            Asked::Ready(vec![looked(labels.into_iter().cloned().collect(), true)])
        }
        (Some(_), None) => field("Which of them, and what do you see? (as in: 7 green at the crimp)"),
        (Some(_), Some(text)) => {
            let (named, seen) = text.split_once(' ').unwrap_or((text, ""));
            let bad: Vec<Label> = named.split(',').filter_map(|label| label.parse().ok()).collect();
            if bad.is_empty() || bad.iter().any(|label| !labels.contains(&label)) {
                let list = crate::quantity::list_of(&labels);
                return Asked::Wrong(format!("Key one of {list} first, then what you see there."));
            }
            let good: Vec<Label> = labels.into_iter().filter(|label| !bad.contains(label)).cloned().collect();
            let mut acts = vec![looked(bad.clone(), false)];
            acts.extend((!good.is_empty()).then(|| looked(good, true)));
            let about = |label| About::At(Address::new(first.housing.clone(), label));
            let text = if seen.is_empty() { "not sound" } else { seen };
            acts.extend(
                bad.into_iter().map(|label| Act::Note { text: text.to_owned(), about: about(label) }),
            );
            Asked::Ready(acts)
        }
    }
}

/// A tag for a look-alike.
pub(super) fn tag(view: &JobView<'_>, lead: &ItemId, answers: &[Reply]) -> Asked {
    let Some(typed) = texts(answers).first().copied() else {
        let call = view.state().items.lead(lead).map_or_else(|| lead.to_string(), |l| l.call());
        return field(format!("TAG {call} in {lead}: it looks like another here. What is on the tag?"));
    };
    match typed.parse() {
        Ok(tag) => Asked::Ready(vec![Act::Tagged { lead: lead.clone(), tag }]),
        Err(why) => Asked::Wrong(format!("{why}")),
    }
}
