//! The moves: out, good, label, in and clicked, tugged. A flawless wire takes four keys and its
//! label, a flawless plug two and its label.

use crate::{
    catalogue::{AccessFace, Terminal},
    colour::Colour,
    job::{Act, Expected, ItemId, JobSide, Lead, OtherKind, Place, PlugSource, RepairKind, Seat, SeenAt},
    record::{Address, Seal},
};

use super::{
    Asked, Choice, JobView, Reply, consequence, decide, field, offer, picks, repair, texts, unless_barred,
};

/// The next question about a lead, wherever it is.
pub(super) fn wire(view: &JobView<'_>, id: &ItemId, answers: &[Reply]) -> Asked {
    let state = view.state();
    let Some(lead) = state.items.lead(id) else { return Asked::Wrong(format!("There is no lead {id}.")) };
    match &lead.place {
        Place::In(at) if state.housings.side_of(at) == Some(JobSide::Old) => {
            take_out(view, lead, at, answers)
        }
        Place::In(at) => in_new(view, lead, at, answers),
        Place::Hand => in_hand(view, lead, answers),
        Place::NotMade => {
            repair::repair(view, lead, &state.items.call_joined(lead), RepairKind::RepairLead, answers)
        }
        Place::Parked(tag) => match answers.first() {
            None => picks(
                format!("TAKE UP {} from tag {tag}, when it can go on.", lead.call()),
                &[Choice::TakeUp],
            ),
            Some(_) => Asked::Ready(vec![Act::TakeUp { tag: tag.clone() }]),
        },
        _ => match answers.first() {
            None => picks(format!("FIND {}: nobody sees it. In your hand now?", lead.call()), &[Choice::Yes]),
            Some(_) => Asked::Ready(vec![Act::Seen {
                item: id.clone(),
                at: SeenAt::Hand,
                reason: "found again".to_owned(),
            }]),
        },
    }
}

fn take_out(view: &JobView<'_>, lead: &Lead, at: &Address, answers: &[Reply]) -> Asked {
    let label = &at.label;
    let asked = view.assessment.target.colours_asked.contains(&lead.id);
    let mut rest = answers;
    let mut colour: Option<Colour> = None;
    // What would be refused whatever the colour is said before anything else.
    let known = lead.first_wire().and_then(|wire| wire.colour.known()).cloned();
    let not_yet = || {
        let verdict = view.preview(&taken_out(at, known.clone(), true, Seal::On));
        verdict.refusals().first().map_or(String::new(), |why| format!("FIRST: {why}"))
    };
    if asked {
        match answers.split_first() {
            None => {
                let ask = format!("EXTRACT the lead from {label}. Before you pull: what colour is it?");
                return field(ask).loudly(not_yet());
            }
            Some((Reply::Text(text), more)) => match text.parse() {
                Ok(seen) => {
                    colour = Some(seen);
                    rest = more;
                }
                Err(why) => return Asked::Wrong(format!("{why}")),
            },
            Some(_) => return Asked::Wrong("Key the colour you see.".to_owned()),
        }
    }
    let act = |freely, seal| taken_out(at, colour.clone(), freely, seal);
    let with_seal = if is_individually_sealed(view, at) { Seal::On } else { Seal::None };
    match rest {
        [] => {
            let prompt = format!("EXTRACT the lead from {label}{}.", release(view, lead, at));
            // Only where each wire has a seal of its own can it come along.
            let out = (with_seal == Seal::None).then(|| "out, freely".to_owned());
            let offered = vec![(Choice::Out, out), (Choice::NotSo, None)];
            match asked {
                // A colour that differs is settled before the wire leaves its hole.
                true => unless_barred(view, act(true, with_seal), || offer(prompt, offered)),
                false => offer(prompt, offered).loudly(not_yet()),
            }
        }
        answers => out_or_asked(at, with_seal, answers, act),
    }
}

/// Out as shown, or asked one by one.
fn out_or_asked(at: &Address, seal: Seal, answers: &[Reply], act: impl Fn(bool, Seal) -> Act) -> Asked {
    let came = match answers {
        [] | [Reply::Choice(Choice::Out), ..] => Ok((true, seal)),
        [_, each @ ..] => how_it_came(at, seal, each),
    };
    came.map_or_else(|question| question, |(freely, seal)| Asked::Ready(vec![act(freely, seal)]))
}

/// Whether a lead came freely, and its seal with it; else the next question about that.
pub(super) fn how_it_came(at: &Address, with_seal: Seal, answers: &[Reply]) -> Result<(bool, Seal), Asked> {
    match answers {
        [] => Err(picks(
            format!("The lead from {}: how did it come?", at.label),
            &[Choice::Freely, Choice::Forced],
        )),
        [how, seal @ ..] => {
            let freely = *how == Reply::Choice(Choice::Freely);
            match (with_seal, seal.first()) {
                (Seal::None, _) => Ok((freely, Seal::None)),
                (_, None) => Err(picks("And its seal?", &[Choice::SealWith, Choice::Missing])),
                (_, Some(Reply::Choice(Choice::Missing))) => Ok((freely, Seal::Missing)),
                (_, Some(_)) => Ok((freely, Seal::On)),
            }
        }
    }
}

fn taken_out(from: &Address, colour: Option<Colour>, freely: bool, seal: Seal) -> Act {
    Act::Extract { from: from.clone(), colour, freely, seal, anyway: None }
}

/// Tang and release, as the definition tells them.
fn release(view: &JobView<'_>, lead: &Lead, at: &Address) -> String {
    let Some(cavity) = view.state().housings.cavity(at) else { return String::new() };
    let Some(housing) = view.housing(&at.housing) else { return String::new() };
    let tang = cavity.tang.map_or(String::new(), |side| format!(": {}", housing.tang_in_words(side)));
    let family = housing.definition.family();
    // Its own terminal where one is named; else all that fit the hole, as long as they agree.
    let own = lead.terminal().and_then(|part| view.state().housings.terminal_named(part));
    let fitting = own.into_iter().chain(family.terminals_for(&cavity.size).filter(|_| own.is_none()));
    let fitting: Vec<&Terminal> = fitting.filter(|t| t.gender == housing.housing().gender).collect();
    let all = |from| !fitting.is_empty() && fitting.iter().all(|t| t.released_from == from);
    let from = match (all(AccessFace::Front), all(AccessFace::Rear)) {
        (true, _) => ", release from the front",
        (_, true) => ", release from the rear",
        _ if fitting.is_empty() => "",
        _ => ", LOOK whether its tang is released from the front or the rear: both are made",
    };
    format!("{tang}{from}")
}

fn is_individually_sealed(view: &JobView<'_>, at: &Address) -> bool {
    let sealing = view.housing(&at.housing).map(|h| &h.housing().sealing);
    matches!(sealing, Some(crate::catalogue::Sealing::Individual))
}

fn in_hand(view: &JobView<'_>, lead: &Lead, answers: &[Reply]) -> Asked {
    let call = lead.call();
    if let Some(asked) = consequence::in_hand(view, lead, &call, answers) {
        return asked;
    }
    if lead.planned == Some(RepairKind::Join) {
        return repair::repair(view, lead, &call, RepairKind::Join, answers);
    }
    match lead.inspected {
        None => decide::inspect(view, lead, &call, answers),
        Some(Some(kind)) => repair::repair(view, lead, &call, kind, answers),
        Some(None) => insert(view, &call, answers),
    }
}

fn insert(view: &JobView<'_>, call: &str, answers: &[Reply]) -> Asked {
    let put = |into, click| Act::Insert { into, click, again: false, anyway: None };
    match answers {
        [] => field(format!("SEAT {call}. Into which cavity do you push it? Read the label and key it")),
        [Reply::Text(label)] => match view.resolve(JobSide::New, label) {
            Ok(into) => {
                let prompt = format!("PUSH {call} straight into {} until it clicks.", into.label);
                unless_barred(view, put(into, true), || picks(prompt, &[Choice::Clicked, Choice::NoClick]))
            }
            Err(why) => Asked::Wrong(why),
        },
        [Reply::Text(label), clicked, ..] => match view.resolve(JobSide::New, label) {
            Ok(into) => Asked::Ready(vec![put(into, *clicked == Reply::Choice(Choice::Clicked))]),
            Err(why) => Asked::Wrong(why),
        },
        _ => Asked::Wrong("Key the label.".to_owned()),
    }
}

/// A lead that sits in a new hole: tugged, or taken out again.
fn in_new(view: &JobView<'_>, lead: &Lead, at: &Address, answers: &[Reply]) -> Asked {
    let call = lead.call();
    let wrong = view.assessment.target.of(&lead.id) != Some(at);
    let again = |freely, seal| taken_out(at, None, freely, seal);
    match (lead.seat, answers.first()) {
        (Seat::Clicked, None) => picks(
            format!("TUG {call} in {}: straight and gently.", at.label),
            &[Choice::Held, Choice::NotHeld],
        ),
        (Seat::Clicked, Some(Reply::Choice(Choice::Held))) => {
            Asked::Ready(vec![Act::Tug { at: at.clone(), held: true }])
        }
        (Seat::Clicked, Some(_)) => Asked::Ready(vec![Act::Tug { at: at.clone(), held: false }]),
        (Seat::NoClick, None) if !wrong => picks(
            format!("{call} did not click in {}. PUSH it once more, straight; or take it out.", at.label),
            &[Choice::PushedAgain, Choice::Out, Choice::NotSo],
        ),
        (Seat::NoClick, Some(Reply::Choice(Choice::PushedAgain))) => {
            Asked::Ready(vec![Act::Insert { into: at.clone(), click: true, again: true, anyway: None }])
        }
        (_, None) => {
            let why = if wrong { "is in the wrong hole" } else { "did not click" };
            picks(format!("TAKE {call} out of {} again: it {why}.", at.label), &[Choice::Out, Choice::NotSo])
        }
        (_, Some(_)) => out_or_asked(at, lead.seal, answers, again),
    }
}

/// A plug of the old housing on its way.
pub(super) fn plug(view: &JobView<'_>, from: &Address, answers: &[Reply]) -> Asked {
    let state = view.state();
    let id = ItemId::At(from.clone());
    match state.items.place_of(&id) {
        Some(Place::Hand) => {
            plug_into(view, &format!("the plug of {}", from.label), PlugSource::Hand, answers)
        }
        Some(Place::Tray) => {
            plug_into(view, &format!("the plug of {}", from.label), PlugSource::Tray, answers)
        }
        _ => take_plug(view, from, answers),
    }
}

/// A plug that comes out.
pub(super) fn take_plug(view: &JobView<'_>, at: &Address, answers: &[Reply]) -> Asked {
    let side = if view.state().housings.side_of(at) == Some(JobSide::New) { "new" } else { "old" };
    match answers.first() {
        None => offer(
            format!("TAKE the plug out of {side} {}, without a nick.", at.label),
            vec![(Choice::Out, Some("out".to_owned()))],
        ),
        Some(_) => Asked::Ready(vec![Act::TakePlug { from: at.clone(), anyway: None }]),
    }
}

fn plug_into(view: &JobView<'_>, call: &str, source: PlugSource, answers: &[Reply]) -> Asked {
    let fit = |into| Act::FitPlug { into, source, part: None, spare: None, anyway: None };
    match answers {
        [] => field(format!("FIT {call}. Into which cavity? Read the label and key it")),
        [Reply::Text(label)] => match view.resolve(JobSide::New, label) {
            Ok(into) => {
                let prompt = format!("PUSH {call} into {}, as deep as the others.", into.label);
                unless_barred(view, fit(into), || picks(prompt, &[Choice::InPlace]))
            }
            Err(why) => Asked::Wrong(why),
        },
        [Reply::Text(label), ..] => match view.resolve(JobSide::New, label) {
            Ok(into) => Asked::Ready(vec![fit(into)]),
            Err(why) => Asked::Wrong(why),
        },
        _ => Asked::Wrong("Key the label.".to_owned()),
    }
}

/// A plug in the hand that has no step of its own: fit it where one is missing, or lay it aside.
pub(super) fn plug_in_hand(view: &JobView<'_>, answers: &[Reply]) -> Asked {
    match answers {
        [] => lay_aside(view),
        [Reply::Choice(Choice::ToTray), ..] => match "tray".parse() {
            Ok(tag) => Asked::Ready(vec![Act::Park { tag, reason: "into the tray".to_owned() }]),
            Err(why) => Asked::Wrong(format!("{why}")),
        },
        [Reply::Choice(Choice::ScrapIt), ..] => match texts(answers).first() {
            None => field("SCRAP the plug: why?"),
            Some(reason) => Asked::Ready(vec![Act::ScrapPlug { reason: (*reason).to_owned() }]),
        },
        [Reply::Choice(Choice::ReturnIt), ..] => Asked::Ready(vec![Act::ReturnPlug]),
        [Reply::Choice(Choice::LoseIt), ..] => Asked::Ready(vec![Act::LosePlug]),
        [Reply::Choice(Choice::PutBack), ..] => Asked::Ready(vec![Act::PutBack]),
        [_, rest @ ..] => plug_into(view, "the plug", PlugSource::Hand, rest),
    }
}

/// What can be done with a plug in the hand: a hole is named only where one needs it.
fn lay_aside(view: &JobView<'_>) -> Asked {
    let occupants = view.state().items.occupants();
    let mut cavities = view.assessment.target.cavities.iter();
    let needed = cavities.any(|(at, expected)| expected.takes_plug() && !occupants.contains_key(at));
    let mut offered = vec![
        (Choice::ReturnIt, None),
        (Choice::ScrapIt, None),
        (Choice::ToTray, None),
        (Choice::LoseIt, None),
        (Choice::PutBack, None),
    ];
    let prompt = match needed {
        true => {
            offered.insert(0, (Choice::InPlace, Some("fit it".to_owned())));
            "A PLUG is in your hand. Sound: fit it where one is missing. Else lay it aside."
        }
        false => "A PLUG is in your hand, and no hole needs it. Where does it go?",
    };
    offer(prompt, offered)
}

/// A hole that takes a plug which is not on its way from the old housing.
pub(super) fn fit_plug(view: &JobView<'_>, at: &Address, answers: &[Reply]) -> Asked {
    let state = view.state();
    let size = state.housings.cavity_size(at).map_or(String::new(), |size| format!(" of size {size}"));
    let tray = state.items.plugs.iter().any(|p| p.place == Place::Tray);
    let spare_too = *view.assessment.target.expected(at) == crate::job::Expected::SpareAndPlug;
    match answers {
        [] => field(format!("FIT a plug{size} into new {}. Read the label of the hole and key it", at.label)),
        [Reply::Text(label), rest @ ..] => {
            let into = match view.resolve(JobSide::New, label) {
                Ok(into) => into,
                Err(why) => return Asked::Wrong(why),
            };
            let spare = match (spare_too, texts(rest).first()) {
                (false, _) => None,
                (true, None) => {
                    return field("The house rule wants a spare terminal before it: its part number?");
                }
                (true, Some(part)) => match part.parse() {
                    Ok(part) => Some(part),
                    Err(why) => return Asked::Wrong(format!("{why}")),
                },
            };
            let picked = rest.iter().find_map(|a| match a {
                Reply::Choice(pick) => Some(*pick),
                Reply::Text(_) => None,
            });
            let fit = |source| Act::FitPlug {
                into: into.clone(),
                source,
                part: None,
                spare: spare.clone(),
                anyway: None,
            };
            let offered: &[Choice] =
                if tray { &[Choice::FromStock, Choice::FromTray] } else { &[Choice::FromStock] };
            match picked {
                None => unless_barred(view, fit(PlugSource::Stock), || {
                    picks(format!("PUSH the plug into {}.", into.label), offered)
                }),
                Some(Choice::FromTray) => Asked::Ready(vec![fit(PlugSource::Tray)]),
                Some(_) => Asked::Ready(vec![fit(PlugSource::Stock)]),
            }
        }
        _ => Asked::Wrong("Key the label.".to_owned()),
    }
}

/// A spare terminal, bridge or clip: moved, left behind, or put in new where it is missing.
pub(super) fn other(view: &JobView<'_>, from: &Address, to: Option<&Address>, answers: &[Reply]) -> Asked {
    let missing = to.and_then(|to| match view.assessment.target.expected(to) {
        Expected::MissingOther(kind) => Some((to, kind)),
        _ => None,
    });
    match (to, missing) {
        (None, _) => left_behind(view, from, answers),
        (Some(_), Some((to, kind))) => new_other(view, from, to, kind, answers),
        (Some(_), None) => moved_other(view, from, answers),
    }
}

/// By the decision it does not belong in the new housing.
fn left_behind(view: &JobView<'_>, from: &Address, answers: &[Reply]) -> Asked {
    match answers.first() {
        None => picks(
            format!(
                "LEAVE the {} of {} in the old housing: it has no place.",
                what_is(view, from),
                from.label
            ),
            &[Choice::LeftThere],
        ),
        Some(_) => Asked::Ready(vec![Act::LeftInOld {
            at: from.clone(),
            reason: "by the decision it has no place".to_owned(),
        }]),
    }
}

/// A new one, where one is drawn and none was found.
fn new_other(view: &JobView<'_>, from: &Address, to: &Address, kind: &OtherKind, answers: &[Reply]) -> Asked {
    let what = match kind {
        OtherKind::Spare => "spare terminal",
        OtherKind::Bridge(what) => what.as_str(),
    };
    match texts(answers).as_slice() {
        [] => field(format!("FIT a new {what} into new {}. Part number of the new one?", to.label)),
        [part] => match part.parse::<crate::catalogue::PartNumber>() {
            Ok(_) => field("Into which cavity? Read the label and key it"),
            Err(why) => Asked::Wrong(format!("{why}")),
        },
        [part, label, ..] => match (part.parse(), view.resolve(JobSide::New, label)) {
            (Ok(part), Ok(to)) => {
                Asked::Ready(vec![Act::MoveOther { from: from.clone(), to, part: Some(part), anyway: None }])
            }
            (Err(why), _) => Asked::Wrong(format!("{why}")),
            (_, Err(why)) => Asked::Wrong(why),
        },
    }
}

fn moved_other(view: &JobView<'_>, from: &Address, answers: &[Reply]) -> Asked {
    let put = |to| Act::MoveOther { from: from.clone(), to, part: None, anyway: None };
    match answers {
        [] => field(format!(
            "MOVE the {} of {}. Into which cavity? Key its label",
            what_is(view, from),
            from.label
        )),
        [Reply::Text(label)] => match view.resolve(JobSide::New, label) {
            Ok(to) => {
                let prompt = format!("PUSH it into {}.", to.label);
                unless_barred(view, put(to), || picks(prompt, &[Choice::InPlace]))
            }
            Err(why) => Asked::Wrong(why),
        },
        [Reply::Text(label), ..] => match view.resolve(JobSide::New, label) {
            Ok(to) => Asked::Ready(vec![put(to)]),
            Err(why) => Asked::Wrong(why),
        },
        _ => Asked::Wrong("Key the label.".to_owned()),
    }
}

fn what_is(view: &JobView<'_>, at: &Address) -> String {
    match view.state().records.found.get(at) {
        Some(crate::record::CavityContent::Bridge(what)) => what.clone(),
        _ => "spare terminal".to_owned(),
    }
}
