//! What a repair lead has to be, asked in the order of the bench: wire, insulation, lengths, splice,
//! the other end.

use crate::{
    job::{Act, Lay, Lead, LeadOrder, Load, OtherEnd, RepairKind, TwistAsked, Verdict, Wall},
    quantity::{Length, list_of},
    record::InsulationClass,
};

use super::{Asked, Choice, JobView, Reply, field, picks};

/// A lead by its old label, then its order.
pub(super) fn by_label(view: &JobView<'_>, answers: &[Reply]) -> Asked {
    let Some((Reply::Text(label), rest)) = answers.split_first() else {
        return field("ORDER a repair lead: for which old cavity, or which wire?");
    };
    let lead = super::jump::find(view, label)
        .map(|at| view.state().items.leads.iter().find(|lead| lead.id == crate::job::ItemId::At(at.clone())));
    match lead {
        Ok(Some(lead)) => order(view, lead, rest),
        Ok(None) => Asked::Wrong(format!("No lead was recorded in {label}.")),
        Err(why) => Asked::Wrong(why),
    }
}

/// The order, question by question.
pub(super) fn order(view: &JobView<'_>, lead: &Lead, answers: &[Reply]) -> Asked {
    let call = lead.call();
    let asks = Asks { view, lead, call: &call };
    // Ordered before, everything stays as it was said until it is keyed anew.
    let mut order = lead.order.as_deref().cloned().unwrap_or_default();
    let mut left = answers.iter();
    for ask in asks.all() {
        match left.next() {
            None => {
                let stays = lead.order.is_some()
                    && !matches!(ask, OrderField::Size | OrderField::Colour | OrderField::Damage);
                return match asks.ask(ask, &order) {
                    Asked::Field { prompt, .. } if stays => field(format!("{prompt} (= as ordered before)")),
                    asked => asked,
                };
            }
            Some(answer) => {
                if let Err(why) = take(&mut order, ask, answer) {
                    return Asked::Wrong(why);
                }
            }
        }
        if ask == OrderField::Damage
            && let Some(less) = less_than_on_record(lead, &order)
        {
            return Asked::Wrong(less);
        }
        // Too little copper or too low a class is said when it is keyed.
        if let Verdict::Impossible(refusal) = view.preview(&planned(lead, &order)) {
            return Asked::Wrong(refusal.to_string());
        }
    }
    Asked::Ready(vec![planned(lead, &order)])
}

/// Damage that is keyed as less than was recorded: one of the two is wrong.
fn less_than_on_record(lead: &Lead, order: &LeadOrder) -> Option<String> {
    let keyed = order.damage.as_ref()?;
    let known = lead.damages().max_by(|a, b| a.mm().total_cmp(&b.mm()))?;
    (keyed.mm() < known.mm()).then(|| {
        format!(
            "{} is less than the {} on record: key = or more; if it is less, measure it in the hand anew or correct the record (! c).",
            keyed.both(),
            known.both()
        )
    })
}

fn planned(lead: &Lead, order: &LeadOrder) -> Act {
    Act::Planned {
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

/// A question about a lead.
#[derive(Clone, Copy, PartialEq, Eq)]
enum OrderField {
    Size,
    Colour,
    OtherColour,
    Insulation,
    Damage,
    Lengths,
    Sleeve,
    Splice,
    Included,
    Twist,
    OtherEnd,
    CrimpRecord,
    Spliced,
    Load,
}

struct Asks<'a> {
    view: &'a JobView<'a>,
    lead: &'a Lead,
    call: &'a str,
}

impl Asks<'_> {
    /// The questions of this lead, in order.
    fn all(&self) -> Vec<OrderField> {
        let mut all = vec![
            OrderField::Size,
            OrderField::Colour,
            OrderField::OtherColour,
            OrderField::Insulation,
            OrderField::Damage,
            OrderField::Lengths,
        ];
        all.extend([OrderField::Sleeve, OrderField::Splice, OrderField::Included]);
        if self.lead.is_in_a_pair() {
            all.push(OrderField::Twist);
        }
        all.extend([OrderField::OtherEnd, OrderField::CrimpRecord, OrderField::Spliced, OrderField::Load]);
        all
    }

    /// Other wires of the bundle with the colour that is ordered: they will look alike.
    fn look_alikes(&self, so_far: &LeadOrder) -> String {
        let Some(colour) = so_far.colour_for(self.lead) else { return String::new() };
        let state = self.view.state();
        let is_like = |other: &&Lead| {
            other.id != self.lead.id
                && other.seen.wires.iter().any(|wire| wire.colour.known() == Some(colour))
        };
        let like: Vec<String> = state.items.leads.iter().filter(is_like).map(|lead| lead.call()).collect();
        match like.as_slice() {
            [] => String::new(),
            some => format!("{colour} is the colour of {}, too: label it. ", list_of(some)),
        }
    }

    fn ask(&self, ask: OrderField, so_far: &LeadOrder) -> Asked {
        let call = self.call;
        let yes_no = [Choice::Yes, Choice::No];
        match ask {
            OrderField::Size => {
                let area = self.lead.area_mm2().map_or("?".to_owned(), |mm2| format!("{mm2:.2} mm²"));
                let keep = if self.lead.wires_left() == 1 { "; = as it is" } else { "" };
                field(format!("LEAD for {call}, {area} of copper in all. Which size? (mm² or AWG{keep})"))
            }
            OrderField::Colour => {
                let size = self.view.state().size_in_words(self.lead, so_far);
                let size = size.map_or(String::new(), |size| format!("{size}. "));
                field(format!("{size}Which colour? (= as it is)"))
            }
            OrderField::OtherColour => picks(
                format!("{}Will another colour do, with a label at both ends?", self.look_alikes(so_far)),
                &yes_no,
            ),
            OrderField::Insulation => field(
                "Conductor, insulation, class, wall, outside diameter, with commas: fine strands, cross-linked, B, thin, 2.4",
            ),
            OrderField::Damage => {
                let known = self.lead.damages().map(Length::mm).fold(0.0, f64::max);
                let known = if known > 0.0 { format!("{known} mm") } else { "none".to_owned() };
                field(format!(
                    "How far behind the rear face does the damage reach? (mm; 0 none; = as on record: {known})"
                ))
            }
            OrderField::Lengths => field("Inside the housing, slack, longer way, in mm: 24 30 0"),
            OrderField::Sleeve => field("Length of the sleeve, and its diameter, in mm: 45 7"),
            OrderField::Splice => field("Which splice and sleeve? (windowed barrel, adhesive sleeve)"),
            OrderField::Included => picks("Do splice and sleeve come with the lead?", &yes_no),
            OrderField::Twist => field("Lay of the twist in mm, and left or right: 25 right"),
            OrderField::OtherEnd => field("The other end? (strip 8, square, or splice)"),
            OrderField::CrimpRecord => picks("Is the record of its crimp to come with it?", &yes_no),
            OrderField::Spliced => {
                let many = self.view.state().world.rules.most_splices.value;
                picks(
                    format!(
                        "Is {call} spliced already between here and the next branch? (at most {many} in a bundle; where it lies: ! 3)"
                    ),
                    &yes_no,
                )
            }
            OrderField::Load => field(
                "What does the circuit carry? A, V, m there and back, conductor °C, critical or other: 10 12 6 60 other (- not known)",
            ),
        }
    }
}

/// Takes an answer into the order.
fn take(order: &mut LeadOrder, ask: OrderField, answer: &Reply) -> Result<(), String> {
    let yes = *answer == Reply::Choice(Choice::Yes);
    let typed = match answer {
        Reply::Text(text) => text.trim(),
        Reply::Choice(_) => "",
    };
    let kept = typed == "=";
    if kept && is_said(order, ask) {
        return Ok(());
    }
    match ask {
        OrderField::Size if kept => {}
        OrderField::Size => order.gauge = Some(read(typed)?),
        OrderField::Colour if kept => {}
        OrderField::Colour => order.colour = Some(read(typed)?),
        OrderField::OtherColour => order.other_colour = Some(yes),
        OrderField::Insulation => insulation(order, typed)?,
        OrderField::Damage if kept => {}
        OrderField::Damage => order.damage = Some(read(typed)?),
        OrderField::Lengths => match lengths(typed)?.as_slice() {
            [inside, slack, route] => {
                order.inside = Some(inside.clone());
                order.slack = Some(slack.clone());
                order.route = Some(route.clone());
            }
            _ => return Err("Key three lengths: inside, slack, longer way.".to_owned()),
        },
        OrderField::Sleeve => match lengths(typed)?.as_slice() {
            [sleeve, diameter] => {
                order.sleeve = Some(sleeve.clone());
                order.sleeve_diameter = Some(diameter.clone());
            }
            _ => return Err("Key its length and its diameter over the wire: 45 7.".to_owned()),
        },
        OrderField::Splice if kept => return Err("Say which splice and sleeve.".to_owned()),
        OrderField::Splice => order.splice = Some(splice(typed)?),
        OrderField::Included => order.splice_included = Some(yes),
        OrderField::Twist => order.twist = Some(twist(typed)?),
        OrderField::OtherEnd => order.other_end = Some(other_end(typed)?),
        OrderField::CrimpRecord => order.crimp_record = Some(yes),
        OrderField::Spliced => order.spliced_before = yes,
        OrderField::Load if typed == "-" => {}
        OrderField::Load => order.load = Some(load(typed)?),
    }
    Ok(())
}

/// Whether an order says something about a question already.
fn is_said(order: &LeadOrder, ask: OrderField) -> bool {
    match ask {
        OrderField::Insulation => order.strands.is_some(),
        OrderField::Lengths => order.inside.is_some(),
        OrderField::Sleeve => order.sleeve.is_some(),
        OrderField::Splice => order.splice.is_some(),
        OrderField::Twist => order.twist.is_some(),
        OrderField::OtherEnd => order.other_end.is_some(),
        OrderField::Load => order.load.is_some(),
        OrderField::Size
        | OrderField::Colour
        | OrderField::OtherColour
        | OrderField::Damage
        | OrderField::Included
        | OrderField::CrimpRecord
        | OrderField::Spliced => false,
    }
}

/// A value as keyed, or what is wrong with it in words.
pub(super) fn read<T: std::str::FromStr>(typed: &str) -> Result<T, String>
where
    T::Err: std::fmt::Display,
{
    typed.parse().map_err(|why: T::Err| why.to_string())
}

/// Lengths with blanks between them.
pub(super) fn lengths(typed: &str) -> Result<Vec<Length>, String> {
    typed.split_whitespace().map(read).collect()
}

fn insulation(order: &mut LeadOrder, typed: &str) -> Result<(), String> {
    let parts: Vec<&str> = typed.split(',').map(str::trim).collect();
    // A decimal comma in the last value makes one part more.
    let (parts, diameter) = match parts.as_slice() {
        [strands, kind, class, wall, diameter] => ([strands, kind, class, wall], (*diameter).to_owned()),
        [strands, kind, class, wall, whole, rest] => {
            ([strands, kind, class, wall], format!("{whole},{rest}"))
        }
        _ => {
            return Err("Key five things with commas: strands, insulation, class, wall, diameter.".to_owned());
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
        _ => return Err("The class is a letter from A (85 °C) to F (200 °C).".to_owned()),
    });
    order.wall = Some(match wall.to_ascii_lowercase().as_str() {
        "thick" => Wall::Thick,
        "thin" => Wall::Thin,
        "ultra-thin" | "ultrathin" => Wall::UltraThin,
        _ => return Err("The wall is thick, thin or ultra-thin.".to_owned()),
    });
    order.outside_diameter = Some(read(&diameter)?);
    order.strands = Some(strands);
    order.insulation = Some(kind);
    Ok(())
}

/// What joins the wires; what never does is not taken.
fn splice(typed: &str) -> Result<String, String> {
    let words: Vec<String> = typed.split(|c: char| !c.is_alphanumeric()).map(str::to_lowercase).collect();
    let never = ["tape", "taped", "tap", "taps", "snap", "wirenut"];
    match words.iter().any(|word| never.contains(&word.as_str())) {
        true => Err("Neither tape nor tap connectors join a wire: a crimped barrel with a window, an adhesive sleeve.".to_owned()),
        false => Ok(typed.to_owned()),
    }
}

fn twist(typed: &str) -> Result<TwistAsked, String> {
    let (lay, hand) = typed.rsplit_once(' ').ok_or("Key the lay, then left or right.")?;
    let hand = match hand {
        "left" => Lay::Left,
        "right" => Lay::Right,
        _ => return Err("Key left or right behind the lay.".to_owned()),
    };
    Ok(TwistAsked { lay: read(lay)?, hand })
}

fn load(typed: &str) -> Result<Load, String> {
    let say = "Key five things with blanks: 10 12 6 60 other.";
    let [current, supply, metres, degrees, kind] = typed.split_whitespace().collect::<Vec<_>>()[..] else {
        return Err(say.to_owned());
    };
    let number =
        |text: &str| -> Result<f64, String> { text.replace(',', ".").parse().map_err(|_| say.to_owned()) };
    let critical = match kind {
        "critical" => true,
        "other" => false,
        _ => return Err("Key critical or other at the end.".to_owned()),
    };
    Ok(Load {
        current_a: number(current)?,
        supply_v: number(supply)?,
        circuit_mm: number(metres)? * 1000.0,
        conductor_c: number(degrees)?,
        critical,
    })
}

fn other_end(typed: &str) -> Result<OtherEnd, String> {
    match typed.split_once(' ') {
        Some(("strip" | "stripped", length)) => Ok(OtherEnd::Stripped(read(length)?)),
        None if typed == "square" => Ok(OtherEnd::CutSquare),
        None if typed == "splice" => Ok(OtherEnd::SpliceFitted),
        _ => Err("Key strip and a length, square, or splice.".to_owned()),
    }
}
