//! What is said against what is done to leads.

use crate::{
    catalogue::LockState,
    job::{
        Place,
        refusal::{AsideBarrier, Elsewhere, LookBarrier, MoveRule, PutInBarrier, TakeOutBarrier},
    },
    quantity::quoted,
    record::Address,
    report::{map_words::relabelled, words::Words},
};

pub(super) fn look(barrier: &LookBarrier) -> Words {
    match barrier {
        LookBarrier::NoLeadInHand => Words::new("There is no lead in the hand.", "Take one out first."),
        LookBarrier::WaitsForRepair { lead, how, why } => {
            let why = why.as_deref().unwrap_or("no reason said");
            Words::new(
                format!("{lead} waits for {} ({why}).", how.words()),
                "Do that repair; if none is needed after all, say why with the look.",
            )
        }
        LookBarrier::NothingToTug(at) => {
            Words::new(format!("There is no lead in {at}."), "Key the hole you tugged at.")
        }
        LookBarrier::TugInOld(at) => Words::new(
            format!("{at} is on the old side: what sits there is taken out, not tugged."),
            "Take it out as a move; if it fell out, say so with its tag.",
        ),
        LookBarrier::DidNotClick(lead, at) => Words::new(
            format!("{lead} did not click in {at}; a tug proves nothing."),
            "Take it out, look at its tang, and put it in again.",
        ),
        LookBarrier::DidClick(lead, at) => Words::new(
            format!("{lead} in {at} did click, by what was said."),
            "Tug it; if it does not hold, say so.",
        ),
        LookBarrier::NothingToPush(at) => {
            Words::new(format!("There is no lead in {at}."), "Key the hole you pushed at.")
        }
    }
}

pub(super) fn take_out(barrier: &TakeOutBarrier) -> Words {
    const SAY_WHAT: &str = "If a wire is there, say what you see.";
    match barrier {
        TakeOutBarrier::IsPlug(at) => {
            Words::new(format!("{at} holds a plug."), "Take the plug out as a plug.")
        }
        TakeOutBarrier::IsOther(at) => Words::new(format!("{at} holds no wire."), "Move it as what it is."),
        TakeOutBarrier::Bare(at) => Words::new(format!("{at} is bare."), SAY_WHAT),
        TakeOutBarrier::LeftBare { at, lead, place } => {
            Words::new(format!("{at} is bare: {lead} is {}.", place_in_words(place)), SAY_WHAT)
        }
        TakeOutBarrier::ColourAsked(lead) => Words::new(
            format!("What colour is the wire in {lead}?"),
            "Key the colour you see, not the one on the list.",
        ),
        TakeOutBarrier::OtherColour(lead, colour) => Words::new(
            format!("You see {colour}, and that is not the colour on record for {lead}."),
            "Look at the hole again; if the record is wrong, correct it first.",
        ),
        TakeOutBarrier::PullToSeat(from) => Words::new(
            format!("The terminal in {from} is pull-to-seat: its lead cannot be moved whole."),
            "Cut it free behind the housing and plan a repair lead.",
        ),
        TakeOutBarrier::NotOnWire(from, keyed) => Words::new(
            format!("\"{}\" is not what is written on the wire of {from}.", quoted(keyed)),
            "Before a cut, read the wire you are about to cut, and key what is written on it.",
        ),
        TakeOutBarrier::NoLeadNamed => {
            Words::new("No lead is named.", "Name each lead that fell out, with its tag.")
        }
    }
}

pub(super) fn put_in(barrier: &PutInBarrier) -> Words {
    match barrier {
        PutInBarrier::NotAWire => Words::new("What is in the hand is not a wire.", "Fit it as what it is."),
        PutInBarrier::NothingInHand => Words::new("There is nothing in the hand.", "Take a wire out first."),
        PutInBarrier::IntoOld(into) => Words::new(
            format!("{into} is on the old side."),
            "Put it back where it came from, or into the new housing.",
        ),
        PutInBarrier::TakenElsewhere(goes) => Words::new(
            format!("{} {} is taken.", elsewhere(goes), goes.into),
            format!("Put it into {}.", goes.to.label),
        ),
        PutInBarrier::NoTerminal(lead) => {
            Words::new(format!("{lead} has no terminal."), "Park it until its repair is done.")
        }
        PutInBarrier::NotLookedAt(lead) => Words::new(
            format!("Nobody looked at the terminal of {lead}."),
            "Look at it: good, or which repair?",
        ),
        PutInBarrier::NeedsRepair(lead) => Words::new(
            format!("{lead} needs a repair first."),
            "Do the repair, park it until then, or look at it again.",
        ),
    }
}

pub(super) fn aside(barrier: &AsideBarrier) -> Words {
    match barrier {
        AsideBarrier::NothingToPutBack => Words::new("There is nothing in the hand.", "Nothing to put back."),
        AsideBarrier::WasCut => Words::new("It was cut free and cannot go back.", "Park it with a tag."),
        AsideBarrier::OriginUnknown => {
            Words::new("Nobody knows the hole it came from.", "Tag and park it, or put it where it belongs.")
        }
        AsideBarrier::HoleTaken(from) => Words::new(format!("{from} is taken."), "Tag and park it."),
        AsideBarrier::NothingToPark => Words::new("There is nothing in the hand.", "Nothing to park."),
        AsideBarrier::NothingParked(tag) => {
            Words::new(format!("Nothing is parked under tag {tag}."), "Read the tag again.")
        }
        AsideBarrier::NoTag(tag) => {
            Words::new(format!("\"{tag}\" is no tag."), "Write something on it, and key that.")
        }
        AsideBarrier::TagUsed(tag) => {
            Words::new(format!("Tag {tag} is used already."), "Give it its own tag.")
        }
        AsideBarrier::TagUsedForLead(tag) => {
            Words::new(format!("Tag {tag} is used already."), "Give each lead its own tag.")
        }
        AsideBarrier::TagOn(tag, lead) => Words::new(
            format!("Tag {tag} is on {lead} already."),
            "Use another tag: two leads on one tag are one lead too few.",
        ),
    }
}

pub(super) fn rule(rule: &MoveRule) -> Words {
    match rule {
        MoveRule::LooksAlike(lead) => Words::new(
            format!("{lead} looks like another wire here and has no tag."),
            "Tie a tag to it before it leaves its hole.",
        ),
        MoveRule::LockShut { housing, kind, lock } => {
            let kind = kind.as_deref().unwrap_or("lock");
            let lock = lock.map_or("not there", LockState::words);
            Words::new(
                format!("The secondary lock ({kind}) of {housing} is {lock}."),
                "Release it first; a terminal forced past it is damaged.",
            )
        }
        MoveRule::NotCut(lead, kind) => Words::new(
            format!("{lead} is a {}: it is not cut and spliced.", kind.words()),
            "Stop, and ask for the document of this machine.",
        ),
        MoveRule::Elsewhere(goes) => {
            wrong_cavity(elsewhere(goes), &format!("Put it into {}.", goes.to.label), &goes.into)
        }
        MoveRule::HasNoPlace(lead, into) => wrong_cavity(
            format!("By the decision {lead} has no place in the new housing."),
            "Take it out for good under a document, or tie it back and park it.",
            into,
        ),
        MoveRule::Unplaced(lead, into) => {
            wrong_cavity(format!("Nobody said where {lead} belongs."), "Find out before it goes in.", into)
        }
        MoveRule::NoSeal(lead) => Words::new(format!("{lead} has no seal."), "Put a new seal on first."),
        MoveRule::ToBeJoined { other, lead } => Words::new(
            format!("{other} is to be joined with {lead} first."),
            "Park it, take the other one out, and join both.",
        ),
        MoveRule::LeftBehind(into) => Words::new(
            format!("A seal or a terminal stayed in {into}."),
            "Take it out, look into the hole, and say that it is clear.",
        ),
    }
}

fn wrong_cavity(say: String, instead: &str, into: &Address) -> Words {
    Words::new(say, format!("{instead} If it does sit in {into}, say so: it must come out."))
}

fn elsewhere(goes: &Elsewhere) -> String {
    let Elsewhere { lead, to, into, why } = goes;
    let why = why.map_or(String::new(), |why| format!(": {}", relabelled(why)));
    format!("{lead} goes to {to}, not to {into}{why}.")
}

/// A place in words.
pub(super) fn place_in_words(place: &Place) -> String {
    match place {
        Place::In(at) => format!("in {at}"),
        Place::Hand => "in the hand".to_owned(),
        Place::Parked(tag) => format!("parked, tag {tag}"),
        Place::Tray => "in the tray".to_owned(),
        Place::Removed => "taken out for good".to_owned(),
        Place::Joined(with) => format!("joined with {with}"),
        Place::NotMade => "not made yet".to_owned(),
        Place::Scrapped => "scrapped".to_owned(),
        Place::Lost => "lost".to_owned(),
        Place::Returned => "given back".to_owned(),
        Place::Unseen => "seen by nobody".to_owned(),
    }
}
