//! Where everything is to go, reckoned when it is first asked for after a change and lent until the next.

use std::{cell::OnceCell, rc::Rc};

use super::{state::State, target::Target};

/// The target of a state that does not change while this is kept.
#[derive(Debug, Clone, Default)]
pub(super) struct Lent(OnceCell<Rc<Target>>);

impl Lent {
    /// The target of the state.
    pub fn target(&self, state: &State) -> &Rc<Target> {
        self.0.get_or_init(|| Rc::new(state.target()))
    }
}

/// It follows from the state, reckoned already or not.
impl PartialEq for Lent {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

/// Who lends the target to whoever needs it; who does not need it does not pay for it.
pub(super) type Lender<'a> = &'a dyn Fn() -> &'a Target;
