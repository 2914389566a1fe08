//! Flags on spare terminals, bridges, shunts, diodes and clips.

use super::{Flag, Flags};
use crate::{
    job::{
        Code, JobSide, OtherItem, OtherKind, Place,
        state::State,
        target::{Expected, Target},
    },
    record::Address,
};

impl State {
    pub(super) fn flag_others(&self, target: &Target, flags: &mut Flags) {
        for other in &self.items.others {
            let (code, what) = match &other.kind {
                OtherKind::Spare => (Code::SpareMissing, "spare terminal".to_owned()),
                OtherKind::Bridge(what) => (Code::BridgeMissing, what.clone()),
            };
            let wanted = target.cavities.values().any(|e| *e == Expected::Other(other.id.clone()));
            match &other.place {
                Place::In(at) if self.housings.side_of(at) == Some(JobSide::New) => {
                    let fits = self.other_fits(other, at, target);
                    let say = format!("The {what} in {at} does not belong there.");
                    let flag = Flag::job(code, say, "Move it to the cavity it is mapped to.").at(self, at);
                    flags.extend((!fits).then_some(flag));
                }
                Place::In(_) => {}
                Place::Hand | Place::Parked(_) => {
                    flags.push(Flag::job(
                        Code::Parked,
                        format!("A {what} is set aside."),
                        "Put it where it belongs.",
                    ));
                }
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
                    flags.push(Flag::job(
                        code,
                        format!("The {what} {} is gone.", other.id),
                        "Find it, or fit one like it.",
                    ));
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
