//! What is asked for, what came, and what goes on waiting.

use repin::{
    job::{
        Act, Code,
        needs::{JobRequest, build},
    },
    reckoning::ToolBook,
    report::description,
    shop_rules::{Rule, ShopRules, UnusedCavities, spare_contacts},
    supply::{Change, PartKind, Request},
};

use crate::{four, support::Bench};

fn request(bench: &Bench, previous: Option<&Request>) -> JobRequest {
    let assessment = bench.job.assess(bench.now, Some("kt"));
    build(&bench.job, &assessment, "board", Default::default(), previous, &ToolBook::default())
}

/// A request as it would be kept if it were sent.
fn sent(request: &JobRequest) -> Request {
    Request {
        number: request.number.clone(),
        revision: request.revision,
        head: request.head.clone(),
        why: request.why.clone(),
        photos: request.photos.clone(),
        lines: request.lines.iter().map(|line| line.asked.clone()).collect(),
    }
}

/// Sends the request as it stands.
fn send(bench: &mut Bench, previous: Option<&Request>) -> JobRequest {
    let request = request(bench, previous);
    let entry = repin::job::Entry::new(bench.now, bench.by.clone(), request.requested());
    assert_eq!(bench.job.check(&entry), repin::job::Verdict::Allowed);
    bench.job.apply(entry);
    request
}

/// A job whose first lead waits for a terminal with its seal; sent.
fn waiting() -> (Bench, JobRequest) {
    let wires = [
        "(number:\"W1\",colour:\"RD\",gauge:\"0.5\",outside_diameter:\"1.6 mm\")",
        four::WIRES[1],
        four::WIRES[2],
        four::WIRES[3],
    ];
    let mut bench = four::ready_with(four::rules(), &wires);
    bench.does_all(&[
        r#"Extract(from:"old:1",colour:"RD",freely:true,seal:On)"#,
        "Inspect(verdict:Needs(NewTerminal),found:TangFlat)",
        r#"Planned(lead:"old:1",how:NewTerminal,reason:"flat",part:"B4-T")"#,
        r#"Park(tag:"T1",reason:"waits")"#,
    ]);
    let request = send(&mut bench, None);
    (bench, request)
}

fn line_of(request: &JobRequest, kind: PartKind) -> u32 {
    request
        .lines
        .iter()
        .find(|line| line.asked.kind() == kind && line.asked.amount.need > 0)
        .unwrap()
        .asked
        .line
}

#[test]
fn what_came_is_held_against_what_was_asked() {
    let (mut bench, request) = waiting();
    let terminal = line_of(&request, PartKind::Terminal);
    let arrived = |line: u32, count: u32, rest: &str| format!("Arrived(line:{line},count:{count}{rest})");
    assert!(bench.impossible(&arrived(99, 1, "")).contains("no line 99"));
    assert!(bench.impossible(&arrived(terminal, 0, "")).contains("Nothing came"));
    // One needed, two spare by the house rule: three, and a fourth is a question.
    assert!(bench.impossible(&arrived(terminal, 4, "")).contains("asked for 3 in all"));
    bench.does(&arrived(terminal, 2, ""));
    assert!(bench.impossible(&arrived(terminal, 2, "")).contains("2 came before"));
    bench.does(&arrived(terminal, 1, ""));
    assert!(bench.impossible(&arrived(terminal, 1, "")).contains("3 came before"));
    // A wrong part is said with its number, and never by the right word.
    assert!(bench.impossible(&arrived(terminal, 1, ",verdict:WrongPart")).contains("Which part"));
    assert!(bench.impossible(&arrived(terminal, 1, ",verdict:Substitute")).contains("Which part"));
    assert!(bench.impossible(&arrived(terminal, 1, r#",part:"B4-TG""#)).contains("asked for B4-T"));
    // The right number is no wrong part.
    for verdict in ["WrongPart", "Substitute"] {
        let said = bench.impossible(&arrived(terminal, 1, &format!(r#",part:"b4-t",verdict:{verdict}"#)));
        assert!(said.contains("is the number line"), "{verdict}: {said}");
    }
    assert!(four::ready().impossible("Arrived(line:1,count:1)").contains("No request"));
}

#[test]
fn a_wrong_or_damaged_part_ends_no_waiting_and_a_substitute_only_by_name() {
    let waits = |bench: &Bench| {
        let target = bench.job.state().target();
        let steps = bench.job.state().steps(&target);
        steps.iter().any(|step| step.status == repin::job::Status::Waiting)
    };
    for (rest, ends) in [
        (r#",part:"B4-TG",verdict:WrongPart"#, false),
        (",verdict:Damaged", false),
        (r#",part:"B4-TG",verdict:Substitute"#, false),
        ("", true),
        (r#",part:"b4-t""#, true),
    ] {
        let (mut bench, request) = waiting();
        let (terminal, seal) = (line_of(&request, PartKind::Terminal), line_of(&request, PartKind::WireSeal));
        bench.does(&format!("Arrived(line:{seal},count:1)"));
        assert!(waits(&bench), "its terminal has not come");
        let arrived = format!("Arrived(line:{terminal},count:1{rest})");
        bench.does(&arrived);
        assert_eq!(!waits(&bench), ends, "{rest}");
        let loud = bench.job.state().alarm(&Bench::parse(&arrived));
        assert_eq!(loud.is_none(), ends, "{rest}: {loud:?}");
        assert_eq!(bench.flags().contains(&Code::Substitute), rest.contains("Substitute"));
        if rest.contains("Substitute") {
            let account = bench.job.account(bench.now);
            let flag = account.open_flags().find(|flag| flag.code() == Code::Substitute).unwrap();
            let at = flag.at.as_ref().map_or(String::new(), |at| format!(r#",at:"{at}""#));
            assert!(
                bench
                    .impossible(&format!(r#"Accept(flag:"substitute"{at},by:"-",reason:"fits")"#))
                    .contains("no name")
            );
            bench.does(&format!(
                r#"Accept(flag:"substitute"{at},by:"K. Tanner",reason:"same plating, fits")"#
            ));
            bench.not_flagged(Code::Substitute);
            assert!(!waits(&bench), "accepted by name");
        }
    }
}

#[test]
fn each_substitute_is_accepted_by_itself() {
    let (mut bench, request) = waiting();
    let (terminal, seal) = (line_of(&request, PartKind::Terminal), line_of(&request, PartKind::WireSeal));
    bench.does(&format!(r#"Arrived(line:{terminal},count:1,part:"B4-TG",verdict:Substitute)"#));
    bench.does(&format!(r#"Arrived(line:{seal},count:1,part:"B4-S2",verdict:Substitute)"#));
    let open = |bench: &Bench| bench.flags().iter().filter(|code| **code == Code::Substitute).count();
    assert_eq!(open(&bench), 2);
    let accept =
        |line: &str| format!(r#"Accept(flag:"substitute",at:"old:1"{line},by:"K. Tanner",reason:"fits")"#);
    assert!(bench.impossible(&accept("")).contains("Name the line"));
    assert!(bench.impossible(&accept(",line:99")).contains("no open flag"));
    bench.does(&accept(&format!(",line:{terminal}")));
    assert_eq!(open(&bench), 1, "the seal is not accepted with the terminal");
    let lead = bench.job.state().items.lead(&"old:1".parse().unwrap()).unwrap().clone();
    assert!(bench.job.state().supply.waits_for_part(&lead));
    bench.does(&accept(&format!(",line:{seal}")));
    assert_eq!(open(&bench), 0);
    assert!(!bench.job.state().supply.waits_for_part(&lead));
}

#[test]
fn a_substitute_is_accepted_for_its_own_lead() {
    let (mut bench, request) = waiting();
    let form = sent(&request);
    bench.does(r#"Planned(lead:"old:4",how:NewTerminal,reason:"burnt",part:"B4-TG")"#);
    let request = send(&mut bench, Some(&form));
    let line = |part: &str| {
        let mut lines = request.lines.iter().map(|line| &line.asked);
        lines.find(|asked| asked.wanted.number().is_some_and(|number| number.as_str() == part)).unwrap().line
    };
    for part in ["B4-T", "B4-TG"] {
        bench.does(&format!(r#"Arrived(line:{},count:1,part:"B4-X",verdict:Substitute)"#, line(part)));
    }
    bench.does(r#"Accept(flag:"substitute",at:"old:1",by:"K. Tanner",reason:"fits")"#);
    let accepted: Vec<u32> =
        bench.job.state().supply.arrivals.iter().filter(|a| a.is_accepted).map(|a| a.line).collect();
    assert_eq!(accepted, [line("B4-T")]);
}

#[test]
fn what_came_for_one_lead_is_not_taken_from_it_by_the_next() {
    let (mut bench, request) = waiting();
    let (terminal, seal) = (line_of(&request, PartKind::Terminal), line_of(&request, PartKind::WireSeal));
    bench.does(&format!("Arrived(line:{terminal},count:1)"));
    bench.does(&format!("Arrived(line:{seal},count:1)"));
    let form = sent(&request);
    bench.does(r#"Planned(lead:"old:4",how:NewTerminal,reason:"burnt",part:"B4-T")"#);
    send(&mut bench, Some(&form));
    let lead = |id: &str| bench.job.state().items.lead(&id.parse().unwrap()).unwrap().clone();
    assert!(!bench.job.state().supply.waits_for_part(&lead("old:1")), "its parts are on the bench");
    let mut waiting = lead("old:4");
    waiting.place = repin::job::Place::Parked("T4".parse().unwrap());
    assert!(bench.job.state().supply.waits_for_part(&waiting));
}

#[test]
fn f73_a_wrong_part_that_is_fitted_all_the_same_is_a_misfit() {
    let (mut bench, request) = waiting();
    let terminal = line_of(&request, PartKind::Terminal);
    bench.does(&format!(r#"Arrived(line:{terminal},count:1,part:"B4-M",verdict:WrongPart)"#));
    bench.does(r#"TakeUp(tag:"T1")"#);
    let fitted = r#"Repair(lead:"old:1",how:NewTerminal,done:"crimped",part:"B4-M")"#;
    assert!(bench.insists(fitted).contains(&Code::TerminalMisfit));
    bench.flagged(Code::TerminalMisfit);
}

#[test]
fn a_revision_says_what_came_and_what_is_still_wanted() {
    let (mut bench, request) = waiting();
    let terminal = line_of(&request, PartKind::Terminal);
    let form = sent(&request);
    bench.does(&format!("Arrived(line:{terminal},count:1)"));
    // A second lead needs the same terminal: two needed, one on the bench, one wanted.
    bench.does(r#"Planned(lead:"old:4",how:NewTerminal,reason:"burnt",part:"B4-T")"#);
    let again = self::request(&bench, Some(&form));
    let line = again.lines.iter().find(|line| line.asked.line == terminal).unwrap();
    assert_eq!((line.asked.amount.need, line.counts.arrived(), line.counts.still_wanted()), (2, 1, 1));
    assert_eq!((again.number.as_str(), again.revision, again.changed), (request.number.as_str(), 2, true));
    // Not needed any more, then needed again: what is on the bench is counted.
    bench.does(r#"TakeUp(tag:"T1")"#);
    for lead in ["old:1", "old:4"] {
        bench.does(&format!(r#"Planned(lead:"{lead}",how:Other,reason:"nothing to mend")"#));
    }
    let form = sent(&again);
    let none = self::request(&bench, Some(&form));
    let line = none.lines.iter().find(|line| line.asked.line == terminal).unwrap();
    assert_eq!((line.asked.amount.need, line.counts.still_wanted()), (0, 0));
    let form = sent(&none);
    bench.does(r#"Planned(lead:"old:1",how:NewTerminal,reason:"flat after all",part:"B4-T")"#);
    let back = self::request(&bench, Some(&form));
    let line = back
        .lines
        .iter()
        .find(|line| line.asked.kind() == PartKind::Terminal && line.asked.amount.need > 0)
        .unwrap();
    assert_eq!(
        (line.asked.line, line.asked.amount.need, line.counts.arrived(), line.counts.still_wanted()),
        (terminal, 1, 1, 0)
    );
}

#[test]
fn a_request_keeps_its_number_and_counts_its_revisions() {
    let (bench, request) = waiting();
    let number = request.number.as_str();
    let sending =
        |number: &str, revision: u32| format!(r#"Requested(number:"{number}",revision:{revision},lines:[])"#);
    assert!(bench.impossible(&sending(number, 1)).contains("next revision"));
    assert!(bench.impossible(&sending(number, 3)).contains("next revision"));
    let other = if number == "ACDEFGHJ" { "ACDEFGHK" } else { "ACDEFGHJ" };
    assert!(bench.impossible(&sending(other, 2)).contains(number));
    for no_number in ["", "ACDEFGH", "ACDEFGHJK", "ACDEFGH0", "ACDEFGHI", "acdefghj"] {
        assert!(bench.impossible(&sending(no_number, 2)).contains("not the number"), "{no_number}");
    }
}

#[test]
fn a_housing_in_use_is_not_ordered_again() {
    let mut bench = Bench::ready();
    assert!(request(&bench, None).lines.iter().any(|line| line.asked.kind() == PartKind::Housing));
    bench.moves("1", "RD");
    assert!(!request(&bench, None).lines.iter().any(|line| line.asked.kind() == PartKind::Housing));
    // A lock that breaks is.
    assert!(!request(&bench, None).lines.iter().any(|line| line.asked.kind() == PartKind::SecondaryLock));
    bench.does(r#"Lock(housing:"new",to:Broken,finger:true)"#);
    assert!(request(&bench, None).lines.iter().any(|line| line.asked.kind() == PartKind::SecondaryLock));
}

/// Source: FAA AC 43.13-1B par. 11-234 (read): 2 spares up to 25 contacts, 4 for 26 to 100, 6 above.
#[test]
fn spare_contacts_follow_the_number_of_contacts() {
    for (contacts, spares) in [(1, 2), (25, 2), (26, 4), (100, 4), (101, 6), (500, 6)] {
        assert_eq!(spare_contacts(contacts), spares, "{contacts}");
    }
}

/// Source: as above: unwired contacts with sealing plugs fill what has no wire.
#[test]
fn under_the_aircraft_rule_every_unused_cavity_asks_for_a_contact_and_a_plug() {
    let rules = ShopRules {
        unused_sealed: Rule::new(UnusedCavities::SpareAndPlug, "AC 43.13-1B par. 11-234"),
        ..ShopRules::default()
    };
    let mut bench = Bench::with_rules("sp-16", "sp-16", rules);
    for act in crate::support::demo_acts("spudrow-twin.acts") {
        if act.starts_with("Extract") {
            break;
        }
        let unused = act.starts_with(r#"Recorded(side:Found,at:"old:14""#)
            || act.starts_with(r#"Recorded(side:Should,at:"old:14""#);
        bench.does(&if unused { act.replace("Plugged", "Empty") } else { act });
    }
    let asked = request(&bench, None);
    let of = |kind: PartKind| {
        asked
            .lines
            .iter()
            .find(|line| line.asked.kind() == kind)
            .map(|line| (line.asked.amount.need, line.asked.amount.spare))
    };
    assert_eq!((of(PartKind::Terminal), of(PartKind::Plug)), (Some((1, 2)), Some((1, 2))));
    assert_eq!(bench.against(r#"FitPlug(into:"new:14",source:Stock)"#), [Code::SpareMissing]);
    bench.does(r#"FitPlug(into:"new:14",source:Stock,spare:"SP-TRM-F15")"#);
    // Fitted, it stays asked for; gone again, it is missed.
    let asked = request(&bench, None);
    assert!(
        asked.lines.iter().any(|line| line.asked.kind() == PartKind::Terminal && line.asked.amount.need == 1)
    );
    bench.does(r#"Seen(item:"new:14",at:Unseen,reason:"fell out")"#);
    let missing = bench.flags();
    assert!(missing.contains(&Code::SpareMissing) || missing.contains(&Code::NotFinished), "{missing:?}");
}

#[test]
fn an_entry_keeps_the_lines_it_asked_for() {
    let (bench, request) = waiting();
    let last = bench.job.entries().last().unwrap();
    let Act::Requested { lines, said, .. } = &last.act else { panic!("{last:?}") };
    assert!(said.is_some());
    let kept: Vec<_> = lines.iter().map(|line| line.asked.as_deref().cloned().unwrap()).collect();
    let asked: Vec<_> = request.lines.iter().map(|line| line.asked.clone()).collect();
    assert_eq!(kept, asked);
}

#[test]
fn two_leads_that_need_the_same_terminal_are_one_line_and_two_repair_leads_are_two() {
    let (mut bench, request) = waiting();
    let terminal = line_of(&request, PartKind::Terminal);
    bench.does(r#"Planned(lead:"old:4",how:NewTerminal,reason:"burnt",part:"B4-T")"#);
    let second = send(&mut bench, Some(&sent(&request)));
    let line = second.lines.iter().find(|line| line.asked.line == terminal).unwrap();
    assert_eq!((line.asked.amount.need, line.leads.len()), (2, 2));
    // One of them is no longer needed: the other keeps the line.
    bench.does(r#"Planned(lead:"old:4",how:RepairLead,reason:"brittle")"#);
    bench.does(r#"Planned(lead:"old:2",how:RepairLead,reason:"brittle")"#);
    let third = self::request(&bench, Some(&sent(&second)));
    let line = third.lines.iter().find(|line| line.asked.line == terminal).unwrap();
    assert_eq!((line.asked.amount.need, line.leads.len()), (1, 1));
    let homes: Vec<String> =
        third.lines.iter().filter_map(|line| Some(line.asked.wanted.lead()?.home.to_string())).collect();
    assert_eq!(homes, ["old:2", "old:4"]);
    let mut numbers: Vec<u32> = third.lines.iter().map(|line| line.asked.line).collect();
    numbers.dedup();
    assert_eq!(numbers.len(), third.lines.len());
}

#[test]
fn a_definition_that_calls_a_housing_otherwise_moves_no_line() {
    let (bench, request) = waiting();
    let mut before = sent(&request);
    let housing = before.lines.iter_mut().find(|line| line.kind() == PartKind::Housing).unwrap();
    let number = housing.line;
    let repin::supply::Wanted::Part { article: repin::supply::Article::Housing { title, .. }, .. } =
        &mut housing.wanted
    else {
        panic!("{housing:?}")
    };
    *title = "four-way, as it was called before".to_owned();
    let now = self::request(&bench, Some(&before));
    let line = now.lines.iter().find(|line| line.asked.kind() == PartKind::Housing).unwrap();
    assert_eq!((line.asked.line, line.changes.as_slice()), (number, &[] as &[Change]));
    assert!(!description(&line.asked.wanted).contains("before"));
    assert!(!now.changed, "{now:?}");
}

#[test]
fn what_is_fitted_is_counted_from_the_acts_of_the_job() {
    let (mut bench, request) = waiting();
    let (terminal, seal) = (line_of(&request, PartKind::Terminal), line_of(&request, PartKind::WireSeal));
    bench.does(&format!("Arrived(line:{terminal},count:2)"));
    bench.does(&format!(r#"Arrived(line:{terminal},count:1,part:"B4-M",verdict:WrongPart)"#));
    bench.does(&format!("Arrived(line:{seal},count:1)"));
    bench.does(r#"TakeUp(tag:"T1")"#);
    let counts = |bench: &Bench, line: u32| {
        let now = self::request(bench, Some(&sent(&request)));
        now.lines.iter().find(|asked| asked.asked.line == line).unwrap().counts
    };
    let before = counts(&bench, terminal);
    assert_eq!((before.arrived(), before.unusable(), before.fitted()), (2, 1, 0));
    bench.does(r#"Repair(lead:"old:1",how:NewTerminal,done:"crimped",part:"B4-T")"#);
    let after = counts(&bench, terminal);
    assert_eq!((after.asked().need, after.arrived(), after.unusable(), after.fitted()), (1, 2, 1, 1));
    assert_eq!(counts(&bench, seal).fitted(), 1);
}
