//! Bundles, splice places and lead lengths.

use anyhow::{Result, bail};
use serde::{Deserialize, Serialize};

use super::question::{checked, more_than_nothing, question, say};
use crate::{
    cli::{Common, Exit, print},
    job::Code,
    picture::{Harness, Ruler, Splicing, draw_splices},
    quantity::{harmless, list_of},
    reckoning::{
        LeadAsk, LeadLength, MOST_LEADS, SplicePlace, Stagger, StaggerRequest, Twist, bundle_of, lead_length,
        room_needed_mm, stagger,
    },
};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct BundleQuestion {
    wires_mm: Vec<f64>,
}

#[derive(Serialize)]
struct BundleAnswer {
    diameter_mm: f64,
    rule_mm: f64,
    filled: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    places: Option<Vec<PlaceForm>>,
}

#[derive(Serialize)]
struct PlaceForm {
    x: f64,
    y: f64,
}

/// Columns of a picture on a plain terminal.
const WIDTH: usize = 78;

/// How many wires one bundle takes.
const MOST_WIRES: usize = 1000;

/// `calc bundle`.
pub(super) fn bundle(common: &Common, with_places: bool) -> Result<Exit> {
    let asked: BundleQuestion = question()?;
    if asked.wires_mm.is_empty() || asked.wires_mm.len() > MOST_WIRES {
        bail!("stdin at wires_mm: {} wires; one to {MOST_WIRES} make a bundle", asked.wires_mm.len());
    }
    for (n, wire) in asked.wires_mm.iter().enumerate() {
        more_than_nothing(&format!("wires_mm[{n}]"), *wire)?;
    }
    let found = bundle_of(&asked.wires_mm);
    let answer = BundleAnswer {
        diameter_mm: found.diameter_mm,
        rule_mm: found.rule_mm,
        filled: found.filled,
        places: with_places
            .then(|| found.places.iter().map(|spot| PlaceForm { x: spot.x_mm, y: spot.y_mm }).collect()),
    };
    if common.json {
        print::json(common, &answer)?;
        return Ok(Exit::Fine);
    }
    let mut text = format!(
        "{} in a circle of {:.2} mm ({:.3} in), {:.0} % filled.\nRule of thumb 1.2 times the root of the squares: {:.2} mm (common practice).\n",
        crate::quantity::count_of(asked.wires_mm.len(), "wire"),
        answer.diameter_mm,
        answer.diameter_mm / 25.4,
        answer.filled * 100.0,
        answer.rule_mm,
    );
    for (place, wire) in answer.places.iter().flatten().zip(&asked.wires_mm) {
        text.push_str(&format!("  {wire} mm at x {:.3}, y {:.3} mm\n", place.x, place.y));
    }
    say(common, &text)?;
    Ok(Exit::Fine)
}

#[derive(Deserialize, Clone, Copy)]
#[serde(deny_unknown_fields)]
struct TwistForm {
    diameter_mm: f64,
    lay_mm: f64,
}

impl TwistForm {
    fn checked(self, name: &str) -> Result<Twist> {
        let diameter_mm = checked(&format!("{name}.diameter_mm"), self.diameter_mm, 0.0)?;
        let lay_mm = more_than_nothing(&format!("{name}.lay_mm"), self.lay_mm)?;
        Ok(Twist { diameter_mm, lay_mm })
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct StaggerQuestion {
    clearance_mm: f64,
    gap_mm: f64,
    margin_mm: f64,
    most: usize,
    #[serde(default)]
    keep_out_mm: Vec<(f64, f64)>,
    #[serde(default)]
    existing_mm: Vec<(f64, f64)>,
    leads: Vec<LeadQuestion>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct LeadQuestion {
    circuit: String,
    damage_mm: f64,
    sleeve_mm: f64,
    last_mm: f64,
    inside_mm: f64,
    slack_mm: f64,
    route_mm: f64,
    #[serde(default)]
    twist: Option<TwistForm>,
    #[serde(default)]
    gap_mm: Option<f64>,
}

#[derive(Serialize)]
struct PlanAnswer {
    feasible: bool,
    leads: Vec<LeadAnswer>,
    sum_centre_mm: f64,
    flags: Vec<&'static str>,
}

#[derive(Serialize)]
struct LeadAnswer {
    circuit: String,
    start_mm: f64,
    centre_mm: f64,
    end_mm: f64,
    cut_mm: f64,
    order_mm: f64,
}

#[derive(Serialize)]
struct CannotAnswer {
    feasible: bool,
    cannot: Vec<String>,
    say: String,
}

impl StaggerQuestion {
    fn checked(&self) -> Result<StaggerRequest> {
        if self.leads.len() > MOST_LEADS {
            bail!("stdin at leads: {} leads; one plan takes up to {MOST_LEADS}", self.leads.len());
        }
        let stretches = |name: &str, given: &[(f64, f64)]| -> Result<Vec<(f64, f64)>> {
            for (n, (from, to)) in given.iter().enumerate() {
                checked(&format!("{name}[{n}]"), *from, 0.0)?;
                checked(&format!("{name}[{n}]"), *to, 0.0)?;
                if to < from {
                    bail!("stdin at {name}[{n}]: it ends at {to} before it starts at {from}");
                }
            }
            Ok(given.to_vec())
        };
        let lead = |(n, lead): (usize, &LeadQuestion)| -> Result<LeadAsk> {
            let name = |field: &str| format!("leads[{n}].{field}");
            checked(&name("inside_mm"), lead.inside_mm, 0.0)?;
            checked(&name("slack_mm"), lead.slack_mm, 0.0)?;
            checked(&name("route_mm"), lead.route_mm, -1e6)?;
            lead.twist.map(|twist| twist.checked(&name("twist"))).transpose()?;
            Ok(LeadAsk {
                circuit: harmless(&lead.circuit).into_owned(),
                damage_mm: checked(&name("damage_mm"), lead.damage_mm, 0.0)?,
                sleeve_mm: more_than_nothing(&name("sleeve_mm"), lead.sleeve_mm)?,
                last_mm: checked(&name("last_mm"), lead.last_mm, 0.0)?,
                gap_mm: lead.gap_mm.map(|gap| checked(&name("gap_mm"), gap, 0.0)).transpose()?,
            })
        };
        Ok(StaggerRequest {
            clearance_mm: checked("clearance_mm", self.clearance_mm, 0.0)?,
            gap_mm: checked("gap_mm", self.gap_mm, 0.0)?,
            margin_mm: checked("margin_mm", self.margin_mm, 0.0)?,
            keep_out_mm: stretches("keep_out_mm", &self.keep_out_mm)?,
            existing_mm: stretches("existing_mm", &self.existing_mm)?,
            made_mm: Vec::new(),
            leads: self.leads.iter().enumerate().map(lead).collect::<Result<_>>()?,
        })
    }

    fn lengths(&self, places: &[SplicePlace]) -> Result<Vec<LeadAnswer>> {
        let answer = |(n, (lead, place)): (usize, (&LeadQuestion, &SplicePlace))| -> Result<LeadAnswer> {
            let name = |field: &str| format!("leads[{n}].{field}");
            let length = sound(lead_length(
                lead.inside_mm,
                place.centre_mm,
                lead.slack_mm,
                lead.route_mm,
                lead.twist.map(|twist| twist.checked(&name("twist"))).transpose()?,
            ))?;
            Ok(LeadAnswer {
                circuit: harmless(&lead.circuit).into_owned(),
                start_mm: place.start_mm,
                centre_mm: place.centre_mm,
                end_mm: place.end_mm,
                cut_mm: length.cut_mm,
                order_mm: length.order_mm,
            })
        };
        self.leads.iter().zip(places).enumerate().map(answer).collect()
    }
}

/// `calc stagger`.
pub(super) fn plan(common: &Common) -> Result<Exit> {
    let asked: StaggerQuestion = question()?;
    let ask = asked.checked()?;
    match stagger(&ask) {
        Stagger::Plan { places, sum_centre_mm } => {
            let too_many = asked.leads.len() + asked.existing_mm.len() > asked.most;
            let flags: Vec<&str> = too_many.then(|| Code::SpliceTooMany.as_str()).into_iter().collect();
            let answer = PlanAnswer { feasible: true, leads: asked.lengths(&places)?, sum_centre_mm, flags };
            match common.json {
                true => print::json(common, &answer)?,
                false => {
                    let picture = plan_drawn(&ask, &places, common.ascii);
                    say(common, &(picture + &plan_told(&answer, asked.most)))?;
                }
            }
            Ok(if too_many { Exit::Problems } else { Exit::Fine })
        }
        Stagger::Cannot(leads) => {
            let cannot: Vec<String> =
                leads.iter().filter_map(|n| Some(ask.leads.get(*n)?.circuit.clone())).collect();
            let answer = CannotAnswer { feasible: false, say: cannot_told(&ask, &cannot), cannot };
            match common.json {
                true => print::json(common, &answer)?,
                false => say(common, &answer.say)?,
            }
            Ok(Exit::Problems)
        }
        Stagger::TooMany => bail!("stdin at leads: one plan takes up to {MOST_LEADS}"),
    }
}

/// The harness with the sleeves on it.
fn plan_drawn(ask: &StaggerRequest, places: &[SplicePlace], ascii: bool) -> String {
    let leads = ask.leads.iter().zip(places).map(|(lead, place)| Splicing {
        call: &lead.circuit,
        damage_mm: lead.damage_mm,
        place: Some(*place),
    });
    let harness =
        Harness { ask, branches_mm: Vec::new(), there_mm: ask.existing_mm.clone(), leads: leads.collect() };
    let picture = draw_splices(&harness, Ruler::of(&harness, WIDTH), ascii);
    picture.lines().join("\n") + "\n\n"
}

fn plan_told(answer: &PlanAnswer, most: usize) -> String {
    let mut text = String::new();
    for lead in &answer.leads {
        text.push_str(&format!(
            "{:<12} sleeve from {:.1} to {:.1} mm, middle {:.1}; cut {:.1} mm, order {:.0} mm (-0/+10)\n",
            lead.circuit, lead.start_mm, lead.end_mm, lead.centre_mm, lead.cut_mm, lead.order_mm
        ));
    }
    text.push_str(&format!("sum of the middles {:.1} mm\n", answer.sum_centre_mm));
    if !answer.flags.is_empty() {
        text.push_str(&format!(
            "{}: more than {most} splices in one bundle; replace the branch.\n",
            Code::SpliceTooMany
        ));
    }
    text
}

/// Why there is no plan, and what would settle it.
fn cannot_told(ask: &StaggerRequest, cannot: &[String]) -> String {
    let which = match cannot {
        [one] => format!("{one} has no place for its splice."),
        several => format!("{} cannot all be spliced in this stretch.", list_of(several)),
    };
    let settle = match room_needed_mm(ask) {
        Some(more) => format!(
            " With {more} mm more before the last end (beyond the branch, or another stretch of the harness) all of them would fit; so might shorter sleeves. Else replace the branch."
        ),
        None => " Move a keep-out, use shorter sleeves, or replace the branch.".to_owned(),
    };
    format!("{which}{settle}")
}

/// A length that can be cut.
fn sound(length: LeadLength) -> Result<LeadLength> {
    if !length.order_mm.is_finite() || length.cut_mm <= 0.0 {
        bail!("stdin: a lead of {} mm cannot be cut", length.cut_mm);
    }
    Ok(length)
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct LengthQuestion {
    inside_mm: f64,
    start_mm: f64,
    sleeve_mm: f64,
    slack_mm: f64,
    route_mm: f64,
    #[serde(default)]
    twist: Option<TwistForm>,
}

#[derive(Serialize)]
struct LengthAnswer {
    cut_mm: f64,
    order_mm: f64,
}

/// `calc lead`.
pub(super) fn lead(common: &Common) -> Result<Exit> {
    let asked: LengthQuestion = question()?;
    let start = checked("start_mm", asked.start_mm, 0.0)?;
    let sleeve = checked("sleeve_mm", asked.sleeve_mm, 0.0)?;
    let LeadLength { cut_mm, order_mm } = sound(lead_length(
        checked("inside_mm", asked.inside_mm, 0.0)?,
        start + sleeve / 2.0,
        checked("slack_mm", asked.slack_mm, 0.0)?,
        checked("route_mm", asked.route_mm, -1e6)?,
        asked.twist.map(|twist| twist.checked("twist")).transpose()?,
    ))?;
    match common.json {
        true => print::json(common, &LengthAnswer { cut_mm, order_mm })?,
        false => say(
            common,
            &format!(
                "cut {cut_mm:.1} mm ({:.2} in), order {order_mm:.0} mm (-0/+10 mm), crimp to the middle of the splice",
                cut_mm / 25.4
            ),
        )?,
    }
    Ok(Exit::Fine)
}
