//! What is taken back, put right or seen again, and what is not.

use std::rc::Rc;

use repin::{
    job::{Act, Code, Entry, Job, Verdict},
    record::Address,
    report::flag_words,
    service::{JobAt, OpenJob},
    store::{EntryCount, MemoryStore, Store, StreamId},
};

use crate::support::Bench;

const OUT_1: &str = r#"Extract(from:"old:1",colour:"RD",freely:true,seal:On)"#;

/// Enters the acts of one key press, as the store does.
fn press(bench: &mut Bench, acts: &[&str]) {
    let first = bench.job.entries().len() + 1;
    for (nth, act) in acts.iter().enumerate() {
        let mut entry = Entry::new(bench.now, bench.by.clone(), Bench::parse(act));
        entry.with = (nth > 0).then_some(first);
        assert_eq!(bench.job.check(&entry), Verdict::Allowed, "{act}");
        bench.job.apply(entry);
    }
}

#[test]
fn a_key_press_is_taken_back_whole() {
    let mut bench = Bench::ready();
    bench.does(r#"Planned(lead:"old:1",how:NewTerminal,reason:"brittle",part:"SP-TRM-F15")"#);
    bench.does(OUT_1);
    let before = bench.job.state().clone();
    // "Good after all" is three entries: a plan given up, a repair that is none, a look.
    press(
        &mut bench,
        &[
            r#"Planned(lead:"old:1",how:Other,reason:"not needed")"#,
            r#"Repair(lead:"old:1",how:Other,done:"nothing to mend")"#,
            "Inspect(verdict:Good)",
        ],
    );
    assert_eq!(bench.job.last_press().count(), 3);
    bench.does("WrongKey");
    assert_eq!(bench.job.state(), &before);
    // Again, and the press before goes.
    bench.does("WrongKey");
    assert_eq!(bench.job.state().items.lead_in_hand(), None);
    // What is read from disk is the same.
    let again = Job::replay(bench.job.entries().to_vec());
    assert_eq!(again.state(), bench.job.state());
}

#[test]
fn entries_of_one_press_go_in_together_or_not_at_all() {
    let store = Rc::new(MemoryStore::default());
    let stream = StreamId::Job("board".parse().unwrap());
    let kept = || store.read(&stream, EntryCount::default()).unwrap();
    let bench = Bench::ready();
    let at = JobAt::new(store.clone(), stream.clone());
    let mut open = OpenJob::start(&at, bench.job.entries().to_vec(), "kt", bench.now).unwrap();
    let entry = |act: &str| Entry::new(bench.now, "kt", Bench::parse(act));
    let before = kept();
    // The second of the press is refused: the first does not stay.
    let refused = open.enter_press(vec![entry(OUT_1), entry(r#"Tug(at:"new:9",held:true)"#)]);
    assert!(refused.is_err());
    assert_eq!(kept(), before);
    assert_eq!(open.job().entries().len(), bench.job.entries().len());
    open.enter_press(vec![entry(OUT_1), entry("Inspect(verdict:Good)")]).unwrap();
    let with: Vec<Option<usize>> = kept().entries.iter().rev().take(2).map(|entry| entry.with).collect();
    assert_eq!(with, [Some(bench.job.entries().len() + 1), None]);
    assert_eq!(kept().entries, open.job().entries());
    open.enter(entry("WrongKey")).unwrap();
    assert_eq!(open.job().state(), bench.job.state());
}

#[test]
fn a_stop_is_a_slip_as_the_next_press_and_for_good_after_that() {
    let mut bench = Bench::ready();
    let before = bench.job.state().clone();
    bench.does(r#"Stop(why:"wrong key")"#);
    assert_eq!(bench.state(), "stopped");
    assert!(bench.impossible(OUT_1).contains("stopped"));
    bench.does("WrongKey");
    assert_eq!(bench.job.state(), &before);
    bench.does(r#"Stop(why:"harness ordered")"#);
    bench.does(r#"Note(text:"told the desk")"#);
    bench.does("WrongKey");
    assert_eq!(bench.state(), "stopped", "only the note is taken back");
}

#[test]
fn what_others_rely_on_is_not_taken_back() {
    let last = |act: &str| {
        let mut bench = Bench::ready();
        bench.does(act);
        bench.impossible("WrongKey")
    };
    for act in [
        r#"Gate(gate:Restraint,answer:Absent,document:"d",name:"n")"#,
        r#"HandOver(to:"J. Ode")"#,
        r#"Requested(number:"ACDEFGHJ",revision:1,lines:[])"#,
    ] {
        assert!(last(act).contains("others rely on"), "{act}");
    }
    let mut bench = Bench::ready();
    bench.does(OUT_1);
    bench.by = "jo".into();
    assert!(bench.impossible("WrongKey").contains("kt's, not yours"));
    // Nor what was entered before this sitting.
    let mut bench = Bench::ready();
    bench.does(OUT_1);
    bench.job = Job::replay(bench.job.entries().to_vec());
    assert!(bench.impossible("WrongKey").contains("before this sitting"));
}

#[test]
fn a_wire_taken_out_by_a_slip_and_seen_again_is_counted_once_everywhere() {
    let mut bench = Bench::ready();
    bench.does_all(&[OUT_1, r#"Removed(wire:"old:1",document:"bulletin 12")"#]);
    let account = bench.job.account(bench.now);
    assert_eq!((account.wires.removed, account.leads.places.removed, account.wires.found), (1, 1, 12));
    bench.does(r#"Seen(item:"old:1",at:Hand,reason:"slip: it is here")"#);
    let account = bench.job.account(bench.now);
    assert_eq!((account.wires.removed, account.wires.hand, account.leads.places.hand), (0, 1, 1));
    bench.does_all(&[
        "Inspect(verdict:Good)",
        r#"Insert(into:"new:1",click:true)"#,
        r#"Tug(at:"new:1",held:true)"#,
    ]);
    let account = bench.job.account(bench.now);
    assert_eq!((account.wires.new, account.leads.places.new, account.wires.found), (1, 1, 12));
}

#[test]
fn left_in_the_old_housing_by_mistake_is_undone_by_seeing_it() {
    let mut bench = Bench::ready();
    bench.does(r#"LeftInOld(at:"old:12",reason:"broken in its hole")"#);
    let steps = |bench: &Bench| {
        let target = bench.job.state().target();
        let steps = bench.job.state().steps(&target);
        steps.iter().filter(|step| format!("{:?}", step.what).contains("MovePlug")).count()
    };
    let (left, home): (usize, Address) = (steps(&bench), "old:12".parse().unwrap());
    assert!(bench.job.state().items.left_in_old.contains_key(&home));
    bench.does(r#"Seen(item:"old:12",at:In("old:12"),reason:"it comes out after all")"#);
    assert!(!bench.job.state().items.left_in_old.contains_key(&home));
    assert_eq!(steps(&bench), left + 1);
    bench.does(r#"TakePlug(from:"old:12")"#);
    bench.does(r#"FitPlug(into:"new:12",source:Hand)"#);
    // Seen in the hand it is not left there either.
    let mut bench = Bench::ready();
    bench.does(r#"LeftInOld(at:"old:12",reason:"broken in its hole")"#);
    bench.does(r#"Seen(item:"old:12",at:Hand,reason:"it came out")"#);
    assert!(!bench.job.state().items.left_in_old.contains_key(&home));
}

#[test]
fn a_map_by_hand_says_which_cavity_it_takes_the_place_from() {
    let mut bench = Bench::new("sp-16", "sp-16");
    for act in crate::support::demo_acts("spudrow-twin.acts") {
        if act.starts_with("MapConfirmed") {
            break;
        }
        bench.does(&act);
    }
    let mapped = r#"Mapped(from:"old:5",to:"new:3",document:"bulletin 9")"#;
    let act = Bench::parse(mapped);
    let lost = bench.job.state().mapping.loses_place(&act).map(|at| at.to_string());
    assert_eq!(lost.as_deref(), Some("old:3"));
    let own = Bench::parse(r#"Mapped(from:"old:3",to:"new:3",document:"bulletin 9")"#);
    assert_eq!(bench.job.state().mapping.loses_place(&own), None);
    bench.does(mapped);
    // Without a place of its own, the map is not confirmed.
    let said = bench.impossible("MapConfirmed(source:SameLabels)");
    assert!(said.contains("old:3 has no place") || said.contains("old:3"), "{said}");
}

#[test]
fn what_is_still_to_move_counts_spares_and_bridges() {
    let mut bench = Bench::ready();
    bench.does(r#"RecordCorrected(at:"old:12",holds:Spare(),reason:"no plug: a terminal")"#);
    bench.does(r#"RecordCorrected(at:"old:14",holds:Bridge("diode"),reason:"no plug: a diode")"#);
    bench.does(r#"Decided(at:"old:12",wins:Found,reason:"variant")"#);
    bench.does(r#"Decided(at:"old:14",wins:Found,reason:"variant")"#);
    let account = bench.job.account(bench.now);
    let left = account.flags.iter().find(|flag| flag.code() == Code::NotFinished).unwrap();
    let left = flag_words(left);
    assert!(left.say.contains("2 other parts"), "{}", left.say);
    assert!(
        left.say.contains("12 wires and 2 plugs") || left.say.contains("12 wires, 2 plugs"),
        "{}",
        left.say
    );
}

#[test]
fn a_record_is_flipped_only_while_everything_of_it_is_in_its_hole() {
    let flip = r#"RecordFlipped(how:Turn,reason:"upside down")"#;
    let bench = Bench::ready();
    assert_eq!(bench.asks(flip), Verdict::Allowed);
    for gone in [
        &[OUT_1][..],
        &[r#"TakePlug(from:"old:12")"#],
        &[r#"TakePlug(from:"old:12")"#, r#"ScrapPlug(reason:"torn")"#],
        &[r#"TakePlug(from:"old:12")"#, "LosePlug"],
        &[r#"TakePlug(from:"old:12")"#, "ReturnPlug"],
        &[r#"Seen(item:"old:3",at:Unseen,reason:"gone")"#],
    ] {
        let mut bench = Bench::ready();
        bench.does_all(gone);
        let said = bench.impossible(flip);
        assert!(said.contains("has left its hole"), "{gone:?}: {said}");
    }
    // Back in its hole, it may be.
    let mut bench = Bench::ready();
    bench.does_all(&[OUT_1, "PutBack"]);
    assert_eq!(bench.asks(flip), Verdict::Allowed);
    // No act brings anything back to life.
    let mut bench = Bench::ready();
    bench.does_all(&[r#"TakePlug(from:"old:12")"#, r#"ScrapPlug(reason:"torn")"#]);
    let plugs = bench.job.account(bench.now).plugs;
    assert_eq!((plugs.found, plugs.old, plugs.scrapped), (4, 3, 1));
    assert!(matches!(Bench::parse(flip), Act::RecordFlipped { .. }));
}
