//! Keep, re-form, replace the terminal, splice in a lead, or stop: the decision table. It proposes;
//! the technician may decide otherwise, with a reason.

use crate::{
    catalogue::{Gender, Sealing},
    record::WireKind,
};

/// Makes the findings and their words from one table.
macro_rules! findings {
    ($($name:ident $words:literal,)*) => {
        /// What is found on the lead in the hand.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Finding { $(#[doc = $words] $name,)* }

        impl Finding {
            /// Every finding, in the order it is asked.
            pub const ALL: &[Finding] = &[$(Finding::$name,)*];

            /// What is found, in words.
            pub fn words(self) -> &'static str {
                match self { $(Finding::$name => $words,)* }
            }
        }
    };
}

findings! {
    TangFlat "tang flat, metal sound",
    FemaleLoose "female loose in the drag test",
    MaleBent "male bent or twisted",
    Corroded "green or white corrosion",
    Burnt "black or blue from heat, plating gone, plastic stuck",
    CrimpBad "conductor crimp: strands out, or pulled by force",
    GripBad "insulation grip does not hold",
    SealBad "seal cut, rolled, swollen or of the wrong bore",
    InsulationOutside "insulation damaged behind the housing",
    InsulationUnderSeal "insulation nicked under the seal lip",
    TooShort "wire too short: a new terminal would pull",
    Doubled "two wires in one sealed hole",
    DrainBare "no sleeve on the drain wire",
}

/// What else the table looks at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InHandLead {
    /// A kind of wire in it that may not be spliced.
    pub forbidden: Option<WireKind>,
    /// How many wires share the terminal.
    pub wires: usize,
    /// Whether the housing keeps water out.
    pub sealed: bool,
    /// Whether its terminal is pulled in by the wire.
    pub pull_to_seat: bool,
    /// How often its tang was re-formed.
    pub reformed: usize,
    /// Slack left, and what one more terminal takes; none where it was not keyed.
    pub slack_mm: Option<(f64, f64)>,
    /// Whether the shop has a tool position that is qualified for its terminal and wire.
    pub tool_qualified: bool,
}

/// What the table proposes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Advice {
    /// Bend the tang back to its height.
    Reform(&'static str),
    /// Crimp a new terminal on here.
    NewTerminal(&'static str),
    /// A new seal.
    NewSeal(&'static str),
    /// Splice in a lead.
    RepairLead(&'static str),
    /// A sleeve over the place.
    Sleeve(&'static str),
    /// Stop: find the document of this machine.
    Stop(&'static str),
}

impl Advice {
    /// Why.
    pub fn why(self) -> &'static str {
        match self {
            Self::Reform(why)
            | Self::NewTerminal(why)
            | Self::NewSeal(why)
            | Self::RepairLead(why)
            | Self::Sleeve(why)
            | Self::Stop(why) => why,
        }
    }

    /// What has to be there first.
    pub fn first(self, lead: &InHandLead) -> &'static str {
        match self {
            Self::NewTerminal(_) if !lead.tool_qualified => {
                "No tool position is qualified for this terminal and wire: qualify one on samples first, or order a lead with the terminal fitted."
            }
            _ => "",
        }
    }
}

/// What to do about a finding.
pub fn advise(finding: Finding, lead: &InHandLead) -> Advice {
    if lead.forbidden.is_some() {
        return Advice::Stop("on this kind of wire nothing is repaired without the machine's own document");
    }
    match finding {
        Finding::TangFlat if lead.reformed == 0 => {
            Advice::Reform("once; it must click and hold a tug afterwards")
        }
        Finding::TangFlat => new_terminal(lead, "the tang was re-formed once already"),
        Finding::FemaleLoose => new_terminal(lead, "a loose female is replaced, never pinched"),
        Finding::MaleBent => {
            new_terminal(lead, "straightening is for large soft pins under a document; look at its mate, too")
        }
        Finding::Corroded => new_terminal(
            lead,
            "look 50 mm up the wire: cut back to bright copper; find where the water came in",
        ),
        Finding::Burnt => {
            Advice::RepairLead("terminal and wire go, back to flexible insulation; find the cause")
        }
        Finding::CrimpBad => new_terminal(lead, "a crimp is never pressed again"),
        Finding::GripBad => new_terminal(lead, "the grip is part of the terminal"),
        Finding::SealBad => Advice::NewSeal("by the insulation's outside diameter, never by gauge"),
        Finding::InsulationOutside if lead.sealed => {
            Advice::RepairLead("nothing but whole insulation may pass under a seal lip")
        }
        Finding::InsulationOutside => {
            Advice::Sleeve("in a dry place, where no copper is seen; else a repair lead, by decision")
        }
        Finding::InsulationUnderSeal => match can_cut_back(lead) {
            true => new_terminal(lead, "the wire is long enough to cut the nick off"),
            false => {
                Advice::RepairLead("the nick sits under the seal lip and there is no slack to cut it off")
            }
        },
        Finding::TooShort => Advice::RepairLead("a wire under tension pulls its terminal back"),
        Finding::DrainBare => {
            Advice::Sleeve("from the braid to the terminal: a bare drain touches its neighbours")
        }
        Finding::Doubled => Advice::RepairLead(
            "join the two behind the seal and run one lead of their summed area, or the next larger",
        ),
    }
}

impl Finding {
    /// Whether it can be found on a terminal of this gender, in a housing sealed so, with these wires.
    pub fn can_be_on(self, gender: Gender, sealing: &Sealing, wires: &[WireKind]) -> bool {
        match self {
            Self::FemaleLoose => gender == Gender::Female,
            Self::MaleBent => gender == Gender::Male,
            Self::SealBad => *sealing == Sealing::Individual,
            Self::InsulationUnderSeal => sealing.is_sealed(),
            Self::Doubled => sealing.is_sealed() && wires.len() > 1,
            Self::DrainBare => wires.contains(&WireKind::Drain),
            Self::TangFlat
            | Self::Corroded
            | Self::Burnt
            | Self::CrimpBad
            | Self::GripBad
            | Self::InsulationOutside
            | Self::TooShort => true,
        }
    }
}

fn can_cut_back(lead: &InHandLead) -> bool {
    lead.slack_mm.is_some_and(|(left, takes)| left >= takes)
}

/// A new terminal, where one can be crimped here.
fn new_terminal(lead: &InHandLead, why: &'static str) -> Advice {
    if lead.pull_to_seat {
        return Advice::RepairLead(
            "pulled in by its wire: the new lead goes through the housing before it is joined",
        );
    }
    if lead.slack_mm.is_some() && !can_cut_back(lead) {
        return Advice::RepairLead("the slack keyed at intake is used up");
    }
    if lead.wires > 1 {
        return Advice::RepairLead(
            "a double crimp is made only where the terminal's sheet lists that pair: join them behind the seal, run one lead",
        );
    }
    Advice::NewTerminal(why)
}
