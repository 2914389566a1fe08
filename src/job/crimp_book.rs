//! What the tool book says of a crimp is kept with the crimp.

use crate::reckoning::{PositionKey, Standing};

use super::{Act, State};

impl State {
    /// Writes into the record of a crimp how its position stands. Only the book can say that: what the act
    /// claims does not count. Other acts stay as they are.
    pub fn book_crimp(&self, act: &mut Act, standing: impl FnOnce(&PositionKey) -> Standing) {
        let Act::Repair { lead, part, crimp: Some(crimp), .. } = act else { return };
        let Some(lead) = self.items.lead(lead) else { return };
        let terminal = part.as_ref().or_else(|| lead.terminal());
        let key = terminal.zip(lead.wire_in(crimp)).and_then(|(terminal, wire)| crimp.key(terminal, wire));
        crimp.book = Some(key.map_or(Standing::Never, |key| standing(&key)));
    }
}
