//! Flags on spare terminals, bridges, shunts, diodes and clips.

use super::{
    Flag, Flags,
    cause::{FlagCause, OtherCause},
};
use crate::{
    job::{
        JobSide, OtherItem, OtherKind, Place,
        state::State,
        target::{Expected, Target},
    },
    record::Address,
};

impl State {
    pub(super) fn flag_others(&self, target: &Target, flags: &mut Flags) {
        for item in &self.items.others {
            let kind = item.kind.clone();
            let wanted = target.cavities.values().any(|e| *e == Expected::Other(item.id.clone()));
            match &item.place {
                Place::In(at) if self.housings.side_of(at) == Some(JobSide::New) => {
                    if !self.other_fits(item, at, target) {
                        flags.push(other(OtherCause::OutOfPlace { kind, at: at.clone() }).at(self, at));
                    }
                }
                Place::In(_) => {}
                Place::Hand | Place::Parked(_) => flags.push(other(OtherCause::SetAside(kind))),
                Place::Tray
                | Place::Removed
                | Place::Joined(_)
                | Place::NotMade
                | Place::Scrapped
                | Place::Lost
                | Place::Returned
                | Place::Unseen
                    if wanted =>
                {
                    flags.push(other(OtherCause::Gone { kind, id: item.id.clone() }));
                }
                Place::Tray
                | Place::Removed
                | Place::Joined(_)
                | Place::NotMade
                | Place::Scrapped
                | Place::Lost
                | Place::Returned
                | Place::Unseen => {}
            }
        }
    }

    /// Whether a spare terminal, bridge or clip belongs in the new cavity it sits in.
    fn other_fits(&self, other: &OtherItem, at: &Address, target: &Target) -> bool {
        match target.expected(at) {
            Expected::Other(id) => *id == other.id,
            // A spare terminal with its plug fills a hole as well as a plug alone.
            Expected::SpareAndPlug | Expected::Plug(_) => {
                other.kind == OtherKind::Spare && self.items.plug_at(at).is_some()
            }
            Expected::Leads(_)
            | Expected::Delivered
            | Expected::Nothing
            | Expected::Blocked
            | Expected::MissingWire
            | Expected::MissingOther(_) => false,
        }
    }
}

fn other(cause: OtherCause) -> Flag {
    Flag::job(FlagCause::Other(cause))
}
