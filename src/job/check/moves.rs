//! Checks of what is done to leads.

use crate::{
    catalogue::{LockState, Seating},
    colour::Colour,
    job::{
        Act, Code, Housings, InHand, Inspected, ItemId, Items, JobSide, Lead, Occupant, Place, Refusal, Seat,
        Tag,
        state::State,
        target::{Destination, Target},
    },
    record::{Address, Seal},
};

use super::{
    rules::{Checked, Rules, impossible},
    setup::check_tag,
};

impl State {
    pub(super) fn check_inspect(&self, verdict: &Inspected, look: &Act) -> Checked {
        match (self.items.lead_in_hand(), verdict) {
            (None, _) => impossible("There is no lead in the hand.", "Take one out first."),
            (Some(lead), Inspected::Good) => self.check_good(lead, look),
            (Some(_), Inspected::Needs(_)) => Ok(Rules::default()),
        }
    }

    pub(super) fn check_tug(&self, at: &Address, held: bool) -> Checked {
        match self.items.lead_at(at) {
            None => impossible(format!("There is no lead in {at}."), "Key the hole you tugged at."),
            Some(_) if self.housings.side_of(at) == Some(JobSide::Old) => impossible(
                format!("{at} is on the old side: what sits there is taken out, not tugged."),
                "Take it out as a move; if it fell out, say so with its tag.",
            ),
            Some(_) if !held => self.items.check_empty_hand().map(|()| Rules::default()),
            Some(lead) if lead.seat == Seat::NoClick => impossible(
                format!("{} did not click in {at}; a tug proves nothing.", lead.call()),
                "Take it out, look at its tang, and put it in again.",
            ),
            Some(_) => Ok(Rules::default()),
        }
    }

    pub(super) fn check_take_up(&self, tag: &Tag) -> Checked {
        self.items.check_empty_hand()?;
        match self.items.parked().any(|(t, _)| t == tag) {
            true => Ok(Rules::default()),
            false => impossible(format!("Nothing is parked under tag {tag}."), "Read the tag again."),
        }
    }

    /// A lead that waits for a repair is not good before that is done, or decided otherwise.
    fn check_good(&self, lead: &Lead, look: &Act) -> Checked {
        // A plan that may not be carried out holds nobody back.
        let not_needed = match look {
            Act::Inspect { not_needed: Some(why), .. } => crate::quantity::says_something(why),
            _ => false,
        };
        let planned = lead.planned.filter(|how| self.check_planned(lead, *how, None).is_ok());
        let Some(how) = planned.filter(|_| !not_needed) else {
            let mut rules = Rules::default();
            let mut lead = lead.clone();
            if let Act::Inspect { found, damage, test_pin, .. } = look {
                lead.is_looked_at(*found, damage.as_ref(), test_pin.as_ref());
            }
            for objection in self.against_good(&lead) {
                rules.push(objection);
            }
            return Ok(rules);
        };
        let why = lead.planned_why.as_deref().unwrap_or("no reason said");
        impossible(
            format!("{} waits for {} ({why}).", lead.call(), how.words()),
            "Do that repair; if none is needed after all, say why with the look.",
        )
    }

    /// The lead in a cavity, or a sentence that says what is there.
    fn lead_or_say(&self, at: &Address) -> Result<&Lead, Refusal> {
        self.housings.check_cavity(at)?;
        match self.items.occupant(at) {
            Some(Occupant::Lead(lead)) => Ok(lead),
            Some(Occupant::Plug(_)) => {
                impossible(format!("{at} holds a plug."), "Take the plug out as a plug.")
            }
            Some(Occupant::Other(_)) => impossible(format!("{at} holds no wire."), "Move it as what it is."),
            None => {
                let moved = self.items.leads.iter().find(|l| l.id == ItemId::At(at.clone()));
                let say = match moved {
                    Some(lead) => {
                        format!("{at} is bare: {} is {}.", lead.call(), place_words(&lead.place))
                    }
                    None => format!("{at} is bare."),
                };
                impossible(say, "If a wire is there, say what you see.")
            }
        }
    }

    pub(super) fn check_extract(&self, from: &Address, colour: Option<&Colour>, target: &Target) -> Checked {
        self.items.check_empty_hand()?;
        let lead = self.lead_or_say(from)?;
        let side = self.housings.check_cavity(from)?;
        let mut rules = if side == JobSide::Old { self.check_leaves(target)? } else { Rules::default() };
        if side == JobSide::Old {
            self.check_seen_colour(lead, colour)?;
            self.check_pull_to_seat(lead, from)?;
            if self.records.look_alike_leads().contains(&lead.id) && lead.tag.is_none() {
                let say = format!("{} looks like another wire here and has no tag.", lead.call());
                rules.add(Code::LookAlike, say, "Tie a tag to it before it leaves its hole.");
            }
        }
        self.check_lock_open(from, &mut rules);
        Ok(rules)
    }

    /// A colour that differs is settled before the wire leaves its hole; where it is asked, it
    /// must be keyed.
    fn check_seen_colour(&self, lead: &Lead, colour: Option<&Colour>) -> Result<(), Refusal> {
        let asked = colour.is_none() && self.colours_asked().contains(&lead.id);
        if asked {
            return impossible(
                format!("What colour is the wire in {}?", lead.id),
                "Key the colour you see, not the one on the list.",
            );
        }
        let Some(colour) = colour else { return Ok(()) };
        let known: Vec<&Colour> = lead.seen.wires.iter().filter_map(|w| w.colour.known()).collect();
        if known.is_empty() || known.contains(&colour) {
            return Ok(());
        }
        impossible(
            format!("You see {colour}, and that is not the colour on record for {}.", lead.id),
            "Look at the hole again; if the record is wrong, correct it first.",
        )
    }

    fn check_pull_to_seat(&self, lead: &Lead, from: &Address) -> Result<(), Refusal> {
        let Some(housing) = self.housings.housing(&from.housing) else { return Ok(()) };
        let family = housing.definition.family();
        let size = self.housings.cavity_size(from);
        let part = lead.terminal();
        let mut fitting = family.terminals.iter().filter(|t| match part {
            Some(part) => t.part == *part,
            None => Some(&t.size) == size.as_ref(),
        });
        let pulled = fitting.clone().next().is_some() && fitting.all(|t| t.seating == Seating::Pull);
        if pulled {
            return impossible(
                format!("The terminal in {from} is pull-to-seat: its lead cannot be moved whole."),
                "Cut it free behind the housing and plan a repair lead.",
            );
        }
        Ok(())
    }

    /// Terminals move only while the lock of their housing is open.
    pub(super) fn check_lock_open(&self, at: &Address, rules: &mut Rules) {
        let Some(housing) = self.housings.housing(&at.housing) else { return };
        if !self.housings.lock_is_open(housing) {
            let kind = housing.housing().lock.as_ref().map_or("lock", |l| l.kind.as_str());
            let say =
                format!("The secondary lock ({kind}) of {} is {}.", housing.name, lock_words(housing.lock));
            rules.add(Code::LockNotReleased, say, "Release it first; a terminal forced past it is damaged.");
        }
    }

    pub(super) fn check_cut(&self, from: &Address, circuit: &str, target: &Target) -> Checked {
        self.items.check_empty_hand()?;
        let lead = self.lead_or_say(from)?;
        if let Some(kind) = self.forbidden_kind(lead) {
            return super::barred(
                Code::SpliceForbidden,
                format!("{} is a {}: it is not cut and spliced.", lead.call(), kind.words()),
                "Stop, and ask for the document of this machine.",
            );
        }
        let keyed = circuit.trim();
        let matches = |w: &crate::record::Wire| {
            let same = |t: &Option<String>| t.as_deref().is_some_and(|t| t.eq_ignore_ascii_case(keyed));
            same(&w.number) || same(&w.circuit)
        };
        if !lead.seen.wires.iter().any(matches) && from.label.as_str() != keyed {
            return impossible(
                format!(
                    "\"{}\" is not what is written on the wire of {from}.",
                    crate::quantity::quoted(keyed)
                ),
                "Before a cut, read the wire you are about to cut, and key what is written on it.",
            );
        }
        self.check_leaves(target)
    }

    pub(super) fn check_loose(&self, leads: &[(Address, Tag)]) -> Checked {
        for (n, (from, tag)) in leads.iter().enumerate() {
            self.lead_or_say(from)?;
            check_tag(tag)?;
            let twice = leads.iter().take(n).any(|(_, other)| other == tag);
            if twice || self.items.parked().any(|(t, _)| t == tag) {
                return impossible(format!("Tag {tag} is used already."), "Give each lead its own tag.");
            }
        }
        match leads.is_empty() {
            true => impossible("No lead is named.", "Name each lead that fell out, with its tag."),
            false => Ok(Rules::default()),
        }
    }

    pub(super) fn check_insert(&self, into: &Address, target: &Target) -> Checked {
        let lead = match self.items.in_hand() {
            Some(InHand::Lead(lead)) => lead,
            Some(_) => return impossible("What is in the hand is not a wire.", "Fit it as what it is."),
            None => return impossible("There is nothing in the hand.", "Take a wire out first."),
        };
        if self.housings.check_cavity(into)? == JobSide::Old {
            return impossible(
                format!("{into} is on the old side."),
                "Put it back where it came from, or into the new housing.",
            );
        }
        // The way out of a wrong hole is never to empty it first.
        if let Some(Destination::To(at)) = target.leads.get(&lead.id)
            && at != into
            && self.items.occupant(into).is_some()
        {
            let say = self.housings.goes_elsewhere(target, lead, at, into);
            return impossible(format!("{say} {into} is taken."), format!("Put it into {}.", at.label));
        }
        self.check_free(into)?;
        if lead.cut {
            return impossible(
                format!("{} has no terminal.", lead.call()),
                "Park it until its repair is done.",
            );
        }
        match lead.inspected {
            None => {
                return impossible(
                    format!("Nobody looked at the terminal of {}.", lead.call()),
                    "Look at it: good, or which repair?",
                );
            }
            Some(Some(_)) => {
                return impossible(
                    format!("{} needs a repair first.", lead.call()),
                    "Do the repair, park it until then, or look at it again.",
                );
            }
            Some(None) => {}
        }
        let mut rules = self.check_start(target)?;
        if target.of(&lead.id) != Some(into) {
            let (goes, instead) = match target.leads.get(&lead.id) {
                Some(Destination::To(at)) => (
                    self.housings.goes_elsewhere(target, lead, at, into),
                    format!("Put it into {}.", at.label),
                ),
                Some(Destination::Out) => (
                    format!("By the decision {} has no place in the new housing.", lead.call()),
                    "Take it out for good under a document, or tie it back and park it.".to_owned(),
                ),
                Some(
                    Destination::Blocked(_)
                    | Destination::None
                    | Destination::JoinedTo(_)
                    | Destination::Unmapped(_)
                    | Destination::Unknown,
                )
                | None => (
                    format!("Nobody said where {} belongs.", lead.call()),
                    "Find out before it goes in.".to_owned(),
                ),
            };
            rules.add(
                Code::WrongCavity,
                goes,
                format!("{instead} If it does sit in {into}, say so: it must come out."),
            );
        }
        self.check_lock_open(into, &mut rules);
        self.items.check_clear(into, &mut rules);
        if lead.seal == Seal::Missing && self.housings.is_individually_sealed(into) {
            rules.add(Code::SealMissing, format!("{} has no seal.", lead.call()), "Put a new seal on first.");
        }
        let by_decision = self.undone_by_decision(lead, target);
        for objection in self.misfits(lead, into).into_iter().chain(by_decision) {
            rules.push(objection);
        }
        if let Some(objection) = self.items.parted(lead) {
            rules.push(objection);
        }
        if let Some(other) = self.items.leads.iter().find(|other| self.waits_to_join(other, lead)) {
            let say = format!("{} is to be joined with {} first.", other.call(), lead.call());
            rules.add(Code::MapClash, say, "Park it, take the other one out, and join both.");
        }
        Ok(rules)
    }

    /// Pushed once more where it sits: for a lead that did not click.
    pub(super) fn check_again(&self, into: &Address) -> Checked {
        self.housings.check_cavity(into)?;
        match self.items.lead_at(into) {
            Some(lead) if lead.seat == Seat::NoClick => Ok(Rules::default()),
            Some(lead) => impossible(
                format!("{} in {into} did click, by what was said.", lead.call()),
                "Tug it; if it does not hold, say so.",
            ),
            None => impossible(format!("There is no lead in {into}."), "Key the hole you pushed at."),
        }
    }

    /// A new cavity that nothing sits in and that is not moulded shut, or the act cannot be.
    pub(super) fn check_free(&self, into: &Address) -> Result<(), Refusal> {
        if self.housings.cavity(into).map(|c| c.delivered) == Some(crate::catalogue::Delivered::Blocked) {
            return impossible(format!("{into} is moulded shut."), "Read the label again.");
        }
        match self.items.occupant(into) {
            None => Ok(()),
            Some(Occupant::Lead(other)) => impossible(
                format!("{into} is taken: {} is in it.", other.call()),
                "Read the label again; if it is bare, say where that wire is seen.",
            ),
            Some(Occupant::Plug(_)) => {
                impossible(format!("{into} is taken: a plug is in it."), "Take the plug out first.")
            }
            Some(Occupant::Other(_)) => impossible(format!("{into} is taken."), "Read the label again."),
        }
    }

    pub(super) fn check_put_back(&self) -> Checked {
        let (from, cut) = match self.items.in_hand() {
            Some(InHand::Lead(lead)) => (lead.came_from.as_ref(), lead.cut),
            Some(InHand::Plug(plug)) => (plug.came_from.as_ref(), false),
            Some(InHand::Other(_)) => (None, false),
            None => return impossible("There is nothing in the hand.", "Nothing to put back."),
        };
        if cut {
            return impossible("It was cut free and cannot go back.", "Park it with a tag.");
        }
        let Some(from) = from else {
            return impossible(
                "Nobody knows the hole it came from.",
                "Tag and park it, or put it where it belongs.",
            );
        };
        match self.items.occupant(from) {
            None => Ok(Rules::default()),
            Some(_) => impossible(format!("{from} is taken."), "Tag and park it."),
        }
    }

    pub(super) fn check_park(&self, tag: &Tag) -> Checked {
        check_tag(tag)?;
        match self.items.in_hand() {
            None => impossible("There is nothing in the hand.", "Nothing to park."),
            Some(InHand::Plug(_)) => Ok(Rules::default()),
            Some(held) => {
                let own = matches!(held, InHand::Lead(lead) if lead.tag.as_ref() == Some(tag));
                let used = self.items.parked().any(|(t, _)| t == tag)
                    || self.items.leads.iter().any(|l| l.tag.as_ref() == Some(tag));
                match used && !own {
                    true => impossible(format!("Tag {tag} is used already."), "Give it its own tag."),
                    false => Ok(Rules::default()),
                }
            }
        }
    }
}

/// A place in words.
pub(super) fn place_words(place: &Place) -> String {
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

fn lock_words(lock: Option<LockState>) -> &'static str {
    lock.map_or("not there", LockState::words)
}

impl LockState {
    /// The state in words.
    pub fn words(self) -> &'static str {
        match self {
            Self::FullSet => "full-set",
            Self::PreSet => "pre-set",
            Self::Out => "out",
            Self::Broken => "broken",
        }
    }
}

impl Housings {
    /// That a lead goes elsewhere, and why where the labels alone would mislead.
    fn goes_elsewhere(&self, target: &Target, lead: &Lead, to: &Address, into: &Address) -> String {
        let why = target.decided.get(&lead.id).and_then(|from| self.why_labels_differ(from, to));
        let why = why.map_or(String::new(), |why| format!(": {why}"));
        format!("{} goes to {to}, not to {into}{why}.", lead.call())
    }

    fn is_individually_sealed(&self, at: &Address) -> bool {
        self.housing(&at.housing)
            .is_some_and(|h| h.housing().sealing == crate::catalogue::Sealing::Individual)
    }
}

impl Items {
    /// A hole in which something stayed is looked into before it is filled.
    pub(super) fn check_clear(&self, into: &Address, rules: &mut Rules) {
        if self.left_behind.contains(into) {
            let say = format!("A seal or a terminal stayed in {into}.");
            rules.add(Code::NotLookedOver, say, "Take it out, look into the hole, and say that it is clear.");
        }
    }
}
