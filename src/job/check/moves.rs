//! Checks of what is done to leads.

use crate::{
    catalogue::{LockState, Seating},
    colour::Colour,
    job::{
        Act, Housings, InHand, Inspected, ItemId, Items, JobSide, Lead, Occupant, Refusal, Seat, Tag,
        refusal::{
            AsideBarrier, Elsewhere, LookBarrier, MoveRule, PlaceBarrier, PutInBarrier, TakeOutBarrier,
        },
        state::State,
        target::{Destination, Target},
    },
    record::{Address, Seal},
};

use super::{
    rules::{Checked, Rules, barred, impossible},
    setup::check_tag,
};

impl State {
    pub(super) fn check_inspect(&self, verdict: &Inspected, look: &Act) -> Checked {
        match (self.items.lead_in_hand(), verdict) {
            (None, _) => impossible(LookBarrier::NoLeadInHand),
            (Some(lead), Inspected::Good) => self.check_good(lead, look),
            (Some(_), Inspected::Needs(_)) => Ok(Rules::default()),
        }
    }

    pub(super) fn check_tug(&self, at: &Address, held: bool) -> Checked {
        match self.items.lead_at(at) {
            None => impossible(LookBarrier::NothingToTug(at.clone())),
            Some(_) if self.housings.side_of(at) == Some(JobSide::Old) => {
                impossible(LookBarrier::TugInOld(at.clone()))
            }
            Some(_) if !held => self.items.check_empty_hand().map(|()| Rules::default()),
            Some(lead) if lead.seat == Seat::NoClick => {
                impossible(LookBarrier::DidNotClick(lead.call(), at.clone()))
            }
            Some(_) => Ok(Rules::default()),
        }
    }

    pub(super) fn check_take_up(&self, tag: &Tag) -> Checked {
        self.items.check_empty_hand()?;
        match self.items.parked().any(|(t, _)| t == tag) {
            true => Ok(Rules::default()),
            false => impossible(AsideBarrier::NothingParked(tag.clone())),
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
                rules.add(objection);
            }
            return Ok(rules);
        };
        impossible(LookBarrier::WaitsForRepair { lead: lead.call(), how, why: lead.planned_why.clone() })
    }

    /// The lead in a cavity, or what is there.
    fn lead_or_say(&self, at: &Address) -> Result<&Lead, Refusal> {
        self.housings.check_cavity(at)?;
        match self.items.occupant(at) {
            Some(Occupant::Lead(lead)) => Ok(lead),
            Some(Occupant::Plug(_)) => impossible(TakeOutBarrier::IsPlug(at.clone())),
            Some(Occupant::Other(_)) => impossible(TakeOutBarrier::IsOther(at.clone())),
            None => {
                let moved = self.items.leads.iter().find(|l| l.id == ItemId::At(at.clone()));
                match moved {
                    Some(lead) => {
                        let (lead, place) = (lead.call(), lead.place.clone());
                        impossible(TakeOutBarrier::LeftBare { at: at.clone(), lead, place })
                    }
                    None => impossible(TakeOutBarrier::Bare(at.clone())),
                }
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
                rules.add(MoveRule::LooksAlike(lead.call()));
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
            return impossible(TakeOutBarrier::ColourAsked(lead.id.clone()));
        }
        let Some(colour) = colour else { return Ok(()) };
        let known: Vec<&Colour> = lead.seen.wires.iter().filter_map(|w| w.colour.known()).collect();
        if known.is_empty() || known.contains(&colour) {
            return Ok(());
        }
        impossible(TakeOutBarrier::OtherColour(lead.id.clone(), colour.clone()))
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
            return impossible(TakeOutBarrier::PullToSeat(from.clone()));
        }
        Ok(())
    }

    /// Terminals move only while the lock of their housing is open.
    pub(super) fn check_lock_open(&self, at: &Address, rules: &mut Rules) {
        let Some(housing) = self.housings.housing(&at.housing) else { return };
        if !self.housings.lock_is_open(housing) {
            let kind = housing.housing().lock.as_ref().map(|lock| lock.kind.clone());
            rules.add(MoveRule::LockShut { housing: housing.name.clone(), kind, lock: housing.lock });
        }
    }

    pub(super) fn check_cut(&self, from: &Address, circuit: &str, target: &Target) -> Checked {
        self.items.check_empty_hand()?;
        let lead = self.lead_or_say(from)?;
        if let Some(kind) = self.forbidden_kind(lead) {
            return barred(MoveRule::NotCut(lead.call(), kind));
        }
        let keyed = circuit.trim();
        let matches = |w: &crate::record::Wire| {
            let same = |t: &Option<String>| t.as_deref().is_some_and(|t| t.eq_ignore_ascii_case(keyed));
            same(&w.number) || same(&w.circuit)
        };
        if !lead.seen.wires.iter().any(matches) && from.label.as_str() != keyed {
            return impossible(TakeOutBarrier::NotOnWire(from.clone(), keyed.to_owned()));
        }
        self.check_leaves(target)
    }

    pub(super) fn check_loose(&self, leads: &[(Address, Tag)]) -> Checked {
        for (n, (from, tag)) in leads.iter().enumerate() {
            self.lead_or_say(from)?;
            check_tag(tag)?;
            let twice = leads.iter().take(n).any(|(_, other)| other == tag);
            if twice || self.items.parked().any(|(t, _)| t == tag) {
                return impossible(AsideBarrier::TagUsedForLead(tag.clone()));
            }
        }
        match leads.is_empty() {
            true => impossible(TakeOutBarrier::NoLeadNamed),
            false => Ok(Rules::default()),
        }
    }

    pub(super) fn check_insert(&self, into: &Address, target: &Target) -> Checked {
        let lead = match self.items.in_hand() {
            Some(InHand::Lead(lead)) => lead,
            Some(_) => return impossible(PutInBarrier::NotAWire),
            None => return impossible(PutInBarrier::NothingInHand),
        };
        if self.housings.check_cavity(into)? == JobSide::Old {
            return impossible(PutInBarrier::IntoOld(into.clone()));
        }
        // The way out of a wrong hole is never to empty it first.
        if let Some(Destination::To(at)) = target.leads.get(&lead.id)
            && at != into
            && self.items.occupant(into).is_some()
        {
            return impossible(PutInBarrier::TakenElsewhere(
                self.housings.goes_elsewhere(target, lead, at, into),
            ));
        }
        self.check_free(into)?;
        if lead.cut {
            return impossible(PutInBarrier::NoTerminal(lead.call()));
        }
        match lead.inspected {
            None => return impossible(PutInBarrier::NotLookedAt(lead.call())),
            Some(Some(_)) => return impossible(PutInBarrier::NeedsRepair(lead.call())),
            Some(None) => {}
        }
        let mut rules = self.check_start(target)?;
        if target.of(&lead.id) != Some(into) {
            rules.add(self.wrong_cavity(lead, into, target));
        }
        self.check_lock_open(into, &mut rules);
        self.items.check_clear(into, &mut rules);
        if lead.seal == Seal::Missing && self.housings.is_individually_sealed(into) {
            rules.add(MoveRule::NoSeal(lead.call()));
        }
        let by_decision = self.undone_by_decision(lead, target);
        for objection in self.misfits(lead, into).into_iter().chain(by_decision) {
            rules.add(objection);
        }
        if let Some(objection) = self.items.parted(lead) {
            rules.add(objection);
        }
        if let Some(other) = self.items.leads.iter().find(|other| self.waits_to_join(other, lead)) {
            rules.add(MoveRule::ToBeJoined { other: other.call(), lead: lead.call() });
        }
        Ok(rules)
    }

    /// That a lead does not belong in a cavity.
    fn wrong_cavity(&self, lead: &Lead, into: &Address, target: &Target) -> MoveRule {
        match target.leads.get(&lead.id) {
            Some(Destination::To(at)) => {
                MoveRule::Elsewhere(self.housings.goes_elsewhere(target, lead, at, into))
            }
            Some(Destination::Out) => MoveRule::HasNoPlace(lead.call(), into.clone()),
            Some(
                Destination::Blocked(_)
                | Destination::None
                | Destination::JoinedTo(_)
                | Destination::Unmapped(_)
                | Destination::Unknown,
            )
            | None => MoveRule::Unplaced(lead.call(), into.clone()),
        }
    }

    /// Pushed once more where it sits: for a lead that did not click.
    pub(super) fn check_again(&self, into: &Address) -> Checked {
        self.housings.check_cavity(into)?;
        match self.items.lead_at(into) {
            Some(lead) if lead.seat == Seat::NoClick => Ok(Rules::default()),
            Some(lead) => impossible(LookBarrier::DidClick(lead.call(), into.clone())),
            None => impossible(LookBarrier::NothingToPush(into.clone())),
        }
    }

    /// A new cavity that nothing sits in and that is not moulded shut, or the act cannot be.
    pub(super) fn check_free(&self, into: &Address) -> Result<(), Refusal> {
        if self.housings.cavity(into).map(|c| c.delivered) == Some(crate::catalogue::Delivered::Blocked) {
            return impossible(PlaceBarrier::Shut(into.clone()));
        }
        match self.items.occupant(into) {
            None => Ok(()),
            Some(Occupant::Lead(other)) => impossible(PlaceBarrier::TakenByLead(into.clone(), other.call())),
            Some(Occupant::Plug(_)) => impossible(PlaceBarrier::TakenByPlug(into.clone())),
            Some(Occupant::Other(_)) => impossible(PlaceBarrier::Taken(into.clone())),
        }
    }

    pub(super) fn check_put_back(&self) -> Checked {
        let (from, cut) = match self.items.in_hand() {
            Some(InHand::Lead(lead)) => (lead.came_from.as_ref(), lead.cut),
            Some(InHand::Plug(plug)) => (plug.came_from.as_ref(), false),
            Some(InHand::Other(_)) => (None, false),
            None => return impossible(AsideBarrier::NothingToPutBack),
        };
        if cut {
            return impossible(AsideBarrier::WasCut);
        }
        let Some(from) = from else {
            return impossible(AsideBarrier::OriginUnknown);
        };
        match self.items.occupant(from) {
            None => Ok(Rules::default()),
            Some(_) => impossible(AsideBarrier::HoleTaken(from.clone())),
        }
    }

    pub(super) fn check_park(&self, tag: &Tag) -> Checked {
        check_tag(tag)?;
        match self.items.in_hand() {
            None => impossible(AsideBarrier::NothingToPark),
            Some(InHand::Plug(_)) => Ok(Rules::default()),
            Some(held) => {
                let own = matches!(held, InHand::Lead(lead) if lead.tag.as_ref() == Some(tag));
                let used = self.items.parked().any(|(t, _)| t == tag)
                    || self.items.leads.iter().any(|l| l.tag.as_ref() == Some(tag));
                match used && !own {
                    true => impossible(AsideBarrier::TagUsed(tag.clone())),
                    false => Ok(Rules::default()),
                }
            }
        }
    }
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
    fn goes_elsewhere(&self, target: &Target, lead: &Lead, to: &Address, into: &Address) -> Elsewhere {
        let why = target.decided.get(&lead.id).and_then(|from| self.why_labels_differ(from, to));
        Elsewhere { lead: lead.call(), to: to.clone(), into: into.clone(), why }
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
            rules.add(MoveRule::LeftBehind(into.clone()));
        }
    }
}
