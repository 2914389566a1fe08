//! What is said against what is ordered, and against leads that are made new or joined.

use crate::{
    job::refusal::{JoinBarrier, NotPlannable, OrderBarrier, OrderRule},
    report::Words,
};

/// Why a repair may not be planned on a lead.
pub(in crate::report) fn not_plannable(why: &NotPlannable) -> Words {
    match why {
        NotPlannable::Barrier(barrier) => order(barrier),
        NotPlannable::Rule(against) => rule(against),
    }
}

pub(super) fn order(barrier: &OrderBarrier) -> Words {
    let measure = "Measure it again.";
    match barrier {
        OrderBarrier::TooShort(length) => {
            Words::new(format!("A sleeve or a lay of {length} cannot be."), "Measure it, from 1 mm up.")
        }
        OrderBarrier::Stripped(length, longest_mm) => Words::new(
            format!("No splice takes an end stripped {}.", length.both()),
            format!("Key 1 to {longest_mm} mm, as the splice's sheet says."),
        ),
        OrderBarrier::ThinnerThanCopper { copper_mm, diameter } => Words::new(
            format!("The copper alone is {copper_mm:.1} mm thick, the wire cannot be {}.", diameter.both()),
            measure,
        ),
        OrderBarrier::SleeveTooNarrow { sleeve, diameter } => Words::new(
            format!("A sleeve of {} does not go over a wire of {}.", sleeve.both(), diameter.both()),
            measure,
        ),
        OrderBarrier::Lay { diameter, lay } => Words::new(
            format!("A wire of {} is not twisted with a lay of {}.", diameter.both(), lay.both()),
            "Measure ten turns and divide.",
        ),
        OrderBarrier::TooMuchCurrent(gauge, current_a) => Words::new(
            format!("{} does not carry {current_a} A.", gauge.both()),
            "Key the current in A, as the diagram or the fuse has it.",
        ),
        OrderBarrier::NoSuchLoad => Words::new(
            "No circuit carries that.",
            "Key 0 to 10000 A, 0.1 V or more, up to 10 km, -60 to 300 °C.",
        ),
        OrderBarrier::BeyondWithoutReason => {
            Words::new("Beyond a branch only with a reason.", "Say why splices may lie there.")
        }
        OrderBarrier::EndsBeforeStart(from, to) => Words::new(
            format!("The stretch from {from} to {to} ends before it starts."),
            "Key it from the rear face outwards.",
        ),
    }
}

pub(super) fn rule(rule: &OrderRule) -> Words {
    match rule {
        OrderRule::Forbidden { lead, kind, how } => Words::new(
            format!("{lead} is a {}: {} is not planned on it.", kind.words(), how.words()),
            "Stop, and ask for the document of this machine.",
        ),
        OrderRule::LessCopper { new, lead, old_mm2, percent } => Words::new(
            format!(
                "{} has {:.2} mm² less copper than {lead} ({percent:.1} %): refused.",
                new.both(),
                old_mm2 - new.area_mm2()
            ),
            "Order the same area or more; the terminal and the seal have to take it.",
        ),
        OrderRule::LowerClass(lead) => Words::new(
            format!("The insulation ordered for {lead} is of a lower temperature class."),
            "Order the same class or a higher one; cross-linked may replace PVC, never the reverse.",
        ),
        OrderRule::NotJoined(lead, kind) => Words::new(
            format!("{lead} is a {}: it is not cut and joined.", kind.words()),
            "Stop, and ask for the document of this machine.",
        ),
        OrderRule::LessThanBoth { new, other, lead, both_mm2, percent } => Words::new(
            format!(
                "{} is less than the copper of {other} and {lead} together, {both_mm2:.2} mm² ({percent:.1} %): refused.",
                new.both()
            ),
            "Order the area of both or more; the terminal and the seal have to take it.",
        ),
    }
}

pub(super) fn join(barrier: &JoinBarrier) -> Words {
    match barrier {
        JoinBarrier::OnlyNewLead(id) => Words::new(
            format!("The wire of {id} is found nowhere: only a new lead can be planned for it."),
            "Plan a repair lead, and say where it is joined.",
        ),
        JoinBarrier::WithWhich(lead) => Words::new(
            format!("With which other lead is {lead} to be joined?"),
            "Name it by the cavity it was recorded in.",
        ),
        JoinBarrier::NotRecorded => Words::new(
            "Only leads that were recorded can be joined.",
            "Correct the record of the cavity it came from first.",
        ),
        JoinBarrier::NotToOne(from, there) => Words::new(
            format!("{from} and {there} are not mapped to one new cavity."),
            "Map both to it, under the document that says so.",
        ),
        JoinBarrier::NoDocument(lead, other) => Words::new(
            format!("{lead} and {other} are joined only under a document."),
            "Map one of them again and name it.",
        ),
        JoinBarrier::JoinedAlready(other) => {
            Words::new(format!("{other} is joined or to be joined already."), "One lead takes one other.")
        }
    }
}
