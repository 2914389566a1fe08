//! The list of other things one can do: every key, its words and its heading, once.

use crate::procedure::OtherThing;

/// Every other thing: the thing, its key in the menu, what it says; group by group, the gravest last.
pub const OTHERS: [(OtherThing, char, &str); 31] = [
    (OtherThing::Jump, 'j', "jump to label, wire or colour"),
    (OtherThing::NextUndone, '1', "next place not done"),
    (OtherThing::NextOpen, '2', "next open cavity"),
    (OtherThing::GoOn, 'y', "override (name and reason)"),
    (OtherThing::WrongKey, 'w', "undo: not done at the bench"),
    (OtherThing::PutBack, 'b', "put it back where it was"),
    (OtherThing::Seen, 's', "it is somewhere else"),
    (OtherThing::Correct, 'c', "correct the record"),
    (OtherThing::Loose, 'l', "several wires came out together"),
    (OtherThing::KeyShould, '8', "type what the diagram says"),
    (OtherThing::Park, 'k', "tag and park it"),
    (OtherThing::CutFree, 'f', "cut a wire off"),
    (OtherThing::Removed, 'x', "remove a wire for good"),
    (OtherThing::LeftInOld, 'o', "leave it in the old housing"),
    (OtherThing::PlugGone, 'g', "plug lost, torn or given back"),
    (OtherThing::Join, '9', "join two wires into one"),
    (OtherThing::Map, 'm', "map a cavity by hand"),
    (OtherThing::Behind, '3', "harness behind the housing"),
    (OtherThing::OrderLead, '4', "order a repair lead"),
    (OtherThing::ProveTool, '5', "qualify a crimp die position"),
    (OtherThing::WithdrawTool, '6', "withdraw a tool"),
    (OtherThing::Note, 'n', "write a note"),
    (OtherThing::Photo, 'p', "number of a photo"),
    (OtherThing::Cause, 'e', "cause of the damage"),
    (OtherThing::Accept, 'a', "accept an open point by name"),
    (OtherThing::GateAgain, '7', "answer a safety check again"),
    (OtherThing::ReopenLock, 'r', "open the new lock again"),
    (OtherThing::SendRequest, 'd', "send the parts request"),
    (OtherThing::Arrived, 'i', "a part of the request arrived"),
    (OtherThing::HandOver, 'h', "hand over to another person"),
    (OtherThing::Stop, 't', "STOP THE JOB"),
];

/// The heading it stands under in the menu; none for what always stands at its end.
pub fn group_of(thing: OtherThing) -> Option<&'static str> {
    match thing {
        OtherThing::GoOn | OtherThing::WrongKey | OtherThing::PutBack => Some("UNDO, OVERRIDE"),
        OtherThing::Jump | OtherThing::NextUndone | OtherThing::NextOpen => Some("GO TO"),
        OtherThing::Seen | OtherThing::Correct | OtherThing::Loose | OtherThing::KeyShould => Some("SEEN"),
        OtherThing::Park
        | OtherThing::CutFree
        | OtherThing::Removed
        | OtherThing::LeftInOld
        | OtherThing::PlugGone
        | OtherThing::Join
        | OtherThing::Map => Some("WIRES AND PLUGS"),
        OtherThing::Behind | OtherThing::OrderLead | OtherThing::ProveTool | OtherThing::WithdrawTool => {
            Some("REPAIRS")
        }
        OtherThing::Note
        | OtherThing::Photo
        | OtherThing::Cause
        | OtherThing::Accept
        | OtherThing::GateAgain
        | OtherThing::ReopenLock => Some("JOB"),
        OtherThing::SendRequest | OtherThing::Arrived => Some("PARTS"),
        OtherThing::HandOver | OtherThing::Stop => None,
    }
}
