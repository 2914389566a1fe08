//! Which line goes on which, whatever happens between two revisions.

use proptest::prelude::*;

use super::*;
use crate::catalogue::Gender;

fn looks(size: &str) -> Looks {
    Looks { size: Some(size.to_owned()), gender: Some(Gender::Female), ..Looks::default() }
}

fn numbered(number: &str, article: Article) -> Wanted {
    let read_from = ReadFrom::Definition("board-4".parse().unwrap());
    Wanted::Part { number: number.parse().unwrap(), read_from, article }
}

fn described(article: Article) -> Wanted {
    Wanted::Described { article, looks: Some(looks("1.5")) }
}

fn at(place: &str) -> UsePlace {
    place.parse().unwrap()
}

fn line(wanted: Wanted, need: u32, places: &[&str]) -> Line {
    Line { used_for: places.iter().map(|place| at(place)).collect(), ..Line::new(wanted, need) }
}

fn housing(title: &str, revision: Option<&str>, shut_out: &[&str]) -> Wanted {
    let shut = |lead: &&str| ShutOut { lead: (*lead).to_owned(), cavity: "7".parse().unwrap() };
    numbered(
        "B4-H",
        Article::Housing {
            name: "new".parse().unwrap(),
            title: title.to_owned(),
            revision: revision.map(ToOwned::to_owned),
            shut_out: shut_out.iter().map(shut).collect(),
        },
    )
}

fn terminal(used: TerminalUse, plating: Option<&str>) -> Article {
    Article::Terminal { size: Some("1.5".parse().unwrap()), plating: plating.map(ToOwned::to_owned), used }
}

fn seal(used: SealUse, range: Option<(f64, f64)>) -> Article {
    let range = range.map(|(least_mm, most_mm)| SealRange { least_mm, most_mm, colour: "green".to_owned() });
    Article::WireSeal { size: Some("1.5".parse().unwrap()), range, used }
}

fn lead(home: &str, length_mm: f64) -> Wanted {
    described(Article::Lead(LeadWanted {
        home: at(home),
        circuit: format!("the wire of {home}"),
        length_mm: Some(length_mm),
        gauge: Some("0.75 mm²".to_owned()),
        sealed: true,
        spec: None,
    }))
}

/// The lines of the first revision.
fn first(lines: Vec<Line>) -> Vec<Line> {
    revise(&[], lines).lines.into_iter().map(|revised| revised.line).collect()
}

#[test]
fn another_title_or_plating_in_the_definition_is_the_same_line_and_no_change() {
    let before = first(vec![
        line(housing("four-way", Some("B"), &[]), 1, &[]),
        line(numbered("B4-T", terminal(TerminalUse::Wire, Some("tin"))), 1, &["new:1"]),
    ]);
    let now = revise(
        &before,
        vec![
            line(numbered("b4-t", terminal(TerminalUse::Wire, Some("tinned"))), 1, &["new:1"]),
            line(housing("housing, 4 ways", Some("B"), &[]), 1, &[]),
        ],
    );
    let numbers: Vec<u32> = now.lines.iter().map(|revised| revised.line.line).collect();
    assert_eq!(numbers, [2, 1]);
    assert!(now.gone.is_empty() && now.lines.iter().all(|line| !line.changes.contains(&Change::NewLine)));
    let was = Change::Was("part", Fact::Text("B4-T".to_owned()));
    assert_eq!(now.lines[0].changes, [was], "the desk reads the number as it is printed now");
    assert_eq!(now.lines[1].changes, []);
}

#[test]
fn a_question_about_a_housing_is_a_change_of_its_line_and_another_revision_is_another_line() {
    let before = first(vec![line(housing("four-way", Some("B"), &[]), 1, &[])]);
    let asked = revise(&before, vec![line(housing("four-way", Some("B"), &["W7"]), 1, &[])]);
    assert_eq!(asked.lines[0].line.line, 1);
    assert_eq!(asked.lines[0].changes, [Change::FirstSaid("question")]);
    let other = revise(&before, vec![line(housing("four-way", Some("C"), &[]), 1, &[])]);
    assert_eq!((other.lines[0].line.line, other.gone[0].line.line), (2, 1));
}

#[test]
fn a_part_that_gets_its_number_stays_its_line() {
    for (unknown, known, places) in [
        (terminal(TerminalUse::Wire, None), terminal(TerminalUse::Wire, Some("tin")), &["new:7"][..]),
        (seal(SealUse::Itself, None), seal(SealUse::Itself, Some((1.2, 1.9))), &["new:7", "new:9"]),
    ] {
        let before = first(vec![line(described(unknown), 1, &["new:7"])]);
        let now = revise(&before, vec![line(numbered("B4-X", known), 1, places)]);
        assert_eq!((now.lines[0].line.line, now.gone.len()), (1, 0));
        assert!(now.changed && now.lines[0].changes.contains(&Change::FirstSaid("part")));
    }
    let lock = Article::SecondaryLock(Companion {
        housing: "new".parse().unwrap(),
        of: "B4-H".parse().unwrap(),
        name: "wedge".to_owned(),
    });
    let before = first(vec![line(described(lock.clone()), 1, &[])]);
    assert_eq!(revise(&before, vec![line(numbered("B4-L", lock), 1, &[])]).lines[0].line.line, 1);
}

#[test]
fn a_part_for_another_cavity_another_use_or_of_another_number_is_another_line() {
    let unknown = || described(terminal(TerminalUse::Wire, None));
    let before = first(vec![line(unknown(), 1, &["new:7"])]);
    for other in [
        line(numbered("B4-T", terminal(TerminalUse::Wire, None)), 1, &["new:9"]),
        line(numbered("B4-T", terminal(TerminalUse::Samples, None)), 5, &["new:7"]),
        line(numbered("B4-S", seal(SealUse::Itself, None)), 1, &["new:7"]),
        line(
            Wanted::Described { article: terminal(TerminalUse::Wire, None), looks: Some(looks("2.8")) },
            1,
            &[],
        ),
    ] {
        let now = revise(&before, vec![other]);
        assert_eq!((now.lines[0].line.line, now.gone.len()), (2, 1), "{now:?}");
    }
    let before = first(vec![line(numbered("B4-T", terminal(TerminalUse::Wire, None)), 1, &["new:7"])]);
    let now =
        revise(&before, vec![line(numbered("B4-TG", terminal(TerminalUse::Wire, None)), 1, &["new:7"])]);
    assert_eq!(now.lines[0].line.line, 2);
}

#[test]
fn two_repair_leads_that_are_alike_are_two_lines_and_each_keeps_its_own() {
    let before =
        first(vec![line(lead("old:3", 190.0), 1, &["new:3"]), line(lead("old:4", 190.0), 1, &["new:4"])]);
    let now = revise(&before, vec![line(lead("old:4", 220.0), 1, &["new:4"])]);
    assert_eq!((now.lines[0].line.line, now.gone[0].line.line), (2, 1));
    assert!(now.gone[0].line.is_gone() && now.gone[0].line.used_for.is_empty());
}

#[test]
fn a_line_in_the_words_of_an_earlier_version_is_held_by_its_number_wire_and_size() {
    let told = |kind, part: Option<&str>, home: Option<&str>| {
        let lead = home.map(|home| lead(home, 190.0).lead().unwrap().clone());
        let part = part.map(|part| part.parse().unwrap());
        Wanted::Told(Box::new(ToldLine {
            kind,
            part,
            read_from: None,
            words: "as it was said".to_owned(),
            looks: Some(looks("1.5")),
            lead,
        }))
    };
    let before = first(vec![
        line(told(PartKind::Terminal, Some("B4-T"), None), 2, &[]),
        Line { essential: false, ..line(told(PartKind::Terminal, Some("B4-T"), None), 5, &[]) },
        line(told(PartKind::Lead, None, Some("old:3")), 1, &[]),
        line(told(PartKind::Lead, None, Some("old:4")), 1, &[]),
    ]);
    let samples = numbered("B4-T", terminal(TerminalUse::Samples, None));
    let now = revise(
        &before,
        vec![
            line(lead("old:4", 190.0), 1, &[]),
            Line { essential: false, ..line(samples, 5, &[]) },
            line(numbered("B4-T", terminal(TerminalUse::Wire, None)), 2, &[]),
        ],
    );
    let numbers: Vec<u32> = now.lines.iter().map(|revised| revised.line.line).collect();
    assert_eq!((numbers, now.gone[0].line.line), (vec![4, 2, 1], 3));
}

/// What a job may ask for: no two of them alike.
fn things() -> Vec<Wanted> {
    vec![
        housing("four-way", None, &[]),
        housing("four-way", Some("B"), &[]),
        numbered("B4-T", terminal(TerminalUse::Wire, Some("tin"))),
        numbered("B4-T", terminal(TerminalUse::Samples, Some("tin"))),
        numbered("B4-T", terminal(TerminalUse::Unwired, None)),
        numbered("B4-TG", terminal(TerminalUse::Wire, Some("gold"))),
        described(terminal(TerminalUse::Wire, None)),
        numbered("B4-S", seal(SealUse::Itself, Some((1.2, 1.9)))),
        numbered("B4-S", seal(SealUse::NewTerminal, Some((1.2, 1.9)))),
        described(seal(SealUse::Itself, None)),
        lead("old:3", 190.0),
        lead("old:4", 190.0),
        lead("loose/1", 190.0),
    ]
}

proptest! {
    #[test]
    fn line_numbers_stay_unique_and_with_their_part_through_any_revisions(
        asked in proptest::collection::vec(proptest::collection::vec((any::<bool>(), 1_u32..9), 13), 1..8),
    ) {
        let mut before: Vec<Line> = Vec::new();
        let mut known: Vec<(u32, usize)> = Vec::new();
        for needs in asked {
            let wanted = things().into_iter().enumerate().zip(needs).filter(|(_, (is_asked, _))| *is_asked);
            let (which, now): (Vec<usize>, Vec<Line>) =
                wanted.map(|((n, wanted), (_, need))| (n, line(wanted, need, &[]))).unzip();
            let highest = before.iter().map(|line| line.line).max().unwrap_or(0);
            let revision = revise(&before, now.clone());
            prop_assert_eq!(revision.lines.len(), now.len());
            for ((revised, asked), n) in revision.lines.iter().zip(&now).zip(which) {
                let number = revised.line.line;
                prop_assert_eq!(&revised.line, &Line { line: number, ..asked.clone() });
                match known.iter().find(|(_, thing)| *thing == n) {
                    // What was asked for once has its number for ever.
                    Some((before, _)) => prop_assert_eq!(number, *before),
                    None => {
                        prop_assert!(number > highest && !known.iter().any(|(taken, _)| *taken == number));
                        known.push((number, n));
                    }
                }
            }
            let all = revision.lines.into_iter().chain(revision.gone).map(|revised| revised.line);
            let mut after: Vec<Line> = all.collect();
            after.sort_by_key(|line| line.line);
            let mut numbers: Vec<u32> = after.iter().map(|line| line.line).collect();
            numbers.dedup();
            prop_assert_eq!(numbers.len(), after.len(), "a number twice");
            prop_assert!(before.iter().all(|old| numbers.contains(&old.line)), "a line lost");
            // Said again as it is, nothing changed.
            let again = revise(&after, now);
            prop_assert!(!again.changed && again.lines.iter().all(|line| line.changes.is_empty()));
            before = after;
        }
    }
}
