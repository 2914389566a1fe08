//! The splice planner against searches of another kind: every whole millimetre for a few leads,
//! every order for more.

use repin::reckoning::{LeadAsk, Stagger, StaggerRequest, stagger};

/// A generator of numbers that only look like chance.
struct Dice(u64);

impl Dice {
    fn below(&mut self, n: u64) -> u64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % n
    }

    fn mm(&mut self, least: u64, most: u64) -> f64 {
        (least + self.below(most - least + 1)) as f64
    }
}

fn ask(dice: &mut Dice, leads: usize, reach: u64) -> StaggerRequest {
    let mut stretch = |most: u64| {
        let from = dice.mm(0, reach);
        (from, from + dice.mm(1, most))
    };
    let keep_out_mm = vec![stretch(6), stretch(4)];
    let existing_mm = if dice.below(3) == 0 { vec![(12.0, 15.0)] } else { Vec::new() };
    StaggerRequest {
        clearance_mm: dice.mm(1, 6),
        gap_mm: dice.mm(0, 5),
        margin_mm: dice.mm(0, 2),
        keep_out_mm,
        existing_mm,
        made_mm: Vec::new(),
        leads: (0..leads)
            .map(|n| LeadAsk {
                circuit: format!("W{n}"),
                damage_mm: if dice.below(2) == 0 { 0.0 } else { dice.mm(0, reach / 2) },
                sleeve_mm: dice.mm(2, 6),
                last_mm: dice.mm(reach / 2, reach),
                gap_mm: if dice.below(3) == 0 { Some(dice.mm(1, 8)) } else { None },
            })
            .collect(),
    }
}

/// What the places are judged by: sum of the middles, largest middle, starts; doubled, in whole mm.
type Score = (i64, i64, Vec<i64>);

fn gap(ask: &StaggerRequest, one: Option<f64>, other: Option<f64>) -> f64 {
    ask.gap_mm.max(one.unwrap_or(0.0)).max(other.unwrap_or(0.0))
}

/// Whether one sleeve may start there, by the words of the contract.
fn may_start(ask: &StaggerRequest, lead: &LeadAsk, start: f64) -> bool {
    let end = start + lead.sleeve_mm;
    let clear = |(from, to): &(f64, f64)| end <= *from || start >= *to;
    let apart = |(from, to): &(f64, f64)| {
        let gap = gap(ask, lead.gap_mm, None);
        end + gap <= *from || start >= to + gap
    };
    start >= ask.clearance_mm.max(lead.damage_mm + ask.margin_mm)
        && end <= lead.last_mm
        && ask.keep_out_mm.iter().all(clear)
        && ask.existing_mm.iter().all(apart)
}

fn score(ask: &StaggerRequest, starts: &[f64]) -> Score {
    let middles: Vec<i64> =
        starts.iter().zip(&ask.leads).map(|(start, lead)| (2.0 * start + lead.sleeve_mm) as i64).collect();
    let largest = middles.iter().copied().max().unwrap_or(0);
    (middles.iter().sum(), largest, starts.iter().map(|s| *s as i64).collect())
}

fn apart(ask: &StaggerRequest, starts: &[f64]) -> bool {
    (0..starts.len()).all(|i| {
        (0..i).all(|j| {
            let (a, b) = (&ask.leads[i], &ask.leads[j]);
            let gap = gap(ask, a.gap_mm, b.gap_mm);
            starts[i] >= starts[j] + b.sleeve_mm + gap || starts[j] >= starts[i] + a.sleeve_mm + gap
        })
    })
}

/// Every whole millimetre for every lead.
fn every_place(ask: &StaggerRequest, starts: &mut Vec<f64>, best: &mut Option<Score>) {
    let Some(lead) = ask.leads.get(starts.len()) else {
        let score = score(ask, starts);
        if best.as_ref().is_none_or(|least| score < *least) {
            *best = Some(score);
        }
        return;
    };
    for start in 0..40 {
        let start = f64::from(start);
        if may_start(ask, lead, start) {
            starts.push(start);
            if apart(ask, starts) {
                every_place(ask, starts, best);
            }
            starts.pop();
        }
    }
}

/// Every order along the harness, each lead as early as it may be.
fn every_order(ask: &StaggerRequest, set: &mut Vec<(usize, f64)>, best: &mut Option<Score>) {
    if set.len() == ask.leads.len() {
        let mut starts = vec![0.0; set.len()];
        set.iter().for_each(|(lead, start)| starts[*lead] = *start);
        let score = score(ask, &starts);
        if best.as_ref().is_none_or(|least| score < *least) {
            *best = Some(score);
        }
        return;
    }
    for lead in 0..ask.leads.len() {
        if set.iter().any(|(other, _)| *other == lead) {
            continue;
        }
        let from = set.last().map_or(0.0, |(last, start)| {
            let last = &ask.leads[*last];
            start + last.sleeve_mm + gap(ask, last.gap_mm, ask.leads[lead].gap_mm)
        });
        let first = (from as i32..200).map(f64::from).find(|at| may_start(ask, &ask.leads[lead], *at));
        if let Some(start) = first {
            set.push((lead, start));
            every_order(ask, set, best);
            set.pop();
        }
    }
}

#[track_caller]
fn agrees(ask: &StaggerRequest, best: &Option<Score>, search: fn(&StaggerRequest) -> Option<Score>) -> bool {
    match (stagger(ask), best) {
        (Stagger::Plan { places, sum_centre_mm }, Some(best)) => {
            let starts: Vec<f64> = places.iter().map(|place| place.start_mm).collect();
            assert_eq!(score(ask, &starts), *best, "{ask:?}");
            assert!((2.0 * sum_centre_mm - best.0 as f64).abs() < 1e-9);
            true
        }
        (Stagger::Cannot(set), None) => {
            let only = |leads: &[usize]| StaggerRequest {
                leads: leads.iter().map(|n| ask.leads[*n].clone()).collect(),
                ..ask.clone()
            };
            assert_eq!(search(&only(&set)), None, "{set:?} of {ask:?} fits");
            // It is a smallest one: nothing with fewer leads fails.
            let all: Vec<usize> = (0..ask.leads.len()).collect();
            for bits in 0..1_u32 << all.len() {
                let fewer: Vec<usize> = all.iter().copied().filter(|n| bits >> n & 1 == 1).collect();
                if fewer.len() < set.len() {
                    assert!(search(&only(&fewer)).is_some(), "{fewer:?} is smaller than {set:?} of {ask:?}");
                }
            }
            false
        }
        (plan, best) => panic!("{ask:?}: {plan:?} against {best:?}"),
    }
}

fn by_place(ask: &StaggerRequest) -> Option<Score> {
    let mut best = None;
    every_place(ask, &mut Vec::new(), &mut best);
    best
}

fn by_order(ask: &StaggerRequest) -> Option<Score> {
    let mut best = None;
    every_order(ask, &mut Vec::new(), &mut best);
    best
}

#[test]
fn a_thousand_plans_are_what_every_millimetre_tried_gives() {
    let mut dice = Dice(4);
    let mut planned = 0;
    for case in 0..1000 {
        let leads = 1 + case % 3;
        let ask = ask(&mut dice, leads, 34);
        planned += usize::from(agrees(&ask, &by_place(&ask), by_place));
    }
    assert!((300..1000).contains(&planned), "{planned} of 1000 could be planned");
}

#[test]
fn larger_plans_are_what_every_order_tried_gives() {
    let mut dice = Dice(12);
    let mut planned = 0;
    for _ in 0..150 {
        let ask = ask(&mut dice, 6, 110);
        planned += usize::from(agrees(&ask, &by_order(&ask), by_order));
    }
    assert!((50..150).contains(&planned), "{planned} of 150 could be planned");
}

#[test]
fn equal_leads_keep_their_order_and_thirteen_are_too_many() {
    let lead =
        LeadAsk { circuit: "W".into(), damage_mm: 0.0, sleeve_mm: 35.0, last_mm: 9000.0, gap_mm: None };
    let mut ask = StaggerRequest {
        clearance_mm: 40.0,
        gap_mm: 40.0,
        margin_mm: 0.0,
        keep_out_mm: Vec::new(),
        existing_mm: Vec::new(),
        made_mm: Vec::new(),
        leads: vec![lead.clone(); 12],
    };
    let Stagger::Plan { places, .. } = stagger(&ask) else { panic!("no plan") };
    let starts: Vec<f64> = places.iter().map(|p| p.start_mm).collect();
    assert_eq!(starts, (0..12).map(|n| 40.0 + 75.0 * f64::from(n)).collect::<Vec<_>>());
    ask.leads.push(lead);
    assert_eq!(stagger(&ask), Stagger::TooMany);
}
