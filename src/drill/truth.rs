//! What is really there: what sits in which cavity, what is wrong with it, and where it went.

use std::collections::{BTreeMap, BTreeSet};

use crate::{
    catalogue::Delivered,
    procedure::JobView,
    reckoning::Finding,
    record::{Address, CavityContent, Wire},
};

/// The connector, the machine and the person before it, as they are.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Truth {
    /// What sits in the cavities of the old housings.
    pub holds: BTreeMap<Address, CavityContent>,
    /// What is wrong with the leads of these cavities, seen in the hand.
    pub hurt: BTreeMap<Address, Finding>,
    /// The leads of these cavities click only when they are pushed once more.
    pub stiff: BTreeSet<Address>,
    /// The serial number on the machine.
    pub serial: String,
    /// The name of who works and answers.
    pub name: String,
}

/// Something that was taken out or put in.
#[derive(Debug, Clone, PartialEq)]
pub struct Thing {
    /// The old cavity it came from; none where it is new.
    pub from: Option<Address>,
    /// What it is.
    pub is: CavityContent,
}

impl Thing {
    /// The colours of its first wire as they are written; none where it has no wire, or no known colour.
    pub fn colour(&self) -> Option<String> {
        first_wire(&self.is)?.colour.known().map(ToString::to_string)
    }
}

fn first_wire(content: &CavityContent) -> Option<&Wire> {
    content.lead()?.wires.first()
}

/// The connector while it is worked on: where everything is now.
#[derive(Debug, Clone)]
pub(super) struct Bench {
    /// What was taken out of or put into these cavities; the others hold what they held at first.
    moved: BTreeMap<Address, Option<Thing>>,
    /// What is in the hand.
    pub hand: Option<Thing>,
}

impl Bench {
    /// Nothing has moved.
    pub fn new() -> Self {
        Self { moved: BTreeMap::new(), hand: None }
    }

    /// What one sees in a cavity; nothing where it is bare.
    pub fn at(&self, truth: &Truth, view: &JobView<'_>, at: &Address) -> Option<Thing> {
        if let Some(now) = self.moved.get(at) {
            return now.clone();
        }
        if let Some(is) = truth.holds.get(at) {
            let is_bare = matches!(is, CavityContent::Open | CavityContent::Empty | CavityContent::Blocked);
            return (!is_bare).then(|| Thing { from: Some(at.clone()), is: is.clone() });
        }
        match view.state().housings.cavity(at)?.delivered {
            Delivered::Plugged => Some(Thing { from: None, is: CavityContent::Plugged }),
            Delivered::Bare | Delivered::Blocked | Delivered::Bridge => None,
        }
    }

    /// Takes what is in a cavity into the hand.
    pub fn takes(&mut self, truth: &Truth, view: &JobView<'_>, at: &Address) {
        self.hand = self.at(truth, view, at);
        self.moved.insert(at.clone(), None);
    }

    /// Puts what is in the hand into a cavity.
    pub fn puts(&mut self, into: &Address) {
        let thing = self.hand.take();
        self.moved.insert(into.clone(), thing);
    }

    /// Puts something else into a cavity.
    pub fn fits(&mut self, into: &Address, thing: Thing) {
        self.moved.insert(into.clone(), Some(thing));
    }
}
