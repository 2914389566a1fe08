//! What is asked now and what that covers, worked out once for a key or a frame: to ask is the dearest
//! thing a screen does.

use crate::procedure::{Asked, Covered, JobView, Stop, Takes, Topic, ask, covers, topic_now};

use super::state::{Overlay, Page, Ui};

/// What is asked now.
pub struct Asking {
    /// What the line is about.
    pub topic: Topic,
    /// The question, or what its answers came to.
    pub asked: Asked,
    /// What is covered.
    pub covered: Covered,
    /// The question that covers it: the one on the screen, or the one that comes next.
    pub covering: Topic,
    /// Whether a value is being typed.
    pub is_typing: bool,
}

impl Ui {
    /// What is asked now. The question that comes next covers what it asks although something else was
    /// chosen meanwhile, since it is asked all the same. Who only looks at a job sees no more: the other
    /// bench is asked.
    pub fn asking(&self, view: &JobView<'_>) -> Asking {
        let topic = self.topic(view);
        let asked = ask(view, &topic, &self.answers);
        let is_typing = self.types(view, &asked);
        let (mut covered, mut covering) = (covers(&asked), topic.clone());
        if self.chosen.is_some() {
            let next = topic_now(view);
            let by_next = covers(&ask(view, &next, &[]));
            if by_next.rank() > covered.rank() {
                (covered, covering) = (by_next, next);
            }
        }
        Asking { topic, asked, covered, covering, is_typing }
    }

    /// Whether a value is being typed.
    pub fn is_typing(&self, view: &JobView<'_>) -> bool {
        self.types(view, &self.asked(view))
    }

    fn types(&self, view: &JobView<'_>, asked: &Asked) -> bool {
        self.page == Page::Bench
            && self.overlay == Overlay::None
            && view.read_only.is_none()
            && matches!(asked, Err(Stop::Ask(ask)) if matches!(ask.takes, Takes::Text(_)))
    }
}
