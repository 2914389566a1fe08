//! What was reckoned when an act was entered stands in its entry, and counts when the job is opened
//! again, whatever would be reckoned today.

use repin::{
    form::{Catalogue, EntryProblem, read_acts, read_entry, write_entry},
    job::{Act, Entry, ItemId, Job, JobSide, MadeLength},
    reckoning::LeadLength,
    record::{Known, Wire},
};

use crate::support::{Bench, demo_acts};

/// The entries of a job, with one of them changed as an older or another program would have written it.
fn opened(job: &Job, change: impl FnMut(&mut Act)) -> Job {
    let mut acts: Vec<Entry> = job.entries().to_vec();
    acts.iter_mut().map(|entry| &mut entry.act).for_each(change);
    Job::replay(acts)
}

/// Takes in what another program let pass.
fn applies(bench: &mut Bench, act: Act) {
    bench.job.apply(Entry::new(bench.now, "kt", act));
}

#[test]
fn a_confirmed_map_is_the_one_in_the_entry() {
    let bench = Bench::ready();
    let at = |text: &str| text.parse().unwrap();
    let again = opened(&bench.job, |act| {
        if let Act::MapConfirmed { map, .. } = act {
            let map = map.as_mut().expect("the map stands in the entry");
            assert_eq!(map.get(&at("old:2")), Some(&Some(at("new:2"))));
            map.insert(at("old:2"), Some(at("new:3")));
        }
    });
    assert_eq!(again.state().mapping.mapped(&at("old:2")), Some(&at("new:3")));
}

#[test]
fn an_anchor_agreed_or_not_as_its_entry_says() {
    let bench = Bench::ready();
    let failed = |job: &Job| {
        job.state().housings.all.iter().filter(|h| job.state().failed_anchor(h).is_some()).count()
    };
    assert_eq!(failed(&bench.job), 0);
    let mut anchors = 0;
    let again = opened(&bench.job, |act| {
        if let Act::Anchor { agrees, .. } = act {
            assert_eq!(*agrees, Some(true));
            *agrees = Some(anchors > 0);
            anchors += 1;
        }
    });
    assert!(anchors > 1);
    assert_eq!(failed(&again), 1);
}

#[test]
fn a_lead_was_made_as_long_as_its_entry_says() {
    let mut bench = Bench::new("mh-06", "mh-06");
    for act in demo_acts("mulehaul-power.acts") {
        applies(&mut bench, Bench::parse(&act));
    }
    let planned = LeadLength { cut_mm: 333.0, order_mm: 340.0 };
    let said = MadeLength { planned: Some(planned), asked_mm: Some(350.0) };
    let mut was = Vec::new();
    let again = opened(&bench.job, |act| {
        if let Act::Repair { made: Some(made), .. } = act {
            was.push(made.planned.map(|length| length.order_mm));
            *made = said;
        }
    });
    assert_eq!(was.len(), 2);
    assert!(was.iter().all(Option::is_some), "{was:?}");
    let lead = again.state().items.lead(&"old:1".parse().unwrap()).unwrap();
    assert_eq!(lead.made().unwrap().length, said);
}

#[test]
fn a_lead_for_a_wire_found_nowhere_has_the_wires_its_entry_says() {
    let mut bench = Bench::ready();
    let lead: ItemId = "old:13".parse().unwrap();
    let mut planned = Bench::parse(r#"Planned(lead:"old:13",how:RepairLead,reason:"missing")"#);
    bench.job.state().fill_in(&mut planned);
    let Act::Planned { wires, .. } = &mut planned else { panic!("{planned:?}") };
    assert_eq!(wires.as_deref(), Some(&[][..]), "a lead that is there keeps its wires");
    // Another program saw a wire missing there.
    let wire = Wire { number: Some("W999".to_owned()), ..Wire::new(Known::Unknown, Known::Unknown) };
    *wires = Some(vec![wire.clone()]);
    applies(&mut bench, planned);
    assert_eq!(bench.job.state().items.lead(&lead).unwrap().seen.wires, [wire]);
}

/// What a version without facts wrote gets them when it is replayed: the same ones.
#[test]
fn entries_without_facts_get_them_when_they_are_replayed() {
    let bench = Bench::ready();
    let mut taken = 0;
    let again = opened(&bench.job, |act| match act {
        Act::MapConfirmed { map, .. } => taken += usize::from(map.take().is_some()),
        Act::Anchor { agrees, .. } => taken += usize::from(agrees.take().is_some()),
        Act::Planned { wires, .. } => taken += usize::from(wires.take().is_some()),
        Act::Repair { made, .. } => taken += usize::from(made.take().is_some()),
        _ => {}
    });
    assert!(taken > 2, "{taken}");
    assert_eq!(again.entries(), bench.job.entries());
    assert!(again.state() == bench.job.state());
}

/// Only the program says what it reckons: what an act from a file claims is written over.
#[test]
fn facts_that_a_file_claims_do_not_count() {
    let bench = Bench::ready();
    let mut act = Bench::parse(r#"MapConfirmed(source:SameLabels,map:[("old:1","new:9"),("old:2",None)])"#);
    bench.job.state().fill_in(&mut act);
    let Act::MapConfirmed { map: Some(map), .. } = act else { panic!("{act:?}") };
    assert_eq!(map.len(), 16);
    assert_eq!(map.get(&"old:1".parse().unwrap()), Some(&Some("new:1".parse().unwrap())));
}

#[test]
fn a_definition_in_a_job_is_not_held_against_the_rules_of_today() {
    let definition = Box::new(Catalogue::built_in().find("fw-hsg-12a").unwrap());
    let housed = Act::Housed { name: "old".parse().unwrap(), side: JobSide::Old, definition };
    let line = write_entry(1, &Entry::new("2026-11-25T07:00:00Z".parse().unwrap(), "kt", housed)).unwrap();
    let plugs = r#"plugs:[(part:"FW-PLUG-15",size:"1.5",colour:"white",pack:10)],"#;
    assert!(line.contains(plugs), "{line}");
    // As a program would have written it that asked for no plugs in a sealed family.
    let line = format!("({},sum:\"0\")", line.replace(plugs, ""));
    let refused = read_acts("x.acts", &line).unwrap_err();
    let said = refused.first().unwrap().to_string();
    assert!(said.contains("a housing that is sealed needs a plug of the size 1.5"), "{said}");
    assert!(said.contains("at act.definition.housings[0].size"), "{said}");
    let job = Job::replay(vec![read_entry(1, &line).unwrap()]);
    assert_eq!(job.state().housings.side(JobSide::Old).count(), 1);
    // What cannot be read at all is still named.
    let nameless = line.replace(r#"part:"FW-HSG-12A""#, r#"part:"""#);
    assert!(matches!(read_entry(1, &nameless), Err(EntryProblem::NotAccepted(_))), "{nameless}");
}

/// A day that is none is shown where it stands: it never becomes an entry.
#[test]
fn a_day_that_is_no_day_is_no_act() {
    let accept = |day: &str| format!(r#"Accept(flag:"parked",at:"old:12",reason:"tied back",due:"{day}")"#);
    for day in ["soon", "", " ", "2026-13-01", "2026-02-30", "1.12.2026", "2026-12-1"] {
        let problems = read_acts("x.acts", &accept(day)).unwrap_err();
        let said = problems.first().unwrap().to_string();
        assert!(said.contains("at due") && said.contains("is no day: key the day as 2026-12-01"), "{said}");
    }
    assert!(read_acts("x.acts", &accept("2026-12-20")).is_ok());
}
