//! Leads that are ordered, what lies behind a housing, and the tool book, in words.

use crate::{
    job::{ItemId, Lead, LeadOrder},
    procedure::{
        BehindQuestion, JobView, OrderField, OrderQuestion, ToolQuestion, crimped_with, in_hand, least_force,
        sheet_of,
    },
    quantity::{Length, list_of},
    record::HousingName,
};

pub(super) fn order(view: &JobView<'_>, asked: &OrderQuestion) -> String {
    match asked {
        OrderQuestion::Which => "ORDER a repair lead: for which old cavity, or which wire?".to_owned(),
        OrderQuestion::Field { lead, field, so_far } => order_field(view, lead, *field, so_far),
    }
}

fn order_field(view: &JobView<'_>, id: &ItemId, field: OrderField, so_far: &LeadOrder) -> String {
    let Some(lead) = view.state().items.lead(id) else { return String::new() };
    let question = match field {
        OrderField::Size => {
            let area = lead.area_mm2().map_or("?".to_owned(), |mm2| format!("{mm2:.2} mm²"));
            let keep = if lead.wires_left() == 1 { "; = as it is" } else { "" };
            format!(
                "LEAD for {}, {area} of copper in all. Which size? (mm² or AWG{keep})",
                lead.call()
            )
        }
        OrderField::Colour => {
            let size = view.state().size_in_words(lead, so_far);
            format!("{}Which colour? (= as it is)", size.map_or(String::new(), |size| format!("{size}. ")))
        }
        OrderField::OtherColour => {
            format!("{}Will another colour do, with a label at both ends?", look_alikes(view, lead, so_far))
        }
        OrderField::Insulation => {
            "Conductor, insulation, class, wall, outside diameter, with commas: fine strands, cross-linked, B, thin, 2.4".to_owned()
        }
        OrderField::Damage => {
            let known = lead.damages().map(Length::mm).fold(0.0, f64::max);
            let known = if known > 0.0 { format!("{known} mm") } else { "none".to_owned() };
            format!("How far behind the rear face does the damage reach? (mm; 0 none; = as on record: {known})")
        }
        OrderField::Lengths => "Inside the housing, slack, longer way, in mm: 24 30 0".to_owned(),
        OrderField::Sleeve => "Length of the sleeve, and its diameter, in mm: 45 7".to_owned(),
        OrderField::Splice => "Which splice and sleeve? (windowed barrel, adhesive sleeve)".to_owned(),
        OrderField::Included => "Do splice and sleeve come with the lead?".to_owned(),
        OrderField::Twist => "Lay of the twist in mm, and left or right: 25 right".to_owned(),
        OrderField::OtherEnd => "The other end? (strip 8, square, or splice)".to_owned(),
        OrderField::CrimpRecord => "Is the record of its crimp to come with it?".to_owned(),
        OrderField::Spliced => format!(
            "Is {} spliced already between here and the next branch? (at most {} in a bundle; where it lies: ! 3)",
            lead.call(),
            view.state().world.rules.most_splices.value
        ),
        OrderField::Load => {
            "What does the circuit carry? A, V, m there and back, conductor °C, critical or other: 10 12 6 60 other (- not known)".to_owned()
        }
    };
    match lead.order.is_some() && may_stay(field) {
        true => format!("{question} (= as ordered before)"),
        false => question,
    }
}

/// Whether = keeps what was ordered before, which the question itself does not say.
fn may_stay(field: OrderField) -> bool {
    match field {
        OrderField::Insulation
        | OrderField::Lengths
        | OrderField::Sleeve
        | OrderField::Splice
        | OrderField::Twist
        | OrderField::OtherEnd
        | OrderField::Load => true,
        OrderField::Size
        | OrderField::Colour
        | OrderField::OtherColour
        | OrderField::Damage
        | OrderField::Included
        | OrderField::CrimpRecord
        | OrderField::Spliced => false,
    }
}

/// Other wires of the bundle with the colour that is ordered: they will look alike.
fn look_alikes(view: &JobView<'_>, lead: &Lead, so_far: &LeadOrder) -> String {
    let Some(colour) = so_far.colour_for(lead) else { return String::new() };
    let is_like = |other: &&Lead| {
        other.id != lead.id && other.seen.wires.iter().any(|wire| wire.colour.known() == Some(colour))
    };
    let like: Vec<String> = view.state().items.leads.iter().filter(is_like).map(|lead| lead.call()).collect();
    match like.as_slice() {
        [] => String::new(),
        some => format!("{colour} is the colour of {}, too: label it. ", list_of(some)),
    }
}

pub(super) fn behind(view: &JobView<'_>, asked: &BehindQuestion) -> String {
    let on_record = |name: &HousingName| view.state().housings.behind.get(name);
    let (name, question, none) = match asked {
        BehindQuestion::Which => return "BEHIND which old housing?".to_owned(),
        BehindQuestion::Branches(name) => (
            name,
            format!("BEHIND {name}, in mm from its rear face: where does the bundle branch?"),
            "260; - nowhere",
        ),
        BehindQuestion::KeepOut(name) => (
            name,
            "Where may no splice lie: clamps, grommets, bends, heat?".to_owned(),
            "120-150 300-340; - nowhere",
        ),
        BehindQuestion::Splices(name) => (
            name,
            "Splices there already, besides those made in this job, from-to?".to_owned(),
            "300-340; - none",
        ),
        BehindQuestion::Last(name) => (name, "As far as splices may go?".to_owned(), "800; - no limit"),
        BehindQuestion::Beyond(name) => {
            (name, "May splices lie beyond a branch? Why?".to_owned(), "- they may not")
        }
    };
    let told = on_record(name).map(|now| match asked {
        BehindQuestion::Which => String::new(),
        BehindQuestion::Branches(_) => places(&now.branches),
        BehindQuestion::KeepOut(_) => stretches(&now.keep_out),
        BehindQuestion::Splices(_) => stretches(&now.splices),
        BehindQuestion::Last(_) => now.last.as_ref().map_or("no limit".to_owned(), ToString::to_string),
        BehindQuestion::Beyond(_) => now.beyond.clone().unwrap_or("they may not".to_owned()),
    });
    let offer = told.map_or(String::new(), |told| format!("; = as on record: {told}"));
    format!("{question} ({none}{offer})")
}

fn places(lengths: &[Length]) -> String {
    match lengths {
        [] => "nowhere".to_owned(),
        some => some.iter().map(ToString::to_string).collect::<Vec<_>>().join(" "),
    }
}

fn stretches(stretches: &[(Length, Length)]) -> String {
    match stretches {
        [] => "none".to_owned(),
        some => some.iter().map(|(from, to)| format!("{from} to {to}")).collect::<Vec<_>>().join(", "),
    }
}

pub(super) fn tool(view: &JobView<'_>, asked: &ToolQuestion) -> String {
    match asked {
        ToolQuestion::Which => "PROVE a tool's position: tool with serial, comma, position?".to_owned(),
        ToolQuestion::Terminal => {
            let (terminal, _) = in_hand(view);
            let offer = terminal.map_or(String::new(), |part| format!("; = {part}, of the lead in the hand"));
            format!("On which terminal? (its part number{offer})")
        }
        ToolQuestion::Wire => {
            let (_, wire) = in_hand(view);
            let offer = wire.map_or(String::new(), |wire| format!("; = {}", wire.both()));
            format!("On which wire? (mm² or AWG{offer})")
        }
        ToolQuestion::Heights { terminal, wire } => {
            let sheet = sheet_of(view, terminal, wire);
            let told = sheet.map_or("NO sheet gives one for it".to_owned(), |sheet| format!("sheet {sheet}"));
            format!("Conductor crimp heights of 3 samples or more, in mm, blanks between? ({told})")
        }
        ToolQuestion::Pulls(wire) => {
            let told = least_force(view, wire)
                .map_or("NO table has a least force for it".to_owned(), |(newton, source)| {
                    format!("least {newton} N, {source}")
                });
            format!(
                "Forces at which 5 samples or more came off, insulation grip open, in N, blanks between? ({told})"
            )
        }
        ToolQuestion::Until => "Good until which day? (2027-03-31)".to_owned(),
        ToolQuestion::Withdraw => {
            "WITHDRAW which tool? With serial, and comma, position, where only that one goes".to_owned()
        }
        ToolQuestion::WithdrawWhy(tool) => {
            let calls: Vec<String> = crimped_with(view, tool).into_iter().map(Lead::call).collect();
            let again = match calls.as_slice() {
                [] => String::new(),
                calls => format!(" LOOK again at the crimps it made here: {}.", list_of(calls)),
            };
            format!("Why? It counts for nothing until it is proved anew.{again}")
        }
    }
}
