//! The point of view, proved by the fewest questions: what tells every wrong reading from the right
//! one, what fits when an anchor fails, and what is flipped or put right.

use crate::support;

use repin::{
    face::PosePlace,
    form::Catalogue,
    job::{Beside, Code, Flip, JobHousing, JobSide, Misread},
    report::flag_words,
};
use support::{Bench, demo_acts};

fn old(bench: &Bench) -> &JobHousing {
    bench.job.state().housings.side(JobSide::Old).next().unwrap()
}

fn recorded(old: &str, contents: &[&str]) -> Bench {
    let mut bench = Bench::new(old, old);
    let feature = |b: &Bench| b.job.state().housings.all[0].housing().features[0].name.clone();
    let up = feature(&bench);
    for name in ["old", "new"] {
        bench.does(&format!(r#"View(housing:"{name}",face:Wire,up:"{up}")"#));
    }
    let labels: Vec<String> =
        bench.job.state().housings.all[0].housing().cavities.iter().map(|c| c.label.to_string()).collect();
    for (label, content) in labels.iter().zip(contents) {
        let holds = match *content {
            "P" => "Plugged".to_owned(),
            colour => format!(r#"Wired(wires:[(number:"W{label}",colour:"{colour}",gauge:"0.75")])"#),
        };
        bench.does(&format!(r#"Recorded(side:Found,at:"old:{label}",holds:{holds})"#));
    }
    bench.does("RecordFinished(side:Found)");
    bench
}

const POD: [&str; 10] = ["RD", "BK", "YE", "GN", "BU", "RD/WH", "BK/WH", "P", "GN/WH", "P"];

/// The colour recorded for a place when the record is read in this way, worked out from the labels.
fn colour(bench: &Bench, label: &str) -> String {
    let at = format!("old:{label}").parse().unwrap();
    let holds = bench.job.state().records.found.get(&at).unwrap();
    holds.lead().map_or("P".to_owned(), |lead| lead.wires[0].colour.to_string())
}

#[test]
fn the_anchors_asked_are_the_fewest_that_tell_all_readings_of_a_pod_apart() {
    let bench = recorded("sk-10", &POD);
    let asked = bench.job.state().anchors_left(old(&bench));
    assert_eq!(asked.len(), 2, "{asked:?}");
    // Every reading of a 2 x 5 face by hand: the label each puts at row r, place c.
    let label = |r: i32, c: i32| {
        (1..=2).contains(&r).then_some(()).filter(|()| (1..=5).contains(&c)).map(|()| (r - 1) * 5 + c)
    };
    type Reading = Box<dyn Fn(i32, i32) -> Option<i32>>;
    let wrong: Vec<Reading> = vec![
        Box::new(move |r, c| label(r, 6 - c)),
        Box::new(move |r, c| label(3 - r, 6 - c)),
        Box::new(move |r, c| label(3 - r, c)),
        Box::new(move |r, c| label(r, c + 1)),
        Box::new(move |r, c| label(r, c - 1)),
        Box::new(move |r, c| label(r, if r == 1 { c + 1 } else { c })),
        Box::new(move |r, c| label(r, if r == 1 { c - 1 } else { c })),
        Box::new(move |r, c| label(r, if r == 2 { c + 1 } else { c })),
        Box::new(move |r, c| label(r, if r == 2 { c - 1 } else { c })),
    ];
    let shown = |label: Option<i32>| label.map(|n| colour(&bench, &n.to_string()));
    let tells = |r: i32, c: i32, w: &Reading| {
        let right = shown(label(r, c)).unwrap();
        right != "P" && shown(w(r, c)).unwrap_or_default() != right
    };
    let places: Vec<(i32, i32)> = (1..=2).flat_map(|r| (1..=5).map(move |c| (r, c))).collect();
    for &(r, c) in &places {
        assert!(!wrong.iter().all(|w| tells(r, c, w)), "one place, {r}/{c}, would be enough");
    }
    let chosen: Vec<(i32, i32)> = asked
        .iter()
        .map(|place| match place {
            PosePlace::Cell { row, column } => {
                (i32::try_from(*row).unwrap(), i32::try_from(*column).unwrap())
            }
            other => panic!("{other}"),
        })
        .collect();
    assert!(wrong.iter().all(|w| chosen.iter().any(|(r, c)| tells(*r, *c, w))), "{chosen:?}");
}

#[test]
fn moulded_marks_need_one_question_and_one_row_needs_the_key() {
    let bench = recorded("sk-10", &POD);
    let new = bench.job.state().housings.side(JobSide::New).next().unwrap();
    assert_eq!(bench.job.state().anchors_left(new).len(), 1);
    // Every housing built in: whatever is asked proves the view once it is answered rightly.
    for file in Catalogue::built_in().families().unwrap() {
        for housing in &file.family.housings {
            let mut bench = Bench::new(housing.id.as_str(), housing.id.as_str());
            let up = housing.features.first().map_or("top", |f| f.name.as_str());
            bench.does(&format!(r#"View(housing:"new",face:Wire,up:"{up}")"#));
            let state = |b: &Bench| b.job.state().housings.side(JobSide::New).next().unwrap().clone();
            let left = bench.job.state().anchors_left(&state(&bench));
            assert!(left.len() <= 2, "{}: {left:?}", housing.id);
            for place in left {
                let held = state(&bench);
                let mark = match held.seen().label_at(place) {
                    Some(label) => label.to_string(),
                    None => up.to_owned(),
                };
                bench.does(&format!(r#"Anchor(housing:"new",place:"{place}",mark:"{mark}")"#));
            }
            assert!(bench.job.state().view_is_proved(&state(&bench)), "{}", housing.id);
        }
    }
}

#[test]
fn f34_a_row_one_hole_off_is_named_with_its_first_wrong_cavity_and_put_right() {
    // The truth has a plug in 2; the apprentice skipped it, and the row ends one short.
    let mut bench = recorded("sk-10", &["RD", "YE", "GN", "BU", "P", "RD/WH", "BK/WH", "P", "GN/WH", "P"]);
    bench.does(r#"Anchor(housing:"old",place:"row 1, 1 from left",colour:"RD",mark:"1")"#);
    bench.does(r#"Anchor(housing:"old",place:"row 1, 4 from left",colour:"GN",mark:"4")"#);
    // One failed anchor says that the row is off, not from where on: two more looks pin it down.
    let shift_of = |bench: &Bench| match bench.job.state().readings_that_fit(old(bench)).as_slice() {
        [Misread::Shift(shift)] => shift.clone(),
        fits => panic!("{fits:?}"),
    };
    let asked = |bench: &Bench| {
        let fits = bench.job.state().readings_that_fit(old(bench));
        bench.job.state().anchor_between(old(bench), &fits).map(|place| place.to_string())
    };
    let shift = shift_of(&bench);
    assert_eq!((shift.first.as_str(), shift.latest.as_str()), ("2", "4"));
    assert_eq!(asked(&bench).as_deref(), Some("row 1, 3 from left"));
    bench.does(r#"Anchor(housing:"old",place:"row 1, 3 from left",colour:"YE",mark:"3")"#);
    assert_eq!(asked(&bench).as_deref(), Some("row 1, 2 from left"));
    // A plug sits there: an anchor may be answered with no wire at all.
    bench.does(r#"Anchor(housing:"old",place:"row 1, 2 from left",mark:"2")"#);
    assert_eq!(asked(&bench), None);
    let shift = shift_of(&bench);
    assert_eq!(
        (shift.row, shift.first.as_str(), shift.latest.as_str(), shift.written),
        (1, "2", "2", Beside::Left)
    );
    let flag = bench.job.account(bench.now);
    let flag = flag.open_flags().find(|f| f.code() == Code::AnchorFailed).unwrap().clone();
    assert!(flag_words(&flag).instead.contains("one hole off in row 1 from cavity 2 on"), "{flag:?}");
    let (known, unknown) = bench.job.state().row_put_right(old(&bench), &shift).unwrap();
    assert_eq!(unknown.to_string(), "old:2");
    let known: Vec<String> = known.iter().map(|(at, holds)| format!("{at} {}", holds.word())).collect();
    assert_eq!(known, ["old:3 wired", "old:4 wired", "old:5 wired"]);
    for (label, colour) in [("3", "YE"), ("4", "GN"), ("5", "BU")] {
        bench.does(&format!(
            r#"RecordCorrected(at:"old:{label}",holds:Wired(wires:[(colour:"{colour}",gauge:"0.75")]),reason:"row off")"#
        ));
    }
    bench.does(r#"RecordCorrected(at:"old:2",holds:Plugged,reason:"row off")"#);
    bench.not_flagged(Code::AnchorFailed);
}

#[test]
fn where_several_readings_fit_nothing_is_flipped_and_one_more_place_tells() {
    // Rows that read the same from either end but for one place.
    let mut bench = recorded("sk-10", &["RD", "BK", "YE", "BK", "BU", "BU", "WH", "GN", "P", "P"]);
    bench.does(r#"Anchor(housing:"old",place:"row 1, 1 from left",colour:"BU",mark:"1")"#);
    let fits = bench.job.state().readings_that_fit(old(&bench));
    assert_eq!(fits, [Misread::Flip(Flip::Mirror), Misread::Flip(Flip::Both)]);
    let place = bench.job.state().anchor_between(old(&bench), &fits).unwrap();
    let account = bench.job.account(bench.now);
    let flag = account.open_flags().find(|f| f.code() == Code::AnchorFailed).unwrap();
    assert!(flag_words(flag).instead.contains("Several readings fit"), "{flag:?}");
    // The answer of a mirrored record leaves one reading.
    let held = old(&bench);
    let label = held.seen().label_at(place).unwrap().to_string();
    let mirrored = |label: &str| {
        let n: usize = label.parse().unwrap();
        if n <= 5 { 6 - n } else { 16 - n }
    };
    let seen = colour(&bench, &mirrored(&label).to_string());
    bench.does(&format!(r#"Anchor(housing:"old",place:"{place}",colour:"{seen}",mark:"{label}")"#));
    assert_eq!(bench.job.state().readings_that_fit(old(&bench)), [Misread::Flip(Flip::Mirror)]);
}

#[test]
fn a_single_row_mirrored_is_one_reading_not_two() {
    let mut bench = recorded("dl-08", &["RD", "BK", "BU", "P", "BU/WH", "BU/OG", "P", "GN"]);
    bench.does(r#"Anchor(housing:"old",place:"row 1, 1 from left",colour:"GN",mark:"1")"#);
    assert_eq!(bench.job.state().readings_that_fit(old(&bench)), [Misread::Flip(Flip::Mirror)]);
}

#[test]
fn a_flip_takes_the_partners_of_pairs_along() {
    let mut bench = Bench::new("sk-10", "sk-10");
    for act in demo_acts("skerry-pod.acts").iter().take_while(|act| !act.starts_with("RecordFlipped")) {
        // The pair of the bus, keyed where the apprentice saw it: 2 and 7.
        let act = act
            .replace(r#"circuit:"bus high""#, r#"circuit:"bus high",twisted_with:"7""#)
            .replace(r#"circuit:"bus low""#, r#"circuit:"bus low",twisted_with:"2""#);
        bench.does(&act);
    }
    bench.does(r#"RecordFlipped(how:Mirror,reason:"read from the mating face")"#);
    let partner = |label: &str| {
        let at = format!("old:{label}").parse().unwrap();
        bench.job.state().records.found[&at].lead().unwrap().wires[0]
            .twisted_with
            .as_ref()
            .unwrap()
            .to_string()
    };
    assert_eq!((partner("4"), partner("9")), ("9".to_owned(), "4".to_owned()));
}

#[test]
fn a_row_of_wires_one_hole_off_against_the_diagram_is_one_difference() {
    let mut bench = recorded("sk-10", &["RD", "BK", "YE", "GN", "P", "RD/WH", "BK/WH", "P", "GN/WH", "P"]);
    let should = [("1", "P"), ("2", "RD"), ("3", "BK"), ("4", "YE"), ("5", "GN")];
    for (label, content) in should {
        let holds = match content {
            "P" => "Plugged".to_owned(),
            colour => {
                let number = ["RD", "BK", "YE", "GN"].iter().position(|c| *c == colour).unwrap() + 1;
                format!(r#"Wired(wires:[(number:"W{number}",colour:"{colour}",gauge:"0.75")])"#)
            }
        };
        bench.does(&format!(r#"Recorded(side:Should,at:"old:{label}",holds:{holds})"#));
    }
    let said: Vec<String> = bench.job.state().differences().iter().map(|d| d.sentence()).collect();
    assert_eq!(said, ["From 1 to 4 the wires are one hole off: what is in 1 belongs in 2, and so on."]);
    bench.does(r#"Decided(at:"old:1",wins:Should,reason:"moved by one at the last repair")"#);
    bench.does("MapConfirmed(source:SameLabels)");
    let target = bench.job.state().target();
    let to = |label: &str| {
        let at: repin::record::Address = format!("old:{label}").parse().unwrap();
        target.of(&repin::job::ItemId::At(at)).unwrap().to_string()
    };
    assert_eq!([to("1"), to("2"), to("3"), to("4")], ["new:2", "new:3", "new:4", "new:5"]);
}

#[test]
fn a_row_that_is_off_from_its_middle_on_does_not_pass_the_anchors_asked() {
    // The truth: 1 RD, 2 plug, 3 YE, 4 GN, 5 BU; 2 was skipped, and the row ends one short.
    let truth = ["RD", "P", "YE", "GN", "BU", "RD/WH", "BK/WH", "P", "GN/WH", "P"];
    let mut bench = recorded("sk-10", &["RD", "YE", "GN", "BU", "P", "RD/WH", "BK/WH", "P", "GN/WH", "P"]);
    for _ in 0..4 {
        let Some(place) = bench.job.state().anchors_left(old(&bench)).first().copied() else { break };
        let label = old(&bench).seen().label_at(place).unwrap().to_string();
        let seen = truth[label.parse::<usize>().unwrap() - 1];
        bench.does(&format!(r#"Anchor(housing:"old",place:"{place}",colour:"{seen}",mark:"{label}")"#));
        if bench.job.state().failed_anchor(old(&bench)).is_some() {
            let fits = bench.job.state().readings_that_fit(old(&bench));
            assert!(matches!(fits.as_slice(), [Misread::Shift(_)]), "{fits:?}");
            return;
        }
    }
    panic!("the anchors passed a row that is one hole off");
}
