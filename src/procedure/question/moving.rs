//! What is asked while things are on their way: wires, plugs, the lead in the hand.

use crate::{
    job::{ItemId, OtherKind, Tag},
    reckoning::Finding,
    record::Address,
};

/// What is asked while a wire is on its way.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum MoveQuestion {
    /// What colour is the lead in this cavity, before it is pulled?
    ColourAt {
        /// Where it sits.
        at: Address,
        /// The lead.
        lead: ItemId,
    },
    /// Is this lead out?
    Extract {
        /// Where it sits.
        at: Address,
        /// The lead.
        lead: ItemId,
        /// Whether a seal of its own comes with it.
        has_seal: bool,
    },
    /// How did it come: freely or by force?
    HowItCame(Address),
    /// Did its seal come with it?
    SealCame(Address),
    /// Into which cavity is the lead in the hand pushed?
    LabelFor(ItemId),
    /// Is this lead in, and did it click?
    Clicked {
        /// Where it goes; the label was read and keyed.
        into: Address,
        /// The lead; none where a rule is passed by name.
        lead: Option<ItemId>,
    },
    /// Did this lead hold when it was tugged?
    TugHeld {
        /// Where it sits.
        at: Address,
        /// The lead.
        lead: ItemId,
    },
    /// It did not click: pushed again, or out?
    PushedAgain {
        /// Where it sits.
        at: Address,
        /// The lead.
        lead: ItemId,
    },
    /// Is it out of the new housing again?
    OutAgain {
        /// Where it sits.
        at: Address,
        /// The lead.
        lead: ItemId,
        /// Whether it is the wrong hole; else it did not click or hold.
        is_wrong_hole: bool,
    },
    /// Is this lead taken up from its tag?
    TakeUp {
        /// The lead.
        lead: ItemId,
        /// Its tag.
        tag: Tag,
    },
    /// Is this lead, which nobody sees, in the hand now?
    Found(ItemId),
}

/// What is asked while a plug or another part is on its way.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PlugQuestion {
    /// Is the plug of this cavity out?
    Out(Address),
    /// Into which cavity does the plug go: the one of this old cavity, or the one in the hand?
    LabelFor(Option<Address>),
    /// Is it in?
    In {
        /// Where it goes; the label was read and keyed.
        into: Address,
        /// The old cavity it was in, where it is on its way.
        from: Option<Address>,
    },
    /// What becomes of the plug in the hand?
    InHand {
        /// Whether a hole needs one.
        is_needed: bool,
    },
    /// Why is it scrapped?
    ScrapWhy,
    /// Into which cavity does a plug go that this one needs?
    LabelForNew(Address),
    /// Which spare terminal goes in before it?
    SparePart,
    /// Is the new plug in?
    NewIn(Address),
    /// Is what this cavity holds left in the old housing?
    OtherLeft(Address),
    /// Which part is the new one that this cavity lacks?
    NewOther {
        /// Where it goes.
        to: Address,
        /// What it is.
        kind: OtherKind,
    },
    /// Into which cavity does it go?
    LabelForNewOther,
    /// Into which cavity does what this one holds go?
    LabelForOther(Address),
    /// Is it in?
    OtherIn(Address),
}

/// What is asked about the lead in the hand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum InHandQuestion {
    /// Is it good, does it need a repair, or does it wait?
    Verdict(ItemId),
    /// What is found on it?
    Found(ItemId),
    /// Why is what was planned for it not needed?
    WhyGood(ItemId),
    /// With which test pin was it tried?
    TestPin(ItemId),
    /// How far does the damage reach?
    DamageReach(ItemId),
    /// Is it repaired as proposed?
    Proposed {
        /// The lead.
        lead: ItemId,
        /// What was found on it.
        found: Finding,
    },
    /// Which repair instead?
    WhichRepair(ItemId),
    /// Why not as proposed?
    WhyOtherwise,
    /// Nothing can be done with it here: put back, or parked?
    StopWith {
        /// The lead.
        lead: ItemId,
        /// What was found on it.
        found: Finding,
    },
}

/// What is asked about what follows from a decision.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ConsequenceQuestion {
    /// This lead is parked until the other one it is joined with is out.
    JoinWaits {
        /// The lead in the hand.
        lead: ItemId,
        /// The other one.
        with: ItemId,
    },
    /// This lead has no place: out for good, or tied back?
    NoPlace(ItemId),
    /// Under which document is it out for good?
    OutDocument,
    /// What is on the tag of what is tied back?
    TieBackTag,
    /// By which day is it put right?
    TieBackDay,
    /// Who answers for it?
    TieBackBy,
    /// These wires are cut out of the terminal of this lead: under which document?
    CutOut {
        /// The lead in the hand.
        lead: ItemId,
        /// Its wires by their place in it, from 1.
        slots: Vec<usize>,
    },
    /// Which lead is joined first?
    JoinFirst,
    /// With which other lead is this one joined?
    JoinOther(ItemId),
    /// Why are they joined, and under which document?
    JoinWhy,
}
