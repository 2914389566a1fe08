//! What was passed by name stays until what it says is no longer so; what is accepted is accepted of one
//! thing; nothing grave is.

use repin::job::Code;

use crate::{four, support::Bench};

const OUT_1: &str = r#"Extract(from:"old:1",colour:"RD",freely:true,seal:On)"#;
const GOOD: &str = "Inspect(verdict:Good)";

fn good_in_hand() -> Bench {
    let mut bench = Bench::ready();
    bench.does_all(&[OUT_1, GOOD]);
    bench
}

/// What is insisted on, the rule, and what does not mend it.
#[test]
fn a_rule_that_was_passed_keeps_its_flag() {
    let wrong = r#"Insert(into:"new:2",click:true)"#;
    let mut bench = good_in_hand();
    assert_eq!(bench.insists(wrong), [Code::WrongCavity]);
    bench.does(r#"Tug(at:"new:2",held:true)"#);
    bench.flagged(Code::WrongCavity);
    bench.does_all(&[
        r#"Extract(from:"new:2",freely:true,seal:On)"#,
        GOOD,
        r#"Insert(into:"new:1",click:true)"#,
    ]);
    bench.not_flagged(Code::WrongCavity);

    // A lock that was forced stays forced until it went home with a finger.
    let mut bench = Bench::moved();
    bench.insists(r#"Lock(housing:"new",to:FullSet,finger:false)"#);
    bench.flagged(Code::LockForced);

    // Pushed in before mating, the clip proves nothing even after mating.
    let mut bench = Bench::moved();
    bench.insists(r#"Assurance(housing:"new",on:true)"#);
    bench.flagged(Code::AssuranceOff);
    bench.does_all(&[
        r#"Lock(housing:"new",to:FullSet,finger:true)"#,
        "MatingHalf(verdict:Good)",
        "Mate(level:true)",
    ]);
    bench.flagged(Code::AssuranceOff);
    bench.does_all(&[r#"Assurance(housing:"new",on:false)"#, r#"Assurance(housing:"new",on:true)"#]);
    bench.not_flagged(Code::AssuranceOff);
}

#[test]
fn a_wrong_seal_or_terminal_fitted_by_name_is_a_misfit_until_another_is_on() {
    for (how, wrong, right) in
        [("NewSeal", "B4-T", "B4-S"), ("NewTerminal", "B4-M", "B4-T"), ("NewTerminal", "B4-TG", "B4-T")]
    {
        let mut bench = four::ready_with(
            four::rules(),
            &four::WIRES[..3]
                .iter()
                .map(|wire| wire.replace(r#",damage:"30 mm""#, ""))
                .collect::<Vec<_>>()
                .iter()
                .map(String::as_str)
                .chain(["(number:\"W4\",colour:\"BU\",gauge:\"0.5\")"])
                .collect::<Vec<_>>(),
        );
        bench.does(OUT_1);
        let planned = |part: &str| format!(r#"Planned(lead:"old:1",how:{how},reason:"r",part:"{part}")"#);
        let repair = |part: &str| format!(r#"Repair(lead:"old:1",how:{how},done:"d",part:"{part}")"#);
        bench.does(&planned(wrong));
        assert!(bench.insists(&repair(wrong)).contains(&Code::TerminalMisfit), "{wrong}");
        bench.flagged(Code::TerminalMisfit);
        bench.does_all(&[GOOD, r#"Insert(into:"new:1",click:true)"#, r#"Tug(at:"new:1",held:true)"#]);
        bench.flagged(Code::TerminalMisfit);
        bench.does(r#"Extract(from:"new:1",freely:true,seal:On)"#);
        bench.does(&planned(right));
        bench.does(&repair(right));
        bench.not_flagged(Code::TerminalMisfit);
    }
}

#[test]
fn a_plug_of_another_place_or_a_lead_past_its_lock_is_looked_at_before_it_counts_as_mended() {
    let mut bench = Bench::ready();
    bench.does(r#"Lock(housing:"new",to:FullSet,finger:true)"#);
    bench.does_all(&[OUT_1, GOOD]);
    let insert = r#"Insert(into:"new:1",click:true)"#;
    assert_eq!(bench.insists(insert), [Code::LockNotReleased]);
    bench.flagged(Code::LockNotReleased);
    // Opening the lock afterwards looks at nothing.
    bench.does(r#"Lock(housing:"new",to:PreSet,finger:true,why:"went in past it")"#);
    bench.does(r#"Tug(at:"new:1",held:true)"#);
    bench.flagged(Code::LockNotReleased);
    bench.does_all(&[r#"Extract(from:"new:1",freely:true,seal:On)"#, GOOD]);
    bench.not_flagged(Code::LockNotReleased);
}

#[test]
fn an_untagged_look_alike_that_went_by_name_is_measured_before_it_counts() {
    let twin = r#"RecordCorrected(at:"old:2",holds:Wired(wires:[(number:"S02",circuit:"sensor return",colour:"RD",gauge:"0.5",outside_diameter:"1.5 mm")]),reason:"faded")"#;
    let mut bench = Bench::ready();
    bench.does_all(&[twin, r#"Decided(at:"old:2",wins:Found,reason:"faded")"#]);
    bench.proves_the_views();
    // Measured before it went by name it proves nothing.
    bench.does(r#"Measure(circuit:"S01",test:Continuity,value:"0.2 ohm")"#);
    assert_eq!(bench.insists(OUT_1), [Code::LookAlike]);
    bench.does_all(&[r#"Tagged(lead:"old:1",tag:"T1")"#, r#"Tagged(lead:"old:2",tag:"T2")"#]);
    bench.flagged(Code::LookAlike);
    bench.does(r#"Measure(circuit:"sensor return",test:Continuity,value:"0.2 ohm")"#);
    bench.flagged(Code::LookAlike);
    bench.does(r#"Measure(circuit:"sensor feed",test:Neighbours,value:"open")"#);
    bench.flagged(Code::LookAlike);
    bench.does(r#"Measure(circuit:"S01",test:Continuity,value:"open",passed:false)"#);
    bench.flagged(Code::LookAlike);
    bench.does(r#"Measure(circuit:"S01",test:Continuity,value:"0.2 ohm")"#);
    bench.not_flagged(Code::LookAlike);
}

#[test]
fn going_on_anyway_takes_a_name_and_a_reason() {
    let bench = good_in_hand();
    for (by, reason) in [("", "hurry"), ("x", "hurry"), ("-", "hurry"), ("K. Tanner", ""), ("K. Tanner", " ")]
    {
        let insert = format!(r#"Insert(into:"new:2",click:true,anyway:(by:"{by}",reason:"{reason}"))"#);
        let said = bench.impossible(&insert);
        assert!(said.contains("name") || said.contains("reason"), "{by}/{reason}: {said}");
    }
}

#[test]
fn the_codes_of_an_entry_are_those_of_the_program() {
    let claimed =
        r#"Insert(into:"new:2",click:true,anyway:(by:"K. Tanner",reason:"hurry",codes:["look-alike"]))"#;
    let mut bench = good_in_hand();
    assert_eq!(bench.insists(claimed), [Code::WrongCavity]);
    bench.flagged(Code::WrongCavity);
    bench.not_flagged(Code::LookAlike);
}

#[test]
fn nothing_grave_is_accepted_by_name() {
    let flags_of = |bench: &Bench| {
        let account = bench.job.account(bench.now);
        account.flags.iter().map(|flag| (flag.code(), flag.at.clone())).collect::<Vec<_>>()
    };
    let mut bench = Bench::moved();
    bench.does(r#"ReRead(at:"new:1",colour:"BK")"#);
    bench.does(r#"Measure(test:Continuity,value:"open",passed:false)"#);
    bench.does(r#"MatingHalf(verdict:Damaged("bent"))"#);
    bench.does(r#"Extract(from:"new:3",freely:true,seal:On)"#);
    let grave: Vec<_> = flags_of(&bench).into_iter().filter(|(code, _)| code.severity() >= 3).collect();
    assert!(grave.len() >= 3, "{grave:?}");
    for (code, at) in grave {
        let at = at.map_or(String::new(), |at| format!(r#",at:"{at}""#));
        let said = bench.impossible(&format!(r#"Accept(flag:"{code}"{at},by:"K. Tanner",reason:"hurry")"#));
        assert!(said.contains("not one that a name can accept"), "{code}: {said}");
    }
    // What is not there cannot be accepted in advance.
    assert!(bench.impossible(r#"Accept(flag:"lock-worn",reason:"seen so")"#).contains("no open flag"));
    for nobody in ["", "x", "-"] {
        let said = bench.impossible(&format!(r#"Accept(flag:"mating-half",by:"{nobody}",reason:"seen so")"#));
        assert!(said.contains("no name"), "{nobody}");
    }
}

#[test]
fn what_is_accepted_follows_its_lead_and_does_not_cover_what_happens_later() {
    let mut bench = Bench::ready();
    bench.does(r#"Extract(from:"old:1",colour:"RD",freely:false,seal:On)"#);
    bench.insists(GOOD);
    bench.does(r#"Accept(flag:"crimp-suspect",at:"old:1",by:"K. Tanner",reason:"looked at under the lens")"#);
    bench.not_flagged(Code::CrimpSuspect);
    bench.does_all(&[r#"Insert(into:"new:1",click:true)"#, r#"Tug(at:"new:1",held:true)"#]);
    bench.not_flagged(Code::CrimpSuspect);
    // Forced a second time it is another matter.
    bench.does(r#"Extract(from:"new:1",freely:false,seal:On)"#);
    bench.insists(GOOD);
    bench.flagged(Code::CrimpSuspect);
    // And another lead was never accepted.
    let mut bench = Bench::ready();
    bench.does(r#"Extract(from:"old:1",colour:"RD",freely:false,seal:On)"#);
    bench.insists(GOOD);
    bench.does(r#"Accept(flag:"crimp-suspect",at:"old:1",reason:"looked at")"#);
    bench.does_all(&[r#"Insert(into:"new:1",click:true)"#, r#"Tug(at:"new:1",held:true)"#]);
    bench.does(r#"Extract(from:"old:2",colour:"BK",freely:false,seal:On)"#);
    bench.insists(GOOD);
    bench.flagged(Code::CrimpSuspect);
}

#[test]
fn a_temporary_measure_is_never_accepted_itself() {
    let mut bench = Bench::moved();
    bench.does(r#"Accept(flag:"mating-half",reason:"machine is out",due:"2026-12-01")"#);
    bench.flagged(Code::TemporaryMeasure);
    let said = bench.impossible(r#"Accept(flag:"temporary-measure",reason:"seen so")"#);
    assert!(said.contains("not one that a name can accept"), "{said}");
    bench.does("MatingHalf(verdict:Good)");
    bench.not_flagged(Code::TemporaryMeasure);
}
