//! Rows of a housing: what they hold now, and whether a count by eye agrees.

use crate::{
    catalogue::Delivered,
    record::{Address, CavityContent, HousingName},
};

use super::{
    JobSide,
    state::{JobHousing, Occupant, State},
};

impl State {
    /// How many wires (leads), plugs and open holes a row holds now.
    pub fn count_row(&self, name: &HousingName, row: usize) -> Option<(usize, usize, usize)> {
        let housing = self.housings.housing(name)?;
        let rows = housing.rows();
        let row = rows.get(row.checked_sub(1)?)?;
        let mut counts = (0, 0, 0);
        for at in row {
            match self.items.occupant(at) {
                Some(Occupant::Lead(_)) => counts.0 += 1,
                Some(Occupant::Plug(_)) => counts.1 += 1,
                Some(Occupant::Other(_)) => counts.1 += usize::from(self.items.plug_at(at).is_some()),
                None if self.is_moulded_shut(at) => {}
                None => counts.2 += 1,
            }
        }
        Some(counts)
    }

    /// Whether a count is what the row holds. A bare hole that is empty by design may be counted as open
    /// or left out: by eye the two are the same.
    pub fn count_agrees(&self, name: &HousingName, row: usize, counted: (usize, usize, usize)) -> bool {
        let Some((wires, plugs, bare)) = self.count_row(name, row) else { return false };
        let by_design = self.empty_by_design(name, row);
        let open_agrees = counted.2 == bare || counted.2 + by_design == bare;
        // Of a doubled terminal one counts the terminal, another its wires.
        let wires_agree = counted.0 == wires || counted.0 == self.conductors_in_row(name, row);
        wires_agree && counted.1 == plugs && open_agrees
    }

    fn conductors_in_row(&self, name: &HousingName, row: usize) -> usize {
        let rows = self.housings.housing(name).map(JobHousing::rows).unwrap_or_default();
        let row = row.checked_sub(1).and_then(|n| rows.get(n));
        let leads = row.into_iter().flatten().filter_map(|at| self.items.lead_at(at));
        leads.map(|lead| self.items.wires_in_terminal(lead)).sum()
    }

    /// How many bare holes of a row nothing belongs in.
    fn empty_by_design(&self, name: &HousingName, row: usize) -> usize {
        let Some(housing) = self.housings.housing(name) else { return 0 };
        let rows = housing.rows();
        let row = row.checked_sub(1).and_then(|n| rows.get(n));
        let target = (housing.side == JobSide::New).then(|| self.target());
        let is_empty = |at: &&Address| match &target {
            Some(target) => *target.expected(at) == super::Expected::Nothing,
            None => self.records.found.get(*at) == Some(&CavityContent::Empty),
        };
        let bare = row
            .into_iter()
            .flatten()
            .filter(|at| self.items.occupant(at).is_none() && !self.is_moulded_shut(at));
        bare.filter(is_empty).count()
    }

    /// The rows of old housings whose record was read in and that nobody counted by eye yet.
    pub fn rows_to_count(&self) -> Vec<(HousingName, usize)> {
        let listed = self.housings.side(JobSide::Old).filter(|old| self.records.listed.contains(&old.name));
        let rows = listed.flat_map(|old| (1..=old.rows().len()).map(|row| (old.name.clone(), row)));
        rows.filter(|key| !self.records.counted.contains(key)).collect()
    }

    fn is_moulded_shut(&self, at: &Address) -> bool {
        let delivered = self.housings.cavity(at).map(|c| c.delivered);
        matches!(delivered, Some(Delivered::Blocked | Delivered::Bridge))
            || matches!(self.records.found.get(at), Some(CavityContent::Blocked))
    }
}
