//! How many wires, leads, plugs and other contents are where: the sums of the law.

use crate::catalogue::Delivered;

use super::{
    JobSide, LeadOrigin, Place, PlugOrigin,
    state::{Occupant, State},
    target::{Expected, Target},
};

/// Places of wires, or of leads.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct WireCounts {
    /// All that ever belonged to the job; of leads, those made new are counted apart.
    pub found: usize,
    /// In cavities of old housings.
    pub old: usize,
    /// In the hand.
    pub hand: usize,
    /// Tagged and set aside.
    pub parked: usize,
    /// In cavities of new housings.
    pub new: usize,
    /// Taken out for good, under a document.
    pub removed: usize,
    /// Said to be somewhere, and not seen there.
    pub unseen: usize,
}

/// Places of leads, with those put into another lead's terminal.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct LeadCounts {
    /// Where they are; those put into another's terminal are not among them.
    pub places: WireCounts,
    /// Made new, for a wire that is drawn and was found nowhere.
    pub made: usize,
    /// Put into one new terminal with another lead, and no lead of their own since.
    pub joined: usize,
}

/// Places of plugs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct PlugCounts {
    /// Recorded in old housings, those behind spare terminals too.
    pub found: usize,
    /// Delivered in new housings.
    pub prefitted: usize,
    /// Taken from stock so far.
    pub new_stock: usize,
    /// In cavities of old housings.
    pub old: usize,
    /// In the hand.
    pub hand: usize,
    /// Laid aside in the tray.
    pub tray: usize,
    /// In cavities of new housings, delivered ones too.
    pub new: usize,
    /// Thrown away.
    pub scrapped: usize,
    /// Nobody can find them; one may be found again.
    pub lost: usize,
    /// Given back: nothing here needs them.
    pub returned: usize,
    /// Said to be somewhere, and not seen there.
    pub unseen: usize,
}

/// Places of spare terminals, bridges and the like.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct OtherCounts {
    /// All that ever belonged to the job, new ones too.
    pub found: usize,
    /// In cavities of old housings.
    pub old: usize,
    /// In the hand.
    pub hand: usize,
    /// Tagged and set aside.
    pub parked: usize,
    /// In cavities of new housings.
    pub new: usize,
    /// Thrown away.
    pub scrapped: usize,
    /// Given back: nothing here needs them.
    pub returned: usize,
    /// Nobody can find them.
    pub lost: usize,
    /// Said to be somewhere, and not seen there.
    pub unseen: usize,
}

/// What the cavities of the new side hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct CavityCounts {
    /// All cavities: the sum of the seven below.
    pub total: usize,
    /// A lead sits in them.
    pub wired: usize,
    /// A plug sits in them.
    pub plugged: usize,
    /// Nothing sits in them yet, and something is to.
    pub open: usize,
    /// Nothing sits in them, and nothing is to.
    pub empty: usize,
    /// Moulded shut.
    pub blocked: usize,
    /// A terminal without wire sits in them.
    pub spare: usize,
    /// A bridge, diode or clip sits in them, put there or delivered.
    pub bridge: usize,
}

impl State {
    pub(super) fn wire_counts(&self) -> WireCounts {
        let mut counts = WireCounts::default();
        for lead in self.items.leads.iter().filter(|lead| lead.place != Place::NotMade) {
            let (all, left) = (lead.seen.wires.len(), lead.wires_left());
            counts.found += all;
            counts.removed += all - left;
            if lead.place != Place::Removed {
                *self.wire_place(&mut counts, self.items.rests_at(lead)) += left;
            }
        }
        counts
    }

    pub(super) fn lead_counts(&self) -> LeadCounts {
        let mut counts = LeadCounts::default();
        for lead in self.items.leads.iter().filter(|lead| lead.place != Place::NotMade) {
            match lead.origin {
                LeadOrigin::Found => counts.places.found += 1,
                LeadOrigin::Made => counts.made += 1,
            }
            match &lead.place {
                Place::Joined(_) => counts.joined += 1,
                place => *self.wire_place(&mut counts.places, place) += 1,
            }
        }
        counts
    }

    pub(super) fn wire_place<'a>(&self, counts: &'a mut WireCounts, place: &Place) -> &'a mut usize {
        match place {
            Place::In(at) if self.housings.side_of(at) == Some(JobSide::New) => &mut counts.new,
            Place::In(_) => &mut counts.old,
            Place::Hand => &mut counts.hand,
            Place::Parked(_) | Place::Tray => &mut counts.parked,
            Place::Removed | Place::Scrapped | Place::Returned => &mut counts.removed,
            Place::Joined(_) | Place::NotMade | Place::Lost | Place::Unseen => &mut counts.unseen,
        }
    }

    pub(super) fn plug_counts(&self) -> PlugCounts {
        let mut counts = PlugCounts::default();
        for plug in &self.items.plugs {
            *match plug.origin {
                PlugOrigin::Found => &mut counts.found,
                PlugOrigin::Prefitted => &mut counts.prefitted,
                PlugOrigin::Stock => &mut counts.new_stock,
            } += 1;
            *match &plug.place {
                Place::In(at) if self.housings.side_of(at) == Some(JobSide::New) => &mut counts.new,
                Place::In(_) => &mut counts.old,
                Place::Hand => &mut counts.hand,
                Place::Tray | Place::Parked(_) => &mut counts.tray,
                Place::Scrapped | Place::Removed => &mut counts.scrapped,
                Place::Lost => &mut counts.lost,
                Place::Returned => &mut counts.returned,
                Place::Joined(_) | Place::NotMade | Place::Unseen => &mut counts.unseen,
            } += 1;
        }
        counts
    }

    pub(super) fn other_counts(&self) -> OtherCounts {
        let mut counts = OtherCounts::default();
        for other in &self.items.others {
            counts.found += 1;
            *match &other.place {
                Place::In(at) if self.housings.side_of(at) == Some(JobSide::New) => &mut counts.new,
                Place::In(_) => &mut counts.old,
                Place::Hand => &mut counts.hand,
                Place::Parked(_) | Place::Tray => &mut counts.parked,
                Place::Scrapped | Place::Removed => &mut counts.scrapped,
                Place::Returned => &mut counts.returned,
                Place::Lost => &mut counts.lost,
                Place::Joined(_) | Place::NotMade | Place::Unseen => &mut counts.unseen,
            } += 1;
        }
        counts
    }

    pub(super) fn cavity_counts(&self, target: &Target) -> CavityCounts {
        let mut counts = CavityCounts::default();
        let occupants = self.items.occupants();
        for new in self.housings.side(JobSide::New) {
            for cavity in &new.housing().cavities {
                let at = new.address(&cavity.label);
                counts.total += 1;
                *match (occupants.get(&at), cavity.delivered, target.expected(&at)) {
                    (Some(Occupant::Lead(_)), ..) => &mut counts.wired,
                    (Some(Occupant::Plug(_)), ..) => &mut counts.plugged,
                    (Some(Occupant::Other(other)), ..) => match other.kind {
                        super::OtherKind::Spare => &mut counts.spare,
                        super::OtherKind::Bridge(_) => &mut counts.bridge,
                    },
                    (None, Delivered::Blocked, _) => &mut counts.blocked,
                    (None, Delivered::Bridge, _) => &mut counts.bridge,
                    (None, _, Expected::Nothing) => &mut counts.empty,
                    (None, ..) => &mut counts.open,
                } += 1;
            }
        }
        counts
    }
}
