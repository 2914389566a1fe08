//! Checks of what is done to plugs, spare terminals, bridges and sightings.

use crate::{
    catalogue::PartNumber,
    job::{
        Code, InHand, ItemId, JobSide, Occupant, OtherKind, Place, PlugSource, SeenAt,
        state::State,
        target::{Expected, Target},
    },
    quantity::says_something,
    record::Address,
};

use super::rules::{Checked, Rules, impossible};

impl State {
    pub(super) fn check_plug_out(&self) -> Checked {
        let there = self.items.plugs.iter().any(|p| matches!(p.place, Place::Hand | Place::Tray));
        match there {
            true => Ok(Rules::default()),
            false => impossible(
                "No plug is in the hand or in the tray.",
                "Take it out first, or say it is seen nowhere.",
            ),
        }
    }

    pub(super) fn check_left_in_old(&self, at: &Address) -> Checked {
        if self.housings.check_cavity(at)? == JobSide::New {
            return impossible(format!("{at} is on the new side."), "Name a cavity of the old side.");
        }
        match self.items.occupant(at) {
            Some(Occupant::Plug(_) | Occupant::Other(_)) => Ok(Rules::default()),
            Some(Occupant::Lead(lead)) => impossible(
                format!("{} cannot be left in the old housing.", lead.call()),
                "Move it, or take it out for good under a document.",
            ),
            None => impossible(format!("{at} is bare."), "Nothing is left there."),
        }
    }

    pub(super) fn check_take_plug(&self, from: &Address, target: &Target) -> Checked {
        self.items.check_empty_hand()?;
        let side = self.housings.check_cavity(from)?;
        match self.items.occupant(from) {
            Some(Occupant::Plug(_)) => {}
            Some(Occupant::Lead(lead)) => {
                return impossible(
                    format!("{from} holds {}, not a plug.", lead.call()),
                    "Read the label again.",
                );
            }
            Some(Occupant::Other(_)) => {
                return impossible(
                    format!("The plug in {from} belongs to what is before it."),
                    "Move both together.",
                );
            }
            None => return impossible(format!("{from} is bare."), "If a plug is there, say what you see."),
        }
        let mut rules = if side == JobSide::Old { self.check_leaves(target)? } else { Rules::default() };
        self.check_lock_open(from, &mut rules);
        Ok(rules)
    }

    pub(super) fn check_fit(
        &self,
        into: &Address,
        source: PlugSource,
        with_spare: bool,
        target: &Target,
    ) -> Checked {
        if self.housings.check_cavity(into)? == JobSide::Old {
            return impossible(format!("{into} is on the old side."), "Plugs go into the new housing.");
        }
        let place = match source {
            PlugSource::Hand => Some(Place::Hand),
            PlugSource::Tray => Some(Place::Tray),
            PlugSource::Stock => None,
        };
        if source != PlugSource::Hand {
            self.items.check_empty_hand()?;
        } else if !matches!(self.items.in_hand(), Some(InHand::Plug(_))) {
            return impossible(
                "There is no plug in the hand.",
                "Take one out, or take one from the tray or from stock.",
            );
        }
        self.check_free(into)?;
        let size = self.housings.cavity_size(into);
        let mut rules = self.check_start(target)?;
        if let Some(place) = place {
            let mut here = self.items.plugs.iter().filter(|p| p.place == place).peekable();
            if here.peek().is_none() {
                return impossible("There is no plug in the tray.", "Take one from stock.");
            }
            if !here.clone().any(|p| p.size.is_none() || p.size == size)
                && let (Some(plug), Some(size)) = (here.next(), &size)
            {
                let theirs = plug.size.as_ref().map_or("?", |s| s.as_str());
                let say = format!("The plug is size {theirs}, and {into} is size {size}.");
                rules.add(Code::PlugSize, say, "Fit a plug of the cavity's size.");
            }
        }
        let expected = target.expected(into);
        if !expected.takes_plug() {
            let say = why_no_plug(expected, into);
            rules.add(Code::PlugWrongCavity, say, "Read the label again.");
        }
        if *expected == Expected::SpareAndPlug && !with_spare {
            let say = format!("By the house rule {into} takes a spare terminal, and the plug behind it.");
            rules.add(Code::SpareMissing, say, "Put the spare terminal in, and say so with the plug.");
        }
        self.check_lock_open(into, &mut rules);
        self.items.check_clear(into, &mut rules);
        Ok(rules)
    }

    /// A new spare terminal, bridge or clip, where one is drawn and none was found.
    pub(super) fn check_new_other(&self, to: &Address, part: &PartNumber, target: &Target) -> Checked {
        self.items.check_empty_hand()?;
        if self.housings.check_cavity(to)? == JobSide::Old {
            return impossible(format!("{to} is on the old side."), "It goes into the new housing.");
        }
        self.check_free(to)?;
        let Expected::MissingOther(kind) = target.expected(to) else {
            return impossible(format!("No new part is wanted in {to}."), "Read the label again.");
        };
        if !says_something(&part.to_string()) {
            return impossible(format!("\"{part}\" is no part number."), "Key what is on its bag.");
        }
        let mut rules = self.check_start(target)?;
        if !self.is_part_for(kind, part, to) {
            let what = match kind {
                OtherKind::Spare => "spare terminal",
                OtherKind::Bridge(what) => what,
            };
            let say = format!("Part {part} is no {what} for {to}.");
            rules.add(Code::TerminalMisfit, say, "Read its number again; fit what is drawn.");
        }
        self.check_lock_open(to, &mut rules);
        self.items.check_clear(to, &mut rules);
        Ok(rules)
    }

    /// Whether a part can be what is drawn there: a spare terminal is one of the family, the cavity's size
    /// and the housing's gender; a bridge or clip is none of the family's other parts.
    fn is_part_for(&self, kind: &OtherKind, part: &PartNumber, to: &Address) -> bool {
        let Some(housing) = self.housings.housing(&to.housing) else { return false };
        let (family, size) = (housing.definition.family(), self.housings.cavity_size(to));
        match kind {
            OtherKind::Spare => family.terminals.iter().any(|terminal| {
                terminal.part == *part
                    && Some(&terminal.size) == size.as_ref()
                    && terminal.gender == housing.housing().gender
            }),
            OtherKind::Bridge(_) => {
                !family.terminals.iter().any(|terminal| terminal.part == *part)
                    && !family.wire_seals.iter().any(|seal| seal.part == *part)
                    && !family.plugs.iter().any(|plug| plug.part == *part)
            }
        }
    }

    pub(super) fn check_move_other(&self, from: &Address, to: &Address, target: &Target) -> Checked {
        self.items.check_empty_hand()?;
        self.housings.check_cavity(from)?;
        let Some(Occupant::Other(other)) = self.items.occupant(from) else {
            return impossible(
                format!("{from} holds no spare terminal, bridge or clip."),
                "Read the label again.",
            );
        };
        if self.housings.check_cavity(to)? == JobSide::Old {
            return impossible(format!("{to} is on the old side."), "It goes into the new housing.");
        }
        self.check_free(to)?;
        let mut rules = self.check_leaves(target)?;
        if *target.expected(to) != Expected::Other(other.id.clone()) {
            let code = match other.kind {
                OtherKind::Spare => Code::SpareMissing,
                OtherKind::Bridge(_) => Code::BridgeMissing,
            };
            rules.add(code, format!("{} does not belong in {to}.", other.id), "Read the map again.");
        }
        self.check_lock_open(from, &mut rules);
        self.check_lock_open(to, &mut rules);
        self.items.check_clear(to, &mut rules);
        Ok(rules)
    }

    pub(super) fn check_seen(&self, item: &ItemId, at: &SeenAt) -> Checked {
        let place = self.items.place_of(item);
        if place.is_none() && !matches!(item, ItemId::Loose(_)) {
            return impossible(
                format!("There is no {item} in this job."),
                "A lead nobody recorded is loose/1, loose/2 and so on.",
            );
        }
        if let Some(Place::Joined(with)) = &place {
            let with = self.items.lead(with).map_or_else(|| with.to_string(), |lead| lead.call());
            return impossible(
                format!("On record it is joined with {with}: it is where that is."),
                "If it was cut out again, say that it was taken out, under the document.",
            );
        }
        let is_cut_slip = self.items.lead(item).is_some_and(|lead| !lead.removed_wires.is_empty());
        match at {
            // Said again it undoes a slip: a wire of it taken out for good.
            SeenAt::Hand if place == Some(Place::Hand) && is_cut_slip => Ok(Rules::default()),
            SeenAt::Hand if place == Some(Place::Hand) => {
                impossible("It is in the hand on record too.", "Nothing to say.")
            }
            SeenAt::Hand => self.items.check_empty_hand().map(|()| Rules::default()),
            SeenAt::Parked(tag) => match self.items.parked().any(|(t, id)| t == tag && id != item) {
                true => impossible(format!("Tag {tag} is used already."), "Give it its own tag."),
                false => Ok(Rules::default()),
            },
            SeenAt::Unseen => Ok(Rules::default()),
            SeenAt::In(at) => {
                self.housings.check_cavity(at)?;
                match self.items.occupant(at) {
                    None => Ok(Rules::default()),
                    Some(_) if place == Some(Place::In(at.clone())) => {
                        // Said again it undoes a slip: left behind, or a wire of it taken out for good.
                        let is_slip = self.items.left_in_old.contains_key(at) || is_cut_slip;
                        match is_slip {
                            true => Ok(Rules::default()),
                            false => impossible("It is there on record too.", "Nothing to say."),
                        }
                    }
                    Some(_) => impossible(
                        format!("On record {at} is taken."),
                        "First say where the thing is seen that the record has there.",
                    ),
                }
            }
        }
    }
}

/// Why a cavity takes no plug.
fn why_no_plug(expected: &Expected, into: &Address) -> String {
    match expected {
        Expected::Leads(_) => format!("A wire goes into {into}, not a plug."),
        Expected::Plug(_)
        | Expected::SpareAndPlug
        | Expected::Other(_)
        | Expected::Delivered
        | Expected::Nothing
        | Expected::Blocked
        | Expected::MissingWire
        | Expected::MissingOther(_) => format!("{into} takes no plug."),
    }
}
