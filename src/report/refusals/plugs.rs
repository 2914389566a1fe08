//! What is said against what is done to plugs, spare terminals and bridges, and to where a thing is seen.

use crate::{
    job::{
        OtherKind,
        refusal::{OtherBarrier, PlugBarrier, PlugRule, SeenBarrier},
    },
    report::words::Words,
};

const READ_AGAIN: &str = "Read the label again.";

pub(super) fn plug(barrier: &PlugBarrier) -> Words {
    match barrier {
        PlugBarrier::NoPlugOut => Words::new(
            "No plug is in the hand or in the tray.",
            "Take it out first, or say it is seen nowhere.",
        ),
        PlugBarrier::LeftInNew(at) => {
            Words::new(format!("{at} is on the new side."), "Name a cavity of the old side.")
        }
        PlugBarrier::LeadLeft(lead) => Words::new(
            format!("{lead} cannot be left in the old housing."),
            "Move it, or take it out for good under a document.",
        ),
        PlugBarrier::NothingLeft(at) => Words::new(format!("{at} is bare."), "Nothing is left there."),
        PlugBarrier::HoldsLead(from, lead) => {
            Words::new(format!("{from} holds {lead}, not a plug."), READ_AGAIN)
        }
        PlugBarrier::BelongsToOther(from) => {
            Words::new(format!("The plug in {from} belongs to what is before it."), "Move both together.")
        }
        PlugBarrier::NoPlugIn(from) => {
            Words::new(format!("{from} is bare."), "If a plug is there, say what you see.")
        }
        PlugBarrier::PlugIntoOld(into) => {
            Words::new(format!("{into} is on the old side."), "Plugs go into the new housing.")
        }
        PlugBarrier::NoPlugInHand => Words::new(
            "There is no plug in the hand.",
            "Take one out, or take one from the tray or from stock.",
        ),
        PlugBarrier::NoPlugInTray => Words::new("There is no plug in the tray.", "Take one from stock."),
    }
}

pub(super) fn other(barrier: &OtherBarrier) -> Words {
    match barrier {
        OtherBarrier::IntoOld(to) => {
            Words::new(format!("{to} is on the old side."), "It goes into the new housing.")
        }
        OtherBarrier::NotWanted(to) => Words::new(format!("No new part is wanted in {to}."), READ_AGAIN),
        OtherBarrier::NoPart(part) => {
            Words::new(format!("\"{part}\" is no part number."), "Key what is on its bag.")
        }
        OtherBarrier::NoneIn(from) => {
            Words::new(format!("{from} holds no spare terminal, bridge or clip."), READ_AGAIN)
        }
    }
}

pub(super) fn seen(barrier: &SeenBarrier) -> Words {
    match barrier {
        SeenBarrier::NoItem(item) => Words::new(
            format!("There is no {item} in this job."),
            "A lead nobody recorded is loose/1, loose/2 and so on.",
        ),
        SeenBarrier::Joined(with) => Words::new(
            format!("On record it is joined with {with}: it is where that is."),
            "If it was cut out again, say that it was taken out, under the document.",
        ),
        SeenBarrier::InHandAlready => Words::new("It is in the hand on record too.", "Nothing to say."),
        SeenBarrier::ThereAlready => Words::new("It is there on record too.", "Nothing to say."),
        SeenBarrier::TakenOnRecord(at) => Words::new(
            format!("On record {at} is taken."),
            "First say where the thing is seen that the record has there.",
        ),
    }
}

pub(super) fn rule(rule: &PlugRule) -> Words {
    match rule {
        PlugRule::OtherSize { plug, into, size } => {
            let theirs = plug.as_ref().map_or("?", |size| size.as_str());
            Words::new(
                format!("The plug is size {theirs}, and {into} is size {size}."),
                "Fit a plug of the cavity's size.",
            )
        }
        PlugRule::TakesWire(into) => Words::new(format!("A wire goes into {into}, not a plug."), READ_AGAIN),
        PlugRule::TakesNoPlug(into) => Words::new(format!("{into} takes no plug."), READ_AGAIN),
        PlugRule::SpareFirst(into) => Words::new(
            format!("By the house rule {into} takes a spare terminal, and the plug behind it."),
            "Put the spare terminal in, and say so with the plug.",
        ),
        PlugRule::NotThePart { part, wanted, to } => {
            let what = match wanted {
                OtherKind::Spare => "spare terminal",
                OtherKind::Bridge(what) => what,
            };
            Words::new(
                format!("Part {part} is no {what} for {to}."),
                "Read its number again; fit what is drawn.",
            )
        }
        PlugRule::SpareElsewhere(id, to) | PlugRule::BridgeElsewhere(id, to) => {
            Words::new(format!("{id} does not belong in {to}."), "Read the map again.")
        }
    }
}
