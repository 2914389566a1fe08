//! Crimp heights, resistance and drop.

use anyhow::{Context, Result, bail};
use serde::{Deserialize, Serialize};

use super::question::{checked, more_than_nothing, question, say};
use crate::{
    cli::{Common, Exit, print},
    quantity::Gauge,
    reckoning::{
        Capability, Copper, Height, HeightVerdict, Sample, copper, judge_heights, of_supply_percent,
    },
};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct CrimpQuestion {
    target_mm: f64,
    tolerance_mm: f64,
    heights_mm: Vec<f64>,
    #[serde(default)]
    capability: bool,
}

#[derive(Serialize)]
struct CrimpAnswer {
    n: usize,
    mean_mm: f64,
    s_mm: Option<f64>,
    lowest_mm: f64,
    highest_mm: f64,
    cp: Option<f64>,
    cpk: Option<f64>,
    cpk_low_95: Option<f64>,
    cpk_high_95: Option<f64>,
    verdict: &'static str,
}

/// `calc crimp`.
pub(super) fn crimp(common: &Common) -> Result<Exit> {
    let asked: CrimpQuestion = question()?;
    let sheet = Height {
        target_mm: checked("target_mm", asked.target_mm, 0.0)?,
        tolerance_mm: checked("tolerance_mm", asked.tolerance_mm, 0.0)?,
    };
    for (n, height) in asked.heights_mm.iter().enumerate() {
        checked(&format!("heights_mm[{n}]"), *height, 0.0)?;
    }
    let Some(sample) = Sample::of(&asked.heights_mm) else {
        bail!("stdin at heights_mm: at least one height is needed, each a number of mm");
    };
    let (lower, upper) = sheet.limits_mm();
    let capable = sample.capability(lower, upper);
    let interval = capable.map(|c| c.cpk_interval(sample.n, Capability::Z95));
    let verdict = judge_heights(sheet, &sample, asked.capability);
    let answer = CrimpAnswer {
        n: sample.n,
        mean_mm: sample.mean,
        s_mm: sample.s,
        lowest_mm: sample.lowest,
        highest_mm: sample.highest,
        cp: capable.map(|c| c.cp),
        cpk: capable.map(|c| c.cpk),
        cpk_low_95: interval.map(|(low, _)| low),
        cpk_high_95: interval.map(|(_, high)| high),
        verdict: match verdict {
            HeightVerdict::In => "in",
            HeightVerdict::Out => "out",
            HeightVerdict::TooFew => "too-few",
        },
    };
    match common.json {
        true => print::json(common, &answer)?,
        false => say(common, &crimp_told(&answer, sheet))?,
    }
    Ok(if verdict == HeightVerdict::In { Exit::Fine } else { Exit::Problems })
}

fn crimp_told(answer: &CrimpAnswer, sheet: Height) -> String {
    let verdict = match answer.verdict {
        "in" => "every height is in",
        "out" => "OUT: a height lies outside",
        _ => "TOO FEW: a capability is asked of five samples or more;",
    };
    let mut text = format!(
        "{verdict} the sheet's {sheet}: {} measured, {:.3} to {:.3} mm, mean {:.4} mm",
        answer.n, answer.lowest_mm, answer.highest_mm, answer.mean_mm
    );
    if let Some(s) = answer.s_mm {
        text.push_str(&format!(", s {s:.4} mm"));
    }
    if let (Some(cp), Some(cpk), Some(low), Some(high)) =
        (answer.cp, answer.cpk, answer.cpk_low_95, answer.cpk_high_95)
    {
        text.push_str(&format!("\nCp {cp:.2}, Cpk {cpk:.2} (95 %: {low:.2} to {high:.2})"));
    }
    text.push_str("\nA height is good for that terminal on that wire only. The crimp that goes into the machine is never pulled off.");
    text
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct DropQuestion {
    wire: String,
    length_mm: f64,
    current_a: f64,
    conductor_c: f64,
}

#[derive(Serialize)]
struct DropAnswer {
    area_mm2: f64,
    ohm_per_m: f64,
    resistance_ohm: f64,
    drop_v: f64,
    of_12v_percent: f64,
    source: &'static str,
}

/// `calc drop`.
pub(super) fn drop(common: &Common) -> Result<Exit> {
    let asked: DropQuestion = question()?;
    let wire: Gauge = asked.wire.parse().context("stdin at wire")?;
    let length = more_than_nothing("length_mm", asked.length_mm)?;
    let current = checked("current_a", asked.current_a, 0.0)?;
    let conductor_c = asked.conductor_c;
    if !(-60.0..=300.0).contains(&conductor_c) {
        bail!("stdin at conductor_c: {conductor_c} is not a temperature of a wire, -60 to 300 °C");
    }
    let found: Copper = copper(&wire, length, conductor_c);
    let drop_v = found.drop_v(current);
    let answer = DropAnswer {
        area_mm2: found.area_mm2,
        ohm_per_m: found.ohm_per_m,
        resistance_ohm: found.resistance_ohm,
        drop_v,
        of_12v_percent: of_supply_percent(drop_v, 12.0),
        source: found.source,
    };
    match common.json {
        true => print::json(common, &answer)?,
        false => say(
            common,
            &format!(
                "{} of {length} mm one way, conductor at {conductor_c} °C: {:.2} mΩ, drop {drop_v:.3} V at {current} A, {:.2} % of 12 V\n{}; the return is extra.",
                wire.both(),
                answer.resistance_ohm * 1000.0,
                answer.of_12v_percent,
                answer.source
            ),
        )?,
    }
    Ok(Exit::Fine)
}
