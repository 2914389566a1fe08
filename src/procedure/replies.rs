//! The replies so far, read one after another. What is not said yet is asked: that question is the early exit
//! of every dialogue, so a dialogue reads like the list of what it asks.

use crate::job::Act;

use super::{Choice, JobView, Kind, Prompt, Stop, Takes, Typed};

/// One answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Reply {
    /// One of the answers that were offered.
    Choice(Choice),
    /// Something typed.
    Text(String),
}

/// The replies that are not read yet.
pub struct Replies<'a> {
    left: std::slice::Iter<'a, Reply>,
}

impl<'a> Replies<'a> {
    /// All of them.
    pub fn of(replies: &'a [Reply]) -> Self {
        Self { left: replies.iter() }
    }

    /// Whether what comes next is asked.
    pub fn is_empty(&self) -> bool {
        self.left.as_slice().is_empty()
    }

    /// What is typed, or the question that asks for it.
    pub fn text(&mut self, prompt: impl Into<Prompt>, kind: Kind) -> Result<Typed<'a>, Stop> {
        match self.left.next() {
            Some(Reply::Text(text)) => Ok(Typed(text.trim())),
            Some(Reply::Choice(_)) => Err(Stop::wrong("Here something is typed.")),
            None => Err(Stop::ask(prompt.into(), Takes::Text(kind))),
        }
    }

    /// What is chosen of what is offered, or the question that offers it.
    pub fn choice(&mut self, prompt: impl Into<Prompt>, offered: &[Choice]) -> Result<Choice, Stop> {
        match self.left.next() {
            Some(Reply::Choice(choice)) if offered.contains(choice) => Ok(*choice),
            Some(Reply::Choice(_)) => Err(not_offered()),
            Some(Reply::Text(_)) => Err(Stop::wrong("Here one of the answers is chosen.")),
            None => Err(Stop::ask(prompt.into(), Takes::Choices(offered.to_vec()))),
        }
    }

    /// What the chosen answer stands for. Each answer is offered with its meaning, so that none can be taken
    /// for another.
    pub fn one_of<T: Clone>(
        &mut self,
        prompt: impl Into<Prompt>,
        offered: &[(Choice, T)],
    ) -> Result<T, Stop> {
        let choices: Vec<Choice> = offered.iter().map(|(choice, _)| *choice).collect();
        let chosen = self.choice(prompt, &choices)?;
        let meant = offered.iter().find(|(choice, _)| *choice == chosen).map(|(_, meant)| meant.clone());
        meant.ok_or_else(not_offered)
    }

    /// Yes or no.
    pub fn yes(&mut self, prompt: impl Into<Prompt>) -> Result<bool, Stop> {
        self.one_of(prompt, &[(Choice::Yes, true), (Choice::No, false)])
    }

    /// What is said before the next question; it is looked for only where that is asked now.
    pub fn before_asking<T>(&self, why: impl FnOnce() -> Option<T>) -> Option<T> {
        if self.is_empty() { why() } else { None }
    }

    /// Stops before the next question where the act that is on its way would be refused.
    pub fn unless_barred(&self, view: &JobView<'_>, act: impl FnOnce() -> Act) -> Result<(), Stop> {
        if self.is_empty() { view.allows(act()) } else { Ok(()) }
    }
}

/// An answer that a dialogue offers and does not take: it is refused, never taken for another.
pub(super) fn not_offered() -> Stop {
    Stop::wrong("That is not an answer here.")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::procedure::{AccidentQuestion, Question};

    const WHICH: AccidentQuestion = AccidentQuestion::LooseLeads;

    #[test]
    fn replies_are_read_in_order_and_what_is_missing_is_asked() {
        let given = [Reply::Text(" YE/BU ".to_owned()), Reply::Choice(Choice::Yes)];
        let mut replies = Replies::of(&given);
        assert_eq!(replies.text(WHICH, Kind::Words).unwrap(), Typed("YE/BU"));
        assert!(!replies.is_empty());
        assert!(replies.yes(WHICH).unwrap());
        assert!(replies.is_empty());
        match replies.text(WHICH, Kind::Words) {
            Err(Stop::Ask(ask)) => {
                assert_eq!(ask.question, Question::from(WHICH));
                assert_eq!(ask.takes, Takes::Text(Kind::Words));
            }
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn an_answer_is_what_it_was_offered_as() {
        let offered = [(Choice::Held, "held"), (Choice::Redo, "redo"), (Choice::Broken, "broken")];
        for (choice, meant) in offered {
            let given = [Reply::Choice(choice)];
            assert_eq!(Replies::of(&given).one_of(WHICH, &offered).unwrap(), meant);
        }
        match Replies::of(&[]).one_of(WHICH, &offered) {
            Err(Stop::Ask(ask)) => {
                assert_eq!(ask.takes, Takes::Choices(vec![Choice::Held, Choice::Redo, Choice::Broken]));
            }
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn an_answer_that_was_not_offered_and_one_of_the_other_sort_are_wrong() {
        let chosen = [Reply::Choice(Choice::Broken)];
        let typed = [Reply::Text("y".to_owned())];
        let wrong = |asked: Result<bool, Stop>| matches!(asked, Err(Stop::Wrong(_)));
        assert!(wrong(Replies::of(&chosen).yes(WHICH)));
        assert!(wrong(Replies::of(&chosen).one_of(WHICH, &[(Choice::Held, true), (Choice::Redo, false)])));
        assert!(wrong(Replies::of(&typed).yes(WHICH)));
        assert!(wrong(Replies::of(&chosen).text(WHICH, Kind::Words).map(|_| true)));
    }
}
