//! Wires and plugs on their way, the lead in the hand, and what follows from a decision, in words.

use crate::{
    catalogue::{AccessFace, Gender, Sealing, Terminal},
    job::{ItemId, JobSide, Lead, OtherKind, RepairKind},
    procedure::{
        ConsequenceQuestion, InHandQuestion, JobView, MoveQuestion, PlugQuestion, looked_at, names_of_wires,
        other_in, proposal,
    },
    reckoning::{Advice, Finding, advise},
    record::{Address, WireKind},
};

/// A lead as it is called; by its id where nobody knows it.
pub(super) fn call_of(view: &JobView<'_>, lead: &ItemId) -> String {
    view.state().items.lead(lead).map_or_else(|| lead.to_string(), Lead::call)
}

pub(super) fn wire(view: &JobView<'_>, asked: &MoveQuestion) -> String {
    let call = |lead: &ItemId| call_of(view, lead);
    match asked {
        MoveQuestion::ColourAt { at, .. } => {
            format!("EXTRACT the lead from {}. Before you pull: what colour is it?", at.label)
        }
        MoveQuestion::Extract { at, lead, .. } => {
            let release = view.state().items.lead(lead).map(|lead| release(view, lead, at));
            format!("EXTRACT the lead from {}{}.", at.label, release.unwrap_or_default())
        }
        MoveQuestion::HowItCame(at) => format!("The lead from {}: how did it come?", at.label),
        MoveQuestion::SealCame(_) => "And its seal?".to_owned(),
        MoveQuestion::LabelFor(lead) => {
            format!("SEAT {}. Into which cavity do you push it? Read the label and key it", call(lead))
        }
        MoveQuestion::Clicked { into, lead } => {
            let what = lead.as_ref().map_or_else(|| "it".to_owned(), call);
            format!("PUSH {what} straight into {} until it clicks.", into.label)
        }
        MoveQuestion::TugHeld { at, lead } => {
            format!("TUG {} in {}: straight and gently.", call(lead), at.label)
        }
        MoveQuestion::PushedAgain { at, lead } => format!(
            "{} did not click in {}. PUSH it once more, straight; or take it out.",
            call(lead),
            at.label
        ),
        MoveQuestion::OutAgain { at, lead, is_wrong_hole } => {
            let why = if *is_wrong_hole { "is in the wrong hole" } else { "did not click" };
            format!("TAKE {} out of {} again: it {why}.", call(lead), at.label)
        }
        MoveQuestion::TakeUp { lead, tag } => {
            format!("TAKE UP {} from tag {tag}, when it can go on.", call(lead))
        }
        MoveQuestion::Found(lead) => format!("FIND {}: nobody sees it. In your hand now?", call(lead)),
    }
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

pub(super) fn plug(view: &JobView<'_>, asked: &PlugQuestion) -> String {
    let call = |from: &Option<Address>| {
        from.as_ref().map_or("the plug".to_owned(), |from| format!("the plug of {}", from.label))
    };
    match asked {
        PlugQuestion::Out(at) => {
            let is_new = view.state().housings.side_of(at) == Some(JobSide::New);
            let side = if is_new { "new" } else { "old" };
            format!("TAKE the plug out of {side} {}, without a nick.", at.label)
        }
        PlugQuestion::LabelFor(from) => {
            format!("FIT {}. Into which cavity? Read the label and key it", call(from))
        }
        PlugQuestion::In { into, from } => {
            format!("PUSH {} into {}, as deep as the others.", call(from), into.label)
        }
        PlugQuestion::InHand { is_needed: true } => {
            "A PLUG is in your hand. Sound: fit it where one is missing. Else lay it aside.".to_owned()
        }
        PlugQuestion::InHand { is_needed: false } => {
            "A PLUG is in your hand, and no hole needs it. Where does it go?".to_owned()
        }
        PlugQuestion::ScrapWhy => "SCRAP the plug: why?".to_owned(),
        PlugQuestion::LabelForNew(at) => {
            let size = view.state().housings.cavity_size(at);
            let size = size.map_or(String::new(), |size| format!(" of size {size}"));
            format!("FIT a plug{size} into new {}. Read the label of the hole and key it", at.label)
        }
        PlugQuestion::SparePart => {
            "The house rule wants a spare terminal before it: its part number?".to_owned()
        }
        PlugQuestion::NewIn(into) => format!("PUSH the plug into {}.", into.label),
        PlugQuestion::OtherLeft(from) => format!(
            "LEAVE the {} of {} in the old housing: it has no place.",
            other_in(view, from),
            from.label
        ),
        PlugQuestion::NewOther { to, kind } => {
            let what = match kind {
                OtherKind::Spare => "spare terminal",
                OtherKind::Bridge(what) => what.as_str(),
            };
            format!("FIT a new {what} into new {}. Part number of the new one?", to.label)
        }
        PlugQuestion::LabelForNewOther => "Into which cavity? Read the label and key it".to_owned(),
        PlugQuestion::LabelForOther(from) => {
            format!("MOVE the {} of {}. Into which cavity? Key its label", other_in(view, from), from.label)
        }
        PlugQuestion::OtherIn(to) => format!("PUSH it into {}.", to.label),
    }
}

pub(super) fn in_hand(view: &JobView<'_>, asked: &InHandQuestion) -> String {
    let call = |lead: &ItemId| call_of(view, lead);
    match asked {
        InHandQuestion::Verdict(lead) => {
            view.state().items.lead(lead).map_or_else(String::new, |lead| look_at(view, lead))
        }
        InHandQuestion::Found(lead) => format!("{}: what do you find?", call(lead)),
        InHandQuestion::WhyGood(lead) => {
            let planned = view.state().items.lead(lead).and_then(|lead| lead.planned);
            let planned = planned.map_or("", RepairKind::words);
            format!("{} waits for {planned}. Why is it not needed after all? (Esc: it is)", call(lead))
        }
        InHandQuestion::TestPin(_) => {
            "With which test pin was it tried? Key its part number (- : with no pin)".to_owned()
        }
        InHandQuestion::DamageReach(_) => {
            "How far behind the rear face does the damage reach, until insulation bends without cracking? (mm or in)".to_owned()
        }
        InHandQuestion::Proposed { lead, found } => {
            view.state().items.lead(lead).map_or_else(String::new, |lead| proposed(view, lead, *found))
        }
        InHandQuestion::WhichRepair(lead) => format!("{}: which repair instead?", call(lead)),
        InHandQuestion::WhyOtherwise => "Why not as proposed?".to_owned(),
        InHandQuestion::StopWith { lead, found } => {
            let why = view.state().items.lead(lead).map(|lead| advise(*found, &looked_at(view, lead)).why());
            format!("STOP with {}: {}.", call(lead), why.unwrap_or_default())
        }
    }
}

/// What to look at on this terminal, and what was planned for it.
fn look_at(view: &JobView<'_>, lead: &Lead) -> String {
    let housing = view.goes_into(lead).or_else(|| view.state().housings.side(JobSide::Old).next());
    let contact = match housing.map(|h| h.housing().gender) {
        Some(Gender::Male) => "pin",
        _ => "spring",
    };
    let is_sealed = housing.is_some_and(|h| h.housing().sealing == Sealing::Individual);
    let seal = if is_sealed { ", seal" } else { "" };
    let is_drain = lead.wires_in().any(|wire| wire.kind == WireKind::Drain);
    let sleeve = if is_drain { ", a sleeve on the drain down to the terminal" } else { "" };
    let before = lead.planned.filter(|_| lead.inspected.is_none());
    let planned = before.map_or(String::new(), |how| {
        let why = lead.planned_why.as_deref().unwrap_or("no reason said");
        format!("PLANNED for it: {} ({why}). ", how.words())
    });
    format!(
        "{planned}LOOK at the terminal of {}: tang, {contact}, crimp{seal}{sleeve}. {}",
        lead.call(),
        test_pin_words(view, lead)
    )
}

/// What a female may be tried with.
fn test_pin_words(view: &JobView<'_>, lead: &Lead) -> String {
    let pins = view.state().housings.test_pins_for(lead);
    let parts: Vec<String> = pins.iter().map(|pin| pin.part.to_string()).collect();
    match parts.is_empty() {
        true => "Test pin only of the same family.".to_owned(),
        false => format!("Test pin: only {}.", parts.join(" or ")),
    }
}

fn proposed(view: &JobView<'_>, lead: &Lead, found: Finding) -> String {
    let seen = looked_at(view, lead);
    let advice = advise(found, &seen);
    let how = match advice {
        Advice::Sleeve(_) => "a sleeve over it",
        _ => proposal(advice).map_or("", RepairKind::words),
    };
    format!("PROPOSED for {}: {how}; {}. {}", lead.call(), advice.why(), advice.first(&seen))
}

pub(super) fn consequence(view: &JobView<'_>, asked: &ConsequenceQuestion) -> String {
    let call = |lead: &ItemId| call_of(view, lead);
    match asked {
        ConsequenceQuestion::JoinWaits { lead, with } => {
            format!("{} is to be joined with {}: tag and park it until both are out.", call(lead), call(with))
        }
        ConsequenceQuestion::NoPlace(lead) => format!(
            "By the decision {} has no place. Take it out for good, or insulate it and tie it back?",
            call(lead)
        ),
        ConsequenceQuestion::OutDocument => "OUT for good: under which document?".to_owned(),
        ConsequenceQuestion::TieBackTag => "INSULATE its end, tie it back. What is on its tag?".to_owned(),
        ConsequenceQuestion::TieBackDay => "By which day is it put right? (2026-12-01)".to_owned(),
        ConsequenceQuestion::TieBackBy => "Who answers for it?".to_owned(),
        ConsequenceQuestion::CutOut { lead, slots } => {
            let names = view.state().items.lead(lead).map(|lead| names_of_wires(lead, slots).join(" and "));
            format!(
                "{} does not belong in the terminal of {}: CUT it, insulate it, tie it back. Under which document?",
                names.unwrap_or_default(),
                call(lead)
            )
        }
        ConsequenceQuestion::JoinFirst => "JOIN two leads: the first, by its old cavity?".to_owned(),
        ConsequenceQuestion::JoinOther(one) => {
            format!("{} goes into the terminal of which other lead?", call(one))
        }
        ConsequenceQuestion::JoinWhy => "Why, and under which document?".to_owned(),
    }
}
