//! Whether a lead fits a cavity of the new side, by what is known of both.

use crate::{
    catalogue::{Cavity, Sealing, Terminal},
    record::Address,
};

use super::{
    JobHousing, Lead,
    objection::{Misfit, Objection},
    state::State,
};

impl State {
    /// Why a lead does not fit a cavity of the new side, by what is known of both.
    pub(in crate::job) fn misfits(&self, lead: &Lead, to: &Address) -> Vec<Objection> {
        let (Some(housing), Some(cavity)) = (self.housings.housing(&to.housing), self.housings.cavity(to))
        else {
            return Vec::new();
        };
        let misfits = [
            terminal_misfit(lead, housing, cavity, to),
            copper_misfit(lead, housing, cavity, to),
            seal_misfit(lead, housing, cavity, to),
        ];
        misfits.into_iter().flatten().map(Objection::Misfit).collect()
    }
}

fn terminal_misfit(lead: &Lead, housing: &JobHousing, cavity: &Cavity, to: &Address) -> Option<Misfit> {
    let part = lead.terminal()?.clone();
    let family = housing.definition.family();
    let Some(terminal) = family.terminals.iter().find(|terminal| terminal.part == part) else {
        return Some(Misfit::OtherFamily { part, housing: housing.housing().part.clone() });
    };
    let (size, takes) = (terminal.size.clone(), cavity.size.clone());
    (size != takes).then(|| Misfit::TerminalSize { part, size, to: to.clone(), takes })
}

/// All the copper of the lead, against the terminals for the cavity.
fn copper_misfit(lead: &Lead, housing: &JobHousing, cavity: &Cavity, to: &Address) -> Option<Misfit> {
    let area_mm2: f64 = lead.seen.wires.iter().filter_map(|w| w.gauge.known()).map(|g| g.area_mm2()).sum();
    let all_known = lead.seen.wires.iter().all(|w| w.gauge.known().is_some());
    let mut terminals = housing.definition.family().terminals_for(&cavity.size).peekable();
    let takes = |t: &Terminal| area_mm2 >= t.wire_mm2.0 - 1e-9 && area_mm2 <= t.wire_mm2.1 + 1e-9;
    let none_takes = all_known && terminals.peek().is_some() && !terminals.any(takes);
    none_takes.then(|| Misfit::NoTerminal { area_mm2, to: to.clone() })
}

fn seal_misfit(lead: &Lead, housing: &JobHousing, cavity: &Cavity, to: &Address) -> Option<Misfit> {
    let diameter = lead.first_wire()?.outside_diameter.as_ref()?.known()?;
    let fits = match &housing.housing().sealing {
        Sealing::Unsealed => true,
        Sealing::Mat { hole_mm } => (hole_mm.0..=hole_mm.1).contains(&diameter.mm()),
        Sealing::Individual => {
            let family = housing.definition.family();
            family.wire_seals.is_empty() || family.seal_for(&cavity.size, diameter).is_some()
        }
    };
    (!fits).then(|| Misfit::NoSeal { diameter: diameter.clone(), to: to.clone() })
}
