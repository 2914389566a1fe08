//! A list that was read in is what somebody says, until its rows are counted by eye; a count takes what
//! is empty by design either way; photo and cause are asked before the first move.

use repin::job::{Code, Status, Task, Verdict};

use crate::support::{Bench, demo_acts};

const OUT_2: &str = r#"Extract(from:"old:2",colour:"BK",freely:true,seal:On)"#;

/// The class board, its found record read in from a list.
fn listed() -> Bench {
    let mut bench = Bench::new("sp-16", "sp-16");
    for act in demo_acts("spudrow-twin.acts") {
        if act.starts_with("Extract") {
            break;
        }
        let from_a_list = act.starts_with("Recorded(side:Found");
        let act = match from_a_list {
            true => format!(r#"{},from:("list.csv",3))"#, act.strip_suffix(')').unwrap()),
            false => act,
        };
        bench.does(&act);
    }
    bench
}

fn count(row: usize, wires: usize, plugs: usize, open: usize) -> String {
    format!(r#"RowCounted(housing:"old",row:{row},wires:{wires},plugs:{plugs},open:{open})"#)
}

#[test]
fn a_list_is_counted_row_by_row_before_anything_moves() {
    let mut bench = listed();
    bench.flagged(Code::RowCount);
    assert_eq!(bench.against(OUT_2), [Code::RowCount]);
    bench.does(&count(1, 8, 0, 0));
    assert_eq!(bench.against(OUT_2), [Code::RowCount], "row 2 is not counted");
    bench.does(&count(2, 4, 4, 0));
    assert_eq!(bench.asks(OUT_2), Verdict::Allowed);
    bench.not_flagged(Code::RowCount);
}

#[test]
fn a_count_that_does_not_agree_counts_nothing() {
    for wrong in
        [count(1, 7, 0, 1), count(1, 8, 1, 0), count(1, 8, 0, 1), count(1, 7, 1, 0), count(1, 9, 0, 0)]
    {
        let mut bench = listed();
        bench.does(&count(2, 4, 4, 0));
        bench.does(&wrong);
        bench.flagged(Code::RowCount);
        assert!(bench.against(OUT_2).contains(&Code::RowCount), "{wrong}");
    }
    assert!(listed().impossible(&count(3, 0, 0, 0)).contains("no row 3"));
    assert!(listed().impossible(&count(0, 0, 0, 0)).contains("no row 0"));
}

#[test]
fn a_row_counted_before_it_is_read_in_is_counted_again() {
    let mut bench = Bench::new("sp-16", "sp-16");
    let row = |n: usize| format!(r#"Recorded(side:Found,at:"old:{n}",holds:Plugged,from:("list.csv",{n}))"#);
    for n in 1..=4 {
        bench.does(&row(n));
    }
    bench.does(&count(1, 0, 4, 4));
    for n in 5..=16 {
        bench.does(&row(n));
    }
    assert!(bench.job.state().rows_to_count().iter().any(|(_, row)| *row == 1));
}

#[test]
fn of_a_doubled_terminal_the_terminal_or_its_wires_are_counted() {
    let wire = |number: &str| format!(r#"(number:"{number}",colour:"RD",gauge:"0.5")"#);
    let holds = format!("Wired(wires:[{},{}])", wire("S01"), wire("S20"));
    for (wires, agrees) in [(8, true), (9, true), (7, false), (10, false)] {
        let mut bench = listed();
        bench.does(&format!(r#"RecordCorrected(at:"old:1",holds:{holds},reason:"two in it")"#));
        bench.does(&count(1, wires, 0, 0));
        assert_eq!(!bench.job.state().rows_to_count().iter().any(|(_, row)| *row == 1), agrees, "{wires}");
    }
}

#[test]
fn a_correction_after_the_count_asks_for_its_row_again() {
    let mut bench = listed();
    bench.does_all(&[&count(1, 8, 0, 0), &count(2, 4, 4, 0)]);
    bench.does(r#"RecordCorrected(at:"old:14",holds:Empty,reason:"no plug")"#);
    assert!(bench.against(OUT_2).contains(&Code::RowCount));
    let steps = bench.job.state().steps(&bench.job.state().target());
    let open = steps.iter().filter(|step| step.status != Status::Done);
    let rows: Vec<usize> = open
        .filter_map(|step| match &step.what {
            Task::CountRow { housing, row } if housing.to_string() == "old" => Some(*row),
            _ => None,
        })
        .collect();
    assert_eq!(rows, [2]);
}

#[test]
fn what_was_keyed_cavity_by_cavity_needs_no_count() {
    assert_eq!(Bench::ready().asks(OUT_2), Verdict::Allowed);
}

#[test]
fn a_hole_that_is_empty_by_design_may_be_counted_as_open_or_not_at_all() {
    let board = |holds: &str| {
        let mut bench = Bench::new("sp-16", "sp-16");
        for act in demo_acts("spudrow-twin.acts") {
            if act.starts_with("Extract") {
                break;
            }
            bench.does(&if act.contains(r#"at:"old:14""#) { act.replace("Plugged", holds) } else { act });
        }
        bench
    };
    let agrees = |holds: &str, open: usize| {
        let mut bench = board(holds);
        bench.does(&count(2, 4, 3, open));
        !bench.flags().contains(&Code::RowCount)
    };
    assert_eq!([agrees("Empty", 1), agrees("Empty", 0), agrees("Empty", 2)], [true, true, false]);
    // What is open and should not be is counted.
    assert_eq!([agrees("Open", 1), agrees("Open", 0)], [true, false]);
}

#[test]
fn photo_and_cause_are_steps_before_the_first_move() {
    for (left_out, code, step) in
        [("Photo", Code::PhotoMissing, Task::Photo), ("Cause", Code::CauseUnknown, Task::Cause)]
    {
        let mut bench = Bench::new("sp-16", "sp-16");
        for act in demo_acts("spudrow-twin.acts") {
            if act.starts_with("Assurance") {
                break;
            }
            if !act.starts_with(left_out) {
                bench.does(&act);
            }
        }
        let target = bench.job.state().target();
        let steps = bench.job.state().steps(&target);
        let next = steps.iter().find(|step| step.status == Status::Next).unwrap();
        assert_eq!(next.what, step, "{left_out}");
        bench.flagged(code);
        // A named person goes without.
        bench.does(&format!(r#"Accept(flag:"{code}",by:"K. Tanner",reason:"no camera, no trace")"#));
        bench.not_flagged(code);
        let steps = bench.job.state().steps(&target);
        assert!(steps.iter().any(|done| done.what == step && done.status == Status::Done), "{left_out}");
    }
}
