//! What is compared with the mating half in the hand before anything moves.

use crate::record::CavityContent;

use super::{Fit, Question, state::State};

impl State {
    /// The questions to be answered with the mating half in the hand.
    pub fn questions(&self) -> Vec<Question> {
        let bridge = self.records.found.values().any(|h| matches!(h, CavityContent::Bridge(_)))
            || self.housings.all.iter().any(|h| !h.housing().bridges.is_empty());
        let mut questions = vec![Question::Key, Question::Latch, Question::Gender];
        questions.extend(bridge.then_some(Question::Clip));
        questions
    }

    /// The first question not yet answered.
    pub fn next_question(&self) -> Option<Question> {
        self.questions().into_iter().find(|q| !self.housings.compared.contains_key(q))
    }

    /// The question whose answer refuses the replacement, if one does.
    pub fn misfit(&self) -> Option<Question> {
        let refuses = |answer: &Fit| match answer {
            Fit::Fits => false,
            // Not knowing waits with everything else for the machine.
            Fit::DontKnow => !self.housings.waits_for_machine(),
            Fit::Differs => true,
        };
        self.questions()
            .into_iter()
            .find(|question| self.housings.compared.get(question).is_some_and(refuses))
    }
}

impl Question {
    /// What is compared, in words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Key => "key code",
            Self::Latch => "side of the latch",
            Self::Gender => "gender",
            Self::Clip => "shorting clip or bridge",
        }
    }
}
