//! Anchors: what proves the point of view, asked by the pose and never by the label; and what can be done when
//! one fails.

use crate::{
    face::PosePlace,
    job::{Act, Flip, JobHousing, JobSide, Misread, ReadBack, RowShift},
    record::HousingName,
};

use super::{
    Acts, AnchorQuestion, Choice, Covered, JobView, Kind, Replies, Stop, record, replies::not_offered, setup,
};

/// An anchor: the colour of an old housing, and the mark of either.
pub(super) fn anchor(
    view: &JobView<'_>,
    name: &HousingName,
    place: PosePlace,
    replies: &mut Replies<'_>,
) -> Acts {
    let housing = housing_of(view, name)?;
    let (mut colour, named) = (None, || name.clone());
    let mark = match (place, housing.side) {
        (PosePlace::Key, _) => AnchorQuestion::Feature(named()),
        (PosePlace::Cell { .. } | PosePlace::Clockwise(_), JobSide::Old) => {
            let question = AnchorQuestion::Colour { housing: named(), place };
            colour = match replies.text(question, Kind::Content)?.parse_or_wrong()? {
                ReadBack::Wire(colour) => Some(colour),
                ReadBack::Plug | ReadBack::Nothing => None,
            };
            AnchorQuestion::Mark { housing: named(), place }
        }
        (PosePlace::Cell { .. } | PosePlace::Clockwise(_), JobSide::New) => {
            AnchorQuestion::Mark { housing: named(), place }
        }
    };
    let mark = replies.text(mark, Kind::Mark)?.words();
    Ok(vec![Act::Anchor { housing: named(), place, colour, mark, agrees: None }])
}

fn housing_of<'a>(view: &JobView<'a>, name: &HousingName) -> Result<&'a JobHousing, Stop> {
    view.housing(name).ok_or_else(|| Stop::wrong(format!("There is no housing {name}.")))
}

/// What the anchors say of a record, and what can be done about it.
#[derive(Debug, Clone, PartialEq)]
pub enum WhatFits {
    /// The record fits when the whole of it is flipped.
    Flipped(Flip),
    /// One row is off by a hole, and another place would tell.
    PerhapsShifted(RowShift),
    /// One row is off by a hole.
    Shifted(RowShift),
    /// The housing is not held as was said.
    HeldOtherwise(Misread),
    /// No reading fits.
    Nothing,
    /// Several readings fit.
    Several(Vec<Misread>),
}

/// Which readings fit what was seen.
pub fn fits(view: &JobView<'_>, housing: &JobHousing) -> WhatFits {
    let state = view.state();
    let fits = state.readings_that_fit(housing);
    let can_ask_more = || state.anchor_between(housing, &fits).is_some();
    match (fits.as_slice(), housing.side) {
        ([], _) => WhatFits::Nothing,
        ([Misread::Flip(how)], JobSide::Old) => WhatFits::Flipped(*how),
        ([Misread::Shift(shift)], JobSide::Old) if can_ask_more() => WhatFits::PerhapsShifted(shift.clone()),
        ([Misread::Shift(shift)], JobSide::Old) => WhatFits::Shifted(shift.clone()),
        ([one], JobSide::New) => WhatFits::HeldOtherwise(one.clone()),
        _ => WhatFits::Several(fits),
    }
}

/// An anchor failed: the reading that fits is offered. Whatever is chosen, what the anchors ask stays covered.
pub(super) fn failed(view: &JobView<'_>, name: &HousingName, replies: &mut Replies<'_>) -> Acts {
    failed_open(view, name, replies).map_err(|stop| stop.covering(Covered::LabelsToo))
}

fn failed_open(view: &JobView<'_>, name: &HousingName, replies: &mut Replies<'_>) -> Acts {
    let housing = housing_of(view, name)?;
    let state = view.state();
    let fits = fits(view, housing);
    let another = state.anchor_between(housing, &state.readings_that_fit(housing));
    let first = match &fits {
        WhatFits::Flipped(_) => Some(Choice::FlipRecord),
        WhatFits::PerhapsShifted(_) => Some(Choice::AnotherAnchor),
        WhatFits::Shifted(_) => Some(Choice::PutRowRight),
        WhatFits::Several(_) => another.map(|_| Choice::AnotherAnchor),
        WhatFits::HeldOtherwise(_) | WhatFits::Nothing => None,
    };
    let offered: Vec<Choice> = first.into_iter().chain([Choice::Answer, Choice::HoldAnew]).collect();
    match (replies.choice(AnchorQuestion::Failed(name.clone()), &offered)?, fits) {
        (Choice::FlipRecord, WhatFits::Flipped(how)) => Ok(vec![Act::RecordFlipped {
            housing: Some(name.clone()),
            how,
            reason: format!("anchors fit a record {}", Misread::Flip(how).in_words()),
        }]),
        (Choice::PutRowRight, WhatFits::Shifted(shift)) => put_row_right(view, housing, &shift, replies),
        (Choice::Answer, _) => {
            let failed =
                state.failed_anchor(housing).ok_or_else(|| Stop::wrong("No anchor of it failed."))?;
            anchor(view, name, failed.place, replies)
        }
        (Choice::AnotherAnchor, _) => {
            let place = another.ok_or_else(|| Stop::wrong("No other place tells them apart."))?;
            anchor(view, name, place, replies)
        }
        (Choice::HoldAnew, _) => setup::point_of_view(view, name, replies),
        _ => Err(not_offered()),
    }
}

/// A row one hole off: everything in it moves by one, and the hole nobody wrote down is asked.
fn put_row_right(
    view: &JobView<'_>,
    housing: &JobHousing,
    shift: &RowShift,
    replies: &mut Replies<'_>,
) -> Acts {
    let (known, unknown) = view
        .state()
        .row_put_right(housing, shift)
        .ok_or_else(|| Stop::wrong("The row cannot be put right as a whole: correct it (!)."))?;
    let holds = record::content(view, &unknown, crate::job::RecordSide::Found, replies)?;
    let reason = format!("row {} was written one hole off from {} on", shift.row, shift.first);
    let correct = |(at, holds)| Act::RecordCorrected { at, holds, reason: reason.clone() };
    Ok(known.into_iter().chain([(unknown, holds)]).map(correct).collect())
}
