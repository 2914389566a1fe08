//! `repin calc`: the reckoning by itself, its answers, its exit codes and what it says to bad input.

use crate::cli;

use cli::{Run, Shop};
use serde_json::{Value, json};

fn calc(what: &[&str], question: &Value) -> Run {
    let mut args = vec!["calc"];
    args.extend(what);
    Shop::new().run_with(&args, &question.to_string(), &[])
}

/// The answer, and the exit code.
#[track_caller]
fn answer(what: &str, question: &Value) -> (Value, i32) {
    let run = calc(&[what, "--json"], question);
    (serde_json::from_str(&run.out).unwrap_or_else(|e| panic!("{e}: {run:?}")), run.code)
}

#[track_caller]
fn refused(what: &str, question: &Value, place: &str) {
    let run = calc(&[what, "--json"], question);
    assert_eq!((run.code, run.out.as_str()), (2, ""), "{run:?}");
    assert!(run.err.contains(place), "{run:?}");
}

fn lead(circuit: &str) -> Value {
    json!({"circuit": circuit, "damage_mm": 0, "sleeve_mm": 35, "last_mm": 300,
           "inside_mm": 18, "slack_mm": 25, "route_mm": 0, "twist": null})
}

fn plan(leads: &[Value]) -> Value {
    json!({"clearance_mm": 40, "gap_mm": 40, "margin_mm": 0, "most": 6, "keep_out_mm": [], "leads": leads})
}

#[test]
fn splices_are_placed_and_leads_get_their_lengths() {
    let leads: Vec<Value> = ["W1", "W2", "W3", "W4"].map(lead).to_vec();
    let (told, code) = answer("stagger", &plan(&leads));
    assert_eq!((code, &told["feasible"], &told["flags"]), (0, &json!(true), &json!([])));
    let of = |field: &str| -> Vec<f64> {
        told["leads"].as_array().unwrap().iter().map(|l| l[field].as_f64().unwrap()).collect()
    };
    assert_eq!(of("start_mm"), [40.0, 115.0, 190.0, 265.0]);
    assert_eq!(of("order_mm"), [110.0, 180.0, 260.0, 330.0]);
    assert!((of("cut_mm")[0] - 100.5).abs() < 1e-9 && (of("cut_mm")[2] - 250.5).abs() < 1e-9);
    assert_eq!(told["sum_centre_mm"], 680.0);
}

#[test]
fn a_plan_that_cannot_be_names_the_fewest_leads_and_ends_with_1() {
    let leads: Vec<Value> = ["W1", "W2", "W3", "W4", "W5"].map(lead).to_vec();
    let (told, code) = answer("stagger", &plan(&leads));
    assert_eq!((code, &told["feasible"]), (1, &json!(false)));
    assert_eq!(told["cannot"].as_array().unwrap().len(), 5);
    let mut one = lead("W9");
    one["damage_mm"] = json!(290);
    let (told, _) = answer("stagger", &plan(&[lead("W1"), one]));
    assert_eq!(told["cannot"], json!(["W9"]));
    assert!(told["say"].as_str().unwrap().contains("W9 has no place"), "{told}");
}

#[test]
fn more_splices_than_the_house_lets_are_flagged_beside_the_plan() {
    let mut question = plan(&[lead("W1"), lead("W2")]);
    question["most"] = json!(2);
    question["existing_mm"] = json!([[200, 235]]);
    let (told, code) = answer("stagger", &question);
    assert_eq!((code, &told["flags"]), (1, &json!(["splice-too-many"])));
    assert_eq!(told["leads"][1]["start_mm"], 115.0);
}

#[test]
fn a_twisted_lead_is_longer_and_keeps_its_wider_gap() {
    let mut twisted = lead("W2");
    twisted["twist"] = json!({"diameter_mm": 1.6, "lay_mm": 25});
    twisted["gap_mm"] = json!(65);
    let (told, _) = answer("stagger", &plan(&[lead("W1"), twisted]));
    assert_eq!(told["leads"][1]["start_mm"], 140.0);
    // (18 + 157.5 + 25) × √(1 + (π·1.6/25)²)
    assert!((told["leads"][1]["cut_mm"].as_f64().unwrap() - 204.5).abs() < 0.1, "{told}");
}

#[test]
fn the_length_of_one_lead() {
    let question = json!({"inside_mm": 18, "start_mm": 190, "sleeve_mm": 35, "slack_mm": 25, "route_mm": 0});
    let (told, code) = answer("lead", &question);
    assert_eq!((code, told), (0, json!({"cut_mm": 250.5, "order_mm": 260.0})));
    // A length that is a whole ten stays it.
    let whole = json!({"inside_mm": 17.5, "start_mm": 40, "sleeve_mm": 35, "slack_mm": 25, "route_mm": 0});
    assert_eq!(answer("lead", &whole).0["order_mm"], 100.0);
}

#[test]
fn a_bundle_and_where_each_wire_lies() {
    let (told, code) = answer("bundle", &json!({"wires_mm": [1.6]}));
    assert_eq!(code, 0);
    assert!((told["diameter_mm"].as_f64().unwrap() - 1.6).abs() < 1e-9 && told["places"].is_null());
    let run = calc(&["bundle", "--places", "--json"], &json!({"wires_mm": [1.6, 1.6, 1.9]}));
    let told: Value = serde_json::from_str(&run.out).unwrap();
    let places: Vec<(f64, f64)> = told["places"]
        .as_array()
        .unwrap()
        .iter()
        .map(|p| (p["x"].as_f64().unwrap(), p["y"].as_f64().unwrap()))
        .collect();
    let radii = [0.8, 0.8, 0.95];
    let outer = told["diameter_mm"].as_f64().unwrap() / 2.0;
    for (n, (x, y)) in places.iter().enumerate() {
        assert!(x.hypot(*y) + radii[n] <= outer + 1e-9);
        for (m, (other_x, other_y)) in places.iter().enumerate().skip(n + 1) {
            assert!((x - other_x).hypot(y - other_y) >= radii[n] + radii[m] - 1e-9);
        }
    }
}

#[test]
fn heights_are_judged_by_the_one_that_is_furthest_off() {
    let question = |heights: &[f64], capability: bool| json!({"target_mm": 1.24, "tolerance_mm": 0.05, "heights_mm": heights, "capability": capability});
    let (told, code) = answer("crimp", &question(&[1.23], false));
    assert_eq!((code, &told["verdict"], &told["n"]), (0, &json!("in"), &json!(1)));
    for field in ["s_mm", "cp", "cpk", "cpk_low_95", "cpk_high_95"] {
        assert!(told[field].is_null(), "{field}");
    }
    let (told, code) = answer("crimp", &question(&[1.23, 1.24, 1.30], false));
    assert_eq!((code, &told["verdict"]), (1, &json!("out")));
    let (told, code) = answer("crimp", &question(&[1.23, 1.24, 1.25, 1.24], true));
    assert_eq!((code, &told["verdict"]), (1, &json!("too-few")));
    // A height on the limit is in, however a computer writes it.
    assert_eq!(answer("crimp", &question(&[1.29, 1.19], false)).1, 0);
}

#[test]
fn a_drop_names_its_source() {
    let question = json!({"wire": "1.5", "length_mm": 3000, "current_a": 10, "conductor_c": 60});
    let (told, code) = answer("drop", &question);
    assert_eq!(code, 0);
    assert!((told["drop_v"].as_f64().unwrap() - 0.4617).abs() < 5e-4, "{told}");
    assert!(told["source"].as_str().unwrap().contains("IEC 60228"));
    let (told, _) =
        answer("drop", &json!({"wire": "18AWG", "length_mm": 1000, "current_a": 1, "conductor_c": 20}));
    assert!(told["source"].as_str().unwrap().contains("1.16"), "{told}");
}

#[test]
fn bad_input_is_refused_with_its_place() {
    let mut odd = lead("W1");
    odd["sleeve_mm"] = json!(0);
    refused("stagger", &plan(&[odd.clone()]), "leads[0].sleeve_mm");
    odd["sleeve_mm"] = json!("35");
    refused("stagger", &plan(&[odd]), "leads[0].sleeve_mm");
    refused("stagger", &plan(&vec![lead("W"); 13]), "up to 12");
    let mut turned = plan(&[lead("W1")]);
    turned["keep_out_mm"] = json!([[300, 260]]);
    refused("stagger", &turned, "keep_out_mm[0]");
    refused("bundle", &json!({"wires_mm": []}), "wires_mm");
    refused("bundle", &json!({"wires_mm": [1.6, -1]}), "wires_mm[1]");
    refused("crimp", &json!({"target_mm": 1.24, "tolerance_mm": 0.05, "heights_mm": []}), "heights_mm");
    refused("drop", &json!({"wire": "thick", "length_mm": 1, "current_a": 1, "conductor_c": 20}), "wire");
    let short = json!({"inside_mm": 18, "start_mm": 40, "sleeve_mm": 35, "slack_mm": 0, "route_mm": -500});
    refused("lead", &short, "cannot be cut");
    let mut impossible = lead("W1");
    impossible["damage_mm"] = json!(1000);
    impossible["inside_mm"] = json!(-5);
    refused("stagger", &plan(&[impossible]), "leads[0].inside_mm");
    refused("lead", &json!({"inside_mm": 18}), "start_mm");
    let run = Shop::new().run_with(&["calc", "lead"], "{", &[]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("stdin"), "{run:?}");
}

#[test]
fn the_text_shows_the_harness_both_units_and_the_caution() {
    let run = calc(&["stagger", "--ascii"], &plan(&[lead("W1"), lead("W2")]));
    assert!(
        run.out.is_ascii() && run.out.contains("W1         ") && run.out.contains("#####"),
        "{}",
        run.out
    );
    assert!(run.out.contains("Its service manual, local codes"));
    let bundle = calc(&["bundle"], &json!({"wires_mm": [1.6, 1.6]})).out;
    assert!(bundle.contains("3.20 mm (0.126 in)"), "{bundle}");
}
