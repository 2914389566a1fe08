//! The blanking plugs a job needs.

use std::collections::BTreeMap;

use super::{looks::looks_of, need::Need};
use crate::{
    catalogue::SizeName,
    job::{Assessment, Expected, ItemId, JobHousing, JobSide, Place, PlugOrigin, State},
    record::Address,
    supply::{Amount, Article, Line, UsePlace, Wanted},
};

/// Plugs by cavity size: holes that take one, less the sound ones already here.
pub(super) fn plug_lines(state: &State, assessment: &Assessment, new: &JobHousing, needs: &mut Vec<Need>) {
    let mut missing: BTreeMap<SizeName, Vec<Address>> = BTreeMap::new();
    for cavity in &new.housing().cavities {
        let at = new.address(&cavity.label);
        let wants = match assessment.target.expected(&at) {
            Expected::Plug(Some(from)) => !plug_serves(state, from, &at),
            Expected::Plug(None) | Expected::SpareAndPlug => true,
            _ => false,
        };
        // A hole that is filled by a plug that was found or delivered asks for none.
        let filled = state.items.plug_at(&at).is_some_and(|p| p.origin != PlugOrigin::Stock);
        if wants && !filled {
            missing.entry(cavity.size.clone()).or_default().push(at);
        }
    }
    for (size, mut cavities) in missing {
        let lying =
            state.items.plugs.iter().filter(|p| lies_ready(&p.place) && p.size.as_ref() == Some(&size));
        let ready = lying.filter(|p| p.origin == PlugOrigin::Prefitted).count();
        cavities.truncate(cavities.len().saturating_sub(ready));
        if cavities.is_empty() {
            continue;
        }
        let is_in = |at: &&Address| state.items.plug_at(at).is_some();
        let fitted = u32::try_from(cavities.iter().filter(is_in).count()).unwrap_or(u32::MAX);
        let family = new.definition.family();
        let plug = family.plug_for(&size);
        let article = Article::Plug {
            housing: new.name.clone(),
            size: size.clone(),
            colour: plug.map(|plug| plug.colour.clone()),
        };
        let number = plug.map(|plug| plug.part.clone());
        let wanted = Wanted::of(article, number, &family.id, || looks_of(new, Some(&size), None));
        let asked = Line {
            amount: Amount {
                need: u32::try_from(cavities.len()).unwrap_or(u32::MAX),
                spare: state.world.rules.spares.value.plugs,
                pack: plug.and_then(|plug| plug.pack),
            },
            used_for: cavities.into_iter().map(UsePlace::Cavity).collect(),
            ..Line::new(wanted, 0)
        };
        needs.push(Need { fitted, ..Need::of(asked) });
    }
}

/// Whether the plug recorded in an old cavity is still one to be used for a new one: not lost, not
/// left behind, and not borrowed for another hole.
fn plug_serves(state: &State, from: &Address, to: &Address) -> bool {
    let plug = state.items.plugs.iter().find(|p| p.id == ItemId::At(from.clone()));
    let is_here = |place: &Place| match place {
        Place::In(at) => at == to || state.housings.side_of(at) == Some(JobSide::Old),
        place => lies_ready(place),
    };
    plug.is_some_and(|p| is_here(&p.place)) && !state.items.left_in_old.contains_key(from)
}

fn lies_ready(place: &Place) -> bool {
    matches!(place, Place::Hand | Place::Tray)
}
