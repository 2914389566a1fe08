//! What a repair lead has to be, asked in the order of the bench: wire, insulation, lengths, splice,
//! the other end.

use crate::{
    job::{Act, ItemId, Lay, Lead, LeadOrder, Load, OtherEnd, RepairKind, TwistAsked, Verdict, Wall},
    quantity::Length,
    record::InsulationClass,
};

use super::{Acts, Covered, JobView, Kind, OrderField, OrderQuestion, Replies, Stop, Typed, Wrong, jump};

/// A lead by its old label, then its order.
pub(super) fn by_label(
    view: &JobView<'_>,
    covered_now: &dyn Fn() -> Covered,
    replies: &mut Replies<'_>,
) -> Acts {
    let typed = replies.text(OrderQuestion::Which, Kind::Label)?;
    let at = jump::find(view, covered_now, typed)?;
    let lead = view.state().items.leads.iter().find(|lead| lead.id == ItemId::At(at.clone()));
    let lead = lead.ok_or_else(|| Stop::wrong(format!("No lead was recorded in {}.", typed.as_str())))?;
    order(view, lead, replies)
}

/// The order, question by question; ordered before, everything stays as it was said until it is keyed anew.
pub(super) fn order(view: &JobView<'_>, lead: &Lead, replies: &mut Replies<'_>) -> Acts {
    let order = lead.order.as_deref().cloned().unwrap_or_default();
    let mut ordering = Ordering { view, lead, order };
    ordering.wire(replies)?;
    ordering.lengths(replies)?;
    ordering.joint(replies)?;
    Ok(vec![planned(lead, &ordering.order)])
}

fn planned(lead: &Lead, order: &LeadOrder) -> Act {
    Act::Planned {
        wires: None,
        lead: lead.id.clone(),
        how: planned_lead(lead),
        reason: why(lead),
        part: lead.planned_part.clone().filter(|_| lead.planned.is_some_and(RepairKind::is_new_lead)),
        order: Some(Box::new(order.clone())),
        with: lead.joined_with.clone(),
    }
}

/// One lead for two where they are to be joined, else a repair lead.
fn planned_lead(lead: &Lead) -> RepairKind {
    match lead.planned {
        Some(RepairKind::Join) => RepairKind::Join,
        _ => RepairKind::RepairLead,
    }
}

/// Why a lead is ordered: as planned, else what was found at intake.
fn why(lead: &Lead) -> String {
    let found = lead.planned_why.as_ref().or(lead.seen.condition.as_ref());
    found.cloned().unwrap_or_else(|| "ordered at the bench".to_owned())
}

/// One lead and its order so far.
struct Ordering<'a> {
    view: &'a JobView<'a>,
    lead: &'a Lead,
    order: LeadOrder,
}

impl Ordering<'_> {
    /// The wire: size, colour, insulation.
    fn wire(&mut self, replies: &mut Replies<'_>) -> Result<(), Stop> {
        let size = self.typed(OrderField::Size, Kind::Size, replies)?;
        if !size.is_same() {
            self.order.gauge = Some(size.parse_or_wrong()?);
        }
        self.refuse()?;
        let colour = self.typed(OrderField::Colour, Kind::Colour, replies)?;
        if !colour.is_same() {
            self.order.colour = Some(colour.parse_or_wrong()?);
        }
        self.refuse()?;
        self.order.other_colour = Some(self.yes(OrderField::OtherColour, replies)?);
        let insulation = self.typed(OrderField::Insulation, Kind::Values, replies)?;
        if !(insulation.is_same() && self.order.strands.is_some()) {
            take_insulation(&mut self.order, insulation)?;
        }
        self.refuse()
    }

    /// How much of it is needed, and what covers the joint.
    fn lengths(&mut self, replies: &mut Replies<'_>) -> Result<(), Stop> {
        let damage = self.typed(OrderField::Damage, Kind::Length, replies)?;
        if !damage.is_same() {
            self.order.damage = Some(damage.parse_or_wrong()?);
        }
        self.refuse_less_than_on_record()?;
        self.refuse()?;
        let typed = self.typed(OrderField::Lengths, Kind::Values, replies)?;
        if !(typed.is_same() && self.order.inside.is_some()) {
            let [inside, slack, route] =
                these(typed, "Key three lengths: inside, slack, longer way.")?.map(Some);
            (self.order.inside, self.order.slack, self.order.route) = (inside, slack, route);
        }
        self.refuse()?;
        let typed = self.typed(OrderField::Sleeve, Kind::Values, replies)?;
        if !(typed.is_same() && self.order.sleeve.is_some()) {
            let [sleeve, diameter] =
                these(typed, "Key its length and its diameter over the wire: 45 7.")?.map(Some);
            (self.order.sleeve, self.order.sleeve_diameter) = (sleeve, diameter);
        }
        self.refuse()
    }

    /// What joins it, the other end, and what the circuit carries.
    fn joint(&mut self, replies: &mut Replies<'_>) -> Result<(), Stop> {
        let typed = self.typed(OrderField::Splice, Kind::Words, replies)?;
        if !(typed.is_same() && self.order.splice.is_some()) {
            self.order.splice = Some(splice(typed)?);
        }
        self.refuse()?;
        self.order.splice_included = Some(self.yes(OrderField::Included, replies)?);
        if self.lead.is_in_a_pair() {
            let typed = self.typed(OrderField::Twist, Kind::Values, replies)?;
            if !(typed.is_same() && self.order.twist.is_some()) {
                self.order.twist = Some(twist(typed)?);
            }
            self.refuse()?;
        }
        let typed = self.typed(OrderField::OtherEnd, Kind::Words, replies)?;
        if !(typed.is_same() && self.order.other_end.is_some()) {
            self.order.other_end = Some(other_end(typed)?);
        }
        self.refuse()?;
        self.order.crimp_record = Some(self.yes(OrderField::CrimpRecord, replies)?);
        self.order.spliced_before = self.yes(OrderField::Spliced, replies)?;
        self.refuse()?;
        let typed = self.typed(OrderField::Load, Kind::Values, replies)?;
        let stays = typed.is_same() && self.order.load.is_some();
        if let Some(typed) = typed.unless_dash().filter(|_| !stays) {
            self.order.load = Some(load(typed)?);
        }
        self.refuse()
    }

    fn ask(&self, field: OrderField) -> OrderQuestion {
        OrderQuestion::Field { lead: self.lead.id.clone(), field, so_far: Box::new(self.order.clone()) }
    }

    fn typed<'t>(&self, field: OrderField, kind: Kind, replies: &mut Replies<'t>) -> Result<Typed<'t>, Stop> {
        replies.text(self.ask(field), kind)
    }

    fn yes(&self, field: OrderField, replies: &mut Replies<'_>) -> Result<bool, Stop> {
        replies.yes(self.ask(field))
    }

    /// Too little copper or too low a class is said when it is keyed.
    fn refuse(&self) -> Result<(), Stop> {
        match self.view.preview(&planned(self.lead, &self.order)) {
            Verdict::Impossible(refusal) => Err(Stop::Wrong(Wrong::Refused(vec![refusal]))),
            Verdict::Allowed | Verdict::Against(_) => Ok(()),
        }
    }

    /// Damage that is keyed as less than was recorded: one of the two is wrong.
    fn refuse_less_than_on_record(&self) -> Result<(), Stop> {
        let known = self.lead.damages().max_by(|a, b| a.mm().total_cmp(&b.mm()));
        match self.order.damage.as_ref().zip(known) {
            Some((keyed, known)) if keyed.mm() < known.mm() => Err(Stop::wrong(format!(
                "{} is less than the {} on record: key = or more; if it is less, measure it in the hand anew or correct the record (! c).",
                keyed.both(),
                known.both()
            ))),
            _ => Ok(()),
        }
    }
}

/// Lengths with blanks between them.
pub(super) fn lengths(typed: &str) -> Result<Vec<Length>, Stop> {
    typed.split_whitespace().map(|text| Typed(text).parse_or_wrong()).collect()
}

/// As many lengths as are asked.
fn these<const N: usize>(typed: Typed<'_>, wanted: &str) -> Result<[Length; N], Stop> {
    lengths(typed.as_str())?.try_into().map_err(|_| Stop::wrong(wanted))
}

fn take_insulation(order: &mut LeadOrder, typed: Typed<'_>) -> Result<(), Stop> {
    let parts: Vec<&str> = typed.as_str().split(',').map(str::trim).collect();
    // A decimal comma in the last value makes one part more.
    let (parts, diameter) = match parts.as_slice() {
        [strands, kind, class, wall, diameter] => ([strands, kind, class, wall], (*diameter).to_owned()),
        [strands, kind, class, wall, whole, rest] => {
            ([strands, kind, class, wall], format!("{whole},{rest}"))
        }
        _ => {
            return Err(Stop::wrong(
                "Key five things with commas: strands, insulation, class, wall, diameter.",
            ));
        }
    };
    let [strands, kind, class, wall] = parts.map(|part| (*part).to_owned());
    order.insulation_class = Some(match class.to_ascii_uppercase().as_str() {
        "A" => InsulationClass::A,
        "B" => InsulationClass::B,
        "C" => InsulationClass::C,
        "D" => InsulationClass::D,
        "E" => InsulationClass::E,
        "F" => InsulationClass::F,
        _ => return Err(Stop::wrong("The class is a letter from A (85 °C) to F (200 °C).")),
    });
    order.wall = Some(match wall.to_ascii_lowercase().as_str() {
        "thick" => Wall::Thick,
        "thin" => Wall::Thin,
        "ultra-thin" | "ultrathin" => Wall::UltraThin,
        _ => return Err(Stop::wrong("The wall is thick, thin or ultra-thin.")),
    });
    order.outside_diameter = Some(Typed(&diameter).parse_or_wrong()?);
    order.strands = Some(strands);
    order.insulation = Some(kind);
    Ok(())
}

/// What joins the wires; what never does is not taken.
fn splice(typed: Typed<'_>) -> Result<String, Stop> {
    if typed.is_same() {
        return Err(Stop::wrong("Say which splice and sleeve."));
    }
    let words: Vec<String> =
        typed.as_str().split(|c: char| !c.is_alphanumeric()).map(str::to_lowercase).collect();
    let never = ["tape", "taped", "tap", "taps", "snap", "wirenut"];
    match words.iter().any(|word| never.contains(&word.as_str())) {
        true => Err(Stop::wrong(
            "Neither tape nor tap connectors join a wire: a crimped barrel with a window, an adhesive sleeve.",
        )),
        false => Ok(typed.words()),
    }
}

fn twist(typed: Typed<'_>) -> Result<TwistAsked, Stop> {
    let parts = typed.as_str().rsplit_once(' ');
    let (lay, hand) = parts.ok_or_else(|| Stop::wrong("Key the lay, then left or right."))?;
    let hand = match hand {
        "left" => Lay::Left,
        "right" => Lay::Right,
        _ => return Err(Stop::wrong("Key left or right behind the lay.")),
    };
    Ok(TwistAsked { lay: Typed(lay).parse_or_wrong()?, hand })
}

fn load(typed: Typed<'_>) -> Result<Load, Stop> {
    let say = "Key five things with blanks: 10 12 6 60 other.";
    let parts: Vec<&str> = typed.as_str().split_whitespace().collect();
    let [current, supply, metres, degrees, kind] = parts.as_slice() else { return Err(Stop::wrong(say)) };
    let number = |text: &str| text.replace(',', ".").parse::<f64>().map_err(|_| Stop::wrong(say));
    let critical = match *kind {
        "critical" => true,
        "other" => false,
        _ => return Err(Stop::wrong("Key critical or other at the end.")),
    };
    Ok(Load {
        current_a: number(current)?,
        supply_v: number(supply)?,
        circuit_mm: number(metres)? * 1000.0,
        conductor_c: number(degrees)?,
        critical,
    })
}

fn other_end(typed: Typed<'_>) -> Result<OtherEnd, Stop> {
    match typed.as_str().split_once(' ') {
        Some(("strip" | "stripped", length)) => Ok(OtherEnd::Stripped(Typed(length).parse_or_wrong()?)),
        None if typed.as_str() == "square" => Ok(OtherEnd::CutSquare),
        None if typed.as_str() == "splice" => Ok(OtherEnd::SpliceFitted),
        _ => Err(Stop::wrong("Key strip and a length, square, or splice.")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_joins_a_wire_how_it_ends_and_what_it_carries_are_read_and_nothing_else_is() {
        assert_eq!(splice(Typed("windowed barrel")).unwrap(), "windowed barrel");
        assert!(splice(Typed("a tap")).is_err() && splice(Typed("=")).is_err());
        assert!(matches!(other_end(Typed("square")), Ok(OtherEnd::CutSquare)));
        assert!(matches!(other_end(Typed("strip 8")), Ok(OtherEnd::Stripped(_))));
        assert!(other_end(Typed("strip")).is_err());
        assert!(load(Typed("10 12 6 60 other")).is_ok());
        for wrong in ["10 12 6 60", "10 12 6 60 often", "a 12 6 60 other"] {
            assert!(load(Typed(wrong)).is_err(), "{wrong}");
        }
        assert!(twist(Typed("25 right")).is_ok());
        assert!(twist(Typed("25")).is_err() && twist(Typed("25 up")).is_err());
        assert!(these::<2>(Typed("45 7"), "two").is_ok() && these::<2>(Typed("45"), "two").is_err());
    }

    #[test]
    fn insulation_is_five_things_and_a_decimal_comma_is_one_of_them() {
        let mut order = LeadOrder::default();
        take_insulation(&mut order, Typed("fine strands, cross-linked, b, thin, 2,4")).unwrap();
        assert_eq!(order.insulation_class, Some(InsulationClass::B));
        for wrong in
            ["fine, x, b, thin", "fine, x, g, thin, 2.4", "fine, x, b, fat, 2.4", "fine, x, b, thin, wide"]
        {
            assert!(take_insulation(&mut LeadOrder::default(), Typed(wrong)).is_err(), "{wrong}");
        }
    }
}
