//! Replies that answer nothing: each dialogue says what is wrong with them, and nothing comes of them.

use repin::{
    procedure::{Choice, Covered, JobView, OtherThing, Reply, Stop, Takes, Topic, ask, topic_now},
    record::CavityContent,
};

use crate::{
    desk::Desk,
    support::{Bench, demo_acts},
    walks::{before, by_hand},
};

fn text(text: &str) -> Reply {
    Reply::Text(text.to_owned())
}

fn is_wrong(view: &JobView<'_>, topic: &Topic, given: &[Reply], reply: Reply) -> bool {
    let replies: Vec<Reply> = given.iter().cloned().chain([reply]).collect();
    matches!(ask(view, topic, &replies), Err(Stop::Wrong(_)))
}

/// At every question of a whole job: a key where something is typed, a text where a key answers, and an answer
/// that is not offered.
#[test]
fn a_reply_of_the_other_sort_or_that_is_not_offered_is_wrong_at_every_question_of_a_job() {
    for (file, housing) in [("spudrow-twin.acts", "sp-16"), ("skerry-pod.acts", "sk-10")] {
        let (bench, mut technician) = before(file, housing, housing);
        by_hand(bench, &mut technician, |view, topic, given, asked| {
            let other = match &asked.takes {
                Takes::Text(_) => Reply::Choice(Choice::Yes),
                Takes::Choices(_) => text("yes"),
            };
            assert!(is_wrong(view, topic, given, other), "{:?}", asked.question);
            if matches!(asked.takes, Takes::Choices(_)) {
                assert!(is_wrong(view, topic, given, Reply::Choice(Choice::SaveIt)), "{:?}", asked.question);
            }
        });
    }
}

#[test]
fn what_is_typed_is_read_at_once_and_what_it_cannot_be_is_said() {
    for (thing, typed) in [
        (OtherThing::Jump, "99"),
        (OtherThing::Map, "99"),
        (OtherThing::Seen, "99"),
        (OtherThing::Correct, "99"),
        (OtherThing::Note, "99"),
        (OtherThing::Cause, "99"),
        (OtherThing::Behind, "far"),
        (OtherThing::OrderLead, "99"),
        (OtherThing::ProveTool, "P-12"),
        (OtherThing::WithdrawTool, "P-12, B"),
        (OtherThing::CutFree, "99"),
        (OtherThing::Loose, "3"),
        (OtherThing::Loose, "99=T1"),
        (OtherThing::LeftInOld, "99"),
        (OtherThing::Accept, "99"),
        (OtherThing::Arrived, "1"),
        (OtherThing::Removed, "the red one"),
        (OtherThing::GateAgain, "6"),
        (OtherThing::KeyShould, "99"),
        (OtherThing::Join, "99"),
    ] {
        let mut desk = Desk::at(Bench::ready());
        let topic = Topic::Other(thing);
        desk.with(|_, view| {
            assert!(matches!(ask(view, &topic, &[]), Err(Stop::Ask(_))), "{thing:?} asks nothing");
            assert!(is_wrong(view, &topic, &[], text(typed)), "{thing:?} takes {typed:?}");
        });
    }
}

/// An anchor failed, and whatever is chosen, what the anchors ask stays covered.
#[test]
fn whatever_is_done_about_a_failed_anchor_labels_and_contents_stay_covered() {
    let mut bench = Bench::new("sk-10", "sk-10");
    for act in demo_acts("skerry-pod.acts").iter().take_while(|act| !act.starts_with("RecordFlipped")) {
        bench.does(act);
    }
    assert!(bench.job.state().records.found.values().any(|holds| matches!(holds, CavityContent::Wired(_))));
    let mut desk = Desk::at(bench);
    desk.with(|_, view| {
        let topic = topic_now(view);
        assert!(matches!(topic, Topic::FailedAnchor(_)), "{topic:?}");
        for given in [vec![], vec![Reply::Choice(Choice::Answer)], vec![Reply::Choice(Choice::HoldAnew)]] {
            match ask(view, &topic, &given) {
                Err(Stop::Ask(ask)) => assert_eq!(ask.covers, Covered::LabelsToo, "{:?}", ask.question),
                other => panic!("{other:?}"),
            }
        }
    });
}
